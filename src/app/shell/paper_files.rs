//! Papers: made, stopped, handed to programs of the system. For the designer alone.

use std::path::Path;
use std::sync::Arc;

use crate::app::shell::window::Window;
use crate::app::widgets::paper_words::Papers;
use crate::app::widgets::today::today;
use crate::app::widgets::words::Mine;
use crate::app::workers::handover::{HandOver, HandOverWorker, HandedOver, Taker};
use crate::app::workers::paper_worker::{
    MadePapers, PaperEvent, PaperRequest, PaperSource, PaperWorker, to_hand, write_quote,
};
use crate::command::Command;
use crate::export::{PAPERS, PaperKind};
use crate::paperwork::keep_quote;

impl Window {
    /// What papers are made from now.
    fn paper_source(&self) -> PaperSource {
        PaperSource::of(&self.shop, self.session.order(), self.session.stock(), self.session.style())
    }

    /// The name of the papers' folder: that of the order's file.
    fn papers_name(&self) -> String {
        self.session.path().and_then(Path::file_stem).unwrap_or_default().to_string_lossy().into_owned()
    }

    /// Saves the order and begins to make its papers: what is printed is what is saved.
    pub(crate) fn make_papers(&mut self) {
        self.make_then_hand(None);
    }

    /// Hands a paper over. One that stands in its folder and is of the order as it is goes at once; else it is made first.
    pub(crate) fn hand_over(&mut self, ctx: &egui::Context, kind: &'static PaperKind, taker: Taker) {
        self.take_what_is_typed();
        let of = self.paper_source();
        let files = self.pages.Papers.files_of(kind, &of).map(to_hand).unwrap_or_default();
        let is_there = self.session.is_saved() && !files.is_empty();
        match (is_there, taker) {
            (true, _) => self.hand(ctx, files, kind, taker),
            (false, Taker::Folder) => self.show_papers_folder(),
            (false, _) => self.make_then_hand(Some((kind, taker))),
        }
    }

