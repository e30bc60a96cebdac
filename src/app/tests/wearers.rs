//! Walks with the wearers, each by pointer and by keys alone: a left hand, hands on wheels, children, two mothers; and the shop's rules.
//! People are invented.

use std::path::Path;

use egui::Key;

use crate::app::tests::harness::{By, TestWindow, name};
use crate::app::tests::sample_shop::{order_of, report, sample_shop};
use crate::piece::{Piece, StyleFigure};

const BOTH: [By; 2] = [By::Pointer, By::Keys];
/// The girth among the questions of the order.
const GIRTH: &str = name::GIRTH;
const AGE: &str = "Child\u{2019}s age";
const WIDTH: StyleFigure = StyleFigure::WidthOfGirth;

/// What a figure of the shop's rules is called on its page.
fn shown(w: &TestWindow, figure: StyleFigure) -> String {
    figure.name(&w.style())
}

fn to_the_order(w: &mut TestWindow, by: By) {
    match by {
        By::Pointer => drop(w.tap_like("Order")),
        By::Keys => w.press(Key::Q),
    }
}

fn limit_mm(file: &Path) -> f64 {
    report(file, "once-over")["wrist"]["width_limit_mm"].as_f64().unwrap()
}

fn mark(file: &Path) -> f64 {
    report(file, "once-over")["mark"].as_f64().unwrap()
}

fn price(file: &Path) -> i64 {
    report(file, "stems")["price_cents"].as_i64().unwrap()
}

fn n_of(file: &Path, role: &str) -> i64 {
    let stems = report(file, "stems");
    let lines = stems["lines"].as_array().unwrap().iter().filter(|l| l["role"] == role);
    lines.map(|l| l["pieces"].as_i64().unwrap()).sum()
}

fn places(piece: &Piece) -> Vec<(f64, f64)> {
    piece.parts().iter().map(|p| (p.centre.x, p.centre.y)).collect()
}

#[test]
fn for_a_left_hand_the_other_wrist_is_proposed_and_the_picture_turns_over() {
    for by in BOTH {
        let mut w = TestWindow::on_sample("03-full");
        let file = w.save();
        let (before, mark_before, price_before) = (places(&w.piece()), mark(&file), price(&file));
        to_the_order(&mut w, by);
        w.choose(by, "Left-handed");
        let text = w.saved_text();
        assert!(text.contains("handed: left") && text.contains("side: left"), "nothing is done before a yes: {text}");
        w.choose(by, name::ACCEPT);
        assert!(w.saved_text().contains("side: right"));
        let mirrored: Vec<(f64, f64)> = before.iter().map(|(x, y)| (*x, 0.0 - y)).collect();
        assert_eq!(places(&w.piece()), mirrored, "the picture turns over");
        assert_eq!((mark(&file), price(&file)), (mark_before, price_before), "nothing else changes");
    }
}

#[test]
fn for_hands_on_wheels_each_thing_is_proposed_by_itself_and_can_be_left_for_now() {
    for by in BOTH {
        let mut w = TestWindow::on_sample("02-classic");
        if by == By::Pointer {
            w.tap("Right");
        }
        to_the_order(&mut w, by);
        w.choose(by, "Pushes a wheelchair");
        let text = w.saved_text();
        assert!(text.contains("pushes_chair: true") && !text.contains("height: 30"), "nothing before a yes: {text}");
        for _ in ["flat", "without tails", "higher up"] {
            w.choose(by, name::ACCEPT);
        }
        for _ in ["the upper arm", "the lapel"] {
            w.choose(by, name::NOT_NOW);
        }
        assert!(!w.offers(name::ACCEPT), "all has been proposed");
        let text = w.saved_text();
        for wanted in ["height: 30", "tails: 0", "offset: 80", "worn: wrist"] {
            assert!(text.contains(wanted), "{wanted}: {text}");
        }
    }
}

#[test]
fn a_child_of_six_gets_a_narrow_oval_and_a_band_that_fits() {
    for by in BOTH {
        let mut w = TestWindow::on_sample("02-classic");
        to_the_order(&mut w, by);
        w.write_in(by, AGE, "6");
        w.write_in(by, GIRTH, "122");
        w.accept_all(by);
        let text = w.saved_text();
        assert!(text.contains("kind: child(6)") && text.contains("width: 48.8"), "the oval follows: {text}");
        assert!(!text.contains("band: \"elastic-medium\""), "no standard elastic: {text}");
        assert_eq!(limit_mm(&w.file()), 48.8, "0.4 of 122");
    }
}

