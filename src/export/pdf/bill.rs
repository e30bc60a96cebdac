//! The bill of materials, as a paper and as rows for a spreadsheet. The shop's copy: costs and suppliers inside.

use super::column::Column;
use super::for_client::amount;
use super::sheet::{Align, Document, INK, SOFT};
use super::table::{Cell, Lane, Table};
use super::words;
use crate::export::lettering::Face;
use crate::export::paper_kind::{PaperContent, PaperJob, PaperKind, PaperReader};
use crate::export::{csv_of, price_text};
use crate::paperwork::{BillLine, bill_of_materials};
use crate::units::{Cents, Currency, LengthUnit, minutes_text};

/// Sizes, mm.
const NAME_MM: f64 = 9.0;
const WORDS_MM: f64 = 4.0;

const LANES: [Lane; 7] = [
    Lane { head: "No.", share: 9.0, align: Align::Right },
    Lane { head: "", share: 7.0, align: Align::Left },
    Lane { head: "What", share: 62.0, align: Align::Left },
    Lane { head: "How much", share: 26.0, align: Align::Right },
    Lane { head: "Stems", share: 20.0, align: Align::Right },
    Lane { head: "Supplier", share: 38.0, align: Align::Left },
    Lane { head: "Cost", share: 18.0, align: Align::Right },
];

/// The bill of materials among the papers.
pub(in crate::export) static BILL_OF_MATERIALS: PaperKind = PaperKind {
    id: "bill-of-materials",
    title: "Bill of materials",
    reader: PaperReader::Shop,
    endings: &["csv", "pdf"],
    is_for_each_piece: true,
    missing: "",
    make: |job| {
        let (head, rows) = bill_rows(job);
        let table = PaperContent::Words("csv", csv_of(&head, &rows));
        vec![table, PaperContent::Pdf(bill_of_materials_paper(job))]
    },
};

/// The bill of materials of an order.
pub fn bill_of_materials_paper(job: &PaperJob<'_>) -> Document {
    let mut column = Column::new(words::title(BILL_OF_MATERIALS.title, job.order), job.paper);
    let inside = column.inside();
    column.one_line(BILL_OF_MATERIALS.title, Face::Title, NAME_MM);
    column.one_line(
        &format!("{} \u{b7} {}", words::wearer(job.order), words::occasion(job.order)),
        Face::Text,
        WORDS_MM * 1.2,
    );
    for (what, said) in [("Pick-up", words::pickup(job.order, job.written)), ("Client", words::contact(job.order))] {
        if !said.is_empty() {
            column.paragraph(&format!("{what}: {said}"), Face::Text, WORDS_MM, 0.0, INK);
        }
    }
    column.paragraph(words::SHOP_COPY, Face::Strong, WORDS_MM, 0.0, INK);
    column.skip(3.0);
    super::stops::stops(&mut column, job, WORDS_MM);
    let currency = &job.style.prices.currency;
    let bill = bill_of_materials(&job.order.piece, job.stems, job.stock);
    let mut rows: Vec<Vec<Cell>> = bill.iter().map(|line| row(line, currency, words::unit(job.order))).collect();
    rows.push(total("Flowers and greens", job.stems.fresh_cost, currency));
    rows.push(total("Hard goods", job.stems.hard_cost, currency));
    rows.push(total("All goods", job.stems.goods_cost(), currency));
    Table { lanes: &LANES, size_mm: WORDS_MM, from_mm: inside.x0, to_mm: inside.x1 }.write(&mut column, &rows);
    column.skip(4.0);
    let price = price_text(job.price.rounded, currency);
    let making = minutes_text(job.stems.minutes);
    column.paragraph(&words::piece_price(&making, &price), Face::Strong, WORDS_MM, 0.0, INK);
    column.paragraph(words::COSTS_ARE, Face::Text, WORDS_MM * 0.9, 0.0, SOFT);
    column.into_document()
}

fn row(line: &BillLine, currency: &Currency, unit: LengthUnit) -> Vec<Cell> {
    vec![
        Cell::Words(line.number.to_string()),
        Cell::Swatch(line.rgb),
        Cell::Words(words::what(line)),
        Cell::Words(words::amount(line, unit)),
        Cell::Words(words::stems(line)),
        Cell::Words(line.supplier.clone()),
        Cell::Words(amount(line.cost, currency)),
    ]
}

fn total(what: &str, cost: Cents, currency: &Currency) -> Vec<Cell> {
    let none = || Cell::Words(String::new());
    let what = Cell::Strong(what.to_owned());
    vec![none(), Cell::Swatch(None), what, none(), none(), none(), Cell::Strong(amount(cost, currency))]
}

/// The bill as rows for a spreadsheet, head first.
pub fn bill_rows(job: &PaperJob<'_>) -> (Vec<&'static str>, Vec<Vec<String>>) {
    let head = vec![
        "no",
        "what",
        "colour",
        "role",
        "count",
        "to_place",
        "stems",
        "stems_per_bunch",
        "length_mm",
        "supplier",
        "cost_cents",
    ];
    let number = |n: Option<u32>| n.map_or_else(String::new, |n| n.to_string());
    let bill = bill_of_materials(&job.order.piece, job.stems, job.stock);
    let rows = bill.iter().map(|line| {
        vec![
            line.number.to_string(),
            line.name.clone(),
            line.colour.clone(),
            line.role.map_or("goods", |role| role.words().0).to_owned(),
            line.count.to_string(),
            line.to_place.to_string(),
            number(line.stems),
            number(line.stems_per_bunch),
            line.length_mm.map_or_else(String::new, |mm| format!("{mm:.1}")),
            line.supplier.clone(),
            line.cost.0.to_string(),
        ]
    });
    (head, rows.collect())
}
