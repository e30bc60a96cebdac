//! The steps of making in the order of the bench, with how many of what, how long to hold, and minutes. Rows, no words.
//!
//! Bow and base come first, flowers last, so that they are out of water least. A boutonniere has no base: its stems are
//! taken together in the hand, taped, tied with ribbon and pinned. Seconds and that order are common practice, no source.

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
    if lapel {
        let wrap = Step::of(Stage::Wrap, 1, None, minutes.lapel_base);
        let pin = Step::of(Stage::Pin, 1, None, 0.0);
        return put_on.chain([wrap]).chain(bow).chain([pin, check]).collect();
    }
    let base = Step::of(Stage::Base, 1, hold_base, minutes.wrist_base);
    bow.into_iter().chain([base]).chain(put_on).chain([check]).collect()
}

impl Step {
    fn of(stage: Stage, count: u32, hold_s: Option<u32>, minutes: f64) -> Self {
        Self { stage, count, n_top: 0, hold_s, minutes }
    }
}
