//! One half made the mirror image of the other.
//!
//! What lies on the kept half is copied in the mirror; a part of the other half of the same kind takes that place, else a
//! new one is put on; what is left over is taken off. What lies across the middle is moved onto it. Locked parts stay, and
//! stand for the image that falls nearest to them.

use super::propose::Proposal;
use super::words::{self, NoProposal};
use crate::geometry::{Point, Vec2};
use crate::once_over::{Subject, look_over};
use crate::piece::{Edit, NewPart, Part, PartId, Seat};
use crate::stock::Role;

/// The half that is kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Half {
    /// Toward the elbow.
    Elbow,
    /// Toward the hand.
    Hand,
    /// On the right of the sheet.
    Right,
    /// On the left of the sheet.
    Left,
}

impl Half {
    /// All four.
    pub const ALL: [Self; 4] = [Self::Elbow, Self::Hand, Self::Right, Self::Left];

    /// What it is called.
    pub fn name(self) -> &'static str {
        match self {
            Self::Elbow => "elbow",
            Self::Hand => "hand",
            Self::Right => "right",
            Self::Left => "left",
        }
    }

    /// How far a place lies into the half, mm.
    fn depth(self, p: Point) -> f64 {
        match self {
            Self::Elbow => p.x,
            Self::Hand => -p.x,
            Self::Right => p.y,
            Self::Left => -p.y,
        }
    }

    fn image(self, v: Vec2) -> Vec2 {
        match self {
            Self::Elbow | Self::Hand => Vec2::new(-v.x, v.y),
            Self::Right | Self::Left => Vec2::new(v.x, -v.y),
        }
    }
}

/// Nearer to the middle line than this share of its size a head lies across it; our choice.
const ACROSS: f64 = 0.25;
/// A locked part this near to its mirror image, mm, is taken for it; our choice.
const IN_PLACE: f64 = 0.5;

/// The edit that makes the other half the mirror image of the kept one, with its true change of the score, up or down: the
/// person judges.
pub fn mirror_half(subject: Subject<'_>, kept: Half) -> Result<Proposal, NoProposal> {
    let parts = subject.piece.parts();
    if parts.is_empty() {
        return Err(NoProposal::NothingToSetOut);
    }
    let size = |p: &Part| p.size_in(subject.stock);
    let across = |p: &Part| p.role != Role::Leaf && kept.depth(p.centre).abs() < ACROSS * size(p);
    let mut seats: Vec<Seat> =
        parts.iter().filter(|p| !p.locked && across(p)).map(|p| onto_the_line(p, kept)).collect();
    let mut others: Vec<&Part> = parts.iter().filter(|p| !across(p) && kept.depth(p.centre) <= 0.0).collect();
    let mut new = Vec::new();
    let mut n_locked = 0;
    for part in parts.iter().filter(|p| !across(p) && kept.depth(p.centre) > 0.0) {
        let image = image_of(part, kept);
        let alike = |p: &Part| p.stock == part.stock && p.role == part.role && (size(p) - size(part)).abs() < 0.5;
        let near = |p: &&Part| (p.centre - image.centre).hypot2();
        let twin = (0..others.len())
            .filter(|&k| alike(others[k]))
            .min_by(|&a, &b| near(&others[a]).total_cmp(&near(&others[b])));
        match twin.map(|k| others.remove(k)) {
            Some(twin) if twin.locked => n_locked += usize::from(twin.centre.distance(image.centre) > IN_PLACE),
            Some(twin) => {
                let NewPart { centre, turn_rad, level, .. } = image;
                seats.push(Seat { id: twin.id, centre, turn_rad, level });
            }
            None => new.push(image),
        }
    }
    let off: Vec<PartId> = others.iter().filter(|p| !p.locked).map(|p| p.id).collect();
    n_locked += others.len() - off.len();
    let says = words::mirrored(kept.name(), off.len(), new.len(), n_locked);
    let mut edits = vec![Edit::SetOut(seats, new)];
    edits.extend((!off.is_empty()).then_some(Edit::Remove(off)));
    let edit = Edit::Together(edits);
    let after = subject.piece.apply(&edit).map_err(|_refusal| NoProposal::AllLocked)?;
    if after == *subject.piece {
        return Err(NoProposal::NothingBetter);
    }
    let (score_before, score_after) = (look_over(subject).score, look_over(Subject { piece: &after, ..subject }).score);
    Ok(Proposal { edit, says, score_before, score_after, n_tries: 1, crowded: None })
}

fn image_of(part: &Part, kept: Half) -> NewPart {
    let turn_rad = kept.image(Vec2::from_angle(part.turn_rad)).atan2().rem_euclid(std::f64::consts::TAU);
    NewPart { centre: kept.image(part.centre.to_vec2()).to_point(), turn_rad, ..part.as_new() }
}

fn onto_the_line(part: &Part, kept: Half) -> Seat {
    let centre = (part.centre.to_vec2() + kept.image(part.centre.to_vec2())).to_point();
    Seat { id: part.id, centre: Point::new(centre.x / 2.0, centre.y / 2.0), turn_rad: part.turn_rad, level: part.level }
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::*;
    use crate::piece::Level;
    use crate::stock::StockId;

    /// A tip that points 30 degrees off the elbow, to the right: with the ends changed over it points 150 degrees round, with
    /// the sides changed over 330.
    #[test]
    fn the_image_of_a_leaf_is_turned_as_a_mirror_turns_it() {
        for (kept, degrees, at) in [
            (Half::Elbow, 150.0, (-20.0, 6.0)),
            (Half::Hand, 150.0, (-20.0, 6.0)),
            (Half::Right, 330.0, (20.0, -6.0)),
            (Half::Left, 330.0, (20.0, -6.0)),
        ] {
            let leaf = Part {
                id: PartId(1),
                stock: StockId::new("italian-ruscus"),
                colour: Arc::from("green"),
                role: Role::Leaf,
                centre: Point::new(20.0, 6.0),
                turn_rad: 30_f64.to_radians(),
                size_mm: None,
                level: Level::Flat,
                locked: false,
            };
            let image = image_of(&leaf, kept);
            assert!((image.turn_rad.to_degrees() - degrees).abs() < 1e-9, "{kept:?}: {}", image.turn_rad.to_degrees());
            assert_eq!((image.centre.x, image.centre.y), at, "{kept:?}");
        }
    }
}
