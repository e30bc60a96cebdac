//! What the window without a screen says and keeps: names, keys, closing, remedies.

use crate::app::action::{Action, Notice};
use crate::app::dialogs::{Dialog, NextStep};
use crate::app::page_list::PageId;
use crate::app::pages::Pages;
use crate::app::sheet::layouts::SearchStage;
use crate::app::tests::dark::{Dark, dark_in};
use crate::app::typing::field::Field;
use crate::piece::PartId;
use crate::sheet::SheetInput;

#[test]
fn every_bloom_is_a_node_with_a_name() {
    let mut dark = Dark::showing("03-full");
    let seen = dark.seen();
    for name in ["Spray rose 1", "Spray rose 7", "Waxflower 3", "Italian ruscus 8", "Wrist", "Save"] {
        assert!(seen.names.iter().any(|n| n == name), "{name} is not among {:?}", seen.names);
    }
}

#[test]
fn no_word_of_the_window_blames() {
    for page in [PageId::Sheet].iter().chain(Pages::ALL).copied() {
        let mut dark = Dark::showing("04-too-wide");
        dark.do_action(Action::Show(page));
        dark.do_action(Action::WristSize("nonsense".to_owned()));
        for help in [false, true] {
            if help {
                dark.do_action(Action::ShowHelp);
            }
            for text in dark.seen().texts {
                let lower = text.to_lowercase();
                for word in ["error", "invalid", " user", "fail", "text editor"] {
                    assert!(!lower.contains(word), "{text}");
                }
            }
        }
    }
}

#[test]
fn a_tiny_window_with_a_chosen_bloom_still_paints() {
    let mut dark = Dark::showing("03-full");
    dark.do_action(Action::Sheet(SheetInput::SelectAll));
    for (width, height) in [(1366.0, 740.0), (500.0, 400.0), (320.0, 240.0), (90.0, 60.0)] {
        let size = egui::Rect::from_min_size(egui::Pos2::ZERO, egui::vec2(width, height));
        let input = egui::RawInput { screen_rect: Some(size), ..Default::default() };
        let mut out = dark.ctx.clone().run_ui(input, |ui| dark.window.frame(ui));
        out.textures_delta.clear();
    }
}

#[test]
fn a_key_in_a_field_is_for_the_field_alone() {
    let mut dark = Dark::showing("06-empty");
    dark.seen();
    dark.press(egui::Key::Num1);
    dark.seen();
    dark.press(egui::Key::W);
    dark.seen();
    dark.write("Mb1");
    dark.press(egui::Key::Enter);
    assert_eq!((dark.n_parts(), dark.window.session.order().wearer.ends_with("Mb1")), (0, true));
    dark.do_action(Action::Pick(crate::stock::StockId::new("spray-rose")));
    dark.seen();
    dark.press(egui::Key::Enter);
    assert_eq!(dark.n_parts(), 1, "on the sheet Enter puts down what is in the hand");
}

#[test]
fn arrows_move_a_bloom_and_leave_the_focus_where_it_is() {
    let mut dark = Dark::showing("03-full");
    dark.seen();
    dark.tap("Spray rose 3");
    let id = dark.window.sheet.hand.selected[0];
    let (focus, at) = (dark.focused, dark.window.session.order().piece.part(id).unwrap().centre);
    assert!(focus.is_some(), "a tap gives the sheet the keyboard");
    for _ in 0..3 {
        dark.press(egui::Key::ArrowRight);
    }
    let now = dark.window.session.order().piece.part(id).unwrap().centre;
    assert!((now.y - at.y - 3.0).abs() < 1e-9 && now.x == at.x, "{at:?} {now:?}");
    assert_eq!(dark.focused, focus);
}

#[test]
fn a_key_held_down_is_one_step_and_pressed_again_another() {
    let mut dark = Dark::showing("03-full");
    dark.do_action(Action::Sheet(SheetInput::Select(vec![PartId(3)])));
    let turn = |dark: &Dark| dark.window.session.order().piece.part(PartId(3)).unwrap().turn_rad;
    let began = turn(&dark);
    let n_steps = |dark: &Dark| ((turn(dark) - began) / crate::sheet::TURN_STEP_RAD).rem_euclid(24.0).round();
    dark.hold(egui::Key::R, 4);
    dark.hold(egui::Key::R, 2);
    assert_eq!(n_steps(&dark), 6.0);
    dark.do_action(Action::Undo);
    assert_eq!(n_steps(&dark), 4.0);
    dark.do_action(Action::Undo);
    assert_eq!(turn(&dark), began);
}

