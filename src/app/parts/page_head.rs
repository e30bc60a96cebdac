//! The title of a page, and the way back to the sketch.

use egui::{RichText, Ui};

use crate::app::action::{Action, Notice};
use crate::app::context::Context;
use crate::app::page_list::PageId;
use crate::app::widgets::controls::{Weight, button};
use crate::app::widgets::theme::title;

/// The title of a page, what was done or `line`, and the way back to the sketch.
pub(crate) fn head_ui(ui: &mut Ui, cx: &Context<'_>, name: &str, line: &str, actions: &mut Vec<Action>) {
    let c = cx.colours;
    let (line, ink) = cx.notice.and_then(Notice::done).map_or((line, c.soft), |done| (done, c.leaf));
    ui.horizontal(|ui| {
        ui.label(RichText::new(name).font(title(28.0)).color(c.ink));
        ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
            let back = button(ui, &c, "Back to sketch", Weight::Chosen).on_hover_text("Esc");
            // From here Tab leads through the page.
            if cx.page_opened {
                back.request_focus();
            }
            if back.clicked() {
                actions.push(Action::Show(PageId::Sheet));
            }
            ui.with_layout(egui::Layout::left_to_right(egui::Align::Center), |ui| {
                ui.add(egui::Label::new(RichText::new(line).color(ink)).truncate());
            });
        });
    });
}

/// A name that fits beside a title or on a button.
pub(crate) fn shortened(name: &str, letters: usize) -> String {
    if name.chars().count() <= letters {
        return name.to_owned();
    }
    name.chars().take(letters - 1).chain(['\u{2026}']).collect()
}
