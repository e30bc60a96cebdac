//! Layouts that are offered: which are shown, what is still being searched for, and what is taken. Nothing is put on the
//! sheet that was not taken; what is shown stays where it is until the person asks for something else.

use std::sync::Arc;

use egui::{ColorImage, Context, TextureHandle, TextureOptions};

use crate::app::pages::page::Page;
use crate::app::shell::window::{Said, Window};
use crate::app::workers::search_worker::{
    LayoutPicture, LayoutStep, SearchEvent, SearchInputs, SearchRequest, SearchWorker,
};
use crate::book::stop_flower;
use crate::command::Command;
use crate::export::Pixels;
use crate::geometry::Point;
use crate::piece::Edit;
use crate::set_out::{Candidate, Half, NoProposal, Proposal};
use crate::sheet::Held;
use crate::stock::StockId;

/// Picture of a layout, points.
pub(crate) const PICTURE: [f32; 2] = [112.0, 142.0];

/// What is asked of the panel.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Wish {
    /// Open it, or close it.
    Toggle,
    /// Close it.
    Close,
    /// End the long search.
    Stop,
    /// Take one of the layouts, or of what could go next.
    Take(usize),
    /// Put the still better one in the place of the better one.
    ShowBetter,
    /// Show another list.
    Turn(List),
    /// Find something small and do it.
    Do(LayoutStep),
    /// Another place for the next piece.
    Another,
}

/// Which list is shown.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum List {
    /// Layouts.
    #[default]
    Layouts,
    /// What could go next.
    Next,
    /// Halves to keep.
    Mirror,
}

/// A layout that is offered.
pub(crate) struct Card {
    pub(crate) proposal: Proposal,
    pub(crate) picture: Option<TextureHandle>,
}

/// How far the long search is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Stage {
    /// So many rounds are done.
    Going(u32),
    /// It was stopped.
    Stopped,
    /// It has come to its end.
    Over,
}

/// The panel while it is open.
pub(crate) struct Offered {
    /// What is searched for: another piece asks for another search.
    inputs: SearchInputs,
    search: SearchWorker,
    pub(crate) list: List,
    /// The first ones, and a better one behind them.
    pub(crate) cards: Vec<Card>,
    pub(crate) n_first: usize,
    /// A still better one, not shown yet.
    pub(crate) waiting: Option<Card>,
    pub(crate) refused: Option<NoProposal>,
    pub(crate) stage: Stage,
    pub(crate) next: Option<Result<Vec<Candidate>, NoProposal>>,
    skipped: Vec<Point>,
    /// Finds small steps, while the long search goes on.
    steps: SearchWorker,
}

impl Offered {
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

    pub(crate) fn take_up(&mut self, ctx: &Context, event: SearchEvent) {
        match event {
            SearchEvent::First(Ok(found)) => {
                self.n_first = found.len();
                self.cards = found.into_iter().map(|proposal| Card { proposal, picture: None }).collect();
            }
            SearchEvent::First(Err(why)) => self.refused = Some(why),
            SearchEvent::Picture(n, pixels) => {
                if let Some(card) = self.cards.get_mut(n) {
                    card.picture = Some(texture(ctx, &pixels));
                }
            }
            SearchEvent::Better(proposal, pixels) => {
                let card = Card { proposal, picture: Some(texture(ctx, &pixels)) };
                if self.cards.len() == self.n_first {
                    self.cards.push(card);
                } else {
                    self.waiting = Some(card);
                }
            }
            SearchEvent::Rounds(n) if matches!(self.stage, Stage::Going(_)) => self.stage = Stage::Going(n),
            SearchEvent::Over if matches!(self.stage, Stage::Going(_)) => self.stage = Stage::Over,
            SearchEvent::Next(found) => self.next = Some(found),
            // What was found until then stays.
            SearchEvent::Failed => self.stage = Stage::Over,
            SearchEvent::Rounds(_) | SearchEvent::Over | SearchEvent::StepDone(_) | SearchEvent::SizeLaidOut(..) => {}
        }
    }
}

fn texture(ctx: &Context, pixels: &Pixels) -> TextureHandle {
    let size = [pixels.width as usize, pixels.height as usize];
    let image = ColorImage::from_rgba_premultiplied(size, &pixels.rgba);
    ctx.load_texture("layout", image, TextureOptions::LINEAR)
}

impl Window {
    /// Whether layouts are offered in the place of the trays.
    pub(crate) fn offers_layouts(&self) -> bool {
        self.offered.is_some() && self.page == Page::Sheet
    }

