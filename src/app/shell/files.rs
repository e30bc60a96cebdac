//! Keeping, opening and leaving orders: what the window does with files, through the shop's folder.

use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::mpsc::{Receiver, TryRecvError};

use crate::app::action::Action;
use crate::app::pages::colour::ColourRoom;
use crate::app::pages::page::{Draft, Page};
use crate::app::pages::pictures::Pictures;
use crate::app::pages::price;
use crate::app::pages::sizes;
use crate::app::pages::suggestions::Proposing;
use crate::app::pages::variants;
use crate::app::shell::shop_files::SaveOutcome;
use crate::app::shell::top_bar;
use crate::app::shell::window::{Dialog, Listed, Next, Said, Window};
use crate::app::workers::photo_worker::PhotoSource;
use crate::app::workers::worker::start_thread;
use crate::export::png_of;
use crate::scene::{Ground, PictureOptions, picture};
use crate::session::{SaveReceipt, Session};
use crate::sheet::Sheet;
use crate::store;

/// What a file dialog was asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Asked {
    WhatToOpen,
    WhichPhoto,
    WhereToKeep,
    WhereToShareStyle,
    WhichStyle,
}

/// Waits for a file dialog on a thread of its own, so that no frame does. One that never answers holds up no other.
pub(crate) fn hear(
    answer: impl Future<Output = Option<rfd::FileHandle>> + Send + 'static,
    ctx: &egui::Context,
) -> Receiver<Option<PathBuf>> {
    let (tell, heard) = std::sync::mpsc::channel();
    let ctx = ctx.clone();
    // Without a thread, or when it breaks off, the way back ends, which is as if nothing had been chosen.
    drop(start_thread("file dialog", move || {
        let chosen = pollster::block_on(answer).map(|handle| handle.path().to_owned());
        tell.send(chosen).ok(); // the window may be gone by now
        ctx.request_repaint();
    }));
    heard
}

impl Window {
    /// Saves the order; a new one gets a file of its own in the shop's folder.
    pub(crate) fn save_order(&mut self) {
        self.save_then(|_, _, _| {});
    }

    /// Saves the order, and then goes on with whether it could be saved.
    pub(crate) fn save_then(&mut self, go_on: impl FnOnce(&mut Self, &egui::Context, bool) + Send + 'static) {
        self.take_what_is_typed();
        let (order, shop) = (self.session.to_save(), self.shop.clone());
        self.with_files(
            move |desk| desk.save(order, &shop),
            |w, ctx, outcome| {
                let is_saved = w.take_saved(outcome);
                go_on(w, ctx, is_saved);
            },
        );
    }

    /// Whether the order was saved.
    fn take_saved(&mut self, outcome: SaveOutcome) -> bool {
        match outcome {
            SaveOutcome::Saved(saved) => {
                self.session.was_saved(saved);
                let name = self.session.path().and_then(|p| p.file_name()).map(|n| n.to_string_lossy().into_owned());
                self.tell_done(format!("Kept as {}", name.unwrap_or_default()));
                true
            }
            SaveOutcome::OpenElsewhere => {
                self.say_of_other_window(
                    "was not kept: it is open in another window. Close it there, or keep a copy of what is here.",
                );
                false
            }
            SaveOutcome::Refused(refusal) => {
                let offer = Some(("Keep a copy".to_owned(), Action::KeepCopy));
                self.said = Some(Said::Wants { words: refusal.to_string(), offer });
                false
            }
        }
    }

    /// Saves the order in another file: beside the others when that can be, else where the person says.
    pub(crate) fn keep_copy(&mut self) {
        let (order, shop) = (self.session.to_save(), self.shop.clone());
        self.with_files(
            move |_| shop.new_order_file(order.order()).and_then(|path| order.save_as(&path)),
            |w, ctx, saved| match saved {
                Ok(saved) => w.take_saved_elsewhere(saved),
                Err(_) => w.ask_where_to_save(ctx),
            },
        );
    }

    fn take_saved_elsewhere(&mut self, saved: SaveReceipt) {
        self.session.was_saved(saved);
        let name = self.session.path().map(|p| p.display().to_string()).unwrap_or_default();
        self.tell_done(format!("Kept as {name}"));
    }

