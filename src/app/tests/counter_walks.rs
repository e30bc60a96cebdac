//! Walks at the counter, by pointer and by keys alone: sizes and a purse, a price of her own, a boutonniere with half down and a yes, an
//! interruption, an allergy, tax, whom to call. People and events are invented.

use std::path::{Path, PathBuf};

use egui::{Key, Modifiers};
use serde_json::Value;

use crate::app::tests::harness::{By, TestWindow, name};
use crate::app::tests::sample_shop::{order_file, order_of, sample_shop};
use crate::app::widgets::words::{Counter, Mine};

const BOTH: [By; 2] = [By::Pointer, By::Keys];

fn quote(w: &mut TestWindow) -> Value {
    w.saved("quote")
}

/// The sums of a quote under these keys, in cents.
fn cents<const N: usize>(quote: &Value, keys: [&str; N]) -> [i64; N] {
    keys.map(|key| quote[format!("{key}_cents")].as_i64().unwrap_or_else(|| panic!("no {key} in {quote}")))
}

fn line_cents(quote: &Value) -> Vec<i64> {
    quote["lines"].as_array().unwrap().iter().map(|l| l["cents"].as_i64().unwrap()).collect()
}

#[test]
fn a_budget_picks_the_largest_size_that_fits_and_what_is_taken_is_what_was_shown() {
    for by in BOTH {
        let shop = sample_shop();
        let file = order_of(shop.path(), "Perpetua", "01-petite", |text| text);
        let mut w = TestWindow::on(&file);
        match by {
            By::Pointer => w.tap("Compare sizes"),
            By::Keys => w.press(Key::C),
        }
        w.write_in(by, "Budget", "30");
        let texts = w.seen().texts;
        let cards: Vec<&String> = texts
            .iter()
            .filter(|t| ["Petite", "Classic", "Full", Counter::WITHIN_BUDGET].contains(&t.as_str()))
            .collect();
        assert_eq!(
            cards[cards.len() - 4..],
            ["Petite", "Classic", Counter::WITHIN_BUDGET, "Full"],
            "the Classic alone fits: {texts:?}"
        );
        w.wait_until("the Classic laid out", |w| w.offers(&Counter::choose("Classic")));
        w.choose(by, &Counter::choose("Classic"));
        assert!(w.saved_text().contains("purse: 30") && w.saved_text().contains("size: \"Classic\""));
        let stems = w.saved("stems");
        let to_place: i64 = stems["lines"].as_array().unwrap().iter().map(|l| l["to_place"].as_i64().unwrap()).sum();
        assert_eq!((&stems["lines"][0]["pieces"], to_place), (&5.into(), 0), "as it was shown: none to come");
        assert_eq!(cents(&quote(&mut w), ["total"]), [2700]);
        w.undo();
        assert!(w.saved_text().contains("size: \"Petite\""), "one step back");
        assert_eq!(cents(&quote(&mut w), ["total"]), [2000]);
    }
}

/// A Full is worked out at 35.26 and costs 21.43 (`tests/all/counter.rs` works both by hand): 15.26 below, 1.43 lost.
#[test]
fn twenty_for_a_full_is_saved_with_its_reason_and_what_it_means_is_the_shops_alone() {
    for by in BOTH {
        let mut w = TestWindow::on_sample("03-full");
        w.press(Key::I);
        w.write_in(by, Mine::OWN_PRICE, "20");
        w.write_in(by, "Reason for your price", "an old friend");
        assert!(w.says("$15.26 below the shop price"), "{}", w.seen().all());
        w.press(Key::F2);
        assert!(w.says("$20") && !w.says("below the shop price") && !w.says("an old friend"));
        w.press(Key::F2);
        assert!(w.saved_text().contains("reason: \"an old friend\""));
        let quote = quote(&mut w);
        assert_eq!(cents(&quote, ["below", "total"]), [1526, 2000]);
        assert_eq!(cents(&quote["my_side"], ["cost", "loses"]), [2143, 143]);
    }
}

