//! Files of the shop, away from the window's thread: a job reads or writes, one after the other on a thread of their own; what
//! follows from it is done in the window before its next frame.

use std::path::{Path, PathBuf};
use std::time::Duration;

use egui::Context;

use crate::app::shell::window::Window;
use crate::app::workers::worker::{JobReporter, Worker, WorkerEvent, WorkerPolicy};
use crate::session::{OrderToSave, SavedOrder};
use crate::store::{Hold, Lock, OrderIndex, Refusal, Shop};

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
    held: Option<(PathBuf, Hold)>,
}

/// What came of saving.
pub(crate) enum SaveOutcome {
    Saved(SavedOrder),
    /// Another window has the order open.
    OpenElsewhere,
    Refused(Refusal),
}

impl FileDesk {
    /// Follows the open order to its file. Whether that is open in another window, which is asked each time anew.
    pub(crate) fn follow(&mut self, path: Option<&Path>) -> bool {
        let is_ours = |held: &(PathBuf, Hold)| Some(&*held.0) == path && !matches!(held.1, Hold::Elsewhere);
        if !self.held.as_ref().is_some_and(is_ours) {
            // The lock before goes first: it may be the same one.
            self.held = None;
            self.held = path.map(|path| (path.to_owned(), Lock::ask(path)));
        }
        matches!(self.held, Some((_, Hold::Elsewhere)))
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
