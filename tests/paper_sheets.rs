//! How many sheets a paper takes, and that none is left behind when it is sent as pictures.

#![expect(clippy::unwrap_used, reason = "a test that cannot go on should stop")]

use posywright::book::{Extra, Order};
use posywright::export::pdf::{Document, Job, Paper, bench_card, quote_slip};
use posywright::export::{PaperDesk, PaperKind};
use posywright::paperwork::{stem_list, worked_price};
use posywright::piece::HouseStyle;
use posywright::stock::Stock;
use posywright::store::{built_in_stock, built_in_style, order_from_text, samples};
use posywright::units::Cents;

fn shop() -> (Stock, HouseStyle, Vec<Order>) {
    let (stock, style) = (built_in_stock(), built_in_style());
    let orders = samples::orders().map(|s| order_from_text(s.text, s.path, &stock).unwrap()).collect();
    (stock, style, orders)
}

fn laid(order: &Order, stock: &Stock, style: &HouseStyle, paper: Paper, make: fn(&Job<'_>) -> Document) -> Document {
    let size = order.size.as_ref().and_then(|name| style.size(name));
    let stems = &stem_list(&order.piece, size, stock, style);
    let price = &worked_price(stems.fresh_cents, stems.hard_cents, stems.minutes, &style.prices);
    make(&Job { shop: "A shop", order, stock, style, stems, price, paper })
}

/// Up to five kinds of flowers, greens and sprigs is what a shop makes day by day.
#[test]
fn a_usual_piece_has_a_bench_card_of_one_sheet() {
    let (stock, style, orders) = shop();
    let mut n_usual = 0;
    for order in &orders {
        let kinds: std::collections::BTreeSet<_> = order.piece.parts().iter().map(|p| (&p.stock, &p.colour)).collect();
        for paper in [Paper::A4, Paper::Letter] {
            let card = laid(order, &stock, &style, paper, bench_card);
            let most = if kinds.len() <= 5 { 1 } else { 2 };
            assert!(card.n_sheets() <= most, "{} on {}: {}", order.wearer, paper.word(), card.n_sheets());
            assert!(card.find("Steps").unwrap().size_mm >= 4.5, "read at arm's length");
            assert_eq!(card.words_on_pictures(), Vec::<String>::new(), "{}", card.title());
            let side = if order.wrist.side.word() == "left" { "LEFT WRIST" } else { "RIGHT WRIST" };
            assert_eq!(card.text().contains(side), card.n_sheets() == 2, "a loose second sheet tells its side");
            n_usual += usize::from(most == 1);
        }
    }
    assert!(n_usual > 10, "{n_usual}");
}

#[test]
fn every_sheet_of_a_paper_to_be_sent_is_a_picture_of_its_own() {
    let (stock, style, orders) = shop();
    let desk = PaperDesk { shop: "A shop", stock: &stock, style: &style, paper: Paper::A4 };
    let names = |order: &Order| -> Vec<String> {
        desk.files(order, PaperKind::QuoteSlip).unwrap().into_iter().map(|(name, _)| name).collect()
    };
    assert_eq!(names(&orders[0]), ["quote-slip.pdf", "quote-slip.png"]);
    let mut long = orders[0].clone();
    long.terms.extras = (0..60).map(|i| Extra { name: format!("Extra {i}"), price: Cents(100) }).collect();
    let n_sheets = laid(&long, &stock, &style, Paper::A4, quote_slip).n_sheets();
    assert!(n_sheets > 1);
    let told = names(&long);
    assert_eq!(told[..3], ["quote-slip.pdf", "quote-slip.png", "quote-slip-2.png"]);
    assert_eq!(told.len(), 1 + n_sheets);
}
