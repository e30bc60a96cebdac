//! The papers as PDF: same bytes, names that can be searched, nothing on the client's page that is the shop's own, tables
//! that break over sheets, a bar that is 100 mm long, and no panic whatever the order holds.
//!
//! What other programs make of the files (qpdf, poppler) is checked by `tests/papers/check.sh`.

#![expect(clippy::unwrap_used, reason = "a test that cannot go on should stop")]

#[path = "support/pdf_streams.rs"]
mod pdf_streams;

use std::collections::BTreeSet;
use std::sync::Arc;

use kurbo::Rect;
use pdf_streams::streams;
use posywright::book::{Asked, Change, Day, DressColour, Extra, Order, WearerKind, matching_boutonniere};
use posywright::export::pdf::{
    CHECK_BAR_MM, Document, Job, Paper, agreed_sheet, bench_card, bill_of_materials_paper, bill_rows, client_page,
    pdf_of, picture_pdf, pngs_of, quote_slip, receipt, template,
};
use posywright::export::{csv_of, price_text};
use posywright::geometry::Point;
use posywright::paperwork::{agree, quote, stem_list, worked_price};
use posywright::piece::{Edit, HouseStyle, Level, NewPart, Tax, TaxHow};
use posywright::scene::Scene;
use posywright::stock::{STANDING_LINE, Stock};
use posywright::store::{built_in_stock, built_in_style, order_from_text, samples, stock_from_text};
use posywright::units::{Cents, Length, count_down};

const NAMES: [&str; 5] = [
    "Zs\u{f3}fia \u{150}ry-N\u{e9}meth",
    "\u{141}ucja \u{17b}\u{f3}\u{142}kiewska",
    "Nguy\u{1ec5}n Th\u{1ecb} B\u{ed}ch \u{110}\u{e0}o",
    "\u{de}\u{f3}rd\u{ed}s",
    "O'Brien-de la Cruz",
];

