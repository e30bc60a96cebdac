//! Files of styles: the shop's own is saved, others are listed, added, opened and shared. On the thread of the files.

use std::path::PathBuf;

use crate::app::action::{Action, Notice};
use crate::app::shell::window::Window;
use crate::piece::HouseStyle;
use crate::store::{Shop, StoreError};

impl Window {
    /// Reads the styles to choose from.
    pub(crate) fn list_styles(&mut self) {
        let shop = self.shop.clone();
        self.with_files_of_window(move |_| shop.styles(), |w, _, styles| w.pages.Style.listed(styles));
    }

    /// Saves the shop's style as it is now; then says this. Why it could not be saved is said with a way out.
    pub(crate) fn save_own_style(&mut self, says: Option<String>) {
        let mut shop = self.shop.clone();
        self.with_files_of_window(
            move |desk| desk.save_style(&mut shop),
            move |w, _, saved| match (saved, says) {
                (Ok(on_disk), says) => {
                    w.shop.style_was_saved(on_disk);
                    if let Some(says) = says {
                        w.say_done(says);
                    }
                }
                (Err(refusal), _) => w.offer_style_file(&refusal),
            },
        );
    }

    fn offer_style_file(&mut self, refusal: &StoreError) {
        let words = format!("{refusal} Until then it is used in this window only.");
        let style = Box::new((**self.session.style()).clone());
        let offer = ("Save as file\u{2026}".to_owned(), Box::new(Action::AskWhereToShare(style)));
        self.notice = Some(Notice::Card { words, offer: Some(offer) });
    }

    /// Puts a style among those to choose from.
    pub(crate) fn add_style(&mut self, style: HouseStyle) {
        self.add_style_of(move |_| Ok(style));
    }

    /// A style's file was chosen, or none.
    pub(crate) fn open_style(&mut self, path: Option<PathBuf>) {
        match path {
            Some(path) => self.add_style_of(move |shop| shop.style_in(&path)),
            None => self.say("No file was chosen."),
        }
    }

    /// Puts the style that `find` gives among those to choose from, and looks at it.
    fn add_style_of(&mut self, find: impl FnOnce(&Shop) -> Result<HouseStyle, StoreError> + Send + 'static) {
        let shop = self.shop.clone();
        self.with_files_of_window(
            move |_| find(&shop).and_then(|style| shop.add_style(&style)).map(|added| (added, shop.styles())),
            |w, _, found| match found {
                Ok((added, styles)) => {
                    w.say_done(format!("{} is one of your styles now.", added.name));
                    w.pages.Style.added(added.name, styles);
                }
                Err(refusal) => w.say(&refusal.to_string()),
            },
        );
    }

    /// A place for a style was chosen, or none.
    pub(crate) fn share_style(&mut self, style: HouseStyle, path: Option<PathBuf>) {
        let Some(path) = path else { return self.say("No place was chosen.") };
        let (shop, name) = (self.shop.clone(), style.name.clone());
        self.with_files_of_window(
            move |_| shop.share_style(&path, &style),
            move |w, _, shared| match shared {
                Ok(path) => w.say_done(format!("{name} saved: {}", path.display())),
                Err(refusal) => w.say(&refusal.to_string()),
            },
        );
    }
}
