//! Odd numbers of blooms and of each accent? Taught everywhere as the rule of three (common practice, no source).

use super::{Finding, Measures, finding, words};
use crate::piece::Question;
use crate::stock::Role;

pub(super) fn answer(measures: &Measures) -> Finding {
    let mut groups: Vec<(String, usize)> = Vec::new();
    if measures.n_blooms > 0 {
        groups.push(("blooms".to_owned(), measures.n_blooms));
    }
    let accents = measures.kinds.iter().filter(|k| k.role == Role::Accent);
    groups.extend(accents.map(|k| (k.stock.as_str().replace('-', " "), k.count())));
    let n_groups = groups.len();
    groups.retain(|(_, n)| n % 2 == 0);
    let score = if n_groups == 0 { 0.0 } else { (n_groups - groups.len()) as f64 / n_groups as f64 };
    let says = match (measures.n_blooms, &groups[..]) {
        (0, []) => words::no_blooms_yet(),
        (n, []) => words::counts_well(n),
        _ => words::counts_even(&groups),
    };
    finding(Question::OddCounts, says, measures.n_blooms as f64, "", score)
}
