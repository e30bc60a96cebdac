//! The shapes everything else is computed with: oval, disc, lens.
//!
//! Knows each shape by itself: area, distance, how far it reaches. Lengths in mm, angles in radians. Does not know how
//! two shapes lie to each other.
//!
//! A shape that is no shape (not finite, no size) has area nought and is left out by everything in `geometry`; see
//! [`Shape::tidy`].

use std::f64::consts::{FRAC_PI_2, PI, TAU};

use kurbo::{Point, Rect, Vec2};

use super::lens::{LensFrame, direction};

/// An ellipse about the origin, its axes on x and y.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Oval {
    /// Semi-axis along x, mm, above zero.
    pub a: f64,
    /// Semi-axis along y, mm, above zero.
    pub b: f64,
}

/// Sizes and places beyond this, mm, belong to no piece: a kilometre. It keeps fourth powers exact enough.
pub(super) const MOST_MM: f64 = 1e6;

/// Sizes below this, mm, are no size: a nanometre.
const LEAST_MM: f64 = 1e-6;

/// A lens that is longer than wide by less than this, mm, is a disc.
const LEAST_OVALNESS_MM: f64 = 1e-5;

/// A lens slimmer than this, width over length, is a hair without area: its discs would be thousands of times its size.
const LEAST_SLIMNESS: f64 = 1e-4;

impl Oval {
    /// The oval with these full axes, mm.
    pub fn from_axes(length: f64, width: f64) -> Self {
        Self { a: length / 2.0, b: width / 2.0 }
    }

    /// Its area, mm2.
    pub fn area(self) -> f64 {
        PI * self.a * self.b
    }

    /// How far out a point lies: 0 at the centre, 1 on the edge.
    pub fn gauge(self, p: Point) -> f64 {
        Vec2::new(p.x / self.a, p.y / self.b).hypot2().sqrt()
    }

    /// Whether both axes are a length one can work with.
    pub fn is_sound(self) -> bool {
        is_size(self.a) && is_size(self.b)
    }
}

/// A disc.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Disc {
    /// Centre, mm.
    pub centre: Point,
    /// Radius, mm.
    pub radius: f64,
}

/// The overlap of two equal discs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lens {
    /// Centre, mm.
    pub centre: Point,
    /// Tip to tip, mm.
    pub length: f64,
    /// Across the middle, mm; at most `length`.
    pub width: f64,
    /// Direction of the long axis from +x toward +y, radians.
    pub turn: f64,
}

impl Lens {
    /// The two discs whose overlap it is.
    pub fn discs(&self) -> [Disc; 2] {
        let (length, width) = (self.length, self.width);
        let radius = (length * length + width * width) / (4.0 * width);
        let off = Vec2::new(-self.turn.sin(), self.turn.cos()) * (radius - width / 2.0);
        [Disc { centre: self.centre + off, radius }, Disc { centre: self.centre - off, radius }]
    }

    /// Half the angle that each of its arcs turns through, radians.
    pub(super) fn half_turn_of_arc(&self) -> f64 {
        2.0 * (self.width / self.length).atan()
    }

    /// The two tips.
    pub fn tips(&self) -> [Point; 2] {
        let half = Vec2::from_angle(self.turn) * (self.length / 2.0);
        [self.centre + half, self.centre - half]
    }
}

/// What a part counts as.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Shape {
    /// Something round.
    Disc(Disc),
    /// Something long with two tips.
    Lens(Lens),
}

impl Shape {
    /// A disc about `centre`.
    pub fn disc(centre: Point, radius: f64) -> Self {
        Self::Disc(Disc { centre, radius })
    }

    /// Its centre.
    pub fn centre(&self) -> Point {
        match self {
            Self::Disc(d) => d.centre,
            Self::Lens(l) => l.centre,
        }
    }

