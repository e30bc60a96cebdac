//! Gaps against a dense grid, enumeration, another library and closed forms.

use posywright::geometry::{GapSearch, Oval, Shape, gaps};
use serde_json::Value;

use crate::geometry::reference::{discs, list, near, number, numbers, read};

/// The table's own refinement stops at about this.
const TOLERANCE_MM: f64 = 1e-6;

fn searched(case: &Value) -> (Vec<Shape>, Oval, GapSearch) {
    let oval = Oval { a: number(case, "a"), b: number(case, "b") };
    let overhang = case["overhang"].as_f64().unwrap_or(f64::INFINITY);
    let search = GapSearch { overhang, least_radius: 1.0, tolerance: 0.01, most: 1 };
    (discs(case, "discs"), oval, search)
}

#[test]
fn the_largest_gap_is_the_one_of_the_table() {
    for case in list(&read("gaps.json"), "cases") {
        let name = case["name"].as_str().unwrap();
        let (shapes, oval, search) = searched(case);
        let found = gaps(&shapes, oval, &search);
        let expected = numbers(&case["largest"])[2];
        near(found[0].radius, expected, TOLERANCE_MM, name);
        if let Some(closed_form) = case["closed_form"].as_f64() {
            near(found[0].radius, closed_form, 1e-9, name);
        }
    }
}

#[test]
fn the_promise_holds_at_every_tolerance() {
    for case in list(&read("gaps.json"), "cases") {
        let (shapes, oval, search) = searched(case);
        let expected = numbers(&case["largest"])[2];
        for tolerance in [0.5, 0.1, 0.01, 1e-4] {
            let found = gaps(&shapes, oval, &GapSearch { tolerance, ..search });
            assert!(found[0].radius >= expected - tolerance - TOLERANCE_MM, "{tolerance}");
            assert!(found[0].radius <= expected + TOLERANCE_MM, "{tolerance}");
        }
    }
}

#[test]
fn the_next_gaps_follow_in_the_order_of_the_table() {
    for case in list(&read("gaps.json"), "cases") {
        let Some(expected) = case["list_from_2_mm"].as_array() else { continue };
        let name = case["name"].as_str().unwrap();
        let (shapes, oval, search) = searched(case);
        let found = gaps(&shapes, oval, &GapSearch { least_radius: 2.0, most: expected.len(), ..search });
        assert_eq!(found.len(), expected.len(), "{name}");
        for (gap, listed) in found.iter().zip(expected) {
            near(gap.radius, numbers(listed)[2], 2e-4, name);
        }
    }
}

#[test]
fn every_reported_circle_is_free() {
    for case in list(&read("gaps.json"), "cases") {
        let (shapes, oval, search) = searched(case);
        let found = gaps(&shapes, oval, &GapSearch { most: 20, ..search });
        for (index, gap) in found.iter().enumerate() {
            let clearance = shapes.iter().map(|shape| shape.distance(gap.centre)).fold(f64::INFINITY, f64::min);
            assert!(clearance >= gap.radius - 1e-9 && oval.gauge(gap.centre) <= 1.0 + 1e-12);
            assert!(oval.depth(gap.centre) + search.overhang >= gap.radius - 1e-9);
            for other in &found[..index] {
                assert!(other.centre.distance(gap.centre) >= other.radius + gap.radius - 1e-9);
            }
        }
    }
}
