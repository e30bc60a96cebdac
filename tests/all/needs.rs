//! Needs of the wearer: what is stopped and what is proposed. Nothing is done without a yes.

use posywright::book::{
    Change, Order, SMALL_PARTS_CYLINDER_MM, Suggestion, WearerKind, What, band_length_mm, small_parts, stop_band,
    stop_flower, stopped, suggestions, swap,
};
use posywright::geometry::Point;
use posywright::once_over::{Subject, look_over};
use posywright::paperwork::{quote, variation_choices};
use posywright::piece::{Edit, HouseStyle, NewPart, Question, Side, Worn};
use posywright::stock::{BandKind, Caution, Role, Stock, StockId};
use posywright::store::{built_in_stock, built_in_style, order_from_text, samples, stock_from_text};
use posywright::units::Length;

struct Shop {
    stock: Stock,
    style: HouseStyle,
}

impl Shop {
    fn open() -> Self {
        Self { stock: built_in_stock(), style: built_in_style() }
    }
    fn sample(&self, name: &str) -> Order {
        let sample = samples::orders().find(|s| s.path.contains(name)).unwrap();
        order_from_text(sample.text, sample.path, &self.stock).unwrap()
    }
    fn change(&self, order: &Order, changes: &[Change]) -> Order {
        order.apply(&Change::Together(changes.to_vec()), &self.stock).unwrap()
    }
    fn with(&self, order: &Order, stock: &str, at: (f64, f64)) -> Order {
        let botanical = self.stock.botanical(&StockId::new(stock)).unwrap();
        let colour = botanical.colours[0].name.as_str().into();
        let new = NewPart::usual(botanical, colour, Point::new(at.0, at.1));
        self.change(order, &[Change::Piece(Edit::Place(new))])
    }
    fn asked(&self, order: &Order) -> Vec<Suggestion> {
        suggestions(order, &self.style, &self.stock)
    }
    /// The order after a yes to every proposal, until none is left.
    fn yes_to_all(&self, order: &Order) -> Order {
        let mut order = order.clone();
        for _ in 0..20 {
            match self.asked(&order).into_iter().find(|p| p.change != Change::Worn(Worn::Lapel)) {
                Some(first) => order = self.change(&order, &[first.change]),
                None => return order,
            }
        }
        panic!("suggestions without end: {:?}", self.asked(&order))
    }
}

fn measured(mm: f64) -> Change {
    Change::Girth(Length::from_mm(mm))
}

/// Baby's breath makes her wheeze and latex is forbidden: one flower and one band are stopped, each with others named; put
/// on again later it is stopped again.
#[test]
fn an_allergy_stops_the_flower_and_the_band_and_names_others() {
    let shop = Shop::open();
    let template = shop.with(&shop.sample("02-"), "babys-breath", (12.0, 18.0));
    assert!(stopped(&template, &shop.stock).is_empty());
    let words = "baby\u{2019}s breath makes her wheeze".to_owned();
    let ines = shop.change(&template, &[Change::Allergies(Some(vec![words])), Change::NoLatex(true)]);
    let stops = stopped(&ines, &shop.stock);
    let what: Vec<&What> = stops.iter().map(|s| &s.what).collect();
    assert_eq!(what, [&What::Flower(StockId::new("babys-breath")), &What::Band(StockId::new("elastic-medium"))]);
    assert!(stops.iter().all(|s| !s.instead.is_empty() && s.why.ends_with('.')), "{stops:?}");
    assert_eq!(stops[0].instead[0], StockId::new("waxflower"), "it is on the piece already");
    assert!(stops[1].instead.contains(&StockId::new("ribbon-tie")));
    for id in &stops[1].instead {
        assert!(!shop.stock.band(id).unwrap().cautions.contains(&Caution::Latex), "{id}");
    }
    let mended = shop.yes_to_all(&ines);
    assert!(stopped(&mended, &shop.stock).is_empty());
    assert_eq!(mended.piece.parts().len(), ines.piece.parts().len(), "another stands in for it");
    let thursday = swap(&mended, &StockId::new("waxflower"), &StockId::new("babys-breath"), &shop.stock).unwrap();
    assert_eq!(stopped(&shop.change(&mended, &[thursday]), &shop.stock).len(), 1);
}

