//! Papers made from the window.

use egui::{Key, Modifiers};

use crate::app::action::{Action, Notice};
use crate::app::tests::dark::{Dark, dark_in};
use crate::app::tests::harness::{TestWindow, name};
use crate::app::typing::field::Field;
use crate::app::widgets::paper_words::Papers;
use crate::app::workers::paper_worker::PaperWorker;
use crate::book::{Beside, Shown};
use crate::piece::Skin;

#[test]
fn all_papers_are_made_of_what_is_saved_and_the_folder_is_told() {
    let folder = tempfile::tempdir().unwrap();
    let (mut dark, _) = dark_in(folder.path(), "01-petite");
    dark.do_action(Action::Write(Field::Wearer, "Solveig".to_owned()));
    dark.do_action(Action::MakePapers);
    assert!(dark.window.session.is_saved());
    let ctx = dark.ctx.clone();
    while let Some(event) = dark.window.papers.as_mut().and_then(PaperWorker::wait) {
        dark.window.take_papers(&ctx, event);
    }
    let Some(Notice::Done(said)) = &dark.window.notice else {
        panic!("the folder is not told: {:?}", dark.window.notice)
    };
    assert!(said.contains("papers/01-petite"), "{said}");
    let made: Vec<String> = std::fs::read_dir(folder.path().join("papers/01-petite"))
        .unwrap()
        .map(|f| f.unwrap().file_name().to_string_lossy().into_owned())
        .collect();
    for paper in
        ["client.pdf", "quote-slip.pdf", "bench-card.pdf", "template.pdf", "bill-of-materials.csv", "picture.png"]
    {
        assert!(made.iter().any(|name| name.ends_with(paper)), "no {paper} in {made:?}");
    }
    let stems = std::fs::read_to_string(folder.path().join("papers/01-petite/01-petite-stems.txt")).unwrap();
    assert!(stems.contains("Solveig"), "{stems}");
}

#[test]
fn without_a_place_for_them_it_says_why() {
    let mut dark = Dark::showing("01-petite");
    dark.do_action(Action::MakePapers);
    assert!(dark.window.papers.is_none() && matches!(dark.window.notice, Some(Notice::Card { .. })));
}

/// Before anything is written each paper is seen page by page; what an order has not got says why and cannot be printed.
#[test]
fn papers_are_looked_at_before_they_are_written_and_made_from_their_page() {
    let mut w = TestWindow::on_sample("01-petite");
    let folder = w.shop().join("papers");
    w.tap(Papers::TITLE);
    w.wait_for("Quote, Page 1 of 1");
    w.tap("Client's page");
    w.wait_for("Client's page, Page 1");
    w.tap("Agreement");
    w.wait_for("The client has not agreed yet");
    assert!(!w.offers(Papers::PRINT) && !w.offers(Papers::SEND), "nothing to print yet");
    w.tap("Template 1:1");
    w.wait_for("Template 1:1, Page 1");
    w.tap(Papers::LARGER);
    w.tap(Papers::WHOLE);
    assert!(!folder.exists(), "looking writes nothing");

    w.tap(Papers::MAKE_ALL);
    w.wait_for("ready in papers/01-petite");
    w.wait_for("written: papers/01-petite");
    let n_files = std::fs::read_dir(folder.join("01-petite")).unwrap().count();
    assert!(w.says(&format!("{n_files} files written")), "{n_files}");
    w.tap(name::VIEW);
    w.tap("brown");
    w.tap(name::VIEW);
    w.wait_for("the order has changed since");
}

#[test]
fn making_papers_is_stopped_and_nothing_half_made_is_left() {
    let mut w = TestWindow::on_sample("03-full");
    w.press(Key::F9);
    w.tap(Papers::MAKE_ALL);
    w.wait_until("a way to stop", |w| w.offers(Papers::STOP));
    w.tap(Papers::STOP);
    w.wait_for(Papers::STOPPED);
    let folder = w.shop().join("papers/03-full");
    assert!(!folder.exists() || std::fs::read_dir(&folder).unwrap().count() == 0);
    assert!(w.offers(Papers::MAKE_ALL), "and they can be made again");
}

/// Two papers of one order are drawn anew when it changes: the arm that the client chose is on them.
#[test]
fn the_tone_that_the_client_saw_is_on_the_papers_saved_and_undone() {
    let mut w = TestWindow::on_sample("01-petite");
    w.tap(name::VIEW);
    w.tap("deep");
    w.tap("Coin");
    assert_eq!(w.order().shown, Shown { skin: Skin::Deep, beside: Beside::Coin, ..Shown::default() });
    let text = w.saved_text();
    assert!(text.contains("skin: deep") && text.contains("beside: coin") && text.contains("version: 3"), "{text}");
    w.undo();
    assert_eq!(w.order().shown.beside, Beside::Ruler);
    w.undo();
    assert_eq!(w.order().shown, Shown::default());
}

#[test]
fn the_client_view_knows_nothing_of_papers() {
    let mut w = TestWindow::on_sample("01-petite");
    w.tap("Client view");
    assert!(!w.offers(Papers::TITLE));
    w.press_with(Modifiers::COMMAND.plus(Modifiers::SHIFT), Key::P);
    w.press(Key::F9);
    w.rest(0.5);
    let seen = w.seen();
    assert!(!seen.says("paper") && !seen.says("Paper"), "{}", seen.all());
    assert!(!w.shop().join("papers").exists());

    // Made in the shop view and ready when the client looks already.
    w.tap("Shop view");
    w.press_with(Modifiers::COMMAND.plus(Modifiers::SHIFT), Key::P);
    w.tap("Client view");
    let all = w.shop().join("papers/01-petite/01-petite-bill-of-materials.pdf");
    w.wait_until("the papers", |_| all.exists());
    w.rest(0.5);
    assert!(!w.says("papers/"), "what is ready for the shop is not said to a client");
}
