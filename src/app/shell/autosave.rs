//! Copies of what is not saved, written within ten seconds of a change, and the lock of the open order's file.

use std::path::{Path, PathBuf};

use crate::history::Revision;
use crate::session::Session;
use crate::store::{LeftOver, Recovery};

/// What watches over the open order.
#[derive(Debug, Default)]
pub(crate) struct Autosave {
    /// The copy of what is not saved; none where none can be written.
    pub(crate) copy: Option<Recovery>,
    /// What the copy was last told: which revision, and whether that is saved.
    reported: Option<(Revision, bool)>,
    /// Whose lock was asked for.
    locked: Option<PathBuf>,
    /// What windows left that ended by surprise.
    pub(crate) left: Vec<LeftOver>,
    /// Whether that has been offered.
    pub(crate) offered: bool,
}

impl Autosave {
    /// Another order is open: whatever it is, the copy follows it.
    pub(crate) fn forget(&mut self) {
        self.reported = None;
    }

    /// The lock is gone and must be asked for anew.
    pub(crate) fn forget_lock(&mut self) {
        self.locked = None;
    }

    /// The open order is left for good, saved or not: no copy of it stays.
    pub(crate) fn let_go(&self) {
        if let Some(copy) = &self.copy {
            copy.saved();
        }
    }

    /// Whether another file must be locked now.
    pub(crate) fn must_lock(&mut self, path: Option<&Path>) -> bool {
        let other = self.locked.as_deref() != path;
        if other {
            self.locked = path.map(Path::to_owned);
        }
        other
    }

    /// The copy follows the order. Costs nothing when nothing has changed.
    pub(crate) fn follow(&mut self, session: &Session) {
        if session.in_gesture() {
            return;
        }
        let state = (session.revision(), session.is_saved());
        if self.reported.replace(state) == Some(state) {
            return;
        }
        let Some(copy) = &self.copy else { return };
        if session.is_saved() {
            copy.saved();
        } else {
            // The next window may be started in another folder.
            let of = session.path().and_then(|path| std::path::absolute(path).ok());
            copy.changed(session.order(), of.as_deref());
        }
    }

    /// What is not saved is written at once.
    pub(crate) fn flush(&self) {
        if let Some(copy) = &self.copy {
            copy.flush();
        }
    }
}