#[test]
fn allergies_are_found_under_any_of_their_names_and_not_in_part_words() {
    let mut shop = Shop::open();
    let own = r##"(version: 1, botanicals: [(id: "lily", name: "Lily", botanical: "Lilium hybrids", role: bloom,
        form: alstroemeria, size: (80, 120, 160), breadth: 1, height: 40, per_stem: 3, stems_per_bunch: 10, bunch: 20.00,
        colours: [("white", "#ffffff")], cautions: [pollen_stain])])"##;
    shop.stock = stock_from_text(own, "stock.ron", &shop.stock).unwrap();
    let order = shop.sample("02-");
    let stops = |word: &str, flower: &str| {
        let order = shop.change(&order, &[Change::Allergies(Some(vec![word.to_owned()]))]);
        stop_flower(&order, &StockId::new(flower), &shop.stock).is_some()
    };
    for (word, flower) in [
        ("gypsophila", "babys-breath"),
        ("Baby's-Breath", "babys-breath"),
        ("babys-breath", "babys-breath"),
        ("ROSES", "spray-rose"),
        ("chrysanthemums", "button-mum"),
        // By what it is marked for: the built-in list calls ranunculus a skin irritant.
        ("skin irritants", "ranunculus"),
    ] {
        assert!(shop.stock.botanical(&StockId::new(flower)).is_some(), "no {flower} in stock");
        assert!(stops(word, flower), "{word} {flower}");
    }
    for word in ["", " ", "a", "s", "nuts", "penicillin"] {
        assert!(!stops(word, "spray-rose"), "{word}");
    }
}

/// Left-handed: the right wrist is proposed; a bloom at (12, 8) goes to (12, -8); counts, mark and price stay.
#[test]
fn a_left_hand_proposes_the_right_wrist() {
    let shop = Shop::open();
    let order = shop.with(&shop.sample("01-"), "spray-rose", (12.0, 8.0));
    assert!(shop.asked(&order).is_empty());
    let left_handed = shop.change(&order, &[Change::Handed(Some(Side::Left))]);
    assert_eq!(left_handed.piece, order.piece, "asked, not done");
    let asked = shop.asked(&left_handed);
    assert_eq!((asked.len(), &asked[0].change), (1, &Change::Side(Side::Right)));
    let turned = shop.yes_to_all(&left_handed);
    assert_eq!(turned.piece.parts().last().unwrap().centre, Point::new(12.0, -8.0));
    let (before, after) = (quote(&order, &shop.style, &shop.stock), quote(&turned, &shop.style, &shop.stock));
    assert_eq!(before, after);
    let mark = |o: &Order| {
        look_over(Subject { piece: &o.piece, stock: &shop.stock, style: &shop.style, wrist: &o.wrist }).score
    };
    assert!((mark(&order) - mark(&turned)).abs() < 1e-9);
    assert!(shop.asked(&turned).is_empty(), "not asked twice");
    assert!(shop.asked(&shop.change(&order, &[Change::Handed(Some(Side::Right))])).is_empty());
}

/// Pushes a wheelchair: flat, no tails, higher on the arm, upper arm or lapel; the height allowed goes from 45 to 30.
#[test]
fn hands_on_wheels_want_it_flat_without_tails_and_higher() {
    let shop = Shop::open();
    let tomas = shop.change(&shop.sample("03-"), &[Change::PushesChair(true)]);
    assert_eq!(shop.style.height_limit_mm(&tomas.piece.wishes), 45.0);
    assert_eq!(shop.asked(&tomas).len(), 5, "{:?}", shop.asked(&tomas));
    assert!(shop.asked(&tomas).iter().all(|p| p.says.ends_with('?')), "asked, never told");
    let after = shop.yes_to_all(&tomas);
    assert_eq!(shop.style.height_limit_mm(&after.piece.wishes), 30.0);
    assert_eq!(after.piece.bow.as_ref().map(|b| b.tails), Some(0));
    assert!(after.piece.footprint.offset_mm > tomas.piece.footprint.offset_mm);
    let height = |o: &Order| {
        let over = look_over(Subject { piece: &o.piece, stock: &shop.stock, style: &shop.style, wrist: &o.wrist });
        over.findings.iter().find(|f| f.question == Question::Height).unwrap().says()
    };
    assert!(height(&after).contains("30"), "{}", height(&after));
    assert_ne!(height(&tomas), height(&after));
}

/// A flower girl of six, 122 mm: 48.8 mm wide, a band of 132 with 10 mm ease, a standard elastic is too big.
#[test]
fn a_child_gets_a_narrow_oval_and_a_band_that_fits() {
    let shop = Shop::open();
    let six = shop.change(&shop.sample("02-"), &[Change::Kind(Some(WearerKind::Child { years: 6 }))]);
    let mut six = shop.change(&six, &[measured(122.0)]);
    assert!((shop.style.width_limit_mm(122.0) - 48.8).abs() < 1e-9);
    assert_eq!(band_length_mm(&six), 132.0);
    assert_eq!(six.piece.band, Some(StockId::new("elastic-child")), "the band follows the girth");
    six.piece.band = Some(StockId::new("elastic-medium"));
    let stops = stopped(&six, &shop.stock);
    assert!(stops[0].why.contains("too big") && stops[0].why.contains("132"), "{stops:?}");
    assert_eq!(stops[0].instead[0], StockId::new("elastic-child"));
    let after = shop.yes_to_all(&six);
    assert!((after.piece.footprint.width_mm - 48.8).abs() < 1e-9);
    assert!(stopped(&after, &shop.stock).is_empty());
}

