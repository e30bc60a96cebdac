//! The letterhead on the client's papers: never an empty name, everything within the white edges, a logo of any proportion.

use std::sync::Arc;

use posywright::book::{Letterhead, Logo};
use posywright::export::pdf::{PaperSize, letterhead_sample, pdf_of, quote_slip};

use crate::support::paper_shop::{FOR_THE_CLIENT, Shop};

fn logo(width: u32, height: u32, pixel: [u8; 4]) -> Option<Arc<Logo>> {
    let rgba = pixel.repeat(width as usize * height as usize);
    Logo::new(width, height, rgba).map(Arc::new)
}

fn long() -> Letterhead {
    let words = |n: usize, word: &str| vec![word; n].join(" ");
    Letterhead {
        name: words(9, "Quillfern"),
        address: (0..6).map(|n| format!("{} {n}", words(4, "Fernhaven"))).collect(),
        phone: "555-0142".to_owned(),
        email: format!("{}@quillfern.example", "hello".repeat(20)),
        web: "quillfern.example".to_owned(),
        tax_number: "00-0000142".to_owned(),
        hours: vec!["Tuesday to Saturday, 9 am to 5 pm".to_owned(); 4],
        logo: None,
        on_picture: true,
    }
}

#[test]
fn a_client_paper_never_has_an_empty_name_and_says_what_is_known() {
    let mut shop = Shop::built_in();
    let order = shop.settled(&shop.sample("02-classic"));
    for make in FOR_THE_CLIENT {
        let said = shop.paper(&order, *make).text();
        for words in ["Quillfern Flowers", "12 Quill Lane, Fernhaven", "555-0142 \u{b7} hello@quillfern.example"] {
            assert!(said.contains(words), "{words} in {said}");
        }
    }
    shop.letterhead = Letterhead::named("  ");
    for make in FOR_THE_CLIENT {
        assert!(shop.paper(&order, *make).text().contains("Your shop"));
    }
}

#[test]
fn a_letterhead_of_any_length_stays_within_the_edges_and_on_one_sheet() {
    let mut shop = Shop::built_in();
    let order = shop.settled(&shop.sample("02-classic"));
    let tall = || logo(20, 200, [10, 90, 40, 255]);
    for letterhead in
        [long(), Letterhead { logo: logo(900, 30, [9, 9, 9, 128]), ..long() }, Letterhead { logo: tall(), ..long() }]
    {
        shop.letterhead = letterhead;
        for paper in [PaperSize::A4, PaperSize::Letter] {
            for make in FOR_THE_CLIENT {
                let page = shop.with(&order, paper, make);
                assert_eq!(page.outside_the_edges(), Vec::<String>::new(), "{}", page.title());
                assert_eq!(page.words_on_pictures(), Vec::<String>::new(), "{}", page.title());
                assert!(page.n_sheets() <= 2, "{} on {}: {}", page.title(), paper.word(), page.n_sheets());
            }
        }
    }
}

/// A green logo is green on the strip, one that is half clear is half as strong over white, a clear one is not seen; by hand:
/// 255 - (255 - 100) x 128 / 255 = 177.
#[test]
fn a_logo_is_drawn_in_its_colours_over_white_paper() {
    let strip = |pixel| {
        let shop = Letterhead { logo: logo(80, 40, pixel), ..Letterhead::named("Fern") };
        letterhead_sample(&shop, PaperSize::A4, 840)
    };
    // Four pixels to the millimetre; the logo begins 12 mm from the left, 4 mm from the top, and is 18 mm high.
    let at = |pixels: posywright::export::Pixels| {
        let start = (40 * pixels.width as usize + 60) * 4;
        [0, 1, 2].map(|n| pixels.rgba[start + n])
    };
    assert_eq!(at(strip([10, 100, 40, 255])), [10, 100, 40]);
    assert!(at(strip([100, 100, 100, 128])).iter().all(|c| c.abs_diff(177) <= 1));
    assert_eq!(at(strip([10, 100, 40, 0])), [255; 3]);
}

#[test]
fn a_logo_is_in_the_pdf_as_an_image_and_the_same_each_time() {
    let mut shop = Shop::built_in();
    let order = shop.sample("02-classic");
    let has_image = |pdf: &[u8]| {
        pdf.windows(14).any(|w| w == b"/Subtype/Image") || pdf.windows(15).any(|w| w == b"/Subtype /Image")
    };
    let without = pdf_of(&shop.paper(&order, quote_slip)).unwrap();
    shop.letterhead.logo = logo(300, 100, [10, 100, 40, 200]);
    let with = || pdf_of(&shop.paper(&order, quote_slip)).unwrap();
    assert_eq!((has_image(&without), has_image(&with())), (false, true));
    assert_eq!(with(), with());
}
