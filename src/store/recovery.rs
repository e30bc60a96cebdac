//! Recovery copies: what was changed and not kept yet, on the disk within ten seconds, for the day the power goes.
//!
//! A copy is an order file like any other, its first line a remark that names the file it belongs to. A worker writes it;
//! the window only hands the order over. A lock beside it tells that its window still lives. What a dead window left is
//! offered at the next start and never applied by itself.

use std::fs;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::mpsc::{Receiver, RecvTimeoutError, Sender, channel};
use std::thread::JoinHandle;
use std::time::{Duration, Instant, SystemTime};

use super::locks::{LockState, OrderLock};
use super::order_file::{order_from_text, order_to_text, read_order};
use super::places::write_bytes;
use super::reading::{bytes_of, name_of, text_of};
use super::refusal::{Cause, StoreError};
use super::shop::make_folder;
use crate::book::Order;
use crate::stock::Stock;

/// Longest time that a change is only in memory.
const WITHIN: Duration = Duration::from_secs(10);
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
    to_worker: Option<Sender<CopyMessage>>,
    worker: Option<JoinHandle<()>>,
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
        make_folder(folder)?;
        let places = (1..=MOST_WINDOWS).map(|n| folder.join(format!("window-{n}.ron")));
        let free = places.filter(|path| !path.exists()).find_map(|path| match OrderLock::try_acquire(&path) {
            LockState::Acquired(lock) => Some((path, lock)),
            LockState::HeldElsewhere | LockState::Unsupported => None,
        });
        let (path, lock) = free.ok_or_else(|| StoreError::new(&name_of(folder), Cause::ReadOnlyFolder))?;
        let (to_worker, from_window) = channel();
        let target = path.clone();
        let worker = std::thread::Builder::new().spawn(move || work(&from_window, &target, WITHIN)).ok();
        Ok(Self { path, to_worker: Some(to_worker), worker, _lock: lock })
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

    /// The order is kept in its own file; the copy goes.
    pub fn saved(&self) {
        self.send(CopyMessage::Saved);
    }

    /// Writes at once: before something risky, or when the window loses the keyboard.
    pub fn flush(&self) {
        let (answer, _) = channel();
        self.send(CopyMessage::Flush(answer));
    }

    /// Writes at once and waits for it: about the time of one keeping. `false` when what waited could not be
    /// written.
    pub fn flush_and_wait(&self) -> bool {
        let (answer, answered) = channel();
        self.send(CopyMessage::Flush(answer));
        answered.recv().unwrap_or(false)
    }

    fn send(&self, message: CopyMessage) {
        // A worker that is gone cannot be told; keeping still works without it.
        drop(self.to_worker.as_ref().map(|worker| worker.send(message)));
    }
}

/// What is not written yet is written before the window goes.
impl Drop for Recovery {
    fn drop(&mut self) {
        drop(self.to_worker.take());
        drop(self.worker.take().map(JoinHandle::join));
    }
}

/// Waits for changes and writes the last one when its time has come.
fn work(from_window: &Receiver<CopyMessage>, target: &Path, within: Duration) {
    let mut waiting: Option<(Arc<Order>, Option<PathBuf>, Instant)> = None;
    loop {
        let message = match &waiting {
            None => from_window.recv().map_err(RecvTimeoutError::from),
            Some((_, _, due)) => from_window.recv_timeout(due.saturating_duration_since(Instant::now())),
        };
        match message {
            Ok(CopyMessage::Changed { order, of }) => {
                let due = waiting.map_or_else(|| Instant::now() + within, |(_, _, due)| due);
                waiting = Some((order, of, due));
            }
            Ok(CopyMessage::Saved) => {
                waiting = None;
                // A copy that cannot be taken away says the same as what was kept, and is not offered.
                drop(fs::remove_file(target));
            }
            Ok(CopyMessage::Flush(answer)) => {
                let written = write(&mut waiting, target);
                // Who asked need not wait for the answer.
                answer.send(written).ok();
            }
            Err(RecvTimeoutError::Timeout) => {
                write(&mut waiting, target);
            }
            Err(RecvTimeoutError::Disconnected) => {
                write(&mut waiting, target);
                return;
            }
        }
    }
}

