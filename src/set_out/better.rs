//! Small betterments, each only when the true score does not fall by it: even out, fill the room, tidy. Else they say that
//! the piece is as good as they can make it.

use super::even_out::even_out;
use super::fill::filler_for;
use super::propose::Proposal;
use super::search::{LayoutSearch, MoveReach, SearchOptions};
use super::words::{self, NoProposal};
use crate::geometry::Disc;
use crate::once_over::{Subject, look_over};
use crate::piece::Edit;
use crate::stock::StockId;

/// A score that falls by less than this has not fallen: beyond rounding.
const MARGIN: f64 = 1e-9;
/// What tidying must gain, points, to be worth moving anything.
const WORTH: f64 = 0.05;
/// Farthest that tidying moves a part, mm.
const NUDGE_MM: f64 = 3.0;
/// Most sprigs put on at once; our choice, more than any wrist has gaps.
const MOST_SPRIGS: usize = 40;

/// One kind of accent evenly spread.
pub fn evened(subject: Subject<'_>, kind: &StockId) -> Result<Proposal, NoProposal> {
    let mut of_kind = subject.piece.parts().iter().filter(|p| p.stock == *kind).peekable();
    if of_kind.peek().is_some() && of_kind.all(|p| p.locked) {
        return Err(NoProposal::TheseAreLocked);
    }
    let edit = even_out(subject.piece, kind).ok_or(NoProposal::NothingBetter)?;
    let name = subject.stock.botanical(kind).map_or(kind.to_string(), |b| b.name.to_lowercase());
    judged(subject, edit, words::evened(&name), 1)
}

/// A sprig into one gap.
pub fn fill_one(subject: Subject<'_>, gap: Disc) -> Result<Proposal, NoProposal> {
    let edit = filler_for(subject.piece, subject.stock, gap).ok_or(NoProposal::NoRoom)?;
    judged(subject, edit, words::filled(1), 1)
}

/// Sprigs into all gaps that an eye would see, the largest first, as long as each helps.
pub fn fill_all(subject: Subject<'_>) -> Result<Proposal, NoProposal> {
    let score_before = look_over(subject).score;
    let mut piece = subject.piece.clone();
    let mut edits = Vec::new();
    let (mut score, mut n_tries) = (score_before, 0);
    while edits.len() < MOST_SPRIGS {
        let room = look_over(Subject { piece: &piece, ..subject }).measures.room;
        let better = room.iter().find_map(|gap| {
            let disc = Disc { centre: gap.centre, radius: gap.radius };
            let edit = filler_for(&piece, subject.stock, disc)?;
            let after = piece.apply(&edit).ok()?;
            n_tries += 1;
            let then = look_over(Subject { piece: &after, ..subject }).score;
            (then >= score - MARGIN).then_some((edit, after, then))
        });
        let Some((edit, after, then)) = better else { break };
        edits.push(edit);
        (piece, score) = (after, then);
    }
    if edits.is_empty() {
        return Err(NoProposal::NothingBetter);
    }
    let says = words::filled(edits.len());
    Ok(Proposal { edit: Edit::Together(edits), says, score_before, score_after: score, n_tries, crowded: None })
}

/// A nearly right piece made right: no part moves by more than 3 mm, none changes its level.
pub fn tidy(subject: Subject<'_>, ask: SearchOptions) -> Result<Proposal, NoProposal> {
    let mut search = LayoutSearch::with(subject, None, ask.seed, MoveReach::Nearby(NUDGE_MM), None)?;
    search.rounds(ask.rounds);
    let proposal = search.proposal()?;
    if proposal.score_after < proposal.score_before + WORTH {
        return Err(NoProposal::NothingBetter);
    }
    let Edit::SetOut(seats, _) = &proposal.edit else { return Ok(proposal) };
    let moved = seats.iter().filter_map(|s| Some(subject.piece.part(s.id)?.centre.distance(s.centre)));
    let says = words::moved(seats.len(), moved.fold(0.0, f64::max), subject.wrist.girth.unit());
    Ok(Proposal { says, crowded: None, ..proposal })
}

/// An edit as a proposal, refused when the score would fall.
fn judged(subject: Subject<'_>, edit: Edit, says: String, n_tries: u64) -> Result<Proposal, NoProposal> {
    let after = subject.piece.apply(&edit).map_err(|_refusal| NoProposal::AllLocked)?;
    let score_before = look_over(subject).score;
    let score_after = look_over(Subject { piece: &after, ..subject }).score;
    if score_after < score_before - MARGIN {
        return Err(NoProposal::NothingBetter);
    }
    Ok(Proposal { edit, says, score_before, score_after, n_tries, crowded: None })
}
