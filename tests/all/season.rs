//! Seasons and cold rooms: what is out of season is a question of the order, what must not stand in one cold room is said.

use posywright::book::{Change, DateStyle, Day, Order, When, call_backs, suggestions};
use posywright::geometry::Point;
use posywright::paperwork::{chills_there, stem_list};
use posywright::piece::{Edit, HouseStyle, NewPart};
use posywright::stock::{OwnStock, Stock, StockId};
use posywright::store::{built_in_stock, built_in_style, stock_from_text, stock_to_text};

struct Shop {
    stock: Stock,
    style: HouseStyle,
}

impl Shop {
    fn open() -> Self {
        Self { stock: built_in_stock(), style: built_in_style() }
    }

    /// An order for this day with one of each of these on the piece, in its first colour.
    fn order(&self, day: &str, flowers: &[&str]) -> Order {
        let place = |(i, id): (usize, &&str)| {
            let flower = self.stock.botanical(&StockId::new(id)).unwrap();
            let at = Point::new(-40.0 + 12.0 * i as f64, 0.0);
            Change::Piece(Edit::Place(NewPart::usual(flower, flower.colours[0].name.as_str().into(), at)))
        };
        let placed = flowers.iter().enumerate().map(place);
        let changes: Vec<Change> = std::iter::once(Change::Wanted(When::typed(day))).chain(placed).collect();
        Order::blank(None, &self.stock).apply(&Change::Together(changes), &self.stock).unwrap()
    }

    fn out(&self, day: &str, flowers: &[&str]) -> Vec<String> {
        self.order(day, flowers).out_of_season(&self.stock).into_iter().map(|out| out.name).collect()
    }
}

/// Months as printed: ranunculus February to June (CX), anemone September to June (FI), astrantia June to September (FI).
#[test]
fn a_flower_is_asked_about_in_the_months_in_which_it_is_not_in_trade() {
    let shop = Shop::open();
    for (day, out) in [
        ("31 Jan 2027", vec!["Ranunculus", "Astrantia"]),
        ("1 Feb 2027", vec!["Astrantia"]),
        ("30 Jun 2027", vec![]),
        ("1 Jul 2027", vec!["Ranunculus", "Anemone"]),
        ("31 Aug 2027", vec!["Ranunculus", "Anemone"]),
        ("1 Sep 2027", vec!["Ranunculus"]),
        ("next Saturday", vec![]),
        ("", vec![]),
    ] {
        assert_eq!(shop.out(day, &["anemone", "rose", "ranunculus", "astrantia"]), out, "{day}");
    }
    assert_eq!(shop.out("1 Jul 2027", &["ranunculus", "ranunculus"]), ["Ranunculus"], "once");
}

/// What is proposed plays the same part, is in season, comes in the colour that was chosen, and one yes mends it in one step.
#[test]
fn one_yes_puts_a_flower_of_the_season_in_its_place() {
    let shop = Shop::open();
    let order = shop.order("5 Dec 2026", &["ranunculus", "italian-ruscus"]);
    let out = order.out_of_season(&shop.stock);
    assert_eq!((out.len(), out[0].month), (1, "December"));
    assert!(!out[0].instead.is_empty() && out[0].instead.len() <= 3);
    for id in &out[0].instead {
        let other = shop.stock.botanical(id).unwrap();
        assert!(other.months[11] && other.role == posywright::stock::Role::Bloom, "{id}");
        assert!(other.colours.iter().any(|c| c.name == "white"), "{id}");
    }
    let first = shop.stock.botanical(&out[0].instead[0]).unwrap();
    let asked = suggestions(&order, &shop.style, &shop.stock);
    let words = format!("Ranunculus is out of season in December. Use {}?", first.name);
    let yes = asked.iter().find(|s| s.says == words).unwrap();
    let mended = order.apply(&yes.change, &shop.stock).unwrap();
    assert!(mended.out_of_season(&shop.stock).is_empty());
    assert_eq!(mended.piece.parts().len(), order.piece.parts().len());
    assert!(suggestions(&mended, &shop.style, &shop.stock).iter().all(|s| !s.says.contains("season")));
}

/// A flower that does not agree with the wearer is not proposed, whatever its season.
#[test]
fn what_is_stopped_does_not_stand_in_for_what_is_out_of_season() {
    let shop = Shop::open();
    let order = shop.order("5 Dec 2026", &["ranunculus"]);
    let first = shop.stock.botanical(&order.out_of_season(&shop.stock)[0].instead[0]).unwrap().name.clone();
    let wary = order.apply(&Change::Allergies(Some(vec![first.clone()])), &shop.stock).unwrap();
    let names: Vec<StockId> = wary.out_of_season(&shop.stock).remove(0).instead;
    assert!(!names.is_empty() && names.iter().all(|id| shop.stock.botanical(id).unwrap().name != first));
}

/// The shop's own months stand: what it can buy all year is not asked about.
#[test]
fn a_shop_puts_the_months_right_for_its_own_market() {
    let shop = Shop::open();
    let text = r#"(version: 1, botanicals: [(id: "ranunculus", months: "all")])"#;
    let stock = stock_from_text(text, "stock.ron", &shop.stock).unwrap();
    assert!(shop.order("5 Dec 2026", &["ranunculus"]).out_of_season(&stock).is_empty());
}

