//! A piece that holds what its wearer must not get says so first, on every paper and on standard error of every command; nothing
//! that is stopped is ever proposed; what a piece is made without is said only where it is true.

use std::fs;
use std::process::{Command, Output};

use crate::support::paper_shop::{ALL_DOCUMENTS, FOR_THE_CLIENT, Shop};
use posywright::book::{
    BodyNeeds, Change, NeedChange, Order, Overruled, WearerKind, matching_boutonniere, stopped, suggestions,
};
use posywright::export::pdf::{LabelRun, LabelSheet, bench_card, client_page, labels};
use posywright::once_over::{Remedy, Subject};
use posywright::paperwork::{sizes_side_by_side, stem_list};
use posywright::piece::{Edit, Worn};
use posywright::session::Derived;
use posywright::stock::{Caution, StockId};
use posywright::store::{built_in_stock, built_in_style, order_from_text, order_to_text};

/// Baby's breath and an elastic band for somebody who bears neither; the boutonniere's rose for somebody who bears no roses.
const MARA: &str = r#"(version: 3, wearer: "Mara", partner: "Emil", dance: "Lantern Ball", kind: adult,
    allergies: ["gypsophila", "rubber"], size: "Classic", partner_needs: (allergies: ["roses"]), partner_notes: "Right lapel.",
    notes: "Low on the wrist.",
    piece: (oval: (length: 90, width: 54, offset: 50), band: "elastic-medium",
        parts: [(stock: "mini-carnation", at: (10, 0)), (stock: "mini-carnation", at: (-14, 8)), (stock: "babys-breath", at: (-12, -10)),
            (stock: "italian-ruscus", at: (34, -12))]),
    partner_piece: (worn: lapel, oval: (length: 60, width: 34), parts: [(stock: "spray-rose", at: (9, 0))]))"#;

const HER_FLOWER: &str = "ALLERGY: Baby's breath (\u{201c}gypsophila\u{201d} is on the list).";
const HER_BAND: &str = "ALLERGY: Elastic band, medium (\u{201c}rubber\u{201d} is on the list).";
const HIS_FLOWER: &str = "Boutonniere: ALLERGY: Spray rose (\u{201c}roses\u{201d} is on the list).";

fn mara(shop: &Shop) -> Order {
    order_from_text(MARA, "mara.ron", &shop.stock).unwrap()
}

fn changed(shop: &Shop, order: &Order, changes: Vec<Change>) -> Order {
    order.apply(&Change::Together(changes), &shop.stock).unwrap()
}

#[test]
fn every_paper_says_first_what_is_stopped() {
    let shop = Shop::built_in();
    let order = shop.settled(&mara(&shop));
    for make in ALL_DOCUMENTS {
        let paper = shop.paper(&order, make);
        let said = paper.text().replace('\n', " ");
        for line in [HER_FLOWER, HER_BAND] {
            assert!(said.contains(line), "{}: {line}\n{said}", paper.title());
        }
        let line = paper.find(HER_FLOWER).unwrap();
        assert!(line.sheet == 0 && line.size_mm >= 3.5, "{}", paper.title());
    }
    for make in FOR_THE_CLIENT {
        let paper = shop.paper(&order, *make);
        let said = paper.text().replace('\n', " ");
        // A care slip is one wearer's alone.
        assert_eq!(said.contains(HIS_FLOWER), !paper.title().contains("Care slip"), "{said}");
        assert!(!said.contains("Made without"), "{said}");
        assert!(!said.contains("Low on the wrist") && !said.contains("Right lapel"), "notes are the bench's: {said}");
    }
}

