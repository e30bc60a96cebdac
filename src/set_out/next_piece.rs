//! The next piece: the largest gap, and what of the tray fits there, each with the true change of the score it would bring.

use std::sync::Arc;

use super::words::{self, NoProposal};
use crate::geometry::{Disc, Gap, GapSearch, Point, Shape, gaps};
use crate::once_over::{Subject, look_over};
use crate::piece::{Edit, NewPart};
use crate::stock::{Botanical, Role, StockId};

/// Share of a head's size by which its neighbours may squeeze it; common practice, no source.
const SQUEEZE: f64 = 0.25;
/// A place that was skipped is taken as occupied by a disc of this radius, mm; our choice.
const SKIPPED_MM: f64 = 6.0;
/// Gaps smaller than this are not offered anything, mm; the least sprig of the trade is 12 mm across.
const LEAST_MM: f64 = 3.0;

/// One thing that could go next.
#[derive(Clone, Debug, PartialEq)]
pub struct Candidate {
    /// What it is.
    pub stock: StockId,
    /// The edit that puts it there.
    pub edit: Edit,
    /// What it is, how large, and where, in one line.
    pub says: String,
    /// How the score changes by it: the true one, up or down.
    pub change: f64,
    /// The gap.
    pub gap: Disc,
}

/// What could go into the largest gap, best first: of the tray's things and colours, those that fit. Gaps about `skipped`
/// places are passed over. To skip this gap, add its centre to them and ask again.
pub fn next_pieces(
    subject: Subject<'_>,
    tray: &[(StockId, Arc<str>)],
    skipped: &[Point],
) -> Result<Vec<Candidate>, NoProposal> {
    let gap = largest(subject, skipped).ok_or(NoProposal::NoRoom)?;
    let score = look_over(subject).score;
    let mut found: Vec<Candidate> = tray
        .iter()
        .filter(|(id, _)| subject.stock.may_be_proposed(id))
        .filter_map(|(id, colour)| Some((subject.stock.botanical(id)?, colour)))
        .filter_map(|(botanical, colour)| candidate(subject, botanical, colour, gap, score))
        .collect();
    found.sort_by(|a, b| b.change.total_cmp(&a.change).then(a.stock.cmp(&b.stock)));
    if found.is_empty() { Err(NoProposal::NoRoom) } else { Ok(found) }
}

fn largest(subject: Subject<'_>, skipped: &[Point]) -> Option<Gap> {
    let parts = subject.piece.parts().iter().map(|p| p.shape_in(subject.stock));
    let passed = skipped.iter().map(|p| Shape::disc(*p, SKIPPED_MM));
    let shapes: Vec<Shape> = parts.chain(passed).collect();
    let search = GapSearch { least_radius: LEAST_MM, most: 1, ..GapSearch::default() };
    gaps(&shapes, subject.piece.oval(), &search).first().copied()
}

fn candidate(
    subject: Subject<'_>,
    botanical: &Botanical,
    colour: &Arc<str>,
    gap: Gap,
    score: f64,
) -> Option<Candidate> {
    let room = 2.0 * gap.radius / (1.0 - SQUEEZE);
    // Of what is long only the width has to fit; its ends go under.
    let share = if botanical.form.is_long() { botanical.breadth } else { 1.0 };
    let most = room / share.max(0.05);
    if botanical.size_mm[0] > most {
        return None;
    }
    let size = (botanical.usual_mm().min(most) * 2.0).floor() / 2.0;
    let size = size.max(botanical.size_mm[0]);
    let new = NewPart {
        size_mm: ((size - botanical.usual_mm()).abs() > 0.01).then_some(size),
        turn_rad: if botanical.role == Role::Leaf && gap.centre.x < 0.0 { std::f64::consts::PI } else { 0.0 },
        ..NewPart::usual(botanical, Arc::clone(colour), super::table::rounded(gap.centre))
    };
    let edit = Edit::Place(new);
    let after = subject.piece.apply(&edit).ok()?;
    let change = look_over(Subject { piece: &after, ..subject }).score - score;
    let disc = Disc { centre: gap.centre, radius: gap.radius };
    let says = words::one_here(&botanical.name, size, 2.0 * gap.radius, subject.wrist.girth.unit());
    Some(Candidate { stock: botanical.id.clone(), edit, says, change, gap: disc })
}
