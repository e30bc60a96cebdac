//! What can be done with the selected order: open it, note how far it has come, copy it, bind it to a party.

use egui::{RichText, ScrollArea, TextEdit, Ui, vec2};

use crate::app::action::{Action, CopyFor, RecoveredAction};
use crate::app::context::{Context, Requests};
use crate::app::page_list::PageId;
use crate::app::pages::orders::{OrdersAction, OrdersPage};
use crate::app::parts::tap_keys::watch_page_field;
use crate::app::typing::taps::PageKeys;
use crate::app::widgets::controls::{Weight, button, button_sized};
use crate::app::widgets::theme::{GRID, MAIN_TARGET, TARGET, strong, title, words};
use crate::book::{OrderState, progress_for};
use crate::paperwork::short_price;
use crate::store::OrderRow;
use crate::units::counted;

pub(super) fn aside_ui(ui: &mut Ui, cx: &Context<'_>, page: &OrdersPage, requests: &mut Requests<OrdersAction>) {
    ScrollArea::vertical().id_salt("aside").auto_shrink([false, false]).show(ui, |ui| {
        ui.spacing_mut().item_spacing = vec2(6.0, 6.0);
        if let Some(row) = page.selected_row() {
            if let Some(refusal) = &row.refusal {
                ui.label(RichText::new(refusal.to_string()).font(words(17.0)).color(cx.colours.rose));
            } else {
                about_ui(ui, cx, row);
                number_ui(ui, cx, page, row, requests);
                open_ui(ui, cx, row, requests);
                state_ui(ui, cx, row, requests);
                party_ui(ui, cx, page, row, requests);
            }
            ui.add_space(GRID);
        }
        files_ui(ui, cx, page, requests);
    });
}

fn about_ui(ui: &mut Ui, cx: &Context<'_>, row: &OrderRow) {
    let c = &cx.colours;
    let say = |ui: &mut Ui, text: &str, ink| ui.label(RichText::new(text).font(words(16.0)).color(ink));
    let name = if row.wearer.trim().is_empty() { "No name yet" } else { row.wearer.trim() };
    ui.label(RichText::new(name).font(title(24.0)).color(c.ink));
    if let Some(call) = &row.call {
        say(ui, &format!("Needs {call}"), c.rose);
    } else if !row.missing.is_empty() {
        say(ui, &format!("{} open", counted(row.missing.len(), "detail", "details")), c.soft);
    }
    let money = |cents| short_price(cents, &cx.client.currency);
    let sums = format!("{}, paid {}, to pay {}", money(row.price), money(row.paid), money(row.due()));
    say(ui, &sums, c.ink);
}

/// Where another order has the same number: a button that gives this one its own.
fn number_ui(ui: &mut Ui, cx: &Context<'_>, page: &OrdersPage, row: &OrderRow, requests: &mut Requests<OrdersAction>) {
    let Some(number) = row.number.filter(|_| page.shares_number(row)) else { return };
    let says = format!("Another order is No. {number} too.");
    ui.label(RichText::new(says).font(words(16.0)).color(cx.colours.rose));
    let tip = "The next free one; papers printed before keep the old one";
    if button(ui, &cx.colours, "New number", Weight::Plain).on_hover_text(tip).clicked() {
        requests.own.push(OrdersAction::Renumber);
    }
}

fn open_ui(ui: &mut Ui, cx: &Context<'_>, row: &OrderRow, requests: &mut Requests<OrdersAction>) {
    let c = &cx.colours;
    if button_sized(ui, c, "Open order", Weight::Main, vec2(ui.available_width(), MAIN_TARGET)).clicked() {
        requests.shared.push(Action::Open(row.path.clone()));
    }
    ui.horizontal(|ui| {
        for (label, tip, who) in [
            ("Copy", "The same once more, for the same wearer", CopyFor::SameWearer),
            ("For another wearer", "The same piece; people and sizes are asked anew", CopyFor::AnotherWearer),
        ] {
            if button(ui, c, label, Weight::Plain).on_hover_text(tip).clicked() {
                requests.shared.push(Action::CopyListed(row.path.clone(), who));
            }
        }
    });
}

