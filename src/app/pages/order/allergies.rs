//! Allergies on the page of the order: what was typed, what it was understood as and what it stops; what nobody knows, to be
//! settled; what is stopped on the piece, to be changed or used all the same. For the wearer and for the partner.

use egui::{RichText, Ui};

use super::OrderColumn;
use crate::app::action::Action;
use crate::app::typing::field::Field;
use crate::app::widgets::controls::{Weight, button};
use crate::app::widgets::theme::{strong, words};
use crate::app::widgets::words::Counter;
use crate::book::{Change, NeedChange, Overruled, Stopped, Understood};

/// Whose words they are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Whose {
    Wearers,
    Partners,
}

impl Whose {
    pub(super) fn change(self, change: NeedChange) -> Action {
        Action::change(match self {
            Self::Wearers => Change::Need(change),
            Self::Partners => Change::PartnerNeed(change),
        })
    }
}

/// What was typed, line by line, and what is stopped on the piece.
pub(super) fn understood_ui(ui: &mut Ui, a: &OrderColumn<'_>, whose: Whose, actions: &mut Vec<Action>) {
    let client = a.cx.client;
    let all = match whose {
        Whose::Wearers => &client.understood,
        Whose::Partners => &client.partner_understood,
    };
    let has_open = all.iter().any(Understood::is_open);
    for word in all {
        word_ui(ui, a, whose, word, actions);
    }
    // One blank for a meaning and one for a reason stand on the page: the wearer's words come first.
    let hers_is_open = client.understood.iter().any(Understood::is_open);
    let waits = whose == Whose::Partners && hers_is_open;
    if has_open && a.cx.shop.is_some() && !waits {
        meaning_ui(ui, a, whose, all, actions);
    }
    let stops: Vec<&Stopped> =
        client.stopped.iter().filter(|stop| stop.is_partners == (whose == Whose::Partners)).collect();
    for stop in &stops {
        stop_ui(ui, a, whose, stop, actions);
    }
    let hers_is_stopped = client.stopped.iter().any(|stop| !stop.is_partners && stop.overruled.is_none());
    let is_above = whose == Whose::Partners && hers_is_stopped;
    if a.cx.shop.is_some() && !is_above && stops.iter().any(|stop| stop.overruled.is_none()) {
        ui.horizontal(|ui| {
            a.note(ui, Counter::USE_ANYWAY_WHY);
            a.field(ui, Field::OverruleReason, a.width / 2.0, actions);
        });
    }
}

fn word_ui(ui: &mut Ui, a: &OrderColumn<'_>, whose: Whose, word: &Understood, actions: &mut Vec<Action>) {
    let c = &a.cx.colours;
    if word.is_open() {
        ui.label(RichText::new(Counter::not_understood(&word.unread)).font(strong(15.0)).color(c.rose));
    }
    if !word.means.is_empty() || word.is_settled {
        ui.horizontal_wrapped(|ui| {
            let ink = if word.is_slip { c.rose } else { c.ink };
            ui.label(
                RichText::new(Counter::understood(&word.typed, &word.means, word.n_stopped))
                    .font(words(15.0))
                    .color(ink),
            );
            if word.is_settled && a.cx.shop.is_some() && button(ui, c, Counter::OPEN_AGAIN, Weight::Plain).clicked() {
                actions.push(whose.change(NeedChange::Meaning { word: word.unread.clone(), meaning: None }));
            }
        });
    }
}

/// What the first open word means: one of those that are near to it, something typed, or nothing here.
fn meaning_ui(ui: &mut Ui, a: &OrderColumn<'_>, whose: Whose, all: &[Understood], actions: &mut Vec<Action>) {
    let Some(open) = all.iter().find(|word| word.is_open()) else { return };
    let c = &a.cx.colours;
    let meaning = |meaning: &str| {
        whose.change(NeedChange::Meaning { word: open.unread.clone(), meaning: Some(meaning.to_owned()) })
    };
    ui.horizontal_wrapped(|ui| {
        for near in &open.near {
            if button(ui, c, &format!("It is {near}"), Weight::Plain).clicked() {
                actions.push(meaning(near));
            }
        }
        a.field(ui, Field::Meaning, 150.0, actions);
        let typed = a.cx.typing.in_field(Field::Meaning).unwrap_or_default().trim();
        let is_known = a.cx.client.is_understood(typed);
        let means = ui.add_enabled_ui(is_known, |ui| button(ui, c, Counter::MEANS_THIS, Weight::Plain)).inner;
        if is_known && means.clicked() {
            actions.push(meaning(typed));
            actions.push(Action::Write(Field::Meaning, String::new()));
        }
        if button(ui, c, Counter::NOTHING_HERE, Weight::Plain).on_hover_text(Counter::NOTHING_HERE_TIP).clicked() {
            actions.push(meaning(""));
        }
    });
}

/// Something on the piece that is stopped; the designer may use it all the same and says why.
fn stop_ui(ui: &mut Ui, a: &OrderColumn<'_>, whose: Whose, stop: &Stopped, actions: &mut Vec<Action>) {
    let c = &a.cx.colours;
    ui.horizontal_wrapped(|ui| {
        ui.label(RichText::new(stop.line()).font(strong(15.0)).color(c.rose));
        if a.cx.shop.is_none() {
            return;
        }
        let overruled = |reason: &str| {
            let (what, cause) = (stop.what.key().to_owned(), stop.cause.clone());
            whose.change(NeedChange::Overrule(Overruled { what, cause, reason: reason.to_owned() }))
        };
        if stop.overruled.is_some() {
            if button(ui, c, Counter::STOP_AGAIN, Weight::Plain).clicked() {
                actions.push(overruled(""));
            }
            return;
        }
        let reason = a.cx.typing.in_field(Field::OverruleReason).unwrap_or_default().trim();
        let has_reason = !reason.is_empty();
        let anyway = ui.add_enabled_ui(has_reason, |ui| button(ui, c, Counter::USE_ANYWAY, Weight::Plain)).inner;
        if has_reason && anyway.clicked() {
            actions.push(overruled(reason));
            actions.push(Action::Write(Field::OverruleReason, String::new()));
        }
    });
}
