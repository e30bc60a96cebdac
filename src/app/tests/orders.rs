//! The orders of the shop as a table: what is due first, found in any spelling, reached by keys and by a screen reader.

use std::collections::BTreeSet;
use std::path::PathBuf;
use std::sync::Arc;

use egui::accesskit::Role;
use egui::{Event, Key, Modifiers, PointerButton};
use egui_kittest::kittest::NodeT as _;

use crate::app::page_list::PageId;
use crate::app::tests::harness::{TestWindow, name};
use crate::app::tests::many_orders;
use crate::app::tests::sample_shop::{order_file, order_of, report, sample_shop};
use crate::app::widgets::today::tests::stand_still;
use crate::book::OrderState;
use crate::store::{Shop, order_from_text};

/// The rows in sight, as a screen reader is told of them: which of all each is, its words, whether it has the keyboard.
fn in_sight(w: &TestWindow) -> Vec<(usize, String, bool)> {
    let nodes = w.harness.root().children_recursive();
    let rows = nodes.filter(|node| node.accesskit_node().role() == Role::ListBoxOption);
    let told = rows.filter_map(|node| {
        let of = node.accesskit_node();
        Some((of.data().position_in_set()?, of.label()?, node.is_focused()))
    });
    told.collect()
}

/// A window on the sample shop with its list of orders open and read.
fn on_the_list(shop: &std::path::Path) -> TestWindow {
    let mut w = TestWindow::on(&order_file(shop, "01-petite"));
    w.press_with(Modifiers::COMMAND, Key::O);
    w.wait_until("the orders", |w| !in_sight(w).is_empty());
    w.frames(2);
    w
}

/// A window on so many made-up orders.
fn on_many(n: usize) -> (tempfile::TempDir, TestWindow) {
    let shop = sample_shop();
    let mut w = on_the_list(shop.path());
    let rows = many_orders::rows(n, &w.window().shop.clone());
    w.window_mut().pages.Orders.take_rows(rows, Vec::new());
    w.frames(2);
    (shop, w)
}

#[test]
fn what_is_due_first_stands_first_and_what_is_over_only_when_it_is_asked_for() {
    stand_still();
    let (_shop, mut w) = on_many(120);
    let days: Vec<String> = in_sight(&w).into_iter().map(|(_, name, _)| name).collect();
    assert!(days[0].contains("22 Nov 2026"), "the one that is late longest: {days:?}");
    assert!(days.iter().all(|name| !name.contains("collected") && !name.contains("cancelled")), "{days:?}");
    w.tap("Cancelled");
    let cancelled = in_sight(&w);
    assert!(!cancelled.is_empty() && cancelled.iter().all(|(_, name, _)| name.contains("cancelled")));
    w.tap("All");
    w.tap("Sort by Wearer");
    assert!(in_sight(&w)[0].1.starts_with("Beryl"), "{:?}", in_sight(&w));
    w.tap("Sort by Wearer");
    assert!(in_sight(&w)[0].1.starts_with("Zs\u{f3}fia"), "the other way round");
}

#[test]
fn every_one_of_ten_thousand_orders_is_reached_by_keys_and_told_to_a_screen_reader() {
    stand_still();
    let (_shop, mut w) = on_many(10_000);
    w.tap("All");
    w.press(Key::End);
    let focused = |w: &TestWindow| in_sight(w).into_iter().find(|(.., focused)| *focused);
    assert_eq!(focused(&w).map(|(place, ..)| place), Some(9_999), "{:?}", in_sight(&w));
    w.press(Key::Home);
    let mut reached = BTreeSet::new();
    for _ in 0..=10_000 / 8 {
        reached.extend(in_sight(&w).into_iter().map(|(place, ..)| place));
        w.harness.key_press(Key::PageDown);
        w.harness.step();
        w.harness.step();
    }
    assert_eq!((reached.len(), reached.last()), (10_000, Some(&9_999)));
    w.press_all(&[Key::ArrowUp, Key::ArrowUp, Key::ArrowDown]);
    assert_eq!(focused(&w).map(|(place, ..)| place), Some(9_998));
}

