//! A thread that searches for layouts, so that no frame waits for it: three at once, then on and on for a better one, or one
//! small betterment. It is told to stop when nobody listens any more. Pictures are drawn here too.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{Receiver, Sender, channel};

use egui::Context;
use kurbo::Affine;

use crate::app::sheet::wrist_sheet::{LIFE_SIZE, seen_and_more};
use crate::book::Order;
use crate::export::{Finish, Pixels, raster};
use crate::geometry::Point;
use crate::once_over::{Subject, look_over};
use crate::piece::{HouseStyle, Piece, PieceSize, Wrist};
use crate::scene::{Ground, Group, PictureOptions, Skin, picture};
use crate::set_out::{
    Ask, Candidate, Half, NoProposal, Proposal, Search, evened, fill_all, mirror_half, next_pieces, propose,
    three_proposals, tidy,
};
use crate::sheet::View;
use crate::stock::{Role, Stock, StockId};
use crate::units::count_up;

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
pub(crate) struct Bench {
    pub(crate) piece: Piece,
    pub(crate) wrist: Wrist,
    pub(crate) size: Option<PieceSize>,
    pub(crate) stock: Arc<Stock>,
    pub(crate) style: Arc<HouseStyle>,
}

impl Bench {
    pub(crate) fn of(piece: Piece, order: &Order, stock: &Arc<Stock>, style: &Arc<HouseStyle>) -> Self {
        let size = order.size.as_ref().and_then(|name| style.size(name)).cloned();
        Self { piece, wrist: order.wrist.clone(), size, stock: Arc::clone(stock), style: Arc::clone(style) }
    }

    fn subject(&self) -> Subject<'_> {
        Subject { piece: &self.piece, stock: &self.stock, style: &self.style, wrist: &self.wrist }
    }
}

/// How a picture is to be drawn.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Thumb {
    /// Width and height, points.
    pub(crate) points: [f32; 2],
    pub(crate) pixels_per_point: f32,
    pub(crate) skin: Skin,
}

/// One small thing to be found.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Errand {
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

/// What a thread tells.
#[derive(Debug)]
pub(crate) enum Told {
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
    /// What an errand found.
    Did(Result<Proposal, NoProposal>),
    /// What could go next.
    Next(Result<Vec<Candidate>, NoProposal>),
    /// A size laid out.
    Laid(String, Piece),
}

/// A thread, and the way back from it. It is told to stop when this is dropped.
#[derive(Debug)]
pub(crate) struct Searcher {
    told: Receiver<Told>,
    stop: Arc<AtomicBool>,
}

/// The thread's end.
struct Teller {
    tell: Sender<Told>,
    stop: Arc<AtomicBool>,
    ctx: Context,
}

impl Teller {
    /// `false` when nobody listens any more.
    fn tell(&self, told: Told) -> bool {
        let heard = !self.stop.load(Ordering::Relaxed) && self.tell.send(told).is_ok();
        if heard {
            self.ctx.request_repaint();
        }
        heard
    }

    fn is_stopped(&self) -> bool {
        self.stop.load(Ordering::Relaxed)
    }
}

impl Searcher {
    fn start(ctx: &Context, job: impl FnOnce(&Teller) + Send + 'static) -> Self {
        let (tell, told) = channel();
        let stop = Arc::new(AtomicBool::new(false));
        let teller = Teller { tell, stop: Arc::clone(&stop), ctx: ctx.clone() };
        std::thread::spawn(move || job(&teller));
        Self { told, stop }
    }

    /// Three layouts at once, then the long search for a better one.
    pub(crate) fn layouts(ctx: &Context, bench: Bench, thumb: Thumb) -> Self {
        Self::start(ctx, move |teller| {
            let found = three_proposals(bench.subject(), bench.size.as_ref(), Ask { seed: SEED, rounds: 1 });
            let shown = found.clone().unwrap_or_default();
            // What three quick looks could not better, a long one may.
            let may_get_better = matches!(found, Ok(_) | Err(NoProposal::AsGoodAsICanMakeIt));
            teller.tell(Told::First(found));
            for (n, proposal) in shown.iter().enumerate() {
                teller.tell(Told::Picture(n, drawn(&bench, proposal, thumb)));
            }
            if may_get_better {
                let best = shown.first().map_or_else(|| look_over(bench.subject()).mark, |best| best.mark_after);
                search_on(teller, &bench, thumb, best);
            }
            teller.tell(Told::Over);
        })
    }

