//! The very first start: a shop to look round in, or an empty one. Asked once; nothing else stands before drawing.

use egui::{RichText, Ui, vec2};

use crate::app::action::Action;
use crate::app::first_order;
use crate::app::shell::window::{Dialog, Window};
use crate::app::widgets::controls::{Weight, button_sized};
use crate::app::widgets::theme::{Colours, GRID, MAIN_TARGET, title, words};
use crate::store::{Shop, StoreError};

/// With which shop to begin.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Choice {
    /// The demo shop.
    Sample,
    /// One without orders.
    Empty,
}

pub(crate) fn first_start_ui(ui: &mut Ui, c: &Colours, actions: &mut Vec<Action>) {
    ui.set_max_width(560.0);
    ui.label(RichText::new("Welcome").font(title(30.0)).color(c.ink));
    let says = "Look round in an invented shop first, Quillfern Flowers with its orders for a dance? Or begin with an \
        empty shop of your own? You can draw at once either way, and nothing leaves this computer.";
    ui.label(RichText::new(says).font(words(17.0)).color(c.ink));
    ui.add_space(GRID);
    ui.horizontal(|ui| {
        let sample = button_sized(ui, c, "Look round in the sample shop", Weight::Main, vec2(0.0, MAIN_TARGET));
        if ui.memory(|m| m.focused().is_none()) {
            sample.request_focus();
        }
        if sample.clicked() {
            actions.push(Action::Begin(Choice::Sample));
        }
        if button_sized(ui, c, "Begin with an empty shop", Weight::Plain, vec2(0.0, MAIN_TARGET)).clicked() {
            actions.push(Action::Begin(Choice::Empty));
        }
    });
    ui.label(RichText::new("Esc begins with an empty shop. This is asked only once.").font(words(14.0)).color(c.soft));
}

impl Window {
    /// Closes what is open over the sheet. The first start left unanswered begins with an empty shop, so that whatever is
    /// drawn next has a place to be kept in.
    pub(crate) fn close_dialog(&mut self) {
        match self.dialog {
            Dialog::FirstStart(_) => self.begin_shop(Choice::Empty),
            _ => self.dialog = Dialog::None,
        }
    }

    /// Begins a shop in the folder that has none yet, and opens it.
    pub(crate) fn begin_shop(&mut self, choice: Choice) {
        let Dialog::FirstStart(folder) = std::mem::replace(&mut self.dialog, Dialog::None) else { return };
        self.with_files_of_window(
            move |_| {
                let shop = match choice {
                    Choice::Sample => Shop::begin_with_samples(&folder),
                    Choice::Empty => Shop::begin(&folder, ""),
                }?;
                let mut said = shop.warnings().to_vec();
                let session = first_order(&shop, None, &mut said);
                Ok((shop, session, said))
            },
            |w, _, begun: Result<_, StoreError>| match begun {
                Ok((shop, session, said)) => {
                    w.shop = shop;
                    // Whoever has begun to draw meanwhile goes on drawing.
                    if w.session.is_kept() {
                        w.take_up(session, &said);
                    }
                }
                Err(refusal) => w.say(&refusal.to_string()),
            },
        );
    }
}
