//! Odd numbers of blooms and of each accent, or what the wearer's custom wants? Taught everywhere as the rule of three
//! (common practice, no source); some customs avoid even numbers, some 4 and 9 (common practice, no source).

use super::words::{Sentence, Wording};
use super::{Finding, Measures, Remedy, Subject, finding};
use crate::stock::{Role, StockId};
use crate::units::{counted, plural};

/// From this many on nobody counts at a glance, and an even number costs less; our choice.
const MANY: usize = 9;
/// What an even number of many still earns; our choice.
const MANY_EARN: f64 = 0.6;

/// How many there are of what: all blooms together, then each kind of accent.
#[derive(Clone, Debug, PartialEq)]
pub struct PartCounts {
    /// All blooms.
    pub n_blooms: usize,
    /// Blooms, then each accent; nothing where there are neither.
    pub groups: Vec<CountedGroup>,
}

/// Parts that are counted together.
#[derive(Clone, Debug, PartialEq)]
pub struct CountedGroup {
    /// What they are called, one or many as the count is.
    pub name: String,
    /// How many.
    pub n: usize,
    /// What one more would be.
    pub kind: StockId,
    /// Whether the number goes with the custom.
    pub is_welcome: bool,
    /// Whether the custom avoids just this number.
    pub is_avoided: bool,
}

pub(super) fn answer(subject: Subject<'_>, measures: &Measures) -> Finding {
    let wishes = &subject.piece.wishes;
    let observed = PartCounts { n_blooms: measures.n_blooms(), groups: groups(subject, measures) };
    if observed.groups.is_empty() {
        return finding(subject, observed, 0.0, "", 0.0);
    }
    let earns = |g: &CountedGroup| match (g.is_welcome, g.n >= MANY && !g.is_avoided) {
        (true, _) => 1.0,
        (false, true) => MANY_EARN,
        (false, false) => 0.0,
    };
    let score = observed.groups.iter().map(earns).sum::<f64>() / observed.groups.len() as f64;
    let first_off = observed.groups.iter().find(|g| !g.is_welcome).map(|g| (g.kind.clone(), count(g.n)));
    let mut found = finding(subject, observed, measures.n_blooms() as f64, "", score);
    if let Some((kind, n)) = first_off {
        found.remedies.extend(wishes.welcomes(n + 1).then(|| Remedy::OneMore(kind.clone())));
        found.remedies.extend((n > 1 && wishes.welcomes(n - 1)).then_some(Remedy::OneLess(kind)));
    }
    found
}

fn count(n: usize) -> u32 {
    u32::try_from(n).unwrap_or(u32::MAX)
}

fn groups(subject: Subject<'_>, measures: &Measures) -> Vec<CountedGroup> {
    let wishes = &subject.piece.wishes;
    let group = |name: String, n: usize, kind: StockId| {
        let (is_welcome, is_avoided) = (wishes.welcomes(count(n)), wishes.avoided_counts.contains(&count(n)));
        CountedGroup { name, n, kind, is_welcome, is_avoided }
    };
    let mut groups = Vec::new();
    let blooms = measures.kinds.iter().filter(|k| k.role == Role::Bloom);
    if let Some(most) = blooms.max_by_key(|k| k.count()) {
        let n = measures.n_blooms();
        groups.push(group(if n == 1 { "bloom" } else { "blooms" }.to_owned(), n, most.stock.clone()));
    }
    let accents = measures.kinds.iter().filter(|k| k.role == Role::Accent);
    groups.extend(accents.map(|k| {
        let name = subject.name_of(&k.stock);
        group(if k.count() == 1 { name } else { plural(&name) }, k.count(), k.stock.clone())
    }));
    groups
}

impl Sentence for PartCounts {
    fn sentence(&self, _: Wording) -> String {
        let off: Vec<&CountedGroup> = self.groups.iter().filter(|g| !g.is_welcome).collect();
        let avoided: Vec<String> = off.iter().filter(|g| g.is_avoided).map(|g| g.n.to_string()).collect();
        let blooms = counted(self.n_blooms, "bloom", "blooms");
        if self.groups.is_empty() {
            "No blooms yet.".to_owned()
        } else if off.is_empty() && self.groups.iter().all(|g| g.n % 2 == 1) {
            format!("Odd numbers: {blooms}, nothing in pairs.")
        } else if off.is_empty() {
            format!("{blooms}. Even numbers are welcome here.")
        } else if avoided.is_empty() {
            format!("{}. Odd numbers look more natural.", listed(&off))
        } else {
            format!("{}. The wearer\u{2019}s custom avoids {}.", listed(&off), avoided.join(" and "))
        }
    }
}

/// The first kind with its number, and how many more kinds there are: a list of all would not fit a line.
fn listed(groups: &[&CountedGroup]) -> String {
    let first: Vec<String> = groups.iter().take(1).map(|g| format!("{} {}", g.n, g.name)).collect();
    match groups.len() {
        0 | 1 => first.join(""),
        2 => format!("{}, {} {}", first.join(""), groups[1].n, groups[1].name),
        more => format!("{} and {} more kinds", first.join(""), more - 1),
    }
}

#[cfg(test)]
mod tests {
    use super::super::cases::{Shop, berry, blade, head, hold, piece};
    use super::*;
    use crate::piece::{Piece, Question, Wishes};

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
