//! What the window opens on: where one was, on one's own order, and nothing of another client where the client sees the screen.

use egui::{Key, Modifiers};

use crate::app::opening::Opening;
use crate::app::tests::harness::{TestWindow, name};
use crate::app::tests::sample_shop::{Settings, order_file, sample_shop};
use crate::store::Shop;

#[test]
fn the_window_opens_on_the_order_that_was_open_last() {
    let shop = sample_shop();
    let (own, opening) =
        (shop.path().join("own"), Opening { shop: Some(shop.path().to_owned()), ..Opening::default() });
    let first = TestWindow::with(&opening, &own, &Settings::default());
    assert_eq!(first.file(), order_file(shop.path(), "09-showpiece"), "the sample shop begins with its showpiece");
    drop(first);
    let file = order_file(shop.path(), "02-classic");
    let mut second = TestWindow::on(&file);
    second.press_with(Modifiers::COMMAND, Key::S);
    let settings = second.settings();
    assert!(second.close());
    drop(second);
    let third = TestWindow::with(&opening, &own, &settings);
    assert_eq!(third.file(), file);
}

#[test]
fn a_shop_of_ones_own_opens_on_a_new_order_and_then_on_ones_own() {
    let folder = tempfile::tempdir().unwrap();
    let own = folder.path().join("shop");
    Shop::begin(&own, "Q").unwrap();
    let open = || TestWindow::with(&Opening::default(), &own, &Settings::default());
    let mut first = open();
    assert_eq!(first.n_parts(), 0, "nothing of a demonstration");
    first.type_into(name::WEARER, "Rosalba");
    let file = first.save();
    assert!(first.close());
    drop(first);
    let second = open();
    assert_eq!((second.file(), second.order().wearer.as_str()), (file, "Rosalba"));
}

#[test]
fn where_the_client_sees_the_screen_it_opens_on_nobodys_order_and_the_last_one_is_a_step_away() {
    let folder = tempfile::tempdir().unwrap();
    let own = folder.path().join("shop");
    Shop::begin(&own, "Q").unwrap();
    let mut first = TestWindow::with(&Opening::default(), &own, &Settings::default());
    first.type_into(name::WEARER, "Rosalba");
    let file = first.save();
    first.press(Key::F2);
    let settings = first.settings();
    assert!(first.close());
    drop(first);
    let mut second = TestWindow::with(&Opening::default(), &own, &settings);
    let seen = second.seen();
    assert!(!seen.says("Rosalba"), "{}", seen.all());
    second.press(Key::F2);
    second.press_with(Modifiers::COMMAND, Key::O);
    second.wait_for("Rosalba");
    second.press(Key::Enter);
    second.wait_until("her order", |w| w.window().session.path() == Some(&*file));
}
