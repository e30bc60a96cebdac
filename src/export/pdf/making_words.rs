//! What the papers say about making a piece and putting it on, side by side.

use std::fmt::Write as _;

use super::words::{count_of, unit};
use crate::book::{Order, SMALL_PARTS_BELOW_YEARS};
use crate::paperwork::{Stage, Step};
use crate::piece::{Fixing, LapelHold, Piece, STEM_MM, STEMS_MM, Worn};
use crate::stock::Role;
use crate::units::{LengthUnit, counted};

/// A step, in words that a second pair of hands can follow.
pub(super) fn step(step: &Step, order: &Order) -> String {
    let mut text = match order.piece.worn {
        Worn::Wrist => wrist_step(step, order),
        Worn::Lapel => lapel_step(step, order),
    };
    if step.n_top > 0 {
        _ = write!(text, " {} on top, last.", step.n_top);
    }
    if let Some(seconds) = step.hold_s {
        let each = if step.count > 1 { " each" } else { "" };
        _ = write!(text, " Hold{each} {seconds} s.");
    }
    text
}

fn wrist_step(step: &Step, order: &Order) -> String {
    let wired = order.piece.fixing == Fixing::Wired;
    match step.stage {
        Stage::Bow => "Tie the bow; pull the loops even, cut the tails at an angle.".to_owned(),
        Stage::Base if order.piece.bow.is_none() => "Lay out the band, base up.".to_owned(),
        Stage::Base if wired => "Wire the bow to the band.".to_owned(),
        Stage::Base => "Glue the bow to the base on the band.".to_owned(),
        Stage::WireUp => wire_up(step.count),
        Stage::Leaves if wired => {
            format!("{} first: one at the tip, the rest down from it; tape each in.", count_of(Role::Leaf, step.count))
        }
        Stage::Blooms if wired => {
            format!("{}: the smallest at the tip, then down the stem; tape each in.", count_of(Role::Bloom, step.count))
        }
        Stage::Leaves => {
            format!("{} along the arm, tips outward, smallest first.", count_of(Role::Leaf, step.count))
        }
        Stage::Blooms => format!("{}: ends of the oval first, then the middle.", count_of(Role::Bloom, step.count)),
        Stage::Accents => format!("{}, evenly round the oval.", count_of(Role::Accent, step.count)),
        Stage::Trims => format!("{}.", count_of(Role::Trim, step.count)),
        Stage::Filler => format!("{} into the gaps that are left.", count_of(Role::Filler, step.count)),
        // Of a boutonniere alone.
        Stage::Wrap | Stage::Pin => String::new(),
        Stage::Check => "Check: counts, side, no sharp ends, no glue showing. Shake for 10 s.".to_owned(),
    }
}

/// Wiring before anything is put together; common practice, no source.
fn wire_up(count: u32) -> String {
    format!("Wire and tape {}, each on its own.", counted(count as usize, "part", "parts"))
}

/// How long the stem of a boutonniere is.
pub(super) fn stem_length(unit: LengthUnit) -> String {
    format!("stem {}, wired and taped", unit.short(STEM_MM))
}

/// On which lapel: `left lapel`.
pub(super) fn lapel(order: &Order) -> String {
    format!("{} lapel", order.piece.lapel.side.word())
}

/// How a boutonniere is put on, for whoever wears it.
pub(super) fn how_to_pin(order: &Order) -> Vec<String> {
    let lapel = lapel(order);
    let is_small = order.needs.child_years().is_some_and(|years| years < SMALL_PARTS_BELOW_YEARS);
    let set = format!("Set it on the {lapel}, where the buttonhole is, bloom up, stem down.");
    let held = match order.piece.lapel.hold {
        _ if is_small => vec!["Tie it on with its ribbon: no pin and no magnet for a child under three.".to_owned()],
        LapelHold::Pins => vec![
            "From behind the lapel push a pin through the cloth, across through the stem, and back into the cloth."
                .to_owned(),
            "Set the second pin lower in the same way, the other way round, so that it cannot turn.".to_owned(),
            "Both points must end behind the lapel, in the cloth, never toward the body.".to_owned(),
        ],
        LapelHold::Magnets => vec![
            "Hold one magnet behind the lapel and let the other find it; look that the cloth lies flat between them."
                .to_owned(),
            "Not with a pacemaker or another implant on either of you; keep magnets from children.".to_owned(),
        ],
    };
    std::iter::once(set).chain(held).collect()
}

