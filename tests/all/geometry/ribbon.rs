//! Ribbon lengths against quadrature and plain arithmetic.

use posywright::geometry::{CentreLoop, ConvexPolygon, RibbonWork, fan_angles, loop_arc, loop_outline};

use crate::geometry::reference::{count, list, near, number, numbers, read};

#[test]
fn a_loop_is_as_long_as_quadrature_says() {
    let table = read("ribbon.json");
    for (ratio, expected) in table["arc_over_twice_reach"].as_object().unwrap() {
        let ratio_value: f64 = ratio.parse().unwrap();
        near(loop_arc(50.0, 50.0 * ratio_value) / 100.0, expected.as_f64().unwrap(), 1e-9, ratio);
    }
    for case in list(&table, "loops") {
        let (reach, width) = (number(case, "L"), number(case, "w"));
        near(loop_arc(reach, width), number(case, "arclen"), 1e-8, "loop");
        let fine = ConvexPolygon::around(&loop_outline(reach, width, 0.7, 4000)).unwrap();
        near(fine.area(), number(case, "area"), 1e-5 * fine.area(), "area");
    }
}

#[test]
fn a_bow_takes_the_ribbon_of_the_table() {
    for case in list(&read("ribbon.json"), "bows") {
        let diameter = number(case, "centre_d");
        let work = RibbonWork {
            loops_a_side: count(case, "n_per_side"),
            loop_length: number(case, "L"),
            loop_width: number(case, "w"),
            pinch: number(case, "pinch"),
            tails: count(case, "tails"),
            tail_length: number(case, "tail_len"),
            tail_cut: number(case, "cut"),
            centre_loop: (diameter > 0.0).then(|| CentreLoop { diameter, overlap: number(case, "overlap") }),
        };
        let ribbon = work.ribbon();
        near(ribbon.loops, number(case, "loops_mm"), 1e-6, "loops");
        near(ribbon.pinches, number(case, "pinches_mm"), 1e-9, "pinches");
        near(ribbon.centre, number(case, "centre_mm"), 1e-9, "centre");
        near(ribbon.tails, number(case, "tails_mm"), 1e-9, "tails");
        near(ribbon.total(), number(case, "total_mm"), 1e-6, "total");
    }
}

#[test]
fn loops_fan_out_as_the_table_says() {
    for (name, angles) in read("ribbon.json")["fan_deg"].as_object().unwrap() {
        let n_loops: u32 = name.trim_start_matches("n=").split(',').next().unwrap().parse().unwrap();
        let found = fan_angles(n_loops, 50f64.to_radians());
        let expected = numbers(angles);
        assert_eq!(found.len(), expected.len());
        for (found, expected) in found.iter().zip(expected) {
            near(found.to_degrees(), expected, 1e-12, name);
        }
    }
}

#[test]
fn the_outline_of_a_loop_has_the_corners_of_the_table() {
    let table = read("ribbon.json");
    let found = loop_outline(50.0, 20.0, 0.0, 24);
    let expected = list(&table, "outline_L50_w20_24");
    // The table goes round the other way.
    for (index, corner) in expected.iter().take(24).enumerate() {
        let point = found[(24 - index) % 24];
        near(point.x, numbers(corner)[0], 1e-9, "x");
        near(point.y, numbers(corner)[1], 1e-9, "y");
    }
}
