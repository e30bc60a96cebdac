//! The rail at the left: the places of the program that work, and what belongs to the whole window.

use egui::{Align2, Color32, Rect, Role, Sense, Stroke, StrokeKind, Ui, Vec2, WidgetInfo, vec2};

use crate::app::action::Action;
use crate::app::pages::page::Page;
use crate::app::shell::client_window;
use crate::app::shell::window::Window;
use crate::app::widgets::controls::icon_button;
use crate::app::widgets::icons::{Icon, paint_icon};
use crate::app::widgets::plate::plate;
use crate::app::widgets::tap_board;
use crate::app::widgets::theme::{GRID, ROUND, strong, title};

/// What the rail leads to.
const PLACES: [(&str, Icon, Page); 4] = [
    ("Sketch", Icon::Sketch, Page::Sheet),
    ("Colour", Icon::Colour, Page::Colour),
    ("Price", Icon::Price, Page::Price),
    ("House", Icon::House, Page::House),
];

pub(crate) fn rail_ui(ui: &mut Ui, w: &Window, actions: &mut Vec<Action>) {
    let c = w.colours();
    ui.vertical_centered(|ui| {
        ui.label(egui::RichText::new("Posy\nwright").font(title(19.0)).color(c.ink));
        ui.add_space(GRID);
        for (name, icon, page) in PLACES {
            let hidden = page == Page::House && w.client_side;
            if !hidden {
                place_ui(ui, w, name, icon, page, actions);
            }
        }
    });
    ui.with_layout(egui::Layout::bottom_up(egui::Align::Center), |ui| {
        ui.add_space(GRID);
        if icon_button(ui, &c, Icon::Help, "Keys and gestures (F1)", true).clicked() {
            actions.push(Action::ShowHelp);
        }
        if client_window::rail_button_ui(ui, w) {
            actions.push(Action::TurnSecond);
        }
        let light = format!("Light: {} (F8)", w.light.word());
        if icon_button(ui, &c, Icon::Light, &light, true).clicked() {
            actions.push(Action::Light);
        }
        if tap_board::rail_button_ui(ui, w) {
            actions.push(Action::Taps(tap_board::Wish::Switch));
        }
        let (kept, ink): (&str, Color32) = match (w.session.is_kept(), w.session.path().is_some()) {
            (true, true) => ("kept", c.ink),
            (true, false) => ("new", c.ink),
            (false, _) => ("not kept", c.rose),
        };
        if !w.client_side {
            ui.label(egui::RichText::new(kept).font(strong(14.0)).color(ink));
        }
    });
}

/// One place of the rail; the sheet, tapped again, is shown whole.
fn place_ui(ui: &mut Ui, w: &Window, name: &str, icon: Icon, page: Page, actions: &mut Vec<Action>) {
    let c = w.colours();
    let here = w.page == page;
    let (rect, response) = ui.allocate_exact_size(Vec2::new(72.0, 72.0), Sense::click());
    response.widget_info(|| WidgetInfo::selected(Role::Button, true, here, name));
    let edge =
        if response.has_focus() || response.hovered() { Stroke::new(2.0, c.ink) } else { Stroke::new(1.0, c.line) };
    if here {
        plate(ui.painter(), rect, c.paper, edge);
    } else if edge.width > 1.0 {
        ui.painter().rect_stroke(rect, ROUND, edge, StrokeKind::Inside);
    }
    let upper = Rect::from_min_size(rect.min, vec2(rect.width(), 46.0));
    paint_icon(ui.painter(), icon, upper, 32.0, if here { c.leaf } else { c.ink });
    ui.painter().text(rect.center_bottom() - vec2(0.0, 7.0), Align2::CENTER_BOTTOM, name, strong(15.0), c.ink);
    if response.clicked() {
        actions.push(if here && page == Page::Sheet { Action::Whole } else { Action::Turn(page) });
    }
}
