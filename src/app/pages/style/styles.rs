//! The section of the page "House style" with the styles to choose from: what another would make of the piece in front,
//! told before anything is done; and how a style is kept and shared.

use egui::{RichText, Ui, vec2};

use crate::app::pages::style::rows::new_name_ui;
use crate::app::pages::style::sections::note;
use crate::app::pages::style::{StyleAction, StyleUi};
use crate::app::widgets::controls::{Weight, button, button_sized};
use crate::app::widgets::theme::{GRID, MAIN_TARGET, strong, words};

pub(crate) fn styles_ui(ui: &mut Ui, p: &StyleUi<'_>, own: &mut Vec<StyleAction>) {
    let c = p.cx.colours;
    note(ui, p, "Tap a style to see what it does to this piece. Nothing changes yet.");
    let in_use = p.shop.style.name.clone();
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = vec2(6.0, 4.0);
        for style in &p.page.styles {
            let weight = if p.page.considered.as_ref() == Some(&style.name) { Weight::Chosen } else { Weight::Plain };
            let label = if style.name == in_use { format!("{} (in use)", style.name) } else { style.name.clone() };
            if button(ui, &c, &label, weight).clicked() {
                own.push(StyleAction::Consider(style.name.clone()));
            }
        }
    });
    table_ui(ui, p, own);
    ui.add_space(GRID);
    ui.label(RichText::new("Save the rules and this piece as a style").font(strong(16.0)).color(c.ink));
    ui.horizontal(|ui| {
        new_name_ui(ui, p, 220.0, own);
        if button(ui, &c, "Save as style", Weight::Plain).clicked() {
            own.push(StyleAction::KeepAsStyle);
        }
    });
    ui.add_space(GRID);
    ui.horizontal(|ui| {
        if button(ui, &c, "Save to file\u{2026}", Weight::Plain).clicked() {
            own.push(StyleAction::Share);
        }
        if button(ui, &c, "Open from file\u{2026}", Weight::Plain).clicked() {
            own.push(StyleAction::OpenFile);
        }
    });
}

/// Each figure of the piece: now, with the oval and the bow of the style, by all of its rules.
fn table_ui(ui: &mut Ui, p: &StyleUi<'_>, own: &mut Vec<StyleAction>) {
    let c = p.cx.colours;
    let Some((name, told)) = &p.page.told else { return };
    let columns = ["This piece", "now", "with its shape and bow", "by all its rules"];
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
        if *name == p.shop.style.name {
            return;
        }
        ui.add_space(6.0);
        ui.horizontal(|ui| {
            if button_sized(ui, &c, "Use its shape", Weight::Plain, vec2(0.0, MAIN_TARGET)).clicked() {
                own.push(StyleAction::TakeOval);
            }
            if button(ui, &c, &format!("Use {name}"), Weight::Main).clicked() {
                own.push(StyleAction::TakeAll);
            }
        });
    });
}
