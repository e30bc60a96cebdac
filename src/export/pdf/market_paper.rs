//! The market list as a paper: a sheet for each supplier, to be sent or taken along, and one for the shop alone with what it
//! comes to. A supplier's sheet tells what is ordered there and by when, and nothing of the shop's sales.

use super::column::Column;
use super::for_client::{NAME_MM, WORDS_MM, amount, money_row, rule};
use super::letterhead::letterhead;
use super::sheet::{Align, Document, INK, PaperSize, SOFT};
use super::table::{Cell, Lane, Table};
use super::week_words;
use crate::book::{Letterhead, Written};
use crate::export::lettering::Face;
use crate::export::market::{bought_from, goods_words, market_sums, out_of_season_words, supplier_name};
use crate::paperwork::{MarketList, short_price};
use crate::units::{Cents, Currency};

const LANES: [Lane; 5] = [
    Lane { head: "", share: 8.0, align: Align::Left },
    Lane { head: "What", share: 80.0, align: Align::Left },
    Lane { head: "Bunches", share: 20.0, align: Align::Right },
    Lane { head: "Stems each", share: 24.0, align: Align::Right },
    Lane { head: "Cost", share: 24.0, align: Align::Right },
];

/// The market list of an occasion that is called `title`.
pub fn market_paper(
    title: &str,
    list: &MarketList,
    shop: &Letterhead,
    currency: &Currency,
    written: Written,
    paper: PaperSize,
) -> Document {
    let money = |sum: Cents| amount(sum, currency);
    let mut column = Column::new(week_words::market_title(title), paper);
    let inside = column.inside();
    for to in &list.suppliers {
        letterhead(&mut column, shop);
        column.one_line(supplier_name(&to.name), Face::Title, NAME_MM);
        column.paragraph(title, Face::Text, WORDS_MM, 0.0, SOFT);
        if let Some(day) = to.order_by {
            let by = week_words::order_by(&day.with_weekday(written.date));
            column.paragraph(&by, Face::Strong, WORDS_MM, 0.0, INK);
        }
        column.skip(3.0);
        let rows: Vec<Vec<Cell>> = bought_from(list, &to.name)
            .map(|(line, buy)| {
                vec![
                    Cell::Tick,
                    Cell::Words(format!("{}, {}", line.name, line.colour)),
                    Cell::Strong(buy.packs.to_string()),
                    Cell::Words(buy.stems_each.to_string()),
                    Cell::Words(money(buy.cost)),
                ]
            })
            .collect();
        Table { lanes: &LANES, size_mm: WORDS_MM, from_mm: inside.x0, to_mm: inside.x1 }.write(&mut column, &rows);
        rule(&mut column);
        if to.delivery != Cents(0) {
            money_row(&mut column, week_words::DELIVERY, &money(to.delivery), Face::Text, WORDS_MM);
        }
        money_row(&mut column, week_words::TOTAL, &money(to.packs_cost + to.delivery), Face::Strong, WORDS_MM * 1.2);
        column.turn_over();
    }
    for_the_shop(&mut column, title, list, currency);
    column.into_document()
}

/// What comes from the shelf, and what it all comes to.
fn for_the_shop(column: &mut Column, title: &str, list: &MarketList, currency: &Currency) {
    let money = |sum: Cents| short_price(sum, currency);
    column.one_line(week_words::FROM_THE_SHELF, Face::Title, NAME_MM);
    column.paragraph(title, Face::Text, WORDS_MM, 0.0, SOFT);
    column.skip(3.0);
    for line in &list.goods {
        money_row(column, &goods_words(line), &amount(line.cost, currency), Face::Text, WORDS_MM);
    }
    rule(column);
    for (what, told) in market_sums(list, &money) {
        money_row(column, what, &told, Face::Strong, WORDS_MM);
    }
    for line in list.lines.iter().filter(|line| line.out_of_season.is_some()) {
        column.paragraph(&out_of_season_words(line), Face::Strong, WORDS_MM, 0.0, INK);
    }
    column.paragraph(week_words::SHOP_ONLY, Face::Text, WORDS_MM, 0.0, SOFT);
}
