//! Even out one kind of accent: equal steps round the oval, each keeping its own distance from the centre.

use std::f64::consts::{PI, TAU};

use crate::geometry::{Oval, Point};
use crate::piece::{Edit, Part, PartId, Piece};
use crate::stock::StockId;

/// A move shorter than this, mm, is not worth making; below what a hand can place.
const WORTH_MM: f64 = 0.01;

/// An accent by its eccentric angle.
struct RingSeat {
    id: PartId,
    angle: f64,
    gauge: f64,
    place: Point,
    locked: bool,
}

/// The edit that spreads all accents of this stock evenly; `None` when there are fewer than two, all are locked, or it
/// would move nothing. As many as possible stay where they are: the pattern is turned to fit the middlemost of them, or
/// the first locked one.
pub fn even_out(piece: &Piece, stock: &StockId) -> Option<Edit> {
    let oval = piece.oval();
    let parts = piece.parts().iter().filter(|p| p.stock == *stock);
    let mut seats: Vec<RingSeat> = parts.map(|p| seat(p, oval)).collect();
    if seats.len() < 2 {
        return None;
    }
    seats.sort_by(|a, b| a.angle.total_cmp(&b.angle).then(a.id.cmp(&b.id)));
    let angles = even_angles(&seats);
    let moves: Vec<(PartId, Point)> = seats
        .iter()
        .zip(angles)
        .filter(|(seat, _)| !seat.locked)
        .map(|(seat, angle)| (seat, point_at(oval, angle, seat.gauge)))
        .filter(|(seat, place)| seat.place.distance(*place) > WORTH_MM)
        .map(|(seat, place)| (seat.id, place))
        .collect();
    (!moves.is_empty()).then_some(Edit::MoveEach(moves))
}

fn seat(part: &Part, oval: Oval) -> RingSeat {
    let angle = (part.centre.y / oval.b).atan2(part.centre.x / oval.a);
    RingSeat { id: part.id, angle, gauge: oval.gauge(part.centre), place: part.centre, locked: part.locked }
}

fn point_at(oval: Oval, angle: f64, gauge: f64) -> Point {
    Point::new(oval.a * gauge * angle.cos(), oval.b * gauge * angle.sin())
}

/// One angle a seat, in their order.
fn even_angles(seats: &[RingSeat]) -> Vec<f64> {
    let n = seats.len();
    let locked: Vec<usize> = (0..n).filter(|&i| seats[i].locked).collect();
    if locked.len() >= 2 {
        return between_locked(seats, &locked);
    }
    let step = TAU / n as f64;
    let offset = |i: usize| wrapped(seats[i].angle - step * i as f64);
    let start = match locked[..] {
        [one] => offset(one),
        _ => middlemost(&(0..n).map(offset).collect::<Vec<_>>()),
    };
    (0..n).map(|i| start + step * i as f64).collect()
}

/// Equal steps between each locked one and the next.
fn between_locked(seats: &[RingSeat], locked: &[usize]) -> Vec<f64> {
    let n = seats.len();
    let mut angles: Vec<f64> = seats.iter().map(|s| s.angle).collect();
    for (k, &from) in locked.iter().enumerate() {
        let to = locked[(k + 1) % locked.len()];
        let n_steps = (to + n - from - 1) % n + 1;
        let arc = (seats[to].angle - seats[from].angle).rem_euclid(TAU);
        for j in 1..n_steps {
            angles[(from + j) % n] = seats[from].angle + arc * j as f64 / n_steps as f64;
        }
    }
    angles
}

/// The angle that leaves most of the others near: the one with the least sum of turns to all of them.
fn middlemost(offsets: &[f64]) -> f64 {
    let cost = |a: f64| offsets.iter().map(|b| wrapped(a - b).abs()).sum::<f64>();
    offsets.iter().copied().min_by(|a, b| cost(*a).total_cmp(&cost(*b))).unwrap_or(0.0)
}

/// Into -pi to pi.
fn wrapped(angle: f64) -> f64 {
    (angle + PI).rem_euclid(TAU) - PI
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::angular_gaps;
    use crate::piece::{Footprint, Level, NewPart, Worn};
    use crate::stock::Role;
    use std::sync::Arc;

    fn ring(angles_deg: &[f64]) -> Piece {
        let footprint = Footprint { length_mm: 90.0, width_mm: 54.0, offset_mm: 50.0 };
        angles_deg.iter().fold(Piece::empty(Worn::Wrist, footprint), |piece, degrees| {
            let new = NewPart {
                stock: StockId::new("berry"),
                colour: Arc::from("red"),
                role: Role::Accent,
                centre: point_at(footprint.oval(), degrees.to_radians(), 0.72),
                turn_rad: 0.0,
                size_mm: None,
                level: Level::Raised,
            };
            piece.apply(&Edit::Place(new)).unwrap()
        })
    }

    fn steps(piece: &Piece) -> Vec<f64> {
        let centres: Vec<Point> = piece.parts().iter().map(|p| p.centre).collect();
        angular_gaps(&centres, piece.oval()).iter().map(|g| g.width().to_degrees()).collect()
    }

    #[test]
    fn five_with_one_moved_by_twenty_degrees_are_even_again_and_only_that_one_moves() {
        let piece = ring(&[0.0, 92.0, 144.0, 216.0, 288.0]);
        let edit = even_out(&piece, &StockId::new("berry")).unwrap();
        let Edit::MoveEach(moves) = &edit else { panic!("{edit:?}") };
        assert_eq!(moves.len(), 1);
        for step in steps(&piece.apply(&edit).unwrap()) {
            assert!((step - 72.0).abs() < 1e-9, "{step}");
        }
    }

    #[test]
    fn what_is_even_already_is_left_alone() {
        assert_eq!(even_out(&ring(&[10.0, 130.0, 250.0]), &StockId::new("berry")), None);
        assert_eq!(even_out(&ring(&[10.0]), &StockId::new("berry")), None);
    }

    #[test]
    fn locked_ones_stay_and_the_others_share_what_lies_between() {
        let locked = Edit::Lock(vec![PartId(1), PartId(3)], true);
        let piece = ring(&[0.0, 20.0, 100.0, 110.0, 120.0]).apply(&locked).unwrap();
        let after = piece.apply(&even_out(&piece, &StockId::new("berry")).unwrap()).unwrap();
        assert_eq!(after.parts()[0], piece.parts()[0]);
        assert_eq!(after.parts()[2], piece.parts()[2]);
        let mut found = steps(&after);
        found.sort_by(f64::total_cmp);
        let wanted = [50.0, 50.0, 260.0 / 3.0, 260.0 / 3.0, 260.0 / 3.0];
        for (step, want) in found.iter().zip(wanted) {
            assert!((step - want).abs() < 1e-9, "{found:?}");
        }
    }
}
