//! The rail at the left: the places of the program that work, and what belongs to the whole window.

use egui::{Align2, Color32, Rect, Response, Role, Sense, Stroke, StrokeKind, Ui, Vec2, WidgetInfo, vec2};

use super::action::Action;
use super::controls::icon_button;
use super::icons::{Icon, paint_icon};
use super::page::Page;
use super::theme::{GRID, ROUND, strong, title};
use super::window::Window;

pub(super) fn rail_ui(ui: &mut Ui, w: &Window, actions: &mut Vec<Action>) {
    let c = w.colours();
    ui.vertical_centered(|ui| {
        ui.label(egui::RichText::new("Posy\nwright").font(title(19.0)).color(c.ink));
        ui.add_space(GRID);
        if place_ui(ui, w, Icon::Sketch, "Sketch", w.page != Page::House).clicked() {
            let back = if w.page == Page::House { Action::Turn(Page::Sheet) } else { Action::Whole };
            actions.push(back);
        }
        if !w.client_side {
            let house = place_ui(ui, w, Icon::House, "House", w.page == Page::House);
            if house.on_hover_text("House style: the shop\u{2019}s own rules, sizes and prices (Y)").clicked() {
                actions.push(Action::Turn(Page::House));
            }
        }
    });
    ui.with_layout(egui::Layout::bottom_up(egui::Align::Center), |ui| {
        ui.add_space(GRID);
        if icon_button(ui, &c, Icon::Help, "Keys and gestures (F1)", true).clicked() {
            actions.push(Action::ShowHelp);
        }
        let light = format!("Light: {} (F8)", w.light.word());
        if icon_button(ui, &c, Icon::Light, &light, true).clicked() {
            actions.push(Action::Light);
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

/// One of the places that the rail leads to.
fn place_ui(ui: &mut Ui, w: &Window, icon: Icon, name: &str, here: bool) -> Response {
    let c = w.colours();
    let (rect, response) = ui.allocate_exact_size(Vec2::new(72.0, 72.0), Sense::click());
    response.widget_info(|| WidgetInfo::selected(Role::Button, true, here, name));
    let edge = if response.has_focus() { Stroke::new(2.5, c.ink) } else { Stroke::new(1.0, c.line) };
    let (fill, ink) = if here { (c.paper, c.leaf) } else { (c.kraft, c.ink) };
    ui.painter().rect(rect, ROUND, fill, edge, StrokeKind::Inside);
    let upper = Rect::from_min_size(rect.min, vec2(rect.width(), 46.0));
    paint_icon(ui.painter(), icon, upper, 32.0, ink);
    ui.painter().text(rect.center_bottom() - vec2(0.0, 7.0), Align2::CENTER_BOTTOM, name, strong(15.0), c.ink);
    response
}
