//! The fields of the shop page: what each is called, what stands in it, and what becomes of what is typed.

use crate::app::typing::taps::PageKeys;
use crate::store::ShopDetails;
use crate::units::{COMMON_CURRENCIES, with_a_point};

/// A field in which words are typed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum ShopField {
    Name,
    Address,
    Phone,
    Email,
    Web,
    TaxNumber,
    Hours,
    Sign,
    TaxName,
    /// A figure: what is typed may not be one.
    TaxPercent,
}

impl ShopField {
    /// What it is called, on the screen and by a screen reader.
    pub(crate) fn name(self) -> &'static str {
        match self {
            Self::Name => "Shop name",
            Self::Address => "Address",
            Self::Phone => "Phone",
            Self::Email => "E-mail",
            Self::Web => "Web page",
            Self::TaxNumber => "Tax number",
            Self::Hours => "Opening hours",
            Self::Sign => "Own sign",
            Self::TaxName => "Tax name",
            Self::TaxPercent => "Tax percent",
        }
    }

    /// What stands in it, pale, while it is empty.
    pub(crate) fn hint(self) -> &'static str {
        match self {
            Self::Name => "as it stands over the door",
            Self::Address => "street and number\ntown",
            Self::Phone => "555-0142",
            Self::Email => "name@shop.example",
            Self::Web => "shop.example",
            Self::TaxNumber => "as your tax office gave it",
            Self::Hours => "Tue to Sat, 9 am to 5 pm",
            Self::Sign => "other",
            Self::TaxName => "VAT",
            Self::TaxPercent => "0",
        }
    }

    /// The most letters that it takes.
    pub(crate) fn longest(self) -> usize {
        match self {
            Self::Address | Self::Hours => 300,
            Self::Name | Self::Email | Self::Web => 120,
            Self::Phone | Self::TaxNumber => 60,
            Self::TaxName => 20,
            Self::Sign => 6,
            Self::TaxPercent => 12,
        }
    }

    /// The keys on the screen that it needs.
    pub(crate) fn keys(self) -> PageKeys {
        match self {
            Self::Name => PageKeys::Names,
            Self::Address | Self::Hours => PageKeys::Lines,
            Self::Phone | Self::Email | Self::Web | Self::TaxNumber | Self::Sign | Self::TaxName => PageKeys::Words,
            Self::TaxPercent => PageKeys::Figures,
        }
    }

    /// Whether it has lines.
    pub(crate) fn has_lines(self) -> bool {
        matches!(self, Self::Address | Self::Hours)
    }

    /// What stands in it.
    pub(crate) fn shown(self, details: &ShopDetails) -> String {
        let head = &details.letterhead;
        let tax = details.money.as_ref().and_then(|money| money.tax.as_ref());
        let decimal = details.money.as_ref().map(|money| money.currency.decimal).unwrap_or_default();
        match self {
            Self::Name => head.name.clone(),
            Self::Address => head.address.join("\n"),
            Self::Phone => head.phone.clone(),
            Self::Email => head.email.clone(),
            Self::Web => head.web.clone(),
            Self::TaxNumber => head.tax_number.clone(),
            Self::Hours => head.hours.join("\n"),
            // A sign that has a button stands on it.
            Self::Sign => {
                let sign = details.money.as_ref().map(|money| money.currency.sign.clone()).unwrap_or_default();
                if COMMON_CURRENCIES.iter().any(|common| common.sign == sign) { String::new() } else { sign }
            }
            Self::TaxName => tax.map(|tax| tax.name.clone()).unwrap_or_default(),
            Self::TaxPercent => tax.map(|tax| decimal.written(&tax.percent.to_string())).unwrap_or_default(),
        }
    }

    /// The details with these words there, or why they cannot be taken.
    pub(crate) fn written(self, words: &str, details: &ShopDetails) -> Result<ShopDetails, &'static str> {
        let mut after = details.clone();
        let head = &mut after.letterhead;
        let lines = || words.split('\n').map(str::to_owned).filter(|_| !words.trim().is_empty()).collect();
        match self {
            Self::Name => words.clone_into(&mut head.name),
            Self::Address => head.address = lines(),
            Self::Phone => words.clone_into(&mut head.phone),
            Self::Email => words.clone_into(&mut head.email),
            Self::Web => words.clone_into(&mut head.web),
            Self::TaxNumber => words.clone_into(&mut head.tax_number),
            Self::Hours => head.hours = lines(),
            Self::Sign => after.money.iter_mut().for_each(|m| words.trim().clone_into(&mut m.currency.sign)),
            Self::TaxName => {
                let taxes = after.money.iter_mut().filter_map(|money| money.tax.as_mut());
                taxes.for_each(|tax| words.clone_into(&mut tax.name));
            }
            Self::TaxPercent => {
                let percent = percent_in(words).ok_or(NO_PERCENT)?;
                let taxes = after.money.iter_mut().filter_map(|money| money.tax.as_mut());
                taxes.for_each(|tax| tax.percent = percent);
            }
        }
        Ok(after)
    }
}

const NO_PERCENT: &str = "Tax is a number from 0 to 100.";

/// `8.25`, `8,25 %`; nothing typed is nothing.
fn percent_in(words: &str) -> Option<f64> {
    let bare = with_a_point(words.trim().trim_end_matches('%').trim());
    let is_plain = bare.bytes().all(|b| b.is_ascii_digit() || b == b'.');
    let percent = if bare.is_empty() { Some(0.0) } else { bare.parse().ok() };
    percent.filter(|percent| is_plain && (0.0..=100.0).contains(percent))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::piece::{Tax, TaxHow};
    use crate::store::ShopMoney;

    #[test]
    fn what_is_written_in_a_field_of_the_shop_stands_there_afterwards() {
        let tax = Some(Tax { name: String::new(), percent: 0.0, how: TaxHow::Added });
        let blank = ShopDetails { money: Some(ShopMoney { tax, ..ShopMoney::default() }), ..ShopDetails::default() };
        for (field, words) in [
            (ShopField::Name, "Quillfern Flowers"),
            (ShopField::Address, "12 Quill Lane\nFernhaven"),
            (ShopField::Phone, "555-0142"),
            (ShopField::Email, "hello@quillfern.example"),
            (ShopField::Web, "quillfern.example"),
            (ShopField::TaxNumber, "00-0000142"),
            (ShopField::Hours, "Tue to Sat\n9 to 5"),
            (ShopField::Sign, "Fr"),
            (ShopField::TaxName, "VAT"),
            (ShopField::TaxPercent, "8.25"),
        ] {
            let after = field.written(words, &blank).unwrap();
            assert_eq!(field.shown(&after), words, "{}", field.name());
            assert!(words.chars().count() <= field.longest(), "{}", field.name());
        }
        for (words, percent) in
            [("20", Some(20.0)), ("8,25 %", Some(8.25)), ("", Some(0.0)), ("101", None), ("-1", None)]
        {
            assert_eq!(percent_in(words), percent, "{words}");
        }
        for words in ["1e2", "ten", "NaN", "1.2.3"] {
            assert_eq!(ShopField::TaxPercent.written(words, &blank), Err(NO_PERCENT), "{words}");
        }
    }
}
