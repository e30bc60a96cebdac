//! The page of the shop's rules and the first start, without a screen.

use std::path::Path;
use std::sync::Arc;

use crate::app::action::{Action, Notice};
use crate::app::dialogs::Dialog;
use crate::app::opening::{Opening, lay_out};
use crate::app::page_list::PageId;
use crate::app::pages::PageAction;
use crate::app::pages::style::{Section, StyleAction};
use crate::app::shell::file_dialogs::FileQuestion;
use crate::app::tests::dark::{Dark, shop_in};
use crate::piece::{Making, MakingHow, Question, StyleFigure};
use crate::session::Session;
use crate::sheet::SheetInput;
use crate::store::Shop;

/// The page of a shop in this folder, with the Classic of the demo in front.
fn house_in(folder: &Path) -> Dark {
    let shop = shop_in(folder);
    let file = folder.join("orders/02-classic.ron");
    let (session, _) = Session::open(&file, Arc::clone(shop.stock()), Arc::clone(shop.style())).unwrap();
    let mut dark = Dark::of(shop, session, &[]);
    dark.do_action(Action::Show(PageId::Style));
    dark
}

fn shown(dark: &Dark, figure: StyleFigure) -> String {
    figure.shown(dark.window.session.style()).unwrap()
}

/// The style that the shop in this folder opens with.
fn saved_style(folder: &Path) -> Arc<crate::piece::HouseStyle> {
    Arc::clone(Shop::open(folder).unwrap().style())
}

fn effect(dark: &mut Dark, what: &str) -> (String, String) {
    let names = dark.seen().names;
    let begin = format!("This piece, {}: ", what.to_lowercase());
    let told =
        names.iter().find_map(|name| name.strip_prefix(&begin)).unwrap_or_else(|| panic!("no {what}: {names:?}"));
    let (before, after) = told.split_once(" \u{2192} ").unwrap_or((told, told));
    (before.to_owned(), after.to_owned())
}

#[test]
fn a_tap_changes_what_it_says_is_felt_by_the_piece_and_is_saved() {
    let folder = tempfile::tempdir().unwrap();
    let mut dark = house_in(folder.path());
    for (section, name, figure, after) in [
        (Section::Shape, "More: Max width, % of wrist", StyleFigure::WidthOfGirth, "41"),
        (Section::Shape, "Less: Max height", StyleFigure::Height, "44"),
        (Section::Questions, "More: Balance", StyleFigure::Weight(Question::Balance), "9"),
        (Section::Sizes, "More: Oval length", StyleFigure::SizeLength(1), "92"),
        (Section::Sizes, "Less: Spray rose, white", StyleFigure::Held(1, 0), "4"),
        (Section::Minutes, "More: Bow", StyleFigure::BowMinutes, "3.5"),
        (Section::Money, "More: Fresh flower markup \u{d7}", StyleFigure::FreshTimes, "3.6"),
        (Section::Money, "More: Rush order", StyleFigure::Rush, "26"),
    ] {
        dark.do_action(PageAction::Style(StyleAction::ShowSection(section)));
        let before = shown(&dark, figure);
        dark.tap(name);
        assert_eq!(shown(&dark, figure), after, "{name}");
        assert_eq!(saved_style(folder.path()), *dark.window.session.style(), "{name} is kept");
        dark.do_action(Action::Undo);
        assert_eq!(shown(&dark, figure), before, "{name} undone");
        assert_eq!(saved_style(folder.path()), *dark.window.session.style(), "{name} undone is kept");
        dark.do_action(Action::Redo);
        assert_eq!(shown(&dark, figure), after, "{name} done again");
    }
    assert!(dark.window.session.is_saved(), "no order is touched by the house style");
    let width = effect(&mut dark, "Width allowed");
    let girth = dark.window.session.order().wrist.girth_mm();
    assert_eq!(width, (mm(0.40 * girth), mm(0.41 * girth)));
    assert_eq!(effect(&mut dark, "Minutes"), ("14".to_owned(), "15".to_owned()));
    dark.do_action(PageAction::Style(StyleAction::Write(StyleFigure::FreshTimes, "5".to_owned())));
    dark.do_action(PageAction::Style(StyleAction::Leave));
    let (before, after) = effect(&mut dark, "Price");
    assert!(before == "$27" && after != before, "{before} {after}");
}

