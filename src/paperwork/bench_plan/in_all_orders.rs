//! Few steps in all orders, depth first: the next step to start is each that may be next, as early as it can be. Waiting for
//! a step while another could be done is thus a plan too, and is needed: three kinds and one maker take 85 minutes, 87 by
//! the nudged rule.
//!
//! A beginning is left when its bound is no better than the best plan, when pieces that are alike would only change
//! places, or when another beginning with the same steps done has everything ready no later.

use std::collections::BTreeMap;

use super::chains::{Bench, Load, PlannedDay, Starts, count, preemptive};

/// Most chains and steps to look through; our choice.
const MOST_CHAINS: usize = 8;
const MOST_STEPS: usize = 28;
/// Most beginnings kept for each set of steps done; our choice, for memory.
const MOST_KEPT: usize = 64;

/// The best plan, and the bound: the length of the plan itself if all was looked through.
pub(super) fn searched(bench: &Bench, starts: Starts, bound: u32, nodes: u32) -> (Starts, u32) {
    let n_steps: usize = bench.chains.iter().map(|c| c.steps.len()).sum();
    let length = bench.length(&starts);
    if length <= bound || bench.chains.len() > MOST_CHAINS || n_steps > MOST_STEPS {
        return (starts, bound);
    }
    let mut search =
        OrderSearch { bench, twins: twins(bench), best: starts, length, bound, nodes, seen: BTreeMap::new() };
    match search.look(&PlannedDay::begun(bench)) {
        Looked::Through => (search.best, search.length),
        Looked::OutOfNodes => (search.best, bound),
    }
}

/// For each chain the one before it that is the same work.
fn twins(bench: &Bench) -> Vec<Option<usize>> {
    let twin = |c: usize| (0..c).rev().find(|other| bench.chains[*other].is_like(&bench.chains[c]));
    (0..bench.chains.len()).map(twin).collect()
}

/// Whether all that could be better was looked at.
enum Looked {
    Through,
    OutOfNodes,
}

struct OrderSearch<'a> {
    bench: &'a Bench,
    twins: Vec<Option<usize>>,
    best: Starts,
    length: u32,
    bound: u32,
    nodes: u32,
    seen: BTreeMap<Vec<usize>, Vec<Vec<u32>>>,
}

impl OrderSearch<'_> {
    fn look(&mut self, from: &PlannedDay) -> Looked {
        let Some(nodes) = self.nodes.checked_sub(1) else { return Looked::OutOfNodes };
        self.nodes = nodes;
        let mut next = self.next_steps(from);
        if next.is_empty() {
            let length = self.bench.length(&from.starts);
            if length < self.length {
                (self.best, self.length) = (from.starts.clone(), length);
            }
            return Looked::Through;
        }
        next.sort_unstable();
        for (_, _, chain) in next {
            let to = self.after(from, chain);
            if self.length <= self.bound || self.bound_of(&to) >= self.length || self.was_seen(&to) {
                continue;
            }
            if matches!(self.look(&to), Looked::OutOfNodes) {
                return Looked::OutOfNodes;
            }
        }
        Looked::Through
    }

    /// Start, minutes that do not follow, and chain of each step that may be next.
    fn next_steps(&self, from: &PlannedDay) -> Vec<(u32, u32, usize)> {
        let done = |c: usize| from.starts[c].len();
        let chains = (0..self.bench.chains.len()).filter(|c| done(*c) < self.bench.chains[*c].steps.len());
        let in_turn = chains.filter(|c| self.twins[*c].is_none_or(|twin| done(twin) > done(*c)));
        let start = |c: usize| from.ready[c].max(from.first_free());
        in_turn.map(|c| (start(c), u32::MAX - self.bench.chains[c].tails[done(c)], c)).collect()
    }

    /// One step more. Nothing starts before the last start of all, so all minutes are at least that; makers are alike, so
    /// they stand by when they are free.
    fn after(&self, from: &PlannedDay, chain: usize) -> PlannedDay {
        let mut to = from.clone();
        to.work(self.bench, chain);
        let start = to.starts[chain].last().copied().unwrap_or(0);
        to.free.iter_mut().chain(&mut to.ready).for_each(|minute| *minute = start.max(*minute));
        to.free.sort_unstable();
        to
    }

    fn bound_of(&self, at: &PlannedDay) -> u32 {
        let open = || {
            let chains = self.bench.chains.iter().zip(&at.ready).zip(&at.starts);
            chains.map(|((chain, ready), starts)| (chain, *ready, starts.len())).filter(|(c, _, k)| *k < c.steps.len())
        };
        let earliest = at.first_free();
        let loads: Vec<Load> = open().flat_map(|(c, ready, k)| c.loads(k, ready.max(earliest))).collect();
        let longest = loads.iter().map(|l| l.head + l.hands + l.tail).max().unwrap_or(0);
        let first = loads.iter().map(|l| l.head).min().unwrap_or(0);
        let work: u32 = loads.iter().map(|l| l.hands).sum();
        let taken: u32 = at.free.iter().map(|f| first.max(*f)).sum();
        let shared = if work > 0 { (taken + work).div_ceil(count(self.bench.makers)) } else { 0 };
        let busy = at.free.iter().copied().max().unwrap_or(0);
        busy.max(longest).max(shared).max(preemptive(loads, self.bench.makers))
    }

    /// Whether a beginning with the same steps done has everything ready no later; else this one is kept.
    fn was_seen(&mut self, at: &PlannedDay) -> bool {
        let done: Vec<usize> = at.starts.iter().map(Vec::len).collect();
        let open = |c: &usize| done[*c] < self.bench.chains[*c].steps.len();
        let ready = (0..done.len()).filter(open).map(|c| at.ready[c]);
        let minutes: Vec<u32> = ready.chain(at.free.iter().copied()).collect();
        let seen = self.seen.entry(done).or_default();
        let is_no_later = |other: &[u32], than: &[u32]| other.iter().zip(than).all(|(a, b)| a <= b);
        if seen.iter().any(|other| is_no_later(other, &minutes)) {
            return true;
        }
        seen.retain(|other| !is_no_later(&minutes, other));
        if seen.len() < MOST_KEPT {
            seen.push(minutes);
        }
        false
    }
}
