//! Days on the page of the order, without a screen: typed, tapped in a month, taken back; and the number of an order.

use egui::Key;

use crate::app::action::Action;
use crate::app::dialogs::Dialog;
use crate::app::page_list::PageId;
use crate::app::tests::dark::{Dark, dark_in};
use crate::app::typing::field::Field;
use crate::app::widgets::today::tests::stand_still;
use crate::book::Order;
use crate::units::DecimalMark;

/// The page of the order on Tuesday 1 December 2026.
fn on_order_page() -> Dark {
    stand_still();
    let mut dark = Dark::showing("02-classic");
    dark.do_action(Action::Show(PageId::Order));
    dark.seen();
    dark
}

fn order(dark: &Dark) -> &Order {
    dark.window.session.order()
}

fn tells(dark: &mut Dark, words: &str) -> bool {
    dark.seen().texts.iter().any(|text| text == words)
}

#[test]
fn the_next_such_day_is_shown_beside_the_words_and_taken_back_as_one_step() {
    let mut dark = on_order_page();
    let before = order(&dark).wanted.clone();
    for (field, words, shown) in [
        (Field::EventDay, "Saturday", "Sat 5 Dec 2026"),
        (Field::Wanted, "5 Dec 2 pm", "Sat 5 Dec 2026, 2:00 pm"),
        (Field::LastChange, "tomorrow", "Wed 2 Dec 2026"),
    ] {
        dark.do_action(Action::Write(field, words.to_owned()));
        dark.do_action(Action::LeaveField(field));
        assert!(tells(&mut dark, shown), "{shown}");
        assert_eq!(field.shown(order(&dark), DecimalMark::Point), words, "the words stay");
    }
    dark.do_action(Action::Undo);
    dark.do_action(Action::Undo);
    assert_eq!(order(&dark).wanted, before);
    assert_eq!(order(&dark).event_day.day().unwrap().to_string(), "2026-12-05");
}

#[test]
fn figures_that_may_be_two_days_are_asked_about_and_answered_by_a_tap() {
    let mut dark = on_order_page();
    dark.do_action(Action::Write(Field::Wanted, "12/5 2 pm".to_owned()));
    dark.do_action(Action::LeaveField(Field::Wanted));
    assert!(tells(&mut dark, "5 Dec 2026"));
    assert_eq!(order(&dark).wanted.day(), None);
    dark.tap("12 May 2027");
    assert_eq!(order(&dark).wanted.words(), "Wed 12 May 2027, 2:00 pm");
    dark.do_action(Action::Write(Field::EventDay, "29 Feb 2027".to_owned()));
    dark.do_action(Action::LeaveField(Field::EventDay));
    assert!(tells(&mut dark, "There is no 29 Feb 2027."));
}

#[test]
fn days_that_do_not_fit_are_said_on_the_page() {
    let mut dark = on_order_page();
    dark.do_action(Action::Write(Field::EventDay, "4 Dec".to_owned()));
    dark.do_action(Action::Write(Field::Wanted, "5 Dec, noon".to_owned()));
    assert!(tells(&mut dark, "Pick-up (Sat 5 Dec 2026) is after the event (Fri 4 Dec 2026)."));
    dark.do_action(Action::Write(Field::Wanted, "3 Dec, noon".to_owned()));
    assert!(!dark.seen().texts.iter().any(|text| text.starts_with("Pick-up (")));
}

#[test]
fn a_day_and_its_hour_are_tapped_in_a_month() {
    let mut dark = on_order_page();
    dark.do_action(Action::Write(Field::Wanted, String::new()));
    dark.do_action(Action::LeaveField(Field::Wanted));
    dark.tap("Pick-up day and time: month");
    assert!(tells(&mut dark, "December 2026"));
    dark.tap("Month after");
    dark.tap("Month before");
    dark.tap("Sat 5 Dec 2026");
    assert!(matches!(dark.window.dialog, Dialog::Month(_)), "it waits for the hour");
    dark.tap("2:00 pm");
    assert_eq!(dark.window.dialog, Dialog::None);
    assert_eq!(order(&dark).wanted.words(), "Sat 5 Dec 2026, 2:00 pm");
    let small = dark.targets.iter().filter(|(_, rect)| rect.height() < 43.9).map(|(name, _)| name.as_str());
    assert_eq!(small.collect::<Vec<_>>(), Vec::<&str>::new());
    dark.do_action(Action::Undo);
    assert_eq!(order(&dark).wanted.words(), "Sat 5 Dec 2026");
    dark.do_action(Action::Undo);
    assert!(order(&dark).wanted.is_blank());
}

#[test]
fn a_month_is_walked_by_keys() {
    let mut dark = on_order_page();
    dark.tap("Event day: month");
    dark.seen();
    dark.press(Key::PageDown);
    assert!(tells(&mut dark, "January 2027"));
    dark.press(Key::PageUp);
    assert!(tells(&mut dark, "December 2026"));
    // Today, a Tuesday, has the keyboard; one to the right and one down is Wednesday of the next week.
    dark.seen();
    dark.press(Key::ArrowRight);
    dark.press(Key::ArrowDown);
    dark.press(Key::Enter);
    dark.seen();
    assert_eq!(order(&dark).event_day.words(), "Wed 9 Dec 2026");
    dark.tap("Event day: month");
    dark.press(Key::Escape);
    dark.seen();
    assert_eq!(dark.window.dialog, Dialog::None);
    dark.tap("Event day: month");
    dark.tap("No day");
    assert!(order(&dark).event_day.is_blank());
}

#[test]
fn an_order_gets_its_number_when_it_is_saved_and_undo_leaves_it() {
    let folder = tempfile::tempdir().unwrap();
    let (mut dark, _) = dark_in(folder.path(), "02-classic");
    dark.do_action(Action::Write(Field::Wearer, "Maren".to_owned()));
    dark.do_action(Action::LeaveField(Field::Wearer));
    assert_eq!(order(&dark).number, None);
    dark.do_action(Action::Save);
    let number = order(&dark).number.expect("a number");
    assert!(tells(&mut dark, &format!("Saved as No. {number}")));
    dark.do_action(Action::Undo);
    assert_eq!(order(&dark).number, Some(number));
    dark.do_action(Action::Save);
    assert_eq!(order(&dark).number, Some(number), "the second save keeps it");
    dark.do_action(Action::New);
    dark.do_action(Action::Write(Field::Wearer, "Ilse".to_owned()));
    dark.do_action(Action::LeaveField(Field::Wearer));
    dark.do_action(Action::Save);
    assert_eq!(order(&dark).number, Some(number + 1));
    dark.do_action(Action::CloseNotice);
    dark.do_action(Action::Show(PageId::Order));
    let head = format!("No. {} \u{b7} ", number + 1);
    assert!(dark.seen().texts.iter().any(|text| text.starts_with(&head)));
}
