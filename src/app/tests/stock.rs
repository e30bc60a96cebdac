//! The stock page without a screen: the table, a line of it, a flower of her own, a supplier's list, and what reaches the disk.

use std::path::Path;
use std::sync::Arc;

use crate::app::action::{Action, Notice, StockRequest};
use crate::app::page_list::PageId;
use crate::app::pages::PageAction;
use crate::app::pages::stock::StockAction;
use crate::app::pages::stock::importing::ImportAction;
use crate::app::shell::file_dialogs::FileQuestion;
use crate::app::tests::dark::{Dark, shop_in};
use crate::session::Session;
use crate::stock::{Form, NewFlower, StockChange, StockColumn, StockField, StockId, StockKey, StockKind, StockList};
use crate::store::Shop;
use crate::units::Cents;

/// The stock page of a shop in this folder, with the Classic of the demo in front.
fn stock_in(folder: &Path) -> Dark {
    let shop = shop_in(folder);
    let file = folder.join("orders/02-classic.ron");
    let (session, _) = Session::open(&file, Arc::clone(shop.stock()), Arc::clone(shop.style())).unwrap();
    let mut dark = Dark::of(shop, session, &[]);
    dark.do_action(Action::Show(PageId::Stock));
    dark
}

fn flower(id: &str) -> StockKey {
    StockKey { list: StockList::Botanicals, id: StockId::new(id) }
}

impl Dark {
    fn on_stock(&mut self, action: StockAction) {
        self.do_action(PageAction::Stock(action));
        self.seen();
    }

    fn types(&mut self, field: StockField, words: &str) {
        self.on_stock(StockAction::Write(field, words.to_owned()));
        self.on_stock(StockAction::Leave);
    }

    /// What a bunch costs in the window.
    fn cost(&self, id: &str) -> Cents {
        self.window.session.stock().item(&flower(id)).unwrap().cost()
    }

    fn said(&self) -> String {
        match &self.window.notice {
            Some(Notice::Card { words, .. } | Notice::Done(words)) => words.clone(),
            Some(Notice::Crowded { .. }) | None => String::new(),
        }
    }
}

/// The list that a window would open with.
fn on_disk(folder: &Path) -> Shop {
    let shop = Shop::open(folder).unwrap();
    assert_eq!(shop.warnings(), [] as [String; 0]);
    shop
}

#[test]
fn a_cost_that_is_typed_is_in_the_price_at_once_and_on_disk_when_the_field_is_left() {
    let folder = tempfile::tempdir().unwrap();
    let mut dark = stock_in(folder.path());
    let quoted = dark.window.session.quote().house;
    dark.on_stock(StockAction::Open(flower("spray-rose")));
    dark.on_stock(StockAction::Write(StockField::Cost, "36".to_owned()));
    assert_eq!(dark.cost("spray-rose"), Cents(3600));
    assert!(dark.window.session.quote().house > quoted, "dearer roses make a dearer piece");
    assert_ne!(on_disk(folder.path()).stock(), dark.window.session.stock(), "a field that is open is not saved");
    dark.on_stock(StockAction::Leave);
    assert_eq!(on_disk(folder.path()).stock(), dark.window.session.stock());
    dark.do_action(Action::Undo);
    assert_eq!((dark.cost("spray-rose"), dark.window.session.quote().house), (Cents(1800), quoted));
    assert_eq!(on_disk(folder.path()).stock(), dark.window.session.stock(), "undone on disk too");
    dark.do_action(Action::Redo);
    assert_eq!(dark.cost("spray-rose"), Cents(3600));
    assert!(dark.window.session.is_saved(), "no order is touched by the stock list");
}

#[test]
fn what_cannot_be_taken_is_said_and_nothing_is_lost() {
    let folder = tempfile::tempdir().unwrap();
    let mut dark = stock_in(folder.path());
    dark.on_stock(StockAction::Open(flower("spray-rose")));
    for (field, words) in [
        (StockField::Cost, "0"),
        (StockField::Cost, "-4"),
        (StockField::StemsPerBunch, "0"),
        (StockField::Most, "1"),
        (StockField::ColourHex(0), "reddish"),
        (StockField::ColourName(0), "blush"),
    ] {
        let before = Arc::clone(dark.window.session.stock());
        dark.on_stock(StockAction::Write(field, words.to_owned()));
        dark.on_stock(StockAction::Leave);
        assert!(dark.said().ends_with("Nothing was changed."), "{field:?} {words}: {}", dark.said());
        assert_eq!(**dark.window.session.stock(), *before, "{field:?} {words}");
    }
}

