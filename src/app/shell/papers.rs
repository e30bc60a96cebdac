//! All papers of this order, made into a folder of the shop that bears the order's name.

use std::path::Path;
use std::sync::Arc;

use egui::Context;

use crate::app::shell::window::Window;
use crate::app::widgets::words::Counter;
use crate::app::workers::paper_worker::{PaperEvent, PaperRequest, PaperWorker};
use crate::export::PAPERS;

/// What makes the papers, once some have been asked for.
#[derive(Default)]
pub(crate) struct Papers {
    worker: Option<PaperWorker>,
}

impl Window {
    /// Saves the order and begins to make its papers: what is printed is what is saved.
    pub(crate) fn make_papers(&mut self) {
        self.leave_taps();
        if self.papers.worker.as_ref().is_some_and(PaperWorker::is_busy) {
            return self.tell_done(Counter::PAPERS_BEGUN.to_owned());
        }
        self.save_then(|w, ctx, is_saved| {
            if is_saved {
                w.begin_papers(ctx);
            }
        });
    }

    fn begin_papers(&mut self, ctx: &Context) {
        let name = self.session.path().and_then(Path::file_stem).unwrap_or_default().to_string_lossy().into_owned();
        let request = PaperRequest {
            shop: self.shop.clone(),
            name,
            order: Arc::clone(self.session.order()),
            stock: Arc::clone(self.session.stock()),
            style: Arc::clone(self.session.style()),
        };
        self.papers.worker.get_or_insert_with(|| PaperWorker::new(ctx)).request(request);
        self.tell_done(Counter::PAPERS_BEGUN.to_owned());
    }

    /// Tells how far they are.
    pub(crate) fn hear_of_papers(&mut self) {
        for event in self.papers.worker.as_mut().map(PaperWorker::poll).unwrap_or_default() {
            self.tell_of_papers(event);
        }
    }

    fn tell_of_papers(&mut self, event: PaperEvent) {
        match event {
            PaperEvent::Made(n) => self.tell_done(Counter::papers_made(n, PAPERS.len())),
            PaperEvent::Done(n, folder) => self.tell_done(Counter::papers_in(n, &folder)),
            PaperEvent::Refused(why) => self.say(&why),
            PaperEvent::Failed => self.say(Counter::PAPERS_BROKEN),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::action::Action;
    use crate::app::shell::window::Said;
    use crate::app::tests::dark::{Dark, dark_in};

    #[test]
    fn all_papers_are_made_of_what_is_saved_and_the_folder_is_told() {
        let folder = tempfile::tempdir().unwrap();
        let (mut dark, _) = dark_in(folder.path(), "01-petite");
        dark.do_action(Action::Wearer("Solveig".to_owned()));
        dark.do_action(Action::MakePapers);
        assert!(dark.window.session.is_kept());
        while let Some(event) = dark.window.papers.worker.as_mut().and_then(PaperWorker::wait) {
            dark.window.tell_of_papers(event);
        }
        let Some(Said::Done(said)) = &dark.window.said else {
            panic!("the folder is not told: {:?}", dark.window.said)
        };
        assert!(said.contains("papers/01-petite"), "{said}");
        let made: Vec<String> = std::fs::read_dir(folder.path().join("papers/01-petite"))
            .unwrap()
            .map(|f| f.unwrap().file_name().to_string_lossy().into_owned())
            .collect();
        for paper in
            ["client.pdf", "quote-slip.pdf", "bench-card.pdf", "template.pdf", "bill-of-materials.csv", "picture.png"]
        {
            assert!(made.iter().any(|name| name.ends_with(paper)), "no {paper} in {made:?}");
        }
        let stems = std::fs::read_to_string(folder.path().join("papers/01-petite/01-petite-stems.txt")).unwrap();
        assert!(stems.contains("Solveig"), "{stems}");
    }

    #[test]
    fn without_a_place_for_them_it_says_why() {
        let mut dark = Dark::showing("01-petite");
        dark.do_action(Action::MakePapers);
        assert!(dark.window.papers.worker.is_none() && matches!(dark.window.said, Some(Said::Wants { .. })));
    }
}
