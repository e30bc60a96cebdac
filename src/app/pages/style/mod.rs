//! The shop's rules: proportions, checks, sizes, minutes, prices, and whole styles to choose from. For the designer
//! alone.
//!
//! The style changes a step at a time with an undo of its own, is felt by the open piece at once, and is saved in the
//! shop's folder when a field is left or a button tapped.

mod rows;
mod sections;
mod styles;

use std::collections::BTreeMap;
use std::sync::Arc;

use egui::{Key, Modifiers, Ui};

use crate::app::action::{Action, Notice};
use crate::app::context::{Context, Inputs, Requests};
use crate::app::pages::{Page, PageInfo};
use crate::app::view::ShopView;
use crate::app::widgets::icons::Icon;
use crate::app::widgets::keys::take_key;
use crate::command::Command;
use crate::history::{History, Revision};
use crate::paperwork::{BeforeAfter, InStyle, in_style, judged_anew};
use crate::piece::{HouseStyle, MakingHow, PieceSize, Question, StyleFigure};

/// What is looked at of the style.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum Section {
    /// Proportions and limits.
    #[default]
    Shape,
    /// Weights of the questions, and which are asked.
    Questions,
    /// What each size holds.
    Sizes,
    /// Minutes for each step.
    Minutes,
    /// From cost to price.
    Money,
    /// Styles to choose from, to keep and to share.
    Styles,
}

impl Section {
    pub(crate) const ALL: [Self; 6] =
        [Self::Shape, Self::Questions, Self::Sizes, Self::Minutes, Self::Money, Self::Styles];

    pub(crate) fn label(self) -> &'static str {
        match self {
            Self::Shape => "Shape",
            Self::Questions => "Checks",
            Self::Sizes => "Sizes",
            Self::Minutes => "Minutes",
            Self::Money => "Money",
            Self::Styles => "Styles",
        }
    }
}

/// Something done on the page.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum StyleAction {
    /// Look at another section.
    ShowSection(Section),
    /// Words in the field of a figure, as they are typed.
    Write(StyleFigure, String),
    /// The name for a size or a style to be kept, as it is typed.
    NewName(String),
    /// A field was left.
    Leave,
    /// A step more or less.
    Step(StyleFigure, bool),
    /// Ask a question, or no longer.
    Ask(Question, bool),
    /// Another way to pay for making time.
    How(MakingHow),
    /// Look at another size.
    Size(usize),
    /// Take the size out that is looked at.
    TakeOutSize,
    /// Look at what a style would make of the piece, or no longer.
    Consider(String),
    /// Give the piece the oval and the bow of the style that is looked at.
    TakeOval,
    /// The house makes things in that style from now on, this piece first.
    TakeAll,
    /// Keep the piece as a size of the house, under the new name.
    KeepAsSize,
    /// Keep the house style, with the piece in its size, under the new name.
    KeepAsStyle,
    /// Write the style that is looked at, else the house's, into a file for somebody else.
    Share,
    /// Look at a style in a file.
    OpenFile,
}

/// What is typed in the field of a figure, and why it cannot be taken.
#[derive(Clone, Debug, PartialEq)]
struct Typed {
    figure: StyleFigure,
    words: String,
    refused: Option<String>,
    /// The style before the first letter.
    before: Arc<HouseStyle>,
}

/// An order and a style as they stand.
type Both = (Revision, Revision);

/// Everything about the page that is no part of the style.
#[derive(Default)]
pub(crate) struct StylePage {
    section: Section,
    /// The size that is looked at.
    size: usize,
    typed: Option<Typed>,
    new_name: String,
    /// Styles to choose from, as they were read when the page was opened.
    styles: Vec<HouseStyle>,
    /// Name of the one that is looked at.
    considered: Option<String>,
    /// What that one would make of the open piece.
    told: Option<(String, InStyle)>,
    /// The style when the page was opened.
    began: Option<Arc<HouseStyle>>,
    history: Option<History<HouseStyle>>,
    /// The step of the style that took a step of the order with it.
    joined: Option<(Revision, Revision)>,
    /// Weights of checks that are switched off for now.
    resting: BTreeMap<Question, f64>,
    effect: Option<(Both, Vec<BeforeAfter>)>,
}

/// What every section of the page is painted from.
struct StyleUi<'a> {
    page: &'a StylePage,
    cx: &'a Context<'a>,
    shop: &'a ShopView,
}