/// Writes what waits. A full disk is told when the order itself is kept; the next change tries again.
fn write(waiting: &mut Option<(Arc<Order>, Option<PathBuf>, Instant)>, target: &Path) -> bool {
    let Some((order, of, _)) = waiting.take() else { return true };
    let of = of.map(|of| name_of(&of)).filter(|name| !name.contains(char::is_control));
    let text = format!("{OF}{}\n{}", of.unwrap_or_default(), order_to_text(&order));
    write_bytes(target, text.as_bytes()).is_ok()
}

/// What dead windows left in `folder` that is not kept, newest first. A copy that says what its file says goes, and so do
/// the oldest beyond five.
pub fn left_over(folder: &Path, stock: &Stock) -> Vec<LeftOver> {
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

/// A copy whose window is dead and whose order differs from what is kept. What cannot be read is left alone.
fn left(path: &Path, stock: &Stock) -> Option<LeftOver> {
    let LockState::Acquired(_lock) = OrderLock::try_acquire(path) else { return None };
    let name = name_of(path);
    let bytes = bytes_of(path).ok()?;
    let text = text_of(&bytes, &name).ok()?;
    let order = order_from_text(text, &name, stock).ok()?;
    let of = text.lines().next().and_then(|line| line.strip_prefix(OF)).map(str::trim).filter(|of| !of.is_empty());
    let of = of.map(PathBuf::from);
    let kept = of.as_ref().and_then(|of| read_order(of, stock).ok());
    if kept.is_some_and(|kept| kept.order == order) {
        drop(fs::remove_file(path));
        return None;
    }
    let written = |path: &Path| fs::metadata(path).and_then(|m| m.modified()).ok();
    let at = written(path)?;
    let saved_since = of.as_deref().and_then(written).is_some_and(|kept| kept > at);
    Some(LeftOver { path: path.to_owned(), order, of, at, saved_since })
}

impl LeftOver {
    /// The copy was taken or is not wanted: it goes.
    pub fn discard(&self) -> Result<(), StoreError> {
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
    fn what_a_dead_window_left_is_offered_and_what_is_kept_is_not() {
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
        assert!(left_over(&copies, &stock).is_empty(), "it is kept now");
        assert!(!left[0].path.exists());
    }

    #[test]
    fn keeping_takes_the_copy_away() {
        let (folder, stock) = (tempfile::tempdir().unwrap(), built_in_stock());
        let recovery = Recovery::begin(folder.path()).unwrap();
        recovery.changed(&order("Mina", &stock), None);
        recovery.flush();
        recovery.saved();
        let path = recovery.path().to_owned();
        drop(recovery);
        assert!(!path.exists() && left_over(folder.path(), &stock).is_empty());
    }

    #[test]
    fn a_change_is_written_when_its_time_has_come_and_later_changes_do_not_put_it_off() {
        let (folder, stock) = (tempfile::tempdir().unwrap(), built_in_stock());
        let (to_worker, from_window) = channel();
        let path = folder.path().join("window-1.ron");
        for wearer in ["M", "Mi", "Mina"] {
            to_worker.send(CopyMessage::Changed { order: order(wearer, &stock), of: None }).unwrap();
        }
        let mut waiting = Some((order("first", &stock), None, Instant::now()));
        assert!(write(&mut waiting, &path));
        assert_eq!((waiting.is_none(), read_order(&path, &stock).unwrap().order.wearer.as_str()), (true, "first"));
        drop(to_worker);
        work(&from_window, &path, Duration::ZERO);
        assert_eq!(read_order(&path, &stock).unwrap().order.wearer, "Mina");
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
