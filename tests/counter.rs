//! At the counter: quotes, sizes side by side, what a purse buys. Sums are the demo shop's, worked by hand.

#![expect(clippy::unwrap_used, reason = "a test that cannot go on should stop")]

use posywright::book::{Asked, Change, Day, DressColour, Extra, Order, matching_boutonniere};
use posywright::colour::{ColourWarning, Hues, Rgb};
use posywright::paperwork::{
    SizeOffer, agree, below_words_my_side, changed_since_agreed, difference_words, fits_purse, piece_colours,
    piece_palette, price_difference, purse_words, quote, restyled, share_words, sizes_side_by_side, tax_words,
};
use posywright::piece::{Bow, Edit, HouseStyle, Side, Tax, TaxHow, Worn};
use posywright::stock::{Stock, StockId};
use posywright::store::{
    built_in_stock, built_in_style, built_in_styles, order_from_text, samples, style_from_text, style_to_text,
};
use posywright::units::{Cents, Length};

struct Counter {
    stock: Stock,
    style: HouseStyle,
}

impl Counter {
    fn open() -> Self {
        Self { stock: built_in_stock(), style: built_in_style() }
    }

    fn sample(&self, name: &str) -> Order {
        let sample = samples::orders().find(|s| s.path.contains(name)).unwrap();
        order_from_text(sample.text, sample.path, &self.stock).unwrap()
    }

    fn change(&self, order: &Order, change: &Change) -> Order {
        order.apply(change, &self.stock).unwrap()
    }

    fn offers(&self, order: &Order) -> Vec<SizeOffer> {
        sizes_side_by_side(order, &self.style, &self.stock)
    }
}

fn tax(percent: f64, how: TaxHow) -> Tax {
    Tax { name: "VAT".into(), percent, how }
}

/// A Classic for 27 with its boutonniere for 8.
fn classic_with_boutonniere(counter: &Counter) -> Order {
    let boutonniere = counter.sample("08-").piece;
    counter.change(&counter.sample("02-"), &Change::PartnerPiece(Some(Box::new(boutonniere))))
}

#[test]
fn half_down_of_thirty_five_is_seventeen_fifty_and_as_much_later() {
    let mut counter = Counter::open();
    let order = classic_with_boutonniere(&counter);
    let q = quote(&order, &counter.style, &counter.stock);
    let lines: Vec<(&str, i64)> = q.lines.iter().map(|l| (l.what.as_str(), l.price.0)).collect();
    assert_eq!(lines, [("Classic", 2700), ("Boutonniere", 800)]);
    assert_eq!((q.total, q.deposit, q.balance, q.minutes), (Cents(3500), Cents(1750), Cents(1750), 19.0));
    counter.style.prices.tax = Some(tax(8.25, TaxHow::Added));
    let q = quote(&order, &counter.style, &counter.stock);
    assert_eq!((q.subtotal, q.total, q.deposit + q.balance), (Cents(3500), Cents(3789), Cents(3789)));
    assert_eq!(tax_words(&q).as_deref(), Some("VAT 8.25 %"));
    let paid = counter.change(&order, &Change::Paid(Cents(2000)));
    assert_eq!(quote(&paid, &counter.style, &counter.stock).due, Cents(1789));
}

#[test]
fn a_price_with_tax_in_it_tells_the_tax_apart() {
    let mut counter = Counter::open();
    counter.style.prices.tax = Some(tax(20.0, TaxHow::Included));
    let q = quote(&counter.sample("02-"), &counter.style, &counter.stock);
    let told = q.tax.as_ref().unwrap();
    assert_eq!((q.total, told.net, told.amount), (Cents(2700), Cents(2250), Cents(450)));
    assert_eq!(tax_words(&q).as_deref(), Some("VAT 20 %, included"));
}

#[test]
fn twenty_for_a_full_is_below_and_loses() {
    let counter = Counter::open();
    let full = counter.sample("03-");
    assert_eq!(below_words_my_side(&quote(&full, &counter.style, &counter.stock)), None);
    let asked = Asked { price: Cents(2000), reason: "an old customer".into() };
    let q = quote(&counter.change(&full, &Change::Asked(Some(asked.clone()))), &counter.style, &counter.stock);
    assert_eq!((q.worked, q.house, q.total), (Cents(3524), Cents(3600), Cents(2000)));
    assert_eq!((q.below, q.my_side.cost, q.my_side.loses), (Cents(1524), Cents(2143), Cents(143)));
    assert_eq!(q.asked, Some(asked));
    assert_eq!(
        below_words_my_side(&q).unwrap(),
        "Below the worked price by $15.24. Flowers, trims and making time cost $21.43, so the piece loses $1.43 before rent."
    );
    let above = Asked { price: Cents(2500), reason: String::new() };
    let q = quote(&counter.change(&full, &Change::Asked(Some(above))), &counter.style, &counter.stock);
    assert_eq!((q.below, q.my_side.loses), (Cents(1024), Cents(0)));
}

