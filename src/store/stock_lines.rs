//! The lines of a stock file: their fields, what a new line must say, and what makes a line impossible.

mod differences;
mod origins;

use serde::{Deserialize, Serialize};

use super::figures::{Celsius, Count, Extent, Grams, Hex, Money, Months, RibbonStep, Share, Size, Text};
use super::keywords::{FormKeyword, Keyword};
use crate::colour::Rgb;
use crate::stock::{
    Band, BandKind, Botanical, Caution, Form, Keeps, MOST_LEAD_DAYS, Origins, Ribbon, Role, Shelf, StockColour,
    StockId, Sundry, SundryKind, Weave, WireCut,
};
use crate::units::Cents;
use origins::OriginsLine;

/// A line of the file that changes or makes a `Self::Thing`.
pub(super) trait StockLine {
    /// What it describes.
    type Thing: Clone;
    /// The line's id.
    fn id(&self) -> &str;
    /// The id of a thing.
    fn id_of(thing: &Self::Thing) -> &StockId;
    /// A thing of this id about which nothing is known.
    fn blank(id: StockId) -> Self::Thing;
    /// Needed fields that the line does not give.
    fn missing(&self) -> Vec<&'static str>;
    /// Puts the line's fields into the thing.
    fn change(&self, thing: &mut Self::Thing);
    /// What is wrong with the thing as it now stands.
    fn fault(thing: &Self::Thing) -> Option<&'static str>;
}

