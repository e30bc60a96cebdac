//! The quote: the amount of an order, line by line, and what the designer should know about it. Every paper, table, report and
//! screen asks here, so that all of them tell one amount.
//!
//! Each piece is priced by the rule of the house and rounded for itself. An asked price stands in for the pieces together;
//! extras and rush come on top of it, a discount comes off; then tax. What was quoted or agreed stands as it was (`firm.rs`).
//! Money is whole cents from here on.

use super::firm::{Firm, Pending, firm_amount};
use super::price::ShareOfThree;
use super::{Price, StemList, stem_list};
use crate::book::{
    Asked, Charge, ChargeRules, Charges, Day, Order, QuoteLine, Reduction, TaxLine, Terms, WearerStops, taxed,
};
use crate::piece::{HouseStyle, Piece, Worn};
use crate::stock::Stock;
use crate::units::{Cents, Currency};

/// What the designer alone sees.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct MySide {
    /// What the pieces cost the shop: goods and, where the house pays by the minute, the time.
    pub cost: Cents,
    /// What is lost on the pieces at the price asked, before rent and without any tax in it; nothing when they pay.
    pub loses: Cents,
}

/// A quote.
#[derive(Clone, Debug, PartialEq)]
pub struct Quote {
    /// How a price is written.
    pub currency: Currency,
    /// Pieces, extras, rush, discount; their sum is the subtotal.
    pub lines: Vec<QuoteLine>,
    /// Minutes on the bench.
    pub minutes: f64,
    /// The pieces by the rule of the house, not rounded up.
    pub calculated: Cents,
    /// The pieces at the prices of the house.
    pub house: Cents,
    /// The price asked instead, with its reason.
    pub asked: Option<Asked>,
    /// How far the price of the pieces, less their discount, lies below the worked one; nothing when it does not.
    pub below: Cents,
    /// The lines together.
    pub subtotal: Cents,
    /// The taxes, one for each rate.
    pub taxes: Vec<TaxLine>,
    /// What the client pays in all: the amount of the order.
    pub total: Cents,
    /// Paid at the yes; after the yes, what was agreed then.
    pub deposit: Cents,
    /// Paid when it is fetched.
    pub balance: Cents,
    /// Paid so far, less what went back.
    pub paid: Cents,
    /// Still to pay.
    pub due: Cents,
    /// Until when the price holds, where a day is known.
    pub holds_until: Option<Day>,
    /// What the price is made of.
    pub share_of_three: ShareOfThree,
    /// The quote or the agreement by which the amount stands.
    pub firm: Option<Firm>,
    /// What has changed since the yes and is not agreed: it is not in the amount.
    pub pending: Option<Pending>,
    /// What the client does not see.
    pub my_side: MySide,
}

/// The quote for an order: its piece with what its size promises, and the boutonniere that goes with it.
pub fn quote(order: &Order, style: &HouseStyle, stock: &Stock) -> Quote {
    let pieces = priced_pieces(order, style, stock);
    let prices: Vec<&Price> = pieces.iter().map(|piece| &piece.price).collect();
    let sum = |part: fn(&Price) -> f64| prices.iter().map(|p| part(p)).sum::<f64>();
    let (cost, today) = (Cents::nearest(sum(|p| p.cost)), shares_of(&pieces));
    let calculated = Cents::nearest(sum(|p| p.fresh + p.hard + p.making));
    let rule = &style.prices;
    let amount = firm_amount(order, style, stock);
    let charges = amount.charges;
    let total = charges.total();
    let agreed = order.agreed.as_deref();
    let deposit = agreed.and_then(|a| a.deposit).unwrap_or_else(|| charges.deposit());
    let paid = order.terms.paid();
    Quote {
        currency: rule.currency.clone(),
        minutes: pieces.iter().map(|piece| piece.stems.minutes).sum(),
        calculated,
        house: prices.iter().map(|p| p.rounded).sum(),
        asked: order.terms.asked.clone(),
        below: (calculated - charges.pieces_discounted()).max(Cents(0)),
        subtotal: charges.subtotal(),
        taxes: charges.taxes().to_vec(),
        total,
        deposit,
        balance: total - deposit,
        paid,
        due: total - paid,
        holds_until: agreed.map_or_else(|| holds_until(order, order.terms.quoted_on, style), |a| a.holds_until),
        share_of_three: charges.shares().filter(|_| amount.firm.is_some()).map_or(today, ShareOfThree::of_percent),
        firm: amount.firm,
        pending: amount.pending,
        my_side: MySide { cost, loses: (cost - charges.kept_of_pieces()).max(Cents(0)) },
        lines: charges.lines().to_vec(),
    }
}

