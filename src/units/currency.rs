//! The sign of a currency, its place and its decimal mark: how a sum is written.

use super::DecimalMark;

/// How the shop writes a sum: `$36.50`, `36,50 €`, `CHF 36.50`.
#[derive(Clone, Debug, Default, PartialEq, Eq, Hash)]
pub struct Currency {
    /// The sign or the letters: `$`, `kr`. May be empty: then a sum is a bare number.
    pub sign: String,
    /// Whether it stands behind the amount.
    pub after: bool,
    /// What stands before the cents.
    pub decimal: DecimalMark,
}

/// Signs that are offered, each with its ISO 4217 codes, where most of its users write it and their decimal mark, as Unicode CLDR has it for
/// en-US, en-GB, de-DE, de-CH, sv-SE, pl-PL, cs-CZ, hu-HU, ja-JP and pt-BR; from memory.
pub const COMMON_CURRENCIES: [CommonCurrency; 10] = [
    CommonCurrency { sign: "$", after: false, decimal: DecimalMark::Point, codes: "USD, CAD, AUD, NZD" },
    CommonCurrency { sign: "\u{a3}", after: false, decimal: DecimalMark::Point, codes: "GBP" },
    CommonCurrency { sign: "\u{20ac}", after: true, decimal: DecimalMark::Comma, codes: "EUR" },
    CommonCurrency { sign: "CHF", after: false, decimal: DecimalMark::Point, codes: "CHF" },
    CommonCurrency { sign: "kr", after: true, decimal: DecimalMark::Comma, codes: "SEK, NOK, DKK" },
    CommonCurrency { sign: "z\u{142}", after: true, decimal: DecimalMark::Comma, codes: "PLN" },
    CommonCurrency { sign: "K\u{10d}", after: true, decimal: DecimalMark::Comma, codes: "CZK" },
    CommonCurrency { sign: "Ft", after: true, decimal: DecimalMark::Comma, codes: "HUF" },
    CommonCurrency { sign: "\u{a5}", after: false, decimal: DecimalMark::Point, codes: "JPY, CNY" },
    CommonCurrency { sign: "R$", after: false, decimal: DecimalMark::Comma, codes: "BRL" },
];

/// A sign that many shops use.
#[derive(Clone, Copy, Debug)]
pub struct CommonCurrency {
    /// The sign.
    pub sign: &'static str,
    /// Whether it mostly stands behind the amount.
    pub after: bool,
    /// What mostly stands before the cents.
    pub decimal: DecimalMark,
    /// Which currencies have it.
    pub codes: &'static str,
}

impl CommonCurrency {
    /// As it is written.
    pub fn currency(&self) -> Currency {
        Currency { sign: self.sign.to_owned(), after: self.after, decimal: self.decimal }
    }
}

/// Keeps a sign and its amount on one line.
const NO_BREAK: char = '\u{a0}';

impl Currency {
    /// A sign before the amount.
    pub fn before(sign: &str) -> Self {
        Self { sign: sign.to_owned(), after: false, decimal: Self::usual_decimal(false) }
    }

    /// A sign behind the amount.
    pub fn behind(sign: &str) -> Self {
        Self { sign: sign.to_owned(), after: true, decimal: Self::usual_decimal(true) }
    }

    /// The decimal mark of most who write the sign there; a shop says so where its own is another.
    pub fn usual_decimal(after: bool) -> DecimalMark {
        if after { DecimalMark::Comma } else { DecimalMark::Point }
    }

    /// An amount, `36` or `36.50`, with its sign and the shop's decimal mark. Behind it there is a space, before it one where the sign ends in a letter or a point: the
    /// patterns of most languages and the rule `currencySpacing` of Unicode CLDR (UTS 35, part 3), from memory.
    pub fn with(&self, amount: &str) -> String {
        let (sign, amount) = (self.sign.trim(), self.decimal.written(amount));
        let is_apart = sign.ends_with(|c: char| c.is_alphanumeric() || c == '.');
        match (self.after, is_apart) {
            _ if sign.is_empty() => amount,
            (true, _) => format!("{amount}{NO_BREAK}{sign}"),
            (false, true) => format!("{sign}{NO_BREAK}{amount}"),
            (false, false) => format!("{sign}{amount}"),
        }
    }

    /// What was typed without the sign.
    pub fn without<'a>(&self, typed: &'a str) -> &'a str {
        let typed = typed.trim();
        without_sign(typed, self.sign.trim()).unwrap_or(typed)
    }
}

/// What was typed without any of the signs that many shops use.
pub(super) fn without_common_sign(typed: &str) -> &str {
    let typed = typed.trim();
    COMMON_CURRENCIES.iter().find_map(|common| without_sign(typed, common.sign)).unwrap_or(typed)
}

fn without_sign<'a>(typed: &'a str, sign: &str) -> Option<&'a str> {
    let bare = typed.strip_prefix(sign).or_else(|| typed.strip_suffix(sign));
    bare.map(str::trim).filter(|_| !sign.is_empty())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// As CLDR writes them in en-US, de-DE, de-CH, nb-NO and pl-PL; from memory.
    #[test]
    fn a_sign_stands_where_its_language_puts_it() {
        for (currency, written) in [
            (Currency::before("$"), "$36"),
            (Currency::behind("\u{20ac}"), "36\u{a0}\u{20ac}"),
            (Currency::before("CHF"), "CHF\u{a0}36"),
            (Currency::behind("z\u{142}"), "36\u{a0}z\u{142}"),
            (Currency::before("CA$"), "CA$36"),
            (Currency::before("Rs."), "Rs.\u{a0}36"),
            (Currency::before("  "), "36"),
            (Currency::default(), "36"),
        ] {
            assert_eq!(currency.with("36"), written);
            assert_eq!(currency.without(written), "36", "{written}");
        }
    }

    /// As CLDR writes them in en-US, en-IE, de-DE, pl-PL, de-CH and pt-BR; from memory.
    #[test]
    fn cents_stand_behind_the_mark_of_the_shop() {
        let euro = |after, decimal| Currency { sign: "\u{20ac}".to_owned(), after, decimal };
        for (currency, written) in [
            (Currency::before("$"), "$36.50"),
            (euro(false, DecimalMark::Point), "\u{20ac}36.50"),
            (Currency::behind("\u{20ac}"), "36,50\u{a0}\u{20ac}"),
            (euro(true, DecimalMark::Point), "36.50\u{a0}\u{20ac}"),
            (Currency::behind("z\u{142}"), "36,50\u{a0}z\u{142}"),
            (Currency::before("CHF"), "CHF\u{a0}36.50"),
        ] {
            assert_eq!(currency.with("36.50"), written);
        }
        for common in COMMON_CURRENCIES {
            let mark = if common.decimal == DecimalMark::Comma { "6,50" } else { "6.50" };
            assert!(common.currency().with("6.50").contains(mark), "{}", common.codes);
        }
    }
}