    pub(crate) fn do_about_layouts(&mut self, ctx: &Context, wish: Wish) {
        match wish {
            Wish::Toggle if self.offered.is_some() => self.offered = None,
            Wish::Toggle => self.offer_layouts(ctx),
            Wish::Close => drop(self.close_layouts()),
            Wish::Stop => {
                if let Some(offered) = &mut self.offered {
                    offered.search.stop();
                    offered.stage = Stage::Stopped;
                }
            }
            Wish::Take(n) => self.take(n),
            Wish::ShowBetter => {
                if let Some(offered) = &mut self.offered
                    && let Some(card) = offered.waiting.take()
                {
                    offered.cards.truncate(offered.n_first);
                    offered.cards.push(card);
                }
            }
            Wish::Turn(list) => {
                if let Some(offered) = &mut self.offered {
                    offered.list = list;
                    offered.skipped.clear();
                }
                self.ask_next();
            }
            Wish::Another => {
                if let Some(offered) = &mut self.offered {
                    let gap = offered.candidates().first().map(|c| c.gap.centre);
                    offered.skipped.extend(gap);
                }
                self.ask_next();
            }
            Wish::Do(step) => {
                if let Some(offered) = &mut self.offered {
                    offered.steps.request(SearchRequest::Step(offered.inputs.clone(), step));
                }
            }
        }
    }

    /// Opens the panel; the hand is emptied, for the trays step aside.
    fn offer_layouts(&mut self, ctx: &Context) {
        if self.client_side || self.page != Page::Sheet {
            return;
        }
        self.sheet.held = Held::Nothing;
        self.run_command(&Command::EndRun);
        self.search(ctx, List::Layouts);
    }

    /// Closes the panel; `false` when it was not open.
    pub(crate) fn close_layouts(&mut self) -> bool {
        self.focus_sheet |= self.offered.is_some();
        self.offered.take().is_some()
    }

    fn search(&mut self, ctx: &Context, list: List) {
        let session = &self.session;
        let inputs =
            SearchInputs::of(session.settled_piece().clone(), session.order(), session.stock(), session.style());
        let inputs = SearchInputs { size: session.size().cloned(), ..inputs };
        let skin = self.looks.skin;
        let picture = LayoutPicture { points: PICTURE, pixels_per_point: ctx.pixels_per_point(), skin };
        let workers = self.offered.take().map(|before| (before.search, before.steps));
        let (mut search, steps) = workers.unwrap_or_else(|| (SearchWorker::new(ctx), SearchWorker::new(ctx)));
        search.request(SearchRequest::Layouts(inputs.clone(), picture));
        steps.stop();
        self.offered = Some(Offered {
            inputs,
            search,
            list,
            cards: Vec::new(),
            n_first: 0,
            waiting: None,
            refused: None,
            stage: Stage::Going(0),
            next: None,
            skipped: Vec::new(),
            steps,
        });
        self.ask_next();
    }

    /// Before each frame: what has been found meanwhile, and whether the piece is still the one that is searched for.
    pub(crate) fn hear_of_layouts(&mut self, ctx: &Context) {
        let Some(offered) = &mut self.offered else { return };
        let order = self.session.order();
        let same_size = offered.inputs.size.as_ref().map(|s| &s.name) == self.session.size().map(|s| &s.name);
        let is_same = *self.session.settled_piece() == offered.inputs.piece && order.wrist == offered.inputs.wrist;
        if !is_same || !same_size {
            let list = offered.list;
            return self.search(ctx, list);
        }
        let mut has_failed = false;
        for event in offered.search.poll() {
            has_failed |= matches!(event, SearchEvent::Failed);
            offered.take_up(ctx, event);
        }
        for event in offered.steps.poll() {
            match event {
                SearchEvent::StepDone(found) => return self.do_found(found),
                SearchEvent::Failed => has_failed = true,
                event => offered.take_up(ctx, event),
            }
        }
        if has_failed {
            self.say("The search broke off. Close the layouts and open them again.");
        }
    }

    /// What a small step came to, done as one step of the order.
    pub(crate) fn do_found(&mut self, found: Result<Proposal, NoProposal>) {
        match found {
            Ok(Proposal { edit, says, score_before, score_after, .. }) => {
                self.take_edit(edit);
                let marks = format!("From {score_before:.1} to {score_after:.1}.");
                self.tell_if_done(if self.client_side { says } else { format!("{says} {marks}") });
            }
            Err(why) => self.say(&why.to_string()),
        }
    }

    /// Waits until the first layouts have come.
    #[cfg(test)]
    pub(crate) fn wait_for_layouts(&mut self, ctx: &Context) {
        let Some(offered) = &mut self.offered else { return };
        while offered.is_waiting() {
            let event = offered.search.wait().expect("the first layouts are found or refused");
            offered.take_up(ctx, event);
        }
    }

