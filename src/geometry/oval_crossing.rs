//! Where discs, straight edges and the oval lie inside one another.
//!
//! Knows one oval and one piece at a time, mm and radians (eccentric angle on the oval). Does not know whole shapes.
//!
//! The crossings with a circle are found without a quartic: along the oval, the squared distance to the circle's centre
//! rises and falls between at most four places that can be bracketed beforehand, and between two neighbouring ones it
//! crosses the squared radius at most once. In and out alternate by construction. The bracketing is our own derivation.
//!
//! A disc no larger than the tightest bend of the oval rolls freely within it (W. Blaschke, Kreis und Kugel, 1916; from
//! memory). So what of the edge lies in such a disc is one stretch about the place nearest to its centre, and only the two
//! ends of that are looked for.

use std::f64::consts::{FRAC_PI_2, PI, TAU};

use kurbo::{Point, Vec2};

use super::crossing::{ConvexPart, between_on_edge};
use super::nudge::{DOUBT_MM, SAME_MM};
use super::spans::Along;
use super::{Disc, Oval};

/// A crossing of the oval's edge with a circle.
#[derive(Clone, Copy, Debug)]
struct Crossing {
    /// Eccentric angle on the oval, rising along the list.
    on_oval: f64,
    /// Angle on the circle.
    on_circle: f64,
    /// Whether the oval goes into the disc here.
    enters: bool,
}

/// How an oval and a disc lie.
#[derive(Debug)]
enum DiscPose {
    Apart,
    DiscInside,
    OvalInside,
    Crossed(Vec<Crossing>),
}

/// Halvings or Newton steps at most: enough to halve 2 pi down to one unit in the last place.
const MOST_STEPS: usize = 64;

/// Turning places are wanted to this, radians: the distance there is stationary, so it is exact to the square of this.
const TURN_ACCURACY: f64 = 1e-9;

/// Crossings are wanted to this, radians: the rounding of an angle near pi.
const CROSSING_ACCURACY: f64 = 4e-16;

/// Where the boundary of `piece` lies inside the oval (parameters as in [`super::crossing::along`]), and where the oval's
/// edge lies inside `piece`.
pub(super) fn crossed(piece: &ConvexPart, oval: Oval) -> [Along; 2] {
    match piece {
        ConvexPart::Side(p, q) => [edge_in_oval(*p, *q, oval), oval_in_side(oval, *p, *q)],
        ConvexPart::Round(disc) => match pose(oval, *disc) {
            DiscPose::Apart => [Along::Nowhere, Along::Nowhere],
            DiscPose::OvalInside => [Along::Nowhere, Along::Everywhere],
            DiscPose::DiscInside => [Along::Everywhere, Along::Nowhere],
            DiscPose::Crossed(mut crossings) => {
                let oval_in_disc = stretches(&crossings, true, |crossing| crossing.on_oval);
                crossings.sort_by(|left, right| left.on_circle.total_cmp(&right.on_circle));
                [stretches(&crossings, false, |crossing| crossing.on_circle), oval_in_disc]
            }
        },
    }
}

/// Whether it is a matter of rounding how a circle lies to the oval: where the edge is nearest or farthest, it nearly runs along it,
/// or touches it and bends as it does. Not where it touches from outside, nor where it is the edge itself.
pub(super) fn is_near_edge(oval: Oval, disc: Disc) -> bool {
    let (centre, radius) = (disc.centre, disc.radius);
    let is_apart = centre.x.abs() >= oval.a + radius || centre.y.abs() >= oval.b + radius;
    if is_apart || oval.surely_holds(centre, radius + DOUBT_MM) {
        return false;
    }
    let off = |edge: Point| (edge.distance(centre) - radius).abs();
    let runs_along = |edge: Point| {
        let is_square_on = (edge - centre).cross(oval.inward(edge)).abs() < ALIKE * radius;
        off(edge) < DOUBT_MM && is_square_on && (off(edge) > SAME_MM || bends_alike(oval, edge, radius))
    };
    if rolls_within(oval, radius) {
        return oval.gauge(centre) <= 1.0 && runs_along(oval.nearest_edge(centre));
    }
    let mut breaks = [0.0; MOST_BREAKS];
    let n_breaks = turning_places(oval, centre, &mut breaks);
    let mut edges = breaks[..n_breaks].iter().map(|angle| oval.edge_at(*angle));
    edges.clone().any(|edge| off(edge) > SAME_MM) && edges.any(runs_along)
}

