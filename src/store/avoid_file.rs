//! The words by which people call what they must not get, as a file: `assets/avoid.ron`, which explains its fields.

use std::collections::BTreeMap;

use serde::Deserialize;

use super::figures::Text;
use super::keywords::Keyword;
use super::reading::{Versioned, parse};
use crate::stock::{AvoidList, AvoidThing, BandKind, Caution, SundryKind};

/// The list that comes with the program.
const BUILT_IN: &str = include_str!("../../assets/avoid.ron");

/// The list that comes with the program.
pub fn built_in_avoid_list() -> AvoidList {
    // A test proves that it reads; should it ever not, every word stays unread and says so.
    parse::<AvoidFile>(BUILT_IN, "avoid.ron").map(AvoidFile::list).unwrap_or_default()
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct AvoidFile {
    #[serde(rename = "version")]
    _version: u64,
    families: BTreeMap<String, Vec<String>>,
    things: Vec<ThingLine>,
    beside: Vec<String>,
    describing: Vec<String>,
    elsewhere: Vec<String>,
}

impl Versioned for AvoidFile {
    const KIND: &'static str = "list of what people avoid";
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, default)]
#[derive(Default)]
struct ThingLine {
    name: Text,
    source: Text,
    words: Vec<String>,
    if_alone: Vec<String>,
    families: Vec<String>,
    genera: Vec<String>,
    cautions: Vec<Keyword<Caution>>,
    bands: Vec<Keyword<BandKind>>,
    sundries: Vec<Keyword<SundryKind>>,
    ribbons: bool,
    is_bead: bool,
    kind_of_harm: bool,
}

impl AvoidFile {
    fn list(self) -> AvoidList {
        let Self { families, things, beside, describing, elsewhere, .. } = self;
        let genera = |(family, genera): (String, Vec<String>)| genera.into_iter().map(move |g| (g, family.clone()));
        AvoidList {
            things: things.into_iter().map(ThingLine::thing).collect(),
            families: families.into_iter().flat_map(genera).collect(),
            beside,
            describing,
            elsewhere,
        }
    }
}

impl ThingLine {
    fn thing(self) -> AvoidThing {
        AvoidThing {
            name: self.name.0,
            words: self.words,
            if_alone: self.if_alone,
            families: self.families,
            genera: self.genera,
            cautions: self.cautions.into_iter().map(|c| c.0).collect(),
            bands: self.bands.into_iter().map(|b| b.0).collect(),
            sundries: self.sundries.into_iter().map(|s| s.0).collect(),
            ribbons: self.ribbons,
            is_bead: self.is_bead,
            is_kind_of_harm: self.kind_of_harm,
            source: self.source.0,
        }
    }
}
