//! What is said to the person in front: a line when something was done, a card when something must be seen to.

use egui::{Align2, Rect, Ui, vec2};

use super::action::Action;
use super::controls::{Weight, button};
use super::theme::words;
use super::window::{Said, Window};

/// What could not be done or must be asked, with the thing to do about it, over the lower edge of what is in
/// the middle.
pub(super) fn said_ui(ui: &Ui, w: &Window, rect: Rect, actions: &mut Vec<Action>) {
    let Some(Said::Wants { words: said, offer }) = &w.said else { return };
    let c = w.colours();
    let width = (rect.width() - 120.0).clamp(260.0, 620.0);
    let card = egui::Frame::new().fill(c.card).stroke((1.5, c.rose)).corner_radius(12).inner_margin(12);
    let area = egui::Area::new(egui::Id::unique("said"))
        .pivot(Align2::CENTER_BOTTOM)
        .fixed_pos(rect.center_bottom() - vec2(0.0, 60.0))
        .order(egui::Order::Middle);
    area.show(ui.ctx(), |ui| {
        card.show(ui, |ui| {
            ui.set_max_width(width);
            ui.label(egui::RichText::new(said).font(words(16.0)).color(c.ink));
            ui.horizontal(|ui| {
                if let Some((label, action)) = offer
                    && button(ui, &c, label, Weight::Main).clicked()
                {
                    actions.push(Action::Heard);
                    actions.push(action.clone());
                }
                let label = if offer.is_some() { "No" } else { "All right" };
                if button(ui, &c, label, Weight::Plain).clicked() {
                    actions.push(Action::Heard);
                }
            });
        });
    });
}
