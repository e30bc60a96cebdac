//! The bar on top: whose piece it is, on which wrist, undo, save, and the switch between shop view and client view.

use egui::{RichText, Ui, vec2};

use crate::app::action::Action;
use crate::app::context::Context;
use crate::app::page_list::PageId;
use crate::app::parts::field::{TOP_BAR, field_ui, wrist_size_ui};
use crate::app::typing::field::Field;
use crate::app::widgets::controls::{Weight, button, button_sized, icon_button};
use crate::app::widgets::icons::Icon;
use crate::app::widgets::paper_words::Papers;
use crate::app::widgets::theme::strong;
use crate::book::Change;
use crate::piece::{Side, Worn};

pub(crate) fn top_bar_ui(ui: &mut Ui, cx: &Context<'_>, actions: &mut Vec<Action>) {
    let c = cx.colours;
    ui.horizontal_centered(|ui| {
        ui.spacing_mut().item_spacing.x = 6.0;
        // On the page of the order the name has its own place.
        if cx.page != PageId::Order {
            field_ui(ui, cx, Field::Wearer, 136.0, actions);
        }
        if cx.client.order.piece.worn == Worn::Wrist {
            wrist_ui(ui, cx, actions);
        }
        let [can_undo, can_redo] = cx.can_undo;
        if icon_button(ui, &c, Icon::Undo, "Undo (Ctrl+Z)", can_undo).clicked() {
            actions.push(Action::Undo);
        }
        if icon_button(ui, &c, Icon::Redo, "Redo (Ctrl+Y)", can_redo).clicked() {
            actions.push(Action::Redo);
        }
        // Other clients' names and the shop's papers are not for this client's eyes.
        if cx.shop.is_some() {
            for (label, tip, action) in [
                ("New", "New order (Ctrl+N)", Action::New),
                ("Open", "The orders of the shop (Ctrl+O)", Action::ShowOrders),
            ] {
                if button(ui, &c, label, Weight::Plain).on_hover_text(tip).clicked() {
                    actions.push(action);
                }
            }
            papers_button_ui(ui, cx, actions);
        }
        save_ui(ui, cx, actions);
        let weight = if cx.options.open { Weight::Chosen } else { Weight::Plain };
        if button(ui, &c, "View", weight).on_hover_text("Arm, ruler or coin, units (V)").clicked() {
            actions.push(Action::ShowOptions);
        }
        order_button_ui(ui, cx, actions);
        ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| view_switch_ui(ui, cx, actions));
    });
}

fn papers_button_ui(ui: &mut Ui, cx: &Context<'_>, actions: &mut Vec<Action>) {
    let is_open = cx.page == PageId::Papers;
    let weight = if is_open { Weight::Chosen } else { Weight::Plain };
    if button(ui, &cx.colours, Papers::TITLE, weight).on_hover_text(Papers::TIP).clicked() {
        actions.push(Action::Show(if is_open { PageId::Sheet } else { PageId::Papers }));
    }
}

/// Save, and beside it whether there is something to save.
fn save_ui(ui: &mut Ui, cx: &Context<'_>, actions: &mut Vec<Action>) {
    let c = cx.colours;
    let (state, ink) = match (cx.client.is_saved, cx.client.has_file) {
        (true, true) => ("saved", c.soft),
        (true, false) => ("new", c.soft),
        (false, _) => ("not saved", c.rose),
    };
    if button_sized(ui, &c, "Save", Weight::Main, vec2(76.0, 50.0)).on_hover_text("Save (Ctrl+S)").clicked() {
        actions.push(Action::Save);
    }
    if cx.shop.is_some() {
        ui.add_sized(vec2(58.0, 20.0), egui::Label::new(RichText::new(state).font(strong(13.0)).color(ink)));
    }
}

/// What is known of the order, and how many suggestions wait there.
fn order_button_ui(ui: &mut Ui, cx: &Context<'_>, actions: &mut Vec<Action>) {
    let open = cx.page == PageId::Order;
    let weight = if open { Weight::Chosen } else { Weight::Plain };
    let label = match cx.n_suggestions {
        0 => "Order".to_owned(),
        n => format!("Order ({n})"),
    };
    if button(ui, &cx.colours, &label, weight).on_hover_text("Order details (Q)").clicked() {
        actions.push(Action::Show(if open { PageId::Sheet } else { PageId::Order }));
    }
}

fn wrist_ui(ui: &mut Ui, cx: &Context<'_>, actions: &mut Vec<Action>) {
    for (side, label) in [(Side::Left, "Left"), (Side::Right, "Right")] {
        let weight = if cx.client.wrist.side == side { Weight::Chosen } else { Weight::Plain };
        if button(ui, &cx.colours, label, weight).on_hover_text("Which wrist").clicked() {
            actions.push(Action::change(Change::Side(side)));
        }
    }
    wrist_size_ui(ui, cx, 140.0, TOP_BAR, actions);
}

/// Both views, the present one marked.
fn view_switch_ui(ui: &mut Ui, cx: &Context<'_>, actions: &mut Vec<Action>) {
    ui.spacing_mut().item_spacing.x = 2.0;
    for (label, client) in [("Shop view", false), ("Client view", true)] {
        let weight = if cx.is_client() == client { Weight::Chosen } else { Weight::Plain };
        let pressed = button_sized(ui, &cx.colours, label, weight, vec2(88.0, 50.0));
        if pressed.on_hover_text("Who sees the screen (F2)").clicked() && cx.is_client() != client {
            actions.push(Action::SwitchView);
        }
    }
}