fn mm(mm: f64) -> String {
    format!("{} mm", crate::units::mm_text(mm))
}

#[test]
fn a_figure_is_felt_letter_by_letter_and_is_one_step() {
    let folder = tempfile::tempdir().unwrap();
    let mut dark = house_in(folder.path());
    let before = Arc::clone(dark.window.session.style());
    for words in ["3", "35"] {
        dark.do_action(PageAction::Style(StyleAction::Write(StyleFigure::Height, words.to_owned())));
        // 3 mm is below what is taken: a sentence, and nothing changes meanwhile.
        let texts = dark.seen().texts;
        let refused = texts.iter().any(|t| t.contains("a length from 5 to 200 mm"));
        assert_eq!(refused, words == "3", "{texts:?}");
    }
    assert_eq!(effect(&mut dark, "Height allowed"), ("45 mm".to_owned(), "35 mm".to_owned()));
    assert_eq!(saved_style(folder.path()), before, "not kept while it is typed");
    dark.do_action(PageAction::Style(StyleAction::Leave));
    assert_eq!(saved_style(folder.path()).shape.height_mm, 35.0);
    dark.do_action(Action::Undo);
    assert_eq!(*dark.window.session.style(), before);
    dark.do_action(PageAction::Style(StyleAction::Write(StyleFigure::Height, "tall".to_owned())));
    dark.do_action(PageAction::Style(StyleAction::Leave));
    let Some(Notice::Card { words, .. }) = &dark.window.notice else { panic!("nothing is said") };
    assert!(words.contains("a length from 5 to 200 mm") && words.contains("Nothing was changed"), "{words}");
    assert_eq!(*dark.window.session.style(), before);
}

#[test]
fn what_is_typed_takes_the_place_of_what_stood_there_and_a_refusal_stays_in_sight() {
    let folder = tempfile::tempdir().unwrap();
    let mut dark = house_in(folder.path());
    dark.tap("Max height");
    dark.write("38");
    dark.press(egui::Key::Enter);
    assert_eq!(saved_style(folder.path()).shape.height_mm, 38.0);
    dark.tap("Max height");
    dark.write("tall");
    dark.press(egui::Key::Enter);
    let seen = dark.seen();
    assert!(seen.texts.iter().any(|t| t.contains("Nothing was changed")), "{:?}", seen.texts);
    assert_eq!(saved_style(folder.path()).shape.height_mm, 38.0);
}

#[test]
fn a_question_is_switched_off_and_on_again_with_its_weight() {
    let folder = tempfile::tempdir().unwrap();
    let mut dark = house_in(folder.path());
    dark.do_action(PageAction::Style(StyleAction::ShowSection(Section::Questions)));
    let texts = dark.seen().texts.join("\n");
    assert!(texts.contains("published corsage score sheets") && texts.contains("Points total 100."), "{texts}");
    dark.tap("More: Leaves");
    dark.tap("Leaves: on");
    let asked =
        |dark: &mut Dark| dark.window.session.derived().over.findings.iter().any(|f| f.question == Question::Leaves);
    assert!(!asked(&mut dark) && !saved_style(folder.path()).weights.contains_key(&Question::Leaves));
    dark.tap("Leaves: off");
    assert!(asked(&mut dark));
    assert_eq!(dark.window.session.style().weight(Question::Leaves), 2.0);
}

#[test]
fn making_time_follows_its_buttons() {
    let folder = tempfile::tempdir().unwrap();
    let mut dark = house_in(folder.path());
    dark.do_action(PageAction::Style(StyleAction::ShowSection(Section::Money)));
    dark.tap("% of price");
    assert_eq!(dark.window.session.style().prices.making, Making::ShareOfWhole(0.25));
    assert_eq!(MakingHow::of(saved_style(folder.path()).prices.making), MakingHow::OfWhole);
}

