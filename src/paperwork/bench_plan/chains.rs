//! The bench seen backward from the last pick-up: a piece comes in when it is to be ready, its last step first, and the day
//! is over when the first step of all pieces is done. The shorter that day, the later the begin.

use std::collections::BinaryHeap;

use super::BenchPiece;

/// Start of each step of each chain, minutes before the last pick-up at which its hands rest.
pub(super) type Starts = Vec<Vec<u32>>;

/// A piece, backward.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Chain {
    /// Place of the piece in the list given.
    pub(super) piece: usize,
    /// Minutes before the last pick-up from which on it can be worked at.
    pub(super) release: u32,
    /// Hands of each step, and the wait from there to the next; after the last, to the end of the day. Backward there is
    /// none after the last.
    pub(super) steps: Vec<(u32, u32)>,
    /// Minutes from the start of each step to the end of the chain; 0 past the last.
    pub(super) tails: Vec<u32>,
}

/// All chains, and how many can be worked at in one minute.
#[derive(Debug)]
pub(super) struct Bench {
    pub(super) chains: Vec<Chain>,
    /// Makers, none more than chains.
    pub(super) makers: usize,
    /// Minute of the day.
    pub(super) last_pick_up: u32,
}

/// A day so far.
#[derive(Clone)]
pub(super) struct PlannedDay {
    pub(super) starts: Starts,
    /// When the next step of each chain can start.
    pub(super) ready: Vec<u32>,
    /// When each maker is free.
    pub(super) free: Vec<u32>,
}

impl PlannedDay {
    pub(super) fn begun(bench: &Bench) -> Self {
        let starts = vec![Vec::new(); bench.chains.len()];
        Self { starts, ready: bench.chains.iter().map(|c| c.release).collect(), free: vec![0; bench.makers] }
    }

    /// Minute at which the first maker is free.
    pub(super) fn first_free(&self) -> u32 {
        self.free.iter().copied().min().unwrap_or(0)
    }

    /// The next step of a chain, as early as it can be, by the maker who is free first.
    pub(super) fn work(&mut self, bench: &Bench, chain: usize) {
        let start = self.ready[chain].max(self.first_free());
        let (hands, wait) = bench.chains[chain].steps[self.starts[chain].len()];
        self.starts[chain].push(start);
        if let Some(free) = self.free.iter_mut().min() {
            *free = start + hands;
        }
        self.ready[chain] = start + hands + wait;
    }
}

/// A step for a bound: minutes before it, of it, after it.
pub(super) struct Load {
    pub(super) head: u32,
    pub(super) hands: u32,
    pub(super) tail: u32,
}

impl Chain {
    fn backward(place: usize, piece: &BenchPiece, last_pick_up: u32) -> Option<Self> {
        let last = piece.steps.last()?;
        let release = last_pick_up - piece.ready_by + last.wait;
        let before = piece.steps.iter().rev().skip(1).map(|s| s.wait).chain([0]);
        Some(Self::of(place, release, piece.steps.iter().rev().map(|s| s.hands).zip(before).collect()))
    }

    fn of(piece: usize, release: u32, steps: Vec<(u32, u32)>) -> Self {
        let mut tails = vec![0];
        for (hands, wait) in steps.iter().rev() {
            tails.push(tails[tails.len() - 1] + hands + wait);
        }
        tails.reverse();
        Self { piece, release, steps, tails }
    }

    /// The same piece from the other end of the day.
    fn turned(&self) -> Self {
        let waits = self.steps.iter().rev().skip(1).map(|s| s.1).chain([self.release]);
        let release = self.steps.last().map_or(0, |s| s.1);
        Self::of(self.piece, release, self.steps.iter().rev().map(|s| s.0).zip(waits).collect())
    }

    /// Whether the other is the same work.
    pub(super) fn is_like(&self, other: &Self) -> bool {
        self.release == other.release && self.steps == other.steps
    }

    /// The steps from `k` on, if `k` can start at `ready`.
    pub(super) fn loads(&self, k: usize, ready: u32) -> impl Iterator<Item = Load> + '_ {
        let before = move |i: usize| self.tails[k] - self.tails[i];
        (k..self.steps.len()).map(move |i| {
            let hands = self.steps[i].0;
            Load { head: ready + before(i), hands, tail: self.tails[i] - hands }
        })
    }
}

