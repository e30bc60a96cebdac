//! The offer of what was not kept when a window ended by surprise: to take up again, to leave, to throw away.

use std::time::{Duration, SystemTime};

use egui::{RichText, ScrollArea, Ui};

use crate::app::action::Action;
use crate::app::shell::window::Window;
use crate::app::widgets::controls::{Weight, button};
use crate::app::widgets::theme::{Colours, GRID, strong, title};
use crate::store::LeftOver;

/// What is wished for one of the orders that were left, by its place among them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Wish {
    /// See what there is.
    Show,
    /// Open it as it was.
    TakeUp(usize),
    /// Throw it away; asked once more.
    Throw(usize),
    /// Throw it away.
    ThrowForGood(usize),
}

/// The offer; `sure` is the one that is about to be thrown away.
pub(crate) fn offer_ui(ui: &mut Ui, w: &Window, sure: Option<usize>, actions: &mut Vec<Action>) {
    let c = w.colours();
    ui.set_width(560.0);
    ui.label(RichText::new("Not kept last time").font(title(26.0)).color(c.ink));
    ui.label("The window closed before this was kept. What you leave is offered again next time.");
    ui.add_space(GRID);
    let now = SystemTime::now();
    ScrollArea::vertical().max_height(400.0).show(ui, |ui| {
        for (n, left) in w.safety.left.iter().enumerate() {
            one_ui(ui, &c, (n, left), now, sure == Some(n), actions);
            ui.add_space(GRID);
        }
    });
    if button(ui, &c, "Leave it for now", Weight::Plain).clicked() {
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
    ui.label(told_of(left, now));
    ui.horizontal(|ui| {
        let take = button(ui, c, "Take it up again", Weight::Main);
        if n == 0 && ui.memory(|m| m.focused().is_none()) {
            take.request_focus();
        }
        if take.clicked() {
            actions.push(Action::LeftOver(Wish::TakeUp(n)));
        }
        let (label, wish) = if sure {
            ("Yes, throw it away for good", Wish::ThrowForGood(n))
        } else {
            ("Throw it away", Wish::Throw(n))
        };
        if button(ui, c, label, Weight::Plain).clicked() {
            actions.push(Action::LeftOver(wish));
        }
    });
}

/// When it was changed, and what became of its file.
fn told_of(left: &LeftOver, now: SystemTime) -> String {
    let ago = ago(now.duration_since(left.at).unwrap_or_default());
    let file = match (&left.of, left.saved_since) {
        (None, _) => "It was never kept before.",
        (Some(_), true) => "It was kept again after that; once taken up, undo leads to what was kept.",
        (Some(_), false) => "Once taken up, undo leads to what was kept.",
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
