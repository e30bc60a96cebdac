//! Who has an order open: a lock in a small file beside it, `.NAME.lock`.
//!
//! A lock on the order's own file would be lost with the first keeping, which puts a new file in its place. The system
//! gives the lock back when the program ends in whatever way. Where a disk knows no locks the mark of the file
//! ([`super::FileMark`]) still tells that something else wrote it.

use std::ffi::OsString;
use std::fs::{File, OpenOptions, TryLockError};
use std::path::{Path, PathBuf};

/// A lock that is held until it is dropped.
#[derive(Debug)]
pub struct Lock {
    _file: File,
}

/// What came of asking for a lock.
#[derive(Debug)]
pub enum Hold {
    /// It is ours.
    Ours(Lock),
    /// Another window has it.
    Elsewhere,
    /// This disk or folder gives no locks.
    NoLocks,
}

impl Lock {
    /// Asks for the lock of the order in this file; never waits.
    pub fn ask(path: &Path) -> Hold {
        let Some(beside) = beside(path) else { return Hold::NoLocks };
        let opened = OpenOptions::new().create(true).truncate(false).write(true).open(beside);
        let Ok(file) = opened else { return Hold::NoLocks };
        match file.try_lock() {
            Ok(()) => Hold::Ours(Self { _file: file }),
            Err(TryLockError::WouldBlock) => Hold::Elsewhere,
            Err(TryLockError::Error(_)) => Hold::NoLocks,
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
    fn a_second_window_is_told_and_the_lock_comes_back() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("mina.ron");
        std::fs::write(&path, "x").unwrap();
        let first = Lock::ask(&path);
        assert!(matches!(first, Hold::Ours(_)));
        assert!(matches!(Lock::ask(&path), Hold::Elsewhere));
        // Keeping puts another file in its place; the lock stands.
        std::fs::remove_file(&path).unwrap();
        std::fs::write(&path, "y").unwrap();
        assert!(matches!(Lock::ask(&path), Hold::Elsewhere));
        drop(first);
        assert!(matches!(Lock::ask(&path), Hold::Ours(_)));
        assert!(matches!(Lock::ask(&folder.path().join("gone/mina.ron")), Hold::NoLocks));
    }
}
