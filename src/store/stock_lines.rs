//! The lines of a stock file: their fields, what a new line must say, and what makes a line impossible.

use serde::Deserialize;

use super::figures::{Celsius, Count, Extent, Grams, Hex, Money, Months, RibbonStep, Share, Size, Text};
use super::keywords::{FormKeyword, Keyword};
use crate::colour::Rgb;
use crate::stock::{
    Band, BandKind, Botanical, Caution, Form, Keeps, Origins, Ribbon, Role, StockColour, StockId, Sundry, SundryKind,
    Weave, WireCut,
};
use crate::units::Cents;

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

fn cautions(list: &[Keyword<Caution>]) -> Vec<Caution> {
    list.iter().map(|c| c.0).collect()
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct BotanicalLine {
    id: String,
    name: Option<Text>,
    botanical: Option<Text>,
    role: Option<Keyword<Role>>,
    form: Option<FormKeyword>,
    size: Option<(Size, Size, Size)>,
    breadth: Option<Share>,
    height: Option<Extent>,
    per_stem: Option<Count>,
    stems_per_bunch: Option<Count>,
    bunch: Option<Money>,
    supplier: Option<Text>,
    colours: Option<Vec<(Text, Hex)>>,
    mass: Option<Grams>,
    months: Option<Months>,
    storage: Option<(Celsius, Celsius)>,
    chills_below: Option<Celsius>,
    keeps: Option<Keyword<Keeps>>,
    cautions: Option<Vec<Keyword<Caution>>>,
    wire: Option<WireLine>,
    cut_from: Option<Text>,
    origins: Option<OriginsLine>,
}

#[derive(Clone, Deserialize)]
#[serde(deny_unknown_fields)]
struct WireLine {
    gauge: Count,
    length: Size,
}

#[derive(Clone, Deserialize)]
#[serde(deny_unknown_fields)]
struct OriginsLine {
    size: Option<Text>,
    per_stem: Option<Text>,
    bunch: Option<Text>,
    storage: Option<Text>,
    months: Option<Text>,
    keeps: Option<Text>,
    mass: Option<Text>,
    cautions: Option<Text>,
    wire: Option<Text>,
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

impl OriginsLine {
    fn change(&self, to: &mut Origins) {
        let text = |t: &Text| t.0.clone();
        set(&mut to.size, self.size.as_ref(), text);
        set(&mut to.per_stem, self.per_stem.as_ref(), text);
        set(&mut to.bunch, self.bunch.as_ref(), text);
        set(&mut to.storage, self.storage.as_ref(), text);
        set(&mut to.months, self.months.as_ref(), text);
        set(&mut to.keeps, self.keeps.as_ref(), text);
        set(&mut to.mass, self.mass.as_ref(), text);
        set(&mut to.cautions, self.cautions.as_ref(), text);
        set(&mut to.wire, self.wire.as_ref(), text);
    }
}

/// A gauge number; beyond the finest wire there is nothing to tell apart.
fn gauge(count: Count) -> u8 {
    u8::try_from(count.whole()).unwrap_or(u8::MAX)
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RibbonLine {
    id: String,
    name: Option<Text>,
    width: Option<Size>,
    number: Option<Text>,
    weave: Option<Keyword<Weave>>,
    step: Option<RibbonStep>,
    price: Option<Money>,
    colours: Option<Vec<(Text, Hex)>>,
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
    }
    fn fault(r: &Ribbon) -> Option<&'static str> {
        if r.name.trim().is_empty() { Some("it has no name") } else { colours_fault(&r.colours) }
    }
}

/// Exact by definition since 1959 (international yard and pound agreement).
const MM_PER_YARD: f64 = 914.4;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct BandLine {
    id: String,
    name: Option<Text>,
    kind: Option<Keyword<BandKind>>,
    fits: Option<(Size, Size)>,
    width: Option<Size>,
    colour: Option<Hex>,
    price: Option<Money>,
    cautions: Option<Vec<Keyword<Caution>>>,
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

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct SundryLine {
    id: String,
    name: Option<Text>,
    kind: Option<Keyword<SundryKind>>,
    wire: Option<WireMassLine>,
    price: Option<Money>,
    cautions: Option<Vec<Keyword<Caution>>>,
    origin: Option<Text>,
}

#[derive(Clone, Deserialize)]
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
        }
    }
    fn change(&self, s: &mut Sundry) {
        set(&mut s.name, self.name.as_ref(), |t| t.0.clone());
        set(&mut s.kind, self.kind.as_ref(), |k| k.0);
        set(&mut s.wire, self.wire.as_ref(), |w| Some((gauge(w.gauge), w.grams.0)));
        set(&mut s.price, self.price.as_ref(), |m| m.0);
        set(&mut s.cautions, self.cautions.as_ref(), |c| cautions(c));
        set(&mut s.origin, self.origin.as_ref(), |t| t.0.clone());
    }
    fn fault(s: &Sundry) -> Option<&'static str> {
        s.name.trim().is_empty().then_some("it has no name")
    }
}
