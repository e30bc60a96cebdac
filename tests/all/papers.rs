//! The papers as PDF: same bytes, names that can be searched, nothing on the client's page that is the shop's own, and no
//! panic whatever the order holds. What the bench reads is in `papers_for_the_bench.rs`.
//!
//! What other programs make of the files (qpdf, poppler) is checked by `tests/papers/check.sh`.

use std::collections::BTreeSet;

use crate::support::paper_shop::{ALL_DOCUMENTS, FOR_THE_CLIENT, Make, PICTURED_FOR_THE_CLIENT, Shop, agreed, paid};
use crate::support::pdf_streams::streams;
use kurbo::Rect;
use posywright::book::{
    Asked, Change, DateStyle, Day, DressColour, Extra, HourStyle, Order, PayWay, Payment, When, Written,
    matching_boutonniere,
};
use posywright::cli::help;
use posywright::export::pdf::{
    Document, PaperSize, agreed_sheet, bench_card, bill_of_materials_paper, client_page, pdf_of, picture_pdf, pngs_of,
    quote_slip, receipt, template,
};
use posywright::export::{PAPERS, PaperContent, PaperKind, PaperReader, price_text};
use posywright::paperwork::{price_difference, quote};
use posywright::piece::{Tax, TaxHow};
use posywright::scene::Scene;
use posywright::stock::STANDING_LINE;
use posywright::units::{Cents, Currency, Length, floor_u32};

