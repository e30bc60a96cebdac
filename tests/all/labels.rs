//! Labels for the boxes: where they lie on the sheet, in mm, and what they say.
//!
//! The measures of the two common sheets are checked as sums in `export/pdf/label_sheet.rs`; here the frames that are printed
//! are measured on the sheet as it is drawn, ten pixels to the millimetre.

use crate::support::paper_shop::Shop;
use kurbo::Rect;
use posywright::book::{Change, NeedChange, Order, When};
use posywright::export::pdf::{Document, LabelRun, LabelSheet, label_frame, labels, pdf_of, pngs_of};
use posywright::units::{Cents, floor_u32};

fn run(shop: &Shop, sheet: LabelSheet, first: u32) -> LabelRun<'_> {
    LabelRun { sheet, first, with_balance: true, stock: &shop.stock, style: &shop.style, written: shop.written }
}

fn print(shop: &Shop, orders: &[Order], sheet: LabelSheet, first: u32) -> Document {
    labels(&orders.iter().collect::<Vec<_>>(), &run(shop, sheet, first)).unwrap()
}

/// Left and right edges of what is dark in a row of pixels, top and bottom of what is dark in a column, mm.
fn frames_in(png: &[u8], along: impl Fn(u32) -> (u32, u32), n: u32) -> Vec<f64> {
    let picture = image::load_from_memory(png).unwrap().to_luma8();
    let is_dark = |i: u32| {
        let (x, y) = along(i);
        picture.get_pixel(x, y).0[0] < 160
    };
    (1..n).filter(|i| is_dark(*i) && !is_dark(i - 1)).map(|i| f64::from(i) / 10.0).collect()
}

#[test]
fn the_frames_of_a_test_print_measure_what_the_sheet_measures() {
    // 254 pixels to the inch are ten to the millimetre; a line of 0.3 mm begins 0.15 mm before its middle.
    for (sheet, across, down) in [
        (LabelSheet::LETTER_30, (4.7625, 66.675, 69.85), (12.7, 25.4, 25.4)),
        (LabelSheet::A4_24, (7.25, 63.5, 66.0), (12.9, 33.9, 33.9)),
    ] {
        let png = pngs_of(&label_frame(sheet), 254).remove(0);
        let (width, height) = image::load_from_memory(&png).unwrap().to_luma8().dimensions();
        // Through the labels of the second row, beside their numbers; through those of the second column.
        let y = (down.0 + down.2 + 4.0) * 10.0;
        let x = (across.0 + across.2 + 4.0) * 10.0;
        let rows = frames_in(&png, |i| (i, floor_u32(y)), width);
        let columns = frames_in(&png, |i| (floor_u32(x), i), height);
        let wanted = |(first, size, pitch): (f64, f64, f64), n: u32| -> Vec<f64> {
            let ends = |i: u32| [0.0, size].map(|end| first + f64::from(i) * pitch + end);
            let mut edges: Vec<f64> = (0..n).flat_map(ends).collect();
            edges.dedup_by(|a, b| (*a - *b).abs() < 0.3);
            edges
        };
        let rows_wanted = wanted(across, 3);
        let columns_wanted = wanted(down, if sheet == LabelSheet::A4_24 { 8 } else { 10 });
        for (found, wanted) in [(rows, rows_wanted), (columns, columns_wanted)] {
            assert_eq!(found.len(), wanted.len(), "{found:?} {wanted:?}");
            for (found, wanted) in found.iter().zip(&wanted) {
                assert!((found + 0.15 - wanted).abs() <= 0.11, "{found} {wanted}");
            }
        }
    }
}

/// `0.3 0 0 0.3 x y cm` and the like aside, a page of a PDF is in points: the frame of the first label stands in it in mm under
/// a scale of 72 / 25.4 (ISO 32000-1, 8.3.2.3).
#[test]
fn the_pdf_holds_the_frames_in_millimetres_at_the_scale_of_the_page() {
    let pdf = pdf_of(&label_frame(LabelSheet::LETTER_30)).unwrap();
    let page: Vec<String> = crate::support::pdf_streams::streams(&pdf)
        .into_iter()
        .map(|s| String::from_utf8_lossy(&s).into_owned())
        .collect();
    let page = page.iter().find(|s| s.contains(" l\n")).unwrap();
    assert!(page.contains("2.834645") || page.contains("2.8346457"), "{}", &page[..200]);
    for edge in ["4.7625 12.7 m", "71.4375 12.7 l", "71.4375 38.1 l", "4.7625 38.1 l"] {
        assert!(page.contains(edge), "{edge}: {}", &page[..400]);
    }
}

fn told_apart(shop: &Shop, school: &str, partner: &str, at: &str) -> Order {
    let changes = vec![
        Change::Wearer("Ava Reyes".into()),
        Change::Dance(format!("{school} Prom")),
        Change::Partner(partner.into()),
        Change::Wanted(When::typed(at)),
    ];
    shop.sample("02-classic").apply(&Change::Together(changes), &shop.stock).unwrap()
}

#[test]
fn two_of_one_name_are_told_apart_and_each_label_says_side_number_day_and_balance() {
    let shop = Shop::built_in();
    let mut one = told_apart(&shop, "Quayside", "Jonas", "Sat 9 May 2026, 1:45 pm");
    one.number = Some(104);
    let other = told_apart(&shop, "Northgate", "Tomas", "Sat 9 May 2026, 2 pm");
    let text = print(&shop, &[one, other], LabelSheet::LETTER_30, 1).text().replace('\n', " ");
    for told in [
        "No. 104 \u{b7} LEFT WRIST \u{b7} Classic",
        "Quayside Prom, with Jonas",
        "Northgate Prom, with Tomas",
        "Pick-up Sat 9 May 2026, 1:45 pm",
        "Pick-up Sat 9 May 2026, 2:00 pm",
        "Balance due $27",
        "Missing: dress colour.",
    ] {
        assert!(text.contains(told), "{told}: {text}");
    }
    assert_eq!(text.matches("Ava Reyes").count(), 2);
    let quiet = LabelRun { with_balance: false, ..run(&shop, LabelSheet::LETTER_30, 1) };
    let text = labels(&[&shop.sample("02-classic")], &quiet).unwrap().text();
    assert!(!text.contains('$'), "{text}");
}

