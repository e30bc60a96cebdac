//! What a wearer or a piece wants otherwise, and whether wet fingers hit what they mean, without a screen.

use crate::app::action::Action;
use crate::app::page_list::PageId;
use crate::app::pages::PageAction;
use crate::app::pages::style::{Section, StyleAction};
use crate::app::tests::dark::{Dark, DarkAction};
use crate::app::typing::field::Field;
use crate::once_over::Finding;
use crate::piece::{Edit, PartId, Question};
use crate::sheet::SheetInput;

fn counts(dark: &mut Dark) -> Finding {
    let derived = dark.window.session.derived();
    derived.over.findings.iter().find(|f| f.question == Question::OddCounts).unwrap().clone()
}

#[test]
fn a_custom_of_numbers_is_asked_and_felt_in_the_once_over() {
    let mut dark = Dark::showing("02-classic");
    dark.do_action(Action::Show(PageId::Order));
    assert!(counts(&mut dark).is_well(), "five is odd");
    dark.tap("No 4, no 9");
    assert!(counts(&mut dark).is_well(), "five is welcome here too");
    dark.do_action(Action::edit(Edit::Remove(vec![PartId(5)])));
    let found = counts(&mut dark);
    assert!(!found.is_well() && found.says().contains("custom avoids 4"), "{}", found.says());
    assert_eq!(found.remedies.iter().map(|r| r.label()).collect::<Vec<_>>(), ["Add one", "Remove one"]);
    dark.tap("Any number");
    assert!(counts(&mut dark).is_well(), "four is as welcome as any");
    dark.do_action(Action::Write(Field::Avoided, "3, 4".to_owned()));
    let found = counts(&mut dark);
    assert_eq!(found.remedies.iter().map(|r| r.label()).collect::<Vec<_>>(), ["Add one"], "three is avoided as well");
    dark.tap("Odd numbers");
    assert!(!counts(&mut dark).is_well(), "four is even");
}

/// 9.5 mm (ANSI/HFES 100-2007) on a 14 inch screen of 1366 x 768 is 42 points; the house asks for 44.
#[test]
fn whatever_can_be_tapped_is_as_large_as_a_finger_on_every_page() {
    let rules =
        |section| vec![Action::Show(PageId::Style).into(), PageAction::Style(StyleAction::ShowSection(section)).into()];
    let mut screens: Vec<(String, Vec<DarkAction>)> = vec![
        ("the sheet".to_owned(), vec![]),
        ("a bloom chosen".to_owned(), vec![Action::Sheet(SheetInput::Select(vec![PartId(1)])).into()]),
        (
            "a finding".to_owned(),
            vec![Action::PointAt(Some(Question::Outline)).into(), Action::AskWhy(Some(Question::Outline)).into()],
        ),
        ("the looks".to_owned(), vec![Action::ShowOptions.into()]),
        ("the order".to_owned(), vec![Action::Show(PageId::Order).into()]),
        ("side by side".to_owned(), vec![Action::Show(PageId::Sizes).into()]),
        ("the keys".to_owned(), vec![Action::ShowHelp.into()]),
    ];
    screens.extend(Section::ALL.map(|s| (format!("shop rules, {}", s.label()), rules(s))));
    for (screen, actions) in screens {
        let mut dark = Dark::showing("04-too-wide");
        for action in actions {
            dark.do_action(action);
        }
        dark.seen();
        let parts = dark.window.session.order().piece.parts().len();
        assert!(dark.targets.len() > 12 + parts, "{screen}: {:?}", dark.targets);
        // Blooms are as large as they are: one comes nearer to tap a small one, or goes through them by key.
        let is_bloom = |name: &str| name.rsplit(' ').next().is_some_and(|n| n.parse::<u32>().is_ok());
        for (name, rect) in dark.targets.iter().filter(|(name, _)| !is_bloom(name)) {
            assert!(rect.width() >= 43.9 && rect.height() >= 43.9, "{screen}, {name}: {:?}", rect.size());
        }
    }
}

#[test]
fn a_check_is_ignored_for_a_reason_that_is_shown_and_checked_again() {
    let mut dark = Dark::showing("04-too-wide");
    let (question, says) = {
        let derived = dark.window.session.derived();
        let found = derived.over.findings.iter().find(|f| !f.is_well()).unwrap();
        (found.question, format!("{}: {}", found.question.title(), found.says()))
    };
    let mark = dark.window.session.derived().over.score;
    dark.tap(&says);
    dark.tap("Ignore this");
    assert!(dark.window.session.order().piece.wishes.ignored.is_empty(), "the reason comes first");
    dark.tap("Asymmetric on purpose");
    let reason = dark.window.session.order().piece.wishes.ignored.get(&question).cloned();
    assert_eq!(reason.as_deref(), Some("asymmetric on purpose"));
    assert!(dark.window.session.derived().over.score > mark);
    let shown = format!("{}: ignored, asymmetric on purpose.", question.title());
    assert!(dark.seen().texts.contains(&shown), "{shown}");
    dark.do_action(Action::Undo);
    assert!(dark.window.session.order().piece.wishes.ignored.is_empty());
    dark.do_action(Action::Redo);
    dark.window.sheet.hand.selected.clear();
    dark.tap("Check again");
    assert_eq!(dark.window.session.derived().over.score, mark);
}
