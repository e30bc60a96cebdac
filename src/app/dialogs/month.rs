//! A month to tap: the day of a field, and for the pick-up its hour. Arrows go from day to day, Page Up and Page Down from
//! month to month.

use egui::{Key, Modifiers, Response, RichText, Role, Sense, Stroke, Ui, Vec2, WidgetInfo, vec2};

use crate::app::action::{Action, MonthAction};
use crate::app::context::Context;
use crate::app::typing::field::Field;
use crate::app::widgets::controls::{Weight, button, button_sized, icon_button};
use crate::app::widgets::icons::Icon;
use crate::app::widgets::keys::take_key;
use crate::app::widgets::plate::plate;
use crate::app::widgets::theme::{GRID, TARGET, strong, title, words};
use crate::book::{Day, Hour, Month, When, week_names};

/// The month that is shown, and for which field.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct MonthShown {
    pub(crate) field: Field,
    pub(crate) month: Month,
}

/// Between two days, points.
const BETWEEN: f32 = 3.0;
/// Hours that are offered for a pick-up, from 6 to 23, for weddings begin early and dances late; others are typed. Our choice.
const HOURS: std::ops::Range<i16> = 6..24;
/// Height of the names over the columns of days, points.
const NAMES_HIGH: f32 = 20.0;
/// Hours in a column.
const IN_COLUMN: usize = 6;
/// Width of an hour, points.
const HOUR_WIDE: f32 = 96.0;

pub(crate) fn month_ui(ui: &mut Ui, cx: &Context<'_>, shown: MonthShown, actions: &mut Vec<Action>) {
    let c = &cx.colours;
    ui.label(RichText::new(shown.field.name()).font(title(24.0)).color(c.ink));
    ui.horizontal_top(|ui| {
        ui.spacing_mut().item_spacing.x = 3.0 * GRID;
        ui.vertical(|ui| {
            ui.spacing_mut().item_spacing = Vec2::splat(BETWEEN);
            head_ui(ui, cx, shown, actions);
            days_ui(ui, cx, shown, actions);
        });
        if shown.field.has_hour() {
            ui.vertical(|ui| hours_ui(ui, cx, shown.field, actions));
        }
    });
    ui.add_space(GRID);
    ui.horizontal(|ui| {
        if let Some(today) = cx.today
            && button(ui, c, "Today", Weight::Plain).clicked()
        {
            actions.push(Action::Month(MonthAction::Choose(today)));
        }
        if button(ui, c, "No day", Weight::Plain).clicked() {
            actions.push(Action::Month(MonthAction::Clear));
        }
        if button(ui, c, "Close", Weight::Plain).clicked() {
            actions.push(Action::CloseDialog);
        }
    });
    for (key, months) in [(Key::PageUp, -1), (Key::PageDown, 1)] {
        if take_key(ui, Modifiers::NONE, key) {
            actions.push(Action::Month(MonthAction::Turn(months)));
        }
    }
}

/// The month before, its name, the month after.
fn head_ui(ui: &mut Ui, cx: &Context<'_>, shown: MonthShown, actions: &mut Vec<Action>) {
    let c = &cx.colours;
    let wide = 7.0 * TARGET + 6.0 * BETWEEN;
    ui.horizontal(|ui| {
        for (icon, name, months) in [(Icon::Before, "Month before", -1), (Icon::After, "Month after", 1)] {
            if months > 0 {
                let named = RichText::new(shown.month.text()).font(strong(18.0)).color(c.ink);
                let room = vec2(wide - 2.0 * (TARGET + BETWEEN), TARGET);
                ui.add_sized(room, egui::Label::new(named));
            }
            if icon_button(ui, c, icon, name, shown.month.plus(months).is_some()).clicked() {
                actions.push(Action::Month(MonthAction::Turn(months)));
            }
        }
    });
}

fn days_ui(ui: &mut Ui, cx: &Context<'_>, shown: MonthShown, actions: &mut Vec<Action>) {
    let starts = cx.written.date.week_starts();
    ui.horizontal(|ui| {
        for name in week_names(starts) {
            let name = RichText::new(name).font(words(14.0)).color(cx.colours.soft);
            ui.add_sized(vec2(TARGET, NAMES_HIGH), egui::Label::new(name));
        }
    });
    let chosen = cx.client.order.day_in(shown.field).and_then(When::day);
    let first = chosen.or(cx.today).filter(|day| shown.month.holds(*day));
    for week in shown.month.weeks(starts) {
        ui.horizontal(|ui| {
            for day in week {
                let Some(day) = day else {
                    ui.allocate_exact_size(Vec2::splat(TARGET), Sense::hover());
                    continue;
                };
                let response = day_ui(ui, cx, day, chosen, shown.month);
                if first == Some(day) && ui.memory(|m| m.focused().is_none()) {
                    response.request_focus();
                }
                if response.clicked() {
                    actions.push(Action::Month(MonthAction::Choose(day)));
                }
            }
        });
    }
}

/// A day: today has a ring, the chosen one a ground, days of other months are pale.
fn day_ui(ui: &mut Ui, cx: &Context<'_>, day: Day, chosen: Option<Day>, month: Month) -> Response {
    let is_chosen = chosen == Some(day);
    let c = &cx.colours;
    let (rect, response) = ui.allocate_exact_size(Vec2::splat(TARGET), Sense::click());
    let name = day.with_weekday(cx.written.date);
    response.widget_info(|| WidgetInfo::selected(Role::Button, true, is_chosen, &name));
    if ui.is_rect_visible(rect) {
        let is_today = cx.today == Some(day);
        let fill = if is_chosen { c.kraft } else { c.card };
        let edge = match (response.has_focus() || response.hovered(), is_today) {
            (true, _) => Stroke::new(2.5, c.ink),
            (false, true) => Stroke::new(2.5, c.leaf),
            (false, false) => Stroke::new(1.0, c.line),
        };
        plate(ui.painter(), rect.shrink(1.0), fill, edge);
        let font = if is_chosen || is_today { strong(17.0) } else { words(17.0) };
        let ink = if month.holds(day) { c.ink } else { c.soft };
        let (.., figure) = day.parts();
        ui.painter().text(rect.center(), egui::Align2::CENTER_CENTER, figure.to_string(), font, ink);
    }
    response
}

fn hours_ui(ui: &mut Ui, cx: &Context<'_>, field: Field, actions: &mut Vec<Action>) {
    let chosen = cx.client.order.day_in(field).and_then(When::hour);
    ui.spacing_mut().item_spacing = Vec2::splat(BETWEEN);
    // Beside the first week, below what heads the days.
    ui.add_space(TARGET + ui.spacing().interact_size.y.max(NAMES_HIGH) + 2.0 * BETWEEN);
    let hours: Vec<Hour> = HOURS.filter_map(|hour| Hour::new(hour, 0)).collect();
    ui.horizontal_top(|ui| {
        for column in hours.chunks(IN_COLUMN) {
            ui.vertical(|ui| {
                for hour in column {
                    let weight = if chosen == Some(*hour) { Weight::Chosen } else { Weight::Plain };
                    let label = hour.written(cx.written.hour);
                    if button_sized(ui, &cx.colours, &label, weight, vec2(HOUR_WIDE, TARGET)).clicked() {
                        actions.push(Action::Month(MonthAction::ChooseHour(*hour)));
                    }
                }
            });
        }
    });
}