#[test]
fn a_boutonniere_half_down_and_the_yes_stay_when_a_rush_comes_later() {
    for by in BOTH {
        let mut w = TestWindow::on_sample("02-classic");
        match by {
            By::Pointer => w.tap(Counter::MATCH),
            By::Keys => w.press(Key::X),
        }
        w.press(Key::I);
        w.choose(by, "$18"); // half of 36
        w.choose(by, Mine::CASH);
        w.choose(by, Counter::AGREE);
        let agreed = quote(&mut w);
        assert_eq!(line_cents(&agreed), [2700, 900], "Classic and boutonniere");
        assert_eq!(cents(&agreed, ["total", "deposit", "balance", "paid", "due"]), [3600, 1800, 1800, 1800, 1800]);
        let text = w.saved_text();
        let on = text.split("on: \"").nth(1).and_then(|rest| rest.split('"').next()).unwrap();
        assert_eq!((on.len(), on.matches('-').count()), (10, 2), "the yes has its day: {on}");
        assert!(w.says(Counter::AS_AGREED));
        w.choose(by, Counter::RUSH);
        assert!(w.says(Counter::CHANGED), "what changed since stands beside it");
        // A quarter on top of 36 is 45. What was agreed stays.
        let later = quote(&mut w);
        assert_eq!(cents(&later, ["total", "deposit"]), [3600, 1800]);
        assert_eq!(cents(&later["changes"], ["total"]), [4500]);
        w.undo();
        assert_eq!(quote(&mut w)["changes"], Value::Null);
    }
}

#[test]
fn the_boutonniere_is_worked_on_by_keys_alone_and_the_wrist_piece_left_alone() {
    let mut w = TestWindow::on_sample("02-classic");
    let before = w.piece();
    w.press_all(&[Key::X, Key::X, Key::N, Key::Delete, Key::X]);
    assert_eq!(w.piece(), before);
    let lines = line_cents(&quote(&mut w));
    assert!(lines[0] == 2700 && lines[1] < 900, "{lines:?}");
}

#[test]
fn an_interrupted_order_is_untouched_by_the_second_and_goes_on() {
    let shop = sample_shop();
    let file = order_of(shop.path(), "Philippa", "01-petite", |text| text);
    let mut w = TestWindow::on(&file);
    w.press_all(&[Key::N, Key::ArrowUp, Key::ArrowUp]);
    let first = w.saved_text();
    w.tap(name::NEW); // the first is saved, so one tap
    w.tap(name::WEARER);
    w.write("Rosalba");
    let second = w.saved_text();
    assert!(w.file().ends_with("orders/rosalba-petite.ron"));
    assert!(!second.contains("dress:"), "the dress is still missing");
    w.tap("Open");
    w.write("philippa");
    w.press_like("Philippa \u{2013} ");
    w.wait_until("the first order", |w| w.file() == file);
    assert_eq!(w.saved_text(), first, "the first sketch is as it was");
    w.press_all(&[Key::N, Key::ArrowUp]);
    assert_ne!(w.saved_text(), first, "and goes on");
}

#[test]
fn an_order_that_is_not_saved_is_kept_on_the_way_to_the_next_and_is_selected_on_the_way_back() {
    let shop = sample_shop();
    let file = order_of(shop.path(), "Philippa", "01-petite", |text| text);
    let mut w = TestWindow::on(&file);
    let before = w.n_parts();
    w.tap("Spray rose, white");
    w.tap_sheet(20.0, 18.0);
    w.tap(name::NEW);
    w.wait_for("Save changes to ");
    w.tap_in_dialog("Save");
    w.wait_until("a new order", |w| w.order().wearer.is_empty());
    let first = std::fs::read_to_string(&file).unwrap();
    w.tap(name::WEARER);
    w.write("Rosalba");
    w.save();
    w.tap("Open");
    w.wait_for("Philippa \u{2013} ");
    w.press(Key::Enter); // where one came from is selected
    w.wait_until("the first order", |w| w.file() == file);
    assert_eq!(w.n_parts(), before + 1);
    assert_eq!(std::fs::read_to_string(&file).unwrap(), first);
    w.tap("Spray rose, white");
    w.tap_sheet(20.0, -18.0);
    w.save();
    assert_eq!(w.n_parts(), before + 2);
}