/// Small parts are kept from children under three: pearls and rhinestones fit the test cylinder (16 CFR 1501.4).
#[test]
fn a_two_year_old_gets_no_pearls_no_stones_no_pins_and_a_ribbon_tie() {
    let shop = Shop::open();
    assert_eq!(SMALL_PARTS_CYLINDER_MM, (31.75, [25.4, 57.15]));
    let trims: Vec<StockId> =
        shop.stock.botanicals().iter().filter(|b| b.role == Role::Trim).map(|b| b.id.clone()).collect();
    assert!(trims.len() >= 2);
    let mut order = shop.sample("01-");
    for (i, trim) in trims.iter().enumerate() {
        order = shop.with(&order, trim.as_str(), (i as f64, 2.0));
    }
    let aged = |years| shop.change(&order, &[Change::Kind(Some(WearerKind::Child { years })), measured(105.0)]);
    assert!(stopped(&aged(3), &shop.stock).is_empty());
    let two = aged(2);
    let tails = usize::from(two.piece.bow.as_ref().is_some_and(|bow| bow.tails > 0));
    assert_eq!(stopped(&two, &shop.stock).iter().filter(|s| s.what == What::Tails).count(), tails);
    assert_eq!(stopped(&two, &shop.stock).len(), trims.len() + tails);
    let pearl_band = shop.change(&two, &[Change::BandKind(BandKind::Pearl)]);
    assert_eq!(stopped(&pearl_band, &shop.stock).len(), trims.len() + tails + 1);
    let after = shop.yes_to_all(&two);
    assert_eq!((small_parts(&after.piece, &shop.stock), after.piece.band), (0, Some(StockId::new("ribbon-tie"))));
    let pinned = shop.change(&two, &[Change::Worn(Worn::Lapel)]);
    assert!(stopped(&pinned, &shop.stock).iter().any(|s| s.what == What::Pin));
}

/// Right arm operated: the left wrist, no elastic. The reason stands nowhere but in the order.
#[test]
fn a_spared_arm_gets_neither_the_piece_nor_elastic() {
    let shop = Shop::open();
    let mother = shop.change(&shop.sample("02-"), &[Change::Side(Side::Right), Change::SparedArm(Some(Side::Right))]);
    let stops = stopped(&mother, &shop.stock);
    assert_eq!(stops.iter().filter(|s| s.what == What::Wrist).count(), 1);
    let after = shop.yes_to_all(&shop.change(&mother, &[Change::Handed(Some(Side::Left))]));
    assert_eq!((after.wrist.side, after.piece.band.clone()), (Side::Left, Some(StockId::new("ribbon-tie"))));
    assert!(stopped(&after, &shop.stock).is_empty());
}

/// Every band by its kind, on the free wrist of a wearer whose other arm is to be spared: elastic and pearls, which are
/// strung on elastic, rhinestones likewise and a slap band, which grips, are stopped; a ribbon tie and a metal cuff are not. Nobody spares an arm: none is stopped.
#[test]
fn no_band_on_elastic_is_offered_where_an_arm_is_spared() {
    let shop = Shop::open();
    let order = shop.change(&shop.sample("02-"), &[Change::Side(Side::Left), measured(150.0)]);
    let spared = shop.change(&order, &[Change::SparedArm(Some(Side::Right))]);
    for (kind, is_stopped) in [
        (BandKind::Elastic, true),
        (BandKind::Pearl, true),
        (BandKind::RibbonTie, false),
        (BandKind::Metal, false),
        (BandKind::Rhinestone, true),
        (BandKind::Slap, true),
    ] {
        let band = shop.stock.band_for(kind, 150.0).unwrap();
        assert_eq!(stop_band(&spared, &band.id, &shop.stock).is_some(), is_stopped, "{}", band.name);
        assert!(stop_band(&order, &band.id, &shop.stock).is_none(), "{}", band.name);
    }
    let kinds: Vec<BandKind> = variation_choices(&spared, &shop.stock).bands.iter().map(|choice| choice.what).collect();
    assert_eq!(kinds, [BandKind::RibbonTie, BandKind::Metal]);
}

/// Mothers' pair: 150 and 178 mm allow 60.0 and 71.2 mm.
#[test]
fn each_wrist_allows_four_tenths_of_its_girth() {
    let style = built_in_style();
    for (girth, limit) in [(150.0, 60.0), (178.0, 71.2), (135.0, 54.0)] {
        assert!((style.width_limit_mm(girth) - limit).abs() < 1e-9);
    }
}

#[test]
fn nothing_that_grips_leaves_the_ribbon_tie() {
    let shop = Shop::open();
    let order = shop.change(&shop.sample("02-"), &[Change::NoSnugBand(true)]);
    assert_eq!(stopped(&order, &shop.stock)[0].instead, [StockId::new("ribbon-tie")]);
    assert_eq!(shop.yes_to_all(&order).piece.band, Some(StockId::new("ribbon-tie")));
}
