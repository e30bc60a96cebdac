//! What is known about an order besides its piece: people, body, taste, money. Whatever is empty is still to find out.

use std::collections::BTreeSet;

use super::Day;
use crate::colour::Rgb;
use crate::piece::Side;
use crate::units::Cents;

/// The people around the wearer. An empty name is not known yet.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct People {
    /// Who pays.
    pub payer: String,
    /// With whom the wearer goes.
    pub partner: String,
    /// Where to ring, as the client gave it.
    pub phone: String,
}

/// Who wears it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WearerKind {
    /// Grown up, or nearly.
    Adult,
    /// A child.
    Child {
        /// Age in whole years.
        years: u32,
    },
}

/// What the wearer's body asks for. None of it is assumed; none of it needs a reason.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Needs {
    /// Adult or child.
    pub kind: Option<WearerKind>,
    /// The hand that is used most; the piece goes on the other wrist.
    pub handed: Option<Side>,
    /// Whether the wearer pushes a wheelchair with the hands.
    pub pushes_chair: bool,
    /// An arm that was operated on or is not to carry anything.
    pub spared_arm: Option<Side>,
    /// Flowers and materials not borne: names in stock or plain words. `None` is not asked yet, an empty list is none.
    pub allergies: Option<Vec<String>>,
    /// Nothing with latex.
    pub no_latex: bool,
    /// Nothing that grips the wrist.
    pub no_snug_band: bool,
}

impl Needs {
    /// The age of a child, years.
    pub fn child_years(&self) -> Option<u32> {
        match self.kind {
            Some(WearerKind::Child { years }) => Some(years),
            Some(WearerKind::Adult) | None => None,
        }
    }
}

/// The colour of the dress: how it looks where that is known, and what it was called.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct DressColour {
    /// As near as a screen can show.
    pub hex: Option<Rgb>,
    /// As it was said: `teal`, `midnight blue`.
    pub words: String,
}

impl DressColour {
    /// Whether nothing is known.
    pub fn is_blank(&self) -> bool {
        self.hex.is_none() && self.words.trim().is_empty()
    }

    /// What to call it; empty when nothing is known.
    pub fn name(&self) -> String {
        match (self.words.trim(), self.hex) {
            ("", Some(rgb)) => rgb.text(),
            (words, _) => words.to_owned(),
        }
    }
}

/// What the wearer likes and will wear with it.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Taste {
    /// The dress.
    pub dress: DressColour,
    /// Metal of the jewellery, as said.
    pub metal: String,
    /// Flowers, colours, styles liked.
    pub likes: String,
}

/// A price that the designer asks instead of the worked one.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Asked {
    /// The price.
    pub price: Cents,
    /// Why.
    pub reason: String,
}

/// Something that is charged for besides the piece.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Extra {
    /// What.
    pub name: String,
    /// Its price.
    pub price: Cents,
}

/// Money of one order.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Terms {
    /// What the client wants to spend.
    pub budget: Option<Cents>,
    /// The price asked instead of the worked one.
    pub asked: Option<Asked>,
    /// Extras.
    pub extras: Vec<Extra>,
    /// Whether it is made in a rush.
    pub rush: bool,
    /// What has been paid so far.
    pub paid: Cents,
    /// The day of the last payment, where it was noted.
    pub paid_on: Option<Day>,
    /// The day on which the price was quoted.
    pub quoted_on: Option<Day>,
    /// Until when the price holds, where that was said for this order; else the days of the house count from the quote.
    pub holds_until: Option<Day>,
}

/// A custom of numbers.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct NumberCustom {
    /// Counts that are avoided.
    pub avoided: BTreeSet<u32>,
    /// Whether even numbers are as welcome as odd ones.
    pub even_is_welcome: bool,
}

impl NumberCustom {
    /// Odd numbers for happy events, as the house does anyhow.
    pub fn no_even() -> Self {
        Self::default()
    }

    /// Neither 4 nor 9, even numbers otherwise welcome. As told of Japan by florists: common practice, no source.
    pub fn no_four_no_nine() -> Self {
        Self { avoided: [4, 9].into(), even_is_welcome: true }
    }
}
