//! A quote for people and for machines. Money in JSON is whole cents.

use std::fmt::Write as _;

use serde_json::{Value, json};

use super::json::number;
use crate::book::{DateStyle, Order, TaxLine, When};
use crate::paperwork::{
    Firm, FirmBy, Pending, Quote, below_words_my_side, full_price, holds_words, payment_words, pending_words,
    share_words, tax_words, today_words_my_side,
};
use crate::piece::TaxHow;
use crate::units::{Cents, minutes_text};

/// The quote for the designer: what the client pays, and below it what only the designer needs.
pub fn quote_text(order: &Order, quote: &Quote) -> String {
    let money = |price: Cents| full_price(price, &quote.currency);
    let mut text = format!("{}\n\n", order.title_line());
    let mut row = |what: &str, price: Cents| {
        // Writing to a String cannot fail.
        _ = writeln!(text, "{what:<28} {:>10}", money(price));
    };
    for line in &quote.lines {
        row(&line.what, line.price);
    }
    for tax in &quote.taxes {
        row("Before tax", tax.net);
        row(&tax_words(&tax.tax, &quote.currency), tax.amount);
    }
    row("Total", quote.total);
    row("Deposit", quote.deposit);
    row("Balance", quote.balance);
    for payment in &order.terms.payments {
        row(&payment_words(payment, DateStyle::default()), payment.sum);
    }
    if !order.terms.payments.is_empty() {
        row("Paid", quote.paid);
        row("Balance due", quote.due);
    }
    for line in quote.pending.iter().map(|pending| pending_words(pending, &quote.currency)) {
        // Writing to a String cannot fail.
        _ = writeln!(text, "{line}");
    }
    if let Some(until) = quote.holds_until {
        // Writing to a String cannot fail.
        _ = writeln!(text, "{}", holds_words(until, DateStyle::default()));
    }
    let shares = share_words(&quote.share_of_three).map(|(name, percent)| format!("{name} {percent} %"));
    let made_of = shares.join(", ");
    let calculated =
        format!("{} before rounding, {} at the bench", money(quote.calculated), minutes_text(quote.minutes));
    let today = quote.firm.as_ref().and_then(|firm| today_words_my_side(firm, &quote.currency));
    let mine: String = today.into_iter().chain(below_words_my_side(quote)).map(|words| words + "\n").collect();
    format!("{text}\n{made_of}\nShop only: {calculated}\n{mine}")
}

/// A day as it was typed, and what that tells; `null` where nothing is known.
fn when_json(when: &When) -> Value {
    if when.is_blank() {
        return Value::Null;
    }
    json!({
        "words": when.words(),
        "day": when.day().map(|day| day.to_string()),
        "hour": when.hour().map(|hour| hour.to_string()),
    })
}

/// The quote for machines.
pub fn quote_json(order: &Order, quote: &Quote) -> Value {
    let [flowers, trims, making] = share_words(&quote.share_of_three).map(|(_, percent)| percent);
    json!({
        "number": order.number,
        "wearer": order.wearer,
        "size": order.size,
        "event": { "name": order.dance, "place": order.place, "when": when_json(&order.event_day) },
        "pickup": { "when": when_json(&order.wanted), "by": order.collected_by },
        "last_change": when_json(&order.last_change),
        "people": {
            "payer": order.people.payer, "partner": order.people.partner, "phone": order.people.phone,
        },
        "currency": quote.currency.sign,
        "lines": quote.lines.iter().map(|l| json!({ "what": l.what, "cents": l.price.0 })).collect::<Vec<_>>(),
        "minutes": number(quote.minutes),
        "worked_cents": quote.calculated.0,
        "house_cents": quote.house.0,
        "asked": quote.asked.as_ref().map(|a| json!({ "cents": a.price.0, "reason": a.reason })),
        "below_cents": quote.below.0,
        "subtotal_cents": quote.subtotal.0,
        "tax": quote.taxes.first().map(tax_json),
        "taxes": quote.taxes.iter().map(tax_json).collect::<Vec<_>>(),
        "total_cents": quote.total.0,
        "deposit_cents": quote.deposit.0,
        "balance_cents": quote.balance.0,
        "paid_cents": quote.paid.0,
        "due_cents": quote.due.0,
        "payments": order.terms.payments.iter().map(|p| json!({
            "on": p.on.map(|day| day.to_string()), "way": p.way.words(), "cents": p.sum.0,
        })).collect::<Vec<_>>(),
        "holds_until": quote.holds_until.map(|day| day.to_string()),
        "agreed": order.agreed.as_ref().map(|a| json!({
            "on": a.on.to_string(), "cents": a.price.0, "deposit_cents": a.deposit.map(|d| d.0),
        })),
        "changes": quote.pending.as_ref().map(pending_json),
        "share_percent": { "flowers": flowers, "trims": trims, "making": making },
        "my_side": {
            "cost_cents": quote.my_side.cost.0,
            "loses_cents": quote.my_side.loses.0,
            "firm": quote.firm.as_ref().map(firm_json),
        },
    })
}

fn tax_json(line: &TaxLine) -> Value {
    json!({
        "name": line.tax.name,
        "percent": number(line.tax.percent),
        "included": line.tax.how == TaxHow::Included,
        "net_cents": line.net.0,
        "cents": line.amount.0,
    })
}

/// What is not agreed yet.
fn pending_json(pending: &Pending) -> Value {
    let lines = pending.lines.iter().map(|(what, by)| json!({ "what": what, "cents": by.0 }));
    json!({ "lines": lines.collect::<Vec<_>>(), "cents": pending.by.0, "total_cents": pending.total.0 })
}

/// Why the amount stands, and what it would be today.
fn firm_json(firm: &Firm) -> Value {
    let (by, on) = match firm.by {
        FirmBy::Quote(on) => ("quote", on),
        FirmBy::Agreement(on) => ("agreement", Some(on)),
    };
    json!({
        "by": by, "on": on.map(|day| day.to_string()), "cents": firm.total.0, "today_cents": firm.today.0,
    })
}
