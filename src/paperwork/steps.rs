//! The steps of making in the order of the bench, with how many of what, how long to hold, and minutes. Rows, no words.
//!
//! Bow and base come first, flowers last, so that they are out of water least. A boutonniere has no base: its stems are
//! taken wired and taped one by one, taken together in the hand, taped, tied with ribbon and pinned. Seconds and that order are common practice, no source.

use super::StemList;
use crate::piece::{Fixing, Level, MakingMinutes, Piece, Worn};
use crate::stock::Role;

/// What is done in a step.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Stage {
    /// Tie the bow.
    Bow,
    /// Lay the base ready; glue the bow to it.
    Base,
    /// Wire each head and leaf, and tape the wire: of wired work alone.
    WireUp,
    /// Leaves along the arm; behind the bloom of a boutonniere.
    Leaves,
    /// Blooms: ends of the axes first, the top last.
    Blooms,
    /// Accents.
    Accents,
    /// Pearls and stones.
    Trims,
    /// Sprigs into what is left; beside the bloom of a boutonniere.
    Filler,
    /// Wrap the stems of a boutonniere with tape.
    Wrap,
    /// Give a boutonniere its pin.
    Pin,
    /// Look it over, shake it, clean it.
    Check,
}

/// One step.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Step {
    /// What is done.
    pub stage: Stage,
    /// How many parts are put on in it.
    pub count: u32,
    /// How many of them go on top.
    pub n_top: u32,
    /// How long each is held until the glue grips, seconds; none where nothing is glued.
    pub hold_s: Option<u32>,
    /// Planned minutes.
    pub minutes: f64,
}

/// How long a bow is held to its base, seconds: a minute or more; common practice, no source.
const HOLD_BOW_S: u32 = 60;
/// How long a leaf is held, seconds: 15 to 30; common practice, no source.
const HOLD_LEAF_S: u32 = 15;
/// How long a head is held, seconds: "a few"; common practice, no source.
const HOLD_HEAD_S: u32 = 10;

/// The steps for a piece, in order; what has no parts is left out.
pub fn making_steps(piece: &Piece, stems: &StemList, minutes: &MakingMinutes) -> Vec<Step> {
    let lapel = piece.worn == Worn::Lapel;
    let glued = |seconds: u32| (piece.fixing == Fixing::Glued && !lapel).then_some(seconds);
    let bow = piece.bow.is_some().then(|| Step::of(Stage::Bow, 1, None, minutes.bow));
    let hold_base = if piece.bow.is_some() { glued(HOLD_BOW_S) } else { None };
    let parts = [
        (Stage::Leaves, Role::Leaf, HOLD_LEAF_S),
        (Stage::Blooms, Role::Bloom, HOLD_HEAD_S),
        (Stage::Accents, Role::Accent, HOLD_HEAD_S),
        (Stage::Trims, Role::Trim, HOLD_HEAD_S),
        (Stage::Filler, Role::Filler, HOLD_HEAD_S),
    ];
    let put_on = parts.into_iter().filter_map(|(stage, role, hold)| {
        let count: u32 = stems.lines.iter().filter(|l| l.role == role).map(|l| l.pieces).sum();
        let each = minutes.each.get(&role).copied().unwrap_or(0.0);
        // A boutonniere has one layer of blooms, seen from the front.
        let on_top = piece.parts().iter().filter(|p| !lapel && p.role == role && p.level == Level::Top).count();
        let step = Step::of(stage, count, glued(hold), f64::from(count) * each);
        (count > 0).then_some(Step { n_top: u32::try_from(on_top).unwrap_or(0), ..step })
    });
    let check = Step::of(Stage::Check, 1, None, 0.0);
    let wire_up = (piece.fixing == Fixing::Wired).then(|| {
        let all: u32 = stems.lines.iter().map(|l| l.pieces).sum();
        Step::of(Stage::WireUp, all, None, 0.0)
    });
    let wire_up = wire_up.filter(|step| step.count > 0);
    if lapel {
        let wrap = Step::of(Stage::Wrap, 1, None, minutes.lapel_base);
        let pin = Step::of(Stage::Pin, 1, None, 0.0);
        return wire_up.into_iter().chain(put_on).chain([wrap]).chain(bow).chain([pin, check]).collect();
    }
    let base = Step::of(Stage::Base, 1, hold_base, minutes.wrist_base);
    bow.into_iter().chain([base]).chain(wire_up).chain(put_on).chain([check]).collect()
}