#[test]
fn a_card_steps_aside_once_something_else_is_done() {
    let mut dark = Dark::showing("03-full");
    dark.do_action(Action::WristSize("1.55".to_owned()));
    assert!(matches!(&dark.window.notice, Some(Notice::Card { offer: Some(_), .. })));
    dark.do_action(Action::PointAt(None));
    assert!(dark.window.notice.is_some(), "looking is not doing");
    dark.do_action(Action::Undo);
    assert_eq!(dark.window.notice, None);
}

#[test]
fn a_copy_is_kept_where_the_order_itself_could_not_be() {
    let folder = tempfile::tempdir().unwrap();
    let (mut dark, file) = dark_in(folder.path(), "03-full");
    dark.do_action(Action::Write(Field::Wearer, "Beatrix the Second".to_owned()));
    let elsewhere = "// changed by something else";
    std::fs::write(&file, elsewhere).unwrap();
    dark.do_action(Action::Save);
    let Some(Notice::Card { offer: Some((label, action)), .. }) = dark.window.notice.clone() else {
        panic!("no copy is offered: {:?}", dark.window.notice)
    };
    assert_eq!(*action, Action::SaveCopy);
    dark.tap(&label);
    assert!(dark.window.session.is_saved(), "{:?}", dark.window.notice);
    let copy = dark.window.session.path().unwrap().to_owned();
    assert_ne!(copy, file);
    assert!(std::fs::read_to_string(copy).unwrap().contains("Beatrix the Second"));
    assert_eq!(std::fs::read_to_string(file).unwrap(), elsewhere);
}

#[test]
fn a_shop_that_cannot_be_read_still_opens_a_window_that_says_so() {
    for text in [None, Some("(version: 1, name: \"half")] {
        let folder = tempfile::tempdir().unwrap();
        if let Some(text) = text {
            std::fs::write(folder.path().join("shop.ron"), text).unwrap();
        }
        let opening = crate::app::Opening { shop: Some(folder.path().to_owned()), ..crate::app::Opening::default() };
        let crate::app::opening::Opened { shop, session, said, .. } =
            crate::app::opening::lay_out(&opening, folder.path());
        assert!(!said.is_empty(), "{text:?}");
        let mut dark = Dark::of(shop, session, &said);
        let seen = dark.seen();
        assert!(seen.texts.iter().any(|t| t.contains(said[0].as_str())), "{said:?} is not shown");
        dark.tap("OK");
        dark.do_action(Action::Pick(crate::stock::StockId::new("spray-rose")));
        dark.do_action(Action::Sheet(SheetInput::PutDownHere));
        assert_eq!((dark.n_parts(), &dark.window.notice), (1, &None));
        let left = std::fs::read_to_string(folder.path().join("shop.ron")).ok();
        assert_eq!(left.as_deref(), text, "a damaged file is left as it is");
    }
}

#[test]
fn closing_with_the_caret_in_the_name_asks_about_what_was_typed() {
    let mut dark = Dark::showing("06-empty");
    dark.seen();
    dark.press(egui::Key::W);
    dark.seen();
    dark.write("Zoe");
    let mut input = egui::RawInput::default();
    input.viewports.entry(egui::ViewportId::ROOT).or_default().events.push(egui::ViewportEvent::Close);
    dark.frame_of(input);
    assert_eq!(dark.window.dialog, Dialog::Leave(NextStep::Close));
    assert!(dark.window.session.order().wearer.ends_with("Zoe"));
    assert!(!dark.window.may_close);
}

