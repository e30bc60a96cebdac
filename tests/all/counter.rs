//! At the counter: quotes, sizes side by side, what a budget buys. Sums are the demo shop's, worked by hand.

use posywright::book::{
    Asked, Change, Day, DressColour, Extra, Order, PayWay, Payment, Written, matching_boutonniere, taxed,
};
use posywright::colour::{ColourWarning, HueTemplate, Rgb};
use posywright::command::Command;
use posywright::paperwork::{
    ShareOfThree, SizeOffer, Variation, agree, below_words_my_side, bought_together, budget_words,
    changed_since_agreed, difference_words, fits_budget, offer_variation, other_charges, piece_colours, piece_palette,
    price_difference, quote, restyled, share_words, sizes_side_by_side, tax_words, variation_choices,
};
use posywright::piece::{Bow, Edit, HouseStyle, Side, Tax, TaxHow, Worn};
use posywright::session::{ActivePiece, Session};
use posywright::stock::{BandKind, Keeps, Stock, StockId};
use posywright::store::{
    built_in_stock, built_in_style, built_in_styles, order_from_text, samples, style_from_text, style_to_text,
};
use posywright::units::{Cents, Currency, Length};

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

fn dollars() -> Currency {
    Currency::before("$")
}

/// A payment of which nobody noted day and way.
fn paid(cents: i64) -> Change {
    Change::Payments(vec![Payment { on: None, way: PayWay::NotNoted, sum: Cents(cents) }])
}

fn tax(percent: f64, how: TaxHow) -> Tax {
    Tax { name: "VAT".into(), percent, how }
}

/// What an order together with others needs of spray roses: heads of each, all, with spare, stems, stems of each alone.
fn roses(counter: &Counter, orders: &[&Order]) -> (Vec<u32>, u32, u32, u32, u32) {
    let together = bought_together(orders, &counter.style, &counter.stock);
    let line = together.lines.into_iter().find(|l| l.name == "Spray rose" && &*l.colour == "white").unwrap();
    (line.each, line.pieces, line.with_spare, line.stems, line.stems_alone)
}

/// Worked by hand: four heads a stem, a tenth to spare. Two Classics: 10 heads, 11 with spare, 11 / 4 up is 3 stems; one alone
/// 5.5 up is 6 heads, 2 stems. Three Petites: 9 heads, 9.9 up is 10, 3 stems; one alone 3.3 up is 4 heads, 1 stem. A
/// Classic and a Full: 12, 13.2 up is 14, 4 stems; alone 2 and, 7.7 up is 8 heads, 2.
#[test]
fn what_is_bought_together_shares_stems() {
    let counter = Counter::open();
    let [petite, classic, full] = ["01-", "02-", "03-"].map(|name| counter.sample(name));
    assert_eq!(roses(&counter, &[&classic, &classic]), (vec![5, 5], 10, 11, 3, 4));
    assert_eq!(roses(&counter, &[&petite, &petite, &petite]), (vec![3, 3, 3], 9, 10, 3, 3));
    assert_eq!(roses(&counter, &[&classic, &full]), (vec![5, 7], 12, 14, 4, 4));
    let pair = bought_together(&[&classic, &classic], &counter.style, &counter.stock);
    assert_eq!(pair.price, Cents(5400), "27 each");
    assert!(pair.stems_saved() >= 1);
    // A boutonniere of the same rose is bought with them: 5 and 1 and 5 heads, 12.1 up is 13, 4 stems.
    let with_boutonniere = classic_with_boutonniere(&counter);
    assert_eq!(roses(&counter, &[&with_boutonniere, &classic]), (vec![6, 5], 11, 13, 4, 4));
    assert_eq!(roses(&counter, &[&classic]).3, roses(&counter, &[&classic]).4, "one order alone is bought alone");
}

/// A Classic for 27 with its boutonniere for 9.
fn classic_with_boutonniere(counter: &Counter) -> Order {
    let boutonniere = counter.sample("08-").piece;
    counter.change(&counter.sample("02-"), &Change::PartnerPiece(Some(Box::new(boutonniere))))
}

