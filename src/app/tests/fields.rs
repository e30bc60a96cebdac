//! Fields without a screen: nothing that comes or goes about a field takes the keyboard from it, and what cannot be read leaves
//! no beginning of itself behind.

use egui::Key;

use crate::app::action::{Action, Notice};
use crate::app::page_list::PageId;
use crate::app::pages::PageAction;
use crate::app::pages::style::StyleAction;
use crate::app::tests::dark::Dark;
use crate::app::typing::field::Field;
use crate::piece::{Measured, StyleFigure};
use crate::units::{Cents, DecimalMark};

fn on_page(sample: &str, page: PageId) -> Dark {
    let mut dark = Dark::showing(sample);
    dark.do_action(Action::Show(page));
    dark.seen();
    dark
}

/// Writes as fast as a person, a letter to a frame, and waits until everything has come.
fn write_in(dark: &mut Dark, field: &str, words: &str) {
    dark.tap(field);
    for letter in words.chars() {
        dark.write(&letter.to_string());
        dark.seen();
        dark.seen();
    }
}

#[test]
fn an_age_of_two_figures_is_written_to_its_end_and_asked_about_when_the_field_is_left() {
    for age in [15_u32, 16, 11] {
        let mut dark = on_page("02-classic", PageId::Order);
        write_in(&mut dark, Field::Years.name(), &age.to_string());
        assert_eq!(dark.window.session.order().needs.child_years(), Some(age), "{age}");
        assert!(dark.places("Not now").is_empty(), "nothing is asked of half a number");
        dark.press(Key::Enter);
        dark.seen();
        let girth = dark.window.session.order().wrist.girth.mm();
        assert!(girth > 120.0, "a person of {age} is not measured as an infant: {girth}");
    }
}

#[test]
fn what_does_not_agree_is_written_to_its_end_while_what_was_asked_about_it_goes() {
    let mut dark = on_page("02-classic", PageId::Order);
    write_in(&mut dark, Field::Allergies.name(), "spray rose");
    dark.press(Key::Enter);
    assert!(!dark.places("Not now").is_empty(), "a question stands there");
    dark.do_action(Action::Write(Field::Allergies, String::new()));
    write_in(&mut dark, Field::Allergies.name(), "tulip, latex");
    let told = dark.window.session.order().needs.allergies.clone();
    assert_eq!(told, Some(vec!["tulip".to_owned(), "latex".to_owned()]));
}

#[test]
fn a_sum_that_cannot_be_read_is_told_and_leaves_what_was_there() {
    for (field, words) in
        [(Field::Discount, "99999999999"), (Field::Discount, "17x"), (Field::Asked, "2o"), (Field::Budget, "-5")]
    {
        let mut dark = on_page("03-full", PageId::Price);
        let before = dark.window.session.order().clone();
        let mut so_far = String::new();
        for letter in words.chars() {
            so_far.push(letter);
            dark.do_action(Action::Write(field, so_far.clone()));
        }
        dark.do_action(Action::LeaveField(field));
        assert_eq!(*dark.window.session.order(), before, "{words}");
        let Some(Notice::Card { words: said, .. }) = &dark.window.notice else { panic!("{words} is not told") };
        assert!(said.contains(words) && said.contains("Nothing was changed"), "{said}");
        dark.do_action(Action::Write(field, "20".to_owned()));
        dark.do_action(Action::LeaveField(field));
        assert_eq!(
            field.shown(dark.window.session.order(), DecimalMark::Point),
            "20",
            "and then what can be read is taken"
        );
    }
    let mut dark = on_page("03-full", PageId::Price);
    dark.do_action(Action::Write(Field::Budget, "5".to_owned()));
    dark.do_action(Action::LeaveField(Field::Budget));
    dark.do_action(Action::Write(Field::Budget, "seven".to_owned()));
    dark.do_action(Action::LeaveField(Field::Budget));
    assert_eq!(dark.window.session.order().terms.budget, Some(Cents(500)), "the step before is not taken back");
}

#[test]
fn a_figure_of_the_house_that_is_refused_leaves_no_beginning_of_itself() {
    let mut dark = on_page("02-classic", PageId::Style);
    let before = (**dark.window.session.style()).clone();
    let mut so_far = String::new();
    for letter in "999999999999".chars() {
        so_far.push(letter);
        dark.do_action(PageAction::Style(StyleAction::Write(StyleFigure::FreshTimes, so_far.clone())));
    }
    dark.do_action(PageAction::Style(StyleAction::Leave));
    assert_eq!(**dark.window.session.style(), before);
    assert!(matches!(&dark.window.notice, Some(Notice::Card { words, .. }) if words.contains("Nothing was changed.")));
}

#[test]
fn an_emptied_girth_is_one_that_is_not_measured() {
    let mut dark = on_page("02-classic", PageId::Order);
    dark.do_action(Action::WristSize("171".to_owned()));
    assert_ne!(dark.window.session.order().wrist.measured, Measured::NotYet);
    dark.do_action(Action::WristSize(" ".to_owned()));
    assert_eq!(dark.window.session.order().wrist.measured, Measured::NotYet);
    assert!(dark.window.notice.is_none());
}

#[test]
fn a_letter_on_a_page_with_fields_changes_nothing_and_what_was_said_goes_with_its_page() {
    for page in [PageId::Order, PageId::Price] {
        let mut dark = on_page("02-classic", page);
        let before = dark.window.session.order().clone();
        for key in [Key::X, Key::K, Key::U, Key::R, Key::Delete] {
            dark.press(key);
        }
        assert_eq!(*dark.window.session.order(), before);
        dark.do_action(Action::WristSize("wide".to_owned()));
        assert!(dark.window.notice.is_some());
        dark.do_action(Action::Show(PageId::Sheet));
        assert!(dark.window.notice.is_none());
    }
}
