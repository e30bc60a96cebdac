//! What was paid and what went back, and what is still to pay. In the shop view payments are added and taken off.

use egui::{RichText, Ui};

use super::{PriceAction, amount_words_ui, row_ui};
use crate::app::action::Action;
use crate::app::context::{Context, Requests};
use crate::app::parts::field::field_ui;
use crate::app::typing::field::Field;
use crate::app::widgets::controls::{Weight, button, icon_button};
use crate::app::widgets::icons::Icon;
use crate::app::widgets::theme::{TARGET, strong, words};
use crate::app::widgets::words::{Counter, Mine};
use crate::book::PayWay;
use crate::paperwork::{payment_words, short_price};
use crate::units::Cents;

pub(super) fn payments_ui(ui: &mut Ui, cx: &Context<'_>, is_refund: bool, requests: &mut Requests<PriceAction>) {
    let c = cx.colours;
    let quote = &cx.client.quote;
    let money = |price| short_price(price, &cx.client.currency);
    let payments = &cx.client.order.payments;
    for (place, payment) in payments.iter().enumerate() {
        let what = payment_words(payment, cx.written.date);
        ui.spacing_mut().interact_size.y = if cx.shop.is_some() { TARGET } else { super::ROW };
        row_ui(ui, &c, &what, &money(payment.sum), |ui| {
            if cx.shop.is_some() && icon_button(ui, &c, Icon::Remove, &Counter::remove(&what), true).clicked() {
                requests.own.push(PriceAction::RemovePayment(place));
            }
        });
    }
    ui.spacing_mut().interact_size.y = super::ROW;
    if payments.len() > 1 {
        row_ui(ui, &c, Counter::PAID, &money(quote.paid), |_| {});
    }
    match quote.due.0 {
        _ if payments.is_empty() => {}
        0 => _ = ui.label(RichText::new(Counter::ALL_PAID).font(strong(17.0)).color(c.leaf)),
        due if due < 0 => row_ui(ui, &c, Counter::REFUND_DUE, &money(-quote.due), |_| {}),
        _ => row_ui(ui, &c, Counter::DUE, &money(quote.due), |_| {}),
    }
    if cx.shop.is_some() {
        ui.scope(|ui| {
            ui.spacing_mut().interact_size.y = TARGET;
            ui.horizontal(|ui| sum_ui(ui, cx, is_refund, requests));
            amount_words_ui(ui, cx, Field::PaymentSum);
            ui.horizontal(|ui| ways_ui(ui, cx, requests));
        });
    }
}

/// How much: written, or the deposit or what is due by one press; and whether it goes back.
fn sum_ui(ui: &mut Ui, cx: &Context<'_>, is_refund: bool, requests: &mut Requests<PriceAction>) {
    let quote = &cx.client.quote;
    ui.spacing_mut().item_spacing.x = 6.0;
    ui.label(RichText::new(Mine::PAYMENT).font(words(18.0)).color(cx.colours.ink));
    field_ui(ui, cx, Field::PaymentSum, 84.0, &mut requests.shared);
    let deposit = quote.deposit - quote.paid;
    let mut sums: Vec<Cents> = [deposit, quote.due].into_iter().filter(|sum| sum.0 > 0).collect();
    sums.dedup();
    for sum in sums {
        if button(ui, &cx.colours, &short_price(sum, &cx.client.currency), Weight::Plain).clicked() {
            let written = cx.client.currency.decimal.written(&sum.to_string());
            requests.shared.push(Action::Write(Field::PaymentSum, written));
        }
    }
    let weight = if is_refund { Weight::Chosen } else { Weight::Plain };
    if button(ui, &cx.colours, Mine::REFUND, weight).clicked() {
        requests.own.push(PriceAction::Refund);
    }
}

/// Room for the button behind the way that is written, with the margins of the field, points.
const ADD_PAYMENT_WIDE: f32 = 142.0;

/// In which way: a press adds the payment, dated today.
fn ways_ui(ui: &mut Ui, cx: &Context<'_>, requests: &mut Requests<PriceAction>) {
    ui.spacing_mut().item_spacing.x = 6.0;
    let ways = [(Mine::CASH, PayWay::Cash), (Mine::CARD, PayWay::Card), (Mine::TRANSFER, PayWay::Transfer)];
    for (label, way) in ways {
        if button(ui, &cx.colours, label, Weight::Plain).clicked() {
            requests.own.push(PriceAction::Pay(Some(way)));
        }
    }
    let wide = (ui.available_width() - ADD_PAYMENT_WIDE).clamp(60.0, 140.0);
    field_ui(ui, cx, Field::PaymentWay, wide, &mut requests.shared);
    let is_written = cx.typing.in_field(Field::PaymentWay).is_some_and(|words| !words.trim().is_empty());
    let add = ui.add_enabled_ui(is_written, |ui| button(ui, &cx.colours, Mine::ADD_PAYMENT, Weight::Plain)).inner;
    if is_written && add.clicked() {
        requests.own.push(PriceAction::Pay(None));
    }
}
