//! Balance against quadrature and against unions of polygons.

use posywright::geometry::{
    Oval, Shape, Weighted, asymmetry, centre_of_weight, moments_about_axis, two_sided, weight_offset,
};

use crate::geometry::reference::{disc, list, near, number, numbers, read};

#[test]
fn a_disc_on_the_axis_is_cut_as_quadrature_cuts_it() {
    for case in list(&read("balance.json"), "torque") {
        let [positive, negative] = moments_about_axis(number(case, "c"), number(case, "r"));
        near(positive, number(case, "right"), 1e-9, "positive");
        near(negative, number(case, "left"), 1e-9, "negative");
    }
}

#[test]
fn balance_and_asymmetry_are_those_of_the_table() {
    for case in list(&read("balance.json"), "cases") {
        let name = case["name"].as_str().unwrap();
        let axes = numbers(&case["footprint"]);
        let things: Vec<Weighted> =
            list(case, "discs").iter().map(|value| Weighted { disc: disc(value), weight: numbers(value)[3] }).collect();
        let centre = centre_of_weight(&things).unwrap();
        near(centre.x, number(case, "cx"), 1e-12, name);
        near(centre.y, number(case, "cy"), 1e-12, name);
        near(weight_offset(&things, Oval { a: axes[0], b: axes[1] }).unwrap(), number(case, "offset"), 1e-12, name);
        let found = two_sided(&things);
        near(found.along, number(case, "bm_along"), 1e-12, name);
        near(found.across, number(case, "bm_across"), 1e-12, name);
        near(found.balance(), number(case, "balance"), 1e-12, name);
        let shapes: Vec<Shape> = things.iter().map(|thing| Shape::Disc(thing.disc)).collect();
        let found = asymmetry(&shapes).unwrap();
        near(found.end_to_end, number(case, "asym_left_right"), 1e-11, name);
        near(found.side_to_side, number(case, "asym_up_down"), 1e-11, name);
        near(found.half_turn, number(case, "asym_half_turn"), 1e-11, name);
    }
}
