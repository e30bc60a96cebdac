//! Walks on the sheet: a piece made by pointer, by keys and by taps alone; moved, mended, measured and saved.

use std::path::{Path, PathBuf};

use egui::{Key, Modifiers};
use serde_json::Value;

use crate::app::opening::Opening;
use crate::app::tests::harness::{TestWindow, name};
use crate::app::tests::sample_shop::Settings;
use crate::app::tests::sample_shop::{order_file, report, sample_shop};
use crate::piece::Question;

const ROSE: &str = "Spray rose, white";

/// Types the girth by its key and leaves the field.
fn girth_by_key(w: &mut TestWindow, words: &str) {
    w.press(Key::G);
    w.write(words);
    w.press(Key::Enter);
}

fn n_placed(stems: &Value) -> i64 {
    let of = |line: &Value| line["pieces"].as_i64().unwrap() - line["to_place"].as_i64().unwrap();
    stems["lines"].as_array().unwrap().iter().map(of).sum()
}

fn length_mm(w: &mut TestWindow) -> f64 {
    w.saved("once-over")["outline"]["length_mm"].as_f64().unwrap()
}

/// 135 mm of wrist allow 0.4 of it across: 54 mm; a Petite asks $20.
fn is_the_petite(w: &mut TestWindow) {
    assert_eq!(w.saved("once-over")["wrist"]["width_limit_mm"], 54.0);
    assert_eq!(w.saved("stems")["price_cents"], 2000);
}

#[test]
fn three_heads_in_a_row_on_a_narrow_wrist_by_pointer() {
    let mut w = TestWindow::on_sample("09-showpiece");
    w.press_with(Modifiers::COMMAND, Key::N);
    w.type_into(name::GIRTH, "135");
    w.tap(ROSE);
    for along in [0.0, 24.0, -24.0] {
        w.tap_sheet(along, 0.0);
    }
    w.tap(name::WEARER);
    w.write("Mina");
    let file = w.save(); // with the caret still in the field
    assert!(file.ends_with("orders/mina-petite.ron"), "{file:?}");
    assert_eq!(report(&file, "stems")["lines"][0]["pieces"], 3);
    is_the_petite(&mut w);
    let ratio = report(&file, "once-over")["outline"]["length_to_width"].as_f64().unwrap();
    assert!(ratio > 2.5 && ratio < 3.4, "long and narrow: {ratio}");
    assert!(w.saved_text().contains("band: \"elastic-small\""), "the band fits the wrist");

    let before = length_mm(&mut w);
    w.drag((-24.0, 0.0), (-14.0, 0.0));
    let after = length_mm(&mut w);
    assert!(after < before - 5.0, "the drag moved it: {before} {after}");
    w.tap(name::UNDO);
    assert_eq!(length_mm(&mut w), before);
    w.tap(name::REDO);
    assert_eq!(length_mm(&mut w), after);
}

#[test]
fn girth_heads_sprig_and_leaves_by_keys_alone_moved_by_arrows() {
    use Key::{Enter, Escape, L, N, Num1, S};
    let mut w = TestWindow::on_sample("09-showpiece");
    w.press_with(Modifiers::COMMAND, N);
    girth_by_key(&mut w, "135");
    w.press_all(&[Num1, Enter, Enter, Enter, Escape, S, Num1, Enter, Escape, L, Num1, Enter, Enter, Enter, Enter]);
    w.press_all(&[Escape, Escape]);
    let first = w.piece().parts()[0].clone();
    w.press_all(&[N, Key::ArrowUp, Key::ArrowUp]);
    w.press_with(Modifiers::SHIFT, Key::ArrowUp);
    w.press(Escape);
    assert_eq!(w.save(), order_file(w.shop(), "petite"));
    assert_eq!(n_placed(&w.saved("stems")), 8);
    is_the_petite(&mut w);
    let moved = w.piece().part(first.id).unwrap().centre - first.centre;
    assert!((moved.x - 7.0).abs() < 1e-9 && moved.y.abs() < 1e-9, "1 + 1 + 5 mm: {moved:?}");
}