#[test]
fn half_down_of_thirty_six_is_eighteen_and_as_much_later() {
    let mut counter = Counter::open();
    let order = classic_with_boutonniere(&counter);
    let q = quote(&order, &counter.style, &counter.stock);
    let lines: Vec<(&str, i64)> = q.lines.iter().map(|l| (l.what.as_str(), l.price.0)).collect();
    assert_eq!(lines, [("Wrist corsage, Classic", 2700), ("Boutonniere", 900)]);
    assert_eq!((q.total, q.deposit, q.balance, q.minutes), (Cents(3600), Cents(1800), Cents(1800), 19.0));
    counter.style.prices.tax = Some(tax(8.25, TaxHow::Added));
    let q = quote(&order, &counter.style, &counter.stock);
    assert_eq!((q.subtotal, q.total, q.deposit + q.balance), (Cents(3600), Cents(3897), Cents(3897)));
    assert_eq!(tax_words(&q.taxes[0].tax, &q.currency), "VAT 8.25 %");
    let paid = counter.change(&order, &paid(2000));
    assert_eq!(quote(&paid, &counter.style, &counter.stock).due, Cents(1897));
}

#[test]
fn a_price_with_tax_in_it_tells_the_tax_apart() {
    let mut counter = Counter::open();
    counter.style.prices.tax = Some(tax(20.0, TaxHow::Included));
    let q = quote(&counter.sample("02-"), &counter.style, &counter.stock);
    let told = &q.taxes[0];
    assert_eq!((q.total, told.net, told.amount), (Cents(2700), Cents(2250), Cents(450)));
    assert_eq!(tax_words(&told.tax, &dollars()), "VAT 20 %, included");
}

#[test]
fn twenty_for_a_full_is_below_and_loses() {
    let counter = Counter::open();
    let full = counter.sample("03-");
    assert_eq!(below_words_my_side(&quote(&full, &counter.style, &counter.stock)), None);
    let asked = Asked { price: Cents(2000), reason: "an old customer".into() };
    let q = quote(&counter.change(&full, &Change::Asked(Some(asked.clone()))), &counter.style, &counter.stock);
    assert_eq!((q.calculated, q.house, q.total), (Cents(3526), Cents(3600), Cents(2000)));
    assert_eq!((q.below, q.my_side.cost, q.my_side.loses), (Cents(1526), Cents(2143), Cents(143)));
    assert_eq!(q.asked, Some(asked));
    assert_eq!(below_words_my_side(&q).unwrap(), "$15.26 below the shop price. Costs $21.43, so you lose $1.43.");
    let above = Asked { price: Cents(2500), reason: String::new() };
    let q = quote(&counter.change(&full, &Change::Asked(Some(above))), &counter.style, &counter.stock);
    assert_eq!((q.below, q.my_side.loses), (Cents(1026), Cents(0)));
}

/// By hand: a Full costs 21.43. Of 20.00 with a fifth of tax in it the shop keeps 20 / 1.2, 16.67 to the cent, and loses 4.76; with
/// the tax on top it keeps all of the 20 and loses 1.43. The worked price is 35.26, 15.26 above either.
#[test]
fn what_is_lost_at_an_asked_price_counts_no_tax_as_the_shops() {
    let mut counter = Counter::open();
    let asked = Asked { price: Cents(2000), reason: String::new() };
    let order = counter.change(&counter.sample("03-"), &Change::Asked(Some(asked)));
    for (how, total, loses) in
        [(None, 2000, 143), (Some(TaxHow::Included), 2000, 476), (Some(TaxHow::Added), 2400, 143)]
    {
        counter.style.prices.tax = how.map(|how| tax(20.0, how));
        let q = quote(&order, &counter.style, &counter.stock);
        assert_eq!((q.total, q.my_side.cost, q.my_side.loses), (Cents(total), Cents(2143), Cents(loses)), "{how:?}");
        assert_eq!(q.below, Cents(1526), "{how:?}");
    }
}

