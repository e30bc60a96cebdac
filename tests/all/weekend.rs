//! The sample weekend, `samples/quayside`: sixty orders of one dance, through the program's own door. The sums are worked by
//! hand beside each check, from the counts of the orders and the prices of the sample shop.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::Arc;

use posywright::book::{Change, Occasion, OccasionMark, Order, occasions};
use posywright::paperwork::{Effort, Makers, MarketList, NoMarket, bench_day, market_list, more_to_buy};
use posywright::piece::{Edit, HouseStyle};
use posywright::stock::{Stock, Suppliers};
use posywright::store::{OrderIndex, Shop, suppliers_from_text};
use posywright::units::Cents;
use serde_json::Value;

fn posywright(words: &[&str]) -> (i32, String, String) {
    let out = Command::new(env!("CARGO_BIN_EXE_posywright"))
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .args(words)
        .output()
        .unwrap();
    let text = |bytes: Vec<u8>| String::from_utf8(bytes).unwrap();
    (out.status.code().unwrap(), text(out.stdout), text(out.stderr))
}

fn report(words: &[&str]) -> Value {
    let (code, said, told) = posywright(words);
    assert_eq!(code, 0, "{told}");
    serde_json::from_str(&said).unwrap()
}

const QUAYSIDE: &str = "samples/quayside";

fn weekend() -> (Vec<Order>, Arc<Stock>, Arc<HouseStyle>) {
    let shop = Shop::open(&Path::new(env!("CARGO_MANIFEST_DIR")).join(QUAYSIDE)).unwrap();
    let orders = shop.orders().into_iter().map(|entry| entry.order.unwrap().order).collect();
    (orders, Arc::clone(shop.stock()), Arc::clone(shop.style()))
}

fn list(orders: &[Order], stock: &Stock, style: &HouseStyle) -> MarketList {
    market_list(&orders.iter().collect::<Vec<_>>(), &Suppliers::default(), style, stock).unwrap()
}

/// Heads, with spare, stems, bunches, cost of a kind in a colour.
fn figures(list: &MarketList, stock: &str, colour: &str) -> (u32, u32, u32, u32, Cents) {
    let line = list.lines.iter().find(|l| l.stock.as_str() == stock && &*l.colour == colour).unwrap();
    (line.heads, line.heads_with_spare, line.stems, line.packs(), line.cost())
}

/// 24 Classic white, 10 Full white, 6 Full blush, 12 Petite blush, 8 Orchid Classic, each with a boutonniere.
///
/// White: 24 x 5 + 10 x 7 + 34 = 224; and a tenth 246.4, so 247; at 4 a stem 61.75, so 62; at 10 a bunch 7. Blush:
/// 6 x 7 + 12 x 3 + 18 = 96, 105.6, 106; 26.5, 27; 3. Florets 8 x 5 + 8 = 48, 52.8, 53; at 8 a stem 6.6, 7; 1. Wax
/// 24 x 2 + 16 x 3 + 12 + 8 x 2 + 60 = 184, 202.4, 203; at 8 a stem 25.4, 26; 3. Leaves 24 x 6 + 16 x 8 + 12 x 4 + 8 x 6
/// + 60 x 2 = 488, 536.8, 537; at 12 a stem 44.75, 45; 5.
#[test]
fn the_weekend_buys_what_was_worked_by_hand() {
    let (orders, stock, style) = weekend();
    assert_eq!(orders.len(), 60);
    let list = list(&orders, &stock, &style);
    assert_eq!(figures(&list, "spray-rose", "white"), (224, 247, 62, 7, Cents(12600)));
    assert_eq!(figures(&list, "spray-rose", "blush"), (96, 106, 27, 3, Cents(5400)));
    assert_eq!(figures(&list, "dendrobium", "white"), (48, 53, 7, 1, Cents(2000)));
    assert_eq!(figures(&list, "waxflower", "white"), (184, 203, 26, 3, Cents(3000)));
    assert_eq!(figures(&list, "italian-ruscus", "green"), (488, 537, 45, 5, Cents(3000)));
    // Flowers 126 + 54 + 20 + 30 + 30. Goods 44 x 3 + 16 x 4 + 60 x 0.75 = 241.
    assert_eq!((list.flowers, list.hard_goods, list.materials()), (Cents(26000), Cents(24100), Cents(50100)));
    // 24 x 27 + 16 x 36 + 12 x 20 + 8 x 23 + 52 x 8 + 8 x 7.
    assert_eq!(list.sales, Cents(212_000));
    let percent = |cost: Cents| (1000.0 * cost.0 as f64 / list.sales.0 as f64).round() / 10.0;
    assert_eq!((percent(list.flowers), percent(list.materials())), (12.3, 23.6));
    assert_eq!(list.unproven, Cents(0));
}