/// Names of the fields that are not given.
fn not_given(fields: &[(&'static str, bool)]) -> Vec<&'static str> {
    fields.iter().filter(|(_, given)| !given).map(|&(name, _)| name).collect()
}

fn set<T: Clone, U>(to: &mut U, from: Option<&T>, plain: impl Fn(&T) -> U) {
    if let Some(value) = from {
        *to = plain(value);
    }
}

fn colours(list: &[(Text, Hex)]) -> Vec<StockColour> {
    list.iter().map(|(name, hex)| StockColour { name: name.0.clone(), rgb: hex.0 }).collect()
}

fn colours_fault(list: &[StockColour]) -> Option<&'static str> {
    let twice = list.iter().enumerate().any(|(i, c)| list[..i].iter().any(|d| d.name == c.name));
    if list.is_empty() {
        Some("it comes in no colour")
    } else if twice {
        Some("two of its colours have the same name")
    } else if list.iter().any(|c| c.name.trim().is_empty()) {
        Some("a colour has no name")
    } else {
        None
    }
}

/// A line that names a price has gone through it.
fn shelve(shelf: &mut Shelf, price: Option<&Money>, [hidden, starred]: [Option<bool>; 2], lead_days: Option<&Count>) {
    set(&mut shelf.lead_days, lead_days, |days| {
        u8::try_from(days.whole()).map_or(MOST_LEAD_DAYS, |n| n.min(MOST_LEAD_DAYS))
    });
    shelf.is_hidden = hidden.unwrap_or(shelf.is_hidden);
    shelf.is_starred = starred.unwrap_or(shelf.is_starred);
    shelf.has_example_price &= price.is_none();
}

fn cautions(list: &[Keyword<Caution>]) -> Vec<Caution> {
    list.iter().map(|c| c.0).collect()
}

#[derive(Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub(super) struct BotanicalLine {
    id: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    name: Option<Text>,
    #[serde(skip_serializing_if = "Option::is_none")]
    botanical: Option<Text>,
    #[serde(skip_serializing_if = "Option::is_none")]
    role: Option<Keyword<Role>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    form: Option<FormKeyword>,
    #[serde(skip_serializing_if = "Option::is_none")]
    size: Option<(Size, Size, Size)>,
    #[serde(skip_serializing_if = "Option::is_none")]
    breadth: Option<Share>,
    #[serde(skip_serializing_if = "Option::is_none")]
    height: Option<Extent>,
    #[serde(skip_serializing_if = "Option::is_none")]
    per_stem: Option<Count>,
    #[serde(skip_serializing_if = "Option::is_none")]
    stems_per_bunch: Option<Count>,
    #[serde(skip_serializing_if = "Option::is_none")]
    bunch: Option<Money>,
    #[serde(skip_serializing_if = "Option::is_none")]
    supplier: Option<Text>,
    #[serde(skip_serializing_if = "Option::is_none")]
    colours: Option<Vec<(Text, Hex)>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    mass: Option<Grams>,
    #[serde(skip_serializing_if = "Option::is_none")]
    months: Option<Months>,
    #[serde(skip_serializing_if = "Option::is_none")]
    storage: Option<(Celsius, Celsius)>,
    #[serde(skip_serializing_if = "Option::is_none")]
    chills_below: Option<Celsius>,
    #[serde(skip_serializing_if = "Option::is_none")]
    keeps: Option<Keyword<Keeps>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    cautions: Option<Vec<Keyword<Caution>>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    wire: Option<WireLine>,
    #[serde(skip_serializing_if = "Option::is_none")]
    cut_from: Option<Text>,
    #[serde(skip_serializing_if = "Option::is_none")]
    origins: Option<OriginsLine>,
    #[serde(skip_serializing_if = "Option::is_none")]
    lead_days: Option<Count>,
    #[serde(skip_serializing_if = "Option::is_none")]
    hidden: Option<bool>,
    #[serde(skip_serializing_if = "Option::is_none")]
    starred: Option<bool>,
}

#[derive(Clone, Deserialize, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
struct WireLine {
    gauge: Count,
    length: Size,
}

impl StockLine for BotanicalLine {
    type Thing = Botanical;

    fn id(&self) -> &str {
        &self.id
    }
    fn id_of(thing: &Botanical) -> &StockId {
        &thing.id
    }
    fn missing(&self) -> Vec<&'static str> {
        not_given(&[
            ("name", self.name.is_some()),
            ("role", self.role.is_some()),
            ("form", self.form.is_some()),
            ("size", self.size.is_some()),
            ("per_stem", self.per_stem.is_some()),
            ("stems_per_bunch", self.stems_per_bunch.is_some()),
            ("bunch", self.bunch.is_some()),
            ("colours", self.colours.is_some()),
        ])
    }
    fn blank(id: StockId) -> Botanical {
        Botanical {
            id,
            name: String::new(),
            botanical: String::new(),
            role: Role::Bloom,
            form: Form::SprayRose,
            size_mm: [0.0; 3],
            breadth: 1.0,
            height_mm: 12.0,
            per_stem: 1,
            stems_per_bunch: 1,
            bunch: Cents(0),
            supplier: String::new(),
            colours: Vec::new(),
            mass_g: 1.0,
            months: [true; 12],
            storage_c: [1.0, 3.0],
            chills_below_c: None,
            keeps: Keeps::Fair,
            cautions: Vec::new(),
            wire: None,
            cut_from: None,
            origins: Origins::default(),
            shelf: Shelf::default(),
        }
    }
    fn change(&self, b: &mut Botanical) {
        let text = |t: &Text| t.0.clone();
        set(&mut b.name, self.name.as_ref(), text);
        set(&mut b.botanical, self.botanical.as_ref(), text);
        set(&mut b.role, self.role.as_ref(), |r| r.0);
        set(&mut b.form, self.form.as_ref(), |f| f.0);
        set(&mut b.size_mm, self.size.as_ref(), |s| [s.0.0, s.1.0, s.2.0]);
        set(&mut b.breadth, self.breadth.as_ref(), |s| s.0);
        set(&mut b.height_mm, self.height.as_ref(), |s| s.0);
        set(&mut b.per_stem, self.per_stem.as_ref(), |c| c.whole());
        set(&mut b.stems_per_bunch, self.stems_per_bunch.as_ref(), |c| c.whole());
        set(&mut b.bunch, self.bunch.as_ref(), |m| m.0);
        set(&mut b.supplier, self.supplier.as_ref(), text);
        set(&mut b.colours, self.colours.as_ref(), |c| colours(c));
        set(&mut b.mass_g, self.mass.as_ref(), |m| m.0);
        set(&mut b.months, self.months.as_ref(), |m| m.0);
        set(&mut b.storage_c, self.storage.as_ref(), |s| [s.0.0, s.1.0]);
        set(&mut b.chills_below_c, self.chills_below.as_ref(), |c| Some(c.0));
        set(&mut b.keeps, self.keeps.as_ref(), |k| k.0);
        set(&mut b.cautions, self.cautions.as_ref(), |c| cautions(c));
        set(&mut b.wire, self.wire.as_ref(), |w| Some(WireCut { gauge: gauge(w.gauge), length_mm: w.length.0 }));
        set(&mut b.cut_from, self.cut_from.as_ref(), |t| Some(StockId::new(&t.0)));
        if let Some(origins) = &self.origins {
            origins.change(&mut b.origins);
        }
        shelve(&mut b.shelf, self.bunch.as_ref(), [self.hidden, self.starred], self.lead_days.as_ref());
    }
    fn fault(b: &Botanical) -> Option<&'static str> {
        let [least, usual, most] = b.size_mm;
        if !(least <= usual && usual <= most) {
            Some("its size is least, usual, most, in that order")
        } else if b.breadth <= 0.0 || b.breadth > 1.0 {
            Some("its breadth (width over length) is over 0 and at most 1")
        } else if b.per_stem == 0 || b.stems_per_bunch == 0 {
            Some("a bunch has at least one stem, and a stem at least one head")
        } else if b.storage_c[0] > b.storage_c[1] {
            Some("its storage is from, to, in that order")
        } else if b.chills_below_c.is_some_and(|c| c > b.storage_c[1]) {
            Some("it is harmed by cold at the temperature at which it is stored")
        } else if b.name.trim().is_empty() {
            Some("it has no name")
        } else {
            colours_fault(&b.colours)
        }
    }
}

