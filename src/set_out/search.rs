//! The search: from the trade's order to a layout that the once-over scores higher.
//!
//! In runs, each of some rounds. A run starts from a plan, then the next from the best layout so far, by turns; it makes small
//! steps on the surrogate, taking little losses at first and none at the end (threshold accepting: G. Dueck, T. Scheuer,
//! J. Comput. Phys. 90:161-175, 1990, from memory). Later runs are longer, for a long run finds what many short ones do not.
//! After each round the best of it is shown to the true once-over, and kept in the archive (`archive.rs`). A round is a fixed number of tries, so the same call finds
//! the same layout on every computer. A worker thread runs round after round, and stops when it is asked to.

use super::archive::{Archive, FoundLayout};
use super::moves::a_step;
use super::plan::{PlanVariant, plan};
use super::region::holds;
use super::surrogate::{Layout, Surrogate};
use super::table::{PartPose, PartTable, rounded};
use super::words::NoProposal;
use crate::once_over::{Subject, look_over};
use crate::piece::PieceSize;
use crate::units::ceil_u32;
use crate::units::chance::Chance;

/// How long to search, and from which seed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SearchOptions {
    /// Where chance begins; another seed, another proposal.
    pub seed: u64,
    /// Rounds of the search.
    pub rounds: u32,
}

impl SearchOptions {
    /// As many rounds as an old laptop does in about so many milliseconds for so many parts; computed, not measured, so
    /// that the same call gives the same layout. At least one round.
    pub fn within_ms(ms: u32, n_parts: usize, seed: u64) -> Self {
        let rounds = (f64::from(ms) / round_ms(n_parts)).max(1.0);
        Self { seed, rounds: ceil_u32(rounds - 1.0 + 1e-9).max(1) }
    }
}

/// Milliseconds of a round with so many parts: measured once (see `assets/docs/figures.md`), then fixed.
fn round_ms(n_parts: usize) -> f64 {
    3.0 + 0.16 * n_parts as f64
}

/// Moves on the surrogate in the first round, so that there is something to show at once, and in every other.
const MOVES: [u32; 2] = [800, 3000];
/// Losses that are taken at the start of a run, points: from a plan, and from the best so far. Small against what a question
/// is worth: with seven times as much a run of 50 ms ends where it began.
const THRESHOLDS: [f64; 2] = [0.18, 0.15];
/// Rounds of the longest run, as a power of two.
const LONGEST: u32 = 6;
/// Less must be lost by this to count as less: beyond rounding on any computer.
const MARGIN: f64 = 1e-6;

/// How far parts may move.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum MoveReach {
    /// Anywhere in their regions.
    Anywhere,
    /// So far from where they are, mm.
    Nearby(f64),
}

/// A run of the surrogate over some rounds, from losses taken lightly to none.
#[derive(Clone, Debug)]
struct SearchRun {
    layout: Layout,
    /// What is lost now.
    now: f64,
    /// The least that was lost so far, and the layout.
    least: f64,
    kept: (Vec<PartPose>, Vec<PartPose>),
    threshold: f64,
    /// Moves done, and moves in all.
    n_done: u32,
    n_moves: u32,
}

/// A search that goes on for as long as one likes. The best so far can be asked for at any time.
#[derive(Clone, Debug)]
pub struct LayoutSearch<'a> {
    pub(super) table: PartTable<'a>,
    surrogate: Surrogate,
    chance: Chance,
    reach: MoveReach,
    only_turn: Option<u32>,
    pub(super) score_before: f64,
    archive: Archive,
    run: Option<SearchRun>,
    n_runs: u32,
    n_rounds: u32,
    n_tries: u64,
}

impl<'a> LayoutSearch<'a> {
    /// A search for the parts of the sheet and what `size` promises beyond them. Refused when there is nothing to set out.
    pub fn new(subject: Subject<'a>, size: Option<&PieceSize>, seed: u64) -> Result<Self, NoProposal> {
        Self::with(subject, size, seed, MoveReach::Anywhere, None)
    }

    pub(super) fn with(
        subject: Subject<'a>,
        size: Option<&PieceSize>,
        seed: u64,
        reach: MoveReach,
        only_turn: Option<u32>,
    ) -> Result<Self, NoProposal> {
        let table = PartTable::new(subject, size)?;
        let surrogate = Surrogate::of(&table);
        let chance = Chance::seeded(seed);
        let score_before = look_over(subject).score;
        let mut search = Self {
            table,
            surrogate,
            chance,
            reach,
            only_turn,
            score_before,
            archive: Archive::default(),
            run: None,
            n_runs: 0,
            n_rounds: 0,
            n_tries: 0,
        };
        // What is complete, and lies where it may, competes as it is.
        let lies_well = reach != MoveReach::Anywhere || search.lies_well();
        if !search.table.has_new() && only_turn.is_none() && lies_well {
            let now = search.table.now.clone();
            let seats = now.clone();
            search.keep(now, seats, score_before);
        }
        Ok(search)
    }

