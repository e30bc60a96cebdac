//! The days of the order: event, pick-up, who collects, last day to change. Each can be typed or tapped in a month; what was
//! understood stands beside it.

use egui::{RichText, Ui};

use super::OrderColumn;
use crate::app::action::{Action, MonthAction};
use crate::app::context::Context;
use crate::app::typing::field::Field;
use crate::app::widgets::controls::icon_button;
use crate::app::widgets::icons::Icon;
use crate::app::widgets::theme::{TARGET, words};
use crate::app::widgets::today::has_hour;
use crate::book::{DayDoubt, MissingDetail, WallClock, When};

/// The fields of the days, one below the other.
pub(super) fn days_ui(ui: &mut Ui, a: &OrderColumn<'_>, actions: &mut Vec<Action>) {
    a.heading(ui, "Event day", &[MissingDetail::EventDay]);
    day_ui(ui, a, Field::EventDay, actions);
    a.heading(ui, "Pick-up day and time", &[MissingDetail::Day, MissingDetail::Hour]);
    day_ui(ui, a, Field::Wanted, actions);
    a.heading(ui, "Last day to change", &[]);
    day_ui(ui, a, Field::LastChange, actions);
    a.heading(ui, "Collected by", &[]);
    a.field(ui, Field::CollectedBy, a.width, actions);
    let clock = WallClock { today: a.cx.today, has_hour };
    let odd = a.order.days().map(|days| days.warnings(&clock, a.cx.written)).unwrap_or_default();
    let late = a.cx.shop.zip(a.cx.today).map(|(shop, today)| shop.order.too_late_to_order(&shop.stock, today));
    let late = late.unwrap_or_default();
    let odd = odd.into_iter().chain(late.iter().map(|late| late.says(a.cx.written.date)));
    // Room for a sentence is kept, so that nothing below moves when one comes or goes.
    ui.vertical(|ui| {
        ui.set_min_height(WARNING_HIGH);
        for odd in odd {
            ui.label(RichText::new(odd).font(words(15.0)).color(a.cx.colours.rose));
        }
    });
}

/// Height of a sentence on one line, points; few take two.
const WARNING_HIGH: f32 = 20.0;

/// A day to type or to tap, and what was understood; where it may be either of two days, both to tap.
fn day_ui(ui: &mut Ui, a: &OrderColumn<'_>, field: Field, actions: &mut Vec<Action>) {
    let Some(when) = a.order.day_in(field) else { return };
    ui.horizontal(|ui| {
        a.field(ui, field, a.width / 2.0 - TARGET - ui.spacing().item_spacing.x, actions);
        let name = format!("{}: month", field.name());
        if icon_button(ui, &a.cx.colours, Icon::Month, &name, true).clicked() {
            actions.push(Action::Month(MonthAction::Open(field)));
        }
        let Some(DayDoubt::Two(days)) = when.doubt(a.cx.today) else {
            return a.note(ui, &understood(when, field, a.cx));
        };
        // On the same line, so that nothing below moves while somebody types.
        for day in days {
            if a.answer(ui, &day.written(a.cx.written.date), false) {
                actions.extend(field.day_change(when.on(day, a.cx.written)).map(Action::change));
            }
        }
    });
}

/// What was understood of the words in a field, or what is odd about them.
fn understood(when: &When, field: Field, cx: &Context<'_>) -> String {
    if let Some(doubt) = when.doubt(cx.today) {
        return doubt.says(cx.written);
    }
    let Some(day) = when.day() else {
        return if when.is_blank() { String::new() } else { "Which day? For example 5 Dec".to_owned() };
    };
    let written = day.with_weekday(cx.written.date);
    match when.hour() {
        Some(hour) => format!("{written}, {}", hour.written(cx.written.hour)),
        None if field.has_hour() => format!("{written}, time missing"),
        None => written,
    }
}
