//! What is to be set out, layout on the table: every part with the size it counts with, locked ones in their places.
//!
//! Knows how a layout (one pose a part) becomes an edit. Places are rounded to 0.01 mm and turns to whole degrees, so that
//! the same layout is the same file everywhere. Does not know what makes a layout good.

use std::sync::Arc;

use super::words::NoProposal;
use crate::geometry::{Oval, Point, Vec2};
use crate::once_over::Subject;
use crate::piece::{Edit, Level, NewPart, Part, PartId, Piece, PieceSize, Seat, still_to_place};
use crate::stock::{Botanical, Role, Stock, StockId};

/// One part: its place, the direction of its long axis, its level.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct PartPose {
    pub(super) at: Point,
    pub(super) toward: Vec2,
    pub(super) level: Level,
}

/// A part as the search sees it.
#[derive(Clone, Debug)]
pub(super) struct Item {
    /// Its number, if it is on the sheet already; else what would put it on.
    pub(super) origin: Origin,
    pub(super) stock: StockId,
    pub(super) role: Role,
    pub(super) locked: bool,
    /// Half its diameter or length, mm.
    pub(super) reach: f64,
    /// Half its width, mm: the same for what is round.
    pub(super) half_width: f64,
    /// Thickness, mm.
    pub(super) thickness: f64,
}

#[derive(Clone, Debug)]
pub(super) enum Origin {
    OnSheet(PartId),
    New(NewPart),
}

impl Item {
    pub(super) fn is_long(&self) -> bool {
        self.half_width < self.reach
    }

    pub(super) fn is_head(&self) -> bool {
        matches!(self.role, Role::Bloom | Role::Accent)
    }

    /// Whether nobody could tell the two apart.
    pub(super) fn is_like(&self, other: &Self) -> bool {
        self.stock == other.stock && self.reach == other.reach
    }

    /// Where its role lies among parts of one level, from below, as on the piece.
    fn height_rank(&self) -> u8 {
        match self.role {
            Role::Leaf => 0,
            Role::Filler => 1,
            Role::Bloom => 2,
            Role::Accent => 3,
            Role::Trim => 4,
        }
    }
}

/// Everything on the table.
#[derive(Clone, Debug)]
pub(super) struct PartTable<'a> {
    pub(super) subject: Subject<'a>,
    pub(super) oval: Oval,
    pub(super) items: Vec<Item>,
    /// Where each lies now; new ones in the middle.
    pub(super) now: Vec<PartPose>,
}

impl<'a> PartTable<'a> {
    /// The parts of the sheet and what a size promises beyond them.
    pub(super) fn new(subject: Subject<'a>, size: Option<&PieceSize>) -> Result<Self, NoProposal> {
        let Subject { piece, stock, .. } = subject;
        let mut items: Vec<Item> = piece.parts().iter().map(|p| on_sheet(p, stock)).collect();
        let mut now: Vec<PartPose> = piece.parts().iter().map(pose_of).collect();
        for (botanical, colour, count) in still_to_place(piece, size, stock) {
            for _ in 0..count {
                let new = like_the_others(piece, botanical, &colour);
                now.push(PartPose { at: Point::ZERO, toward: Vec2::new(1.0, 0.0), level: new.level });
                items.push(to_come(new, botanical));
            }
        }
        if items.is_empty() {
            return Err(NoProposal::NothingToSetOut);
        }
        if items.iter().all(|i| i.locked) {
            return Err(NoProposal::AllLocked);
        }
        Ok(Self { subject, oval: piece.oval(), items, now })
    }

    pub(super) fn free(&self) -> impl Iterator<Item = usize> {
        (0..self.items.len()).filter(|&i| !self.items[i].locked)
    }

    pub(super) fn of_role(&self, role: Role) -> impl Iterator<Item = usize> {
        (0..self.items.len()).filter(move |&i| self.items[i].role == role)
    }

    /// Whether parts would be put on.
    pub(super) fn has_new(&self) -> bool {
        self.items.iter().any(|i| matches!(i.origin, Origin::New(_)))
    }