    /// Its area, mm2.
    pub fn area(&self) -> f64 {
        match self.tidy() {
            None => 0.0,
            Some(Self::Disc(disc)) => PI * disc.radius * disc.radius,
            Some(Self::Lens(lens)) => {
                let half_turn = lens.half_turn_of_arc();
                let radius = lens.length / 2.0 / half_turn.sin();
                radius * radius * (2.0 * half_turn - (2.0 * half_turn).sin())
            }
        }
    }

    /// How far `p` lies from its outline, mm: positive outside, negative inside. Never changes faster than `p` moves.
    pub fn distance(&self, p: Point) -> f64 {
        self.nearest(p).0
    }

    /// The same with the direction in which it grows fastest.
    pub(super) fn nearest(&self, p: Point) -> (f64, Vec2) {
        match self {
            Self::Disc(disc) => {
                let away = p - disc.centre;
                let length = away.hypot();
                (length - disc.radius.max(0.0), direction(away, length))
            }
            Self::Lens(lens) => LensFrame::of(lens).nearest(p),
        }
    }

    /// How far it reaches from the origin in the direction of `angle`, mm; below nought if it lies wholly behind.
    pub fn support(&self, angle: f64) -> f64 {
        let toward = Vec2::from_angle(angle);
        match self {
            Self::Disc(disc) => disc.centre.to_vec2().dot(toward) + disc.radius,
            Self::Lens(lens) => {
                let (sine, cosine) = (angle - lens.turn).sin_cos();
                lens.centre.to_vec2().dot(toward) + LensFrame::of(lens).support(cosine.abs(), sine.abs())
            }
        }
    }

    /// The smallest upright box around it.
    pub(super) fn bounds(&self) -> Rect {
        let half_width = |angle: f64| match self {
            Self::Disc(disc) => disc.radius,
            Self::Lens(lens) => {
                let (sine, cosine) = (angle - lens.turn).sin_cos();
                LensFrame::of(lens).support(cosine.abs(), sine.abs())
            }
        };
        let half = Vec2::new(half_width(0.0), half_width(FRAC_PI_2));
        Rect::from_points(self.centre() - half, self.centre() + half)
    }

    /// The shape as everything else in `geometry` takes it: a lens never wider than long, nor
    /// turned more than once; none if it is not finite, further
    /// off than a kilometre, or without size.
    pub fn tidy(&self) -> Option<Self> {
        let centre = self.centre();
        let near = centre.x.abs() <= MOST_MM && centre.y.abs() <= MOST_MM;
        match *self {
            Self::Disc(disc) => (near && is_size(disc.radius)).then_some(Self::Disc(disc)),
            Self::Lens(lens) => {
                let width = lens.width.min(lens.length);
                let sound = is_size(lens.length) && is_size(width) && lens.turn.is_finite();
                let thick = width >= LEAST_SLIMNESS * lens.length;
                // Many turns leave no digits for angles computed from this one.
                let turn = if lens.turn.abs() <= TAU { lens.turn } else { Vec2::from_angle(lens.turn).atan2() };
                (near && sound && thick).then_some(Self::Lens(Lens { width, turn, ..lens }))
            }
        }
    }

    /// The same, a disc where it is a lens as wide as long to a hundred thousandth of a millimetre: the two discs of such a lens
    /// could not be told apart.
    pub(super) fn rounded_off(&self) -> Self {
        match *self {
            Self::Lens(lens) if lens.length - lens.width < LEAST_OVALNESS_MM => {
                Self::disc(lens.centre, lens.length / 2.0)
            }
            shape => shape,
        }
    }

    /// The discs whose overlap it is: one or two.
    pub(super) fn round_parts(&self) -> impl Iterator<Item = Disc> {
        let (first, second) = match self {
            Self::Disc(disc) => (*disc, None),
            Self::Lens(lens) => {
                let [first, second] = lens.discs();
                (first, Some(second))
            }
        };
        std::iter::once(first).chain(second)
    }

    /// Radius of the smallest disc about the centre that holds it, mm.
    pub fn reach(&self) -> f64 {
        match self {
            Self::Disc(d) => d.radius,
            Self::Lens(l) => l.length / 2.0,
        }
    }

