//! The view options, folded out over the upper edge of the sheet.

use egui::{RichText, Ui};

use crate::app::action::Action;
use crate::app::context::Context;
use crate::app::parts::colour_vision::choices_ui;
use crate::app::view_options::LENGTHS;
use crate::app::widgets::controls::{Weight, button, swatch};
use crate::app::widgets::theme::strong;
use crate::book::{Beside, Change, Shown};
use crate::piece::Skin;

/// The fold, over the upper edge of the sheet.
pub(crate) fn options_ui(ui: &Ui, sheet: kurbo::Rect, cx: &Context<'_>, actions: &mut Vec<Action>) {
    if !cx.options.open {
        return;
    }
    let c = cx.colours;
    let shown = cx.client.order.shown;
    let show = |shown: Shown| Action::change(Change::Shown(shown));
    let card = egui::Frame::new().fill(c.card).stroke((1.0, c.line)).corner_radius(12).inner_margin(12);
    let corner = kurbo::Point::new(sheet.x0 + 60.0, sheet.y0 + 8.0);
    let area = egui::Area::new(egui::Id::unique("looks")).fixed_pos(crate::app::widgets::points::pos(corner));
    area.order(egui::Order::Middle).show(ui.ctx(), |ui| {
        card.show(ui, |ui| {
            ui.horizontal(|ui| {
                ui.spacing_mut().item_spacing.x = 4.0;
                ui.label(RichText::new("Arm").font(strong(15.0)).color(c.ink));
                for skin in Skin::ALL {
                    if swatch(ui, &c, skin.rgb(), skin.word(), shown.skin == skin).clicked() {
                        actions.push(show(Shown { skin, ..shown }));
                    }
                }
            });
            ui.horizontal(|ui| {
                ui.spacing_mut().item_spacing.x = 4.0;
                ui.label(RichText::new("Scale").font(strong(15.0)).color(c.ink));
                for (label, beside) in [("Ruler", Beside::Ruler), ("Coin", Beside::Coin), ("None", Beside::Nothing)] {
                    let weight = if shown.beside == beside { Weight::Chosen } else { Weight::Plain };
                    if button(ui, &c, label, weight).clicked() {
                        actions.push(show(Shown { beside, ..shown }));
                    }
                }
                let weight = if shown.cloth { Weight::Chosen } else { Weight::Plain };
                if button(ui, &c, "Dress background", weight).clicked() {
                    actions.push(show(Shown { cloth: !shown.cloth, ..shown }));
                }
            });
            ui.horizontal(|ui| {
                ui.spacing_mut().item_spacing.x = 4.0;
                ui.label(RichText::new("Eyesight").font(strong(15.0)).color(c.ink));
                choices_ui(ui, &c, cx.options.eyes, actions);
            });
            ui.horizontal(|ui| {
                ui.spacing_mut().item_spacing.x = 4.0;
                ui.label(RichText::new("Units").font(strong(15.0)).color(c.ink));
                for (label, unit) in LENGTHS {
                    let weight = if cx.options.lengths == unit { Weight::Chosen } else { Weight::Plain };
                    if button(ui, &c, label, weight).clicked() {
                        actions.push(Action::Lengths(unit));
                    }
                }
            });
            if button(ui, &c, "Close", Weight::Plain).clicked() {
                actions.push(Action::ShowOptions);
            }
        });
    });
}
