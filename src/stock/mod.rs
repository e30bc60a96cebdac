//! What can be bought: botanicals, ribbons, bands and sundries, with what a designer must know of each.
//!
//! Sizes are millimetres, mass is grams, prices are whole cents for a whole bunch, roll or pack. The list itself is data
//! (`assets/stock.ron`), read by the `store` floor; this module does not know files, pieces or pictures.

mod avoid;
mod avoid_words;
pub mod caution;
mod change;
mod form;
mod item;
mod listing;
mod new_flower;
mod own_stock;
mod shelf;
mod suppliers;

use std::collections::{BTreeMap, BTreeSet};
use std::fmt;
use std::sync::Arc;

pub use avoid::{AvoidIndex, AvoidList, AvoidTerm, AvoidThing, genera_of};
pub use avoid_words::WordReading;
pub use caution::{Caution, STANDING_LINE};
pub use change::{StockChange, StockField};
pub use form::Form;
pub use item::{StockItem, StockKey, StockKind, StockList};
pub use listing::{SHORT_MONTHS, StockColumn, StockListing, season_words};
pub use new_flower::NewFlower;
pub use own_stock::{Lost, OwnStock, lost};
pub use shelf::{MOST_LEAD_DAYS, Shelf};
pub use suppliers::{StemsKept, SupplierPack, SupplierTerms, Suppliers, USUAL_ORDER_DAYS};

use crate::colour::Rgb;
use crate::units::Cents;

/// The short name by which files and pieces refer to something in stock: `spray-rose`.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct StockId(Arc<str>);

impl StockId {
    /// The id with these letters.
    pub fn new(id: &str) -> Self {
        Self(Arc::from(id))
    }
    /// Its letters.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl fmt::Display for StockId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

/// The part that something plays in a wrist piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Role {
    /// The blooms that make the piece.
    Bloom,
    /// Smaller blooms or berries in another colour or shape.
    Accent,
    /// Sprigs that go into what is left.
    Filler,
    /// Greens.
    Leaf,
    /// Pearls, stones and other things that are not plants.
    Trim,
}

impl Role {
    /// All roles, in the order of the trays.
    pub const ALL: [Self; 5] = [Self::Bloom, Self::Accent, Self::Filler, Self::Leaf, Self::Trim];

    /// The role in lower case, for one thing and for many.
    pub fn words(self) -> (&'static str, &'static str) {
        match self {
            Self::Bloom => ("bloom", "blooms"),
            Self::Accent => ("accent", "accents"),
            Self::Filler => ("sprig", "sprigs"),
            Self::Leaf => ("leaf", "leaves"),
            Self::Trim => ("trim", "trims"),
        }
    }

    /// What stands in its tray, in lower case: one word for the tray, the stock list and a new flower.
    pub fn tray_word(self) -> &'static str {
        match self {
            Self::Filler => "filler",
            Self::Leaf => "greenery",
            Self::Bloom | Self::Accent | Self::Trim => self.words().0,
        }
    }
}

/// A colour that something comes in, under the name the trade uses.
#[derive(Clone, Debug, PartialEq)]
pub struct StockColour {
    /// `white`, `blush`.
    pub name: String,
    /// How it looks, as near as a screen can show.
    pub rgb: Rgb,
}

/// How long something looks fresh on the wrist, out of water.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Keeps {
    /// A few hours at best.
    Poor,
    /// The evening, with care.
    Fair,
    /// The evening.
    Good,
    /// The evening and the day after.
    Excellent,
}

impl Keeps {
    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            Self::Poor => "wilts soon",
            Self::Fair => "lasts the evening if kept cool",
            Self::Good => "lasts the evening",
            Self::Excellent => "lasts past the evening",
        }
    }
}

/// The wire a head is mounted on, where the piece is wired and not glued.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WireCut {
    /// Gauge number on the label.
    pub gauge: u8,
    /// Length of the cut piece, mm.
    pub length_mm: f64,
}

/// Where each figure of a botanical comes from: a source key, `M` (from memory) or `CP` (common practice, no source).
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Origins {
    /// Origin of the size range.
    pub size: String,
    /// Origin of heads per stem.
    pub per_stem: String,
    /// Origin of stems per bunch.
    pub bunch: String,
    /// Origin of the storage temperatures.
    pub storage: String,
    /// Origin of the months in trade.
    pub months: String,
    /// Origin of the keeps-well word.
    pub keeps: String,
    /// Origin of the mass, which is a planning figure until the shop has weighed its own.
    pub mass: String,
    /// Origin of the cautions.
    pub cautions: String,
    /// Origin of the wire.
    pub wire: String,
}

