//! All wording of proposals, side by side: short enough for one line, lengths in the unit of the wrist's size.

use std::fmt;

use crate::piece::OVALS_MM;
use crate::units::{LengthUnit, counted, plural};

/// Why nothing is proposed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoProposal {
    /// Nothing is on the oval, and no size says what goes on it.
    NothingToSetOut,
    /// All parts are locked.
    AllLocked,
    /// What would move is locked.
    TheseAreLocked,
    /// Nothing better was found.
    NothingBetter,
    /// There is no gap that anything in the tray would fill.
    NoRoom,
}

impl fmt::Display for NoProposal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::NothingToSetOut => "Nothing to arrange yet. Choose a size, or place some flowers.",
            Self::AllLocked => "All parts are locked. Unlock some, then try again.",
            Self::TheseAreLocked => "These are locked in place. Unlock some, then try again.",
            Self::NothingBetter => "No better layout found.",
            Self::NoRoom => "Nothing in the trays fits. Remove something, or lengthen the oval.",
        })
    }
}

/// How one of several layouts differs from the others.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Character {
    /// Its blooms lie farthest out.
    Airy,
    /// Neither.
    Between,
    /// Its blooms lie nearest to the centre.
    Compact,
}

/// What a layout says, led by the word that tells it from the others.
pub(super) fn led_by(character: Character, says: &str) -> String {
    let word = match character {
        Character::Airy => "Airy",
        Character::Between => "In between",
        Character::Compact => "Compact",
    };
    format!("{word}: {says}")
}

pub(super) fn blooms(n: usize, n_top: usize) -> String {
    let blooms = counted(n, "bloom", "blooms");
    if n_top == 0 { blooms } else { format!("{blooms} ({n_top} on top)") }
}

/// Accents and the widest step between two of them; where the others are much nearer that is said.
pub(super) fn accents(n: usize, name: &str, widest_step: Option<f64>) -> String {
    let accents = counted(n, name, &plural(name));
    match widest_step {
        Some(degrees) if degrees > NEARLY_EVEN * 360.0 / n as f64 => {
            format!("{accents} at most {degrees:.0}\u{b0} apart")
        }
        Some(degrees) => format!("{accents} {degrees:.0}\u{b0} apart"),
        None => accents,
    }
}

/// Steps up to so much wider than even ones are reported as one step; our choice.
const NEARLY_EVEN: f64 = 1.15;

pub(super) fn leaves(n: usize) -> String {
    counted(n, "leaf", "leaves")
}

pub(super) fn sprigs(n: usize) -> String {
    counted(n, "sprig", "sprigs")
}

pub(super) fn trims(n: usize) -> String {
    counted(n, "trim", "trims")
}

pub(super) fn locked(n: usize) -> String {
    format!("{n} locked")
}

/// A sentence of its clauses.
pub(super) fn sentence(clauses: &[String]) -> String {
    let text = clauses.join(", ");
    let mut letters = text.chars();
    letters.next().map_or(String::new(), |first| format!("{}{}.", first.to_uppercase(), letters.as_str()))
}

/// So many letters are left in a line for a layout, beside the word that leads it.
const LAYOUT_LETTERS: usize = 78;

/// The fuller of two ways to say a layout where it fits a line, else the shorter.
pub(super) fn fitting(full: &[String], short: &[String]) -> String {
    let line = sentence(full);
    if line.chars().count() <= LAYOUT_LETTERS { line } else { sentence(short) }
}

/// What blooms need, against what there is, mm.
#[derive(Clone, Copy, Debug)]
pub(super) struct TooCrowded {
    pub(super) n_blooms: usize,
    /// Their size, where all have one.
    pub(super) across_mm: Option<f64>,
    pub(super) wanted_mm: f64,
    pub(super) now_mm: f64,
    /// Whether the wrist carries less than the oval is wide.
    pub(super) on_narrow_wrist: bool,
    pub(super) unit: LengthUnit,
}

