//! Everything this floor says about needs, side by side. Nothing is assumed: proposals ask, reasons stay with the wearer.

/// The sentences about what is stopped and what is proposed.
#[derive(Clone, Copy, Debug)]
pub(super) struct Words;

impl Words {
    pub(super) const SPARED_WRIST: &'static str = "This arm is to be spared. Choose the other wrist, or the lapel.";
    pub(super) const OTHER_WRIST: &'static str = "Shall it go on the other wrist? The picture turns over with it.";
    pub(super) const OFF_THE_ARM: &'static str = "That arm is to be spared: shall it go on the other wrist?";
    pub(super) const NO_ELASTIC: &'static str = "Shall it be tied with ribbon, without elastic?";
    pub(super) const NO_GRIP: &'static str = "Nothing that grips: shall it be tied with ribbon?";
    pub(super) const FLAT: &'static str = "Hands push wheels: shall it lie flat, at most 30 mm high?";
    pub(super) const NO_TAILS: &'static str = "Shall the tails go, so that nothing catches in a wheel?";
    pub(super) const HIGHER: &'static str = "Shall it sit higher on the arm, clear of the rim?";
    pub(super) const UPPER_ARM: &'static str = "Would she rather wear it on the upper arm, tied with ribbon?";
    pub(super) const UPPER_ARM_NOTE: &'static str = "On the upper arm.";
    pub(super) const NO_PIN: &'static str = "Pins are kept from children under three. Tie it with ribbon instead.";
    pub(super) const LAPEL: &'static str = "Would she rather have it on the lapel?";
    pub(super) const TIE_FOR_SMALL: &'static str =
        "Under three years: shall it be tied with ribbon, with no pins and no elastic?";

    pub(super) const NO_LATEX: &'static str = "No latex.";
    pub(super) const NO_SNUG_BAND: &'static str = "No snug band.";
    pub(super) const SMALL_CHILD: &'static str = "A small child: nothing small that could come off, no pins.";

    pub(super) fn not_borne(things: &[String]) -> String {
        format!("Does not agree: {}.", super::listed(things))
    }
    pub(super) fn spare(arm: &str) -> String {
        format!("Nothing on the {arm} arm.")
    }
    /// `Wrist not measured and dress colour not confirmed.`
    pub(super) fn not_confirmed(what: &str) -> String {
        let mut letters = what.chars();
        let first: String = letters.next().into_iter().flat_map(char::to_uppercase).collect();
        format!("{first}{}.", letters.as_str())
    }

    pub(super) fn named(name: &str, word: &str) -> String {
        format!("{name} is stopped: \u{201c}{word}\u{201d} stands among the allergies.")
    }
    pub(super) fn latex(name: &str) -> String {
        format!("{name} is stopped: it may hold latex, and none is wanted.")
    }
    pub(super) fn small_part(name: &str) -> String {
        format!("{name} is stopped: it holds small parts, which are kept from children under three.")
    }
    pub(super) fn ends(name: &str) -> String {
        format!("{name} is stopped: its ends are not for children under three.")
    }
    pub(super) fn grips(name: &str) -> String {
        format!("{name} is stopped: it grips the wrist.")
    }
    pub(super) fn no_elastic(name: &str) -> String {
        format!("{name} is stopped: no elastic where an arm is to be spared.")
    }
    pub(super) fn too_big(name: &str, girth: &str, length: &str) -> String {
        format!("{name} is too big for a wrist of {girth} mm; a band of {length} mm, ease included, would sit well.")
    }
    pub(super) fn too_small(name: &str, girth: &str) -> String {
        format!("{name} is too small for a wrist of {girth} mm.")
    }
    pub(super) fn fitting_band(name: &str, length: &str) -> String {
        format!("Shall it be {name}? A band of {length} mm, ease included, sits well.")
    }
    pub(super) fn narrower(limit: &str, girth: &str) -> String {
        format!("A wrist of {girth} mm carries up to {limit} mm: shall the oval be drawn in?")
    }
    pub(super) fn take_off(name: &str) -> String {
        format!("Shall {name} come off?")
    }
    pub(super) fn swap(name: &str, other: &str) -> String {
        format!("Shall {other} stand in for {name}?")
    }
}