/// By hand, to the cent, halves up: of 27.00 with 8.25 % on top, 29.23 (2.2275); of 19.99 with 7 % in it, net 18.68 (18.6822) and
/// tax 1.31; of 0.05 with 20 % in it, net 0.04 (0.0417) and 0.01. What is not the deposit is the balance.
#[test]
fn tax_deposit_and_balance_to_the_cent() {
    for (price, percent, how, net, amount) in [
        (2700, 8.25, TaxHow::Added, 2700, 223),
        (2700, 0.0, TaxHow::Added, 2700, 0),
        (1999, 7.0, TaxHow::Included, 1868, 131),
        (5, 20.0, TaxHow::Included, 4, 1),
        (1000, 100.0, TaxHow::Included, 500, 500),
    ] {
        let line = taxed(Cents(price), &tax(percent, how));
        assert_eq!((line.net, line.amount), (Cents(net), Cents(amount)), "{price} {percent} {how:?}");
    }
    let mut counter = Counter::open();
    let order = counter.sample("02-");
    counter.style.prices.tax = Some(tax(8.25, TaxHow::Added));
    // Of 29.23: half is 14.615, three tenths 8.769; shares beyond none and all are taken as those.
    for (share, deposit, balance) in
        [(0.5, 1462, 1461), (0.3, 877, 2046), (0.0, 0, 2923), (1.0, 2923, 0), (1.5, 2923, 0), (-1.0, 0, 2923)]
    {
        counter.style.prices.deposit = share;
        let q = quote(&order, &counter.style, &counter.stock);
        assert_eq!((q.total, q.deposit, q.balance), (Cents(2923), Cents(deposit), Cents(balance)), "{share}");
    }
}

/// By hand, a Classic by the rule of the house: 2.80 of flowers, 3.00 of goods, 14 minutes at 0.75 are 9.80 + 6.00 + 10.50 =
/// 26.30. Up to the next 0.05, 1, 5 and 20; the rush of a quarter is taken up by the same step.
#[test]
fn prices_and_rush_go_up_to_the_step_of_the_house() {
    let mut counter = Counter::open();
    let order = counter.change(&counter.sample("02-"), &Change::Rush(true));
    for (step, price, rush) in [(1, 2630, 658), (5, 2630, 660), (100, 2700, 700), (500, 3000, 1000), (2000, 4000, 2000)]
    {
        counter.style.prices.round_up_to = Cents(step);
        let q = quote(&order, &counter.style, &counter.stock);
        let lines: Vec<(&str, Cents)> = q.lines.iter().map(|l| (l.what.as_str(), l.price)).collect();
        assert_eq!(lines, [("Wrist corsage, Classic", Cents(price)), ("Rush", Cents(rush))], "{step}");
        assert_eq!((q.calculated, q.house, q.total), (Cents(2630), Cents(price), Cents(price + rush)), "{step}");
    }
}

