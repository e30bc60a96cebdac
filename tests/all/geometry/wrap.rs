//! The wrist's section against elliptic integrals of other libraries.

use posywright::geometry::{RoundHead, WristSection};

use crate::geometry::reference::{list, near, number, read};

/// The tables agree with each other to this, mm.
const TOLERANCE_MM: f64 = 1e-12;

#[test]
fn axes_follow_from_the_girth() {
    for case in list(&read("wrist.json"), "axes") {
        let section = WristSection::new(number(case, "C"), number(case, "k"));
        near(section.half_width(), number(case, "p"), TOLERANCE_MM, "half-width");
        near(section.half_depth(), number(case, "q"), TOLERANCE_MM, "half-depth");
        near(section.girth(), number(case, "C"), TOLERANCE_MM, "girth");
    }
}

#[test]
fn places_on_the_sheet_land_where_the_table_says() {
    for case in list(&read("wrist.json"), "map") {
        let section = WristSection::new(number(case, "C"), number(case, "k"));
        for side in [1.0, -1.0] {
            let arc = number(case, "s") * side;
            near(section.angle_at(arc), number(case, "phi") * side, 1e-13, "angle");
            let seen = section.seen(arc);
            near(seen.across, number(case, "x") * side, TOLERANCE_MM, "across");
            near(seen.height, number(case, "z"), TOLERANCE_MM, "height");
            near(seen.tilt.to_degrees(), number(case, "tilt_deg") * side, 1e-11, "tilt");
        }
    }
}

#[test]
fn heads_stick_out_as_the_table_says() {
    for case in list(&read("wrist.json"), "protrusion") {
        let section = WristSection::new(number(case, "C"), number(case, "k"));
        let head = RoundHead { radius: number(case, "r"), lift: number(case, "lift"), dome: number(case, "dome_t") };
        let arc = number(case, "s");
        near(section.protrusion(arc, head), number(case, "dome"), TOLERANCE_MM, "with the dome");
        // Past the side the table takes the near end of the rim; the far one sticks out further.
        if number(case, "visible_half_width") > 0.0 {
            near(
                section.protrusion(-arc, RoundHead { dome: 0.0, ..head }),
                number(case, "rim"),
                TOLERANCE_MM,
                "the rim",
            );
        }
        near(section.seen_radius(arc, head.radius), number(case, "visible_half_width"), TOLERANCE_MM, "seen");
    }
}

#[test]
fn a_sheet_over_the_wrist_looks_as_wide_as_the_table_says() {
    for case in list(&read("wrist.json"), "footprint_seen_from_above") {
        let section = WristSection::new(number(case, "C"), number(case, "k"));
        let half_width = number(case, "half_width");
        near(section.seen_half_width(half_width), number(case, "seen_half_width"), TOLERANCE_MM, "seen");
        near(section.seen(half_width).tilt.to_degrees(), number(case, "tilt_edge_deg"), 1e-11, "tilt");
    }
}

/// DLMF 19.2.8: the complete integral; 19.30.5: the perimeter of an ellipse. The series of DLMF 19.5.2 is summed here.
#[test]
fn the_girth_is_the_series_of_the_handbook() {
    for flatness in [0.65, 0.7, 0.8, 0.95f64] {
        let parameter = 1.0 - flatness * flatness;
        let (mut term, mut sum) = (1.0, 1.0);
        for n in 1..200 {
            let n = f64::from(n);
            let ratio = (2.0 * n - 1.0) / (2.0 * n);
            term *= ratio * ratio * parameter;
            sum -= term / (2.0 * n - 1.0);
        }
        let girth = 2.0 * std::f64::consts::PI * sum * 30.0;
        near(WristSection::new(girth, flatness).half_width(), 30.0, 1e-12, "half-width");
    }
}