#[test]
fn what_is_typed_while_a_row_has_the_keyboard_is_searched_for() {
    stand_still();
    let (_shop, mut w) = on_many(60);
    w.press_all(&[Key::ArrowDown, Key::ArrowDown]);
    for letter in ["w", "a", "n"] {
        let key = Key::from_name(&letter.to_uppercase()).unwrap();
        let press =
            |pressed| Event::Key { key, physical_key: None, pressed, repeat: false, modifiers: Modifiers::NONE };
        w.harness.event(press(true));
        w.event(Event::Text(letter.to_owned()));
        w.event(press(false));
    }
    w.frames(2);
    assert_eq!(w.window().page, PageId::Orders, "no letter of it was a key of the window");
    let names: Vec<String> = in_sight(&w).into_iter().map(|(_, name, _)| name).collect();
    assert!(!names.is_empty() && names.iter().all(|name| name.to_lowercase().contains("wan")), "{names:?}");
}

#[test]
fn a_list_that_arrives_under_a_finger_waits_until_the_finger_is_gone() {
    let shop = sample_shop();
    let mut w = on_the_list(shop.path());
    let second = in_sight(&w)[1].1.clone();
    let at = w.place_of(&second);
    let button =
        |pressed| Event::PointerButton { pos: at, button: PointerButton::Primary, pressed, modifiers: Modifiers::NONE };
    w.event(Event::PointerMoved(at));
    w.event(button(true));
    // The same orders and many more, most of them due before the one that is pressed.
    let mut rows: Vec<_> = w.window().pages.Orders.rows().to_vec();
    rows.extend(many_orders::rows(300, &w.window().shop.clone()).iter().cloned());
    w.window_mut().pages.Orders.take_rows(Arc::new(rows), Vec::new());
    w.frames(2);
    assert_eq!(w.place_of(&second), at, "nothing moves between press and release");
    w.event(button(false));
    w.frames(2);
    assert!(w.window().pages.Orders.rows().len() > 300, "the list is shown now");
    assert_eq!(w.window().pages.Orders.selected_title().as_deref(), Some(title_in(&second)));
}

/// The title of an order in what is told of its row.
fn title_in(told: &str) -> &str {
    told.split(", $").next().unwrap_or_default()
}

#[test]
fn the_first_tap_after_the_list_came_takes_the_row_under_it() {
    let shop = sample_shop();
    let mut w = TestWindow::on(&order_file(shop.path(), "01-petite"));
    w.press_with(Modifiers::COMMAND, Key::O);
    w.wait_until("the orders", |w| in_sight(w).len() > 2);
    let third = in_sight(&w)[2].1.clone();
    w.tap(&third);
    w.tap(&third);
    w.wait_until("that order", |w| w.window().page == PageId::Sheet);
    assert!(third.starts_with(&w.order().title()), "{third}");
}

fn state_of(file: &std::path::Path) -> OrderState {
    let text = std::fs::read_to_string(file).unwrap();
    order_from_text(&text, "", Shop::built_in().stock()).unwrap().state()
}

#[test]
fn an_order_is_marked_in_the_table_and_the_mark_is_taken_back_and_made_again() {
    let shop = sample_shop();
    let file = order_of(shop.path(), "Philippa", "02-classic", |text| text);
    let mut w = on_the_list(shop.path());
    w.write("philippa");
    w.tap_like("Philippa \u{2013} ");
    w.wait_until("her order", |w| w.window().page == PageId::Sheet);
    w.tap(name::NEW);
    w.press_with(Modifiers::COMMAND, Key::O);
    w.wait_for("Philippa \u{2013} ");
    w.tap("Mark made");
    w.wait_until("a mark", |_| state_of(&file) == OrderState::Made);
    w.frames(3);
    w.undo();
    w.wait_until("no mark", |_| state_of(&file) == OrderState::Asked);
    w.frames(3);
    w.redo();
    w.wait_until("the mark again", |_| state_of(&file) == OrderState::Made);
}

#[test]
fn the_open_order_is_marked_where_it_is_open_and_saved_when_nothing_else_waits() {
    let shop = sample_shop();
    let mut w = on_the_list(shop.path());
    let file = w.file();
    w.write("petite");
    w.frames(2);
    w.tap("Mark collected");
    w.wait_until("a mark", |_| state_of(&file) == OrderState::Collected);
    assert_eq!(w.order().state(), OrderState::Collected);
    w.press(Key::Escape);
    w.press(Key::Escape);
    w.undo();
    assert_eq!(w.order().state(), OrderState::Asked, "a step of the order");
}

