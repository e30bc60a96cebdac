//! Whole cents, and the one place where a calculated amount becomes whole.

use std::fmt;
use std::iter::Sum;
use std::ops::{Add, Neg, Sub};

use super::currency::without_common_sign;
use super::decimal::with_a_point;
use super::nearest_whole;

/// Money in whole cents of the shop's currency.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Cents(pub i64);

/// Calculated cents are first cut to this many parts of a cent, so that 42.5 calculated as 42.499 999 999 9 still counts as
/// a half. Our choice: far below any price, far above f64 noise on sums of a few hundred lines.
const PARTS_OF_A_CENT: f64 = 1e6;

impl Cents {
    /// The amount nearest to `exact` cents; halves go away from zero, as tills do. Not-a-number counts as nothing.
    pub fn nearest(exact: f64) -> Self {
        Self(nearest_whole(clean(exact)))
    }

    /// `exact` cents taken up to the next whole `step`; an amount already on a step stays.
    pub fn up_to(exact: f64, step: Self) -> Self {
        let step = step.0.max(1);
        Self(nearest_whole((clean(exact) / step as f64).ceil()).saturating_mul(step))
    }

    /// As people type it, whichever decimal mark their keys have: what [`parse`](Self::parse) reads, and `18,50`.
    pub fn typed(text: &str) -> Option<Self> {
        Self::parse(&with_a_point(text))
    }

    /// As files have it: `18`, `18.5`, `18.50`, `$18.50`, `18 kr`; nothing else.
    pub fn parse(text: &str) -> Option<Self> {
        let bare = without_common_sign(text);
        let (whole, part) = bare.split_once('.').unwrap_or((bare, ""));
        let digits = |s: &str| !s.is_empty() && s.bytes().all(|b| b.is_ascii_digit());
        if !digits(whole) || whole.len() > 9 || part.len() > 2 || !(part.is_empty() || digits(part)) {
            return None;
        }
        let whole: i64 = whole.parse().ok()?;
        let part: i64 = format!("{part:0<2}").parse().ok()?;
        Some(Self(whole * 100 + part))
    }
}

fn clean(exact: f64) -> f64 {
    (exact * PARTS_OF_A_CENT).round() / PARTS_OF_A_CENT
}

/// `20.00`, `-1.43`; the currency sign is the caller's.
impl fmt::Display for Cents {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let sign = if self.0 < 0 { "-" } else { "" };
        let n = self.0.unsigned_abs();
        write!(f, "{sign}{}.{:02}", n / 100, n % 100)
    }
}

impl Add for Cents {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0.saturating_add(other.0))
    }
}
impl Sub for Cents {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0.saturating_sub(other.0))
    }
}
impl Neg for Cents {
    type Output = Self;
    fn neg(self) -> Self {
        Self(self.0.saturating_neg())
    }
}
impl Sum for Cents {
    fn sum<I: Iterator<Item = Self>>(amounts: I) -> Self {
        amounts.fold(Self(0), Add::add)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_half_cent_goes_up_even_when_the_sum_fell_a_hair_short() {
        assert_eq!(Cents::nearest(2142.5), Cents(2143));
        assert_eq!(Cents::nearest(2_142.499_999_999_9), Cents(2143));
        assert_eq!(Cents::nearest(-142.5), Cents(-143));
        assert_eq!(Cents::nearest(f64::NAN), Cents(0));
    }

    #[test]
    fn rounding_up_leaves_a_whole_amount_alone() {
        assert_eq!(Cents::up_to(1936.25, Cents(100)), Cents(2000));
        assert_eq!(Cents::up_to(2000.0, Cents(100)), Cents(2000));
        assert_eq!(Cents::up_to(2_000.000_000_000_1, Cents(100)), Cents(2000));
    }

    #[test]
    fn prices_parse_as_typed_and_print_with_two_digits() {
        for (text, cents) in [
            ("18", 1800),
            ("18.5", 1850),
            ("$18.50", 1850),
            ("18.50\u{a0}\u{20ac}", 1850),
            ("CHF 18", 1800),
            (" 0.05 ", 5),
        ] {
            assert_eq!(Cents::parse(text), Some(Cents(cents)), "{text}");
        }
        for text in ["", "-3", "1.234", "1,20", "abc", "1e5", ".5", "99999999999"] {
            assert_eq!(Cents::parse(text), None, "{text}");
        }
        assert_eq!(Cents(-143).to_string(), "-1.43");
        for (text, cents) in [("6,50", 650), ("6.50", 650), ("6,5\u{a0}\u{20ac}", 650), ("36", 3600)] {
            assert_eq!(Cents::typed(text), Some(Cents(cents)), "{text}");
        }
        for text in ["1,234", "1.234,50", "1,2,3", ",5", "6,"] {
            assert_eq!(Cents::typed(text), if text == "6," { Some(Cents(600)) } else { None }, "{text}");
        }
    }
}