/// How far it has come. Agreed is said on the page of the price, so that it is never said without an agreement.
fn state_ui(ui: &mut Ui, cx: &Context<'_>, row: &OrderRow, requests: &mut Requests<OrdersAction>) {
    let c = &cx.colours;
    heading(ui, cx, "State");
    ui.horizontal_wrapped(|ui| {
        for state in OrderState::ALL {
            if progress_for(state, row.is_agreed).is_none() {
                continue;
            }
            if row.state == state {
                button(ui, c, state.label(), Weight::Chosen);
            } else if button(ui, c, &format!("Mark {}", state.word()), Weight::Plain).clicked() {
                requests.own.push(OrdersAction::Mark(state));
            }
        }
    });
}

fn party_ui(ui: &mut Ui, cx: &Context<'_>, page: &OrdersPage, row: &OrderRow, requests: &mut Requests<OrdersAction>) {
    let c = &cx.colours;
    heading(ui, cx, "Party");
    let mut text = page.party_typed.clone().unwrap_or_else(|| row.party.clone());
    let width = ui.available_width();
    let field = TextEdit::singleline(&mut text)
        .id(egui::Id::unique("order party"))
        .hint_text("such as a wedding\u{2019}s name")
        .font(words(17.0))
        .desired_width(width)
        .min_size(vec2(width, TARGET))
        .align(egui::Align2::LEFT_CENTER)
        .char_limit(80);
    let response = ui.add(field).accessible_name("Party");
    let happened = watch_page_field(&response, cx.typing, ("Party", PageKeys::Names), &text);
    requests.own.extend(happened.written.map(OrdersAction::WriteParty));
    requests.own.extend(happened.is_left.then_some(OrdersAction::LeaveParty));
    requests.own.extend(happened.keys.into_iter().map(OrdersAction::Taps));
    if row.party.is_empty() {
        let says = "Orders of one name are shown and billed together.";
        ui.label(RichText::new(says).font(words(14.0)).color(c.soft));
        return;
    }
    let sum = page.list.party_sum(&row.party);
    let money = |cents| short_price(cents, &cx.client.currency);
    let says =
        format!("{}, {}, to pay {}", counted(sum.n_orders, "order", "orders"), money(sum.price), money(sum.due()));
    ui.label(RichText::new(says).font(words(16.0)).color(c.ink));
    if button(ui, c, "Show party", Weight::Plain).clicked() {
        requests.own.push(OrdersAction::ShowParty(Some(row.party.clone())));
    }
}

/// Orders that are not in the table: a file elsewhere, and what windows left unsaved.
fn files_ui(ui: &mut Ui, cx: &Context<'_>, page: &OrdersPage, requests: &mut Requests<OrdersAction>) {
    let c = &cx.colours;
    let tip = "What to buy, the bench day and labels for a dance or a wedding (F12)";
    ui.horizontal_wrapped(|ui| {
        if button(ui, c, "Weekend", Weight::Plain).on_hover_text(tip).clicked() {
            requests.shared.push(Action::Show(PageId::Weekend));
        }
        if button(ui, c, "Open file\u{2026}", Weight::Plain).clicked() {
            requests.shared.push(Action::AskForOrder);
        }
        if page.n_left > 0 && button(ui, c, &format!("Unsaved work ({})", page.n_left), Weight::Plain).clicked() {
            requests.shared.push(Action::Recovered(RecoveredAction::Look));
        }
    });
}

fn heading(ui: &mut Ui, cx: &Context<'_>, text: &str) {
    ui.add_space(GRID / 2.0);
    ui.label(RichText::new(text).font(strong(15.0)).color(cx.colours.ink));
}
