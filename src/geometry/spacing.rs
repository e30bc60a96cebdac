//! How evenly points are spread.
//!
//! Knows points and an oval, mm and radians; every answer is a plain number between nought and one, a length, or a wedge
//! between two neighbours. Does not know which points ought to be even.
//!
//! Three measures, because none sees everything: evenness compares the edges of the shortest tree that joins all points;
//! spread compares the closest pair with the best that so many points could do; angular evenness looks at the wedges about
//! the centre. On an oval not all can be perfect at once. The first and the third are our own, after common practice.

use std::f64::consts::{PI, TAU};

use kurbo::Point;

use super::{Oval, best_spread};

/// The wedge between two points that are neighbours in angle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AngularGap {
    /// Eccentric angle of the first point, radians in -pi..pi.
    pub from: f64,
    /// Eccentric angle of the second, never less than `from`; past pi where the wedge lies across it.
    pub to: f64,
    /// Index of the first point.
    pub first: usize,
    /// Index of the second; the same as the first if there is only one.
    pub second: usize,
}

impl AngularGap {
    /// How wide it is, radians.
    pub fn width(&self) -> f64 {
        self.to - self.from
    }
}

/// Points nearer the centre than this gauge have no angle to speak of. Our choice: a seventh of the way out.
const LEAST_GAUGE: f64 = 0.15;

/// The closest pair may fall this far short of the best possible before it counts against a spread; by eye. Our choice.
const GOOD_SHARE: f64 = 0.8;

/// Shortest over mean edge of the shortest tree that joins the points: 1 if all its edges are equal, 0 if two points lie on
/// each other. None for fewer than two points. Points that are not finite are left out.
pub fn evenness(points: &[Point]) -> Option<f64> {
    evenness_of(&tree_edges(points))
}

fn evenness_of(edges: &[f64]) -> Option<f64> {
    let sum: f64 = edges.iter().sum();
    let shortest = edges.iter().copied().reduce(f64::min)?;
    let mean = sum / edges.len() as f64;
    Some(if mean > 0.0 { (shortest / mean).min(1.0) } else { 0.0 })
}

/// The distance of the closest pair against the best that as many points could have in `room` (less a fifth), at most 1.
///
/// None for fewer than two points, or if there is no room at all.
pub fn spread(points: &[Point], room: Oval) -> Option<f64> {
    spread_of(&tree_edges(points), room)
}

/// [`evenness`] and [`spread`] of the same points, of one tree.
pub fn evenness_and_spread(points: &[Point], room: Oval) -> (Option<f64>, Option<f64>) {
    let edges = tree_edges(points);
    (evenness_of(&edges), spread_of(&edges, room))
}

fn spread_of(edges: &[f64], room: Oval) -> Option<f64> {
    let closest = edges.iter().copied().reduce(f64::min)?;
    let n_points = edges.len() + 1;
    let best = best_spread(n_points, room);
    (best > 0.0).then(|| (closest / (GOOD_SHARE * best)).min(1.0))
}

/// The wedges between points that are neighbours in eccentric angle, sorted by the angle where they begin.
///
/// Points near the centre, and such that are not finite, are left out; a single point has one wedge all the way round.
pub fn angular_gaps(points: &[Point], oval: Oval) -> Vec<AngularGap> {
    if !oval.is_sound() {
        return Vec::new();
    }
    let mut angles: Vec<(f64, usize)> = points
        .iter()
        .enumerate()
        .filter(|(_, point)| point.is_finite() && oval.gauge(**point) >= LEAST_GAUGE)
        .map(|(index, point)| (oval.angle_of(*point), index))
        .collect();
    angles.sort_by(|left, right| left.0.total_cmp(&right.0).then(left.1.cmp(&right.1)));
    let mut gaps: Vec<AngularGap> = angles
        .windows(2)
        .map(|pair| AngularGap { from: pair[0].0, to: pair[1].0, first: pair[0].1, second: pair[1].1 })
        .collect();
    if let (Some(first), Some(last)) = (angles.first(), angles.last()) {
        gaps.push(AngularGap { from: last.0, to: first.0 + TAU, first: last.1, second: first.1 });
    }
    gaps
}

