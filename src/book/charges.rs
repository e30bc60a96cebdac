//! What an order comes to: its lines, the tax of each rate, the total, the deposit. Once quoted or agreed it is kept as it was
//! on that day, with the rules of that day.
//!
//! Tax is calculated once for each rate, on the sum of its lines, to the nearest cent with halves up: as EN 16931-1 says of
//! invoices (BR-CO-17: the amount of a rate is its taxable amount times the rate, rounded to two decimals; BR-CO-14: the tax of
//! the invoice is the sum of those), and as the Streamlined Sales and Use Tax Agreement, section 324, allows in the United
//! States (by invoice, up from half a cent). Local rules come first.

use crate::piece::{PriceRule, Tax, TaxHow};
use crate::units::Cents;

/// What a line is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Charge {
    /// The wearer's own piece, mostly for the wrist.
    Wrist,
    /// The boutonniere that goes with it.
    Boutonniere,
    /// All pieces together, at a price asked for them.
    Pieces,
    /// Something besides the pieces.
    Extra,
    /// The rush.
    Rush,
    /// What is taken off; its price is below nothing.
    Discount,
    /// What is between the lines and a total that was agreed before lines were kept.
    Rest,
}

impl Charge {
    /// Whether it is for what is made.
    pub fn is_piece(self) -> bool {
        matches!(self, Self::Wrist | Self::Boutonniere | Self::Pieces)
    }
}

/// One line of a quote.
#[derive(Clone, Debug, PartialEq)]
pub struct QuoteLine {
    /// What it is for.
    pub charge: Charge,
    /// What it is for, in words.
    pub what: String,
    /// Its price.
    pub price: Cents,
    /// A tax rate of its own, percent; `None` is the rate of the house. A discount has none: it lowers every rate's sum.
    pub tax_percent: Option<f64>,
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

/// The rules of the house from prices to a total.
#[derive(Clone, Debug, PartialEq)]
pub struct ChargeRules {
    /// Tax, where there is one.
    pub tax: Option<Tax>,
    /// Share of the total that is paid at the yes.
    pub deposit: f64,
    /// Share of the pieces' price that a rush costs.
    pub rush: f64,
    /// The rush goes up to the next whole step of this.
    pub round_up_to: Cents,
}

impl ChargeRules {
    /// The rules of a house today.
    pub fn of(rule: &PriceRule) -> Self {
        let PriceRule { tax, deposit, rush, round_up_to, .. } = rule;
        Self { tax: tax.clone(), deposit: *deposit, rush: *rush, round_up_to: *round_up_to }
    }

    /// The tax at a rate of its own: called and counted as the tax of the house, else on top.
    fn at_rate(&self, percent: f64) -> Tax {
        let like = || Tax { name: "Tax".to_owned(), percent, how: TaxHow::Added };
        self.tax.as_ref().map_or_else(like, |tax| Tax { percent, ..tax.clone() })
    }

    /// The rate of a line, percent.
    fn rate_of(&self, line: &QuoteLine) -> f64 {
        line.tax_percent.unwrap_or_else(|| self.tax.as_ref().map_or(0.0, |tax| tax.percent))
    }
}

/// What an order comes to. Taxes and sums always follow from the lines and the rules.
#[derive(Clone, Debug, PartialEq)]
pub struct Charges {
    lines: Vec<QuoteLine>,
    rules: ChargeRules,
    taxes: Vec<TaxLine>,
    total: Cents,
    made_of: Option<[u8; 3]>,
}

impl Charges {
    /// Adds up lines by the rules of a house.
    pub fn of(lines: Vec<QuoteLine>, rules: ChargeRules) -> Self {
        let taxes = taxes(&lines, &rules);
        let on_top: Cents = taxes.iter().filter(|t| t.tax.how == TaxHow::Added).map(|t| t.amount).sum();
        let total = lines.iter().map(|l| l.price).sum::<Cents>() + on_top;
        Self { lines, rules, taxes, total, made_of: None }
    }

    /// The same with what its pieces are made of: flowers, band and trims, making, in percent that make 100; another three is
    /// not kept.
    #[must_use]
    pub fn made_of(self, percent: Option<[u8; 3]>) -> Self {
        let made_of = percent.filter(|percent| percent.iter().map(|&part| u32::from(part)).sum::<u32>() == 100);
        Self { made_of, ..self }
    }

    /// What its pieces are made of, percent, where that was kept.
    pub fn shares(&self) -> Option<[u8; 3]> {
        self.made_of
    }

