//! The open line of the stock page: its price first, then everything else that can be changed about it.

use egui::text::{CCursor, CCursorRange};
use egui::{Align2, Frame, Rect, RichText, ScrollArea, Sense, TextEdit, Ui, vec2};

use super::table::{money, patch_ui, picture_ui};
use super::{StockAction, StockUi};
use crate::app::parts::tap_keys::watch_page_field;
use crate::app::typing::taps::PageKeys;
use crate::app::widgets::controls::{Weight, button, button_sized, icon_button};
use crate::app::widgets::icons::Icon;
use crate::app::widgets::theme::{GRID, TARGET, strong, title, words};
use crate::stock::{Caution, Keeps, Role, SHORT_MONTHS, StockChange, StockField, StockItem};
use crate::units::Cents;

pub(super) fn line_ui(ui: &mut Ui, p: StockUi<'_>, item: &StockItem, own: &mut Vec<StockAction>) {
    let c = p.cx.colours;
    Frame::new().fill(c.card).stroke((1.0, c.line)).corner_radius(12).inner_margin(12).show(ui, |ui| {
        ui.spacing_mut().item_spacing = vec2(6.0, 6.0);
        head_ui(ui, p, item, own);
        ScrollArea::vertical().id_salt(item.id().as_str()).auto_shrink([false, false]).show(ui, |ui| {
            example_ui(ui, p, item, own);
            fields_ui(ui, p, item, own);
            if let StockItem::Botanical(b) = item {
                role_ui(ui, p, item, b.role, own);
                months_ui(ui, p, item, &b.months, own);
                keeps_ui(ui, p, item, b.keeps, own);
            }
            cautions_ui(ui, p, item, own);
            colours_ui(ui, p, item, own);
            reset_ui(ui, p, item, own);
        });
    });
}

/// Picture and name, first in its tray, out of the trays, close.
fn head_ui(ui: &mut Ui, p: StockUi<'_>, item: &StockItem, own: &mut Vec<StockAction>) {
    let c = p.cx.colours;
    ui.horizontal(|ui| {
        let (place, _) = ui.allocate_exact_size(vec2(52.0, 52.0), Sense::hover());
        picture_ui(ui, p, item, place.shrink(4.0));
        ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
            if icon_button(ui, &c, Icon::Remove, "Close this line", true).clicked() {
                own.push(StockAction::Close);
            }
            let shelf = item.shelf();
            for (label, is_on, change, tip) in [
                ("Hide", shelf.is_hidden, StockChange::Hide, "Not in the trays; orders that hold it keep it"),
                ("Star", shelf.is_starred, StockChange::Star, "First in its tray"),
            ] {
                let weight = if is_on { Weight::Chosen } else { Weight::Plain };
                if button(ui, &c, label, weight).on_hover_text(tip).clicked() {
                    own.push(StockAction::Change(item.key(), change));
                }
            }
            ui.with_layout(egui::Layout::left_to_right(egui::Align::Center), |ui| {
                ui.add(egui::Label::new(RichText::new(item.name()).font(title(22.0)).color(c.ink)).truncate());
            });
        });
    });
}

/// That the price is an example, until somebody has gone through it.
fn example_ui(ui: &mut Ui, p: StockUi<'_>, item: &StockItem, own: &mut Vec<StockAction>) {
    if !item.shelf().has_example_price {
        return;
    }
    ui.horizontal(|ui| {
        note(ui, p, "Example price: write your own, or");
        if button(ui, &p.cx.colours, "Price is right", Weight::Plain).clicked() {
            own.push(StockAction::Change(item.key(), StockChange::PriceIsRight));
        }
    });
}

fn note(ui: &mut Ui, p: StockUi<'_>, text: &str) {
    ui.label(RichText::new(text).font(words(14.5)).color(p.cx.colours.soft));
}

/// The fields, three to a row where they hold figures; what cannot be taken stands under them.
fn fields_ui(ui: &mut Ui, p: StockUi<'_>, item: &StockItem, own: &mut Vec<StockAction>) {
    let third = (ui.available_width() - 2.0 * 6.0) / 3.0;
    let fields = StockField::of(item);
    let figures = fields.iter().filter(|f| is_figure(**f)).copied().collect::<Vec<_>>();
    for row in figures.chunks(3) {
        ui.horizontal(|ui| {
            for field in row {
                labelled_ui(ui, p, item, *field, third, own);
            }
        });
    }
    if item.botanical().is_some() {
        note(ui, p, &format!("A head costs {}. Sizes in mm.", money(p, Cents::nearest(item.cents_each()))));
    }
    if let Some(why) = p.page.typed.as_ref().and_then(|t| t.refused.as_ref()) {
        ui.label(RichText::new(why).font(strong(14.5)).color(p.cx.colours.rose));
    }
    for field in fields.iter().filter(|f| !is_figure(**f)) {
        labelled_ui(ui, p, item, *field, ui.available_width(), own);
        if *field == StockField::Supplier {
            suppliers_ui(ui, p, item, own);
        }
    }
}

