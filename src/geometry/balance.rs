//! Whether things lie in balance about the centre.
//!
//! Knows discs with weights, and shapes as a silhouette; mm. Does not know what makes a thing heavy to the eye.
//!
//! The two-sided balance follows D. C. L. Ngo, L. S. Teo and J. G. Byrne, "Modelling interface aesthetics", Information
//! Sciences 152 (2003), 25-46 (formula from memory), with a disc on the axis cut in two instead of counted for one side.

use std::f64::consts::PI;

use kurbo::{Point, Vec2};

use super::shape::tidied;
use super::{Disc, Lens, Oval, Region, Shape, covered};

/// A disc that weighs something to the eye.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Weighted {
    /// Its outline.
    pub disc: Disc,
    /// Weight of each square millimetre.
    pub weight: f64,
}

/// How the torques about the two axes compare, each from -1 to 1: 0 in balance, 1 if all lies on the negative side.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct TwoSided {
    /// Along x.
    pub along: f64,
    /// Along y.
    pub across: f64,
}

impl TwoSided {
    /// Both in one figure: 1 in balance, 0 if all lies in one corner.
    pub fn balance(&self) -> f64 {
        1.0 - f64::midpoint(self.along.abs(), self.across.abs())
    }
}

/// How much a silhouette grows when its mirror image is laid over it, each from 0 (the same) to 1 (all beside it).
///
/// An S-shape grows in both mirrors and not at all in the half turn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Asymmetry {
    /// Mirrored so that the ends change places, (x, y) -> (-x, y).
    pub end_to_end: f64,
    /// Mirrored so that the sides change places, (x, y) -> (x, -y).
    pub side_to_side: f64,
    /// Turned half round, (x, y) -> (-x, -y).
    pub half_turn: f64,
}

/// Where the weights balance; none if there is no weight.
pub fn centre_of_weight(things: &[Weighted]) -> Option<Point> {
    let weights = sound(things).map(|thing| (thing.disc.centre, thing.weight * disc_area(thing.disc)));
    mean(weights)
}

/// The same for regions, each with the weight of a square millimetre: what is hidden weighs nothing.
pub fn centre_of_seen_weight(seen: &[Region], weights: &[f64]) -> Option<Point> {
    let pairs = seen.iter().zip(weights).filter(|(_, weight)| is_weight(**weight));
    mean(pairs.filter_map(|(region, weight)| Some((region.centroid()?, region.area * weight))))
}

/// How far the weights balance from the centre, as a share of the oval: 0 at the centre, 1 on the edge. None if there is no
/// weight or no oval.
pub fn weight_offset(things: &[Weighted], oval: Oval) -> Option<f64> {
    let centre = centre_of_weight(things).filter(|_| oval.is_sound())?;
    Some(oval.gauge(centre))
}

/// How the torques compare about the two axes; in balance if there is nothing.
pub fn two_sided(things: &[Weighted]) -> TwoSided {
    TwoSided {
        along: compared(sound(things).map(|thing| (thing.disc.centre.x, thing))),
        across: compared(sound(things).map(|thing| (thing.disc.centre.y, thing))),
    }
}

/// First moments of a disc of this radius about an axis at this signed distance from its centre, mm3: of what lies beyond
/// the axis on the positive side, and on the negative.
pub fn moments_about_axis(distance: f64, radius: f64) -> [f64; 2] {
    let share = (distance / radius).clamp(-1.0, 1.0);
    let rest = (1.0 - share * share).max(0.0);
    let beyond = radius * radius * ((-share).acos() + share * rest.sqrt());
    let positive = distance * beyond + 2.0 / 3.0 * radius * radius * radius * rest * rest.sqrt();
    let negative = positive - distance * PI * radius * radius;
    [positive.max(0.0), negative.max(0.0)]
}

/// How much the silhouette grows when it is mirrored onto itself; none without shapes.
pub fn asymmetry(shapes: &[Shape]) -> Option<Asymmetry> {
    let shapes = tidied(shapes);
    let own = covered(&shapes, None).area;
    if own <= 0.0 {
        return None;
    }
    let growth = |flip: Vec2| {
        let both: Vec<Shape> = shapes.iter().copied().chain(shapes.iter().map(|shape| flipped(shape, flip))).collect();
        (covered(&both, None).area / own - 1.0).clamp(0.0, 1.0)
    };
    Some(Asymmetry {
        end_to_end: growth(Vec2::new(-1.0, 1.0)),
        side_to_side: growth(Vec2::new(1.0, -1.0)),
        half_turn: growth(Vec2::new(-1.0, -1.0)),
    })
}

