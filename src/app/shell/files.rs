//! Keeping, opening and leaving orders: what the window does with files, through the shop's folder.

use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::mpsc::Receiver;

use crate::app::action::Action;
use crate::app::pages::colour::ColourRoom;
use crate::app::pages::page::{Draft, Page};
use crate::app::pages::pictures::Pictures;
use crate::app::pages::price;
use crate::app::pages::sizes;
use crate::app::pages::suggestions::Proposing;
use crate::app::pages::variants;
use crate::app::shell::top_bar;
use crate::app::shell::window::{Dialog, Listed, Next, Said, Window};
use crate::app::workers::photo_worker::PhotoSource;
use crate::book::call_backs;
use crate::export::png_of;
use crate::scene::{Ground, PictureOptions, picture};
use crate::session::Session;
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

/// Waits for a file dialog on a thread of its own, so that no frame does.
pub(crate) fn hear(
    answer: impl Future<Output = Option<rfd::FileHandle>> + Send + 'static,
    ctx: &egui::Context,
) -> Receiver<Option<PathBuf>> {
    let (tell, heard) = std::sync::mpsc::channel();
    let ctx = ctx.clone();
    std::thread::spawn(move || {
        let chosen = pollster::block_on(answer).map(|handle| handle.path().to_owned());
        drop(tell.send(chosen)); // the window may be gone by now
        ctx.request_repaint();
    });
    heard
}

impl Window {
    /// Keeps the order; a new one gets a file of its own in the shop's folder. `false` when it could not be kept.
    pub(crate) fn keep(&mut self) -> bool {
        self.take_what_is_typed();
        if self.is_open_elsewhere() {
            self.say_of_other_window(
                "was not kept: it is open in another window. Close it there, or keep a copy of what is here.",
            );
            return false;
        }
        let kept = self.session.keep(|order| self.shop.new_order_file(order));
        match kept {
            Ok(()) => {
                let name = self.session.path().and_then(|p| p.file_name()).map(|n| n.to_string_lossy().into_owned());
                self.tell_done(format!("Kept as {}", name.unwrap_or_default()));
                true
            }
            Err(refusal) => {
                let offer = Some(("Keep a copy".to_owned(), Action::KeepCopy));
                self.said = Some(Said::Wants { words: refusal.to_string(), offer });
                false
            }
        }
    }

    /// Keeps the order in another file: beside the others when that can be, else where the person says.
    pub(crate) fn keep_copy(&mut self, ctx: &egui::Context) {
        let place = self.shop.new_order_file(self.session.order());
        if place.is_ok_and(|path| self.session.keep_as(&path).is_ok()) {
            let name = self.session.path().map(|p| p.display().to_string()).unwrap_or_default();
            self.tell_done(format!("Kept as {name}"));
            return;
        }
        let answer = rfd::AsyncFileDialog::new()
            .set_title("Keep a copy")
            .add_filter("Orders", &["ron"])
            .set_file_name("order.ron")
            .save_file();
        self.waiting = Some((Asked::WhereToKeep, hear(answer, ctx)));
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
        let order = self.session.order();
        // As it is seen: the arm and the cloth that are on the sheet.
        let look =
            PictureOptions { skin: self.looks.skin, ground: Ground::before(self.cloth()), ..PictureOptions::default() };
        let scene = picture(self.session.piece(), self.session.stock(), &order.wrist, &look);
        let png = png_of(&scene, 1600);
        let made = self.shop.new_picture_file(order).and_then(|path| store::write_bytes(&path, &png).map(|()| path));
        match made {
            Ok(path) => self.tell_done(format!("The picture is in {}", path.display())),
            Err(refusal) => self.say(&refusal.to_string()),
        }
    }

    pub(crate) fn list_orders(&mut self) {
        let entries = self.shop.orders();
        let readable: Vec<_> = entries.iter().filter_map(|e| Some((&e.path, &e.order.as_ref().ok()?.order))).collect();
        let calls = call_backs(readable.iter().map(|(_, order)| *order));
        let calls = calls.iter().map(|call| (readable[call.place].0.clone(), call.line())).collect();
        let mut all = self.shop.orders_named("");
        // One goes back and forth between two more often than to any other.
        if let Some(n) = all.iter().position(|(path, _)| self.came_from.as_ref() == Some(path)) {
            all[..=n].rotate_right(1);
        }
        self.dialog = Dialog::Orders(Listed {
            search: String::new(),
            all: Arc::new(all),
            calls: Arc::new(calls),
            ringing: false,
        });
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
            Next::TakeUp(left) => self.take_up_left(&left),
            Next::Open(path) => {
                match Session::open(&path, Arc::clone(self.shop.stock()), Arc::clone(self.shop.style())) {
                    Ok((session, warnings)) => self.take_up(session, &warnings),
                    Err(refusal) => self.say(&refusal.to_string()),
                }
            }
        }
    }

    pub(crate) fn take_up(&mut self, session: Session, warnings: &[String]) {
        self.came_from = self.session.path().map(Path::to_owned);
        self.session = session;
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
        let Some((asked, Ok(answer))) = self.waiting.as_ref().map(|(asked, heard)| (*asked, heard.try_recv())) else {
            return;
        };
        self.waiting = None;
        match (asked, answer) {
            (Asked::WhatToOpen, Some(path)) => self.leave_for(ctx, Next::Open(path)),
            (Asked::WhereToKeep, Some(path)) => match self.session.keep_as(&path) {
                Ok(()) => self.tell_done(format!("Kept as {}", path.display())),
                Err(refusal) => self.say(&refusal.to_string()),
            },
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
