//! Two or three blooms in the middle, above the others (common practice, no source).

use super::{Finding, Head, Measures, Remedy, finding, words};
use crate::piece::{Level, PartId, Question};

/// Fewer blooms than this need no top; our choice.
const NEEDED_FROM: usize = 3;
/// Farther out than this share of the oval is not the middle; our choice.
const MIDDLE: f64 = 0.55;
/// More than this many are no longer a top; common practice, no source.
const MOST: usize = 3;

pub(super) fn answer(measures: &Measures) -> Option<Finding> {
    let n_blooms = measures.n_blooms();
    if n_blooms < NEEDED_FROM {
        return None;
    }
    let in_middle = |h: &&Head| measures.oval.gauge(h.disc.centre) <= MIDDLE;
    let on_top: Vec<&Head> = measures.blooms().filter(|h| h.level == Level::Top).collect();
    let n_well = on_top.iter().copied().filter(|h| in_middle(h)).count();
    let n_off = on_top.len() - n_well;
    let score = match n_well {
        0 => 0.0,
        n if n > MOST => 1.0 - 0.25 * (n - MOST) as f64,
        _ => 1.0 - 0.25 * n_off as f64,
    };
    let says = match (n_well, n_off) {
        (0, _) => words::top_missing(),
        (n, _) if n > MOST => words::top_many(n),
        (n, 0) => words::top_well(n),
        (n, off) => words::top_off(n, off),
    };
    let mut found = finding(Question::Top, says, n_well as f64, "", score);
    if n_well == 0 {
        let ids = nearest_to_centre(measures, if n_blooms >= 5 { 2 } else { 1 });
        found.remedies.push(Remedy::Raise(ids, Level::Top));
    }
    Some(found)
}

fn nearest_to_centre(measures: &Measures, n: usize) -> Vec<PartId> {
    let mut blooms: Vec<&Head> = measures.blooms().collect();
    blooms.sort_by(|a, b| a.disc.centre.to_vec2().hypot().total_cmp(&b.disc.centre.to_vec2().hypot()));
    blooms.into_iter().take(n).map(|h| h.id).collect()
}
