//! Files of the shop, away from the window's thread: a job reads or writes, one after the other on a thread of their own; what
//! follows from it is done in the window before its next frame.

use std::path::{Path, PathBuf};
use std::time::Duration;

use egui::Context;

use crate::app::workers::worker::{JobReporter, Worker, WorkerEvent, WorkerPolicy};
use crate::book::Change;
use crate::session::{OrderToSave, SaveReceipt};
use crate::stock::Stock;
use crate::store::{
    FileStamp, LockState, OrderIndex, OrderLock, Shop, StockOnDisk, StockToSave, StoreError, read_order, save_order,
};

/// A window that closes waits at most so long for its files: far more than a slow disk takes, and not for ever.
const WAIT_ON_CLOSING: Duration = Duration::from_secs(10);

/// Done to files; returns what follows from it in the window.
pub(crate) type FileJob<W> = Box<dyn FnOnce(&mut FileDesk) -> FollowUp<W> + Send>;
/// What follows from a job in a window `W`.
pub(crate) type FollowUp<W> = Box<dyn FnOnce(&mut W, &Context) + Send>;

/// How a job ended.
pub(crate) enum JobEnd<W> {
    /// It is done; what follows from it is to be done in the window.
    Done(FollowUp<W>),
    /// It broke off.
    BrokeOff,
}

/// What the thread of the files remembers from one job to the next.
#[derive(Default)]
pub(crate) struct FileDesk {
    pub(crate) index: OrderIndex,
    /// The file of the open order, and what came of asking for its lock.
    held: Option<(PathBuf, LockState)>,
    last_save: Option<LastSave>,
    /// The file of the shop's style as it was saved last: a save that was asked for before one was done follows on that one.
    saved_style: Option<(PathBuf, FileStamp)>,
    /// `shop.ron` as we have written it, one save after the other; before them as it was found.
    shop_saves: Vec<FileStamp>,
    /// The stock list as it was last saved from here, and where.
    last_stock: Option<(PathBuf, StockOnDisk)>,
}

/// The last save that succeeded.
struct LastSave {
    nth_order: u64,
    /// What the window knew of the file when it asked.
    origin: (Option<PathBuf>, Option<FileStamp>),
    receipt: SaveReceipt,
}

/// What came of saving.
pub(crate) enum SaveOutcome {
    Saved(SaveReceipt),
    /// Another window has the order open.
    OpenElsewhere,
    Refused(StoreError),
}

impl FileDesk {
    /// Saves what a shop says of itself.
    pub(crate) fn save_details(&mut self, shop: &Shop) -> Result<FileStamp, StoreError> {
        let newest = self.newest_of(shop);
        let stamp = shop.save_details(newest)?;
        self.shop_saves.push(stamp);
        Ok(stamp)
    }

    /// `shop.ron` as it stands by our own saves. What a shop knows of it may be from before the window heard of the last one.
    fn newest_of(&mut self, shop: &Shop) -> Option<FileStamp> {
        let known = shop.known_stamp();
        if !known.is_some_and(|known| self.shop_saves.contains(&known)) {
            self.shop_saves = known.into_iter().collect();
        }
        self.shop_saves.last().copied()
    }

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

    /// Saves the style of a shop; returns its file as it is then.
    pub(crate) fn save_style(&mut self, shop: &mut Shop) -> Result<Option<(PathBuf, FileStamp)>, StoreError> {
        let asked = shop.style_on_disk().map(|(path, _)| path);
        if let Some(saved) = self.saved_style.take().filter(|(path, _)| Some(path) == asked || asked.is_none()) {
            shop.style_was_saved(Some(saved));
        }
        // Where the style has another name, `shop.ron` is written too.
        if let Some(newest) = self.newest_of(shop) {
            shop.details_saved(newest);
        }
        let done = shop.save_own_style();
        self.shop_saves.extend(shop.known_stamp().filter(|stamp| self.shop_saves.last() != Some(stamp)));
        self.saved_style = shop.style_on_disk().cloned();
        done.map(|()| self.saved_style.clone())
    }

