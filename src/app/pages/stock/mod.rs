//! The stock page: everything that can be bought as a table, and a line of it beside the table to be changed, hidden, starred or
//! called right. For the designer alone.
//!
//! What is changed holds in the window at once, is a step of the page's own, and is saved in the shop's `stock.ron` when a field
//! is left or a button tapped. A step that takes something off the list waits until it is known that no order holds it.

mod adding;
pub(crate) mod importing;
mod line;
mod table;

use std::collections::BTreeSet;
use std::sync::Arc;

use egui::{Key, Modifiers, Ui};

use crate::app::action::{Action, Notice, StockRequest, StockStep};
use crate::app::context::{Context, Inputs, Requests};
use crate::app::pages::{Page, PageInfo};
use crate::app::parts::page_head::head_ui;
use crate::app::typing::taps::TapKey;
use crate::app::widgets::icons::Icon;
use crate::app::widgets::keys::take_key;
use crate::history::History;
use crate::paperwork::PriceTable;
use crate::stock::{NewFlower, StockListing, lost};
use crate::stock::{OwnStock, Stock, StockChange, StockColumn, StockField, StockItem, StockKey, StockKind};
use crate::store::built_in_stock;
use importing::{ImportAction, Importing};

/// Something done on the page.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum StockAction {
    /// Other words to search for.
    Search(String),
    /// Only this kind, or all.
    Kind(Option<StockKind>),
    /// Only example prices, or all.
    OnlyExamples(bool),
    /// Sort by this column; once more turns it over.
    Sort(StockColumn),
    /// The keyboard goes so many rows down, or up.
    Go(isize),
    /// Open a line beside the table.
    Open(StockKey),
    /// Open the line that the keyboard is on.
    OpenHere,
    /// Close the line.
    Close,
    /// Give the search field the keyboard.
    FocusSearch,
    /// Words in a field of the open line, as they are typed.
    Write(StockField, String),
    /// A field was left.
    Leave,
    /// The keys on the screen.
    Taps(TapKey),
    /// Change a line.
    Change(StockKey, StockChange),
    /// A line is as it came with the program again; one of the shop's own goes.
    Reset(StockKey),
    /// What is said of a new flower; none is added when there is nothing.
    New(Option<NewFlower>),
    /// Add the new flower.
    AddNew,
    /// Something about the list of a supplier.
    Import(ImportAction),
    /// Ask for the file of a supplier's list.
    AskForPrices,
    /// Ask where the list goes as a table.
    AskWhereToExport,
}

/// What is typed in a field, and why it cannot be taken.
struct TypedField {
    field: StockField,
    words: String,
    refused: Option<String>,
    /// The shop's own lines before the first letter.
    before: Arc<OwnStock>,
}

/// What is open on the page.
#[derive(Default)]
pub(crate) struct StockPage {
    listing: StockListing,
    /// The line that the keyboard is on.
    at: Option<StockKey>,
    /// Whether that line is open.
    is_open: bool,
    typed: Option<TypedField>,
    /// The list that comes with the program.
    base: Arc<Stock>,
    history: Option<History<OwnStock>>,
    /// The shop's own lines as they were last saved or read.
    saved: Arc<OwnStock>,
    /// Every line, and those that the table shows.
    items: Vec<StockItem>,
    rows: Vec<StockItem>,
    /// Everybody who sells something of the list, by name.
    suppliers: BTreeSet<String>,
    /// Of which list and how they were listed.
    listed: Option<(Arc<Stock>, StockListing)>,
    /// The row of the keyboard is to be seen in this frame, and in the next.
    shows_row: [bool; 2],
    /// The search field is to get the keyboard in this frame, and in the next.
    focuses_search: [bool; 2],
    has_remarks: bool,
    adding: Option<NewFlower>,
    importing: Option<Importing>,
}

/// What every part of the page is painted from.
#[derive(Clone, Copy)]
struct StockUi<'a> {
    page: &'a StockPage,
    cx: &'a Context<'a>,
}

impl Page for StockPage {
    type Action = StockAction;

    const INFO: PageInfo = PageInfo { on_rail: Some(("Stock", Icon::Stock)), key: Key::F7, is_for_shop: true };
    const IS_WIDE: bool = true;

    fn opened(&mut self, inputs: &mut Inputs<'_>) {
        if self.history.is_none() {
            self.base = Arc::new(built_in_stock());
        }
        self.typed = None;
        let own = OwnStock::between(&self.base, inputs.shop.stock());
        if self.history.as_ref().is_none_or(|history| **history.now() != own) {
            self.saved = Arc::new(own.clone());
            self.history = Some(History::new(own));
        }
    }