/// Directions and bends that differ by no more than this share are as good as the same.
const ALIKE: f64 = 1e-3;

/// Whether the edge bends there as a circle of this radius does: then the two are as good as one for a way.
fn bends_alike(oval: Oval, edge: Point, radius: f64) -> bool {
    let (a2, b2) = (oval.a * oval.a, oval.b * oval.b);
    let slope2 = (edge.x / a2).powi(2) + (edge.y / b2).powi(2);
    let bend = 1.0 / (a2 * b2 * slope2 * slope2.sqrt());
    (1.0 - radius * bend).abs() < ALIKE
}

/// Whether a disc of this radius rolls freely within the oval: it is no larger than the tightest bend.
fn rolls_within(oval: Oval, radius: f64) -> bool {
    let (longer, shorter) = (oval.a.max(oval.b), oval.a.min(oval.b));
    radius * longer < shorter * shorter
}

/// From each crossing that begins the inside to the next one, at `place`.
fn stretches(crossings: &[Crossing], begins: bool, place: impl Fn(&Crossing) -> f64 + Clone) -> Along {
    let next = crossings.iter().cycle().skip(1);
    let inside = crossings
        .iter()
        .zip(next)
        .filter(|(from, _)| from.enters == begins)
        .map(|(from, to)| (place(from), place(to)))
        .filter(|(from, to)| from != to);
    let mut others = inside.clone().skip(1);
    match (inside.clone().next(), others.next()) {
        (None, _) => Along::Nowhere,
        (Some((from, to)), None) => Along::Between(from, to),
        (Some(_), Some(_)) => Along::Several(inside.collect()),
    }
}

fn pose(oval: Oval, disc: Disc) -> DiscPose {
    let (centre, radius) = (disc.centre, disc.radius);
    if centre.x.abs() >= oval.a + radius || centre.y.abs() >= oval.b + radius {
        return DiscPose::Apart;
    }
    if oval.a.min(oval.b) * (1.0 - oval.gauge(centre)) >= radius || oval.surely_holds(centre, radius) {
        return DiscPose::DiscInside;
    }
    if rolls_within(oval, radius) {
        return pose_of_small(oval, disc);
    }
    let beyond = |angle: f64| {
        let away = oval.edge_at(angle) - centre;
        away.hypot2() - radius * radius
    };
    let mut breaks = [0.0; MOST_BREAKS];
    let n_breaks = turning_places(oval, centre, &mut breaks);
    let mut values = [0.0; MOST_BREAKS];
    let mut n_kept = 0;
    for index in 0..n_breaks {
        let value = beyond(breaks[index]);
        // Where it only touches, it does not cross.
        if value.abs() > 2.0 * radius * SAME_MM {
            (breaks[n_kept], values[n_kept]) = (breaks[index], value);
            n_kept += 1;
        }
    }
    let (breaks, values, n_breaks) = (&breaks[..n_kept], &values[..n_kept], n_kept);
    if n_breaks == 0 {
        // The edge itself: as with discs that touch from inside, its own boundary counts and the oval's does not.
        return DiscPose::DiscInside;
    }
    let mut crossings = Vec::new();
    for index in 0..n_breaks {
        let next = (index + 1) % n_breaks;
        let (outside, outside_next) = (values[index] >= 0.0, values[next] >= 0.0);
        if outside == outside_next {
            continue;
        }
        let end = if next == 0 { breaks[0] + TAU } else { breaks[next] };
        let guess = f64::midpoint(breaks[index], end);
        let angle = crossing_between(oval, disc, [breaks[index], end], guess, outside);
        crossings.push(crossing_at(oval, disc, angle, outside));
    }
    if crossings.is_empty() {
        return uncrossed(oval, disc, values);
    }
    crossings.sort_by(|left, right| left.on_oval.total_cmp(&right.on_oval));
    DiscPose::Crossed(crossings)
}

