//! From a thing in stock to its line in the shop's file: only what is not as in the list below it. A thing that is new gives
//! every field.

use super::super::figures::{Celsius, Count, Extent, Grams, Hex, Money, Months, RibbonStep, Share, Size, Text};
use super::super::keywords::{FormKeyword, Keyword};
use super::origins::OriginsLine;
use super::{BandLine, BotanicalLine, RibbonLine, SundryLine, WireLine, WireMassLine};
use crate::stock::{Band, Botanical, Caution, Origins, Ribbon, Shelf, StockColour, Sundry};
use crate::units::Cents;

/// The value when it is not the one before, or there is none before.
fn changed<T: PartialEq + ?Sized, U>(now: &T, before: Option<&T>, as_field: impl Fn(&T) -> U) -> Option<U> {
    (Some(now) != before).then(|| as_field(now))
}

fn text(text: &str) -> Text {
    Text(text.to_owned())
}

fn sizes([least, usual, most]: &[f64; 3]) -> (Size, Size, Size) {
    (Size::new(*least), Size::new(*usual), Size::new(*most))
}

fn colours(colours: &[StockColour]) -> Vec<(Text, Hex)> {
    colours.iter().map(|c| (Text(c.name.clone()), Hex(c.rgb))).collect()
}

fn cautions(cautions: &[Caution]) -> Vec<Keyword<Caution>> {
    cautions.iter().map(|c| Keyword(*c)).collect()
}

fn count(n: u32) -> Count {
    Count::new(f64::from(n))
}

/// A price of the shop's own is written even where it is the same as the example: by that it is known to be hers.
fn price(now: Cents, shelf: Shelf, before: Option<Shelf>) -> Option<Money> {
    let was_own = before.is_some_and(|before| !before.has_example_price);
    (!shelf.has_example_price && !was_own || before.is_none()).then_some(Money(now))
}

fn flag(now: bool, before: Option<bool>) -> Option<bool> {
    (now != before.unwrap_or(false)).then_some(now)
}

impl BotanicalLine {
    pub(in super::super) fn of(b: &Botanical, before: Option<&Botanical>) -> Self {
        let shelf = before.map(|b| b.shelf);
        Self {
            id: b.id.to_string(),
            name: changed(b.name.as_str(), before.map(|b| b.name.as_str()), text),
            botanical: changed(b.botanical.as_str(), before.map(|b| b.botanical.as_str()), text),
            role: changed(&b.role, before.map(|b| &b.role), |r| Keyword(*r)),
            form: changed(&b.form, before.map(|b| &b.form), |f| FormKeyword(*f)),
            size: changed(&b.size_mm, before.map(|b| &b.size_mm), sizes),
            breadth: changed(&b.breadth, before.map(|b| &b.breadth), |n| Share::new(*n)),
            height: changed(&b.height_mm, before.map(|b| &b.height_mm), |n| Extent::new(*n)),
            per_stem: changed(&b.per_stem, before.map(|b| &b.per_stem), |n| count(*n)),
            stems_per_bunch: changed(&b.stems_per_bunch, before.map(|b| &b.stems_per_bunch), |n| count(*n)),
            bunch: price(b.bunch, b.shelf, shelf),
            supplier: changed(b.supplier.as_str(), before.map(|b| b.supplier.as_str()), text),
            colours: changed(b.colours.as_slice(), before.map(|b| b.colours.as_slice()), colours),
            mass: changed(&b.mass_g, before.map(|b| &b.mass_g), |n| Grams::new(*n)),
            months: changed(&b.months, before.map(|b| &b.months), |m| Months(*m)),
            storage: changed(&b.storage_c, before.map(|b| &b.storage_c), |[from, to]| {
                (Celsius::new(*from), Celsius::new(*to))
            }),
            chills_below: changed(&b.chills_below_c, before.map(|b| &b.chills_below_c), |c| c.map(Celsius::new))
                .flatten(),
            keeps: changed(&b.keeps, before.map(|b| &b.keeps), |k| Keyword(*k)),
            cautions: changed(b.cautions.as_slice(), before.map(|b| b.cautions.as_slice()), cautions),
            wire: changed(&b.wire, before.map(|b| &b.wire), |wire| {
                wire.map(|w| WireLine { gauge: Count::new(f64::from(w.gauge)), length: Size::new(w.length_mm) })
            })
            .flatten(),
            cut_from: changed(&b.cut_from, before.map(|b| &b.cut_from), |from| {
                from.as_ref().map(|id| Text(id.to_string()))
            })
            .flatten(),
            origins: changed(&b.origins, before.map(|b| &b.origins), |o| {
                OriginsLine::of(o, before.map_or(&Origins::default(), |b| &b.origins))
            })
            .filter(|_| b.origins != Origins::default()),
            lead_days: changed(&b.shelf.lead_days, Some(&shelf.map_or(0, |s| s.lead_days)), |n| count(u32::from(*n))),
            hidden: flag(b.shelf.is_hidden, shelf.map(|s| s.is_hidden)),
            starred: flag(b.shelf.is_starred, shelf.map(|s| s.is_starred)),
        }
    }
}

