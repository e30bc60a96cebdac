//! What a search has found so far: the layout with the best score, and those near it among which preference chooses. Scores and
//! preference are points of 100; whose they are, this file does not know.
//!
//! Preference may cost little, and the less the nearer a layout is to a full score. Were scores and preference added up instead, a long
//! search would go on trading one for the other, and end below where it had been.

use super::table::PartPose;

/// What preference may cost, as a share of what the best score lacks of 100, and at least, in points: less than the score is shown to.
/// Our choice, by pictures and by scores after a second.
const BAND_SHARE: f64 = 0.05;
const LEAST_BAND: f64 = 0.002;
/// A layout must be better by this to count as better: beyond rounding on any computer.
const MARGIN: f64 = 1e-6;

/// A layout and how good it is.
#[derive(Clone, Debug)]
pub(super) struct FoundLayout {
    pub(super) poses: Vec<PartPose>,
    /// The seats of the plan it comes from.
    pub(super) seats: Vec<PartPose>,
    pub(super) score: f64,
    /// Lost by preference.
    pub(super) preference: f64,
}

impl FoundLayout {
    /// Score and preference, by which two are told apart.
    pub(super) fn worth(&self) -> (f64, f64) {
        (self.score, self.preference)
    }
}

/// Layouts within the band below the best score: scores fall, and so does what is lost by preference, or one of two would be kept in
/// vain.
#[derive(Clone, Debug, Default)]
pub(super) struct Archive(Vec<FoundLayout>);

impl Archive {
    /// The layout that preference chooses.
    pub(super) fn chosen(&self) -> Option<&FoundLayout> {
        self.0.last()
    }

    /// The layout with the best score.
    pub(super) fn truest(&self) -> Option<&FoundLayout> {
        self.0.first()
    }

    /// Keeps what no other beats or equals, drops what it beats and what is now too far below the best score.
    pub(super) fn add(&mut self, new: FoundLayout) {
        let no_worse = |f: &FoundLayout| f.score >= new.score - MARGIN && f.preference <= new.preference + MARGIN;
        if self.0.iter().any(no_worse) {
            return;
        }
        self.0.retain(|f| f.score > new.score || f.preference < new.preference);
        let place = self.0.partition_point(|f| f.score > new.score);
        self.0.insert(place, new);
        let best = self.0[0].score;
        let least = best - (BAND_SHARE * (100.0 - best)).max(LEAST_BAND);
        self.0.retain(|f| f.score >= least);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn found(score: f64, preference: f64) -> FoundLayout {
        FoundLayout { poses: Vec::new(), seats: Vec::new(), score, preference }
    }

    fn chosen(of: &[(f64, f64)]) -> (f64, f64) {
        let mut archive = Archive::default();
        for &(score, preference) in of {
            archive.add(found(score, preference));
        }
        archive.chosen().map(FoundLayout::worth).unwrap()
    }

    #[test]
    fn taste_chooses_among_marks_that_are_nearly_the_best_and_only_there() {
        assert_eq!(chosen(&[(90.0, 3.0), (89.6, 1.0)]), (89.6, 1.0));
        assert_eq!(chosen(&[(90.0, 3.0), (89.4, 1.0)]), (90.0, 3.0));
        assert_eq!(chosen(&[(99.96, 3.0), (99.95, 1.0)]), (99.96, 3.0));
        assert_eq!(chosen(&[(99.96, 3.0), (99.959, 1.0)]), (99.959, 1.0));
    }

    #[test]
    fn the_truest_has_the_best_mark_whatever_taste_says() {
        let mut archive = Archive::default();
        for (score, preference) in [(90.0, 3.0), (89.6, 1.0), (90.2, 4.0)] {
            archive.add(found(score, preference));
        }
        assert_eq!(archive.truest().map(FoundLayout::worth), Some((90.2, 4.0)));
    }

    #[test]
    fn what_was_found_first_does_not_matter() {
        let all = [(90.0, 3.0), (89.6, 1.0), (90.2, 2.0), (90.2, 2.5), (89.75, 0.5)];
        for turn in 0..all.len() {
            let mut turned = all;
            turned.rotate_left(turn);
            assert_eq!(chosen(&turned), (89.75, 0.5), "{turn}");
        }
    }

    #[test]
    fn small_steps_of_taste_do_not_lead_far_below_the_best_mark() {
        let steps: Vec<(f64, f64)> =
            (0..100).map(|k| (99.9 - 0.003 * f64::from(k), 3.0 - 0.02 * f64::from(k))).collect();
        let (score, _) = chosen(&steps);
        assert!(score > 99.894, "{score}");
    }
}
