//! What is said to the person in front: a line when something was done, a card when something must be seen to.

use egui::{Rect, Stroke, Ui, UiBuilder};

use crate::app::action::{Action, LayoutsAction, Notice};
use crate::app::context::Context;
use crate::app::parts::said;
use crate::app::widgets::controls::{Weight, button};
use crate::app::widgets::theme::words;
use crate::set_out::Offer;

/// What could not be done or must be asked, with the thing to do about it, over the sketch.
pub(crate) fn on_sketch_ui(ui: &Ui, cx: &Context<'_>, sheet: Rect, actions: &mut Vec<Action>) {
    if said::words_said(cx).is_none() {
        return;
    }
    let place = said::place_on_sketch(ui, cx, sheet);
    let area = egui::Area::new(egui::Id::unique("said")).fixed_pos(place.min).order(egui::Order::Middle);
    area.show(ui.ctx(), |ui| card_ui(ui, cx, place, actions));
}

/// The same below a page, in the strip that it has to itself.
pub(crate) fn below_page_ui(ui: &mut Ui, cx: &Context<'_>, actions: &mut Vec<Action>) {
    let place = ui.available_rect_before_wrap();
    card_ui(ui, cx, place, actions);
}

fn card_ui(ui: &mut Ui, cx: &Context<'_>, place: Rect, actions: &mut Vec<Action>) {
    let Some(says) = said::words_said(cx) else { return };
    let c = cx.colours;
    ui.painter().rect(place, 12, c.card, Stroke::new(1.5, c.rose), egui::StrokeKind::Inside);
    ui.allocate_rect(place, egui::Sense::hover());
    ui.scope_builder(UiBuilder::new().id_salt("said").max_rect(said::inside(place)), |ui| {
        ui.label(egui::RichText::new(says).font(words(16.0)).color(c.ink));
        ui.horizontal_wrapped(|ui| match cx.notice {
            Some(Notice::Card { offer, .. }) => offer_ui(ui, cx, offer.as_ref(), actions),
            Some(Notice::Crowded { ways, .. }) => ways_ui(ui, cx, ways, actions),
            Some(Notice::Done(_)) | None => {}
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
    if button(ui, &c, if offer.is_some() { said::DISMISS } else { "OK" }, Weight::Plain).clicked() {
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
    if button(ui, &c, said::LEAVE_AS_IS, Weight::Plain).clicked() {
        actions.push(Action::CloseNotice);
    }
}