impl OriginsLine {
    fn of(now: &Origins, before: &Origins) -> Self {
        let field = |now: &str, before: &str| changed(now, Some(before), text);
        Self {
            size: field(&now.size, &before.size),
            per_stem: field(&now.per_stem, &before.per_stem),
            bunch: field(&now.bunch, &before.bunch),
            storage: field(&now.storage, &before.storage),
            months: field(&now.months, &before.months),
            keeps: field(&now.keeps, &before.keeps),
            mass: field(&now.mass, &before.mass),
            cautions: field(&now.cautions, &before.cautions),
            wire: field(&now.wire, &before.wire),
        }
    }
}

impl RibbonLine {
    pub(in super::super) fn of(r: &Ribbon, before: Option<&Ribbon>) -> Self {
        let shelf = before.map(|r| r.shelf);
        Self {
            id: r.id.to_string(),
            name: changed(r.name.as_str(), before.map(|r| r.name.as_str()), text),
            width: changed(&r.width_mm, before.map(|r| &r.width_mm), |n| Size::new(*n)),
            number: changed(r.number.as_str(), before.map(|r| r.number.as_str()), text),
            weave: changed(&r.weave, before.map(|r| &r.weave), |w| Keyword(*w)),
            step: changed(&r.step_mm, before.map(|r| &r.step_mm), |n| RibbonStep::new(*n)),
            price: price(r.step, r.shelf, shelf),
            colours: changed(r.colours.as_slice(), before.map(|r| r.colours.as_slice()), colours),
            supplier: changed(r.supplier.as_str(), Some(before.map_or("", |r| &r.supplier)), text),
            lead_days: changed(&r.shelf.lead_days, Some(&shelf.map_or(0, |s| s.lead_days)), |n| count(u32::from(*n))),
            hidden: flag(r.shelf.is_hidden, shelf.map(|s| s.is_hidden)),
            starred: flag(r.shelf.is_starred, shelf.map(|s| s.is_starred)),
        }
    }
}

impl BandLine {
    pub(in super::super) fn of(b: &Band, before: Option<&Band>) -> Self {
        let shelf = before.map(|b| b.shelf);
        Self {
            id: b.id.to_string(),
            name: changed(b.name.as_str(), before.map(|b| b.name.as_str()), text),
            kind: changed(&b.kind, before.map(|b| &b.kind), |k| Keyword(*k)),
            fits: changed(&b.fits_mm, before.map(|b| &b.fits_mm), |[from, to]| (Size::new(*from), Size::new(*to))),
            width: changed(&b.width_mm, before.map(|b| &b.width_mm), |n| Size::new(*n)),
            colour: changed(&b.rgb, before.map(|b| &b.rgb), |rgb| Hex(*rgb)),
            price: price(b.price, b.shelf, shelf),
            cautions: changed(b.cautions.as_slice(), before.map(|b| b.cautions.as_slice()), cautions),
            supplier: changed(b.supplier.as_str(), Some(before.map_or("", |b| &b.supplier)), text),
            lead_days: changed(&b.shelf.lead_days, Some(&shelf.map_or(0, |s| s.lead_days)), |n| count(u32::from(*n))),
            hidden: flag(b.shelf.is_hidden, shelf.map(|s| s.is_hidden)),
            starred: flag(b.shelf.is_starred, shelf.map(|s| s.is_starred)),
        }
    }
}

impl SundryLine {
    pub(in super::super) fn of(s: &Sundry, before: Option<&Sundry>) -> Self {
        let shelf = before.map(|s| s.shelf);
        Self {
            id: s.id.to_string(),
            name: changed(s.name.as_str(), before.map(|s| s.name.as_str()), text),
            kind: changed(&s.kind, before.map(|s| &s.kind), |k| Keyword(*k)),
            wire: changed(&s.wire, before.map(|s| &s.wire), |wire| {
                wire.map(|(gauge, grams)| WireMassLine {
                    gauge: Count::new(f64::from(gauge)),
                    grams: Grams::new(grams),
                })
            })
            .flatten(),
            price: price(s.price, s.shelf, shelf),
            cautions: changed(s.cautions.as_slice(), before.map(|s| s.cautions.as_slice()), cautions),
            origin: changed(s.origin.as_str(), before.map(|s| s.origin.as_str()), text),
            supplier: changed(s.supplier.as_str(), Some(before.map_or("", |s| &s.supplier)), text),
            lead_days: changed(&s.shelf.lead_days, Some(&shelf.map_or(0, |s| s.lead_days)), |n| count(u32::from(*n))),
            hidden: flag(s.shelf.is_hidden, shelf.map(|s| s.is_hidden)),
            starred: flag(s.shelf.is_starred, shelf.map(|s| s.is_starred)),
        }
    }
}
