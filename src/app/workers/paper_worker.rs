//! Makes papers of an order into a folder of the shop, so that no frame waits for them: all that were asked for, or none.

use std::path::PathBuf;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

use egui::Context;

use crate::app::workers::handover::Taker;
use crate::app::workers::worker::{JobReporter, Worker, WorkerEvent, WorkerPolicy};
use crate::book::{Letterhead, Order, Written};
use crate::export::pdf::PaperSize;
use crate::export::{PAPERS, PaperKind, PaperMaker, QUOTE_SLIP};
use crate::piece::HouseStyle;
use crate::stock::Stock;
use crate::store::{self, Shop};

/// What papers are made from.
#[derive(Clone, Debug)]
pub(crate) struct PaperSource {
    /// The shop as its clients read it.
    pub(crate) shop: Letterhead,
    pub(crate) order: Arc<Order>,
    pub(crate) stock: Arc<Stock>,
    pub(crate) style: Arc<HouseStyle>,
    /// How the shop writes days and hours.
    pub(crate) written: Written,
}

impl PaperSource {
    pub(crate) fn of(shop: &Shop, order: &Arc<Order>, stock: &Arc<Stock>, style: &Arc<HouseStyle>) -> Self {
        let (written, shop) = (shop.written(), shop.letterhead().clone());
        Self { shop, order: Arc::clone(order), stock: Arc::clone(stock), style: Arc::clone(style), written }
    }

    pub(crate) fn maker(&self) -> PaperMaker<'_> {
        let Self { shop, stock, style, written, .. } = self;
        PaperMaker { shop, stock, style, written: *written, paper: paper_of(&style.prices.currency.sign) }
    }

    /// Whether papers made from the other would be the same.
    pub(crate) fn is_same(&self, other: &Self) -> bool {
        self.shop == other.shop
            && self.written == other.written
            && same(&self.order, &other.order)
            && same(&self.stock, &other.stock)
            && same(&self.style, &other.style)
    }
}

fn same<T: PartialEq>(a: &Arc<T>, b: &Arc<T>) -> bool {
    Arc::ptr_eq(a, b) || a == b
}

