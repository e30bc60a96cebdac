//! Searches for layouts, so that no frame waits for it: three at once, then on and on for a better one, or one small
//! step. Pictures of layouts are drawn here too.

use std::borrow::Cow;
use std::sync::Arc;

use egui::Context;
use kurbo::Affine;

use crate::app::workers::worker::{JobReporter, Worker, WorkerEvent, WorkerPolicy};
use crate::book::{Order, WearerStops};
use crate::export::{Finish, Pixels, raster};
use crate::geometry::Point;
use crate::once_over::{Subject, look_over};
use crate::piece::{HouseStyle, Piece, PieceSize, Wrist};
use crate::scene::{Ground, Group, PictureOptions, Skin, picture};
use crate::set_out::{
    Candidate, Half, LayoutSearch, NoProposal, Proposal, SearchOptions, evened, fill_all, mirror_half, next_pieces,
    propose, three_proposals, tidy,
};
use crate::sheet::{LIFE_SIZE, View};
use crate::stock::{Role, Stock, StockId};
use crate::units::ceil_u32;

/// Rounds of the long search; our choice: about six seconds for a Full piece on an old laptop.
pub(crate) const MOST_ROUNDS: u32 = 360;
/// Rounds between two looks at what has been found; our choice, so that no more than a few pictures are drawn.
const ROUNDS_A_LOOK: u32 = 12;
/// A layout must be better by this, points, to be shown as a better one; our choice: less is not seen.
const WORTH: f64 = 0.2;
/// Rounds of a tidying: enough to settle, and still done before a hand has left the button.
const TIDY_ROUNDS: u32 = 6;
/// Where chance begins: the same piece is always offered the same layouts.
const SEED: u64 = 1;

/// What a search needs to know of an order.
#[derive(Clone, Debug)]
pub(crate) struct SearchInputs {
    pub(crate) piece: Piece,
    pub(crate) wrist: Wrist,
    pub(crate) size: Option<PieceSize>,
    pub(crate) stock: Arc<Stock>,
    pub(crate) style: Arc<HouseStyle>,
}

impl SearchInputs {
    pub(crate) fn of(piece: Piece, order: &Order, stock: &Arc<Stock>, style: &Arc<HouseStyle>) -> Self {
        let size = order.size.as_ref().and_then(|name| style.size(name)).cloned();
        let stock = match WearerStops::of(order, stock).stock_to_propose() {
            Cow::Borrowed(_) => Arc::clone(stock),
            Cow::Owned(some) => Arc::new(some),
        };
        Self { piece, wrist: order.wrist.clone(), size, stock, style: Arc::clone(style) }
    }

    fn subject(&self) -> Subject<'_> {
        Subject { piece: &self.piece, stock: &self.stock, style: &self.style, wrist: &self.wrist }
    }
}

/// How a picture is to be drawn.
#[derive(Clone, Copy, Debug)]
pub(crate) struct LayoutPicture {
    /// Width and height, points.
    pub(crate) points: [f32; 2],
    pub(crate) pixels_per_point: f32,
    pub(crate) skin: Skin,
}

/// One small thing to be found.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum LayoutStep {
    /// Sprigs into all gaps.
    Fill,
    /// The accents evenly spread.
    EvenOut,
    /// A nearly right piece made right.
    Tidy,
    /// One half the mirror image of the other.
    Mirror(Half),
    /// What of the tray goes into the largest gap beyond those skipped.
    Next { tray: Vec<(StockId, Arc<str>)>, skipped: Vec<Point> },
}

/// What is to be searched for.
pub(crate) enum SearchRequest {
    /// Three layouts at once, then the long search for a better one.
    Layouts(SearchInputs, LayoutPicture),
    Step(SearchInputs, LayoutStep),
    /// Each size laid out, one after the other; one that cannot be stays as it is.
    Sizes(Vec<(String, SearchInputs)>),
}

