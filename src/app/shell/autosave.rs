//! That nothing is lost: what is not kept is copied within ten seconds, an order open in another window is not written
//! over, and what a window left that ended by surprise is offered again.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use crate::app::action::Action;
use crate::app::shell::recovered::Wish;
use crate::app::shell::shop_files::FileDesk;
use crate::app::shell::window::{Dialog, Next, Said, Window};
use crate::history::Revision;
use crate::session::Session;
use crate::store::{LeftOver, Recovery, left_over};

/// What watches over the order in front.
#[derive(Debug, Default)]
pub(crate) struct Safety {
    /// The copy of what is not kept; none where none can be written.
    copy: Option<Recovery>,
    /// What the copy was last told: which revision, and whether that is kept.
    told: Option<(Revision, bool)>,
    /// Whose lock was asked for.
    locked: Option<PathBuf>,
    /// What windows left that ended by surprise.
    pub(crate) left: Vec<LeftOver>,
    /// Whether that has been offered.
    offered: bool,
}

impl Safety {
    /// Another order is in front: whatever it is, the copy is told anew.
    pub(crate) fn forget(&mut self) {
        self.told = None;
    }

    /// The lock is gone and must be asked for anew.
    pub(crate) fn forget_lock(&mut self) {
        self.locked = None;
    }

    /// The order in front is left for good, kept or not: no copy of it stays.
    pub(crate) fn let_go(&self) {
        if let Some(copy) = &self.copy {
            copy.saved();
        }
    }
}

impl Window {
    /// Watches over orders from now on; copies lie in this folder.
    pub(crate) fn watch_over(&mut self, folder: PathBuf) {
        let stock = Arc::clone(self.shop.stock());
        self.with_files_of_window(
            move |_| (left_over(&folder, &stock), Recovery::begin(&folder)),
            |w, _, (left, copy)| {
                w.safety.left = left;
                match copy {
                    Ok(copy) => w.safety.copy = Some(copy),
                    Err(refusal) if w.said.is_none() => {
                        w.say(&format!("{refusal} Save often: no copy is made should the power go."));
                    }
                    Err(_) => {}
                }
                w.safety.forget();
                w.mind();
            },
        );
        self.mind();
    }

    /// After everything that was done: the lock follows the order's file, the copy follows the order. Costs nothing when
    /// nothing has changed.
    pub(crate) fn mind(&mut self) {
        if self.safety.locked.as_deref() != self.session.path() {
            self.safety.locked = self.session.path().map(Path::to_owned);
            let path = self.safety.locked.clone();
            self.with_files(
                move |desk| desk.follow(path.as_deref()),
                |w, _, is_open_elsewhere| {
                    if is_open_elsewhere {
                        w.say_open_elsewhere();
                    }
                },
            );
        }
        self.tell_copy();
        if !self.safety.offered && !self.safety.left.is_empty() && !self.client_side && self.dialog == Dialog::None {
            self.safety.offered = true;
            self.dialog = Dialog::LeftOver { sure: None };
        }
    }

    /// Like [`Self::mind`], and what is not kept is written at once: before something risky.
    pub(crate) fn mind_now(&mut self) {
        self.mind();
        if let Some(copy) = &self.safety.copy {
            copy.flush();
        }
    }

    fn tell_copy(&mut self) {
        if self.session.in_gesture() {
            return;
        }
        let state = (self.session.revision(), self.session.is_kept());
        if self.safety.told.replace(state) == Some(state) {
            return;
        }
        let Some(copy) = &self.safety.copy else { return };
        if self.session.is_kept() {
            copy.saved();
        } else {
            // The next window may be started in another folder.
            let of = self.session.path().and_then(|path| std::path::absolute(path).ok());
            copy.changed(self.session.order(), of.as_deref());
        }
    }

    fn say_open_elsewhere(&mut self) {
        let before = match self.said.take() {
            Some(Said::Wants { words, .. }) => format!(" {words}"),
            Some(Said::Done(_) | Said::Crowded { .. }) | None => String::new(),
        };
        self.say_of_other_window(&format!("is open in another window. Here it is for looking and trying.{before}"));
    }

    /// Says something of the order's file, and offers to keep a copy.
    pub(crate) fn say_of_other_window(&mut self, what: &str) {
        let name = self.session.path().and_then(Path::file_name).unwrap_or_default().to_string_lossy();
        let words = format!("{name} {what}");
        self.said = Some(Said::Wants { words, offer: Some(("Keep a copy".to_owned(), Action::KeepCopy)) });
    }

    /// Does what was wished for one of the orders that were left.
    pub(crate) fn do_about_left_over(&mut self, ctx: &egui::Context, wish: Wish) {
        match wish {
            Wish::Show => self.dialog = Dialog::LeftOver { sure: None },
            Wish::TakeUp(n) => {
                if let Some(left) = self.safety.left.get(n).cloned() {
                    self.leave_for(ctx, Next::TakeUp(Box::new(left)));
                }
            }
            Wish::Throw(n) => self.dialog = Dialog::LeftOver { sure: Some(n) },
            Wish::ThrowForGood(n) => self.throw_away(n),
        }
    }

