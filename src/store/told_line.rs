//! The day and the hour that words told on the day they were typed, as a file holds them. `Saturday` tells another day a week
//! later, so what it told is kept beside it; words that tell the same by themselves need no such line.

use std::fmt;

use serde::de::{self, Visitor};
use serde::{Deserialize, Deserializer, Serialize, Serializer};

use super::day_line::DayLine;
use super::store_error;
use crate::book::{Hour, When};

/// `(day: "2026-05-09", hour: "14:00")`: what the words told, each left out where they told none.
#[derive(Clone, Copy, Debug, Default, Deserialize, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
pub(super) struct ToldLine {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    day: Option<DayLine>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    hour: Option<HourLine>,
}

impl ToldLine {
    /// What the words of a file are.
    pub(super) fn when(words: &str, told: Option<Self>) -> When {
        match told {
            Some(told) => When::told(words, told.day.map(|day| day.0), told.hour.map(|hour| hour.0)),
            None => When::typed(words),
        }
    }

    /// What the words told, where they tell something else by themselves.
    pub(super) fn of(when: &When) -> Option<Self> {
        let told = Self { day: when.day().map(DayLine), hour: when.hour().map(HourLine) };
        (When::typed(when.words()) != *when).then_some(told)
    }
}

/// An hour as `14:00`.
#[derive(Clone, Copy, Debug, PartialEq)]
struct HourLine(Hour);

impl Serialize for HourLine {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.collect_str(&self.0)
    }
}

impl<'de> Deserialize<'de> for HourLine {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        from.deserialize_str(HourVisitor)
    }
}

struct HourVisitor;

impl Visitor<'_> for HourVisitor {
    type Value = HourLine;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("an hour")
    }
    fn visit_str<E: de::Error>(self, text: &str) -> Result<HourLine, E> {
        let shown: String = text.chars().take(40).collect();
        Hour::parse(text).map(HourLine).ok_or_else(|| E::custom(store_error::no_hour(&shown)))
    }
}
