//! A plan by a rule: whoever is free takes the step with the most minutes still to follow. Then the rule is nudged by
//! seeded chance, and a nudge stays if the plan has not become longer.

use super::Effort;
use super::chains::{Bench, Chain, PlannedDay, Starts};
use crate::units::chance::Chance;

/// A nudge multiplies the minutes to follow of a step by up to this share more or less; our choice.
const NUDGE: f64 = 0.5;
/// Share of the steps that a nudge touches; our choice.
const TOUCHED: f64 = 0.25;

/// The best plan of the rule and its nudges, tried from both ends of the day; it stops at the bound.
pub(super) fn planned(bench: &Bench, bound: u32, effort: Effort) -> Starts {
    let backward = nudged(bench, bound, effort);
    if bench.length(&backward) <= bound {
        return backward;
    }
    let turned = bench.turned();
    let forward = bench.turned_plan(&turned, &nudged(&turned, bound, effort));
    if bench.length(&forward) < bench.length(&backward) { forward } else { backward }
}

fn nudged(bench: &Bench, bound: u32, effort: Effort) -> Starts {
    let tails = |chain: &Chain| chain.tails.iter().map(|t| f64::from(*t)).collect();
    let mut pressing: Vec<Vec<f64>> = bench.chains.iter().map(tails).collect();
    let mut best = by_rule(bench, &pressing);
    let mut length = bench.length(&best);
    let mut chance = Chance::seeded(effort.seed);
    for _ in 0..effort.nudges {
        if length <= bound {
            break;
        }
        let mut tried = pressing.clone();
        for minutes in tried.iter_mut().flatten() {
            if chance.next_f64() < TOUCHED {
                *minutes *= chance.between(1.0 - NUDGE, 1.0 + NUDGE);
            }
        }
        let starts = by_rule(bench, &tried);
        let found = bench.length(&starts);
        if found <= length {
            (best, length, pressing) = (starts, found, tried);
        }
    }
    best
}

/// Nobody rests while there is a step that can be done; among those the most pressing, then the first in the list.
fn by_rule(bench: &Bench, pressing: &[Vec<f64>]) -> Starts {
    let mut day = PlannedDay::begun(bench);
    loop {
        let done = |c: usize| day.starts[c].len();
        let open = || (0..bench.chains.len()).filter(|c| done(*c) < bench.chains[*c].steps.len());
        let Some(first) = open().map(|c| day.ready[c]).min() else { return day.starts };
        let now = first.max(day.first_free());
        let press = |c: usize| pressing[c][done(c)];
        let can = open().filter(|c| day.ready[*c] <= now);
        let Some(chain) = can.reduce(|a, b| if press(b) > press(a) { b } else { a }) else { return day.starts };
        day.work(bench, chain);
    }
}
