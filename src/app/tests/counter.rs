//! The pages of the counter without a screen: price, yes, boutonniere, another way.

use std::sync::Arc;

use crate::app::action::Action;
use crate::app::page_list::PageId;
use crate::app::tests::dark::{Dark, dark_in, shop_in};
use crate::app::typing::field::Field;
use crate::app::widgets::today::tests::stand_still;
use crate::app::widgets::words::{Counter, Mine};
use crate::book::Change;
use crate::session::{ActivePiece, Session};
use crate::units::Cents;

fn on_page(sample: &str, page: PageId) -> Dark {
    let mut dark = Dark::showing(sample);
    dark.do_action(Action::Show(page));
    dark
}

fn tells(dark: &mut Dark, words: &str) -> bool {
    dark.seen().texts.iter().any(|t| t.contains(words))
}

/// The worked price of a Full is 35.26 and it costs 21.43 (`tests/all/counter.rs` works both by hand).
#[test]
fn a_price_below_the_worked_one_says_by_how_much_on_my_side_alone_and_keeps_its_reason() {
    let mut dark = on_page("03-full", PageId::Price);
    dark.do_action(Action::Write(Field::Asked, "2".to_owned()));
    dark.do_action(Action::Write(Field::Asked, "20".to_owned()));
    dark.do_action(Action::LeaveField(Field::Asked));
    dark.do_action(Action::Write(Field::Reason, "a neighbour".to_owned()));
    dark.do_action(Action::LeaveField(Field::Reason));
    assert!(tells(&mut dark, "$15.26 below the shop price"));
    assert!(tells(&mut dark, "you lose $1.43"));
    let asked = dark.window.session.order().terms.asked.clone().unwrap();
    assert_eq!((asked.price, asked.reason.as_str()), (Cents(2000), "a neighbour"));
    dark.do_action(Action::SwitchView);
    assert!(tells(&mut dark, "$20") && !tells(&mut dark, "a neighbour"));
    assert!(!tells(&mut dark, "Below") && !tells(&mut dark, "below the shop price"));
    dark.do_action(Action::Undo);
    assert_eq!(dark.window.session.order().terms.asked.clone().unwrap().reason, "", "the reason is a step of its own");
    dark.do_action(Action::Undo);
    assert_eq!(dark.window.session.order().terms.asked, None, "one stay in a blank is one step");
}

#[test]
fn the_yes_freezes_and_what_changes_later_stands_beside_it() {
    let mut dark = on_page("02-classic", PageId::Price);
    let before = dark.window.session.order().clone();
    dark.tap(Counter::AGREE);
    let agreed = dark.window.session.order().agreed.clone().unwrap();
    assert_eq!((agreed.price, agreed.order()), (Cents(2700), &*before));
    assert!(tells(&mut dark, Counter::AS_AGREED));
    dark.tap(Counter::RUSH);
    assert!(
        tells(&mut dark, Counter::CHANGED)
            && tells(&mut dark, Counter::NOT_AGREED)
            && tells(&mut dark, "+$7")
            && tells(&mut dark, "$34")
    );
    assert_eq!(dark.window.session.order().agreed.as_deref().map(|a| a.price), Some(Cents(2700)));
    dark.tap(Counter::AGREE_AGAIN);
    assert_eq!(dark.window.session.order().agreed.as_deref().map(|a| a.price), Some(Cents(3400)));
    dark.tap(Mine::TAKE_BACK);
    assert_eq!(dark.window.session.order().agreed, None);
    for _ in 0..4 {
        dark.do_action(Action::Undo);
    }
    assert_eq!(*dark.window.session.order(), before, "four steps, four times back");
}

#[test]
fn the_day_of_the_yes_can_be_put_right_by_a_day_and_no_more() {
    let mut dark = on_page("02-classic", PageId::Price);
    let today = stand_still();
    for _ in 0..3 {
        dark.tap(Mine::EARLIER);
    }
    dark.tap(Counter::AGREE);
    assert_eq!(dark.window.session.order().agreed.as_ref().unwrap().on, today.plus(-1).unwrap());
}