pub(super) fn crowded(found: &TooCrowded) -> String {
    let length = |mm: f64| found.unit.short(mm);
    let blooms = match found.across_mm {
        Some(mm) => format!("{} of {}", counted(found.n_blooms, "bloom", "blooms"), length(mm)),
        None => format!("{} this large", counted(found.n_blooms, "bloom", "blooms")),
    };
    let need = if found.n_blooms == 1 { "needs" } else { "need" };
    let longest = *OVALS_MM.end();
    // What no oval holds, no other wrist carries either.
    let (wanted, wrist) = match found.on_narrow_wrist {
        _ if found.wanted_mm > longest => (format!("more than {}", length(longest)), ""),
        true => (length(found.wanted_mm), " on this wrist"),
        false => (length(found.wanted_mm), ""),
    };
    format!("{blooms} {need} an oval of {wanted}{wrist}; this one is {}.", length(found.now_mm))
}

pub(super) fn longer(mm: f64, unit: LengthUnit) -> String {
    format!("Oval {}", unit.short(mm))
}

pub(super) fn smaller(mm: f64, unit: LengthUnit) -> String {
    format!("Blooms {}", unit.short(mm))
}

pub(super) fn fewer(n: usize) -> String {
    counted(n, "bloom", "blooms")
}

pub(super) fn moved(n: usize, farthest_mm: f64, unit: LengthUnit) -> String {
    format!("{} moved by up to {}.", counted(n, "part", "parts"), unit.short(farthest_mm))
}

pub(super) fn filled(n: usize) -> String {
    format!("{} added in the gaps.", counted(n, "sprig", "sprigs"))
}

pub(super) fn evened(name: &str) -> String {
    sentence(&[format!("{} spaced evenly", plural(name))])
}

pub(super) fn mirrored(half: &str, n_off: usize, n_new: usize, n_locked: usize) -> String {
    let mut clauses = vec![format!("{half} half copied")];
    clauses.extend((n_new > 0).then(|| format!("{n_new} added")));
    clauses.extend((n_off > 0).then(|| format!("{n_off} removed")));
    clauses.extend((n_locked > 0).then(|| format!("{n_locked} locked left as they are")));
    sentence(&clauses)
}

pub(super) fn one_here(name: &str, across_mm: f64, gap_mm: f64, unit: LengthUnit) -> String {
    format!("{name} ({}) over the {} gap.", unit.short(across_mm), unit.short(gap_mm.round()))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The longest that can be said of a layout, in inches too, fits a line of 90 letters; what a button says, 24.
    #[test]
    fn everything_said_of_proposals_fits_its_place() {
        let mut said = Vec::new();
        for why in [
            NoProposal::NothingToSetOut,
            NoProposal::AllLocked,
            NoProposal::TheseAreLocked,
            NoProposal::NothingBetter,
            NoProposal::NoRoom,
        ] {
            said.push(why.to_string());
        }
        for unit in [LengthUnit::Millimetre, LengthUnit::FractionInch] {
            let found = TooCrowded {
                n_blooms: 27,
                across_mm: Some(39.7),
                wanted_mm: 501.0,
                now_mm: 115.9,
                on_narrow_wrist: true,
                unit,
            };
            said.extend([crowded(&found), crowded(&TooCrowded { across_mm: None, n_blooms: 1, ..found })]);
            said.extend([moved(12, 2.96, unit), one_here("Parvifolia eucalyptus", 38.4, 5.6, unit)]);
            for label in [longer(115.9, unit), smaller(39.7, unit), fewer(5)] {
                assert!(label.chars().count() <= 24, "{label}");
            }
        }
        said.push(mirrored("elbow", 12, 10, 11));
        said.push(led_by(
            Character::Between,
            &fitting(
                &[blooms(7, 3), accents(5, "hypericum berry", Some(118.0)), sprigs(12), leaves(8), locked(12)],
                &[blooms(7, 3), accents(5, "hypericum berry", None), sprigs(12), leaves(8), locked(12)],
            ),
        ));
        for line in said {
            assert!(line.ends_with('.') && line.chars().count() <= 90, "{}: {line}", line.chars().count());
        }
    }

    #[test]
    fn a_step_much_wider_than_the_even_one_is_given_as_the_most() {
        // Three even ones are 120 degrees apart; 1.15 of that is 138.
        assert_eq!(accents(3, "berry", Some(137.0)), "3 berries 137\u{b0} apart");
        assert_eq!(accents(3, "berry", Some(139.0)), "3 berries at most 139\u{b0} apart");
        assert_eq!(accents(1, "berry", None), "1 berry");
        assert_eq!(led_by(Character::Airy, "5 blooms."), "Airy: 5 blooms.");
    }
}