impl Step {
    fn of(stage: Stage, count: u32, hold_s: Option<u32>, minutes: f64) -> Self {
        Self { stage, count, n_top: 0, hold_s, minutes }
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;

    use super::*;
    use crate::paperwork::StemLine;
    use crate::piece::{Bow, Footprint};
    use crate::stock::StockId;
    use crate::units::Cents;

    /// Minutes that are all different, so that none can stand in for another.
    fn minutes() -> MakingMinutes {
        let each =
            [(Role::Leaf, 0.5), (Role::Bloom, 1.0), (Role::Accent, 1.5), (Role::Trim, 0.25), (Role::Filler, 2.0)];
        MakingMinutes { wrist_base: 4.0, lapel_base: 5.0, bow: 3.0, each: BTreeMap::from(each) }
    }

    fn stems(counts: &[(Role, u32)]) -> StemList {
        let line = |&(role, pieces): &(Role, u32)| StemLine {
            stock: StockId::new("any"),
            name: "Any".to_owned(),
            colour: "white".into(),
            role,
            pieces,
            to_place: 0,
            stems: 1,
            cost: Cents(0),
        };
        StemList {
            lines: counts.iter().map(line).collect(),
            hard: Vec::new(),
            ribbon_mm: 0.0,
            fresh_cost: Cents(0),
            hard_cost: Cents(0),
            minutes: 0.0,
            mass_g: 0.0,
        }
    }

    fn piece(worn: Worn, fixing: Fixing, bow: bool) -> Piece {
        let mut piece = Piece::empty(worn, Footprint { length_mm: 90.0, width_mm: 54.0, offset_mm: 50.0 });
        piece.fixing = fixing;
        piece.bow = bow.then(|| Bow {
            ribbon: StockId::new("satin-15"),
            colour: "white".into(),
            loops_a_side: 2,
            loop_length_mm: 46.0,
            loop_width_mm: 16.0,
            tails: 2,
            tail_length_mm: 70.0,
            centre_loop: false,
        });
        piece
    }

    type Row = (Stage, u32, Option<u32>, f64);

    fn rows(piece: &Piece, counts: &[(Role, u32)]) -> Vec<Row> {
        let steps = making_steps(piece, &stems(counts), &minutes());
        steps.iter().map(|s| (s.stage, s.count, s.hold_s, s.minutes)).collect()
    }

    const COUNTS: [(Role, u32); 5] =
        [(Role::Bloom, 5), (Role::Accent, 3), (Role::Filler, 2), (Role::Leaf, 6), (Role::Trim, 4)];

    /// By hand: the bow is held a minute at the base, a leaf a quarter of it, a head ten seconds; minutes are counts times
    /// those of one.
    #[test]
    fn each_step_of_a_glued_wrist_piece_has_its_hold_and_its_minutes() {
        assert_eq!(
            rows(&piece(Worn::Wrist, Fixing::Glued, true), &COUNTS),
            [
                (Stage::Bow, 1, None, 3.0),
                (Stage::Base, 1, Some(60), 4.0),
                (Stage::Leaves, 6, Some(15), 3.0),
                (Stage::Blooms, 5, Some(10), 5.0),
                (Stage::Accents, 3, Some(10), 4.5),
                (Stage::Trims, 4, Some(10), 1.0),
                (Stage::Filler, 2, Some(10), 4.0),
                (Stage::Check, 1, None, 0.0),
            ]
        );
    }

    #[test]
    fn nothing_is_held_that_is_not_glued_and_a_base_without_a_bow_waits_for_nothing() {
        let held = |piece: &Piece| rows(piece, &COUNTS).iter().filter(|row| row.2.is_some()).count();
        assert_eq!(held(&piece(Worn::Wrist, Fixing::Wired, true)), 0);
        assert_eq!(held(&piece(Worn::Lapel, Fixing::Glued, true)), 0);
        let plain = rows(&piece(Worn::Wrist, Fixing::Glued, false), &[(Role::Bloom, 1)]);
        assert_eq!(
            plain,
            [(Stage::Base, 1, None, 4.0), (Stage::Blooms, 1, Some(10), 1.0), (Stage::Check, 1, None, 0.0)]
        );
    }

    #[test]
    fn a_boutonniere_is_wrapped_tied_and_pinned_in_that_order() {
        let counts = [(Role::Bloom, 1), (Role::Filler, 1), (Role::Leaf, 2)];
        assert_eq!(
            rows(&piece(Worn::Lapel, Fixing::Glued, true), &counts),
            [
                (Stage::Leaves, 2, None, 1.0),
                (Stage::Blooms, 1, None, 1.0),
                (Stage::Filler, 1, None, 2.0),
                (Stage::Wrap, 1, None, 5.0),
                (Stage::Bow, 1, None, 3.0),
                (Stage::Pin, 1, None, 0.0),
                (Stage::Check, 1, None, 0.0),
            ]
        );
    }

    /// Two blooms on top and one that is not: on a wrist two are named as the top, on a lapel none, for it has one layer.
    #[test]
    fn the_top_is_counted_on_a_wrist_and_not_on_a_lapel() {
        use std::sync::Arc;

        use crate::geometry::Point;
        use crate::paperwork::stem_list;
        use crate::piece::{Edit, NewPart};
        use crate::store::{built_in_stock, built_in_style};

        let (stock, style) = (built_in_stock(), built_in_style());
        let rose = stock.botanical(&StockId::new("spray-rose")).unwrap();
        let footprint = Footprint { length_mm: 60.0, width_mm: 40.0, offset_mm: 0.0 };
        let on_top = |worn: Worn| {
            let levels = [Level::Top, Level::Raised, Level::Top];
            let piece = levels.into_iter().fold(Piece::empty(worn, footprint), |piece, level| {
                let new = NewPart { level, ..NewPart::usual(rose, Arc::from("white"), Point::ORIGIN) };
                piece.apply(&Edit::Place(new)).unwrap()
            });
            let stems = stem_list(&piece, None, &stock, &style);
            let steps = making_steps(&piece, &stems, &style.minutes);
            let blooms = steps.iter().find(|step| step.stage == Stage::Blooms).unwrap();
            (blooms.count, blooms.n_top)
        };
        assert_eq!(on_top(Worn::Wrist), (3, 2));
        assert_eq!(on_top(Worn::Lapel), (3, 0));
    }
}