impl Page for StylePage {
    type Action = StyleAction;

    const INFO: PageInfo = PageInfo { on_rail: Some(("Rules", Icon::House)), key: Key::Y, is_for_shop: true };

    fn opened(&mut self, inputs: &mut Inputs<'_>) {
        let style = Arc::clone(inputs.session.style());
        self.typed = None;
        self.effect = None;
        let known = self.history.as_ref().is_some_and(|h| **h.now() == *style);
        if !known {
            self.history = Some(History::new((*style).clone()));
        }
        let present = inputs.session.order().size.as_ref();
        self.size = style.sizes.iter().position(|s| Some(&s.name) == present).unwrap_or(0);
        self.began = Some(style);
    }

    fn prepare(&mut self, inputs: &mut Inputs<'_>) {
        let Some(history) = &self.history else { return };
        let at = (inputs.session.revision(), history.revision());
        let is_same_style = self.told.as_ref().map(|(name, _)| name) == self.considered.as_ref();
        let known = self.effect.as_ref().is_some_and(|(of, _)| *of == at);
        if known && is_same_style {
            return;
        }
        let (order, style, stock) = (inputs.session.order(), inputs.session.style(), inputs.session.stock());
        let began = self.began.as_deref().unwrap_or(style);
        self.effect = Some((at, judged_anew(order, began, style, stock)));
        self.told = self.style_looked_at().and_then(|other| {
            let told = in_style(order, style, other, stock).ok()?;
            Some((other.name.clone(), told))
        });
    }

    fn ui(&self, ui: &mut Ui, cx: &Context<'_>, requests: &mut Requests<StyleAction>) {
        if let Some(shop) = cx.shop {
            sections::page_ui(ui, &StyleUi { page: self, cx, shop }, requests);
        }
    }

    fn read_keys(&self, ui: &Ui, _cx: &Context<'_>, requests: &mut Requests<StyleAction>) {
        const NUMBERS: [Key; 6] = [Key::Num1, Key::Num2, Key::Num3, Key::Num4, Key::Num5, Key::Num6];
        for (key, section) in NUMBERS.into_iter().zip(Section::ALL) {
            if take_key(ui, Modifiers::NONE, key) {
                requests.own.push(StyleAction::ShowSection(section));
            }
        }
    }

    fn run(&mut self, action: StyleAction, inputs: &mut Inputs<'_>) -> Vec<Action> {
        if inputs.client_view {
            return Vec::new();
        }
        let mut todo = Vec::new();
        self.run_for_shop(action, inputs, &mut todo);
        todo
    }

    fn keeps_notice(action: &StyleAction) -> bool {
        // Leaving a field is what brings up why its words could not be taken.
        *action == StyleAction::Leave
    }

    fn waits_for_release(action: &StyleAction) -> bool {
        *action == StyleAction::Leave
    }

    fn undo_state(&self) -> Option<[bool; 2]> {
        let history = self.history.as_ref();
        Some([history.is_some_and(History::can_undo), history.is_some_and(History::can_redo)])
    }

    /// One step back on the page, or forward: the style, and the order where both went together.
    fn undo(&mut self, back: bool, inputs: &mut Inputs<'_>) -> Vec<Action> {
        let mut todo = Vec::new();
        self.typed = None;
        let Some(history) = &mut self.history else { return todo };
        let from = history.revision();
        let went = if back { history.undo() } else { history.redo() };
        if !went {
            return todo;
        }
        let to = history.revision();
        let style = Arc::clone(history.now());
        if let Some((of_style, of_order)) = self.joined {
            if back && of_style == from && of_order == inputs.session.revision() {
                todo.push(Action::Order(Command::Undo));
            } else if !back && of_style == to && inputs.session.can_redo() {
                todo.push(Action::Order(Command::Redo));
            }
        }
        self.wear(style, inputs, &mut todo);
        todo.push(Action::SaveOwnStyle(None));
        todo
    }
}

impl StylePage {
    fn style_looked_at(&self) -> Option<&HouseStyle> {
        self.styles.iter().find(|s| Some(&s.name) == self.considered.as_ref())
    }

    fn effect(&self) -> &[BeforeAfter] {
        self.effect.as_ref().map_or(&[], |(_, effect)| effect)
    }

