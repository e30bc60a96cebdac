//! What is said to the person in front: a line when something was done, a card when something must be seen to.

use egui::{Align2, Rect, Ui, vec2};

use crate::app::action::Action;
use crate::app::sheet::layouts::Wish;
use crate::app::shell::window::{Said, Window};
use crate::app::widgets::controls::{Weight, button};
use crate::app::widgets::theme::words;
use crate::set_out::Offer;

/// What could not be done or must be asked, with the thing to do about it, over the lower edge of what is in
/// the middle.
pub(crate) fn said_ui(ui: &Ui, w: &Window, rect: Rect, actions: &mut Vec<Action>) {
    let said = match &w.said {
        Some(Said::Wants { words, .. }) => words,
        Some(Said::Crowded { words, .. }) if !w.client_side => words,
        Some(Said::Crowded { .. } | Said::Done(_)) | None => return,
    };
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
            ui.horizontal_wrapped(|ui| match &w.said {
                Some(Said::Wants { offer, .. }) => offer_ui(ui, w, offer.as_ref(), actions),
                Some(Said::Crowded { ways, .. }) => ways_ui(ui, w, ways, actions),
                Some(Said::Done(_)) | None => {}
            });
        });
    });
}

fn offer_ui(ui: &mut Ui, w: &Window, offer: Option<&(String, Action)>, actions: &mut Vec<Action>) {
    let c = w.colours();
    if let Some((label, action)) = offer
        && button(ui, &c, label, Weight::Main).clicked()
    {
        actions.push(Action::Heard);
        actions.push(action.clone());
    }
    if button(ui, &c, if offer.is_some() { "No" } else { "All right" }, Weight::Plain).clicked() {
        actions.push(Action::Heard);
    }
}

/// Longer, smaller or fewer; what is taken is set out anew.
fn ways_ui(ui: &mut Ui, w: &Window, ways: &[Offer], actions: &mut Vec<Action>) {
    let c = w.colours();
    for way in ways {
        if button(ui, &c, &way.label, Weight::Plain).on_hover_text("And set out again").clicked() {
            actions.extend([Action::Heard, Action::edit(way.edit.clone()), Action::Layouts(Wish::Toggle)]);
        }
    }
    if button(ui, &c, "Leave it so", Weight::Plain).clicked() {
        actions.push(Action::Heard);
    }
}
