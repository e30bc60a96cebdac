//! Recovery copies: what was changed and not saved yet, on the disk within ten seconds, for the day the power goes.
//!
//! A copy is an order file like any other, its first line a remark that names the file it belongs to. A worker writes it;
//! the window only hands the order over; a panic anywhere in the program has it written at once. A lock beside it shows
//! that its window still lives. What a dead window left is offered at the next start and never applied by itself.

use std::fs;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::mpsc::{Receiver, RecvTimeoutError, Sender, channel};
use std::thread::JoinHandle;
use std::time::{Duration, Instant, SystemTime};

use super::locks::{LockState, OrderLock};
use super::log_file::{LogEvent, log_event};
use super::order_file::{order_from_text, order_to_text, read_order};
use super::panic_hook::{SaveAtPanic, save_at_panic};
use super::places::write_bytes;
use super::reading::{bytes_of, name_of, text_of};
use super::shop::make_folder;
use super::store_error::{Cause, StoreError};
use crate::book::Order;
use crate::stock::Stock;

/// Longest time that a change is only in memory.
const WITHIN: Duration = Duration::from_secs(10);
/// Longest wait for a copy when the program panics; our choice, many times what a full disk takes to answer.
const PANIC_PATIENCE: Duration = Duration::from_secs(3);
/// Copies of dead windows that are left lying; our choice. The oldest beyond it go.
const MOST_LEFT: usize = 5;
/// Windows that may have a copy at once; our choice.
const MOST_WINDOWS: u32 = 1000;
/// How the remark begins that names the file a copy belongs to.
const OF: &str = "// of: ";

/// The recovery copy of one window.
#[derive(Debug)]
pub struct Recovery {
    path: PathBuf,
    to_worker: Sender<CopyMessage>,
    worker: Option<JoinHandle<()>>,
    _at_panic: SaveAtPanic,
    _lock: OrderLock,
}

enum CopyMessage {
    Changed {
        order: Arc<Order>,
        of: Option<PathBuf>,
    },
    Saved,
    /// Write at once, and answer whether nothing is only in memory any more.
    Flush(Sender<bool>),
    /// Write what waits, and end.
    End,
}

/// A copy that a dead window left.
#[derive(Clone, Debug, PartialEq)]
pub struct LeftOver {
    /// The copy.
    pub path: PathBuf,
    /// The order in it.
    pub order: Order,
    /// The file it belongs to, when it had one.
    pub of: Option<PathBuf>,
    /// When it was written.
    pub at: SystemTime,
    /// Whether its file was written again after that.
    pub saved_since: bool,
}

impl Recovery {
    /// Begins a copy in `folder`, which is made if need be. Refused when it cannot be written or locked there.
    pub fn begin(folder: &Path) -> Result<Self, StoreError> {
        super::thread_guard::touch_disk();
        make_folder(folder)?;
        let places = (1..=MOST_WINDOWS).map(|n| folder.join(format!("window-{n}.ron")));
        let free = places.filter(|path| !path.exists()).find_map(|path| match OrderLock::try_acquire(&path) {
            LockState::Acquired(lock) => Some((path, lock)),
            LockState::HeldElsewhere | LockState::Unsupported => None,
        });
        let (path, lock) = free.ok_or_else(|| StoreError::new(&name_of(folder), Cause::ReadOnlyFolder))?;
        let (to_worker, from_window) = channel();
        let target = path.clone();
        let work = move || work(&from_window, &target, &Instant::now);
        let worker = std::thread::Builder::new().name("recovery".to_owned()).spawn(work).ok();
        let (at_panic, own) = (to_worker.clone(), worker.as_ref().map(|worker| worker.thread().id()));
        let at_panic = save_at_panic(move || own != Some(std::thread::current().id()) && flush_through(&at_panic));
        Ok(Self { path, to_worker, worker, _at_panic: at_panic, _lock: lock })
    }

