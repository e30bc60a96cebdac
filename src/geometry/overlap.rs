//! Shapes that lie over one another: how deep, how much of each is hidden.
//!
//! Knows an order from below to above, and the exact boundary of what is still seen; mm, mm2. Does not know why one lies
//! above another.

use std::f64::consts::PI;

use kurbo::Rect;

use super::bodies::{Bodies, Scratch, add_left, remove_left};
use super::neighbours::overlapping_pairs;
use super::{Disc, Region, Shape};

/// Two discs that overlap.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Overlap {
    /// Index of the one, the lower number.
    pub first: usize,
    /// Index of the other.
    pub second: usize,
    /// How far the one reaches into the other along the line of centres, mm.
    pub depth: f64,
    /// Area they share, mm2.
    pub area: f64,
}

/// All pairs of discs that overlap, sorted by index. Discs without size, or not finite, are left out.
pub fn overlaps(discs: &[Disc]) -> Vec<Overlap> {
    let boxes: Vec<Rect> = discs.iter().map(|disc| box_of(*disc)).collect();
    let met = overlapping_pairs(&boxes).into_iter().filter_map(|(first, second)| {
        let depth = depth(discs[first], discs[second]);
        (depth > 0.0).then(|| Overlap { first, second, depth, area: lens_area(discs[first], discs[second]) })
    });
    met.collect()
}

/// How far two discs reach into each other, mm; below nought the free way between them.
pub fn depth(first: Disc, second: Disc) -> f64 {
    first.radius + second.radius - first.centre.distance(second.centre)
}

/// Area that two discs share, mm2.
pub fn lens_area(first: Disc, second: Disc) -> f64 {
    let (larger, smaller) = (first.radius.max(second.radius), first.radius.min(second.radius));
    let distance = first.centre.distance(second.centre);
    if distance >= larger + smaller || distance.is_nan() || smaller <= 0.0 || smaller.is_nan() {
        return 0.0;
    }
    if distance <= larger - smaller {
        return PI * smaller * smaller;
    }
    let sum = larger + smaller;
    let difference = larger - smaller;
    let squared = (distance + sum) * (sum - distance) * ((distance + difference) * (distance - difference));
    let height = squared.max(0.0).sqrt() / (2.0 * distance);
    let reach = (distance * distance + difference * sum) / (2.0 * distance);
    (segment_area(larger, height, reach) + segment_area(smaller, height, distance - reach)).max(0.0)
}

/// Region of each shape that is still seen from above when they lie in this order from below; nothing for no shape.
///
/// Added up directly along its boundary, not as a difference of large areas: what is all hidden comes out as nought.
pub fn visible(from_below: &[Shape]) -> Vec<Region> {
    let mut seen = vec![Region::default(); from_below.len()];
    let sound: Vec<(usize, Shape)> =
        from_below.iter().enumerate().filter_map(|(index, shape)| Some((index, shape.tidy()?))).collect();
    let shapes: Vec<Shape> = sound.iter().map(|(_, shape)| *shape).collect();
    let bodies = Bodies::of(&shapes, &[], None);
    let mut scratch = Scratch::new();
    for (body, (index, _)) in sound.iter().enumerate() {
        seen[*index] = visible_of(&bodies, body, &mut scratch);
    }
    seen
}

/// Share of each shape that is hidden by those above it, 0 to 1; nought for no shape.
pub fn hidden_shares(from_below: &[Shape]) -> Vec<f64> {
    from_below.iter().zip(visible(from_below)).map(|(shape, seen)| hidden_share(shape, seen.area)).collect()
}

/// Share of a shape that is hidden when this much of it is seen, mm2.
pub fn hidden_share(shape: &Shape, seen_mm2: f64) -> f64 {
    let area = shape.area();
    if area > 0.0 { (1.0 - seen_mm2 / area).clamp(0.0, 1.0) } else { 0.0 }
}

fn visible_of(bodies: &Bodies, body: usize, scratch: &mut Scratch) -> Region {
    let mut region = Region::default();
    let above = || bodies.near(body).iter().copied().filter(|&other| other > body);
    for (index, piece) in bodies.pieces(body).iter().enumerate() {
        bodies.start(scratch, body, index);
        for other in above() {
            bodies.hide_inside(scratch, piece, other, true);
        }
        add_left(&mut region, piece, &mut scratch.hidden);
    }
    for cover in above() {
        for (index, piece) in bodies.pieces(cover).iter().enumerate() {
            bodies.start(scratch, cover, index);
            bodies.hide_outside(scratch, piece, body, false);
            for &other in bodies.near(cover) {
                if scratch.hidden.is_all() {
                    break;
                }
                if other > body {
                    bodies.hide_inside(scratch, piece, other, other < cover);
                }
            }
            remove_left(&mut region, piece, &mut scratch.hidden);
        }
    }
    region.area = region.area.max(0.0);
    region
}

/// The part of a disc beyond a chord with this half length at this distance from the centre (below nought: behind it).
fn segment_area(radius: f64, half_chord: f64, distance: f64) -> f64 {
    radius * radius * half_chord.atan2(distance) - half_chord * distance
}

/// The upright box; an empty one for a disc without size, so that it meets nobody.
fn box_of(disc: Disc) -> Rect {
    match Shape::Disc(disc).tidy() {
        Some(shape) => shape.bounds(),
        None => Rect::new(f64::INFINITY, f64::INFINITY, f64::INFINITY, f64::INFINITY),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::{Lens, Point, covered};

    fn disc(x: f64, y: f64, radius: f64) -> Disc {
        Disc { centre: Point::new(x, y), radius }
    }

    #[test]
    fn only_discs_that_overlap_are_told() {
        let discs = [disc(0.0, 0.0, 5.0), disc(9.0, 0.0, 5.0), disc(19.0, 0.0, 5.0), disc(f64::NAN, 0.0, 5.0)];
        let found = overlaps(&discs);
        assert_eq!(found.len(), 1);
        assert_eq!((found[0].first, found[0].second, found[0].depth), (0, 1, 1.0));
    }

    #[test]
    fn what_is_seen_of_all_is_what_they_cover() {
        let lens =
            |x: f64, turn: f64| Shape::Lens(Lens { centre: Point::new(x, 3.0), length: 30.0, width: 11.0, turn });
        let shapes = [
            lens(0.0, 0.4),
            Shape::Disc(disc(4.0, 4.0, 9.0)),
            lens(8.0, 2.0),
            Shape::Disc(disc(4.0, 4.0, 9.0)),
            lens(0.0, 0.4),
            Shape::Disc(disc(-12.0, 0.0, 7.0)),
            Shape::Disc(disc(0.0, 0.0, -1.0)),
        ];
        let seen = visible(&shapes);
        let total: f64 = seen.iter().map(|region| region.area).sum();
        assert!((total - covered(&shapes, None).area).abs() < 1e-9);
        // The second disc lies under its equal, the last is no shape.
        assert!(seen[1].area < 1e-9 && seen[6].area == 0.0);
        assert!((hidden_shares(&shapes)[1] - 1.0).abs() < 1e-9);
        assert_eq!(hidden_shares(&shapes)[6], 0.0);
    }
}
