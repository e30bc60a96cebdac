//! The search: from the trade's order to a layout that the once-over likes better.
//!
//! In rounds. A round starts from a plan, or from the best layout so far; moves one part at a time on the stand-in, taking
//! small losses at first and none at the end (threshold accepting: G. Dueck, T. Scheuer, J. Comput. Phys. 90:161-175, 1990,
//! from memory); then shows what it found to the true once-over, and climbs a few steps on that. A round is a fixed number
//! of tries, so the same call finds the same layout on every computer. A worker thread runs round after round, and stops
//! when it is told to.

use std::sync::Arc;

use super::plan::{Turn, plan};
use super::region::{brought_in, holds};
use super::stand_in::{Laid, Masks, StandIn};
use super::table::{Pose, Table, rounded};
use super::words::NoProposal;
use crate::geometry::{Point, Vec2};
use crate::once_over::{Subject, look_over};
use crate::piece::PieceSize;
use crate::stock::Role;
use crate::units::chance::Chance;
use crate::units::count_up;

/// How long to search, and from which seed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Ask {
    /// Where chance begins; another seed, another proposal.
    pub seed: u64,
    /// Rounds of the search.
    pub rounds: u32,
}

impl Ask {
    /// As many rounds as an old laptop does in about so many milliseconds for so many parts; reckoned, not measured, so
    /// that the same call gives the same layout. At least one round.
    pub fn within_ms(ms: u32, n_parts: usize, seed: u64) -> Self {
        let rounds = (f64::from(ms) / round_ms(n_parts)).max(1.0);
        Self { seed, rounds: count_up(rounds - 1.0 + 1e-9).max(1) }
    }
}

/// Milliseconds of a round with so many parts: measured once (see DEVELOPERS.md), then fixed.
fn round_ms(n_parts: usize) -> f64 {
    4.0 + 0.25 * n_parts as f64
}

/// Moves on the stand-in in one round; in the first, so that there is something to show at once, and in the others.
const MOVES: [u32; 2] = [800, 3000];
/// Looks by the true once-over in one round: one at what the moves found, the others on the climb.
const LOOKS: u32 = 9;
/// Losses that are taken at the start of a round, points: from a plan, and from the best so far.
const THRESHOLDS: [f64; 2] = [1.2, 0.5];
/// How far a part moves at the start and at the end of a round, mm.
const STEPS_MM: [f64; 2] = [8.0, 0.5];
/// How much of a point of the mark a point of taste is worth in the end: enough to tell two good layouts apart.
const TASTE_IN_END: f64 = 0.25;
/// A layout must be better by this to count as better: beyond rounding on any computer.
const MARGIN: f64 = 1e-6;

/// How far parts may move.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Reach {
    /// Anywhere in their regions.
    Anywhere,
    /// So far from where they are, mm.
    Nearby(f64),
}

/// A layout and how good it is.
#[derive(Clone, Debug)]
pub(super) struct Found {
    pub(super) poses: Vec<Pose>,
    pub(super) mark: f64,
    merit: f64,
    /// The plan it comes from.
    seats: Arc<[Pose]>,
}

/// A search that goes on for as long as one likes. The best so far can be asked for at any time.
#[derive(Clone, Debug)]
pub struct Search<'a> {
    pub(super) table: Table<'a>,
    judge: StandIn,
    chance: Chance,
    reach: Reach,
    only_turn: Option<u32>,
    pub(super) mark_before: f64,
    pub(super) best: Option<Found>,
    n_rounds: u32,
    n_tries: u64,
}

impl<'a> Search<'a> {
    /// A search for the parts of the sheet and what `size` promises beyond them. Refused when there is nothing to set out.
    pub fn new(subject: Subject<'a>, size: Option<&PieceSize>, seed: u64) -> Result<Self, NoProposal> {
        Self::with(subject, size, seed, Reach::Anywhere, None)
    }

