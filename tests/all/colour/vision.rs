//! Other eyes.

use posywright::colour::{Eyes, Vision};

use super::{colour, list, near, read, three};

fn kinds() -> [(Vision, &'static str); 3] {
    [(Vision::Protan, "Protanomaly"), (Vision::Deutan, "Deuteranomaly"), (Vision::Tritan, "Tritanomaly")]
}

/// Machado, Oliveira, Fernandes, IEEE TVCG 15(6), 2009: 33 matrices, as three libraries have them.
#[test]
fn every_matrix_is_the_published_one_and_between_them_runs_a_straight_line() {
    let file = read("cvd_machado2009.json");
    for (vision, name) in kinds() {
        let published = |step: u32| {
            let rows = &file["matrices"][name][format!("{:.1}", f64::from(step) / 10.0)];
            [0, 1, 2].map(|r| three(&rows[r]))
        };
        for step in 0..=10 {
            let ours = Eyes::new(vision, f64::from(step) / 10.0).matrix();
            for (row, expected) in ours.iter().zip(published(step)) {
                near(row, &expected, 1e-9, &format!("{name} {step}"));
            }
        }
        for step in 0..10 {
            let ours = Eyes::new(vision, f64::from(step) / 10.0 + 0.05).matrix();
            let (low, high) = (published(step), published(step + 1));
            for r in 0..3 {
                let middle = [0, 1, 2].map(|c| f64::midpoint(low[r][c], high[r][c]));
                near(&ours[r], &middle, 1e-9, &format!("{name} between {step}"));
            }
        }
    }
}

/// Colours computed with colour-science's matrices on linear light, at severities 0.5 and 1.
#[test]
fn colours_look_as_a_second_program_computes() {
    let file = read("cvd_machado2009.json");
    for row in list(&file, "examples_linear_domain") {
        for (vision, name) in kinds() {
            for severity in ["0.5", "1.0"] {
                let seen = Eyes::new(vision, severity.parse().unwrap()).see(colour(&row["hex"]));
                let expected = colour(&row[format!("{name}_{severity}")]);
                let off = [seen.r.abs_diff(expected.r), seen.g.abs_diff(expected.g), seen.b.abs_diff(expected.b)];
                assert!(off.iter().all(|o| *o <= 1), "{} {name} {severity}: {seen:?} {expected:?}", row["hex"]);
            }
        }
    }
}
