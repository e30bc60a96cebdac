//! All wording of the once-over, side by side. Kind, with the figure in it, and never a verdict on a person.

use super::Remedy;
use crate::geometry::Point;
use crate::piece::Level;
use crate::units::{Length, mm_text};

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

pub(super) fn corners_square(fill: f64) -> String {
    format!("Square at the corners: the blooms fill {:.0} % of their box, an oval fills 79 %.", fill * 100.0)
}

pub(super) fn corners_round(fill: f64) -> String {
    format!("Round at the ends: the blooms fill {:.0} % of their box.", fill * 100.0)
}

pub(super) fn arm_well() -> String {
    "It runs along the arm.".to_owned()
}

pub(super) fn arm_askew(degrees: f64) -> String {
    format!("It lies {degrees:.0}\u{b0} askew to the arm. Turned straight it follows the wrist.")
}

pub(super) fn top_well(n: usize) -> String {
    if n == 1 { "One bloom on top, in the middle.".to_owned() } else { format!("{n} blooms on top, in the middle.") }
}

pub(super) fn top_missing() -> String {
    "No bloom on top in the middle yet. Raise two or three there, and the eye has a place to rest.".to_owned()
}

pub(super) fn top_many(n: usize) -> String {
    format!("{n} blooms on top: with more than three none stands out.")
}

pub(super) fn top_off(n: usize, off: usize) -> String {
    format!("{n} on top in the middle, and {off} on top outside it.")
}

pub(super) fn graded_well() -> String {
    "Sizes step down from the middle to the ends.".to_owned()
}

pub(super) fn graded_off() -> String {
    "A large bloom sits farther out than a smaller one. Largest in the middle, smallest at the tips.".to_owned()
}

pub(super) fn ends_well(n: usize) -> String {
    format!("All {n} ends of the oval are taken.")
}

pub(super) fn ends_bare(n: usize, place: &str) -> String {
    let ends = if n == 1 { "One end of the oval has".to_owned() } else { format!("{n} ends of the oval have") };
    format!("{ends} no bloom yet, first {place}.")
}

pub(super) fn balance_well() -> String {
    "In balance about the centre.".to_owned()
}

pub(super) fn balance_tips(place: &str) -> String {
    format!("It tips {place}. If that is meant so, set this question aside.")
}

pub(super) fn hidden_well() -> String {
    "Every bloom is seen.".to_owned()
}

pub(super) fn hidden(name: &str, share: f64) -> String {
    format!("A {name} is hidden by {:.0} %. Bring it out, or take it off.", share * 100.0)
}

pub(super) fn crushed(below: &str, above: &str) -> String {
    format!("A {below} and a {above} would have to sit in one place. Move one, or raise one.")
}

pub(super) fn base_well() -> String {
    "Base and glue are covered.".to_owned()
}

pub(super) fn base_seen(share: f64) -> String {
    format!("{:.0} % of the base would be seen in the middle. A leaf or a sprig covers it.", share * 100.0)
}

pub(super) fn bow_well(seen: f64) -> String {
    format!("The bow is seen: {:.0} % of its loops.", seen * 100.0)
}

pub(super) fn bow_hidden() -> String {
    "The bow is hardly seen. Longer loops would look out at the sides.".to_owned()
}

pub(super) fn leaves_well(n: usize) -> String {
    if n == 1 { "The leaf lies lengthwise.".to_owned() } else { format!("All {n} leaves lie lengthwise.") }
}

pub(super) fn leaves_across(n: usize) -> String {
    let leaves = if n == 1 { "One leaf lies".to_owned() } else { format!("{n} leaves lie") };
    format!("{leaves} across the arm, where it would catch. Lengthwise they make it longer.")
}

pub(super) fn leaves_order() -> String {
    "A longer leaf lies farther out than a shorter one. Smallest outward.".to_owned()
}

pub(super) fn height_well(top: f64) -> String {
    format!("About {top:.0} mm over the wrist.")
}

