//! Fields without a screen: nothing that comes or goes about a field takes the keyboard from it, and what cannot be read leaves
//! no beginning of itself behind.

use egui::Key;

use crate::app::action::Action;
use crate::app::pages::order_fields::Blank;
use crate::app::pages::page::Page;
use crate::app::pages::style::Wish;
use crate::app::shell::window::Said;
use crate::app::tests::dark::Dark;
use crate::piece::{Measured, StyleFigure};
use crate::units::Cents;

fn on_page(sample: &str, page: Page) -> Dark {
    let mut dark = Dark::showing(sample);
    dark.do_action(Action::Turn(page));
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
        let mut dark = on_page("02-classic", Page::Questions);
        write_in(&mut dark, "Age of a child", &age.to_string());
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
    let mut dark = on_page("02-classic", Page::Questions);
    write_in(&mut dark, "What does not agree", "spray rose");
    dark.press(Key::Enter);
    assert!(!dark.places("Not now").is_empty(), "a question stands there");
    dark.do_action(Action::Write(Blank::Allergies, String::new()));
    write_in(&mut dark, "What does not agree", "tulip, latex");
    let told = dark.window.session.order().needs.allergies.clone();
    assert_eq!(told, Some(vec!["tulip".to_owned(), "latex".to_owned()]));
}

#[test]
fn a_sum_that_cannot_be_read_is_told_and_leaves_what_was_there() {
    for (blank, words) in
        [(Blank::Paid, "99999999999"), (Blank::Paid, "17x"), (Blank::Asked, "2o"), (Blank::Budget, "-5")]
    {
        let mut dark = on_page("03-full", Page::Price);
        let before = dark.window.session.order().clone();
        let mut so_far = String::new();
        for letter in words.chars() {
            so_far.push(letter);
            dark.do_action(Action::Write(blank, so_far.clone()));
        }
        dark.do_action(Action::LeaveBlank);
        assert_eq!(*dark.window.session.order(), before, "{words}");
        let Some(Said::Wants { words: said, .. }) = &dark.window.said else { panic!("{words} is not told") };
        assert!(said.contains(words) && said.contains("It stays as it was"), "{said}");
        dark.do_action(Action::Write(blank, "20".to_owned()));
        dark.do_action(Action::LeaveBlank);
        assert_eq!(blank.shown(dark.window.session.order()), "20", "and then what can be read is taken");
    }
    let mut dark = on_page("03-full", Page::Price);
    dark.do_action(Action::Write(Blank::Paid, "5".to_owned()));
    dark.do_action(Action::LeaveBlank);
    dark.do_action(Action::Write(Blank::Paid, "seven".to_owned()));
    dark.do_action(Action::LeaveBlank);
    assert_eq!(dark.window.session.order().terms.paid, Cents(500), "the step before is not taken back");
}

#[test]
fn a_figure_of_the_house_that_is_refused_leaves_no_beginning_of_itself() {
    let mut dark = on_page("02-classic", Page::House);
    let before = (**dark.window.session.style()).clone();
    let mut so_far = String::new();
    for letter in "999999999999".chars() {
        so_far.push(letter);
        dark.do_action(Action::House(Wish::Write(StyleFigure::FreshTimes, so_far.clone())));
    }
    dark.do_action(Action::House(Wish::Leave));
    assert_eq!(**dark.window.session.style(), before);
    assert!(matches!(&dark.window.said, Some(Said::Wants { words, .. }) if words.contains("It stays as it was.")));
}

#[test]
fn an_emptied_girth_is_one_that_is_not_measured() {
    let mut dark = on_page("02-classic", Page::Questions);
    dark.do_action(Action::Girth("171".to_owned()));
    assert_ne!(dark.window.session.order().wrist.measured, Measured::NotYet);
    dark.do_action(Action::Girth(" ".to_owned()));
    assert_eq!(dark.window.session.order().wrist.measured, Measured::NotYet);
    assert!(dark.window.said.is_none());
}

#[test]
fn a_letter_on_a_page_with_fields_changes_nothing_and_what_was_said_goes_with_its_page() {
    for page in [Page::Questions, Page::Price] {
        let mut dark = on_page("02-classic", page);
        let before = dark.window.session.order().clone();
        for key in [Key::X, Key::K, Key::U, Key::R, Key::Delete] {
            dark.press(key);
        }
        assert_eq!(*dark.window.session.order(), before);
        dark.do_action(Action::Girth("wide".to_owned()));
        assert!(dark.window.said.is_some());
        dark.do_action(Action::Turn(Page::Sheet));
        assert!(dark.window.said.is_none());
    }
}
