//! The papers of the order as page pictures, before they are written and after; each is opened, printed, sent and found from here.
//! For the designer alone: she turns the screen, or prints, what a client is to see.

mod layout;

use std::collections::BTreeMap;
use std::path::PathBuf;

use egui::{ColorImage, Context as EguiContext, Key, Modifiers, TextureHandle, TextureOptions, Ui};

use crate::app::action::Action;
use crate::app::context::{Context, Inputs, Requests};
use crate::app::pages::{Page, PageInfo};
use crate::app::widgets::keys::take_key;
use crate::app::workers::handover::Taker;
use crate::app::workers::page_worker::{PageAt, PageEvent, PageLook, PageRequest, PageWorker};
use crate::app::workers::paper_worker::{MadePapers, PaperSource};
use crate::export::{PAPERS, PaperKind, Pixels, QUOTE_SLIP};
use crate::history::Revision;

/// The papers of the open order.
pub(crate) struct PapersPage {
    worker: Option<PageWorker>,
    /// What is drawn, and at which state of order and rules.
    of: Option<(PaperSource, (Revision, u32))>,
    small: BTreeMap<usize, SmallPage>,
    /// The page that is looked at, as it was drawn last.
    large: Option<(PageAt, PageFace)>,
    /// What of it was asked for.
    asked: Option<(PageAt, u32)>,
    at: PageAt,
    /// Whether it fills the page, to be read.
    is_large: bool,
    /// How many kinds of papers are ready, of how many, while they are being made.
    making: Option<(usize, usize)>,
    written: Option<PapersOnDisk>,
}

/// A paper on its card.
struct SmallPage {
    n_pages: usize,
    /// None where the order has no such paper.
    face: Option<PageFace>,
    /// Whether it was drawn of the order as it is.
    is_current: bool,
}

/// How a page is shown.
enum PageFace {
    Drawn(TextureHandle),
    Words(String),
}

/// Papers that stand in their folder.
struct PapersOnDisk {
    name: String,
    of: PaperSource,
    files: BTreeMap<&'static str, Vec<PathBuf>>,
}

/// What can be asked of the page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum PapersAction {
    /// Look at a paper.
    Look(usize),
    /// The next page of it, or the one before.
    Turn(bool),
    /// Fill the page with it, or see it whole.
    Resize,
}

impl Default for PapersPage {
    fn default() -> Self {
        let paper = PAPERS.iter().position(|kind| **kind == QUOTE_SLIP).unwrap_or_default();
        Self {
            worker: None,
            of: None,
            small: BTreeMap::new(),
            large: None,
            asked: None,
            at: PageAt { paper, page: 0 },
            is_large: false,
            making: None,
            written: None,
        }
    }
}

impl Page for PapersPage {
    type Action = PapersAction;

    const INFO: PageInfo = PageInfo { on_rail: None, key: Key::F9, is_for_shop: true };

    fn prepare(&mut self, inputs: &mut Inputs<'_>) {
        let state = (inputs.session.settled_revision(), inputs.session.generation());
        let ppp = inputs.ctx.pixels_per_point();
        if self.of.as_ref().is_none_or(|(_, of)| *of != state) {
            self.of = Some((source_of(inputs), state));
            if let Some(worker) = &self.worker {
                worker.forget();
            }
            self.small.values_mut().for_each(|small| small.is_current = false);
            self.asked = None;
        }
        self.take_drawn(inputs.ctx);
        let wide = if self.is_large { layout::READ_WIDE } else { layout::WHOLE_WIDE };
        let wanted = (self.at, crate::units::ceil_u32(f64::from(wide * ppp)));
        if self.asked != Some(wanted) {
            self.ask(inputs.ctx, wanted);
        }
    }

    fn ui(&self, ui: &mut Ui, cx: &Context<'_>, requests: &mut Requests<PapersAction>) {
        // Nothing of it is for a client.
        if cx.shop.is_some() {
            layout::page_ui(ui, cx, self, requests);
        }
    }

    fn read_keys(&self, ui: &Ui, cx: &Context<'_>, requests: &mut Requests<PapersAction>) {
        if cx.shop.is_none() {
            return;
        }
        let takers =
            [(Key::O, Taker::Viewer), (Key::P, Taker::Printer), (Key::E, Taker::Mail), (Key::F, Taker::Folder)];
        for (key, taker) in takers {
            if take_key(ui, Modifiers::NONE, key) {
                requests.shared.push(Action::HandOver(self.kind(), taker));
            }
        }
        let own = [
            (Key::L, PapersAction::Resize),
            (Key::PageUp, PapersAction::Turn(false)),
            (Key::PageDown, PapersAction::Turn(true)),
        ];
        for (key, action) in own {
            if take_key(ui, Modifiers::NONE, key) {
                requests.own.push(action);
            }
        }
    }

