//! The lines of the quote, a blank one to write an extra in, the taxes and the total; what is not agreed yet below it.

use egui::{Align, Key, Layout, RichText, Ui};

use super::{PriceAction, ROW, amount_words_ui, row_ui};
use crate::app::action::Action;
use crate::app::context::{Context, Requests};
use crate::app::parts::field::field_ui;
use crate::app::typing::field::Field;
use crate::app::widgets::controls::{Weight, button, icon_button};
use crate::app::widgets::icons::Icon;
use crate::app::widgets::theme::{TARGET, title, words};
use crate::app::widgets::words::Counter;
use crate::book::{Change, Charge};
use crate::paperwork::{Pending, holds_words, price_difference, short_price, tax_words};
use crate::units::Cents;

/// Everything from the pieces to the balance.
pub(super) fn lines_ui(ui: &mut Ui, cx: &Context<'_>, requests: &mut Requests<PriceAction>) {
    let c = cx.colours;
    let quote = &cx.client.quote;
    let money = |price| short_price(price, &cx.client.currency);
    for line in &quote.lines {
        let is_extra = line.charge == Charge::Extra;
        charge_ui(ui, cx, (&line.what, &money(line.price)), is_extra, requests);
    }
    ui.spacing_mut().interact_size.y = ROW;
    extra_ui(ui, cx, &mut requests.shared);
    for tax in &quote.taxes {
        row_ui(ui, &c, &tax_words(&tax.tax, &cx.client.currency), &money(tax.amount), |_| {});
    }
    ui.separator();
    total_ui(ui, cx, quote.total);
    if let Some(pending) = &quote.pending {
        pending_ui(ui, cx, pending, requests);
    }
    row_ui(ui, &c, Counter::DEPOSIT, &money(quote.deposit), |_| {});
    row_ui(ui, &c, Counter::BALANCE, &money(quote.balance), |_| {});
    if let Some(until) = quote.holds_until.filter(|_| cx.client.order.agreed.is_none()) {
        ui.label(RichText::new(holds_words(until, cx.written.date)).font(words(15.0)).color(c.soft));
    }
}

fn total_ui(ui: &mut Ui, cx: &Context<'_>, total: Cents) {
    let c = cx.colours;
    ui.horizontal(|ui| {
        ui.set_min_height(TARGET);
        ui.label(RichText::new(Counter::TOTAL).font(title(26.0)).color(c.ink));
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            let total = short_price(total, &cx.client.currency);
            ui.label(RichText::new(total).font(title(34.0)).color(c.ink));
        });
    });
}

/// What has changed since the yes: not in the total until it is agreed.
fn pending_ui(ui: &mut Ui, cx: &Context<'_>, pending: &Pending, requests: &mut Requests<PriceAction>) {
    let (c, currency) = (cx.colours, &cx.client.currency);
    ui.label(RichText::new(Counter::NOT_AGREED).font(title(18.0)).color(c.rose));
    for (what, by) in &pending.lines {
        let is_extra = cx.client.order.extras.iter().any(|extra| extra.name == *what);
        charge_ui(ui, cx, (what, &price_difference(*by, currency)), is_extra, requests);
    }
    ui.spacing_mut().interact_size.y = ROW;
    row_ui(ui, &c, Counter::NEW_TOTAL, &short_price(pending.total, currency), |_| {});
    ui.separator();
}

/// A line, and for an extra of the order a button that takes it off.
fn charge_ui(
    ui: &mut Ui,
    cx: &Context<'_>,
    (what, price): (&str, &str),
    is_extra: bool,
    requests: &mut Requests<PriceAction>,
) {
    let place = cx.client.order.extras.iter().position(|extra| is_extra && extra.name == what);
    // As high as the button that takes it off, so that words and price stand on one line.
    ui.spacing_mut().interact_size.y = if place.is_some() { TARGET } else { ROW };
    row_ui(ui, &cx.colours, what, price, |ui| {
        if let Some(place) = place
            && icon_button(ui, &cx.colours, Icon::Remove, &Counter::remove(what), true).clicked()
        {
            requests.own.push(PriceAction::RemoveExtra(place));
        }
    });
}

/// A blank line on the quote: an extra, its price and, where there is a tax, a rate of its own; and the rush.
fn extra_ui(ui: &mut Ui, cx: &Context<'_>, actions: &mut Vec<Action>) {
    /// Widths of price and rate, so that what is written pale in them is whole, and of what a field has about its words.
    const PRICE_WIDE: f32 = 64.0;
    const TAX_WIDE: f32 = 60.0;
    const ABOUT: f32 = 14.0;
    ui.add_space(4.0);
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 6.0;
        let rush = cx.client.order.rush;
        let weight = if rush { Weight::Chosen } else { Weight::Plain };
        if button(ui, &cx.colours, Counter::RUSH, weight).clicked() {
            actions.push(Action::change(Change::Rush(!rush)));
        }
        let has_tax = cx.shop.is_some_and(|shop| shop.style.prices.tax.is_some());
        let mut fields = vec![(Field::ExtraPrice, PRICE_WIDE)];
        fields.extend(has_tax.then_some((Field::ExtraTax, TAX_WIDE)));
        let others: f32 = fields.iter().map(|(_, wide)| wide + ABOUT).sum();
        let name_wide = (ui.available_width() - others - 70.0 - ABOUT).max(60.0);
        let mut entered = false;
        for (field, wide) in [(Field::ExtraName, name_wide)].into_iter().chain(fields) {
            let response = field_ui(ui, cx, field, wide, actions);
            entered |= response.lost_focus() && ui.input(|i| i.key_pressed(Key::Enter));
        }
        let is_begun = cx.typing.has_extra();
        let add = ui.add_enabled_ui(is_begun, |ui| button(ui, &cx.colours, Counter::ADD, Weight::Plain)).inner;
        if is_begun && (add.clicked() || entered) {
            actions.push(Action::AddExtra);
        }
    });
    amount_words_ui(ui, cx, Field::ExtraPrice);
    ui.add_space(4.0);
}