    /// Whether `p` lies in it.
    pub fn contains(&self, p: Point) -> bool {
        match self {
            Self::Disc(d) => d.centre.distance(p) <= d.radius,
            Self::Lens(l) => l.discs().iter().all(|d| d.centre.distance(p) <= d.radius),
        }
    }
}

/// The shapes worth computing with, tidied.
pub(super) fn tidied(shapes: &[Shape]) -> Vec<Shape> {
    shapes.iter().filter_map(Shape::tidy).collect()
}

fn is_size(length: f64) -> bool {
    (LEAST_MM..=MOST_MM).contains(&length)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn slim() -> Lens {
        Lens { centre: Point::new(5.0, 3.0), length: 40.0, width: 16.0, turn: 0.4 }
    }

    #[test]
    fn the_area_of_a_lens_is_twice_its_segment() {
        // 2 (R^2 asin(L / 2R) - (L / 2) (R - W / 2)) with R = 29.
        assert!((Shape::Lens(slim()).area() - 440.023_452_605_995_3).abs() < 1e-9);
    }

    #[test]
    fn distance_is_measured_to_the_nearest_point_of_the_outline() {
        let shape = Shape::Lens(slim());
        let outline = outline_of(&slim());
        for step in 0..400 {
            let p = Point::new(f64::from(step % 20) * 4.0 - 36.0, f64::from(step / 20) * 4.0 - 36.0);
            let nearest = outline.iter().map(|q| q.distance(p)).fold(f64::INFINITY, f64::min);
            let signed = if shape.contains(p) { -nearest } else { nearest };
            let (distance, grows) = shape.nearest(p);
            assert!((distance - signed).abs() < 2e-3, "{p:?}: {distance} {signed}");
            let ahead = shape.distance(p + grows * 1e-6) - distance;
            assert!((ahead - 1e-6).abs() < 1e-9 || distance < 0.0, "{p:?}: {ahead}");
        }
    }

    #[test]
    fn support_is_the_furthest_point_of_the_outline() {
        let outline = outline_of(&slim());
        for step in 0..60 {
            let angle = f64::from(step) * 0.1;
            let toward = Vec2::from_angle(angle);
            let furthest = outline.iter().map(|p| p.to_vec2().dot(toward)).fold(f64::NEG_INFINITY, f64::max);
            assert!((Shape::Lens(slim()).support(angle) - furthest).abs() < 1e-4);
        }
        assert_eq!(Shape::disc(Point::new(2.0, 0.0), 3.0).support(0.0), 5.0);
        assert_eq!(Shape::disc(Point::new(2.0, 0.0), 3.0).support(PI), 1.0);
    }

    #[test]
    fn what_is_no_shape_is_left_out() {
        let origin = Point::ORIGIN;
        for radius in [0.0, -1.0, f64::NAN, f64::INFINITY, 1e300] {
            assert_eq!(Shape::disc(origin, radius).tidy(), None);
            assert_eq!(Shape::disc(origin, radius).area(), 0.0);
        }
        assert_eq!(Shape::disc(Point::new(f64::NAN, 0.0), 1.0).tidy(), None);
        assert_eq!(Shape::Lens(Lens { turn: f64::NAN, ..slim() }).tidy(), None);
        assert_eq!(Shape::Lens(Lens { width: 0.0, ..slim() }).tidy(), None);
        let wide = Shape::Lens(Lens { width: 90.0, ..slim() });
        assert!((wide.area() - PI * 400.0).abs() < 1e-9);
    }

    fn outline_of(lens: &Lens) -> Vec<Point> {
        let half = lens.half_turn_of_arc();
        lens.discs()
            .iter()
            .zip([lens.turn - FRAC_PI_2, lens.turn + FRAC_PI_2])
            .flat_map(|(disc, middle)| {
                (0..=20_000).map(move |step| {
                    let angle = middle + half * (f64::from(step) / 10_000.0 - 1.0);
                    disc.centre + Vec2::from_angle(angle) * disc.radius
                })
            })
            .collect()
    }
}
