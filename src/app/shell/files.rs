//! Saving, opening and leaving orders, papers and pictures: what the window does with files, through the shop's folder.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use crate::app::action::{Action, FirstDetails, FirstShop, Notice, StockRequest};
use crate::app::dialogs::shared_stems::Joining;
use crate::app::dialogs::{Dialog, NextStep};
use crate::app::opening::first_order;
use crate::app::shell::file_dialogs::FileQuestion;
use crate::app::shell::shop_files::{FileDesk, JobEnd, SaveOutcome};
use crate::app::shell::window::Window;
use crate::app::workers::photo_worker::PhotoSource;
use crate::export::{png_of, signed};
use crate::piece::HouseStyle;
use crate::scene::as_shown;
use crate::session::{SaveReceipt, Session};
use crate::store::{self, Shop, StoreError};

impl Window {
    /// Does `job` to files, and then `follow_up` in the window, unless another order was opened meanwhile.
    pub(crate) fn with_files<Found: Send + 'static>(
        &mut self,
        job: impl FnOnce(&mut FileDesk) -> Found + Send + 'static,
        follow_up: impl FnOnce(&mut Self, &egui::Context, Found) + Send + 'static,
    ) {
        let nth_order = self.files.nth_order();
        self.with_files_of_window(job, move |window, ctx, found| {
            if window.files.nth_order() == nth_order {
                follow_up(window, ctx, found);
            }
        });
    }

    /// Does `job` to files, and then `follow_up` in the window, whatever order is open by then.
    pub(crate) fn with_files_of_window<Found: Send + 'static>(
        &mut self,
        job: impl FnOnce(&mut FileDesk) -> Found + Send + 'static,
        follow_up: impl FnOnce(&mut Self, &egui::Context, Found) + Send + 'static,
    ) {
        self.files.request(Box::new(move |desk| {
            let found = job(desk);
            Box::new(move |window, ctx| follow_up(window, ctx, found))
        }));
    }

    /// Does what follows from jobs that are done.
    pub(crate) fn poll_files(&mut self, ctx: &egui::Context) {
        for done in self.files.poll() {
            self.follow_up(ctx, done);
        }
    }

    /// Waits for all jobs, and does what follows from them.
    pub(crate) fn finish_files(&mut self, ctx: &egui::Context) {
        while let Some(done) = self.files.wait() {
            self.follow_up(ctx, done);
        }
    }

    fn follow_up(&mut self, ctx: &egui::Context, end: JobEnd<Self>) {
        match end {
            JobEnd::Done(follow_up) => follow_up(self, ctx),
            JobEnd::BrokeOff => {
                // The locks went with it.
                self.autosave.forget_lock();
                self.say("A file could not be read or written. Nothing on disk is damaged; try again.");
            }
        }
    }

    /// Saves the order; a new one gets a file of its own in the shop's folder.
    pub(crate) fn save_order(&mut self) {
        self.save_then(|_, _, _| {});
    }

    /// Saves the order, and then goes on with whether it could be saved.
    pub(crate) fn save_then(&mut self, go_on: impl FnOnce(&mut Self, &egui::Context, bool) + Send + 'static) {
        self.take_what_is_typed();
        let (order, nth_order, shop) = (self.session.to_save(), self.files.nth_order(), self.shop.clone());
        self.with_files(
            move |desk| desk.save(order, nth_order, &shop),
            |w, ctx, outcome| {
                let is_saved = w.take_saved(outcome);
                go_on(w, ctx, is_saved);
                // A question about what is saved by now has answered itself.
                if w.session.is_saved() {
                    w.go_on(ctx, true);
                }
            },
        );
    }

    /// Whether the order was saved.
    fn take_saved(&mut self, outcome: SaveOutcome) -> bool {
        match outcome {
            SaveOutcome::Saved(saved) => {
                let had_number = self.session.order().number.is_some();
                self.session.was_saved(saved);
                let number = self.session.order().number_text();
                self.say_done(if had_number { "Saved".to_owned() } else { format!("Saved as {number}") });
                true
            }
            SaveOutcome::OpenElsewhere => {
                self.offer_copy("Not saved: this order is open in another window.");
                false
            }
            SaveOutcome::Refused(refusal) => {
                self.offer_copy(&refusal.to_string());
                false
            }
        }
    }

    /// Says why the order's own file was not written, and offers to save a copy.
    fn offer_copy(&mut self, words: &str) {
        let offer = Some(("Save a copy".to_owned(), Box::new(Action::SaveCopy)));
        self.notice = Some(Notice::Card { words: words.to_owned(), offer });
    }

    /// The order's file is in another window's hands.
    pub(crate) fn say_open_elsewhere(&mut self) {
        let before = match self.notice.take() {
            Some(Notice::Card { words, .. }) => format!(" {words}"),
            Some(Notice::Done(_) | Notice::Crowded { .. }) | None => String::new(),
        };
        self.offer_copy(&format!("This order is open in another window. Here you can look and try.{before}"));
    }

    /// Saves the order in another file: beside the others when that can be, else where the person says.
    pub(crate) fn save_copy(&mut self) {
        let (order, shop) = (self.session.to_save(), self.shop.clone());
        self.with_files(
            move |desk| {
                // Two orders of one number would be one too many.
                let order = order.numbered(desk.next_number(&shop));
                shop.new_order_file(order.order()).and_then(|path| order.save_as(&path))
            },
            |w, ctx, saved| {
                if let Ok(saved) = saved {
                    w.take_saved_elsewhere(saved);
                } else {
                    let dialog = rfd::AsyncFileDialog::new().set_title("Save a copy").add_filter("Orders", &["ron"]);
                    let answer = dialog.set_file_name("order.ron").save_file();
                    w.file_dialogs.ask(FileQuestion::CopyTo, answer, ctx);
                }
            },
        );
    }

    fn take_saved_elsewhere(&mut self, saved: SaveReceipt) {
        self.session.was_saved(saved);
        let name = self.session.path().map(|p| p.display().to_string()).unwrap_or_default();
        self.say_done(format!("Saved as {name}"));
    }

    fn save_copy_to(&mut self, path: PathBuf) {
        let order = self.session.to_save();
        self.with_files(
            move |_| order.save_as(&path),
            |w, _, saved| match saved {
                Ok(saved) => w.take_saved_elsewhere(saved),
                Err(refusal) => w.say(&refusal.to_string()),
            },
        );
    }

    pub(crate) fn save_picture(&mut self) {
        let (order, stock, shop) =
            (Arc::clone(self.session.order()), Arc::clone(self.session.stock()), self.shop.clone());
        let (piece, currency) = (self.session.piece().clone(), self.session.style().prices.currency.clone());
        self.with_files_of_window(
            move |_| {
                let path = shop.new_picture_file(&order)?;
                let scene = signed(as_shown(&piece, &order, &stock, &currency.sign), shop.letterhead());
                let png = png_of(&scene, 1600);
                store::write_bytes(&path, &png).map(|()| path)
            },
            |w, _, made| match made {
                Ok(path) => w.say_done(format!("Picture saved: {}", path.display())),
                Err(refusal) => w.say(&refusal.to_string()),
            },
        );
    }

    /// Saves a photograph among the pictures of the shop.
    pub(crate) fn save_photograph(&mut self, png: Arc<Vec<u8>>) {
        let (order, shop) = (Arc::clone(self.session.order()), self.shop.clone());
        self.with_files_of_window(
            move |_| {
                let path = shop.new_picture_file(&order)?;
                store::write_bytes(&path, &png).map(|()| path)
            },
            |w, _, made| match made {
                Ok(path) => w.say_done(format!("Photo saved: {}", path.display())),
                Err(refusal) => w.say(&refusal.to_string()),
            },
        );
    }

    /// Shows the orders of the shop, to be joined to this one.
    pub(crate) fn show_shared_stems(&mut self) {
        let event = self.session.order().dance.clone();
        self.dialog = Dialog::SharedStems(Joining::default());
        let (shop, open) = (self.shop.clone(), self.session.path().map(Path::to_owned));
        self.with_files_of_window(
            move |_| {
                let readable = shop.orders().into_iter().filter_map(|e| Some((e.path, e.order.ok()?.order)));
                Joining::of(&event, readable.filter(|(path, _)| open.as_ref() != Some(path)).collect())
            },
            |w, _, found| {
                if let Dialog::SharedStems(joining) = &mut w.dialog {
                    *joining = found;
                }
            },
        );
    }

    pub(crate) fn leave_for(&mut self, ctx: &egui::Context, next: NextStep) {
        self.put_board_away();
        self.flush_autosave();
        if self.session.is_saved() {
            self.dialog = Dialog::Leave(next);
            return self.go_on(ctx, true);
        }
        // What is being saved is not asked about.
        self.with_files(
            |_| (),
            |w, ctx, ()| {
                let is_saved = w.session.is_saved();
                w.dialog = Dialog::Leave(next);
                if is_saved {
                    w.go_on(ctx, true);
                }
            },
        );
    }

    /// Goes where the question was about; stays when `go` is not.
    pub(crate) fn go_on(&mut self, ctx: &egui::Context, go: bool) {
        let Dialog::Leave(next) = self.dialog.clone() else { return };
        self.dialog = Dialog::None;
        if !go {
            return;
        }
        match next {
            NextStep::Close => {
                self.may_close = true;
                self.sync_autosave();
                self.autosave.let_go();
                ctx.send_viewport_cmd(egui::ViewportCommand::Close);
            }
            NextStep::New => {
                let (stock, style) = (Arc::clone(self.shop.stock()), Arc::clone(self.shop.style()));
                self.replace_session(Session::fresh(stock, style), &[]);
            }
            NextStep::Restore(left) => self.restore(*left),
            NextStep::Open(path) => self.open_order(path),
            NextStep::Copy(path, who) => self.copy_listed(path, who),
        }
    }

    fn open_order(&mut self, path: PathBuf) {
        let (stock, style) = (Arc::clone(self.shop.stock()), Arc::clone(self.shop.style()));
        let left_at = self.session.revision();
        self.with_files(
            move |_| (Session::open(&path, stock, style), path),
            move |w, ctx, (opened, path)| match opened {
                // What was done while the file was read is asked about like all that is not saved.
                Ok(_) if w.session.revision() != left_at && !w.session.is_saved() => {
                    w.leave_for(ctx, NextStep::Open(path));
                }
                Ok((session, warnings)) => w.replace_session(session, &warnings),
                Err(refusal) => w.say(&refusal.to_string()),
            },
        );
    }

    /// Whether the window is to be closed: what is not saved is asked about first.
    pub(crate) fn handle_closing(&mut self, ctx: &egui::Context) {
        let closing = ctx.input(|i| i.viewport().close_requested());
        if !closing || self.may_close {
            return;
        }
        self.take_what_is_typed();
        self.finish_files(ctx);
        if !self.session.is_saved() {
            ctx.send_viewport_cmd(egui::ViewportCommand::CancelClose);
            self.flush_autosave();
            self.dialog = Dialog::Leave(NextStep::Close);
        }
    }

    /// Begins a shop in the folder that has none yet, and opens it.
    /// `is_asked`: whether it is asked what is first needed of an empty one.
    pub(crate) fn begin_shop(&mut self, choice: FirstShop, is_asked: bool) {
        let Dialog::FirstStart(folder) = std::mem::take(&mut self.dialog) else { return };
        if choice == FirstShop::Empty && is_asked {
            // At once, so that what is typed next stands there and nowhere else.
            self.dialog = Dialog::FirstDetails(FirstDetails::default());
        }
        self.with_files_of_window(
            move |_| {
                let shop = match choice {
                    FirstShop::Sample => Shop::begin_with_samples(&folder),
                    FirstShop::Empty => Shop::begin(&folder, ""),
                }?;
                let mut said = shop.warnings().to_vec();
                let session = first_order(&shop, None, &mut said);
                Ok((shop, session, said))
            },
            move |w, _, begun: Result<_, StoreError>| match begun {
                Ok((shop, session, said)) => {
                    w.shop = shop;
                    // Whoever has begun to draw meanwhile goes on drawing.
                    if w.session.is_saved() {
                        w.replace_session(session, &said);
                    }
                    if let Some(told) = w.told_first.take() {
                        w.take_told(told);
                    }
                }
                Err(refusal) => {
                    w.dialog = Dialog::None;
                    w.say(&refusal.to_string());
                }
            },
        );
    }

    pub(crate) fn ask_for_order(&mut self, ctx: &egui::Context) {
        let dialog = rfd::AsyncFileDialog::new().set_title("Open an order").add_filter("Orders", &["ron"]);
        let answer = dialog.set_directory(self.shop.orders_folder()).pick_file();
        self.file_dialogs.ask(FileQuestion::Order, answer, ctx);
    }

    pub(crate) fn ask_for_photo(&mut self, ctx: &egui::Context) {
        let dialog = rfd::AsyncFileDialog::new().set_title("Open a photo of the dress");
        let answer = dialog.add_filter("Photos", &["jpg", "jpeg", "png"]).pick_file();
        self.file_dialogs.ask(FileQuestion::Photo, answer, ctx);
    }

    pub(crate) fn ask_for_style(&mut self, ctx: &egui::Context) {
        let answer = rfd::AsyncFileDialog::new().set_title("Open a style").add_filter("Styles", &["ron"]).pick_file();
        self.file_dialogs.ask(FileQuestion::Style, answer, ctx);
    }

    pub(crate) fn ask_where_to_share(&mut self, ctx: &egui::Context, style: HouseStyle) {
        let dialog = rfd::AsyncFileDialog::new().set_title("Save the style as a file").add_filter("Styles", &["ron"]);
        let answer = dialog.set_file_name(format!("{}.ron", style.name.to_lowercase())).save_file();
        self.file_dialogs.ask(FileQuestion::StyleTo(Box::new(style)), answer, ctx);
    }

    /// What was chosen in a file dialog since the last frame.
    pub(crate) fn poll_file_dialogs(&mut self, ctx: &egui::Context) {
        let Some((question, answer)) = self.file_dialogs.poll() else { return };
        match (question, answer) {
            (FileQuestion::Order, Some(path)) => self.leave_for(ctx, NextStep::Open(path)),
            (FileQuestion::CopyTo, Some(path)) => self.save_copy_to(path),
            (FileQuestion::StyleTo(style), path) => self.share_style(*style, path),
            (FileQuestion::Style, path) => self.open_style(path),
            (FileQuestion::Photo, Some(path)) => self.read_photo(ctx, PhotoSource::File(path)),
            (FileQuestion::Logo, Some(path)) => self.take_logo(path),
            (FileQuestion::Logo, None) => self.say("No picture was chosen. You can also drop one here."),
            (FileQuestion::PriceList, Some(path)) => self.run_of_stock(ctx, StockRequest::ReadPrices(path)),
            (FileQuestion::StockTo, Some(path)) => self.run_of_stock(ctx, StockRequest::Export(path)),
            (FileQuestion::StockTo, None) => self.say("No place was chosen."),
            (FileQuestion::Photo, None) => self.say("No photo was chosen. You can also drop or paste one."),
            (FileQuestion::Order | FileQuestion::PriceList, None) => self.say("No file was chosen."),
            (FileQuestion::CopyTo, None) => self.say("No place was chosen. The order is still here, not saved yet."),
        }
    }
}