/// An order with baby's breath and an elastic band; what the wearer does not bear is put in by `told`.
pub(crate) fn order_to_stop(shop: &Path, wearer: &str, told: &str) -> PathBuf {
    let file = order_file(shop, wearer);
    let text = format!(
        r#"(
    version: 1, wearer: "{wearer}", {told}
    wrist: (side: left, girth: 150, measured: tape), size: "Classic",
    piece: (oval: (length: 90, width: 54), band: "elastic-medium", parts: [
        (stock: "spray-rose", colour: "white", at: (28, 0)), (stock: "spray-rose", colour: "white", at: (-28, 0)),
        (stock: "spray-rose", colour: "white", at: (0, -13)), (stock: "spray-rose", colour: "white", at: (4, 12)),
        (stock: "spray-rose", colour: "white", at: (0, 0), level: top),
        (stock: "babys-breath", colour: "white", at: (17, -15)), (stock: "babys-breath", colour: "white", at: (-16, 15)),
        (stock: "italian-ruscus", colour: "green", at: (24, 14)),
    ]),
)"#
    );
    std::fs::write(&file, text).unwrap();
    file
}

const STOPPED: &str = "allergies: [\"babys-breath\"], no_latex: true,";

#[test]
fn what_the_wearer_does_not_bear_is_told_by_the_sizes_and_the_yes_until_it_is_seen_to() {
    let shop = sample_shop();
    let mut w = TestWindow::on(&order_to_stop(shop.path(), "Quiteria", STOPPED));
    for page in [Key::I, Key::C] {
        w.press(page);
        assert!(w.says("may contain it") && w.says("Baby's breath"), "{page:?}: {}", w.seen().all());
        w.press(Key::Escape);
    }
    w.press(Key::Q);
    w.tap_all(&[name::ACCEPT, name::ACCEPT]); // the band, then the flower
    let text = w.saved_text();
    assert!(!text.contains("babys-breath\", colour") && !text.contains("band: \"elastic"), "{text}");
    w.press(Key::Escape);
    w.press(Key::I);
    assert!(!w.says("may contain it"));
}

#[test]
fn what_the_wearer_does_not_bear_is_refused_from_the_tray_and_made_another_way_by_keys() {
    let shop = sample_shop();
    let mut w = TestWindow::on(&order_to_stop(shop.path(), "Zenobia", STOPPED));
    let pieces = |w: &mut TestWindow| w.piece();
    let before = pieces(&mut w);
    w.press_all(&[Key::S, Key::Num1, Key::Enter, Key::Escape, Key::Escape]);
    assert_eq!(pieces(&mut w), before, "the first sprig of the tray is the one on the piece: it is refused");
    w.press(Key::J);
    w.choose(By::Keys, "Statice");
    w.wait_until("the other way", |w| w.find(|n| n == Counter::USE_THIS).is_some());
    w.choose(By::Keys, Counter::USE_THIS);
    assert!(!w.saved_text().contains("babys-breath\", colour"));
    w.undo();
    assert!(w.saved_text().contains("babys-breath\", colour"), "one step back");
}

fn set_tax(w: &mut TestWindow, way: &str, percent: &str) {
    w.press(Key::F5);
    w.tap(way);
    w.type_into("Tax percent", percent);
}