/// A flower, berry or green.
#[derive(Clone, Debug, PartialEq)]
pub struct Botanical {
    /// Short name in files.
    pub id: StockId,
    /// Trade name.
    pub name: String,
    /// Botanical name.
    pub botanical: String,
    /// The part it usually plays.
    pub role: Role,
    /// How it is drawn.
    pub form: Form,
    /// Diameter of a head, or length of a leaf or sprig, mm: least, usual, most.
    pub size_mm: [f64; 3],
    /// Width over length: 1 for a round head, less for a leaf.
    pub breadth: f64,
    /// Height above what it is glued to, mm.
    pub height_mm: f64,
    /// Heads, sprigs or leaves from one stem.
    pub per_stem: u32,
    /// Stems in a bunch.
    pub stems_per_bunch: u32,
    /// Price of a bunch.
    pub bunch: Cents,
    /// Who sells it.
    pub supplier: String,
    /// The colours it comes in, most asked for first.
    pub colours: Vec<StockColour>,
    /// Mass of one head, sprig or leaf, grams.
    pub mass_g: f64,
    /// Months in trade, January first.
    pub months: [bool; 12],
    /// Storage, degrees Celsius: from, to.
    pub storage_c: [f64; 2],
    /// Below this it is harmed by cold, degrees Celsius; nothing where the cold room of most flowers suits it.
    pub chills_below_c: Option<f64>,
    /// How long it looks fresh.
    pub keeps: Keeps,
    /// What to be careful of.
    pub cautions: Vec<Caution>,
    /// Its wire, where it is ever wired.
    pub wire: Option<WireCut>,
    /// What is bought, when this is cut from something else (half a carnation).
    pub cut_from: Option<StockId>,
    /// Where the figures come from.
    pub origins: Origins,
    /// What the shop does with it.
    pub shelf: Shelf,
}

impl Botanical {
    /// The usual size, mm.
    pub fn usual_mm(&self) -> f64 {
        self.size_mm[1]
    }

    /// What one head costs, in cents and parts of a cent.
    pub fn cents_a_head(&self) -> f64 {
        self.bunch.0 as f64 / (f64::from(self.stems_per_bunch.max(1)) * f64::from(self.per_stem.max(1)))
    }

    /// The named colour, or the first one.
    pub fn colour(&self, name: &str) -> Option<&StockColour> {
        self.colours.iter().find(|c| c.name == name).or_else(|| self.colours.first())
    }
}

/// What a ribbon is made of, which is how it is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Weave {
    /// Shiny.
    Satin,
    /// Sheer.
    Organza,
    /// Deep and matt.
    Velvet,
    /// Ribbed across.
    Grosgrain,
    /// A net with scalloped edges.
    Lace,
}

/// A ribbon for bows.
#[derive(Clone, Debug, PartialEq)]
pub struct Ribbon {
    /// Short name in files.
    pub id: StockId,
    /// Trade name.
    pub name: String,
    /// Width, mm. The trade number is only a label: glossaries disagree on what it means.
    pub width_mm: f64,
    /// Trade number as printed on the spool.
    pub number: String,
    /// What it is made of.
    pub weave: Weave,
    /// Colours it comes in.
    pub colours: Vec<StockColour>,
    /// Length that is charged for at once, mm: a started yard counts as a yard.
    pub step_mm: f64,
    /// Price of one step.
    pub step: Cents,
    /// Who sells it; empty where nobody is named.
    pub supplier: String,
    /// What the shop does with it.
    pub shelf: Shelf,
}

impl Ribbon {
    /// The named colour, or the first one.
    pub fn colour(&self, name: &str) -> Option<&StockColour> {
        self.colours.iter().find(|c| c.name == name).or_else(|| self.colours.first())
    }
}

/// What a wrist band is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BandKind {
    /// Covered elastic.
    Elastic,
    /// Beads on elastic.
    Pearl,
    /// Ribbon tied by hand.
    RibbonTie,
    /// Flat metal with curled ends.
    Metal,
    /// Rhinestones on elastic.
    Rhinestone,
    /// Spring steel in cloth, that curls round the wrist by itself.
    Slap,
}

/// What goes round the wrist.
#[derive(Clone, Debug, PartialEq)]
pub struct Band {
    /// Short name in files.
    pub id: StockId,
    /// Trade name.
    pub name: String,
    /// What it is.
    pub kind: BandKind,
    /// Girths it fits, mm: from, up to.
    pub fits_mm: [f64; 2],
    /// Width, mm.
    pub width_mm: f64,
    /// How it looks.
    pub rgb: Rgb,
    /// Price of one.
    pub price: Cents,
    /// What to be careful of.
    pub cautions: Vec<Caution>,
    /// Who sells it; empty where nobody is named.
    pub supplier: String,
    /// What the shop does with it.
    pub shelf: Shelf,
}

/// What a sundry is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum SundryKind {
    /// Glue, counted by the piece.
    Adhesive,
    /// Cut wire.
    Wire,
    /// Stem tape.
    Tape,
    /// Box or bag.
    Box,
    /// Finishing spray, counted by the piece.
    Spray,
    /// Pin or magnet.
    Pin,
    /// What flowers are glued or set into.
    Base,
    /// A stem to mount a floret on.
    Stem,
}