#[test]
fn extras_and_rush_come_on_top_of_the_pieces() {
    let counter = Counter::open();
    let extras = vec![Extra { name: "Ribbon wand".into(), price: Cents(250), tax_percent: None }];
    let changes = Change::Together(vec![Change::Extras(extras), Change::Rush(true)]);
    let q = quote(&counter.change(&counter.sample("02-"), &changes), &counter.style, &counter.stock);
    let lines: Vec<(&str, i64)> = q.lines.iter().map(|l| (l.what.as_str(), l.price.0)).collect();
    // A quarter of 27 is 6.75, up to the next whole dollar.
    assert_eq!(lines, [("Wrist corsage, Classic", 2700), ("Ribbon wand", 250), ("Rush", 700)]);
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

/// Whole percent by the largest remainder (Hamilton), by hand: rounding each for itself would make 101 of the first and 99
/// of the third, and nearest-then-rest would give the making of the second a share below nothing.
#[test]
fn three_shares_of_any_price_make_a_hundred_and_none_is_below_nothing() {
    for (parts, percent) in [
        ([0.375, 0.125, 0.5], [38, 12, 50]),
        ([0.505, 0.495, 0.0], [51, 49, 0]),
        ([1.0, 1.0, 1.0], [34, 33, 33]),
        ([0.0, 0.0, 0.0], [0, 0, 0]),
        ([f64::NAN, 2.0, 6.0], [0, 25, 75]),
    ] {
        let [flowers, trims, making] = parts;
        assert_eq!(ShareOfThree { flowers, trims, making }.percent(), percent, "{parts:?}");
    }
    for i in 0..1000_u32 {
        let part = |n: u32| f64::from((i * 7919 + n * 104_729) % 1009);
        let share = ShareOfThree { flowers: part(1), trims: part(2), making: part(3) };
        let (percent, whole) = (share.percent(), part(1) + part(2) + part(3));
        assert_eq!(percent.iter().sum::<i64>(), 100);
        let off = |n: usize, exact: f64| (percent[n] as f64 - exact / whole * 100.0).abs();
        assert!(off(0, part(1)) < 1.0 && off(1, part(2)) < 1.0 && off(2, part(3)) < 1.0, "{share:?} {percent:?}");
        assert!(percent.iter().all(|&p| p >= 0));
    }
}

#[test]
fn from_petite_to_classic_the_difference_is_told_in_heads_sprigs_leaves_minutes_and_price() {
    let counter = Counter::open();
    let offers = counter.offers(&counter.sample("01-"));
    let names: Vec<(&str, i64)> = offers.iter().map(|o| (o.name.as_str(), o.price.0)).collect();
    assert_eq!(names, [("Petite", 2000), ("Classic", 2700), ("Full", 3600), ("Orchid Classic", 2300)]);
    assert_eq!(difference_words(&offers[1].difference), "+2 heads, +1 sprig, +2 leaves, +4 min");
    assert_eq!(price_difference(offers[1].difference.price, &dollars()), "+$7");
    assert!(offers[0].is_present && difference_words(&offers[0].difference).is_empty());
    let down = counter.offers(&counter.sample("03-"));
    assert_eq!(
        difference_words(&down[0].difference),
        "\u{2212}4 heads, \u{2212}2 sprigs, \u{2212}4 leaves, \u{2212}8 min"
    );
    assert_eq!(
        (down[0].price, price_difference(down[0].difference.price, &dollars())),
        (Cents(2000), "\u{2212}$16".to_owned())
    );
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
    let said = |cents| budget_words(&fits_budget(&offers, Cents(cents), Cents(0)), &dollars());
    assert_eq!(said(3000), "Classic at $27, $3 left. Full is $6 over $30.");
    assert_eq!(said(3600), "Full at $36, exactly.");
    assert_eq!(said(1550), "No size fits $15.50. Petite is $4.50 over $15.50.");
    assert_eq!(budget_words(&fits_budget(&[], Cents(3000), Cents(0)), &dollars()), "No size fits $30.");
}

#[test]
fn what_the_rest_of_the_order_costs_is_taken_from_the_budget_first() {
    let counter = Counter::open();
    let alone = counter.sample("02-");
    let (style, stock) = (&counter.style, &counter.stock);
    assert_eq!(other_charges(&quote(&alone, style, stock), style), Cents(0));
    let boutonniere = matching_boutonniere(&alone, style, stock);
    let order = alone.apply(&Change::PartnerPiece(Some(Box::new(boutonniere))), stock).unwrap();
    // A boutonniere of the same flowers, wired and with two pins, is 9, a Petite 20, an Orchid Classic 23.
    let rest = other_charges(&quote(&order, style, stock), style);
    assert_eq!(rest, Cents(900));
    let said = budget_words(&fits_budget(&counter.offers(&order), Cents(3000), rest), &dollars());
    assert_eq!(said, "After $9 for the rest: Petite at $20, $1 left. Orchid Classic is $2 over $30.");
}

#[test]
fn tax_deposit_and_rush_of_the_house_read_back_and_old_styles_have_half_down_and_no_tax() {
    let counter = Counter::open();
    let old =
        style_from_text("(version: 1, prices: (fresh_times: 4))", "a.ron", &counter.style, &counter.stock).unwrap();
    assert_eq!((old.prices.tax.clone(), old.prices.deposit, old.prices.rush), (None, 0.5, 0.25));
    let text = "(version: 1, prices: (tax: (name: \"Sales tax\", percent: 8.25, how: added), deposit: 0.3, rush: 0.1, holds_days: 30))";
    let style = style_from_text(text, "a.ron", &counter.style, &counter.stock).unwrap();
    let sales_tax = Tax { name: "Sales tax".into(), percent: 8.25, how: TaxHow::Added };
    assert_eq!((style.prices.tax.clone(), style.prices.deposit, style.prices.rush), (Some(sales_tax), 0.3, 0.1));
    assert_eq!((old.prices.holds_days, style.prices.holds_days), (14, 30));
    let back = style_from_text(&style_to_text(&style), "a.ron", &counter.style, &counter.stock).unwrap();
    assert_eq!(back, style);
    for wrong in [
        "tax: (percent: 101, how: added)",
        "tax: (percent: 5, how: sometimes)",
        "deposit: 1.5",
        "holds_days: -1",
        "holds_days: 1.5",
    ] {
        let text = format!("(version: 1, prices: ({wrong}))");
        assert!(style_from_text(&text, "a.ron", &counter.style, &counter.stock).is_err(), "{wrong}");
    }
}

/// The second style is narrower and lighter; what it would change is reported before it is done.
#[test]
fn another_style_tells_what_it_would_change() {
    let counter = Counter::open();
    let [house, linden] = &built_in_styles()[..] else { panic!("two styles") };
    assert_eq!((house, linden.name.as_str()), (&counter.style, "Linden"));
    assert!(linden.shape.width_of_girth < house.shape.width_of_girth && linden.shape.height_mm < house.shape.height_mm);
    let order = counter.sample("02-");
    let (change, told) = restyled(&order, house, linden, &counter.stock).unwrap();
    let line = |what: &str| told.iter().find(|t| t.what == what).map(|t| (t.before.as_str(), t.after.as_str()));
    assert_eq!(line("Oval"), Some(("90 \u{d7} 54 mm", "104 \u{d7} 46 mm")));
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
    assert_eq!((q.total, q.lines[1].price, q.minutes), (Cents(3600), Cents(900), 19.0));
    let orchid = with_match(&counter.sample("07-"));
    assert_eq!(quote(&orchid, &counter.style, &counter.stock).lines[1].price, Cents(800));
    assert_eq!(orchid.partner_piece.unwrap().parts()[0].stock.as_str(), "dendrobium");
    let empty = matching_boutonniere(&counter.sample("06-"), &counter.style, &counter.stock);
    assert_eq!(empty.parts().len(), 4, "what the size plans, where she has nothing yet");
}

#[test]
fn the_agreed_sheet_stays_and_later_changes_stand_beside_it() {
    let counter = Counter::open();
    let changed = |order: &Order| changed_since_agreed(order, &counter.style, &counter.stock, Written::default());
    let order = counter.sample("11-");
    assert!(changed(&order).is_empty(), "nobody said yes yet");
    let sheet = agree(&order, day("2026-05-02"), &counter.style, &counter.stock);
    assert_eq!((sheet.price, sheet.on.text().as_str()), (Cents(3850), "2 May 2026"));
    assert!(
        sheet.says.iter().any(|l| l == "Total $38.50; deposit $19.25, balance $19.25 at pick-up"),
        "{:?}",
        sheet.says
    );
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
            Change::Piece(Edit::Remove(vec![blooms[4]])),
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
        "Wrist size: 155 mm is now 150 mm.",
        "Spray rose: 2 white are now blush.",
        "Spray rose: 1 white removed.",
        "Matching boutonniere removed.",
        "Extras: Ribbon wand removed.",
        // 26.30 with a metal band of 2.60 for one of 1.20, times 2: 29.10, up to the next dollar, 30 for 27; the boutonniere
        // of 9 and the wand of 2.50 go.
        "Not agreed yet: \u{2212}$8.50. New total $30.",
    ] {
        assert!(told.contains(&line.to_owned()), "{line}\n{told:#?}");
    }
    assert!(told.contains(&"Bow: silver is now white.".to_owned()), "what stayed is not told again: {told:?}");
    assert!(told.iter().any(|l| l.starts_with("Band: Ribbon tie is now")), "{told:?}");
    assert_eq!(later.agreed.as_deref(), Some(&sheet), "the sheet has not moved");
    assert_eq!(sheet.order().piece, order.piece, "the picture can be drawn again");
    let mirrored = counter.change(&agreed, &Change::Side(Side::Left));
    assert_eq!(changed(&mirrored), ["Wrist: right is now left."]);
}

