//! Walks by taps alone, each that of a wet finger: it slips a little another way each time. Words and figures are tapped in on the board on the
//! screen; no key is pressed. People and events are invented.

use egui::{Vec2, vec2};

use crate::app::tests::counter_walks::order_to_stop;
use crate::app::tests::harness::{By, TestWindow, name};
use crate::app::tests::sample_shop::{order_of, report, sample_shop};
use crate::app::widgets::words::{Counter, Mine, Taps};

const SLIPS: [Vec2; 6] =
    [vec2(9.0, 0.0), vec2(0.0, 9.0), vec2(-9.0, 0.0), vec2(0.0, -9.0), vec2(6.0, 6.0), vec2(-6.0, 6.0)];

/// A window and wet hands.
struct WetHands {
    w: TestWindow,
    n_taps: usize,
}

impl WetHands {
    fn on(w: TestWindow) -> Self {
        let mut hands = Self { w, n_taps: 0 };
        hands.tap(Taps::OFF);
        hands
    }

    fn slip(&mut self) -> Vec2 {
        self.n_taps += 1;
        SLIPS[self.n_taps % SLIPS.len()]
    }

    fn tap(&mut self, name: &str) {
        let slip = self.slip();
        self.w.tap_wet(name, slip);
    }

    fn tap_like(&mut self, beginning: &str) {
        let found = self.w.find(|n| n.starts_with(beginning));
        let name = found.unwrap_or_else(|| panic!("nothing begins with {beginning:?}")).name;
        self.tap(&name);
    }

    fn tap_sheet(&mut self, along_mm: f64, across_mm: f64) {
        let (at, slip) = (self.w.on_screen(along_mm, across_mm), self.slip());
        self.w.tap_wet_at(at, slip);
    }

    /// Taps a field and these keys of the board, letters as the board shows them: names get their capitals by themselves.
    fn tap_in(&mut self, field: &str, keys: &[&str]) {
        self.tap(field);
        for key in keys {
            let capital = key.to_uppercase();
            let shown = if *key == " " {
                Taps::SPACE
            } else if self.w.offers(key) {
                *key
            } else {
                &capital
            };
            self.tap(shown);
        }
        self.tap(Taps::DONE);
    }

    fn write(&mut self, field: &str, words: &str) {
        let letters: Vec<String> = words.chars().map(String::from).collect();
        self.tap_in(field, &letters.iter().map(String::as_str).collect::<Vec<_>>());
    }

    fn saved(&mut self, command: &str) -> serde_json::Value {
        self.tap(name::SAVE);
        self.w.wait_until_saved();
        report(&self.w.file(), command)
    }

    fn saved_text(&mut self) -> String {
        self.tap(name::SAVE);
        self.w.wait_until_saved();
        std::fs::read_to_string(self.w.file()).unwrap()
    }
}

#[test]
fn a_whole_order_is_made_by_wet_taps() {
    let mut hands = WetHands::on(TestWindow::on_sample("06-empty"));
    hands.tap(name::NEW);
    hands.write(name::WEARER, "mina o'dea");
    hands.write(name::GIRTH, "135");
    hands.tap("Spray rose, white");
    for along in [22.0, 0.0, -22.0] {
        hands.tap_sheet(along, 0.0);
    }
    let stems = hands.saved("stems");
    assert!(hands.w.file().ends_with("orders/mina-o-dea-petite.ron"));
    assert!(hands.w.order().wearer.starts_with("Mina O") && hands.w.order().wearer.ends_with("Dea"));
    let line = &stems["lines"][0];
    assert_eq!(line["pieces"].as_i64().unwrap() - line["to_place"].as_i64().unwrap(), 3);
    assert_eq!(stems["price_cents"], 2000);
    assert_eq!(hands.saved("once-over")["wrist"]["width_limit_mm"], 54.0);
}

#[test]
fn a_budget_a_price_of_her_own_and_the_yes_are_tapped_in() {
    let shop = sample_shop();
    let mut hands = WetHands::on(TestWindow::on(&order_of(shop.path(), "Perpetua", "01-petite", |text| text)));
    hands.tap("Compare sizes");
    hands.write("Budget", "30");
    assert!(hands.saved_text().contains("purse: 30"));
    hands.w.wait_until("the Classic laid out", |w| w.offers(&Counter::choose("Classic")));
    hands.tap(&Counter::choose("Classic"));
    assert!(hands.saved_text().contains("size: \"Classic\""));
    assert_eq!(hands.saved("quote")["total_cents"], 2700);

    let mut hands = WetHands::on(TestWindow::on(&order_of(shop.path(), "Ambrosia", "03-full", |text| text)));
    hands.tap("Price");
    hands.write(Mine::OWN_PRICE, "20");
    hands.write("Reason for your price", "an old friend");
    let quote = hands.saved("quote");
    assert!(hands.saved_text().contains("reason: \"an old friend\""));
    // As in `counter_walks.rs`.
    assert_eq!((&quote["below_cents"], &quote["total_cents"]), (&1526.into(), &2000.into()));
    assert_eq!((&quote["my_side"]["cost_cents"], &quote["my_side"]["loses_cents"]), (&2143.into(), &143.into()));

    let mut hands = WetHands::on(TestWindow::on(&order_of(shop.path(), "Hermia", "02-classic", |text| text)));
    hands.tap(Counter::MATCH);
    hands.tap("Price");
    hands.tap(Mine::SLIP);
    hands.w.wait_until("the day of the quote", |w| w.order().terms.quoted_on.is_some() && w.is_saved());
    hands.tap("$18");
    hands.tap(Mine::CARD);
    hands.tap(Counter::AGREE);
    let text = hands.saved_text();
    assert!(text.contains("quoted_on: \"20"), "the day of the quote is saved with the order");
    assert!(text.contains("on: \"20"), "the yes has its day");
    let papers = std::fs::read_dir(shop.path().join("papers")).unwrap().flatten();
    let mut papers: Vec<String> = papers.map(|f| f.file_name().to_string_lossy().into_owned()).collect();
    papers.sort();
    let endings: Vec<&str> = papers.iter().filter_map(|p| Some(p.rsplit_once('.')?.1)).collect();
    assert_eq!(endings, ["pdf", "png"], "{papers:?}");
    let quote = hands.saved("quote");
    assert!(quote["holds_until"].as_str().unwrap() > "2026", "{quote}");
    for (key, cents) in [("total", 3600), ("deposit", 1800), ("balance", 1800), ("paid", 1800), ("due", 1800)] {
        assert_eq!(quote[format!("{key}_cents")], cents, "{key}");
    }
}