    fn prepare(&mut self, inputs: &mut Inputs<'_>) {
        self.shows_row = [self.shows_row[1], false];
        self.focuses_search = [self.focuses_search[1], false];
        self.has_remarks = inputs.shop.stock_has_remarks();
        let stock = inputs.session.stock();
        let is_listed = self.listed.as_ref().is_some_and(|(of, how)| Arc::ptr_eq(of, stock) && *how == self.listing);
        if !is_listed {
            self.items = stock.items().collect();
            self.rows = self.listing.rows(&self.items);
            let named = self.items.iter().map(StockItem::supplier).filter(|name| !name.is_empty());
            self.suppliers = named.map(str::to_owned).collect();
            self.listed = Some((Arc::clone(stock), self.listing.clone()));
        }
    }

    fn ui(&self, ui: &mut Ui, cx: &Context<'_>, requests: &mut Requests<StockAction>) {
        if cx.is_client() {
            return;
        }
        let p = StockUi { page: self, cx };
        head_ui(ui, cx, "Stock", &self.line(), &mut requests.shared);
        match &self.importing {
            Some(list) => importing::import_ui(ui, p, list, requests),
            None => table::page_ui(ui, p, requests),
        }
    }

    fn read_keys(&self, ui: &Ui, _cx: &Context<'_>, requests: &mut Requests<StockAction>) {
        let keys = [
            (Key::ArrowDown, StockAction::Go(1)),
            (Key::ArrowUp, StockAction::Go(-1)),
            (Key::PageDown, StockAction::Go(10)),
            (Key::PageUp, StockAction::Go(-10)),
            (Key::Slash, StockAction::FocusSearch),
        ];
        for (key, action) in keys {
            if take_key(ui, Modifiers::NONE, key) {
                requests.own.push(action);
            }
        }
        let is_free = ui.memory(|m| m.focused().is_none());
        if is_free && take_key(ui, Modifiers::NONE, Key::Enter) {
            requests.own.push(StockAction::OpenHere);
        }
    }

    fn run(&mut self, action: StockAction, inputs: &mut Inputs<'_>) -> Vec<Action> {
        let mut todo = Vec::new();
        if inputs.client_view {
            return todo;
        }
        match action {
            StockAction::Search(words) => self.listing.search = words,
            StockAction::Kind(kind) => self.listing.kind = kind,
            StockAction::OnlyExamples(only) => self.listing.only_examples = only,
            StockAction::Sort(column) => self.listing = self.listing.sorted_by(column),
            StockAction::Go(by) => self.go(by),
            StockAction::Open(key) => {
                self.is_open = !(self.is_open && self.at.as_ref() == Some(&key));
                self.at = Some(key);
                (self.typed, self.adding) = (None, None);
            }
            StockAction::OpenHere => self.is_open = self.at.is_some(),
            StockAction::Close => self.is_open = false,
            StockAction::FocusSearch => self.focuses_search[1] = true,
            StockAction::Write(field, words) => self.write(field, words, inputs, &mut todo),
            StockAction::Leave => self.leave(inputs, &mut todo),
            StockAction::Taps(key) => todo.push(Action::Taps(key)),
            StockAction::Change(key, change) => self.change(&key, &change, inputs, &mut todo),
            StockAction::Reset(key) => {
                self.typed = None;
                self.take(StockStep::To(self.own().without(&key)), inputs, &mut todo);
            }
            StockAction::New(flower) => {
                // The field of its name is written in first.
                self.focuses_search[1] = self.adding.is_none() && flower.is_some();
                self.adding = flower;
            }
            StockAction::AddNew => self.add_new(inputs, &mut todo),
            StockAction::Import(action) => self.import(&action, inputs, &mut todo),
            StockAction::AskForPrices => todo.push(Action::Stock(StockRequest::AskForPrices)),
            StockAction::AskWhereToExport => todo.push(Action::Stock(StockRequest::AskWhereToExport)),
        }
        todo
    }

    fn keeps_notice(action: &StockAction) -> bool {
        // Leaving a field is what brings up why its words could not be taken.
        matches!(action, StockAction::Leave | StockAction::Taps(_))
    }

    fn leave_field(&mut self, inputs: &mut Inputs<'_>) -> Vec<Action> {
        let mut todo = Vec::new();
        self.leave(inputs, &mut todo);
        todo
    }

    fn undo_state(&self) -> Option<[bool; 2]> {
        let history = self.history.as_ref();
        Some([history.is_some_and(History::can_undo), history.is_some_and(History::can_redo)])
    }

    fn undo(&mut self, back: bool, inputs: &mut Inputs<'_>) -> Vec<Action> {
        let mut todo = Vec::new();
        self.typed = None;
        self.take(if back { StockStep::Undo } else { StockStep::Redo }, inputs, &mut todo);
        todo
    }
}

