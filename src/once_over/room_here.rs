//! Are there bare spots that the eye would see?

use super::measures::gap_disc;
use super::{Finding, Measures, Remedy, SketchMark, finding, words};
use crate::piece::Question;

/// Bare spots that together make this share of the oval score 0; our choice.
const ZERO_AT: f64 = 0.45;
/// Most rings drawn at once; more would hide the sketch. Our choice.
const MOST_RINGS: usize = 6;

pub(super) fn answer(measures: &Measures) -> Finding {
    let Some(largest) = measures.room.first() else {
        return finding(Question::RoomHere, words::room_well(), 0.0, "mm", 1.0);
    };
    let bare: f64 = measures.room.iter().map(|g| std::f64::consts::PI * g.radius * g.radius).sum();
    let score = 1.0 - bare / measures.oval.area() / ZERO_AT;
    let across = 2.0 * largest.radius;
    let says = words::room_for(measures.room.len(), across, &words::place(largest.centre));
    let mut found = finding(Question::RoomHere, says, across, "mm", score);
    found.invites = Some(words::room_invites());
    let rings = measures.room.iter().take(MOST_RINGS).map(gap_disc);
    found.marks = rings.map(|d| SketchMark::Ring { centre: d.centre, radius: d.radius }).collect();
    if measures.outline.is_some() {
        found.remedies.push(Remedy::FillRoom(gap_disc(largest)));
    }
    found
}