/// What a search has found.
#[derive(Debug)]
pub(crate) enum SearchEvent {
    /// The first layouts, or why there are none.
    First(Result<Vec<Proposal>, NoProposal>),
    /// The picture of one of the first.
    Picture(usize, Pixels),
    /// A better one, with its picture.
    Better(Proposal, Pixels),
    /// Rounds done.
    Rounds(u32),
    /// The search is over.
    Over,
    /// What a small step came to.
    StepDone(Result<Proposal, NoProposal>),
    /// What could go next.
    Next(Result<Vec<Candidate>, NoProposal>),
    /// A size laid out.
    SizeLaidOut(String, Piece),
    /// It broke off and finds nothing more.
    Failed,
}

/// Searches for what was asked last.
pub(crate) struct SearchWorker(Worker<SearchRequest, SearchEvent>);

impl SearchWorker {
    pub(crate) fn new(ctx: &Context) -> Self {
        Self(Worker::new("search", ctx, WorkerPolicy::NewestOnly, || search))
    }

    /// Searches for this instead of whatever was searched for before.
    pub(crate) fn request(&mut self, request: SearchRequest) {
        self.stop();
        self.0.request(request);
    }

    /// Stops after the round it is in; nothing more is heard of the search.
    pub(crate) fn stop(&self) {
        self.0.cancel();
    }

    /// What was found since it was last asked.
    pub(crate) fn poll(&mut self) -> Vec<SearchEvent> {
        self.0.poll().into_iter().filter_map(found).collect()
    }

    /// The next thing found; none when nothing more will be.
    #[cfg(test)]
    pub(crate) fn wait(&mut self) -> Option<SearchEvent> {
        self.0.wait(crate::app::workers::worker::PATIENCE).and_then(found)
    }
}

fn found(event: WorkerEvent<SearchEvent>) -> Option<SearchEvent> {
    match event {
        WorkerEvent::Reported(_, event) => Some(event),
        WorkerEvent::Failed(_) => Some(SearchEvent::Failed),
        // How far the long search is stands in its rounds.
        WorkerEvent::Progress(..) => None,
    }
}

fn search(request: SearchRequest, reporter: &JobReporter<SearchEvent>) {
    match request {
        SearchRequest::Layouts(inputs, picture) => search_layouts(reporter, &inputs, picture),
        SearchRequest::Step(inputs, step) => reporter.report(find_step(&inputs, step)),
        SearchRequest::Sizes(sizes) => {
            for (name, inputs) in sizes {
                if reporter.is_cancelled() {
                    return;
                }
                let found = propose(inputs.subject(), inputs.size.as_ref(), SearchOptions { seed: SEED, rounds: 2 });
                let laid_out = found.ok().and_then(|p| inputs.piece.apply(&p.edit).ok());
                reporter.report(SearchEvent::SizeLaidOut(name, laid_out.unwrap_or(inputs.piece)));
            }
        }
    }
}

fn search_layouts(reporter: &JobReporter<SearchEvent>, inputs: &SearchInputs, picture: LayoutPicture) {
    let found = three_proposals(inputs.subject(), inputs.size.as_ref(), SearchOptions { seed: SEED, rounds: 1 });
    let shown = found.clone().unwrap_or_default();
    // What three quick looks could not better, a long one may.
    let may_get_better = matches!(found, Ok(_) | Err(NoProposal::NothingBetter));
    reporter.report(SearchEvent::First(found));
    for (n, proposal) in shown.iter().enumerate() {
        if reporter.is_cancelled() {
            return;
        }
        reporter.report(SearchEvent::Picture(n, drawn(inputs, proposal, picture)));
    }
    if may_get_better {
        let best = shown.first().map_or_else(|| look_over(inputs.subject()).score, |best| best.score_after);
        search_on(reporter, inputs, picture, best);
    }
    reporter.report(SearchEvent::Over);
}