/// The box of each piece says what its own wearer must not get, and nothing of the other's.
#[test]
fn the_label_on_each_box_says_it() {
    let shop = Shop::built_in();
    let order = mara(&shop);
    let run = LabelRun {
        sheet: LabelSheet::LETTER_30,
        first: 1,
        with_balance: false,
        stock: &shop.stock,
        style: &shop.style,
        written: shop.written,
    };
    let on_boxes = |order: &Order| labels(&[order], &run).unwrap().text().replace('\n', " ");
    let both = on_boxes(&order);
    for words in ["ALLERGY: gypsophila and rubber.", "ALLERGY: roses."] {
        assert!(both.contains(words), "{words}: {both}");
    }
    let his = on_boxes(&order.boutonniere().unwrap());
    assert!(his.contains("roses") && !his.contains("gypsophila") && !his.contains("rubber"), "{his}");
    let body = BodyNeeds { has_implant: true, no_scent: true, ..BodyNeeds::default() };
    let told = on_boxes(&changed(&shop, &order, vec![Change::Need(NeedChange::Body(body))]));
    assert!(told.contains("PACEMAKER: NO MAGNET.") && told.contains("NO SCENT."), "{told}");
}

/// Her note and her allergy never stand on his card, nor his on hers.
#[test]
fn the_cards_of_the_two_wearers_are_kept_apart() {
    let shop = Shop::built_in();
    let order = mara(&shop);
    let hers = shop.paper(&order, bench_card).text().replace('\n', " ");
    let his = shop.paper(&order.boutonniere().unwrap(), bench_card).text().replace('\n', " ");
    assert!(hers.contains("Low on the wrist.") && hers.contains(HER_FLOWER), "{hers}");
    assert!(!hers.contains("Right lapel.") && !hers.contains("roses"), "{hers}");
    assert!(his.contains("Right lapel.") && his.contains("ALLERGY: Spray rose"), "{his}");
    assert!(!his.contains("Low on the wrist") && !his.contains("gypsophila") && !his.contains("rubber"), "{his}");
}

#[test]
fn made_without_is_said_only_where_it_is_true() {
    let shop = Shop::built_in();
    let order = mara(&shop);
    let swap = |order: &Order| {
        let first = suggestions(order, &shop.style, &shop.stock).into_iter().next();
        first.map(|yes| changed(&shop, order, vec![yes.change]))
    };
    let mended = std::iter::successors(Some(order), swap).take(12).last().unwrap();
    assert!(stopped(&mended, &shop.stock).is_empty(), "{:?}", stopped(&mended, &shop.stock));
    let said = |order: &Order| shop.paper(order, client_page).text().replace('\n', " ");
    assert!(said(&mended).contains("Made without baby's breath and latex."), "{}", said(&mended));
    // Open words, kinds of harm, and an empty sketch promise nothing.
    for (typed, promises) in [("gypsophila, penicillin", false), ("hay fever", false), ("ivy", true)] {
        let things = typed.split(", ").map(str::to_owned).collect();
        let order = changed(&shop, &mended, vec![Change::Allergies(Some(things))]);
        assert_eq!(said(&order).contains("Made without"), promises, "{typed}: {}", said(&order));
    }
}

fn posywright(words: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_posywright")).args(words).env_remove("DISPLAY").output().unwrap()
}

#[test]
fn every_command_warns_on_standard_error() {
    let folder = tempfile::tempdir().unwrap();
    let path = |name: &str| folder.path().join(name).display().to_string();
    fs::write(path("mara.ron"), MARA).unwrap();
    let (file, out, to) = (path("mara.ron"), path("out"), path("after.ron"));
    for words in [
        vec!["once-over", &file],
        vec!["once-over", &file, "--json"],
        vec!["stems", &file],
        vec!["stems", &file, "--csv"],
        vec!["quote", &file],
        vec!["papers", &file, "--into", &out],
        vec!["set-out", &file, "--to", &to, "--for", "5"],
    ] {
        let done = posywright(&words);
        let warned = String::from_utf8(done.stderr).unwrap();
        assert!(done.status.success(), "{words:?}: {warned}");
        for line in [HER_FLOWER, HER_BAND, HIS_FLOWER] {
            assert!(warned.contains(line), "{words:?}: {line}\n{warned}");
        }
    }
    let stems = fs::read_to_string(folder.path().join("out/mara-stems.txt")).unwrap();
    assert!(stems.contains(HER_FLOWER), "{stems}");
}

