//! Pictures of an order's papers, page by page, as they would be printed now: drawn from what the files are written from. Writes
//! nothing.

use egui::Context;

use crate::app::workers::paper_worker::PaperSource;
use crate::app::workers::worker::{JobReporter, Worker, WorkerEvent, WorkerPolicy};
use crate::export::pdf::{Document, page_picture};
use crate::export::{Finish, PAPERS, PaperContent, Pixels, raster, view_of};
use crate::scene::{Group, Scene};

/// One page: of which paper of [`PAPERS`], and which of its pages, both counted from 0.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct PageAt {
    pub(crate) paper: usize,
    pub(crate) page: usize,
}

/// Pages to be drawn.
pub(crate) struct PageRequest {
    pub(crate) of: PaperSource,
    /// The page that is looked at, and its width in pixels; it comes first.
    pub(crate) large: Option<(PageAt, u32)>,
    /// Papers whose first page is to be drawn small.
    pub(crate) small: Vec<usize>,
    /// Width of a small one, pixels.
    pub(crate) small_px: u32,
}

/// What was drawn.
#[derive(Debug, PartialEq)]
pub(crate) enum PageEvent {
    /// The first page of a paper, and how many pages that has; none where the order has no such paper.
    Small(usize, usize, Option<PageLook>),
    /// The page that is looked at, at the width that was asked for.
    Large(PageAt, u32, PageLook),
    /// They could not be drawn.
    Failed,
}

/// How a page looks.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum PageLook {
    Drawn(Pixels),
    /// Words in columns, to be set in letters of one width.
    Words(String),
}

/// Draws what was asked for last.
pub(crate) struct PageWorker(Worker<PageRequest, PageEvent>);

impl PageWorker {
    pub(crate) fn new(ctx: &Context) -> Self {
        Self(Worker::new("pages", ctx, WorkerPolicy::NewestOnly, || draw_pages))
    }

    pub(crate) fn request(&mut self, request: PageRequest) {
        self.0.request(request);
    }

    /// Another order, or this one changed: nothing more is heard of the one before.
    pub(crate) fn forget(&self) {
        self.0.cancel();
    }

    /// Everything drawn since it was last asked.
    pub(crate) fn poll(&mut self) -> Vec<PageEvent> {
        self.0.poll().into_iter().filter_map(page_event).collect()
    }
}

fn page_event(event: WorkerEvent<PageEvent>) -> Option<PageEvent> {
    match event {
        WorkerEvent::Reported(_, event) => Some(event),
        WorkerEvent::Failed(_) => Some(PageEvent::Failed),
        WorkerEvent::Progress(..) => None,
    }
}

fn draw_pages(request: PageRequest, reporter: &JobReporter<PageEvent>) {
    let PageRequest { of, large, small, small_px } = request;
    if let Some((at, width_px)) = large
        && let Some(page) = pages_of(&of, at.paper).get(at.page)
    {
        reporter.report(PageEvent::Large(at, width_px, page.look(width_px)));
    }
    for paper in small {
        if reporter.is_overtaken() {
            return;
        }
        let pages = pages_of(&of, paper);
        let first = pages.first().map(|page| page.look(small_px));
        reporter.report(PageEvent::Small(paper, pages.len(), first));
    }
}

/// A page before it is drawn.
enum PaperPage {
    Sheet(Document, usize),
    Picture(Scene),
    Words(String),
}

impl PaperPage {
    fn look(&self, width_px: u32) -> PageLook {
        match self {
            Self::Sheet(document, n) => {
                page_picture(document, *n, width_px).map_or(PageLook::Words(String::new()), PageLook::Drawn)
            }
            Self::Picture(scene) => {
                let (view, width, height) = view_of(scene, width_px);
                let groups: Vec<&Group> = scene.groups.iter().collect();
                PageLook::Drawn(raster(&groups, view, width, height, Finish::Quick))
            }
            Self::Words(words) => PageLook::Words(words.clone()),
        }
    }
}

/// The pages of a paper, and of that of the boutonniere after them.
fn pages_of(of: &PaperSource, paper: usize) -> Vec<PaperPage> {
    let Some(kind) = PAPERS.get(paper) else { return Vec::new() };
    let mut pages = Vec::new();
    for content in of.maker().contents(&of.order, kind).into_iter().flatten() {
        match content {
            PaperContent::Pdf(document) => {
                pages.extend((0..document.n_sheets()).map(|n| PaperPage::Sheet(document.clone(), n)));
            }
            PaperContent::Picture(scene) => pages.push(PaperPage::Picture(scene)),
            PaperContent::Words("txt", words) => pages.push(PaperPage::Words(words)),
            // The same sheets as pictures, the same words as a table for a spreadsheet.
            PaperContent::Pngs(_) | PaperContent::Words(..) => {}
        }
    }
    pages
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::*;
    use crate::store::{NoFilesHere, Shop, order_from_text, samples};

    /// What the worker has drawn of a sample order when it has nothing more to do.
    fn drawn(sample: &str, large: Option<(PageAt, u32)>) -> Vec<PageEvent> {
        let shop = Shop::built_in();
        let found = samples::orders().find(|s| s.path.contains(sample)).unwrap();
        let order = Arc::new(order_from_text(found.text, found.path, shop.stock()).unwrap());
        let of = PaperSource::of(&shop, &order, shop.stock(), shop.style());
        let mut worker = PageWorker::new(&Context::default());
        worker.request(PageRequest { of, large, small: (0..PAPERS.len()).collect(), small_px: 60 });
        let waited = std::iter::from_fn(|| worker.0.wait(crate::app::workers::worker::PATIENCE));
        waited.filter_map(page_event).collect()
    }

    fn kind(id: &str) -> usize {
        PAPERS.iter().position(|kind| kind.id == id).unwrap()
    }

    #[test]
    fn every_paper_of_an_order_has_a_first_page_or_none_and_no_file_is_touched() {
        let guard = NoFilesHere::begin();
        let drawn = drawn("01-petite", None);
        drop(guard);
        assert_eq!(drawn.len(), PAPERS.len());
        for event in &drawn {
            let PageEvent::Small(paper, n_pages, look) = event else { panic!("{event:?}") };
            let is_missing = !PAPERS[*paper].missing.is_empty();
            assert_eq!((*n_pages == 0, look.is_none()), (is_missing, is_missing), "{}", PAPERS[*paper]);
            match look {
                Some(PageLook::Drawn(pixels)) => {
                    assert_eq!(pixels.width, 60, "{}", PAPERS[*paper]);
                    let first = &pixels.rgba[..4];
                    assert!(pixels.rgba.chunks(4).any(|p| p != first), "{} is empty", PAPERS[*paper]);
                }
                Some(PageLook::Words(words)) => assert!(words.lines().count() > 3, "{words}"),
                None => {}
            }
        }
    }

    #[test]
    fn the_page_looked_at_comes_first_and_is_as_wide_as_was_asked() {
        let at = PageAt { paper: kind("quote-slip"), page: 0 };
        let drawn = drawn("02-classic", Some((at, 300)));
        let PageEvent::Large(of, 300, PageLook::Drawn(pixels)) = &drawn[0] else { panic!("{:?}", drawn[0]) };
        assert_eq!((*of, pixels.width), (at, 300));
        // Letter, as in the sample shop: 8 1/2 x 11 in.
        assert_eq!(pixels.height, 388, "300 x 279.4 / 215.9 is 388.2");
    }
}
