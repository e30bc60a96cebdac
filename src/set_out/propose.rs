//! Whole layouts: one proposal, or three that differ.

use super::archive::FoundLayout;
use super::crowded::{Crowded, crowded};
use super::search::{LayoutSearch, MoveReach, SearchOptions};
use super::words::{self, Character, NoProposal};
use crate::geometry::angular_gaps;
use crate::once_over::{KindSpacing, OnceOver, Subject, look_over};
use crate::piece::{Edit, Level, Piece, PieceSize};
use crate::stock::{Role, StockId};

/// Something that the program would do: one step to undo.
#[derive(Clone, Debug, PartialEq)]
pub struct Proposal {
    /// The edit that does it.
    pub edit: Edit,
    /// What it does, in one line.
    pub says: String,
    /// Score of the piece as it is, 0 to 100.
    pub score_before: f64,
    /// Score of the piece after it.
    pub score_after: f64,
    /// Moves tried and layouts looked at on the way.
    pub n_tries: u64,
    /// When the blooms are too many or too large for the oval: words, and what would help.
    pub crowded: Option<Crowded>,
}

/// A whole layout for the parts on the sheet and what `size` promises beyond them. Locked parts stay. Refused in words
/// when there is nothing to set out, or nothing better is found.
pub fn propose(subject: Subject<'_>, size: Option<&PieceSize>, ask: SearchOptions) -> Result<Proposal, NoProposal> {
    let mut search = LayoutSearch::new(subject, size, ask.seed)?;
    search.rounds(ask.rounds);
    search.proposal()
}

/// Up to three layouts that differ to the eye: other turns of the plan, other seeds. The best comes first.
pub fn three_proposals(
    subject: Subject<'_>,
    size: Option<&PieceSize>,
    ask: SearchOptions,
) -> Result<Vec<Proposal>, NoProposal> {
    let mut found: Vec<(Piece, Proposal)> = Vec::new();
    for turn in 0..3 {
        let seed = ask.seed.wrapping_mul(3).wrapping_add(u64::from(turn));
        let mut search = LayoutSearch::with(subject, size, seed, MoveReach::Anywhere, Some(turn))?;
        search.rounds(ask.rounds);
        let Ok(proposal) = search.proposal() else { continue };
        let Ok(piece) = subject.piece.apply(&proposal.edit) else { continue };
        if found.iter().all(|(other, _)| differ(other, &piece)) {
            found.push((piece, proposal));
        }
    }
    found.sort_by(|a, b| b.1.score_after.total_cmp(&a.1.score_after));
    tell_apart(&mut found);
    if found.is_empty() { Err(NoProposal::NothingBetter) } else { Ok(found.into_iter().map(|f| f.1).collect()) }
}

/// Leads what each layout says by a word that tells it from the others: how far out its blooms lie.
fn tell_apart(found: &mut [(Piece, Proposal)]) {
    /// Means that differ by less than this share of the oval look alike; our choice.
    const ALIKE: f64 = 0.01;
    let out: Vec<f64> = found.iter().map(|(piece, _)| mean_gauge(piece)).collect();
    let (least, most) = out.iter().fold((f64::INFINITY, 0.0_f64), |(lo, hi), &g| (lo.min(g), hi.max(g)));
    if most - least < ALIKE {
        return;
    }
    for ((_, proposal), gauge) in found.iter_mut().zip(out) {
        let character = match gauge {
            g if g >= most => Character::Airy,
            g if g <= least => Character::Compact,
            _ => Character::Between,
        };
        proposal.says = words::led_by(character, &proposal.says);
    }
}

/// How far out the blooms lie, as a share of the oval.
fn mean_gauge(piece: &Piece) -> f64 {
    let oval = piece.oval();
    let blooms = piece.parts().iter().filter(|p| p.role == Role::Bloom).map(|p| oval.gauge(p.centre));
    let (sum, n) = blooms.fold((0.0, 0.0), |(sum, n), gauge| (sum + gauge, n + 1.0));
    if n > 0.0 { sum / n } else { 0.0 }
}

/// Whether an eye tells two layouts apart: some head lies elsewhere.
fn differ(one: &Piece, other: &Piece) -> bool {
    /// A head that moved by this much is seen to have moved, mm; our choice.
    const SEEN_MM: f64 = 4.0;
    let heads = |p: &Piece| -> Vec<(StockId, crate::geometry::Point)> {
        p.parts().iter().filter(|p| p.role != Role::Leaf).map(|p| (p.stock.clone(), p.centre)).collect()
    };
    let others = heads(other);
    heads(one).iter().any(|(stock, at)| !others.iter().any(|(s, q)| s == stock && q.distance(*at) < SEEN_MM))
}

impl LayoutSearch<'_> {
    /// The best so far as a proposal; refused when it is what is there already.
    pub fn proposal(&self) -> Result<Proposal, NoProposal> {
        let FoundLayout { poses, score, .. } = self.best().ok_or(NoProposal::NothingBetter)?;
        let edit = self.table.edit(poses);
        if matches!(&edit, Edit::SetOut(seats, new) if seats.is_empty() && new.is_empty()) {
            return Err(NoProposal::NothingBetter);
        }
        let piece = self.table.piece(poses).ok_or(NoProposal::NothingBetter)?;
        Ok(Proposal {
            says: explained(Subject { piece: &piece, ..self.table.subject }),
            edit,
            score_before: self.score_before,
            score_after: *score,
            n_tries: self.n_tries(),
            crowded: crowded(Subject { piece: &piece, ..self.table.subject }),
        })
    }
}

/// A layout in one line: 5 blooms (1 on top), 3 accents 118° apart, 9 sprigs.
fn explained(subject: Subject<'_>) -> String {
    let over = look_over(subject);
    let widest = |kind: &KindSpacing| {
        let gaps = angular_gaps(&kind.centres, subject.piece.oval());
        let widest = gaps.iter().map(|g| g.width().to_degrees()).fold(0.0, f64::max);
        (kind.count() > 2).then_some(widest)
    };
    words::fitting(&clauses(subject, &over, widest), &clauses(subject, &over, |_| None))
}

/// What the layout holds; of accents with the widest step that is given.
fn clauses(subject: Subject<'_>, over: &OnceOver, widest: impl Fn(&KindSpacing) -> Option<f64>) -> Vec<String> {
    let parts = subject.piece.parts();
    let n_of = |role: Role| parts.iter().filter(|p| p.role == role).count();
    let mut clauses = Vec::new();
    let n_top = parts.iter().filter(|p| p.role == Role::Bloom && p.level == Level::Top).count();
    if n_of(Role::Bloom) > 0 {
        clauses.push(words::blooms(n_of(Role::Bloom), n_top));
    }
    for kind in over.measures.kinds.iter().filter(|k| k.role == Role::Accent) {
        let name = subject.stock.botanical(&kind.stock).map_or(kind.stock.to_string(), |b| b.name.to_lowercase());
        clauses.push(words::accents(kind.count(), &name, widest(kind)));
    }
    let more =
        [(Role::Filler, words::sprigs as fn(usize) -> String), (Role::Leaf, words::leaves), (Role::Trim, words::trims)];
    clauses.extend(more.into_iter().filter(|(role, _)| n_of(*role) > 0).map(|(role, say)| say(n_of(role))));
    let n_locked = parts.iter().filter(|p| p.locked).count();
    clauses.extend((n_locked > 0).then(|| words::locked(n_locked)));
    clauses
}
