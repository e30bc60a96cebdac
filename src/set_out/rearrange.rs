//! Small rearrangements: turn or move the whole piece, take an end, bring a bloom out, lay leaves lengthwise.

use std::f64::consts::{PI, TAU};

use crate::geometry::{Point, Vec2};
use crate::piece::{Bow, Edit, Part, PartId, Piece};
use crate::stock::{Role, Stock, StockId};

/// How far loops look out past the oval, mm; our choice by eye.
const LOOK_OUT_MM: f64 = 16.0;
/// Share of its radius by which a bloom that is brought out still lies under its neighbour; our choice.
const STILL_UNDER: f64 = 0.3;

/// All free parts turned about the centre, each with its own turn.
pub(super) fn turn_all(piece: &Piece, by_rad: f64) -> Option<Edit> {
    let turn = kurbo::Affine::rotate(by_rad);
    let ids = free(piece);
    let places = piece.parts().iter().filter(|p| !p.locked).map(|p| (p.id, turn * p.centre)).collect();
    (!ids.is_empty()).then(|| Edit::Together(vec![Edit::MoveEach(places), Edit::Rotate(ids, by_rad)]))
}

/// All free parts moved.
pub(super) fn move_all(piece: &Piece, by: Vec2) -> Option<Edit> {
    let ids = free(piece);
    (!ids.is_empty()).then_some(Edit::Move(ids, by))
}

/// The newest free one of a kind taken off.
pub(super) fn one_less(piece: &Piece, kind: &StockId) -> Option<Edit> {
    let newest = piece.parts().iter().rev().find(|p| !p.locked && p.stock == *kind)?;
    Some(Edit::Remove(vec![newest.id]))
}

/// The nearest free bloom moved so that its outline comes to this end of the oval.
pub(super) fn take_end(piece: &Piece, stock: &Stock, end: Point) -> Option<Edit> {
    let blooms = piece.parts().iter().filter(|p| !p.locked && p.role == Role::Bloom);
    let nearest = blooms.min_by(|a, b| a.centre.distance(end).total_cmp(&b.centre.distance(end)))?;
    let radius = nearest.shape_in(stock).reach();
    let inward = end.to_vec2() / end.to_vec2().hypot().max(1.0);
    Some(Edit::MoveEach(vec![(nearest.id, end - inward * radius)]))
}

/// A bloom moved straight away from the one that hides most of it, until only its edge is under.
pub(super) fn bring_out(piece: &Piece, stock: &Stock, id: PartId) -> Option<Edit> {
    let part = piece.part(id).filter(|p| !p.locked)?;
    let radius = part.shape_in(stock).reach();
    let order = piece.from_below();
    let above = order.iter().skip_while(|p| p.id != id).skip(1);
    let depth = |p: &Part| radius + p.shape_in(stock).reach() - p.centre.distance(part.centre);
    let hider = above.filter(|p| p.role != Role::Filler).max_by(|a, b| depth(a).total_cmp(&depth(b)))?;
    let away = part.centre - hider.centre;
    let away = if away.hypot() > 1e-6 { away / away.hypot() } else { Vec2::new(1.0, 0.0) };
    let wanted = hider.shape_in(stock).reach() + radius * (1.0 - STILL_UNDER);
    Some(Edit::MoveEach(vec![(id, hider.centre + away * wanted)]))
}

/// A part moved to a place.
pub(super) fn move_to(piece: &Piece, id: PartId, place: Point) -> Option<Edit> {
    piece.part(id).filter(|p| !p.locked).map(|p| Edit::MoveEach(vec![(p.id, place)]))
}

/// A part moved toward the middle line, and no farther.
pub(super) fn pull_in(piece: &Piece, id: PartId, mm: f64) -> Option<Edit> {
    let part = piece.part(id).filter(|p| !p.locked)?;
    let y = part.centre.y.signum() * (part.centre.y.abs() - mm).max(0.0);
    move_to(piece, id, Point::new(part.centre.x, y))
}

/// The bow with loops that look out at the sides of the oval.
pub(super) fn longer_loops(piece: &Piece) -> Option<Edit> {
    let bow = piece.bow.as_ref()?;
    let reach = piece.oval().b + LOOK_OUT_MM;
    let loop_length_mm = reach.max(bow.loop_length_mm + LOOK_OUT_MM);
    Some(Edit::Tie(Some(Bow { loop_length_mm, ..bow.clone() })))
}

/// Leaves turned along the arm, tips outward.
pub(super) fn lay_lengthwise(piece: &Piece, ids: &[PartId]) -> Option<Edit> {
    let turns = ids.iter().filter_map(|id| piece.part(*id)).filter(|p| !p.locked).map(|p| {
        let wanted = if p.centre.x < 0.0 { PI } else { 0.0 };
        Edit::Rotate(vec![p.id], (wanted - p.turn_rad).rem_euclid(TAU))
    });
    let turns: Vec<Edit> = turns.collect();
    (!turns.is_empty()).then_some(Edit::Together(turns))
}

fn free(piece: &Piece) -> Vec<PartId> {
    piece.parts().iter().filter(|p| !p.locked).map(|p| p.id).collect()
}
