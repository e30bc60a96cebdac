//! Transfer function, XYZ, CIE L*a*b*, OKLab.

use palette::{FromColor, LinSrgb, Oklab, OklabHue, Oklch, Xyz, white_point::D65};
use posywright::colour::{Rgb, from_linear, linear_of, xyz_of};

use super::{colour, list, near, read, three};

/// IEC 61966-2-1:1999, as colour-science 0.4.7 computes it. At the joint the standard's two branches are 2.3e-9 apart, and each
/// program takes another one.
#[test]
fn the_transfer_function_is_that_of_srgb() {
    let file = read("srgb_transfer.json");
    for row in list(&file, "rows") {
        let (v, light) = (row["encoded"].as_f64().unwrap(), row["linear"].as_f64().unwrap());
        near(&[linear_of(v)], &[light], 3e-9, "to light");
        near(&[from_linear(v)], &[row["inverse_of_linear_v"].as_f64().unwrap()], 2e-9, "from light");
    }
}

/// 26 colours by coloraide 8.13.1, checked against colour-science, palette and color.
#[test]
fn colours_have_the_coordinates_that_three_libraries_agree_on() {
    let file = read("srgb_oklab_lab_xyz.json");
    for row in list(&file, "rows") {
        let (rgb, what) = (colour(&row["hex"]), row["hex"].to_string());
        near(&rgb.oklab(), &three(&row["oklab"]), 3e-6, &what);
        near(&xyz_of(rgb), &three(&row["xyz_d65"]), 2e-6, &what);
        near(&rgb.lab().figures(), &three(&row["cielab_d65"]), 2e-3, &what);
        let [l, c, h] = rgb.oklch();
        let expected = &row["oklch"];
        near(&[l, c], &[expected[0].as_f64().unwrap(), expected[1].as_f64().unwrap()], 3e-6, &what);
        if let Some(hue) = expected[2].as_f64() {
            near(&[h], &[hue], 0.01, &what);
        }
    }
}

/// B. Ottosson, "A perceptual color space for image processing", 2020, table of example XYZ and Oklab pairs. What is under
/// test is the crate that all of OKLab here goes through.
#[test]
fn oklab_is_that_of_its_author() {
    let file = read("oklab_published_pairs.json");
    for row in list(&file["ottosson"], "pairs") {
        let [x, y, z] = three(&row["xyz"]);
        let lab = Oklab::from_color(Xyz::<D65, f64>::new(x, y, z));
        near(&[lab.l, lab.a, lab.b], &three(&row["oklab"]), 6e-4, &row.to_string());
    }
}

/// W3C CSS Color Module Level 4 and its tests: each notation paints the same as the colour beside it.
#[test]
fn notations_of_css_paint_the_colours_they_should() {
    let file = read("oklab_published_pairs.json");
    let mut painted = 0;
    for row in list(&file["css_color_4"], "pairs") {
        let css = row["css"].as_str().unwrap();
        let figures: Vec<f64> = css[css.find('(').unwrap() + 1..css.len() - 1]
            .split_whitespace()
            .map(|word| {
                word.strip_suffix('%').map_or_else(|| word.parse().unwrap(), |p| p.parse::<f64>().unwrap() / 100.0)
            })
            .collect();
        let [l, a, b] = [figures[0], figures[1], figures[2]];
        let lab = if css.starts_with("oklch") {
            let lab = Oklab::from_color(Oklch::new(l, a, OklabHue::from_degrees(b)));
            [lab.l, lab.a, lab.b]
        } else {
            [l, a, b]
        };
        let light = LinSrgb::from_color(Oklab::new(lab[0], lab[1], lab[2]));
        let stored = [light.red, light.green, light.blue].map(from_linear);
        near(&stored, &three(&row["recomputed_srgb"]).map(|c| c.clamp(0.0, 1.0)), 2e-4, css);
        if let Some(hex) = row["srgb"].as_str().and_then(Rgb::parse) {
            assert_eq!(Rgb::from_oklab(lab), hex, "{css}");
            painted += 1;
        }
    }
    assert!(painted >= 4, "{painted}");
}
