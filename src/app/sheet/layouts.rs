//! Layouts that are offered: which are shown, what is still being searched for, and what is taken. Nothing is put on the
//! sheet that was not taken; what is shown stays where it is until the person asks for something else.

use std::sync::Arc;

use egui::{ColorImage, Context, TextureHandle, TextureOptions};

use crate::app::action::{Action, LayoutList, LayoutsAction, Notice};
use crate::app::context::Inputs;
use crate::app::view::ShopView;
use crate::app::workers::search_worker::{
    LayoutPicture, LayoutStep, SearchEvent, SearchInputs, SearchRequest, SearchWorker,
};
use crate::command::Command;
use crate::export::Pixels;
use crate::geometry::Point;
use crate::piece::Edit;
use crate::session::Session;
use crate::set_out::{Candidate, Crowded, Half, NoProposal, Proposal};
use crate::stock::StockId;

/// Picture of a layout, points.
pub(crate) const PICTURE: [f32; 2] = [112.0, 142.0];

/// A layout that is offered.
pub(crate) struct LayoutCard {
    edit: Edit,
    /// How it is laid out, in words.
    pub(crate) says: String,
    scores: [f64; 2],
    crowded: Option<Crowded>,
    pub(crate) picture: Option<TextureHandle>,
}

impl LayoutCard {
    fn of(proposal: Proposal, picture: Option<TextureHandle>) -> Self {
        let Proposal { edit, says, score_before, score_after, crowded, .. } = proposal;
        Self { edit, says, scores: [score_after, score_before], crowded, picture }
    }

    /// Its score, and that of the piece as it is.
    pub(crate) fn scores(&self, _seen_by: &ShopView) -> [f64; 2] {
        self.scores
    }

    /// How little room the blooms have in it, where it is little.
    pub(crate) fn crowded(&self, _seen_by: &ShopView) -> Option<&str> {
        self.crowded.as_ref().map(|crowded| crowded.says.as_str())
    }

    /// What is said when it is taken, in the shop view: what would help where the blooms have little room.
    fn crowded_notice(&self) -> Option<Notice> {
        let Crowded { says, offers } = self.crowded.clone()?;
        (!offers.is_empty()).then_some(Notice::Crowded { words: says, ways: offers })
    }
}

/// How far the long search is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum SearchStage {
    /// So many rounds are done.
    Going(u32),
    /// It was stopped.
    Stopped,
    /// It has come to its end.
    Over,
}

/// What could go next: goods and their colours.
pub(crate) type NextGoods = Vec<(StockId, Arc<str>)>;

/// The panel while it is open.
pub(crate) struct Layouts {
    /// What is searched for: another piece asks for another search.
    searched: SearchInputs,
    search: SearchWorker,
    pub(crate) list: LayoutList,
    /// The first ones, and a better one behind them.
    pub(crate) cards: Vec<LayoutCard>,
    pub(crate) n_first: usize,
    /// A still better one, not shown yet.
    pub(crate) waiting: Option<LayoutCard>,
    pub(crate) refused: Option<NoProposal>,
    pub(crate) stage: SearchStage,
    pub(crate) next: Option<Result<Vec<Candidate>, NoProposal>>,
    skipped: Vec<Point>,
    /// Finds small steps, while the long search goes on.
    steps: SearchWorker,
}

impl Layouts {
    /// Opens the panel and begins to search.
    pub(crate) fn open(ctx: &Context, session: &Session) -> Self {
        let mut layouts = Self {
            searched: inputs_of(session),
            search: SearchWorker::new(ctx),
            list: LayoutList::Layouts,
            cards: Vec::new(),
            n_first: 0,
            waiting: None,
            refused: None,
            stage: SearchStage::Going(0),
            next: None,
            skipped: Vec::new(),
            steps: SearchWorker::new(ctx),
        };
        layouts.search_anew(ctx, session);
        layouts
    }