    fn run(&mut self, action: PapersAction, _inputs: &mut Inputs<'_>) -> Vec<Action> {
        match action {
            PapersAction::Look(paper) => self.at = PageAt { paper, page: 0 },
            PapersAction::Turn(on) => {
                let last = self.n_pages().saturating_sub(1);
                let page = self.at.page;
                self.at.page = if on { page.saturating_add(1) } else { page.saturating_sub(1) }.min(last);
            }
            PapersAction::Resize => self.is_large = !self.is_large,
        }
        Vec::new()
    }

    fn keeps_notice(_action: &PapersAction) -> bool {
        true
    }

    fn opened(&mut self, _inputs: &mut Inputs<'_>) {
        // What is not the order's, the letterhead or the stock list, may have changed.
        self.of = None;
    }

    fn rules_changed(&mut self) {
        self.of = None;
    }
}

impl PapersPage {
    /// The paper that is looked at.
    fn kind(&self) -> &'static PaperKind {
        PAPERS.get(self.at.paper).copied().unwrap_or(&QUOTE_SLIP)
    }

    /// How many pages it has; none where the order has no such paper, or it is not drawn yet.
    fn n_pages(&self) -> usize {
        self.small.get(&self.at.paper).map_or(0, |small| small.n_pages)
    }

    fn ask(&mut self, ctx: &EguiContext, wanted: (PageAt, u32)) {
        let Some((of, _)) = &self.of else { return };
        let is_old = |paper: &usize| self.small.get(paper).is_none_or(|small| !small.is_current);
        let small: Vec<usize> = (0..PAPERS.len()).filter(is_old).collect();
        let small_px = crate::units::ceil_u32(f64::from(layout::SMALL_WIDE * ctx.pixels_per_point()));
        let request = PageRequest { of: of.clone(), large: Some(wanted), small, small_px };
        self.worker.get_or_insert_with(|| PageWorker::new(ctx)).request(request);
        self.asked = Some(wanted);
    }

    fn take_drawn(&mut self, ctx: &EguiContext) {
        for event in self.worker.as_mut().map(PageWorker::poll).unwrap_or_default() {
            match event {
                PageEvent::Small(paper, n_pages, look) => {
                    let face = look.map(|look| face(ctx, look));
                    self.small.insert(paper, SmallPage { n_pages, face, is_current: true });
                    if paper == self.at.paper {
                        self.at.page = self.at.page.min(n_pages.saturating_sub(1));
                    }
                }
                PageEvent::Large(at, _, look) => self.large = Some((at, face(ctx, look))),
                // They are asked for again with the next change.
                PageEvent::Failed => {}
            }
        }
    }

    /// So many kinds are ready, of how many.
    pub(crate) fn making(&mut self, ready: usize, of: usize) {
        self.making = Some((ready, of));
    }

    /// Nothing is being made any more.
    pub(crate) fn made_none(&mut self) {
        self.making = None;
    }

    /// Papers stand in their folder: all of them, or some that stand beside those that were made before of the same order.
    pub(crate) fn made(&mut self, made: MadePapers) {
        self.making = None;
        let before = self.written.take().filter(|w| w.name == made.name && w.of.is_same(&made.of));
        let mut files = before.map(|before| before.files).unwrap_or_default();
        for (kind, _) in &made.files {
            files.remove(kind.id);
        }
        for (kind, file) in made.files {
            files.entry(kind.id).or_default().push(file);
        }
        self.written = Some(PapersOnDisk { name: made.name, of: made.of, files });
    }

    /// The files of a paper that stand in their folder and are of the order as it is.
    pub(crate) fn files_of(&self, kind: &PaperKind, of: &PaperSource) -> Option<&[PathBuf]> {
        let written = self.written.as_ref().filter(|written| written.of.is_same(of))?;
        written.files.get(kind.id).map(Vec::as_slice)
    }
}

fn source_of(inputs: &Inputs<'_>) -> PaperSource {
    let session = &inputs.session;
    PaperSource::of(inputs.shop, session.order(), session.stock(), session.style())
}

fn face(ctx: &EguiContext, look: PageLook) -> PageFace {
    match look {
        PageLook::Words(words) => PageFace::Words(words),
        PageLook::Drawn(Pixels { width, height, rgba }) => {
            let image = ColorImage::from_rgba_premultiplied([width as usize, height as usize], &rgba);
            PageFace::Drawn(ctx.load_texture("page", image, TextureOptions::LINEAR))
        }
    }
}
