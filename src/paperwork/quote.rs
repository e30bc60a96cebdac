//! The quote: what an order costs the client, line by line, and what the designer should know about it.
//!
//! Each piece is priced by the rule of the house and rounded for itself. An asked price stands in for the pieces together;
//! extras and rush come on top of it; then tax. Money is whole cents from here on.

use super::price::ShareOfThree;
use super::{Price, StemList, calculated_price, stem_list};
use crate::book::{Asked, Day, Order};
use crate::piece::{HouseStyle, Piece, Tax, TaxHow};
use crate::stock::Stock;
use crate::units::{Cents, Currency};

/// One line of a quote.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct QuoteLine {
    /// What it is for.
    pub what: String,
    /// Its price.
    pub price: Cents,
}

/// A tax as it falls on one quote.
#[derive(Clone, Debug, PartialEq)]
pub struct TaxLine {
    /// The tax.
    pub tax: Tax,
    /// The sum without it.
    pub net: Cents,
    /// Its amount.
    pub amount: Cents,
}

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
    /// Pieces, extras, rush; their sum is the subtotal.
    pub lines: Vec<QuoteLine>,
    /// Minutes on the bench.
    pub minutes: f64,
    /// The pieces by the rule of the house, not rounded up.
    pub calculated: Cents,
    /// The pieces at the prices of the house.
    pub house: Cents,
    /// The price asked instead, with its reason.
    pub asked: Option<Asked>,
    /// How far the asked price lies below the worked one; nothing when it does not.
    pub below: Cents,
    /// The lines together.
    pub subtotal: Cents,
    /// Tax, where there is one.
    pub tax: Option<TaxLine>,
    /// What the client pays in all.
    pub total: Cents,
    /// Paid at the yes; after the yes, what was agreed then.
    pub deposit: Cents,
    /// Paid when it is fetched.
    pub balance: Cents,
    /// Paid so far.
    pub paid: Cents,
    /// Still to pay.
    pub due: Cents,
    /// Until when the price holds, where a day is known.
    pub holds_until: Option<Day>,
    /// What the price is made of.
    pub share_of_three: ShareOfThree,
    /// What the client does not see.
    pub my_side: MySide,
}

/// The quote for an order: its piece with what its size promises, and the boutonniere that goes with it.
pub fn quote(order: &Order, style: &HouseStyle, stock: &Stock) -> Quote {
    let pieces = priced_pieces(order, style, stock);
    let prices: Vec<&Price> = pieces.iter().map(|(_, _, price)| price).collect();
    let sum = |part: fn(&Price) -> f64| prices.iter().map(|p| part(p)).sum::<f64>();
    let (calculated_exact, cost) = (sum(|p| p.fresh + p.hard + p.making), sum(|p| p.cost));
    let calculated = Cents::nearest(calculated_exact);
    let house: Cents = prices.iter().map(|p| p.rounded).sum();
    let price = order.terms.asked.as_ref().map_or(house, |a| a.price);
    let lines = lines(order, style, &pieces, price);
    let subtotal: Cents = lines.iter().map(|l| l.price).sum();
    let rule = &style.prices;
    let tax = rule.tax.as_ref().map(|tax| taxed(subtotal, tax));
    let total = tax.as_ref().map_or(subtotal, |t| t.net + t.amount);
    let deposit = deposit(order, total, rule.deposit);
    let kept = rule.tax.as_ref().map_or(price, |tax| taxed(price, tax).net);
    Quote {
        currency: rule.currency.clone(),
        lines,
        minutes: pieces.iter().map(|(_, stems, _)| stems.minutes).sum(),
        calculated,
        house,
        asked: order.terms.asked.clone(),
        below: (calculated - price).max(Cents(0)),
        subtotal,
        tax,
        total,
        deposit,
        balance: total - deposit,
        paid: order.terms.paid,
        due: total - order.terms.paid,
        holds_until: order
            .agreed
            .as_ref()
            .map_or_else(|| holds_until(order, order.terms.quoted_on, style), |a| a.holds_until),
        share_of_three: ShareOfThree::of(sum(|p| p.fresh), sum(|p| p.hard), sum(|p| p.making)),
        my_side: MySide { cost: Cents::nearest(cost), loses: Cents::nearest((cost - kept.0 as f64).max(0.0)) },
    }
}

/// What is paid at the yes: a share of the total, and after the yes what was agreed, whatever the total has become.
fn deposit(order: &Order, total: Cents, share: f64) -> Cents {
    let of = |price: Cents| Cents::nearest(price.0 as f64 * share.clamp(0.0, 1.0));
    order.agreed.as_ref().map_or_else(|| of(total), |agreed| agreed.deposit.unwrap_or_else(|| of(agreed.price)))
}

/// Until when a price quoted on this day holds: as agreed for the order, else by the house style.
pub(super) fn holds_until(order: &Order, told_on: Option<Day>, style: &HouseStyle) -> Option<Day> {
    let by_rule = || told_on.filter(|_| style.prices.holds_days > 0)?.plus(i64::from(style.prices.holds_days));
    order.terms.holds_until.or_else(by_rule)
}

/// A price with its tax apart.
pub fn taxed(price: Cents, tax: &Tax) -> TaxLine {
    let (exact, rate) = (price.0 as f64, tax.percent / 100.0);
    let (net, amount) = match tax.how {
        TaxHow::Added => (price, Cents::nearest(exact * rate)),
        TaxHow::Included => {
            let net = Cents::nearest(exact / (1.0 + rate));
            (net, price - net)
        }
    };
    TaxLine { tax: tax.clone(), net, amount }
}

/// What a client pays for one price, tax included.
pub(super) fn with_tax(price: Cents, style: &HouseStyle) -> Cents {
    style.prices.tax.as_ref().map_or(price, |tax| {
        let with_tax = taxed(price, tax);
        with_tax.net + with_tax.amount
    })
}

fn priced_pieces(order: &Order, style: &HouseStyle, stock: &Stock) -> Vec<(String, StemList, Price)> {
    let size = order.size.as_ref().and_then(|name| style.size(name));
    let priced = |piece: &Piece, size| {
        let stems = stem_list(piece, size, stock, style);
        let price = calculated_price(stems.fresh_cents, stems.hard_cents, stems.minutes, &style.prices);
        (stems, price)
    };
    let (stems, price) = priced(&order.piece, size);
    let size = order.size.as_ref().map_or_else(String::new, |size| format!(", {size}"));
    let name = format!("Wrist corsage{size}");
    let partner = order.partner_piece.as_ref().map(|piece| {
        let (stems, price) = priced(piece, None);
        ("Boutonniere".to_owned(), stems, price)
    });
    [Some((name, stems, price)), partner].into_iter().flatten().collect()
}

/// The pieces line by line, or together at the price asked; then extras and rush.
fn lines(order: &Order, style: &HouseStyle, pieces: &[(String, StemList, Price)], price: Cents) -> Vec<QuoteLine> {
    let line = |what: &str, price| QuoteLine { what: what.to_owned(), price };
    let mut lines: Vec<QuoteLine> = if order.terms.asked.is_some() {
        let names: Vec<&str> = pieces.iter().map(|(name, _, _)| name.as_str()).collect();
        vec![line(&names.join(" and "), price)]
    } else {
        pieces.iter().map(|(name, _, price)| line(name, price.rounded)).collect()
    };
    lines.extend(order.terms.extras.iter().map(|e| line(&e.name, e.price)));
    if order.terms.rush {
        let rush = Cents::up_to(price.0 as f64 * style.prices.rush, style.prices.round_up_to);
        lines.push(line("Rush", rush));
    }
    lines
}