const NAMES: [&str; 5] = [
    "Zs\u{f3}fia \u{150}ry-N\u{e9}meth",
    "\u{141}ucja \u{17b}\u{f3}\u{142}kiewska",
    "Nguy\u{1ec5}n Th\u{1ecb} B\u{ed}ch \u{110}\u{e0}o",
    "\u{de}\u{f3}rd\u{ed}s",
    "O'Brien-de la Cruz",
];

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
        for make in ALL_DOCUMENTS {
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
        for make in ALL_DOCUMENTS {
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
            shop.with(&order, PaperSize::A4, |job| {
                let (now, cost) = (quote(job.order, job.style, job.stock), job.stems.goods_cost());
                let mut known: Vec<Cents> = now.lines.iter().map(|l| l.price).collect();
                known.extend(now.taxes.iter().flat_map(|t| [t.net, t.amount]));
                if let Some(pending) = &now.pending {
                    known.extend(pending.lines.iter().map(|(_, by)| *by).chain([pending.by, pending.total]));
                }
                known.extend([now.total, now.deposit, now.balance, now.paid, now.due, -now.due]);
                let yes = job.order.agreed.as_deref().unwrap();
                let then = quote(yes.order(), job.style, job.stock);
                known.extend(then.lines.iter().map(|l| l.price));
                known.extend(then.taxes.iter().flat_map(|t| [t.net, t.amount]));
                known.extend([yes.price, yes.deposit.unwrap(), yes.price - yes.deposit.unwrap()]);
                assert!(!known.contains(&cost) && !known.contains(&now.my_side.cost));
                let dollars = Currency::before("$");
                let known: BTreeSet<String> = known
                    .iter()
                    .flat_map(|c| [price_text(*c, &dollars), format!("${c}"), price_difference(*c, &dollars)])
                    .collect();
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
        order.terms.extras = ["Ribbon wand", "Brought to the door"]
            .map(|n| Extra { name: n.to_owned(), price: Cents(250), tax_percent: None })
            .to_vec();
        let dress = DressColour { hex: None, words: "sage".to_owned() };
        let later = Change::Together(vec![Change::Dress(dress), Change::Extras(vec![]), Change::PartnerPiece(None)]);
        for order in [shop.settled(&order), shop.settled(&order).apply(&later, &shop.stock).unwrap()] {
            for paper in [PaperSize::A4, PaperSize::Letter] {
                for make in FOR_THE_CLIENT {
                    let page = shop.with(&order, paper, make);
                    assert_eq!(page.n_sheets(), 1, "{} on {}", page.title(), paper.word());
                    assert_eq!(page.words_on_pictures(), Vec::<String>::new(), "{}", page.title());
                }
            }
        }
    }
}

/// Classic at 27 with a boutonniere at 9 makes 36, half of it down 18; 30 April and fourteen days are 14 May.
#[test]
fn the_quote_slip_tells_lines_deposit_balance_until_when_and_what_it_is_made_of() {
    let shop = Shop::built_in();
    let mut order = shop.sample("02-classic");
    order.partner_piece = Some(matching_boutonniere(&order, &shop.style, &shop.stock));
    order.terms.quoted_on = Day::parse("2026-04-30");
    let page = shop.paper(&order, quote_slip);
    let said = page.text();
    for words in ["Wrist corsage, Classic", "$27.00", "Boutonniere", "$9.00", "Total", "$36.00", "Deposit", "$18.00"] {
        assert!(said.lines().any(|l| l == words), "{words}: {said}");
    }
    let said = said.replace('\n', " ");
    for words in ["Quoted on 30 Apr 2026.", "Price holds until 14 May 2026.", "5 \u{d7} Spray rose, white"] {
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
    assert!(shop.with(&order, PaperSize::A4, agreed_sheet).is_none(), "nobody said yes yet");
    let settled = shop.settled(&order);
    let same = shop.paper(&settled, agreed);
    assert!(same.text().contains("No changes.") && same.text().contains("Agreed on 2 May 2026"));
    let dress = DressColour { hex: None, words: "sage".to_owned() };
    let later = Change::Together(vec![Change::Dress(dress), Change::Extras(vec![]), Change::Wearer("Someone".into())]);
    let changed = shop.paper(&settled.apply(&later, &shop.stock).unwrap(), agreed);
    assert_eq!(changed.title(), same.title());
    let said = changed.text().replace('\n', " ");
    for words in
        ["Changes since agreed", "Dress: teal is now sage.", "Not agreed yet: \u{2212}$2.50. New total $36.", "$19.25"]
    {
        assert!(said.contains(words), "{words}: {said}");
    }
    assert!(changed.find("$38.50").is_some_and(|at| at.size_mm > 6.0), "the price agreed is seen first");
}

#[test]
fn the_receipt_tells_what_was_paid_what_is_left_when_and_for_which_order() {
    let shop = Shop::built_in();
    let mut order = shop.sample("11-teal");
    assert!(shop.with(&order, PaperSize::A4, receipt).is_none(), "nothing was paid yet");
    "Marisol Quay".clone_into(&mut order.people.payer);
    let page = shop.paper(&shop.settled(&order), paid);
    let said = page.text().replace('\n', " ");
    let wanted =
        ["Received from Marisol Quay", "Paid on 3 May 2026.", "Balance due", "$19.25", "$38.50", &order.wearer];
    for words in wanted {
        assert!(said.matches(words).count() >= 2, "twice, {words}: {said}");
    }
    let mut more = shop.settled(&order);
    more.terms.payments = vec![Payment { on: None, way: PayWay::NotNoted, sum: Cents(5000) }];
    let said = shop.paper(&more, paid).text();
    assert!(said.contains("Refund due") && said.contains("$11.50") && said.lines().any(|l| l == "Paid on"), "{said}");
    more.terms.payments[0].sum = Cents(3850);
    let said = shop.paper(&more, paid).text();
    assert!(said.contains("$0.00") && !said.contains("at pick-up"), "{said}");
}

/// The client's papers show the piece before her dress: a corner of the picture is as teal as it, and beige without one.
#[test]
fn the_clients_papers_stand_before_her_dress() {
    let shop = Shop::built_in();
    let teal = shop.sample("11-teal-gown");
    let mut unknown = teal.clone();
    unknown.taste.dress = DressColour::default();
    let share = |order: &Order, make: Make| {
        let png = shop.with(&shop.settled(order), PaperSize::A4, |job| pngs_of(&make(job), 40).remove(0));
        let image = image::load_from_memory(&png).unwrap().to_rgb8();
        let is_teal = |p: &image::Rgb<u8>| p.0[0] < 90 && (80..150).contains(&p.0[1]) && (80..160).contains(&p.0[2]);
        image.pixels().filter(|p| is_teal(p)).count() as f64 / f64::from(image.width() * image.height())
    };
    for make in PICTURED_FOR_THE_CLIENT {
        let (with, without) = (share(&teal, *make), share(&unknown, *make));
        assert!(with > 0.01 && without < 0.002, "{with} {without}");
    }
}

/// The boutonniere is pictured beside its wrist piece, and its flowers are listed.
#[test]
fn a_boutonniere_is_pictured_beside_its_wrist_piece() {
    let shop = Shop::built_in();
    for paper in [PaperSize::A4, PaperSize::Letter] {
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
        let page = shop.with(&order, PaperSize::Letter, make);
        let pngs = pngs_of(&page, 100);
        assert_eq!(pngs, pngs_of(&page, 100));
        let seen = image::load_from_memory(&pngs[0]).unwrap().to_rgb8();
        assert_eq!((seen.width(), seen.height()), (850, 1100));
        let px = |mm: f64| floor_u32(mm / 25.4 * 100.0);
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
fn every_word_stays_within_the_white_edges() {
    let shop = Shop::built_in();
    let long = "Nguy\u{1ec5}n".repeat(40);
    let mut orders = shop.samples();
    orders.push(shop.crowded());
    for notes in [long.clone(), "one\ntwo\n".repeat(30), format!("{} ", "word").repeat(2000)] {
        let mut order = shop.sample("03-full");
        (order.wearer, order.dance, order.notes) = (long.clone(), format!("Hall {long}"), notes);
        orders.push(order);
    }
    for order in &orders {
        let order = &shop.settled(order);
        for paper in [PaperSize::A4, PaperSize::Letter] {
            for make in ALL_DOCUMENTS {
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
        order.terms.extras = vec![Extra { name: hostile.repeat(20), price: Cents(i64::MAX), tax_percent: None }];
        order.partner_piece = Some(order.piece.clone());
        let order = shop.settled(&order);
        for make in ALL_DOCUMENTS {
            let written = pdf_of(&shop.paper(&order, make));
            let refused = written.as_ref().err().is_some_and(|said| said.to_string().ends_with('.'));
            assert!(refused || written.is_ok_and(|pdf| pdf.starts_with(b"%PDF")), "{mm}");
        }
    }
}

/// A paper that is in no list, to prove what one takes: its maker and its entry.
static LABEL: PaperKind = PaperKind {
    id: "label",
    title: "Label",
    reader: PaperReader::Bench,
    endings: &["txt"],
    is_for_each_piece: true,
    missing: "",
    make: |job| vec![PaperContent::Words("txt", format!("{}: {}", job.shop.name, job.order.wearer))],
};

#[test]
fn a_paper_is_made_from_its_entry_alone_and_goes_with_the_boutonniere_too() {
    let shop = Shop::built_in();
    let mut order = shop.sample("02-classic");
    "Ida".clone_into(&mut order.wearer);
    let files = |order: &Order| shop.maker(PaperSize::A4).files(order, &LABEL).unwrap();
    assert_eq!(files(&order), [("label.txt".to_owned(), b"Quillfern Flowers: Ida".to_vec())]);
    order.partner_piece = Some(matching_boutonniere(&order, &shop.style, &shop.stock));
    "Olaf".clone_into(&mut order.people.partner);
    let more = ("boutonniere-label.txt".to_owned(), b"Quillfern Flowers: Olaf, with Ida".to_vec());
    assert_eq!(files(&order)[1], more);
}

/// Each entry says what is made: an id of its own, files of its endings, and, where an order may have none, why.
#[test]
fn every_paper_of_the_list_is_what_its_entry_says() {
    let shop = Shop::built_in();
    let open = shop.sample("02-classic");
    let settled = shop.settled(&open);
    let maker = shop.maker(PaperSize::A4);
    let ids: BTreeSet<&str> = PAPERS.iter().map(|kind| kind.id).collect();
    assert_eq!(ids.len(), PAPERS.len());
    for kind in PAPERS {
        assert_eq!(PaperKind::of_id(kind.id), Some(kind));
        let wanted: Vec<String> = kind.endings.iter().map(|ending| format!("{}.{ending}", kind.id)).collect();
        let names: Vec<String> = maker.files(&settled, kind).unwrap().into_iter().map(|(name, _)| name).collect();
        assert_eq!(names, wanted);
        assert_eq!(maker.files(&open, kind).unwrap().is_empty(), !kind.missing.is_empty(), "{kind}");
        assert!(help(Some("papers")).contains(kind.id), "the help names {kind}");
    }
    assert!(PaperKind::of_id("label").is_none());
}

/// Papers for the client are those whose documents the tests above read for costs and scores.
#[test]
fn every_document_for_the_client_is_looked_through() {
    let shop = Shop::built_in();
    let order = shop.settled(&shop.sample("02-classic"));
    let titles = |documents: Vec<Document>| documents.iter().map(|d| d.title().to_owned()).collect::<BTreeSet<_>>();
    let listed = shop.with(&order, PaperSize::A4, |job| {
        let clients = PAPERS.iter().filter(|kind| kind.reader == PaperReader::Client);
        let contents = clients.flat_map(|kind| (kind.make)(job));
        let document = |content| match content {
            PaperContent::Pdf(document) => Some(document),
            PaperContent::Pngs(_) | PaperContent::Picture(_) | PaperContent::Words(..) => None,
        };
        contents.filter_map(document).collect()
    });
    let read = FOR_THE_CLIENT.iter().map(|make| shop.paper(&order, *make)).collect();
    assert_eq!(titles(listed), titles(read));
}

/// Everything that is known about days and people stands on the papers where it belongs, and on no other.
#[test]
fn days_people_and_the_number_stand_on_the_papers_where_they_belong() {
    let mut shop = Shop::built_in();
    shop.written = Written { date: DateStyle::Dots, hour: HourStyle::Hours24 };
    let when = |words: &str| When::typed(words);
    let known = vec![
        Change::Place("Quayside".into()),
        Change::Partner("Jonas".into()),
        Change::Payer("Ana Vale".into()),
        Change::Phone("555 0199".into()),
        Change::EventDay(when("5 Dec 2026")),
        Change::Wanted(when("5 Dec 2026, 2 pm, back door")),
        Change::CollectedBy("Theo".into()),
        Change::LastChange(when("1 Dec 2026")),
        Change::Notes("kept between us".into()),
    ];
    let mut order = shop.sample("02-classic").apply(&Change::Together(known), &shop.stock).unwrap();
    order.number = Some(104);
    let order = shop.settled(&order);
    let (event, pickup) = ("Sat 05.12.2026, Quayside, with Jonas", "Sat 05.12.2026, 14:00, back door, by Theo");
    let text = |make: Make| shop.paper(&order, make).text().replace('\n', " ");
    for (name, make) in [("client", client_page as Make), ("quote", quote_slip), ("agreed", agreed), ("receipt", paid)]
    {
        let said = text(make);
        assert!(said.contains("No. 104"), "{name}: {said}");
        assert!(!said.contains("555 0199") && !said.contains("kept between us"), "{name}: {said}");
        if !matches!(name, "receipt" | "agreed") {
            for words in [event, pickup, "Changes until: Tue 01.12.2026", "Paid by: Ana Vale"] {
                assert!(said.contains(words), "{name} without {words}: {said}");
            }
        }
    }
    let besides =
        "Event: Sat 05.12.2026 \u{b7} Collected by: Theo \u{b7} Changes until: Tue 01.12.2026 \u{b7} Paid by: Ana Vale";
    for words in ["Quayside, with Jonas, Sat 5 Dec 2026, 2:00 pm, back door", besides] {
        assert!(text(agreed).contains(words), "{words}: {}", text(agreed));
    }
    assert!(text(paid).contains("Balance due at pick-up: Sat 05.12.2026, 14:00"), "{}", text(paid));
    let bench = text(bench_card);
    for words in ["No. 104", event, pickup, "LEFT"] {
        assert!(bench.contains(words), "{words}: {bench}");
    }
    assert!(!bench.contains("555 0199") && !bench.contains("Ana Vale"), "{bench}");
    let bill = text(bill_of_materials_paper);
    for words in ["No. 104", pickup, "Ana Vale, 555 0199"] {
        assert!(bill.contains(words), "{words}: {bill}");
    }
    assert!(text(template).contains("No. 104"));
}
