//! The rail at the left: the places of the program that work, and what belongs to the whole window.

use egui::{Align2, Color32, Rect, Role, Sense, Stroke, StrokeKind, Ui, Vec2, WidgetInfo, vec2};

use super::action::Action;
use super::controls::icon_button;
use super::icons::{Icon, paint_icon};
use super::theme::{GRID, ROUND, strong, title};
use super::window::Window;

pub(super) fn rail_ui(ui: &mut Ui, w: &Window, actions: &mut Vec<Action>) {
    let c = w.colours();
    ui.vertical_centered(|ui| {
        ui.label(egui::RichText::new("Posy\nwright").font(title(19.0)).color(c.ink));
        ui.add_space(GRID);
        let (rect, response) = ui.allocate_exact_size(Vec2::new(72.0, 72.0), Sense::click());
        response.widget_info(|| WidgetInfo::selected(Role::Button, true, true, "Sketch"));
        ui.painter().rect(rect, ROUND, c.paper, Stroke::new(1.0, c.line), StrokeKind::Inside);
        let upper = Rect::from_min_size(rect.min, vec2(rect.width(), 46.0));
        paint_icon(ui.painter(), Icon::Sketch, upper, 32.0, c.leaf);
        ui.painter().text(rect.center_bottom() - vec2(0.0, 7.0), Align2::CENTER_BOTTOM, "Sketch", strong(15.0), c.ink);
        if response.clicked() {
            actions.push(Action::Whole);
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