/// The pose of a disc that rolls freely within the oval and does not surely lie in it.
fn pose_of_small(oval: Oval, disc: Disc) -> DiscPose {
    let foot = oval.nearest_edge(disc.centre);
    let distance2 = (foot - disc.centre).hypot2();
    let left = disc.radius * disc.radius - distance2;
    if left <= 2.0 * disc.radius * SAME_MM {
        return if oval.gauge(disc.centre) <= 1.0 { DiscPose::DiscInside } else { DiscPose::Apart };
    }
    let nearest = oval.angle_of(foot);
    let (sine, cosine) = nearest.sin_cos();
    let speed = Vec2::new(oval.a * sine, oval.b * cosine).hypot2().sqrt();
    // As far as the edge would have to go if it were straight there.
    let guess = (left.sqrt() / speed).min(FRAC_PI_2);
    let first = crossing_between(oval, disc, [nearest - PI, nearest], nearest - guess, true);
    let last = crossing_between(oval, disc, [nearest, nearest + PI], nearest + guess, false);
    let mut crossings = vec![crossing_at(oval, disc, first, true), crossing_at(oval, disc, last, false)];
    crossings.sort_by(|left, right| left.on_oval.total_cmp(&right.on_oval));
    DiscPose::Crossed(crossings)
}

/// The crossing at an eccentric angle that may lie a little beyond -pi or pi.
fn crossing_at(oval: Oval, disc: Disc, angle: f64, enters: bool) -> Crossing {
    let on_oval = angle - TAU * (angle / TAU).round();
    Crossing { on_oval, on_circle: (oval.edge_at(on_oval) - disc.centre).atan2(), enters }
}

/// Without a crossing the place where the oval's edge is clearest of the circle decides; any other may touch it.
fn uncrossed(oval: Oval, disc: Disc, values: &[f64]) -> DiscPose {
    let clearest =
        values.iter().copied().fold(0.0, |most: f64, value| if value.abs() > most.abs() { value } else { most });
    if clearest < 0.0 {
        DiscPose::OvalInside
    } else if oval.gauge(disc.centre) <= 1.0 {
        DiscPose::DiscInside
    } else {
        DiscPose::Apart
    }
}

/// The one place between two angles where the oval's edge crosses the circle: Newton's steps, halving where they leave.
fn crossing_between(oval: Oval, disc: Disc, [mut low, mut high]: [f64; 2], guess: f64, outside_at_low: bool) -> f64 {
    // A step is wrong by its square times the bend over the slope, and half the second derivative is no more than this.
    let longest = oval.a.max(oval.b);
    let most_bend = longest * (2.0 * longest + disc.radius);
    let mut angle = guess;
    for _ in 0..MOST_STEPS {
        let (sine, cosine) = angle.sin_cos();
        let away = Vec2::new(oval.a * cosine - disc.centre.x, oval.b * sine - disc.centre.y);
        let value = away.hypot2() - disc.radius * disc.radius;
        if (value >= 0.0) == outside_at_low {
            low = angle;
        } else {
            high = angle;
        }
        let slope = 2.0 * (oval.b * cosine * away.y - oval.a * sine * away.x);
        let step = value / slope;
        let tried = angle - step;
        let next = if tried > low && tried < high { tried } else { f64::midpoint(low, high) };
        let exact = step * step * most_bend <= CROSSING_ACCURACY * slope.abs();
        if exact || step.abs() <= CROSSING_ACCURACY || high - low <= CROSSING_ACCURACY {
            return tried.clamp(low, high);
        }
        angle = next;
    }
    angle
}

const MOST_BREAKS: usize = 10;

