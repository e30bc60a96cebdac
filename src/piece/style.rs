//! The house style: the shop's own proportions, weights, sizes, minutes and money rules.
//!
//! No length or width limit for a wrist piece is published anywhere that we could find; the limits of the built-in style
//! are a shop rule (common practice, no source) and every one of them can be changed.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::{Bow, Question, Wishes, Worn};
use crate::stock::{Role, StockId};
use crate::units::{Cents, Currency};

/// Limits that the once-over measures against.
#[derive(Clone, Debug, PartialEq)]
pub struct ShapeRules {
    /// Width allowed across the wrist, as a share of its girth.
    pub width_of_girth: f64,
    /// Length over width: from, to.
    pub length_to_width: [f64; 2],
    /// Height allowed over the wrist, mm.
    pub height_mm: f64,
    /// Diameter of the smallest gap that an eye sees as a bare spot, mm.
    pub room_mm: f64,
    /// Areas of blooms together over the area of the oval: from, to.
    pub fullness: [f64; 2],
    /// Share of a bloom that others may hide before it counts as hidden.
    pub hidden_share: f64,
    /// How far a head may reach past the edge of the wrist, mm.
    pub protrusion_mm: f64,
    /// Mass of all parts, grams, from which a piece is heavy.
    pub mass_g: f64,
    /// Largest over ideal angle between neighbours of one accent that still looks even.
    pub uneven_from: f64,
}

/// Minutes for each step of making.
#[derive(Clone, Debug, PartialEq)]
pub struct MakingMinutes {
    /// Laying out, base and band, finishing: once a wrist piece.
    pub wrist_base: f64,
    /// Taping and pinning: once a boutonniere.
    pub lapel_base: f64,
    /// Tying the bow.
    pub bow: f64,
    /// Each part, by role.
    pub each: BTreeMap<Role, f64>,
}

/// How making time is paid for. Both published meanings of a share are here.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Making {
    /// So many cents a minute.
    ByMinute(f64),
    /// A share of the goods' price, added on top: 0.25 of 75 makes 93.75.
    ShareOnTop(f64),
    /// A share of the whole price: 0.25 of it turns 75 into 100.
    ShareOfWhole(f64),
}

/// Whether a tax comes on top of the prices or is in them already.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TaxHow {
    /// On top.
    Added,
    /// In the price.
    Included,
}

/// A tax on what is sold. Which one applies is a matter of local rules; none is built in.
#[derive(Clone, Debug, PartialEq)]
pub struct Tax {
    /// What it is called on papers.
    pub name: String,
    /// Percent of the price without it.
    pub percent: f64,
    /// On top or included.
    pub how: TaxHow,
}

/// From cost to price.
#[derive(Clone, Debug, PartialEq)]
pub struct PriceRule {
    /// Flowers and greens times this.
    pub fresh_times: f64,
    /// Everything else times this.
    pub hard_times: f64,
    /// Making time.
    pub making: Making,
    /// Up to the next whole step of this.
    pub round_up_to: Cents,
    /// How a price is written.
    pub currency: Currency,
    /// Tax, where there is one.
    pub tax: Option<Tax>,
    /// Share of the total that is paid at the yes.
    pub deposit: f64,
    /// Share of the price that is charged on top when it is made in a rush.
    pub rush: f64,
    /// For how many days a price holds once it was named; 0 says nothing about it.
    pub holds_days: u32,
}

/// Share of the total that is paid at the yes, where the house says nothing else: half down, common practice, no source.
pub const USUAL_DEPOSIT: f64 = 0.5;
/// Share on top for a rush, where the house says nothing else; our choice.
pub const USUAL_RUSH: f64 = 0.25;
/// Days for which a price holds, where the house says nothing else: two weeks, common practice, no source.
pub const USUAL_HOLDS_DAYS: u32 = 14;

/// How many of what a size holds.
#[derive(Clone, Debug, PartialEq)]
pub struct Planned {
    /// What.
    pub stock: StockId,
    /// Its colour, by its name in stock.
    pub colour: Arc<str>,
    /// How many.
    pub count: u32,
}

/// One of the sizes that the shop offers.
#[derive(Clone, Debug, PartialEq)]
pub struct PieceSize {
    /// Petite, Classic, Full.
    pub name: String,
    /// Where it is worn.
    pub worn: Worn,
    /// Its oval, mm.
    pub length_mm: f64,
    /// Its oval across, mm.
    pub width_mm: f64,
    /// What it holds.
    pub holds: Vec<Planned>,
    /// Its bow.
    pub bow: Option<Bow>,
}

/// All that is the shop's own.
#[derive(Clone, Debug, PartialEq)]
pub struct HouseStyle {
    /// Its name.
    pub name: String,
    /// Limits of shape.
    pub shape: ShapeRules,
    /// Weight of each question in the score; a question without a weight is not asked.
    pub weights: BTreeMap<Question, f64>,
    /// Sizes, smallest first.
    pub sizes: Vec<PieceSize>,
    /// Minutes.
    pub minutes: MakingMinutes,
    /// Money.
    pub prices: PriceRule,
    /// Sundries used up by every wrist piece.
    pub wrist_sundries: Vec<StockId>,
    /// Sundries used up by every boutonniere.
    pub lapel_sundries: Vec<StockId>,
    /// Share bought over what is needed.
    pub spare: f64,
}

impl HouseStyle {
    /// The size of this name.
    pub fn size(&self, name: &str) -> Option<&PieceSize> {
        self.sizes.iter().find(|s| s.name == name)
    }

    /// Weight of a question, 0 when it is not asked.
    pub fn weight(&self, question: Question) -> f64 {
        self.weights.get(&question).copied().unwrap_or(0.0)
    }

    /// Height allowed over the wrist, mm: what is wished for the piece, else the rule of the house.
    pub fn height_limit_mm(&self, wishes: &Wishes) -> f64 {
        wishes.height_mm.unwrap_or(self.shape.height_mm)
    }

    /// Width that a wrist of this girth allows, mm.
    pub fn width_limit_mm(&self, girth_mm: f64) -> f64 {
        self.shape.width_of_girth * girth_mm
    }
}