    pub(super) fn with(
        subject: Subject<'a>,
        size: Option<&PieceSize>,
        seed: u64,
        reach: Reach,
        only_turn: Option<u32>,
    ) -> Result<Self, NoProposal> {
        let table = Table::lay(subject, size)?;
        let judge = StandIn::of(&table);
        let chance = Chance::seeded(seed);
        let mark_before = look_over(subject).mark;
        let mut search =
            Self { table, judge, chance, reach, only_turn, mark_before, best: None, n_rounds: 0, n_tries: 0 };
        // What is complete, and lies where it may, competes as it is.
        let lies_well = reach != Reach::Anywhere || search.lies_well();
        if !search.table.has_new() && only_turn.is_none() && lies_well {
            let now = search.table.now.clone();
            let seats = Arc::from(&now[..]);
            let merit = search.merit(&now, &seats, mark_before);
            search.best = Some(Found { poses: now, mark: mark_before, merit, seats });
        }
        Ok(search)
    }

    fn lies_well(&self) -> bool {
        let table = &self.table;
        table.free().all(|i| holds(&table.items[i], &table.now[i], table.oval))
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

    /// The mark of the best layout so far.
    pub fn best_mark(&self) -> Option<f64> {
        self.best.as_ref().map(|b| b.mark)
    }

    /// One round; `true` when it found something better.
    pub fn round(&mut self) -> bool {
        let before = self.best.as_ref().map(|b| b.merit);
        let (start, seats, threshold) = self.start();
        self.n_rounds += 1;
        let mut laid = self.judge.lay(&self.table, start, &seats);
        self.wander(&mut laid, threshold);
        self.show(laid.poses, &seats);
        self.climb();
        match (before, &self.best) {
            (Some(before), Some(best)) => best.merit > before,
            (None, Some(_)) => true,
            (_, None) => false,
        }
    }

    /// Where a round starts: from a plan at first and every third time, else from the best.
    fn start(&mut self) -> (Vec<Pose>, Arc<[Pose]>, f64) {
        let from_plan = self.reach == Reach::Anywhere && (self.n_rounds.is_multiple_of(3) || self.best.is_none());
        match &self.best {
            Some(best) if !from_plan => (best.poses.clone(), Arc::clone(&best.seats), THRESHOLDS[1]),
            _ => {
                let turn = Turn::of(self.only_turn.unwrap_or(self.n_rounds / 3), &mut self.chance);
                let poses = plan(&self.table, turn, &mut self.chance);
                let seats = Arc::from(&poses[..]);
                if self.n_rounds == 0 {
                    self.show(poses.clone(), &seats);
                }
                (poses, seats, THRESHOLDS[0])
            }
        }
    }

    /// Moves on the stand-in; ends at the best layout met.
    fn wander(&mut self, laid: &mut Laid, threshold: f64) {
        let free: Vec<usize> = self.table.free().collect();
        let mut now = self.judge.loss(laid).total();
        let (mut least, mut kept) = (now, laid.poses.clone());
        let moves = MOVES[usize::from(self.n_rounds > 1)];
        for k in 0..moves {
            let left = 1.0 - f64::from(k) / f64::from(moves);
            let Some(step) = self.a_move(laid, &free, left) else { continue };
            let undo = self.make(laid, &step);
            let then = self.judge.loss(laid).total();
            if then <= now + threshold * left * left {
                now = then;
                if now < least - MARGIN {
                    least = now;
                    kept.clone_from(&laid.poses);
                }
            } else {
                for (i, pose, masks) in undo {
                    laid.poses[i] = pose;
                    laid.masks[i] = masks;
                }
            }
        }
        self.n_tries += u64::from(moves);
        laid.poses = kept;
    }

    /// Makes a move and gives what undoes it.
    fn make(&self, laid: &mut Laid, step: &[(usize, Pose)]) -> Vec<(usize, Pose, Masks)> {
        step.iter()
            .map(|&(i, pose)| {
                let before = (i, laid.poses[i], laid.masks[i]);
                laid.poses[i] = pose;
                laid.masks[i] = self.judge.masks(i, &pose);
                before
            })
            .collect()
    }

    /// One part moved or turned, or two of a role that change places; `left` of the round is to come.
    fn a_move(&mut self, laid: &Laid, free: &[usize], left: f64) -> Option<Vec<(usize, Pose)>> {
        /// Shares of moves: places changed, a sprig thrown anywhere, a leaf turned.
        const SWAPS: f64 = 0.03;
        const THROWS: f64 = 0.08;
        const TURNS: f64 = 0.4;
        let i = *free.get(self.pick(free.len()))?;
        let chosen = self.chance.share();
        let item = &self.table.items[i];
        let anywhere = self.reach == Reach::Anywhere;
        let mut pose = laid.poses[i];
        if anywhere && chosen < SWAPS {
            let j = *free.get(self.pick(free.len()))?;
            return self.swapped(laid, i, j);
        }
        if anywhere && item.role == Role::Filler && chosen < THROWS {
            let share = |c: &mut Chance| c.between(-0.9, 0.9);
            pose.at =
                Point::new(share(&mut self.chance) * self.table.oval.a, share(&mut self.chance) * self.table.oval.b);
        } else if item.is_long() && chosen < TURNS {
            pose.toward = turned(pose.toward, self.chance.about(0.05 + 0.25 * left));
        } else {
            let reach = STEPS_MM[1] + (STEPS_MM[0] - STEPS_MM[1]) * left * left;
            let reach = if anywhere { reach } else { reach.min(1.5) };
            pose.at += Vec2::new(self.chance.about(1.8 * reach), self.chance.about(1.8 * reach));
        }
        self.allowed(i, pose).map(|pose| vec![(i, pose)])
    }

    fn swapped(&self, laid: &Laid, i: usize, j: usize) -> Option<Vec<(usize, Pose)>> {
        let (one, other) = (&self.table.items[i], &self.table.items[j]);
        if one.role != other.role || (one.stock == other.stock && one.reach == other.reach) {
            return None;
        }
        let (p, q) = (laid.poses[i], laid.poses[j]);
        let first = self.allowed(i, Pose { at: q.at, ..p })?;
        let second = self.allowed(j, Pose { at: p.at, ..q })?;
        Some(vec![(i, first), (j, second)])
    }

    /// The pose in its region and within reach; `None` when it cannot be.
    fn allowed(&self, i: usize, pose: Pose) -> Option<Pose> {
        match self.reach {
            Reach::Anywhere => brought_in(&self.table.items[i], pose, self.table.oval),
            Reach::Nearby(mm) => {
                // 0.01 less, for places are rounded in the end.
                let off = pose.at - self.table.now[i].at;
                (off.hypot2() <= (mm - 0.01) * (mm - 0.01)).then_some(pose)
            }
        }
    }

    fn pick(&mut self, n: usize) -> usize {
        let place = self.chance.share() * n as f64;
        usize::try_from(crate::units::count_down(place)).unwrap_or(0)
    }

    /// Small moves on the true once-over, from the best so far.
    fn climb(&mut self) {
        let free: Vec<usize> = self.table.free().collect();
        for k in 1..LOOKS {
            let Some(best) = &self.best else { return };
            let seats = Arc::clone(&best.seats);
            let laid = self.judge.lay(&self.table, best.poses.clone(), &seats);
            let left = 0.4 * (1.0 - f64::from(k) / f64::from(LOOKS));
            if let Some(step) = self.a_move(&laid, &free, left) {
                let mut poses = laid.poses;
                for (i, pose) in step {
                    poses[i] = pose;
                }
                self.show(poses, &seats);
            }
        }
    }

    /// Shows a layout to the true once-over; it becomes the best when it is, and never with a lower mark than the piece
    /// had with the same parts.
    fn show(&mut self, mut poses: Vec<Pose>, seats: &Arc<[Pose]>) {
        self.n_tries += 1;
        for (i, pose) in poses.iter_mut().enumerate() {
            if *pose != self.table.now[i] {
                pose.at = rounded(pose.at);
            }
        }
        let Some(piece) = self.table.piece(&poses) else { return };
        let mark = look_over(Subject { piece: &piece, ..self.table.subject }).mark;
        if !self.table.has_new() && mark < self.mark_before {
            return;
        }
        let merit = self.merit(&poses, seats, mark);
        if self.best.as_ref().is_none_or(|b| merit > b.merit + MARGIN) {
            self.best = Some(Found { poses, mark, merit, seats: Arc::clone(seats) });
        }
    }

    fn merit(&self, poses: &[Pose], seats: &Arc<[Pose]>, mark: f64) -> f64 {
        let laid = self.judge.lay(&self.table, poses.to_vec(), seats);
        mark - TASTE_IN_END * self.judge.loss(&laid).taste
    }
}

/// A direction turned by a small angle whose tangent is `by`.
fn turned(toward: Vec2, by: f64) -> Vec2 {
    let v = Vec2::new(toward.x - by * toward.y, toward.y + by * toward.x);
    v / v.hypot2().sqrt()
}
