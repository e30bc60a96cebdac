//! The shop: name, address and the rest of what stands on a client's paper; its money; how it writes days and hours. For the
//! designer alone.
//!
//! It changes a step at a time with an undo of its own, and is saved in the shop's folder when a field is left or a button
//! tapped. The letterhead stands above the fields as papers print it.

mod field;
mod form;
mod sample;

use std::sync::Arc;

use egui::{Key, Ui};

use crate::app::action::{Action, Notice};
use crate::app::context::{Context, Inputs, Requests};
use crate::app::pages::{Page, PageInfo};
use crate::app::typing::taps::TapKey;
use crate::app::widgets::icons::Icon;
use crate::app::workers::paper_worker::paper_of;
use crate::book::{Logo, Written};
use crate::history::History;
use crate::piece::{Tax, TaxHow};
use crate::store::{ShopDetails, ShopMoney};
use crate::units::Currency;
pub(crate) use field::ShopField;
use sample::LetterheadSample;

/// Something done on the page.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum ShopAction {
    /// Other words in a field, as they are typed.
    Write(ShopField, String),
    /// A field was left.
    Leave,
    /// The keys on the screen.
    Taps(TapKey),
    /// Prices are written so.
    Currency(Currency),
    /// Tax on top, in the price, or none.
    Taxed(Option<TaxHow>),
    /// Days and hours are written so.
    Written(Written),
    /// Whether the name stands below pictures.
    NameOnPictures(bool),
    /// Papers go without a logo.
    RemoveLogo,
}

/// What is typed in a field, letter by letter as it stands there, and why it cannot be taken.
#[derive(Clone, Debug, PartialEq)]
struct TypedDetail {
    field: ShopField,
    words: String,
    refused: Option<&'static str>,
    /// What stood there before the first letter.
    before: Arc<ShopDetails>,
}

/// What is open on the page.
#[derive(Default)]
pub(crate) struct ShopPage {
    history: Option<History<ShopDetails>>,
    typed: Option<TypedDetail>,
    sample: LetterheadSample,
}

impl Page for ShopPage {
    type Action = ShopAction;

    const INFO: PageInfo = PageInfo { on_rail: Some(("Shop", Icon::Shop)), key: Key::F5, is_for_shop: true };

    fn opened(&mut self, inputs: &mut Inputs<'_>) {
        let mut details = inputs.shop.details().clone();
        // What the style says so far is where the shop begins.
        details.money.get_or_insert_with(|| ShopMoney::of(&inputs.session.style().prices));
        if self.history.as_ref().is_none_or(|history| **history.now() != details) {
            self.history = Some(History::new(details));
        }
        self.typed = None;
    }

    fn prepare(&mut self, inputs: &mut Inputs<'_>) {
        if let Some(history) = &self.history {
            let paper = paper_of(&inputs.session.style().prices.currency.sign);
            self.sample.prepare(inputs.ctx, &history.now().letterhead, paper);
        }
    }

    fn ui(&self, ui: &mut Ui, cx: &Context<'_>, requests: &mut Requests<ShopAction>) {
        if cx.shop.is_some() {
            form::page_ui(ui, cx, self, requests);
        }
    }

    fn run(&mut self, action: ShopAction, inputs: &mut Inputs<'_>) -> Vec<Action> {
        let mut todo = Vec::new();
        match action {
            _ if inputs.client_view => {}
            ShopAction::Write(field, words) => self.write(field, words, inputs, &mut todo),
            ShopAction::Leave => self.leave(inputs, &mut todo),
            ShopAction::Taps(key) => todo.push(Action::Taps(key)),
            ShopAction::Currency(currency) => self.alter(inputs, &mut todo, |d| {
                d.money.iter_mut().for_each(|money| money.currency.clone_from(&currency));
            }),
            ShopAction::Taxed(how) => self.alter(inputs, &mut todo, |d| {
                d.money.iter_mut().for_each(|money| money.tax = taxed(money.tax.take(), how));
            }),
            ShopAction::Written(written) => self.alter(inputs, &mut todo, |d| d.written = written),
            ShopAction::NameOnPictures(on) => self.alter(inputs, &mut todo, |d| d.letterhead.on_picture = on),
            ShopAction::RemoveLogo => self.alter(inputs, &mut todo, |d| {
                (d.letterhead.logo, d.logo_file) = (None, None);
            }),
        }
        todo
    }