/// Who else is named in the list, to tap; in lines, and no line is cut.
fn suppliers_ui(ui: &mut Ui, p: StockUi<'_>, item: &StockItem, own: &mut Vec<StockAction>) {
    let others = p.page.suppliers.iter().filter(|name| *name != item.supplier()).take(MOST_SUPPLIERS);
    ui.horizontal_wrapped(|ui| {
        for name in others {
            if button(ui, &p.cx.colours, name, Weight::Plain).on_hover_text("Sold by them").clicked() {
                let change = StockChange::Field(StockField::Supplier, name.clone());
                own.push(StockAction::Change(item.key(), change));
            }
        }
    });
}

/// So many suppliers are offered; our choice, two lines of buttons.
const MOST_SUPPLIERS: usize = 6;

fn is_figure(field: StockField) -> bool {
    use StockField as F;
    match field {
        F::Cost | F::StemsPerBunch | F::PerStem | F::Least | F::Usual | F::Most | F::LeadDays => true,
        F::Name | F::Botanical | F::Supplier | F::ColourName(_) | F::ColourHex(_) => false,
    }
}

/// A field with its name above it.
fn labelled_ui(
    ui: &mut Ui,
    p: StockUi<'_>,
    item: &StockItem,
    field: StockField,
    width: f32,
    own: &mut Vec<StockAction>,
) {
    ui.vertical(|ui| {
        ui.spacing_mut().item_spacing.y = 1.0;
        ui.set_width(width);
        note(ui, p, field.label(item));
        field_ui(ui, p, item, field, (width, field.label(item)), own);
    });
}

/// A field of this width and name.
fn field_ui(
    ui: &mut Ui,
    p: StockUi<'_>,
    item: &StockItem,
    field: StockField,
    (width, name): (f32, &str),
    own: &mut Vec<StockAction>,
) {
    let c = p.cx.colours;
    let typed = p.page.typed.as_ref().filter(|t| t.field == field);
    let is_refused = typed.is_some_and(|t| t.refused.is_some());
    let mut text = typed.map_or_else(|| field.shown(item, p.cx.client.currency.decimal), |t| t.words.clone());
    let edit = TextEdit::singleline(&mut text)
        .id(egui::Id::unique(("stock field", item.id().as_str(), field)))
        .font(words(16.5))
        .text_color(if is_refused { c.rose } else { c.ink })
        .desired_width(width - 12.0)
        .min_size(vec2(width - 12.0, TARGET))
        .align(Align2::LEFT_CENTER)
        .char_limit(80);
    let mut output = edit.show(ui);
    let response = output.response.response.clone().accessible_name(name);
    if response.gained_focus() {
        response.scroll_to_me(None);
        // What is typed next takes the place of what stands there.
        let all = CCursorRange::two(CCursor::new(0), CCursor::new(text.chars().count()));
        output.state.cursor.set_char_range(Some(all));
        output.state.store(ui.ctx(), response.id);
    }
    let happened = watch_page_field(&response, p.cx.typing, (name, keys_for(field)), &text);
    own.extend(happened.written.map(|words| StockAction::Write(field, words)));
    own.extend(happened.is_left.then_some(StockAction::Leave));
    own.extend(happened.keys.into_iter().map(StockAction::Taps));
}

/// The keys on the screen that a field needs.
fn keys_for(field: StockField) -> PageKeys {
    match field {
        StockField::Name | StockField::Supplier | StockField::Botanical => PageKeys::Names,
        StockField::ColourName(_) | StockField::ColourHex(_) => PageKeys::Words,
        StockField::Cost
        | StockField::StemsPerBunch
        | StockField::PerStem
        | StockField::Least
        | StockField::Usual
        | StockField::Most
        | StockField::LeadDays => PageKeys::Figures,
    }
}

fn heading(ui: &mut Ui, p: StockUi<'_>, text: &str) {
    ui.add_space(4.0);
    ui.label(RichText::new(text).font(strong(15.0)).color(p.cx.colours.ink));
}

