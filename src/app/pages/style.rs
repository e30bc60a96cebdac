//! The page "House style": what is on it and what a person does there. The page itself is painted by [`crate::app::pages::style_page`].
//!
//! The style changes a step at a time with an undo of its own, is felt by the piece in front at once, and is kept in the
//! shop's folder when a field is left or a button tapped.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use crate::app::action::Action;
use crate::app::pages::page::Page;
use crate::app::pages::sizes;
use crate::app::shell::files::{Asked, hear};
use crate::app::shell::window::{Said, Window};
use crate::command::Command;
use crate::history::{History, Revision};
use crate::paperwork::{BeforeAfter, InStyle, in_style, judged_anew};
use crate::piece::{HouseStyle, MakingHow, PieceSize, Question, StyleFigure, TaxHow};

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
            Self::Questions => "Questions",
            Self::Sizes => "Sizes",
            Self::Minutes => "Minutes",
            Self::Money => "Money",
            Self::Styles => "Styles",
        }
    }
}

/// Words of a style that are no figure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum StyleWords {
    /// Sign before a price.
    Currency,
    /// What the tax is called.
    TaxName,
    /// The name for a size or a style to be kept; not part of the style.
    NewName,
}

/// Something done on the page.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Wish {
    /// Look at another section.
    Show(Section),
    /// Words in the field of a figure, as they are typed.
    Write(StyleFigure, String),
    /// Words that are no figure, as they are typed.
    Words(StyleWords, String),
    /// A field was left.
    Leave,
    /// A step more or less.
    Step(StyleFigure, bool),
    /// Ask a question, or no longer.
    Ask(Question, bool),
    /// Another way to pay for making time.
    How(MakingHow),
    /// Tax on top or in the price.
    Taxed(TaxHow),
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
pub(crate) struct Typed {
    pub(crate) figure: StyleFigure,
    pub(crate) words: String,
    pub(crate) refused: Option<String>,
    /// The style before the first letter.
    before: Arc<HouseStyle>,
}

/// An order and a style as they stand.
type Both = (Revision, Revision);

/// Everything about the page that is no part of the style.
#[derive(Default)]
pub(crate) struct Desk {
    pub(crate) section: Section,
    /// The size that is looked at.
    pub(crate) size: usize,
    pub(crate) typed: Option<Typed>,
    pub(crate) new_name: String,
    /// Styles to choose from, as they were when the page was opened.
    pub(crate) styles: Vec<HouseStyle>,
    /// Name of the one that is looked at.
    pub(crate) considered: Option<String>,
    /// The style when the page was opened.
    began: Option<Arc<HouseStyle>>,
    history: Option<History<HouseStyle>>,
    /// The step of the style that took a step of the order with it.
    joined: Option<(Revision, Revision)>,
    /// Weights of questions that are not asked for now.
    resting: BTreeMap<Question, f64>,
    effect: Option<(Both, Arc<Vec<BeforeAfter>>)>,
}

impl Desk {
    pub(crate) fn can_undo(&self) -> bool {
        self.history.as_ref().is_some_and(History::can_undo)
    }

    pub(crate) fn can_redo(&self) -> bool {
        self.history.as_ref().is_some_and(History::can_redo)
    }

    fn style_looked_at(&self) -> Option<&HouseStyle> {
        self.styles.iter().find(|s| Some(&s.name) == self.considered.as_ref())
    }
}

impl Window {
    /// The page is opened: from here on changes are told against the style as it is now.
    pub(crate) fn open_house(&mut self) {
        let style = Arc::clone(self.session.style());
        self.desk.styles = self.shop.styles();
        self.desk.typed = None;
        self.desk.effect = None;
        let known = self.desk.history.as_ref().is_some_and(|h| **h.now() == *style);
        if !known {
            self.desk.history = Some(History::new((*style).clone()));
        }
        let present = self.session.order().size.as_ref();
        self.desk.size = style.sizes.iter().position(|s| Some(&s.name) == present).unwrap_or(0);
        self.desk.began = Some(style);
    }

