//! What the window does for the shop page: saves the shop's details, reads them again, takes in a logo.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use crate::app::action::{Action, FirstDetails, Notice};
use crate::app::dialogs::Dialog;
use crate::app::shell::file_dialogs::FileQuestion;
use crate::app::shell::window::Window;
use crate::store::{Cause, Shop, ShopMoney, StoreError};

impl Window {
    /// Saves what the shop says of itself. What somebody else has written meanwhile is not written over.
    pub(crate) fn save_shop(&mut self) {
        let shop = self.shop.clone();
        self.with_files_of_window(
            move |desk| desk.save_details(&shop),
            |w, _, saved| match saved {
                Ok(stamp) => w.shop.details_saved(stamp),
                Err(refusal) => w.say_shop_not_saved(&refusal),
            },
        );
    }

    /// What was told of a shop that begins is its own, and saved, as soon as its folder is there.
    pub(crate) fn take_first_details(&mut self) {
        let Dialog::FirstDetails(told) = std::mem::take(&mut self.dialog) else { return };
        if self.shop.folder().is_none() {
            self.told_first = Some(told);
        } else {
            self.take_told(told);
        }
    }

    /// What was told of a shop is its own, and saved; what was not told stays as it is.
    pub(crate) fn take_told(&mut self, told: FirstDetails) {
        if told == FirstDetails::default() {
            return;
        }
        let mut details = self.shop.details().clone();
        told.name.trim().clone_into(&mut details.letterhead.name);
        told.phone.trim().clone_into(&mut details.letterhead.phone);
        if let Some(currency) = told.currency {
            details.money = Some(ShopMoney { currency, ..ShopMoney::of(&self.shop.style().prices) });
        }
        self.shop.describe(details);
        self.session.restyle(Arc::clone(self.shop.style()));
        self.save_shop();
    }

    fn say_shop_not_saved(&mut self, refusal: &StoreError) {
        let changed = refusal.cause == Cause::Changed;
        let words = if changed {
            "Not saved: the shop was changed in another window.".to_owned()
        } else {
            format!("{refusal} Until then it counts in this window only.")
        };
        let again = ("Take the other".to_owned(), Box::new(Action::ReadShopAgain));
        self.notice = Some(Notice::Card { words, offer: changed.then_some(again) });
    }

    /// Takes what the shop's file says now in the place of what stands here.
    pub(crate) fn read_shop_again(&mut self) {
        let Some(folder) = self.shop.folder().map(Path::to_owned) else { return };
        self.with_files_of_window(
            move |_| Shop::open(&folder),
            |w, ctx, read| match read {
                Ok(read) => {
                    w.shop = read;
                    w.session.restyle(Arc::clone(w.shop.style()));
                    w.run(ctx, Action::RulesChanged);
                    w.with_inputs(ctx, |window, inputs| window.pages.Shop.read_again(inputs));
                    w.say_done("Read again");
                }
                Err(refusal) => w.say(&refusal.to_string()),
            },
        );
    }

    pub(crate) fn ask_for_logo(&mut self, ctx: &egui::Context) {
        let dialog = rfd::AsyncFileDialog::new().set_title("Choose your logo");
        let answer = dialog.add_filter("Pictures", &["png", "jpg", "jpeg"]).pick_file();
        self.file_dialogs.ask(FileQuestion::Logo, answer, ctx);
    }

    /// Takes in the picture in a file as the logo: read and made smaller away from the window's thread.
    pub(crate) fn take_logo(&mut self, path: PathBuf) {
        let shop = self.shop.clone();
        self.say_done("Reading the logo\u{2026}");
        self.with_files_of_window(
            move |_| shop.add_logo(&path),
            |w, ctx, added| match added {
                Ok((file, logo)) => {
                    let todo = w.with_inputs(ctx, |window, inputs| window.pages.Shop.take_logo(file, logo, inputs));
                    for action in todo {
                        w.run(ctx, action);
                    }
                    w.say_done("Logo added");
                }
                Err(refusal) => w.say(&refusal.to_string()),
            },
        );
    }
}
