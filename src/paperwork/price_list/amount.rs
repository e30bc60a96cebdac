//! Amounts as price lists write them: `12.50`, `12,50`, `1.234,50`, `1 234,50`, `1'234.50`, `EUR 12,50`, `(3.00)`.

use crate::units::DecimalMark;

/// Why an amount was not taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AmountFault {
    /// Nothing is written.
    Missing,
    /// It cannot be read.
    NoNumber,
    /// It is nothing.
    Zero,
    /// It is below nothing.
    Negative,
    /// It is more than a million.
    TooDear,
}

/// Most digits before the mark, after thousands are put together; our choice, a million and far from the bounds of i64.
const MOST_DIGITS: usize = 7;

/// An amount in ten-thousandths of a unit of money, so that a price of a stem of 0.385 is whole. More digits are refused.
pub(super) fn amount(cell: &str, mark: DecimalMark) -> Result<i64, AmountFault> {
    let cell = cell.trim();
    if cell.is_empty() || cell == "-" {
        return Err(AmountFault::Missing);
    }
    let is_negative = cell.starts_with(['-', '\u{2212}', '(']) || cell.ends_with('-');
    let bare = without_currency(cell).ok_or(AmountFault::NoNumber)?;
    let (decimal, thousands) = mark.letters();
    let (whole, part) = bare.split_once(decimal).unwrap_or((&bare, ""));
    let whole = joined(whole, thousands).ok_or(AmountFault::NoNumber)?;
    let is_part = part.len() <= 4 && part.bytes().all(|b| b.is_ascii_digit());
    if !is_part || whole.is_empty() && part.is_empty() {
        return Err(AmountFault::NoNumber);
    }
    if whole.len() > MOST_DIGITS {
        return Err(AmountFault::TooDear);
    }
    let found: i64 = format!("{whole}{part:0<4}").parse().ok().ok_or(AmountFault::NoNumber)?;
    match found {
        0 => Err(AmountFault::Zero),
        _ if is_negative => Err(AmountFault::Negative),
        _ if found > 1_000_000 * 10_000 => Err(AmountFault::TooDear),
        _ => Ok(found),
    }
}

/// Digits and marks alone, where everything else is a sign, a currency or a space.
fn without_currency(cell: &str) -> Option<String> {
    /// Letters of a currency's code, or of its word: `EUR`, `kr.`, `Fr.`
    const MOST_LETTERS: usize = 4;
    let letters = cell.chars().filter(|c| c.is_alphabetic()).count();
    let bare: String =
        cell.chars().filter(|c| c.is_ascii_digit() || matches!(c, '.' | ',' | '\'' | '\u{2019}')).collect();
    let spaced = cell.trim_matches(|c: char| !c.is_ascii_digit());
    let is_one = !spaced.contains(|c: char| c.is_alphabetic() || matches!(c, '-' | '/' | '%' | ':'));
    let edges = bare.trim_start_matches('.').trim_end_matches(['.', ',']);
    (letters <= MOST_LETTERS && is_one && !cell.contains('%') && !edges.is_empty()).then(|| {
        // A point that belongs to the currency (`kr. 12,50`) stands before the first digit, after which no digit is missing.
        if letters > 0 { edges.to_owned() } else { bare.clone() }
    })
}

/// Digits with thousands put together; every group behind the first has three.
fn joined(whole: &str, thousands: char) -> Option<String> {
    let plain = whole.replace(['\'', '\u{2019}'], &thousands.to_string());
    let mut groups = plain.split(thousands);
    let first = groups.next().unwrap_or_default();
    let is_group = |group: &str| group.len() == 3 && group.bytes().all(|b| b.is_ascii_digit());
    let rest: Vec<&str> = groups.collect();
    let reads = first.bytes().all(|b| b.is_ascii_digit()) && rest.iter().all(|g| is_group(g));
    let digits = format!("{first}{}", rest.concat());
    reads
        .then(|| digits.trim_start_matches('0').to_owned())
        .map(|d| if d.is_empty() && !digits.is_empty() { "0".into() } else { d })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn amounts_read_as_lists_write_them() {
        use AmountFault as F;
        use DecimalMark::{Comma, Point};
        for (cell, mark, found) in [
            ("18", Point, Ok(180_000)),
            ("18.50", Point, Ok(185_000)),
            ("$18.50", Point, Ok(185_000)),
            ("18,50 \u{20ac}", Comma, Ok(185_000)),
            ("EUR 18,50", Comma, Ok(185_000)),
            ("kr. 18,50", Comma, Ok(185_000)),
            ("18.50 kr.", Point, Ok(185_000)),
            ("1.234,50", Comma, Ok(12_345_000)),
            ("1,234.50", Point, Ok(12_345_000)),
            ("1\u{a0}234,50", Comma, Ok(12_345_000)),
            ("1'234.50", Point, Ok(12_345_000)),
            ("1.234", Comma, Ok(12_340_000)),
            ("0.385", Point, Ok(3_850)),
            (".5", Point, Ok(5_000)),
            ("", Point, Err(F::Missing)),
            ("  ", Comma, Err(F::Missing)),
            ("0", Point, Err(F::Zero)),
            ("0,00", Comma, Err(F::Zero)),
            ("-3.00", Point, Err(F::Negative)),
            ("(3.00)", Point, Err(F::Negative)),
            ("\u{2212}3", Point, Err(F::Negative)),
            ("3.00-", Point, Err(F::Negative)),
            ("abc", Point, Err(F::NoNumber)),
            ("on request", Point, Err(F::NoNumber)),
            ("12/15", Point, Err(F::NoNumber)),
            ("10-12", Point, Err(F::NoNumber)),
            ("5%", Point, Err(F::NoNumber)),
            ("12.34.56", Point, Err(F::NoNumber)),
            ("1,2", Point, Err(F::NoNumber)),
            ("1000000.01", Point, Err(F::TooDear)),
            ("99999999999999999999", Point, Err(F::TooDear)),
        ] {
            assert_eq!(amount(cell, mark), found, "{cell} {mark:?}");
        }
    }

    #[test]
    fn the_mark_is_guessed_from_what_could_be_no_other() {
        for (cells, mark) in [
            (&["12,50", "8,00"][..], DecimalMark::Comma),
            (&["12.50", "1,234.00"], DecimalMark::Point),
            (&["1.234,50"], DecimalMark::Comma),
            (&["1.234", "5,5"], DecimalMark::Comma),
            (&["12", "abc", ""], DecimalMark::Point),
        ] {
            assert_eq!(DecimalMark::guess(cells.iter().copied()), mark, "{cells:?}");
        }
    }
}
