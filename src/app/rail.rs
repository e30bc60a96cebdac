//! The rail at the left: the places of the program that work, and what belongs to the whole window.

use egui::{Align2, Color32, Rect, Response, Role, Sense, Stroke, StrokeKind, Ui, Vec2, WidgetInfo, vec2};

use super::action::Action;
use super::controls::icon_button;
use super::icons::{Icon, paint_icon};
use super::page::Page;
use super::second;
use super::theme::{Colours, GRID, ROUND, strong, title};
use super::window::Window;

pub(super) fn rail_ui(ui: &mut Ui, w: &Window, actions: &mut Vec<Action>) {
    let c = w.colours();
    ui.vertical_centered(|ui| {
        ui.label(egui::RichText::new("Posy\nwright").font(title(19.0)).color(c.ink));
        ui.add_space(GRID);
        let sketching = w.page == Page::Sheet;
        if place_ui(ui, &c, Icon::Sketch, "Sketch", sketching).clicked() {
            actions.push(if sketching { Action::Whole } else { Action::Turn(Page::Sheet) });
        }
        let colour = place_ui(ui, &c, Icon::Colour, "Colour", w.page == Page::Colour);
        if colour.on_hover_text("The colour of the dress, and what goes with it (D)").clicked() {
            actions.push(Action::Turn(Page::Colour));
        }
    });
    ui.with_layout(egui::Layout::bottom_up(egui::Align::Center), |ui| {
        ui.add_space(GRID);
        if icon_button(ui, &c, Icon::Help, "Keys and gestures (F1)", true).clicked() {
            actions.push(Action::ShowHelp);
        }
        if second::rail_button_ui(ui, w) {
            actions.push(Action::TurnSecond);
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

/// A place of the program: a drawing with its name; the one that is open stands on paper.
fn place_ui(ui: &mut Ui, c: &Colours, icon: Icon, name: &str, open: bool) -> Response {
    let (rect, response) = ui.allocate_exact_size(Vec2::new(72.0, 72.0), Sense::click());
    response.widget_info(|| WidgetInfo::selected(Role::Button, true, open, name));
    let fill = if open { c.paper } else { c.kraft };
    let edge = if response.has_focus() { Stroke::new(2.5, c.ink) } else { Stroke::new(1.0, c.line) };
    ui.painter().rect(rect, ROUND, fill, edge, StrokeKind::Inside);
    let upper = Rect::from_min_size(rect.min, vec2(rect.width(), 46.0));
    paint_icon(ui.painter(), icon, upper, 32.0, if open { c.leaf } else { c.ink });
    ui.painter().text(rect.center_bottom() - vec2(0.0, 7.0), Align2::CENTER_BOTTOM, name, strong(15.0), c.ink);
    response
}