fn find_step(inputs: &SearchInputs, step: LayoutStep) -> SearchEvent {
    let subject = inputs.subject();
    match step {
        LayoutStep::Fill => SearchEvent::StepDone(fill_all(subject)),
        LayoutStep::EvenOut => SearchEvent::StepDone(most_evened(subject)),
        LayoutStep::Tidy => SearchEvent::StepDone(tidy(subject, SearchOptions { seed: SEED, rounds: TIDY_ROUNDS })),
        LayoutStep::Mirror(half) => SearchEvent::StepDone(mirror_half(subject, half)),
        LayoutStep::Next { tray, skipped } => SearchEvent::Next(next_pieces(subject, &tray, &skipped)),
    }
}

/// Round after round; what is better by more than a trifle than all shown before is reported now and then.
fn search_on(reporter: &JobReporter<SearchEvent>, inputs: &SearchInputs, picture: LayoutPicture, shown: f64) {
    let Ok(mut search) = LayoutSearch::new(inputs.subject(), inputs.size.as_ref(), SEED) else { return };
    let mut shown = shown;
    while search.n_rounds() < MOST_ROUNDS && !reporter.is_cancelled() {
        search.round();
        if !search.n_rounds().is_multiple_of(ROUNDS_A_LOOK) {
            continue;
        }
        reporter.report(SearchEvent::Rounds(search.n_rounds()));
        if search.best_score().is_some_and(|mark| mark > shown + WORTH)
            && let Ok(better) = search.proposal()
        {
            shown = better.score_after;
            let pixels = drawn(inputs, &better, picture);
            reporter.report(SearchEvent::Better(better, pixels));
        }
    }
}

/// The accent whose evening out helps most.
fn most_evened(subject: Subject<'_>) -> Result<Proposal, NoProposal> {
    let accents = subject.piece.parts().iter().filter(|p| p.role == Role::Accent).map(|p| p.stock.clone());
    let kinds: std::collections::BTreeSet<StockId> = accents.collect();
    let (found, refused): (Vec<_>, Vec<_>) = kinds.iter().map(|kind| evened(subject, kind)).partition(Result::is_ok);
    let best = found.into_iter().flatten().max_by(|a, b| a.score_after.total_cmp(&b.score_after));
    let all_locked = !refused.is_empty() && refused.iter().all(|r| matches!(r, Err(NoProposal::TheseAreLocked)));
    best.ok_or(if all_locked { NoProposal::TheseAreLocked } else { NoProposal::NothingBetter })
}

/// The picture of a piece as a proposal would make it, upright as on the sheet.
fn drawn(inputs: &SearchInputs, proposal: &Proposal, layout: LayoutPicture) -> Pixels {
    let piece = inputs.piece.apply(&proposal.edit).unwrap_or_else(|_| inputs.piece.clone());
    let [width, height] = layout.points.map(f64::from);
    let mut view = View { area: kurbo::Rect::new(0.0, 0.0, width, height), ..View::new() };
    view.fit(frame_of(&piece, &inputs.stock), LIFE_SIZE);
    let frame = Some(view.seen_and_more());
    let look = PictureOptions { skin: layout.skin, ground: Ground::Clear, frame, ..PictureOptions::default() };
    let scene = picture(&piece, &inputs.stock, &inputs.wrist, &look);
    let groups: Vec<&Group> = scene.groups.iter().collect();
    let per_point = f64::from(layout.pixels_per_point);
    let size = |points: f64| ceil_u32((points * per_point).round().clamp(8.0, 2048.0));
    raster(&groups, Affine::scale(per_point) * view.screen_from_piece(), size(width), size(height), Finish::Fine)
}

