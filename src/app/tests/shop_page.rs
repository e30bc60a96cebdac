//! The shop page by pointer and keys: what is typed stands in the shop's file, a logo is taken in, nothing of another window is
//! written over.

use std::path::Path;

use egui::Key;

use crate::app::action::Notice;
use crate::app::dialogs::Dialog;
use crate::app::opening::Opening;
use crate::app::page_list::PageId;
use crate::app::shell::file_dialogs::FileQuestion;
use crate::app::tests::harness::TestWindow;
use crate::app::tests::sample_shop::Settings;
use crate::store::Shop;
use crate::units::Currency;

fn said_in_file(w: &TestWindow) -> String {
    std::fs::read_to_string(w.shop().join("shop.ron")).unwrap()
}

fn saved(w: &mut TestWindow) -> Shop {
    w.frames(4);
    w.wait_for_files();
    Shop::open(w.shop()).unwrap()
}

#[test]
fn what_is_typed_about_the_shop_is_saved_and_taken_back_a_field_at_a_time() {
    let mut w = TestWindow::on_sample("02-classic");
    w.press(Key::F5);
    w.type_into("Shop name", "Fern & Quill");
    w.type_into("Phone", "555-0199");
    w.tap("\u{20ac}");
    let shop = saved(&mut w);
    assert_eq!((shop.name(), &*shop.letterhead().phone), ("Fern & Quill", "555-0199"));
    assert_eq!(shop.details().money.as_ref().unwrap().currency, Currency::behind("\u{20ac}"));
    assert_eq!(w.style().prices.currency, Currency::behind("\u{20ac}"));
    let price = w.seen().texts.into_iter().find(|t| t.ends_with("\u{a0}\u{20ac}"));
    assert!(price.is_some(), "the side panel names the price in the new currency");
    w.undo();
    w.undo();
    let shop = saved(&mut w);
    assert_eq!((shop.name(), &*shop.letterhead().phone), ("Fern & Quill", "555-0142"));
    assert_eq!(w.style().prices.currency, Currency::before("$"));
    assert!(w.is_saved(), "no order is touched by it");
}

#[test]
fn what_a_client_would_miss_is_said_and_the_page_is_for_the_shop_alone() {
    let mut w = TestWindow::on_sample("02-classic");
    w.press(Key::F5);
    assert!(!w.says("clients cannot ring"));
    w.type_into("Phone", " ");
    assert!(w.says("No phone yet: clients cannot ring."));
    w.press(Key::F2);
    assert!(!w.says("Tax number") && w.window().page == PageId::Sheet);
    w.press(Key::F5);
    assert!(!w.says("Tax number"));
}

#[test]
fn a_percentage_that_is_none_is_said_and_changes_nothing() {
    let mut w = TestWindow::on_sample("02-classic");
    w.press(Key::F5);
    w.tap("In the price");
    w.type_into("Tax percent", "20");
    w.type_into("Tax percent", "8.25");
    assert_eq!(w.style().prices.tax.as_ref().unwrap().percent, 8.25);
    w.type_into("Tax percent", "20");
    w.type_into("Tax percent", "1000");
    assert!(w.says("Tax is a number from 0 to 100"), "{}", w.seen().all());
    assert_eq!(w.style().prices.tax.as_ref().unwrap().percent, 20.0);
}

fn picture(path: &Path) {
    image::RgbaImage::from_pixel(60, 30, image::Rgba([10, 80, 40, 200])).save(path).unwrap();
}

#[test]
fn a_logo_is_taken_in_from_a_file_and_a_file_that_is_none_is_said() {
    let mut w = TestWindow::on_sample("02-classic");
    w.press(Key::F5);
    let file = w.shop().join("mine.png");
    picture(&file);
    w.window_mut().file_dialogs.answer(FileQuestion::Logo, Some(&file));
    w.frames(2);
    w.wait_until("a logo", |w| w.window().shop.letterhead().logo.is_some());
    let shop = saved(&mut w);
    assert_eq!(shop.details().logo_file.as_deref(), Some("logo.png"));
    assert_eq!(shop.letterhead().logo.as_ref().map(|l| (l.width_px(), l.height_px())), Some((60, 30)));
    std::fs::write(&file, "no picture").unwrap();
    w.window_mut().file_dialogs.answer(FileQuestion::Logo, Some(&file));
    w.frames(2);
    w.wait_for("Choose a .png or .jpg picture.");
    assert!(saved(&mut w).letterhead().logo.is_some(), "the one before stays");
    w.undo();
    assert!(saved(&mut w).letterhead().logo.is_none());
}

#[test]
fn what_another_window_saved_is_not_written_over_and_can_be_taken() {
    let mut w = TestWindow::on_sample("02-classic");
    w.press(Key::F5);
    let other = said_in_file(&w).replace("Quillfern Flowers", "Other Name");
    std::fs::write(w.shop().join("shop.ron"), &other).unwrap();
    w.type_into("Phone", "555-0100");
    w.wait_for("the shop was changed in another window");
    assert_eq!(said_in_file(&w), other);
    w.tap("Take the other");
    w.wait_until("the other name", |w| w.window().shop.name() == "Other Name");
    w.type_into("Phone", "555-0100");
    let shop = saved(&mut w);
    assert_eq!((shop.name(), &*shop.letterhead().phone), ("Other Name", "555-0100"));
}

#[test]
fn a_shop_that_begins_is_asked_three_things_and_takes_what_was_told() {
    let folder = tempfile::tempdir().unwrap();
    let own = folder.path().join("shop");
    let mut w = TestWindow::with(&Opening::default(), &own, &Settings::default());
    w.window_mut().dialog = Dialog::FirstStart(own.clone());
    w.tap("Start my own");
    w.wait_for("Your shop");
    w.type_into("Shop name", "Fern & Quill");
    w.tap("kr");
    w.tap("Start");
    let shop = saved(&mut w);
    assert_eq!((shop.name(), &*shop.letterhead().phone), ("Fern & Quill", ""));
    assert_eq!(shop.style().prices.currency, Currency::behind("kr"));
    assert_eq!(w.window().session.style().prices.currency, Currency::behind("kr"));
    assert!(!matches!(w.window().notice, Some(Notice::Card { .. })));
}
