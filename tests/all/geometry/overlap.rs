//! Overlaps, hidden areas and heights against closed forms and another library.

use posywright::geometry::{
    Disc, Give, Point, Shape, Stacked, covered, depth, hidden_shares, lens_area, stack, visible,
};

use crate::geometry::reference::{disc, list, near, number, numbers, read};

/// Areas of the table agree between three methods to 7e-9 mm2.
const TOLERANCE_MM2: f64 = 1e-8;

#[test]
fn two_discs_share_what_the_closed_form_says() {
    for case in list(&read("overlap.json"), "lens") {
        let first = Disc { centre: Point::new(1.0, 2.0), radius: number(case, "r1") };
        let second = Disc { centre: Point::new(1.0 + number(case, "d"), 2.0), radius: number(case, "r2") };
        near(depth(first, second), number(case, "depth"), 1e-12, "depth");
        near(lens_area(first, second), number(case, "lens"), 1e-10, "area");
        near(lens_area(second, first), number(case, "lens"), 1e-10, "the other way round");
        let union = covered(&[Shape::Disc(first), Shape::Disc(second)], None).area;
        let shared = Shape::Disc(first).area() + Shape::Disc(second).area() - union;
        near(shared, number(case, "lens"), TOLERANCE_MM2, "by the union");
    }
}

#[test]
fn what_is_seen_of_each_is_what_the_table_says() {
    for case in list(&read("overlap.json"), "visible") {
        let name = case["name"].as_str().unwrap();
        let shapes: Vec<Shape> = list(case, "discs_low_to_high").iter().map(|value| Shape::Disc(disc(value))).collect();
        let seen = visible(&shapes);
        for (region, expected) in seen.iter().zip(numbers(&case["visible"])) {
            near(region.area, expected, TOLERANCE_MM2, name);
        }
        for (share, expected) in hidden_shares(&shapes).iter().zip(numbers(&case["hidden_fraction"])) {
            near(*share, expected, 1e-10, name);
        }
        let total: f64 = seen.iter().map(|region| region.area).sum();
        near(total, covered(&shapes, None).area, TOLERANCE_MM2, "together");
    }
}

#[test]
fn heights_are_those_of_the_table() {
    for case in list(&read("overlap.json"), "stack") {
        let pieces: Vec<Stacked> = list(case, "pieces")
            .iter()
            .map(|piece| Stacked { disc: disc(piece), lift: numbers(piece)[3], thickness: numbers(piece)[4] })
            .collect();
        let give = Give { sideways: number(case, "kappa"), squash: number(case, "squash") };
        let found = stack(&pieces, give);
        for (base, expected) in found.bases.iter().zip(numbers(&case["base"])) {
            near(*base, expected, 1e-12, "base");
        }
        near(found.top, number(case, "top"), 1e-12, "top");
    }
}
