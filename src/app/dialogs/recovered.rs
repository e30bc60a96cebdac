//! What was not saved when a window ended by surprise: to restore, to leave for later, to discard.

use std::time::{Duration, SystemTime};

use egui::{RichText, ScrollArea, Ui};

use crate::app::action::{Action, RecoveredAction};
use crate::app::widgets::controls::{Weight, button};
use crate::app::widgets::theme::{Colours, GRID, strong, title};
use crate::store::LeftOver;

/// The offer; `sure` is the one that is about to be thrown away.
pub(crate) fn recovered_ui(
    ui: &mut Ui,
    c: &Colours,
    left: &[LeftOver],
    sure: Option<usize>,
    actions: &mut Vec<Action>,
) {
    ui.set_width(560.0);
    ui.label(RichText::new("Unsaved work found").font(title(26.0)).color(c.ink));
    ui.label("Posywright closed before this was saved.");
    ui.add_space(GRID);
    let now = SystemTime::now();
    ScrollArea::vertical().max_height(400.0).show(ui, |ui| {
        for (n, left) in left.iter().enumerate() {
            one_ui(ui, c, (n, left), now, sure == Some(n), actions);
            ui.add_space(GRID);
        }
    });
    if button(ui, c, "Later", Weight::Plain).clicked() {
        actions.push(Action::CloseDialog);
    }
}

fn one_ui(
    ui: &mut Ui,
    c: &Colours,
    (n, left): (usize, &LeftOver),
    now: SystemTime,
    sure: bool,
    actions: &mut Vec<Action>,
) {
    ui.label(RichText::new(left.order.title_line()).font(strong(18.0)).color(c.ink));
    ui.label(when_and_where(left, now));
    ui.horizontal(|ui| {
        let take = button(ui, c, "Restore", Weight::Main);
        if n == 0 && ui.memory(|m| m.focused().is_none()) {
            take.request_focus();
        }
        if take.clicked() {
            actions.push(Action::Recovered(RecoveredAction::Restore(n)));
        }
        let (label, action) = if sure {
            ("Discard for good", RecoveredAction::DiscardForGood(n))
        } else {
            ("Discard", RecoveredAction::Discard(n))
        };
        if button(ui, c, label, Weight::Plain).clicked() {
            actions.push(Action::Recovered(action));
        }
    });
}

/// When it was changed, and what became of its file.
fn when_and_where(left: &LeftOver, now: SystemTime) -> String {
    let ago = ago(now.duration_since(left.at).unwrap_or_default());
    let file = match (&left.of, left.saved_since) {
        (None, _) => "It was never saved.",
        (Some(_), true) => "It was saved again later; after restoring, undo leads to what was saved.",
        (Some(_), false) => "After restoring, undo leads to what was saved.",
    };
    format!("Changed {ago}. {file}")
}

/// How long ago, as people say it.
fn ago(since: Duration) -> String {
    let minutes = since.as_secs() / 60;
    let many = |n: u64, one: &str, more: &str| if n == 1 { format!("{one} ago") } else { format!("{n} {more} ago") };
    match minutes {
        0 => "just now".to_owned(),
        1..60 => many(minutes, "a minute", "minutes"),
        60..1440 => many(minutes / 60, "an hour", "hours"),
        _ => many(minutes / 1440, "a day", "days"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn how_long_ago_is_told_as_people_say_it() {
        for (seconds, words) in [
            (0, "just now"),
            (59, "just now"),
            (60, "a minute ago"),
            (12 * 60 + 59, "12 minutes ago"),
            (3600, "an hour ago"),
            (23 * 3600 + 3599, "23 hours ago"),
            (24 * 3600, "a day ago"),
            (72 * 3600, "3 days ago"),
        ] {
            assert_eq!(ago(Duration::from_secs(seconds)), words);
        }
    }
}