impl Bench {
    /// None if there are no steps at all.
    pub(super) fn backward(pieces: &[BenchPiece], makers: u32) -> Option<Self> {
        let worked = || pieces.iter().enumerate().filter(|(_, p)| !p.steps.is_empty());
        let last_pick_up = worked().map(|(_, p)| p.ready_by).max()?;
        let chains: Vec<Chain> = worked().filter_map(|(i, p)| Chain::backward(i, p, last_pick_up)).collect();
        let makers = usize::try_from(makers).map_or(chains.len(), |makers| makers.min(chains.len()));
        Some(Self { chains, makers, last_pick_up })
    }

    /// The same day from its other end.
    pub(super) fn turned(&self) -> Self {
        let chains = self.chains.iter().map(Chain::turned).collect();
        Self { chains, makers: self.makers, last_pick_up: self.last_pick_up }
    }

    /// A plan of the turned bench as one of this, every step as early as the order of starts allows.
    pub(super) fn turned_plan(&self, turned: &Self, plan: &Starts) -> Starts {
        let end = turned.length(plan);
        let mut order: Vec<(u32, u32, usize)> = Vec::new();
        for (c, (chain, starts)) in turned.chains.iter().zip(plan).enumerate() {
            order.extend(chain.steps.iter().zip(starts).map(|((hands, _), start)| (end - start - hands, *hands, c)));
        }
        order.sort_unstable();
        let mut day = PlannedDay::begun(self);
        for (_, _, chain) in order {
            day.work(self, chain);
        }
        day.starts
    }

    /// Minutes of the whole day: from the last pick-up back to the first start.
    pub(super) fn length(&self, starts: &Starts) -> u32 {
        let ends = self.chains.iter().zip(starts).map(|(chain, starts)| {
            let last = chain.steps.last().map_or(0, |(hands, wait)| hands + wait);
            starts.last().map_or(0, |start| start + last)
        });
        ends.max().unwrap_or(0)
    }

    /// What no plan undercuts: the longest chain, the work of all makers, and how the makers come to their first and leave
    /// their last step.
    pub(super) fn bound(&self) -> u32 {
        let longest = self.chains.iter().map(|c| c.release + c.tails[0]).max().unwrap_or(0);
        let loads: Vec<Load> = self.chains.iter().flat_map(|c| c.loads(0, c.release)).collect();
        longest.max(self.ends_and_work(&loads)).max(preemptive(loads, self.makers))
    }

    /// Every maker has a first step with something before it and a last with something after it.
    fn ends_and_work(&self, loads: &[Load]) -> u32 {
        let least = |mut minutes: Vec<u32>| -> u32 {
            minutes.sort_unstable();
            minutes.iter().take(self.makers).sum()
        };
        let heads = least(loads.iter().map(|l| l.head).collect());
        let tails = least(loads.iter().map(|l| l.tail).collect());
        let work: u32 = loads.iter().map(|l| l.hands).sum();
        (heads + work + tails).div_ceil(count(self.makers))
    }
}

/// Jackson's schedule, that always does the step with the most after it and lays it down for a more pressing one: a bound
/// for one maker (J. Carlier, European Journal of Operational Research 11, 1982); for several, as one who works
/// as fast as all of them.
pub(super) fn preemptive(mut loads: Vec<Load>, makers: usize) -> u32 {
    let makers = count(makers);
    loads.sort_by_key(|l| l.head);
    let mut coming = loads.iter().peekable();
    let mut waiting: BinaryHeap<(u32, u32)> = BinaryHeap::new();
    let (mut now, mut length) = (0, 0);
    loop {
        while let Some(load) = coming.next_if(|l| l.head * makers <= now || waiting.is_empty()) {
            now = now.max(load.head * makers);
            waiting.push((load.tail * makers, load.hands));
        }
        let Some((tail, left)) = waiting.pop() else { break };
        let until_next = coming.peek().map_or(u32::MAX, |l| l.head * makers - now);
        now += left.min(until_next);
        if left > until_next {
            waiting.push((tail, left - until_next));
        } else {
            length = length.max(now + tail);
        }
    }
    length.div_ceil(makers)
}

/// Makers as a number to calculate with; there are no more than pieces.
pub(super) fn count(makers: usize) -> u32 {
    u32::try_from(makers).unwrap_or(u32::MAX).max(1)
}
