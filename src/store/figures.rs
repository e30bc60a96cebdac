//! Figures in files: each kind with its own bounds, so that no number beyond sense gets past reading.
//!
//! A length may be a number (millimetres) or a text as people type it (`"15.5 cm"`, `"6 1/4"`). Whole numbers are
//! written without a point. Bounds are our choice: wide enough for anything that could be worn or bought.

use std::fmt;
use std::marker::PhantomData;

use serde::de::{self, Deserialize, Deserializer, Visitor};
use serde::{Serialize, Serializer};

use super::store_error;
use crate::colour::Rgb;
use crate::units::{Cents, Length};

/// The longest text in a file, letters.
pub(super) const LONGEST_TEXT: usize = 10_000;

/// The bounds of a kind of figure.
pub(super) trait Bounds: Copy + 'static {
    /// What it is, for messages.
    const WHAT: &'static str;
    /// The least that is taken.
    const LEAST: f64;
    /// The most that is taken.
    const MOST: f64;
    /// How it may be written.
    const NOTATION: Notation;
}

/// How a figure may be written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Notation {
    /// As millimetres, or as people type a length.
    Length,
    /// As a number.
    Number,
    /// As a number without a fraction.
    Whole,
}

/// A figure within the bounds of its kind.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Bounded<B>(pub(super) f64, PhantomData<B>);

impl<B> Bounded<B> {
    pub(super) fn new(value: f64) -> Self {
        Self(value, PhantomData)
    }
}

macro_rules! kinds {
    ($($(#[$doc:meta])* $name:ident = $kind:ident($what:literal, $least:literal, $most:literal, $written:ident);)+) => {$(
        #[derive(Clone, Copy, Debug, PartialEq)]
        pub(super) struct $kind;
        impl Bounds for $kind {
            const WHAT: &'static str = $what;
            const LEAST: f64 = $least;
            const MOST: f64 = $most;
            const NOTATION: Notation = Notation::$written;
        }
        $(#[$doc])*
        pub(super) type $name = Bounded<$kind>;
    )+};
}

kinds! {
    /// A length that something has, mm.
    Size = SizeKind("a length", 0.1, 500.0, Length);
    /// A part's diameter or length, mm.
    PartSize = PartSizeKind("a length", 1.0, 500.0, Length);
    /// An axis of an oval, mm.
    Axis = AxisKind("a length", 2.0, 500.0, Length);
    /// A length that may be nothing, mm.
    Extent = ExtentKind("a length", 0.0, 1000.0, Length);
    /// A distance from the centre point or along the arm, either way, mm.
    Offset = OffsetKind("a distance", -1000.0, 1000.0, Length);
    /// Length of ribbon that is charged for at once, mm.
    RibbonStep = RibbonStepKind("a length", 1.0, 10000.0, Length);
    /// An angle, degrees.
    Angle = AngleKind("an angle in degrees", -3600.0, 3600.0, Number);
    /// A share or a proportion.
    Share = ShareKind("a share", 0.0, 10.0, Number);
    /// What something is multiplied by, a weight, minutes.
    Amount = AmountKind("a number", 0.0, 1000.0, Number);
    /// Percent.
    Percent = PercentKind("a percentage", 0.0, 100.0, Number);
    /// Degrees Celsius.
    Celsius = CelsiusKind("a temperature", -50.0, 60.0, Number);
    /// Grams.
    Grams = GramsKind("a mass in grams", 0.0, 1000.0, Number);
    /// A whole number of things.
    Count = CountKind("a whole number", 0.0, 1000.0, Whole);
    /// A height allowed over the wrist, mm.
    Height = HeightKind("a length", 5.0, 200.0, Length);
    /// An age in whole years.
    Years = YearsKind("an age in years", 0.0, 130.0, Whole);
    /// A part's number.
    Number = NumberKind("a whole number", 1.0, 1_000_000_000.0, Whole);
}

/// Figures without a fraction and below four thousand million.
pub(super) trait WholeBounds: Bounds {}

impl WholeBounds for CountKind {}
impl WholeBounds for YearsKind {}
impl WholeBounds for NumberKind {}

impl<B: WholeBounds> Bounded<B> {
    /// The whole number of it.
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "the bounds of its kind fit")]
    pub(super) fn whole(self) -> u32 {
        self.0 as u32
    }
}

impl<B: Bounds> Serialize for Bounded<B> {
    #[expect(clippy::cast_possible_truncation, reason = "whole and small by the test before it")]
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        let is_whole = self.0.fract() == 0.0 && self.0.abs() < 1e15;
        if is_whole { to.serialize_i64(self.0 as i64) } else { to.serialize_f64(self.0) }
    }
}

impl<'de, B: Bounds> Deserialize<'de> for Bounded<B> {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        from.deserialize_any(BoundedVisitor(PhantomData))
    }
}

struct BoundedVisitor<B>(PhantomData<B>);

impl<B: Bounds> BoundedVisitor<B> {
    fn refused(found: &str) -> String {
        if B::NOTATION == Notation::Length {
            store_error::no_length(found, B::LEAST, B::MOST)
        } else {
            store_error::no_number(found, B::WHAT, B::LEAST, B::MOST)
        }
    }
}

