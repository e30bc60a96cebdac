//! What the bench reads: its card, the template and the bill; tables that break over sheets, a bar that is 100 mm long, how many
//! sheets a paper takes.

use crate::support::paper_shop::Shop;
use crate::support::pdf_streams::streams;
use kurbo::{BezPath, Rect, Shape as _};
use posywright::book::{Change, Extra, Order, WearerKind};
use posywright::export::pdf::{
    CHECK_BAR_MM, Document, PaperSize, bench_card, bill_of_materials_paper, bill_rows, pdf_of, quote_slip, template,
};
use posywright::export::{QUOTE_SLIP, csv_of};
use posywright::geometry::Point;
use posywright::piece::{Edit, Worn};
use posywright::stock::STANDING_LINE;
use posywright::store::{built_in_stock, stock_from_text};
use posywright::units::Cents;

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
        let side = card.find(order_side(&order)).unwrap();
        assert!(side.sheet == 0 && side.size_mm >= 18.0);
    }
    let mut wary = shop.sample("02-classic");
    wary.needs.allergies = Some(vec!["waxflower".to_owned()]);
    wary.taste.dress = Default::default();
    let card = shop.paper(&wary, bench_card);
    let said = card.text().replace('\n', " ");
    assert!(
        said.contains("ALLERGY: waxflower. Not asked: ") && said.contains("Missing: pick-up day and dress colour."),
        "{said}"
    );
    let written = card.text();
    let line =
        written.lines().find(|l| l.starts_with("ALLERGY: Waxflower (\u{201c}waxflower\u{201d} is on the list)."));
    let first = card.find(line.unwrap()).unwrap();
    assert!(first.sheet == 0 && first.size_mm >= 5.0);
    let said = shop.paper(&shop.sample("11-teal-gown"), bench_card).text();
    assert!(said.contains("ALLERGY: Baby's breath.") && !said.contains("babys-breath"), "{said}");
    let card = shop.paper(&shop.sample("02-classic"), bench_card);
    let said = card.text();
    for words in ["5 blooms", "6 leaves", "Spray rose, white", "1 3/16 in", "Steps", "Hold each 10 s.", "Total 14 min"]
    {
        assert!(said.contains(words), "{words}: {said}");
    }
    assert!(card.find("5 blooms").unwrap().size_mm >= 4.5);
    assert!(said.contains("6 1/4 in (159 mm), measured"), "{said}");
    let empty = shop.paper(&shop.sample("06-empty"), bench_card).text();
    assert!(empty.contains("NOT MEASURED") && empty.contains("No flowers placed yet."), "{empty}");
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
    let order = [
        "Wired",
        "2 leaves behind",
        "1 bloom in front",
        "1 sprig behind and beside",
        "Tape the stems",
        "pins through",
        "Check",
    ];
    in_turn(&steps(&jonas), &order);
    let mut tied = jonas.clone();
    tied.piece.bow = shop.sample("02-classic").piece.bow;
    in_turn(&steps(&tied), &["Tape the stems", "bow at the binding point", "pins through"]);
    let small = jonas.apply(&Change::Kind(Some(WearerKind::Child { years: 2 })), &shop.stock).unwrap();
    assert!(steps(&small).contains("No pin:") && !steps(&small).contains("pins through"));
}

fn order_side(order: &Order) -> &'static str {
    let side = if order.piece.worn == Worn::Lapel { order.piece.lapel.side } else { order.wrist.side };
    if side.word() == "left" { "LEFT" } else { "RIGHT" }
}

/// What is still to place is on the card too, and the steps count it: the list is that of the size that was promised.
#[test]
fn what_is_promised_and_not_sketched_yet_is_on_the_bench_card() {
    let shop = Shop::built_in();
    let mut order = shop.sample("06-empty");
    order.size = Some("Petite".to_owned());
    let said = shop.paper(&order, bench_card).text().replace('\n', " ");
    assert!(said.contains("3 blooms") && said.contains("3 still to place"), "{said}");
}