    fn run_for_shop(&mut self, action: StyleAction, inputs: &mut Inputs<'_>, todo: &mut Vec<Action>) {
        match action {
            StyleAction::ShowSection(section) => self.section = section,
            StyleAction::Size(n) => self.size = n,
            StyleAction::Consider(name) => {
                self.considered = (self.considered.as_ref() != Some(&name)).then_some(name);
            }
            StyleAction::Write(figure, words) => self.write_figure(figure, words, inputs, todo),
            StyleAction::NewName(words) => self.new_name = words,
            StyleAction::Leave => self.leave_figure(inputs, todo),
            StyleAction::Step(figure, up) => {
                let stepped = figure.stepped(inputs.session.style(), up);
                self.take_figure(stepped, inputs, todo);
            }
            StyleAction::Ask(question, asked) => self.ask_or_rest(question, asked, inputs, todo),
            StyleAction::How(how) => self.alter(inputs, todo, |style| style.prices.making = how.usual()),
            StyleAction::TakeOutSize => self.delete_size(inputs, todo),
            StyleAction::TakeOval => self.use_oval(todo),
            StyleAction::TakeAll => self.use_style(inputs, todo),
            StyleAction::KeepAsSize => self.save_as_size(inputs, todo),
            StyleAction::KeepAsStyle => self.save_as_style(inputs, todo),
            StyleAction::Share => {
                let style = self.style_looked_at().unwrap_or(inputs.session.style());
                todo.push(Action::AskWhereToShare(Box::new(style.clone())));
            }
            StyleAction::OpenFile => todo.push(Action::AskForStyle),
        }
    }

    /// A change that is one step, saved at once.
    fn alter(&mut self, inputs: &mut Inputs<'_>, todo: &mut Vec<Action>, change: impl FnOnce(&mut HouseStyle)) {
        let mut style = (**inputs.session.style()).clone();
        change(&mut style);
        self.take_figure(Ok(style), inputs, todo);
    }

    fn take_figure(&mut self, style: Result<HouseStyle, String>, inputs: &mut Inputs<'_>, todo: &mut Vec<Action>) {
        self.typed = None;
        match style {
            Err(why) => todo.push(Action::Say(Notice::card(why))),
            Ok(style) if style == **inputs.session.style() => {}
            Ok(style) => {
                self.step_style(style, None, inputs, todo);
                todo.push(Action::SaveOwnStyle(None));
            }
        }
    }

    /// Letter by letter: what reads is felt at once, what does not is reported beside the field.
    fn write_figure(&mut self, figure: StyleFigure, words: String, inputs: &mut Inputs<'_>, todo: &mut Vec<Action>) {
        let began = self.typed.take().filter(|t| t.figure == figure).map(|t| t.before);
        let before = began.unwrap_or_else(|| Arc::clone(inputs.session.style()));
        let refused = match figure.write(inputs.session.style(), &words) {
            Ok(style) => {
                self.step_style(style, Some(&format!("{figure:?}")), inputs, todo);
                None
            }
            Err(why) => Some(why),
        };
        self.typed = Some(Typed { figure, words, refused, before });
    }

    /// A field is left: the step stands for itself and is saved. What could not be taken is reported, and what was there before
    /// comes back, for the beginning of a figure is another figure.
    fn leave_figure(&mut self, inputs: &mut Inputs<'_>, todo: &mut Vec<Action>) {
        let typed = self.typed.take();
        if let Some(history) = &mut self.history {
            history.end_run();
        }
        let Some(Typed { refused: Some(why), before, .. }) = typed else {
            todo.push(Action::SaveOwnStyle(None));
            return;
        };
        if self.history.as_ref().is_some_and(|history| **history.now() != *before) {
            // What stands there again is what is saved.
            let undone = self.undo(true, inputs).into_iter();
            todo.extend(undone.filter(|action| *action != Action::SaveOwnStyle(None)));
        }
        todo.push(Action::Say(Notice::card(format!("{why} Nothing was changed."))));
    }

    fn ask_or_rest(&mut self, question: Question, asked: bool, inputs: &mut Inputs<'_>, todo: &mut Vec<Action>) {
        let usual = || crate::store::built_in_style().weight(question).max(1.0);
        let weight = if asked { self.resting.remove(&question).unwrap_or_else(usual) } else { 0.0 };
        if !asked {
            self.resting.insert(question, inputs.session.style().weight(question));
        }
        let style = (**inputs.session.style()).clone().weighing(question, weight);
        self.take_figure(Ok(style), inputs, todo);
    }

