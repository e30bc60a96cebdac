//! The section of the page "House style" with the styles to choose from: what another would make of the piece in front,
//! told before anything is done; and how a style is kept and shared.

use egui::{RichText, Ui, vec2};

use crate::app::action::Action;
use crate::app::pages::style::{StyleWords, Wish};
use crate::app::pages::style_page::note;
use crate::app::pages::style_rows::style_words_ui;
use crate::app::shell::window::Window;
use crate::app::widgets::controls::{Weight, button, button_sized};
use crate::app::widgets::theme::{GRID, MAIN_TARGET, strong, words};

pub(crate) fn styles_ui(ui: &mut Ui, w: &Window, actions: &mut Vec<Action>) {
    let c = w.colours();
    note(ui, w, "Tap a style to see what it would make of the piece in front. Nothing changes before you say so.");
    let own = w.session.style().name.clone();
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = vec2(6.0, 4.0);
        for style in &w.desk.styles {
            let weight = if w.desk.considered.as_ref() == Some(&style.name) { Weight::Chosen } else { Weight::Plain };
            let label = if style.name == own { format!("{} (in use)", style.name) } else { style.name.clone() };
            if button(ui, &c, &label, weight).clicked() {
                actions.push(Action::House(Wish::Consider(style.name.clone())));
            }
        }
    });
    table_ui(ui, w, actions);
    ui.add_space(GRID);
    ui.label(
        RichText::new("The house style with the piece in front, as a style of its own").font(strong(16.0)).color(c.ink),
    );
    ui.horizontal(|ui| {
        style_words_ui(ui, w, StyleWords::NewName, 220.0, actions);
        if button(ui, &c, "Keep as a style", Weight::Plain).clicked() {
            actions.push(Action::House(Wish::KeepAsStyle));
        }
    });
    ui.add_space(GRID);
    ui.horizontal(|ui| {
        let which = w.desk.considered.as_ref().unwrap_or(&own);
        if button(ui, &c, &format!("Save {which} as a file\u{2026}"), Weight::Plain).clicked() {
            actions.push(Action::House(Wish::Share));
        }
        if button(ui, &c, "Open a style from a file\u{2026}", Weight::Plain).clicked() {
            actions.push(Action::House(Wish::OpenFile));
        }
    });
}

/// Each figure of the piece: now, with the oval and the bow of the style, by all of its rules.
fn table_ui(ui: &mut Ui, w: &Window, actions: &mut Vec<Action>) {
    let c = w.colours();
    let Some((name, told)) = w.considered_style() else { return };
    let columns = ["The piece in front", "now", "with its oval and bow", "by all of its rules"];
    let frame = egui::Frame::new().fill(c.card).stroke((1.0, c.line)).corner_radius(12).inner_margin(12);
    frame.show(ui, |ui| {
        ui.spacing_mut().interact_size.y = 22.0;
        egui::Grid::new("other style").num_columns(4).spacing(vec2(36.0, 3.0)).show(ui, |ui| {
            for title in columns {
                ui.label(RichText::new(title).font(words(14.5)).color(c.soft));
            }
            ui.end_row();
            for (what, [now, shaped, all]) in &told.rows {
                ui.label(RichText::new(*what).font(words(16.0)).color(c.ink));
                for (text, changed) in [(now, false), (shaped, shaped != now), (all, all != now)] {
                    let (font, ink) = if changed { (strong(16.0), c.rose) } else { (words(16.0), c.ink) };
                    ui.label(RichText::new(text).font(font).color(ink));
                }
                ui.end_row();
            }
        });
        if name == w.session.style().name {
            return;
        }
        ui.add_space(6.0);
        ui.horizontal(|ui| {
            if button_sized(ui, &c, "Take oval and bow", Weight::Plain, vec2(0.0, MAIN_TARGET)).clicked() {
                actions.push(Action::House(Wish::TakeOval));
            }
            if button(ui, &c, &format!("Make {name} the house style"), Weight::Main).clicked() {
                actions.push(Action::House(Wish::TakeAll));
            }
        });
    });
}
