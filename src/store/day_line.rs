//! A day as it stands in files.

use std::fmt;

use serde::de::{self, Visitor};
use serde::{Deserialize, Deserializer, Serialize, Serializer};

use super::store_error;
use crate::book::Day;

/// A day as `"2026-05-09"`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct DayLine(pub(super) Day);

impl Serialize for DayLine {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.collect_str(&self.0)
    }
}

impl<'de> Deserialize<'de> for DayLine {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        from.deserialize_str(DayVisitor)
    }
}

struct DayVisitor;

impl Visitor<'_> for DayVisitor {
    type Value = DayLine;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a day")
    }
    fn visit_str<E: de::Error>(self, text: &str) -> Result<DayLine, E> {
        let shown: String = text.chars().take(40).collect();
        Day::parse(text).map(DayLine).ok_or_else(|| E::custom(store_error::no_day(&shown)))
    }
}
