//! The orders of the shop as a table: what is due first, and beside it what can be done with the one that is chosen. For the
//! designer alone, for it shows other clients' names.
//!
//! A list that has been read is shown only while no finger and no button is down: no row goes away under a press.

mod aside;
pub(crate) mod list;
mod table;
mod toolbar;

use std::path::{Path, PathBuf};
use std::sync::Arc;

use egui::{Key, Rect, Ui, UiBuilder, pos2};

use crate::app::action::{Action, ListedStep, StepWay};
use crate::app::context::{Context, Inputs, Requests};
use crate::app::pages::{Page, PageInfo};
use crate::app::parts::page_head::head_ui;
use crate::app::typing::taps::TapKey;
use crate::app::widgets::finger::{may_become_tap, wake_for_what_waits};
use crate::app::widgets::theme::GRID;
use crate::app::widgets::today::today;
use crate::book::{Change, OrderState};
use crate::store::{OrderRow, RepeatedNumber};
use crate::units::counted;
use list::{ListedRows, OrderList, SortColumn, StateFilter};

/// What is shown on the page, and what was done there.
#[derive(Debug, Default)]
pub(crate) struct OrdersPage {
    list: OrderList,
    /// Whether the orders have been read.
    is_read: bool,
    /// What has been read and is not shown yet.
    arrived: Option<ListedRows>,
    /// Numbers that more than one order has.
    repeated: Vec<RepeatedNumber>,
    selected: Option<PathBuf>,
    /// Where that stands in the table, looked up when either changes and not in every frame.
    place: Option<usize>,
    /// Whether the selected row is to be brought in sight and to have the keyboard.
    reveals: bool,
    /// What is being written as the party of the selected order.
    party_typed: Option<String>,
    done: Vec<ListedStep>,
    undone: Vec<ListedStep>,
    /// How many orders were left unsaved by windows that ended by surprise.
    pub(crate) n_left: usize,
}

/// What can be asked of the page.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum OrdersAction {
    Search(String),
    States(StateFilter),
    Within(Option<i64>),
    OnlyCalls(bool),
    /// Show one party, or all again.
    ShowParty(Option<String>),
    Sort(SortColumn),
    Select(PathBuf),
    /// Go so many rows down, or up.
    Move(isize),
    /// Go to the first row.
    First,
    /// Go to the last row.
    Last,
    /// Note of the selected order how far it has come.
    Mark(OrderState),
    /// Other words stand in the field of the party.
    WriteParty(String),
    /// The field of the party was left.
    LeaveParty,
    /// Give the selected order a number that no other has.
    Renumber,
    /// The keys on the screen.
    Taps(TapKey),
}

impl Page for OrdersPage {
    type Action = OrdersAction;

    const INFO: PageInfo = PageInfo { on_rail: None, key: Key::F3, is_for_shop: true };
    const IS_WIDE: bool = true;

    fn prepare(&mut self, inputs: &mut Inputs<'_>) {
        if self.arrived.is_some() && may_become_tap(inputs.ctx) {
            wake_for_what_waits(inputs.ctx);
        } else if let Some(rows) = self.arrived.take() {
            self.show_rows(rows);
        }
    }

    fn ui(&self, ui: &mut Ui, cx: &Context<'_>, requests: &mut Requests<OrdersAction>) {
        if cx.shop.is_none() {
            return;
        }
        head_ui(ui, cx, "Orders", &self.line(), &mut requests.shared);
        toolbar::toolbar_ui(ui, cx, self, requests);
        let all = ui.available_rect_before_wrap();
        let table = Rect::from_min_max(all.min, pos2(all.max.x - ASIDE - GRID, all.max.y));
        let aside = Rect::from_min_max(pos2(table.max.x + GRID, all.min.y), all.max);
        ui.scope_builder(UiBuilder::new().id_salt("order table").max_rect(table), |ui| {
            table::table_ui(ui, cx, self, requests);
        });
        ui.scope_builder(UiBuilder::new().id_salt("order aside").max_rect(aside), |ui| {
            aside::aside_ui(ui, cx, self, requests);
        });
    }

    fn run(&mut self, action: OrdersAction, _inputs: &mut Inputs<'_>) -> Vec<Action> {
        self.reveals = false;
        match action {
            OrdersAction::Search(words) => self.filter(|list| list.filter.search = words),
            OrdersAction::States(states) => self.filter(|list| {
                (list.filter.states, list.filter.party) = (states, None);
            }),
            OrdersAction::Within(days) => self.filter(|list| list.filter.within_days = days),
            OrdersAction::OnlyCalls(only) => self.filter(|list| list.filter.only_calls = only),
            OrdersAction::ShowParty(party) => self.filter(|list| {
                list.filter.search.clear();
                list.filter.party = party;
            }),
            OrdersAction::Sort(column) => {
                self.list.sort(column);
                self.find_selected();
            }
            OrdersAction::Select(path) => return self.select(path),
            OrdersAction::Move(by) => self.go(|place, last| place.saturating_add_signed(by).min(last)),
            OrdersAction::First => self.go(|_, _| 0),
            OrdersAction::Last => self.go(|_, last| last),
            OrdersAction::Mark(state) => return self.mark(state).into_iter().collect(),
            OrdersAction::WriteParty(words) => self.party_typed = Some(words),
            OrdersAction::LeaveParty => return self.take_party().into_iter().collect(),
            OrdersAction::Renumber => return self.renumber().into_iter().collect(),
            OrdersAction::Taps(key) => return vec![Action::Taps(key)],
        }
        Vec::new()
    }

    fn keeps_notice(action: &OrdersAction) -> bool {
        !matches!(action, OrdersAction::Mark(_) | OrdersAction::ShowParty(_) | OrdersAction::Renumber)
    }