#[test]
fn extras_and_rush_come_on_top_of_the_pieces() {
    let counter = Counter::open();
    let extras = vec![Extra { name: "Ribbon wand".into(), price: Cents(250) }];
    let changes = Change::Together(vec![Change::Extras(extras), Change::Rush(true)]);
    let q = quote(&counter.change(&counter.sample("02-"), &changes), &counter.style, &counter.stock);
    let lines: Vec<(&str, i64)> = q.lines.iter().map(|l| (l.what.as_str(), l.price.0)).collect();
    // A quarter of 27 is 6.75, up to the next whole dollar.
    assert_eq!(lines, [("Classic", 2700), ("Ribbon wand", 250), ("Rush", 700)]);
    assert_eq!((q.subtotal, q.total), (Cents(3650), Cents(3650)));
}

/// Classic, by hand: flowers 2.80 times 3.5 are 9.80, band and trims 3.00 times 2 are 6.00, 14 minutes at 0.75 are 10.50:
/// 37.3, 22.8 and 39.9 of the hundred parts of 26.30.
#[test]
fn the_bar_of_three_makes_a_hundred_and_tells_no_cost() {
    let counter = Counter::open();
    let q = quote(&counter.sample("02-"), &counter.style, &counter.stock);
    assert_eq!(share_words(&q.share_of_three), [("Flowers", 37), ("Band and trims", 23), ("Making", 40)]);
}

#[test]
fn from_petite_to_classic_the_difference_is_told_in_heads_sprigs_leaves_minutes_and_price() {
    let counter = Counter::open();
    let offers = counter.offers(&counter.sample("01-"));
    let names: Vec<(&str, i64)> = offers.iter().map(|o| (o.name.as_str(), o.price.0)).collect();
    assert_eq!(names, [("Petite", 2000), ("Classic", 2700), ("Full", 3600), ("Orchid Classic", 2300)]);
    assert_eq!(difference_words(&offers[1].difference), "+2 heads, +1 sprig, +2 leaves, +4 min");
    assert_eq!(price_difference(offers[1].difference.price, "$"), "+$7");
    assert!(offers[0].is_present && difference_words(&offers[0].difference).is_empty());
    let down = counter.offers(&counter.sample("03-"));
    assert_eq!(difference_words(&down[0].difference), "-4 heads, -2 sprigs, -4 leaves, -8 min");
    assert_eq!((down[0].price, price_difference(down[0].difference.price, "$")), (Cents(2000), "-$16".to_owned()));
}

#[test]
fn the_blooms_and_the_ribbon_that_were_chosen_go_into_the_other_sizes() {
    let counter = Counter::open();
    let order = counter.sample("02-");
    let blooms = order.piece.parts().iter().filter(|p| p.stock.as_str() == "spray-rose").map(|p| p.id).collect();
    let blush = counter.change(&order, &Change::Piece(Edit::Recolour(blooms, "blush".into())));
    let offers = counter.offers(&blush);
    assert!(offers[0].piece.parts().iter().filter(|p| p.stock.as_str() == "spray-rose").all(|p| &*p.colour == "blush"));
    assert_eq!(offers[0].piece.parts().len(), 8);
    assert_eq!(&*offers[2].piece.bow.as_ref().unwrap().colour, "dusty blue");
    assert_eq!(offers[2].piece.bow.as_ref().unwrap().loops_a_side, 4);
    assert!(offers[3].piece.parts().iter().all(|p| p.stock.as_str() != "spray-rose"), "orchids take their place");
    assert_eq!(offers[3].price, Cents(2300));
}

#[test]
fn thirty_dollars_buy_a_classic_and_three_are_left() {
    let counter = Counter::open();
    let offers = counter.offers(&counter.sample("01-"));
    let said = |cents| purse_words(&fits_purse(&offers, Cents(cents)), "$");
    assert_eq!(said(3000), "Classic at $27, with $3 left. Full costs $6 more than your 30.");
    assert_eq!(said(3600), "Full at $36 takes just that.");
    assert_eq!(said(1550), "No size costs $15.50 or less. Petite costs $4.50 more than your 15.50.");
    assert_eq!(purse_words(&fits_purse(&[], Cents(3000)), "$"), "No size costs $30 or less.");
}