    fn ask_where_to_save(&mut self, ctx: &egui::Context) {
        let answer = rfd::AsyncFileDialog::new()
            .set_title("Keep a copy")
            .add_filter("Orders", &["ron"])
            .set_file_name("order.ron")
            .save_file();
        self.waiting = Some((Asked::WhereToKeep, hear(answer, ctx)));
    }

    fn save_where_said(&mut self, path: PathBuf) {
        let order = self.session.to_save();
        self.with_files(
            move |_| order.save_as(&path),
            |w, _, saved| match saved {
                Ok(saved) => w.take_saved_elsewhere(saved),
                Err(refusal) => w.say(&refusal.to_string()),
            },
        );
    }

    /// A girth still in its field is taken before the order is kept or left.
    pub(crate) fn take_what_is_typed(&mut self) {
        if let Some(words) = self.fields.take_girth()
            && words != self.session.order().wrist.girth.typed()
        {
            self.take_girth(&words);
        }
        self.leave_blank();
    }

    pub(crate) fn keep_picture(&mut self) {
        // As it is seen: the arm and the cloth that are on the sheet.
        let look =
            PictureOptions { skin: self.looks.skin, ground: Ground::before(self.cloth()), ..PictureOptions::default() };
        let (order, stock, shop) =
            (Arc::clone(self.session.order()), Arc::clone(self.session.stock()), self.shop.clone());
        let piece = self.session.piece().clone();
        self.with_files_of_window(
            move |_| {
                let path = shop.new_picture_file(&order)?;
                let png = png_of(&picture(&piece, &stock, &order.wrist, &look), 1600);
                store::write_bytes(&path, &png).map(|()| path)
            },
            |w, _, made| match made {
                Ok(path) => w.tell_done(format!("The picture is in {}", path.display())),
                Err(refusal) => w.say(&refusal.to_string()),
            },
        );
    }

    /// Shows the orders of the shop, as soon as they are read.
    pub(crate) fn list_orders(&mut self) {
        self.dialog = Dialog::Orders(Listed::default());
        let shop = self.shop.clone();
        self.with_files_of_window(
            move |desk| {
                desk.index.refresh(&shop);
                let all: Vec<_> = desk.index.rows().map(|row| (row.path.clone(), row.title.clone())).collect();
                let calls = desk.index.to_call().into_iter();
                let calls: Vec<_> = calls.filter_map(|row| Some((row.path.clone(), row.call.clone()?))).collect();
                (all, calls)
            },
            |w, _, (all, calls)| w.show_orders(all, calls),
        );
    }

    fn show_orders(&mut self, all: Vec<(PathBuf, String)>, calls: Vec<(PathBuf, String)>) {
        let Dialog::Orders(listed) = &mut self.dialog else { return };
        let mut all = all;
        // One goes back and forth between two more often than to any other.
        if let Some(n) = all.iter().position(|(path, _)| self.came_from.as_ref() == Some(path)) {
            all[..=n].rotate_right(1);
        }
        (listed.all, listed.calls, listed.is_read) = (Arc::new(all), Arc::new(calls), true);
    }

    pub(crate) fn leave_for(&mut self, ctx: &egui::Context, next: Next) {
        self.leave_taps();
        self.mind_now();
        self.dialog = Dialog::Leave(next);
        if self.session.is_kept() {
            self.go_on(ctx, true);
        }
    }

    /// Goes where the question was about; stays when `go` is not.
    pub(crate) fn go_on(&mut self, ctx: &egui::Context, go: bool) {
        let Dialog::Leave(next) = self.dialog.clone() else { return };
        self.dialog = Dialog::None;
        if !go {
            return;
        }
        match next {
            Next::Close => {
                self.may_close = true;
                self.mind();
                self.safety.let_go();
                ctx.send_viewport_cmd(egui::ViewportCommand::Close);
            }
            Next::New => {
                let (stock, style) = (Arc::clone(self.shop.stock()), Arc::clone(self.shop.style()));
                self.take_up(Session::fresh(stock, style), &[]);
            }
            Next::TakeUp(left) => self.take_up_left(*left),
            Next::Open(path) => self.open_order(path),
        }
    }