#[test]
fn the_template_numbers_every_part_against_the_bill() {
    let shop = Shop::built_in();
    for order in shop.samples() {
        let sheet = shop.paper(&order, template);
        let text = sheet.text();
        let numbers: Vec<usize> = text.lines().filter_map(|l| l.parse().ok()).collect();
        assert_eq!(numbers.len(), order.piece.parts().len(), "{}", order.wearer);
        let rows = shop.with(&order, PaperSize::A4, bill_rows).1;
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
    for paper in [PaperSize::A4, PaperSize::Letter] {
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

/// The paths that a page draws, mm from its upper left corner: the operators of ISO 32000-1, 8.5.2, under the one scale at the
/// start of the page.
fn paths_in_mm(page: &str) -> Vec<BezPath> {
    let words: Vec<&str> = page.split_whitespace().collect();
    let scale_at = words.iter().position(|w| *w == "cm").unwrap();
    let scale: f64 = words[scale_at - 6].parse().unwrap();
    let number = |i: usize| words[i].parse::<f64>().unwrap() * scale / 72.0 * 25.4;
    let (mut paths, mut path) = (Vec::new(), BezPath::new());
    for (i, word) in words.iter().enumerate().skip(scale_at) {
        let point = |back: usize| Point::new(number(i - back), number(i - back + 1));
        match *word {
            "m" => path.move_to(point(2)),
            "l" => path.line_to(point(2)),
            "c" => path.curve_to(point(6), point(4), point(2)),
            "h" => path.close_path(),
            "S" | "s" | "f" | "f*" | "n" => paths.push(std::mem::take(&mut path)),
            _ => {}
        }
    }
    paths.retain(|path| !path.elements().is_empty());
    paths
}

/// The distance between those two points of a path that are farthest apart, mm: of a disc its width, of a leaf its length.
fn farthest_mm(path: &BezPath) -> f64 {
    let mut points = Vec::new();
    kurbo::flatten(path.iter(), 0.002, |element| points.extend(element.end_point()));
    let far = |from: &Point| points.iter().map(|to| from.distance(*to)).fold(0.0, f64::max);
    points.iter().map(far).fold(0.0, f64::max)
}

/// Measured in the file: the oval is as long and as wide as the order says, every part has its size and lies as far from the
/// middle of the oval as on the piece: up is toward the elbow, right is across.
#[test]
fn the_template_draws_every_outline_at_its_size_and_place() {
    let shop = Shop::built_in();
    for (name, paper) in
        [("01-petite", PaperSize::A4), ("02-classic", PaperSize::Letter), ("07-orchid-classic", PaperSize::A4)]
    {
        let order = shop.sample(name);
        let pdf = pdf_of(&shop.with(&order, paper, template)).unwrap();
        let streams = streams(&pdf);
        let page = streams.iter().filter_map(|s| std::str::from_utf8(s).ok()).find(|s| s.contains(" cm ")).unwrap();
        let paths = paths_in_mm(page);
        let oval = order.piece.footprint;
        let boxes: Vec<(Rect, &BezPath)> = paths.iter().map(|path| (path.bounding_box(), path)).collect();
        let near = |a: f64, b: f64| (a - b).abs() < 0.02;
        let ovals: Vec<Rect> = boxes
            .iter()
            .map(|b| b.0)
            .filter(|b| near(b.height(), oval.length_mm) && near(b.width(), oval.width_mm))
            .collect();
        assert_eq!(ovals.len(), 1, "{name}: the oval of {} x {} mm", oval.length_mm, oval.width_mm);
        let middle = ovals[0].center();
        for part in order.piece.parts() {
            let botanical = shop.stock.botanical(&part.stock).unwrap();
            let size = part.size_mm.unwrap_or(botanical.usual_mm());
            let at = Point::new(middle.x + part.centre.y, middle.y - part.centre.x);
            let drawn =
                boxes.iter().filter(|(around, _)| near(around.center().x, at.x) && near(around.center().y, at.y));
            let sizes: Vec<f64> = drawn.map(|(_, path)| farthest_mm(path)).collect();
            assert!(sizes.iter().any(|mm| near(*mm, size)), "{name}: {} of {size} mm: {sizes:?}", part.stock);
        }
    }
}

/// A piece that goes over two sheets: each of its blooms is drawn whole, in its size, on one of them at least.
#[test]
fn a_template_over_several_sheets_is_at_full_size_too() {
    let shop = Shop::built_in();
    let mut order = shop.sample("02-classic");
    order.piece.footprint.length_mm = 400.0;
    let pdf = pdf_of(&shop.paper(&order, template)).unwrap();
    let streams = streams(&pdf);
    let pages: Vec<&str> =
        streams.iter().filter_map(|s| std::str::from_utf8(s).ok()).filter(|s| s.contains(" cm ")).collect();
    assert_eq!(pages.len(), 3);
    let sizes: Vec<f64> = pages[1..].iter().flat_map(|page| paths_in_mm(page)).map(|p| farthest_mm(&p)).collect();
    // Five spray roses of 30 mm.
    assert!(sizes.iter().filter(|mm| (*mm - 30.0).abs() < 0.03).count() >= 5, "{sizes:?}");
}

#[test]
fn long_tables_break_over_sheets_and_repeat_their_head() {
    let shop = Shop::built_in();
    let order = shop.crowded();
    for paper in [PaperSize::A4, PaperSize::Letter] {
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
fn a_piece_larger_than_the_sheet_is_told_and_goes_over_several() {
    let shop = Shop::built_in();
    let mut order = shop.sample("02-classic");
    order.piece.footprint.length_mm = 400.0;
    let page = shop.paper(&order, template);
    let said = page.text().replace('\n', " ");
    assert!(said.contains("Too large for one sheet") && said.contains("Print at 100 %"), "{said}");
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
    for paper in [PaperSize::A4, PaperSize::Letter] {
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
    assert!(said.contains("Too large to print"), "{said}");
}

#[test]
fn a_name_that_looks_like_a_formula_is_defused_in_the_bill() {
    let own = r#"(version: 1, botanicals: [(id: "spray-rose", name: "=HYPERLINK(1)", supplier: "@evil")])"#;
    let stock = stock_from_text(own, "stock.ron", &built_in_stock()).unwrap();
    let shop = Shop { stock, ..Shop::built_in() };
    let (head, rows) = shop.with(&shop.sample("01-petite"), PaperSize::A4, bill_rows);
    let csv = csv_of(&head, &rows);
    assert!(csv.contains(",'=HYPERLINK(1),white,bloom,3,") && csv.contains(",'@evil,"), "{csv}");
}

/// Up to five kinds of flowers, greens and sprigs is what a shop makes day by day.
#[test]
fn a_usual_piece_has_a_bench_card_of_one_sheet() {
    let shop = Shop::built_in();
    let mut n_usual = 0;
    for order in &shop.samples() {
        let kinds: std::collections::BTreeSet<_> = order.piece.parts().iter().map(|p| (&p.stock, &p.colour)).collect();
        for paper in [PaperSize::A4, PaperSize::Letter] {
            let card = shop.with(order, paper, bench_card);
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
    let shop = Shop::built_in();
    let desk = shop.maker(PaperSize::A4);
    let names = |order: &Order| -> Vec<String> {
        desk.files(order, &QUOTE_SLIP).unwrap().into_iter().map(|(name, _)| name).collect()
    };
    assert_eq!(names(&shop.sample("01-petite")), ["quote-slip.pdf", "quote-slip.png"]);
    let mut long = shop.sample("01-petite");
    long.terms.extras =
        (0..60).map(|i| Extra { name: format!("Extra {i}"), price: Cents(100), tax_percent: None }).collect();
    let n_sheets = shop.paper(&long, quote_slip).n_sheets();
    assert!(n_sheets > 1);
    let told = names(&long);
    assert_eq!(told[..3], ["quote-slip.pdf", "quote-slip.png", "quote-slip-2.png"]);
    assert_eq!(told.len(), 1 + n_sheets);
}
