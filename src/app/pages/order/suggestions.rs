//! What the needs of a wearer suggest: one at a time, to take or to leave for now. Nothing is done by itself.

use egui::{RichText, Ui};

use super::OrderAction;
use crate::app::action::Action;
use crate::app::context::{Context, Inputs, Requests};
use crate::app::widgets::controls::{Weight, button, button_sized};
use crate::app::widgets::theme::{MAIN_TARGET, strong, words};
use crate::book::{Suggestion, suggestions};
use crate::history::Revision;

/// The suggestions for an order, worked out once a revision, and those that were left for now.
#[derive(Debug, Default)]
pub(super) struct Suggestions {
    found: Option<(Revision, Vec<Suggestion>)>,
    left: Vec<String>,
}

impl Suggestions {
    /// Works them out where the order has changed. While something is written nothing new is suggested: half a number is
    /// no age yet.
    pub(super) fn prepare(&mut self, inputs: &Inputs<'_>) {
        let revision = inputs.session.settled_revision();
        let known = self.found.as_ref().is_some_and(|(of, _)| *of == revision || inputs.is_typing);
        if !known {
            let session = &inputs.session;
            let mut found = suggestions(session.order(), session.style(), session.stock());
            found.retain(|proposal| !self.left.contains(&proposal.says));
            self.found = Some((revision, found));
        }
    }

    /// The shop has other rules; what was left for now stays left.
    pub(super) fn work_out_anew(&mut self) {
        self.found = None;
    }

    /// This is not suggested again for this order.
    pub(super) fn leave(&mut self, says: String) {
        self.left.push(says);
        self.found = None;
    }

    pub(super) fn len(&self) -> usize {
        self.found.as_ref().map_or(0, |(_, found)| found.len())
    }

    /// The first of them, below the fields, so that no field moves when it comes or goes.
    pub(super) fn ui(&self, ui: &mut Ui, cx: &Context<'_>, requests: &mut Requests<OrderAction>) {
        /// Room for two lines and what is said below them.
        const HEIGHT: f32 = 92.0;
        let Some((_, found)) = &self.found else { return };
        let Some(first) = found.first() else { return };
        let frame = egui::Frame::new().inner_margin(egui::Margin { top: 6, ..egui::Margin::ZERO });
        let panel = egui::Panel::bottom("suggestion").exact_size(HEIGHT).resizable(false).show_separator_line(false);
        panel.frame(frame).show(ui, |ui| card_ui(ui, cx, first, found.len(), requests));
    }
}

fn card_ui(ui: &mut Ui, cx: &Context<'_>, first: &Suggestion, n: usize, requests: &mut Requests<OrderAction>) {
    let c = cx.colours;
    let card = egui::Frame::new().fill(c.card).stroke((1.5, c.leaf)).corner_radius(12).inner_margin(10);
    card.show(ui, |ui| {
        ui.horizontal(|ui| {
            let room = ui.available_width() - 222.0;
            ui.vertical(|ui| {
                ui.set_width(room);
                ui.spacing_mut().item_spacing.y = 2.0;
                ui.label(RichText::new(&first.says).font(strong(17.0)).color(c.ink));
                if n > 1 {
                    ui.label(RichText::new(format!("1 of {n}")).font(words(14.0)).color(c.soft));
                }
            });
            if button(ui, &c, "Yes, do it", Weight::Main).clicked() {
                requests.shared.push(Action::change(first.change.clone()));
            }
            if button_sized(ui, &c, "Not now", Weight::Plain, egui::vec2(0.0, MAIN_TARGET)).clicked() {
                requests.own.push(OrderAction::NotNow(first.says.clone()));
            }
        });
    });
}