    fn open_order(&mut self, path: PathBuf) {
        let (stock, style) = (Arc::clone(self.shop.stock()), Arc::clone(self.shop.style()));
        let left_at = self.session.revision();
        self.with_files(
            move |_| (Session::open(&path, stock, style), path),
            move |w, ctx, (opened, path)| match opened {
                // What was done while the file was read is asked about like all that is not saved.
                Ok(_) if w.session.revision() != left_at && !w.session.is_kept() => w.leave_for(ctx, Next::Open(path)),
                Ok((session, warnings)) => w.take_up(session, &warnings),
                Err(refusal) => w.say(&refusal.to_string()),
            },
        );
    }

    pub(crate) fn take_up(&mut self, session: Session, warnings: &[String]) {
        self.came_from = self.session.path().map(Path::to_owned);
        self.session = session;
        self.files.next_order();
        self.session.show_lengths_in(self.looks.lengths);
        self.safety.forget();
        self.canvas.clear();
        self.boards = sizes::Boards::default();
        self.pricing = price::Pricing::default();
        self.ways = variants::Ways::default();
        self.pictures = Pictures::default();
        self.colour_room = ColourRoom::default();
        self.second.rest();
        self.proposing = Proposing::default();
        self.page = Page::Sheet;
        self.draft = Draft::default();
        self.sheet = Sheet { view: self.sheet.view, ..Sheet::new() };
        self.fields = top_bar::Fields::default();
        self.pointed_at = None;
        self.fitted = false;
        self.said = (!warnings.is_empty()).then(|| Said::Wants { words: in_short(warnings), offer: None });
    }

    pub(crate) fn ask_for_file(&mut self, ctx: &egui::Context) {
        let answer = rfd::AsyncFileDialog::new()
            .set_title("Open an order")
            .add_filter("Orders", &["ron"])
            .set_directory(self.shop.orders_folder())
            .pick_file();
        self.waiting = Some((Asked::WhatToOpen, hear(answer, ctx)));
    }

    pub(crate) fn ask_for_photo(&mut self, ctx: &egui::Context) {
        let answer = rfd::AsyncFileDialog::new()
            .set_title("Open a photo of the dress")
            .add_filter("Photos", &["jpg", "jpeg", "png"])
            .pick_file();
        self.waiting = Some((Asked::WhichPhoto, hear(answer, ctx)));
    }

    pub(crate) fn hear_of_file(&mut self, ctx: &egui::Context) {
        let answer = match self.waiting.as_ref().map(|(asked, heard)| (*asked, heard.try_recv())) {
            None | Some((_, Err(TryRecvError::Empty))) => return,
            Some((asked, Err(TryRecvError::Disconnected))) => (asked, None),
            Some((asked, Ok(answer))) => (asked, answer),
        };
        self.waiting = None;
        match answer {
            (Asked::WhatToOpen, Some(path)) => self.leave_for(ctx, Next::Open(path)),
            (Asked::WhereToKeep, Some(path)) => self.save_where_said(path),
            (Asked::WhereToShareStyle, path) => self.share_style(path.as_deref()),
            (Asked::WhichStyle, path) => self.open_style(path.as_deref()),
            (Asked::WhichPhoto, Some(path)) => self.read_photo(ctx, PhotoSource::File(path)),
            (Asked::WhichPhoto, None) => {
                self.say("No photo was chosen. One can also be dropped on the window, or pasted.");
            }
            (Asked::WhatToOpen, None) => self.say("No file was chosen."),
            (Asked::WhereToKeep, None) => self.say("No place was chosen. The order is still here, and not kept yet."),
        }
    }
}

/// The first few of many sentences, and how many more there are.
pub(crate) fn in_short(said: &[String]) -> String {
    const SHOWN: usize = 3;
    let words = said.iter().take(SHOWN).cloned().collect::<Vec<_>>().join(" ");
    match said.len() {
        n if n > SHOWN => format!("{words} And {} more of the kind.", n - SHOWN),
        _ => words,
    }
}
