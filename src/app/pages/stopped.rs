//! What this wearer must not get, where it matters before a price is told or a yes is said.

use egui::{RichText, Ui};

use crate::app::action::Action;
use crate::app::pages::page::Page;
use crate::app::shell::window::Window;
use crate::app::widgets::controls::{Weight, button};
use crate::app::widgets::naming::in_text;
use crate::app::widgets::theme::{strong, words};
use crate::app::widgets::words::Counter;
use crate::book::{Stopped, stopped};
use crate::stock::{STANDING_LINE, Stock, StockId};

/// Everything on the wearer's piece that is stopped.
pub(crate) fn stops(w: &Window) -> Vec<Stopped> {
    stopped(w.session.order(), w.session.stock())
}

/// A card that says what is stopped, why, what may stand in, and leads to where it is seen to; nothing when nothing is.
pub(crate) fn stopped_ui(ui: &mut Ui, w: &Window, stops: &[Stopped], actions: &mut Vec<Action>) {
    if stops.is_empty() {
        return;
    }
    card(ui, w, |ui| {
        for stop in stops {
            ui.label(RichText::new(&stop.why).font(strong(16.0)).color(w.colours().ink));
            let names: Vec<String> = stop.instead.iter().filter_map(|id| name_of(id, w.session.stock())).collect();
            if !names.is_empty() {
                ui.label(RichText::new(Counter::instead(&names)).font(words(16.0)).color(w.colours().ink));
            }
        }
        see_to_it_ui(ui, w, actions);
        ui.label(RichText::new(STANDING_LINE).font(words(13.0)).color(w.colours().soft));
    });
}

/// The same in short, where pictures need the room.
pub(crate) fn stopped_in_short_ui(ui: &mut Ui, w: &Window, stops: &[Stopped], actions: &mut Vec<Action>) {
    if stops.is_empty() {
        return;
    }
    card(ui, w, |ui| {
        ui.horizontal(|ui| {
            let room = ui.available_width() - 110.0;
            ui.vertical(|ui| {
                ui.set_width(room);
                let whys: Vec<&str> = stops.iter().map(|stop| stop.why.as_str()).collect();
                ui.label(RichText::new(whys.join(" ")).font(strong(15.0)).color(w.colours().ink));
                ui.label(RichText::new(STANDING_LINE).font(words(13.0)).color(w.colours().soft));
            });
            see_to_it_ui(ui, w, actions);
        });
    });
}

fn card(ui: &mut Ui, w: &Window, add: impl FnOnce(&mut Ui)) {
    let c = w.colours();
    egui::Frame::new().fill(c.card).stroke((2.0, c.rose)).corner_radius(12).inner_margin(8).show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.spacing_mut().item_spacing.y = 2.0;
        add(ui);
    });
}

fn see_to_it_ui(ui: &mut Ui, w: &Window, actions: &mut Vec<Action>) {
    if button(ui, &w.colours(), Counter::SEE_TO_IT, Weight::Plain).on_hover_text(Counter::SEE_TO_IT_TIP).clicked() {
        actions.push(Action::Turn(Page::Questions));
    }
}

fn name_of(id: &StockId, stock: &Stock) -> Option<String> {
    let flower = stock.botanical(id).map(|b| in_text(&b.name));
    flower.or_else(|| stock.band(id).map(|b| in_text(&b.name)))
}