/// How even the wedges are: 1 if all are equal, 0 if all points lie at one angle. None for fewer than two wedges.
pub fn angular_evenness(points: &[Point], oval: Oval) -> Option<f64> {
    evenness_of_gaps(&angular_gaps(points, oval))
}

/// The same of wedges that are known.
pub fn evenness_of_gaps(gaps: &[AngularGap]) -> Option<f64> {
    if gaps.len() < 2 {
        return None;
    }
    let n_gaps = gaps.len() as f64;
    let uneven: f64 = gaps.iter().map(|gap| (gap.width() - TAU / n_gaps).abs()).sum();
    Some((1.0 - n_gaps / (4.0 * PI * (n_gaps - 1.0)) * uneven).clamp(0.0, 1.0))
}

/// Lengths of the edges of the shortest tree that joins all finite points (Prim; from memory). Its shortest edge is the
/// closest pair.
fn tree_edges(points: &[Point]) -> Vec<f64> {
    let mut waiting: Vec<(Point, f64)> =
        points.iter().filter(|point| point.is_finite()).map(|point| (*point, f64::INFINITY)).collect();
    let Some((mut joined, _)) = waiting.pop() else { return Vec::new() };
    let mut edges = Vec::with_capacity(waiting.len());
    while !waiting.is_empty() {
        let (mut nearest, mut least) = (0, f64::INFINITY);
        for (index, (point, squared)) in waiting.iter_mut().enumerate() {
            *squared = squared.min((*point - joined).hypot2());
            if *squared < least {
                (nearest, least) = (index, *squared);
            }
        }
        let (point, squared) = waiting.swap_remove(nearest);
        joined = point;
        edges.push(squared.sqrt());
    }
    edges
}

#[cfg(test)]
mod tests {
    use super::*;

    fn points(list: &[(f64, f64)]) -> Vec<Point> {
        list.iter().copied().map(Point::from).collect()
    }

    const OVAL: Oval = Oval { a: 45.0, b: 32.0 };

    #[test]
    fn too_few_points_have_no_measure() {
        assert_eq!(evenness(&[]), None);
        assert_eq!(evenness(&points(&[(1.0, 1.0)])), None);
        assert_eq!(evenness(&points(&[(1.0, 1.0), (f64::NAN, 0.0)])), None);
        assert_eq!(spread(&points(&[(1.0, 1.0)]), OVAL), None);
        assert_eq!(angular_evenness(&points(&[(20.0, 1.0)]), OVAL), None);
        assert_eq!(angular_gaps(&[], OVAL), []);
    }

    #[test]
    fn two_points_are_even_unless_they_are_one() {
        assert_eq!(evenness(&points(&[(1.0, 1.0), (4.0, 5.0)])), Some(1.0));
        assert_eq!(evenness(&points(&[(1.0, 1.0), (1.0, 1.0)])), Some(0.0));
    }

    #[test]
    fn a_wedge_may_lie_across_the_back() {
        let gaps = angular_gaps(&points(&[(-20.0, 10.0), (-20.0, -10.0), (30.0, 0.0), (1.0, 0.0)]), OVAL);
        assert_eq!(gaps.len(), 3);
        assert_eq!((gaps[0].first, gaps[0].second), (1, 2));
        assert_eq!((gaps[2].first, gaps[2].second), (0, 1));
        assert!(gaps[2].to > PI);
        assert!((gaps.iter().map(AngularGap::width).sum::<f64>() - TAU).abs() < 1e-12);
    }

    #[test]
    fn a_single_point_has_the_whole_turn() {
        let gaps = angular_gaps(&points(&[(0.0, 20.0)]), OVAL);
        assert_eq!(gaps.len(), 1);
        assert_eq!(gaps[0].width(), TAU);
    }

    #[test]
    fn even_angles_are_even_and_one_angle_is_not() {
        let even: Vec<Point> = (0..5).map(|index| OVAL.edge_at(f64::from(index) * TAU / 5.0)).collect();
        assert!((angular_evenness(&even, OVAL).unwrap() - 1.0).abs() < 1e-12);
        let heap = points(&[(20.0, 0.0), (30.0, 0.0), (40.0, 0.0)]);
        assert!(angular_evenness(&heap, OVAL).unwrap().abs() < 1e-12);
    }
}