#[test]
fn three_heads_and_a_leaf_by_single_taps_alone() {
    let mut w = TestWindow::on_sample("09-showpiece");
    w.tap(name::NEW);
    w.tap(name::GIRTH);
    w.write("135");
    w.tap(ROSE);
    for along in [12.0, -12.0, 0.0] {
        w.tap_sheet(along, 0.0);
    }
    w.tap("Greenery");
    w.tap("Italian ruscus, green");
    w.tap_sheet(0.0, -12.0);
    w.tap(name::SAVE);
    w.wait_until_saved();
    assert_eq!(n_placed(&w.saved("stems")), 4);
    is_the_petite(&mut w);
}

#[test]
fn what_is_not_saved_is_asked_about_and_both_staying_and_leaving_work() {
    let mut w = TestWindow::on_sample("03-full");
    w.press_all(&[Key::N, Key::Delete]);
    assert!(!w.close(), "it closed without asking");
    w.press(Key::Escape);
    assert_eq!(w.n_parts(), 17);
    w.undo();
    w.save();
    assert!(w.close(), "all is saved");
}

/// Five accents, one step of 92 degrees between two of them where even ones have 360 / 5 = 72.
pub(crate) fn five_accents(shop: &Path) -> PathBuf {
    let file = order_file(shop, "five");
    std::fs::write(&file, include_str!("../../../tests/window/five-accents.ron")).unwrap();
    assert_eq!(widest_step_deg(&file), 92.0);
    file
}

pub(crate) fn widest_step_deg(file: &Path) -> f64 {
    let spread = report(file, "once-over")["spread"].as_array().unwrap().clone();
    let accents = spread.iter().filter(|kind| kind["role"] == "accent");
    let steps = accents.flat_map(|kind| kind["steps_deg"].as_array().unwrap()).filter_map(Value::as_f64);
    steps.fold(0.0, f64::max).round()
}

#[test]
fn an_uneven_accent_is_evened_out_by_keys_and_by_taps_and_undone() {
    let shop = sample_shop();
    let file = five_accents(shop.path());
    let mut w = TestWindow::on(&file);
    w.press(Key::O);
    for _ in 0..4 {
        w.press(Key::Enter);
        if widest_step_deg(&w.save()) == 72.0 {
            break;
        }
        w.undo();
        w.press(Key::O);
    }
    assert_eq!(widest_step_deg(&file), 72.0);
    w.undo();
    assert_eq!(widest_step_deg(&w.save()), 92.0);
    drop(w);
    let mut w = TestWindow::on(&file);
    w.take_first_remedy(Question::EvenSpread.title());
    assert_eq!(widest_step_deg(&w.save()), 72.0);
    w.tap(name::UNDO);
    assert_eq!(widest_step_deg(&w.save()), 92.0);
}

#[test]
fn seven_heads_on_a_shorter_oval_are_mended_by_a_longer_one_by_keys_and_by_taps() {
    let shop = sample_shop();
    let text = std::fs::read_to_string(order_file(shop.path(), "03-full")).unwrap();
    let file = order_file(shop.path(), "seven");
    std::fs::write(&file, text.replace("length: 118", "length: 90").replace("width: 58", "width: 54")).unwrap();
    let fullness = report(&file, "once-over")["cover"]["fullness"].as_f64().unwrap();
    // Seven heads of 30 mm: 7 pi 15^2 = 4948 mm2 on pi 45 27 = 3817 mm2.
    assert!((fullness - 7.0 * 225.0 / (45.0 * 27.0)).abs() < 0.01, "{fullness}");
    let oval = |w: &mut TestWindow| {
        let oval = w.saved("once-over")["oval"].clone();
        (oval["length_mm"].as_f64().unwrap(), oval["width_mm"].as_f64().unwrap())
    };
    let mut w = TestWindow::on(&file);
    w.press_all(&[Key::O, Key::Enter]);
    assert_eq!(oval(&mut w), (112.0, 54.0));
    w.undo();
    assert_eq!(oval(&mut w), (90.0, 54.0));
    drop(w);
    let mut w = TestWindow::on(&file);
    w.take_first_remedy(Question::Fullness.title());
    assert_eq!(oval(&mut w), (112.0, 54.0));
    w.tap(name::UNDO);
    assert_eq!(oval(&mut w), (90.0, 54.0));
}

