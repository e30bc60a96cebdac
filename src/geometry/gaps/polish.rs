//! From a good place to the best one nearby.
//!
//! Knows the field around one place; mm. It can only make a gap larger, so what the search has promised still holds.
//!
//! At a largest circle three limits hold at once: three things touched, or two with the centre on the oval's edge. For
//! each three of the nearest limits the place where all are equal is found to first order, and the step is kept if the
//! true clearance grew. Where only two opposite limits hold, ever smaller steps along the ridge between them and across do.

use std::f64::consts::FRAC_PI_4;

use kurbo::{Point, Vec2};

use super::Gap;
use super::bound::least_fall;
use super::field::{Limit, Obstacles};

/// Rounds of steps; each doubles the digits.
const MOST_ROUNDS: usize = 8;

/// Where the best lies out of reach the search goes on from there, so many times.
const MOST_SPOTS: usize = 4;

/// How many of the nearest limits are tried in threes.
const MOST_LIMITS: usize = 6;

/// A place moves by at most this share of the radius (and at most a millimetre); further off the first order means little.
const MOST_SHARE: f64 = 0.3;

/// Gains below this, mm, are rounding.
const LEAST_GAIN_MM: f64 = 1e-13;

/// Limits that differ by less than this, mm, hold at once: a thousand times the rounding of a distance.
const HELD_MM: f64 = 1e-9;

/// Limits of a peak differ by less than this, mm.
const PEAK_MM: f64 = 1e-12;

/// A peak that falls less than this by the way is climbed on; of the others none is wrong by more than a billionth of a mm.
const STEEP: f64 = 0.01;

/// Steps in eight directions shrink down to this, mm; a two-sided limit is then as exact.
const LEAST_STEP_MM: f64 = 1e-10;

/// When none of eight steps gains, they shrink by this.
const SHRINKING: f64 = 0.5;

/// Rounds of eight steps: three dozen shrink them from a millimetre to the least, and each size may gain a few times.
const MOST_CLIMBS: usize = 240;

/// The surroundings of one gap.
struct Spot<'a> {
    field: &'a Obstacles,
    from: Point,
    /// How far from there the search for better may go, mm.
    reach: f64,
    /// The obstacles that can limit a circle within reach.
    near: Vec<usize>,
}

/// The largest gap that can be had by small steps from `gap`.
pub(super) fn polished(field: &Obstacles, gap: Gap, tolerance: f64) -> Gap {
    if is_peak(field, gap) {
        return gap;
    }
    let reach = (gap.radius * MOST_SHARE).min(1.0).max(tolerance * 4.0);
    let mut best = gap;
    for _ in 0..MOST_SPOTS {
        // Within reach the clearance grows by at most that, and the way to an obstacle shrinks by at most that.
        let near = field.obstacles_within(best.centre, best.radius + 3.0 * reach);
        let spot = Spot { field, from: best.centre, reach, near };
        best = spot.polished(best);
        if best.centre.distance(spot.from) < reach / 2.0 {
            break;
        }
    }
    best
}

/// Whether three limits hold at once, one of which falls steeply whichever way one goes: most gaps are found so.
fn is_peak(field: &Obstacles, gap: Gap) -> bool {
    let within = gap.radius + PEAK_MM;
    let held = field.limits(gap.centre, &field.obstacles_within(gap.centre, within), within);
    held.iter().enumerate().any(|(index, first)| {
        held[index + 1..].iter().enumerate().any(|(offset, second)| {
            let thirds = &held[index + offset + 2..];
            thirds
                .iter()
                .any(|third| least_fall([first.grows, second.grows, third.grows]).is_some_and(|fall| fall > STEEP))
        })
    })
}

