//! The first Monday of a new shop, walked by pointer, by keys alone and by taps alone: her name, five prices of her own, an order with its
//! days, a quote from the printer, a yes, a dearer flower; and every paper still tells the agreed amount. A stand-in print command keeps
//! what it is given. The shop and its wearer are invented.

use std::path::{Path, PathBuf};

use egui::{Key, Modifiers};

use crate::app::dialogs::Dialog;
use crate::app::opening::Opening;
use crate::app::tests::harness::{By, TestWindow};
use crate::app::tests::sample_shop::{Settings, report};
use crate::app::tests::stand_ins::{again_with_stand_ins, folder_of_stand_ins};
use crate::app::typing::field::Field;
use crate::app::widgets::paper_words::Papers;
use crate::app::widgets::today::tests::stand_still;
use crate::app::widgets::words::{Counter, Taps};
use crate::sheet::Held;
use crate::store::Shop;

#[path = "../../../tests/all/support/pdf_streams.rs"]
mod pdf_streams;

/// How she works.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Hand {
    Pointer,
    Keys,
    /// Taps, and the keys on the screen.
    Taps,
}

/// A print command that keeps the files it is given beside itself.
const KEEPS_FILES: &str =
    "for file in \"$@\"; do if [ -f \"$file\" ]; then /bin/cp \"$file\" \"$POSYWRIGHT_STAND_INS/\"; fi; done";

/// What she pays for five things of the piece, and how the first row of the stock page is found.
const PRICES: [(&str, &str, &str); 5] = [
    ("spray rose", "Cost a bunch", "19,50"),
    ("waxflower", "Cost a bunch", "11,25"),
    ("italian ruscus", "Cost a bunch", "6,50"),
    ("elastic band, medium", "Cost of one", "1,90"),
    ("clear box, 150", "Cost a piece", "0,85"),
];

#[test]
fn a_new_shop_sells_its_first_piece_by_pointer() {
    with_a_printer("a_new_shop_sells_its_first_piece_by_pointer", Hand::Pointer);
}

#[test]
fn a_new_shop_sells_its_first_piece_by_keys() {
    with_a_printer("a_new_shop_sells_its_first_piece_by_keys", Hand::Keys);
}

#[test]
fn a_new_shop_sells_its_first_piece_by_taps() {
    with_a_printer("a_new_shop_sells_its_first_piece_by_taps", Hand::Taps);
}

fn with_a_printer(test: &str, hand: Hand) {
    let name = format!("app::tests::new_shop::{test}");
    if again_with_stand_ins(&name, &[("lp", KEEPS_FILES)]).is_none() {
        first_monday(hand);
    }
}

fn first_monday(hand: Hand) {
    stand_still();
    let folder = tempfile::tempdir().unwrap();
    let own = folder.path().join("shop");
    let mut w = TestWindow::with(&Opening::default(), &own, &Settings::default());
    w.window_mut().dialog = Dialog::FirstStart(own.clone());
    begin(&mut w, hand, &own);
    first_bloom(&mut w, hand);
    for (goods, field, cost) in PRICES {
        price(&mut w, hand, goods, field, cost);
    }
    let stock = std::fs::read_to_string(own.join("stock.ron")).unwrap();
    assert!(["19.5", "11.25", "6.5", "1.9", "0.85"].iter().all(|cost| stock.contains(cost)), "{stock}");

    order(&mut w, hand);
    let file = w.save();
    assert!(w.says("No. 101"), "{}", w.seen().all());
    let total = report(&file, "quote")["total_cents"].as_i64().unwrap();
    let printed = print(&mut w, hand, "Quote");
    assert_tells(&printed, total, &["Fern Quill", "Mina", "Sat 5 Dec 2026"]);

    show(&mut w, hand, "Price", Key::I);
    press(&mut w, hand, Counter::AGREE);
    w.save();
    price(&mut w, hand, PRICES[0].0, PRICES[0].1, "39,50");
    assert_eq!(report(&file, "quote")["total_cents"].as_i64(), Some(total), "agreed is agreed");
    for paper in ["Quote", "Agreement"] {
        let printed = print(&mut w, hand, paper);
        assert_tells(&printed, total, &["Mina"]);
    }
    show(&mut w, hand, "Price", Key::I);
    assert!(w.says("today it would be"), "on her side stands what it costs now: {}", w.seen().all());
}

/// The three questions of the first start. The keys on the screen lie below them, so by taps the name is told on the shop page.
fn begin(w: &mut TestWindow, hand: Hand, own: &Path) {
    press(w, hand, "Start my own");
    w.wait_for("Your shop");
    match hand {
        Hand::Taps => {
            press(w, hand, "\u{20ac}");
            press(w, hand, "Start");
        }
        Hand::Pointer | Hand::Keys => {
            w.write("Fern Quill"); // its field has the keyboard
            write(w, hand, "Phone", "555-0199");
            press(w, hand, "\u{20ac}");
            press(w, hand, "Start");
        }
    }
    w.frames(4);
    w.wait_for_files();
    w.wait_until("the shop", |w| w.window().shop.folder().is_some());
    if hand == Hand::Taps {
        w.wait_until("the keys on the screen", |w| {
            w.tap(Taps::OFF);
            w.offers(Taps::ON)
        });
        show(w, hand, "Shop", Key::F5);
        write(w, hand, "Shop name", "fern quill");
        write(w, hand, "Phone", "555-0199");
    }
    w.frames(4);
    w.wait_for_files();
    let shop = Shop::open(own).unwrap();
    assert_eq!((shop.name(), &*shop.letterhead().phone), ("Fern Quill", "555-0199"));
    assert_eq!(shop.style().prices.currency.with("6.50"), "6,50\u{a0}\u{20ac}");
}

