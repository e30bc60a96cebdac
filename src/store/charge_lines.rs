//! Payments, the discount, and what a quote or an agreement was built on, as order files hold them.

use serde::{Deserialize, Serialize};

use super::about_lines::inner_order;
use super::day_line::DayLine;
use super::figures::{Money, Percent, Share, Sum, Text};
use super::keywords::Keyword;
use super::order_file::OrderFile;
use super::price_lines::TaxRuleLine;
use super::store_error::StoreError;
use crate::book::{Charge, ChargeRules, Charges, Discount, KeptQuote, PayWay, Payment, QuoteLine, Reduction};
use crate::stock::Stock;

/// `(sum: 13.50, on: "2026-05-02", way: "cash")`; a refund is below nothing.
#[derive(Clone, Debug, Deserialize, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
pub(super) struct PaymentLine {
    sum: Sum,
    #[serde(skip_serializing_if = "Option::is_none")]
    on: Option<DayLine>,
    #[serde(default, skip_serializing_if = "Text::is_empty")]
    way: Text,
}

impl PaymentLine {
    pub(super) fn payment(&self) -> Payment {
        Payment { on: self.on.map(|d| d.0), way: PayWay::of(&self.way.0), sum: self.sum.0 }
    }

    pub(super) fn of(payment: &Payment) -> Self {
        let Payment { on, way, sum } = payment;
        Self { sum: Sum(*sum), on: on.map(DayLine), way: Text(way.words().to_owned()) }
    }
}

/// `(off: percent(10), words: "for a friend")`.
#[derive(Clone, Debug, Deserialize, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
pub(super) struct DiscountLine {
    off: OffLine,
    #[serde(default, skip_serializing_if = "Text::is_empty")]
    words: Text,
}

/// `amount(5)`, `percent(10)`.
#[derive(Clone, Copy, Debug, Deserialize, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
enum OffLine {
    Amount(Money),
    Percent(Percent),
}

impl DiscountLine {
    pub(super) fn discount(&self) -> Discount {
        let off = match self.off {
            OffLine::Amount(money) => Reduction::Amount(money.0),
            OffLine::Percent(percent) => Reduction::Percent(percent.0),
        };
        Discount { off, words: self.words.0.clone() }
    }

    pub(super) fn of(discount: &Discount) -> Self {
        let off = match discount.off {
            Reduction::Amount(cents) => OffLine::Amount(Money(cents)),
            Reduction::Percent(percent) => OffLine::Percent(Percent::new(percent)),
        };
        Self { off, words: Text(discount.words.clone()) }
    }
}

/// The lines and rules from which a total follows.
#[derive(Clone, Debug, Deserialize, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
pub(super) struct ChargesLine {
    lines: Vec<ChargeLine>,
    rules: RulesLine,
    total: Sum,
    /// Flowers, band and trims, making, percent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    made_of: Option<(u8, u8, u8)>,
}

/// `(charge: extra, what: "Ribbon wand", price: 2.50, tax: 0)`.
#[derive(Clone, Debug, Deserialize, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
struct ChargeLine {
    charge: Keyword<Charge>,
    what: Text,
    price: Sum,
    #[serde(skip_serializing_if = "Option::is_none")]
    tax: Option<Percent>,
}

#[derive(Clone, Debug, Deserialize, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
struct RulesLine {
    #[serde(skip_serializing_if = "Option::is_none")]
    tax: Option<TaxRuleLine>,
    deposit: Share,
    rush: Share,
    round_up_to: Money,
}

impl ChargesLine {
    /// What they come to; where lines and rules make another total, a line for the rest is added.
    pub(super) fn charges(&self) -> Charges {
        let lines = self.lines.iter().map(|line| QuoteLine {
            charge: line.charge.0,
            what: line.what.0.clone(),
            price: line.price.0,
            tax_percent: line.tax.map(|t| t.0),
        });
        let rules = ChargeRules {
            tax: self.rules.tax.as_ref().and_then(TaxRuleLine::tax),
            deposit: self.rules.deposit.0,
            rush: self.rules.rush.0,
            round_up_to: self.rules.round_up_to.0,
        };
        let made_of = self.made_of.map(|(flowers, trims, making)| [flowers, trims, making]);
        Charges::of(lines.collect(), rules).coming_to(self.total.0).made_of(made_of)
    }

    pub(super) fn of(charges: &Charges) -> Self {
        let lines = charges.lines().iter().map(|line| ChargeLine {
            charge: Keyword(line.charge),
            what: Text(line.what.clone()),
            price: Sum(line.price),
            tax: line.tax_percent.map(Percent::new),
        });
        let ChargeRules { tax, deposit, rush, round_up_to } = charges.rules();
        Self {
            lines: lines.collect(),
            rules: RulesLine {
                tax: tax.as_ref().map(TaxRuleLine::of),
                deposit: Share::new(*deposit),
                rush: Share::new(*rush),
                round_up_to: Money(*round_up_to),
            },
            total: Sum(charges.total()),
            made_of: charges.shares().map(|[flowers, trims, making]| (flowers, trims, making)),
        }
    }
}

/// What the last quote was built on, with the whole order as it was.
#[derive(Debug, Deserialize, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
pub(super) struct KeptQuoteLine {
    #[serde(skip_serializing_if = "Option::is_none")]
    until: Option<DayLine>,
    charges: ChargesLine,
    order: Box<OrderFile>,
}

impl KeptQuoteLine {
    /// The quote in the file `text`.
    pub(super) fn quote(&self, text: &str, name: &str, stock: &Stock) -> Result<KeptQuote, StoreError> {
        let order = inner_order(&self.order, "quoted", text, name, stock)?;
        Ok(KeptQuote::of(&order, self.charges.charges(), self.until.map(|d| d.0)))
    }

    pub(super) fn of(kept: &KeptQuote) -> Self {
        Self {
            until: kept.until.map(DayLine),
            charges: ChargesLine::of(&kept.charges),
            order: Box::new(OrderFile::of(kept.order())),
        }
    }
}
