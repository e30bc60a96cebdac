//! Prices that stand: what was quoted stands until it is quoted anew, what was agreed stands for good, whatever stock, rules
//! and clock do later.
//!
//! What changes about an order after its quote is added to the quoted prices at what it costs today; what changes after the yes
//! stays beside the agreed amount until it is agreed too. The difference that a change makes is today's price with it less
//! today's price without it, so that a dearer flower alone changes nothing.

use super::quote::{charges_of, holds_until, piece_lines, priced_pieces, shares_of};
use crate::book::{Change, Charge, ChargeRules, Charges, Day, KeptQuote, Order, QuoteLine};
use crate::piece::HouseStyle;
use crate::stock::Stock;
use crate::units::Cents;

/// Why an amount stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FirmBy {
    /// It was quoted on a day.
    Quote(Option<Day>),
    /// It was agreed on a day.
    Agreement(Day),
}

/// An amount that stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Firm {
    /// Why.
    pub by: FirmBy,
    /// What was quoted or agreed.
    pub total: Cents,
    /// What the same order would come to at the prices and rules of today: for the designer alone.
    pub today: Cents,
}

/// What has changed since the yes and is not agreed yet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pending {
    /// What comes on top or off, tax included; together they make `by`.
    pub lines: Vec<(String, Cents)>,
    /// How far the new total lies above the agreed one.
    pub by: Cents,
    /// What it comes to once the changes are agreed.
    pub total: Cents,
}

/// The amount of an order.
pub(super) struct Amount {
    /// What it comes to.
    pub(super) charges: Charges,
    /// The quote or the agreement by which it stands.
    pub(super) firm: Option<Firm>,
    /// What is not agreed yet.
    pub(super) pending: Option<Pending>,
}

/// The amount of an order: as agreed, else as quoted with what has changed since, else as it is today.
pub(super) fn firm_amount(order: &Order, style: &HouseStyle, stock: &Stock) -> Amount {
    let rules = ChargeRules::of(&style.prices);
    let today = |order: &Order| today(order, style, stock, &rules);
    let Some(base) = Base::of(order, &today) else {
        return Amount { charges: today(order), firm: None, pending: None };
    };
    let firm = Some(Firm { by: base.by, total: base.charges.total(), today: today(base.order).total() });
    let carried = base.carried_on(order, style, stock);
    match base.by {
        FirmBy::Quote(_) => Amount { charges: carried, firm, pending: None },
        FirmBy::Agreement(_) => {
            let pending = pending(&base.charges, &carried);
            Amount { charges: base.charges, firm, pending }
        }
    }
}

/// What an order comes to once everything that has changed about it is agreed.
pub(super) fn with_changes(order: &Order, style: &HouseStyle, stock: &Stock) -> Charges {
    let rules = ChargeRules::of(&style.prices);
    let today = |order: &Order| today(order, style, stock, &rules);
    Base::of(order, &today).map_or_else(|| today(order), |base| base.carried_on(order, style, stock))
}

/// What makes a quote of an order on a day: its amount is kept. Nothing where its quote still says all of it, or where it is
/// agreed already.
pub fn keep_quote(order: &Order, on: Day, style: &HouseStyle, stock: &Stock) -> Option<Change> {
    let charges = with_changes(order, style, stock);
    let stands = |kept: &KeptQuote| kept.charges == charges && kept.until.is_none_or(|until| on <= until);
    if order.agreed.is_some() || order.quoted.as_deref().is_some_and(stands) {
        return None;
    }
    let anew = Order { quoted: None, ..order.clone() };
    let kept = KeptQuote::of(order, charges, holds_until(&anew, Some(on), style));
    Some(Change::Quoted(on, Box::new(kept)))
}

/// What an order comes to by the prices of today and these rules.
fn today(order: &Order, style: &HouseStyle, stock: &Stock, rules: &ChargeRules) -> Charges {
    let priced = priced_pieces(order, style, stock);
    let made_of = shares_of(&priced).percent().map(|part| u8::try_from(part).unwrap_or_default());
    charges_of(piece_lines(order, &priced), &order.terms, rules.clone()).made_of(Some(made_of))
}

/// What an amount stands on.
struct Base<'a> {
    by: FirmBy,
    order: &'a Order,
    charges: Charges,
}

impl<'a> Base<'a> {
    fn of(order: &'a Order, today: &dyn Fn(&Order) -> Charges) -> Option<Self> {
        if let Some(agreed) = order.agreed.as_deref() {
            // A sheet from before lines were kept: its price stands, and what today's lines do not make of it is said.
            let lines = agreed.charges().cloned().unwrap_or_else(|| today(agreed.order()).coming_to(agreed.price));
            return Some(Self { by: FirmBy::Agreement(agreed.on), order: agreed.order(), charges: lines });
        }
        let kept = order.quoted.as_deref()?;
        Some(Self { by: FirmBy::Quote(order.terms.quoted_on), order: kept.order(), charges: kept.charges.clone() })
    }

    /// The kept charges with what has changed about the order since. Pieces go up or down by what the change makes today;
    /// extras, rush and discount follow from those, by the rules that were kept.
    fn carried_on(&self, now: &Order, style: &HouseStyle, stock: &Stock) -> Charges {
        let rules = self.charges.rules();
        let (before, after) = (today(self.order, style, stock, rules), today(now, style, stock, rules));
        if before.lines() == after.lines() {
            return self.charges.clone();
        }
        let price_in = |charges: &Charges, charge| {
            let line = charges.lines().iter().find(|l| l.charge == charge);
            line.map(|l| l.price)
        };
        let carried = |line: &QuoteLine| {
            let firm = price_in(&self.charges, line.charge).zip(price_in(&before, line.charge));
            let price = firm.map_or(line.price, |(firm, was)| (firm + line.price - was).max(Cents(0)));
            QuoteLine { price, ..line.clone() }
        };
        let pieces = after.lines().iter().filter(|l| l.charge.is_piece()).map(carried);
        let rest = self.charges.lines().iter().filter(|l| l.charge == Charge::Rest).cloned();
        // An extra or a rush leaves the pieces what they were.
        let is_same = |line: &QuoteLine| before.lines().contains(line);
        let keeps = after.lines().iter().filter(|line| line.charge.is_piece()).all(is_same);
        let made_of = if keeps { self.charges.shares() } else { after.shares() };
        charges_of(pieces.chain(rest).collect(), &now.terms, rules.clone()).made_of(made_of)
    }
}

/// What lies between two amounts, line by line; none where they are the same.
fn pending(agreed: &Charges, carried: &Charges) -> Option<Pending> {
    let mut gone: Vec<&QuoteLine> = agreed.lines().iter().collect();
    let mut lines: Vec<(String, Cents)> = Vec::new();
    for line in carried.lines() {
        let is_same =
            |was: &&QuoteLine| was.charge == line.charge && (line.charge != Charge::Extra || was.what == line.what);
        let was = gone.iter().position(is_same).map(|at| gone.remove(at).price);
        lines.push((line.what.clone(), line.price - was.unwrap_or_default()));
    }
    lines.extend(gone.iter().map(|was| (format!("{} removed", was.what), -was.price)));
    let of_lines: Cents = lines.iter().map(|(_, by)| *by).sum();
    let by = carried.total() - agreed.total();
    let tax = carried.rules().tax.as_ref().map_or("Tax", |tax| tax.name.as_str());
    lines.push((tax.to_owned(), by - of_lines));
    lines.retain(|(_, by)| *by != Cents(0));
    (!lines.is_empty()).then(|| Pending { lines, by, total: carried.total() })
}