    /// Where the copy lies.
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// The order has changed; it is written within ten seconds. `of` is the file it belongs to. Costs no more than a
    /// pointer.
    pub fn changed(&self, order: &Arc<Order>, of: Option<&Path>) {
        self.send(CopyMessage::Changed { order: Arc::clone(order), of: of.map(Path::to_path_buf) });
    }

    /// The order is saved in its own file; the copy goes.
    pub fn saved(&self) {
        self.send(CopyMessage::Saved);
    }

    /// Writes at once: before something risky, or when the window loses the keyboard.
    pub fn flush(&self) {
        let (answer, _) = channel();
        self.send(CopyMessage::Flush(answer));
    }

    /// Writes at once and waits for it: about the time of one saving. `false` when what waited could not be
    /// written.
    pub fn flush_and_wait(&self) -> bool {
        self.start_flush().recv().unwrap_or(false)
    }

    /// Writes at once; the answer is whether nothing is only in memory any more, and there is none where no copy can be
    /// written.
    pub fn start_flush(&self) -> Receiver<bool> {
        let (answer, answered) = channel();
        self.send(CopyMessage::Flush(answer));
        answered
    }

    fn send(&self, message: CopyMessage) {
        // A worker that is gone receives nothing; saving still works without it.
        self.to_worker.send(message).ok();
    }
}

/// Has the copy written at once from a thread that panics. `false` when the answer does not come in time.
fn flush_through(to_worker: &Sender<CopyMessage>) -> bool {
    let (answer, answered) = channel();
    to_worker.send(CopyMessage::Flush(answer)).is_ok() && answered.recv_timeout(PANIC_PATIENCE).unwrap_or(false)
}

/// What is not written yet is written before the window goes.
impl Drop for Recovery {
    fn drop(&mut self) {
        self.send(CopyMessage::End);
        drop(self.worker.take().map(JoinHandle::join));
    }
}

/// A change that is only in memory, and since when.
struct Unwritten {
    order: Arc<Order>,
    of: Option<PathBuf>,
    since: Instant,
}

impl Unwritten {
    /// A change at this moment, after what is not written yet: that does not put off when the first one is due.
    fn after(earlier: Option<Self>, order: Arc<Order>, of: Option<PathBuf>, now: Instant) -> Self {
        Self { order, of, since: earlier.map_or(now, |earlier| earlier.since) }
    }

    /// When it must be on the disk.
    fn due(&self) -> Instant {
        self.since + WITHIN
    }
}

/// Waits for changes and writes the last one when its time has come. `clock` returns the present moment.
fn work(from_window: &Receiver<CopyMessage>, target: &Path, clock: &dyn Fn() -> Instant) {
    let mut unwritten: Option<Unwritten> = None;
    loop {
        match next_message(from_window, unwritten.as_ref(), clock()) {
            Ok(CopyMessage::Changed { order, of }) => {
                unwritten = Some(Unwritten::after(unwritten, order, of, clock()));
            }
            Ok(CopyMessage::Saved) => {
                unwritten = None;
                // A copy that cannot be removed says the same as what was saved, and is not offered.
                fs::remove_file(target).ok();
            }
            Ok(CopyMessage::Flush(answer)) => {
                let is_written = write(unwritten.take(), target);
                // Who asked need not wait for the answer.
                answer.send(is_written).ok();
            }
            Err(RecvTimeoutError::Timeout) => {
                write(unwritten.take(), target);
            }
            Ok(CopyMessage::End) | Err(RecvTimeoutError::Disconnected) => {
                write(unwritten.take(), target);
                return;
            }
        }
    }
}

/// The next message; a timeout once what is not written yet is due.
fn next_message(
    from_window: &Receiver<CopyMessage>,
    unwritten: Option<&Unwritten>,
    now: Instant,
) -> Result<CopyMessage, RecvTimeoutError> {
    match unwritten {
        None => from_window.recv().map_err(RecvTimeoutError::from),
        Some(unwritten) => from_window.recv_timeout(unwritten.due().saturating_duration_since(now)),
    }
}

