//! What is known about an order besides its piece, and the agreed sheet, as files hold them.

use serde::{Deserialize, Serialize};

use super::charge_lines::ChargesLine;
use super::day_line::DayLine;
use super::figures::{Hex, Money, Percent, Text};
use super::keywords::Keyword;
use super::order_file::OrderFile;
use super::reading::{Versioned, line_with};
use super::store_error::{self, Cause, StoreError};
use crate::book::{Agreed, Asked, Beside, DressColour, Extra, Order, Shown};
use crate::piece::Skin;
use crate::stock::Stock;

/// `(hex: "#1b2a4a", words: "midnight blue")`; either may be left out.
#[derive(Clone, Debug, Deserialize, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
pub(super) struct DressLine {
    #[serde(skip_serializing_if = "Option::is_none")]
    hex: Option<Hex>,
    #[serde(default, skip_serializing_if = "Text::is_empty")]
    words: Text,
}

impl DressLine {
    pub(super) fn dress(&self) -> DressColour {
        DressColour { hex: self.hex.map(|h| h.0), words: self.words.0.clone() }
    }

    /// The line of a dress; none when nothing is known of it.
    pub(super) fn of(dress: &DressColour) -> Option<Self> {
        let is_known = dress.hex.is_some() || !dress.words.is_empty();
        is_known.then(|| Self { hex: dress.hex.map(Hex), words: Text(dress.words.clone()) })
    }
}

/// `(price: 20, reason: "a neighbour")`.
#[derive(Clone, Debug, Deserialize, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
pub(super) struct AskedLine {
    price: Money,
    #[serde(default, skip_serializing_if = "Text::is_empty")]
    reason: Text,
}

impl AskedLine {
    pub(super) fn asked(&self) -> Asked {
        Asked { price: self.price.0, reason: self.reason.0.clone() }
    }

    pub(super) fn of(asked: &Asked) -> Self {
        Self { price: Money(asked.price), reason: Text(asked.reason.clone()) }
    }
}

/// `(name: "Ribbon wand", price: 2, tax: 0)`; without a rate of its own it is taxed as the house does.
#[derive(Clone, Debug, Deserialize, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
pub(super) struct ExtraLine {
    name: Text,
    price: Money,
    #[serde(skip_serializing_if = "Option::is_none")]
    tax: Option<Percent>,
}

impl ExtraLine {
    pub(super) fn extra(&self) -> Extra {
        Extra { name: self.name.0.clone(), price: self.price.0, tax_percent: self.tax.map(|t| t.0) }
    }

    pub(super) fn of(extra: &Extra) -> Self {
        let tax = extra.tax_percent.map(Percent::new);
        Self { name: Text(extra.name.clone()), price: Money(extra.price), tax }
    }

    /// Whether it holds what only version 3 of an order knows.
    pub(super) fn is_of_version_3(&self) -> bool {
        self.tax.is_some()
    }
}

/// `(skin: brown, cloth: true, beside: coin)`.
#[derive(Clone, Copy, Debug, Deserialize, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
pub(super) struct ShownLine {
    skin: Option<Keyword<Skin>>,
    cloth: Option<bool>,
    beside: Option<Keyword<Beside>>,
}

impl ShownLine {
    pub(super) fn shown(self) -> Shown {
        let usual = Shown::default();
        Shown {
            skin: self.skin.map_or(usual.skin, |s| s.0),
            cloth: self.cloth.unwrap_or(usual.cloth),
            beside: self.beside.map_or(usual.beside, |b| b.0),
        }
    }

    /// What is as usual is left out.
    pub(super) fn of(shown: Shown) -> Option<Self> {
        let Shown { skin, cloth, beside } = shown;
        let line = Self { skin: Some(Keyword(skin)), cloth: Some(cloth), beside: Some(Keyword(beside)) };
        (shown != Shown::default()).then_some(line)
    }
}

/// The agreed sheet, with the whole order as it was.
#[derive(Debug, Deserialize, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
pub(super) struct AgreedLine {
    on: DayLine,
    price: Money,
    #[serde(skip_serializing_if = "Option::is_none")]
    deposit: Option<Money>,
    #[serde(skip_serializing_if = "Option::is_none")]
    holds_until: Option<DayLine>,
    #[serde(default)]
    says: Vec<Text>,
    #[serde(skip_serializing_if = "Option::is_none")]
    charges: Option<ChargesLine>,
    order: Box<OrderFile>,
}

impl AgreedLine {
    /// The oldest version of an order that knows all it holds.
    pub(super) fn version_needed(&self) -> u64 {
        let own = if self.charges.is_some() {
            3
        } else if self.deposit.is_some() || self.holds_until.is_some() {
            2
        } else {
            1
        };
        self.order.version().max(own)
    }

    /// The agreed sheet in the file `text`.
    pub(super) fn agreed(&self, text: &str, name: &str, stock: &Stock) -> Result<Agreed, StoreError> {
        let order = inner_order(&self.order, "agreed", text, name, stock)?;
        let says = self.says.iter().map(|line| line.0.clone()).collect();
        let agreed = Agreed::freeze(&order, self.on.0, self.price.0, says);
        let agreed = agreed.on_terms(self.deposit.map(|d| d.0), self.holds_until.map(|d| d.0));
        Ok(match &self.charges {
            Some(charges) => agreed.built_on(charges.charges()),
            None => agreed,
        })
    }

    /// The line of an agreed sheet.
    pub(super) fn of(agreed: &Agreed) -> Self {
        Self {
            on: DayLine(agreed.on),
            price: Money(agreed.price),
            deposit: agreed.deposit.map(Money),
            holds_until: agreed.holds_until.map(DayLine),
            says: agreed.says.iter().map(|line| Text(line.clone())).collect(),
            charges: agreed.charges().map(ChargesLine::of),
            order: Box::new(OrderFile::of(agreed.order())),
        }
    }
}

/// The order as it was, which a quote or an agreement in the file `text` holds under `field`.
pub(super) fn inner_order(
    file: &OrderFile,
    field: &str,
    text: &str,
    name: &str,
    stock: &Stock,
) -> Result<Order, StoreError> {
    let refuse = |cause| Err(StoreError::at(name, line_with(text, field, ""), cause));
    match file.version() {
        0 => refuse(Cause::NoSuchVersion(0)),
        version if version > OrderFile::NEWEST => refuse(Cause::Newer { kind: OrderFile::KIND, version }),
        _ if file.holds_another() => refuse(Cause::Value(store_error::order_within_order(field))),
        _ => file.order(&from_field(text, field), name, stock),
    }
}

/// The text from the line that holds `field` on, with empty lines before it, so that lines keep their numbers.
pub(super) fn from_field(text: &str, field: &str) -> String {
    let before = line_with(text, field, "").map_or(0, |line| line.number.saturating_sub(1));
    let lines = text.lines().enumerate().map(|(i, line)| if i < before { "" } else { line });
    lines.collect::<Vec<_>>().join("\n")
}
