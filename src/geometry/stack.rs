//! How high things stand when they lie over one another.
//!
//! Knows discs that are lifted off the ground and have a thickness, in order from below; mm. How much they give is an
//! input: it differs from thing to thing, and the figures are common practice without a source. The rule is our own.

use super::Disc;
use super::neighbours::overlapping_pairs;
use super::overlap::depth;
use super::shape::Shape;

/// A disc that is held up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stacked {
    /// Its outline.
    pub disc: Disc,
    /// The lowest it can sit above the ground, mm.
    pub lift: f64,
    /// From its underside to its top, mm.
    pub thickness: f64,
}

/// How much things give.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Give {
    /// Neighbours may reach into each other by this share of the smaller radius and still lie side by side.
    pub sideways: f64,
    /// What lies under another loses this share of its thickness.
    pub squash: f64,
}

/// How two discs meet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Meeting {
    /// Not at all.
    Free,
    /// Side by side, pressed.
    Squeezed,
    /// So deep that one must go above the other.
    Above,
}

/// Heights from the ground.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Stack {
    /// Underside of each, mm, in the order given.
    pub bases: Vec<f64>,
    /// The highest top, mm; nought if there is nothing.
    pub top: f64,
}

/// How two discs meet, if they give `sideways`.
pub fn meeting(first: Disc, second: Disc, sideways: f64) -> Meeting {
    let depth = depth(first, second);
    if depth > sideways * first.radius.min(second.radius) {
        Meeting::Above
    } else if depth > 0.0 {
        Meeting::Squeezed
    } else {
        Meeting::Free
    }
}

/// How high each sits when they are laid down in this order, from below: at its lift, or on whatever below it
/// does not give enough.
pub fn stack(from_below: &[Stacked], give: Give) -> Stack {
    stack_of(from_below, pairs_of(from_below), give)
}

/// [`stack`] and the [`clashes`] in it, with one search for who meets whom.
pub fn stack_with_clashes(from_below: &[Stacked], give: Give, core: f64) -> (Stack, Vec<(usize, usize)>) {
    let pairs = pairs_of(from_below);
    let stack = stack_of(from_below, pairs.clone(), give);
    let clashes = clashes_of(from_below, pairs, &stack.bases, core);
    (stack, clashes)
}

fn stack_of(from_below: &[Stacked], mut pairs: Vec<(usize, usize)>, give: Give) -> Stack {
    let mut bases: Vec<f64> = from_below.iter().map(|stacked| stacked.lift).collect();
    pairs.retain(|&(lower, upper)| {
        meeting(from_below[lower].disc, from_below[upper].disc, give.sideways) == Meeting::Above
    });
    // A base is final once all below it are, so pairs are taken by their upper member.
    pairs.sort_unstable_by_key(|&(lower, upper)| (upper, lower));
    for (lower, upper) in pairs {
        let top = bases[lower] + (1.0 - give.squash) * from_below[lower].thickness;
        bases[upper] = bases[upper].max(top);
    }
    let tops = from_below.iter().zip(&bases).map(|(stacked, base)| base + stacked.thickness);
    let top = tops.fold(0.0, f64::max);
    Stack { bases, top }
}

/// Pairs that cannot be built: their cores, this share of the radius, would have to be in one place.
pub fn clashes(from_below: &[Stacked], bases: &[f64], core: f64) -> Vec<(usize, usize)> {
    clashes_of(from_below, pairs_of(from_below), bases, core)
}

fn clashes_of(from_below: &[Stacked], mut pairs: Vec<(usize, usize)>, bases: &[f64], core: f64) -> Vec<(usize, usize)> {
    let core_of = |stacked: &Stacked| Disc { radius: stacked.disc.radius * core, ..stacked.disc };
    pairs.retain(|&(lower, upper)| {
        upper < bases.len() && {
            let (below, above) = (&from_below[lower], &from_below[upper]);
            let apart = (bases[upper] - bases[lower]).abs();
            depth(core_of(below), core_of(above)) > 0.0 && apart < f64::midpoint(below.thickness, above.thickness)
        }
    });
    pairs
}

fn pairs_of(from_below: &[Stacked]) -> Vec<(usize, usize)> {
    let sound: Vec<usize> = (0..from_below.len()).filter(|&index| sound(&from_below[index])).collect();
    let boxes: Vec<_> = sound.iter().map(|&index| Shape::Disc(from_below[index].disc).bounds()).collect();
    overlapping_pairs(&boxes).into_iter().map(|(lower, upper)| (sound[lower], sound[upper])).collect()
}

fn sound(stacked: &Stacked) -> bool {
    Shape::Disc(stacked.disc).tidy().is_some() && stacked.lift.is_finite() && stacked.thickness.is_finite()
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::Point;

    fn stacked(x: f64, radius: f64, lift: f64, thickness: f64) -> Stacked {
        Stacked { disc: Disc { centre: Point::new(x, 0.0), radius }, lift, thickness }
    }

    #[test]
    fn nothing_has_no_height() {
        assert_eq!(stack(&[], Give { sideways: 0.25, squash: 0.2 }), Stack::default());
    }

    #[test]
    fn a_chain_is_as_high_as_its_longest_way_up_whatever_the_indices_in_between() {
        // The third rests on the first, the second stands apart.
        let pile = [stacked(0.0, 10.0, 5.0, 10.0), stacked(40.0, 10.0, 5.0, 10.0), stacked(8.0, 10.0, 5.0, 10.0)];
        let found = stack(&pile, Give { sideways: 0.25, squash: 0.2 });
        assert_eq!(found.bases, [5.0, 5.0, 13.0]);
        assert_eq!(found.top, 23.0);
        assert_eq!(clashes(&pile, &found.bases, 0.4), []);
        assert_eq!(clashes(&pile, &[5.0, 5.0, 9.0], 0.45), [(0, 2)]);
    }

    #[test]
    fn what_is_not_finite_carries_nothing() {
        let pile =
            [stacked(0.0, 10.0, f64::NAN, 10.0), stacked(1.0, 10.0, 5.0, 10.0), stacked(f64::NAN, 1.0, 1.0, 1.0)];
        assert_eq!(stack(&pile, Give { sideways: 0.25, squash: 0.2 }).bases[1], 5.0);
    }
}
