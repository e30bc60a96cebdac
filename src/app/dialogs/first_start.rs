//! The very first start: a shop to look round in, or an empty one. Asked once; nothing else stands before drawing.

use egui::{RichText, Ui, vec2};

use crate::app::action::{Action, FirstShop};
use crate::app::widgets::controls::{Weight, button_sized};
use crate::app::widgets::theme::{Colours, GRID, MAIN_TARGET, title, words};

pub(crate) fn first_start_ui(ui: &mut Ui, c: &Colours, actions: &mut Vec<Action>) {
    ui.set_max_width(560.0);
    ui.label(RichText::new("Welcome").font(title(30.0)).color(c.ink));
    let says = "Try the sample shop, or start your own? Nothing leaves this computer.";
    ui.label(RichText::new(says).font(words(17.0)).color(c.ink));
    ui.add_space(GRID);
    ui.horizontal(|ui| {
        let sample = button_sized(ui, c, "Try the sample", Weight::Main, vec2(0.0, MAIN_TARGET));
        if ui.memory(|m| m.focused().is_none()) {
            sample.request_focus();
        }
        if sample.clicked() {
            actions.push(Action::Begin(FirstShop::Sample));
        }
        if button_sized(ui, c, "Start my own", Weight::Plain, vec2(0.0, MAIN_TARGET)).clicked() {
            actions.push(Action::Begin(FirstShop::Empty));
        }
    });
}