/// What was agreed stays, amount and deposit; what changes later stands beside it until it is agreed too.
#[test]
fn amount_and_deposit_are_frozen_at_the_yes_and_changes_wait_for_another() {
    let counter = Counter::open();
    let order = counter.sample("11-");
    let money = |order: &Order| {
        let q = quote(order, &counter.style, &counter.stock);
        (q.total, q.deposit, q.balance, q.due)
    };
    assert_eq!(money(&order), (Cents(3850), Cents(1925), Cents(1925), Cents(3850)));
    let yes = agree(&order, day("2026-05-02"), &counter.style, &counter.stock);
    assert_eq!((yes.deposit, yes.holds_until), (Some(Cents(1925)), Some(day("2026-05-16"))));
    let agreed =
        counter.change(&order, &Change::Together(vec![Change::Agreed(Some(Box::new(yes.clone()))), paid(1925)]));
    let dearer = Asked { price: Cents(5000), reason: String::new() };
    let later = counter.change(&agreed, &Change::Asked(Some(dearer)));
    assert_eq!(money(&later), (Cents(3850), Cents(1925), Cents(1925), Cents(1925)));
    // The wand of 2.50 stays on top of the 50.
    let waits = |order: &Order| quote(order, &counter.style, &counter.stock).pending.map(|p| (p.by, p.total));
    assert_eq!(waits(&later), Some((Cents(1400), Cents(5250))));
    let less = Asked { price: Cents(1000), reason: String::new() };
    let less = counter.change(&agreed, &Change::Together(vec![Change::Asked(Some(less)), Change::Extras(vec![])]));
    assert_eq!((money(&less).0, waits(&less)), (Cents(3850), Some((Cents(-2850), Cents(1000)))));
    let less = agree(&less, day("2026-05-04"), &counter.style, &counter.stock);
    let back = counter.change(&agreed, &Change::Agreed(Some(Box::new(less))));
    assert_eq!(money(&back), (Cents(1000), Cents(500), Cents(500), Cents(-925)), "some goes back");
    let mut other_house = counter.style.clone();
    other_house.prices.deposit = 1.0;
    assert_eq!(quote(&agreed, &other_house, &counter.stock).deposit, Cents(1925));
    // Who says yes anew agrees to all of it anew.
    let anew = agree(&later, day("2026-05-04"), &counter.style, &counter.stock);
    assert_eq!((anew.price, anew.deposit), (Cents(5250), Some(Cents(2625))));
    assert!(anew.order().agreed.is_none());
}