#[test]
fn tax_deposit_and_rush_of_the_house_read_back_and_old_styles_have_half_down_and_no_tax() {
    let counter = Counter::open();
    let old =
        style_from_text("(version: 1, prices: (fresh_times: 4))", "a.ron", &counter.style, &counter.stock).unwrap();
    assert_eq!((old.prices.tax.clone(), old.prices.deposit, old.prices.rush), (None, 0.5, 0.25));
    let text = "(version: 1, prices: (tax: (name: \"Sales tax\", percent: 8.25, how: added), deposit: 0.3, rush: 0.1))";
    let style = style_from_text(text, "a.ron", &counter.style, &counter.stock).unwrap();
    let sales_tax = Tax { name: "Sales tax".into(), percent: 8.25, how: TaxHow::Added };
    assert_eq!((style.prices.tax.clone(), style.prices.deposit, style.prices.rush), (Some(sales_tax), 0.3, 0.1));
    let back = style_from_text(&style_to_text(&style), "a.ron", &counter.style, &counter.stock).unwrap();
    assert_eq!(back, style);
    for wrong in ["tax: (percent: 101, how: added)", "tax: (percent: 5, how: sometimes)", "deposit: 1.5"] {
        let text = format!("(version: 1, prices: ({wrong}))");
        assert!(style_from_text(&text, "a.ron", &counter.style, &counter.stock).is_err(), "{wrong}");
    }
}

/// The second style is narrower and lighter; what it would change is told before it is done.
#[test]
fn another_style_tells_what_it_would_change() {
    let counter = Counter::open();
    let [house, linden] = &built_in_styles()[..] else { panic!("two styles") };
    assert_eq!((house, linden.name.as_str()), (&counter.style, "Linden"));
    assert!(linden.shape.width_of_girth < house.shape.width_of_girth && linden.shape.height_mm < house.shape.height_mm);
    let order = counter.sample("02-");
    let (change, told) = restyled(&order, house, linden, &counter.stock).unwrap();
    let line = |what: &str| told.iter().find(|t| t.what == what).map(|t| (t.before.as_str(), t.after.as_str()));
    assert_eq!(line("Oval"), Some(("90 x 54 mm", "104 x 46 mm")));
    assert_eq!(line("Height allowed"), Some(("45 mm", "36 mm")));
    assert_eq!(counter.change(&order, &change).piece.parts(), order.piece.parts(), "parts stay");
    let (_, same) = restyled(&order, house, house, &counter.stock).unwrap();
    assert!(same.iter().all(|t| t.what == "Oval"), "{same:?}");
}

fn day(text: &str) -> Day {
    Day::parse(text).unwrap()
}

/// Classic with its boutonniere is 35, a boutonniere of one head, one sprig and two leaves takes 5 minutes; an orchid's is 7.
#[test]
fn the_matching_boutonniere_shares_the_flowers_and_has_a_price_of_its_own() {
    let counter = Counter::open();
    let with_match = |order: &Order| {
        let piece = matching_boutonniere(order, &counter.style, &counter.stock);
        counter.change(order, &Change::PartnerPiece(Some(Box::new(piece))))
    };
    let classic = counter.sample("02-");
    let blooms = classic.piece.parts().iter().filter(|p| p.stock.as_str() == "spray-rose").map(|p| p.id).collect();
    let blush = with_match(&counter.change(&classic, &Change::Piece(Edit::Recolour(blooms, "blush".into()))));
    let piece = blush.partner_piece.as_ref().unwrap();
    assert_eq!((piece.worn, piece.parts().len(), &*piece.parts()[0].colour), (Worn::Lapel, 4, "blush"));
    assert!(piece.parts().iter().all(|p| piece.oval().gauge(p.centre) < 0.95));
    let q = quote(&blush, &counter.style, &counter.stock);
    assert_eq!((q.total, q.lines[1].price, q.minutes), (Cents(3500), Cents(800), 19.0));
    let orchid = with_match(&counter.sample("07-"));
    assert_eq!(quote(&orchid, &counter.style, &counter.stock).lines[1].price, Cents(700));
    assert_eq!(orchid.partner_piece.unwrap().parts()[0].stock.as_str(), "dendrobium");
    let empty = matching_boutonniere(&counter.sample("06-"), &counter.style, &counter.stock);
    assert_eq!(empty.parts().len(), 4, "what the size plans, where she has nothing yet");
}