    /// The same with this total: what the lines do not make of it stands on a line of its own.
    #[must_use]
    pub fn coming_to(mut self, total: Cents) -> Self {
        let rest = total - self.total;
        if rest == Cents(0) {
            return self;
        }
        let what = "As agreed".to_owned();
        self.lines.push(QuoteLine { charge: Charge::Rest, what, price: rest, tax_percent: Some(0.0) });
        Self { made_of: self.made_of, ..Self::of(self.lines, self.rules) }
    }

    /// Pieces, extras, rush, discount; their sum is the subtotal.
    pub fn lines(&self) -> &[QuoteLine] {
        &self.lines
    }

    /// The rules they were added up by.
    pub fn rules(&self) -> &ChargeRules {
        &self.rules
    }

    /// The taxes, one for each rate.
    pub fn taxes(&self) -> &[TaxLine] {
        &self.taxes
    }

    /// The lines together.
    pub fn subtotal(&self) -> Cents {
        self.lines.iter().map(|l| l.price).sum()
    }

    /// What the client pays in all.
    pub fn total(&self) -> Cents {
        self.total
    }

    /// What is paid at the yes.
    pub fn deposit(&self) -> Cents {
        share_of(self.total, self.rules.deposit)
    }

    /// What the pieces come to, less their part of the discount.
    pub fn pieces_discounted(&self) -> Cents {
        let pieces: Cents = self.lines.iter().filter(|l| l.charge.is_piece()).map(|l| l.price).sum();
        let off: Cents = self.lines.iter().filter(|l| l.charge == Charge::Discount).map(|l| -l.price).sum();
        let others = self.subtotal() + off - pieces;
        pieces - apportioned(off, &[pieces, others]).first().copied().unwrap_or_default()
    }

