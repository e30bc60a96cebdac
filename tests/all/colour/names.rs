//! Names in plain words.

use posywright::colour::{Rgb, name_of, swatches};

use super::{colour, list, near, read};

/// Thirty colours named by numpy with colour-science's CIEDE2000 from the 267 ISCC-NBS names.
#[test]
fn thirty_colours_get_the_names_that_a_second_program_finds() {
    let names = read("names_iscc_nbs_267.json");
    let plain = |name: &str| {
        let row = list(&names, "names").iter().find(|n| n["name"] == name).unwrap();
        row["plain"].as_str().unwrap().to_owned()
    };
    let file = read("naming_cases.json");
    let cases = list(&file, "cases");
    assert_eq!(cases.len(), 30);
    for case in cases {
        let found = name_of(colour(&case["hex"]));
        assert_eq!(found.words, plain(case["iscc_nbs"]["by_de2000"].as_str().unwrap()), "{case}");
        near(&[found.delta_e00], &[case["iscc_nbs"]["de2000"].as_f64().unwrap()], 2e-3, &case.to_string());
    }
}

#[test]
fn the_table_of_names_is_the_published_one() {
    let names = read("names_iscc_nbs_267.json");
    assert_eq!(list(&names, "names").len(), 267);
    for row in list(&names, "names") {
        assert_eq!(name_of(colour(&row["hex"])).words, row["plain"].as_str().unwrap());
    }
}

/// A swatch called by a hue must be seen as that hue by the published names, or lie beside it.
#[test]
fn swatches_are_what_they_are_called() {
    let hues = [
        ("pink", "pink"),
        ("dark red", "red"),
        ("orange", "orange"),
        ("purple", "violet"),
        ("navy", "blue"),
        ("teal", "bluish green"),
        ("forest green", "green"),
        ("yellow", "yellow"),
        ("brown", "brown"),
        ("grey", "grey"),
        ("black", "black"),
        ("white", "white"),
    ];
    for (swatch, hue) in hues {
        let rgb = swatches().iter().find(|s| s.name == swatch).unwrap().rgb;
        assert!(name_of(rgb).words.contains(hue), "{swatch}: {}", name_of(rgb));
    }
    assert!(swatches().len() >= 30 && swatches().iter().all(|s| s.rgb != Rgb::hex(0)));
}