    fn lies_well(&self) -> bool {
        let table = &self.table;
        table.free().all(|i| holds(&table.items[i], &table.now[i], table.oval))
    }

    /// So many rounds, one after the other.
    pub fn rounds(&mut self, n: u32) {
        for _ in 0..n {
            self.round();
        }
    }

    /// Parts there will be: those on the sheet and those to come.
    pub fn n_parts(&self) -> usize {
        self.table.items.len()
    }

    /// Rounds done.
    pub fn n_rounds(&self) -> u32 {
        self.n_rounds
    }

    /// Moves tried and layouts looked at.
    pub fn n_tries(&self) -> u64 {
        self.n_tries
    }

    /// The score of the best layout so far.
    pub fn best_score(&self) -> Option<f64> {
        self.best().map(|f| f.score)
    }

    /// The best layout so far: preference chooses it, but where parts are only nudged, for there what lies as it lay would win.
    pub(super) fn best(&self) -> Option<&FoundLayout> {
        match self.reach {
            MoveReach::Anywhere => self.archive.chosen(),
            MoveReach::Nearby(_) => self.archive.truest(),
        }
    }

    /// One round; `true` when it found something better.
    pub fn round(&mut self) -> bool {
        let before = self.best().map(FoundLayout::worth);
        let mut run = self.run.take().unwrap_or_else(|| self.start());
        let moves = MOVES[usize::from(self.n_rounds > 0)];
        self.n_rounds += 1;
        let least = run.least;
        self.wander(&mut run, moves);
        if run.least < least {
            self.show(run.kept.0.clone(), run.kept.1.clone());
        }
        self.run = Some(run).filter(|run| run.n_done < run.n_moves);
        self.best().map(FoundLayout::worth) != before
    }

    /// A run from a plan, then one from the best so far; the next two take twice as many rounds.
    fn start(&mut self) -> SearchRun {
        let best = self.best();
        let from_plan = self.reach == MoveReach::Anywhere && (self.n_runs.is_multiple_of(2) || best.is_none());
        let (poses, seats, threshold) = match best {
            Some(best) if !from_plan => (best.poses.clone(), best.seats.clone(), THRESHOLDS[1]),
            _ => {
                let turn = PlanVariant::of(self.only_turn.unwrap_or(self.n_runs / 2), &mut self.chance);
                let poses = plan(&self.table, turn, &mut self.chance);
                if self.n_rounds == 0 {
                    self.show(poses.clone(), poses.clone());
                }
                (poses.clone(), poses, THRESHOLDS[0])
            }
        };
        let n_moves = match self.n_runs {
            0 => MOVES[0],
            later => MOVES[1] << ((later - 1) / 2).min(LONGEST),
        };
        self.n_runs += 1;
        let kept = (poses.clone(), seats.clone());
        let layout = self.surrogate.layout(&self.table, poses, seats);
        let now = self.surrogate.loss(&layout).total();
        SearchRun { layout, now, least: now, kept, threshold, n_done: 0, n_moves }
    }

    /// Moves on the surrogate.
    fn wander(&mut self, run: &mut SearchRun, moves: u32) {
        let free: Vec<usize> = self.table.free().collect();
        for k in run.n_done..run.n_done + moves {
            let left = 1.0 - f64::from(k) / f64::from(run.n_moves);
            let Some(step) = a_step(&self.table, &run.layout, &free, left, self.reach, &mut self.chance) else {
                continue;
            };
            let most = run.now + run.threshold * left * left;
            let Some(then) = self.surrogate.make(&mut run.layout, &step, most) else { continue };
            run.now = then;
            if then < run.least - MARGIN {
                run.least = then;
                run.kept.0.clone_from(&run.layout.poses);
                run.kept.1.clone_from(&run.layout.seats);
            }
        }
        run.n_done += moves;
        self.n_tries += u64::from(moves);
    }

    /// Shows a layout to the true once-over, and keeps it if it is worth it, never with a lower score than the piece had with
    /// the same parts.
    fn show(&mut self, mut poses: Vec<PartPose>, seats: Vec<PartPose>) {
        self.n_tries += 1;
        for (i, pose) in poses.iter_mut().enumerate() {
            if *pose != self.table.now[i] {
                pose.at = rounded(pose.at);
            }
        }
        let Some(piece) = self.table.piece(&poses) else { return };
        let score = look_over(Subject { piece: &piece, ..self.table.subject }).score;
        if !self.table.has_new() && score < self.score_before {
            return;
        }
        self.keep(poses, seats, score);
    }

    fn keep(&mut self, poses: Vec<PartPose>, seats: Vec<PartPose>, score: f64) {
        let layout = self.surrogate.layout(&self.table, poses, seats);
        let preference = self.surrogate.loss(&layout).preference;
        let Layout { poses, seats, .. } = layout;
        self.archive.add(FoundLayout { poses, seats, score, preference });
    }
}