impl<B: Bounds> Visitor<'_> for BoundedVisitor<B> {
    type Value = Bounded<B>;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(B::WHAT)
    }
    fn visit_u64<E: de::Error>(self, value: u64) -> Result<Self::Value, E> {
        self.visit_f64(value as f64)
    }
    fn visit_i64<E: de::Error>(self, value: i64) -> Result<Self::Value, E> {
        self.visit_f64(value as f64)
    }
    fn visit_f64<E: de::Error>(self, value: f64) -> Result<Self::Value, E> {
        let is_whole = B::NOTATION != Notation::Whole || value.fract() == 0.0;
        let fits = is_whole && (B::LEAST..=B::MOST).contains(&value);
        if fits { Ok(Bounded::new(value)) } else { Err(E::custom(Self::refused(&value.to_string()))) }
    }
    fn visit_str<E: de::Error>(self, typed: &str) -> Result<Self::Value, E> {
        let quoted = || Self::refused(&format!("\u{201c}{}\u{201d}", typed.chars().take(40).collect::<String>()));
        let (bare, sign) = typed.trim().strip_prefix('-').map_or((typed, 1.0), |rest| (rest, -1.0));
        let length = Length::parse(bare).filter(|_| B::NOTATION == Notation::Length).map(|l| l.mm() * sign);
        let fits = length.filter(|mm| (B::LEAST..=B::MOST).contains(mm));
        fits.map(Bounded::new).ok_or_else(|| E::custom(quoted()))
    }
}

/// Money, written as people write it: `18`, `18.5`, `"18.50"`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Money(pub(super) Cents);

/// The most that one thing may cost.
const DEAREST: f64 = 1_000_000.0;

impl Serialize for Money {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.serialize_f64(self.0.0 as f64 / 100.0)
    }
}

impl<'de> Deserialize<'de> for Money {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        from.deserialize_any(MoneyReader)
    }
}

struct MoneyReader;

impl Visitor<'_> for MoneyReader {
    type Value = Money;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("an amount of money")
    }
    fn visit_u64<E: de::Error>(self, value: u64) -> Result<Money, E> {
        self.visit_f64(value as f64)
    }
    fn visit_i64<E: de::Error>(self, value: i64) -> Result<Money, E> {
        self.visit_f64(value as f64)
    }
    fn visit_f64<E: de::Error>(self, value: f64) -> Result<Money, E> {
        let cents = Cents::nearest(value * 100.0);
        let is_whole = (value * 100.0 - cents.0 as f64).abs() < 1e-6;
        let fits = is_whole && (0.0..=DEAREST).contains(&value);
        if fits { Ok(Money(cents)) } else { Err(E::custom(store_error::no_money(&value.to_string()))) }
    }
    fn visit_str<E: de::Error>(self, typed: &str) -> Result<Money, E> {
        let fits = Cents::parse(typed).filter(|c| c.0 as f64 <= DEAREST * 100.0);
        let shown: String = typed.chars().take(40).collect();
        fits.map(Money).ok_or_else(|| E::custom(store_error::no_money(&format!("\u{201c}{shown}\u{201d}"))))
    }
}

/// An amount that may be below nothing: `13.5`, `-5`, `"-5.00"`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Sum(pub(super) Cents);

/// The most that any sum of an order may be, either way.
const LARGEST_SUM: f64 = 1000.0 * DEAREST;

impl Serialize for Sum {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        Money(self.0).serialize(to)
    }
}

impl<'de> Deserialize<'de> for Sum {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        from.deserialize_any(SumReader)
    }
}

struct SumReader;

impl Visitor<'_> for SumReader {
    type Value = Sum;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("an amount of money")
    }
    fn visit_u64<E: de::Error>(self, value: u64) -> Result<Sum, E> {
        self.visit_f64(value as f64)
    }
    fn visit_i64<E: de::Error>(self, value: i64) -> Result<Sum, E> {
        self.visit_f64(value as f64)
    }
    fn visit_f64<E: de::Error>(self, value: f64) -> Result<Sum, E> {
        // Wider than for one price: f64 holds the largest sums to a hundredth of a thousandth of a cent.
        let cents = Cents::nearest(value * 100.0);
        let is_whole = (value * 100.0 - cents.0 as f64).abs() < 1e-3;
        let fits = is_whole && value.abs() <= LARGEST_SUM;
        if fits { Ok(Sum(cents)) } else { Err(E::custom(store_error::no_money(&value.to_string()))) }
    }
    fn visit_str<E: de::Error>(self, typed: &str) -> Result<Sum, E> {
        let (bare, turned) = typed.trim().strip_prefix('-').map_or((typed, false), |rest| (rest, true));
        let shown: String = typed.chars().take(40).collect();
        let sum = Cents::parse(bare).map(|c| Sum(if turned { -c } else { c }));
        sum.ok_or_else(|| E::custom(store_error::no_money(&format!("\u{201c}{shown}\u{201d}"))))
    }
}