    /// Saves the so manyth order that was opened in its file, or in a new one of the shop.
    pub(crate) fn save(&mut self, order: OrderToSave, nth_order: u64, shop: &Shop) -> SaveOutcome {
        let (path, stamp) = order.origin();
        let origin = (path.map(Path::to_owned), stamp);
        // Asked for before the window heard of the save before: the file has changed since, but by our own hand.
        let earlier = self.last_save.as_ref().filter(|last| last.nth_order == nth_order && last.origin == origin);
        let order = match earlier {
            Some(earlier) => order.after(&earlier.receipt),
            None => order,
        };
        if order.path().is_some() && self.follow(order.path()) {
            return SaveOutcome::OpenElsewhere;
        }
        let order = self.numbered(order, shop);
        match order.save(|order| shop.new_order_file(order)) {
            Ok(saved) => {
                self.last_save = Some(LastSave { nth_order, origin, receipt: saved.clone() });
                SaveOutcome::Saved(saved)
            }
            Err(refusal) => SaveOutcome::Refused(refusal),
        }
    }

    /// The order under the next number of the shop, unless it has one.
    fn numbered(&mut self, order: OrderToSave, shop: &Shop) -> OrderToSave {
        if order.order().number.is_some() { order } else { order.numbered(self.next_number(shop)) }
    }

    /// The number after all that the orders of the shop have.
    pub(crate) fn next_number(&mut self, shop: &Shop) -> u32 {
        self.index.refresh(shop);
        self.index.next_number()
    }
}

/// Changes an order in its file while nobody has it open. Why that cannot be done is a sentence.
pub(crate) fn change_order(path: &Path, change: &Change, shop: &Shop) -> Result<(), String> {
    let lock = OrderLock::try_acquire(path);
    if matches!(lock, LockState::HeldElsewhere) {
        return Err("Not changed: this order is open in another window.".to_owned());
    }
    let read = read_order(path, shop.stock()).map_err(|refusal| refusal.to_string())?;
    let after = read.order.apply(change, shop.stock()).map_err(|refusal| refusal.to_string())?;
    save_order(path, &after, Some(&read.stamp)).map(|_| ()).map_err(|refusal| refusal.to_string())
}

/// The thread of the files for a window `W`, and which order is open.
pub(crate) struct ShopFiles<W> {
    worker: Worker<FileJob<W>, FollowUp<W>>,
    /// The so manyth order that was opened in this window: what follows for one is not done to another.
    nth_order: u64,
}

impl FileDesk {
    /// Saves a stock list; returns also the name of a copy, where the file held remarks.
    pub(crate) fn save_stock(&mut self, list: StockToSave) -> Result<(StockOnDisk, Option<String>), StoreError> {
        // Asked for before the window heard of the save before: the file has changed since, but by our own hand.
        let earlier = self.last_stock.as_ref().filter(|(path, _)| path == list.path()).map(|(_, on_disk)| *on_disk);
        let list = list.after(earlier);
        let saved = list.save()?;
        self.last_stock = Some((list.path().to_owned(), saved.0));
        Ok(saved)
    }

    /// Reads a stock list that another program has changed.
    pub(crate) fn read_stock_again(&mut self, shop: &Shop, base: &Stock) -> Result<(Stock, StockOnDisk), StoreError> {
        let (path, stock, on_disk) = shop.stock_now_on_disk(base)?;
        self.last_stock = Some((path, on_disk));
        Ok((stock, on_disk))
    }
}

