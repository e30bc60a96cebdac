//! What was not saved when a window ended, and orders open in two windows.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use crate::app::action::Action;
use crate::app::dialogs::{Dialog, NextStep};
use crate::app::shell::autosave::Autosave;
use crate::app::tests::dark::Dark;
use crate::app::typing::field::Field;
use crate::session::Session;
use crate::store::{Shop, samples};

/// A window on an order of the shop in this folder.
fn dark_on(folder: &Path, name: &str) -> Dark {
    let shop = Shop::open(folder).unwrap();
    let (stock, style) = (Arc::clone(shop.stock()), Arc::clone(shop.style()));
    let (session, _) = Session::open(&order_file(folder, name), stock, style).unwrap();
    let copies = shop.recovery_folder();
    let mut dark = Dark::of(shop, session, &[]);
    watch_over(&mut dark, &copies.unwrap());
    dark
}

fn watch_over(dark: &mut Dark, copies: &Path) {
    dark.window.autosave = Autosave::default(); // its copy goes before another is begun
    dark.window.watch_over(copies.to_owned());
    dark.window.finish_files(&dark.ctx.clone());
}

fn order_file(folder: &Path, name: &str) -> PathBuf {
    folder.join("orders").join(name)
}

fn demo_shop() -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    samples::write_into(folder.path()).unwrap();
    folder
}

fn n_copies(folder: &Path) -> usize {
    let files = std::fs::read_dir(folder.join("recovery")).unwrap();
    files.filter(|f| f.as_ref().unwrap().path().extension().is_some_and(|e| e == "ron")).count()
}

/// A window that changes who wears an order and ends without keeping it.
fn end_by_surprise(folder: &Path, name: &str, wearer: &str) {
    let mut dark = dark_on(folder, name);
    dark.do_action(Action::Write(Field::Wearer, wearer.to_owned()));
    dark.seen();
    drop(dark);
}

fn text(path: &Path) -> String {
    std::fs::read_to_string(path).unwrap()
}

#[test]
fn what_was_not_kept_is_offered_taken_up_and_kept() {
    let folder = demo_shop();
    let file = order_file(folder.path(), "03-full.ron");
    let kept = text(&file);
    end_by_surprise(folder.path(), "03-full.ron", "Beatrix the Second");
    assert_eq!((n_copies(folder.path()), text(&file) == kept), (1, true));

    let mut dark = dark_on(folder.path(), "01-petite.ron");
    let seen = dark.seen();
    assert!(seen.texts.iter().any(|t| t.contains("Beatrix the Second")), "{:?}", seen.texts);
    assert!(dark.window.session.is_saved(), "nothing is applied by itself");
    dark.tap("Restore");
    let session = &dark.window.session;
    assert_eq!((session.order().wearer.as_str(), session.is_saved()), ("Beatrix the Second", false));
    assert_eq!((session.path(), n_copies(folder.path())), (Some(&*file), 1));
    dark.do_action(Action::Undo);
    assert!(dark.window.session.is_saved(), "undo leads to what is kept");
    dark.do_action(Action::Redo);
    dark.do_action(Action::Save);
    dark.seen();
    drop(dark);
    assert!(text(&file).contains("Beatrix the Second"));
    assert_eq!(n_copies(folder.path()), 0);
}

#[test]
fn what_is_taken_up_is_on_the_disk_again_before_the_old_copy_goes() {
    let folder = demo_shop();
    end_by_surprise(folder.path(), "03-full.ron", "Beatrix the Second");
    let mut dark = dark_on(folder.path(), "01-petite.ron");
    dark.tap("Restore");
    drop(dark);
    let mut dark = dark_on(folder.path(), "01-petite.ron");
    dark.tap("Restore");
    assert_eq!(dark.window.session.order().wearer, "Beatrix the Second");
}