#[test]
fn a_flower_that_is_not_borne_is_named_by_tapping_it_seen_to_and_refused_from_the_tray() {
    let shop = sample_shop();
    let mut hands = WetHands::on(TestWindow::on(&order_to_stop(shop.path(), "Quiteria", "")));
    hands.tap_like("Order");
    hands.tap("baby's breath");
    hands.tap("No latex");
    hands.tap(name::ACCEPT);
    hands.tap(name::ACCEPT);
    let text = hands.saved_text();
    assert!(!text.contains("babys-breath\", colour") && !text.contains("band: \"elastic"), "{text}");
    assert_eq!(hands.w.order().needs.allergies.as_ref().map(Vec::len), Some(1), "it is known for good");
    let before = hands.w.piece();
    hands.tap("Sketch");
    hands.tap("Filler");
    hands.tap("Baby's breath, white, not for wearer");
    hands.tap_sheet(20.0, 20.0);
    assert_eq!(hands.w.piece(), before, "nothing that is stopped comes onto the piece");
}

#[test]
fn children_are_measured_and_seen_to_by_taps() {
    let mut hands = WetHands::on(TestWindow::on_sample("02-classic"));
    hands.tap_like("Order");
    hands.write("Child\u{2019}s age", "6");
    hands.write(name::GIRTH, "122");
    hands.w.accept_all(By::Pointer);
    let text = hands.saved_text();
    assert!(text.contains("kind: child(6)") && text.contains("width: 48.8"), "{text}");
    assert!(!text.contains("band: \"elastic-medium\""), "{text}");

    let mut hands = WetHands::on(TestWindow::on_sample("01-petite"));
    hands.tap_like("Order");
    hands.write("Child\u{2019}s age", "2");
    hands.tap(name::ACCEPT);
    hands.tap("Sketch");
    let trims = hands.w.new_after(|w| w.tap("Trim"));
    let before = hands.w.piece();
    for trim in trims.iter().filter(|name| name.contains(", ")).take(4) {
        hands.tap(trim);
        hands.tap_sheet(20.0, 20.0);
    }
    assert_eq!(hands.w.piece(), before, "nothing loose for a child of two: {trims:?}");
    let text = hands.saved_text();
    assert!(text.contains("kind: child(2)") && text.contains("band: \"ribbon-tie\""), "{text}");
}

#[test]
fn lengths_are_looked_at_in_both_units_and_a_girth_in_doubt_is_asked_about() {
    let mut hands = WetHands::on(TestWindow::on_sample("02-classic"));
    hands.tap_in(name::GIRTH, &["6", "1/4"]);
    hands.tap(name::VIEW);
    for _ in 0..5 {
        hands.tap("mm");
        let mm = hands.w.seen().texts;
        hands.tap("in");
        assert_ne!(hands.w.seen().texts, mm, "another unit is seen");
    }
    hands.tap("As entered");
    hands.tap(name::VIEW);
    assert!(hands.saved_text().contains("girth: \"6 1/4\""), "as it was tapped in");
    assert_eq!(hands.saved("once-over")["wrist"]["width_limit_mm"], 63.5);
    hands.tap_in(name::GIRTH, &["1", ".", "5", "5"]);
    assert!(hands.w.offers("Yes, 155 mm"));
    assert_eq!(hands.saved("once-over")["wrist"]["girth_mm"], 158.75, "nothing changes before a yes");
}

#[test]
fn two_of_one_wedding_share_stems_by_taps() {
    let shop = sample_shop();
    let wedding = |text: String| {
        let (before, rest) = text.split_once("dance: \"").unwrap();
        format!("{before}dance: \"Linden wedding\"{}", rest.split_once('"').unwrap().1)
    };
    order_of(shop.path(), "Henrike", "02-classic", wedding);
    let mut hands = WetHands::on(TestWindow::on(&order_of(shop.path(), "Solveig", "02-classic", wedding)));
    hands.tap(Mine::WITH_OTHERS);
    let before = hands.w.seen().texts;
    hands.w.wait_until("the orders", |w| w.find(|n| n.starts_with("Henrike")).is_some());
    hands.tap_like("Henrike");
    let after = hands.w.seen();
    assert_ne!(after.texts, before);
    assert!(after.says("10 spray roses, white") && after.says("$54"), "stems and price of both: {}", after.all());
}