    /// Waits until a small step is found.
    #[cfg(test)]
    pub(crate) fn wait_for_step(&mut self, ctx: &Context) {
        let Some(offered) = &mut self.offered else { return };
        match offered.steps.wait() {
            Some(SearchEvent::StepDone(found)) => self.do_found(found),
            Some(event) => offered.take_up(ctx, event),
            None => {}
        }
    }

    fn take(&mut self, n: usize) {
        let Some(offered) = &mut self.offered else { return };
        match offered.list {
            List::Layouts => {
                let Some(Proposal { edit, crowded, .. }) = offered.cards.get(n).map(|c| c.proposal.clone()) else {
                    return;
                };
                self.close_layouts();
                self.take_edit(edit);
                self.tell_if_done("Set out. Undo (Ctrl+Z) brings back what was.".to_owned());
                let was_done = matches!(self.said, Some(Said::Done(_)));
                if let Some(crowded) = crowded.filter(|c| was_done && !self.client_side && !c.offers.is_empty()) {
                    self.said = Some(Said::Crowded { words: crowded.says, ways: crowded.offers });
                }
            }
            List::Next => {
                let Some((edit, says)) = offered.candidates().get(n).map(|c| (c.edit.clone(), c.says.clone())) else {
                    return;
                };
                self.take_edit(edit);
                self.tell_if_done(says);
            }
            List::Mirror => {}
        }
    }

    fn take_edit(&mut self, edit: Edit) {
        self.run_command(&Command::Edit(edit));
    }

    /// Unless it was refused, and a card says why.
    fn tell_if_done(&mut self, words: String) {
        if !matches!(self.said, Some(Said::Wants { .. })) {
            self.tell_done(words);
        }
    }

    /// Asks what could go next, when that is what is shown.
    fn ask_next(&mut self) {
        let tray = self.what_could_go_next();
        if let Some(offered) = &mut self.offered
            && offered.list == List::Next
        {
            let step = LayoutStep::Next { tray, skipped: offered.skipped.clone() };
            offered.next = None;
            offered.steps.request(SearchRequest::Step(offered.inputs.clone(), step));
        }
    }

    /// What the piece holds already, in its colours, and what stands in the tray; nothing that this wearer must not get.
    fn what_could_go_next(&self) -> Vec<(StockId, Arc<str>)> {
        let (order, stock) = (self.session.order(), self.session.stock());
        let held = self.session.piece().parts().iter().map(|p| (p.stock.clone(), Arc::clone(&p.colour)));
        let in_tray = stock.botanicals().iter().filter(|b| b.role == self.tray && b.cut_from.is_none());
        let hers = self.session.front() == crate::session::Front::Wearers;
        let in_tray = in_tray.map(|b| (b.id.clone(), self.colour_for(&b.id)));
        let mut all: Vec<(StockId, Arc<str>)> = Vec::new();
        for (id, colour) in held.chain(in_tray) {
            let is_new = all.iter().all(|(other, _)| *other != id);
            if is_new && (!hers || stop_flower(order, &id, stock).is_none()) {
                all.push((id, colour));
            }
        }
        all
    }
}

