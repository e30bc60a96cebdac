//! Files of the shop, away from the window's thread: a job reads or writes, one after the other on a thread of their own; what
//! follows from it is done in the window before its next frame.

use std::path::{Path, PathBuf};
use std::time::Duration;

use egui::Context;

use crate::app::shell::window::Window;
use crate::app::workers::worker::{JobReporter, Worker, WorkerEvent, WorkerPolicy};
use crate::session::{OrderToSave, SaveReceipt};
use crate::store::{LockState, OrderIndex, OrderLock, Shop, StoreError};

/// A window that closes waits at most so long for its files: far more than a slow disk takes, and not for ever.
const WAIT_ON_CLOSING: Duration = Duration::from_secs(10);

/// Done to files; returns what follows from it in the window.
type FileJob = Box<dyn FnOnce(&mut FileDesk) -> FollowUp + Send>;
type FollowUp = Box<dyn FnOnce(&mut Window, &Context) + Send>;

/// What the thread of the files remembers from one job to the next.
#[derive(Default)]
pub(crate) struct FileDesk {
    pub(crate) index: OrderIndex,
    /// The file of the open order, and what came of asking for its lock.
    held: Option<(PathBuf, LockState)>,
}

/// What came of saving.
pub(crate) enum SaveOutcome {
    Saved(SaveReceipt),
    /// Another window has the order open.
    OpenElsewhere,
    Refused(StoreError),
}

impl FileDesk {
    /// Follows the open order to its file. Whether that is open in another window, which is asked each time anew.
    pub(crate) fn follow(&mut self, path: Option<&Path>) -> bool {
        let is_ours =
            |held: &(PathBuf, LockState)| Some(&*held.0) == path && !matches!(held.1, LockState::HeldElsewhere);
        if !self.held.as_ref().is_some_and(is_ours) {
            // The lock before goes first: it may be the same one.
            self.held = None;
            self.held = path.map(|path| (path.to_owned(), OrderLock::try_acquire(path)));
        }
        matches!(self.held, Some((_, LockState::HeldElsewhere)))
    }

    /// Saves an order in its file, or in a new one of the shop.
    pub(crate) fn save(&mut self, order: OrderToSave, shop: &Shop) -> SaveOutcome {
        if order.path().is_some() && self.follow(order.path()) {
            return SaveOutcome::OpenElsewhere;
        }
        match order.save(|order| shop.new_order_file(order)) {
            Ok(saved) => SaveOutcome::Saved(saved),
            Err(refusal) => SaveOutcome::Refused(refusal),
        }
    }
}

/// The thread of the files, and which order is open.
pub(crate) struct ShopFiles {
    worker: Worker<FileJob, FollowUp>,
    /// The so manyth order that was opened in this window: what follows for one is not done to another.
    nth_order: u64,
}

impl ShopFiles {
    pub(crate) fn new(ctx: &Context) -> Self {
        let worker = Worker::new("shop files", ctx, WorkerPolicy::InTurn, || {
            let mut desk = FileDesk::default();
            move |job: FileJob, reporter: &JobReporter<FollowUp>| reporter.report(job(&mut desk))
        });
        Self { worker, nth_order: 0 }
    }

    /// Another order is open now.
    pub(crate) fn next_order(&mut self) {
        self.nth_order += 1;
    }
}

