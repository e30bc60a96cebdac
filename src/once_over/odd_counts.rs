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

#[cfg(test)]
mod tests {
    use super::super::cases::{Shop, berry, blade, head, hold, piece};
    use super::*;
    use crate::piece::{Piece, Wishes};

    fn of(n_heads: u32, n_berries: u32) -> Piece {
        let heads = (0..n_heads).map(|k| head(f64::from(k), 0.0));
        piece(90.0, 54.0, heads.chain((0..n_berries).map(|k| berry(0.0, f64::from(k)))))
    }

    fn wished(mut piece: Piece, wishes: Wishes) -> Piece {
        piece.wishes = wishes;
        piece
    }

    #[test]
    fn the_score_is_the_mean_of_the_kinds_and_ten_are_not_counted_at_a_glance() {
        let no_four = || Wishes { avoided_counts: [4, 10].into(), ..Wishes::default() };
        let even = || Wishes { even_is_welcome: true, avoided_counts: [4].into(), ..Wishes::default() };
        hold(
            Question::OddCounts,
            [
                ("one", of(1, 0), 1.0),
                ("four", of(4, 0), 0.0),
                ("five", of(5, 0), 1.0),
                ("eight", of(8, 0), 0.0),
                ("nine", of(9, 0), 1.0),
                ("ten", of(10, 0), 0.6),
                ("three and two", of(3, 2), 0.5),
                ("ten and two", of(10, 2), 0.3),
                ("three and one", of(3, 1), 1.0),
                ("ten, which is avoided", wished(of(10, 0), no_four()), 0.0),
                ("eight where even numbers are welcome", wished(of(8, 0), even()), 1.0),
                ("four where even numbers are welcome but not this one", wished(of(4, 0), even()), 0.0),
                ("a leaf alone", piece(90.0, 54.0, [blade(0.0, 0.0, 0.0)]), 0.0),
            ],
        );
    }

    #[test]
    fn one_more_and_one_less_are_offered_where_they_are_welcome() {
        let shop = Shop::new();
        let remedies = |piece: &Piece| shop.ask(Question::OddCounts, piece).unwrap().remedies;
        let kind = || StockId::new("head");
        assert_eq!(remedies(&of(4, 0)), [Remedy::OneMore(kind()), Remedy::OneLess(kind())]);
        let avoided = Wishes { avoided_counts: [5].into(), ..Wishes::default() };
        assert_eq!(remedies(&wished(of(4, 0), avoided)), [Remedy::OneLess(kind())]);
        // From one that is avoided none is taken away: nothing would be left.
        let single = Wishes { avoided_counts: [1].into(), even_is_welcome: true, ..Wishes::default() };
        assert_eq!(remedies(&wished(of(1, 0), single)), [Remedy::OneMore(kind())]);
        assert_eq!(remedies(&of(3, 0)), []);
    }
}