/// Writes what is not written yet. A full disk is reported when the order itself is saved; the next change tries again.
fn write(unwritten: Option<Unwritten>, target: &Path) -> bool {
    let Some(Unwritten { order, of, .. }) = unwritten else { return true };
    let of = of.map(|of| name_of(&of)).filter(|name| !name.contains(char::is_control));
    let text = format!("{OF}{}\n{}", of.unwrap_or_default(), order_to_text(&order));
    let written = write_bytes(target, text.as_bytes());
    written.inspect_err(|refusal| log_event(&LogEvent::CopyNotWritten(refusal.cause.name()))).is_ok()
}

/// What dead windows left in `folder` that is not saved, newest first. A copy that says what its file says goes, and so do
/// the oldest beyond five.
pub fn left_over(folder: &Path, stock: &Stock) -> Vec<LeftOver> {
    super::thread_guard::touch_disk();
    let Ok(entries) = fs::read_dir(folder) else { return Vec::new() };
    let copies = entries.flatten().map(|e| e.path()).filter(|p| p.extension().is_some_and(|e| e == "ron"));
    let mut found: Vec<LeftOver> = copies.filter_map(|path| left(&path, stock)).collect();
    found.sort_by(|a, b| b.at.cmp(&a.at).then_with(|| a.path.cmp(&b.path)));
    for old in found.iter().skip(MOST_LEFT) {
        drop(fs::remove_file(&old.path));
    }
    found.truncate(MOST_LEFT);
    found
}

/// A copy whose window is dead and whose order differs from what is saved. What cannot be read is left alone.
fn left(path: &Path, stock: &Stock) -> Option<LeftOver> {
    let LockState::Acquired(_lock) = OrderLock::try_acquire(path) else { return None };
    let name = name_of(path);
    let bytes = bytes_of(path).ok()?;
    let text = text_of(&bytes, &name).ok()?;
    let order = order_from_text(text, &name, stock).ok()?;
    let of = text.lines().next().and_then(|line| line.strip_prefix(OF)).map(str::trim).filter(|of| !of.is_empty());
    let of = of.map(PathBuf::from);
    let saved = of.as_ref().and_then(|of| read_order(of, stock).ok());
    if saved.is_some_and(|saved| saved.order == order) {
        drop(fs::remove_file(path));
        return None;
    }
    let written = |path: &Path| fs::metadata(path).and_then(|m| m.modified()).ok();
    let at = written(path)?;
    let saved_since = of.as_deref().and_then(written).is_some_and(|saved| saved > at);
    Some(LeftOver { path: path.to_owned(), order, of, at, saved_since })
}

