//! What is said to the person in front: a line when something was done, a card when something must be seen to.

use egui::{Align2, Rect, Ui, vec2};

use crate::app::action::{Action, LayoutsAction, Notice};
use crate::app::context::Context;
use crate::app::widgets::controls::{Weight, button};
use crate::app::widgets::theme::words;
use crate::set_out::Offer;

/// What could not be done or must be asked, with the thing to do about it, over the lower edge of what is in
/// the middle.
pub(crate) fn notice_ui(ui: &Ui, cx: &Context<'_>, rect: Rect, actions: &mut Vec<Action>) {
    let said = match cx.notice {
        Some(Notice::Card { words, .. }) => words,
        Some(Notice::Crowded { words, .. }) if cx.shop.is_some() => words,
        Some(Notice::Crowded { .. } | Notice::Done(_)) | None => return,
    };
    let c = cx.colours;
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
            ui.horizontal_wrapped(|ui| match cx.notice {
                Some(Notice::Card { offer, .. }) => offer_ui(ui, cx, offer.as_ref(), actions),
                Some(Notice::Crowded { ways, .. }) => ways_ui(ui, cx, ways, actions),
                Some(Notice::Done(_)) | None => {}
            });
        });
    });
}

fn offer_ui(ui: &mut Ui, cx: &Context<'_>, offer: Option<&(String, Box<Action>)>, actions: &mut Vec<Action>) {
    let c = cx.colours;
    if let Some((label, action)) = offer
        && button(ui, &c, label, Weight::Main).clicked()
    {
        actions.push(Action::CloseNotice);
        actions.push((**action).clone());
    }
    if button(ui, &c, if offer.is_some() { "Cancel" } else { "OK" }, Weight::Plain).clicked() {
        actions.push(Action::CloseNotice);
    }
}

/// Longer, smaller or fewer; what is taken is laid out anew.
fn ways_ui(ui: &mut Ui, cx: &Context<'_>, ways: &[Offer], actions: &mut Vec<Action>) {
    let c = cx.colours;
    for way in ways {
        if button(ui, &c, &way.label, Weight::Plain).on_hover_text("And arrange again").clicked() {
            actions.extend([
                Action::CloseNotice,
                Action::edit(way.edit.clone()),
                Action::Layouts(LayoutsAction::Toggle),
            ]);
        }
    }
    if button(ui, &c, "Leave as is", Weight::Plain).clicked() {
        actions.push(Action::CloseNotice);
    }
}