/// What the halves are called on their buttons.
pub(crate) fn half_label(half: Half) -> String {
    format!("Copy {} half", half.name())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::action::Action;
    use crate::app::tests::dark::Dark;
    use crate::piece::PartId;

    /// A window with layouts on offer, the first of them found.
    fn offering(sample: &str) -> Dark {
        let mut dark = Dark::showing(sample);
        dark.seen();
        dark.press(egui::Key::P);
        assert!(dark.window.offers_layouts());
        dark.window.wait_for_layouts(&dark.ctx.clone());
        dark
    }

    #[test]
    fn a_layout_taken_is_one_step_and_what_is_locked_stays() {
        let mut dark = Dark::showing("05-bare-spots");
        let locked: Vec<PartId> = dark.window.session.order().piece.parts().iter().take(3).map(|p| p.id).collect();
        dark.do_action(Action::edit(Edit::Lock(locked.clone(), true)));
        let before = dark.window.session.order().piece.clone();
        dark.tap("Set out");
        dark.window.wait_for_layouts(&dark.ctx.clone());
        assert!(dark.window.offered.as_ref().is_some_and(|o| o.cards.len() >= 2));
        assert_eq!(dark.window.session.order().piece, before, "nothing is done by itself");
        dark.press(egui::Key::Num2);
        let after = dark.window.session.order().piece.clone();
        assert_ne!(after, before);
        for id in locked {
            assert_eq!(after.part(id), before.part(id));
        }
        assert!(!dark.window.offers_layouts());
        dark.press(egui::Key::Num2);
        dark.do_action(Action::Undo);
        assert_eq!(dark.window.session.order().piece, before);
    }

    #[test]
    fn esc_closes_the_layouts_and_changes_nothing() {
        let mut dark = offering("03-full");
        let before = dark.window.session.order().piece.clone();
        dark.press(egui::Key::Escape);
        assert!(!dark.window.offers_layouts());
        assert_eq!(dark.window.session.order().piece, before);
    }

    #[test]
    fn the_client_sees_layouts_without_a_mark() {
        let mut dark = offering("05-bare-spots");
        let mine = dark.seen();
        assert!(mine.texts.iter().any(|t| t.contains("of 100, now")), "{:?}", mine.texts);
        assert!(mine.texts.iter().any(|t| t == "Tidy"));
        dark.do_action(Action::TurnScreen);
        let hers = dark.seen();
        assert!(hers.texts.iter().any(|t| t == "Layout 1"), "{:?}", hers.texts);
        for text in hers.texts.iter().chain(&hers.names) {
            for word in ["of 100", "points", "better", "good as", "Tidy", "crowded", "want an oval"] {
                assert!(!text.contains(word), "{text}");
            }
        }
        dark.press(egui::Key::Num1);
        assert!(dark.seen().texts.iter().all(|t| !t.contains("of 100")));
        dark.press(egui::Key::P);
        assert!(!dark.window.offers_layouts(), "it is opened on my side");
    }

    #[test]
    fn a_better_layout_waits_beside_the_others_and_a_still_better_one_until_it_is_asked_for() {
        let mut dark = offering("05-bare-spots");
        let offered = dark.window.offered.as_mut().unwrap();
        let first = offered.cards[0].proposal.clone();
        let n_first = offered.cards.len();
        let better = |score_after| Proposal { score_after, ..first.clone() };
        let ctx = dark.ctx.clone();
        for mark in [98.0, 99.0] {
            let pixels = Pixels { width: 1, height: 1, rgba: vec![0; 4] };
            offered.take_up(&ctx, SearchEvent::Better(better(mark), pixels));
        }
        let marks = |dark: &Dark| {
            let cards = &dark.window.offered.as_ref().unwrap().cards;
            cards.iter().skip(n_first).map(|c| c.proposal.score_after).collect::<Vec<_>>()
        };
        assert_eq!(marks(&dark), [98.0]);
        assert!(dark.seen().texts.iter().any(|t| t == "A better one is ready"));
        dark.do_action(Action::Layouts(Wish::ShowBetter));
        assert_eq!(marks(&dark), [99.0]);
        dark.do_action(Action::Layouts(Wish::Stop));
        assert!(dark.window.offered.as_ref().is_some_and(|o| o.stage == Stage::Stopped));
    }

    #[test]
    fn the_next_piece_is_offered_where_most_room_is_and_taken_by_its_number() {
        let mut dark = offering("05-bare-spots");
        dark.press(egui::Key::H);
        dark.window.wait_for_step(&dark.ctx.clone());
        let first = dark.window.offered.as_ref().unwrap().candidates()[0].clone();
        assert!(crate::app::sheet::layouts_panel::gap_mark(&dark.window).is_some());
        dark.press(egui::Key::A);
        dark.window.wait_for_step(&dark.ctx.clone());
        let elsewhere = dark.window.offered.as_ref().unwrap().candidates()[0].clone();
        assert_ne!(first.gap.centre, elsewhere.gap.centre);
        let (n_parts, before) = (dark.n_parts(), dark.window.session.order().piece.clone());
        dark.press(egui::Key::Num1);
        assert_eq!(dark.n_parts(), n_parts + 1);
        assert!(dark.window.offers_layouts(), "and the next place is offered");
        dark.do_action(Action::Undo);
        assert_eq!(dark.window.session.order().piece, before);
    }

    #[test]
    fn a_small_betterment_is_one_step_or_says_that_there_is_none() {
        for (key, moves_only) in [(egui::Key::T, true), (egui::Key::F, false)] {
            let mut dark = offering("05-bare-spots");
            let before = dark.window.session.order().piece.clone();
            dark.press(key);
            dark.window.wait_for_step(&dark.ctx.clone());
            let after = dark.window.session.order().piece.clone();
            assert_ne!(after, before, "{key:?}: {:?}", dark.window.said);
            assert_eq!(moves_only, after.parts().len() == before.parts().len());
            dark.do_action(Action::Undo);
            assert_eq!(dark.window.session.order().piece, before);
        }
        let mut dark = offering("05-bare-spots");
        dark.window.do_found(Err(NoProposal::NothingBetter));
        assert!(dark.seen().texts.iter().any(|t| t.contains("No better layout found")));
    }
}