/// Papers to be made.
pub(crate) struct PaperRequest {
    pub(crate) folder: Shop,
    /// The name of their folder, and how their own names begin.
    pub(crate) name: String,
    pub(crate) of: PaperSource,
    /// One paper to be made and handed over; none makes all.
    pub(crate) one: Option<(&'static PaperKind, Taker)>,
}

/// Papers that were made.
#[derive(Debug)]
pub(crate) struct MadePapers {
    /// The name of their folder within `papers`.
    pub(crate) name: String,
    pub(crate) of: PaperSource,
    /// The files, with the papers they belong to.
    pub(crate) files: Vec<(&'static PaperKind, PathBuf)>,
    pub(crate) one: Option<(&'static PaperKind, Taker)>,
}

/// How far they are.
#[derive(Debug)]
pub(crate) enum PaperEvent {
    /// So many kinds of so many are ready to be written.
    Made(usize, usize),
    /// They stand in their folder.
    Done(Box<MadePapers>),
    /// They were stopped, and none was written.
    Stopped,
    /// Why none can be made, as a sentence.
    Refused(String),
    /// It broke off.
    Failed,
}

/// Makes the papers that were asked for last.
pub(crate) struct PaperWorker {
    worker: Worker<PaperRequest, PaperEvent>,
    /// Set when they are to be stopped; asked until they are put in place.
    stop: Arc<AtomicBool>,
}

impl PaperWorker {
    pub(crate) fn new(ctx: &Context) -> Self {
        Self::doing(ctx, make_papers)
    }

    fn doing(ctx: &Context, make: impl Fn(&PaperRequest, &PaperReporter<'_>) + Copy + Send + Sync + 'static) -> Self {
        let stop = Arc::new(AtomicBool::new(false));
        let asked = Arc::clone(&stop);
        let worker = Worker::new("papers", ctx, WorkerPolicy::NewestOnly, move || {
            let stop = Arc::clone(&asked);
            move |request: PaperRequest, reporter: &JobReporter<PaperEvent>| {
                make(&request, &PaperReporter { reporter, stop: &stop });
            }
        });
        Self { worker, stop }
    }

    pub(crate) fn request(&mut self, request: PaperRequest) {
        self.stop.store(false, Ordering::Relaxed);
        self.worker.request(request);
    }

    /// Whether papers are being made.
    pub(crate) fn is_busy(&self) -> bool {
        self.worker.is_busy()
    }

    /// They are not wanted any more. What is said at the end tells whether they were stopped in time.
    pub(crate) fn stop(&self) {
        self.stop.store(true, Ordering::Relaxed);
    }

    /// Everything heard since it was last asked.
    pub(crate) fn poll(&mut self) -> Vec<PaperEvent> {
        self.worker.poll().into_iter().filter_map(paper_event).collect()
    }

    /// The next thing heard; none when nothing more is to come.
    #[cfg(test)]
    pub(crate) fn wait(&mut self) -> Option<PaperEvent> {
        self.worker.wait(crate::app::workers::worker::PATIENCE).and_then(paper_event)
    }
}

fn paper_event(event: WorkerEvent<PaperEvent>) -> Option<PaperEvent> {
    match event {
        WorkerEvent::Reported(_, event) => Some(event),
        WorkerEvent::Failed(_) => Some(PaperEvent::Failed),
        // Their progress is counted in kinds of papers.
        WorkerEvent::Progress(..) => None,
    }
}

/// Where the making of papers reports, and asks whether to go on.
struct PaperReporter<'a> {
    reporter: &'a JobReporter<PaperEvent>,
    stop: &'a AtomicBool,
}

impl PaperReporter<'_> {
    fn is_stopped(&self) -> bool {
        self.stop.load(Ordering::Relaxed) || self.reporter.is_cancelled()
    }
}

fn make_papers(request: &PaperRequest, reporter: &PaperReporter<'_>) {
    let made = make_all(request, reporter).unwrap_or_else(PaperEvent::Refused);
    reporter.reporter.report(made);
}

/// Makes them all before the first is written.
fn make_all(request: &PaperRequest, reporter: &PaperReporter<'_>) -> Result<PaperEvent, String> {
    let PaperRequest { folder, name, of, one } = request;
    let kinds: Vec<&'static PaperKind> = one.map_or_else(|| PAPERS.to_vec(), |(kind, _)| vec![kind]);
    let maker = of.maker();
    let (mut kind_of_file, mut papers) = (Vec::new(), Vec::new());
    for (n, kind) in kinds.iter().enumerate() {
        if reporter.is_stopped() {
            return Ok(PaperEvent::Stopped);
        }
        for (ending, bytes) in maker.files(&of.order, kind).map_err(|error| error.to_string())? {
            kind_of_file.push(*kind);
            papers.push((format!("{name}-{ending}"), bytes));
        }
        reporter.reporter.report(PaperEvent::Made(n + 1, kinds.len()));
    }
    if let (Some((kind, _)), true) = (one, papers.is_empty()) {
        return Err(crate::app::widgets::paper_words::Papers::no_such(kind.why_missing()));
    }
    if reporter.is_stopped() {
        return Ok(PaperEvent::Stopped);
    }
    // A boutonniere that is gone, a second sheet that is not needed any more: they would be taken for part of the order.
    let is_stale = |file: &str| {
        let ending = file.strip_prefix(name.as_str()).and_then(|rest| rest.strip_prefix('-'));
        ending.is_some_and(|ending| kinds.iter().any(|kind| kind.owns(ending)))
    };
    let folder = folder.put_papers(name, &papers, is_stale).map_err(|refusal| refusal.to_string())?;
    let files = kind_of_file.into_iter().zip(&papers).map(|(kind, (file, _))| (kind, folder.join(file))).collect();
    let made = MadePapers { name: name.clone(), of: of.clone(), files, one: *one };
    Ok(PaperEvent::Done(Box::new(made)))
}

/// Writes the quote of an order; where its PDF is, or why there is none, as a sentence.
pub(crate) fn write_quote(folder: &Shop, of: &PaperSource) -> Result<PathBuf, String> {
    let pdf = folder.new_slip_file(&of.order).map_err(|refusal| refusal.to_string())?;
    for (ending, bytes) in of.maker().files(&of.order, &QUOTE_SLIP).map_err(|error| error.to_string())? {
        let path = pdf.with_extension(ending.rsplit('.').next().unwrap_or_default());
        store::write_bytes(&path, &bytes).map_err(|refusal| refusal.to_string())?;
    }
    Ok(pdf)
}

/// Those of a paper's files that are handed to a program: its sheets, else its picture, else its words.
pub(crate) fn to_hand(files: &[PathBuf]) -> Vec<PathBuf> {
    let of = |ending: &str| -> Vec<PathBuf> {
        files.iter().filter(|file| file.extension().is_some_and(|e| e == ending)).cloned().collect()
    };
    ["pdf", "png", "txt"].into_iter().map(of).find(|found| !found.is_empty()).unwrap_or_else(|| files.to_vec())
}

/// The paper in the shop's printer: Letter where one pays in dollars, A4 elsewhere; common practice, no source.
pub(crate) fn paper_of(currency: &str) -> PaperSize {
    if currency.trim() == "$" { PaperSize::Letter } else { PaperSize::A4 }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::store::samples;

    fn request(shop: &Shop, name: &str) -> PaperRequest {
        let found = samples::orders().find(|s| s.path.contains("01-petite")).unwrap();
        let order = Arc::new(store::order_from_text(found.text, found.path, shop.stock()).unwrap());
        let of = PaperSource::of(shop, &order, shop.stock(), shop.style());
        PaperRequest { folder: shop.clone(), name: name.to_owned(), of, one: None }
    }

    fn heard(worker: &mut PaperWorker) -> Vec<PaperEvent> {
        std::iter::from_fn(|| worker.wait()).collect()
    }

    fn files_in(folder: &std::path::Path) -> usize {
        std::fs::read_dir(folder).map_or(0, Iterator::count)
    }

    #[test]
    fn papers_that_break_off_are_told_and_can_be_made_again() {
        let folder = tempfile::tempdir().unwrap();
        let shop = Shop::begin(folder.path(), "Q").unwrap();
        let mut worker = PaperWorker::doing(&Context::default(), |request, reporter| {
            assert_ne!(request.name, "broken", "asked to break off");
            make_papers(request, reporter);
        });
        worker.request(request(&shop, "broken"));
        assert!(worker.is_busy());
        assert!(matches!(heard(&mut worker)[..], [PaperEvent::Failed]) && !worker.is_busy());
        worker.request(request(&shop, "whole"));
        let mut told = heard(&mut worker);
        let Some(PaperEvent::Done(made)) = told.pop() else { panic!("{told:?}") };
        let counted: Vec<usize> = told.iter().map(|e| if let PaperEvent::Made(n, _) = e { *n } else { 0 }).collect();
        assert_eq!(counted, (1..=PAPERS.len()).collect::<Vec<_>>());
        let papers = folder.path().join("papers/whole");
        assert!(made.files.iter().all(|(_, file)| file.is_file() && file.starts_with(&papers)));
        assert_eq!(files_in(&papers), made.files.len());
    }

    /// Stopped after the third of ten: nothing of the first three is on the disk.
    #[test]
    fn papers_that_are_stopped_leave_nothing_behind() {
        let folder = tempfile::tempdir().unwrap();
        let shop = Shop::begin(folder.path(), "Q").unwrap();
        let mut worker = PaperWorker::doing(&Context::default(), |request, reporter| {
            reporter.stop.store(true, Ordering::Relaxed);
            make_papers(request, reporter);
        });
        worker.request(request(&shop, "mina"));
        assert!(matches!(heard(&mut worker)[..], [PaperEvent::Stopped]));
        assert_eq!(files_in(&folder.path().join("papers")), 0);
    }

    #[test]
    fn one_paper_alone_replaces_its_own_files_and_no_others() {
        let folder = tempfile::tempdir().unwrap();
        let shop = Shop::begin(folder.path(), "Q").unwrap();
        let mut worker = PaperWorker::new(&Context::default());
        worker.request(request(&shop, "mina"));
        heard(&mut worker);
        let papers = folder.path().join("papers/mina");
        let n_files = files_in(&papers);
        // A second sheet of a quote that had been longer, and a letter of somebody's own.
        std::fs::write(papers.join("mina-quote-slip-2.png"), "old").unwrap();
        std::fs::write(papers.join("mina-letter.pdf"), "own").unwrap();
        worker.request(PaperRequest { one: Some((&QUOTE_SLIP, Taker::Printer)), ..request(&shop, "mina") });
        let told = heard(&mut worker);
        let Some(PaperEvent::Done(made)) = told.last() else { panic!("{told:?}") };
        assert_eq!((made.files.len(), made.one), (2, Some((&QUOTE_SLIP, Taker::Printer))));
        assert_eq!(files_in(&papers), n_files + 1, "the second sheet is gone, the letter is there");
    }

    #[test]
    fn without_a_folder_no_papers_are_made_and_it_says_why() {
        let mut worker = PaperWorker::new(&Context::default());
        worker.request(request(&Shop::built_in(), "nowhere"));
        assert!(matches!(heard(&mut worker).last(), Some(PaperEvent::Refused(why)) if why.contains("nowhere")));
    }
}