/// One bloom on the wrist: there is nothing to agree to without.
fn first_bloom(w: &mut TestWindow, hand: Hand) {
    match hand {
        Hand::Keys => w.press_all(&[Key::Escape, Key::B, Key::Num1, Key::Enter, Key::Escape, Key::Escape]),
        Hand::Pointer | Hand::Taps => {
            if !w.offers("Spray rose, white") {
                show(w, hand, "Sketch", Key::Escape);
            }
            // The first tap after the three questions may be lost; a person taps again.
            w.wait_until("a rose in the hand", |w| {
                w.tap("Spray rose, white");
                w.window().sheet.hand.held != Held::Nothing
            });
            w.tap_sheet(0.0, 0.0);
        }
    }
    assert_eq!(w.n_parts(), 1);
}

/// A price of her own, typed with a comma and shown so.
fn price(w: &mut TestWindow, hand: Hand, goods: &str, field: &str, cost: &str) {
    if !w.offers("Search the stock") {
        show(w, hand, "Stock", Key::F7);
    }
    match hand {
        Hand::Keys => {
            w.press(Key::Slash);
            w.press_with(Modifiers::COMMAND, Key::A);
            w.write(goods);
            w.press(Key::Enter);
            w.press(Key::ArrowDown);
            w.press(Key::Enter);
        }
        Hand::Pointer | Hand::Taps => {
            write(w, hand, "Search the stock", goods);
            let row = w.find(|name| name.to_lowercase().starts_with(goods)).unwrap();
            w.tap_at(row.rect.center());
        }
    }
    write(w, hand, field, cost);
    w.frames(4);
    w.wait_for_files();
    assert!(w.says(&format!("{cost}\u{a0}\u{20ac}")), "{goods} at {cost}: {}", w.seen().all());
    press(w, hand, "Close this line");
}

fn order(w: &mut TestWindow, hand: Hand) {
    show(w, hand, "Order", Key::Q);
    for (field, words) in [
        (Field::Wearer, "Mina"),
        (Field::Dance, "harbour hall"),
        (Field::EventDay, "5 dec"),
        (Field::Wanted, "5 dec, 2 pm"),
    ] {
        write(w, hand, field.name(), words);
    }
    for understood in ["Sat 5 Dec 2026", "2:00 pm"] {
        assert!(w.says(understood), "{understood}: {}", w.seen().all());
    }
}

/// Prints a paper and returns the file that the print command was given.
fn print(w: &mut TestWindow, hand: Hand, paper: &str) -> PathBuf {
    if !w.offers(Papers::PRINT) {
        show(w, hand, Papers::TITLE, Key::F9);
    }
    let kind = if paper == "Quote" { "quote-slip.pdf" } else { "agreed-sheet.pdf" };
    let kept = || {
        let files = std::fs::read_dir(folder_of_stand_ins()).unwrap().map(|file| file.unwrap().path());
        files.into_iter().find(|file| file.to_string_lossy().ends_with(kind))
    };
    if let Some(before) = kept() {
        std::fs::remove_file(before).unwrap();
    }
    press(w, hand, paper);
    w.wait_for(&format!("{paper}, Page 1"));
    press(w, hand, Papers::PRINT);
    let is_whole = |file: &PathBuf| std::fs::read(file).unwrap().trim_ascii_end().ends_with(b"%%EOF");
    w.wait_until("the printed paper", |_| kept().as_ref().is_some_and(is_whole));
    w.wait_for("Sent to the printer");
    kept().unwrap()
}

fn assert_tells(paper: &Path, total_cents: i64, others: &[&str]) {
    let plain = |line: String| line.replace('\u{a0}', " ");
    let said: Vec<String> = pdf_streams::words(&std::fs::read(paper).unwrap()).into_iter().map(plain).collect();
    let total = format!("{},{:02} \u{20ac}", total_cents / 100, total_cents % 100);
    for words in others.iter().chain([&total.as_str()]) {
        assert!(said.iter().any(|line| line.contains(words)), "{words} in {}: {said:?}", paper.display());
    }
}

fn by(hand: Hand) -> By {
    if hand == Hand::Keys { By::Keys } else { By::Pointer }
}

fn press(w: &mut TestWindow, hand: Hand, name: &str) {
    w.choose(by(hand), name);
}

/// A page by its button, or by its key.
fn show(w: &mut TestWindow, hand: Hand, button: &str, key: Key) {
    match hand {
        Hand::Pointer | Hand::Taps => drop(w.tap_like(button)),
        Hand::Keys => {
            w.press(Key::Escape);
            w.press(key);
        }
    }
    w.frames(3);
}

/// Writes over what stands in a field, and leaves it.
fn write(w: &mut TestWindow, hand: Hand, field: &str, words: &str) {
    match hand {
        Hand::Pointer | Hand::Taps => w.tap(field),
        Hand::Keys => w.tab_to(field),
    }
    if hand == Hand::Taps {
        w.tap(Taps::EMPTY);
        for letter in words.chars() {
            let [small, large] = [letter.to_string(), letter.to_uppercase().collect()];
            let key = w.find(|name| name == small || name == large || (letter == ' ' && name == Taps::SPACE));
            let key = key.unwrap_or_else(|| panic!("no key {letter:?} for {field}"));
            w.tap_at(key.rect.center());
        }
        w.tap(Taps::DONE);
    } else {
        w.press_with(Modifiers::COMMAND, Key::A);
        w.write(words);
        w.press(Key::Enter);
    }
}
