//! The commands about colours, through the program's own door.

use std::fs;
use std::process::{Command, Output};

use posywright::colour::Rgb;
use serde_json::Value;

fn posywright(words: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_posywright")).args(words).current_dir(env!("CARGO_MANIFEST_DIR")).output().unwrap()
}

fn report(words: &[&str]) -> Value {
    let out = posywright(words);
    assert!(out.status.success(), "{words:?}: {}", String::from_utf8_lossy(&out.stderr));
    serde_json::from_slice(&out.stdout).unwrap()
}

#[test]
fn stock_is_ranked_by_difference_with_names_hex_and_warnings() {
    let d = report(&["match", "#5c1226", "--json"]);
    assert_eq!((d["dress"]["hex"].as_str(), d["dress"]["about"].as_bool()), (Some("#5c1226"), Some(false)));
    let ranked = d["ranked"].as_array().unwrap();
    assert!(ranked.len() > 200, "{}", ranked.len());
    let first = &ranked[0];
    assert_eq!((first["name"].as_str(), first["hex"].as_str()), (Some("burgundy"), Some("#5c1226")));
    assert!(first["delta_e00"].as_f64().unwrap() < 1e-9);
    assert_eq!(first["warnings"][0]["id"], "reads-as-one");
    let dress = Rgb::hex(0x5c1226);
    for pair in ranked.windows(2) {
        assert!(pair[0]["delta_e00"].as_f64() <= pair[1]["delta_e00"].as_f64());
        let colour = Rgb::parse(pair[1]["hex"].as_str().unwrap()).unwrap();
        assert!((colour.difference(dress) - pair[1]["delta_e00"].as_f64().unwrap()).abs() < 1e-6);
    }
}

#[test]
fn an_ivory_dress_is_warned_of_white_roses() {
    let d = report(&["match", "ivory", "--json"]);
    let white_rose =
        d["ranked"].as_array().unwrap().iter().find(|r| r["stock"] == "spray-rose" && r["name"] == "white");
    let ids: Vec<&str> =
        white_rose.unwrap()["warnings"].as_array().unwrap().iter().map(|w| w["id"].as_str().unwrap()).collect();
    assert!(ids.contains(&"reads-as-one"), "{ids:?}");
}

#[test]
fn a_table_is_short_and_has_the_caveat() {
    let text = String::from_utf8(posywright(&["match", "#8b1427"]).stdout).unwrap();
    assert!(text.starts_with("Dress: dark red #8b1427\n") && text.contains("hall lighting"), "{text}");
    assert!(text.lines().count() < 60, "{text}");
}

#[test]
fn a_list_of_ones_own_is_ranked_alone() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("today.ron");
    fs::write(
        &file,
        "(version: 1, botanicals: [(id: \"spray-rose\", colours: [(\"dusk\", \"#8b1427\"), (\"dawn\", \"#ffd0c0\")])])",
    )
    .unwrap();
    let d = report(&["match", "8b1427", "--stock", file.to_str().unwrap(), "--json"]);
    let names: Vec<&str> = d["ranked"].as_array().unwrap().iter().map(|r| r["name"].as_str().unwrap()).collect();
    assert_eq!(names, ["dusk", "dawn"]);
    let out = posywright(&["match", "8b1427", "--stock", "nowhere.ron"]);
    assert_eq!(out.status.code(), Some(1));
}

#[test]
fn what_is_no_colour_is_told_with_an_example() {
    for typed in ["#12345", "#gggggg", "mauvish", ""] {
        let out = posywright(&["match", typed]);
        let said = String::from_utf8_lossy(&out.stderr).into_owned();
        assert_eq!(out.status.code(), Some(2), "{typed}");
        assert!(said.contains("'#8b1427'") && !said.to_lowercase().contains("invalid"), "{said}");
    }
}

#[test]
fn a_photo_of_a_dress_is_named() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("dress.jpg");
    let picture = image::RgbImage::from_fn(200, 150, |x, _| {
        image::Rgb(if (60..140).contains(&x) { [139, 20, 39] } else { [154, 149, 140] })
    });
    picture.save(&file).unwrap();
    let d = report(&["dress", file.to_str().unwrap(), "--json"]);
    let colour = Rgb::parse(d["colour"]["hex"].as_str().unwrap()).unwrap();
    assert!(colour.difference(Rgb::hex(0x8b1427)) < 3.0, "{d}");
    assert_eq!((&d["colour"]["name"], &d["colour"]["everyday"]), (&"deep red".into(), &"dark red".into()));
    let share = d["region_share"].as_f64().unwrap();
    assert!((share - 0.4).abs() < 0.06, "{share}");
    let wall = report(&["dress", file.to_str().unwrap(), "--at", "10,10", "--json"]);
    let wall = Rgb::parse(wall["colour"]["hex"].as_str().unwrap()).unwrap();
    assert!(wall.difference(Rgb::hex(0x9a958c)) < 3.0);
    assert_eq!(posywright(&["dress", file.to_str().unwrap(), "--at", "900,10"]).status.code(), Some(1));
    assert_eq!(posywright(&["dress", "Cargo.toml"]).status.code(), Some(1));
}
