//! Outlines against moments and hulls from polygons.

use posywright::geometry::{Oval, Shape, outline};

use crate::geometry::reference::{list, near, number, read, shape};

#[test]
fn outlines_are_those_of_the_table() {
    for layout in list(&read("outline.json"), "layouts") {
        let name = layout["name"].as_str().unwrap();
        let shapes: Vec<Shape> = list(layout, "shapes").iter().map(shape).collect();
        let found = outline(&shapes).unwrap();
        let relative = |found: f64, field: &str, tolerance: f64| {
            let expected = number(layout, field);
            near(found, expected, tolerance * expected.abs().max(1.0), &format!("{name}, {field}"));
        };
        relative(found.region.area, "area", 1e-11);
        relative(found.semi_axes[0], "semi1", 1e-9);
        relative(found.semi_axes[1], "semi2", 1e-9);
        relative(found.semi_axes[0] / found.semi_axes[1], "aspect", 1e-9);
        relative(found.ellipticity, "ellipticity", 1e-9);
        relative(found.length, "along", 1e-9);
        relative(found.width, "across", 1e-9);
        // Hulls in the table come from 20,000 points a circle, some from fewer.
        relative(found.hull_area, "hull_area", 2e-6);
        relative(found.box_fill, "box_fill", 2e-6);
        relative(found.exponent, "super_exponent", 2e-5);
        relative(found.solidity, "solidity", 2e-6);
        let centre = found.region.centroid().unwrap();
        near(centre.x, number(layout, "cx"), 1e-9, name);
        near(centre.y, number(layout, "cy"), 1e-9, name);
        if let Some(angle) = found.angle {
            near(angle.to_degrees(), number(layout, "angle_deg"), 1e-7, name);
        } else {
            near(number(layout, "aspect"), 1.0, 0.02, name);
        }
    }
}

/// A superellipse is no shape here, but its exponent follows from the box fill alone; a disc (2) and rows of discs (toward
/// the rectangle) pin the scale.
#[test]
fn the_exponent_rises_from_the_oval_to_the_rectangle() {
    let mut last = 2.0 - 1e-9;
    for n_discs in 1..40u32 {
        let shapes: Vec<Shape> =
            (0..n_discs).map(|index| Shape::disc((f64::from(index) * 6.0, 0.0).into(), 10.0)).collect();
        let found = outline(&shapes).unwrap();
        assert!(found.exponent > last, "{n_discs}: {} after {last}", found.exponent);
        last = found.exponent;
        near(found.length_to_width(), (20.0 + 6.0 * f64::from(n_discs - 1)) / 20.0, 1e-12, "extent");
    }
}

#[test]
fn many_small_discs_in_an_oval_lie_like_the_oval() {
    let oval = Oval { a: 60.0, b: 40.0 };
    let places = (0..121).flat_map(|column| (0..81).map(move |row| (f64::from(column) - 60.0, f64::from(row) - 40.0)));
    let shapes: Vec<Shape> =
        places.map(|place| Shape::disc(place.into(), 1.0)).filter(|disc| oval.gauge(disc.centre()) <= 1.0).collect();
    let found = outline(&shapes).unwrap();
    near(found.semi_axes[0], 60.5, 0.5, "long");
    near(found.semi_axes[1], 40.5, 0.5, "short");
    near(found.angle.unwrap(), 0.0, 1e-9, "angle");
    assert!(found.solidity > 0.98 && found.ellipticity > 0.999);
}
