//! The rule from cost to price, as a style file holds it.

use serde::{Deserialize, Serialize};

use super::figures::{Amount, Count, Money, Percent, Share, Text};
use super::keywords::Keyword;
use crate::piece::{Making, PriceRule, Tax, TaxHow};

/// The rule from cost to price as a style holds it.
#[derive(Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub(super) struct PricesLine {
    fresh_times: Option<Amount>,
    hard_times: Option<Amount>,
    making: Option<MakingLine>,
    round_up_to: Option<Money>,
    currency: Option<Text>,
    #[serde(skip_serializing_if = "Option::is_none")]
    tax: Option<TaxRuleLine>,
    deposit: Option<Share>,
    rush: Option<Share>,
    holds_days: Option<Count>,
}

/// `(name: "Sales tax", percent: 8.25, how: added)`; a percentage of nothing is no tax.
#[derive(Clone, Debug, Deserialize, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
pub(super) struct TaxRuleLine {
    #[serde(default)]
    name: Text,
    percent: Percent,
    how: Keyword<TaxHow>,
}

#[derive(Clone, Copy, Deserialize, Serialize)]
#[serde(rename_all = "snake_case")]
enum MakingLine {
    ByMinute(Amount),
    ShareOnTop(Share),
    ShareOfWhole(Share),
}

impl PricesLine {
    /// Changes the rule by what is said.
    pub(super) fn change(&self, prices: &mut PriceRule) {
        prices.fresh_times = self.fresh_times.map_or(prices.fresh_times, |t| t.0);
        prices.hard_times = self.hard_times.map_or(prices.hard_times, |t| t.0);
        prices.making = self.making.map_or(prices.making, |m| match m {
            MakingLine::ByMinute(cents) => Making::ByMinute(cents.0),
            MakingLine::ShareOnTop(share) => Making::ShareOnTop(share.0),
            MakingLine::ShareOfWhole(share) => Making::ShareOfWhole(share.0),
        });
        prices.round_up_to = self.round_up_to.map_or(prices.round_up_to, |m| m.0);
        if let Some(sign) = &self.currency {
            prices.currency.sign.clone_from(&sign.0);
        }
        if let Some(tax) = &self.tax {
            prices.tax = tax.tax();
        }
        prices.deposit = self.deposit.map_or(prices.deposit, |d| d.0);
        prices.rush = self.rush.map_or(prices.rush, |r| r.0);
        prices.holds_days = self.holds_days.map_or(prices.holds_days, |d| d.whole());
    }

    /// The lines of a rule, whole.
    pub(super) fn of(prices: &PriceRule) -> Self {
        Self {
            fresh_times: Some(Amount::new(prices.fresh_times)),
            hard_times: Some(Amount::new(prices.hard_times)),
            making: Some(match prices.making {
                Making::ByMinute(cents) => MakingLine::ByMinute(Amount::new(cents)),
                Making::ShareOnTop(share) => MakingLine::ShareOnTop(Share::new(share)),
                Making::ShareOfWhole(share) => MakingLine::ShareOfWhole(Share::new(share)),
            }),
            round_up_to: Some(Money(prices.round_up_to)),
            currency: Some(Text(prices.currency.sign.clone())),
            tax: prices.tax.as_ref().map(TaxRuleLine::of),
            deposit: Some(Share::new(prices.deposit)),
            rush: Some(Share::new(prices.rush)),
            holds_days: Some(Count::new(f64::from(prices.holds_days))),
        }
    }
}

impl TaxRuleLine {
    pub(super) fn tax(&self) -> Option<Tax> {
        let name = if self.name.is_empty() { "Tax" } else { &self.name.0 };
        (self.percent.0 > 0.0).then(|| Tax { name: name.to_owned(), percent: self.percent.0, how: self.how.0 })
    }

    /// The tax of a shop, which says so where there is none.
    pub(super) fn of_shop(tax: Option<&Tax>) -> Self {
        let none = || Self { name: Text::default(), percent: Percent::new(0.0), how: Keyword(TaxHow::Added) };
        tax.map_or_else(none, Self::of)
    }

    pub(super) fn of(tax: &Tax) -> Self {
        Self { name: Text(tax.name.clone()), percent: Percent::new(tax.percent), how: Keyword(tax.how) }
    }
}

/// What is wrong with a rule: the field by which its line is found, and why.
pub(super) fn fault(prices: &PriceRule) -> Option<(&'static str, &'static str)> {
    if matches!(prices.making, Making::ShareOfWhole(share) if share >= 1.0) {
        Some(("making", "a share of the whole price is less than 1"))
    } else if prices.round_up_to.0 < 1 {
        Some(("round_up_to", "prices round up by at least 0.01"))
    } else if prices.deposit > 1.0 {
        Some(("deposit", "a deposit is at most the total, 1"))
    } else {
        None
    }
}
