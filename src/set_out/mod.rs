//! Proposals: edits that would make a piece better. Nothing here changes a piece, and nothing locked ever moves.

mod archive;
mod better;
mod crowded;
mod draw_in;
mod equal_discs;
mod even_out;
mod fill;
mod grid;
mod mirror;
mod moves;
mod next_piece;
mod plan;
mod propose;
mod rearrange;
mod region;
mod search;
mod surrogate;
mod table;
mod turns;
mod words;

use crate::once_over::{Remedy, Subject};
use crate::piece::{Edit, Part, Piece};
use crate::stock::Stock;

pub use better::{evened, fill_all, fill_one, tidy};
pub use crowded::{Crowded, Offer};
pub use equal_discs::equal_discs;
pub use even_out::even_out;
pub use fill::next_place;
pub use mirror::{Half, mirror_half};
pub use next_piece::{Candidate, next_pieces};
pub use propose::{Proposal, propose, three_proposals};
pub use search::{LayoutSearch, SearchOptions};
pub use words::NoProposal;

/// Whether a part lies in the region of its role: heads and sprigs within the oval, what is on top in the middle, leaves
/// lengthwise with their tips a little out at most.
pub fn in_region(piece: &Piece, stock: &Stock, part: &Part) -> bool {
    let (item, pose) = table::as_placed(part, stock);
    region::holds(&item, &pose, piece.oval())
}

/// The edit that a remedy of the once-over stands for; `None` when nothing can be done that way, for instance because
/// everything concerned is locked.
pub fn fix(subject: Subject<'_>, remedy: &Remedy) -> Option<Edit> {
    let Subject { piece, stock, .. } = subject;
    match remedy {
        Remedy::DrawInToRatio(ratio) => draw_in::until(piece, stock, |along, across| along / across >= *ratio),
        Remedy::DrawInToWidth(mm) => draw_in::until(piece, stock, |_, across| across <= *mm),
        Remedy::EvenOut(kind) => even_out(piece, kind),
        Remedy::FillRoom(gap) => fill::filler_for(piece, stock, *gap),
        Remedy::Lengthen(footprint) => Some(Edit::Reshape(*footprint)),
        Remedy::TurnAll(by) => rearrange::turn_all(piece, *by),
        Remedy::MoveAll(by) => rearrange::move_all(piece, *by),
        Remedy::OneMore(kind) => fill::one_more(piece, stock, kind),
        Remedy::OneLess(kind) => rearrange::one_less(piece, kind),
        Remedy::Raise(ids, level) => Some(Edit::SetLevel(ids.clone(), *level)),
        Remedy::TakeEnd(end) => rearrange::take_end(piece, stock, *end),
        Remedy::BringOut(id) => rearrange::bring_out(piece, stock, *id),
        Remedy::MoveToRoom(id) => rearrange::move_to(piece, *id, next_place(piece, stock)),
        Remedy::PullIn(id, mm) => rearrange::pull_in(piece, *id, *mm),
        Remedy::LongerLoops => rearrange::longer_loops(piece),
        Remedy::LayLengthwise(ids) => rearrange::lay_lengthwise(piece, ids),
    }
}