impl Spot<'_> {
    fn polished(&self, gap: Gap) -> Gap {
        let mut best = gap;
        for _ in 0..MOST_ROUNDS {
            let better = self.best_of_threes(best);
            if better.radius <= best.radius + LEAST_GAIN_MM {
                break;
            }
            best = better;
        }
        if self.is_held(best) { best } else { self.climbed(best) }
    }

    fn best_of_threes(&self, gap: Gap) -> Gap {
        let mut limits = self.field.limits(gap.centre, &self.near, gap.radius + self.reach);
        limits.truncate(MOST_LIMITS);
        // On the edge a circle is no larger than what may reach past it.
        let may_lie_on_edge = gap.radius <= self.field.overhang;
        let mut best = gap;
        let mut attempt = |step: Option<Vec2>| {
            let tried = step.and_then(|step| self.tried_at(gap.centre + step));
            if let Some(tried) = tried.filter(|tried| tried.radius > best.radius) {
                best = tried;
            }
        };
        for (index, first) in limits.iter().enumerate() {
            for (offset, second) in limits[index + 1..].iter().enumerate() {
                if may_lie_on_edge {
                    attempt(self.step_onto_edge(gap.centre, *first, *second));
                }
                for third in &limits[index + offset + 2..] {
                    attempt(step_to_equal(*first, *second, *third));
                }
            }
        }
        best
    }

    /// Whether three limits hold at once.
    fn is_held(&self, gap: Gap) -> bool {
        let n_limits = self.field.limits(gap.centre, &self.near, gap.radius + HELD_MM).len();
        let on_edge = self.field.oval.gauge(gap.centre) >= 1.0 - HELD_MM / self.field.oval.a.min(self.field.oval.b);
        n_limits + usize::from(on_edge) >= 3
    }

    /// The clearance at a place, brought back into the oval if it lies a little outside; none out of reach.
    fn tried_at(&self, place: Point) -> Option<Gap> {
        let gauge = self.field.oval.gauge(place);
        let (centre, gauge) =
            if gauge > 1.0 { (Point::new(place.x / gauge, place.y / gauge), 1.0) } else { (place, gauge) };
        (centre.distance(self.from) <= self.reach)
            .then(|| Gap { centre, radius: self.field.clearance(centre, gauge, &self.near) })
    }

    /// The step onto the oval's edge after which two limits are equal, to first order.
    fn step_onto_edge(&self, place: Point, first: Limit, second: Limit) -> Option<Vec2> {
        let edge = self.field.oval.nearest_edge(place);
        let inward = self.field.oval.inward(edge);
        solve((first.grows - second.grows, second.clearance - first.clearance), (inward, (edge - place).dot(inward)))
    }

    /// The best that steps along the ridge between the two nearest limits, and across it, lead to.
    fn climbed(&self, gap: Gap) -> Gap {
        let mut best = gap;
        let mut step = self.reach;
        for _ in 0..MOST_CLIMBS {
            let from = best;
            let ridge = self.ridge(from);
            for eighth in 0..8u8 {
                let tried = self.tried_at(from.centre + Vec2::from_angle(ridge + f64::from(eighth) * FRAC_PI_4) * step);
                if let Some(tried) = tried.filter(|tried| tried.radius > best.radius) {
                    best = tried;
                }
            }
            if best.radius <= from.radius {
                step *= SHRINKING;
            }
            if step <= LEAST_STEP_MM {
                break;
            }
        }
        best
    }

    /// The direction in which the two nearest limits stay equal.
    fn ridge(&self, gap: Gap) -> f64 {
        match self.field.limits(gap.centre, &self.near, gap.radius + self.reach).as_slice() {
            [first, second, ..] => {
                let across = first.grows - second.grows;
                Vec2::new(-across.y, across.x).atan2()
            }
            _ => 0.0,
        }
    }
}

/// The step after which three limits are equal, to first order.
pub(super) fn step_to_equal(first: Limit, second: Limit, third: Limit) -> Option<Vec2> {
    solve(
        (first.grows - second.grows, second.clearance - first.clearance),
        (first.grows - third.grows, third.clearance - first.clearance),
    )
}

/// The vector with these two products.
fn solve((first, product): (Vec2, f64), (second, other): (Vec2, f64)) -> Option<Vec2> {
    let cross = first.cross(second);
    let step = Vec2::new(product * second.y - other * first.y, other * first.x - product * second.x) / cross;
    step.is_finite().then_some(step)
}
