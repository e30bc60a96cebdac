//! Everything this floor says about needs, side by side. Nothing is assumed: suggestions ask, reasons stay with the
//! wearer. What must not be overlooked is in capitals.

/// The sentences about what is stopped and what is proposed.
#[derive(Clone, Copy, Debug)]
pub(super) struct Words;

impl Words {
    pub(super) const SPARED_WRIST: &'static str = "Avoid this arm: use the other wrist or the lapel.";
    pub(super) const WORN_ALREADY: &'static str = "WATCH OR BANDAGE on this wrist: use the other one or the lapel.";
    pub(super) const NO_MAGNET: &'static str =
        "NO MAGNET, pacemaker or implant: pin it. Device maker and doctor decide.";
    pub(super) const NO_MAGNET_FOR_CHILD: &'static str = "NO MAGNET for a child: two that are swallowed hold together.";
    pub(super) const PIN_IT: &'static str = "Pin it instead of using a magnet?";
    pub(super) const NO_ELASTIC: &'static str = "Use a ribbon tie instead of elastic?";
    pub(super) const NO_GRIP: &'static str = "Use a ribbon tie, so that nothing is tight?";
    pub(super) const NO_TAILS: &'static str = "Remove the tails, so that nothing catches in a wheel?";
    pub(super) const HIGHER: &'static str = "Wear it further up the arm, clear of the wheel?";
    pub(super) const UPPER_ARM: &'static str = "Wear it on the upper arm, tied with ribbon?";
    /// Stands in the notes of old orders as well, so it stays as it is.
    pub(super) const UPPER_ARM_NOTE: &'static str = "On the upper arm.";
    pub(super) const NO_PIN: &'static str = "No pins for under-threes: tie it with ribbon.";
    pub(super) const NO_CORDS: &'static str = "CORDS: loose tails are not for under-threes.";
    pub(super) const BOUTONNIERE: &'static str = "Boutonniere: ";
    pub(super) const WIRE_IT: &'static str = "Wire it instead of gluing it?";
    pub(super) const GLUE_IT: &'static str = "Glue it instead of wiring it?";
    pub(super) const NO_BOW: &'static str = "Remove the bow?";
    pub(super) const TAILS_OFF: &'static str = "Remove the tails of the bow?";
    pub(super) const LAPEL: &'static str = "Wear it on the lapel instead?";
    pub(super) const TIE_FOR_SMALL: &'static str = "Under three: use a ribbon tie, without pins or elastic?";

    pub(super) const NO_LATEX: &'static str = "NO LATEX.";
    /// 15 cm: the six inches of the FDA's advice of 13 May 2021 (through digitalagemd.com).
    pub(super) const IMPLANT: &'static str = "PACEMAKER OR IMPLANT: no magnet within 15 cm (6 in).";
    pub(super) const NO_MAGNET_ON_BOX: &'static str = "PACEMAKER: NO MAGNET.";
    pub(super) const NO_SCENT: &'static str = "NO SCENT.";
    pub(super) const NOT_ASKED: &'static str = "Not asked: pacemaker, scent, watch or bandage, arm to spare.";
    pub(super) const NOT_ASKED_ON_LAPEL: &'static str = "Not asked: pacemaker or implant, scent.";
    pub(super) const NO_SNUG_BAND: &'static str = "Nothing tight.";
    pub(super) const SMALL_CHILD: &'static str = "UNDER THREE: no small parts, no pins, no cords.";
    pub(super) const SOME_CHILD: &'static str = "CHILD UNDER SIX: nothing poisonous.";

    pub(super) fn allergy_names(things: &[String]) -> String {
        format!("ALLERGY: {}.", super::listed(things))
    }
    pub(super) fn spare(arm: &str) -> String {
        format!("AVOID THE {} ARM.", arm.to_uppercase())
    }
    pub(super) fn worn_already(arm: &str) -> String {
        format!("WATCH OR BANDAGE ON THE {} WRIST.", arm.to_uppercase())
    }
    pub(super) fn magnet_band(name: &str) -> String {
        format!("NO MAGNET, pacemaker or implant: {name} has one.")
    }
    /// `Missing: wrist size and dress colour.`
    pub(super) fn missing(what: &str) -> String {
        format!("Missing: {what}.")
    }

    pub(super) fn other_wrist(other: &str) -> String {
        format!("Move it to the {other} wrist? The picture is mirrored.")
    }
    pub(super) fn off_the_watch(other: &str) -> String {
        format!("Watch or bandage there: move it to the {other} wrist?")
    }
    pub(super) fn off_the_arm(arm: &str, other: &str) -> String {
        format!("Avoid the {arm} arm: move it to the {other} wrist?")
    }
    pub(super) fn flat(height: &str) -> String {
        format!("Keep it low ({height}), so that it clears the wheels?")
    }

    pub(super) fn named(name: &str, word: &str) -> String {
        if word == super::understood::SCENT {
            return format!("NO SCENT: {name} is scented.");
        }
        format!("ALLERGY: {name} (\u{201c}{word}\u{201d} is on the list).")
    }
    pub(super) fn latex(name: &str) -> String {
        format!("NO LATEX: {name} may contain it.")
    }
    pub(super) fn small_part(name: &str) -> String {
        format!("CHOKING HAZARD: {name} is not for under-threes.")
    }
    pub(super) fn poison(name: &str) -> String {
        format!("POISONOUS IF EATEN: {name} is not for under-sixes.")
    }
    pub(super) fn swap_poison(name: &str, other: &str) -> String {
        format!("{name} is poisonous if eaten. Use {other} for a child?")
    }
    pub(super) fn take_off_poison(name: &str) -> String {
        format!("{name} is poisonous if eaten. Remove it for a child?")
    }
    pub(super) fn overruled(reason: &str) -> String {
        format!("USED ALL THE SAME: {reason}")
    }
    /// What nobody knows among the allergies, for the bench.
    pub(super) fn not_understood(words: &[String]) -> String {
        format!("NOT UNDERSTOOD, stops nothing: {}.", super::listed(words))
    }
    pub(super) fn ends(name: &str) -> String {
        format!("SHARP ENDS: {name} is not for under-threes.")
    }
    pub(super) fn grips(name: &str) -> String {
        format!("{name} is tight on the wrist.")
    }
    pub(super) fn no_elastic(name: &str) -> String {
        format!("{name} is elastic: not with an arm to avoid.")
    }
    pub(super) fn too_big(name: &str, girth: &str, length: &str) -> String {
        format!("{name} is too big for a wrist of {girth}; {length} with ease fits.")
    }
    pub(super) fn too_small(name: &str, girth: &str) -> String {
        format!("{name} is too small for a wrist of {girth}.")
    }
    pub(super) fn fitting_band(name: &str, length: &str) -> String {
        format!("Use {name}? {length} with ease fits this wrist.")
    }
    pub(super) fn narrower(limit: &str) -> String {
        format!("Too wide for this wrist (most {limit}). Make it narrower?")
    }
    /// `Ranunculus is out of season in November. Use Lisianthus?`
    pub(super) fn in_season(name: &str, month: &str, other: &str) -> String {
        format!("{name} is out of season in {month}. Use {other}?")
    }
    /// `something in season for Ranunculus`
    pub(super) fn something_in_season(names: &[&str]) -> String {
        format!("something in season for {}", super::listed(names))
    }
    pub(super) fn take_off(name: &str) -> String {
        format!("Remove {name}?")
    }
    pub(super) fn swap(name: &str, other: &str) -> String {
        format!("Use {other} instead of {name}?")
    }
}
