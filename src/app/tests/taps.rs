//! The tap board without a screen: whatever is written can be tapped, and one stay in a field is one step.

use crate::app::action::Action;
use crate::app::page_list::PageId;
use crate::app::tests::dark::Dark;
use crate::app::typing::field::Field;
use crate::app::typing::taps::TapKey;
use crate::app::widgets::words::Taps;
use crate::piece::Question;

/// Taps these keys of the board one after the other.
fn tap_in(dark: &mut Dark, keys: &[&str]) {
    for key in keys {
        dark.tap(key);
    }
}

/// A window on the questions of an order, with the board switched on.
fn on_the_questions() -> Dark {
    let mut dark = Dark::showing("06-empty");
    dark.do_action(Action::Show(PageId::Order));
    dark.tap(Taps::OFF);
    dark
}

#[test]
fn a_name_is_tapped_in_with_its_capitals_and_accents_and_undone_in_one_step() {
    let mut dark = on_the_questions();
    let before = dark.window.session.order().wearer.clone();
    dark.tap(Field::Wearer.name());
    tap_in(
        &mut dark,
        &[Taps::EMPTY, "Z", "o", Taps::ACCENTS, "\u{eb}", Taps::ACCENTS, Taps::SPACE, "O", Taps::RUB_OUT],
    );
    tap_in(&mut dark, &["B", Taps::DONE]);
    assert_eq!(dark.window.session.order().wearer, "Zo\u{eb} B");
    assert!(dark.places(Taps::SPACE).is_empty(), "the board is gone");
    dark.do_action(Action::Undo);
    assert_eq!(dark.window.session.order().wearer, before);
}

#[test]
fn lengths_are_told_in_inches_or_millimetres_and_the_girth_stays_as_it_was_typed() {
    let mut dark = Dark::showing("02-classic");
    dark.do_action(Action::WristSize("6 1/4".to_owned()));
    let width = |dark: &mut Dark| {
        let derived = dark.window.session.derived();
        let found = derived.over.findings.iter().find(|f| f.question == Question::WidthOnWrist);
        found.map(|f| f.says()).unwrap_or_default()
    };
    for _ in 0..5 {
        dark.do_action(Action::ShowOptions);
        dark.tap("mm");
        assert!(width(&mut dark).contains("63.5 mm") && !width(&mut dark).contains(" in "), "{}", width(&mut dark));
        dark.tap("in");
        assert!(width(&mut dark).contains("2 1/2 in (63.5 mm)"), "{}", width(&mut dark));
        dark.tap("As entered");
        dark.do_action(Action::ShowOptions);
    }
    assert!(width(&mut dark).contains("2 1/2 in (63.5 mm)"), "as typed is in inches here");
    let girth = &dark.window.session.order().wrist.girth;
    assert_eq!((girth.typed(), girth.mm()), ("6 1/4", 158.75));
}

#[test]
fn a_girth_is_tapped_in_and_what_cannot_be_meant_is_asked_about() {
    let mut dark = on_the_questions();
    dark.tap_uppermost(Field::WristSize.name());
    tap_in(&mut dark, &["6", "1/4", Taps::DONE]);
    let girth = |dark: &Dark| dark.window.session.order().wrist.girth.clone();
    assert_eq!((girth(&dark).typed(), girth(&dark).mm()), ("6 1/4", 158.75));
    dark.tap_uppermost(Field::WristSize.name());
    tap_in(&mut dark, &["1", ".", "5", "5", Taps::DONE]);
    assert_eq!(girth(&dark).mm(), 158.75, "nothing changes before a yes");
    dark.tap("Yes, 155 mm");
    assert_eq!(girth(&dark).mm(), 155.0);
}

#[test]
fn what_is_tapped_is_not_lost_when_another_field_or_page_comes_before_done() {
    let mut dark = on_the_questions();
    dark.tap_uppermost(Field::WristSize.name());
    tap_in(&mut dark, &["1", "2", "2"]);
    dark.tap(Field::Years.name());
    tap_in(&mut dark, &["6"]);
    dark.do_action(Action::Show(PageId::Price));
    let order = dark.window.session.order();
    assert_eq!((order.wrist.girth.mm(), order.needs.child_years()), (122.0, Some(6)));
    dark.do_action(Action::Show(PageId::Order));
    dark.tap_uppermost(Field::WristSize.name());
    tap_in(&mut dark, &["1", "4", "8"]);
    dark.do_action(Action::Show(PageId::Price));
    assert_eq!(dark.window.session.order().wrist.girth.mm(), 148.0, "a page that is turned takes what was tapped in");
}

#[test]
fn a_flower_on_the_piece_is_named_as_not_borne_by_one_tap_and_taken_back_by_another() {
    let mut dark = Dark::showing("02-classic");
    dark.do_action(Action::Show(PageId::Order));
    let told = |dark: &Dark| dark.window.session.order().needs.allergies.clone();
    dark.tap("waxflower");
    assert_eq!(told(&dark), Some(vec!["waxflower".to_owned()]));
    dark.tap("spray rose");
    dark.tap("waxflower");
    assert_eq!(told(&dark), Some(vec!["spray rose".to_owned()]));
    dark.tap("spray rose");
    assert_eq!(told(&dark), None, "nobody has answered any more");
}

#[test]
fn the_board_comes_only_when_it_is_wanted_and_its_keys_are_large() {
    let mut dark = Dark::showing("06-empty");
    dark.do_action(Action::Show(PageId::Order));
    dark.tap(Field::Wearer.name());
    assert!(dark.places(Taps::SPACE).is_empty());
    dark.tap(Taps::OFF);
    dark.tap(Field::Wearer.name());
    dark.seen();
    assert!(!dark.places(Taps::SPACE).is_empty());
    for (name, rect) in &dark.targets {
        assert!(rect.width() >= 43.9 && rect.height() >= 43.9, "{name}: {:?}", rect.size());
        assert!(rect.min.x >= 0.0 && rect.max.x <= 1366.0 && rect.min.y >= 0.0, "{name} lies beyond the window");
    }
    dark.do_action(Action::Taps(TapKey::Switch));
    dark.seen();
    assert!(dark.places(Taps::SPACE).is_empty());
}
