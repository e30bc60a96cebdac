//! Who has an order open: a lock in a small file beside it, `.NAME.lock`.
//!
//! A lock on the order's own file would be lost with the first saving, which puts a new file in its place. The system
//! gives the lock back when the program ends in whatever way. Where a disk knows no locks the stamp of the file
//! ([`super::FileStamp`]) still shows that something else wrote it.
//! The lock is the standard library's; ours is where it lies.

use std::ffi::OsString;
use std::fs::{File, OpenOptions, TryLockError};
use std::path::{Path, PathBuf};

/// A lock that is held until it is dropped.
#[derive(Debug)]
pub struct OrderLock {
    _file: File,
}

/// What came of trying to acquire a lock.
#[derive(Debug)]
pub enum LockState {
    /// It was free and is held now.
    Acquired(OrderLock),
    /// Another window has it.
    HeldElsewhere,
    /// This disk or folder has no locks.
    Unsupported,
}

impl OrderLock {
    /// Tries to acquire the lock of the order in this file; never waits.
    pub fn try_acquire(path: &Path) -> LockState {
        super::thread_guard::touch_disk();
        let Some(beside) = beside(path) else { return LockState::Unsupported };
        let opened = OpenOptions::new().create(true).truncate(false).write(true).open(beside);
        let Ok(file) = opened else { return LockState::Unsupported };
        match file.try_lock() {
            Ok(()) => LockState::Acquired(Self { _file: file }),
            Err(TryLockError::WouldBlock) => LockState::HeldElsewhere,
            Err(TryLockError::Error(_)) => LockState::Unsupported,
        }
    }
}

/// The lock file beside a file, links followed so that two names of one file share it.
fn beside(path: &Path) -> Option<PathBuf> {
    let full = std::fs::canonicalize(path).unwrap_or_else(|_| path.to_owned());
    let mut name = OsString::from(".");
    name.push(full.file_name()?);
    name.push(".lock");
    Some(full.with_file_name(name))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_second_window_does_not_get_the_lock_until_the_first_lets_go() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("mina.ron");
        std::fs::write(&path, "x").unwrap();
        let first = OrderLock::try_acquire(&path);
        assert!(matches!(first, LockState::Acquired(_)));
        assert!(matches!(OrderLock::try_acquire(&path), LockState::HeldElsewhere));
        // Saving puts another file in its place; the lock stays.
        std::fs::remove_file(&path).unwrap();
        std::fs::write(&path, "y").unwrap();
        assert!(matches!(OrderLock::try_acquire(&path), LockState::HeldElsewhere));
        drop(first);
        assert!(matches!(OrderLock::try_acquire(&path), LockState::Acquired(_)));
        assert!(matches!(OrderLock::try_acquire(&folder.path().join("gone/mina.ron")), LockState::Unsupported));
    }
}
