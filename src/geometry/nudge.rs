//! Boundaries that nearly coincide, told apart before anything is computed with them.
//!
//! Which of two boundaries lies inside the other is a matter of rounding where they run together, and three such answers may
//! contradict one another: then a stretch is counted twice, or not at all. What is the same to [`SAME_MM`] is the same for all. From
//! there up to [`DOUBT_MM`] shapes are in doubt, and are made larger by less than [`MOST_NUDGE_MM`] until none is (D. Halperin and
//! C. R. Shelton, "A perturbation scheme for spherical arrangements with application to molecular modeling", Computational
//! Geometry 10:273-287, 1998; the idea is theirs, from memory, the amounts are ours). By how much one grows depends on itself
//! alone, not on its place in the list, and is the same for its mirror image.
//!
//! Knows pairs of circles; mm. Circles that touch from outside are never in doubt: what is at stake there is no area.

use super::{Disc, Shape};

/// Distances that differ by less than this, mm, are the same: the rounding of coordinates at a metre.
pub(super) const SAME_MM: f64 = 1e-12;

/// Where the one of two boundaries lies inside the other, or reaches out of it, by less than this, mm, and is not the same,
/// they are in doubt.
pub(super) const DOUBT_MM: f64 = 1e-7;

/// What a size grows at most, mm: a hundred times the doubt, so that one in fifty pairs has to be tried again, and a
/// thousandth of a square millimetre at the edge of a bloom.
const MOST_NUDGE_MM: f64 = 1e-5;

/// How often it is tried again.
pub(super) const MOST_TRIES: u32 = 16;

/// Whether it is a matter of rounding which of two circles lies in the other. Not of two that are one and the same, nor of two
/// that touch where their sizes are clearly different.
pub(super) fn is_in_doubt(first: Disc, second: Disc) -> bool {
    let difference = (first.radius - second.radius).abs();
    let squared = (second.centre - first.centre).hypot2();
    // Most are told apart without a root.
    if squared > (difference + DOUBT_MM) * (difference + DOUBT_MM) {
        return false;
    }
    let apart = squared.sqrt();
    let run_together = apart < DOUBT_MM && difference < DOUBT_MM;
    let off = if run_together { apart + difference } else { (apart - difference).abs() };
    SAME_MM < off && (run_together || off < DOUBT_MM)
}

/// The shape, a little larger: by how much, its figures and the number of the try decide.
pub(super) fn nudged(shape: &Shape, attempt: u32) -> Shape {
    match *shape {
        Shape::Disc(disc) => {
            let more = share_of([disc.centre.x, disc.centre.y, disc.radius, 0.0], attempt);
            Shape::Disc(Disc { radius: disc.radius + MOST_NUDGE_MM * more, ..disc })
        }
        Shape::Lens(lens) => {
            let more = MOST_NUDGE_MM * share_of([lens.centre.x, lens.centre.y, lens.length, lens.width], attempt);
            // As much longer as it grows wider: so a lens as wide as long, which is a disc, stays one.
            Shape::Lens(super::Lens { length: lens.length + more, width: lens.width + more, ..lens })
        }
    }
}

/// A share from 0 to 1 that belongs to these figures, whatever their signs. Mixed as in splitmix64 (S. Vigna; public domain,
/// constants from memory).
fn share_of(figures: [f64; 4], attempt: u32) -> f64 {
    let mixed = figures.into_iter().fold(u64::from(attempt), |state, figure| {
        let mut z = state.wrapping_add(figure.abs().to_bits()).wrapping_add(0x9E37_79B9_7F4A_7C15);
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    });
    (mixed >> 11) as f64 / (1_u64 << 53) as f64
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::{Lens, Point};

    fn disc(x: f64, y: f64, radius: f64) -> Disc {
        Disc { centre: Point::new(x, y), radius }
    }

    #[test]
    fn circles_that_nearly_run_together_or_nearly_touch_from_within_are_in_doubt() {
        let ten = disc(0.0, 0.0, 10.0);
        for (other, doubt) in [
            (ten, false),
            (disc(1e-14, 0.0, 10.0), false),
            (disc(1e-11, 0.0, 10.0), true),
            (disc(0.0, 0.0, 10.0 + 1e-9), true),
            (disc(1e-9, 0.0, 10.0 + 1e-9), true),
            (disc(0.0, 0.9e-7, 10.0), true),
            (disc(0.0, 1.1e-7, 10.0), false),
            (disc(4.0, 0.0, 6.0), false),
            (disc(4.0, 0.0, 6.0 - 0.9e-7), true),
            (disc(4.0, 0.0, 6.0 + 1.1e-7), false),
            (disc(4.0, 0.0, 14.0 + 1e-11), true),
            (disc(16.0, 0.0, 6.0), false),
            (disc(4.0, 0.0, 9.0), false),
        ] {
            assert_eq!(is_in_doubt(ten, other), doubt, "{other:?}");
            assert_eq!(is_in_doubt(other, ten), doubt, "{other:?}");
        }
    }

    #[test]
    fn a_mirror_image_grows_as_much_and_another_try_gives_another_size() {
        let grown = |x: f64, y: f64, attempt| nudged(&Shape::Disc(disc(x, y, 7.0)), attempt).reach() - 7.0;
        assert_eq!(grown(3.0, 4.0, 0), grown(-3.0, 4.0, 0));
        assert_ne!(grown(3.0, 4.0, 0), grown(3.0, 4.0, 1));
        assert_ne!(grown(3.0, 4.0, 0), grown(3.0 + 1e-14, 4.0, 0));
        let all = (0..200).map(|k| grown(f64::from(k), 0.0, 0));
        assert!(all.clone().all(|more| (0.0..=MOST_NUDGE_MM).contains(&more)));
        // Even shares of 200 have a mean within a tenth of a half.
        assert!((all.sum::<f64>() / 200.0 / MOST_NUDGE_MM - 0.5).abs() < 0.1);
        let lens = Lens { centre: Point::new(1.0, 2.0), length: 30.0, width: 12.0, turn: 0.3 };
        let Shape::Lens(after) = nudged(&Shape::Lens(lens), 0) else { panic!() };
        assert!(after.length > lens.length && (after.length - lens.length) - (after.width - lens.width) < 1e-14);
    }
}
