//! Odd numbers of blooms and of each accent, or what the wearer's custom wants? Taught everywhere as the rule of three
//! (common practice, no source); some customs avoid even numbers, some 4 and 9 (common practice, no source).

use super::{Finding, Measures, Remedy, Subject, finding, words};
use crate::piece::Question;
use crate::stock::{Role, StockId};
use crate::units::plural;

/// From this many on nobody counts at a glance, and an even number costs less; our choice.
const MANY: usize = 9;
/// What an even number of many still earns; our choice.
const MANY_EARN: f64 = 0.6;

struct Group {
    name: String,
    n: usize,
    /// What one more would be.
    kind: Option<StockId>,
}

pub(super) fn answer(subject: Subject<'_>, measures: &Measures) -> Finding {
    let groups = groups(subject, measures);
    if groups.is_empty() {
        return finding(Question::OddCounts, words::no_blooms_yet(), 0.0, "", 0.0);
    }
    let wishes = &subject.piece.wishes;
    let count = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
    let earns =
        |g: &Group| match (wishes.welcomes(count(g.n)), g.n >= MANY && !wishes.avoided_counts.contains(&count(g.n))) {
            (true, _) => 1.0,
            (false, true) => MANY_EARN,
            (false, false) => 0.0,
        };
    let score = groups.iter().map(earns).sum::<f64>() / groups.len() as f64;
    let off: Vec<&Group> = groups.iter().filter(|g| !wishes.welcomes(count(g.n))).collect();
    let avoided = |g: &Group| wishes.avoided_counts.contains(&count(g.n));
    let says = match off[..] {
        [] => words::counts_well(measures.n_blooms()),
        _ => words::counts_off(&off.iter().map(|g| (g.name.clone(), g.n, avoided(g))).collect::<Vec<_>>()),
    };
    let mut found = finding(Question::OddCounts, says, measures.n_blooms() as f64, "", score);
    if let Some(kind) = off.first().and_then(|g| g.kind.clone()) {
        let n = count(off[0].n);
        found.remedies.extend(wishes.welcomes(n + 1).then(|| Remedy::OneMore(kind.clone())));
        found.remedies.extend((n > 1 && wishes.welcomes(n - 1)).then_some(Remedy::OneLess(kind)));
    }
    found
}

fn groups(subject: Subject<'_>, measures: &Measures) -> Vec<Group> {
    let mut groups = Vec::new();
    let blooms: Vec<_> = measures.kinds.iter().filter(|k| k.role == Role::Bloom).collect();
    if let Some(most) = blooms.iter().max_by_key(|k| k.count()) {
        groups.push(Group { name: "blooms".to_owned(), n: measures.n_blooms(), kind: Some(most.stock.clone()) });
    }
    let accents = measures.kinds.iter().filter(|k| k.role == Role::Accent);
    groups.extend(accents.map(|k| {
        let name = subject.stock.botanical(&k.stock).map_or_else(|| k.stock.to_string(), |b| b.name.to_lowercase());
        let name = if k.count() == 1 { name } else { plural(&name) };
        Group { name, n: k.count(), kind: Some(k.stock.clone()) }
    }));
    groups
}