    fn throw_away(&mut self, n: usize) {
        let Some(left) = self.safety.left.get(n).cloned() else { return };
        let path = left.path.clone();
        self.with_files_of_window(
            move |_| left.discard(),
            move |w, _, discarded| match discarded {
                Ok(()) => w.safety.left.retain(|other| other.path != path),
                Err(refusal) => w.say(&refusal.to_string()),
            },
        );
        // The one that is thrown away is still among them.
        let more = self.safety.left.len() > 1;
        self.dialog = if more { Dialog::LeftOver { sure: None } } else { Dialog::None };
    }

    /// Opens what was left as unkept changes of its order.
    pub(crate) fn take_up_left(&mut self, left: LeftOver) {
        let (stock, style) = (Arc::clone(self.shop.stock()), Arc::clone(self.shop.style()));
        self.with_files(
            move |_| (Session::unkept(left.order.clone(), left.of.as_deref(), stock, style), left),
            |w, _, (session, left)| w.show_left(session, left),
        );
    }

    /// The old copy goes once the new one is on the disk.
    fn show_left(&mut self, session: Session, left: LeftOver) {
        self.take_up(session, &[]);
        self.mind();
        self.safety.left.retain(|other| other.path != left.path);
        if let Some(is_written) = self.safety.copy.as_ref().map(Recovery::start_flush) {
            let discard = move |_: &mut FileDesk| {
                if is_written.recv().unwrap_or(false) {
                    drop(left.discard()); // one that stays is offered again, and nothing is lost
                }
            };
            self.with_files_of_window(discard, |_, _, ()| {});
        }
        if self.said.is_none() {
            self.tell_done("Taken up again, and not kept yet".to_owned());
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::tests::dark::Dark;
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
        dark.window.safety = Safety::default(); // its copy goes before another is begun
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
        dark.do_action(Action::Wearer(wearer.to_owned()));
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
        assert!(dark.window.session.is_kept(), "nothing is applied by itself");
        dark.tap("Take it up again");
        let session = &dark.window.session;
        assert_eq!((session.order().wearer.as_str(), session.is_kept()), ("Beatrix the Second", false));
        assert_eq!((session.path(), n_copies(folder.path())), (Some(&*file), 1));
        dark.do_action(Action::Undo);
        assert!(dark.window.session.is_kept(), "undo leads to what is kept");
        dark.do_action(Action::Redo);
        dark.do_action(Action::Keep);
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
        dark.tap("Take it up again");
        drop(dark);
        let mut dark = dark_on(folder.path(), "01-petite.ron");
        dark.tap("Take it up again");
        assert_eq!(dark.window.session.order().wearer, "Beatrix the Second");
    }

    #[test]
    fn what_is_left_is_offered_again_and_only_a_second_yes_throws_it_away() {
        let folder = demo_shop();
        end_by_surprise(folder.path(), "03-full.ron", "Beatrix the Second");
        let mut dark = dark_on(folder.path(), "01-petite.ron");
        dark.tap("Leave it for now");
        assert!(!dark.seen().texts.iter().any(|t| t == "Not kept last time"));
        dark.do_action(Action::ShowOrders);
        dark.tap("Not kept last time: 1");
        dark.tap("Throw it away");
        assert_eq!(n_copies(folder.path()), 1);
        drop(dark);
        let mut dark = dark_on(folder.path(), "01-petite.ron");
        dark.tap("Throw it away");
        dark.tap("Yes, throw it away for good");
        assert_eq!((n_copies(folder.path()), &dark.window.dialog), (0, &Dialog::None));
    }

    #[test]
    fn on_the_clients_side_nobody_elses_order_is_offered() {
        let folder = demo_shop();
        end_by_surprise(folder.path(), "03-full.ron", "Beatrix the Second");
        let mut dark = dark_on(folder.path(), "01-petite.ron");
        dark.window.client_side = true;
        watch_over(&mut dark, &folder.path().join("recovery"));
        dark.window.dialog = Dialog::None;
        let seen = dark.seen();
        assert!(!seen.texts.iter().chain(&seen.names).any(|t| t.contains("Beatrix")));
        dark.do_action(Action::TurnScreen);
        dark.seen();
        assert!(dark.seen().texts.iter().any(|t| t.contains("Beatrix")), "on my side it is");
    }

    #[test]
    fn an_order_that_is_kept_or_left_on_purpose_leaves_no_copy() {
        for last in [Action::KeepAndGoOn, Action::LeaveUnkept] {
            let folder = demo_shop();
            let mut dark = dark_on(folder.path(), "03-full.ron");
            dark.do_action(Action::Wearer("Beatrix the Second".to_owned()));
            dark.window.mind_now();
            let ctx = dark.ctx.clone();
            dark.window.leave_for(&ctx, Next::Close);
            assert!(dark.window.safety.copy.as_ref().unwrap().flush_and_wait());
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
        second.do_action(Action::Wearer("Beatrix the Second".to_owned()));
        second.do_action(Action::Keep);
        assert!(!second.window.session.is_kept());
        assert_eq!(text(&file), kept);
        second.tap("Keep a copy");
        let copy = second.window.session.path().unwrap().to_owned();
        assert!(second.window.session.is_kept() && copy != file && text(&copy).contains("Beatrix the Second"));
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
                first.do_action(Action::Wearer("Alma the First".to_owned()));
                first.do_action(Action::Keep);
            }
            drop(first);
            second.do_action(Action::Wearer("Beatrix the Second".to_owned()));
            second.do_action(Action::Keep);
            assert_eq!(second.window.session.is_kept(), !changed);
            assert_eq!(text(&file).contains("Alma the First"), changed);
        }
    }
}