/// The oval and the parts, with a little room; the bow may reach out of it.
fn frame_of(piece: &Piece, stock: &Stock) -> kurbo::Rect {
    /// Room about the parts, mm.
    const MARGIN_MM: f64 = 5.0;
    let oval = piece.oval();
    let shapes: Vec<_> = piece.parts().iter().map(|p| p.shape_in(stock)).collect();
    let all = kurbo::Rect::new(-oval.a, -oval.b, oval.a, oval.b);
    crate::geometry::extents(&shapes).map_or(all, |parts| all.union(parts)).inflate(MARGIN_MM, MARGIN_MM)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::store::{built_in_stock, built_in_style, order_from_text, samples};

    /// A search on a sample, with its stock and style.
    fn inputs(sample: &str) -> SearchInputs {
        let (stock, style) = (Arc::new(built_in_stock()), Arc::new(built_in_style()));
        let found = samples::orders().find(|s| s.path.contains(sample)).unwrap();
        let order = order_from_text(found.text, found.path, &stock).unwrap();
        SearchInputs::of(order.piece.clone(), &order, &stock, &style)
    }

    fn layouts(inputs: SearchInputs) -> SearchRequest {
        let picture = LayoutPicture { points: [20.0, 30.0], pixels_per_point: 1.0, skin: Skin::Plain };
        SearchRequest::Layouts(inputs, picture)
    }

    #[test]
    fn the_long_search_stops_at_the_round_it_is_in_and_the_next_one_begins_anew() {
        let mut worker = SearchWorker::new(&Context::default());
        worker.request(layouts(inputs("05-bare-spots")));
        let mut rounds = Vec::new();
        while rounds.len() < 3 {
            match worker.wait().expect("the search goes on") {
                SearchEvent::Rounds(n) => rounds.push(n),
                SearchEvent::Over | SearchEvent::Failed => panic!("over after {rounds:?}"),
                _ => {}
            }
        }
        assert_eq!(rounds, [1, 2, 3].map(|n| n * ROUNDS_A_LOOK));
        worker.stop();
        assert!(worker.wait().is_none(), "nothing more is heard");
        worker.request(layouts(inputs("05-bare-spots")));
        assert!(matches!(worker.wait(), Some(SearchEvent::First(Ok(_)))));
    }

    #[test]
    fn what_is_asked_last_is_searched_for() {
        let mut worker = SearchWorker::new(&Context::default());
        worker.request(layouts(inputs("05-bare-spots")));
        worker.request(SearchRequest::Step(inputs("05-bare-spots"), LayoutStep::Tidy));
        assert!(matches!(worker.wait(), Some(SearchEvent::StepDone(Ok(_)))));
        assert!(worker.wait().is_none());
    }

    #[test]
    fn sizes_are_laid_out_each_under_its_name_in_the_order_they_came() {
        let mut worker = SearchWorker::new(&Context::default());
        let sizes = ["b", "a"].map(|name| (name.to_owned(), inputs("01-petite")));
        worker.request(SearchRequest::Sizes(sizes.into()));
        let names = std::iter::from_fn(|| worker.wait()).map(|event| match event {
            SearchEvent::SizeLaidOut(name, piece) => (name, piece.parts().is_empty()),
            other => panic!("{other:?}"),
        });
        assert_eq!(names.collect::<Vec<_>>(), [("b".to_owned(), false), ("a".to_owned(), false)]);
    }

    #[test]
    fn a_search_that_breaks_off_is_told_and_the_next_one_works() {
        let mut worker = SearchWorker(Worker::new("search", &Context::default(), WorkerPolicy::NewestOnly, || {
            |request, reporter: &JobReporter<SearchEvent>| {
                assert!(!matches!(request, SearchRequest::Sizes(_)), "asked to break off");
                search(request, reporter);
            }
        }));
        worker.request(SearchRequest::Sizes(Vec::new()));
        assert!(matches!(worker.wait(), Some(SearchEvent::Failed)));
        worker.request(SearchRequest::Step(inputs("05-bare-spots"), LayoutStep::Tidy));
        assert!(matches!(worker.wait(), Some(SearchEvent::StepDone(Ok(_)))));
    }
}