    /// Whether nothing has been found yet, nor refused.
    pub(crate) fn is_waiting(&self) -> bool {
        self.cards.is_empty() && self.refused.is_none()
    }

    /// What could go next.
    pub(crate) fn candidates(&self) -> &[Candidate] {
        match &self.next {
            Some(Ok(found)) => found,
            Some(Err(_)) | None => &[],
        }
    }

    /// Does what was asked of the open panel; returns what the window is to do.
    pub(crate) fn run(&mut self, action: LayoutsAction, client_view: bool, goods: NextGoods) -> Vec<Action> {
        match action {
            LayoutsAction::Toggle | LayoutsAction::Close => {}
            LayoutsAction::Stop => {
                self.search.stop();
                self.stage = SearchStage::Stopped;
            }
            LayoutsAction::Take(n) => return self.take(n, client_view),
            LayoutsAction::ShowBetter => {
                if let Some(card) = self.waiting.take() {
                    self.cards.truncate(self.n_first);
                    self.cards.push(card);
                }
            }
            LayoutsAction::Turn(list) => {
                self.list = list;
                self.skipped.clear();
                self.ask_next(goods);
            }
            LayoutsAction::Another => {
                let gap = self.candidates().first().map(|c| c.gap.centre);
                self.skipped.extend(gap);
                self.ask_next(goods);
            }
            LayoutsAction::Do(step) => self.steps.request(SearchRequest::Step(self.searched.clone(), step)),
        }
        Vec::new()
    }

    /// Before each frame: what has been found meanwhile, and whether the piece is still the one that is searched for.
    pub(crate) fn poll(&mut self, inputs: &Inputs<'_>, goods: NextGoods) -> Vec<Action> {
        if !self.is_of(inputs.session) {
            self.search_anew(inputs.ctx, inputs.session);
            self.ask_next(goods);
            return Vec::new();
        }
        let mut todo = Vec::new();
        for event in self.search.poll() {
            todo.extend(self.take_in(inputs.ctx, event, inputs.client_view));
        }
        for event in self.steps.poll() {
            todo.extend(self.take_in(inputs.ctx, event, inputs.client_view));
        }
        todo
    }

    /// Whether the search is still about the piece on the sheet.
    fn is_of(&self, session: &Session) -> bool {
        let same_size = self.searched.size.as_ref().map(|s| &s.name) == session.size().map(|s| &s.name);
        same_size && *session.settled_piece() == self.searched.piece && session.order().wrist == self.searched.wrist
    }

    fn search_anew(&mut self, ctx: &Context, session: &Session) {
        let skin = session.order().shown.skin;
        self.searched = inputs_of(session);
        let picture = LayoutPicture { points: PICTURE, pixels_per_point: ctx.pixels_per_point(), skin };
        self.search.request(SearchRequest::Layouts(self.searched.clone(), picture));
        self.steps.stop();
        self.cards.clear();
        self.n_first = 0;
        self.waiting = None;
        self.refused = None;
        self.stage = SearchStage::Going(0);
        self.next = None;
        self.skipped.clear();
    }

    /// Takes in what the search reports; returns what the window is to do.
    pub(crate) fn take_in(&mut self, ctx: &Context, event: SearchEvent, client_view: bool) -> Option<Action> {
        match event {
            SearchEvent::First(Ok(found)) => {
                self.n_first = found.len();
                self.cards = found.into_iter().map(|proposal| LayoutCard::of(proposal, None)).collect();
            }
            SearchEvent::First(Err(why)) => self.refused = Some(why),
            SearchEvent::Picture(n, pixels) => {
                if let Some(card) = self.cards.get_mut(n) {
                    card.picture = Some(texture(ctx, &pixels));
                }
            }
            SearchEvent::Better(proposal, pixels) => {
                let card = LayoutCard::of(proposal, Some(texture(ctx, &pixels)));
                if self.cards.len() == self.n_first {
                    self.cards.push(card);
                } else {
                    self.waiting = Some(card);
                }
            }
            SearchEvent::Rounds(n) if matches!(self.stage, SearchStage::Going(_)) => {
                self.stage = SearchStage::Going(n);
            }
            SearchEvent::Over if matches!(self.stage, SearchStage::Going(_)) => self.stage = SearchStage::Over,
            SearchEvent::Next(found) => self.next = Some(found),
            SearchEvent::StepDone(found) => return Some(step_done(found, client_view)),
            // What was found until then stays.
            SearchEvent::Failed => {
                self.stage = SearchStage::Over;
                let words = "The search broke off. Close the layouts and open them again.";
                return Some(Action::Say(Notice::card(words)));
            }
            SearchEvent::Rounds(_) | SearchEvent::Over | SearchEvent::SizeLaidOut(..) => {}
        }
        None
    }