#[test]
fn a_copy_for_another_wearer_is_a_new_order_that_asks_who_wears_it() {
    let shop = sample_shop();
    let told = "wearer: \"Philippa\",\n    phone: \"555 0142\", party: \"Linden wedding\",";
    let file = order_of(shop.path(), "Philippa", "02-classic", |text| text.replace("wearer: \"Philippa\",", told));
    let before = std::fs::read_to_string(&file).unwrap();
    let mut w = on_the_list(shop.path());
    w.write("philippa");
    w.frames(2);
    w.tap("For another wearer");
    w.wait_until("the copy", |w| w.window().session.path().is_none());
    w.frames(3);
    w.write("Rosalba");
    w.press(Key::Enter);
    let copy = w.save();
    let (first, second) = (report(&file, "stems"), report(&copy, "stems"));
    assert_eq!(first["lines"], second["lines"], "the same piece");
    let order = w.order();
    assert_eq!((order.wearer.as_str(), order.party.as_str()), ("Rosalba", "Linden wedding"));
    assert_eq!(order.people.phone, "");
    assert_eq!(std::fs::read_to_string(&file).unwrap(), before, "the first is as it was");
}

#[test]
fn a_party_is_named_shown_alone_and_summed() {
    let shop = sample_shop();
    let files: Vec<PathBuf> =
        ["Philippa", "Rosalba"].iter().map(|who| order_of(shop.path(), who, "02-classic", |text| text)).collect();
    let mut w = on_the_list(shop.path());
    for who in ["philippa", "rosalba"] {
        w.tap("Search the orders");
        w.press_with(Modifiers::COMMAND, Key::A);
        w.write(who);
        w.frames(2);
        w.type_into("Party", "Linden wedding");
        w.wait_until("a party", |w| w.says("Show party"));
    }
    let totals: Vec<i64> = files.iter().map(|file| report(file, "quote")["total_cents"].as_i64().unwrap()).collect();
    w.tap("Show party");
    let sum =
        crate::paperwork::short_price(crate::units::Cents(totals.iter().sum()), &crate::units::Currency::before("$"));
    assert!(w.says(&format!("2 orders, {sum}")), "{}", w.seen().all());
    assert_eq!(in_sight(&w).len(), 2);
    w.tap("Party bill");
    w.wait_for("Bill saved");
    assert!(shop.path().join("papers/linden-wedding/linden-wedding-party-bill.pdf").exists());
    w.tap("All orders");
    assert!(in_sight(&w).len() > 2);
}

/// Two computers share the folder: both gave the same number. One of the orders gets the next free one, and the step goes back.
#[test]
fn of_two_orders_with_one_number_the_selected_one_gets_its_own() {
    let shop = sample_shop();
    for wearer in ["Hyacintha", "Perpetua"] {
        order_of(shop.path(), wearer, "02-classic", |text| {
            let version = text.find("version: ").unwrap();
            let end = version + text[version..].find(',').unwrap();
            format!("{}version: 3, number: 104{}", &text[..version], &text[end..])
        });
    }
    let mut w = on_the_list(shop.path());
    assert!(w.says("2 orders have No. 104"), "{}", w.seen().all());
    w.write("hyacintha");
    w.wait_for("Another order is No. 104 too.");
    w.tap("New number");
    w.wait_until("one number each", |w| !w.says("have No. 104"));
    let number = |name: &str| report_number(shop.path(), name);
    assert_eq!((number("hyacintha"), number("perpetua")), (Some(105), Some(104)));
    assert!(!w.offers("New number"));
    w.undo();
    w.wait_until("as it was", |w| w.says("2 orders have No. 104"));
    assert_eq!(number("hyacintha"), Some(104));
}

fn report_number(shop: &std::path::Path, name: &str) -> Option<u32> {
    let text = std::fs::read_to_string(order_file(shop, name)).unwrap();
    order_from_text(&text, name, Shop::open(shop).unwrap().stock()).unwrap().number
}
