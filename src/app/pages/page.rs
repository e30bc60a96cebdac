//! What takes the middle of the window: the wrist sheet, the order's first page, sizes side by side, colours, the price, the house
//! style. View state alone.

use std::sync::Arc;

use egui::{RichText, Ui};

use crate::app::action::Action;
use crate::app::pages::order_fields::Blank;
use crate::app::shell::window::{Said, Window};
use crate::app::widgets::controls::{Weight, button};
use crate::app::widgets::theme::title;
use crate::book::Order;

/// What takes the middle.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum Page {
    /// The wrist sheet.
    #[default]
    Sheet,
    /// What is known of the order.
    Questions,
    /// Sizes side by side.
    Sizes,
    /// The same piece made another way.
    Ways,
    /// The price, and the yes.
    Price,
    /// The house style; never on the client's side.
    House,
    /// The colour of the dress, and what goes with it.
    Colour,
}

/// What is being typed on a page and is not part of the order as it stands.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Draft {
    of: Option<Written>,
}

/// The words in one field.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Written {
    pub(crate) blank: Blank,
    pub(crate) words: String,
    /// The order before the first of them.
    pub(crate) before: Arc<Order>,
    /// Why they cannot be taken.
    pub(crate) refused: Option<String>,
}

impl Draft {
    /// What stands in a field while it is typed in.
    pub(crate) fn in_field(&self, blank: Blank) -> Option<&str> {
        self.of.as_ref().filter(|of| of.blank == blank).map(|of| of.words.as_str())
    }

    /// Other words stand in a field; `before` is the order as it was a moment ago.
    pub(crate) fn write(&mut self, blank: Blank, words: String, before: &Arc<Order>, refused: Option<String>) {
        let began = self.of.take().filter(|of| of.blank == blank).map(|of| of.before);
        let before = began.unwrap_or_else(|| Arc::clone(before));
        self.of = Some(Written { blank, words, before, refused });
    }

    /// The field that is written in is left.
    pub(crate) fn leave(&mut self) -> Option<Written> {
        self.of.take()
    }
}

/// The title of a page, and the way back to the sheet.
pub(crate) fn head_ui(ui: &mut Ui, w: &Window, name: &str, line: &str, actions: &mut Vec<Action>) {
    let c = w.colours();
    let (line, ink) = match &w.said {
        Some(Said::Done(done)) => (done.as_str(), c.leaf),
        Some(Said::Wants { .. } | Said::Crowded { .. }) | None => (line, c.soft),
    };
    ui.horizontal(|ui| {
        ui.label(RichText::new(name).font(title(28.0)).color(c.ink));
        ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
            let back = button(ui, &c, "Back to the sketch", Weight::Chosen).on_hover_text("Esc");
            // From here Tab leads through the page.
            if w.page_opened.take() {
                back.request_focus();
            }
            if back.clicked() {
                actions.push(Action::Turn(Page::Sheet));
            }
            // What is done may name a file at the end of many folders.
            ui.with_layout(egui::Layout::left_to_right(egui::Align::Center), |ui| {
                ui.add(egui::Label::new(RichText::new(line).color(ink)).truncate());
            });
        });
    });
}