#[test]
fn a_left_handed_wearer_is_asked_about_the_other_wrist_and_nothing_is_done_before_a_yes() {
    let mut dark = Dark::showing("03-full");
    let side = dark.window.session.order().wrist.side;
    dark.do_action(Action::Show(PageId::Order));
    dark.tap(if side == crate::piece::Side::Left { "Left-handed" } else { "Right-handed" });
    assert_eq!(dark.window.session.order().wrist.side, side);
    assert!(dark.seen().texts.iter().any(|t| t == "Order (1)"));
    dark.tap("Not now");
    assert!(dark.seen().texts.iter().any(|t| t == "Order"), "a question that was left is not asked again");
    dark.window.pages.Order = crate::app::pages::order::OrderPage::default();
    dark.tap("Yes, do it");
    assert_eq!(dark.window.session.order().wrist.side, side.other());
}

#[test]
fn what_the_wearer_does_not_bear_does_not_come_into_the_hand() {
    let mut dark = Dark::showing("06-empty");
    dark.do_action(Action::change(crate::book::Change::Allergies(Some(vec!["spray rose".to_owned()]))));
    dark.do_action(Action::Pick(crate::stock::StockId::new("spray-rose")));
    assert_eq!(dark.window.sheet.hand.held, crate::sheet::Held::Nothing);
    assert!(matches!(&dark.window.notice, Some(Notice::Card { words, .. }) if words.contains("ALLERGY: Spray rose")));
}

#[test]
fn esc_leads_from_a_page_back_to_the_sheet_and_a_key_opens_it() {
    let mut dark = Dark::showing("03-full");
    dark.seen();
    let pages = [
        (egui::Key::Q, PageId::Order),
        (egui::Key::C, PageId::Sizes),
        (egui::Key::J, PageId::Variations),
        (egui::Key::I, PageId::Price),
        (egui::Key::Y, PageId::Style),
        (egui::Key::D, PageId::Colour),
    ];
    for (key, page) in pages {
        dark.press(key);
        assert_eq!(dark.window.page, page);
        let parts = dark.n_parts();
        dark.press(egui::Key::Delete);
        dark.press(egui::Key::Escape);
        assert_eq!((dark.window.page, dark.n_parts()), (PageId::Sheet, parts));
    }
}

#[test]
fn a_crowded_layout_that_was_taken_comes_with_what_would_help() {
    let mut dark = Dark::showing("02-classic");
    let short = crate::piece::Footprint { length_mm: 62.0, ..dark.window.session.order().piece.footprint };
    dark.do_action(Action::edit(crate::piece::Edit::Reshape(short)));
    let take_first = |dark: &mut Dark| {
        dark.seen();
        dark.tap("Arrange for me");
        dark.wait_for_layouts();
        dark.press(egui::Key::Num1);
    };
    take_first(&mut dark);
    let Some(Notice::Crowded { words, ways }) = dark.window.notice.clone() else {
        panic!("nothing helps: {:?}", dark.window.notice);
    };
    assert!(words.contains("need an oval"), "{words}");
    let before = dark.window.session.order().piece.clone();
    dark.tap(&ways[0].label);
    let after = dark.window.session.order().piece.clone();
    assert_eq!(after, before.apply(&ways[0].edit).unwrap());
    assert!(dark.window.sheet.layouts.is_some() && dark.window.notice.is_none(), "set out again");
    // A client sees no such card.
    let mut hers = Dark::showing("02-classic");
    hers.do_action(Action::edit(crate::piece::Edit::Reshape(short)));
    hers.press(egui::Key::P);
    hers.wait_for_layouts();
    hers.do_action(Action::SwitchView);
    let before = hers.window.session.order().piece.clone();
    hers.press(egui::Key::Num1);
    assert_ne!(hers.window.session.order().piece, before, "it is taken");
    assert!(!matches!(hers.window.notice, Some(Notice::Crowded { .. })));
}

#[test]
fn in_the_panel_of_layouts_x_stops_the_search_and_adds_nothing() {
    let mut dark = Dark::showing("05-bare-spots");
    dark.seen();
    dark.press(egui::Key::P);
    dark.press(egui::Key::X);
    assert!(dark.window.sheet.layouts.is_some() && dark.window.session.order().partner_piece.is_none());
    assert!(dark.window.sheet.layouts.as_ref().is_some_and(|o| o.stage == SearchStage::Stopped));
    dark.press(egui::Key::Escape);
    dark.press(egui::Key::X);
    assert!(dark.window.session.order().partner_piece.is_some(), "on the sheet it makes one to match");
}