    /// What the changes since the page was opened say of the piece in front.
    pub(crate) fn effect_of_house(&mut self) -> Arc<Vec<BeforeAfter>> {
        let Some(history) = &self.desk.history else { return Arc::default() };
        let at = (self.session.revision(), history.revision());
        if let Some((of, effect)) = &self.desk.effect
            && *of == at
        {
            return Arc::clone(effect);
        }
        let (order, style, stock) = (self.session.order(), self.session.style(), self.session.stock());
        let began = self.desk.began.as_deref().unwrap_or(style);
        let effect = Arc::new(judged_anew(order, began, style, stock));
        self.desk.effect = Some((at, Arc::clone(&effect)));
        effect
    }

    /// The piece in the style that is looked at.
    pub(crate) fn considered_style(&self) -> Option<(String, InStyle)> {
        let other = self.desk.style_looked_at()?;
        let told = in_style(self.session.order(), self.session.style(), other, self.session.stock()).ok()?;
        Some((other.name.clone(), told))
    }

    pub(crate) fn do_about_house(&mut self, ctx: &egui::Context, wish: Wish) {
        if self.client_side {
            return;
        }
        match wish {
            Wish::Show(section) => self.desk.section = section,
            Wish::Size(n) => self.desk.size = n,
            Wish::Consider(name) => {
                self.desk.considered = (self.desk.considered.as_ref() != Some(&name)).then_some(name);
            }
            Wish::Write(figure, words) => self.write_figure(figure, words),
            Wish::Words(StyleWords::NewName, words) => self.desk.new_name = words,
            Wish::Words(of, words) => self.write_words(of, words),
            Wish::Leave => self.leave_figure(),
            Wish::Step(figure, up) => {
                let stepped = figure.stepped(self.session.style(), up);
                self.take_figure(stepped);
            }
            Wish::Ask(question, asked) => self.ask_or_rest(question, asked),
            Wish::How(how) => self.alter(|style| style.prices.making = how.usual()),
            Wish::Taxed(how) => self.alter(|style| style.prices.tax.iter_mut().for_each(|t| t.how = how)),
            Wish::TakeOutSize => self.take_out_size(),
            Wish::TakeOval => self.take_oval(),
            Wish::TakeAll => self.take_style(),
            Wish::KeepAsSize => self.keep_as_size(),
            Wish::KeepAsStyle => self.keep_as_style(),
            Wish::Share => self.ask_where_to_share(ctx),
            Wish::OpenFile => self.ask_for_style(ctx),
        }
    }

    /// One step back on the page, or forward: the style, and the order where both went together.
    pub(crate) fn step_house(&mut self, back: bool) {
        self.desk.typed = None;
        let Some(history) = &mut self.desk.history else { return };
        let from = history.revision();
        let went = if back { history.undo() } else { history.redo() };
        if !went {
            return;
        }
        let to = history.revision();
        let style = Arc::clone(history.now());
        if let Some((of_style, of_order)) = self.desk.joined {
            if back && of_style == from && of_order == self.session.revision() {
                self.run_command(&Command::Undo);
            } else if !back && of_style == to && self.session.can_redo() {
                self.run_command(&Command::Redo);
            }
        }
        self.wear(style);
        self.keep_house();
    }

    /// A change that is one step, kept at once.
    fn alter(&mut self, change: impl FnOnce(&mut HouseStyle)) {
        let mut style = (**self.session.style()).clone();
        change(&mut style);
        self.take_figure(Ok(style));
    }

    fn take_figure(&mut self, style: Result<HouseStyle, String>) {
        self.desk.typed = None;
        match style {
            Err(why) => self.say(&why),
            Ok(style) if style == **self.session.style() => {}
            Ok(style) => {
                self.step_style(style, None);
                self.keep_house();
            }
        }
    }