    /// One errand.
    pub(crate) fn errand(ctx: &Context, bench: Bench, errand: Errand) -> Self {
        Self::start(ctx, move |teller| {
            let subject = bench.subject();
            teller.tell(match errand {
                Errand::Fill => Told::Did(fill_all(subject)),
                Errand::EvenOut => Told::Did(most_evened(subject)),
                Errand::Tidy => Told::Did(tidy(subject, Ask { seed: SEED, rounds: TIDY_ROUNDS })),
                Errand::Mirror(half) => Told::Did(mirror_half(subject, half)),
                Errand::Next { tray, skipped } => Told::Next(next_pieces(subject, &tray, &skipped)),
            });
        })
    }

    /// Each size laid out, one after the other; one that cannot be stays as it is.
    pub(crate) fn sizes(ctx: &Context, sizes: Vec<(String, Bench)>) -> Self {
        Self::start(ctx, move |teller| {
            for (name, bench) in sizes {
                let found = propose(bench.subject(), bench.size.as_ref(), Ask { seed: SEED, rounds: 2 });
                let laid = found.ok().and_then(|p| bench.piece.apply(&p.edit).ok());
                if !teller.tell(Told::Laid(name, laid.unwrap_or(bench.piece))) {
                    return;
                }
            }
        })
    }

    /// Tells the thread to stop after the round it is in.
    pub(crate) fn stop(&self) {
        self.stop.store(true, Ordering::Relaxed);
    }

    /// What has been told since it was last asked.
    pub(crate) fn heard(&self) -> Vec<Told> {
        self.told.try_iter().collect()
    }

    /// Waits for the next thing told; `None` when the thread is done.
    #[cfg(test)]
    pub(crate) fn wait(&self) -> Option<Told> {
        self.told.recv().ok()
    }
}

impl Drop for Searcher {
    fn drop(&mut self) {
        self.stop();
    }
}

/// Round after round; what is better by more than a trifle than all shown before is told now and then.
fn search_on(teller: &Teller, bench: &Bench, thumb: Thumb, shown: f64) {
    let Ok(mut search) = Search::new(bench.subject(), bench.size.as_ref(), SEED) else { return };
    let mut shown = shown;
    while search.n_rounds() < MOST_ROUNDS && !teller.is_stopped() {
        search.round();
        if !search.n_rounds().is_multiple_of(ROUNDS_A_LOOK) {
            continue;
        }
        if !teller.tell(Told::Rounds(search.n_rounds())) {
            return;
        }
        if search.best_mark().is_some_and(|mark| mark > shown + WORTH)
            && let Ok(better) = search.proposal()
        {
            shown = better.mark_after;
            let pixels = drawn(bench, &better, thumb);
            teller.tell(Told::Better(better, pixels));
        }
    }
}

/// The accent whose evening out helps most.
fn most_evened(subject: Subject<'_>) -> Result<Proposal, NoProposal> {
    let accents = subject.piece.parts().iter().filter(|p| p.role == Role::Accent).map(|p| p.stock.clone());
    let kinds: std::collections::BTreeSet<StockId> = accents.collect();
    let (found, refused): (Vec<_>, Vec<_>) = kinds.iter().map(|kind| evened(subject, kind)).partition(Result::is_ok);
    let best = found.into_iter().flatten().max_by(|a, b| a.mark_after.total_cmp(&b.mark_after));
    let all_locked = !refused.is_empty() && refused.iter().all(|r| matches!(r, Err(NoProposal::TheseAreLocked)));
    best.ok_or(if all_locked { NoProposal::TheseAreLocked } else { NoProposal::AsGoodAsICanMakeIt })
}

/// The picture of a piece as a proposal would make it, upright as on the sheet.
fn drawn(bench: &Bench, proposal: &Proposal, thumb: Thumb) -> Pixels {
    let piece = bench.piece.apply(&proposal.edit).unwrap_or_else(|_| bench.piece.clone());
    let [width, height] = thumb.points.map(f64::from);
    let mut view = View { area: kurbo::Rect::new(0.0, 0.0, width, height), ..View::new() };
    view.fit(frame_of(&piece, &bench.stock), LIFE_SIZE);
    let frame = Some(seen_and_more(&view));
    let look = PictureOptions { skin: thumb.skin, ground: Ground::Clear, frame, ..PictureOptions::default() };
    let scene = picture(&piece, &bench.stock, &bench.wrist, &look);
    let groups: Vec<&Group> = scene.groups.iter().collect();
    let per_point = f64::from(thumb.pixels_per_point);
    let size = |points: f64| count_up((points * per_point).round().clamp(8.0, 2048.0));
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
