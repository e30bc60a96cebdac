//! A shop, its orders, and the papers that follow from them, for the tests of the papers.

use std::sync::Arc;

use posywright::book::{Change, Day, Letterhead, Order, PayWay, Payment, Written};
use posywright::export::pdf::{
    Document, PaperSize, agreed_sheet, bench_card, bill_of_materials_paper, care_slip, client_page, quote_slip,
    receipt, template,
};
use posywright::export::{PaperJob, PaperMaker};
use posywright::geometry::Point;
use posywright::paperwork::{agree, stem_list};
use posywright::piece::{Edit, HouseStyle, Level, NewPart};
use posywright::stock::Stock;
use posywright::store::{built_in_stock, built_in_style, order_from_text, samples};
use posywright::units::Cents;

pub(crate) type Make = fn(&PaperJob<'_>) -> Document;
/// All papers, for orders that are [`settled`]; the client's first.
pub(crate) const ALL_DOCUMENTS: [Make; 8] =
    [client_page, quote_slip, agreed, paid, care_slip, bench_card, template, bill_of_materials_paper];
pub(crate) const FOR_THE_CLIENT: &[Make] = ALL_DOCUMENTS.split_at(5).0;

/// Those of them that show the piece.
pub(crate) const PICTURED_FOR_THE_CLIENT: &[Make] = ALL_DOCUMENTS.split_at(4).0;

pub(crate) fn agreed(job: &PaperJob<'_>) -> Document {
    agreed_sheet(job).unwrap()
}

pub(crate) fn paid(job: &PaperJob<'_>) -> Document {
    receipt(job).unwrap()
}

/// A shop and what follows from an order in it.
pub(crate) struct Shop {
    pub(crate) letterhead: Letterhead,
    pub(crate) stock: Stock,
    pub(crate) style: HouseStyle,
    pub(crate) written: Written,
}

/// As much as most shops have; invented, with a telephone of the range kept free for that.
fn letterhead() -> Letterhead {
    Letterhead {
        address: vec!["12 Quill Lane".to_owned(), "Fernhaven".to_owned()],
        phone: "555-0142".to_owned(),
        email: "hello@quillfern.example".to_owned(),
        ..Letterhead::named("Quillfern Flowers")
    }
}

impl Shop {
    pub(crate) fn built_in() -> Self {
        let (stock, style) = (built_in_stock(), built_in_style());
        Self { letterhead: letterhead(), stock, style, written: Written::default() }
    }

    pub(crate) fn sample(&self, name: &str) -> Order {
        let sample = samples::orders().find(|s| s.path.contains(name)).unwrap();
        order_from_text(sample.text, sample.path, &self.stock).unwrap()
    }

    pub(crate) fn samples(&self) -> Vec<Order> {
        samples::orders().map(|s| order_from_text(s.text, s.path, &self.stock).unwrap()).collect()
    }

    /// The same order after the yes, its deposit paid, and so with every paper that there is.
    pub(crate) fn settled(&self, order: &Order) -> Order {
        let told = Order { agreed: None, ..order.clone() };
        let told = told.apply(&Change::QuotedOn(Day::parse("2026-04-30")), &self.stock).unwrap();
        let yes = agree(&told, Day::parse("2026-05-02").unwrap(), &self.style, &self.stock);
        let changes = vec![
            Change::Payments(vec![Payment {
                on: Day::parse("2026-05-03"),
                way: PayWay::NotNoted,
                sum: yes.deposit.unwrap().max(Cents(1)),
            }]),
            Change::Agreed(Some(Box::new(yes))),
        ];
        told.apply(&Change::Together(changes), &self.stock).unwrap()
    }

    pub(crate) fn with<T>(&self, order: &Order, paper: PaperSize, use_it: impl FnOnce(&PaperJob<'_>) -> T) -> T {
        let (stock, style) = (&self.stock, &self.style);
        let size = order.size.as_ref().and_then(|name| style.size(name));
        let stems = &stem_list(&order.piece, size, stock, style);
        let price = &stems.price(&style.prices);
        use_it(&PaperJob { shop: &self.letterhead, order, stock, style, stems, price, written: self.written, paper })
    }

    /// What makes the papers of this shop.
    pub(crate) fn maker(&self, paper: PaperSize) -> PaperMaker<'_> {
        PaperMaker { shop: &self.letterhead, stock: &self.stock, style: &self.style, written: self.written, paper }
    }

    pub(crate) fn paper(&self, order: &Order, make: Make) -> Document {
        self.with(order, PaperSize::A4, make)
    }

    /// All of the built-in list on one piece: more rows than a sheet holds.
    pub(crate) fn crowded(&self) -> Order {
        let mut order = self.sample("06-empty");
        let kinds = self.stock.botanicals().iter().flat_map(|b| b.colours.iter().take(2).map(move |c| (b, c)));
        for (i, (botanical, colour)) in kinds.enumerate() {
            let turn = i as f64 * 2.4;
            let new = NewPart {
                stock: botanical.id.clone(),
                colour: Arc::from(colour.name.as_str()),
                role: botanical.role,
                centre: Point::new(40.0 * turn.cos(), 22.0 * turn.sin()),
                turn_rad: turn,
                size_mm: None,
                level: Level::Raised,
            };
            order.piece = order.piece.apply(&Edit::Place(new)).unwrap();
        }
        order
    }
}
