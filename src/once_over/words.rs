//! All wording of the once-over, side by side. Kind, with the figure in it, and never a verdict on a person.

use super::Remedy;
use crate::geometry::Point;
use crate::units::mm_text;

pub(super) fn nothing_yet() -> String {
    "Nothing on the oval yet. Tap a bloom in the tray, then tap the sheet.".to_owned()
}

pub(super) fn outline_well(ratio: f64) -> String {
    format!("Oval and narrow: {ratio:.1} times as long as wide.")
}

pub(super) fn outline_wide(ratio: f64, [from, to]: [f64; 2]) -> String {
    let shape = if ratio < 1.0 { "Wider than long" } else { "Nearly as wide as long" };
    format!(
        "{shape}: {ratio:.1} times as long as wide, where this house likes {from} to {to}. Draw the sides in, or reach out along the arm."
    )
}

pub(super) fn outline_narrow(ratio: f64, [from, to]: [f64; 2]) -> String {
    format!(
        "Very narrow: {ratio:.1} times as long as wide, where this house likes {from} to {to}. Leaves at the sides would round it."
    )
}

pub(super) fn outline_square(fill: f64) -> String {
    format!("Square at the corners: the blooms fill {:.0} % of their box, an oval fills 79 %.", fill * 100.0)
}

pub(super) fn width_well(across: f64, limit: f64, girth: f64) -> String {
    format!("{} mm across; this {} mm wrist carries up to {}.", mm_text(across), mm_text(girth), mm_text(limit))
}

pub(super) fn width_over(across: f64, limit: f64, girth: f64) -> String {
    format!(
        "{} mm across, and this {} mm wrist carries {}: it would catch on sleeves and bags.",
        mm_text(across),
        mm_text(girth),
        mm_text(limit)
    )
}

pub(super) fn counts_well(n_blooms: usize) -> String {
    match n_blooms {
        1 => "One bloom, and nothing in pairs.".to_owned(),
        n => format!("Odd numbers: {n} blooms, and nothing in pairs."),
    }
}

pub(super) fn counts_even(what: &[(String, usize)]) -> String {
    let list: Vec<String> = what.iter().map(|(name, n)| format!("{n} of {name}")).collect();
    format!("An even number: {}. One more or one less looks freer.", list.join(", "))
}

pub(super) fn no_blooms_yet() -> String {
    "No blooms yet.".to_owned()
}

pub(super) fn spread_well(name: &str, n: usize) -> String {
    format!("The {n} of {name} are evenly spread.")
}

pub(super) fn spread_step(name: &str, widest: f64, ideal: f64, place: &str) -> String {
    format!("The widest step between two of {name} is {widest:.0}\u{b0}, {place}; even would be {ideal:.0}\u{b0}.")
}

pub(super) fn spread_close(name: &str, nearest: f64) -> String {
    format!("Some of {name} sit close together: the nearest two are {} mm apart.", mm_text(nearest))
}

pub(super) fn room_well() -> String {
    "No bare spots.".to_owned()
}

pub(super) fn room_for(n: usize, across: f64, place: &str) -> String {
    match n {
        1 => format!("Room for one more here: a bare spot {} mm across, {place}.", mm_text(across)),
        n => format!("Room here: {n} bare spots, the largest {} mm across, {place}.", mm_text(across)),
    }
}

pub(super) fn room_invites() -> String {
    "There is room for one more here.".to_owned()
}

pub(super) fn full_well(fullness: f64) -> String {
    format!("Comfortably full: blooms make {fullness:.2} of the oval.")
}

pub(super) fn full_crowded(fullness: f64, most: f64, longer: f64) -> String {
    format!(
        "Crowded: blooms make {fullness:.2} of the oval, where {most} is full. An oval {} mm long would hold them; a wider one would not suit the wrist.",
        mm_text(longer)
    )
}

pub(super) fn full_thin(fullness: f64, least: f64) -> String {
    format!("Still thin: blooms make {fullness:.2} of the oval, where {least} begins to look full.")
}

pub(super) fn remedy(remedy: &Remedy) -> String {
    match remedy {
        Remedy::DrawInToRatio(_) => "Draw the sides in".to_owned(),
        Remedy::DrawInToWidth(mm) => format!("Draw it in to {} mm", mm_text(*mm)),
        Remedy::EvenOut(_) => "Even out".to_owned(),
        Remedy::FillRoom(_) => "Put a sprig here".to_owned(),
        Remedy::Lengthen(oval) => format!("Oval {} mm long", mm_text(oval.length_mm)),
    }
}

/// Where on the piece a point lies, as one would say it pointing.
pub(super) fn place(p: Point) -> String {
    /// Nearer than this to the middle line, mm, is in the middle; our choice.
    const MIDDLE_MM: f64 = 5.0;
    let along = match p.x {
        x if x > MIDDLE_MM => "toward the elbow",
        x if x < -MIDDLE_MM => "toward the hand",
        _ => "",
    };
    let across = match p.y {
        y if y > MIDDLE_MM => "on the right",
        y if y < -MIDDLE_MM => "on the left",
        _ => "",
    };
    match (along, across) {
        ("", "") => "in the middle".to_owned(),
        (one, "") | ("", one) => one.to_owned(),
        (along, across) => format!("{along}, {across}"),
    }
}