impl<W: 'static> ShopFiles<W> {
    pub(crate) fn new(ctx: &Context) -> Self {
        let worker = Worker::new("shop files", ctx, WorkerPolicy::InTurn, || {
            let mut desk = FileDesk::default();
            move |job: FileJob<W>, reporter: &JobReporter<FollowUp<W>>| reporter.report(job(&mut desk))
        });
        Self { worker, nth_order: 0 }
    }

    /// Another order is open now.
    pub(crate) fn next_order(&mut self) {
        self.nth_order += 1;
    }

    /// The so manyth order that was opened.
    pub(crate) fn nth_order(&self) -> u64 {
        self.nth_order
    }

    /// Does a job when those before it are done.
    pub(crate) fn request(&mut self, job: FileJob<W>) {
        self.worker.request(job);
    }

    /// How the jobs ended that have ended since.
    pub(crate) fn poll(&mut self) -> Vec<JobEnd<W>> {
        self.worker.poll().into_iter().filter_map(end_of).collect()
    }

    /// Waits for the next job to end; nothing when there is none, or it takes too long.
    pub(crate) fn wait(&mut self) -> Option<JobEnd<W>> {
        std::iter::from_fn(|| self.worker.wait(WAIT_ON_CLOSING)).find_map(end_of)
    }
}