#[test]
fn what_is_left_is_offered_again_and_only_a_second_yes_throws_it_away() {
    let folder = demo_shop();
    end_by_surprise(folder.path(), "03-full.ron", "Beatrix the Second");
    let mut dark = dark_on(folder.path(), "01-petite.ron");
    dark.tap("Later");
    assert!(!dark.seen().texts.iter().any(|t| t == "Unsaved work found"));
    dark.do_action(Action::ShowOrders);
    dark.tap("Unsaved work (1)");
    dark.tap("Discard");
    assert_eq!(n_copies(folder.path()), 1);
    drop(dark);
    let mut dark = dark_on(folder.path(), "01-petite.ron");
    dark.tap("Discard");
    dark.tap("Discard for good");
    assert_eq!((n_copies(folder.path()), &dark.window.dialog), (0, &Dialog::None));
}

#[test]
fn on_the_clients_side_nobody_elses_order_is_offered() {
    let folder = demo_shop();
    end_by_surprise(folder.path(), "03-full.ron", "Beatrix the Second");
    let mut dark = dark_on(folder.path(), "01-petite.ron");
    dark.window.is_client_view = true;
    watch_over(&mut dark, &folder.path().join("recovery"));
    dark.window.dialog = Dialog::None;
    let seen = dark.seen();
    assert!(!seen.texts.iter().chain(&seen.names).any(|t| t.contains("Beatrix")));
    dark.do_action(Action::SwitchView);
    dark.seen();
    assert!(dark.seen().texts.iter().any(|t| t.contains("Beatrix")), "on my side it is");
}

#[test]
fn an_order_that_is_kept_or_left_on_purpose_leaves_no_copy() {
    for last in [Action::SaveAndGoOn, Action::LeaveUnsaved] {
        let folder = demo_shop();
        let mut dark = dark_on(folder.path(), "03-full.ron");
        dark.do_action(Action::Write(Field::Wearer, "Beatrix the Second".to_owned()));
        dark.window.flush_autosave();
        let ctx = dark.ctx.clone();
        dark.window.leave_for(&ctx, NextStep::Close);
        dark.window.finish_files(&ctx);
        assert!(dark.window.autosave.copy.as_ref().unwrap().flush_and_wait());
        assert_eq!(n_copies(folder.path()), 1);
        dark.do_action(last.clone());
        dark.seen();
        drop(dark);
        assert_eq!(n_copies(folder.path()), 0, "{last:?}");
    }
}

#[test]
fn an_order_open_in_another_window_is_kept_as_a_copy_alone() {
    let folder = demo_shop();
    let file = order_file(folder.path(), "03-full.ron");
    let kept = text(&file);
    let first = dark_on(folder.path(), "03-full.ron");
    let mut second = dark_on(folder.path(), "01-petite.ron");
    second.do_action(Action::Open(file.clone()));
    assert!(second.seen().texts.iter().any(|t| t.contains("is open in another window")));
    second.do_action(Action::Write(Field::Wearer, "Beatrix the Second".to_owned()));
    second.do_action(Action::Save);
    assert!(!second.window.session.is_saved());
    assert_eq!(text(&file), kept);
    second.tap("Save a copy");
    let copy = second.window.session.path().unwrap().to_owned();
    assert!(second.window.session.is_saved() && copy != file && text(&copy).contains("Beatrix the Second"));
    assert_eq!(text(&file), kept);
    drop(first);
}

#[test]
fn once_the_other_window_has_gone_the_order_can_be_kept_unless_it_was_changed_there() {
    for changed in [false, true] {
        let folder = demo_shop();
        let file = order_file(folder.path(), "03-full.ron");
        let mut first = dark_on(folder.path(), "03-full.ron");
        let mut second = dark_on(folder.path(), "03-full.ron");
        if changed {
            first.do_action(Action::Write(Field::Wearer, "Alma the First".to_owned()));
            first.do_action(Action::Save);
        }
        drop(first);
        second.do_action(Action::Write(Field::Wearer, "Beatrix the Second".to_owned()));
        second.do_action(Action::Save);
        assert_eq!(second.window.session.is_saved(), !changed);
        assert_eq!(text(&file).contains("Alma the First"), changed);
    }
}