    /// Letter by letter: what reads is felt at once, what does not is told beside the field.
    fn write_figure(&mut self, figure: StyleFigure, words: String) {
        let began = self.desk.typed.take().filter(|t| t.figure == figure).map(|t| t.before);
        let before = began.unwrap_or_else(|| Arc::clone(self.session.style()));
        let refused = match figure.write(self.session.style(), &words) {
            Ok(style) => {
                self.step_style(style, Some(&format!("{figure:?}")));
                None
            }
            Err(why) => Some(why),
        };
        self.desk.typed = Some(Typed { figure, words, refused, before });
    }

    fn write_words(&mut self, of: StyleWords, words: String) {
        let mut style = (**self.session.style()).clone();
        match of {
            StyleWords::Currency => style.prices.currency = words,
            StyleWords::TaxName => style.prices.tax.iter_mut().for_each(|t| t.name.clone_from(&words)),
            StyleWords::NewName => {}
        }
        self.step_style(style, Some(&format!("{of:?}")));
    }

    /// A field is left: the step stands for itself and is kept. What could not be taken is told, and what was there before comes
    /// back, for the beginning of a figure is another figure.
    fn leave_figure(&mut self) {
        let typed = self.desk.typed.take();
        if let Some(history) = &mut self.desk.history {
            history.end_run();
        }
        let Some(Typed { refused: Some(why), before, .. }) = typed else {
            self.keep_house();
            return;
        };
        if self.desk.history.as_ref().is_some_and(|history| **history.now() != *before) {
            self.step_house(true);
        }
        self.say(&format!("{why} It stays as it was."));
    }

    fn ask_or_rest(&mut self, question: Question, asked: bool) {
        let usual = || crate::store::built_in_style().weight(question).max(1.0);
        let weight = if asked { self.desk.resting.remove(&question).unwrap_or_else(usual) } else { 0.0 };
        if !asked {
            self.desk.resting.insert(question, self.session.style().weight(question));
        }
        let style = (**self.session.style()).clone().weighing(question, weight);
        self.take_figure(Ok(style));
    }

    fn take_out_size(&mut self) {
        if self.session.style().sizes.len() < 2 {
            self.say("A house needs one size at least, so the last one stays.");
            return;
        }
        let n = self.desk.size;
        self.alter(|style| {
            if n < style.sizes.len() {
                style.sizes.remove(n);
            }
        });
        self.desk.size = n.min(self.session.style().sizes.len().saturating_sub(1));
    }

    fn take_oval(&mut self) {
        if let Some((name, told)) = self.considered_style() {
            self.change(&told.change);
            self.tell_done(format!(
                "The piece has the oval and the bow of {name}. Undo on the sketch takes them back."
            ));
        }
    }

    fn take_style(&mut self) {
        let Some((name, told)) = self.considered_style() else { return };
        let Some(style) = self.desk.style_looked_at().cloned() else { return };
        let before = self.session.revision();
        self.change(&told.change);
        self.step_style(style, None);
        let of_order = self.session.revision();
        self.desk.joined = self.desk.history.as_ref().map(|h| (h.revision(), of_order)).filter(|_| of_order != before);
        self.desk.considered = None;
        if self.keep_house() {
            self.tell_done(format!("The house makes things in the style {name} now, this piece first."));
        }
    }

    fn keep_as_size(&mut self) {
        let Some(name) = self.new_name("size") else { return };
        let size = PieceSize::of_piece(&name, &self.session.order().piece);
        let style = (**self.session.style()).clone().with_size(size);
        self.desk.size = style.sizes.iter().position(|s| s.name == name).unwrap_or(0);
        self.step_style(style, None);
        if self.keep_house() {
            self.desk.new_name.clear();
            self.tell_done(format!("{name} is a size of the house now."));
        }
    }

    fn keep_as_style(&mut self) {
        let Some(name) = self.new_name("style") else { return };
        let order = self.session.order();
        let size = PieceSize::of_piece(order.size.as_deref().unwrap_or("As sketched"), &order.piece);
        let style = HouseStyle { name, ..(**self.session.style()).clone() }.with_size(size);
        self.add_style(&style);
    }

