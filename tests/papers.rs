//! The papers as PDF: same bytes, names that can be searched, nothing on the client's page that is the shop's own, tables
//! that break over sheets, a bar that is 100 mm long, and no panic whatever the order holds.
//!
//! What other programs make of the files (qpdf, poppler) is checked by `tests/papers/check.sh`.

#![expect(clippy::unwrap_used, reason = "a test that cannot go on should stop")]

use std::collections::BTreeSet;
use std::io::Read as _;
use std::sync::Arc;

use posywright::book::Order;
use posywright::export::pdf::{
    CHECK_BAR_MM, Document, Job, Paper, bench_card, bill_of_materials_paper, bill_rows, client_page, pdf_of, template,
};
use posywright::export::{csv_of, price_text};
use posywright::geometry::Point;
use posywright::paperwork::{stem_list, worked_price};
use posywright::piece::{Edit, HouseStyle, Level, NewPart};
use posywright::stock::{STANDING_LINE, Stock};
use posywright::store::{built_in_stock, built_in_style, order_from_text, samples, stock_from_text};
use posywright::units::Length;

const NAMES: [&str; 5] = [
    "Zs\u{f3}fia \u{150}ry-N\u{e9}meth",
    "\u{141}ucja \u{17b}\u{f3}\u{142}kiewska",
    "Nguy\u{1ec5}n Th\u{1ecb} B\u{ed}ch \u{110}\u{e0}o",
    "\u{de}\u{f3}rd\u{ed}s",
    "O'Brien-de la Cruz",
];