#[test]
fn remarks_by_hand_are_announced_and_their_file_is_copied_before_it_is_written() {
    let folder = tempfile::tempdir().unwrap();
    let mut dark = stock_in(folder.path());
    let by_hand = std::fs::read_to_string(folder.path().join("stock.ron")).unwrap();
    assert!(by_hand.contains("//") && dark.seen().says("has remarks by hand"));
    dark.on_stock(StockAction::Change(flower("freesia"), StockChange::Star));
    assert_eq!(std::fs::read_to_string(folder.path().join("stock-by-hand.ron")).unwrap(), by_hand);
    dark.on_stock(StockAction::Change(flower("freesia"), StockChange::Hide));
    assert!(!folder.path().join("stock-by-hand-2.ron").exists(), "copied once");
    let stock = Arc::clone(on_disk(folder.path()).stock());
    assert!(stock.botanical(&StockId::new("freesia")).unwrap().shelf.is_starred);
    assert_eq!(stock.botanical(&StockId::new("dendrobium")).unwrap().bunch, Cents(2000), "her own prices stay");
}

#[test]
fn a_list_that_another_program_changed_is_not_written_over() {
    let folder = tempfile::tempdir().unwrap();
    let mut dark = stock_in(folder.path());
    let file = folder.path().join("stock.ron");
    dark.on_stock(StockAction::Change(flower("freesia"), StockChange::Star));
    std::fs::write(&file, "(version: 1)").unwrap();
    dark.on_stock(StockAction::Change(flower("freesia"), StockChange::Hide));
    assert!(dark.said().contains("Another program has changed stock.ron"), "{}", dark.said());
    assert_eq!(std::fs::read_to_string(&file).unwrap(), "(version: 1)");
    assert!(dark.window.session.stock().botanical(&StockId::new("freesia")).unwrap().shelf.is_hidden);
    // Merged, both are there: the other's new price, and what was hidden here.
    std::fs::write(&file, "(version: 1, botanicals: [(id: \"rose\", bunch: 41)])").unwrap();
    dark.tap("Merge both");
    let stock = Arc::clone(on_disk(folder.path()).stock());
    assert_eq!(stock.botanical(&StockId::new("rose")).unwrap().bunch, Cents(4100));
    assert!(stock.botanical(&StockId::new("freesia")).unwrap().shelf.is_hidden);
    assert_eq!(&stock, dark.window.session.stock());
}

#[test]
fn hidden_goods_leave_the_tray_and_stay_in_the_piece_and_starred_ones_come_first() {
    let folder = tempfile::tempdir().unwrap();
    let mut dark = stock_in(folder.path());
    let n = dark.n_parts();
    dark.on_stock(StockAction::Change(flower("spray-rose"), StockChange::Hide));
    dark.on_stock(StockAction::Change(flower("lisianthus"), StockChange::Star));
    dark.do_action(Action::Show(PageId::Sheet));
    dark.seen();
    let in_tray: Vec<_> = dark.targets.iter().filter(|(name, _)| name.starts_with("Spray rose,")).collect();
    assert!(in_tray.is_empty(), "not in its tray: {in_tray:?}");
    assert_eq!(dark.n_parts(), n);
    let left_of = |words: &str| dark.places(words).iter().map(|(_, rect)| rect.min.x).fold(f32::INFINITY, f32::min);
    assert!(left_of("Lisianthus,") < left_of("Ranunculus,"), "{}", left_of("Lisianthus,"));
}

#[test]
fn nothing_that_an_order_holds_is_taken_off_the_list() {
    let folder = tempfile::tempdir().unwrap();
    let mut dark = stock_in(folder.path());
    let white = StockChange::RemoveColour(0);
    dark.on_stock(StockAction::Change(flower("spray-rose"), white));
    assert!(dark.said().contains("that colour stays"), "{}", dark.said());
    assert_eq!(dark.window.session.stock().botanical(&StockId::new("spray-rose")).unwrap().colours[0].name, "white");
    // A colour that nobody has used goes.
    let colours = |dark: &Dark| dark.window.session.stock().botanical(&StockId::new("anemone")).unwrap().colours.len();
    let before = colours(&dark);
    dark.on_stock(StockAction::Change(flower("anemone"), StockChange::RemoveColour(before - 1)));
    assert_eq!(colours(&dark), before - 1, "{}", dark.said());
}

