//! What is asked of anyone once and what it stops; sources of cautions; the boutonniere as the craft builds it; the care slip.

use std::fs;
use std::process::Command;

use serde_json::Value;

use crate::support::paper_shop::{ALL_DOCUMENTS, Shop};
use posywright::book::{
    BodyNeeds, Change, MissingDetail, NeedChange, Order, WearerKind, WearerStops, What, When, matching_boutonniere,
    not_asked_lines, safety_lines, stopped, suggestions,
};
use posywright::export::pdf::{bench_card, care_slip, client_page, template};
use posywright::geometry::{Point, Shape};
use posywright::paperwork::{StemList, care_of, hours_of, stem_list};
use posywright::piece::{Edit, Fixing, LapelHold, LapelWear, Level, NewPart, Piece, STEM_MM, Side, Worn};
use posywright::scene::{Key, PictureOptions, picture};
use posywright::stock::{Botanical, Caution, Keeps, OwnStock, Role, StockId, StockItem};
use posywright::store::{built_in_stock, order_from_text, order_to_text, stock_from_text, stock_to_text};

const VERSION_4: &str = include_str!("../files/order-4-body.ron");

fn changed(shop: &Shop, order: &Order, change: Change) -> Order {
    order.apply(&Change::Together(vec![change]), &shop.stock).unwrap()
}

fn body(shop: &Shop, order: &Order, body: BodyNeeds) -> Order {
    changed(shop, order, Change::Need(NeedChange::Body(body)))
}

/// The Classic with a boutonniere that matches it.
fn with_boutonniere(shop: &Shop) -> Order {
    let order = shop.sample("02-classic");
    let piece = matching_boutonniere(&order, &shop.style, &shop.stock);
    changed(shop, &order, Change::PartnerPiece(Some(Box::new(piece))))
}