/// White alone: 24 x (2 + 1) + 10 x (2 + 1) = 102 stems, blush 6 x (2 + 1) + 12 x (1 + 1) = 42: 11 and 5 bunches against
/// 7 and 3, six at 18. Left over: 280 - 224 and 120 - 96 heads.
#[test]
fn sharing_saves_six_bunches_of_spray_roses_and_the_leftovers_are_told() {
    let (orders, stock, style) = weekend();
    let list = list(&orders, &stock, &style);
    let rose = |colour: &str| {
        let line = list.lines.iter().find(|l| l.stock.as_str() == "spray-rose" && &*l.colour == colour).unwrap();
        (line.stems_alone, line.stems_alone.div_ceil(10) - line.packs(), line.leftover_heads)
    };
    assert_eq!((rose("white"), rose("blush")), ((102, 4, 56), (42, 2, 24)));
    // Alone: 16 x 18; florets 8 x (1 + 1) = 16 sprays, 2 x 20; wax a stem for every piece, 120, 12 x 10; ruscus a stem for
    // every piece, 120, 12 x 6.
    assert_eq!(list.alone, Some(Cents(28800 + 4000 + 12000 + 7200)));
}

#[test]
fn the_command_tells_the_same_as_a_table_and_to_machines() {
    let called = ["market", QUAYSIDE, "--occasion", "quayside prom"];
    let told = report(&[&called[..], &["--json"]].concat());
    assert_eq!(told["occasion"], "quayside-prom-2026-05-09");
    let totals =
        ["flowers_cents", "materials_cents", "sales_cents", "alone_cents"].map(|key| told[key].as_i64().unwrap());
    assert_eq!(totals, [26000, 50100, 212_000, 52000]);
    let (code, csv, _) = posywright(&[&called[..], &["--csv"]].concat());
    assert_eq!(code, 0);
    let rows: Vec<&str> = csv.lines().collect();
    assert_eq!(
        rows[0],
        "stock,colour,heads,heads_with_spare,stems,bunches,supplier,cost_cents,leftover_heads,order_by"
    );
    // A week before the first pick-up, where no supplier says anything else.
    assert!(rows.contains(&"spray-rose,white,224,247,62,7,Tidewater Stems,12600,56,2026-05-02"), "{csv}");
    assert_eq!(rows.len(), 6);
    let (code, text, _) = posywright(&called);
    assert_eq!(code, 0);
    for told in [
        "Quayside Prom, Sat 9 May 2026, 60 orders",
        "Tidewater Stems, order by Sat 2 May 2026",
        "$260, 12.3 %",
        "$501, 23.6 %",
        "$520, $260 more",
    ] {
        assert!(text.contains(told), "{told}: {text}");
    }
}

