//! Covered area against three other methods and one published case.

use posywright::geometry::{Oval, Shape, covered};

use crate::geometry::reference::{discs, list, near, number, read, shape};

/// The methods of the table agree to 1e-6 mm2 with each other, and the one compared with here to far less.
const TOLERANCE_MM2: f64 = 1e-8;

#[test]
fn discs_in_an_oval_cover_what_the_table_says() {
    let table = read("covered_area.json");
    for case in list(&table, "cases") {
        let name = case["name"].as_str().unwrap();
        let oval = Oval { a: number(case, "a"), b: number(case, "b") };
        let shapes = discs(case, "discs");
        near(covered(&shapes, Some(oval)).area, number(case, "covered_green"), TOLERANCE_MM2, name);
        near(covered(&shapes, None).area, number(case, "union_area_unclipped"), TOLERANCE_MM2, name);
    }
}

#[test]
fn a_turned_oval_covers_the_same() {
    let table = read("covered_area.json");
    for case in list(&table, "cases") {
        let oval = Oval { a: number(case, "b"), b: number(case, "a") };
        let shapes: Vec<Shape> = discs(case, "discs")
            .into_iter()
            .map(|shape| Shape::disc((-shape.centre().y, shape.centre().x).into(), shape.reach()))
            .collect();
        near(covered(&shapes, Some(oval)).area, number(case, "covered_green"), TOLERANCE_MM2, "turned");
    }
}

/// Rosetta Code, task "Total circles area": 25 discs, eleven of them inside others.
#[test]
fn the_twenty_five_published_discs_cover_what_is_published() {
    let table = read("covered_area.json");
    let published = &table["published"];
    near(covered(&discs(published, "discs"), None).area, number(published, "area"), 1e-13, "published");
}

#[test]
fn lenses_cover_what_the_table_says() {
    let table = read("covered_area.json");
    for case in list(&table, "lens_cases") {
        let oval = Oval { a: number(case, "a"), b: number(case, "b") };
        let shapes: Vec<Shape> = list(case, "shapes").iter().map(shape).collect();
        let name = case["name"].as_str().unwrap();
        near(covered(&shapes, Some(oval)).area, number(case, "covered_green"), TOLERANCE_MM2, name);
    }
}
