//! Everything that is said about prices, side by side. What is for the designer alone says so in its name.

use super::firm::{Firm, FirmBy, Pending};
use super::offers::{BudgetAnswer, Difference};
use super::price::ShareOfThree;
use super::quote::Quote;
use crate::book::{DateStyle, Day, Payment};
use crate::piece::{Tax, TaxHow};
use crate::units::{Cents, Currency, nearest_whole};

/// `$27`, `$17.50`: cents are left out where there are none.
pub fn short_price(price: Cents, currency: &Currency) -> String {
    let amount = price.0.saturating_abs();
    if amount % 100 == 0 {
        format!("{}{}", sign(price.0), currency.with(&(amount / 100).to_string()))
    } else {
        full_price(price, currency)
    }
}

/// `$27.00`: always with two digits, so that amounts stand under each other.
pub fn full_price(price: Cents, currency: &Currency) -> String {
    format!("{}{}", sign(price.0), currency.with(&Cents(price.0.saturating_abs()).to_string()))
}

/// A true minus sign before what is below nothing.
fn sign(n: i64) -> &'static str {
    if n < 0 { MINUS } else { "" }
}

/// The minus sign of print, as wide as a plus.
const MINUS: &str = "\u{2212}";

/// `+2 heads, +1 sprig, +2 leaves, +4 min`; what does not differ is left out. Empty when nothing differs.
pub fn difference_words(difference: &Difference) -> String {
    let counted = |n: i64, one: &str, many: &str| {
        let word = if n.abs() == 1 { one } else { many };
        (n != 0).then(|| format!("{n:+} {word}").replace('-', MINUS))
    };
    let minutes = nearest_whole(difference.minutes * 10.0) as f64 / 10.0;
    let minutes = (minutes != 0.0).then(|| format!("{minutes:+} min").replace('-', MINUS));
    let parts = [
        counted(difference.heads, "head", "heads"),
        counted(difference.sprigs, "sprig", "sprigs"),
        counted(difference.leaves, "leaf", "leaves"),
        counted(difference.trims, "trim", "trims"),
        minutes,
    ];
    parts.into_iter().flatten().collect::<Vec<_>>().join(", ")
}

/// `+$7`; `same price`.
pub fn price_difference(price: Cents, currency: &Currency) -> String {
    match price.0 {
        0 => "same price".to_owned(),
        n if n > 0 => format!("+{}", short_price(price, currency)),
        _ => short_price(price, currency),
    }
}

/// What a budget buys, as sentences.
pub fn budget_words(answer: &BudgetAnswer, currency: &Currency) -> String {
    let money = |price| short_price(price, currency);
    let budget = money(answer.budget);
    let fits = match &answer.fits {
        Some((name, price)) if answer.left.0 == 0 => format!("{name} at {}, exactly.", money(*price)),
        Some((name, price)) => format!("{name} at {}, {} left.", money(*price), money(answer.left)),
        None => format!("No size fits {}.", money((answer.budget - answer.other_charges).max(Cents(0)))),
    };
    let other_charges = match answer.other_charges {
        Cents(0) => String::new(),
        other_charges => format!("After {} for the rest: ", money(other_charges)),
    };
    match &answer.next {
        Some((name, more)) => format!("{other_charges}{fits} {name} is {} over {budget}.", money(*more)),
        None => format!("{other_charges}{fits}"),
    }
}

/// The designer's word on a price below the worked one; none when it is not below.
pub fn below_words_my_side(quote: &Quote) -> Option<String> {
    if quote.below.0 == 0 {
        return None;
    }
    let money = |price: Cents| short_price(price, &quote.currency);
    let below = format!("{} below the shop price.", money(quote.below));
    let cost = format!("Costs {}", money(quote.my_side.cost));
    Some(match quote.my_side.loses.0 {
        0 => format!("{below} {cost}."),
        _ => format!("{below} {cost}, so you lose {}.", money(quote.my_side.loses)),
    })
}

/// What is asked when a price below the worked one is kept.
pub const WHY_BELOW: &str = "Reason (for your records)";

/// What a tax line is called: `VAT 20 %, included`; a rate has the decimal mark of the shop.
pub fn tax_words(tax: &Tax, currency: &Currency) -> String {
    let how = match tax.how {
        TaxHow::Added => "",
        TaxHow::Included => ", included",
    };
    let name = if tax.name.trim().is_empty() { "Tax" } else { tax.name.trim() };
    format!("{name} {} %{how}", currency.decimal.written(&tax.percent.to_string()))
}

/// `Paid on 2 May 2026, cash`; `Refunded, card`.
pub fn payment_words(payment: &Payment, style: DateStyle) -> String {
    let what = if payment.sum.0 < 0 { "Refunded" } else { "Paid" };
    let day = payment.on.map_or_else(String::new, |day| format!(" on {}", day.written(style)));
    let way = match payment.way.words() {
        "" => String::new(),
        way => format!(", {way}"),
    };
    format!("{what}{day}{way}")
}

/// What is not agreed yet, and what it comes to with it: `Not agreed yet: Rush +$7. New total $34.`
pub fn pending_words(pending: &Pending, currency: &Currency) -> String {
    let lines = pending.lines.iter().map(|(what, by)| format!("{what} {}", price_difference(*by, currency)));
    let (lines, total) = (lines.collect::<Vec<_>>().join("; "), short_price(pending.total, currency));
    format!("Not agreed yet: {lines}. New total {total}.")
}

/// What comes to it once the changes are agreed, where they are listed already.
pub(super) fn pending_total_words(pending: &Pending, currency: &Currency) -> String {
    let (by, total) = (price_difference(pending.by, currency), short_price(pending.total, currency));
    format!("Not agreed yet: {by}. New total {total}.")
}

/// The designer's word on an amount that stands while today's prices make another: `Agreed $42; today it would be $45.50.`
pub fn today_words_my_side(firm: &Firm, currency: &Currency) -> Option<String> {
    let by = match firm.by {
        FirmBy::Quote(_) => "Quoted",
        FirmBy::Agreement(_) => "Agreed",
    };
    let [total, today] = [firm.total, firm.today].map(|price| short_price(price, currency));
    (firm.total != firm.today).then(|| format!("{by} {total}; today it would be {today}."))
}

/// The bar of three, as words and whole percent that make 100.
pub fn share_words(share: &ShareOfThree) -> [(&'static str, i64); 3] {
    let [flowers, trims, making] = share.percent();
    [("Flowers", flowers), ("Band and trims", trims), ("Making", making)]
}

/// Until when a price holds.
pub fn holds_words(until: Day, style: DateStyle) -> String {
    format!("Price holds until {}.", until.written(style))
}