    /// Items from the lowest to the highest in this layout.
    pub(super) fn lowest_first(&self, poses: &[PartPose]) -> Vec<usize> {
        let mut order: Vec<usize> = (0..self.items.len()).collect();
        order.sort_by_key(|&i| (poses[i].level, self.items[i].height_rank(), i));
        order
    }

    /// The edit that makes this layout. What stays where it is is left out of it.
    pub(super) fn edit(&self, poses: &[PartPose]) -> Edit {
        let (mut seats, mut new) = (Vec::new(), Vec::new());
        for ((item, pose), now) in self.items.iter().zip(poses).zip(&self.now) {
            match &item.origin {
                Origin::OnSheet(_) if item.locked || pose == now => {}
                Origin::OnSheet(id) => {
                    let kept = self.subject.piece.part(*id).map_or(0.0, |p| p.turn_rad);
                    let turn_rad = if pose.toward == now.toward { kept } else { whole_degrees(pose.toward) };
                    seats.push(Seat { id: *id, centre: rounded(pose.at), turn_rad, level: pose.level });
                }
                Origin::New(part) => new.push(NewPart {
                    centre: rounded(pose.at),
                    turn_rad: whole_degrees(pose.toward),
                    level: pose.level,
                    ..part.clone()
                }),
            }
        }
        Edit::SetOut(seats, new)
    }

    /// The piece in this layout; `None` when it cannot be made so.
    pub(super) fn piece(&self, poses: &[PartPose]) -> Option<Piece> {
        self.subject.piece.apply(&self.edit(poses)).ok()
    }
}

/// A part as an item with its pose.
pub(super) fn as_placed(part: &Part, stock: &Stock) -> (Item, PartPose) {
    (on_sheet(part, stock), pose_of(part))
}

fn pose_of(part: &Part) -> PartPose {
    PartPose { at: part.centre, toward: Vec2::from_angle(part.turn_rad), level: part.level }
}

fn on_sheet(part: &Part, stock: &Stock) -> Item {
    let botanical = stock.botanical(&part.stock);
    let size = part.size_in(stock);
    item(Origin::OnSheet(part.id), &part.stock, part.role, part.locked, size, botanical)
}

fn to_come(new: NewPart, botanical: &Botanical) -> Item {
    let (stock, role) = (new.stock.clone(), new.role);
    let size = new.size_mm.unwrap_or(botanical.usual_mm());
    item(Origin::New(new), &stock, role, false, size, Some(botanical))
}

fn item(origin: Origin, stock: &StockId, role: Role, locked: bool, size: f64, botanical: Option<&Botanical>) -> Item {
    let breadth = botanical.filter(|b| b.form.is_long()).map_or(1.0, |b| b.breadth.min(1.0));
    let thickness = botanical.map_or(size / 2.0, |b| b.height_mm * size / b.usual_mm().max(1.0));
    let reach = size / 2.0;
    Item { origin, stock: stock.clone(), role, locked, reach, half_width: reach * breadth, thickness }
}

/// One more of a kind, of the size that the others of its kind have.
fn like_the_others(piece: &Piece, botanical: &Botanical, colour: &Arc<str>) -> NewPart {
    let size_mm = piece.parts().iter().find(|p| p.stock == botanical.id).and_then(|p| p.size_mm);
    NewPart { size_mm, ..NewPart::usual(botanical, Arc::clone(colour), Point::ZERO) }
}

/// To 0.01 mm, finer than a hand places.
pub(super) fn rounded(p: Point) -> Point {
    let round = |v: f64| (v * 100.0).round() / 100.0 + 0.0;
    Point::new(round(p.x), round(p.y))
}

/// A direction in whole degrees, as radians from 0 to a full turn.
fn whole_degrees(toward: Vec2) -> f64 {
    let degrees = toward.atan2().to_degrees().round();
    (if degrees < 0.0 { degrees + 360.0 } else { degrees }).to_radians()
}