/// One of several answers.
fn answer(ui: &mut Ui, p: StockUi<'_>, label: &str, is_chosen: bool, least: f32) -> bool {
    let weight = if is_chosen { Weight::Chosen } else { Weight::Plain };
    button_sized(ui, &p.cx.colours, label, weight, vec2(least, TARGET)).clicked()
}

fn role_ui(ui: &mut Ui, p: StockUi<'_>, item: &StockItem, now: Role, own: &mut Vec<StockAction>) {
    heading(ui, p, "Usual part");
    ui.horizontal_wrapped(|ui| {
        for role in Role::ALL {
            if answer(ui, p, role.tray_word(), role == now, 0.0) && role != now {
                own.push(StockAction::Change(item.key(), StockChange::Role(role)));
            }
        }
    });
}

fn months_ui(ui: &mut Ui, p: StockUi<'_>, item: &StockItem, now: &[bool; 12], own: &mut Vec<StockAction>) {
    heading(ui, p, "Months to be had");
    let sixth = (ui.available_width() - 5.0 * 6.0) / 6.0;
    for half in [0..6, 6..12] {
        ui.horizontal(|ui| {
            for n in half {
                if answer(ui, p, SHORT_MONTHS[n], now[n], sixth) {
                    own.push(StockAction::Change(item.key(), StockChange::Month(n)));
                }
            }
        });
    }
}

fn keeps_ui(ui: &mut Ui, p: StockUi<'_>, item: &StockItem, now: Keeps, own: &mut Vec<StockAction>) {
    heading(ui, p, &format!("On the wrist it {}", now.word()));
    ui.horizontal_wrapped(|ui| {
        for (keeps, label) in
            [(Keeps::Poor, "Poor"), (Keeps::Fair, "Fair"), (Keeps::Good, "Good"), (Keeps::Excellent, "Excellent")]
        {
            if answer(ui, p, label, keeps == now, 0.0) && keeps != now {
                own.push(StockAction::Change(item.key(), StockChange::Keeps(keeps)));
            }
        }
    });
}

fn cautions_ui(ui: &mut Ui, p: StockUi<'_>, item: &StockItem, own: &mut Vec<StockAction>) {
    let Some(now) = item.cautions() else { return };
    heading(ui, p, "Cautions");
    ui.horizontal_wrapped(|ui| {
        for caution in Caution::ALL {
            if answer(ui, p, caution.tag(), now.contains(&caution), 0.0) {
                own.push(StockAction::Change(item.key(), StockChange::Caution(caution)));
            }
        }
    });
    if now.is_empty() {
        note(ui, p, "None noted. That no report was read does not mean there is none.");
    }
}

/// A patch, a name and a code for each colour.
fn colours_ui(ui: &mut Ui, p: StockUi<'_>, item: &StockItem, own: &mut Vec<StockAction>) {
    if item.colours().is_empty() {
        return;
    }
    heading(ui, p, "Colours");
    for (n, colour) in item.colours().iter().enumerate() {
        ui.horizontal(|ui| {
            let (place, _) = ui.allocate_exact_size(vec2(TARGET, TARGET), Sense::hover());
            patch_ui(ui, p, colour.rgb, Rect::from_center_size(place.center(), vec2(34.0, 34.0)));
            let code = 110.0;
            let name = ui.available_width() - code - TARGET - 3.0 * GRID;
            let names = [format!("Name of {}", colour.name), format!("Code of {}", colour.name)];
            field_ui(ui, p, item, StockField::ColourName(n), (name, &names[0]), own);
            field_ui(ui, p, item, StockField::ColourHex(n), (code, &names[1]), own);
            let remove = format!("Remove {}", colour.name);
            if icon_button(ui, &p.cx.colours, Icon::Remove, &remove, item.colours().len() > 1).clicked() {
                own.push(StockAction::Change(item.key(), StockChange::RemoveColour(n)));
            }
        });
    }
    if button(ui, &p.cx.colours, "Add colour", Weight::Plain).clicked() {
        own.push(StockAction::Change(item.key(), StockChange::AddColour));
    }
}

/// Back to how the line came with the program; one that did not come with it goes.
fn reset_ui(ui: &mut Ui, p: StockUi<'_>, item: &StockItem, own: &mut Vec<StockAction>) {
    let label = match p.page.came_with_the_program(item) {
        Some(true) => return,
        Some(false) => "Reset this line",
        None => "Remove this flower",
    };
    ui.add_space(GRID);
    if button(ui, &p.cx.colours, label, Weight::Plain).clicked() {
        own.push(StockAction::Reset(item.key()));
    }
}
