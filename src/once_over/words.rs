//! How findings and remedies are worded: short, with the figure that counts, and never a verdict on a person.
//!
//! A finding holds what was observed; [`Wording`] says in which unit lengths are written, and each kind of observation makes its
//! sentence beside its question. What several of them say stands here.

use super::{Finding, Remedy};
use crate::geometry::Point;
use crate::piece::Level;
use crate::units::LengthUnit;

/// How to write: lengths in this unit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Wording(pub(super) LengthUnit);

impl Wording {
    /// A length in the unit that is chosen.
    pub(super) fn length(self, mm: f64) -> String {
        self.0.text(mm)
    }
}

/// What is observed, in words.
pub(super) trait Sentence {
    /// A sentence for the shop's eyes: what is seen, and what would help.
    fn sentence(&self, words: Wording) -> String;

    /// The same as an invitation, for the client's eyes; `None` when it is nothing to show.
    fn invitation(&self) -> Option<String> {
        None
    }
}

/// What a finding says.
pub(super) fn sentence(finding: &Finding) -> String {
    finding.observed.worded().sentence(Wording(finding.lengths_in))
}

/// What it says to a client.
pub(super) fn invitation(finding: &Finding) -> Option<String> {
    finding.observed.worded().invitation()
}

/// What the button of a remedy says.
pub(super) fn remedy(remedy: &Remedy) -> &'static str {
    match remedy {
        Remedy::DrawInToRatio(_) | Remedy::DrawInToWidth(_) => "Narrow it",
        Remedy::EvenOut(_) => "Space evenly",
        Remedy::FillRoom(_) => "Fill this gap",
        Remedy::TurnAll(_) => "Straighten it",
        Remedy::OneMore(_) => "Add one",
        Remedy::OneLess(_) => "Remove one",
        Remedy::Raise(ids, Level::Top) if ids.len() > 1 => "Raise two",
        Remedy::Raise(_, Level::Top) => "Raise one",
        Remedy::Raise(_, Level::Raised | Level::Flat) => "Lower top flower",
        Remedy::TakeEnd(_) => "Move one there",
        Remedy::MoveAll(_) => "Centre it",
        Remedy::BringOut(_) => "Bring it out",
        Remedy::MoveToRoom(_) => "Move top flower",
        Remedy::PullIn(..) => "Pull it in",
        Remedy::LongerLoops => "Lengthen loops",
        Remedy::LayLengthwise(ids) if ids.len() > 1 => "Lay them lengthwise",
        Remedy::LayLengthwise(_) => "Lay it lengthwise",
        Remedy::Lengthen(_) => "Lengthen the oval",
    }
}

/// Where on the piece a point lies, as one would say it pointing.
pub(super) fn place(p: Point) -> String {
    /// Nearer than this to the middle line, mm, is in the centre; our choice.
    const MIDDLE_MM: f64 = 5.0;
    match (along(p.x, MIDDLE_MM), across(p.y, MIDDLE_MM)) {
        (None, None) => "in the centre".to_owned(),
        (Some(one), None) | (None, Some(one)) => one.to_owned(),
        (Some(along), Some(across)) => format!("{along}, {across}"),
    }
}

/// The way to a point from the centre, however near it lies: never "in the centre".
pub(super) fn direction(p: Point) -> String {
    // A way counts as both when the lesser is at least half of the greater.
    let least = 0.5 * p.x.abs().max(p.y.abs());
    match (along(p.x, least), across(p.y, least)) {
        (None, None) => "on one side".to_owned(),
        (Some(one), None) | (None, Some(one)) => one.to_owned(),
        (Some(along), Some(across)) => format!("{along}, {across}"),
    }
}

fn along(x: f64, least: f64) -> Option<&'static str> {
    (x.abs() > least).then_some(if x > 0.0 { "toward the elbow" } else { "toward the hand" })
}

fn across(y: f64, least: f64) -> Option<&'static str> {
    (y.abs() > least).then_some(if y > 0.0 { "on the right" } else { "on the left" })
}

/// A number to as many digits as set it apart from a limit that it lies beyond: 1.4 against 1.4 says nothing, 1.38 does.
pub(super) fn unlike(number: f64, limit: f64) -> String {
    let digits = (1..=3).find(|&n| format!("{number:.n$}") != format!("{limit:.n$}")).unwrap_or(3);
    format!("{number:.digits$}")
}

