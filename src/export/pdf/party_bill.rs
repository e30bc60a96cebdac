//! The bill of a party: each of its orders, what it comes to, what is paid, and the sums. For the client, so nothing of it tells a cost.

use super::column::Column;
use super::for_client::{NAME_MM, SMALL_MM, WORDS_MM, amount, money_row, rule};
use super::letterhead::letterhead;
use super::sheet::{Align, Document, PaperSize, SOFT};
use super::table::{Cell, Lane, Table};
use super::words;
use crate::book::Letterhead;
use crate::export::lettering::Face;
use crate::paperwork::{PartyBill, PartyBillLine};
use crate::units::Cents;

const LANES: [Lane; 4] = [
    Lane { head: "No.", share: 14.0, align: Align::Right },
    Lane { head: "What", share: 108.0, align: Align::Left },
    Lane { head: words::TOTAL, share: 24.0, align: Align::Right },
    Lane { head: words::PAID, share: 24.0, align: Align::Right },
];

/// The bill of a party, from this shop.
pub fn party_bill_paper(bill: &PartyBill, shop: &Letterhead, paper: PaperSize) -> Document {
    let mut column = Column::new(words::party_bill_title(&bill.party), paper);
    let inside = column.inside();
    letterhead(&mut column, shop);
    column.one_line(words::party_name(&bill.party), Face::Title, NAME_MM);
    column.skip(3.0);
    let money = |price: Cents| amount(price, &bill.currency);
    let rows: Vec<Vec<Cell>> = bill.lines.iter().map(|line| row(line, &money)).collect();
    Table { lanes: &LANES, size_mm: WORDS_MM, from_mm: inside.x0, to_mm: inside.x1 }.write(&mut column, &rows);
    rule(&mut column);
    money_row(&mut column, words::TOTAL, &money(bill.total), Face::Strong, WORDS_MM * 1.3);
    if bill.tax != Cents(0) {
        money_row(&mut column, words::TAX_IN_IT, &money(bill.tax), Face::Text, WORDS_MM);
    }
    money_row(&mut column, words::PAID, &money(bill.paid), Face::Text, WORDS_MM);
    let (what, due) = words::due(bill.due());
    money_row(&mut column, what, &money(due), Face::Strong, WORDS_MM * 1.3);
    column.paragraph(words::EACH_PRICED_ALONE, Face::Text, SMALL_MM, 0.0, SOFT);
    column.into_document()
}

fn row(line: &PartyBillLine, money: &impl Fn(Cents) -> String) -> Vec<Cell> {
    let number = line.number.map_or_else(String::new, |number| number.to_string());
    let words = [number, line.what.clone(), money(line.total), money(line.paid)];
    words.into_iter().map(Cell::Words).collect()
}