/// Until when a price quoted on this day holds: as agreed for the order, else as it was quoted, else by the house style.
pub(super) fn holds_until(order: &Order, told_on: Option<Day>, style: &HouseStyle) -> Option<Day> {
    let by_rule = || told_on.filter(|_| style.prices.holds_days > 0)?.plus(i64::from(style.prices.holds_days));
    let kept = order.quoted.as_deref().filter(|_| told_on == order.terms.quoted_on);
    order.terms.holds_until.or_else(|| kept.map_or_else(by_rule, |kept| kept.until))
}

/// What a client pays for one price, tax included.
pub(super) fn with_tax(price: Cents, style: &HouseStyle) -> Cents {
    style.prices.tax.as_ref().map_or(price, |tax| {
        let with_tax = taxed(price, tax);
        with_tax.net + with_tax.amount
    })
}

/// A piece with its price by the rule of the house.
pub(super) struct PricedPiece {
    charge: Charge,
    name: String,
    stems: StemList,
    price: Price,
}

/// What pieces are made of at their prices today.
pub(super) fn shares_of(pieces: &[PricedPiece]) -> ShareOfThree {
    let sum = |part: fn(&Price) -> f64| pieces.iter().map(|p| part(&p.price)).sum::<f64>();
    ShareOfThree::of(sum(|p| p.fresh), sum(|p| p.hard), sum(|p| p.making))
}

/// The pieces of an order with their prices today.
pub(super) fn priced_pieces(order: &Order, style: &HouseStyle, stock: &Stock) -> Vec<PricedPiece> {
    let stock = &*WearerStops::of(order, stock).stock_to_propose();
    let size = order.size.as_ref().and_then(|name| style.size(name));
    let priced = |charge, name, piece: &Piece, size| {
        let stems = stem_list(piece, size, stock, style);
        let price = stems.price(&style.prices);
        PricedPiece { charge, name, stems, price }
    };
    let what = match order.piece.worn {
        Worn::Wrist => "Wrist corsage",
        Worn::Lapel => "Boutonniere",
    };
    let named = order.size.as_ref().filter(|size| *size != what);
    let name = named.map_or_else(|| what.to_owned(), |size| format!("{what}, {size}"));
    let wrist = priced(Charge::Wrist, name, &order.piece, size);
    let partner = order.partner_piece.as_ref();
    let partner = partner.map(|piece| priced(Charge::Boutonniere, "Boutonniere".to_owned(), piece, None));
    [Some(wrist), partner].into_iter().flatten().collect()
}

/// The pieces line by line at their prices today, or together at the price asked.
pub(super) fn piece_lines(order: &Order, pieces: &[PricedPiece]) -> Vec<QuoteLine> {
    let line = |charge, what: String, price| QuoteLine { charge, what, price, tax_percent: None };
    match &order.terms.asked {
        Some(asked) => {
            let names: Vec<&str> = pieces.iter().map(|piece| piece.name.as_str()).collect();
            vec![line(Charge::Pieces, names.join(" and "), asked.price)]
        }
        None => pieces.iter().map(|p| line(p.charge, p.name.clone(), p.price.rounded)).collect(),
    }
}

/// What pieces at these prices come to with the extras, the rush and the discount of an order.
pub(super) fn charges_of(pieces: Vec<QuoteLine>, terms: &Terms, rules: ChargeRules) -> Charges {
    let mut lines = pieces;
    let price: Cents = lines.iter().filter(|l| l.charge.is_piece()).map(|l| l.price).sum();
    lines.extend(terms.extras.iter().map(|extra| QuoteLine {
        charge: Charge::Extra,
        what: extra.name.clone(),
        price: extra.price,
        tax_percent: extra.tax_percent,
    }));
    let line = |charge, what: String, price| QuoteLine { charge, what, price, tax_percent: None };
    if terms.rush {
        let rush = Cents::up_to(price.0 as f64 * rules.rush, rules.round_up_to);
        lines.push(line(Charge::Rush, "Rush".to_owned(), rush));
    }
    if let Some(discount) = &terms.discount {
        let whole: Cents = lines.iter().map(|l| l.price).sum();
        let (name, off) = match discount.off {
            Reduction::Amount(cents) => ("Discount".to_owned(), cents),
            Reduction::Percent(of) => (format!("Discount {of} %"), Cents::nearest(whole.0 as f64 * of / 100.0)),
        };
        let words = discount.words.trim();
        let words = if words.is_empty() { name } else { format!("{name}, {words}") };
        lines.push(line(Charge::Discount, words, -off.clamp(Cents(0), whole.max(Cents(0)))));
    }
    Charges::of(lines, rules)
}