/// Angles between which the distance from the edge to `centre` only rises or only falls, sorted in -pi..pi.
///
/// In the first quarter, with a >= b, half the derivative of the squared distance is
/// k(t) = a x sin t - b y cos t - (a2 - b2) sin t cos t. It has one root in the first quarter, one in the third, none in
/// the second, and in the fourth two or none: two if and only if k is positive where k / (sin t cos t) peaks.
fn turning_places(oval: Oval, centre: Point, breaks: &mut [f64; MOST_BREAKS]) -> usize {
    let swapped = oval.a < oval.b;
    let (a, b, x, y) = if swapped {
        (oval.b, oval.a, centre.y.abs(), centre.x.abs())
    } else {
        (oval.a, oval.b, centre.x.abs(), centre.y.abs())
    };
    let excess = a * a - b * b;
    let (pull_x, pull_y) = (a * x, b * y);
    let slope = |t: f64| {
        let (sine, cosine) = t.sin_cos();
        pull_x * sine - pull_y * cosine - excess * sine * cosine
    };
    let mut n_breaks = 0;
    let mut add = |t: f64| {
        let (sine, cosine) = t.sin_cos();
        let (along, across) = if swapped { (sine, cosine) } else { (cosine, sine) };
        breaks[n_breaks] = (across * 1f64.copysign(centre.y)).atan2(along * 1f64.copysign(centre.x));
        n_breaks += 1;
    };
    [0.0, FRAC_PI_2, PI, -FRAC_PI_2].into_iter().for_each(&mut add);
    // The one in the first quarter is the nearest place.
    add(Oval { a, b }.angle_of(Oval { a, b }.nearest_edge(Point::new(x, y))));
    add(sign_change(&slope, -FRAC_PI_2, -PI));
    let peak = -(pull_y / pull_x).cbrt().atan();
    if pull_y == 0.0 && pull_x < excess {
        let turn = (pull_x / excess).acos();
        add(turn);
        add(-turn);
    } else if pull_x == 0.0 && pull_y < excess {
        let turn = (pull_y / excess).asin();
        add(-turn);
        add(turn - PI);
    } else if slope(peak) > 0.0 {
        add(sign_change(&slope, -FRAC_PI_2, peak));
        add(sign_change(&slope, 0.0, peak));
    }
    breaks[..n_breaks].sort_by(f64::total_cmp);
    n_breaks
}

/// Where `slope` turns from negative at `below` to positive at `above`: false position (Illinois), safe in its bracket.
fn sign_change(slope: &impl Fn(f64) -> f64, mut below: f64, mut above: f64) -> f64 {
    let (mut low, mut high) = (slope(below).min(0.0), slope(above).max(0.0));
    let mut side = 0;
    for step in 0..MOST_STEPS {
        let share = low / (low - high);
        let middle = if share > 0.0 && share < 1.0 && step < MOST_STEPS / 2 {
            below + (above - below) * share
        } else {
            f64::midpoint(below, above)
        };
        let value = slope(middle);
        if value < 0.0 {
            (below, low) = (middle, value);
            high *= if side == -1 { 0.5 } else { 1.0 };
            side = -1;
        } else {
            (above, high) = (middle, value);
            low *= if side == 1 { 0.5 } else { 1.0 };
            side = 1;
        }
        if (above - below).abs() < TURN_ACCURACY || value == 0.0 {
            return middle;
        }
    }
    f64::midpoint(below, above)
}

fn edge_in_oval(p: Point, q: Point, oval: Oval) -> Along {
    // In the frame where the oval is the unit circle.
    let start = Vec2::new(p.x / oval.a, p.y / oval.b);
    let way = Vec2::new(q.x / oval.a, q.y / oval.b) - start;
    let length = way.hypot();
    if length == 0.0 {
        return Along::Nowhere;
    }
    let offset = start.cross(way) / length;
    if offset.abs() >= 1.0 {
        return Along::Nowhere;
    }
    let half_chord = ((1.0 - offset) * (1.0 + offset)).sqrt();
    let middle = -start.dot(way) / length;
    between_on_edge((middle - half_chord) / length, (middle + half_chord) / length)
}