#[test]
fn the_agreed_sheet_stays_and_later_changes_stand_beside_it() {
    let counter = Counter::open();
    let changed = |order: &Order| changed_since_agreed(order, &counter.style, &counter.stock);
    let order = counter.sample("11-");
    assert!(changed(&order).is_empty(), "nobody said yes yet");
    let sheet = agree(&order, day("2026-05-02"), &counter.style, &counter.stock);
    assert_eq!((sheet.price, sheet.on.in_words().as_str()), (Cents(3750), "2 May 2026"));
    assert!(sheet.says.iter().any(|l| l == "In all $37.50; $18.75 now, $18.75 later"), "{:?}", sheet.says);
    let agreed = counter.change(&order, &Change::Agreed(Some(Box::new(sheet.clone()))));
    assert!(changed(&agreed).is_empty());
    let blooms: Vec<_> =
        agreed.piece.parts().iter().filter(|p| p.stock.as_str() == "spray-rose").map(|p| p.id).collect();
    let dress = DressColour { hex: None, words: "sage".into() };
    let bow = Bow { colour: "white".into(), ..agreed.piece.bow.clone().unwrap() };
    let later = counter.change(
        &agreed,
        &Change::Together(vec![
            Change::Dress(dress),
            Change::Piece(Edit::Recolour(blooms[..2].to_vec(), "blush".into())),
            Change::Piece(Edit::TakeOff(vec![blooms[4]])),
            Change::Piece(Edit::Tie(Some(bow))),
            Change::Piece(Edit::Band(Some(StockId::new("metal-small")))),
            Change::Side(Side::Left),
            Change::Girth(Length::from_mm(150.0)),
            Change::Extras(vec![]),
            Change::PartnerPiece(None),
        ]),
    );
    let told = changed(&later);
    for line in [
        "Dress: teal is now sage.",
        "Wrist: right is now left.",
        "Girth: 155 mm is now 150 mm.",
        "Spray rose: 2 white are now blush.",
        "Spray rose: 1 white taken off.",
        "The matching boutonniere is left out.",
        "Extras: Ribbon wand no longer.",
        // 26.30 with a metal band of 2.60 for one of 1.20, times 2: 29.10, up to the next dollar.
        "Price: $37.50 is now $30.",
    ] {
        assert!(told.contains(&line.to_owned()), "{line}\n{told:#?}");
    }
    assert!(told.iter().any(|l| l.starts_with("Bow: ") && l.contains("silver") && l.contains("white")), "{told:?}");
    assert!(told.iter().any(|l| l.starts_with("Band: Ribbon tie is now")), "{told:?}");
    assert_eq!(later.agreed.as_deref(), Some(&sheet), "the sheet has not moved");
    assert_eq!(sheet.order().piece, order.piece, "the picture can be drawn again");
    let mirrored = counter.change(&agreed, &Change::Side(Side::Left));
    assert_eq!(changed(&mirrored), ["Wrist: right is now left."]);
}

#[test]
fn the_colours_of_a_piece_stand_beside_the_dress_greens_left_out() {
    let counter = Counter::open();
    let order = counter.sample("03-full");
    let colours = piece_colours(&order.piece, &counter.stock, None);
    assert!(colours.len() > 1 && colours.iter().all(|c| c.area_mm2 > 0.0 && c.warnings.is_empty()), "{colours:?}");
    let leaf = counter.stock.botanicals().iter().find(|b| b.id.as_str() == "italian-ruscus").unwrap();
    assert!(order.piece.parts().iter().any(|p| p.stock == leaf.id) && colours.iter().all(|c| c.of != leaf.name));
    // A dress of the roses' own colour: they read as one, and that is told of them alone of all that is far from it.
    let dress = colours[0].rgb;
    let beside = piece_colours(&order.piece, &counter.stock, Some(dress));
    assert!(beside[0].warnings.contains(&ColourWarning::ReadsAsOne));
    let far = beside.iter().filter(|c| c.rgb.difference(dress) > 10.0);
    assert!(far.clone().all(|c| !c.warnings.contains(&ColourWarning::ReadsAsOne)));
    assert!(piece_palette(&[], Some(dress)).is_none(), "one colour is no palette");
    let red = piece_palette(&colours[..1], Some(Rgb::hex(0x000080))).unwrap();
    assert!(red.lightness_span > 0.1 && red.hues != Hues::Neutral);
}
