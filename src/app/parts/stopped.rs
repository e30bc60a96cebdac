//! What this wearer must not get, where it matters before a price is shown or an agreement made.

use egui::{RichText, Ui};

use crate::app::action::Action;
use crate::app::context::Context;
use crate::app::page_list::PageId;
use crate::app::widgets::controls::{Weight, button};
use crate::app::widgets::theme::{strong, words};
use crate::app::widgets::words::Counter;
use crate::book::{Stopped, Understood};
use crate::stock::STANDING_LINE;

/// A card that says what is stopped, why, what may stand in, and leads to where it is seen to; nothing when nothing is.
pub(crate) fn stopped_ui(ui: &mut Ui, cx: &Context<'_>, actions: &mut Vec<Action>) {
    if cx.client.stopped.is_empty() {
        return;
    }
    card(ui, cx, |ui| {
        for stop in &cx.client.stopped {
            ui.label(RichText::new(stop.line()).font(strong(16.0)).color(cx.colours.ink));
            let names: Vec<String> = stop.instead.iter().filter_map(|id| cx.client.name_in_text(id)).collect();
            if !names.is_empty() {
                ui.label(RichText::new(Counter::instead(&names)).font(words(16.0)).color(cx.colours.ink));
            }
        }
        see_to_it_ui(ui, cx, actions);
        ui.label(RichText::new(STANDING_LINE).font(words(13.0)).color(cx.colours.soft));
    });
}

/// The same in short, where pictures need the room.
pub(crate) fn stopped_in_short_ui(ui: &mut Ui, cx: &Context<'_>, actions: &mut Vec<Action>) {
    let stops = &cx.client.stopped;
    if stops.is_empty() {
        return;
    }
    card(ui, cx, |ui| {
        ui.horizontal(|ui| {
            let room = ui.available_width() - 110.0;
            ui.vertical(|ui| {
                ui.set_width(room);
                let whys: Vec<String> = stops.iter().map(Stopped::line).collect();
                ui.label(RichText::new(whys.join(" ")).font(strong(15.0)).color(cx.colours.ink));
                ui.label(RichText::new(STANDING_LINE).font(words(13.0)).color(cx.colours.soft));
            });
            see_to_it_ui(ui, cx, actions);
        });
    });
}

/// What is stopped on either piece, at the head of the side that stands beside every page.
pub(crate) fn stops_at_the_side_ui(ui: &mut Ui, cx: &Context<'_>, actions: &mut Vec<Action>) {
    let stops: Vec<String> = cx.client.stopped.iter().map(Stopped::line).collect();
    let words_of = |open: &Understood| Counter::not_understood(&open.unread);
    let all = cx.client.understood.iter().chain(&cx.client.partner_understood);
    let lines: Vec<String> = stops.into_iter().chain(all.filter(|w| w.is_open()).map(words_of)).collect();
    if lines.is_empty() || cx.page == PageId::Order {
        return;
    }
    card(ui, cx, |ui| {
        for line in &lines {
            ui.label(RichText::new(line).font(strong(15.0)).color(cx.colours.rose));
        }
        see_to_it_ui(ui, cx, actions);
    });
}

fn card(ui: &mut Ui, cx: &Context<'_>, add: impl FnOnce(&mut Ui)) {
    let c = cx.colours;
    egui::Frame::new().fill(c.card).stroke((2.0, c.rose)).corner_radius(12).inner_margin(8).show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.spacing_mut().item_spacing.y = 2.0;
        add(ui);
    });
}

fn see_to_it_ui(ui: &mut Ui, cx: &Context<'_>, actions: &mut Vec<Action>) {
    if button(ui, &cx.colours, Counter::SEE_TO_IT, Weight::Plain).on_hover_text(Counter::SEE_TO_IT_TIP).clicked() {
        actions.push(Action::Show(PageId::Order));
    }
}