fn said(
    shop: &Shop,
    order: &Order,
    make: fn(&posywright::export::PaperJob<'_>) -> posywright::export::pdf::Document,
) -> String {
    shop.paper(order, make).text().replace('\n', " ")
}

/// Every flower, green, trim and sundry of the list names where its cautions were read, or says that nothing was read. How many
/// say so is counted, so that the number only changes when somebody means it: thirteen plants.
#[test]
fn every_caution_has_a_source_or_says_that_none_was_read() {
    let stock = built_in_stock();
    let is_key = |word: &str| word.len() >= 2 && word.chars().next().is_some_and(|c| c.is_ascii_uppercase());
    let has_source = |origin: &str| {
        let keys = origin.split([',', '(', ')', ' ', ';', ':']).filter(|w| !w.is_empty() && *w != "M" && *w != "CP");
        keys.into_iter().any(|w| is_key(w) && w.chars().all(|c| c.is_ascii_alphanumeric() || c == '-'))
    };
    let none: Vec<&str> =
        stock.botanicals().iter().filter(|b| b.origins.cautions == "none read").map(|b| b.id.as_str()).collect();
    assert_eq!(none.len(), 13, "{none:?}");
    for b in stock.botanicals() {
        let (origin, is_none) = (&b.origins.cautions, b.origins.cautions == "none read");
        assert!(is_none || has_source(origin), "{}: {origin}", b.id);
        assert!(!is_none || b.cautions.is_empty(), "{}: a caution of which nothing was read", b.id);
    }
    assert!(stock.sundries().iter().all(|s| !s.origin.is_empty()));
    // Bands: what elastic, beads and metal are made of stands in the remarks of the list and in its sources.
    for key in ["**SP**", "**NI**", "**AD**", "**TB**", "**GL1**"] {
        assert!(include_str!("../../assets/STOCK-SOURCES.md").contains(key), "{key}");
    }
}

/// Nitrile stops tuliposide and vinyl does not (Archives of Dermatology 124:914, 1988). Solvent, hot glue and sap in sunlight are
/// cautions of the bench, with the maker's label.
#[test]
fn the_bench_card_says_which_gloves_and_what_of_the_glue() {
    let shop = Shop::built_in();
    let order = shop.sample("02-classic");
    let put = |order: &Order, id: &str| {
        let b = shop.stock.botanical(&StockId::new(id)).unwrap();
        let new = NewPart::usual(b, b.colours[0].name.as_str().into(), Point::new(3.0, 3.0));
        changed(&shop, order, Change::Piece(Edit::Place(new)))
    };
    let order = ["alstroemeria", "ammi"].into_iter().fold(order, |order, id| put(&order, id));
    let bench = said(&shop, &order, bench_card);
    for words in [
        "nitrile gloves",
        "vinyl does not stop tuliposide",
        "air the room, no flame",
        "maker\u{2019}s label",
        "sunlight",
    ] {
        assert!(bench.contains(words), "{words}: {bench}");
    }
    assert!(!said(&shop, &order, client_page).contains("nitrile"), "gloves are the bench's");
    assert!(Caution::Burn.sentence().contains("cool"));
    let stock = built_in_stock();
    for id in ["alstroemeria", "tulip"] {
        assert!(stock.botanical(&StockId::new(id)).unwrap().cautions.contains(&Caution::Tuliposide), "{id}");
    }
    assert_eq!(Caution::ALL.iter().collect::<std::collections::BTreeSet<_>>().len(), Caution::ALL.len());
    assert!(Caution::ALL.contains(&Caution::Magnet));
}

#[test]
fn what_version_4_added_raises_the_version_and_reads_back() {
    let stock = built_in_stock();
    let order = order_from_text(VERSION_4, "order-4-body.ron", &stock).unwrap();
    assert_eq!(order_from_text(&order_to_text(&order), "again", &stock).unwrap(), order);
    assert!(order_to_text(&order).contains("version: 4"));
    let all = BodyNeeds { is_asked: true, has_implant: true, no_scent: true, worn_already: Some(Side::Left) };
    assert_eq!(order.needs.body, all);
    let his = order.boutonniere().unwrap();
    assert_eq!(his.piece.lapel, LapelWear { side: Side::Right, hold: LapelHold::Magnets });
    assert!(order.piece.is_sprayed && !his.piece.is_sprayed && his.needs.body.has_implant);
    let plain = order_from_text(include_str!("../files/order-1-every-field.ron"), "1", &stock).unwrap();
    assert!(order_to_text(&plain).contains("version: 1"));
    for change in [
        Change::Need(NeedChange::Body(BodyNeeds { is_asked: true, ..BodyNeeds::default() })),
        Change::PartnerNeed(NeedChange::Body(BodyNeeds { has_implant: true, ..BodyNeeds::default() })),
        Change::Piece(Edit::Spray(true)),
        Change::Piece(Edit::Lapel(LapelWear { side: Side::Right, hold: LapelHold::Pins })),
    ] {
        let text = order_to_text(&plain.apply(&change, &stock).unwrap());
        assert!(text.contains("version: 4"), "{change:?}");
    }
}

/// Nobody is assumed to have told anything: until it was asked, order, bench card, client's page and reports say so.
#[test]
fn what_was_not_asked_is_said_until_it_was() {
    let shop = Shop::built_in();
    let order = shop.sample("02-classic");
    assert!(order.missing_details(&shop.stock).contains(&MissingDetail::Body));
    assert!(said(&shop, &order, bench_card).contains("Not asked: pacemaker, scent, watch or bandage, arm to spare."));
    assert!(said(&shop, &order, client_page).contains("Please tell us of a pacemaker"));
    assert_eq!(not_asked_lines(&order).len(), 1);
    let asked = body(&shop, &order, BodyNeeds { is_asked: true, ..BodyNeeds::default() });
    assert!(!asked.missing_details(&shop.stock).contains(&MissingDetail::Body));
    assert!(!said(&shop, &asked, bench_card).contains("Not asked"));
    assert!(!said(&shop, &asked, client_page).contains("Please tell us of"));
    assert!(not_asked_lines(&asked).is_empty());
    // One answer does not stand for the others.
    let scent = body(&shop, &order, BodyNeeds { no_scent: true, ..BodyNeeds::default() });
    assert!(scent.missing_details(&shop.stock).contains(&MissingDetail::Body));
}

/// The magnet stops with a pacemaker, scent stops what is scented, a watch or bandage stops its wrist; each on bench card, client's
/// page, label line and reports, each with what to do instead.
#[test]
fn each_answer_stops_what_it_concerns_on_every_outlet() {
    let shop = Shop::built_in();
    let order = order_from_text(VERSION_4, "order-4-body.ron", &shop.stock).unwrap();
    let lines = safety_lines(&order, &shop.stock);
    let magnet = "Boutonniere: NO MAGNET, pacemaker or implant: pin it. Device maker and doctor decide.";
    let wanted = [
        "NO SCENT: Gardenia is scented.",
        "NO SCENT: Finishing spray is scented.",
        "WATCH OR BANDAGE on this wrist",
        magnet,
    ];
    for words in wanted {
        assert!(lines.iter().any(|line| line.contains(words)), "{words}: {lines:#?}");
    }
    let paid = shop.settled(&order);
    for make in ALL_DOCUMENTS {
        let paper = said(&shop, &paid, make);
        assert!(paper.contains(wanted[0]) && paper.contains(wanted[2]), "{paper}");
    }
    let his = said(&shop, &order.boutonniere().unwrap(), bench_card);
    assert!(his.contains("NO MAGNET") && his.contains("no magnet within 15 cm") && !his.contains("Gardenia"), "{his}");
    let yes = suggestions(&order, &shop.style, &shop.stock);
    let pinned = yes.iter().find(|s| s.says == "Boutonniere: Pin it instead of using a magnet?").unwrap();
    let after = changed(&shop, &order, pinned.change.clone());
    assert!(safety_lines(&after, &shop.stock).iter().all(|line| !line.contains("MAGNET")));
    assert!(yes.iter().any(|s| s.says.contains("move it to the right wrist")), "{yes:?}");
    // Magnets are kept from children too (16 CFR 1262), and pins are allowed from three years on.
    let child = |years| Change::PartnerNeed(NeedChange::Kind(Some(WearerKind::Child { years })));
    let his = |order: &Order| stopped(&order.boutonniere().unwrap(), &shop.stock);
    let plain = changed(&shop, &order, Change::PartnerNeed(NeedChange::Body(BodyNeeds::default())));
    assert!(his(&changed(&shop, &plain, child(9))).iter().any(|s| s.what == What::Magnet));
    assert!(his(&changed(&shop, &plain, child(15))).iter().all(|s| s.what != What::Magnet));
}

#[test]
fn every_report_holds_what_is_stopped_and_what_was_not_asked() {
    let folder = tempfile::tempdir().unwrap();
    let path = |name: &str| folder.path().join(name).display().to_string();
    fs::write(path("a.ron"), VERSION_4).unwrap();
    let (file, to) = (path("a.ron"), path("b.ron"));
    for words in [
        vec!["once-over", &file, "--json"],
        vec!["stems", &file, "--json"],
        vec!["quote", &file, "--json"],
        vec!["set-out", &file, "--to", &to, "--for", "5", "--json"],
    ] {
        let done = Command::new(env!("CARGO_BIN_EXE_posywright")).args(&words).env_remove("DISPLAY").output().unwrap();
        let report: Value = serde_json::from_slice(&done.stdout).unwrap();
        let stops: Vec<&str> = report["stopped"].as_array().unwrap().iter().filter_map(Value::as_str).collect();
        assert!(stops.iter().any(|line| line.contains("Gardenia is scented")), "{words:?}: {stops:?}");
        assert!(stops.iter().any(|line| line.contains("NO MAGNET")), "{words:?}: {stops:?}");
        assert_eq!(report["not_asked"], Value::Array(Vec::new()), "{words:?}");
        let warned = String::from_utf8(done.stderr).unwrap();
        assert!(warned.contains("NO SCENT: Gardenia is scented.") && warned.contains("NO MAGNET"), "{warned}");
    }
}

/// How far a leaf reaches up, and down, along the lapel, mm: from its middle half its length along its own axis.
fn leaf_ends(shape: &Shape) -> (f64, f64) {
    let Shape::Lens(lens) = shape else { panic!("a leaf is long: {shape:?}") };
    let half = lens.length / 2.0 * lens.turn.cos();
    (lens.centre.x - half, lens.centre.x + half)
}

/// Common practice, no source: leaf tips and a third of the foliage above the bloom, sprigs behind and beside it, wired and taped
/// to a stem of 50 to 65 mm, two pins; and the same where hers is of other flowers.
#[test]
fn a_boutonniere_is_built_as_the_craft_builds_it() {
    let shop = Shop::built_in();
    for sample in ["02-classic", "03-full", "01-petite"] {
        let order = shop.sample(sample);
        let piece = matching_boutonniere(&order, &shop.style, &shop.stock);
        let of = |role: Role| piece.parts().iter().filter(move |p| p.role == role);
        let bloom = of(Role::Bloom).next().unwrap();
        let radius = bloom.shape_in(&shop.stock).reach();
        let (top, foot) = (bloom.centre.x + radius, bloom.centre.x - radius);
        assert!(of(Role::Leaf).count() >= 2, "{sample}");
        for leaf in of(Role::Leaf) {
            let (low, high) = leaf_ends(&leaf.shape_in(&shop.stock));
            let above = (high - top) / (high - low);
            assert!((0.25..=0.42).contains(&above), "{sample}: {above:.2} of a leaf is above the bloom");
            assert!(leaf.level == Level::Flat && leaf.level < bloom.level, "{sample}: behind");
        }
        for sprig in of(Role::Filler) {
            assert!(sprig.level < bloom.level && sprig.centre.y.abs() > radius / 2.0, "{sample}: behind and beside");
            assert!(sprig.centre.x > foot, "{sample}: not under the binding point");
        }
        assert_eq!(piece.binding_point(&shop.stock).unwrap(), Point::new(foot, bloom.centre.y));
        let stem = foot - piece.stem_end(&shop.stock).unwrap().x;
        assert!((50.0..=65.0).contains(&stem) && (stem - STEM_MM).abs() < 1e-9, "{stem}");
        assert_eq!((piece.fixing, piece.lapel.side, piece.lapel.hold), (Fixing::Wired, Side::Left, LapelHold::Pins));
        let stems = stem_list(&piece, None, &shop.stock, &shop.style);
        let count = |id: &str| stems.hard.iter().find(|h| h.stock.as_str() == id).map(|h| h.count);
        assert_eq!((count("lapel-pin"), count("stem-tape")), (Some(2), Some(1)), "{:?}", stems.hard);
        assert!(stems.hard.iter().any(|h| h.grams.is_some()), "wire");
    }
}

/// The picture has the stem, and the bow at the binding point; the template and the card say the same in words.
#[test]
fn picture_template_card_and_steps_tell_of_one_boutonniere() {
    let shop = Shop::built_in();
    let order = with_boutonniere(&shop);
    let mut his = order.boutonniere().unwrap();
    his.piece.bow.clone_from(&order.piece.bow);
    assert!(his.piece.bow.is_some());
    let scene = picture(&his.piece, &shop.stock, &his.wrist, &PictureOptions::default());
    let at = his.piece.binding_point(&shop.stock).unwrap();
    let bow = scene.groups.iter().find(|g| g.key == Key::Bow).unwrap();
    assert_eq!(bow.transform * Point::ZERO, at);
    let place = |key: Key| scene.groups.iter().position(|g| g.key == key).unwrap();
    assert!(place(Key::Stem) < place(Key::Bow));
    let stem = scene.groups[place(Key::Stem)].edge_bounds(kurbo::Affine::IDENTITY).unwrap();
    assert!((at.x - stem.x0 - STEM_MM).abs() < 1.0, "{stem:?}");
    let wrist = picture(&order.piece, &shop.stock, &order.wrist, &PictureOptions::default());
    assert!(wrist.groups.iter().all(|g| g.key != Key::Stem));
    assert!(said(&shop, &his, template).contains("wired and taped"));
    let bench = said(&shop, &his, bench_card);
    for words in [
        "LEFT",
        "LAPEL",
        "tips up",
        "a third of each above",
        "behind and beside",
        "binding point",
        "two pins",
        "left lapel",
    ] {
        assert!(bench.contains(words), "{words}: {bench}");
    }
    let right = Edit::Lapel(LapelWear { side: Side::Right, hold: LapelHold::Pins });
    let his = changed(&shop, &his, Change::Piece(right));
    assert!(said(&shop, &his, bench_card).contains("right lapel"));
    let slip = said(&shop, &his, care_slip);
    for words in ["right lapel", "From behind the lapel push a pin", "through the stem", "second pin"] {
        assert!(slip.contains(words), "{words}: {slip}");
    }
}

/// Wire is left out where its wearer must not get it: the stems are taped then, and the list says so.
#[test]
fn a_boutonniere_without_wire_is_taped() {
    let shop = Shop::built_in();
    let order = changed(
        &shop,
        &shop.sample("02-classic"),
        Change::PartnerNeed(NeedChange::Allergies(Some(vec!["wire".into()]))),
    );
    let piece = matching_boutonniere(&order, &shop.style, &shop.stock);
    assert_eq!(piece.fixing, Fixing::Glued);
}

/// A wired wrist piece is built from the tip, with tape and wire on its list; a glued one has neither.
#[test]
fn a_wired_wrist_piece_is_built_from_the_tip_with_tape_and_wire_on_every_list() {
    let shop = Shop::built_in();
    let wired = changed(&shop, &shop.sample("02-classic"), Change::Fixing(Fixing::Wired));
    let list = |piece: &Piece| -> StemList { stem_list(piece, None, &shop.stock, &shop.style) };
    let has = |stems: &StemList, id: &str| stems.hard.iter().any(|h| h.stock.as_str() == id);
    let stems = list(&wired.piece);
    assert!(has(&stems, "stem-tape") && !has(&stems, "cold-glue") && stems.hard.iter().any(|h| h.grams.is_some()));
    assert!(!has(&list(&shop.sample("02-classic").piece), "stem-tape"));
    let bench = said(&shop, &wired, bench_card);
    for words in ["build from the tip down", "one at the tip", "Wire and tape"] {
        assert!(bench.contains(words), "{words}: {bench}");
    }
    let bill = said(&shop, &wired, posywright::export::pdf::bill_of_materials_paper);
    assert!(bill.contains("Stem tape") && bill.contains("Florist wire"), "{bill}");
    // The spray is on the list where the order says so.
    let sprayed = changed(&shop, &wired, Change::Piece(Edit::Spray(true)));
    assert!(has(&list(&sprayed.piece), "finishing-spray"));
    assert!(said(&shop, &sprayed, bench_card).contains("Flammable spray"));
    assert!(said(&shop, &sprayed, client_page).contains("Sprayed to keep it fresh"));
    let no_spray = changed(&shop, &sprayed, Change::Allergies(Some(vec!["hair spray".into()])));
    assert!(stopped(&no_spray, &shop.stock).iter().any(|s| s.name == "Finishing spray"));
}

#[test]
fn the_care_slip_is_made_for_each_wearer_alone() {
    let shop = Shop::built_in();
    let order = with_boutonniere(&shop);
    let order = changed(&shop, &order, Change::Allergies(Some(vec!["gypsophila".into()])));
    let order = changed(&shop, &order, Change::PartnerNeed(NeedChange::Allergies(Some(vec!["roses".into()]))));
    let order = changed(&shop, &order, Change::Wanted(When::typed("9 May 2026, 2 pm")));
    let (hers, his) = (said(&shop, &order, care_slip), said(&shop, &order.boutonniere().unwrap(), care_slip));
    for slip in [&hers, &his] {
        for words in [
            "front of the fridge",
            "closed box",
            "Not beside fruit",
            "No water on",
            "Put it on last",
            "hours once it is out",
            "from memory",
            "If the skin reddens",
            "soap and plenty of water",
            "emergency number",
            "ask a doctor",
        ] {
            assert!(slip.contains(words), "{words}: {slip}");
        }
        assert!(!slip.contains('$'), "no price: {slip}");
    }
    assert!(!hers.contains("roses") && !hers.contains("lapel"), "{hers}");
    assert!(his.contains("ALLERGY: Spray rose") && his.contains("two pins") || his.contains("second pin"), "{his}");
    assert!(!his.contains("gypsophila") && hers.contains("For the left wrist"), "{his}");
    assert_eq!(shop.paper(&order, care_slip).n_sheets(), 1);
    // By the weakest of what is in it.
    let stems = stem_list(&order.piece, None, &shop.stock, &shop.style);
    let (name, hours) = care_of(&stems, &shop.stock).weakest.unwrap();
    let all = stems.lines.iter().filter_map(|l| shop.stock.botanical(&l.stock)).filter(|b| b.role != Role::Trim);
    assert_eq!(Some(hours), all.map(|b| hours_of(b.keeps)).min());
    assert!(hers.contains(&format!("About {hours} hours")) && hers.contains(&name), "{hers}");
    let classes = [Keeps::Poor, Keeps::Fair, Keeps::Good, Keeps::Excellent].map(hours_of);
    assert!(classes.is_sorted() && classes[0] < classes[3]);
    let orchid = shop.stock.botanical(&StockId::new("dendrobium")).unwrap();
    let new = NewPart::usual(orchid, "white".into(), Point::ORIGIN);
    let cold = said(&shop, &changed(&shop, &order, Change::Piece(Edit::Place(new))), care_slip);
    assert!(
        cold.contains("Not in the fridge: Dendrobium suffers below 13") && !cold.contains("front of the fridge"),
        "{cold}"
    );
}

/// The boutonniere's own flower gives way to one in season that its own wearer may have.
#[test]
fn a_boutonnieres_flower_out_of_season_is_swapped_on_the_boutonniere() {
    let shop = Shop::built_in();
    let order = with_boutonniere(&shop);
    let order = changed(&shop, &order, Change::Wanted(When::typed("14 Nov 2026")));
    let peas = shop.stock.botanical(&StockId::new("ranunculus")).unwrap();
    let new = NewPart::usual(peas, peas.colours[0].name.as_str().into(), Point::ORIGIN);
    let order = changed(&shop, &order, Change::PartnerEdit(Edit::Place(new)));
    let order = changed(&shop, &order, Change::PartnerNeed(NeedChange::Allergies(Some(vec!["roses".into()]))));
    let yes = suggestions(&order, &shop.style, &shop.stock);
    let swap = yes.iter().find(|s| s.says.starts_with("Boutonniere: Ranunculus is out of season in November")).unwrap();
    let after = changed(&shop, &order, swap.change.clone()).boutonniere().unwrap();
    assert!(after.piece.parts().iter().all(|p| p.stock.as_str() != "ranunculus"));
    let instead = after.piece.parts().last().unwrap().stock.clone();
    assert!(WearerStops::of(&after, &shop.stock).may_propose(&instead), "{instead}");
    assert_eq!(after.piece.worn, Worn::Lapel);
}

/// A shop's line with a new caution is written as of version 3, and reads back.
#[test]
fn a_line_with_a_new_caution_raises_the_version_of_the_list() {
    let base = built_in_stock();
    let rose = base.botanical(&StockId::new("rose")).unwrap();
    let text = |cautions: Vec<Caution>| {
        let line = StockItem::Botanical(Botanical { cautions, ..rose.clone() }.into());
        stock_to_text(&OwnStock::default().with(line, &base), &base)
    };
    let gloved = text(vec![Caution::Tuliposide]);
    assert!(gloved.contains("version: 3"), "{gloved}");
    let after = stock_from_text(&gloved, "stock.ron", &base).unwrap();
    assert_eq!(after.botanical(&rose.id).unwrap().cautions, [Caution::Tuliposide]);
    assert!(text(vec![Caution::Allergen]).contains("version: 1"));
}
