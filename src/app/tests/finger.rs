//! Under the finger: nothing moves between a press and its release, trays scroll without a bloom being taken, and no card lies on a
//! button.

use egui::{Event, Key, Modifiers, MouseWheelUnit, Pos2, Rect, pos2, vec2};

use super::hands::button;
use super::harness::{TestWindow, name};
use crate::app::action::{Action, Notice};
use crate::app::sheet::layouts::SearchStage;

/// Every name that can be tapped, and where it lies.
fn places(w: &TestWindow) -> Vec<(String, Rect)> {
    let mut all: Vec<(String, Rect)> =
        w.all_named().into_iter().filter(|t| t.is_one() && t.rect.is_finite()).map(|t| (t.name, t.rect)).collect();
    all.sort_by(|a, b| a.0.cmp(&b.0));
    all
}

fn press(w: &mut TestWindow, at: Pos2) {
    w.event(Event::PointerMoved(at));
    w.frames(1);
    w.event(button(at, true));
}

fn release(w: &mut TestWindow, at: Pos2) {
    w.event(button(at, false));
    w.frames(3);
}

/// The wrist size is written and not taken yet; a tap on a check takes it, which changes what is found. The check is still under the
/// finger when it is let go, and it is the one that opens.
#[test]
fn a_field_left_by_a_press_moves_nothing_before_the_release() {
    let mut w = TestWindow::on_sample("03-full");
    w.tap(name::GIRTH);
    w.press_with(Modifiers::COMMAND, Key::A);
    w.write("122");
    let check = w.find(|n| n.contains("check") && n.contains("passed")).unwrap();
    press(&mut w, check.rect.center());
    let before = places(&w);
    w.frames(4);
    assert_eq!(places(&w), before, "nothing moves while it is pressed");
    assert_ne!(w.order().wrist.girth_mm(), 122.0, "it is not taken yet");
    release(&mut w, check.rect.center());
    assert_eq!(w.order().wrist.girth_mm(), 122.0, "it is taken by now");
    assert!(w.window().sheet.checks.passed, "and what was tapped was done");
}

/// The same where the press goes into another field, which takes the keyboard at once.
#[test]
fn a_field_left_for_another_is_taken_at_the_release_or_when_the_press_is_no_tap_any_more() {
    for rests in [false, true] {
        let mut w = TestWindow::on_sample("03-full");
        w.tap(name::GIRTH);
        w.press_with(Modifiers::COMMAND, Key::A);
        w.write("122");
        let at = w.place_of(name::WEARER);
        press(&mut w, at);
        w.rest(0.6);
        assert_ne!(w.order().wrist.girth_mm(), 122.0, "it is not taken while it is pressed");
        if rests {
            w.rest(1.4);
            assert_eq!(w.order().wrist.girth_mm(), 122.0, "a hand that rests on the screen keeps nothing waiting");
        }
        release(&mut w, at);
        assert_eq!(w.order().wrist.girth_mm(), 122.0, "rests: {rests}");
    }
}

/// The search ends and a still better layout comes while *Stop* is pressed: what is let go of is *Stop* still, or nothing.
#[test]
fn what_a_search_finds_moves_nothing_under_the_finger() {
    let mut w = TestWindow::on_sample("02-classic");
    w.press(Key::P);
    w.wait_until("a third layout", |w| w.find(|n| n.starts_with("Use 3: ")).is_some());
    let stop = w.place_of("Stop");
    let close = w.find(|n| n == "Close").unwrap().rect;
    press(&mut w, stop);
    let cards = w.window().sheet.layouts.as_ref().unwrap().cards.len();
    let piece = w.piece();
    // Time in which the search goes on: two seconds of frames would show a better one, and its end.
    for _ in 0..10 {
        std::thread::sleep(std::time::Duration::from_millis(30));
        w.frames(1);
    }
    assert_eq!(w.window().sheet.layouts.as_ref().unwrap().cards.len(), cards, "nothing comes while it is pressed");
    release(&mut w, stop);
    let layouts = w.window().sheet.layouts.as_ref().unwrap();
    assert_eq!(layouts.stage, SearchStage::Stopped);
    assert_eq!(w.piece(), piece, "no layout was taken");
    assert_eq!(w.find(|n| n == "Close").unwrap().rect, close, "the others stay where they were without it");
}

/// Said by a worker in the moment between press and release.
#[test]
fn a_card_waits_until_the_finger_is_off() {
    let mut w = TestWindow::on_sample("02-classic");
    let at = w.place_of("Matching boutonniere");
    press(&mut w, at);
    w.window_mut().with_files(|_| (), |w, _, ()| w.say("The disk is full. Make room, then save again."));
    w.rest(0.6);
    assert!(!w.seen_now().says("The disk is full"));
    release(&mut w, at);
    assert!(w.order().partner_piece.is_some(), "what was tapped was done");
    w.wait_for("The disk is full");
}

fn tray(w: &TestWindow) -> Vec<(String, f32)> {
    let goods = w.all_named().into_iter().filter(|t| t.is_one() && t.name.contains(", "));
    let in_tray = |t: &super::harness::Target| t.rect.size() == vec2(104.0, 112.0);
    goods.filter(in_tray).map(|t| (t.name, t.rect.min.x)).collect()
}

fn first_in_tray(w: &TestWindow) -> (String, f32) {
    tray(w).into_iter().min_by(|a, b| a.1.total_cmp(&b.1)).unwrap()
}

