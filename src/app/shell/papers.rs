//! All papers of the order in front, made on a thread of their own into a folder of the shop that bears the order's name.

use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::mpsc::{Receiver, Sender, channel};

use egui::Context;

use crate::app::shell::window::Window;
use crate::app::widgets::words::Counter;
use crate::book::Order;
use crate::export::pdf::PaperSize;
use crate::export::{PAPERS, PaperMaker};
use crate::piece::HouseStyle;
use crate::stock::Stock;
use crate::store;

/// How far the papers are.
enum Told {
    /// So many kinds of all have been made.
    Made(usize),
    /// All have been made: so many files.
    Done(usize),
    /// Why no more can be made, as a sentence.
    Stopped(String),
}

/// Papers that are being made.
#[derive(Default)]
pub(crate) struct Papers {
    /// Where they go, and what is told of them.
    making: Option<(PathBuf, Receiver<Told>)>,
}

/// What they are made of.
struct Bench {
    shop: String,
    order: Arc<Order>,
    stock: Arc<Stock>,
    style: Arc<HouseStyle>,
}

impl Window {
    /// Keeps the order and begins to make its papers: what is printed is what is kept.
    pub(crate) fn make_papers(&mut self, ctx: &Context) {
        self.leave_taps();
        self.take_what_is_typed();
        if self.papers.making.is_some() {
            return self.tell_done(Counter::PAPERS_BEGUN.to_owned());
        }
        if !self.keep() {
            return;
        }
        let name = self.session.path().and_then(Path::file_stem).unwrap_or_default().to_string_lossy().into_owned();
        let folder = match self.shop.papers_folder(&name) {
            Ok(folder) => folder,
            Err(refusal) => return self.say(&refusal.to_string()),
        };
        let bench = Bench {
            shop: self.shop.name().to_owned(),
            order: Arc::clone(self.session.order()),
            stock: Arc::clone(self.session.stock()),
            style: Arc::clone(self.session.style()),
        };
        let (tell, told) = channel();
        let (ctx, into) = (ctx.clone(), folder.clone());
        std::thread::spawn(move || {
            let last = make_all(&bench, &into, &tell, &ctx).unwrap_or_else(Told::Stopped);
            drop(tell.send(last)); // the window may be gone by now
            ctx.request_repaint();
        });
        self.papers.making = Some((folder, told));
        self.tell_done(Counter::PAPERS_BEGUN.to_owned());
    }

    /// Tells how far they are.
    pub(crate) fn hear_of_papers(&mut self) {
        let Some((folder, told)) = &self.papers.making else { return };
        let Some(newest) = told.try_iter().last() else { return };
        let folder = folder.file_name().unwrap_or_default().to_string_lossy().into_owned();
        match newest {
            Told::Made(n) => self.tell_done(Counter::papers_made(n, PAPERS.len())),
            Told::Done(n) => {
                self.papers.making = None;
                self.tell_done(Counter::papers_in(n, &folder));
            }
            Told::Stopped(why) => {
                self.papers.making = None;
                self.say(&why);
            }
        }
    }
}

fn make_all(bench: &Bench, folder: &Path, tell: &Sender<Told>, ctx: &Context) -> Result<Told, String> {
    let Bench { shop, order, stock, style } = bench;
    let paper = paper_of(&style.prices.currency);
    let desk = PaperMaker { shop, stock, style, paper };
    let name = folder.file_name().unwrap_or_default().to_string_lossy();
    let mut n_files = 0;
    for (n, kind) in PAPERS.into_iter().enumerate() {
        for (ending, bytes) in desk.files(order, kind).map_err(|error| error.to_string())? {
            store::write_bytes(&folder.join(format!("{name}-{ending}")), &bytes)
                .map_err(|refusal| refusal.to_string())?;
            n_files += 1;
        }
        drop(tell.send(Told::Made(n + 1)));
        ctx.request_repaint();
    }
    Ok(Told::Done(n_files))
}

/// The paper in the shop's printer: Letter where one pays in dollars, A4 elsewhere; common practice, no source.
pub(crate) fn paper_of(currency: &str) -> PaperSize {
    if currency.trim() == "$" { PaperSize::Letter } else { PaperSize::A4 }
}

#[cfg(test)]
mod tests {
    use crate::app::action::Action;
    use crate::app::shell::window::Said;
    use crate::app::tests::dark::{Dark, dark_in};

    #[test]
    fn all_papers_are_made_of_what_is_kept_and_the_folder_is_told() {
        let folder = tempfile::tempdir().unwrap();
        let (mut dark, _) = dark_in(folder.path(), "01-petite");
        dark.do_action(Action::Wearer("Solveig".to_owned()));
        dark.do_action(Action::MakePapers);
        assert!(dark.window.session.is_kept());
        while dark.window.papers.making.is_some() {
            dark.window.hear_of_papers();
            std::thread::sleep(std::time::Duration::from_millis(20));
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
        assert!(dark.window.papers.making.is_none() && matches!(dark.window.said, Some(Said::Wants { .. })));
    }
}
