//! All wording of proposals, side by side.

use std::fmt;

use crate::piece::OVALS_MM;
use crate::units::{mm_text, plural};

/// Why nothing is proposed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoProposal {
    /// Nothing is on the sheet, and no size says what goes on it.
    NothingToSetOut,
    /// All parts are locked.
    AllLocked,
    /// What would move is locked.
    TheseAreLocked,
    /// Nothing better was found.
    AsGoodAsICanMakeIt,
    /// There is no gap that anything in the tray would fill.
    NoRoom,
}

impl fmt::Display for NoProposal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::NothingToSetOut => {
                "There is nothing to set out yet. Choose a size, or put blooms on the sheet, then ask again."
            }
            Self::AllLocked => "All parts are locked, so none can be set out. Unlock some, then ask again.",
            Self::TheseAreLocked => "They are locked where they are. Unlock some, then ask again.",
            Self::AsGoodAsICanMakeIt => "Already as good as I can make it.",
            Self::NoRoom => {
                "There is no room here for anything in the tray. Take something off, or make the oval longer."
            }
        })
    }
}

/// Counts up to twelve as words.
pub(super) fn number(n: usize) -> String {
    const WORDS: [&str; 13] =
        ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"];
    WORDS.get(n).map_or_else(|| n.to_string(), |w| (*w).to_owned())
}

fn of(n: usize, one: &str, many: &str) -> String {
    format!("{} {}", number(n), if n == 1 { one } else { many })
}

pub(super) fn blooms(n: usize, n_top: usize) -> String {
    let blooms = of(n, "bloom", "blooms");
    match (n_top, n - n_top) {
        (0, 1) => format!("{blooms} in the middle"),
        (0, _) => format!("{blooms} along the arm"),
        (top, 0) => format!("{blooms}, {} on top", number(top)),
        (top, around) => format!("{blooms}: {} at the ends and {} on top", number(around), number(top)),
    }
}

pub(super) fn blooms_around(n: usize, n_ends: usize, n_top: usize) -> String {
    let around = number(n - n_ends - n_top);
    let blooms = of(n, "bloom", "blooms");
    format!("{blooms}: {} at the ends, {around} between and {} on top", number(n_ends), number(n_top))
}

/// Accents and the widest step between two of them; where the others are much nearer that is said.
pub(super) fn accents(n: usize, name: &str, widest_step: Option<f64>) -> String {
    let name = if n == 1 { name.to_owned() } else { plural(name) };
    let accents = format!("{} {name}", number(n));
    match widest_step {
        Some(degrees) if degrees > NEARLY_EVEN * 360.0 / n as f64 => {
            format!("{accents}, none more than {degrees:.0} degrees from the next")
        }
        Some(degrees) => format!("{accents} {degrees:.0} degrees apart"),
        None => accents,
    }
}

/// Steps up to so much wider than even ones are told as one step; our choice.
const NEARLY_EVEN: f64 = 1.15;

pub(super) fn leaves(n: usize) -> String {
    of(n, "leaf lengthwise", "leaves lengthwise")
}

pub(super) fn sprigs(n: usize) -> String {
    of(n, "sprig in the largest gap", "sprigs in the gaps")
}

pub(super) fn trims(n: usize) -> String {
    of(n, "trim", "trims")
}

pub(super) fn locked(n: usize) -> String {
    format!("{} locked in place", number(n))
}

/// A sentence of its clauses.
pub(super) fn sentence(clauses: &[String]) -> String {
    let text = clauses.join(", ");
    let mut letters = text.chars();
    letters.next().map_or(String::new(), |first| format!("{}{}.", first.to_uppercase(), letters.as_str()))
}

pub(super) fn crowded(n: usize, across: Option<f64>, wanted: f64, now: f64, carried: Option<f64>) -> String {
    let blooms = match across {
        Some(mm) => format!("{} of {} mm want", of(n, "bloom", "blooms"), mm_text(mm)),
        None => format!("{} of these sizes want", of(n, "bloom", "blooms")),
    };
    let wrist = carried.map_or(String::new(), |mm| format!(" on a wrist that carries {mm:.0} mm of width"));
    let wanted = match *OVALS_MM.end() {
        longest if wanted > longest => format!("more than {}", mm_text(longest)),
        _ => mm_text(wanted),
    };
    sentence(&[format!("{blooms} an oval of {wanted} mm{wrist}; this one is {}", mm_text(now))])
}

pub(super) fn longer(mm: f64) -> String {
    format!("Oval {} mm long", mm_text(mm))
}

pub(super) fn smaller(mm: f64) -> String {
    format!("Blooms of {} mm", mm_text(mm))
}

pub(super) fn fewer(n: usize) -> String {
    let text = of(n, "bloom", "blooms");
    sentence(&[text]).trim_end_matches('.').to_owned()
}

pub(super) fn moved(n: usize, farthest: f64) -> String {
    sentence(&[format!("{} nudged, none by more than {farthest:.1} mm", of(n, "part", "parts"))])
}

pub(super) fn filled(n: usize) -> String {
    sentence(&[format!("{} put where there was room", of(n, "sprig", "sprigs"))])
}

pub(super) fn evened(name: &str) -> String {
    format!("The {name} evenly spread.")
}

pub(super) fn mirrored(half: &str, n_off: usize, n_new: usize, n_locked: usize) -> String {
    let mut clauses = vec![format!("the other half is the mirror image of the one {half}")];
    if n_new > 0 {
        clauses.push(of(n_new, "part put on", "parts put on"));
    }
    if n_off > 0 {
        clauses.push(of(n_off, "part taken off", "parts taken off"));
    }
    if n_locked > 0 {
        clauses.push(of(n_locked, "locked one left as it is", "locked ones left as they are"));
    }
    sentence(&clauses)
}

pub(super) fn one_here(name: &str, across: f64, gap: f64) -> String {
    format!("One {} of {} mm into the gap of {gap:.0} mm.", name.to_lowercase(), mm_text(across))
}
