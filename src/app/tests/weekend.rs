//! The weekend at a glance: the sample weekend of sixty orders, with the sums that `tests/all/weekend.rs` works out by hand.

use std::fs;
use std::path::Path;

use egui::Key;

use crate::app::tests::harness::TestWindow;
use crate::app::tests::sample_shop::order_file;
use crate::app::widgets::today::tests::stand_still;

/// The sample weekend in a folder of its own.
fn quayside() -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    let from = Path::new(env!("CARGO_MANIFEST_DIR")).join("samples/quayside");
    fs::create_dir(folder.path().join("orders")).unwrap();
    for name in ["shop.ron", "stock.ron"] {
        fs::copy(from.join(name), folder.path().join(name)).unwrap();
    }
    for order in fs::read_dir(from.join("orders")).unwrap() {
        let order = order.unwrap();
        fs::copy(order.path(), folder.path().join("orders").join(order.file_name())).unwrap();
    }
    folder
}

#[test]
fn the_weekend_is_seen_at_a_glance_and_follows_who_is_at_the_bench() {
    stand_still();
    let folder = quayside();
    let mut w = TestWindow::on(&order_file(folder.path(), "101"));
    w.press(Key::F12);
    w.wait_for("Quayside Prom, Sat 9 May 2026: 60 orders");
    for told in [
        "Classic, white",
        "24",
        "$2120",
        "3 h 16",
        "Tidewater Stems",
        "$501",
        "23.6 %",
        "7 bunches, 56 heads left over",
    ] {
        assert!(w.says(told), "{told}");
    }
    assert!(w.says("too late: order by Sat 2 May 2026"), "today is in December");
    w.tap("Bows ahead");
    w.wait_for("16 min");
    w.tap("Longer day");
    w.wait_for("1 h 44");
    assert!(w.says("10 min: fits"), "one more Petite");
}

#[test]
fn the_papers_of_the_weekend_stand_in_a_folder_of_their_own() {
    stand_still();
    let folder = quayside();
    for n in 105..=160 {
        fs::remove_file(order_file(folder.path(), &n.to_string())).unwrap();
    }
    let mut w = TestWindow::on(&order_file(folder.path(), "101"));
    w.press(Key::F12);
    w.wait_for("4 orders");
    w.tap("Make its papers");
    w.wait_for("6 papers ready in");
    let made = folder.path().join("papers/quayside-prom-2026-05-09");
    for name in
        ["labels.pdf", "labels-frame.pdf", "market-list.pdf", "market-list.csv", "bench-day.txt", "calendar.ics"]
    {
        assert!(fs::metadata(made.join(name)).unwrap().len() > 100, "{name}");
    }
    assert!(fs::read_to_string(made.join("market-list.csv")).unwrap().starts_with("stock,colour,heads"));
}
