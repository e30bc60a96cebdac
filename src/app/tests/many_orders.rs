//! Many made-up orders: all invented, the same for the same number.

use std::path::PathBuf;
use std::sync::Arc;
use std::time::{Duration, Instant, SystemTime};

use crate::book::{Change, Day, Order, OrderState, Progress, When};
use crate::store::{OrderIndex, OrderRow, Shop, order_from_text, order_to_text, samples};
use crate::units::Cents;

const FIRST: [&str; 12] = [
    "Ottilie",
    "Wanda",
    "Perpetua",
    "Isolde",
    "Mireille",
    "Tamsin",
    "Zs\u{f3}fia",
    "Beryl",
    "Hedda",
    "Nives",
    "Ursula",
    "Linnea",
];
const LAST: [&str; 9] = ["Quill", "Vale", "Harrow", "Fenwick", "\u{150}ry", "Marsh", "Thorne", "Brook", "Sedge"];
const EVENTS: [&str; 5] = ["Harbour Hall", "Linden wedding", "Mill Street prom", "Birch wedding", "Winter ball"];

/// The `n`th made-up order, its piece taken from the samples. Every fifth belongs to a party.
pub(crate) fn made_up(n: usize, pieces: &[Order], shop: &Shop) -> Order {
    let day = Day::new(2026, 12, 1).unwrap().plus(i64::try_from(n * 7 % 61).unwrap() - 9).unwrap();
    let mut changes = vec![
        Change::Wearer(format!("{} {}", FIRST[n % 12], LAST[n / 12 % 9])),
        Change::Partner(FIRST[(n + 5) % 12].to_owned()),
        Change::Dance(EVENTS[n % 5].to_owned()),
        Change::Wanted(When::typed(&format!("{day} {}:00", 9 + n % 9))),
        Change::Phone(format!("555 {:04}", n % 10_000)),
        Change::Payments(if n.is_multiple_of(3) { vec![crate::book::Payment::of(Cents(1000))] } else { Vec::new() }),
        Change::Party(if n % 5 == 1 { "Linden wedding".to_owned() } else { String::new() }),
    ];
    let progress = [None, None, None, Some(Progress::Made), Some(Progress::Collected), Some(Progress::Cancelled)];
    changes.push(Change::Progress(progress[n % 6]));
    pieces[n % pieces.len()].apply(&Change::Together(changes), shop.stock()).unwrap()
}

/// The orders of the samples.
pub(crate) fn sample_orders(shop: &Shop) -> Vec<Order> {
    samples::orders().map(|sample| order_from_text(sample.text, sample.path, shop.stock()).unwrap()).collect()
}

/// So many rows of made-up orders that are in no file, `0000.ron` and so on. They have no parts, so that they are quick.
pub(crate) fn rows(n: usize, shop: &Shop) -> Arc<Vec<Arc<OrderRow>>> {
    let blank = [Order::blank(None, shop.stock())];
    let row = |n| {
        let path = PathBuf::from(format!("{n:05}.ron"));
        Arc::new(OrderRow::of(&path, SystemTime::UNIX_EPOCH, Ok(made_up(n, &blank, shop)), shop))
    };
    Arc::new((0..n).map(row).collect())
}

/// Writes so many made-up orders into the folder of a shop.
pub(crate) fn write(n: usize, shop: &Shop) {
    let pieces = sample_orders(shop);
    for n in 0..n {
        let path = shop.orders_folder().join(format!("made-up-{n:05}.ron"));
        std::fs::write(&path, order_to_text(&made_up(n, &pieces, shop))).unwrap();
        // As written an hour ago: what is of this moment is read once more.
        let file = std::fs::File::options().write(true).open(&path).unwrap();
        file.set_modified(SystemTime::now() - Duration::from_hours(1)).unwrap();
    }
}

/// As many orders as are wanted, and where one can look at them afterwards:
/// `POSYWRIGHT_MANY=FOLDER POSYWRIGHT_HOW_MANY=10000 cargo test --lib -- --nocapture a_shop_of_many_orders`.
#[test]
#[expect(clippy::print_stdout, reason = "tells how long the list took")]
fn a_shop_of_many_orders_is_listed_whole_and_the_second_time_from_what_was_read() {
    let own = tempfile::tempdir().unwrap();
    let folder = std::env::var("POSYWRIGHT_MANY").map_or_else(|_| own.path().join("shop"), PathBuf::from);
    let shop = Shop::begin(&folder, "Quillfern Flowers").unwrap();
    let n = std::env::var("POSYWRIGHT_HOW_MANY").map_or(40, |n| n.parse().unwrap());
    write(n, &shop);
    let (mut index, cold) = (OrderIndex::empty(), Instant::now());
    assert_eq!(index.refresh(&shop), []);
    let (cold, warm) = (cold.elapsed(), Instant::now());
    index.refresh(&shop);
    println!("{} orders: first listed in {cold:?}, again in {:?}", index.rows().len(), warm.elapsed());
    assert_eq!(index.rows().len(), n);
}

#[test]
fn made_up_orders_stand_at_every_state_but_agreed() {
    let shop = Shop::built_in();
    let rows = rows(60, &shop);
    for state in OrderState::ALL {
        assert_eq!(rows.iter().any(|row| row.state == state), state != OrderState::Agreed, "{state:?}");
    }
}