/// A gauge number; beyond the finest wire there is nothing to tell apart.
fn gauge(count: Count) -> u8 {
    u8::try_from(count.whole()).unwrap_or(u8::MAX)
}

#[derive(Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RibbonLine {
    id: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    name: Option<Text>,
    #[serde(skip_serializing_if = "Option::is_none")]
    width: Option<Size>,
    #[serde(skip_serializing_if = "Option::is_none")]
    number: Option<Text>,
    #[serde(skip_serializing_if = "Option::is_none")]
    weave: Option<Keyword<Weave>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    step: Option<RibbonStep>,
    #[serde(skip_serializing_if = "Option::is_none")]
    price: Option<Money>,
    #[serde(skip_serializing_if = "Option::is_none")]
    colours: Option<Vec<(Text, Hex)>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    supplier: Option<Text>,
    #[serde(skip_serializing_if = "Option::is_none")]
    lead_days: Option<Count>,
    #[serde(skip_serializing_if = "Option::is_none")]
    hidden: Option<bool>,
    #[serde(skip_serializing_if = "Option::is_none")]
    starred: Option<bool>,
}

impl StockLine for RibbonLine {
    type Thing = Ribbon;

    fn id(&self) -> &str {
        &self.id
    }
    fn id_of(thing: &Ribbon) -> &StockId {
        &thing.id
    }
    fn missing(&self) -> Vec<&'static str> {
        not_given(&[
            ("name", self.name.is_some()),
            ("width", self.width.is_some()),
            ("weave", self.weave.is_some()),
            ("price", self.price.is_some()),
            ("colours", self.colours.is_some()),
        ])
    }
    fn blank(id: StockId) -> Ribbon {
        Ribbon {
            id,
            name: String::new(),
            width_mm: 15.0,
            number: String::new(),
            weave: Weave::Satin,
            colours: Vec::new(),
            step_mm: MM_PER_YARD,
            step: Cents(0),
            supplier: String::new(),
            shelf: Shelf::default(),
        }
    }
    fn change(&self, r: &mut Ribbon) {
        set(&mut r.name, self.name.as_ref(), |t| t.0.clone());
        set(&mut r.width_mm, self.width.as_ref(), |s| s.0);
        set(&mut r.number, self.number.as_ref(), |t| t.0.clone());
        set(&mut r.weave, self.weave.as_ref(), |w| w.0);
        set(&mut r.step_mm, self.step.as_ref(), |s| s.0);
        set(&mut r.step, self.price.as_ref(), |m| m.0);
        set(&mut r.colours, self.colours.as_ref(), |c| colours(c));
        set(&mut r.supplier, self.supplier.as_ref(), |t| t.0.clone());
        shelve(&mut r.shelf, self.price.as_ref(), [self.hidden, self.starred], self.lead_days.as_ref());
    }
    fn fault(r: &Ribbon) -> Option<&'static str> {
        if r.name.trim().is_empty() { Some("it has no name") } else { colours_fault(&r.colours) }
    }
}

/// Exact by definition since 1959 (international yard and pound agreement).
const MM_PER_YARD: f64 = 914.4;

#[derive(Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub(super) struct BandLine {
    id: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    name: Option<Text>,
    #[serde(skip_serializing_if = "Option::is_none")]
    kind: Option<Keyword<BandKind>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    fits: Option<(Size, Size)>,
    #[serde(skip_serializing_if = "Option::is_none")]
    width: Option<Size>,
    #[serde(skip_serializing_if = "Option::is_none")]
    colour: Option<Hex>,
    #[serde(skip_serializing_if = "Option::is_none")]
    price: Option<Money>,
    #[serde(skip_serializing_if = "Option::is_none")]
    cautions: Option<Vec<Keyword<Caution>>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    supplier: Option<Text>,
    #[serde(skip_serializing_if = "Option::is_none")]
    lead_days: Option<Count>,
    #[serde(skip_serializing_if = "Option::is_none")]
    hidden: Option<bool>,
    #[serde(skip_serializing_if = "Option::is_none")]
    starred: Option<bool>,
}