#[test]
fn a_child_of_two_gets_a_ribbon_and_nothing_small() {
    let mut w = TestWindow::on_sample("01-petite");
    w.press(Key::Q);
    w.type_into(AGE, "2");
    w.press_all(&[Key::Escape, Key::Escape, Key::T]);
    for n in [Key::Num1, Key::Num2, Key::Num3, Key::Num4, Key::Num5] {
        w.press_all(&[n, Key::Enter, Key::Escape, Key::Escape]);
    }
    w.press(Key::Q);
    w.tap(name::ACCEPT);
    let text = w.saved_text();
    assert!(text.contains("kind: child(2)") && text.contains("band: \"ribbon-tie\""), "{text}");
    assert_eq!(n_of(&w.file(), "trim"), 0);
}

#[test]
fn two_mothers_have_the_same_heads_and_widths_of_their_own_and_an_operated_arm_carries_nothing() {
    for by in BOTH {
        let shop = sample_shop();
        let right = |text: String| {
            let girth = text.split("girth: ").nth(1).unwrap().split([',', ')']).next().unwrap().to_owned();
            text.replace("side: left", "side: right").replace(&format!("girth: {girth}"), "girth: 150")
        };
        let one = order_of(shop.path(), "Henrike", "02-classic", right);
        let mut w = TestWindow::on(&one);
        to_the_order(&mut w, by);
        w.choose(by, "Avoid right arm");
        w.choose(by, name::ACCEPT);
        w.choose(by, name::ACCEPT);
        let text = w.saved_text();
        for wanted in ["spared_arm: right", "side: left"] {
            assert!(text.contains(wanted), "{wanted}: {text}");
        }
        assert!(!text.contains("band: \"elastic"), "nothing elastic: {text}");
        let two = order_of(shop.path(), "Solveig", "02-classic", |text| text);
        let mut w = TestWindow::on(&two);
        to_the_order(&mut w, by);
        w.choose(by, "sage");
        w.write_in(by, GIRTH, "178");
        assert!(w.saved_text().contains("sage"), "her dress");
        // 0.4 of 150 and of 178.
        assert_eq!((limit_mm(&one), limit_mm(&two)), (60.0, 71.2));
        assert_eq!(n_of(&one, "bloom") + n_of(&two, "bloom"), 10);
        assert_eq!(price(&one) + price(&two), 5400);
        assert!((mark(&one) - mark(&two)).abs() <= 5.0);
    }
}

#[test]
fn the_shops_rules_are_felt_at_once_saved_in_the_shop_and_undone_by_pointer_and_by_keys() {
    let mut w = TestWindow::on_sample("02-classic");
    w.press(Key::G);
    w.write("6 1/4");
    w.press(Key::Enter);
    let file = w.save();
    let rules = w.shop().join("styles/house.ron");
    let width =
        |is: &str| std::fs::read_to_string(&rules).unwrap_or_default().contains(&format!("width_of_girth: {is},"));
    let before = price(&file);
    for by in BOTH {
        match by {
            By::Pointer => w.tap("Rules"),
            By::Keys => w.press(Key::Y),
        }
        let (figure, fresh) = (shown(&w, WIDTH), shown(&w, StyleFigure::FreshTimes));
        w.choose(by, &format!("More: {figure}"));
        w.wait_for_files();
        assert!(width("0.41"), "{by:?}");
        assert_eq!(limit_mm(&file), 65.0875, "0.41 of 158.75");
        w.undo();
        w.wait_for_files();
        assert!(width("0.4"), "{by:?} undone");
        w.write_in(by, &figure, "nine");
        w.wait_for_files();
        assert!(width("0.4"), "what cannot be read changes nothing");
        w.press(Key::Num5);
        w.write_in(by, &fresh, "4");
        w.wait_for_files();
        assert!(std::fs::read_to_string(&rules).unwrap().contains("fresh_times: 4,"));
        assert!(price(&file) > before, "the price follows");
        w.undo();
        w.wait_for_files();
        assert_eq!(price(&file), before);
        w.press_all(&[Key::Num1, Key::Escape, Key::Escape]);
    }
}