/// Each size of the house for somebody who does not bear what it is planned with: neither the stem list nor a layout nor a gap
/// that is filled brings it in.
#[test]
fn nothing_stopped_is_ever_proposed() {
    let folder = tempfile::tempdir().unwrap();
    let (stock, style) = (built_in_stock(), built_in_style());
    for (size, typed, ids) in [
        ("Classic", "waxflower", ["waxflower", "myrtle"]),
        ("Classic", "roses", ["spray-rose", "rose"]),
        ("Orchid Classic", "orchids", ["dendrobium", "mini-cymbidium"]),
    ] {
        let text =
            format!("(version: 1, allergies: [\"{typed}\"], size: \"{size}\", piece: (oval: (length: 90, width: 54)))");
        let order = order_from_text(&text, "a.ron", &stock).unwrap();
        let stems = Derived::of(&order, &stock, &style).stems;
        assert!(!stems.lines.is_empty());
        let is_kept_off = |id: &StockId| ids.contains(&id.as_str());
        assert!(stems.lines.iter().all(|line| !is_kept_off(&line.stock)), "{typed}: {:?}", stems.lines);
        let plain = stem_list(&order.piece, style.size(size), &stock, &style);
        assert!(plain.lines.iter().any(|line| is_kept_off(&line.stock)), "{typed}: the size is planned with it");
        let file = folder.path().join("a.ron");
        fs::write(&file, order_to_text(&order)).unwrap();
        let to = folder.path().join("b.ron");
        let done =
            posywright(&["set-out", &file.display().to_string(), "--to", &to.display().to_string(), "--for", "5"]);
        assert!(done.status.success(), "{}", String::from_utf8_lossy(&done.stderr));
        let after = order_from_text(&fs::read_to_string(&to).unwrap(), "b.ron", &stock).unwrap();
        assert!(!after.piece.parts().is_empty());
        assert!(after.piece.parts().iter().all(|part| !is_kept_off(&part.stock)), "{typed}");
        assert!(stopped(&after, &stock).is_empty(), "{typed}");
    }
}

/// A gap is filled with what the piece has; where that is stopped, with something else.
#[test]
fn a_gap_is_not_filled_with_what_is_stopped() {
    let shop = Shop::built_in();
    let order = mara(&shop);
    let stops = posywright::book::WearerStops::of(&order, &shop.stock);
    let stock = &*stops.stock_to_propose();
    let (style, wrist) = (&shop.style, &order.wrist);
    let subject = Subject { piece: &order.piece, stock, style, wrist };
    let gap = posywright::geometry::Disc { centre: posywright::geometry::Point::new(20.0, -14.0), radius: 12.0 };
    let edit = posywright::set_out::fix(subject, &Remedy::FillRoom(gap)).unwrap();
    let Edit::Place(new) = &edit else { panic!("{edit:?}") };
    assert_ne!(new.stock.as_str(), "babys-breath");
    let more = Remedy::OneMore(StockId::new("babys-breath"));
    assert!(posywright::set_out::fix(subject, &more).is_none());
    let freely = Subject { piece: &order.piece, stock: &shop.stock, style, wrist };
    assert!(posywright::set_out::fix(freely, &more).is_some());
}

/// The boutonniere that is made to match takes another flower where its wearer must not get hers.
#[test]
fn the_matching_boutonniere_heeds_its_own_wearer() {
    let shop = Shop::built_in();
    let order = shop.sample("02-classic");
    let match_for = |typed: &str| {
        let his = Change::PartnerNeed(NeedChange::Allergies(Some(vec![typed.to_owned()])));
        let order = changed(&shop, &order, vec![his]);
        let piece = matching_boutonniere(&order, &shop.style, &shop.stock);
        changed(&shop, &order, vec![Change::PartnerPiece(Some(Box::new(piece)))]).boutonniere().unwrap()
    };
    let his = match_for("roses");
    assert!(!his.piece.parts().is_empty() && stopped(&his, &shop.stock).is_empty(), "{:?}", stopped(&his, &shop.stock));
    assert!(match_for("ivy").piece.parts().iter().any(|part| part.stock.as_str() == "spray-rose"));
}