impl StockLine for BandLine {
    type Thing = Band;

    fn id(&self) -> &str {
        &self.id
    }
    fn id_of(thing: &Band) -> &StockId {
        &thing.id
    }
    fn missing(&self) -> Vec<&'static str> {
        not_given(&[
            ("name", self.name.is_some()),
            ("kind", self.kind.is_some()),
            ("fits", self.fits.is_some()),
            ("price", self.price.is_some()),
        ])
    }
    fn blank(id: StockId) -> Band {
        Band {
            id,
            name: String::new(),
            kind: BandKind::Elastic,
            fits_mm: [0.0; 2],
            width_mm: 15.0,
            rgb: Rgb::hex(0x00f4_efe6),
            price: Cents(0),
            cautions: Vec::new(),
            supplier: String::new(),
            shelf: Shelf::default(),
        }
    }
    fn change(&self, b: &mut Band) {
        set(&mut b.name, self.name.as_ref(), |t| t.0.clone());
        set(&mut b.kind, self.kind.as_ref(), |k| k.0);
        set(&mut b.fits_mm, self.fits.as_ref(), |f| [f.0.0, f.1.0]);
        set(&mut b.width_mm, self.width.as_ref(), |s| s.0);
        set(&mut b.rgb, self.colour.as_ref(), |h| h.0);
        set(&mut b.price, self.price.as_ref(), |m| m.0);
        set(&mut b.cautions, self.cautions.as_ref(), |c| cautions(c));
        set(&mut b.supplier, self.supplier.as_ref(), |t| t.0.clone());
        shelve(&mut b.shelf, self.price.as_ref(), [self.hidden, self.starred], self.lead_days.as_ref());
    }
    fn fault(b: &Band) -> Option<&'static str> {
        if b.fits_mm[0] > b.fits_mm[1] {
            Some("the wrist sizes it fits are from, up to, in that order")
        } else if b.name.trim().is_empty() {
            Some("it has no name")
        } else {
            None
        }
    }
}

#[derive(Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub(super) struct SundryLine {
    id: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    name: Option<Text>,
    #[serde(skip_serializing_if = "Option::is_none")]
    kind: Option<Keyword<SundryKind>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    wire: Option<WireMassLine>,
    #[serde(skip_serializing_if = "Option::is_none")]
    price: Option<Money>,
    #[serde(skip_serializing_if = "Option::is_none")]
    cautions: Option<Vec<Keyword<Caution>>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    origin: Option<Text>,
    #[serde(skip_serializing_if = "Option::is_none")]
    supplier: Option<Text>,
    #[serde(skip_serializing_if = "Option::is_none")]
    lead_days: Option<Count>,
    #[serde(skip_serializing_if = "Option::is_none")]
    hidden: Option<bool>,
    #[serde(skip_serializing_if = "Option::is_none")]
    starred: Option<bool>,
}

#[derive(Clone, Deserialize, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
struct WireMassLine {
    gauge: Count,
    grams: Grams,
}

impl StockLine for SundryLine {
    type Thing = Sundry;

    fn id(&self) -> &str {
        &self.id
    }
    fn id_of(thing: &Sundry) -> &StockId {
        &thing.id
    }
    fn missing(&self) -> Vec<&'static str> {
        not_given(&[("name", self.name.is_some()), ("kind", self.kind.is_some()), ("price", self.price.is_some())])
    }
    fn blank(id: StockId) -> Sundry {
        Sundry {
            id,
            name: String::new(),
            kind: SundryKind::Adhesive,
            wire: None,
            price: Cents(0),
            cautions: Vec::new(),
            origin: String::new(),
            supplier: String::new(),
            shelf: Shelf::default(),
        }
    }
    fn change(&self, s: &mut Sundry) {
        set(&mut s.name, self.name.as_ref(), |t| t.0.clone());
        set(&mut s.kind, self.kind.as_ref(), |k| k.0);
        set(&mut s.wire, self.wire.as_ref(), |w| Some((gauge(w.gauge), w.grams.0)));
        set(&mut s.price, self.price.as_ref(), |m| m.0);
        set(&mut s.cautions, self.cautions.as_ref(), |c| cautions(c));
        set(&mut s.origin, self.origin.as_ref(), |t| t.0.clone());
        set(&mut s.supplier, self.supplier.as_ref(), |t| t.0.clone());
        shelve(&mut s.shelf, self.price.as_ref(), [self.hidden, self.starred], self.lead_days.as_ref());
    }
    fn fault(s: &Sundry) -> Option<&'static str> {
        s.name.trim().is_empty().then_some("it has no name")
    }
}