/// 2 May and fourteen days are 16 May; what is said for the order goes before the rule of the house.
#[test]
fn a_price_holds_so_many_days_from_the_quote_or_until_the_day_that_was_said() {
    let counter = Counter::open();
    let order = counter.sample("02-");
    let until = |order: &Order, style: &HouseStyle| quote(order, style, &counter.stock).holds_until;
    assert_eq!(until(&order, &counter.style), None, "no day is known to count from");
    let told = counter.change(&order, &Change::QuotedOn(Some(day("2026-05-02"))));
    assert_eq!(until(&told, &counter.style), Some(day("2026-05-16")));
    let mut open = counter.style.clone();
    open.prices.holds_days = 0;
    assert_eq!(until(&told, &open), None);
    let said = counter.change(&told, &Change::HoldsUntil(Some(day("2026-05-05"))));
    assert_eq!((until(&said, &counter.style), until(&said, &open)), (Some(day("2026-05-05")), Some(day("2026-05-05"))));
    let yes = agree(&said, day("2026-05-04"), &counter.style, &counter.stock);
    assert_eq!(yes.holds_until, Some(day("2026-05-05")));
    let agreed = counter.change(&told, &Change::Agreed(Some(Box::new(yes))));
    let later = counter.change(&agreed, &Change::HoldsUntil(None));
    assert_eq!(until(&later, &counter.style), Some(day("2026-05-05")), "frozen with the rest");
}

/// 8.25 % of 27 are 2.2275.
#[test]
fn the_agreed_words_name_the_tax() {
    let counter = Counter::open();
    let mut style = counter.style.clone();
    style.prices.tax = Some(Tax { name: "Sales tax".into(), percent: 8.25, how: TaxHow::Added });
    let yes = agree(&counter.sample("02-"), day("2026-05-02"), &style, &counter.stock);
    assert!(yes.says.contains(&"Sales tax 8.25 %: $2.23".to_owned()), "{:?}", yes.says);
    assert_eq!((yes.price, yes.deposit), (Cents(2923), Some(Cents(1462))));
}