type Make = fn(&Job<'_>) -> Document;
/// All papers, for orders that are [`settled`]; the client's first.
const PAPERS: [Make; 7] = [client_page, quote_slip, agreed, paid, bench_card, template, bill_of_materials_paper];
const FOR_THE_CLIENT: &[Make] = PAPERS.split_at(4).0;

fn agreed(job: &Job<'_>) -> Document {
    agreed_sheet(job).unwrap()
}

fn paid(job: &Job<'_>) -> Document {
    receipt(job).unwrap()
}

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

    /// The same order after the yes, its deposit paid, and so with every paper that there is.
    fn settled(&self, order: &Order) -> Order {
        let told = Order { agreed: None, ..order.clone() };
        let told = told.apply(&Change::QuotedOn(Day::parse("2026-04-30")), &self.stock).unwrap();
        let yes = agree(&told, Day::parse("2026-05-02").unwrap(), &self.style, &self.stock);
        let changes = vec![
            Change::Paid(yes.deposit.unwrap().max(Cents(1))),
            Change::PaidOn(Day::parse("2026-05-03")),
            Change::Agreed(Some(Box::new(yes))),
        ];
        told.apply(&Change::Together(changes), &self.stock).unwrap()
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
    for order in [shop.sample("09-showpiece"), shop.sample("08-boutonniere"), shop.sample("11-teal")] {
        let order = shop.settled(&order);
        for make in PAPERS {
            let bytes = || pdf_of(&shop.paper(&order, make)).unwrap();
            let first = bytes();
            assert!(first.starts_with(b"%PDF-1.7") && first == bytes());
            let all = [streams(&first), vec![first]].concat();
            let dated = all.iter().any(|s| s.windows(13).any(|w| w == b"/CreationDate"));
            assert!(!dated, "a date would change from day to day");
        }
    }
}

#[test]
fn the_caption_of_a_picture_as_pdf_can_be_searched() {
    let scene = Scene { frame: Rect::new(-50.0, -40.0, 60.0, 40.0), groups: Vec::new() };
    let pdf = |words| picture_pdf(scene.clone(), "A piece", words).unwrap();
    let letters = letters_to_be_found(&pdf(Some("For Zs\u{f3}fia")));
    assert!("ForZs\u{f3}fia".chars().all(|letter| letters.contains(&letter)), "{letters:?}");
    assert_eq!(pdf(Some(" ")), pdf(None));
    assert!(letters_to_be_found(&pdf(None)).is_empty());
}

#[test]
fn every_name_is_on_the_papers_and_can_be_searched_for() {
    let shop = Shop::built_in();
    let mut order = shop.sample("01-petite");
    for name in NAMES {
        name.clone_into(&mut order.wearer);
        order.notes = format!("Goes with {name}.");
        let order = shop.settled(&order);
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

/// All that a client may read on paper, of every sample, before the yes and after it with later changes: no word of what is
/// the shop's own, no supplier, and no amount of money but those that she is asked for.
#[test]
fn no_paper_of_the_clients_says_anything_of_cost_supplier_or_mark() {
    let mut shop = Shop::built_in();
    shop.style.prices.tax = Some(Tax { name: "Sales tax".into(), percent: 8.25, how: TaxHow::Added });
    let suppliers: BTreeSet<String> =
        shop.stock.botanicals().iter().map(|b| b.supplier.to_lowercase()).filter(|s| !s.is_empty()).collect();
    assert!(suppliers.len() > 1);
    for mut order in shop.samples() {
        "SECRET of the shop".clone_into(&mut order.notes);
        let below = Asked { price: Cents(1234), reason: "SECRET reason".to_owned() };
        order.partner_piece = Some(matching_boutonniere(&order, &shop.style, &shop.stock));
        let settled = shop.settled(&order);
        let later = Change::Together(vec![Change::Asked(Some(below)), Change::Notes("SECRET later".to_owned())]);
        for order in [shop.settled(&order), settled.apply(&later, &shop.stock).unwrap()] {
            shop.with(&order, Paper::A4, |job| {
                let (now, cost) =
                    (quote(job.order, job.style, job.stock), job.stems.fresh_cents + job.stems.hard_cents);
                let mut known: Vec<Cents> = now.lines.iter().map(|l| l.price).collect();
                known.extend(now.tax.iter().flat_map(|t| [t.net, t.amount]));
                known.extend([now.total, now.deposit, now.balance, now.paid, now.due, -now.due]);
                let yes = job.order.agreed.as_deref().unwrap();
                let then = quote(yes.order(), job.style, job.stock);
                known.extend(then.lines.iter().map(|l| l.price));
                known.extend(then.tax.iter().flat_map(|t| [t.net, t.amount]));
                known.extend([yes.price, yes.deposit.unwrap(), yes.price - yes.deposit.unwrap()]);
                assert!(!known.contains(&Cents::nearest(cost)) && !known.contains(&now.my_side.cost));
                let known: BTreeSet<String> =
                    known.iter().flat_map(|c| [price_text(*c, "$"), format!("${c}")]).collect();
                for make in FOR_THE_CLIENT {
                    let page = make(job);
                    let said = page.text().to_lowercase();
                    let title = page.title();
                    for word in
                        ["cost", "supplier", "margin", "profit", "wholesale", "mark", "score", "of 100", "secret"]
                    {
                        assert!(!said.contains(word), "{title}: {word}");
                    }
                    for supplier in &suppliers {
                        assert!(!said.contains(supplier.as_str()), "{title}: {supplier}");
                    }
                    let amounts = said.split_whitespace().filter(|w| w.contains('$'));
                    for amount in amounts.map(|w| w.trim_end_matches(['.', ';', ','])) {
                        assert!(known.contains(amount), "{title}: {amount} of {known:?}");
                    }
                }
            });
        }
    }
}

/// One page each, on both papers, of every sample and with a boutonniere, tax, extras and some changes after the yes.
#[test]
fn each_paper_of_the_clients_is_one_page() {
    let mut shop = Shop::built_in();
    shop.style.prices.tax = Some(Tax { name: "Sales tax".into(), percent: 8.25, how: TaxHow::Added });
    for mut order in shop.samples() {
        order.partner_piece = Some(matching_boutonniere(&order, &shop.style, &shop.stock));
        order.terms.extras =
            ["Ribbon wand", "Brought to the door"].map(|n| Extra { name: n.to_owned(), price: Cents(250) }).to_vec();
        let dress = DressColour { hex: None, words: "sage".to_owned() };
        let later = Change::Together(vec![Change::Dress(dress), Change::Extras(vec![]), Change::PartnerPiece(None)]);
        for order in [shop.settled(&order), shop.settled(&order).apply(&later, &shop.stock).unwrap()] {
            for paper in [Paper::A4, Paper::Letter] {
                for make in FOR_THE_CLIENT {
                    let page = shop.with(&order, paper, make);
                    assert_eq!(page.n_sheets(), 1, "{} on {}", page.title(), paper.word());
                    assert_eq!(page.words_on_pictures(), Vec::<String>::new(), "{}", page.title());
                }
            }
        }
    }
}

/// Classic at 27 with a boutonniere at 8 makes 35, half of it down 17.50; 30 April and fourteen days are 14 May.
#[test]
fn the_quote_slip_tells_lines_deposit_balance_until_when_and_what_it_is_made_of() {
    let shop = Shop::built_in();
    let mut order = shop.sample("02-classic");
    order.partner_piece = Some(matching_boutonniere(&order, &shop.style, &shop.stock));
    order.terms.quoted_on = Day::parse("2026-04-30");
    let page = shop.paper(&order, quote_slip);
    let said = page.text();
    for words in ["Classic", "$27.00", "Boutonniere", "$8.00", "In all", "$35.00", "Deposit, paid now", "$17.50"] {
        assert!(said.lines().any(|l| l == words), "{words}: {said}");
    }
    let said = said.replace('\n', " ");
    for words in ["Quoted on 30 Apr 2026.", "This price holds until 14 May 2026.", "5 \u{d7} Spray rose, white"] {
        assert!(said.contains(words), "{words}: {said}");
    }
    let percent = |what: &str| {
        let line = page.text().lines().find(|l| l.starts_with(what) && l.ends_with(" %")).unwrap().to_owned();
        line.trim_end_matches(" %").rsplit(' ').next().unwrap().parse::<i64>().unwrap()
    };
    assert_eq!(percent("Flowers ") + percent("Band and trims ") + percent("Making "), 100);
    let open = shop.sample("02-classic");
    assert!(!shop.paper(&open, quote_slip).text().contains("holds until"), "no day is known, none is told");
}

/// What was agreed stays as it was, and what came later stands beside it.
#[test]
fn the_agreed_sheet_shows_what_was_agreed_and_what_has_changed_since() {
    let shop = Shop::built_in();
    let order = shop.sample("11-teal");
    assert!(shop.with(&order, Paper::A4, agreed_sheet).is_none(), "nobody said yes yet");
    let settled = shop.settled(&order);
    let same = shop.paper(&settled, agreed);
    assert!(same.text().contains("Nothing has changed.") && same.text().contains("Agreed on 2 May 2026"));
    let dress = DressColour { hex: None, words: "sage".to_owned() };
    let later = Change::Together(vec![Change::Dress(dress), Change::Extras(vec![]), Change::Wearer("Someone".into())]);
    let changed = shop.paper(&settled.apply(&later, &shop.stock).unwrap(), agreed);
    assert_eq!(changed.title(), same.title());
    let said = changed.text().replace('\n', " ");
    for words in ["Changed since agreed", "Dress: teal is now sage.", "Price: $37.50 is now $35.", "$18.75"] {
        assert!(said.contains(words), "{words}: {said}");
    }
    assert!(changed.find("$37.50").is_some_and(|at| at.size_mm > 6.0), "the price agreed is seen first");
}

#[test]
fn the_receipt_tells_what_was_paid_what_is_left_when_and_for_which_order() {
    let shop = Shop::built_in();
    let mut order = shop.sample("11-teal");
    assert!(shop.with(&order, Paper::A4, receipt).is_none(), "nothing was paid yet");
    "Marisol Quay".clone_into(&mut order.people.payer);
    let page = shop.paper(&shop.settled(&order), paid);
    let said = page.text().replace('\n', " ");
    let wanted =
        ["Received from Marisol Quay", "Paid on 3 May 2026.", "Still to pay", "$18.75", "$37.50", &order.wearer];
    for words in wanted {
        assert!(said.matches(words).count() >= 2, "twice, {words}: {said}");
    }
    let mut more = shop.settled(&order);
    (more.terms.paid, more.terms.paid_on) = (Cents(5000), None);
    let said = shop.paper(&more, paid).text();
    assert!(said.contains("To give back") && said.contains("$12.50") && said.lines().any(|l| l == "Paid on"), "{said}");
    more.terms.paid = Cents(3750);
    let said = shop.paper(&more, paid).text();
    assert!(said.contains("$0.00") && !said.contains("The rest is paid"), "{said}");
}

/// The client's papers show the piece before her dress: a corner of the picture is as teal as it, and beige without one.
#[test]
fn the_clients_papers_stand_before_her_dress() {
    let shop = Shop::built_in();
    let teal = shop.sample("11-teal-gown");
    let mut unknown = teal.clone();
    unknown.taste.dress = DressColour::default();
    let share = |order: &Order, make: Make| {
        let png = shop.with(&shop.settled(order), Paper::A4, |job| pngs_of(&make(job), 40).remove(0));
        let image = image::load_from_memory(&png).unwrap().to_rgb8();
        let is_teal = |p: &image::Rgb<u8>| p.0[0] < 90 && (80..150).contains(&p.0[1]) && (80..160).contains(&p.0[2]);
        image.pixels().filter(|p| is_teal(p)).count() as f64 / f64::from(image.width() * image.height())
    };
    for make in FOR_THE_CLIENT {
        let (with, without) = (share(&teal, *make), share(&unknown, *make));
        assert!(with > 0.01 && without < 0.002, "{with} {without}");
    }
}

/// The boutonniere is pictured beside its wrist piece, and its flowers are told.
#[test]
fn a_boutonniere_is_pictured_beside_its_wrist_piece() {
    let shop = Shop::built_in();
    for paper in [Paper::A4, Paper::Letter] {
        let alone = shop.settled(&shop.sample("02-classic"));
        let mut both = shop.sample("02-classic");
        both.partner_piece = Some(matching_boutonniere(&both, &shop.style, &shop.stock));
        let both = shop.settled(&both);
        for (make, n) in [(client_page as Make, 1), (quote_slip, 1), (agreed, 1), (paid, 2)] {
            let count = |order: &Order| shop.with(order, paper, make).n_pictures();
            assert_eq!((count(&alone), count(&both)), (n, 2 * n));
            let page = shop.with(&both, paper, make);
            assert!(page.find("Boutonniere").is_some() && page.words_on_pictures().is_empty());
        }
    }
}

/// One layout: what the PDF writes the PNG draws, in the same places.
#[test]
fn a_paper_as_png_shows_what_stands_on_it() {
    let shop = Shop::built_in();
    let order = shop.settled(&shop.sample("11-teal"));
    for make in FOR_THE_CLIENT {
        let page = shop.with(&order, Paper::Letter, make);
        let pngs = pngs_of(&page, 100);
        assert_eq!(pngs, pngs_of(&page, 100));
        let seen = image::load_from_memory(&pngs[0]).unwrap().to_rgb8();
        assert_eq!((seen.width(), seen.height()), (850, 1100));
        let px = |mm: f64| count_down(mm / 25.4 * 100.0);
        let darkest = |x: u32, y: u32, wide: u32, high: u32| {
            let all = (y..y + high).flat_map(|y| (x..x + wide).map(move |x| (x, y)));
            all.map(|(x, y)| seen.get_pixel(x, y).0[1]).min().unwrap()
        };
        for line in page.text().lines().filter(|l| !l.trim().is_empty()) {
            let at = page.find(line).unwrap();
            let (x, y) = (px(at.x_mm), px(at.y_mm - at.size_mm * 0.7));
            assert!(darkest(x, y, px(at.size_mm).max(4), px(at.size_mm)) < 190, "{}: {line}", page.title());
        }
        assert_eq!(darkest(0, 0, 850, 40), 255, "the edges are white");
        assert_eq!(darkest(0, 0, 40, 1100), 255, "the edges are white");
    }
}

/// Thousands of small gradients stood unpacked in the file, two thirds of it: 1.97 MB of the showpiece.
#[test]
fn a_page_with_a_picture_is_packed() {
    let shop = Shop::built_in();
    let pdf = pdf_of(&shop.paper(&shop.sample("09-showpiece"), client_page)).unwrap();
    assert!(pdf.len() < 700_000, "{} bytes", pdf.len());
    let objects: Vec<Vec<u8>> = streams(&pdf).into_iter().filter(|s| s.windows(9).any(|w| w == b"/Catalog/")).collect();
    assert_eq!(objects.len(), 1, "the catalogue lies in one object stream");
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
    let mut wary = shop.sample("02-classic");
    wary.needs.allergies = Some(vec!["waxflower".to_owned()]);
    wary.taste.dress = Default::default();
    let card = shop.paper(&wary, bench_card);
    let said = card.text().replace('\n', " ");
    assert!(said.contains("Does not agree: waxflower. Day to find out and dress colour not confirmed."), "{said}");
    let first = card.find("Does not agree: waxflower. Day to find out and dress colour").unwrap();
    assert!(first.sheet == 0 && first.size_mm >= 5.0);
    let said = shop.paper(&shop.sample("11-teal-gown"), bench_card).text();
    assert!(said.contains("Does not agree: Baby's breath.") && !said.contains("babys-breath"), "{said}");
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

/// A boutonniere is built up in the hand and not on a base: its card says nothing of arm, oval and holding under glue.
#[test]
fn the_bench_card_of_a_boutonniere_goes_from_leaf_to_pin() {
    let shop = Shop::built_in();
    let steps = |order: &Order| {
        let said = shop.paper(order, bench_card).text().replace('\n', " ");
        let (_, steps) = said.split_once("Steps").unwrap();
        for words in ["along the arm", "oval", "Cold glue", "Hold each", "Lay pin"] {
            assert!(!steps.contains(words), "{words}: {steps}");
        }
        steps.to_owned()
    };
    let in_turn = |steps: &str, words: &[&str]| {
        let places: Vec<usize> =
            words.iter().map(|w| steps.find(w).unwrap_or_else(|| panic!("{w}: {steps}"))).collect();
        assert!(places.is_sorted(), "{words:?}: {steps}");
    };
    let jonas = shop.sample("08-boutonniere");
    let order = ["Taped", "2 leaves behind", "1 bloom before", "1 sprig beside", "stem tape", "pin through", "Check"];
    in_turn(&steps(&jonas), &order);
    let mut tied = jonas.clone();
    tied.piece.bow = shop.sample("02-classic").piece.bow;
    in_turn(&steps(&tied), &["stem tape", "ribbon over the tape", "pin through"]);
    let small = jonas.apply(&Change::Kind(Some(WearerKind::Child { years: 2 })), &shop.stock).unwrap();
    assert!(steps(&small).contains("No pin:") && !steps(&small).contains("pin through"));
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
        let order = &shop.settled(order);
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
        hostile.clone_into(&mut order.people.payer);
        order.terms.extras = vec![Extra { name: hostile.repeat(20), price: Cents(i64::MAX) }];
        order.partner_piece = Some(order.piece.clone());
        let order = shop.settled(&order);
        for make in PAPERS {
            let written = pdf_of(&shop.paper(&order, make));
            let refused = written.as_ref().err().is_some_and(|said| said.ends_with('.'));
            assert!(refused || written.is_ok_and(|pdf| pdf.starts_with(b"%PDF")), "{mm}");
        }
    }
}

#[test]
fn a_piece_larger_than_the_sheet_is_told_and_goes_over_several() {
    let shop = Shop::built_in();
    let mut order = shop.sample("02-classic");
    order.piece.footprint.length_mm = 400.0;
    let page = shop.paper(&order, template);
    let said = page.text().replace('\n', " ");
    assert!(said.contains("more than the sheet holds") && said.contains("Print at 100 %"), "{said}");
    assert!(said.contains("follows on 2 sheets") && page.n_sheets() == 3, "{said}");
    // Two sheets one above the other: the elbow is on the upper, the hand on the lower.
    let sheets = page.sheet_texts();
    assert!(sheets[1].starts_with("A1\n") && sheets[1].contains("to the elbow") && !sheets[1].contains("to the hand"));
    assert!(sheets[2].starts_with("B1\n") && sheets[2].contains("to the hand") && sheets[2].contains("Print at 100 %"));
}

/// The largest oval that a file may hold is 500 x 500 mm, a bow's loops 500 mm: every number of every part is there once.
#[test]
fn the_largest_piece_a_file_may_hold_goes_over_sheets_with_every_number_on_one() {
    let shop = Shop::built_in();
    let mut order = shop.sample("03-full");
    (order.piece.footprint.length_mm, order.piece.footprint.width_mm) = (500.0, 500.0);
    if let Some(bow) = &mut order.piece.bow {
        bow.loop_length_mm = 500.0;
    }
    for id in order.piece.parts().iter().map(|p| p.id).collect::<Vec<_>>() {
        let at = order.piece.parts().iter().find(|p| p.id == id).unwrap().centre;
        let far = Point::new(at.x * 6.0, at.y * 6.0);
        order.piece = order.piece.apply(&Edit::MoveEach(vec![(id, far)])).unwrap();
    }
    for paper in [Paper::A4, Paper::Letter] {
        let page = shop.with(&order, paper, template);
        assert!(page.n_sheets() > 20, "{}", page.n_sheets());
        assert_eq!(page.outside_the_edges(), Vec::<String>::new());
        let text = page.sheet_texts()[1..].join("\n");
        let numbers = text.lines().filter(|l| l.parse::<usize>().is_ok()).count();
        assert_eq!(numbers, order.piece.parts().len());
        assert!(pdf_of(&page).unwrap().len() < 300_000);
    }
    let mut far = order;
    far.piece.footprint.length_mm = 1e5;
    let said = shop.paper(&far, template).text().replace('\n', " ");
    assert!(said.contains("more than can be laid together"), "{said}");
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