    fn leave_field(&mut self, _inputs: &mut Inputs<'_>) -> Vec<Action> {
        self.take_party().into_iter().collect()
    }

    fn opened(&mut self, _inputs: &mut Inputs<'_>) {
        self.reveals = false;
    }

    fn undo_state(&self) -> Option<[bool; 2]> {
        Some([!self.done.is_empty(), !self.undone.is_empty()])
    }

    fn undo(&mut self, back: bool, _inputs: &mut Inputs<'_>) -> Vec<Action> {
        let step = if back { self.done.pop() } else { self.undone.pop() };
        let way = if back { StepWay::Back } else { StepWay::Again };
        step.map(|step| Action::ChangeListed(Box::new(step), way)).into_iter().collect()
    }
}

/// Width of what can be done with the selected order, points.
const ASIDE: f32 = 300.0;

impl OrdersPage {
    /// The orders have been read; they are shown as soon as nothing is pressed.
    pub(crate) fn take_rows(&mut self, rows: ListedRows, repeated: Vec<RepeatedNumber>) {
        (self.arrived, self.repeated) = (Some(rows), repeated);
    }

    /// Selects the order that was open before, so that one goes back and forth between two.
    pub(crate) fn select_first(&mut self, path: Option<&Path>) {
        if let Some(path) = path {
            self.choose(Some(path.to_owned()));
        }
    }

    /// A change of a listed order has been made.
    pub(crate) fn changed(&mut self, step: ListedStep, way: StepWay) {
        match way {
            StepWay::New => {
                self.undone.clear();
                self.done.push(step);
            }
            StepWay::Back => self.undone.push(step),
            StepWay::Again => self.done.push(step),
        }
    }

    /// All orders, by the names of their files.
    #[cfg(test)]
    pub(crate) fn rows(&self) -> &[Arc<OrderRow>] {
        self.list.all()
    }

    /// What the selected order is called.
    #[cfg(test)]
    pub(crate) fn selected_title(&self) -> Option<String> {
        self.selected_row().map(|row| row.title.clone())
    }

    /// The selected order, as long as it is shown.
    fn selected_row(&self) -> Option<&Arc<OrderRow>> {
        self.list.at(self.place?)
    }

    fn choose(&mut self, path: Option<PathBuf>) {
        self.selected = path;
        self.find_selected();
    }

    fn find_selected(&mut self) {
        self.place = self.selected.as_deref().and_then(|path| self.list.place_of(path));
    }

    fn line(&self) -> String {
        if let Some(first) = self.repeated.first() {
            return first.to_string();
        }
        match (self.is_read, self.list.all().len()) {
            (false, _) => "Reading the orders\u{2026}".to_owned(),
            (true, 0) => "No orders yet. The first one stands here as soon as it is saved.".to_owned(),
            (true, n) if n == self.list.n_shown() => counted(n, "order", "orders"),
            (true, n) => format!("{} of {}", self.list.n_shown(), counted(n, "order", "orders")),
        }
    }

    fn show_rows(&mut self, rows: ListedRows) {
        self.list.take(rows, today(0));
        self.is_read = true;
        self.keep_a_selection();
    }

    fn filter(&mut self, change: impl FnOnce(&mut OrderList)) {
        change(&mut self.list);
        self.list.arrange();
        self.keep_a_selection();
    }

    /// Where the selected order is not shown any more the first one is selected.
    fn keep_a_selection(&mut self) {
        self.find_selected();
        if self.place.is_none() {
            self.party_typed = None;
            self.choose(self.list.at(0).map(|row| row.path.clone()));
        }
    }

    /// A row was tapped: it is selected, and once it is, opened.
    fn select(&mut self, path: PathBuf) -> Vec<Action> {
        let taken = self.take_party();
        if self.selected.as_ref() == Some(&path) {
            return taken.into_iter().chain([Action::Open(path)]).collect();
        }
        self.choose(Some(path));
        taken.into_iter().collect()
    }

    fn go(&mut self, to: impl FnOnce(usize, usize) -> usize) {
        let Some(last) = self.list.n_shown().checked_sub(1) else { return };
        let place = self.place.map_or(0, |place| to(place, last));
        self.choose(self.list.at(place).map(|row| row.path.clone()));
        self.party_typed = None;
        self.reveals = true;
    }

    fn mark(&self, state: OrderState) -> Option<Action> {
        let row = self.selected_row()?;
        let note = |state| crate::book::progress_for(state, row.is_agreed).map(Change::Progress);
        let (change, back) = (note(state)?, note(row.state)?);
        (state != row.state).then(|| step_of(row, change, back))
    }

    /// Whether another order has the number of this one.
    fn shares_number(&self, row: &OrderRow) -> bool {
        self.repeated.iter().any(|repeated| Some(repeated.number) == row.number)
    }

    fn renumber(&self) -> Option<Action> {
        let row = self.selected_row().filter(|row| self.shares_number(row))?;
        let next = self.list.all().iter().filter_map(|row| row.number).max()?.checked_add(1)?;
        Some(step_of(row, Change::Number(next), Change::Number(row.number?)))
    }

    /// The party that was written, once its field is left.
    fn take_party(&mut self) -> Option<Action> {
        let typed = self.party_typed.take()?.trim().to_owned();
        let row = self.selected_row().filter(|row| row.party != typed)?;
        Some(step_of(row, Change::Party(typed), Change::Party(row.party.clone())))
    }
}

fn step_of(row: &OrderRow, change: Change, back: Change) -> Action {
    Action::ChangeListed(Box::new(ListedStep { path: row.path.clone(), change, back }), StepWay::New)
}