/// 24 x 14 + 16 x 18 + 12 x 10 + 8 x 14 + 60 x 5 = 1,156 min; two makers of eight hours have 960: short 196; without the
/// 60 bows of 3 min 976, short 16.
#[test]
fn the_bench_day_is_short_by_what_was_worked_by_hand() {
    let called = ["bench", QUAYSIDE, "--occasion", "quayside-prom-2026-05-09", "--makers", "2"];
    let told = report(&[&called[..], &["--json"]].concat());
    let of = |told: &Value| {
        ["promised_minutes", "minutes", "available_minutes", "short_minutes"].map(|key| told[key].as_u64().unwrap())
    };
    assert_eq!(of(&told), [1156, 1156, 960, 196]);
    assert_eq!(told["pieces"], 120);
    let tasks: Vec<(&str, u64, bool)> = told["tasks"]
        .as_array()
        .unwrap()
        .iter()
        .map(|t| (t["task"].as_str().unwrap(), t["minutes"].as_u64().unwrap(), t["can_move"].as_bool().unwrap()))
        .collect();
    assert_eq!(tasks[..2], [("bows", 180, true), ("bases", 60, true)]);
    assert!(tasks[2..].iter().all(|task| !task.2) && tasks.iter().map(|task| task.1).sum::<u64>() == 1156, "{tasks:?}");
    let ahead = report(&[&called[..], &["--bows-ahead", "--json"]].concat());
    assert_eq!(of(&ahead), [1156, 976, 960, 16]);
    // Every step of every piece is planned once, each maker does one at a time, and the plan ends by four.
    for (told, n) in [(&told, 180), (&ahead, 120)] {
        let steps = told["steps"].as_array().unwrap();
        assert_eq!(steps.len(), n);
        for maker in 1..=2 {
            let minute = |step: &Value| {
                let (hour, minute) = step["start"].as_str().unwrap().split_once(':').unwrap();
                hour.parse::<u64>().unwrap() * 60 + minute.parse::<u64>().unwrap()
            };
            let mine: Vec<(u64, u64)> = steps
                .iter()
                .filter(|step| step["maker"] == maker)
                .map(|step| (minute(step), step["minutes"].as_u64().unwrap()))
                .collect();
            assert!(mine.windows(2).all(|pair| pair[0].0 + pair[0].1 <= pair[1].0), "maker {maker}");
            assert!(mine.last().is_some_and(|(start, minutes)| start + minutes <= 16 * 60));
        }
    }
    let (_, text, _) = posywright(&called);
    assert!(text.contains("Short                    3 h 16") && text.contains("still short 16 min"), "{text}");
}

/// A limit of 1,200: one more Full with a boutonniere is 1,156 + 18 + 5 = 1,179, fine; two more pairs 1,225, over by 25.
#[test]
fn one_more_order_says_at_once_what_it_does_to_the_day() {
    let (orders, stock, style) = weekend();
    let full = orders.iter().find(|order| order.size.as_deref() == Some("Full")).unwrap();
    let makers = Makers { minutes_each: 600, ..Makers::usual(2) };
    let quick = Effort { nodes: 0, nudges: 0, seed: 1 };
    let day = |more: usize| {
        let all: Vec<&Order> = orders.iter().chain(std::iter::repeat_n(full, more)).collect();
        let day = bench_day(&all, makers, quick, &style, &stock);
        (day.on_the_day(), day.short(), day.free())
    };
    assert_eq!((day(0), day(1), day(3)), ((1156, 0, 44), (1179, 0, 21), (1225, 25, 0)));
}

/// Order 17 turns white with a silver ribbon: white 224 + 8 = 232, 255.2, 256 heads, 64 stems, still 7 bunches; blush 88,
/// 96.8, 97, 25 stems, still 3.
#[test]
fn a_dress_that_changes_its_colour_buys_no_new_stems() {
    let (mut orders, stock, style) = weekend();
    let before = list(&orders, &stock, &style);
    let order = orders.iter_mut().find(|order| order.number == Some(117)).unwrap();
    let white = |piece: &posywright::piece::Piece| -> Vec<Edit> {
        let roses = piece.parts().iter().filter(|part| &*part.colour == "blush");
        vec![Edit::Recolour(roses.map(|part| part.id).collect(), "white".into())]
    };
    let hers = white(&order.piece).into_iter().map(Change::Piece);
    let his = order.partner_piece.iter().flat_map(white).map(Change::PartnerEdit);
    let changes = hers.chain(his).collect();
    *order = order.apply(&Change::Together(changes), &stock).unwrap();
    let after = list(&orders, &stock, &style);
    assert_eq!(figures(&after, "spray-rose", "white"), (232, 256, 64, 7, Cents(12600)));
    assert_eq!(figures(&after, "spray-rose", "blush"), (88, 97, 25, 3, Cents(5400)));
    assert_eq!(more_to_buy(&before, &after), []);
    let none: Vec<Order> = Vec::new();
    assert_eq!(more_to_buy(&list(&none, &stock, &style), &after).len(), 5);
}

