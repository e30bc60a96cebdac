//! Looks at an occasion of the shop and makes its papers, so that no frame waits for sixty orders to be read. It reads only
//! orders that changed since it looked last.

use std::fmt::Write as _;
use std::path::PathBuf;

use egui::Context;

use crate::app::workers::paper_worker::paper_of;
use crate::app::workers::worker::{JobReporter, Worker, WorkerEvent, WorkerPolicy};
use crate::book::{Day, Occasion, Order, OrderState, Written, occasions};
use crate::export::pdf::{LabelRun, LabelSheet, label_frame, labels, market_paper, pdf_of};
use crate::export::{bench_text, calendar, market_csv, no_market_words};
use crate::paperwork::{BenchDay, Effort, Makers, MarketList, Weekend, bench_day, market_list, weekend};
use crate::store::{OrderIndex, Shop, read_order};

/// What is asked.
pub(crate) struct WeekendRequest {
    pub(crate) shop: Shop,
    /// Which occasion, by its id; the next one where none is chosen.
    pub(crate) chosen: Option<String>,
    pub(crate) makers: Makers,
    pub(crate) today: Option<Day>,
    pub(crate) with_papers: bool,
}

/// What was found.
#[derive(Debug)]
pub(crate) enum WeekendEvent {
    Seen(Box<WeekendSeen>),
    /// So many papers stand in this folder.
    Made(usize, PathBuf),
    /// Why it cannot be done, as a sentence.
    Refused(String),
}

/// An occasion as it is seen.
#[derive(Debug, Default)]
pub(crate) struct WeekendSeen {
    /// All there are, the earliest first.
    pub(crate) occasions: Vec<Occasion>,
    pub(crate) chosen: Option<Occasion>,
    pub(crate) n_orders: usize,
    pub(crate) weekend: Weekend,
    pub(crate) day: Option<BenchDay>,
    /// The market list, or why there is none.
    pub(crate) market: Option<Result<MarketList, String>>,
    /// Orders that cannot be read.
    pub(crate) n_unread: usize,
}

/// Looks and makes papers, one after the other.
pub(crate) struct WeekendWorker(Worker<WeekendRequest, WeekendEvent>);

impl WeekendWorker {
    pub(crate) fn new(ctx: &Context) -> Self {
        Self(Worker::new("weekend", ctx, WorkerPolicy::InTurn, || {
            let mut index = OrderIndex::empty();
            move |request: WeekendRequest, reporter: &JobReporter<WeekendEvent>| {
                look(&request, &mut index, &mut |event| reporter.report(event));
            }
        }))
    }

    pub(crate) fn request(&mut self, request: WeekendRequest) {
        self.0.request(request);
    }

    pub(crate) fn is_busy(&self) -> bool {
        self.0.is_busy()
    }

    /// Everything heard since it was last asked.
    pub(crate) fn poll(&mut self) -> Vec<WeekendEvent> {
        let heard = self.0.poll().into_iter().filter_map(|event| match event {
            WorkerEvent::Reported(_, event) => Some(event),
            WorkerEvent::Failed(_) => {
                Some(WeekendEvent::Refused("Looking at the weekend broke off. Try again.".to_owned()))
            }
            WorkerEvent::Progress(..) => None,
        });
        heard.collect()
    }
}

/// In the window a plan is made anew with every tap, so that it is looked for less long.
const QUICK: Effort = Effort { nodes: 2_000, nudges: 20, seed: 1 };

