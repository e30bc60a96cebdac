//! The bench day of an occasion: minutes promised against minutes there are, what can be made on a day before, what cannot,
//! and who makes what when. Minutes are whole; rows, no words.

use super::{BenchPiece, BenchPlan, BenchStep, Effort, NoPlan, Stage, Step, bench_plan, making_steps, stem_list};
use crate::book::Order;
use crate::piece::HouseStyle;
use crate::stock::Stock;
use crate::units::nearest_whole;

/// When a bench day begins where nobody said, minute of the day: eight in the morning; our choice.
pub const USUAL_BEGIN: u32 = 8 * 60;
/// Hours that one maker works where nobody said: eight.
pub const USUAL_HOURS: u32 = 8;
/// How long glue or tape sets before a piece is boxed, minutes; common practice, no source.
const SETS_MINUTES: u32 = 5;

/// Who is there, and for how long.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Makers {
    /// How many.
    pub count: u32,
    /// Minutes that each of them works.
    pub minutes_each: u32,
    /// Minute of the day at which they begin.
    pub begin: u32,
    /// Whether bows are made on a day before.
    pub bows_ahead: bool,
}

impl Makers {
    /// So many, for the usual hours.
    pub fn usual(count: u32) -> Self {
        Self { count, minutes_each: USUAL_HOURS * 60, begin: USUAL_BEGIN, bows_ahead: false }
    }

    /// All their minutes.
    pub fn minutes(&self) -> u32 {
        self.count.saturating_mul(self.minutes_each)
    }
}

/// One piece on the bench.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BenchWork {
    /// Place of its order in the list given.
    pub order: usize,
    /// Whether it is the boutonniere that goes with it.
    pub is_boutonniere: bool,
    /// Minutes, those of its bow included.
    pub minutes: u32,
}

/// Work of one kind over all pieces.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct StageSum {
    /// Which.
    pub stage: Stage,
    /// For how many pieces.
    pub count: u32,
    /// Minutes.
    pub minutes: u32,
}

impl StageSum {
    /// Whether it can be done days ahead: ribbon and band keep, cut flowers do not; common practice, no source.
    pub fn can_move(&self) -> bool {
        matches!(self.stage, Stage::Bow | Stage::Base)
    }
}

/// A bench day.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BenchDay {
    /// Its pieces, in the order of the orders.
    pub pieces: Vec<BenchWork>,
    /// Minutes of each stage, in the order of the bench.
    pub stages: Vec<StageSum>,
    /// Minutes promised, all stages.
    pub promised: u32,
    /// Minutes that are made on a day before.
    pub ahead: u32,
    /// Minutes there are.
    pub available: u32,
    /// Who does what when; or why nobody can.
    pub plan: Result<BenchPlan, NoPlan>,
}

impl BenchDay {
    /// Minutes of the day itself.
    pub fn on_the_day(&self) -> u32 {
        self.promised.saturating_sub(self.ahead)
    }

    /// Minutes that are missing.
    pub fn short(&self) -> u32 {
        self.on_the_day().saturating_sub(self.available)
    }

    /// Minutes that are free.
    pub fn free(&self) -> u32 {
        self.available.saturating_sub(self.on_the_day())
    }

    /// Minutes of bows.
    pub fn bows(&self) -> u32 {
        self.stages.iter().filter(|sum| sum.stage == Stage::Bow).map(|sum| sum.minutes).sum()
    }
}

/// The bench day of these orders.
pub fn bench_day(orders: &[&Order], makers: Makers, effort: Effort, style: &HouseStyle, stock: &Stock) -> BenchDay {
    let mut day = BenchDay {
        pieces: Vec::new(),
        stages: Vec::new(),
        promised: 0,
        ahead: 0,
        available: makers.minutes(),
        plan: Ok(BenchPlan::default()),
    };
    let mut chains = Vec::new();
    for (i, order) in orders.iter().enumerate() {
        let size = order.size.as_ref().and_then(|name| style.size(name));
        let pieces = [(Some(&order.piece), size), (order.partner_piece.as_ref(), None)];
        for (piece, size) in pieces.into_iter().filter_map(|(piece, size)| Some((piece?, size))) {
            let stems = stem_list(piece, size, stock, style);
            let steps = whole_steps(&making_steps(piece, &stems, &style.minutes));
            let minutes = steps.iter().map(|step| step.minutes).sum();
            let is_boutonniere = order.partner_piece.as_ref().is_some_and(|partner| std::ptr::eq(partner, piece));
            day.pieces.push(BenchWork { order: i, is_boutonniere, minutes });
            for step in &steps {
                day.add(step);
            }
            chains.push(chain(&steps, makers));
        }
    }
    day.stages.sort_by_key(|sum| sum.stage);
    day.promised = day.pieces.iter().map(|piece| piece.minutes).sum();
    day.ahead = if makers.bows_ahead { day.bows() } else { 0 };
    day.plan = bench_plan(&chains, makers.count, effort);
    day
}

impl BenchDay {
    fn add(&mut self, step: &WholeStep) {
        if step.minutes == 0 {
            return;
        }
        match self.stages.iter_mut().find(|sum| sum.stage == step.stage) {
            Some(sum) => {
                sum.count += 1;
                sum.minutes += step.minutes;
            }
            None => self.stages.push(StageSum { stage: step.stage, count: 1, minutes: step.minutes }),
        }
    }
}

/// A step in whole minutes.
struct WholeStep {
    stage: Stage,
    minutes: u32,
}

/// Steps in whole minutes whose sum is the piece's own, rounded once.
fn whole_steps(steps: &[Step]) -> Vec<WholeStep> {
    let (mut exact, mut told) = (0.0, 0);
    let mut whole = Vec::new();
    for step in steps {
        exact += step.minutes;
        let until = u32::try_from(nearest_whole(exact)).unwrap_or(0);
        whole.push(WholeStep { stage: step.stage, minutes: until.saturating_sub(told) });
        told = until.max(told);
    }
    whole
}

/// A piece as it is planned: its bow where that is made on the day, then all that is put on, then the time it sets.
fn chain(steps: &[WholeStep], makers: Makers) -> BenchPiece {
    let sum = |is_bow: bool| -> u32 {
        steps.iter().filter(|step| (step.stage == Stage::Bow) == is_bow).map(|step| step.minutes).sum()
    };
    let bow = (!makers.bows_ahead && sum(true) > 0).then(|| BenchStep { hands: sum(true), wait: 0 });
    let rest = BenchStep { hands: sum(false), wait: SETS_MINUTES };
    BenchPiece {
        steps: bow.into_iter().chain([rest]).collect(),
        ready_by: makers.begin + makers.minutes_each + SETS_MINUTES,
    }
}