#[test]
fn a_flower_of_her_own_is_added_used_and_not_removed_while_an_order_holds_it() {
    let folder = tempfile::tempdir().unwrap();
    let mut dark = stock_in(folder.path());
    let new =
        NewFlower { name: "Snapdragon".into(), cost: "14,50".into(), form: Form::Anemone, ..NewFlower::default() };
    dark.on_stock(StockAction::New(Some(NewFlower { cost: "0".into(), ..new.clone() })));
    dark.on_stock(StockAction::AddNew);
    assert!(dark.said().contains("given away"), "{}", dark.said());
    dark.on_stock(StockAction::New(Some(new)));
    dark.on_stock(StockAction::AddNew);
    assert_eq!(dark.cost("snapdragon"), Cents(1450));
    assert!(dark.seen().says("Remove this flower"));
    assert!(on_disk(folder.path()).stock().botanical(&StockId::new("snapdragon")).is_some());
    // In an order that is saved.
    dark.do_action(Action::Show(PageId::Sheet));
    dark.do_action(Action::Pick(StockId::new("snapdragon")));
    dark.do_action(Action::Sheet(crate::sheet::SheetInput::PutDownHere));
    dark.do_action(Action::Save);
    dark.do_action(Action::Show(PageId::Stock));
    for action in [DarkStep::Of(StockAction::Reset(flower("snapdragon"))), DarkStep::Undo] {
        match action {
            DarkStep::Of(action) => dark.on_stock(action),
            DarkStep::Undo => dark.do_action(Action::Undo),
        }
        assert!(dark.said().contains("Hide it instead"), "{}", dark.said());
        assert!(on_disk(folder.path()).stock().botanical(&StockId::new("snapdragon")).is_some());
    }
}

/// A way to take a line off the list.
enum DarkStep {
    Of(StockAction),
    Undo,
}

#[test]
fn a_suppliers_list_is_seen_first_taken_in_one_step_and_undone_in_one() {
    let folder = tempfile::tempdir().unwrap();
    let mut dark = stock_in(folder.path());
    let list = folder.path().join("list.csv");
    // Windows-1252, semicolons, comma decimals; one line of no cost and one of no flower.
    std::fs::write(
        &list,
        b"Artikel;Stk;Preis\r\nSpray rose;10;19,50\r\nFreesia;10;0\r\nCaf\xe9;1;2,00\r\nWaxflower;10;11,00\r\n",
    )
    .unwrap();
    let before = Arc::clone(dark.window.session.stock());
    dark.window.file_dialogs.answer(FileQuestion::PriceList, Some(&list));
    dark.seen();
    let seen = dark.seen();
    assert!(seen.says("2 to change") && seen.says("2 not taken"), "{:?}", seen.texts);
    assert!(seen.says("Spray rose: $18 to $19.50"), "{:?}", seen.names);
    assert_eq!(**dark.window.session.stock(), *before, "nothing is taken before she says so");
    dark.on_stock(StockAction::Import(ImportAction::ShowRefused(true)));
    assert!(
        dark.seen().says("Line 3, Freesia: A cost of 0") && dark.seen().says("Line 4, Caf\u{e9}: Nothing in your list")
    );
    dark.on_stock(StockAction::Import(ImportAction::Take));
    assert_eq!((dark.cost("spray-rose"), dark.cost("waxflower")), (Cents(1950), Cents(1100)));
    assert_eq!(on_disk(folder.path()).stock(), dark.window.session.stock());
    dark.do_action(Action::Undo);
    assert_eq!(**dark.window.session.stock(), *before);
}

#[test]
fn the_list_goes_to_a_file_and_a_workbook_is_refused_with_a_sentence() {
    let folder = tempfile::tempdir().unwrap();
    let mut dark = stock_in(folder.path());
    dark.do_action(Action::Stock(StockRequest::Export(folder.path().join("out"))));
    let text = std::fs::read_to_string(folder.path().join("out.csv")).unwrap();
    assert!(
        text.starts_with("Name,Kind,Cost a bunch") && text.contains("\r\nSpray rose,bloom,18.00,10,4,0.45,"),
        "{text}"
    );
    std::fs::write(folder.path().join("list.csv"), b"PK\x03\x04").unwrap();
    dark.do_action(Action::Stock(StockRequest::ReadPrices(folder.path().join("list.csv"))));
    assert!(dark.said().contains("save it as CSV first"), "{}", dark.said());
}

