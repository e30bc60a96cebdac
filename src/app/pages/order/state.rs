//! How far the order has come, and the party that it belongs to. For the designer alone.

use egui::Ui;

use crate::app::action::Action;
use crate::app::pages::order::OrderColumn;
use crate::app::typing::field::Field;
use crate::book::{Change, OrderState};

pub(super) fn state_ui(ui: &mut Ui, a: &OrderColumn<'_>, actions: &mut Vec<Action>) {
    let Some(shop) = a.cx.shop else { return };
    a.heading(ui, "State", &[]);
    ui.horizontal(|ui| {
        let now = shop.order.state();
        for state in OrderState::ALL {
            // Agreed is said on the page of the price, where what is agreed can be read.
            let Some(progress) = shop.order.progress_for(state) else { continue };
            a.choice(ui, state.label(), now == state, Change::Progress(progress), actions);
        }
    });
    a.heading(ui, "Party", &[]);
    a.field(ui, Field::Party, a.width, actions);
}
