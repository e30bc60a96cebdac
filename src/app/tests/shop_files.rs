//! Files are read and written away from the window's thread.

use std::path::{Path, PathBuf};

use crate::app::action::{Action, Notice};
use crate::app::dialogs::Dialog;
use crate::app::page_list::PageId;
use crate::app::tests::dark::{Dark, dark_in};
use crate::app::typing::field::Field;
use crate::app::widgets::words::Mine;
use crate::store::NoFilesHere;

fn orders_in(folder: &Path) -> Vec<PathBuf> {
    let mut files: Vec<PathBuf> =
        std::fs::read_dir(folder.join("orders")).unwrap().map(|f| f.unwrap().path()).collect();
    files.retain(|f| f.extension().is_some_and(|e| e == "ron"));
    files.sort();
    files
}

#[test]
fn the_windows_thread_touches_no_file_while_it_lists_opens_saves_and_makes_papers() {
    let folder = tempfile::tempdir().unwrap();
    let (mut dark, file) = dark_in(folder.path(), "03-full");
    let guard = NoFilesHere::begin();
    dark.window.watch_over(folder.path().join("recovery"));
    dark.seen();
    dark.do_action(Action::ShowOrders);
    dark.seen();
    let listed = dark.window.pages.Orders.rows().iter().map(|row| row.path.clone());
    assert_eq!(listed.collect::<Vec<_>>(), orders_in(folder.path()));
    dark.do_action(Action::ShowSharedStems);
    assert!(dark.seen().texts.iter().any(|t| t == Mine::CHOOSE_ORDERS));
    dark.do_action(Action::CloseDialog);
    dark.do_action(Action::Write(Field::Wearer, "Solveig".to_owned()));
    dark.do_action(Action::Save);
    assert!(dark.window.session.is_saved() && std::fs::read_to_string(&file).unwrap().contains("Solveig"));
    dark.do_action(Action::SaveCopy);
    assert_ne!(dark.window.session.path(), Some(&*file));
    dark.do_action(Action::SavePicture);
    dark.do_action(Action::MakePapers);
    dark.do_action(Action::Show(PageId::Price));
    dark.tap(Mine::SLIP);
    assert!(dark.window.session.is_saved() && dark.window.session.order().terms.quoted_on.is_some());
    for made in ["pictures", "papers"] {
        assert!(std::fs::read_dir(folder.path().join(made)).unwrap().count() > 0, "{made}");
    }
    dark.do_action(Action::Open(file.clone()));
    assert_eq!(dark.window.session.path(), Some(&*file));
    drop(guard);
}

#[test]
fn a_job_that_breaks_off_is_told_and_the_next_one_works() {
    let folder = tempfile::tempdir().unwrap();
    let (mut dark, file) = dark_in(folder.path(), "03-full");
    dark.seen();
    dark.window.with_files(|_| assert_eq!(1, 2, "asked to break off"), |w, _, ()| w.session = never());
    dark.window.finish_files(&dark.ctx.clone());
    assert!(
        matches!(&dark.window.notice, Some(Notice::Card { words, .. }) if words.contains("could not be read or written"))
    );
    dark.do_action(Action::Write(Field::Wearer, "Solveig".to_owned()));
    dark.do_action(Action::Save);
    assert!(dark.window.session.is_saved() && std::fs::read_to_string(&file).unwrap().contains("Solveig"));
}

fn never() -> crate::session::Session {
    panic!("nothing follows from what broke off")
}

#[test]
fn what_follows_for_one_order_is_not_done_to_the_next() {
    let folder = tempfile::tempdir().unwrap();
    let (mut dark, file) = dark_in(folder.path(), "03-full");
    dark.do_action(Action::Write(Field::Wearer, "Solveig".to_owned()));
    let ctx = dark.ctx.clone();
    dark.window.run(&ctx, Action::Save);
    let (stock, style) = (dark.window.shop.stock().clone(), dark.window.shop.style().clone());
    dark.window.replace_session(crate::session::Session::fresh(stock, style), &[]);
    dark.window.finish_files(&ctx);
    assert_eq!((dark.window.session.path(), dark.window.notice.clone()), (None, None));
    assert!(std::fs::read_to_string(&file).unwrap().contains("Solveig"), "it is saved all the same");
}

#[test]
fn what_is_done_while_another_order_is_read_is_asked_about() {
    let folder = tempfile::tempdir().unwrap();
    let (mut dark, file) = dark_in(folder.path(), "03-full");
    let ctx = dark.ctx.clone();
    let other = folder.path().join("orders/01-petite.ron");
    dark.window.run(&ctx, Action::Open(other.clone()));
    dark.window.run(&ctx, Action::Write(Field::Wearer, "Solveig".to_owned()));
    dark.window.finish_files(&ctx);
    assert_eq!(dark.window.session.path(), Some(&*file));
    assert!(matches!(&dark.window.dialog, Dialog::Leave(_)));
    dark.do_action(Action::SaveAndGoOn);
    assert_eq!(dark.window.session.path(), Some(&*other));
    assert!(std::fs::read_to_string(&file).unwrap().contains("Solveig"));
}

#[test]
fn an_order_that_is_being_saved_is_left_without_a_question() {
    let folder = tempfile::tempdir().unwrap();
    let (mut dark, file) = dark_in(folder.path(), "03-full");
    dark.do_action(Action::Write(Field::Wearer, "Solveig".to_owned()));
    let ctx = dark.ctx.clone();
    dark.window.run(&ctx, Action::Save);
    dark.window.run(&ctx, Action::New);
    dark.window.finish_files(&ctx);
    assert_eq!((&dark.window.dialog, dark.window.session.path()), (&Dialog::None, None));
    assert!(std::fs::read_to_string(&file).unwrap().contains("Solveig"));
}

#[test]
fn a_window_that_closes_waits_for_what_is_being_saved() {
    let folder = tempfile::tempdir().unwrap();
    let (mut dark, file) = dark_in(folder.path(), "03-full");
    dark.do_action(Action::Write(Field::Wearer, "Solveig".to_owned()));
    let ctx = dark.ctx.clone();
    dark.window.run(&ctx, Action::Save);
    close(&mut dark);
    assert_eq!(dark.window.dialog, Dialog::None, "nothing is left to be asked about");
    assert!(std::fs::read_to_string(&file).unwrap().contains("Solveig"));
}

fn close(dark: &mut Dark) {
    let mut input = egui::RawInput::default();
    input.viewports.entry(egui::ViewportId::ROOT).or_default().events.push(egui::ViewportEvent::Close);
    dark.frame_of(input);
}