#[test]
fn a_tray_scrolls_by_wheel_arrows_and_drag_and_no_bloom_is_taken() {
    let mut w = TestWindow::on_sample("06-empty");
    w.frames(2);
    let (first, at_first) = first_in_tray(&w);
    let x = |w: &TestWindow| tray(w).into_iter().find(|(name, _)| *name == first).map(|(_, x)| x);
    let middle = w.place_of(&first);

    w.tap("Scroll on");
    w.frames(10);
    let after_arrow = x(&w).unwrap();
    assert!(after_arrow < at_first - 300.0, "an arrow scrolls by most of what is seen: {after_arrow}");
    w.tap("Scroll back");
    w.frames(10);
    assert_eq!(x(&w), Some(at_first));

    w.event(Event::PointerMoved(middle));
    let wheel = Event::MouseWheel {
        unit: MouseWheelUnit::Point,
        delta: vec2(0.0, -120.0),
        phase: egui::TouchPhase::Move,
        source: egui::MouseWheelSource::Wheel,
        modifiers: Modifiers::NONE,
    };
    w.event(wheel);
    w.frames(10);
    let after_wheel = x(&w).unwrap();
    assert!(after_wheel < at_first - 60.0, "the wheel scrolls it: {after_wheel}");

    let from = middle + vec2(300.0, 0.0);
    w.drag_between(from, from - vec2(200.0, 6.0));
    let after_drag = x(&w).unwrap();
    assert!((after_drag - (after_wheel - 200.0)).abs() < 20.0, "it follows the finger: {after_wheel} {after_drag}");
    assert_eq!(w.n_parts(), 0);
    assert!(w.says("Tap a flower below"), "nothing was picked");

    // Upward, a bloom is taken to the wrist.
    let (name, _) = tray(&w).into_iter().find(|(_, x)| *x > 400.0).unwrap();
    let from = w.place_of(&name);
    let to = w.on_screen(0.0, 0.0);
    w.drag_between(from, to);
    assert_eq!(w.n_parts(), 1, "{name} was dragged to the wrist");
}

#[test]
fn trays_begin_at_their_beginning_for_every_order_and_keep_their_order_while_blooms_are_placed() {
    let mut w = TestWindow::on_sample("06-empty");
    w.frames(2);
    let whole = tray(&w);
    w.tap("Scroll on");
    w.frames(10);
    assert_ne!(tray(&w), whole);
    w.press_with(Modifiers::COMMAND, Key::N);
    w.wait_until("a new order", |w| w.file_is_none());
    w.frames(6);
    assert_eq!(first_in_tray(&w).1, whole.iter().map(|(_, x)| *x).fold(f32::INFINITY, f32::min));

    // A bloom that the size does not promise: it would have gone to the front of the tray.
    let names = |w: &TestWindow| tray(w).into_iter().map(|(name, _)| name).collect::<Vec<_>>();
    let before = names(&w);
    let last = before.iter().rev().find(|name| w.all_named().iter().any(|t| t.name == **name && t.rect.max.x < 900.0));
    let last = last.unwrap().clone();
    w.tap(&last);
    w.tap_sheet(10.0, 0.0);
    assert_eq!(w.n_parts(), 1);
    assert_eq!(names(&w), before);
}

#[test]
fn sizes_stay_while_a_flower_was_picked_and_its_colours_are_offered_beside_them() {
    let mut w = TestWindow::on_sample("02-classic");
    let petite = w.find(|n| n == "Petite").unwrap().rect;
    let (first, _) = first_in_tray(&w);
    let colours = w.new_after(|w| w.tap(&first));
    assert_eq!(w.find(|n| n == "Petite").unwrap().rect, petite);
    assert!(colours.len() > 1, "its colours come beside them: {colours:?}");
    let other = colours.last().unwrap();
    w.tap(other);
    assert!(w.says(&format!(", {other}. Tap the wrist")));
}

/// The card of a size in doubt, of a full disk, of a flower that is not borne: on every page, with nothing to be tapped under it.
#[test]
fn no_card_lies_on_a_button() {
    for key in [None, Some(Key::Q), Some(Key::I), Some(Key::C), Some(Key::Y), Some(Key::D), Some(Key::J)] {
        let mut w = TestWindow::on_sample("08-boutonniere");
        if let Some(key) = key {
            w.press(key);
        }
        let offer = Some(("Save a copy".to_owned(), Box::new(Action::SaveCopy)));
        let words = "Not saved: this order is open in another window. Here you can look and try, and save a copy.";
        w.window_mut().notice = Some(Notice::Card { words: words.to_owned(), offer });
        w.frames(4);
        let own = [w.find(|n| n == "Save a copy").unwrap(), w.find(|n| n == "Cancel").unwrap()];
        let card = own[0].rect.union(own[1].rect);
        if key.is_none() {
            let is_other = |name: &str| !["Save a copy", "Cancel", name::SHEET].contains(&name);
            let under: Vec<_> =
                places(&w).into_iter().filter(|(name, at)| is_other(name) && at.intersects(card.expand(8.0))).collect();
            assert!(under.is_empty(), "{under:?} under {card:?}");
        }
        // What a page scrolls away under the strip is not there to be tapped.
        let (order, names) = (w.order(), w.names());
        w.tap_at(pos2(card.max.x + 60.0, card.center().y));
        assert_eq!((w.order(), w.names()), (order, names), "{key:?}: a tap on the card does nothing");
    }
}
