//! Sizes side by side.

use egui::Ui;

use super::action::Action;
use super::page::head_ui;
use super::window::Window;

pub(super) fn sizes_ui(ui: &mut Ui, w: &mut Window, actions: &mut Vec<Action>) {
    let c = w.colours();
    head_ui(ui, w, "Side by side", "", actions);
}