#[test]
fn nobody_says_yes_to_an_empty_oval() {
    let mut dark = on_page("06-empty", PageId::Price);
    let label = [Counter::AGREE, Counter::AGREE_ANYWAY].into_iter().find(|l| dark.seen().names.iter().any(|n| n == l));
    dark.tap(label.unwrap());
    assert!(tells(&mut dark, Counter::NOTHING_YET));
    assert_eq!(dark.window.session.order().agreed, None);
}

#[test]
fn a_day_that_is_past_is_told_until_there_was_a_yes() {
    let mut dark = on_page("02-classic", PageId::Order);
    let today = stand_still();
    let past = |dark: &mut Dark| dark.seen().texts.iter().any(|t| t.ends_with("is past."));
    let on = |dark: &mut Dark, day: &str| dark.do_action(Action::change(Change::Wanted(crate::book::When::typed(day))));
    on(&mut dark, "2020-02-29");
    assert!(past(&mut dark));
    on(&mut dark, &today.to_string());
    assert!(!past(&mut dark), "today is not past");
    on(&mut dark, "2020-02-29");
    dark.do_action(Action::Show(PageId::Price));
    dark.tap(Counter::AGREE);
    dark.do_action(Action::Show(PageId::Order));
    assert!(!past(&mut dark), "an order of long ago");
}

#[test]
fn an_extra_is_written_added_and_left_out_again() {
    let mut dark = on_page("02-classic", PageId::Price);
    dark.tap(Field::ExtraName.name());
    dark.write("Hair comb");
    dark.tap(Field::ExtraPrice.name());
    dark.write("6.50");
    dark.tap(Counter::ADD);
    let extras = dark.window.session.order().terms.extras.clone();
    assert_eq!((extras.len(), extras[0].name.as_str(), extras[0].price), (1, "Hair comb", Cents(650)));
    assert!(tells(&mut dark, "$33.50"));
    dark.tap(&Counter::remove("Hair comb"));
    assert!(dark.window.session.order().terms.extras.is_empty());
    dark.do_action(Action::Undo);
    assert_eq!(dark.window.session.order().terms.extras, extras);
}

#[test]
fn an_extra_whose_price_cannot_be_read_says_so_and_nothing_is_added() {
    let mut dark = on_page("02-classic", PageId::Price);
    dark.tap(Field::ExtraName.name());
    dark.write("Hair comb");
    dark.tap(Field::ExtraPrice.name());
    dark.write("6.5o");
    assert!(tells(&mut dark, Mine::AMOUNT), "how it is written stands below the field");
    dark.tap(Counter::ADD);
    assert!(dark.window.session.order().terms.extras.is_empty());
    assert!(tells(&mut dark, "6.5o") && tells(&mut dark, "Nothing was changed."));
}

#[test]
fn payments_are_added_in_their_way_go_back_and_are_taken_off() {
    let mut dark = on_page("02-classic", PageId::Price);
    let today = stand_still();
    dark.tap(Mine::CASH);
    assert!(dark.window.session.order().terms.payments.is_empty() && tells(&mut dark, Counter::NO_AMOUNT));
    dark.tap("$13.50");
    dark.tap(Mine::CASH);
    dark.tap(Field::PaymentSum.name());
    dark.write("5");
    dark.tap(Mine::REFUND);
    dark.tap(Mine::CARD);
    let payments = dark.window.session.order().terms.payments.clone();
    let told: Vec<(i64, &str)> = payments.iter().map(|p| (p.sum.0, p.way.words())).collect();
    assert_eq!(told, [(1350, "cash"), (-500, "card")]);
    assert!(payments.iter().all(|p| p.on == Some(today)));
    // 27 less 13.50 and 5 that went back.
    assert!(tells(&mut dark, Counter::DUE) && tells(&mut dark, "$18.50"));
    dark.tap(&Counter::remove(&crate::paperwork::payment_words(&payments[1], dark.window.shop.written().date)));
    assert_eq!(dark.window.session.order().terms.payments, payments[..1]);
    dark.do_action(Action::Undo);
    assert_eq!(dark.window.session.order().terms.payments, payments);
}

