//! The very first start: a shop to look round in, or an empty one, and of that one three things that can be skipped. Asked
//! once; nothing else stands before drawing.

use egui::{Align2, RichText, TextEdit, Ui, vec2};

use crate::app::action::{Action, FirstDetails, FirstShop};
use crate::app::widgets::controls::{Weight, button, button_sized};
use crate::app::widgets::theme::{Colours, GRID, MAIN_TARGET, TARGET, strong, title, words};
use crate::units::COMMON_CURRENCIES;

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

pub(crate) fn first_details_ui(ui: &mut Ui, c: &Colours, told: &FirstDetails, actions: &mut Vec<Action>) {
    ui.set_max_width(620.0);
    ui.label(RichText::new("Your shop").font(title(30.0)).color(c.ink));
    ui.label(RichText::new("This stands on your papers. You can change it later.").font(words(17.0)).color(c.ink));
    ui.add_space(GRID);
    let mut next = told.clone();
    let is_first = ui.memory(|m| m.focused().is_none());
    next.name = words_ui(ui, c, "Shop name", &told.name, is_first);
    next.phone = words_ui(ui, c, "Phone", &told.phone, false);
    ui.label(RichText::new("Currency").font(strong(16.0)).color(c.ink));
    ui.horizontal_wrapped(|ui| {
        for common in COMMON_CURRENCIES {
            let is_chosen = told.currency.as_ref().is_some_and(|now| now.sign == common.sign);
            let weight = if is_chosen { Weight::Chosen } else { Weight::Plain };
            if button(ui, c, common.sign, weight).on_hover_text(common.codes).clicked() {
                next.currency = Some(common.currency());
            }
        }
    });
    if next != *told {
        actions.push(Action::TellFirst(next));
    }
    ui.add_space(GRID);
    ui.horizontal(|ui| {
        if button(ui, c, "Start", Weight::Main).clicked() {
            actions.push(Action::TakeFirst);
        }
        if button_sized(ui, c, "Skip", Weight::Plain, vec2(0.0, MAIN_TARGET)).clicked() {
            actions.push(Action::TellFirst(FirstDetails::default()));
            actions.push(Action::TakeFirst);
        }
    });
}

/// A field with its name above it; returns what stands in it now.
fn words_ui(ui: &mut Ui, c: &Colours, name: &str, text: &str, takes_keys: bool) -> String {
    let mut text = text.to_owned();
    ui.label(RichText::new(name).font(strong(16.0)).color(c.ink));
    let field = TextEdit::singleline(&mut text)
        .id(egui::Id::unique(("first", name)))
        .font(words(17.0))
        .desired_width(560.0)
        .min_size(vec2(560.0, TARGET))
        .align(Align2::LEFT_CENTER)
        .char_limit(120);
    let response = ui.add(field).accessible_name(name);
    if takes_keys {
        response.request_focus();
    }
    text
}