#[test]
fn search_kinds_columns_and_keys_lead_to_a_line() {
    let folder = tempfile::tempdir().unwrap();
    let mut dark = stock_in(folder.path());
    dark.on_stock(StockAction::Search("RUSC\u{dc}S".to_owned()));
    let rows = |dark: &mut Dark| {
        let names = dark.seen().names;
        names.iter().filter(|n| n.contains(", greenery,") || n.contains(", bloom,")).cloned().collect::<Vec<_>>()
    };
    let found = rows(&mut dark);
    assert!(!found.is_empty() && found.iter().all(|row| row.to_lowercase().contains("ruscus")), "{found:?}");
    dark.on_stock(StockAction::Search(String::new()));
    dark.on_stock(StockAction::Kind(Some(StockKind::Botanical(crate::stock::Role::Leaf))));
    dark.on_stock(StockAction::Sort(StockColumn::Cost));
    assert!(rows(&mut dark).iter().all(|row| row.contains(", greenery,")));
    let ctx = dark.ctx.clone();
    ctx.memory_mut(|m| {
        if let Some(id) = m.focused() {
            m.surrender_focus(id);
        }
    });
    dark.press(egui::Key::ArrowDown);
    dark.press(egui::Key::ArrowDown);
    dark.press(egui::Key::Enter);
    assert!(dark.seen().says("Close this line"));
    dark.press(egui::Key::Slash);
    dark.seen();
    dark.write("ivy");
    assert!(rows(&mut dark).iter().all(|row| row.to_lowercase().contains("ivy")));
}

#[test]
fn every_change_of_a_line_is_a_tap_and_example_prices_are_counted_on_the_price_page() {
    let folder = tempfile::tempdir().unwrap();
    let mut dark = stock_in(folder.path());
    dark.do_action(Action::Show(PageId::Price));
    let counted = |dark: &mut Dark| {
        let texts = dark.seen().texts;
        let line = texts.iter().find(|t| t.contains("example price")).cloned().unwrap_or_default();
        line.split(' ').next().and_then(|n| n.parse::<u32>().ok()).unwrap_or(0)
    };
    let before = counted(&mut dark);
    assert!(before > 0);
    dark.do_action(Action::SwitchView);
    dark.do_action(Action::Show(PageId::Price));
    assert_eq!(counted(&mut dark), 0, "no word of it before a client");
    dark.do_action(Action::SwitchView);
    dark.do_action(Action::Show(PageId::Stock));
    let band = dark.window.session.order().piece.band.clone().unwrap();
    dark.on_stock(StockAction::Open(StockKey { list: StockList::Bands, id: band }));
    dark.tap("Price is right");
    dark.do_action(Action::Show(PageId::Price));
    assert_eq!(counted(&mut dark), before - 1);
    dark.do_action(Action::Show(PageId::Stock));
    dark.on_stock(StockAction::Open(flower("freesia")));
    for name in ["Star", "Hide", "Price is right"] {
        dark.tap(name);
    }
    let stock = Arc::clone(on_disk(folder.path()).stock());
    let shelf = stock.botanical(&StockId::new("freesia")).unwrap().shelf;
    assert!(shelf.is_starred && shelf.is_hidden && !shelf.has_example_price);
}

#[test]
fn a_typed_name_and_supplier_are_one_step_each() {
    let folder = tempfile::tempdir().unwrap();
    let mut dark = stock_in(folder.path());
    dark.on_stock(StockAction::Open(flower("freesia")));
    dark.on_stock(StockAction::Write(StockField::Supplier, "Hol".to_owned()));
    dark.on_stock(StockAction::Write(StockField::Supplier, "Hollin".to_owned()));
    dark.on_stock(StockAction::Leave);
    dark.types(StockField::Name, "Freesia, double");
    let now = |dark: &Dark| {
        let b = dark.window.session.stock().botanical(&StockId::new("freesia")).unwrap().clone();
        (b.name, b.supplier)
    };
    assert_eq!(now(&dark), ("Freesia, double".to_owned(), "Hollin".to_owned()));
    dark.do_action(Action::Undo);
    dark.do_action(Action::Undo);
    assert_eq!(now(&dark).0, "Freesia");
    assert_ne!(now(&dark).1, "Hollin");
    assert_eq!(dark.window.pages.undo_state(PageId::Stock), Some([false, true]));
}