    fn keeps_notice(action: &ShopAction) -> bool {
        // Leaving a field is what brings up why its words could not be taken.
        matches!(action, ShopAction::Leave | ShopAction::Taps(_))
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
        let went = self.history.as_mut().is_some_and(|h| if back { h.undo() } else { h.redo() });
        if went {
            self.put_in_use(inputs, &mut todo);
            todo.push(Action::SaveShop);
        }
        todo
    }
}

/// Another way of taxing; of a tax that is new there is nothing yet.
fn taxed(now: Option<Tax>, how: Option<TaxHow>) -> Option<Tax> {
    let new = || Tax { name: "Tax".to_owned(), percent: 0.0, how: TaxHow::Added };
    how.map(|how| Tax { how, ..now.unwrap_or_else(new) })
}

impl ShopPage {
    /// A logo was taken in, as a file of this name in the shop's folder.
    pub(crate) fn take_logo(&mut self, file: String, logo: Logo, inputs: &mut Inputs<'_>) -> Vec<Action> {
        let mut todo = Vec::new();
        if self.history.is_none() {
            self.opened(inputs);
        }
        self.alter(inputs, &mut todo, |d| {
            (d.letterhead.logo, d.logo_file) = (Some(Arc::new(logo)), Some(file));
        });
        todo
    }

    /// The shop was read again: nothing of what stood here is of it.
    pub(crate) fn read_again(&mut self, inputs: &mut Inputs<'_>) {
        self.history = None;
        self.opened(inputs);
    }

    /// Letter by letter: what can be taken is in use at once.
    fn write(&mut self, field: ShopField, words: String, inputs: &mut Inputs<'_>, todo: &mut Vec<Action>) {
        let Some(history) = &mut self.history else { return };
        let began = self.typed.take().filter(|typed| typed.field == field).map(|typed| typed.before);
        let before = began.unwrap_or_else(|| Arc::clone(history.now()));
        let refused = match field.written(&words, history.now()) {
            Ok(details) => {
                history.step_in_run(details, field.name());
                None
            }
            Err(why) => Some(why),
        };
        self.typed = Some(TypedDetail { field, words, refused, before });
        self.put_in_use(inputs, todo);
    }

    /// A field is left: what was typed is one step, and saved. Of what cannot be taken what was there before comes back, for
    /// the beginning of a figure is another figure.
    fn leave(&mut self, inputs: &mut Inputs<'_>, todo: &mut Vec<Action>) {
        let (Some(history), Some(typed)) = (&mut self.history, self.typed.take()) else { return };
        history.end_run();
        if let Some(why) = typed.refused {
            if **history.now() != *typed.before {
                history.undo();
            }
            todo.push(Action::Say(Notice::card(format!("{why} Nothing was changed."))));
        }
        self.put_in_use(inputs, todo);
        todo.push(Action::SaveShop);
    }

    /// A change that is one step, saved at once.
    fn alter(&mut self, inputs: &mut Inputs<'_>, todo: &mut Vec<Action>, change: impl FnOnce(&mut ShopDetails)) {
        let Some(history) = &mut self.history else { return };
        let mut details = (**history.now()).clone();
        change(&mut details);
        self.typed = None;
        if details == **history.now() {
            return;
        }
        history.step(details);
        self.put_in_use(inputs, todo);
        todo.push(Action::SaveShop);
    }

    /// From now on the window and its papers go by what stands here.
    fn put_in_use(&self, inputs: &mut Inputs<'_>, todo: &mut Vec<Action>) {
        let Some(history) = &self.history else { return };
        inputs.shop.describe((**history.now()).clone());
        if inputs.shop.style() != inputs.session.style() {
            inputs.session.restyle(Arc::clone(inputs.shop.style()));
            todo.push(Action::RulesChanged);
        }
    }
}
