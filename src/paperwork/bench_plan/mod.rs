//! The bench plan: who does which step when, so that all is ready by its pick-up time and nothing is begun too early.
//!
//! Times are whole minutes of the day. A piece is a chain of steps: minutes of somebody's hands, then minutes in which it
//! waits (glue, water, cooler) and needs nobody. All makers can do every step. It is planned backward from the last
//! pick-up (`chains`), so that each step is as late as the plan allows: first by a rule (`by_rule`), then, for few
//! steps, by looking through all orders of steps (`in_all_orders`). To plan such chains is hard in general, even for one maker (X. Zhang and
//! S. van de Velde, Journal of Scheduling, 2009, doi 10.1007/s10951-009-0134-8), so the plan tells beside its begin what no
//! plan can beat. Knows nothing of clocks, files or screens.

mod by_rule;
mod chains;
mod in_all_orders;

use chains::{Bench, Starts};

/// Minutes in a day.
pub const MINUTES_A_DAY: u32 = 1_440;
/// Most pieces in a plan. This and the next are our choice: far above a day's work, and quick.
pub const MOST_PIECES: usize = 200;
/// Most steps of all pieces.
pub const MOST_BENCH_STEPS: usize = 1_000;

/// One step on the bench, in minutes.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct BenchStep {
    /// Hands on. A step of none still wants a maker who is free at that moment.
    pub hands: u32,
    /// Wait before the next step, or after the last before it is ready.
    pub wait: u32,
}

/// One piece on the bench.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct BenchPiece {
    /// Its steps, in order.
    pub steps: Vec<BenchStep>,
    /// Minute of the day at which it is picked up.
    pub ready_by: u32,
}

/// How hard to look. The same effort finds the same plan on every computer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Effort {
    /// Beginnings of plans to look at where there are few steps; 0 leaves it at the rule.
    pub nodes: u32,
    /// Times the rule is nudged.
    pub nudges: u32,
    /// For the nudges.
    pub seed: u64,
}

/// Our choice: well below a second for all.
impl Default for Effort {
    fn default() -> Self {
        Self { nodes: 100_000, nudges: 300, seed: 1 }
    }
}

/// One step in its place.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct PlannedStep {
    /// Minute of the day at which it starts.
    pub start: u32,
    /// Minutes of hands.
    pub hands: u32,
    /// Place of the piece in the list given.
    pub piece: usize,
    /// Place of the step in the piece.
    pub step: usize,
    /// Who does it, counted from 0.
    pub maker: usize,
}

/// Who does what when.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct BenchPlan {
    /// Minute of the day at which the first step starts; none if there is nothing to do.
    pub begin: Option<u32>,
    /// No plan begins later. Equal to `begin` where the plan is proven to be the latest.
    pub begin_bound: Option<u32>,
    /// All steps, the earliest first.
    pub steps: Vec<PlannedStep>,
}

/// Why there is no plan.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoPlan {
    /// There are steps, and nobody to do them.
    NoMaker,
    /// More pieces than [`MOST_PIECES`].
    TooManyPieces,
    /// More steps than [`MOST_BENCH_STEPS`].
    TooManySteps,
    /// The piece is to be ready after the end of the day, or one of its steps takes more than a day.
    BeyondTheDay(usize),
    /// This piece alone would have to be begun before midnight.
    PieceTooLong {
        /// Place of the piece.
        piece: usize,
        /// Minutes before midnight.
        short_minutes: u32,
    },
    /// All together would have to be begun before midnight.
    TooLong {
        /// Minutes before midnight, as planned.
        short_minutes: u32,
        /// Minutes before midnight at least, whatever the plan; 0 if another plan might do.
        surely_minutes: u32,
    },
}

/// A plan that begins as late as could be found.
pub fn bench_plan(pieces: &[BenchPiece], makers: u32, effort: Effort) -> Result<BenchPlan, NoPlan> {
    check(pieces, makers)?;
    let Some(bench) = Bench::backward(pieces, makers) else { return Ok(BenchPlan::default()) };
    let bound = bench.bound();
    let starts = by_rule::planned(&bench, bound, effort);
    let (starts, bound) = in_all_orders::searched(&bench, starts, bound, effort.nodes);
    let length = bench.length(&starts);
    let last = bench.last_pick_up;
    match last.checked_sub(length) {
        Some(begin) => Ok(BenchPlan {
            begin: Some(begin),
            begin_bound: Some(last.saturating_sub(bound)),
            steps: with_makers(&bench, &starts, pieces),
        }),
        None => Err(NoPlan::TooLong { short_minutes: length - last, surely_minutes: bound.saturating_sub(last) }),
    }
}

fn check(pieces: &[BenchPiece], makers: u32) -> Result<(), NoPlan> {
    if pieces.len() > MOST_PIECES {
        return Err(NoPlan::TooManyPieces);
    }
    let n_steps: usize = pieces.iter().map(|p| p.steps.len()).sum();
    if n_steps > MOST_BENCH_STEPS {
        return Err(NoPlan::TooManySteps);
    }
    if n_steps > 0 && makers == 0 {
        return Err(NoPlan::NoMaker);
    }
    for (i, piece) in pieces.iter().enumerate() {
        let too_long = |s: &BenchStep| s.hands > MINUTES_A_DAY || s.wait > MINUTES_A_DAY;
        if piece.ready_by > MINUTES_A_DAY || piece.steps.iter().any(too_long) {
            return Err(NoPlan::BeyondTheDay(i));
        }
        let length: u32 = piece.steps.iter().map(|s| s.hands + s.wait).sum();
        if length > piece.ready_by {
            return Err(NoPlan::PieceTooLong { piece: i, short_minutes: length - piece.ready_by });
        }
    }
    Ok(())
}

/// Turns the plan forward and gives each step to whoever had the piece last, else to the first who is free.
fn with_makers(bench: &Bench, starts: &Starts, pieces: &[BenchPiece]) -> Vec<PlannedStep> {
    let mut steps = Vec::new();
    for (chain, starts) in bench.chains.iter().zip(starts) {
        for (step, start) in starts.iter().rev().enumerate() {
            let hands = pieces[chain.piece].steps[step].hands;
            let start = bench.last_pick_up.saturating_sub(start + hands);
            steps.push(PlannedStep { start, hands, piece: chain.piece, step, maker: 0 });
        }
    }
    steps.sort_unstable();
    let mut free = vec![0; bench.makers];
    let mut had: Vec<Option<usize>> = vec![None; pieces.len()];
    for step in &mut steps {
        let is_free = |maker: &usize| free[*maker] <= step.start;
        let maker = had[step.piece].filter(is_free).or_else(|| (0..bench.makers).find(is_free)).unwrap_or(0);
        step.maker = maker;
        free[maker] = step.start + step.hands;
        had[step.piece] = Some(maker);
    }
    steps
}
