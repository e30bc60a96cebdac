//! What a shop says of itself, and the file `shop.ron` that says it.
//!
//! Version 2 added everything but the name and the style, version 3 the decimal comma. A file that says nothing of money leaves that to the style, as
//! version 1 did; once the shop has said it, it goes before any style.

use serde::{Deserialize, Serialize};

use super::figures::Text;
use super::keywords::Keyword;
use super::price_lines::TaxRuleLine;
use super::reading::Versioned;
use crate::book::{DateStyle, HourStyle, Letterhead, Written};
use crate::piece::{PriceRule, Tax};
use crate::units::{Currency, DecimalMark};

/// What a shop says of itself.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ShopDetails {
    /// What its clients read.
    pub letterhead: Letterhead,
    /// The file of its logo, a name in the shop's folder.
    pub logo_file: Option<String>,
    /// Its money; none where the style says it.
    pub money: Option<ShopMoney>,
    /// How it writes days and hours.
    pub written: Written,
}

/// How a shop writes its prices, and what tax is on them.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ShopMoney {
    /// The sign and its place.
    pub currency: Currency,
    /// The tax, where there is one.
    pub tax: Option<Tax>,
}

impl ShopMoney {
    /// As a style has it.
    pub fn of(prices: &PriceRule) -> Self {
        Self { currency: prices.currency.clone(), tax: prices.tax.clone() }
    }

    /// Puts it in the place of what a style says; a tax of nothing is none.
    pub fn put_into(&self, prices: &mut PriceRule) {
        prices.currency.clone_from(&self.currency);
        prices.tax = self.tax.clone().filter(|tax| tax.percent > 0.0);
    }
}

/// What `shop.ron` says.
#[derive(Default, Deserialize, Serialize)]
#[serde(default, deny_unknown_fields)]
pub(super) struct ShopFile {
    version: u64,
    name: Text,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    address: Vec<Text>,
    #[serde(skip_serializing_if = "Text::is_empty")]
    phone: Text,
    #[serde(skip_serializing_if = "Text::is_empty")]
    email: Text,
    #[serde(skip_serializing_if = "Text::is_empty")]
    web: Text,
    #[serde(skip_serializing_if = "Text::is_empty")]
    tax_number: Text,
    /// When it is open, a line each.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    hours: Vec<Text>,
    /// The name of a file beside this one.
    #[serde(skip_serializing_if = "Option::is_none")]
    logo: Option<Text>,
    /// Whether the name stands below pictures.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    name_on_pictures: bool,
    #[serde(skip_serializing_if = "Option::is_none")]
    currency: Option<CurrencyLine>,
    #[serde(skip_serializing_if = "Option::is_none")]
    tax: Option<TaxRuleLine>,
    /// How a day is written; told only where it is not the usual way.
    #[serde(skip_serializing_if = "Option::is_none")]
    dates: Option<Keyword<DateStyle>>,
    /// How an hour is written, likewise.
    #[serde(skip_serializing_if = "Option::is_none")]
    clock: Option<Keyword<HourStyle>>,
    /// The style in `styles/` that is used, without its ending.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) style: Option<Text>,
}

/// `(sign: "€", after: true, decimal: comma)`; a file without a decimal mark has a point, as all had before version 3.
#[derive(Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
struct CurrencyLine {
    sign: Text,
    #[serde(default)]
    after: bool,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    decimal: Option<Keyword<DecimalMark>>,
}

impl Versioned for ShopFile {
    const KIND: &'static str = "shop";
    const NEWEST: u64 = 3;
}

impl ShopFile {
    /// The file of a shop; `style` is the name of its own style.
    pub(super) fn of(details: &ShopDetails, style: Option<Text>) -> Self {
        let Letterhead { name, address, phone, email, web, tax_number, hours, logo: _, on_picture } =
            &details.letterhead;
        let text = |words: &String| Text(words.clone());
        let mut file = Self {
            version: 1,
            name: text(name),
            address: address.iter().map(text).collect(),
            phone: text(phone),
            email: text(email),
            web: text(web),
            tax_number: text(tax_number),
            hours: hours.iter().map(text).collect(),
            logo: details.logo_file.as_ref().map(text),
            name_on_pictures: *on_picture,
            currency: details.money.as_ref().map(|m| CurrencyLine::of(&m.currency)),
            tax: details.money.as_ref().map(|m| TaxRuleLine::of_shop(m.tax.as_ref())),
            dates: Some(Keyword(details.written.date)).filter(|word| word.0 != DateStyle::default()),
            clock: Some(Keyword(details.written.hour)).filter(|word| word.0 != HourStyle::default()),
            style,
        };
        let of_version_1 = ShopDetails { letterhead: Letterhead::named(name), ..ShopDetails::default() };
        if *details != of_version_1 {
            file.version = 2;
        }
        if file.currency.as_ref().is_some_and(|currency| currency.decimal.is_some()) {
            file.version = 3;
        }
        file
    }

    /// What it says; the logo is read by whoever knows the folder. Money of which it says nothing is that of `prices`.
    pub(super) fn details(&self, prices: &PriceRule) -> ShopDetails {
        let lines = |texts: &[Text]| texts.iter().map(|t| t.0.clone()).collect();
        let is_own = self.currency.is_some() || self.tax.is_some();
        let money = is_own.then(|| ShopMoney {
            currency: self.currency.as_ref().map_or_else(|| prices.currency.clone(), CurrencyLine::currency),
            tax: self.tax.as_ref().map_or_else(|| prices.tax.clone(), TaxRuleLine::tax),
        });
        let letterhead = Letterhead {
            name: self.name.0.clone(),
            address: lines(&self.address),
            phone: self.phone.0.clone(),
            email: self.email.0.clone(),
            web: self.web.0.clone(),
            tax_number: self.tax_number.0.clone(),
            hours: lines(&self.hours),
            logo: None,
            on_picture: self.name_on_pictures,
        };
        let date = self.dates.as_ref().map_or_else(DateStyle::default, |word| word.0);
        let hour = self.clock.as_ref().map_or_else(HourStyle::default, |word| word.0);
        let written = Written { date, hour };
        ShopDetails { letterhead, logo_file: self.logo.as_ref().map(|t| t.0.clone()), money, written }
    }
}

impl CurrencyLine {
    fn of(currency: &Currency) -> Self {
        let decimal = Some(Keyword(currency.decimal)).filter(|word| word.0 != DecimalMark::default());
        Self { sign: Text(currency.sign.clone()), after: currency.after, decimal }
    }

    fn currency(&self) -> Currency {
        let decimal = self.decimal.as_ref().map_or_else(DecimalMark::default, |word| word.0);
        Currency { sign: self.sign.0.clone(), after: self.after, decimal }
    }
}