impl StockPage {
    /// What the page says of the list.
    fn line(&self) -> String {
        let examples = self.rows.iter().filter(|item| item.shelf().has_example_price).count();
        match (self.has_remarks, examples) {
            (true, _) => "Your stock.ron has remarks by hand. The first change saves a copy of it.".to_owned(),
            (false, 0) => format!("{} lines, every price your own", self.rows.len()),
            (false, n) => format!("{} lines, {n} still at example prices", self.rows.len()),
        }
    }

    /// Whether a line is as it came with the program; none when it did not come with it.
    fn came_with_the_program(&self, item: &StockItem) -> Option<bool> {
        self.base.item(&item.key()).map(|came| came == *item)
    }

    /// The open line.
    fn open_item(&self) -> Option<&StockItem> {
        let at = self.at.as_ref().filter(|_| self.is_open)?;
        self.items.iter().find(|item| item.key() == *at)
    }

    fn row_of_keyboard(&self) -> Option<usize> {
        self.rows.iter().position(|row| Some(row.key()) == self.at)
    }

    fn go(&mut self, by: isize) {
        let last = self.rows.len().saturating_sub(1);
        let to = self.row_of_keyboard().map_or(0, |row| row.saturating_add_signed(by).min(last));
        self.at = self.rows.get(to).map(StockItem::key);
        self.typed = None;
        self.shows_row[1] = true;
    }

    /// The shop's own lines now.
    fn own(&self) -> Arc<OwnStock> {
        self.history.as_ref().map(|history| Arc::clone(history.now())).unwrap_or_default()
    }

    /// The open line after a change of it, as the shop's own lines.
    fn own_after(&self, key: &StockKey, change: &StockChange) -> Result<OwnStock, String> {
        let own = self.own();
        let Some(item) = own.item(key, &self.base) else { return Ok((*own).clone()) };
        Ok(own.with(item.changed(change)?, &self.base))
    }

    fn change(&mut self, key: &StockKey, change: &StockChange, inputs: &mut Inputs<'_>, todo: &mut Vec<Action>) {
        self.typed = None;
        match self.own_after(key, change) {
            Ok(own) => self.take(StockStep::To(own), inputs, todo),
            Err(why) => todo.push(Action::Say(Notice::card(why))),
        }
    }

    fn add_new(&mut self, inputs: &mut Inputs<'_>, todo: &mut Vec<Action>) {
        let Some(flower) = &self.adding else { return };
        match flower.make(inputs.session.stock()) {
            Ok(item) => {
                let key = item.key();
                todo.push(Action::Say(Notice::Done(format!("{} is in your list. Check its cautions.", item.name()))));
                self.take(StockStep::To(self.own().with(item, &self.base)), inputs, todo);
                (self.adding, self.at, self.is_open) = (None, Some(key), true);
                (self.listing, self.shows_row[1]) = (StockListing::default(), true);
            }
            Err(why) => todo.push(Action::Say(Notice::card(why))),
        }
    }

    /// A supplier's list was read: it is looked at before anything of it is taken.
    pub(crate) fn look_at_prices(&mut self, name: String, table: PriceTable, inputs: &Inputs<'_>) {
        let items: Vec<StockItem> = inputs.session.stock().items().collect();
        self.importing = Some(Importing::of(name, table, &items));
    }

    fn import(&mut self, action: &ImportAction, inputs: &mut Inputs<'_>, todo: &mut Vec<Action>) {
        let Some(list) = &mut self.importing else { return };
        match action {
            ImportAction::Leave => self.importing = None,
            ImportAction::Take => {
                let changed: Vec<StockItem> = list.changes().iter().map(|change| change.after.clone()).collect();
                let own = changed.into_iter().fold((*self.own()).clone(), |own, item| own.with(item, &self.base));
                let n = self.importing.take().map_or(0, |list| list.changes().len());
                let lines = crate::units::counted(n, "line", "lines");
                todo.push(Action::Say(Notice::Done(format!("{lines} changed. Undo takes all of them back."))));
                self.take(StockStep::To(own), inputs, todo);
            }
            ImportAction::Column(..) | ImportAction::Decimal(_) | ImportAction::ShowRefused(_) => {
                list.run(action, &self.items);
            }
        }
    }

