//! Convex polygons, the stand-in for closed curves that are no circles (a ribbon loop).
//!
//! Knows corners in mm, counter-clockwise in the house's frame (x first, then y). Does not know where they come from.

use kurbo::{Point, Rect};

use super::shape::MOST_MM;

/// A convex polygon with at least three corners and some area.
#[derive(Clone, Debug, PartialEq)]
pub struct ConvexPolygon {
    corners: Vec<Point>,
}

/// Area under which corners count as lying on one line, mm2: a sliver 0.01 mm wide and 0.1 mm long.
const LEAST_AREA: f64 = 1e-3;

impl ConvexPolygon {
    /// The convex hull of `points`; none if they have no area or no finite extent. Points that are not
    /// finite, or further off than a kilometre, are left out.
    ///
    /// Monotone chain (A. M. Andrew, Information Processing Letters 9, 1979, from memory).
    pub fn around(points: &[Point]) -> Option<Self> {
        let mut sorted: Vec<Point> = points.iter().copied().filter(|p| is_near(*p)).collect();
        sorted.sort_by(|p, q| p.x.total_cmp(&q.x).then(p.y.total_cmp(&q.y)));
        sorted.dedup();
        if sorted.len() < 3 {
            return None;
        }
        let mut corners = chain(sorted.iter().copied());
        corners.pop();
        corners.extend(chain(sorted.iter().rev().copied()));
        corners.pop();
        let polygon = Self { corners };
        let area = polygon.area();
        (area.is_finite() && area > LEAST_AREA).then_some(polygon)
    }

    /// Its corners, counter-clockwise.
    pub fn corners(&self) -> &[Point] {
        &self.corners
    }

    /// Its area, mm2.
    pub fn area(&self) -> f64 {
        self.edges().map(|(p, q)| p.to_vec2().cross(q.to_vec2())).sum::<f64>() / 2.0
    }

    /// Its edges, counter-clockwise.
    pub fn edges(&self) -> impl Iterator<Item = (Point, Point)> + '_ {
        let next = self.corners.iter().cycle().skip(1);
        self.corners.iter().copied().zip(next.copied())
    }

    /// The smallest upright box around it.
    pub fn bounds(&self) -> Rect {
        let start = Rect::from_points(self.corners[0], self.corners[0]);
        self.corners.iter().fold(start, |bounds, corner| bounds.union_pt(*corner))
    }
}

fn is_near(p: Point) -> bool {
    p.x.abs() <= MOST_MM && p.y.abs() <= MOST_MM
}

/// One side of the hull of sorted points.
fn chain(points: impl Iterator<Item = Point>) -> Vec<Point> {
    let mut side: Vec<Point> = Vec::new();
    for point in points {
        while let [.., before, last] = side[..]
            && (last - before).cross(point - last) <= 0.0
        {
            side.pop();
        }
        side.push(point);
    }
    side
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn inner_points_and_doubles_are_left_out() {
        let points =
            [(0.0, 0.0), (4.0, 0.0), (2.0, 1.0), (4.0, 3.0), (0.0, 3.0), (4.0, 0.0), (2.0, 0.0)].map(Point::from);
        let polygon = ConvexPolygon::around(&points).unwrap();
        assert_eq!(polygon.corners().len(), 4);
        assert_eq!(polygon.area(), 12.0);
        assert_eq!(polygon.bounds(), Rect::new(0.0, 0.0, 4.0, 3.0));
    }

    #[test]
    fn points_on_a_line_make_no_polygon() {
        let points = [(0.0, 0.0), (1.0, 1.0), (2.0, 2.0), (f64::NAN, 5.0), (f64::INFINITY, 0.0)].map(Point::from);
        assert_eq!(ConvexPolygon::around(&points), None);
        assert_eq!(ConvexPolygon::around(&[]), None);
    }
}
