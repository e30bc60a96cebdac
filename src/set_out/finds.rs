//! What a search has found so far: the layout with the best mark, and those near it among which taste chooses. Marks and
//! taste are points of 100; whose they are, this file does not know.
//!
//! Taste may cost little, and the less the nearer a layout is to a full mark. Were marks and taste added up instead, a long
//! search would go on trading one for the other, and end below where it had been.

use super::table::Pose;

/// What taste may cost, as a share of what the best mark lacks of 100, and at least, in points: less than the mark is told to.
/// Our choice, by pictures and by marks after a second.
const BAND_SHARE: f64 = 0.05;
const LEAST_BAND: f64 = 0.002;
/// A layout must be better by this to count as better: beyond rounding on any computer.
const MARGIN: f64 = 1e-6;

/// A layout and how good it is.
#[derive(Clone, Debug)]
pub(super) struct Found {
    pub(super) poses: Vec<Pose>,
    /// The seats of the plan it comes from.
    pub(super) seats: Vec<Pose>,
    pub(super) mark: f64,
    /// Lost by taste.
    pub(super) taste: f64,
}

impl Found {
    /// Mark and taste, by which two are told apart.
    pub(super) fn worth(&self) -> (f64, f64) {
        (self.mark, self.taste)
    }
}

/// Layouts within the band below the best mark: marks fall, and so does what is lost by taste, or one of two would be kept in
/// vain.
#[derive(Clone, Debug, Default)]
pub(super) struct Finds(Vec<Found>);

impl Finds {
    /// The layout that taste chooses.
    pub(super) fn chosen(&self) -> Option<&Found> {
        self.0.last()
    }

    /// The layout with the best mark.
    pub(super) fn truest(&self) -> Option<&Found> {
        self.0.first()
    }

    /// Keeps what no other beats or equals, drops what it beats and what is now too far below the best mark.
    pub(super) fn add(&mut self, new: Found) {
        let no_worse = |f: &Found| f.mark >= new.mark - MARGIN && f.taste <= new.taste + MARGIN;
        if self.0.iter().any(no_worse) {
            return;
        }
        self.0.retain(|f| f.mark > new.mark || f.taste < new.taste);
        let place = self.0.partition_point(|f| f.mark > new.mark);
        self.0.insert(place, new);
        let best = self.0[0].mark;
        let least = best - (BAND_SHARE * (100.0 - best)).max(LEAST_BAND);
        self.0.retain(|f| f.mark >= least);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn found(mark: f64, taste: f64) -> Found {
        Found { poses: Vec::new(), seats: Vec::new(), mark, taste }
    }

    fn chosen(of: &[(f64, f64)]) -> (f64, f64) {
        let mut finds = Finds::default();
        for &(mark, taste) in of {
            finds.add(found(mark, taste));
        }
        finds.chosen().map(Found::worth).unwrap()
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
        let mut finds = Finds::default();
        for (mark, taste) in [(90.0, 3.0), (89.6, 1.0), (90.2, 4.0)] {
            finds.add(found(mark, taste));
        }
        assert_eq!(finds.truest().map(Found::worth), Some((90.2, 4.0)));
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
        let (mark, _) = chosen(&steps);
        assert!(mark > 99.894, "{mark}");
    }
}