fn look(request: &WeekendRequest, index: &mut OrderIndex, report: &mut dyn FnMut(WeekendEvent)) {
    let WeekendRequest { shop, makers, .. } = request;
    index.refresh(shop);
    let marks: Vec<_> = index.rows().map(|row| row.occasion.clone()).collect();
    let all = occasions(&marks);
    let Some(chosen) = chosen(&all, request) else {
        return report(WeekendEvent::Seen(Box::new(WeekendSeen { occasions: all, ..WeekendSeen::default() })));
    };
    let mut seen = WeekendSeen { occasions: all, chosen: Some(chosen.clone()), ..WeekendSeen::default() };
    let mut orders: Vec<Order> = Vec::new();
    let is_of_it = |state: OrderState| state != OrderState::Cancelled;
    for row in index.rows().filter(|row| chosen.holds(&row.occasion) && is_of_it(row.state)) {
        match read_order(&row.path, shop.stock()) {
            Ok(saved) => orders.push(saved.order),
            Err(_) => seen.n_unread += 1,
        }
    }
    orders.sort_by_key(|order| order.number.unwrap_or(u32::MAX));
    let lent: Vec<&Order> = orders.iter().collect();
    let day = bench_day(&lent, *makers, QUICK, shop.style(), shop.stock());
    let market = shop.suppliers().map_err(|refusal| refusal.to_string()).and_then(|suppliers| {
        market_list(&lent, &suppliers, shop.style(), shop.stock()).map_err(|why| no_market_words(&why))
    });
    if request.with_papers {
        report(made(request, &chosen, &lent, &day, &market).unwrap_or_else(WeekendEvent::Refused));
    }
    seen.n_orders = orders.len();
    seen.weekend = weekend(&lent, shop.style(), shop.stock());
    (seen.day, seen.market) = (Some(day), Some(market));
    report(WeekendEvent::Seen(Box::new(seen)));
}

/// The one that was chosen, else the next to come, else the last there was.
fn chosen(all: &[Occasion], request: &WeekendRequest) -> Option<Occasion> {
    let asked = request.chosen.as_ref().and_then(|id| all.iter().find(|occasion| occasion.id() == id));
    let is_to_come = |occasion: &&Occasion| match (occasion.days(), request.today) {
        (Some((_, last)), Some(today)) => last >= today,
        (days, _) => days.is_some(),
    };
    let last = || all.iter().rfind(|occasion| occasion.days().is_some()).or_else(|| all.last());
    asked.or_else(|| all.iter().find(is_to_come)).or_else(last).cloned()
}

/// The papers of the occasion in a folder of their own, all or none: labels with their test print, the market list as a
/// paper and as a table, the bench day, and a calendar of all of it.
fn made(
    request: &WeekendRequest,
    occasion: &Occasion,
    orders: &[&Order],
    day: &BenchDay,
    market: &Result<MarketList, String>,
) -> Result<WeekendEvent, String> {
    let WeekendRequest { shop, makers, .. } = request;
    let (style, written) = (shop.style(), shop.written());
    let paper = paper_of(&style.prices.currency.sign);
    let sheet = LabelSheet::usual(paper);
    let run = LabelRun { sheet, first: 1, with_balance: true, stock: shop.stock(), style, written };
    let title = title_of(occasion, written);
    let told = |refusal: crate::export::ExportError| refusal.to_string();
    let mut papers = vec![
        ("labels.pdf".to_owned(), pdf_of(&labels(orders, &run).map_err(told)?).map_err(told)?),
        ("labels-frame.pdf".to_owned(), pdf_of(&label_frame(sheet)).map_err(told)?),
        ("bench-day.txt".to_owned(), bench_text(&title, orders, *makers, day, written.hour).into_bytes()),
    ];
    if let Ok(list) = market {
        let document = market_paper(&title, list, shop.letterhead(), &style.prices.currency, written, paper);
        papers.push(("market-list.pdf".to_owned(), pdf_of(&document).map_err(told)?));
        papers.push(("market-list.csv".to_owned(), market_csv(list).into_bytes()));
    }
    if let Some(today) = request.today {
        let list = market.as_ref().ok();
        papers.push(("calendar.ics".to_owned(), calendar(occasion, orders, list, today).into_bytes()));
    }
    let folder = shop.put_papers(occasion.id(), &papers, |_| false).map_err(|refusal| refusal.to_string())?;
    Ok(WeekendEvent::Made(papers.len(), folder))
}

/// `Quayside Prom, Sat 9 May 2026`
pub(crate) fn title_of(occasion: &Occasion, written: Written) -> String {
    let mut title = occasion.name().to_owned();
    if let Some((first, last)) = occasion.days() {
        // Writing to a String cannot fail.
        _ = write!(title, ", {}", first.with_weekday(written.date));
        if first != last {
            _ = write!(title, " to {}", last.with_weekday(written.date));
        }
    }
    title
}