fn end_of<W>(event: WorkerEvent<FollowUp<W>>) -> Option<JobEnd<W>> {
    match event {
        WorkerEvent::Reported(_, follow_up) => Some(JobEnd::Done(follow_up)),
        WorkerEvent::Failed(_) => Some(JobEnd::BrokeOff),
        WorkerEvent::Progress(..) => None,
    }
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::*;
    use crate::book::Change;
    use crate::command::Command;
    use crate::session::Session;
    use crate::store::NoFilesHere;

    /// Stands for a window: what was done in it.
    #[derive(Default)]
    struct Done(Vec<String>);

    fn shop() -> (tempfile::TempDir, Shop, Session) {
        let folder = tempfile::tempdir().unwrap();
        let shop = Shop::begin(folder.path(), "Q").unwrap();
        let session = Session::fresh(Arc::clone(shop.stock()), Arc::clone(shop.style()));
        (folder, shop, session)
    }

    fn files() -> ShopFiles<Done> {
        ShopFiles::new(&Context::default())
    }

    fn request(files: &mut ShopFiles<Done>, job: impl FnOnce(&mut FileDesk) -> String + Send + 'static) {
        files.request(Box::new(move |desk| {
            let found = job(desk);
            Box::new(move |window: &mut Done, _| window.0.push(found))
        }));
    }

    /// What was done in the window once all jobs are done; `broke off` for one that did.
    fn done(files: &mut ShopFiles<Done>) -> Vec<String> {
        let mut window = Done::default();
        while let Some(follow_up) = files.wait() {
            match follow_up {
                JobEnd::Done(follow_up) => follow_up(&mut window, &Context::default()),
                JobEnd::BrokeOff => window.0.push("broke off".to_owned()),
            }
        }
        window.0
    }

    fn save(files: &mut ShopFiles<Done>, order: OrderToSave, shop: &Shop) {
        let shop = shop.clone();
        request(files, move |desk| match desk.save(order, 0, &shop) {
            SaveOutcome::Saved(_) => "saved".to_owned(),
            SaveOutcome::OpenElsewhere => "open elsewhere".to_owned(),
            SaveOutcome::Refused(refusal) => refusal.to_string(),
        });
    }

    #[test]
    fn the_asking_thread_touches_no_file_and_jobs_are_done_in_their_order() {
        let (_folder, shop, session) = shop();
        let guard = NoFilesHere::begin();
        let mut files = files();
        let in_list = |files: &mut ShopFiles<Done>| {
            let shop = shop.clone();
            request(files, move |desk| {
                desk.index.refresh(&shop);
                format!("{} listed", desk.index.rows().len())
            });
        };
        in_list(&mut files);
        save(&mut files, session.to_save(), &shop);
        in_list(&mut files);
        assert_eq!(done(&mut files), ["0 listed", "saved", "1 listed"]);
        drop(guard);
    }

    #[test]
    fn saves_that_are_asked_for_before_the_one_before_is_done_go_into_one_file() {
        let (folder, shop, mut session) = shop();
        let mut files = files();
        for wearer in ["Ada", "Ada B", "Ada Brook"] {
            session.run(&Command::Change(Change::Wearer(wearer.to_owned()))).unwrap();
            save(&mut files, session.to_save(), &shop);
        }
        assert_eq!(done(&mut files), ["saved"; 3]);
        let entries = std::fs::read_dir(folder.path().join("orders")).unwrap().flatten().map(|entry| entry.path());
        let orders: Vec<PathBuf> = entries.filter(|path| path.extension().is_some_and(|e| e == "ron")).collect();
        assert_eq!(orders.len(), 1, "{orders:?}");
        assert!(std::fs::read_to_string(&orders[0]).unwrap().contains("Ada Brook"));
    }

    #[test]
    fn orders_are_counted_up_and_one_that_has_a_number_keeps_it() {
        let (folder, shop, mut first) = shop();
        let mut files = files();
        let number = |name: &str| {
            let text = std::fs::read_to_string(folder.path().join("orders").join(name)).unwrap();
            text.lines().find_map(|line| line.trim().strip_prefix("number: ").map(str::to_owned)).unwrap()
        };
        first.run(&Command::Change(Change::Wearer("Ada".to_owned()))).unwrap();
        save(&mut files, first.to_save(), &shop);
        // Before the window heard of its number.
        first.run(&Command::Change(Change::Wearer("Ada B".to_owned()))).unwrap();
        save(&mut files, first.to_save(), &shop);
        let mut other = Session::fresh(Arc::clone(shop.stock()), Arc::clone(shop.style()));
        other.run(&Command::Change(Change::Wearer("Ida".to_owned()))).unwrap();
        let order = other.to_save();
        let its_shop = shop.clone();
        request(&mut files, move |desk| match desk.save(order, 1, &its_shop) {
            SaveOutcome::Saved(_) => "saved".to_owned(),
            SaveOutcome::OpenElsewhere | SaveOutcome::Refused(_) => "not saved".to_owned(),
        });
        assert_eq!(done(&mut files), ["saved"; 3]);
        let names: Vec<String> = ["ada", "ida"]
            .map(|name| {
                let size = other.order().size.clone().unwrap_or_default().to_lowercase();
                format!("{name}-{size}.ron").replace("-.ron", ".ron")
            })
            .into();
        assert_eq!((number(&names[0]).as_str(), number(&names[1]).as_str()), ("101,", "102,"));
    }

    #[test]
    fn a_file_that_another_program_changed_between_two_saves_is_not_written_over() {
        let (folder, shop, mut session) = shop();
        let file = folder.path().join("orders/mina.ron");
        let mut files = files();
        let receipt = session.to_save().save_as(&file).unwrap();
        session.was_saved(receipt);
        save(&mut files, session.to_save(), &shop);
        assert_eq!(done(&mut files), ["saved"]);
        std::fs::write(&file, "by another hand").unwrap();
        save(&mut files, session.to_save(), &shop);
        assert_ne!(done(&mut files), ["saved"]);
        assert_eq!(std::fs::read_to_string(&file).unwrap(), "by another hand");
    }

    #[test]
    fn a_job_that_breaks_off_is_told_and_the_next_one_works() {
        let (_folder, shop, session) = shop();
        let mut files = files();
        request(&mut files, |_| panic!("asked to break off"));
        save(&mut files, session.to_save(), &shop);
        assert_eq!(done(&mut files), ["broke off", "saved"]);
    }

    #[test]
    fn an_order_open_in_another_window_is_not_saved_until_that_is_gone() {
        let (folder, shop, mut session) = shop();
        let file = folder.path().join("orders/mina.ron");
        session.save_as(&file).unwrap();
        let (mut first, mut second) = (files(), files());
        let follow = |files: &mut ShopFiles<Done>| {
            let file = file.clone();
            request(files, move |desk| format!("elsewhere: {}", desk.follow(Some(&file))));
            done(files)
        };
        assert_eq!(
            (follow(&mut first), follow(&mut second)),
            (vec!["elsewhere: false".into()], vec!["elsewhere: true".into()])
        );
        save(&mut second, session.to_save(), &shop);
        assert_eq!(done(&mut second), ["open elsewhere"]);
        drop(first);
        save(&mut second, session.to_save(), &shop);
        assert_eq!(done(&mut second), ["saved"]);
    }
}