impl LeftOver {
    /// The copy was taken or is not wanted: it goes.
    pub fn discard(&self) -> Result<(), StoreError> {
        super::thread_guard::touch_disk();
        fs::remove_file(&self.path).map_err(|e| StoreError::new(&name_of(&self.path), Cause::of_saving(&e)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::book::Change;
    use crate::store::{built_in_stock, save_order};

    fn order(wearer: &str, stock: &Stock) -> Arc<Order> {
        let blank = Order::blank(None, stock);
        Arc::new(blank.apply(&Change::Wearer(wearer.to_owned()), stock).unwrap())
    }

    #[test]
    fn what_a_dead_window_left_is_offered_and_what_is_saved_is_not() {
        let (folder, stock) = (tempfile::tempdir().unwrap(), built_in_stock());
        let copies = folder.path().join("recovery");
        let file = folder.path().join("mina.ron");
        let recovery = Recovery::begin(&copies).unwrap();
        recovery.changed(&order("Min", &stock), Some(&file));
        recovery.changed(&order("Mina", &stock), Some(&file));
        assert!(recovery.flush_and_wait() && recovery.path().exists());
        assert!(left_over(&copies, &stock).is_empty(), "its window lives");
        drop(recovery);
        let left = left_over(&copies, &stock);
        assert_eq!((left.len(), &left[0].order, left[0].of.as_deref()), (1, &*order("Mina", &stock), Some(&*file)));
        assert_eq!(left_over(&copies, &stock).len(), 1, "offered again until it is taken");
        save_order(&file, &left[0].order, None).unwrap();
        assert!(left_over(&copies, &stock).is_empty(), "it is saved now");
        assert!(!left[0].path.exists());
    }

    #[test]
    fn saving_removes_the_copy() {
        let (folder, stock) = (tempfile::tempdir().unwrap(), built_in_stock());
        let recovery = Recovery::begin(folder.path()).unwrap();
        recovery.changed(&order("Mina", &stock), None);
        recovery.flush();
        recovery.saved();
        let path = recovery.path().to_owned();
        drop(recovery);
        assert!(!path.exists() && left_over(folder.path(), &stock).is_empty());
    }

    /// The promise is ten seconds from the first change, whatever follows it: changes at 0 and 4 s, due at 0 + 10 s.
    #[test]
    fn a_change_is_due_ten_seconds_after_the_first_that_is_not_written() {
        let (stock, began) = (built_in_stock(), Instant::now());
        let after = |seconds: u64| began + Duration::from_secs(seconds);
        let first = Unwritten::after(None, order("M", &stock), None, after(0));
        let second = Unwritten::after(Some(first), order("Mi", &stock), None, after(4));
        assert_eq!((second.due(), second.order.wearer.as_str()), (after(10), "Mi"));
        // With its window alive and silent: at ten seconds the wait is over at once.
        let (_to_worker, from_window) = channel();
        let over = next_message(&from_window, Some(&second), after(10));
        assert!(matches!(over, Err(RecvTimeoutError::Timeout)));
    }

    /// A clock that goes on by ten seconds with each look: the change is due the first time the worker waits.
    #[test]
    fn the_worker_writes_what_is_due_while_its_window_lives_and_says_nothing() {
        let (folder, stock) = (tempfile::tempdir().unwrap(), built_in_stock());
        let path = folder.path().join("window-1.ron");
        let (to_worker, from_window) = channel();
        let (began, target) = (Instant::now(), path.clone());
        let worker = std::thread::spawn(move || {
            let looks = std::cell::Cell::new(0);
            let clock = || began + Duration::from_secs(10) * looks.replace(looks.get() + 1);
            work(&from_window, &target, &clock);
        });
        to_worker.send(CopyMessage::Changed { order: order("Mina", &stock), of: None }).unwrap();
        while !path.exists() {
            assert!(began.elapsed() < Duration::from_secs(8), "nothing was written");
            std::thread::yield_now();
        }
        to_worker.send(CopyMessage::End).unwrap();
        worker.join().unwrap();
        assert_eq!(read_order(&path, &stock).unwrap().order.wearer, "Mina");
    }

    #[test]
    fn a_panic_anywhere_has_the_copy_written() {
        let (folder, stock) = (tempfile::tempdir().unwrap(), built_in_stock());
        let recovery = Recovery::begin(folder.path()).unwrap();
        recovery.changed(&order("Mina", &stock), None);
        assert!(std::thread::scope(|scope| scope.spawn(|| flush_through(&recovery.to_worker)).join()).unwrap());
        assert_eq!(read_order(recovery.path(), &stock).unwrap().order.wearer, "Mina");
    }

    #[test]
    fn two_windows_have_two_copies_and_only_five_dead_ones_stay() {
        let (folder, stock) = (tempfile::tempdir().unwrap(), built_in_stock());
        let first = Recovery::begin(folder.path()).unwrap();
        let second = Recovery::begin(folder.path()).unwrap();
        assert_ne!(first.path(), second.path());
        drop((first, second));
        for n in 0..7 {
            let recovery = Recovery::begin(folder.path()).unwrap();
            recovery.changed(&order(&format!("wearer {n}"), &stock), None);
        }
        fs::write(folder.path().join("window-99.ron"), "(version: 1, wea").unwrap();
        assert_eq!(left_over(folder.path(), &stock).len(), 5);
        assert_eq!(left_over(folder.path(), &stock).len(), 5);
        assert!(folder.path().join("window-99.ron").exists(), "what cannot be read is left alone");
        left_over(folder.path(), &stock)[0].discard().unwrap();
        assert_eq!(left_over(folder.path(), &stock).len(), 4);
    }
}
