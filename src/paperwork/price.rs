//! From cost to price, by the rule of the house.
//!
//! The price always holds the making time. A share of labour has two published meanings and both are here: added on top
//! of the goods, or a share of the whole price.

use crate::piece::{Making, PriceRule};
use crate::units::{Cents, nearest_whole};

/// A worked price, in cents and parts of a cent, and what the till says.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Price {
    /// Flowers and greens at their price.
    pub fresh: f64,
    /// Band, ribbon and the rest at their price.
    pub hard: f64,
    /// Making time at its price.
    pub making: f64,
    /// What the piece costs the shop: goods at cost and, where the house pays by the minute, the time.
    pub cost: f64,
    /// The price rounded as the house does.
    pub rounded: Cents,
}

impl Price {
    /// Which part of the price is flowers, band and trims, and making, as shares that make 1. Nothing of it tells a cost.
    pub fn shares(&self) -> ShareOfThree {
        ShareOfThree::of(self.fresh, self.hard, self.making)
    }

    /// The sum, to the nearest cent.
    pub fn calculated(&self) -> Cents {
        Cents::nearest(self.fresh + self.hard + self.making)
    }

    /// How far an asked price lies below the worked one; nothing when it does not.
    pub fn below(&self, asked: Cents) -> Cents {
        (self.calculated() - asked).max(Cents(0))
    }

    /// What is lost at an asked price, before rent; nothing when it covers the cost.
    pub fn lost_at(&self, asked: Cents) -> Cents {
        Cents::nearest((self.cost - asked.0 as f64).max(0.0))
    }
}

/// What a price is made of: the answer to "why so much?".
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ShareOfThree {
    /// Flowers and greens.
    pub flowers: f64,
    /// Band, ribbon and trims.
    pub trims: f64,
    /// Making time.
    pub making: f64,
}

impl ShareOfThree {
    /// The shares of three prices; nothing at all gives three nothings.
    pub(super) fn of(flowers: f64, trims: f64, making: f64) -> Self {
        let whole = flowers + trims + making;
        let share = |part: f64| if whole > 0.0 { part / whole } else { 0.0 };
        Self { flowers: share(flowers), trims: share(trims), making: share(making) }
    }

    /// Shares that were kept as whole percent.
    pub(super) fn of_percent([flowers, trims, making]: [u8; 3]) -> Self {
        Self::of(f64::from(flowers), f64::from(trims), f64::from(making))
    }

    /// Flowers, trims and making as whole percent that make 100, or three nothings. What rounding down leaves over goes to
    /// the largest remainders (Hamilton's method of apportionment), so that no share is more than one percent off.
    pub fn percent(&self) -> [i64; 3] {
        let parts = [self.flowers, self.trims, self.making].map(|p| if p.is_finite() { p.max(0.0) } else { 0.0 });
        let whole: f64 = parts.iter().sum();
        if whole <= 0.0 {
            return [0; 3];
        }
        let exact = parts.map(|p| p / whole * 100.0);
        let mut percent = exact.map(|p| nearest_whole(p.floor()));
        let mut by_remainder = [0, 1, 2];
        by_remainder.sort_by(|&a, &b| exact[b].fract().total_cmp(&exact[a].fract()));
        let mut left = 100 - percent.iter().sum::<i64>();
        for part in by_remainder {
            percent[part] += left.signum();
            left -= left.signum();
        }
        percent
    }
}

/// The price of goods that cost `fresh_cents` and `hard_cents` and take `minutes` to make.
pub(super) fn calculated_price(fresh_cents: f64, hard_cents: f64, minutes: f64, rule: &PriceRule) -> Price {
    let fresh = fresh_cents * rule.fresh_times;
    let hard = hard_cents * rule.hard_times;
    let goods = fresh + hard;
    let (making, paid) = match rule.making {
        Making::ByMinute(cents) => (minutes * cents, minutes * cents),
        Making::ShareOnTop(share) => (goods * share, 0.0),
        Making::ShareOfWhole(share) => (making_from_whole(goods, share), 0.0),
    };
    Price {
        fresh,
        hard,
        making,
        cost: fresh_cents + hard_cents + paid,
        rounded: Cents::up_to(Cents::nearest(goods + making).0 as f64, rule.round_up_to),
    }
}

