//! What is searched for and which orders are shown.

use egui::text::{CCursor, CCursorRange};
use egui::{Event, TextEdit, Ui, vec2};

use crate::app::context::{Context, Requests};
use crate::app::pages::orders::list::StateFilter;
use crate::app::pages::orders::{OrdersAction, OrdersPage, table};
use crate::app::parts::tap_keys::watch_page_field;
use crate::app::typing::taps::PageKeys;
use crate::app::widgets::controls::{Weight, button};
use crate::app::widgets::theme::{TARGET, words};
use crate::book::OrderState;

/// Width of the search, points.
const SEARCH: f32 = 226.0;

pub(super) fn toolbar_ui(ui: &mut Ui, cx: &Context<'_>, page: &OrdersPage, requests: &mut Requests<OrdersAction>) {
    let filter = &page.list.filter;
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 4.0;
        search_ui(ui, cx, page, requests);
        let mut choice = |label: &str, tip: &str, is_chosen: bool, action: OrdersAction| {
            let weight = if is_chosen { Weight::Chosen } else { Weight::Plain };
            if button(ui, &cx.colours, label, weight).on_hover_text(tip).clicked() {
                requests.own.push(action);
            }
        };
        let states = |states| (filter.states == states && filter.party.is_none(), OrdersAction::States(states));
        let (chosen, action) = states(StateFilter::Open);
        choice(
            &format!("To do ({})", page.list.count(StateFilter::Open)),
            "Neither collected nor cancelled",
            chosen,
            action,
        );
        for state in OrderState::ALL {
            let (chosen, action) = states(StateFilter::Only(state));
            choice(state.label(), "Only these", chosen, action);
        }
        let (chosen, action) = states(StateFilter::All);
        choice("All", "Every order", chosen, action);
        for (label, tip, days) in
            [("Today", "To be picked up today, or late", 0), ("7 days", "Within 7 days, or late", 7)]
        {
            let chosen = filter.within_days == Some(days);
            choice(label, tip, chosen, OrdersAction::Within((!chosen).then_some(days)));
        }
        let calls = format!("Calls to make ({})", page.list.n_calls());
        choice(&calls, "Orders with details missing", filter.only_calls, OrdersAction::OnlyCalls(!filter.only_calls));
    });
}

fn search_ui(ui: &mut Ui, cx: &Context<'_>, page: &OrdersPage, requests: &mut Requests<OrdersAction>) {
    const NAME: &str = "Search the orders";
    let id = egui::Id::unique("orders search");
    let mut search = page.list.filter.search.clone();
    let focused = ui.memory(|m| m.focused());
    let is_in_search = focused == Some(id);
    // Up and down lead into the table, and Enter opens what is selected there.
    if is_in_search || focused.is_none() || focused == page.selected.as_deref().map(table::row_id) {
        table::read_keys(ui, requests);
        if is_in_search || focused.is_none() {
            table::read_enter(ui, page, requests);
        }
        let typed = if is_in_search { String::new() } else { take_typed(ui) };
        if !typed.is_empty() {
            search.push_str(&typed);
            requests.own.push(OrdersAction::Search(search.clone()));
            write_on(ui, id, search.chars().count());
        }
    }
    let field = TextEdit::singleline(&mut search)
        .id(id)
        .hint_text("name, event, phone")
        .font(words(17.0))
        .desired_width(SEARCH)
        .min_size(vec2(SEARCH, TARGET))
        .align(egui::Align2::LEFT_CENTER);
    let response = ui.add(field).accessible_name(NAME);
    if cx.page_opened {
        response.request_focus();
    }
    let happened = watch_page_field(&response, cx.typing, (NAME, PageKeys::Words), &search);
    requests.own.extend(happened.written.map(OrdersAction::Search));
    requests.own.extend(happened.keys.into_iter().map(OrdersAction::Taps));
}

/// Letters typed where no field has the keyboard are meant for the search; none of them is a key of the window.
fn take_typed(ui: &Ui) -> String {
    ui.input_mut(|i| {
        let mut typed = String::new();
        i.events.retain(|event| match event {
            Event::Text(text) => {
                typed.push_str(text);
                false
            }
            Event::Key { key, modifiers, .. } => {
                let is_letter = key.name().chars().count() == 1 && !modifiers.command && !modifiers.alt;
                !is_letter
            }
            _ => true,
        });
        typed.trim_start().to_owned()
    })
}

/// Gives a field the keyboard, to be written on after its last letter.
fn write_on(ui: &Ui, id: egui::Id, n_letters: usize) {
    let mut state = TextEdit::load_state(ui.ctx(), id).unwrap_or_default();
    state.cursor.set_char_range(Some(CCursorRange::one(CCursor::new(n_letters))));
    state.store(ui.ctx(), id);
    ui.memory_mut(|m| m.request_focus(id));
}