/// Counts up to four as words.
pub(super) fn number(n: usize) -> String {
    const WORDS: [&str; 5] = ["none", "one", "two", "three", "four"];
    WORDS.get(n).map_or_else(|| n.to_string(), |word| (*word).to_owned())
}

/// The words with a capital letter.
pub(super) fn capitalised(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or(String::new(), |first| format!("{}{}", first.to_uppercase(), letters.as_str()))
}

/// A name with its article, as it begins a sentence: A rose, An anemone.
pub(super) fn with_article(name: &str) -> String {
    let vowel = name.starts_with(['a', 'e', 'i', 'o', 'u']);
    format!("{} {name}", if vowel { "An" } else { "A" })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What each button says, so that the advice of a finding and its button name the same thing.
    #[test]
    fn a_button_says_what_it_does() {
        use crate::geometry::Disc;
        use crate::piece::PartId;
        use crate::stock::StockId;

        let (one, two) = (|| vec![PartId(1)], || vec![PartId(1), PartId(2)]);
        let kind = || StockId::new("hypericum");
        for (remedy, label) in [
            (Remedy::DrawInToRatio(1.4), "Narrow it"),
            (Remedy::DrawInToWidth(60.0), "Narrow it"),
            (Remedy::EvenOut(kind()), "Space evenly"),
            (Remedy::FillRoom(Disc { centre: Point::ZERO, radius: 5.0 }), "Fill this gap"),
            (Remedy::TurnAll(0.5), "Straighten it"),
            (Remedy::OneMore(kind()), "Add one"),
            (Remedy::OneLess(kind()), "Remove one"),
            (Remedy::Raise(one(), Level::Top), "Raise one"),
            (Remedy::Raise(two(), Level::Top), "Raise two"),
            (Remedy::Raise(one(), Level::Raised), "Lower top flower"),
            (Remedy::Raise(one(), Level::Flat), "Lower top flower"),
            (Remedy::TakeEnd(Point::ZERO), "Move one there"),
            (Remedy::MoveAll(crate::geometry::Vec2::ZERO), "Centre it"),
            (Remedy::BringOut(PartId(1)), "Bring it out"),
            (Remedy::MoveToRoom(PartId(1)), "Move top flower"),
            (Remedy::PullIn(PartId(1), 2.0), "Pull it in"),
            (Remedy::LongerLoops, "Lengthen loops"),
            (Remedy::LayLengthwise(one()), "Lay it lengthwise"),
            (Remedy::LayLengthwise(two()), "Lay them lengthwise"),
        ] {
            assert_eq!(remedy.label(), label, "{remedy:?}");
        }
    }

    /// A sentence at the limit and one beyond it, as they are read.
    #[test]
    fn what_is_observed_is_said_by_its_limit() {
        use super::super::{
            ArmAngle, BaseCover, BloomFill, BowShare, CornerFill, EdgeReach, HeightOverWrist, PlannedMass, Proportion,
            SizeOrder, WidthAcross,
        };

        let mm = Wording(LengthUnit::Millimetre);
        let proportion = |ratio| Proportion { ratio: Some(ratio), limits: [1.4, 2.2] }.sentence(mm);
        let width = |across_mm, unit| WidthAcross { across_mm, limit_mm: 63.5 }.sentence(Wording(unit));
        let fill = |share, longer_mm| BloomFill { share, limits: [0.6, 1.05], longer_mm }.sentence(mm);
        let height = |top_mm| HeightOverWrist { top_mm, limit_mm: 45.0, can_be_lowered: true }.sentence(mm);
        let past = |past_mm| EdgeReach { past_mm, limit_mm: 12.0 }.sentence(mm);
        for (said, by_hand) in [
            (proportion(1.4), "A narrow oval: 1.4 times as long as wide."),
            (proportion(1.38), "1.38 times as long as wide (your rule: 1.4 to 2.2). Narrow it, or lengthen it."),
            (proportion(1.0), "As wide as it is long (your rule: 1.4 to 2.2). Narrow it, or lengthen it."),
            (proportion(0.9), "Wider than long (0.9; your rule: 1.4 to 2.2). Narrow it, or lengthen it."),
            (proportion(3.0), "3.0 times as long as wide (your rule: 1.4 to 2.2). Leaves at the sides would round it."),
            (width(63.5, LengthUnit::Millimetre), "63.5 mm wide; max 63.5 mm for this wrist."),
            (width(64.0, LengthUnit::Millimetre), "64 mm wide; max 63.5 mm for this wrist. Narrow it."),
            (width(50.8, LengthUnit::FractionInch), "2 in (50.8 mm) wide; max 2 1/2 in (63.5 mm) for this wrist."),
            (fill(0.59, None), "Looks sparse. Add blooms, or shorten the oval."),
            (fill(1.05, None), "Comfortably full."),
            (fill(1.06, Some(82.0)), "Crowded. Lengthen the oval to 82 mm, or use fewer blooms."),
            (fill(1.06, None), "Crowded, and as long as your rules allow. Use fewer or smaller blooms."),
            (height(45.0), "About 45 mm high."),
            (height(46.0), "About 46 mm high; max 45 mm. Move or lower the top flower."),
            (past(0.4), "Stays within the wrist."),
            (past(12.0), "Reaches 12 mm past the wrist."),
            (past(13.0), "Reaches 13 mm past the wrist; max 12 mm. Pull it in."),
            (PlannedMass { mass_g: 60.0, limit_g: 60.0 }.sentence(mm), "About 60 g (estimate)."),
            (
                PlannedMass { mass_g: 61.0, limit_g: 60.0 }.sentence(mm),
                "About 61 g (estimate); max 60 g. Use fewer or smaller blooms.",
            ),
            (CornerFill { box_fill: 0.93, square_from: 0.93 }.sentence(mm), "Rounded at the ends."),
            (
                CornerFill { box_fill: 0.94, square_from: 0.93 }.sentence(mm),
                "Square corners. Move the corner blooms inward.",
            ),
            (ArmAngle { off_deg: 8.0, straight_within_deg: 8.0 }.sentence(mm), "Straight along the arm."),
            (
                ArmAngle { off_deg: 28.0, straight_within_deg: 8.0 }.sentence(mm),
                "Crooked: turned 28\u{b0} from the arm. Straighten it.",
            ),
            (BaseCover { covered: 0.97, well_from: 0.97 }.sentence(mm), "Base and glue are hidden."),
            (
                BaseCover { covered: 0.75, well_from: 0.97 }.sentence(mm),
                "25 % of the base shows. Cover it with a leaf or a sprig.",
            ),
            (BowShare { seen: 0.12, well_from: 0.12 }.sentence(mm), "The bow is visible."),
            (BowShare { seen: 0.11, well_from: 0.12 }.sentence(mm), "The bow is hardly visible. Lengthen the loops."),
            (SizeOrder { n_pairs: 2, n_wrong: 0 }.sentence(mm), "Sizes step down from the centre to the tips."),
        ] {
            assert_eq!(said, by_hand);
        }
    }

    #[test]
    fn a_place_is_named_by_the_arm_and_its_sides() {
        for (x, y, words) in [
            (0.0, 0.0, "in the centre"),
            (4.9, -4.9, "in the centre"),
            (5.1, 0.0, "toward the elbow"),
            (-5.1, 0.0, "toward the hand"),
            (0.0, 5.1, "on the right"),
            (-9.0, -9.0, "toward the hand, on the left"),
        ] {
            assert_eq!(place(Point::new(x, y)), words);
        }
    }

    #[test]
    fn a_direction_is_never_the_centre() {
        for (x, y, words) in [
            (0.4, 0.0, "toward the elbow"),
            (-2.0, 0.9, "toward the hand"),
            (-2.0, 1.1, "toward the hand, on the right"),
            (0.0, -0.1, "on the left"),
            (0.0, 0.0, "on one side"),
        ] {
            assert_eq!(direction(Point::new(x, y)), words);
        }
    }

    #[test]
    fn a_number_beyond_a_limit_reads_as_another() {
        assert_eq!(unlike(1.2, 1.4), "1.2");
        assert_eq!(unlike(1.38, 1.4), "1.38");
        assert_eq!(unlike(1.3999, 1.4), "1.400");
        assert_eq!(with_article("anemone"), "An anemone");
        assert_eq!(capitalised("hand end"), "Hand end");
    }
}
