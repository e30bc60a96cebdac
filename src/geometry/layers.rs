//! Shapes that lie over one another: in one walk what is seen of each, what they cover together, and what of the oval.
//!
//! Knows an order from below to above and the exact boundaries; mm, mm2. The answers are those of
//! [`super::hidden_shares`] and [`super::covered`], to rounding.
//!
//! Of each outline only what lies under nothing is walked. There the shape itself is seen on the inner side; on the outer
//! side it is the highest of those below that reach so far, or nothing: then it is the outline of all.

use super::bodies::{Bodies, Scratch};
use super::crossing::{ConvexPart, along};
use super::region::arc_area;
use super::spans::{Along, halved_by};
use super::{Disc, Oval, Region, Shape};

/// What is seen and covered.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Layers {
    /// Area of each shape that is seen from above, mm2; nought for no shape.
    pub seen: Vec<f64>,
    /// What they cover together.
    pub all: Region,
    /// What of the oval they cover.
    pub within: Region,
}

impl Layers {
    /// Walks the shapes, from the lowest to the highest. Within an oval that is no oval nothing is covered.
    pub fn of(from_below: &[Shape], oval: Oval) -> Self {
        let mut layers = Self { seen: vec![0.0; from_below.len()], ..Self::default() };
        let sound: Vec<(usize, Shape)> =
            from_below.iter().enumerate().filter_map(|(index, shape)| Some((index, shape.tidy()?))).collect();
        let shapes: Vec<Shape> = sound.iter().map(|(_, shape)| *shape).collect();
        let bodies = Bodies::of(&shapes, &[], Some(oval).filter(|oval| oval.is_sound()));
        let mut walk = Walk { seen: vec![0.0; shapes.len()], ..Walk::default() };
        let mut scratch = Scratch::new();
        let (in_oval, oval_in) = if oval.is_sound() { bodies.crossed(oval) } else { bodies.nowhere() };
        for body in 0..bodies.len() {
            for (index, piece) in bodies.pieces(body).iter().enumerate() {
                let ConvexPart::Round(circle) = piece else { continue };
                walk.keep_uncovered(&bodies, &mut scratch, body, index);
                walk.give_to_those_below(&bodies, *circle, body);
                walk.give_to_all(*circle, body, &in_oval[bodies.place(body, index)]);
            }
        }
        if oval.is_sound() {
            bodies.hide_oval_outside_all(&mut scratch, &oval_in);
            scratch.hidden.each_left(|from, to| walk.within.add_oval_arc(oval, from, to));
        }
        for ((index, _), seen) in sound.iter().zip(&walk.seen) {
            layers.seen[*index] = seen.max(0.0);
        }
        (layers.all, layers.within) = (walk.all, walk.within);
        layers.all.area = layers.all.area.max(0.0);
        layers.within.area = layers.within.area.clamp(0.0, oval.area().max(0.0));
        layers
    }
}

/// The sums so far, and stretches of the circle in hand.
#[derive(Debug, Default)]
struct Walk {
    seen: Vec<f64>,
    all: Region,
    within: Region,
    /// What is left to be given to someone.
    left: Vec<(f64, f64)>,
    inside: Vec<(f64, f64)>,
    deeper: Vec<(f64, f64)>,
    outside: Vec<(f64, f64)>,
}

impl Walk {
    /// Keeps the stretches of a piece's circle that bound its shape and lie under nothing.
    fn keep_uncovered(&mut self, bodies: &Bodies, scratch: &mut Scratch, body: usize, index: usize) {
        let piece = &bodies.pieces(body)[index];
        self.left.clear();
        bodies.start(scratch, body, index);
        for &above in bodies.near(body).iter().rev().take_while(|&&other| other > body) {
            if scratch.hidden.is_all() {
                return;
            }
            bodies.hide_inside(scratch, piece, above, true);
        }
        scratch.hidden.each_left(|from, to| self.left.push((from, to)));
    }

    /// Gives stretches that run over a lower shape to the highest such shape, whose seen part they bound from without.
    fn give_to_those_below(&mut self, bodies: &Bodies, circle: Disc, body: usize) {
        let near = bodies.near(body);
        let n_below = near.partition_point(|&other| other < body);
        for &below in near[..n_below].iter().rev() {
            if self.left.is_empty() {
                return;
            }
            std::mem::swap(&mut self.left, &mut self.inside);
            self.left.clear();
            for side in bodies.pieces(below) {
                self.deeper.clear();
                let place = along(&ConvexPart::Round(circle), side, false);
                halved_by(&self.inside, &place, &mut self.deeper, &mut self.left);
                std::mem::swap(&mut self.inside, &mut self.deeper);
            }
            for &(from, to) in &self.inside {
                let area = arc_area(circle, from, to);
                self.seen[body] += area;
                self.seen[below] -= area;
            }
        }
    }

    /// What is left bounds all shapes together.
    fn give_to_all(&mut self, circle: Disc, body: usize, in_oval: &Along) {
        self.inside.clear();
        self.outside.clear();
        halved_by(&self.left, in_oval, &mut self.inside, &mut self.outside);
        for &(from, to) in &self.inside {
            let mut region = Region::default();
            region.add_arc(circle, from, to);
            self.seen[body] += region.area;
            self.all += region;
            self.within += region;
        }
        for &(from, to) in &self.outside {
            let mut region = Region::default();
            region.add_arc(circle, from, to);
            self.seen[body] += region.area;
            self.all += region;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::{Lens, Point, covered, visible};

    #[test]
    fn one_walk_says_what_three_say() {
        let lens =
            |x: f64, y: f64, turn: f64| Shape::Lens(Lens { centre: Point::new(x, y), length: 30.0, width: 11.0, turn });
        let shapes = [
            lens(0.0, 3.0, 0.4),
            Shape::disc(Point::new(4.0, 4.0), 9.0),
            lens(8.0, 3.0, 2.0),
            Shape::disc(Point::new(4.0, 4.0), 9.0),
            Shape::disc(Point::new(f64::NAN, 4.0), 9.0),
            lens(0.0, 3.0, 0.4),
            Shape::disc(Point::new(-12.0, 0.0), 7.0),
            Shape::disc(Point::new(2.0, 4.0), 7.0),
            Shape::disc(Point::new(13.0, 4.0), 4.0),
            lens(30.0, -4.0, -0.2),
            Shape::disc(Point::new(200.0, 4.0), 4.0),
        ];
        let oval = Oval { a: 25.0, b: 9.0 };
        let layers = Layers::of(&shapes, oval);
        for (found, seen) in layers.seen.iter().zip(visible(&shapes)) {
            assert!((found - seen.area).abs() < 1e-9, "{found} {seen:?}");
        }
        for (found, wanted) in [(layers.all, covered(&shapes, None)), (layers.within, covered(&shapes, Some(oval)))] {
            let off = found.minus(wanted);
            assert!(
                off.area.abs() < 1e-9 && off.x.abs() < 1e-7 && off.xx.abs() < 1e-5 && off.xy.abs() < 1e-5,
                "{off:?}"
            );
        }
        assert_eq!(Layers::of(&shapes, Oval { a: f64::NAN, b: 1.0 }).within, Region::default());
        assert_eq!(Layers::of(&[], oval).all, Region::default());
    }
}