fn way(band: Option<BandKind>, greens: &str, between: &str) -> Variation {
    let id = |text: &str| (!text.is_empty()).then(|| StockId::new(text));
    Variation { band, greens: id(greens), between: id(between) }
}

/// By hand: 26.30 with a metal band of 2.60 for one of 1.20, times 2, is 29.10; six leaves of salal at 0.04 for six of ruscus at
/// 0.05, times 3.5, are 0.21 less: 28.89, up to the next dollar.
#[test]
fn another_way_tells_what_changes_minutes_and_price_and_is_one_change() {
    let counter = Counter::open();
    let order = counter.sample("02-");
    let metal = way(Some(BandKind::Metal), "salal", "");
    let offer = offer_variation(&order, &metal, &counter.style, &counter.stock).unwrap();
    assert_eq!(offer.says, ["Metal band, medium instead of Elastic band, medium", "Salal instead of Italian ruscus"]);
    assert_eq!((offer.price, offer.difference.price, offer.difference.minutes), (Cents(2900), Cents(200), 0.0));
    assert_eq!(difference_words(&offer.difference), "");
    assert_eq!(counter.change(&order, &offer.change).piece, offer.piece);
    let leaves = |piece: &posywright::piece::Piece| {
        let leaves = piece.parts().iter().filter(|p| p.role == posywright::stock::Role::Leaf);
        leaves.map(|p| (p.centre.x, p.centre.y, p.turn_rad)).collect::<Vec<_>>()
    };
    let (mut was, mut now) = (leaves(&order.piece), leaves(&offer.piece));
    was.sort_by(|a, b| a.partial_cmp(b).unwrap());
    now.sort_by(|a, b| a.partial_cmp(b).unwrap());
    assert_eq!(was, now, "leaves keep their places and turns");
    let none = offer_variation(&order, &Variation::default(), &counter.style, &counter.stock).unwrap();
    assert_eq!((none.piece, none.says.len(), none.difference.price), (order.piece, 0, Cents(0)));
}

#[test]
fn nothing_that_she_must_not_get_is_among_the_ways() {
    let counter = Counter::open();
    let gown = counter.sample("11-");
    let choices = variation_choices(&gown, &counter.stock);
    assert_eq!(choices.bands.iter().map(|b| b.what).collect::<Vec<_>>(), [BandKind::Metal, BandKind::Slap]);
    assert_eq!(choices.left_out.len(), 3, "elastic, pearls and rhinestones may hold latex: {:?}", choices.left_out);
    assert!(choices.between.iter().all(|c| c.what.as_str() != "babys-breath"), "{:?}", choices.between);
    let keeps = |id: &StockId| counter.stock.botanical(id).unwrap().keeps;
    assert!(!choices.lasting.is_empty() && choices.lasting.iter().all(|c| keeps(&c.what) == Keeps::Excellent));
    assert!(!choices.fresh.is_empty() && choices.fresh.iter().all(|c| keeps(&c.what) != Keeps::Excellent));
    let empty = variation_choices(&counter.sample("06-"), &counter.stock);
    assert!(empty.lasting.is_empty() && empty.fresh.is_empty() && empty.between.is_empty() && empty.bands.len() == 5);
}

/// Statice costs half of waxflower: two sprigs and the boutonniere's one.
#[test]
fn the_boutonniere_follows_where_it_shares_the_flower() {
    let counter = Counter::open();
    let order = counter.sample("02-");
    let piece = matching_boutonniere(&order, &counter.style, &counter.stock);
    let pair = counter.change(&order, &Change::PartnerPiece(Some(Box::new(piece))));
    let offer = offer_variation(&pair, &way(None, "", "statice"), &counter.style, &counter.stock).unwrap();
    let after = counter.change(&pair, &offer.change);
    for piece in [&after.piece, after.partner_piece.as_ref().unwrap()] {
        let ids: Vec<&str> = piece.parts().iter().map(|p| p.stock.as_str()).collect();
        assert!(ids.contains(&"statice") && !ids.contains(&"waxflower"), "{ids:?}");
    }
    assert_eq!(offer.says, ["Statice instead of Waxflower"]);
    // 27 and 9 before; 25.86 up to 26, and 7.97 up to 8.
    assert_eq!((offer.price, offer.difference.price), (Cents(3400), Cents(-200)));
}