    /// What the shop keeps of that: without any tax that is in the price.
    pub fn kept_of_pieces(&self) -> Cents {
        let price = self.pieces_discounted();
        self.rules.tax.as_ref().map_or(price, |tax| taxed(price, tax).net)
    }
}

/// A share of an amount, from none of it to all.
pub fn share_of(amount: Cents, share: f64) -> Cents {
    Cents::nearest(amount.0 as f64 * share.clamp(0.0, 1.0))
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

/// The tax of each rate, in the order in which the rates come; a discount lowers the sums of all rates alike.
fn taxes(lines: &[QuoteLine], rules: &ChargeRules) -> Vec<TaxLine> {
    // What only makes an agreed total up is neither taxed nor lowered.
    let counted = lines.iter().filter(|l| l.charge != Charge::Rest);
    let (off, charged): (Vec<&QuoteLine>, Vec<&QuoteLine>) = counted.partition(|l| l.charge == Charge::Discount);
    let mut rates: Vec<(f64, Cents)> = Vec::new();
    for line in charged {
        let rate = rules.rate_of(line);
        match rates.iter_mut().find(|(known, _)| known.total_cmp(&rate).is_eq()) {
            Some((_, sum)) => *sum = *sum + line.price,
            None => rates.push((rate, line.price)),
        }
    }
    let sums: Vec<Cents> = rates.iter().map(|(_, sum)| *sum).collect();
    let shares = apportioned(off.iter().map(|l| -l.price).sum(), &sums);
    let taxed = rates.iter().zip(shares).filter(|((rate, _), _)| *rate > 0.0);
    taxed.map(|((rate, sum), off)| taxed_at(*sum - off, rules, *rate)).collect()
}

fn taxed_at(sum: Cents, rules: &ChargeRules, rate: f64) -> TaxLine {
    taxed(sum, &rules.at_rate(rate))
}

/// `amount` in parts as large as `weights` say, which make it whole: what rounding down leaves over goes, a cent each, to the
/// largest remainders (Hamilton's method of apportionment), the first of equals first. Without a weight above nothing the first
/// has all of it.
pub fn apportioned(amount: Cents, weights: &[Cents]) -> Vec<Cents> {
    let weights: Vec<i128> = weights.iter().map(|w| i128::from(w.0.max(0))).collect();
    let whole: i128 = weights.iter().sum();
    if whole == 0 {
        return (0..weights.len()).map(|i| if i == 0 { amount } else { Cents(0) }).collect();
    }
    let exact = |w: i128| i128::from(amount.0) * w;
    // No part is farther from nothing than the amount is, so each fits again.
    let cents = |n: i128| i64::try_from(n).unwrap_or_default();
    let mut parts: Vec<i64> = weights.iter().map(|&w| cents(exact(w).div_euclid(whole))).collect();
    let mut by_remainder: Vec<usize> = (0..weights.len()).collect();
    by_remainder.sort_by_key(|&i| std::cmp::Reverse(exact(weights[i]).rem_euclid(whole)));
    let left = usize::try_from(amount.0 - parts.iter().sum::<i64>()).unwrap_or_default();
    for &i in by_remainder.iter().take(left) {
        parts[i] += 1;
    }
    parts.into_iter().map(Cents).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn line(charge: Charge, price: i64, tax_percent: Option<f64>) -> QuoteLine {
        QuoteLine { charge, what: String::new(), price: Cents(price), tax_percent }
    }

    fn rules(percent: f64, how: TaxHow) -> ChargeRules {
        let tax = Some(Tax { name: "Sales tax".to_owned(), percent, how });
        ChargeRules { tax, deposit: 0.5, rush: 0.25, round_up_to: Cents(100) }
    }

    fn told(charges: &Charges) -> Vec<(f64, i64, i64)> {
        charges.taxes().iter().map(|t| (t.tax.percent, t.net.0, t.amount.0)).collect()
    }

    /// By hand: at 8 % 27.00 and 2.50, at 20 % 10.00, untaxed 5.00, on top: 2.36 of 29.50 and 2.00 of 10.00 make 44.50 and 4.36.
    /// In the price the same lines stay 44.50: 29.50 / 1.08 is 27.31 and 2.19, 10.00 / 1.2 is 8.33 and 1.67.
    #[test]
    fn each_rate_is_taxed_once_on_the_sum_of_its_lines() {
        let lines = || {
            vec![
                line(Charge::Wrist, 2700, None),
                line(Charge::Extra, 1000, Some(20.0)),
                line(Charge::Extra, 500, Some(0.0)),
                line(Charge::Extra, 250, Some(8.0)),
            ]
        };
        let on_top = Charges::of(lines(), rules(8.0, TaxHow::Added));
        assert_eq!(told(&on_top), [(8.0, 2950, 236), (20.0, 1000, 200)]);
        assert_eq!((on_top.subtotal(), on_top.total(), on_top.deposit()), (Cents(4450), Cents(4886), Cents(2443)));
        let inside = Charges::of(lines(), rules(8.0, TaxHow::Included));
        assert_eq!(told(&inside), [(8.0, 2731, 219), (20.0, 833, 167)]);
        assert_eq!(inside.total(), Cents(4450));
    }

    /// By hand: 5.00 off 27.00 at 8 % and 10.00 at 20 %: 27/37 are 3.6486 and 10/37 are 1.3514, so 3.65 and 1.35; 8 % of 23.35 are
    /// 1.868, 20 % of 8.65 are 1.73.
    #[test]
    fn a_discount_lowers_every_rates_sum_in_proportion_and_to_the_cent() {
        let lines = vec![
            line(Charge::Wrist, 2700, None),
            line(Charge::Extra, 1000, Some(20.0)),
            line(Charge::Discount, -500, None),
        ];
        let charges = Charges::of(lines, rules(8.0, TaxHow::Added));
        assert_eq!(told(&charges), [(8.0, 2335, 187), (20.0, 865, 173)]);
        assert_eq!(charges.total(), Cents(3200 + 187 + 173));
    }

    /// By hand, largest remainders: a third of a cent each of 1.00 leaves one over, for the first of equals.
    #[test]
    fn parts_make_the_whole_and_none_is_a_cent_off() {
        let parts = |amount, weights: &[i64]| {
            let weights: Vec<Cents> = weights.iter().copied().map(Cents).collect();
            apportioned(Cents(amount), &weights).into_iter().map(|c| c.0).collect::<Vec<_>>()
        };
        assert_eq!(parts(100, &[1, 1, 1]), [34, 33, 33]);
        assert_eq!(parts(500, &[2700, 1000]), [365, 135]);
        assert_eq!(parts(7, &[0, 0]), [7, 0]);
        assert_eq!(
            parts(i64::MAX, &[i64::MAX, i64::MAX]).iter().map(|&n| i128::from(n)).sum::<i128>(),
            i128::from(i64::MAX)
        );
    }

    #[test]
    fn a_total_that_was_agreed_before_lines_were_kept_stays_to_the_cent() {
        let charges = Charges::of(vec![line(Charge::Wrist, 2700, None)], rules(8.25, TaxHow::Added));
        assert_eq!(charges.total(), Cents(2923));
        assert_eq!(charges.clone().coming_to(Cents(2923)), charges);
        let other = charges.coming_to(Cents(2800));
        assert_eq!((other.total(), other.lines()[1].price), (Cents(2800), Cents(-123)));
    }
}
