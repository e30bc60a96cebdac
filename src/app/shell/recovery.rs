//! That nothing is lost: what is not saved is copied, an order open in another window is not written over, and what a window
//! left that ended by surprise is offered again.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use crate::app::action::RecoveredAction;
use crate::app::dialogs::{Dialog, NextStep};
use crate::app::shell::shop_files::FileDesk;
use crate::app::shell::window::Window;
use crate::session::Session;
use crate::store::{LeftOver, Recovery, left_over};

impl Window {
    /// Watches over orders from now on; copies lie in this folder.
    pub(crate) fn watch_over(&mut self, folder: PathBuf) {
        let stock = Arc::clone(self.shop.stock());
        self.with_files_of_window(
            move |_| (left_over(&folder, &stock), Recovery::begin(&folder)),
            |w, _, (left, copy)| {
                w.autosave.left = left;
                match copy {
                    Ok(copy) => w.autosave.copy = Some(copy),
                    Err(refusal) if w.notice.is_none() => {
                        w.say(&format!("{refusal} No backup copy is made here. Save often."));
                    }
                    Err(_) => {}
                }
                w.autosave.forget();
                w.sync_autosave();
            },
        );
        self.sync_autosave();
    }

    /// After everything that was done: the lock follows the order's file, the copy follows the order. Costs nothing when
    /// nothing has changed.
    pub(crate) fn sync_autosave(&mut self) {
        if self.autosave.must_lock(self.session.path()) {
            let path = self.session.path().map(Path::to_owned);
            let (last_orders, shop) = (self.last_orders.clone(), self.shop.clone());
            self.with_files(
                move |desk| {
                    if let (Some(last), Some(path)) = (last_orders, &path) {
                        drop(last.remember(&shop, path)); // else the next window opens on a new order
                    }
                    desk.follow(path.as_deref())
                },
                |w, _, is_open_elsewhere| {
                    if is_open_elsewhere {
                        w.say_open_elsewhere();
                    }
                },
            );
        }
        self.autosave.follow(&self.session);
        let Self { autosave, is_client_view, dialog, .. } = self;
        if !autosave.offered && !autosave.left.is_empty() && !*is_client_view && *dialog == Dialog::None {
            autosave.offered = true;
            *dialog = Dialog::Recovered { sure: None };
        }
    }

    /// Like [`Self::sync_autosave`], and what is not saved is written at once: before something risky.
    pub(crate) fn flush_autosave(&mut self) {
        self.sync_autosave();
        self.autosave.flush();
    }

    /// Does what was asked about one of the orders that were left.
    pub(crate) fn run_recovered(&mut self, ctx: &egui::Context, action: RecoveredAction) {
        match action {
            RecoveredAction::Look => self.dialog = Dialog::Recovered { sure: None },
            RecoveredAction::Restore(n) => {
                if let Some(left) = self.autosave.left.get(n).cloned() {
                    self.leave_for(ctx, NextStep::Restore(Box::new(left)));
                }
            }
            RecoveredAction::Discard(n) => self.dialog = Dialog::Recovered { sure: Some(n) },
            RecoveredAction::DiscardForGood(n) => self.discard(n),
        }
    }

    fn discard(&mut self, n: usize) {
        let Some(left) = self.autosave.left.get(n).cloned() else { return };
        let path = left.path.clone();
        self.with_files_of_window(
            move |_| left.discard(),
            move |w, _, discarded| match discarded {
                Ok(()) => w.autosave.left.retain(|other| other.path != path),
                Err(refusal) => w.say(&refusal.to_string()),
            },
        );
        // The one that is thrown away is still among them.
        let more = self.autosave.left.len() > 1;
        self.dialog = if more { Dialog::Recovered { sure: None } } else { Dialog::None };
    }

    /// Opens what was left as unsaved changes of its order.
    pub(crate) fn restore(&mut self, left: LeftOver) {
        let (stock, style) = (Arc::clone(self.shop.stock()), Arc::clone(self.shop.style()));
        self.with_files(
            move |_| (Session::unsaved(left.order.clone(), left.of.as_deref(), stock, style), left),
            |w, _, (session, left)| w.show_restored(session, left),
        );
    }

    /// The old copy goes once the new one is on the disk.
    fn show_restored(&mut self, session: Session, left: LeftOver) {
        self.replace_session(session, &[]);
        self.sync_autosave();
        self.autosave.left.retain(|other| other.path != left.path);
        if let Some(is_written) = self.autosave.copy.as_ref().map(Recovery::start_flush) {
            let discard = move |_: &mut FileDesk| {
                if is_written.recv().unwrap_or(false) {
                    drop(left.discard()); // one that stays is offered again, and nothing is lost
                }
            };
            self.with_files_of_window(discard, |_, _, ()| {});
        }
        if self.notice.is_none() {
            self.say_done("Restored, not saved yet");
        }
    }
}