/// A second supplier with a delivery and packs of 20 at 33.00: for 62 stems seven bunches of 10 are 126.00; with him three of
/// his packs and one bunch are 99 + 18 = 117.00, and 4.00 for the delivery. Two of his packs, if he has no more: 66 + 4 + 3 x 18
/// = 124.00. With ten stems in the cooler 52 stems are wanted: 99 + 4 = 103.00.
#[test]
fn packs_are_those_that_cost_least_with_deliveries_stock_and_what_is_there_already() {
    let (orders, stock, style) = weekend();
    let orders: Vec<&Order> = orders.iter().collect();
    let bought = |packs: u32, cooler: u32| {
        let text = format!(
            "(version: 1, suppliers: [(name: \"Harbour Market\", delivery: 4.00)], packs: [(supplier: \"Harbour Market\", \
             stock: \"spray-rose\", colour: \"white\", stems: 20, price: 33.00, packs: {packs})], \
             in_cooler: [(stock: \"spray-rose\", colour: \"white\", stems: {cooler})])"
        );
        let suppliers = suppliers_from_text(&text, "suppliers.ron", &stock).unwrap();
        let list = market_list(&orders, &suppliers, &style, &stock).unwrap();
        let line = list.lines.iter().find(|l| l.stock.as_str() == "spray-rose" && &*l.colour == "white").unwrap();
        (line.cost() + list.deliveries, line.leftover_heads)
    };
    assert_eq!(bought(9, 0), (Cents(12100), 280 - 224));
    assert_eq!(bought(2, 0), (Cents(12400), 280 - 224));
    assert_eq!(bought(9, 10), (Cents(10300), 280 - 224));
    let dear = "(version: 1, suppliers: [(name: \"Tidewater Stems\", minimum: 900000)])";
    let suppliers = suppliers_from_text(dear, "suppliers.ron", &stock).unwrap();
    assert!(
        matches!(market_list(&orders, &suppliers, &style, &stock), Err(NoMarket::Short(short)) if short.len() == 3)
    );
}

#[test]
fn an_occasion_that_is_not_there_is_answered_with_those_that_are() {
    let (code, _, told) = posywright(&["market", QUAYSIDE, "--occasion", "harvest ball"]);
    assert_eq!(code, 1);
    assert!(told.contains("quayside-prom-2026-05-09"), "{told}");
    let (code, _, told) = posywright(&["market", QUAYSIDE, "--occasion", "2027-01-01..2027-01-03"]);
    assert_eq!(code, 1);
    assert!(told.contains("No order belongs to"), "{told}");
    assert_eq!(posywright(&["market", QUAYSIDE]).0, 2);
    assert_eq!(posywright(&["bench", QUAYSIDE, "--occasion", "x", "--makers", "0"]).0, 2);
    assert_eq!(posywright(&["market", "src", "--occasion", "x"]).0, 1, "a folder without a shop");
}

/// A shop on the disk with two suppliers of one name, and with an order that cannot be read.
#[test]
fn a_file_of_suppliers_that_cannot_be_meant_is_refused_and_a_damaged_order_harms_no_other() {
    let folder = tempfile::tempdir().unwrap();
    let shop = Path::new(env!("CARGO_MANIFEST_DIR")).join(QUAYSIDE);
    fs::create_dir(folder.path().join("orders")).unwrap();
    for name in ["shop.ron", "stock.ron", "orders/101.ron", "orders/102.ron"] {
        fs::copy(shop.join(name), folder.path().join(name)).unwrap();
    }
    fs::write(folder.path().join("orders/103.ron"), "(version: 3, wearer").unwrap();
    let place: PathBuf = folder.path().into();
    let called = ["market", place.to_str().unwrap(), "--occasion", "Quayside Prom", "--json"];
    let (code, said, told) = posywright(&called);
    assert_eq!((code, serde_json::from_str::<Value>(&said).unwrap()["orders"].as_u64()), (0, Some(2)));
    assert!(told.contains("103.ron"), "{told}");
    fs::write(folder.path().join("suppliers.ron"), "(version: 1, suppliers: [(name: \"A\"), (name: \"a\")])").unwrap();
    let (code, _, told) = posywright(&called);
    assert_eq!(code, 1);
    assert!(told.contains("wo have the supplier"), "{told}");
}

#[test]
fn the_index_of_the_shop_tells_its_occasions() {
    let shop = Shop::open(&Path::new(env!("CARGO_MANIFEST_DIR")).join(QUAYSIDE)).unwrap();
    let mut index = OrderIndex::empty();
    assert_eq!(index.refresh(&shop), []);
    let marks: Vec<OccasionMark> = index.rows().map(|row| row.occasion.clone()).collect();
    let found = occasions(&marks);
    assert_eq!(found.iter().map(Occasion::id).collect::<Vec<_>>(), ["quayside-prom-2026-05-09"]);
    assert_eq!(marks.iter().filter(|mark| found[0].holds(mark)).count(), 60);
}