#[test]
fn the_boutonniere_has_a_sheet_of_its_own_one_press_away_and_back() {
    let mut dark = Dark::showing("02-classic");
    let hers = dark.window.session.order().piece.clone();
    dark.tap(Counter::MATCH);
    let made = dark.window.session.order().partner_piece.clone().unwrap();
    dark.press(egui::Key::X);
    assert_eq!((dark.window.session.active_piece(), dark.window.session.piece()), (ActivePiece::Boutonniere, &made));
    assert!(dark.seen().names.iter().any(|n| n == "Spray rose 1"));
    dark.press(egui::Key::N);
    dark.press(egui::Key::Delete);
    let order = dark.window.session.order().clone();
    assert_eq!(order.partner_piece.as_ref().unwrap().parts().len(), made.parts().len() - 1);
    assert_eq!(order.piece, hers, "the wrist piece is left alone");
    dark.tap(Counter::edit(ActivePiece::Wrist));
    assert_eq!((dark.window.session.active_piece(), dark.window.session.piece()), (ActivePiece::Wrist, &hers));
    dark.do_action(Action::Undo);
    assert_eq!(dark.window.session.order().partner_piece.as_ref(), Some(&made));
    assert_eq!(dark.window.session.active_piece(), ActivePiece::Boutonniere, "what was undone is seen");
    dark.do_action(Action::Undo);
    assert_eq!((dark.window.session.active_piece(), dark.window.session.piece()), (ActivePiece::Wrist, &hers));
    dark.seen();
}

#[test]
fn another_way_is_seen_before_it_is_taken_and_taken_in_one_step() {
    let mut dark = on_page("02-classic", PageId::Variations);
    let before = dark.window.session.order().clone();
    dark.tap("Metal band, medium");
    dark.tap("Israeli ruscus");
    assert!(tells(
        &mut dark,
        "Metal band, medium instead of Elastic band, medium, Israeli ruscus instead of Italian ruscus, +$"
    ));
    assert_eq!(*dark.window.session.order(), before, "nothing is done by itself");
    dark.tap(Counter::USE_THIS);
    let piece = &dark.window.session.order().piece;
    assert_eq!(piece.band.as_ref().map(|b| b.as_str()), Some("metal-medium"));
    assert!(piece.parts().iter().all(|p| p.stock.as_str() != "italian-ruscus"));
    dark.do_action(Action::Undo);
    assert_eq!(*dark.window.session.order(), before);
}

#[test]
fn what_is_stopped_stands_by_the_sizes_and_by_the_yes() {
    let mut dark = Dark::showing("02-classic");
    dark.do_action(Action::change(Change::NoLatex(true)));
    for page in [PageId::Sizes, PageId::Variations, PageId::Price] {
        dark.do_action(Action::Show(page));
        assert!(tells(&mut dark, "NO LATEX: "), "{page:?}");
    }
    assert!(tells(&mut dark, Counter::AGREE_ANYWAY));
    dark.do_action(Action::Show(PageId::Variations));
    dark.seen();
    let offered = |name: &str| dark.targets.iter().any(|(label, _)| label.starts_with(name));
    assert!(offered("Ribbon tie") && !offered("Pearl band"), "a band that is stopped is not offered");
}