/// How a boutonniere is built up in the hand: leaves behind, sprigs behind and beside; common practice, no source (so too the
/// lesson "Make a boutonniere", wedding-flowers-and-reception-ideas.com: the first leaf behind, its tip over the top of the rose).
fn lapel_step(step: &Step, order: &Order) -> String {
    let years = order.needs.child_years();
    let no_pin = years.is_some_and(|years| years < SMALL_PARTS_BELOW_YEARS);
    match step.stage {
        Stage::WireUp => wire_up(step.count),
        Stage::Leaves => {
            format!("{} behind: tips up, a third of each above the bloom.", count_of(Role::Leaf, step.count))
        }
        Stage::Blooms => format!("{} in front of the leaves, facing forward.", count_of(Role::Bloom, step.count)),
        Stage::Accents => format!("{} close beside the bloom.", count_of(Role::Accent, step.count)),
        Stage::Trims => format!("{}, with a dab of glue.", count_of(Role::Trim, step.count)),
        Stage::Filler => format!("{} behind and beside the bloom.", count_of(Role::Filler, step.count)),
        Stage::Wrap => {
            let unit = unit(order);
            let (least, most) = STEMS_MM;
            format!(
                "Tape the stems down from under the bloom; cut to {} ({} to {}); tape the ends.",
                unit.short(STEM_MM),
                unit.short(least),
                unit.short(most)
            )
        }
        Stage::Bow => "Tie the bow at the binding point, over the tape; cut the tails at an angle.".to_owned(),
        Stage::Pin if no_pin => "No pin: add ribbon to tie it on.".to_owned(),
        Stage::Pin if order.piece.lapel.hold == LapelHold::Magnets => {
            format!("Add one pair of magnets, for the {}.", lapel(order))
        }
        Stage::Pin => format!("Put two pins through the taped stem, points covered, for the {}.", lapel(order)),
        Stage::Check => "Check: counts, front, no sharp ends, tape sealed. Shake for 10 s.".to_owned(),
        // Of a wrist piece alone.
        Stage::Base => String::new(),
    }
}

/// How all of it is held together.
pub(super) fn how_it_is_made(piece: &Piece) -> &'static str {
    match (piece.worn, piece.fixing) {
        (Worn::Lapel, Fixing::Glued) => TAPE,
        (Worn::Wrist, Fixing::Glued) => GLUE,
        (Worn::Wrist, Fixing::Wired) => WIRE,
        (Worn::Lapel, Fixing::Wired) => WIRED_LAPEL,
    }
}

/// How a boutonniere is held together; common practice, no source.
const TAPE: &str = "Taped: dry flowers, all stems in one hand, level at the top. Hold until the tape is on.";

/// How glue wants to be treated. Thirty seconds of rest: "How to make a corsage" (Fionna Floral, save-on-crafts.com);
/// flowers at room temperature and the rest of it: common practice, no source.
const GLUE: &str = "Cold glue: dry flowers at room temperature. Add a dab, wait 30 s until tacky, then press and hold.";
/// How wired work is done; common practice, no source.
const WIRE: &str = "Wired: wire and tape each part; build from the tip down; tuck in every wire end.";
/// How a wired boutonniere is held together; common practice, no source.
const WIRED_LAPEL: &str = "Wired: wire and tape each part, then bind them under the bloom; no wire end may show.";