    fn make_then_hand(&mut self, one: Option<(&'static PaperKind, Taker)>) {
        self.put_board_away();
        if self.papers.as_ref().is_some_and(PaperWorker::is_busy) {
            return self.say(Papers::BUSY);
        }
        self.save_then(move |w, ctx, is_saved| {
            if is_saved {
                w.begin_papers(ctx, one);
            }
        });
    }

    fn begin_papers(&mut self, ctx: &egui::Context, one: Option<(&'static PaperKind, Taker)>) {
        let request =
            PaperRequest { folder: self.shop.clone(), name: self.papers_name(), of: self.paper_source(), one };
        self.papers.get_or_insert_with(|| PaperWorker::new(ctx)).request(request);
        self.pages.Papers.making(0, if one.is_some() { 1 } else { PAPERS.len() });
        self.say_of_shop(Papers::BEGUN);
    }

    /// Stops the making of papers: none is written.
    pub(crate) fn stop_papers(&self) {
        if let Some(papers) = &self.papers {
            papers.stop();
        }
    }

    /// Takes in how far the papers are, and how those went that were handed over.
    pub(crate) fn poll_papers(&mut self, ctx: &egui::Context) {
        for event in self.papers.as_mut().map(PaperWorker::poll).unwrap_or_default() {
            self.take_papers(ctx, event);
        }
        for handed in self.handing.as_mut().map(HandOverWorker::poll).unwrap_or_default() {
            self.take_handed(handed);
        }
    }

    pub(crate) fn take_papers(&mut self, ctx: &egui::Context, event: PaperEvent) {
        if !matches!(event, PaperEvent::Made(..)) {
            self.pages.Papers.made_none();
        }
        match event {
            PaperEvent::Made(n, all) => {
                self.pages.Papers.making(n, all);
                self.say_of_shop(Papers::made(n, all));
            }
            PaperEvent::Done(made) => self.take_made(ctx, *made),
            PaperEvent::Stopped => self.say_of_shop(Papers::STOPPED),
            PaperEvent::Refused(why) => self.say_of_shop_card(&why),
            PaperEvent::Failed => self.say_of_shop_card(Papers::BROKEN),
        }
    }

    fn take_made(&mut self, ctx: &egui::Context, made: MadePapers) {
        self.say_of_shop(Papers::ready_in(made.files.len(), &made.name));
        let files: Vec<_> = made.files.iter().map(|(_, file)| file.clone()).collect();
        let (one, name) = (made.one, made.name.clone());
        // Of another order by now, they are still where they were asked for.
        if name == self.papers_name() {
            self.pages.Papers.made(made);
        }
        if let Some((kind, taker)) = one {
            self.hand(ctx, to_hand(&files), kind, taker);
        }
    }

    fn hand(&mut self, ctx: &egui::Context, files: Vec<std::path::PathBuf>, kind: &PaperKind, to: Taker) {
        let title = Papers::for_whom(kind.title, &self.session.order().wearer);
        let letter = Papers::letter_says(&title, self.shop.name());
        let worker = self.handing.get_or_insert_with(|| HandOverWorker::new(ctx));
        worker.request(HandOver { files, to, title, letter });
    }

    pub(crate) fn take_handed(&mut self, handed: HandedOver) {
        match handed {
            HandedOver::Taken(says) => self.say_of_shop(says),
            HandedOver::Refused(why) => self.say_of_shop_card(&why),
        }
    }

    /// The folder of the order's papers, whatever is in it.
    fn show_papers_folder(&mut self) {
        let (shop, name) = (self.shop.clone(), self.papers_name());
        self.save_then(move |w, _, is_saved| {
            if !is_saved {
                return;
            }
            let name = if name.is_empty() { w.papers_name() } else { name };
            w.with_files(
                move |_| shop.papers_folder(&name),
                |w, ctx, folder| match folder {
                    // Any file in it leads there.
                    Ok(folder) => w.hand(ctx, vec![folder.join("papers")], PAPERS[0], Taker::Folder),
                    Err(refusal) => w.say(&refusal.to_string()),
                },
            );
        });
    }

    /// Says what is not for a client: in the client view nothing is said.
    fn say_of_shop(&mut self, words: impl Into<String>) {
        if !self.is_client_view {
            self.say_done(words);
        }
    }

    fn say_of_shop_card(&mut self, words: &str) {
        if !self.is_client_view {
            self.say(words);
        }
    }

    /// Makes the quote as PDF and PNG and saves the order with the day of it and what it was built on, so that price and
    /// "holds until" are still true when the client comes back. They count only when the quote was made; a quote that still
    /// says all of it is made again as it was.
    pub(crate) fn make_quote(&mut self) {
        self.put_board_away();
        self.take_what_is_typed();
        self.run_command(&Command::EndRun);
        let Some(day) = today(self.days_off) else { return self.say(Mine::NO_DAY) };
        let (order, style, stock) = (self.session.order(), self.session.style(), self.session.stock());
        let keep = keep_quote(order, day, style, stock);
        let order = match keep.as_ref().map_or_else(|| Ok((**order).clone()), |keep| order.apply(keep, stock)) {
            Ok(order) => order,
            Err(refusal) => return self.say(&refusal.to_string()),
        };
        let (shop, of) = (self.shop.clone(), PaperSource { order: Arc::new(order), ..self.paper_source() });
        self.with_files(
            move |_| write_quote(&shop, &of),
            move |w, _, made| match made {
                Err(why) => w.say(&why),
                Ok(path) => {
                    if let Some(keep) = keep {
                        w.run_command(&Command::Change(keep));
                    }
                    w.save_then(move |w, _, is_saved| {
                        if is_saved {
                            let name = path.file_name().unwrap_or_default().to_string_lossy();
                            w.say_done(Mine::slip_made(&name));
                        }
                    });
                }
            },
        );
    }
}