/// 44 points: 9.5 mm (ANSI/HFES 100-2007) on a 14 inch screen of 1366 x 768 is 42.
#[test]
fn every_button_of_the_counter_is_as_large_as_a_fingertip_and_within_the_window() {
    for sample in ["02-classic", "09-showpiece", "11-teal-gown"] {
        for page in [PageId::Sizes, PageId::Variations, PageId::Price] {
            for client in [false, true] {
                let mut dark = on_page(sample, page);
                dark.do_action(Action::change(Change::Rush(true)));
                dark.do_action(Action::Agree);
                dark.window.is_client_view = client;
                dark.seen();
                assert!(dark.targets.len() > 8, "{page:?}");
                for (name, rect) in &dark.targets {
                    assert!(rect.width() >= 43.9 && rect.height() >= 43.9, "{page:?}: {name} is {:?}", rect.size());
                    assert!(rect.min.x >= 0.0 && rect.max.x <= 1366.0, "{page:?}: {name} lies beyond the window");
                }
            }
        }
    }
}

#[test]
fn the_day_of_a_quote_slip_is_kept_with_the_order_and_tells_until_when_the_price_holds() {
    let folder = tempfile::tempdir().unwrap();
    let (mut dark, file) = dark_in(folder.path(), "02-classic");
    dark.do_action(Action::Show(PageId::Price));
    assert!(!tells(&mut dark, "holds until"), "nobody has been told the price yet");
    let day = stand_still();
    dark.tap(Mine::SLIP);
    let until = day.plus(i64::from(dark.window.session.style().prices.holds_days)).unwrap();
    assert_eq!(dark.window.session.order().terms.quoted_on, Some(day));
    assert!(tells(&mut dark, &crate::paperwork::holds_words(until, crate::book::DateStyle::default())));
    let written = std::fs::read_to_string(&file).unwrap();
    assert!(dark.window.session.is_saved() && written.contains(&format!("quoted_on: \"{day}\"")), "{written}");
    let slips = |ending: &str| {
        let files = std::fs::read_dir(folder.path().join("papers")).unwrap().flatten();
        files.filter(|f| f.file_name().to_string_lossy().ends_with(ending)).count()
    };
    assert_eq!((slips(".pdf"), slips(".png")), (1, 1));
    dark.tap(Mine::SLIP);
    assert_eq!((slips(".pdf"), slips(".png")), (2, 2), "the slip before is not written over");
    dark.do_action(Action::Undo);
    assert_eq!(dark.window.session.order().terms.quoted_on, None);
}

#[test]
fn without_a_folder_there_is_no_slip_and_no_day_of_one() {
    let mut dark = on_page("02-classic", PageId::Price);
    dark.tap(Mine::SLIP);
    assert_eq!(dark.window.session.order().terms.quoted_on, None);
    assert!(dark.window.notice.is_some(), "it says why");
}

#[test]
fn orders_bought_together_tell_stems_and_price_on_my_side_alone() {
    let folder = tempfile::tempdir().unwrap();
    let shop = shop_in(folder.path());
    let text = std::fs::read_to_string(folder.path().join("orders/02-classic.ron")).unwrap();
    std::fs::write(folder.path().join("orders/00-other.ron"), text.replace("wearer: \"", "wearer: \"Solveig "))
        .unwrap();
    let file = folder.path().join("orders/02-classic.ron");
    let (session, _) = Session::open(&file, Arc::clone(shop.stock()), Arc::clone(shop.style())).unwrap();
    let mut dark = Dark::of(shop, session, &[]);
    dark.tap(Mine::WITH_OTHERS);
    assert!(tells(&mut dark, Mine::CHOOSE_ORDERS));
    let row = dark.targets.iter().find(|(name, _)| name.starts_with("Solveig")).map(|(name, _)| name.clone()).unwrap();
    dark.tap(&row);
    assert!(tells(&mut dark, "10 spray roses, white") && tells(&mut dark, "3 stems"));
    assert!(tells(&mut dark, &Mine::how_joined(&[5, 5], 11, 4)) && tells(&mut dark, "Together $54"));
    dark.tap(&row);
    assert!(tells(&mut dark, Mine::CHOOSE_ORDERS), "left out again");
    dark.tap("Close");
    dark.do_action(Action::SwitchView);
    dark.do_action(Action::ShowSharedStems);
    assert!(!tells(&mut dark, Mine::TOGETHER));
}
