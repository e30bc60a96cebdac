//! The agreement: the button that agrees; then what was agreed, and what has changed since.

use egui::{Layout, RichText, Ui, vec2};

use super::card;
use crate::app::action::Action;
use crate::app::context::Context;
use crate::app::parts::board::{Framed, common_view, picture_ui};
use crate::app::view::ClientAgreement;
use crate::app::widgets::controls::{Weight, button, button_sized, icon_button};
use crate::app::widgets::icons::Icon;
use crate::app::widgets::theme::{GRID, MAIN_TARGET, TARGET, strong, title, words};
use crate::app::widgets::words::{Counter, Mine};
use crate::book::Change;
use crate::paperwork::{holds_words, short_price};

/// The button that agrees, or what was agreed and what has changed since.
pub(super) fn agreement_ui(ui: &mut Ui, cx: &Context<'_>, actions: &mut Vec<Action>) {
    let c = cx.colours;
    let all_well = cx.client.stopped.is_empty();
    ui.add_space(GRID);
    card(&c).show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.spacing_mut().item_spacing.y = 4.0;
        match &cx.client.order.agreed {
            None => {
                ui.label(RichText::new(Counter::WHAT_YES_DOES).font(words(16.0)).color(c.ink));
                agree_button_ui(ui, cx, if all_well { Counter::AGREE } else { Counter::AGREE_ANYWAY }, actions);
            }
            Some(agreed) => agreed_ui(ui, cx, agreed, actions),
        }
    });
}

fn agree_button_ui(ui: &mut Ui, cx: &Context<'_>, label: &str, actions: &mut Vec<Action>) {
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 6.0;
        // What is stopped is seen to first: the button does not call then.
        let weight = if cx.client.stopped.is_empty() { Weight::Main } else { Weight::Plain };
        if button_sized(ui, &cx.colours, label, weight, vec2(150.0, MAIN_TARGET)).clicked() {
            actions.push(Action::Agree);
        }
        let day = cx.today.map(|day| day.written(cx.written.date)).unwrap_or_default();
        if cx.shop.is_some() && icon_button(ui, &cx.colours, Icon::Less, Mine::EARLIER, true).clicked() {
            actions.push(Action::ShiftDay(-1));
        }
        ui.label(RichText::new(day).font(words(17.0)).color(cx.colours.ink));
        if cx.shop.is_some() && icon_button(ui, &cx.colours, Icon::More, Mine::LATER, true).clicked() {
            actions.push(Action::ShiftDay(1));
        }
    });
}

/// What has changed since comes first, with the yes to it; then the agreement as it was frozen.
fn agreed_ui(ui: &mut Ui, cx: &Context<'_>, agreed: &ClientAgreement, actions: &mut Vec<Action>) {
    let c = cx.colours;
    let price = short_price(agreed.price, &cx.client.currency);
    let on = Counter::agreed_on(&agreed.on.written(cx.written.date), &price);
    ui.label(RichText::new(on).font(title(24.0)).color(c.ink));
    let changed = &cx.client.changes;
    let is_same = changed.is_empty() && cx.client.quote.pending.is_none();
    let (state, ink) = if is_same { (Counter::AS_AGREED, c.leaf) } else { (Counter::CHANGED, c.rose) };
    ui.horizontal(|ui| {
        ui.spacing_mut().interact_size.y = TARGET;
        ui.label(RichText::new(state).font(strong(17.0)).color(ink));
        if cx.shop.is_some() {
            ui.with_layout(Layout::right_to_left(egui::Align::Center), |ui| {
                if button(ui, &c, Mine::TAKE_BACK, Weight::Plain).clicked() {
                    actions.push(Action::change(Change::Agreed(None)));
                }
            });
        }
    });
    for line in changed {
        ui.label(RichText::new(line).font(words(16.0)).color(c.ink));
    }
    if !is_same {
        agree_button_ui(ui, cx, Counter::AGREE_AGAIN, actions);
    }
    ui.separator();
    let until = agreed.holds_until.map(|until| holds_words(until, cx.written.date));
    for line in agreed.lines.iter().chain(&until) {
        ui.label(RichText::new(line).font(words(15.0)).color(c.ink));
    }
    if agreed.piece != cx.client.order.piece {
        as_agreed_ui(ui, cx, agreed);
    }
}

/// The picture that both agreed to, drawn again from the agreement.
fn as_agreed_ui(ui: &mut Ui, cx: &Context<'_>, agreed: &ClientAgreement) {
    ui.label(RichText::new(Counter::PICTURE_AS_AGREED).font(words(15.0)).color(cx.colours.soft));
    let (rect, _) = ui.allocate_exact_size(vec2(200.0, 190.0), egui::Sense::hover());
    let piece = &agreed.piece;
    let view = common_view([piece].into_iter(), cx.client, rect.size());
    picture_ui(ui, cx, &Framed { name: "as agreed", piece, rect, view });
}