#[test]
fn the_clients_side_never_shows_the_house_style() {
    let folder = tempfile::tempdir().unwrap();
    let mut dark = house_in(folder.path());
    assert!(dark.seen().texts.iter().any(|t| t == "Shop rules"));
    dark.do_action(Action::SwitchView);
    assert_eq!(dark.window.page, PageId::Sheet);
    dark.press(egui::Key::Y);
    dark.do_action(Action::Show(PageId::Style));
    assert_eq!(dark.window.page, PageId::Sheet);
    let seen = dark.seen();
    assert!(
        seen.texts.iter().chain(&seen.names).all(|t| !t.contains("House") && !t.contains("ules")),
        "the rail leads there"
    );
    let before = Arc::clone(dark.window.session.style());
    dark.do_action(PageAction::Style(StyleAction::Step(StyleFigure::FreshTimes, true)));
    assert_eq!(*dark.window.session.style(), before);
}

#[test]
fn the_piece_becomes_a_size_and_a_style_and_another_style_is_told_before_it_is_taken() {
    let folder = tempfile::tempdir().unwrap();
    let mut dark = house_in(folder.path());
    dark.do_action(PageAction::Style(StyleAction::KeepAsSize));
    assert!(matches!(&dark.window.notice, Some(Notice::Card { words, .. }) if words.contains("Name the size first")));
    dark.do_action(PageAction::Style(StyleAction::NewName(" Moonrise ".to_owned())));
    dark.do_action(PageAction::Style(StyleAction::KeepAsSize));
    assert!(saved_style(folder.path()).size("Moonrise").is_some());
    dark.do_action(PageAction::Style(StyleAction::ShowSection(Section::Styles)));
    dark.do_action(PageAction::Style(StyleAction::NewName("Evening".to_owned())));
    dark.tap("Save as style");
    let texts = dark.seen().texts;
    let styles = texts.iter().skip_while(|t| !t.starts_with("Tap a style")).skip(1).take_while(|t| *t != "This piece");
    assert_eq!(styles.collect::<Vec<_>>(), ["House (in use)", "Linden", "Evening"]);
    dark.tap("Linden");
    let order = Arc::clone(dark.window.session.order());
    let texts = dark.seen().texts;
    assert!(["90 \u{d7} 54 mm", "104 \u{d7} 46 mm"].iter().all(|t| texts.iter().any(|s| s == t)), "{texts:?}");
    assert_eq!(order, *dark.window.session.order(), "looking changes nothing");
    dark.tap("Use Linden");
    assert_eq!(dark.window.session.order().piece.footprint.width_mm, 46.0);
    assert_eq!(saved_style(folder.path()).name, "Linden");
    dark.do_action(Action::Undo);
    assert_eq!((&saved_style(folder.path()).name[..], dark.window.session.order()), ("House", &order), "both go back");
}

#[test]
fn a_style_goes_out_as_a_file_and_comes_in_as_one() {
    let (here, there) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    let answer = |dark: &mut Dark, question: FileQuestion, path: Option<&Path>| {
        dark.window.file_dialogs.answer(question, path);
        dark.seen();
    };
    let share = |dark: &Dark| FileQuestion::StyleTo(Box::new((**dark.window.session.style()).clone()));
    let mut dark = house_in(here.path());
    dark.do_action(PageAction::Style(StyleAction::Step(StyleFigure::Mass, true)));
    let file = here.path().join("to-linden");
    let question = share(&dark);
    answer(&mut dark, question, Some(&file));
    assert!(matches!(&dark.window.notice, Some(Notice::Done(_))), "{:?}", dark.window.notice);
    let mut other = house_in(there.path());
    answer(&mut other, FileQuestion::Style, Some(&file.with_extension("ron")));
    // What is there already is not written over.
    other.tap("Use House 2");
    assert_eq!(saved_style(there.path()).shape.mass_g, 65.0);
    std::fs::write(there.path().join("bad.ron"), "(version: 1, shape: (mass_g: \"much\"))").unwrap();
    answer(&mut other, FileQuestion::Style, Some(&there.path().join("bad.ron")));
    assert!(matches!(&other.window.notice, Some(Notice::Card { words, .. }) if words.contains("bad.ron")));
    let question = share(&other);
    answer(&mut other, question, None);
    assert!(matches!(&other.window.notice, Some(Notice::Card { words, .. }) if words.contains("No place was chosen")));
}

