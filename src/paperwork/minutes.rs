//! Minutes on the bench, step by step.

use crate::piece::{MakingMinutes, Piece, Worn};
use crate::stock::Role;

/// Minutes to make `piece` with `extra` more parts of a role than are on it yet.
pub fn making_minutes(piece: &Piece, extra: &[(Role, u32)], minutes: &MakingMinutes) -> f64 {
    let each = |role: Role| minutes.each.get(&role).copied().unwrap_or(0.0);
    let base = match piece.worn {
        Worn::Wrist => minutes.wrist_base,
        Worn::Lapel => minutes.lapel_base,
    };
    let bow = if piece.bow.is_some() { minutes.bow } else { 0.0 };
    let placed: f64 = piece.parts().iter().map(|p| each(p.role)).sum();
    let to_place: f64 = extra.iter().map(|&(role, n)| f64::from(n) * each(role)).sum();
    base + bow + placed + to_place
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;

    use super::*;
    use crate::geometry::Point;
    use crate::piece::{Bow, Edit, Footprint, Level, NewPart};
    use crate::stock::StockId;

    fn minutes() -> MakingMinutes {
        let each = [(Role::Leaf, 0.5), (Role::Bloom, 1.0), (Role::Filler, 2.0)];
        MakingMinutes { wrist_base: 4.0, lapel_base: 5.0, bow: 3.0, each: BTreeMap::from(each) }
    }

    fn piece(worn: Worn, roles: &[Role]) -> Piece {
        let empty = Piece::empty(worn, Footprint { length_mm: 90.0, width_mm: 54.0, offset_mm: 50.0 });
        let part = |role: Role| NewPart {
            stock: StockId::new("any"),
            colour: "white".into(),
            role,
            centre: Point::ZERO,
            turn_rad: 0.0,
            size_mm: None,
            level: Level::Raised,
        };
        roles.iter().fold(empty, |piece, role| piece.apply(&Edit::Place(part(*role))).unwrap())
    }

    /// By hand, base + bow + parts + parts to come: an accent has no minutes of its own here and counts as none.
    #[test]
    fn minutes_are_the_base_the_bow_and_every_part_on_the_piece_or_to_come() {
        let bow = Bow {
            ribbon: StockId::new("satin-15"),
            colour: "white".into(),
            loops_a_side: 2,
            loop_length_mm: 46.0,
            loop_width_mm: 16.0,
            tails: 2,
            tail_length_mm: 70.0,
            centre_loop: false,
        };
        let mut with_bow = piece(Worn::Wrist, &[Role::Bloom, Role::Bloom, Role::Leaf]);
        with_bow.bow = Some(bow);
        for (piece, extra, wanted) in [
            (piece(Worn::Wrist, &[]), vec![], 4.0),
            (piece(Worn::Lapel, &[]), vec![], 5.0),
            (piece(Worn::Lapel, &[Role::Bloom, Role::Filler, Role::Leaf, Role::Leaf]), vec![], 5.0 + 1.0 + 2.0 + 1.0),
            (with_bow.clone(), vec![], 4.0 + 3.0 + 2.0 + 0.5),
            (with_bow, vec![(Role::Bloom, 3), (Role::Filler, 1), (Role::Accent, 7)], 9.5 + 3.0 + 2.0),
        ] {
            assert_eq!(making_minutes(&piece, &extra, &minutes()), wanted);
        }
    }
}