/// A text that is not too long.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[serde(transparent)]
pub(super) struct Text(pub(super) String);

impl Text {
    /// Whether there is nothing in it.
    pub(super) fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
}

impl<'de> Deserialize<'de> for Text {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let text = String::deserialize(from)?;
        let letters = text.chars().count();
        if letters > LONGEST_TEXT {
            return Err(de::Error::custom(store_error::too_long(letters, LONGEST_TEXT)));
        }
        Ok(Self(text))
    }
}

/// A colour as `"#rrggbb"`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Hex(pub(super) Rgb);

impl Serialize for Hex {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.serialize_str(&self.0.text())
    }
}

impl<'de> Deserialize<'de> for Hex {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let text = Text::deserialize(from)?.0;
        let shown: String = text.chars().take(40).collect();
        Rgb::parse(&text).map(Self).ok_or_else(|| de::Error::custom(store_error::no_colour(&shown)))
    }
}

/// Months in trade: `"all"`, or months by number as in `"2-6"`, `"10-4"`, `"3, 5-7"`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Months(pub(super) [bool; 12]);

impl Serialize for Months {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.serialize_str(&words_of_months(&self.0))
    }
}

impl<'de> Deserialize<'de> for Months {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let text = Text::deserialize(from)?.0;
        let shown: String = text.chars().take(40).collect();
        months(&text).map(Self).ok_or_else(|| de::Error::custom(store_error::no_months(&shown)))
    }
}

fn months(text: &str) -> Option<[bool; 12]> {
    let text = text.trim();
    if text == "all" {
        return Some([true; 12]);
    }
    let month = |t: &str| t.trim().parse::<usize>().ok().filter(|m| (1..=12).contains(m));
    let mut found = [false; 12];
    for span in text.split(',') {
        let (from, to) = span.split_once('-').unwrap_or((span, span));
        let (from, to) = (month(from)?, month(to)?);
        let n = (to + 12 - from) % 12;
        for i in 0..=n {
            found[(from - 1 + i) % 12] = true;
        }
    }
    Some(found)
}

/// Months as a file has them: spans, the one over the turn of the year last.
fn words_of_months(months: &[bool; 12]) -> String {
    if months.iter().all(|m| *m) {
        return "all".to_owned();
    }
    let begins = (0..12).filter(|&m| months[m] && !months[(m + 11) % 12]);
    let spans = begins.map(|from| {
        let n = (0..12).take_while(|i| months[(from + i) % 12]).count();
        if n == 1 { format!("{}", from + 1) } else { format!("{}-{}", from + 1, (from + n - 1) % 12 + 1) }
    });
    spans.collect::<Vec<_>>().join(", ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn months_may_run_over_the_turn_of_the_year() {
        let numbers = |text| -> Option<Vec<usize>> {
            Some((1..=12).filter(|&m| months(text).is_some_and(|s| s[m - 1])).collect())
        };
        assert_eq!(numbers("10-2"), Some(vec![1, 2, 10, 11, 12]));
        assert_eq!(numbers("3, 5-7"), Some(vec![3, 5, 6, 7]));
        assert_eq!(months("all"), Some([true; 12]));
        for text in ["", "0", "13", "2-", "x", "2-6-8", ","] {
            assert_eq!(months(text), None, "{text}");
        }
    }

    /// All 4095 choices of months, written and read.
    #[test]
    fn months_are_read_as_they_were_written() {
        for bits in 1..4096_u16 {
            let chosen: [bool; 12] = std::array::from_fn(|m| bits >> m & 1 == 1);
            assert_eq!(months(&words_of_months(&chosen)), Some(chosen), "{}", words_of_months(&chosen));
        }
        assert_eq!(words_of_months(&std::array::from_fn(|m| m < 2 || m > 8)), "10-2");
    }

    #[test]
    fn lengths_may_be_typed_and_have_bounds() {
        let read = |text: &str| ron::from_str::<Size>(text).map(|s| s.0).ok();
        assert_eq!(
            (read("30"), read("30.5"), read("\"3 cm\""), read("\"2 1/2\"")),
            (Some(30.0), Some(30.5), Some(30.0), Some(63.5))
        );
        for text in [
            "0",
            "-1",
            "501",
            "NaN",
            "inf",
            "-inf",
            "1e999",
            "\"\"",
            "\"-3 cm\"",
            "\"wide\"",
            "ten",
            "[1]",
            "()",
            "true",
        ] {
            assert_eq!(read(text), None, "{text}");
        }
        assert_eq!(ron::from_str::<Offset>("\"-1/2 in\"").unwrap().0, -12.7);
    }

    #[test]
    fn money_has_two_digits_after_the_point() {
        let read = |text: &str| ron::from_str::<Money>(text).map(|m| m.0.0).ok();
        assert_eq!(
            (read("18"), read("18.5"), read("0.35"), read("\"$18.50\"")),
            (Some(1800), Some(1850), Some(35), Some(1850))
        );
        for text in ["-1", "0.005", "NaN", "inf", "1e12", "\"free\""] {
            assert_eq!(read(text), None, "{text}");
        }
    }
}