    fn take(&self, n: usize, client_view: bool) -> Vec<Action> {
        match self.list {
            LayoutList::Layouts => {
                let Some(card) = self.cards.get(n) else { return Vec::new() };
                let done = Notice::Done("Arranged. Undo with Ctrl+Z.".to_owned());
                let crowded = card.crowded_notice().filter(|_| !client_view);
                let taken = Action::OrderAndSay(Command::Edit(card.edit.clone()), crowded.unwrap_or(done));
                vec![Action::Layouts(LayoutsAction::Close), taken]
            }
            LayoutList::Next => {
                let candidate = self.candidates().get(n);
                let placed =
                    |c: &Candidate| Action::OrderAndSay(Command::Edit(c.edit.clone()), Notice::Done(c.says.clone()));
                candidate.map(placed).into_iter().collect()
            }
            LayoutList::Mirror => Vec::new(),
        }
    }

    /// Asks what could go next, when that is what is shown.
    fn ask_next(&mut self, goods: NextGoods) {
        if self.list == LayoutList::Next {
            let step = LayoutStep::Next { tray: goods, skipped: self.skipped.clone() };
            self.next = None;
            self.steps.request(SearchRequest::Step(self.searched.clone(), step));
        }
    }

    /// Waits until the first layouts have come.
    #[cfg(test)]
    pub(crate) fn wait(&mut self, ctx: &Context) {
        while self.is_waiting() {
            let event = self.search.wait().expect("the first layouts are found or refused");
            self.take_in(ctx, event, false);
        }
    }

    /// Waits until a small step is found.
    #[cfg(test)]
    pub(crate) fn wait_for_step(&mut self, ctx: &Context, client_view: bool) -> Option<Action> {
        let event = self.steps.wait()?;
        self.take_in(ctx, event, client_view)
    }
}

fn inputs_of(session: &Session) -> SearchInputs {
    let (order, piece) = (session.wearers_order(), session.settled_piece().clone());
    let inputs = SearchInputs::of(piece, &order, session.stock(), session.style());
    SearchInputs { size: session.size().cloned(), ..inputs }
}

/// What a small step came to, done as one step of the order.
fn step_done(found: Result<Proposal, NoProposal>, client_view: bool) -> Action {
    match found {
        Ok(Proposal { edit, says, score_before, score_after, .. }) => {
            let scores = format!("Score {score_before:.0} to {score_after:.0}.");
            let words = if client_view { says } else { format!("{says} {scores}") };
            Action::OrderAndSay(Command::Edit(edit), Notice::Done(words))
        }
        Err(why) => Action::Say(Notice::card(why.to_string())),
    }
}

fn texture(ctx: &Context, pixels: &Pixels) -> TextureHandle {
    let size = [pixels.width as usize, pixels.height as usize];
    let image = ColorImage::from_rgba_premultiplied(size, &pixels.rgba);
    ctx.load_texture("layout", image, TextureOptions::LINEAR)
}

/// What the halves are called on their buttons.
pub(crate) fn half_label(half: Half) -> String {
    format!("Copy {} half", half.name())
}