fn flipped(shape: &Shape, flip: Vec2) -> Shape {
    let moved = |p: Point| Point::new(p.x * flip.x, p.y * flip.y);
    match *shape {
        Shape::Disc(disc) => Shape::Disc(Disc { centre: moved(disc.centre), ..disc }),
        // A lens turned half round is itself, so one mirror's turn is the other's.
        Shape::Lens(lens) => {
            Shape::Lens(Lens { centre: moved(lens.centre), turn: lens.turn * flip.x * flip.y, ..lens })
        }
    }
}

fn sound(things: &[Weighted]) -> impl Iterator<Item = &Weighted> {
    things.iter().filter(|thing| Shape::Disc(thing.disc).tidy().is_some() && is_weight(thing.weight))
}

fn is_weight(weight: f64) -> bool {
    (LEAST_WEIGHT..=MOST_WEIGHT).contains(&weight)
}

/// Weights below this are no weights; they could make nothing of something.
const LEAST_WEIGHT: f64 = 1e-9;

/// Weights beyond this are no weights either: a single one would leave no digit for the rest.
const MOST_WEIGHT: f64 = 1e9;

fn disc_area(disc: Disc) -> f64 {
    PI * disc.radius * disc.radius
}

fn mean(weighed: impl Iterator<Item = (Point, f64)>) -> Option<Point> {
    let (sum, weight) =
        weighed.fold((Vec2::ZERO, 0.0), |(sum, total), (p, weight)| (sum + p.to_vec2() * weight, total + weight));
    (weight > 0.0).then(|| (sum / weight).to_point())
}

fn compared<'a>(things: impl Iterator<Item = (f64, &'a Weighted)>) -> f64 {
    let [mut positive, mut negative] = [0.0, 0.0];
    for (distance, thing) in things {
        let moments = moments_about_axis(distance, thing.disc.radius);
        positive += moments[0] * thing.weight;
        negative += moments[1] * thing.weight;
    }
    let larger = f64::max(positive, negative);
    if larger > 0.0 { (negative - positive) / larger } else { 0.0 }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn weighted(x: f64, y: f64, radius: f64, weight: f64) -> Weighted {
        Weighted { disc: Disc { centre: Point::new(x, y), radius }, weight }
    }

    #[test]
    fn nothing_is_in_balance() {
        assert_eq!(two_sided(&[]).balance(), 1.0);
        assert_eq!(centre_of_weight(&[]), None);
        assert_eq!(asymmetry(&[]), None);
    }

    #[test]
    fn what_has_no_weight_or_no_size_is_left_out() {
        let things = [
            weighted(9.0, 0.0, 5.0, f64::NAN),
            weighted(9.0, 0.0, f64::INFINITY, 1.0),
            weighted(-4.0, 2.0, 5.0, 1.0),
            weighted(9.0, 9.0, 5.0, -1.0),
        ];
        assert_eq!(centre_of_weight(&things), Some(Point::new(-4.0, 2.0)));
        assert_eq!(weight_offset(&things, Oval { a: 0.0, b: 1.0 }), None);
    }

    #[test]
    fn a_disc_in_a_corner_is_out_of_balance_both_ways() {
        let found = two_sided(&[weighted(20.0, -20.0, 5.0, 1.0)]);
        assert_eq!((found.along, found.across, found.balance()), (-1.0, 1.0, 0.0));
    }

    #[test]
    fn hidden_parts_weigh_nothing() {
        let shapes = [Shape::disc(Point::new(-10.0, 0.0), 5.0), Shape::disc(Point::new(10.0, 0.0), 5.0)];
        let mut seen = crate::geometry::visible(&shapes);
        assert_eq!(centre_of_seen_weight(&seen, &[1.0, 3.0]).map(|p| (p.x * 1e9).round()), Some(5e9));
        seen[0] = Region::default();
        assert_eq!(centre_of_seen_weight(&seen, &[1.0, 3.0]).map(|p| (p.x * 1e9).round()), Some(10e9));
    }

    #[test]
    fn a_turned_lens_is_symmetric_only_half_round() {
        let lens = Lens { centre: Point::ORIGIN, length: 40.0, width: 16.0, turn: 0.5 };
        let found = asymmetry(&[Shape::Lens(lens)]).unwrap();
        assert!(found.half_turn < 1e-9 && found.end_to_end > 0.1);
        assert!((found.end_to_end - found.side_to_side).abs() < 1e-9);
        let straight = asymmetry(&[Shape::Lens(Lens { turn: 0.0, ..lens })]).unwrap();
        assert!(straight.end_to_end < 1e-9 && straight.side_to_side < 1e-9);
    }
}