#[test]
fn tax_stands_on_top_of_the_price_or_in_it() {
    let mut w = TestWindow::on_sample("02-classic");
    w.press(Key::X); // a boutonniere too
    set_tax(&mut w, "Added on top", "8.25");
    w.press_all(&[Key::Escape, Key::Escape, Key::I]);
    let on_top = quote(&mut w);
    // 0.0825 x 36 = 2.97.
    assert_eq!(cents(&on_top, ["subtotal", "total"]), [3600, 3897]);
    assert_eq!(on_top["tax"]["cents"], 297);
    w.press(Key::F2);
    let hers = w.seen().all();
    assert!(hers.contains("8.25 %") && hers.contains("$38.97") && !hers.contains("cost"), "{hers}");

    let mut w = TestWindow::on_sample("02-classic");
    set_tax(&mut w, "In the price", "20");
    let inside = quote(&mut w);
    // 27 / 1.2 = 22.50.
    assert_eq!(cents(&inside, ["total"]), [2700]);
    assert_eq!(cents(&inside["tax"], ["net"]), [2250]);
    assert_eq!(inside["tax"]["cents"], 450);
    w.tap("No tax");
    assert_eq!(quote(&mut w)["tax"], Value::Null);
}

#[test]
fn those_to_call_are_counted_listed_and_opened_and_one_that_has_answered_is_gone() {
    let shop = sample_shop();
    let told = "wearer: \"Kunigunde\",\n    phone: \"555 0142\", wanted: \"9 May 2026, 2 pm\",";
    let file = order_of(shop.path(), "Kunigunde", "02-classic", |text| text.replace("wearer: \"Kunigunde\",", told));
    let mut w = TestWindow::on(&order_file(shop.path(), "01-petite"));
    let waiting = |w: &mut TestWindow| {
        let name = w.find(|n| n.starts_with("Calls to make (")).unwrap().name;
        name.trim_start_matches("Calls to make (").trim_end_matches(')').parse::<usize>().unwrap()
    };
    w.tap("Open");
    w.wait_until("the orders", |w| waiting(w) > 0);
    w.rest(0.5);
    let before = waiting(&mut w);
    let all = w.seen().texts;
    w.tap_like("Calls to make (");
    assert_ne!(w.seen().texts, all, "those that wait are shown, and what for");
    w.tap("Search the orders");
    w.write("kunigunde");
    let row = w.find(|n| n.starts_with("Kunigunde \u{2013}")).unwrap();
    w.tap(&row.name);
    w.wait_until("her order", |w| w.file() == file);
    w.press(Key::D);
    w.type_into("Dress colour", "teal");
    assert!(w.saved_text().contains("teal"), "what she said when she was called");
    w.press(Key::Escape);
    w.tap("Open");
    w.wait_until("one less to call", |w| waiting(w) + 1 == before);
}

#[test]
fn names_with_accents_and_of_other_scripts_are_found_and_shown() {
    let shop = sample_shop();
    let file = order_file(shop.path(), "names");
    let names =
        ["Zsófia Őry-Németh", "Nguyễn Thị Bích Đào and Þórdís", "Łucja Żółkiewska", "Любовь Шевченко", "Αλεξάνδρα"];
    let [wearer, dance, place, partner, payer] = names;
    let text = format!(
        "(version: 1, wearer: \"{wearer}\", dance: \"{dance}\", place: \"{place}\", partner: \"{partner}\", payer: \"{payer}\", \
         phone: \"O'Brien-de la Cruz\", wrist: (side: left, girth: 150, measured: tape), size: \"Classic\", \
         piece: (oval: (length: 90, width: 54)))"
    );
    std::fs::write(&file, text).unwrap();
    let mut w = TestWindow::on(&order_file(shop.path(), "01-petite"));
    w.press_with(Modifiers::COMMAND, Key::O);
    w.write("ory");
    w.wait_for("Zs\u{f3}fia");
    w.rest(0.5);
    w.tap_like("Zs\u{f3}fia");
    w.wait_until("her order", |w| w.file() == file);
    w.press(Key::Q);
    let shown = w.seen().all();
    for name in names {
        assert!(shown.contains(name), "{name} is not shown");
    }
}