impl Window {
    /// Does `job` to files, and then `follow_up` in the window, unless another order was opened meanwhile.
    pub(crate) fn with_files<Found: Send + 'static>(
        &mut self,
        job: impl FnOnce(&mut FileDesk) -> Found + Send + 'static,
        follow_up: impl FnOnce(&mut Self, &Context, Found) + Send + 'static,
    ) {
        let nth_order = self.files.nth_order;
        self.with_files_of_window(job, move |window, ctx, found| {
            if window.files.nth_order == nth_order {
                follow_up(window, ctx, found);
            }
        });
    }

    /// Does `job` to files, and then `follow_up` in the window, whatever order is open by then.
    pub(crate) fn with_files_of_window<Found: Send + 'static>(
        &mut self,
        job: impl FnOnce(&mut FileDesk) -> Found + Send + 'static,
        follow_up: impl FnOnce(&mut Self, &Context, Found) + Send + 'static,
    ) {
        self.files.worker.request(Box::new(move |desk| {
            let found = job(desk);
            Box::new(move |window, ctx| follow_up(window, ctx, found))
        }));
    }

    /// Does what follows from jobs that are done.
    pub(crate) fn hear_of_files(&mut self, ctx: &Context) {
        for event in self.files.worker.poll() {
            self.follow_up(ctx, event);
        }
    }

    /// Waits for all jobs, and does what follows from them.
    pub(crate) fn finish_files(&mut self, ctx: &Context) {
        while let Some(event) = self.files.worker.wait(WAIT_ON_CLOSING) {
            self.follow_up(ctx, event);
        }
    }

    fn follow_up(&mut self, ctx: &Context, event: WorkerEvent<FollowUp>) {
        match event {
            WorkerEvent::Reported(_, follow_up) => follow_up(self, ctx),
            WorkerEvent::Failed(_) => {
                // The locks went with it.
                self.safety.forget_lock();
                self.say("Reading or writing a file broke off. What is on the disk is whole; do it again.");
            }
            WorkerEvent::Progress(..) => {}
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::action::Action;
    use crate::app::pages::page::Page;
    use crate::app::shell::window::{Dialog, Said};
    use crate::app::tests::dark::{Dark, dark_in};
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
        let Dialog::Orders(listed) = dark.window.dialog.clone() else { panic!("no list") };
        assert_eq!(listed.all.iter().map(|(path, _)| path.clone()).collect::<Vec<_>>(), orders_in(folder.path()));
        dark.do_action(Action::ShowTogether);
        assert!(dark.seen().texts.iter().any(|t| t == Mine::CHOOSE_ORDERS));
        dark.do_action(Action::CloseDialog);
        dark.do_action(Action::Wearer("Solveig".to_owned()));
        dark.do_action(Action::Keep);
        assert!(dark.window.session.is_kept() && std::fs::read_to_string(&file).unwrap().contains("Solveig"));
        dark.do_action(Action::KeepCopy);
        assert_ne!(dark.window.session.path(), Some(&*file));
        dark.do_action(Action::KeepPicture);
        dark.do_action(Action::MakePapers);
        dark.do_action(Action::Turn(Page::Price));
        dark.tap(Mine::SLIP);
        assert!(dark.window.session.is_kept() && dark.window.session.order().terms.quoted_on.is_some());
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
        assert!(matches!(&dark.window.said, Some(Said::Wants { words, .. }) if words.contains("broke off")));
        dark.do_action(Action::Wearer("Solveig".to_owned()));
        dark.do_action(Action::Keep);
        assert!(dark.window.session.is_kept() && std::fs::read_to_string(&file).unwrap().contains("Solveig"));
    }

    fn never() -> crate::session::Session {
        panic!("nothing follows from what broke off")
    }

    #[test]
    fn what_follows_for_one_order_is_not_done_to_the_next() {
        let folder = tempfile::tempdir().unwrap();
        let (mut dark, file) = dark_in(folder.path(), "03-full");
        dark.do_action(Action::Wearer("Solveig".to_owned()));
        let ctx = dark.ctx.clone();
        dark.window.run(&ctx, Action::Keep);
        let (stock, style) = (dark.window.shop.stock().clone(), dark.window.shop.style().clone());
        dark.window.take_up(crate::session::Session::fresh(stock, style), &[]);
        dark.window.finish_files(&ctx);
        assert_eq!((dark.window.session.path(), dark.window.said.clone()), (None, None));
        assert!(std::fs::read_to_string(&file).unwrap().contains("Solveig"), "it is saved all the same");
    }

    #[test]
    fn what_is_done_while_another_order_is_read_is_asked_about() {
        let folder = tempfile::tempdir().unwrap();
        let (mut dark, file) = dark_in(folder.path(), "03-full");
        let ctx = dark.ctx.clone();
        let other = folder.path().join("orders/01-petite.ron");
        dark.window.run(&ctx, Action::Open(other.clone()));
        dark.window.run(&ctx, Action::Wearer("Solveig".to_owned()));
        dark.window.finish_files(&ctx);
        assert_eq!(dark.window.session.path(), Some(&*file));
        assert!(matches!(&dark.window.dialog, Dialog::Leave(_)));
        dark.do_action(Action::KeepAndGoOn);
        assert_eq!(dark.window.session.path(), Some(&*other));
        assert!(std::fs::read_to_string(&file).unwrap().contains("Solveig"));
    }

    #[test]
    fn a_window_that_closes_waits_for_what_is_being_saved() {
        let folder = tempfile::tempdir().unwrap();
        let (mut dark, file) = dark_in(folder.path(), "03-full");
        dark.do_action(Action::Wearer("Solveig".to_owned()));
        let ctx = dark.ctx.clone();
        dark.window.run(&ctx, Action::Keep);
        close(&mut dark);
        assert_eq!(dark.window.dialog, Dialog::None, "nothing is left to be asked about");
        assert!(std::fs::read_to_string(&file).unwrap().contains("Solveig"));
    }

    fn close(dark: &mut Dark) {
        let mut input = egui::RawInput::default();
        input.viewports.entry(egui::ViewportId::ROOT).or_default().events.push(egui::ViewportEvent::Close);
        dark.frame_of(input);
    }
}
