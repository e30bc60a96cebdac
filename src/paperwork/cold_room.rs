//! What must not stand in one cold room: flowers from warm countries are harmed at temperatures at which others keep best.
//!
//! Temperatures are those of the stock list, whose sources stand beside them. Degrees Celsius.

use super::StemList;
use crate::stock::{Botanical, Stock};

/// A flower that the cold room of the others harms.
#[derive(Clone, Debug, PartialEq)]
pub struct ChillsThere {
    /// Trade name.
    pub name: String,
    /// Below this it is harmed, degrees Celsius.
    pub below_c: f64,
}

/// What on the list is harmed at every temperature that suits something else on it: what wants it warmest first.
pub fn chills_there(stems: &StemList, stock: &Stock) -> Vec<ChillsThere> {
    let mut used: Vec<&Botanical> = stems.lines.iter().filter_map(|line| stock.botanical(&line.stock)).collect();
    used.sort_by(|a, b| a.name.cmp(&b.name));
    used.dedup_by(|a, b| a.id == b.id);
    let coldest = used.iter().map(|b| b.storage_c[1]).fold(f64::INFINITY, f64::min);
    let limit = |b: &&Botanical| b.chills_below_c.filter(|limit| *limit > coldest);
    let mut found: Vec<ChillsThere> =
        used.iter().filter_map(|b| Some(ChillsThere { name: b.name.clone(), below_c: limit(b)? })).collect();
    found.sort_by(|a, b| b.below_c.total_cmp(&a.below_c));
    found
}

impl ChillsThere {
    /// `Dendrobium: harmed below 12.8 °C (55 °F). Keep it, and the finished piece, out of colder rooms.`
    pub fn says(&self) -> String {
        let (name, celsius, fahrenheit) = (&self.name, self.below_c, self.below_c * 1.8 + 32.0);
        let limit = format!("{celsius:.1} \u{b0}C ({fahrenheit:.0} \u{b0}F)");
        format!("{name}: harmed below {limit}. Keep it, and the finished piece, out of colder rooms.")
    }
}