    /// Puts a style among those to choose from and looks at it.
    fn add_style(&mut self, style: &HouseStyle) {
        match self.shop.add_style(style) {
            Ok(added) => {
                self.desk.new_name.clear();
                self.desk.styles = self.shop.styles();
                self.tell_done(format!("{} is among the styles now.", added.name));
                self.desk.considered = Some(added.name);
            }
            Err(refusal) => self.say(&refusal.to_string()),
        }
    }

    fn new_name(&mut self, of_what: &str) -> Option<String> {
        let name = self.desk.new_name.trim().to_owned();
        if name.is_empty() {
            self.say(&format!("Which name shall the {of_what} have? Write it in the field beside."));
            return None;
        }
        Some(name)
    }

    fn step_style(&mut self, style: HouseStyle, run: Option<&str>) {
        let Some(history) = &mut self.desk.history else { return };
        if style == **history.now() {
            return;
        }
        match run {
            Some(run) => history.step_in_run(style, run),
            None => history.step(style),
        }
        let style = Arc::clone(history.now());
        self.wear(style);
    }

    /// Everything reckons in this style from now on.
    fn wear(&mut self, style: Arc<HouseStyle>) {
        self.session.restyle(Arc::clone(&style));
        self.desk.size = self.desk.size.min(style.sizes.len().saturating_sub(1));
        self.shop.restyle(style);
        self.boards = sizes::Boards::default();
        self.proposing.reckon_anew();
        self.offered = None;
    }

    /// Keeps the house style in the shop's folder; `false`, and a card that says why, when it could not be.
    fn keep_house(&mut self) -> bool {
        match self.shop.save_own_style() {
            Ok(()) => true,
            Err(refusal) => {
                let words = format!("{refusal} Until then it holds as long as this window is open.");
                let offer = Some(("Save it as a file\u{2026}".to_owned(), Action::House(Wish::Share)));
                self.said = Some(Said::Wants { words, offer });
                false
            }
        }
    }

    fn ask_where_to_share(&mut self, ctx: &egui::Context) {
        let style = self.desk.style_looked_at().unwrap_or(self.session.style());
        let answer = rfd::AsyncFileDialog::new()
            .set_title("Save the style as a file")
            .add_filter("Styles", &["ron"])
            .set_file_name(format!("{}.ron", style.name.to_lowercase()))
            .save_file();
        self.waiting = Some((Asked::WhereToShareStyle, hear(answer, ctx)));
    }

    fn ask_for_style(&mut self, ctx: &egui::Context) {
        let answer = rfd::AsyncFileDialog::new().set_title("Open a style").add_filter("Styles", &["ron"]).pick_file();
        self.waiting = Some((Asked::WhichStyle, hear(answer, ctx)));
    }

    /// A place for the style was chosen, or none.
    pub(crate) fn share_style(&mut self, path: Option<&Path>) {
        let style = self.desk.style_looked_at().unwrap_or(self.session.style()).clone();
        match path.map(|path| self.shop.share_style(path, &style)) {
            Some(Ok(path)) => self.tell_done(format!("{} is in {}", style.name, path.display())),
            Some(Err(refusal)) => self.say(&refusal.to_string()),
            None => {
                let kept = self.shop.style_file(&style.name).ok().filter(|p| p.exists());
                let words = kept.map_or_else(
                    || "No place was chosen.".to_owned(),
                    |path: PathBuf| format!("No place was chosen. The style lies in {}, to be copied.", path.display()),
                );
                self.say(&words);
            }
        }
    }

    /// A style's file was chosen, or none.
    pub(crate) fn open_style(&mut self, path: Option<&Path>) {
        match path.map(|path| self.shop.style_in(path)) {
            Some(Ok(style)) => {
                self.add_style(&style);
                self.desk.section = Section::Styles;
            }
            Some(Err(refusal)) => self.say(&refusal.to_string()),
            None => self.say("No file was chosen."),
        }
    }

    /// Whether the page is in front.
    pub(crate) fn is_in_house(&self) -> bool {
        self.page == Page::House
    }
}
