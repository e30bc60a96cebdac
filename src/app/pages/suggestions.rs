//! What the needs of a wearer suggest: one question at a time, to take or to leave for now. Nothing is done by itself.

use egui::{RichText, Ui};

use crate::app::action::Action;
use crate::app::shell::window::Window;
use crate::app::widgets::controls::{Weight, button};
use crate::app::widgets::theme::{MAIN_TARGET, strong, words};
use crate::book::{Proposal, proposals};
use crate::history::Revision;
use crate::units::counted;

/// The questions of an order, reckoned once a revision, and those that were left for now.
#[derive(Debug, Default)]
pub(crate) struct Proposing {
    reckoned: Option<(Revision, Vec<Proposal>)>,
    left: Vec<String>,
}

impl Proposing {
    /// The house has other rules: what is asked is reckoned anew, what was left for now stays left.
    pub(crate) fn reckon_anew(&mut self) {
        self.reckoned = None;
    }

    /// A question is not asked again of this order.
    pub(crate) fn leave(&mut self, says: String) {
        self.left.push(says);
        self.reckoned = None;
    }
}

/// How many questions wait. While something is written nothing new is asked: half a number is no age yet.
pub(crate) fn n_waiting(w: &mut Window) -> usize {
    let revision = w.session.settled_revision();
    if let Some((_, asked)) = w.proposing.reckoned.as_ref().filter(|_| w.was_typing || w.taps.is_written_in()) {
        return asked.len();
    }
    if w.proposing.reckoned.as_ref().is_none_or(|(of, _)| *of != revision) {
        let mut asked = proposals(w.session.order(), w.session.style(), w.session.stock());
        asked.retain(|p| !w.proposing.left.contains(&p.says));
        w.proposing.reckoned = Some((revision, asked));
    }
    w.proposing.reckoned.as_ref().map_or(0, |(_, asked)| asked.len())
}

/// The first of the questions that wait, below what is asked on the page, so that no field moves when it comes or goes.
pub(crate) fn proposal_ui(ui: &mut Ui, w: &mut Window, actions: &mut Vec<Action>) {
    /// Room for two lines and what is said below them.
    const HEIGHT: f32 = 92.0;
    if n_waiting(w) == 0 {
        return;
    }
    let frame = egui::Frame::new().inner_margin(egui::Margin { top: 6, ..egui::Margin::ZERO });
    let panel = egui::Panel::bottom("proposal").exact_size(HEIGHT).resizable(false).show_separator_line(false);
    panel.frame(frame).show(ui, |ui| card_ui(ui, w, actions));
}

fn card_ui(ui: &mut Ui, w: &Window, actions: &mut Vec<Action>) {
    let Some((_, asked)) = &w.proposing.reckoned else { return };
    let Some(first) = asked.first() else { return };
    let c = w.colours();
    let card = egui::Frame::new().fill(c.card).stroke((1.5, c.leaf)).corner_radius(12).inner_margin(10);
    card.show(ui, |ui| {
        ui.horizontal(|ui| {
            let room = ui.available_width() - 222.0;
            ui.vertical(|ui| {
                ui.set_width(room);
                ui.spacing_mut().item_spacing.y = 2.0;
                ui.label(RichText::new(&first.says).font(strong(17.0)).color(c.ink));
                let more = match asked.len() - 1 {
                    0 => "Only if it is wanted.".to_owned(),
                    n => format!("{} after this one.", counted(n, "question", "questions")),
                };
                ui.label(RichText::new(more).font(words(14.0)).color(c.soft));
            });
            if button(ui, &c, "Yes, take it", Weight::Main).clicked() {
                actions.push(Action::change(first.change.clone()));
            }
            let later = crate::app::widgets::controls::button_sized(
                ui,
                &c,
                "Not now",
                Weight::Plain,
                egui::vec2(0.0, MAIN_TARGET),
            );
            if later.clicked() {
                actions.push(Action::NotNow(first.says.clone()));
            }
        });
    });
}