#[test]
fn a_girth_stays_as_it_was_typed_in_any_unit_and_one_that_cannot_be_meant_changes_nothing() {
    let mut w = TestWindow::on_sample("01-petite");
    let girth = |w: &mut TestWindow| w.saved("once-over")["wrist"].clone();
    girth_by_key(&mut w, "6 1/4");
    assert!(w.saved_text().contains("girth: \"6 1/4\""));
    // 6.25 x 25.4 = 158.75; 0.4 of it is 63.5.
    let wrist = girth(&mut w);
    assert_eq!((&wrist["girth_mm"], &wrist["width_limit_mm"]), (&158.75.into(), &63.5.into()));
    w.tap(name::GIRTH);
    w.write("15.5 cm");
    w.tap_sheet(50.0, 20.0); // the field is left by tapping elsewhere
    assert!(w.saved_text().contains("girth: \"15.5 cm\""));
    assert_eq!(girth(&mut w)["girth_mm"], 155.0);
    w.type_into(name::GIRTH, "155");
    assert_eq!(girth(&mut w)["girth_mm"], 155.0);
    w.type_into(name::GIRTH, "6 1/4");
    assert!(w.saved_text().contains("girth: \"6 1/4\""));
    w.type_into(name::GIRTH, "1.55");
    assert_eq!(girth(&mut w)["girth_mm"], 158.75, "a doubtful girth changes nothing");
    w.type_into(name::GIRTH, "1.55");
    w.tap("Yes, 155 mm");
    assert_eq!(girth(&mut w)["girth_mm"], 155.0);
}

#[test]
fn a_girth_typed_in_inches_is_the_same_after_five_windows() {
    let shop = sample_shop();
    let file = order_file(shop.path(), "02-classic");
    let mut w = TestWindow::on(&file);
    girth_by_key(&mut w, "6 1/4");
    w.save();
    drop(w);
    for _ in 0..5 {
        let mut w = TestWindow::on(&file);
        w.press_all(&[Key::N, Key::ArrowUp]);
        w.save();
        w.undo();
        assert!(w.saved_text().contains("girth: \"6 1/4\""));
    }
}

#[test]
fn at_rest_no_frame_is_asked_for() {
    let mut w = TestWindow::on_sample("03-full");
    w.wait_until("rest", |w| w.is_at_rest());
    w.rest(3.0);
    assert!(w.is_at_rest());
}

#[test]
fn a_damaged_file_is_told_and_left_as_it_is() {
    let shop = sample_shop();
    let file = order_file(shop.path(), "half");
    let text = "(version: 1, piece: (oval: (len";
    std::fs::write(&file, text).unwrap();
    let mut w = TestWindow::on(&file);
    assert!(w.says("half.ron"), "{}", w.seen().all());
    w.tap(name::UNDERSTOOD);
    assert!(w.close());
    assert_eq!(std::fs::read_to_string(&file).unwrap(), text);
}

#[test]
fn enter_begins_with_the_sample_shop_and_its_showpiece() {
    let folder = tempfile::tempdir().unwrap();
    let own = folder.path().join("shop");
    let mut w = TestWindow::with(&Opening::default(), &own, &Settings::default());
    w.press(Key::Enter);
    w.wait_until("a piece in front", |w| w.n_parts() > 0);
    assert!(order_file(&own, "09-showpiece").exists());
}

#[test]
fn a_key_held_down_is_one_step_and_pressed_again_another() {
    let mut w = TestWindow::on_sample("03-full");
    w.press(Key::N);
    let before = w.piece();
    w.hold(Key::R, 4);
    let turned = w.piece();
    w.hold(Key::R, 2);
    assert!(turned != before && w.piece() != turned);
    w.undo();
    assert_eq!(w.piece(), turned);
    w.undo();
    assert_eq!(w.piece(), before);
}

#[test]
fn one_stay_in_a_field_is_one_step_and_the_next_another() {
    let mut w = TestWindow::on_sample("03-full");
    let before = w.order().wearer.clone();
    w.type_into(name::WEARER, "Ana");
    w.type_into(name::WEARER, "Bea");
    assert_eq!(w.order().wearer, "Bea");
    w.undo();
    assert_eq!(w.order().wearer, "Ana");
    w.undo();
    assert_eq!(w.order().wearer, before);
}

#[test]
fn a_chosen_bloom_in_a_window_that_becomes_tiny_harms_nothing() {
    let mut w = TestWindow::on_sample("03-full");
    w.press(Key::N);
    let before = w.piece();
    for size in [egui::vec2(500.0, 400.0), egui::vec2(90.0, 60.0), crate::app::tests::harness::SIZE] {
        w.resize(size);
    }
    assert_eq!(w.piece(), before);
}