pub(super) fn height_over(top: f64, limit: f64) -> String {
    format!(
        "About {top:.0} mm over the wrist, where {} is comfortable. Lower the top, or let the blooms lie apart.",
        mm_text(limit)
    )
}

pub(super) fn past_well(past: f64) -> String {
    if past <= 0.0 {
        "All heads stay within the edges of the wrist.".to_owned()
    } else {
        format!("Heads reach {past:.0} mm past the edge of the wrist.")
    }
}

pub(super) fn past_edge(past: f64) -> String {
    format!("A head reaches {past:.0} mm past the edge of the wrist, and would knock against things.")
}

pub(super) fn mass_well(mass: f64) -> String {
    format!("About {mass:.0} g of flowers, by planning figures.")
}

pub(super) fn mass_over(mass: f64, limit: f64) -> String {
    format!(
        "About {mass:.0} g of flowers by planning figures, where {limit:.0} is comfortable. Smaller heads or fewer."
    )
}

/// Widths are told in the unit in which the girth was typed.
pub(super) fn width_well(across: f64, limit: f64, girth: &Length) -> String {
    let [across, limit] = [across, limit].map(|mm| girth.like_this(mm));
    format!("{across} across; a wrist of {} carries up to {limit}.", girth.shown())
}

pub(super) fn width_over(across: f64, limit: f64, girth: &Length) -> String {
    let [across, limit] = [across, limit].map(|mm| girth.like_this(mm));
    format!("{across} across, and a wrist of {} carries {limit}: it would catch on sleeves and bags.", girth.shown())
}

pub(super) fn counts_well(n_blooms: usize) -> String {
    match n_blooms {
        1 => "One bloom, and nothing in pairs.".to_owned(),
        n => format!("Odd numbers: {n} blooms, and nothing in pairs."),
    }
}

/// Each kind, how many there are, and whether the wearer's custom avoids just that number.
pub(super) fn counts_off(what: &[(String, usize, bool)]) -> String {
    let list: Vec<String> = what.iter().map(|(name, n, _)| format!("{n} {name}")).collect();
    let avoided: Vec<String> = what.iter().filter(|(.., avoided)| *avoided).map(|(_, n, _)| n.to_string()).collect();
    if avoided.is_empty() {
        format!("{}. One more or one less looks freer.", list.join(", "))
    } else {
        format!("{}. The wearer\u{2019}s custom avoids {}.", list.join(", "), avoided.join(" and "))
    }
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
        1 => format!("Room for one more: a bare spot {} mm across, {place}.", mm_text(across)),
        n => format!("{n} bare spots, the largest {} mm across, {place}.", mm_text(across)),
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

pub(super) fn full_crowded_at_most(fullness: f64, most: f64) -> String {
    format!(
        "Crowded: blooms make {fullness:.2} of the oval, where {most} is full, and it is as long as this house likes. Fewer or smaller blooms would sit better."
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
        Remedy::TurnAll(_) => "Turn it straight".to_owned(),
        Remedy::OneMore(_) => "One more".to_owned(),
        Remedy::OneLess(_) => "One less".to_owned(),
        Remedy::Raise(ids, Level::Top) if ids.len() > 1 => format!("Raise {} to the top", ids.len()),
        Remedy::Raise(_, Level::Top) => "Raise one to the top".to_owned(),
        Remedy::Raise(_, Level::Raised | Level::Flat) => "Set it lower".to_owned(),
        Remedy::TakeEnd(_) => "Move one to that end".to_owned(),
        Remedy::MoveAll(_) => "Move all to the centre".to_owned(),
        Remedy::BringOut(_) => "Bring it out".to_owned(),
        Remedy::MoveToRoom(_) => "Move it where there is room".to_owned(),
        Remedy::PullIn(..) => "Pull it in".to_owned(),
        Remedy::LongerLoops => "Longer loops".to_owned(),
        Remedy::LayLengthwise(ids) if ids.len() > 1 => "Lay them lengthwise".to_owned(),
        Remedy::LayLengthwise(_) => "Lay it lengthwise".to_owned(),
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