/// Both are on it: what was told, and what is on the piece all the same. The boutonniere's label has its own wearer's.
#[test]
fn an_allergy_stands_on_the_label_of_the_one_who_has_it() {
    let shop = Shop::built_in();
    let order = shop.sample("11-teal").apply(&Change::Allergies(None), &shop.stock).unwrap();
    let plain = print(&shop, std::slice::from_ref(&order), LabelSheet::A4_24, 1);
    assert!(!plain.text().contains("ALLERGY"), "{}", plain.text());
    let hers = Change::Allergies(Some(vec!["roses".into()]));
    let his = Change::PartnerNeed(NeedChange::NoLatex(true));
    let order = order.apply(&Change::Together(vec![hers, his]), &shop.stock).unwrap();
    let text = print(&shop, std::slice::from_ref(&order), LabelSheet::A4_24, 1).text().replace('\n', " ");
    let (piece, boutonniere) = text.split_once("LAPEL").unwrap();
    assert!(piece.contains("ALLERGY: roses.") && piece.contains("ALLERGY: Spray rose"), "{piece}");
    assert!(piece.contains("NO LATEX.") && !boutonniere.contains("ALLERGY"), "his label begins before LAPEL: {text}");
}

/// 60 pairs are 120 labels: four sheets of 30, five of 24; from the 21st label on one sheet more.
#[test]
fn labels_go_on_from_the_first_free_one_and_over_as_many_sheets_as_they_take() {
    let shop = Shop::built_in();
    let pair = shop.sample("11-teal");
    assert!(pair.partner_piece.is_some());
    let orders: Vec<Order> = std::iter::repeat_n(pair, 60).collect();
    for (sheet, first, n) in [
        (LabelSheet::LETTER_30, 1, 4),
        (LabelSheet::A4_24, 1, 5),
        (LabelSheet::LETTER_30, 2, 5),
        (LabelSheet::A4_24, 24, 6),
    ] {
        let made = print(&shop, &orders, sheet, first);
        assert_eq!((made.n_sheets(), made.n_pictures()), (n, 120), "{first}");
    }
    let one = print(&shop, &orders[..1], LabelSheet::LETTER_30, 30);
    let first = |sheet: usize| one.words_at(sheet)[0].1.origin();
    assert!(LabelSheet::LETTER_30.label(29).contains(first(0)) && LabelSheet::LETTER_30.label(0).contains(first(1)));
    for first in [0, 31] {
        let refused = labels(&[&orders[0]], &run(&shop, LabelSheet::LETTER_30, first)).unwrap_err();
        assert_eq!(
            refused.to_string(),
            format!("The sheet has labels 1 to 30: there is none to begin with at {first}.")
        );
    }
}

/// However long the words are, no line leaves its label; a warning that does not fit says where the rest stands.
#[test]
fn nothing_leaves_its_label_however_much_there_is_to_say() {
    let shop = Shop::built_in();
    let long = "Nguy\u{1ec5}n Th\u{1ecb} B\u{ed}ch \u{110}\u{e0}o of the Longest House Name in Fernhaven".to_owned();
    let many: Vec<String> = (0..30).map(|n| format!("something long that is number {n}")).collect();
    let changes = vec![
        Change::Wearer(long),
        Change::Dance("A ball with a name that goes on and on beyond every edge".into()),
        Change::Place("A school with a name that goes on as well".into()),
        Change::Partner("Somebody whose name is long too".into()),
        Change::Wanted(When::typed("Sat 9 May 2026, 2 pm, back door, ring twice and wait by the gate")),
    ];
    let order = shop.sample("11-teal").apply(&Change::Together(changes), &shop.stock).unwrap();
    let needs = Change::Allergies(Some(many));
    let warned = order.apply(&needs, &shop.stock).unwrap();
    let small = LabelSheet::parse("a4 4x11 48x22").unwrap();
    for sheet in [LabelSheet::LETTER_30, LabelSheet::A4_24, small] {
        for order in [&order, &warned, &shop.sample("06-empty")] {
            let made = print(&shop, std::slice::from_ref(order), sheet, 1);
            let spots: Vec<Rect> = (0..2).map(|n| sheet.label(n)).collect();
            for (words, within) in made.words_at(0) {
                assert!(
                    spots.iter().any(|label| label.inflate(0.01, 0.01).contains_rect(within)),
                    "{words}: {within:?} {spots:?}"
                );
            }
        }
        let text = print(&shop, std::slice::from_ref(&warned), sheet, 1).text();
        assert!(text.contains("ALLERGY: something"), "{text}");
        assert!(text.contains("MORE: SEE BENCH CARD"), "{text}");
    }
}

#[test]
fn what_is_paid_is_told_as_paid() {
    let shop = Shop::built_in();
    let order = shop.sample("02-classic");
    let paid = Change::Payments(vec![posywright::book::Payment::of(Cents(2700))]);
    let order = order.apply(&paid, &shop.stock).unwrap();
    assert!(print(&shop, &[order], LabelSheet::A4_24, 1).text().contains("Paid in full"));
}
