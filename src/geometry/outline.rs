//! The outline of all shapes together: how long, how wide, how it lies, how round or square it is.
//!
//! Knows the union, its hull and its moments; mm, radians. Does not know which outline is wanted.

use std::f64::consts::{FRAC_PI_4, PI};

use kurbo::Rect;

use super::hull::Hull;
use super::shape::tidied;
use super::{Region, Shape, covered};

/// What can be said of an outline.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Outline {
    /// Extent along x, mm.
    pub length: f64,
    /// Extent along y, mm.
    pub width: f64,
    /// The smallest upright box around all shapes.
    pub bounds: Rect,
    /// Area and moments of what they cover together.
    pub region: Region,
    /// Semi-axes of the ellipse with the same second moments, the longer first, mm; the oval itself if it is an oval.
    pub semi_axes: [f64; 2],
    /// Direction of the longer one from +x toward +y, radians in -pi/2..pi/2; none if it is about as wide as long.
    pub angle: Option<f64>,
    /// Area of the convex hull, mm2.
    pub hull_area: f64,
    /// Hull area over the area of the upright box: pi/4 for an oval, 1 for a rectangle, 1/2 for a diamond.
    pub box_fill: f64,
    /// How far from an oval (0) toward a rectangle (1) the box is filled; 0 also for a diamond.
    pub squareness: f64,
    /// Exponent of the superellipse that fills its box as far: 2 for an oval, 1 for a diamond, 4 for a rounded square.
    pub exponent: f64,
    /// Covered area over hull area: 1 without notches and holes.
    pub solidity: f64,
    /// Covered area over that of the ellipse with the same second moments: 1 for an ellipse, less for everything else. The
    /// square root of an invariant of P. Rosin's (Machine Vision and Applications 14, 2003, from memory).
    pub ellipticity: f64,
}

impl Outline {
    /// Length over width, by the extents.
    pub fn length_to_width(&self) -> f64 {
        self.length / self.width
    }
}

/// Below this difference of the second moments over their sum a direction says nothing: 2 % longer than wide. Our choice.
const LEAST_ANISOTROPY: f64 = 0.02;

/// The largest superellipse exponent given; beyond it is a rectangle to any eye.
const MOST_EXPONENT: f64 = 60.0;

/// The smallest one given.
const LEAST_EXPONENT: f64 = 0.3;

/// Halvings of the range of exponents: to a billionth.
const EXPONENT_STEPS: usize = 40;

/// How far the hull of shapes fills their upright box.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BoxFill {
    /// The smallest upright box around all shapes.
    pub bounds: Rect,
    /// Area of the convex hull, mm2.
    pub hull_area: f64,
    /// As [`Outline::box_fill`].
    pub box_fill: f64,
    /// As [`Outline::squareness`].
    pub squareness: f64,
}

/// How far the hull of the shapes fills their box; none without shapes.
pub fn box_fill(shapes: &[Shape]) -> Option<BoxFill> {
    let shapes = tidied(shapes);
    let bounds = extents(&shapes)?;
    let hull_area = Hull::of(&shapes)?.area();
    let box_fill = hull_area / (bounds.width() * bounds.height());
    let squareness = ((box_fill - FRAC_PI_4) / (1.0 - FRAC_PI_4)).clamp(0.0, 1.0);
    Some(BoxFill { bounds, hull_area, box_fill, squareness })
}

/// What can be said of the outline of the shapes; none without shapes.
pub fn outline(shapes: &[Shape]) -> Option<Outline> {
    outline_around(shapes, covered(shapes, None))
}

