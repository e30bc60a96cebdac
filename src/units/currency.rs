//! The sign of a currency and its place: how a sum is written.

/// How the shop writes a sum: `$36`, `36 €`, `CHF 36`.
#[derive(Clone, Debug, Default, PartialEq, Eq, Hash)]
pub struct Currency {
    /// The sign or the letters: `$`, `kr`. May be empty: then a sum is a bare number.
    pub sign: String,
    /// Whether it stands behind the amount.
    pub after: bool,
}

/// Signs that are offered, each with its ISO 4217 codes and where most of its users write it, as Unicode CLDR has it for
/// en-US, en-GB, de-DE, de-CH, sv-SE, pl-PL, cs-CZ, hu-HU, ja-JP and pt-BR; from memory.
pub const COMMON_CURRENCIES: [CommonCurrency; 10] = [
    CommonCurrency { sign: "$", after: false, codes: "USD, CAD, AUD, NZD" },
    CommonCurrency { sign: "\u{a3}", after: false, codes: "GBP" },
    CommonCurrency { sign: "\u{20ac}", after: true, codes: "EUR" },
    CommonCurrency { sign: "CHF", after: false, codes: "CHF" },
    CommonCurrency { sign: "kr", after: true, codes: "SEK, NOK, DKK" },
    CommonCurrency { sign: "z\u{142}", after: true, codes: "PLN" },
    CommonCurrency { sign: "K\u{10d}", after: true, codes: "CZK" },
    CommonCurrency { sign: "Ft", after: true, codes: "HUF" },
    CommonCurrency { sign: "\u{a5}", after: false, codes: "JPY, CNY" },
    CommonCurrency { sign: "R$", after: false, codes: "BRL" },
];

/// A sign that many shops use.
#[derive(Clone, Copy, Debug)]
pub struct CommonCurrency {
    /// The sign.
    pub sign: &'static str,
    /// Whether it mostly stands behind the amount.
    pub after: bool,
    /// Which currencies have it.
    pub codes: &'static str,
}

impl CommonCurrency {
    /// As it is written.
    pub fn currency(&self) -> Currency {
        Currency { sign: self.sign.to_owned(), after: self.after }
    }
}

/// Keeps a sign and its amount on one line.
const NO_BREAK: char = '\u{a0}';

impl Currency {
    /// A sign before the amount.
    pub fn before(sign: &str) -> Self {
        Self { sign: sign.to_owned(), after: false }
    }

    /// A sign behind the amount.
    pub fn behind(sign: &str) -> Self {
        Self { sign: sign.to_owned(), after: true }
    }

    /// An amount with its sign. Behind it there is a space, before it one where the sign ends in a letter or a point: the
    /// patterns of most languages and the rule `currencySpacing` of Unicode CLDR (UTS 35, part 3), from memory.
    pub fn with(&self, amount: &str) -> String {
        let sign = self.sign.trim();
        let is_apart = sign.ends_with(|c: char| c.is_alphanumeric() || c == '.');
        match (self.after, is_apart) {
            _ if sign.is_empty() => amount.to_owned(),
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
}