type Make = fn(&Job<'_>) -> Document;
const PAPERS: [Make; 4] = [client_page, bench_card, template, bill_of_materials_paper];

/// A shop and what follows from an order in it.
struct Shop {
    stock: Stock,
    style: HouseStyle,
}

impl Shop {
    fn built_in() -> Self {
        Self { stock: built_in_stock(), style: built_in_style() }
    }

    fn sample(&self, name: &str) -> Order {
        let sample = samples::orders().find(|s| s.path.contains(name)).unwrap();
        order_from_text(sample.text, sample.path, &self.stock).unwrap()
    }

    fn samples(&self) -> Vec<Order> {
        samples::orders().map(|s| order_from_text(s.text, s.path, &self.stock).unwrap()).collect()
    }

    fn with<T>(&self, order: &Order, paper: Paper, use_it: impl FnOnce(&Job<'_>) -> T) -> T {
        let (stock, style) = (&self.stock, &self.style);
        let size = order.size.as_ref().and_then(|name| style.size(name));
        let stems = &stem_list(&order.piece, size, stock, style);
        let price = &worked_price(stems.fresh_cents, stems.hard_cents, stems.minutes, &style.prices);
        use_it(&Job { shop: "Quillfern Flowers", order, stock, style, stems, price, paper })
    }

    fn paper(&self, order: &Order, make: Make) -> Document {
        self.with(order, Paper::A4, make)
    }
}

/// The streams of a PDF, unpacked where they are packed.
fn streams(pdf: &[u8]) -> Vec<Vec<u8>> {
    let find = |from: usize, what: &[u8]| pdf[from..].windows(what.len()).position(|w| w == what).map(|i| from + i);
    let (mut found, mut at) = (Vec::new(), 0);
    while let Some(start) = find(at, b"stream\n") {
        let start = start + b"stream\n".len();
        let end = find(start, b"endstream").unwrap();
        let mut unpacked = Vec::new();
        match flate2::read::ZlibDecoder::new(&pdf[start..end]).read_to_end(&mut unpacked) {
            Ok(_) => found.push(unpacked),
            Err(_) => found.push(pdf[start..end].to_vec()),
        }
        at = end + b"endstream".len();
    }
    found
}

/// Every letter that the PDF's fonts say their glyphs stand for: the right-hand sides of its `ToUnicode` maps (ISO 32000-1,
/// 9.10.3).
fn letters_to_be_found(pdf: &[u8]) -> BTreeSet<char> {
    let mut letters = BTreeSet::new();
    for map in streams(pdf).iter().filter_map(|s| std::str::from_utf8(s).ok()).filter(|s| s.contains("beginbfchar")) {
        for line in map.lines().filter(|l| l.starts_with('<')) {
            let hex = line.rsplit('<').next().unwrap().trim_end_matches('>').trim();
            let units: Vec<u16> =
                (0..hex.len() / 4).filter_map(|i| u16::from_str_radix(&hex[4 * i..4 * i + 4], 16).ok()).collect();
            letters.extend(char::decode_utf16(units).filter_map(Result::ok));
        }
    }
    letters
}

#[test]
fn the_same_order_gives_the_same_bytes() {
    let shop = Shop::built_in();
    for order in [shop.sample("09-showpiece"), shop.sample("08-boutonniere")] {
        for make in PAPERS {
            let bytes = || pdf_of(&shop.paper(&order, make)).unwrap();
            let first = bytes();
            assert!(first.starts_with(b"%PDF-1.7") && first == bytes());
            assert!(!first.windows(13).any(|w| w == b"/CreationDate"), "a date would change from day to day");
        }
    }
}

#[test]
fn every_name_is_on_the_papers_and_can_be_searched_for() {
    let shop = Shop::built_in();
    let mut order = shop.sample("01-petite");
    for name in NAMES {
        name.clone_into(&mut order.wearer);
        order.notes = format!("Goes with {name}.");
        for make in PAPERS {
            let document = shop.paper(&order, make);
            assert!(document.text().contains(name) && document.title().contains(name), "{}", document.title());
            let letters = letters_to_be_found(&pdf_of(&document).unwrap());
            assert!(letters.len() > 30, "the maps were not read");
            let missing: Vec<char> = name.chars().filter(|c| !c.is_whitespace() && !letters.contains(c)).collect();
            assert!(missing.is_empty(), "{name}: {missing:?}");
        }
    }
}

#[test]
fn the_clients_page_says_nothing_of_cost_supplier_or_mark() {
    let shop = Shop::built_in();
    let suppliers: BTreeSet<String> =
        shop.stock.botanicals().iter().map(|b| b.supplier.to_lowercase()).filter(|s| !s.is_empty()).collect();
    assert!(suppliers.len() > 1);
    for mut order in shop.samples() {
        "SECRET of the shop".clone_into(&mut order.notes);
        shop.with(&order, Paper::A4, |job| {
            let page = client_page(job);
            let said = page.text().to_lowercase();
            for word in ["cost", "supplier", "margin", "profit", "wholesale", "mark", "score", "of 100", "secret"] {
                assert!(!said.contains(word), "{}: {word}", order.wearer);
            }
            for supplier in &suppliers {
                assert!(!said.contains(supplier.as_str()), "{}: {supplier}", order.wearer);
            }
            // The only amount of money on it is the price.
            let price = price_text(job.price.rounded, &job.style.prices.currency);
            let amounts: Vec<&str> = said.split_whitespace().filter(|w| w.contains('$')).collect();
            let wanted: Vec<&str> = if job.stems.lines.is_empty() { Vec::new() } else { vec![&price] };
            assert_eq!(amounts, wanted, "{}", order.wearer);
        });
    }
}

#[test]
fn the_clients_page_says_what_is_in_it_and_what_to_be_careful_of() {
    let shop = Shop::built_in();
    let page = shop.paper(&shop.sample("09-showpiece"), client_page);
    let said = page.text().replace('\n', " ");
    for words in
        ["Leocadia", "Harbour Hall", "3 \u{d7} Spray rose, blush", "5 \u{d7} Hypericum berry, peach", "left wrist"]
    {
        assert!(said.contains(words), "{words}: {said}");
    }
    assert!(said.contains("Poisonous if eaten") && said.contains("candles") && said.contains(STANDING_LINE), "{said}");
    assert_eq!(page.n_sheets(), 1);
}

#[test]
fn the_bench_card_is_read_at_arms_length_and_names_no_price() {
    let shop = Shop::built_in();
    for mut order in shop.samples() {
        "Latex allergy".clone_into(&mut order.notes);
        let card = shop.paper(&order, bench_card);
        let said = card.text();
        assert!(!said.contains('$') && !said.to_lowercase().contains("cost"), "{said}");
        assert!(said.contains(STANDING_LINE.split('.').next().unwrap()), "{said}");
        let note = card.find("Latex allergy").unwrap();
        assert!(note.sheet == 0 && note.size_mm >= 5.0);
        let side = card.find(if said.contains("LAPEL") { "LAPEL" } else { order_side(&order) }).unwrap();
        assert!(side.sheet == 0 && side.size_mm >= 18.0);
    }
    let card = shop.paper(&shop.sample("02-classic"), bench_card);
    let said = card.text();
    for words in ["5 blooms", "6 leaves", "Spray rose, white", "30 mm", "Steps", "Hold each 10 s.", "14 min in all"] {
        assert!(said.contains(words), "{words}: {said}");
    }
    assert!(card.find("5 blooms").unwrap().size_mm >= 4.5);
    assert!(said.contains("6 1/4 in (159 mm), measured"), "{said}");
    let empty = shop.paper(&shop.sample("06-empty"), bench_card).text();
    assert!(empty.contains("NOT MEASURED YET") && empty.contains("Nothing is on the sketch yet."), "{empty}");
}

fn order_side(order: &Order) -> &'static str {
    if order.wrist.side.word() == "left" { "LEFT" } else { "RIGHT" }
}

/// What is still to place is on the card too, and the steps count it: the list is that of the size that was promised.
#[test]
fn what_is_promised_and_not_sketched_yet_is_on_the_bench_card() {
    let shop = Shop::built_in();
    let mut order = shop.sample("06-empty");
    order.size = Some("Petite".to_owned());
    let said = shop.paper(&order, bench_card).text().replace('\n', " ");
    assert!(said.contains("3 blooms") && said.contains("3 of them still to place"), "{said}");
}

#[test]
fn the_template_numbers_every_part_against_the_bill() {
    let shop = Shop::built_in();
    for order in shop.samples() {
        let sheet = shop.paper(&order, template);
        let text = sheet.text();
        let numbers: Vec<usize> = text.lines().filter_map(|l| l.parse().ok()).collect();
        assert_eq!(numbers.len(), order.piece.parts().len(), "{}", order.wearer);
        let rows = shop.with(&order, Paper::A4, bill_rows).1;
        for part in order.piece.parts() {
            let name = &shop.stock.botanical(&part.stock).unwrap().name;
            let row = rows.iter().find(|r| r[1] == *name && r[2] == *part.colour).unwrap();
            let wanted =
                order.piece.parts().iter().filter(|p| p.stock == part.stock && p.colour == part.colour).count();
            let number: usize = row[0].parse().unwrap();
            assert_eq!(numbers.iter().filter(|n| **n == number).count(), wanted, "{name} in {}", order.wearer);
            assert!(text.contains(&format!("{number}   {name}, {}", part.colour)), "{text}");
        }
        assert!(text.contains("Print at 100 %, do not fit to page."));
        assert!(pdf_of(&sheet).unwrap().len() < 40_000, "outlines take little");
    }
}

#[test]
fn the_thumb_is_on_the_side_where_anatomy_puts_it() {
    let shop = Shop::built_in();
    let centre = |sheet: &Document| sheet.find("\u{2191} to the elbow").unwrap();
    let left = shop.paper(&shop.sample("01-petite"), template);
    assert!(left.find("thumb side").unwrap().x_mm < centre(&left).x_mm);
    let right = shop.paper(&shop.sample("07-orchid-classic"), template);
    assert!(right.find("thumb side").unwrap().x_mm > centre(&right).x_mm);
    assert!(centre(&right).y_mm < right.find("\u{2193} to the hand").unwrap().y_mm);
    assert!(shop.paper(&shop.sample("08-boutonniere"), template).find("thumb side").is_none());
}

/// Each page is scaled by 72/25.4 points to the millimetre and the bar runs from 12 to 112: 283.465 points, 100.000 mm.
#[test]
fn the_check_bar_is_100_mm_in_the_file_itself() {
    let shop = Shop::built_in();
    for paper in [Paper::A4, Paper::Letter] {
        let pdf = pdf_of(&shop.with(&shop.sample("01-petite"), paper, template)).unwrap();
        let streams = streams(&pdf);
        let page = streams.iter().filter_map(|s| std::str::from_utf8(s).ok()).find(|s| s.contains(" cm ")).unwrap();
        let words: Vec<&str> = page.split_whitespace().collect();
        let number = |i: usize| words[i].parse::<f64>().unwrap();
        let scale = number(words.iter().position(|w| *w == "cm").unwrap() - 6);
        assert!((scale - 72.0 / 25.4).abs() < 1e-6, "{scale}");
        // A line straight across: x y m X y l.
        let lines =
            (2..words.len() - 3).filter(|i| words[*i] == "m" && words[i + 3] == "l" && words[i - 1] == words[i + 2]);
        let longest = lines.map(|i| (number(i + 1) - number(i - 2)) * scale / 72.0 * 25.4).fold(0.0, f64::max);
        assert!((longest - CHECK_BAR_MM).abs() < 0.001, "{longest} mm");
    }
}

/// All of the built-in list on one piece: more rows than a sheet holds.
fn crowded(shop: &Shop) -> Order {
    let mut order = shop.sample("06-empty");
    let kinds = shop.stock.botanicals().iter().flat_map(|b| b.colours.iter().take(2).map(move |c| (b, c)));
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

#[test]
fn long_tables_break_over_sheets_and_repeat_their_head() {
    let shop = Shop::built_in();
    let order = crowded(&shop);
    for paper in [Paper::A4, Paper::Letter] {
        let (bill, card, rows) =
            shop.with(&order, paper, |job| (bill_of_materials_paper(job), bench_card(job), bill_rows(job).1));
        let sheets = bill.sheet_texts();
        assert!(sheets.len() >= 3, "{}", sheets.len());
        for sheet in &sheets {
            assert!(sheet.lines().any(|l| l == "Supplier") && sheet.lines().any(|l| l == "Cost"), "{sheet}");
        }
        let said = bill.text().replace('\n', " ");
        assert!(rows.iter().all(|r| said.contains(r[1].split(',').next().unwrap())), "every line is there");
        assert!(card.sheet_texts().iter().filter(|s| s.lines().any(|l| l == "How many")).count() >= 2);
    }
}

#[test]
fn every_word_stays_within_the_white_edges() {
    let shop = Shop::built_in();
    let long = "Nguy\u{1ec5}n".repeat(40);
    let mut orders = shop.samples();
    orders.push(crowded(&shop));
    for notes in [long.clone(), "one\ntwo\n".repeat(30), format!("{} ", "word").repeat(2000)] {
        let mut order = shop.sample("03-full");
        (order.wearer, order.dance, order.notes) = (long.clone(), format!("Hall {long}"), notes);
        orders.push(order);
    }
    for order in &orders {
        for paper in [Paper::A4, Paper::Letter] {
            for make in PAPERS {
                let document = shop.with(order, paper, make);
                assert_eq!(document.outside_the_edges(), Vec::<String>::new(), "{}", document.title());
            }
        }
    }
}

#[test]
fn nothing_an_order_can_hold_makes_the_papers_panic() {
    let shop = Shop::built_in();
    let hostile = "\u{202e}\u{0}\u{7}\u{1f339}\u{6f22}\u{5d0} (\\) <</Type>> %PDF \u{fffd}\u{200d}";
    for mm in [0.0, -5.0, 1e-9, 500.0, 1e6, f64::NAN, f64::INFINITY, f64::MAX] {
        let mut order = shop.sample("02-classic");
        order.piece.footprint.length_mm = mm;
        order.piece.footprint.width_mm = mm;
        order.piece.footprint.offset_mm = mm;
        order.wrist.girth = Length::from_mm(mm);
        if let Some(bow) = &mut order.piece.bow {
            (bow.loop_length_mm, bow.loop_width_mm, bow.tail_length_mm) = (mm, mm, mm);
            (bow.loops_a_side, bow.tails) = (9, 9);
        }
        hostile.clone_into(&mut order.wearer);
        hostile.clone_into(&mut order.notes);
        for make in PAPERS {
            let written = pdf_of(&shop.paper(&order, make));
            let refused = written.as_ref().err().is_some_and(|said| said.ends_with('.'));
            assert!(refused || written.is_ok_and(|pdf| pdf.starts_with(b"%PDF")), "{mm}");
        }
    }
}

#[test]
fn a_piece_larger_than_the_sheet_is_told() {
    let shop = Shop::built_in();
    let mut order = shop.sample("02-classic");
    order.piece.footprint.length_mm = 400.0;
    let said = shop.paper(&order, template).text().replace('\n', " ");
    assert!(said.contains("more than the sheet holds") && said.contains("Print at 100 %"), "{said}");
}

#[test]
fn a_name_that_looks_like_a_formula_is_defused_in_the_bill() {
    let own = r#"(version: 1, botanicals: [(id: "spray-rose", name: "=HYPERLINK(1)", supplier: "@evil")])"#;
    let stock = stock_from_text(own, "stock.ron", &built_in_stock()).unwrap();
    let shop = Shop { stock, style: built_in_style() };
    let (head, rows) = shop.with(&shop.sample("01-petite"), Paper::A4, bill_rows);
    let csv = csv_of(&head, &rows);
    assert!(csv.contains(",'=HYPERLINK(1),white,bloom,3,") && csv.contains(",'@evil,"), "{csv}");
}
