//! Shop view: a price of her own instead of the shop's, a discount, and what both mean; what a firm price would be today.

use egui::{RichText, Ui};

use super::{amount_ui, card};
use crate::app::action::Action;
use crate::app::context::Context;
use crate::app::parts::field::field_ui;
use crate::app::typing::field::Field;
use crate::app::view::ShopView;
use crate::app::widgets::controls::{Weight, button};
use crate::app::widgets::theme::{GRID, strong, words};
use crate::app::widgets::words::Mine;
use crate::book::Change;
use crate::paperwork::{FirmBy, Quote, WHY_BELOW, below_words_my_side, short_price, today_words_my_side};

/// Shop view: a price of her own instead of the shop's, and what it means.
pub(super) fn own_price_ui(ui: &mut Ui, cx: &Context<'_>, shop: &ShopView, actions: &mut Vec<Action>) {
    let c = cx.colours;
    let quote = &shop.quote;
    ui.add_space(GRID);
    card(&c).show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.spacing_mut().item_spacing.y = 4.0;
        ui.horizontal(|ui| {
            ui.spacing_mut().item_spacing.x = 6.0;
            ui.label(
                RichText::new(format!("{} {}", Mine::OWN_PRICE, quote.currency.sign)).font(strong(16.0)).color(c.ink),
            );
            amount_ui(ui, cx, Field::Asked, 84.0, actions);
            if quote.asked.is_some() {
                let width = ui.available_width() - 8.0;
                field_ui(ui, cx, Field::Reason, width, actions);
            } else {
                let house = Mine::shop_price(&short_price(quote.house, &quote.currency));
                ui.label(RichText::new(house).font(words(15.0)).color(c.soft));
            }
        });
        ui.horizontal(|ui| {
            ui.spacing_mut().item_spacing.x = 6.0;
            ui.label(RichText::new(Mine::DISCOUNT).font(strong(16.0)).color(c.ink));
            amount_ui(ui, cx, Field::Discount, 96.0, actions);
            if shop.order.terms.discount.is_some() {
                let width = ui.available_width() - 8.0;
                field_ui(ui, cx, Field::DiscountWords, width, actions);
            }
        });
        today_ui(ui, cx, quote, actions);
        if shop.n_example_prices > 0 {
            ui.label(RichText::new(Mine::example_prices(shop.n_example_prices)).font(words(15.0)).color(c.rose));
        }
        if let Some(below) = below_words_my_side(quote) {
            ui.label(RichText::new(below).font(strong(16.0)).color(c.rose));
            if quote.asked.as_ref().is_some_and(|a| a.reason.trim().is_empty()) {
                ui.label(RichText::new(WHY_BELOW).font(words(15.0)).color(c.ink));
            }
        }
    });
}

/// What a quoted or agreed price would be today, where it would be another; and whether a quote has ended.
fn today_ui(ui: &mut Ui, cx: &Context<'_>, quote: &Quote, actions: &mut Vec<Action>) {
    let c = cx.colours;
    let Some(firm) = &quote.firm else { return };
    let is_quote = matches!(firm.by, FirmBy::Quote(_));
    let ended = quote.holds_until.filter(|until| is_quote && cx.today.is_some_and(|today| today > *until));
    let today = today_words_my_side(firm, &quote.currency);
    if let Some(until) = ended {
        ui.label(RichText::new(Mine::quote_ended(&until.written(cx.written.date))).font(strong(16.0)).color(c.rose));
    }
    if let Some(today) = &today {
        ui.label(RichText::new(today).font(words(16.0)).color(c.ink));
    }
    if is_quote && today.is_some() && button(ui, &c, Mine::TODAYS_PRICE, Weight::Plain).clicked() {
        actions.push(Action::change(Change::QuotedOn(None)));
    }
}