/// The same when the `region` that they cover is known.
pub fn outline_around(shapes: &[Shape], region: Region) -> Option<Outline> {
    let BoxFill { bounds, hull_area, box_fill, squareness } = box_fill(shapes)?;
    let [xx, yy, xy] = region.spread().unwrap_or_default();
    let (half_sum, half_difference) = (f64::midpoint(xx, yy), ((xx - yy) / 2.0).hypot(xy));
    let (large, small) = (half_sum + half_difference, (half_sum - half_difference).max(0.0));
    let elongated = half_difference > LEAST_ANISOTROPY * half_sum;
    let ellipse_area = 4.0 * PI * (large * small).sqrt();
    Some(Outline {
        length: bounds.width(),
        width: bounds.height(),
        bounds,
        region,
        semi_axes: [2.0 * large.sqrt(), 2.0 * small.sqrt()],
        angle: elongated.then(|| (2.0 * xy).atan2(xx - yy) / 2.0),
        hull_area,
        box_fill,
        squareness,
        exponent: exponent_of(box_fill),
        solidity: (region.area / hull_area).min(1.0),
        ellipticity: if ellipse_area > 0.0 { (region.area / ellipse_area).min(1.0) } else { 0.0 },
    })
}

/// The smallest upright box around the shapes, x along; none without shapes.
pub fn extents(shapes: &[Shape]) -> Option<Rect> {
    shapes.iter().filter_map(Shape::tidy).map(|shape| shape.bounds()).reduce(|left, right| left.union(right))
}

/// The superellipse exponent whose area fills this share of its box, by halving: the share only rises with it.
fn exponent_of(box_fill: f64) -> f64 {
    let (mut low, mut high) = (LEAST_EXPONENT, MOST_EXPONENT);
    for _ in 0..EXPONENT_STEPS {
        let middle = f64::midpoint(low, high);
        if superellipse_fill(middle) < box_fill {
            low = middle;
        } else {
            high = middle;
        }
    }
    f64::midpoint(low, high)
}

/// Share of its box that |x|^n + |y|^n <= 1 fills: Gamma(1 + 1/n)^2 / Gamma(1 + 2/n), from Dirichlet's integral.
fn superellipse_fill(n: f64) -> f64 {
    (2.0 * log_gamma(1.0 + 1.0 / n) - log_gamma(1.0 + 2.0 / n)).exp()
}

/// Logarithm of the gamma function for x > 0: Stirling's series (DLMF 5.11.1) where it is exact, reached by recurrence.
fn log_gamma(x: f64) -> f64 {
    let (mut x, mut product) = (x, 1.0);
    while x < STIRLING_FROM {
        product *= x;
        x += 1.0;
    }
    let inverse = 1.0 / (x * x);
    let series = (1.0 / 12.0 - inverse * (1.0 / 360.0 - inverse * (1.0 / 1260.0 - inverse / 1680.0))) / x;
    (x - 0.5) * x.ln() - x + (2.0 * PI).ln() / 2.0 + series - product.ln()
}

/// From here four terms of the series are right to 2e-12.
const STIRLING_FROM: f64 = 12.0;

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::Point;

    #[test]
    fn no_shapes_have_no_outline() {
        assert_eq!(outline(&[]), None);
        assert_eq!(extents(&[]), None);
        assert_eq!(outline(&[Shape::disc(Point::ORIGIN, f64::NAN)]), None);
    }

    #[test]
    fn the_gamma_function_knows_its_factorials() {
        for (x, factorial) in [(1.0, 1.0), (2.0, 1.0), (5.0, 24.0), (11.0, 3628800.0), (1.5, PI.sqrt() / 2.0)] {
            assert!((log_gamma(x) - f64::ln(factorial)).abs() < 1e-12, "{x}");
        }
    }

    #[test]
    fn a_disc_is_an_oval_in_every_respect() {
        let found = outline(&[Shape::disc(Point::new(9.0, -4.0), 20.0)]).unwrap();
        assert!((found.length - 40.0).abs() < 1e-12 && (found.width - 40.0).abs() < 1e-12);
        assert!((found.semi_axes[0] - 20.0).abs() < 1e-9 && (found.semi_axes[1] - 20.0).abs() < 1e-9);
        assert_eq!(found.angle, None);
        assert!((found.exponent - 2.0).abs() < 1e-8);
        assert!(
            found.squareness < 1e-9 && (found.solidity - 1.0).abs() < 1e-12 && (found.ellipticity - 1.0).abs() < 1e-9
        );
    }
}