    /// Letter by letter: what reads is felt at once, what does not is reported beside the field. A name of a colour is taken when
    /// its field is left, for an order may hold the name it had.
    fn write(&mut self, field: StockField, words: String, inputs: &mut Inputs<'_>, todo: &mut Vec<Action>) {
        let Some(key) = self.at.clone() else { return };
        let began = self.typed.take().filter(|t| t.field == field).map(|t| t.before);
        let before = began.unwrap_or_else(|| self.own());
        let refused = match self.own_after(&key, &StockChange::Field(field, words.clone())) {
            Ok(own) => {
                if !matches!(field, StockField::ColourName(_)) {
                    self.step(own, Some(&format!("{key:?} {field:?}")), inputs, todo);
                }
                None
            }
            Err(why) => Some(why),
        };
        self.typed = Some(TypedField { field, words, refused, before });
    }

    /// A field is left: the step stands for itself and is saved. What could not be taken is reported, and what was there before
    /// comes back.
    fn leave(&mut self, inputs: &mut Inputs<'_>, todo: &mut Vec<Action>) {
        let typed = self.typed.take();
        if let Some(history) = &mut self.history {
            history.end_run();
        }
        match (typed, self.at.clone()) {
            (Some(TypedField { refused: Some(why), before, .. }), _) => {
                self.step((*before).clone(), None, inputs, todo);
                todo.push(Action::Say(Notice::card(format!("{why} Nothing was changed."))));
            }
            (Some(TypedField { field: field @ StockField::ColourName(_), words, .. }), Some(key)) => {
                self.change(&key, &StockChange::Field(field, words), inputs, todo);
            }
            (Some(_) | None, _) => {}
        }
        self.save(todo);
    }

    /// Takes a step at once, or asks first whether an order holds what it would take off the list.
    fn take(&mut self, step: StockStep, inputs: &mut Inputs<'_>, todo: &mut Vec<Action>) {
        let Some(history) = &mut self.history else { return };
        let own = match &step {
            StockStep::To(own) => Some(own.clone()),
            StockStep::Undo => looked_at(history, History::undo, History::redo),
            StockStep::Redo => looked_at(history, History::redo, History::undo),
        };
        let Some(own) = own else { return };
        let gone = lost(inputs.shop.stock(), &own.over(&self.base));
        if gone.is_empty() {
            self.take_now(step, inputs, todo);
        } else {
            todo.push(Action::Stock(StockRequest::TakeUnlessHeld(Box::new(step), gone)));
        }
    }

    /// Takes a step, whatever it takes off the list.
    pub(crate) fn take_now(&mut self, step: StockStep, inputs: &mut Inputs<'_>, todo: &mut Vec<Action>) {
        match step {
            StockStep::To(own) => self.step(own, None, inputs, todo),
            StockStep::Undo | StockStep::Redo => {
                let Some(history) = &mut self.history else { return };
                if if step == StockStep::Undo { history.undo() } else { history.redo() } {
                    self.put_in_force(inputs, todo);
                }
            }
        }
        self.save(todo);
    }

    fn step(&mut self, own: OwnStock, run: Option<&str>, inputs: &mut Inputs<'_>, todo: &mut Vec<Action>) {
        let Some(history) = &mut self.history else { return };
        if own == **history.now() {
            return;
        }
        match run {
            Some(run) => history.step_in_run(own, run),
            None => history.step(own),
        }
        self.put_in_force(inputs, todo);
    }

    /// Everything is worked out with this list from now on.
    fn put_in_force(&self, inputs: &mut Inputs<'_>, todo: &mut Vec<Action>) {
        let stock = Arc::new(self.own().over(&self.base));
        inputs.session.restock(Arc::clone(&stock));
        inputs.shop.restock(stock);
        todo.push(Action::Stock(StockRequest::Changed));
    }

    /// Asks for what is not saved yet to be saved.
    fn save(&self, todo: &mut Vec<Action>) {
        let own = self.own();
        if own != self.saved {
            todo.push(Action::Stock(StockRequest::Save(own, Arc::clone(&self.base))));
        }
    }

    /// Another program wrote these lines: what was changed here since the last save is laid over them.
    pub(crate) fn merge(&mut self, theirs: OwnStock, inputs: &mut Inputs<'_>, todo: &mut Vec<Action>) {
        let merged = self.own().laid_over(&theirs, &self.saved);
        self.saved = Arc::new(theirs);
        self.take(StockStep::To(merged), inputs, todo);
    }

    /// The shop's own lines are saved.
    pub(crate) fn was_saved(&mut self, own: Arc<OwnStock>) {
        self.saved = own;
    }
}

/// What a step back or forward would lead to; the history stays where it is. None where there is no such step.
fn looked_at(
    history: &mut History<OwnStock>,
    go: impl Fn(&mut History<OwnStock>) -> bool,
    come_back: impl Fn(&mut History<OwnStock>) -> bool,
) -> Option<OwnStock> {
    if !go(history) {
        return None;
    }
    let there = (**history.now()).clone();
    come_back(history);
    Some(there)
}
