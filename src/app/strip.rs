//! The strip on top: whose piece it is, on which wrist, undo, keep, and the switch between the two sides of the counter.

use egui::{TextEdit, Ui, vec2};

use super::action::Action;
use super::controls::{Weight, button, button_sized, icon_button};
use super::icons::Icon;
use super::theme::{TARGET, words};
use super::window::Window;
use crate::book::Change;
use crate::piece::{Measured, Side, Worn, Wrist};

/// Words being typed that are not part of the order yet.
#[derive(Clone, Debug, Default)]
pub(super) struct Fields {
    wearer: Option<String>,
    girth: Option<String>,
}

pub(super) fn strip_ui(ui: &mut Ui, w: &mut Window, actions: &mut Vec<Action>) {
    let c = w.colours();
    ui.horizontal_centered(|ui| {
        ui.spacing_mut().item_spacing.x = 6.0;
        wearer_ui(ui, w, actions);
        if w.session.order().piece.worn == Worn::Wrist {
            wrist_ui(ui, w, actions);
        }
        if icon_button(ui, &c, Icon::Undo, "Undo (Ctrl+Z)", w.session.can_undo()).clicked() {
            actions.push(Action::Undo);
        }
        if icon_button(ui, &c, Icon::Redo, "Do again (Ctrl+Y)", w.session.can_redo()).clicked() {
            actions.push(Action::Redo);
        }
        for (label, tip, action) in [
            ("New", "A new order (Ctrl+N)", Action::New),
            ("Open", "Open an order (Ctrl+O)", Action::ShowOrders),
            ("Picture", "Keep the picture (Ctrl+P)", Action::KeepPicture),
        ] {
            if button(ui, &c, label, Weight::Plain).on_hover_text(tip).clicked() {
                actions.push(action);
            }
        }
        if button_sized(ui, &c, "Keep", Weight::Main, vec2(76.0, 50.0)).on_hover_text("Keep (Ctrl+S)").clicked() {
            actions.push(Action::Keep);
        }
        ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| screen_side_ui(ui, w, actions));
    });
}

fn wearer_ui(ui: &mut Ui, w: &mut Window, actions: &mut Vec<Action>) {
    let order = w.session.order();
    let mut text = w.fields.wearer.clone().unwrap_or_else(|| order.wearer.clone());
    let field = TextEdit::singleline(&mut text)
        .hint_text("Who wears it?")
        .font(words(17.0))
        .desired_width(150.0)
        .min_size(vec2(150.0, TARGET))
        .align(egui::Align2::LEFT_CENTER)
        .char_limit(200);
    let response = ui.add(field).accessible_name("Who wears it");
    if response.changed() {
        w.fields.wearer = Some(text.clone());
    }
    if response.lost_focus() {
        w.fields.wearer = None;
        if text != w.session.order().wearer {
            actions.push(Action::Change(Change::Wearer(text)));
        }
    }
}

fn wrist_ui(ui: &mut Ui, w: &mut Window, actions: &mut Vec<Action>) {
    let c = w.colours();
    let wrist = w.session.order().wrist.clone();
    for side in [Side::Left, Side::Right] {
        let (label, weight) = match side {
            Side::Left => ("Left", wrist.side),
            Side::Right => ("Right", wrist.side),
        };
        let weight = if weight == side { Weight::Chosen } else { Weight::Plain };
        if button(ui, &c, label, weight).on_hover_text("Which wrist").clicked() {
            actions.push(Action::Side(side));
        }
    }
    let shown = girth_words(&wrist);
    let mut text = w.fields.girth.clone().unwrap_or_else(|| shown.clone());
    let field = TextEdit::singleline(&mut text)
        .font(words(17.0))
        .desired_width(146.0)
        .min_size(vec2(146.0, TARGET))
        .align(egui::Align2::LEFT_CENTER)
        .char_limit(40);
    let response = ui.add(field).accessible_name("Girth of the wrist").on_hover_text(
        "Girth of the wrist: 155, 15.5 cm or 6 1/4 in. The usual one is 142 to 168 mm (women, ANSUR II).",
    );
    if response.gained_focus() {
        w.fields.girth = Some(wrist.girth.typed().to_owned());
    }
    if response.changed() {
        w.fields.girth = Some(text.clone());
    }
    if response.lost_focus() {
        w.fields.girth = None;
        if text != wrist.girth.typed() && text != shown {
            actions.push(Action::Girth(text));
        }
    }
}

fn girth_words(wrist: &Wrist) -> String {
    match wrist.measured {
        Measured::NotYet => format!("usual: {}", wrist.girth.shown()),
        Measured::Tape | Measured::Told => wrist.girth.shown(),
    }
}

fn screen_side_ui(ui: &mut Ui, w: &Window, actions: &mut Vec<Action>) {
    let c = w.colours();
    let label = if w.client_side { "Client\u{2019}s side" } else { "My side" };
    let weight = if w.client_side { Weight::Main } else { Weight::Chosen };
    let turned = button_sized(ui, &c, label, weight, vec2(132.0, 50.0));
    if turned.on_hover_text("Turn the screen: client\u{2019}s side or my side (F2)").clicked() {
        actions.push(Action::TurnScreen);
    }
}
