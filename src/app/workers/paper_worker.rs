//! Makes all papers of an order into a folder of the shop, so that no frame waits for them.

use std::path::PathBuf;
use std::sync::Arc;

use egui::Context;

use crate::app::workers::worker::{JobReporter, Worker, WorkerEvent, WorkerPolicy};
use crate::book::Order;
use crate::export::pdf::PaperSize;
use crate::export::{PAPERS, PaperMaker, QUOTE_SLIP};
use crate::piece::HouseStyle;
use crate::stock::Stock;
use crate::store::{self, Shop};

/// Papers to be made.
pub(crate) struct PaperRequest {
    pub(crate) shop: Shop,
    /// The name of their folder, and how their own names begin.
    pub(crate) name: String,
    pub(crate) order: Arc<Order>,
    pub(crate) stock: Arc<Stock>,
    pub(crate) style: Arc<HouseStyle>,
}

/// How far they are.
#[derive(Debug, PartialEq)]
pub(crate) enum PaperEvent {
    /// So many kinds of all have been made.
    Made(usize),
    /// All have been made: so many files, in the folder of this name.
    Done(usize, String),
    /// Why no more can be made, as a sentence.
    Refused(String),
    /// It broke off.
    Failed,
}

/// Makes the papers that were asked for last; those half made are left where they are.
pub(crate) struct PaperWorker(Worker<PaperRequest, PaperEvent>);

impl PaperWorker {
    pub(crate) fn new(ctx: &Context) -> Self {
        Self(Worker::new("papers", ctx, WorkerPolicy::NewestOnly, || make_papers))
    }

    pub(crate) fn request(&mut self, request: PaperRequest) {
        self.0.request(request);
    }

    /// Whether papers are being made.
    pub(crate) fn is_busy(&self) -> bool {
        self.0.is_busy()
    }

    /// Everything heard since it was last asked.
    pub(crate) fn poll(&mut self) -> Vec<PaperEvent> {
        self.0.poll().into_iter().filter_map(paper_event).collect()
    }

    /// The next thing heard; none when nothing more is to come.
    #[cfg(test)]
    pub(crate) fn wait(&mut self) -> Option<PaperEvent> {
        self.0.wait(crate::app::workers::worker::PATIENCE).and_then(paper_event)
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

fn make_papers(request: PaperRequest, reporter: &JobReporter<PaperEvent>) {
    match make_all(&request, reporter) {
        Ok(n_files) => reporter.report(PaperEvent::Done(n_files, request.name)),
        Err(sentence) => reporter.report(PaperEvent::Refused(sentence)),
    }
}

/// The number of files made.
fn make_all(request: &PaperRequest, reporter: &JobReporter<PaperEvent>) -> Result<usize, String> {
    let PaperRequest { shop, name, order, stock, style } = request;
    let folder = shop.papers_folder(name).map_err(|refusal| refusal.to_string())?;
    let (written, paper) = (shop.written(), paper_of(&style.prices.currency));
    let desk = PaperMaker { shop: shop.name(), stock, style, written, paper };
    let mut n_files = 0;
    for (n, kind) in PAPERS.into_iter().enumerate() {
        if reporter.is_cancelled() {
            break;
        }
        for (ending, bytes) in desk.files(order, kind).map_err(|error| error.to_string())? {
            let file = folder.join(format!("{name}-{ending}"));
            store::write_bytes(&file, &bytes).map_err(|refusal| refusal.to_string())?;
            n_files += 1;
        }
        reporter.report(PaperEvent::Made(n + 1));
    }
    Ok(n_files)
}

/// Writes the quote of an order; where its PDF is, or why there is none, as a sentence.
pub(crate) fn write_quote(shop: &Shop, order: &Order, stock: &Stock, style: &HouseStyle) -> Result<PathBuf, String> {
    let paper = paper_of(&style.prices.currency);
    let maker = PaperMaker { shop: shop.name(), stock, style, written: shop.written(), paper };
    let pdf = shop.new_slip_file(order).map_err(|refusal| refusal.to_string())?;
    for (ending, bytes) in maker.files(order, &QUOTE_SLIP).map_err(|error| error.to_string())? {
        let path = pdf.with_extension(ending.rsplit('.').next().unwrap_or_default());
        store::write_bytes(&path, &bytes).map_err(|refusal| refusal.to_string())?;
    }
    Ok(pdf)
}

/// The paper in the shop's printer: Letter where one pays in dollars, A4 elsewhere; common practice, no source.
fn paper_of(currency: &str) -> PaperSize {
    if currency.trim() == "$" { PaperSize::Letter } else { PaperSize::A4 }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::store::samples;

    fn request(shop: &Shop, name: &str) -> PaperRequest {
        let found = samples::orders().find(|s| s.path.contains("01-petite")).unwrap();
        let order = store::order_from_text(found.text, found.path, shop.stock()).unwrap();
        let (stock, style) = (Arc::clone(shop.stock()), Arc::clone(shop.style()));
        PaperRequest { shop: shop.clone(), name: name.to_owned(), order: Arc::new(order), stock, style }
    }

    fn heard(worker: &mut PaperWorker) -> Vec<PaperEvent> {
        std::iter::from_fn(|| worker.wait()).collect()
    }

    #[test]
    fn papers_that_break_off_are_told_and_can_be_made_again() {
        let folder = tempfile::tempdir().unwrap();
        let shop = Shop::begin(folder.path(), "Q").unwrap();
        let mut worker = PaperWorker(Worker::new("papers", &Context::default(), WorkerPolicy::NewestOnly, || {
            |request: PaperRequest, reporter: &JobReporter<PaperEvent>| {
                assert_ne!(request.name, "broken", "asked to break off");
                make_papers(request, reporter);
            }
        }));
        worker.request(request(&shop, "broken"));
        assert!(worker.is_busy());
        assert_eq!((heard(&mut worker), worker.is_busy()), (vec![PaperEvent::Failed], false));
        worker.request(request(&shop, "whole"));
        let told = heard(&mut worker);
        let n_kinds = PAPERS.len();
        assert_eq!(told[..n_kinds], (1..=n_kinds).map(PaperEvent::Made).collect::<Vec<_>>());
        let n_files = std::fs::read_dir(folder.path().join("papers/whole")).unwrap().count();
        assert_eq!(told[n_kinds..], [PaperEvent::Done(n_files, "whole".to_owned())]);
    }

    #[test]
    fn without_a_folder_no_papers_are_made_and_it_says_why() {
        let mut worker = PaperWorker::new(&Context::default());
        worker.request(request(&Shop::built_in(), "nowhere"));
        assert!(matches!(&heard(&mut worker)[..], [PaperEvent::Refused(why)] if why.contains("nowhere")));
    }
}