/// Anything else that is used up.
#[derive(Clone, Debug, PartialEq)]
pub struct Sundry {
    /// Short name in files.
    pub id: StockId,
    /// Trade name.
    pub name: String,
    /// What it is for.
    pub kind: SundryKind,
    /// Wire gauge and grams per 457 mm (18 in) cut, for wire only.
    pub wire: Option<(u8, f64)>,
    /// Price for one piece's worth, or of one cut of wire.
    pub price: Cents,
    /// What to be careful of.
    pub cautions: Vec<Caution>,
    /// Where its figures come from.
    pub origin: String,
    /// Who sells it; empty where nobody is named.
    pub supplier: String,
    /// What the shop does with it.
    pub shelf: Shelf,
}

/// The whole list.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Stock {
    botanicals: Vec<Botanical>,
    ribbons: Vec<Ribbon>,
    bands: Vec<Band>,
    sundries: Vec<Sundry>,
    places: BTreeMap<StockId, usize>,
    avoid: Arc<AvoidIndex>,
    withheld: BTreeSet<StockId>,
}

impl Stock {
    /// A list from its lines. Of two botanicals with one id the later one stands.
    pub fn new(botanicals: Vec<Botanical>, ribbons: Vec<Ribbon>, bands: Vec<Band>, sundries: Vec<Sundry>) -> Self {
        let places = botanicals.iter().enumerate().map(|(i, b)| (b.id.clone(), i)).collect();
        Self { botanicals, ribbons, bands, sundries, places, avoid: Arc::default(), withheld: BTreeSet::new() }
    }

    /// The same list, with the words by which people call what they must not get.
    #[must_use]
    pub fn with_avoid(self, list: AvoidList) -> Self {
        let Self { botanicals, ribbons, bands, sundries, .. } = &self;
        let avoid = Arc::new(AvoidIndex::of(list, avoid::StockParts { botanicals, ribbons, bands, sundries }));
        Self { avoid, ..self }
    }

    /// The same list, of which these are never proposed, though they are known where they are used already.
    #[must_use]
    pub fn withholding(&self, ids: impl IntoIterator<Item = StockId>) -> Self {
        Self { withheld: ids.into_iter().collect(), ..self.clone() }
    }

    /// Whether this may be proposed.
    pub fn may_be_proposed(&self, id: &StockId) -> bool {
        !self.withheld.contains(id)
    }

    /// What may be proposed in place of this: of its role, nearest to it in size; itself where nothing speaks against it.
    pub fn proposable<'a>(&'a self, wanted: &'a Botanical) -> Option<&'a Botanical> {
        if self.may_be_proposed(&wanted.id) {
            return Some(wanted);
        }
        let off = |b: &Botanical| (b.usual_mm() - wanted.usual_mm()).abs();
        let others = self.offered().filter(|b| b.role == wanted.role);
        others.filter(|b| self.may_be_proposed(&b.id)).min_by(|a, b| off(a).total_cmp(&off(b)))
    }

    /// The words by which people call what they must not get, and what each stops.
    pub fn avoid(&self) -> &AvoidIndex {
        &self.avoid
    }

    /// Botanicals in the order of the trays.
    pub fn botanicals(&self) -> &[Botanical] {
        &self.botanicals
    }
    /// Botanicals that the shop offers and that are bought as they are, in the order of the trays.
    pub fn offered(&self) -> impl Iterator<Item = &Botanical> {
        self.botanicals.iter().filter(|b| !b.shelf.is_hidden && b.cut_from.is_none())
    }
    /// Ribbons.
    pub fn ribbons(&self) -> &[Ribbon] {
        &self.ribbons
    }
    /// Bands.
    pub fn bands(&self) -> &[Band] {
        &self.bands
    }
    /// Sundries.
    pub fn sundries(&self) -> &[Sundry] {
        &self.sundries
    }

    /// The botanical with this id.
    pub fn botanical(&self, id: &StockId) -> Option<&Botanical> {
        self.places.get(id).map(|&i| &self.botanicals[i])
    }
    /// The ribbon with this id.
    pub fn ribbon(&self, id: &StockId) -> Option<&Ribbon> {
        self.ribbons.iter().find(|r| r.id == *id)
    }
    /// The band with this id.
    pub fn band(&self, id: &StockId) -> Option<&Band> {
        self.bands.iter().find(|b| b.id == *id)
    }
    /// The sundry with this id.
    pub fn sundry(&self, id: &StockId) -> Option<&Sundry> {
        self.sundries.iter().find(|s| s.id == *id)
    }

    /// The band of `kind` that fits `girth_mm`, else the one that comes nearest. Where two fit, at the girth where one
    /// ends and the next begins, the later one in the list, which is the more comfortable when they are listed by size. None
    /// that the shop has hidden.
    pub fn band_for(&self, kind: BandKind, girth_mm: f64) -> Option<&Band> {
        let off = |b: &&Band| (b.fits_mm[0] - girth_mm).max(girth_mm - b.fits_mm[1]).max(0.0);
        self.bands
            .iter()
            .rev()
            .filter(|b| b.kind == kind && !b.shelf.is_hidden)
            .min_by(|a, b| off(a).total_cmp(&off(b)))
    }
}
