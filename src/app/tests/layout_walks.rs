//! Walks in the panel of layouts, by pointer and by keys alone: whole layouts from what a size promises, gaps filled, one more, a lock that holds.

use std::path::{Path, PathBuf};

use egui::Key;

use crate::app::tests::harness::{By, TestWindow, name};
use crate::app::tests::sample_shop::{order_file, report, sample_shop};
use crate::app::tests::sketch::{five_accents, widest_step_deg};

const SET_OUT: &str = "Arrange for me";

fn mark(file: &Path) -> f64 {
    report(file, "once-over")["mark"].as_f64().unwrap()
}

/// Opens the panel and waits until the search has begun to offer.
fn open_panel(w: &mut TestWindow, by: By) {
    match by {
        By::Pointer => w.tap(SET_OUT),
        By::Keys => w.press(Key::P),
    }
}

fn wait_for_layouts(w: &mut TestWindow) {
    w.wait_until("a third layout", |w| w.find(|n| n.starts_with("Use 3: ")).is_some());
}

#[test]
fn an_uneven_accent_is_evened_out_in_the_panel_in_one_step() {
    let shop = sample_shop();
    let file = five_accents(shop.path());
    let before = mark(&file);
    for by in [By::Keys, By::Pointer] {
        let mut w = TestWindow::on(&file);
        let sketched = w.piece();
        open_panel(&mut w, by);
        match by {
            By::Keys => w.press(Key::E),
            By::Pointer => w.tap("Space evenly"),
        }
        w.wait_until("what was evened out", |w| w.piece() != sketched);
        assert_eq!(widest_step_deg(&w.save()), 72.0, "{by:?}");
        assert!(mark(&file) >= before, "the mark did not fall");
        w.undo();
        assert_eq!(widest_step_deg(&w.save()), 92.0, "{by:?}");
    }
}

/// A Classic on which nothing lies yet.
fn bare_classic(shop: &Path) -> PathBuf {
    let text = std::fs::read_to_string(order_file(shop, "02-classic")).unwrap();
    let (head, rest) = text.split_once("parts: [").unwrap();
    let (_, tail) = rest.split_once("\n        ],").unwrap();
    let file = order_file(shop, "bare");
    std::fs::write(&file, format!("{head}parts: [],{tail}")).unwrap();
    file
}

#[test]
fn a_classic_without_a_part_is_set_out_alike_by_keys_and_by_pointer() {
    let shop = sample_shop();
    let file = bare_classic(shop.path());
    let mut marks = Vec::new();
    for by in [By::Keys, By::Pointer] {
        let mut w = TestWindow::on(&file);
        assert_eq!(w.n_parts(), 0);
        open_panel(&mut w, by);
        wait_for_layouts(&mut w);
        match by {
            By::Keys => w.press(Key::Num1),
            By::Pointer => drop(w.tap_like("Use 1: ")),
        }
        // Five heads of 30 mm on the oval of 90 x 54: 5 x 15^2 / (45 x 27) = 0.93.
        let fullness = w.saved("once-over")["cover"]["fullness"].as_f64().unwrap();
        assert!((fullness - 5.0 * 225.0 / (45.0 * 27.0)).abs() < 0.01, "{fullness}");
        marks.push(mark(&file));
        w.undo();
        w.save();
        assert_eq!(w.n_parts(), 0, "one step back");
    }
    assert!(marks[0] > 90.0 && marks[0] == marks[1], "{marks:?}");
}

#[test]
fn what_is_locked_stays_to_the_last_digit_while_the_rest_is_laid_anew() {
    let shop = sample_shop();
    let mut w = TestWindow::on(&order_file(shop.path(), "02-classic"));
    w.press_all(&[Key::N, Key::K]);
    let locked = w.piece().parts().iter().find(|p| p.locked).unwrap().clone();
    let before = w.piece();
    open_panel(&mut w, By::Keys);
    wait_for_layouts(&mut w);
    w.press(Key::Num2);
    let after = w.piece();
    assert_ne!(after, before, "it was laid anew");
    assert!(after.parts().iter().any(|p| (p.centre, p.locked) == (locked.centre, true)), "{locked:?}");
}

#[test]
fn one_more_and_all_gaps_filled_are_one_step_each_and_raise_the_mark() {
    let shop = sample_shop();
    let file = order_file(shop.path(), "05-bare-spots");
    let mut w = TestWindow::on(&file);
    w.save();
    let (n, before) = (w.n_parts(), mark(&file));
    w.press(Key::P);
    w.press(Key::H);
    w.wait_until("something that fits", |w| w.find(|name| name.starts_with("Use 1: ")).is_some());
    w.press(Key::Num1);
    assert_eq!(w.n_parts(), n + 1);
    w.undo();
    assert_eq!(w.n_parts(), n);
    w.tap("Fill gaps");
    w.wait_until("filled gaps", |w| w.n_parts() > n);
    w.tap(name::SAVE);
    w.wait_until_saved();
    assert!(w.n_parts() > n && mark(&file) > before);
    w.tap(name::UNDO);
    assert_eq!(w.n_parts(), n);
}
