//! A girth in a file keeps the words it was typed in: `135`, `"6 1/4"`, `"15.5 cm"`.

use std::fmt;

use serde::de::{self, Deserialize, Deserializer, Visitor};
use serde::{Serialize, Serializer};

use super::store_error;
use crate::piece::Wrist;
use crate::units::{Doubt, Length, LengthUnit};

/// A girth as typed.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Girth(pub(super) Length);

impl Serialize for Girth {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        let (length, mm) = (&self.0, self.0.mm());
        if length.unit() == LengthUnit::Millimetre && Length::from_mm(mm) == *length {
            super::figures::Extent::new(mm).serialize(to)
        } else {
            to.serialize_str(length.typed())
        }
    }
}

impl<'de> Deserialize<'de> for Girth {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        from.deserialize_any(GirthReader)
    }
}

struct GirthReader;

impl Visitor<'_> for GirthReader {
    type Value = Girth;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a girth")
    }
    fn visit_u64<E: de::Error>(self, value: u64) -> Result<Girth, E> {
        self.visit_f64(value as f64)
    }
    fn visit_i64<E: de::Error>(self, value: i64) -> Result<Girth, E> {
        self.visit_f64(value as f64)
    }
    fn visit_f64<E: de::Error>(self, value: f64) -> Result<Girth, E> {
        if Wrist::GIRTHS_MM.contains(&value) {
            return Ok(Girth(Length::from_mm(value)));
        }
        self.visit_str(&value.to_string())
    }
    fn visit_str<E: de::Error>(self, typed: &str) -> Result<Girth, E> {
        let shown: String = typed.chars().take(40).collect();
        Length::parse_within(typed, &Wrist::GIRTHS_MM).map(Girth).map_err(|doubt| {
            E::custom(match doubt {
                Doubt::Ask { meant, .. } => store_error::girth_in_doubt(&shown, meant.mm()),
                Doubt::Unreadable { usual_mm: (least, most), .. } => {
                    store_error::no_length(&format!("\u{201c}{shown}\u{201d}"), least, most)
                }
            })
        })
    }
}