#[test]
fn the_call_list_names_what_is_out_of_season() {
    let shop = Shop::open();
    let whole = |flowers: &[&str]| {
        let changes = vec![
            Change::Wearer("Ida".into()),
            Change::Dance("Harbour Hall".into()),
            Change::Girth(posywright::units::Length::from_mm(150.0)),
            Change::Dress(posywright::book::DressColour { hex: None, words: "teal".into() }),
        ];
        shop.order("5 Dec 2026", flowers).apply(&Change::Together(changes), &shop.stock).unwrap()
    };
    assert!(call_backs([&whole(&["rose"])], &shop.stock).is_empty());
    let calls = call_backs([&whole(&["ranunculus", "scabiosa", "rose"])], &shop.stock);
    assert_eq!(calls.len(), 1);
    assert!(calls[0].asks.is_empty());
    let said = calls[0].line();
    assert!(said.contains(": needs something in season for Ranunculus and Scabiosa"), "{said}");
    let unmeasured = shop.order("5 Dec 2026", &["ranunculus"]);
    let said = call_backs([&unmeasured], &shop.stock)[0].line();
    assert!(said.contains("dress colour and something in season for Ranunculus"), "{said}");
}

fn harmed(shop: &Shop, flowers: &[&str]) -> Vec<(String, f64)> {
    let order = shop.order("9 May 2026", flowers);
    let stems = stem_list(&order.piece, None, &shop.stock, &shop.style);
    chills_there(&stems, &shop.stock).into_iter().map(|c| (c.name, c.below_c)).collect()
}

/// Limits as printed: dendrobium 12.8 (CX), stephanotis 5.6 (SF2), nerine 4.4 and cymbidium 3.3 (FI), each 55, 42, 40 and 38 F. Roses
/// keep at 0 to 1 (BM), statice at 2.2 to 3.3 (FI), pittosporum at up to 5 (FI).
#[test]
fn what_cold_harms_is_named_where_something_else_wants_it_cold() {
    let shop = Shop::open();
    let told = |flowers: &[&str]| harmed(&shop, flowers);
    assert_eq!(told(&["rose", "statice", "pittosporum"]), []);
    assert_eq!(told(&["dendrobium"]), [], "alone it stands where it likes");
    assert_eq!(told(&["rose", "dendrobium", "dendrobium"]), [("Dendrobium".to_owned(), 12.8)]);
    let both = [("Dendrobium".to_owned(), 12.8), ("Nerine".to_owned(), 4.4)];
    assert_eq!(told(&["nerine", "rose", "dendrobium"]), both);
    assert_eq!(told(&["nerine", "pittosporum"]), [], "both stand well at 5");
    assert_eq!(told(&["mini-cymbidium", "statice"]), [], "both stand well at 3.3");
    assert_eq!(told(&["mini-cymbidium", "rose"]), [("Mini cymbidium".to_owned(), 3.3)]);
    assert_eq!(told(&["bouvardia", "rose"]), [], "bouvardia is not harmed by cold (UC-BOU)");
}

#[test]
fn the_stem_list_says_it_once_below_its_cautions() {
    let shop = Shop::open();
    let order = shop.order("9 May 2026", &["rose", "dendrobium", "dendrobium"]);
    let stems = stem_list(&order.piece, None, &shop.stock, &shop.style);
    let price = stems.price(&shop.style.prices);
    let text = posywright::export::stems_text(&order, &stems, &price, &shop.style.prices, &shop.stock);
    let says =
        "- Dendrobium: harmed below 12.8 \u{b0}C (55 \u{b0}F). Keep it, and the finished piece, out of colder rooms.";
    assert_eq!(text.matches(says).count(), 1, "{text}");
    assert!(text.find("Cautions") < text.find(says));
}

/// By hand: pick-up on Saturday 5 December 2026, ordered on Tuesday 1 December. What takes four days is there on the Saturday, what takes
/// five had to be ordered on Monday 30 November.
#[test]
fn what_takes_longer_than_there_is_time_is_said_with_the_last_day_to_order() {
    let shop = Shop::open();
    let [today, saturday] = ["2026-12-01", "2026-12-05"].map(|day| Day::parse(day).unwrap());
    let order = shop.order("5 Dec 2026", &["freesia", "rose", "anemone"]);
    assert_eq!(order.wanted.day(), Some(saturday));
    let text = "(version: 3, botanicals: [(id: \"freesia\", lead_days: 5), (id: \"rose\", lead_days: 4)],
        bands: [(id: \"elastic-medium\", supplier: \"Tidewater Stems\", lead_days: 21)])";
    let stock = stock_from_text(text, "stock.ron", &shop.stock).unwrap();
    let late = |order: &Order, today| -> Vec<String> {
        order.too_late_to_order(&stock, today).iter().map(|late| late.says(DateStyle::MonthName)).collect()
    };
    let freesia = "Freesia takes 5 days to come: it had to be ordered by Mon 30 Nov 2026.";
    assert_eq!(late(&order, today)[0], freesia);
    assert!(late(&order, Day::parse("2026-11-30").unwrap()).iter().all(|says| !says.contains("Freesia")));
    let with_band = order.piece.band.as_ref().is_some_and(|band| band.as_str() == "elastic-medium");
    assert_eq!(late(&order, today).len(), if with_band { 2 } else { 1 }, "{:?}", late(&order, today));
    assert!(late(&order, Day::parse("2026-12-06").unwrap()).is_empty(), "past is past");
    assert!(shop.order("", &["freesia"]).too_late_to_order(&stock, today).is_empty(), "no day, no question");
    // Written and read again it says the same, and older programs are told that it is newer.
    let written = stock_to_text(&OwnStock::between(&shop.stock, &stock), &shop.stock);
    assert!(written.contains("version: 3") && written.contains("lead_days: 21"), "{written}");
    assert_eq!(stock_from_text(&written, "stock.ron", &shop.stock).unwrap(), stock);
}
