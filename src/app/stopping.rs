//! What this wearer must not get, where it matters before a price is told or a yes is said.

use egui::{RichText, Ui};

use super::counter_words::Counter;
use super::naming::in_text;
use super::theme::{strong, words};
use super::window::Window;
use crate::book::{Stopped, stopped};
use crate::stock::{STANDING_LINE, Stock, StockId};

/// Everything on the wearer's piece that is stopped.
pub(super) fn stops(w: &Window) -> Vec<Stopped> {
    stopped(w.session.order(), w.session.stock())
}

/// A card that says what is stopped, why, and what may stand in; nothing when nothing is.
pub(super) fn stopped_ui(ui: &mut Ui, w: &Window, stops: &[Stopped]) {
    if stops.is_empty() {
        return;
    }
    let c = w.colours();
    let card = egui::Frame::new().fill(c.card).stroke((2.0, c.rose)).corner_radius(12).inner_margin(10);
    card.show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.spacing_mut().item_spacing.y = 2.0;
        for stop in stops {
            ui.label(RichText::new(&stop.why).font(strong(16.0)).color(c.ink));
            let names: Vec<String> = stop.instead.iter().filter_map(|id| name_of(id, w.session.stock())).collect();
            if !names.is_empty() {
                ui.label(RichText::new(Counter::instead(&names)).font(words(16.0)).color(c.ink));
            }
        }
        ui.label(RichText::new(STANDING_LINE).font(words(13.0)).color(c.soft));
    });
}

fn name_of(id: &StockId, stock: &Stock) -> Option<String> {
    let flower = stock.botanical(id).map(|b| in_text(&b.name));
    flower.or_else(|| stock.band(id).map(|b| in_text(&b.name)))
}
