//! Walks with the colour of the dress: typed, tapped, and read in a photo; and the second window from one start to the next.

use std::path::{Path, PathBuf};

use egui::{Key, lerp, pos2};

use crate::app::opening::Opening;
use crate::app::tests::harness::TestWindow;
use crate::app::tests::sample_shop::{Settings, order_file, sample_shop};

/// The dress as it is saved, without spaces: `dress:(hex:"#8b1427",)`.
fn saved_dress(w: &mut TestWindow) -> String {
    let text: String = w.saved_text().split_whitespace().collect();
    let dress = text.split("dress:(").nth(1).and_then(|rest| rest.split(')').next());
    dress.unwrap_or_default().to_owned()
}

#[test]
fn a_dress_by_hex_is_one_step_by_keys_alone_and_a_swatch_takes_its_place() {
    let mut w = TestWindow::on_sample("06-empty");
    let before = saved_dress(&mut w);
    w.press_all(&[Key::D, Key::T]);
    w.write("#8b1427");
    w.press(Key::Enter);
    assert!(w.says("#8b1427"), "{}", w.seen().all());
    assert_eq!(saved_dress(&mut w), "hex:\"#8b1427\",");
    w.undo();
    assert_eq!(saved_dress(&mut w), before);
    w.redo();
    assert_eq!(saved_dress(&mut w), "hex:\"#8b1427\",");
    w.tap("navy");
    assert_eq!(saved_dress(&mut w), "hex:\"#1c2849\",words:\"navy\",");
}

/// A dark red dress beside a blue-green wall, which takes the right third.
fn photo_in(folder: &Path) -> PathBuf {
    let file = folder.join("dress.png");
    let pixel = |x, _| if x < 800 { image::Rgb([0x8b, 0x14, 0x27]) } else { image::Rgb([0x14_u8, 0x5a, 0x64]) };
    image::RgbImage::from_fn(1200, 900, pixel).save(&file).unwrap();
    file
}

#[test]
fn a_photo_named_in_the_call_is_read_where_it_is_tapped_and_saved_as_the_dress() {
    let shop = sample_shop();
    let photo = photo_in(shop.path());
    let mut w = TestWindow::on_with_photo(&order_file(shop.path(), "06-empty"), &photo);
    w.wait_for("#8b1427"); // the middle is read first
    w.frames(5);
    let canvas = w.find(|n| n.starts_with("Photo of the dress")).unwrap().rect;
    w.tap_at(pos2(lerp(canvas.x_range(), 0.85), canvas.center().y));
    w.wait_for("#145a64");
    w.tap("Use this colour");
    assert!(saved_dress(&mut w).starts_with("hex:\"#145a64\""));
}

#[test]
fn a_broken_photo_is_told_and_harms_nothing() {
    let shop = sample_shop();
    let photo = photo_in(shop.path());
    let broken = shop.path().join("broken.png");
    std::fs::write(&broken, &std::fs::read(&photo).unwrap()[..300]).unwrap();
    let file = order_file(shop.path(), "06-empty");
    let before = std::fs::read_to_string(&file).unwrap();
    let mut w = TestWindow::on_with_photo(&file, &broken);
    w.wait_for("broken.png");
    assert!(w.close());
    assert_eq!(std::fs::read_to_string(&file).unwrap(), before);
}

#[test]
fn the_second_window_is_remembered_rests_at_first_and_is_shut_for_the_next_start_too() {
    let shop = sample_shop();
    let opening = Opening { file: Some(order_file(shop.path(), "03-full")), ..Opening::default() };
    let start = |settings: &Settings| {
        let mut w = TestWindow::with(&opening, shop.path(), settings);
        w.frames(3);
        w
    };
    let mut w = start(&Settings::default());
    assert!(!w.has_second());
    w.press(Key::F4);
    assert!(w.has_second() && w.second(Vec::new()).says("$36"), "it shows the price of a Full");
    let settings = w.settings();
    drop(w);
    let mut w = start(&settings);
    assert!(w.has_second(), "remembered");
    assert!(!w.second(Vec::new()).says("$36"), "and rests until it is told to show");
    w.press(Key::F4);
    assert!(w.second(Vec::new()).says("$36"));
    w.press(Key::F4);
    assert!(!w.has_second(), "shown, then shut");
    let settings = w.settings();
    drop(w);
    assert!(!start(&settings).has_second());
}