#[test]
fn a_size_that_holds_what_she_must_not_get_says_so() {
    let counter = Counter::open();
    let allergy = Change::Allergies(Some(vec!["dendrobium".to_owned()]));
    let offers = counter.offers(&counter.change(&counter.sample("02-"), &allergy));
    let stopped: Vec<(&str, usize)> = offers.iter().map(|o| (o.name.as_str(), o.stopped.len())).collect();
    assert_eq!(stopped, [("Petite", 0), ("Classic", 0), ("Full", 0), ("Orchid Classic", 1)]);
    assert_eq!(offers[3].stopped, ["Dendrobium"]);
}

#[test]
fn an_edit_of_the_boutonniere_leaves_the_wrist_piece_alone_and_the_whole_order_is_kept() {
    let counter = Counter::open();
    let pair = classic_with_boutonniere(&counter);
    let mut session = Session::with(pair.clone(), counter.stock.clone().into(), counter.style.clone().into());
    assert_eq!((session.active_piece(), session.derived().price.rounded), (ActivePiece::Wrist, Cents(2700)));
    session.make_active(ActivePiece::Boutonniere);
    assert_eq!(session.derived().price.rounded, Cents(900));
    let ids: Vec<_> = session.piece().parts().iter().take(1).map(|p| p.id).collect();
    session.run(&Command::Edit(Edit::Remove(ids.clone()))).unwrap();
    let rest: Vec<_> = session.piece().parts().iter().map(|p| p.id).collect();
    session.run(&Command::Preview(Edit::Move(rest, (2.0, 1.0).into()))).unwrap();
    session.run(&Command::Commit).unwrap();
    assert_eq!(session.order().piece, pair.piece);
    assert_eq!(session.piece().parts().len(), pair.partner_piece.as_ref().unwrap().parts().len() - 1);
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("pair.ron");
    session.save_as(&file).unwrap();
    let (opened, said) = Session::open(&file, session.stock().clone(), session.style().clone()).unwrap();
    assert_eq!((opened.order(), said.len()), (session.order(), 0));
    session.run(&Command::Undo).unwrap();
    session.run(&Command::Undo).unwrap();
    assert_eq!(**session.order(), pair);
    session.run(&Command::Change(Change::PartnerPiece(None))).unwrap();
    assert_eq!(
        (session.active_piece(), session.piece()),
        (ActivePiece::Wrist, &pair.piece),
        "the sheet is never empty-handed"
    );
}

/// What was shown is what is taken: the heads of the size, in the ribbon that she chose, and nothing locked has moved.
#[test]
fn a_size_is_taken_as_it_is_drawn_in_one_change() {
    let counter = Counter::open();
    let order = counter.sample("02-");
    let first = order.piece.parts()[0].id;
    let order = counter.change(&order, &Change::Piece(Edit::Lock(vec![first], true)));
    for mut offer in counter.offers(&order).into_iter().filter(|o| !o.is_present) {
        let size = counter.style.size(&offer.name).unwrap();
        // As a layout would: one part is moved, one more is put on.
        let free = offer.piece.parts().iter().find(|p| !p.locked).map(|p| p.id);
        if let Some(id) = free {
            let edits = vec![Edit::Move(vec![id], (3.0, -2.0).into()), Edit::Copy(vec![id], (5.0, 5.0).into())];
            offer.piece = offer.piece.apply(&Edit::Together(edits)).unwrap();
        }
        let after = counter.change(&order, &offer.taken(&order.piece, size));
        let places = |piece: &posywright::piece::Piece| {
            piece.parts().iter().map(|p| (p.stock.to_string(), p.centre.x, p.centre.y)).collect::<Vec<_>>()
        };
        assert_eq!(places(&after.piece), places(&offer.piece), "{}", offer.name);
        assert_eq!((&after.piece.bow, after.size.as_deref()), (&offer.piece.bow, Some(offer.name.as_str())));
        assert_eq!(after.piece.part(first).map(|p| p.centre), offer.piece.part(first).map(|p| p.centre));
    }
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
    assert!(red.lightness_span > 0.1 && red.hues != HueTemplate::Neutral);
}