/// What must be added to `goods` so that it makes `share` of the whole. A share of 1 or more can never be reached, and
/// counts as nothing.
pub fn making_from_whole(goods: f64, share: f64) -> f64 {
    if (0.0..1.0).contains(&share) { goods * share / (1.0 - share) } else { 0.0 }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Currency;

    fn rule(fresh_times: f64, hard_times: f64, making: Making) -> PriceRule {
        let (round_up_to, currency) = (Cents(1), Currency::before("$"));
        PriceRule {
            fresh_times,
            hard_times,
            making,
            round_up_to,
            currency,
            tax: None,
            deposit: 0.5,
            rush: 0.25,
            holds_days: 0,
        }
    }

    /// By hand: what reads 20.00 on the till is not taken up another dollar for four tenths of a cent that nobody sees; from
    /// half a cent on it reads 20.01, and the next dollar is 21.
    #[test]
    fn a_price_is_rounded_up_from_whole_cents() {
        let rule = PriceRule { round_up_to: Cents(100), ..rule(1.0, 1.0, Making::ByMinute(0.0)) };
        let rounded = |cents| calculated_price(cents, 0.0, 0.0, &rule).rounded;
        for (cents, price) in [(2000.0, 2000), (2000.4, 2000), (2000.5, 2100), (2001.0, 2100), (1999.6, 2000)] {
            assert_eq!(rounded(cents), Cents(price), "{cents}");
        }
    }

    /// Florists' Review, January 2023, p. 61: fresh 10.00 times 3.5, vase 2.50 times 2.5, labour 20 % on top: 49.50.
    #[test]
    fn t1_florists_review_2023() {
        let price = calculated_price(1000.0, 250.0, 0.0, &rule(3.5, 2.5, Making::ShareOnTop(0.20)));
        assert_eq!((price.fresh, price.hard, price.making), (3500.0, 625.0, 825.0));
        assert_eq!(price.calculated(), Cents(4950));
    }

    /// A published bouquet example (nbuflowers.com, "How to Price Bouquet"): 12.00 times 3.5, 6.00 times 2, labour 20 %.
    #[test]
    fn t2_bouquet_example() {
        let price = calculated_price(1200.0, 600.0, 0.0, &rule(3.5, 2.0, Making::ShareOnTop(0.20)));
        assert_eq!((price.fresh + price.hard, price.making), (5400.0, 1080.0));
        assert_eq!(price.calculated(), Cents(6480));
    }

    /// A shop's published price breakdown (zuzuspetalsaustin.com, "What it costs"): five lines of flowers at retail,
    /// ribbon and pins, labour 25 % on top: 294.14.
    #[test]
    fn t3_shop_breakdown() {
        let fresh: f64 =
            [(10.0, 488.0), (5.0, 1056.0), (7.0, 1184.0), (9.0, 400.0), (5.0, 160.0)].iter().map(|(n, c)| n * c).sum();
        let hard = 665.0 + 6.0 * 3.0;
        let price = calculated_price(fresh, hard, 0.0, &rule(1.0, 1.0, Making::ShareOnTop(0.25)));
        assert_eq!((fresh, hard), (22848.0, 683.0));
        assert_eq!(Cents::nearest(price.making), Cents(5883));
        assert_eq!(price.calculated(), Cents(29414));
    }

    /// Principles of Floral Design, Goodheart-Willcox 2021, p. 191: of a price of 50, after labour 15, vase 10, fillers 12
    /// and profit 4, 9.00 is left for flowers. Worked forwards: those flowers and goods make the price again.
    #[test]
    fn t4_textbook_money_left_for_flowers() {
        let left = Cents(5000) - [1500, 1000, 1200, 400].map(Cents).into_iter().sum();
        assert_eq!(left, Cents(900));
        let goods = (900.0 + 1200.0, 1000.0 + 400.0);
        let price = calculated_price(goods.0, goods.1, 20.0, &rule(1.0, 1.0, Making::ByMinute(75.0)));
        assert_eq!(price.calculated(), Cents(5000));
    }

    /// Florists' Review, November 2007: 20 minutes at 42 an hour are 14.00.
    #[test]
    fn t5_labour_by_the_minute() {
        let price = calculated_price(0.0, 0.0, 20.0, &rule(3.0, 2.0, Making::ByMinute(4200.0 / 60.0)));
        assert_eq!(price.calculated(), Cents(1400));
    }

    /// Florists' Review, "COGS and business": a rose of 1.00 times 3 is 3.00.
    #[test]
    fn t6_a_rose_times_three() {
        assert_eq!(calculated_price(100.0, 0.0, 0.0, &rule(3.0, 2.0, Making::ByMinute(0.0))).calculated(), Cents(300));
    }

    /// Both published meanings of "25 % labour" on 75.00: on top 93.75, of the whole 100.00 (arithmetic).
    #[test]
    fn a_share_on_top_and_a_share_of_the_whole_differ() {
        let price = |making| calculated_price(7500.0, 0.0, 0.0, &rule(1.0, 1.0, making)).calculated();
        assert_eq!(price(Making::ShareOnTop(0.25)), Cents(9375));
        assert_eq!(price(Making::ShareOfWhole(0.25)), Cents(10000));
        assert_eq!(price(Making::ShareOfWhole(1.0)), Cents(7500));
    }
}
