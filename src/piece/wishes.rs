//! What the wearer or the designer wants otherwise: a custom of numbers, questions that do not fit this piece.

use std::collections::{BTreeMap, BTreeSet};

use super::Question;

/// Wishes that go with one piece.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Wishes {
    /// Counts that the wearer's custom avoids: 4 and 9 in some places.
    pub avoided_counts: BTreeSet<u32>,
    /// Whether even numbers are as welcome as odd ones.
    pub even_is_welcome: bool,
    /// Checks that are ignored for this piece, each with the reason given, which may be empty: balance, where it is
    /// lopsided on purpose.
    pub ignored: BTreeMap<Question, String>,
    /// Height allowed over the wrist, mm, when the rule of the house does not fit this wearer.
    pub height_mm: Option<f64>,
}

impl Wishes {
    /// Whether a count goes with the custom.
    pub fn welcomes(&self, n: u32) -> bool {
        (n % 2 == 1 || self.even_is_welcome) && !self.avoided_counts.contains(&n)
    }
}