/// Below three: no pins, no cords, no wire; below six nothing poisonous by mouth, with what may stand in; from six on it is asked.
#[test]
fn a_small_child_is_given_nothing_sharp_loose_or_poisonous() {
    let shop = Shop::built_in();
    let order = changed(&shop, &shop.sample("02-classic"), vec![Change::Allergies(Some(Vec::new()))]);
    let with = |order: &Order, id: &str| {
        let botanical = shop.stock.botanical(&StockId::new(id)).unwrap();
        let new = posywright::piece::NewPart::usual(
            botanical,
            botanical.colours[0].name.as_str().into(),
            posywright::geometry::Point::new(4.0, 3.0),
        );
        changed(&shop, order, vec![Change::Piece(Edit::Place(new))])
    };
    let order = with(&order, "ranunculus");
    let aged = |years: u32| changed(&shop, &order, vec![Change::Kind(Some(WearerKind::Child { years }))]);
    let causes = |order: &Order| -> Vec<String> { stopped(order, &shop.stock).into_iter().map(|s| s.cause).collect() };
    assert!(causes(&aged(2)).iter().any(|c| c == "cords"), "{:?}", causes(&aged(2)));
    assert!(causes(&aged(5)).contains(&"poisonous if eaten".to_owned()));
    assert!(!causes(&aged(5)).contains(&"cords".to_owned()));
    let poison = stopped(&aged(5), &shop.stock).into_iter().find(|s| s.cause == "poisonous if eaten").unwrap();
    assert!(!poison.instead.is_empty());
    for id in &poison.instead {
        assert!(!shop.stock.botanical(id).unwrap().cautions.contains(&Caution::PoisonByMouth), "{id}");
    }
    assert!(!causes(&aged(6)).contains(&"poisonous if eaten".to_owned()), "asked, not stopped");
    let asked = suggestions(&aged(6), &shop.style, &shop.stock);
    assert!(asked.iter().any(|s| s.says.starts_with("Ranunculus is poisonous if eaten. Use ")), "{asked:?}");
    let adult = changed(&shop, &order, vec![Change::Kind(Some(WearerKind::Adult))]);
    assert!(suggestions(&adult, &shop.style, &shop.stock).iter().all(|s| !s.says.contains("poisonous")));
    let wired = changed(&shop, &aged(2), vec![Change::Fixing(posywright::piece::Fixing::Wired)]);
    assert!(causes(&wired).iter().any(|c| c == "sharp ends"));
    let pinned = changed(&shop, &aged(2), vec![Change::Worn(Worn::Lapel)]);
    assert!(stopped(&pinned, &shop.stock).iter().any(|s| s.what == posywright::book::What::Pin));
}

/// What is used all the same is said on the paper, as loudly, with the reason.
#[test]
fn an_overruled_stop_stands_on_every_paper_with_its_reason() {
    let shop = Shop::built_in();
    let overruled =
        Overruled { what: "babys-breath".into(), cause: "gypsophila".into(), reason: "hers is made of silk".into() };
    let order = changed(&shop, &mara(&shop), vec![Change::Need(NeedChange::Overrule(overruled))]);
    for make in ALL_DOCUMENTS {
        let said = shop.paper(&shop.settled(&order), make).text().replace('\n', " ");
        assert!(said.contains(&format!("{HER_FLOWER} USED ALL THE SAME: hers is made of silk")), "{said}");
        assert!(!said.contains("Made without"));
    }
    let offers = sizes_side_by_side(&order, &shop.style, &shop.stock);
    assert!(offers.iter().any(|offer| offer.is_present && offer.stopped.contains(&"Baby's breath".to_owned())));
}
