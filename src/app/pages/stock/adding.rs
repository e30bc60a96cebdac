//! A new flower: its name, what it costs, the form it is drawn in. Everything else is asked on its line afterwards.

use egui::{
    Align2, Frame, Rect, RichText, Role as Accessible, ScrollArea, Sense, Stroke, TextEdit, Ui, WidgetInfo, vec2,
};

use super::{StockAction, StockUi};
use crate::app::parts::tap_keys::watch_page_field;
use crate::app::typing::taps::PageKeys;
use crate::app::view::Good;
use crate::app::widgets::controls::{Weight, button, icon_button};
use crate::app::widgets::icons::Icon;
use crate::app::widgets::plate::plate;
use crate::app::widgets::theme::{TARGET, strong, title, words};
use crate::stock::{Form, Keeps, NewFlower, Role, StockColour, StockId};

/// One form in the chart, points.
const CELL: f32 = 66.0;

pub(super) fn adding_ui(ui: &mut Ui, p: StockUi<'_>, flower: &NewFlower, own: &mut Vec<StockAction>) {
    let c = p.cx.colours;
    Frame::new().fill(c.card).stroke((1.0, c.line)).corner_radius(12).inner_margin(12).show(ui, |ui| {
        ui.spacing_mut().item_spacing = vec2(6.0, 6.0);
        ui.horizontal(|ui| {
            ui.label(RichText::new("New flower").font(title(22.0)).color(c.ink));
            ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
                if icon_button(ui, &c, Icon::Remove, "No new flower", true).clicked() {
                    own.push(StockAction::New(None));
                }
                if button(ui, &c, "Add flower", Weight::Main).clicked() {
                    own.push(StockAction::AddNew);
                }
            });
        });
        fields_ui(ui, p, flower, own);
        ui.horizontal_wrapped(|ui| {
            for role in Role::ALL {
                let weight = if role == flower.role { Weight::Chosen } else { Weight::Plain };
                if button(ui, &c, role.tray_word(), weight).clicked() {
                    own.push(StockAction::New(Some(NewFlower { role, ..flower.clone() })));
                }
            }
        });
        ui.label(RichText::new(format!("Drawn as: {}", form_name(flower.form))).font(strong(15.0)).color(c.ink));
        ScrollArea::vertical().id_salt("forms").auto_shrink([false, false]).show(ui, |ui| {
            ui.spacing_mut().item_spacing = vec2(4.0, 4.0);
            ui.horizontal_wrapped(|ui| {
                for form in Form::ALL {
                    if form_ui(ui, p, form, form == flower.form) {
                        own.push(StockAction::New(Some(NewFlower { form, ..flower.clone() })));
                    }
                }
            });
        });
    });
}

fn fields_ui(ui: &mut Ui, p: StockUi<'_>, flower: &NewFlower, own: &mut Vec<StockAction>) {
    let all = ui.available_width();
    let third = (all - 2.0 * 6.0) / 3.0;
    let (names, figures) = (PageKeys::Names, PageKeys::Figures);
    if let Some(name) = field_ui(ui, p, ("Name of the flower", names), &flower.name, all, own) {
        own.push(StockAction::New(Some(NewFlower { name, ..flower.clone() })));
    }
    ui.horizontal(|ui| {
        if let Some(cost) = field_ui(ui, p, ("Cost a bunch", figures), &flower.cost, third, own) {
            own.push(StockAction::New(Some(NewFlower { cost, ..flower.clone() })));
        }
        if let Some(stems) = field_ui(ui, p, ("Stems a bunch", figures), &flower.stems, third, own) {
            own.push(StockAction::New(Some(NewFlower { stems, ..flower.clone() })));
        }
        if let Some(heads) = field_ui(ui, p, ("Heads a stem", figures), &flower.heads, third, own) {
            own.push(StockAction::New(Some(NewFlower { heads, ..flower.clone() })));
        }
    });
}

/// A field with its name above it; what stands in it now, where somebody has written.
fn field_ui(
    ui: &mut Ui,
    p: StockUi<'_>,
    (name, keys): (&str, PageKeys),
    now: &str,
    width: f32,
    own: &mut Vec<StockAction>,
) -> Option<String> {
    let mut text = now.to_owned();
    let happened = ui.vertical(|ui| {
        ui.spacing_mut().item_spacing.y = 1.0;
        ui.set_width(width);
        ui.label(RichText::new(name).font(words(14.5)).color(p.cx.colours.soft));
        let edit = TextEdit::singleline(&mut text)
            .id(egui::Id::unique(("new flower", name)))
            .font(words(16.5))
            .desired_width(width - 12.0)
            .min_size(vec2(width - 12.0, TARGET))
            .align(Align2::LEFT_CENTER)
            .char_limit(80);
        let response = ui.add(edit).accessible_name(format!("New: {}", name.to_lowercase()));
        // The name is written first.
        if keys == PageKeys::Names && p.page.focuses_search[0] {
            response.request_focus();
        }
        watch_page_field(&response, p.cx.typing, (name, keys), &text)
    });
    own.extend(happened.inner.keys.into_iter().map(StockAction::Taps));
    happened.inner.written
}

/// `SprayRose` as `Spray rose`.
fn form_name(form: Form) -> String {
    let mut name = String::new();
    for letter in format!("{form:?}").chars() {
        if letter.is_uppercase() && !name.is_empty() {
            name.push(' ');
            name.extend(letter.to_lowercase());
        } else {
            name.push(letter);
        }
    }
    name
}

/// One form to tap; whether it was.
fn form_ui(ui: &mut Ui, p: StockUi<'_>, form: Form, is_chosen: bool) -> bool {
    let c = p.cx.colours;
    let (rect, response) = ui.allocate_exact_size(vec2(CELL, CELL), Sense::click());
    let name = form_name(form);
    response.widget_info(|| WidgetInfo::selected(Accessible::Button, true, is_chosen, format!("Form: {name}")));
    if ui.is_rect_visible(rect) {
        let edge = if is_chosen || response.has_focus() { Stroke::new(2.5, c.rose) } else { Stroke::new(1.0, c.line) };
        plate(ui.painter(), rect, c.paper, edge);
        let good = shown_as(p, form);
        let place = Rect::from_center_size(rect.center(), vec2(42.0, 42.0));
        p.cx.images.heads.borrow_mut().paint(ui.painter(), place, &good, &good.usual_colour());
    }
    if response.gained_focus() {
        response.scroll_to_me(None);
    }
    response.on_hover_text(name).clicked()
}

/// The first flower of a form, or a white one where the list has none.
fn shown_as(p: StockUi<'_>, form: Form) -> Good {
    let like = p.page.items.iter().filter_map(|item| item.botanical()).find(|b| b.form == form);
    like.map_or_else(
        || Good {
            id: StockId::new(&format!("form {form:?}")),
            name: String::new(),
            botanical: String::new(),
            role: Role::Bloom,
            form,
            usual_mm: 30.0,
            breadth: if form.is_long() { 0.4 } else { 1.0 },
            colours: vec![StockColour { name: "white".to_owned(), rgb: crate::colour::Rgb::hex(0x00f7_f4ec) }],
            keeps: Keeps::Fair,
            cautions: Vec::new(),
            in_tray: false,
            is_starred: false,
        },
        Good::of,
    )
}