#[test]
fn a_style_changed_elsewhere_is_not_written_over() {
    let folder = tempfile::tempdir().unwrap();
    let mut dark = house_in(folder.path());
    dark.do_action(PageAction::Style(StyleAction::Step(StyleFigure::Mass, true)));
    let file = folder.path().join("styles/house.ron");
    let elsewhere = "// by hand\n(version: 1, spare: 0.2)";
    std::fs::write(&file, elsewhere).unwrap();
    dark.do_action(PageAction::Style(StyleAction::Step(StyleFigure::Mass, true)));
    assert!(matches!(&dark.window.notice, Some(Notice::Card { offer: Some(_), .. })), "{:?}", dark.window.notice);
    assert_eq!(std::fs::read_to_string(&file).unwrap(), elsewhere);
    assert_eq!(dark.window.session.style().shape.mass_g, 70.0, "it holds in the window");
}

#[test]
fn everything_to_tap_on_the_page_is_large_enough_and_in_sight() {
    let folder = tempfile::tempdir().unwrap();
    let mut dark = house_in(folder.path());
    for section in Section::ALL {
        dark.do_action(PageAction::Style(StyleAction::ShowSection(section)));
        dark.do_action(PageAction::Style(StyleAction::ShowSection(section)));
        dark.seen();
        for (name, rect) in
            dark.places("Less: ").into_iter().chain(dark.places(": on").into_iter().chain(dark.places(": off")))
        {
            assert!(rect.width() >= 43.9 && rect.height() >= 43.9, "{section:?}, {name}: {rect:?}");
            assert!(
                rect.max.x <= 1366.0 - 332.0 && rect.max.y <= 740.0,
                "{section:?}, {name} is out of sight: {rect:?}"
            );
        }
    }
}

#[test]
fn the_first_start_is_asked_once_and_either_answer_gives_a_shop_to_draw_in() {
    for (choice, n_orders) in [(Some("Try the sample"), 11), (Some("Start my own"), 0), (None, 0)] {
        let folder = tempfile::tempdir().unwrap();
        let own = folder.path().join("shop");
        let opened = lay_out(&Opening::default(), &own);
        assert_eq!(opened.begin_in.as_ref(), Some(&own));
        assert!(!own.exists(), "nothing is put there before it is wished");
        let mut dark = Dark::of(opened.shop, opened.session, &opened.said);
        dark.window.dialog = Dialog::FirstStart(own.clone());
        let texts = dark.seen().texts.join("\n");
        assert!(texts.contains("Try the sample") && texts.contains("Start my own"));
        match choice {
            Some(label) => dark.tap(label),
            None => dark.press(egui::Key::Escape),
        }
        if choice == Some("Start my own") {
            dark.tap("Skip");
        }
        assert_eq!(dark.window.dialog, Dialog::None);
        assert_eq!(dark.window.shop.orders().len(), n_orders);
        assert_eq!(dark.n_parts() > 0, n_orders > 0);
        let before = dark.n_parts();
        dark.do_action(Action::Pick(crate::stock::StockId::new("spray-rose")));
        dark.do_action(Action::Sheet(SheetInput::PutDownHere));
        dark.do_action(Action::Save);
        assert_eq!((dark.n_parts(), dark.window.session.is_saved()), (before + 1, true), "{:?}", dark.window.notice);
        let again = lay_out(&Opening::default(), &own);
        assert_eq!(again.begin_in, None, "it is asked only once");
    }
    let opening = Opening { shop: Some("nowhere".into()), ..Opening::default() };
    assert_eq!(lay_out(&opening, Path::new("nowhere-else")).begin_in, None, "a shop that was named is not asked about");
}