fn oval_in_side(oval: Oval, p: Point, q: Point) -> Along {
    let start = Vec2::new(p.x / oval.a, p.y / oval.b);
    let way = Vec2::new(q.x / oval.a, q.y / oval.b) - start;
    let length = way.hypot();
    if length == 0.0 {
        return Along::Everywhere;
    }
    let depth = start.cross(way) / -length;
    if depth >= 1.0 {
        return Along::Nowhere;
    }
    if depth <= -1.0 {
        return Along::Everywhere;
    }
    let half_chord = ((1.0 - depth) * (1.0 + depth)).sqrt();
    let unit = way / length;
    let toward = Vec2::new(-unit.y, unit.x) * depth;
    let ahead = unit * half_chord;
    Along::Between((toward + ahead).atan2(), (toward - ahead).atan2())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_disc_across_both_long_sides_crosses_four_times() {
        let pose = pose(Oval { a: 45.0, b: 20.0 }, Disc { centre: Point::new(6.0, 1.0), radius: 24.0 });
        let DiscPose::Crossed(crossings) = pose else { panic!() };
        assert_eq!(crossings.len(), 4);
    }

    #[test]
    fn a_disc_that_touches_from_inside_is_inside() {
        for (centre, radius) in [((35.0, 0.0), 10.0), ((-35.0, 0.0), 10.0), ((0.0, -22.0), 10.0), ((0.0, 22.0), 10.0)] {
            for oval in [Oval { a: 45.0, b: 32.0 }, Oval { a: 45.0, b: 32.0 + 1e-13 }] {
                let disc = Disc { centre: Point::from(centre), radius };
                assert!(!matches!(pose(oval, disc), DiscPose::Apart | DiscPose::OvalInside), "{centre:?}");
            }
        }
    }

    /// The quick ways to say that a disc lies inside or apart, against twenty thousand points of the edge: wherever the edge
    /// comes nearer to the centre than the radius, it crosses.
    #[test]
    fn no_short_cut_misses_a_disc_that_just_reaches_over_the_edge() {
        for oval in [Oval { a: 45.0, b: 30.0 }, Oval { a: 20.0, b: 37.0 }, Oval { a: 30.0, b: 30.0 }] {
            for step in 0..361 {
                let centre = Point::new(f64::from(step % 19) * 5.0 - 45.0, f64::from(step / 19) * 5.0 - 45.0);
                let near = (0..20_000).map(|k| oval.edge_at(f64::from(k) * 3.1416e-4).distance(centre));
                let nearest = near.fold(f64::INFINITY, f64::min);
                let over = Disc { centre, radius: nearest + 0.05 };
                let crossed = matches!(pose(oval, over), DiscPose::Crossed(_));
                // A disc as large as the oval may hold it and cross nowhere.
                let farthest = (0..360).map(|k| oval.edge_at(f64::from(k).to_radians()).distance(centre));
                let holds_all = over.radius >= farthest.fold(0.0, f64::max) - 0.1;
                assert!(crossed || holds_all, "{oval:?} {over:?}");
                let short = Disc { centre, radius: nearest - 0.05 };
                let crosses = matches!(pose(oval, short), DiscPose::Crossed(_));
                assert!(short.radius <= 0.0 || !crosses, "{oval:?} {short:?}");
            }
        }
    }

    #[test]
    fn crossings_lie_on_both_curves_and_alternate() {
        for step in 0..4000 {
            let x = f64::from(step % 20) * 5.0 - 50.0;
            let y = f64::from(step / 20 % 20) * 4.0 - 40.0;
            let disc = Disc { centre: Point::new(x, y), radius: 3.0 + 5.0 * f64::from(step / 400) };
            for oval in [Oval { a: 45.0, b: 30.0 }, Oval { a: 12.0, b: 40.0 }, Oval { a: 25.0, b: 25.0 }] {
                let DiscPose::Crossed(crossings) = pose(oval, disc) else { continue };
                assert!(crossings.len() % 2 == 0);
                for (index, crossing) in crossings.iter().enumerate() {
                    let gap = oval.edge_at(crossing.on_oval).distance(disc.centre) - disc.radius;
                    assert!(gap.abs() < 1e-9, "{oval:?} {disc:?} {gap}");
                    assert!(crossing.enters != crossings[(index + 1) % crossings.len()].enters);
                }
            }
        }
    }

    #[test]
    fn a_line_cuts_the_oval_where_it_cuts_the_edge() {
        let oval = Oval { a: 40.0, b: 30.0 };
        let (p, q) = (Point::new(-60.0, 15.0), Point::new(60.0, 15.0));
        let reach = 40.0 * 0.75f64.sqrt();
        let Along::Between(from, to) = edge_in_oval(p, q, oval) else { panic!() };
        assert!((from - (60.0 - reach) / 120.0).abs() < 1e-14 && (to - (60.0 + reach) / 120.0).abs() < 1e-14);
        let Along::Between(from, to) = oval_in_side(oval, p, q) else { panic!() };
        assert!((from - PI / 6.0).abs() < 1e-14 && (to - PI * 5.0 / 6.0).abs() < 1e-14);
    }
}