    fn delete_size(&mut self, inputs: &mut Inputs<'_>, todo: &mut Vec<Action>) {
        if inputs.session.style().sizes.len() < 2 {
            todo.push(Action::Say(Notice::card("A shop needs at least one size.")));
            return;
        }
        let n = self.size;
        self.alter(inputs, todo, |style| {
            if n < style.sizes.len() {
                style.sizes.remove(n);
            }
        });
        self.size = n.min(inputs.session.style().sizes.len().saturating_sub(1));
    }

    fn use_oval(&self, todo: &mut Vec<Action>) {
        if let Some((name, told)) = &self.told {
            let words = format!("Oval and bow of {name} in use. Undo on the sketch reverts it.");
            todo.push(Action::OrderAndSay(Command::Change(told.change.clone()), Notice::Done(words)));
        }
    }

    fn use_style(&mut self, inputs: &mut Inputs<'_>, todo: &mut Vec<Action>) {
        let (Some((name, told)), Some(style)) = (self.told.take(), self.style_looked_at().cloned()) else { return };
        let before = inputs.session.revision();
        if let Err(refusal) = inputs.session.run(&Command::Change(told.change)) {
            todo.push(Action::Say(Notice::card(refusal.to_string())));
            return;
        }
        self.step_style(style, None, inputs, todo);
        let of_order = inputs.session.revision();
        self.joined = self.history.as_ref().map(|h| (h.revision(), of_order)).filter(|_| of_order != before);
        self.considered = None;
        todo.push(Action::FitView);
        todo.push(Action::SaveOwnStyle(Some(format!("{name} is your style now, starting with this piece."))));
    }

    fn save_as_size(&mut self, inputs: &mut Inputs<'_>, todo: &mut Vec<Action>) {
        let Some(name) = self.named("size", todo) else { return };
        let size = PieceSize::of_piece(&name, &inputs.session.order().piece);
        let style = (**inputs.session.style()).clone().with_size(size);
        self.size = style.sizes.iter().position(|s| s.name == name).unwrap_or(0);
        self.step_style(style, None, inputs, todo);
        self.new_name.clear();
        todo.push(Action::SaveOwnStyle(Some(format!("{name} is one of your sizes now."))));
    }

    fn save_as_style(&self, inputs: &Inputs<'_>, todo: &mut Vec<Action>) {
        let Some(name) = self.named("style", todo) else { return };
        let order = inputs.session.order();
        let size = PieceSize::of_piece(order.size.as_deref().unwrap_or("As sketched"), &order.piece);
        let style = HouseStyle { name, ..(**inputs.session.style()).clone() }.with_size(size);
        todo.push(Action::AddStyle(Box::new(style)));
    }

    /// The styles to choose from have been read.
    pub(crate) fn listed(&mut self, styles: Vec<HouseStyle>) {
        self.styles = styles;
    }

    /// A style was put among those to choose from: it is looked at.
    pub(crate) fn added(&mut self, name: String, styles: Vec<HouseStyle>) {
        self.section = Section::Styles;
        self.new_name.clear();
        self.styles = styles;
        self.considered = Some(name);
    }

    fn named(&self, of_what: &str, todo: &mut Vec<Action>) -> Option<String> {
        let name = self.new_name.trim().to_owned();
        if name.is_empty() {
            let words = format!("Name the {of_what} first, in the field beside the button.");
            todo.push(Action::Say(Notice::card(words)));
            return None;
        }
        Some(name)
    }

    fn step_style(&mut self, style: HouseStyle, run: Option<&str>, inputs: &mut Inputs<'_>, todo: &mut Vec<Action>) {
        let Some(history) = &mut self.history else { return };
        if style == **history.now() {
            return;
        }
        match run {
            Some(run) => history.step_in_run(style, run),
            None => history.step(style),
        }
        let style = Arc::clone(history.now());
        self.wear(style, inputs, todo);
    }

    /// Everything is worked out by this style from now on.
    fn wear(&mut self, style: Arc<HouseStyle>, inputs: &mut Inputs<'_>, todo: &mut Vec<Action>) {
        inputs.session.restyle(Arc::clone(&style));
        self.size = self.size.min(style.sizes.len().saturating_sub(1));
        inputs.shop.restyle(style);
        self.effect = None;
        todo.push(Action::RulesChanged);
    }
}
