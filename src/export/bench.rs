//! The bench day for people and for machines. Minutes are whole; hours of the day are `08:00` for machines.

use std::fmt::Write as _;

use serde_json::{Value, json};

use crate::book::{Hour, HourStyle, Occasion, Order};
use crate::paperwork::{BenchDay, MOST_PIECES, Makers, NoPlan, Stage};
use crate::units::{counted, minutes_text};

/// The day for machines.
pub fn bench_json(occasion: &Occasion, orders: &[&Order], makers: Makers, day: &BenchDay) -> Value {
    let stages = day.stages.iter().map(|sum| {
        json!({"task": stage_word(sum.stage), "count": sum.count, "minutes": sum.minutes, "can_move": sum.can_move()})
    });
    let plan = day.plan.as_ref().ok();
    let steps = plan.into_iter().flat_map(|plan| &plan.steps).map(|step| {
        let work = &day.pieces[step.piece];
        json!({
            "maker": step.maker + 1,
            "start": clock(step.start, HourStyle::Hours24),
            "minutes": step.hands,
            "number": orders[work.order].number,
            "piece": piece_name(orders[work.order], work.is_boutonniere),
            "is_bow": is_bow(day, step.piece, step.step),
        })
    });
    json!({
        "occasion": occasion.id(),
        "orders": orders.len(),
        "pieces": day.pieces.len(),
        "makers": makers.count,
        "minutes_each": makers.minutes_each,
        "promised_minutes": day.promised,
        "ahead_minutes": day.ahead,
        "minutes": day.on_the_day(),
        "available_minutes": day.available,
        "short_minutes": day.short(),
        "free_minutes": day.free(),
        "tasks": stages.collect::<Vec<_>>(),
        "begin": plan.and_then(|plan| plan.begin).map(|begin| clock(begin, HourStyle::Hours24)),
        "begin_at_best": plan.and_then(|plan| plan.begin_bound).map(|begin| clock(begin, HourStyle::Hours24)),
        "no_plan": day.plan.as_ref().err().map(no_plan_words),
        "steps": steps.collect::<Vec<_>>(),
    })
}

/// The day for people: what is promised, what there is, what can be moved; then each maker's own list.
pub fn bench_text(title: &str, orders: &[&Order], makers: Makers, day: &BenchDay, hours: HourStyle) -> String {
    let mut text = format!("{title}\n\n");
    for (what, told) in bench_sums(makers, day) {
        // Writing to a String cannot fail.
        _ = writeln!(text, "{what:<24} {told}");
    }
    _ = writeln!(text);
    for sum in &day.stages {
        let when = if sum.can_move() { "can be made days ahead" } else { "on the day" };
        let pieces = counted(sum.count as usize, "piece", "pieces");
        _ = writeln!(
            text,
            "{:<24} {:>8}  {pieces}, {when}",
            stage_word(sum.stage),
            minutes_text(f64::from(sum.minutes))
        );
    }
    match &day.plan {
        Err(why) => _ = writeln!(text, "\n{}", no_plan_words(why)),
        Ok(plan) => {
            for maker in 0..makers.count as usize {
                _ = writeln!(text, "\nMaker {}", maker + 1);
                for step in plan.steps.iter().filter(|step| step.maker == maker) {
                    let work = &day.pieces[step.piece];
                    let bow = if is_bow(day, step.piece, step.step) { "bow: " } else { "" };
                    let name = piece_name(orders[work.order], work.is_boutonniere);
                    let number = orders[work.order].number_text();
                    _ = writeln!(
                        text,
                        "  {:>8}  {:>3} min  {bow}{name}  {number}",
                        clock(step.start, hours),
                        step.hands
                    );
                }
            }
        }
    }
    text
}

/// Promised, ahead, there, short or free, and when it begins.
pub(super) fn bench_sums(makers: Makers, day: &BenchDay) -> Vec<(&'static str, String)> {
    let minutes = |n: u32| minutes_text(f64::from(n));
    let each = minutes_text(f64::from(makers.minutes_each));
    let who = counted(makers.count as usize, "maker", "makers");
    let mut sums = vec![("Promised", minutes(day.promised))];
    if day.ahead > 0 {
        sums.push(("Bows, on a day before", minutes(day.ahead)));
    }
    sums.push(("There are", format!("{} ({who}, {each} each)", minutes(day.available))));
    match (day.short(), day.free()) {
        (0, free) => sums.push(("Free", minutes(free))),
        (short, _) if day.ahead == 0 && day.bows() > 0 => {
            let left = short.saturating_sub(day.bows());
            let then = if left == 0 { "enough".to_owned() } else { format!("still short {}", minutes(left)) };
            sums.push(("Short", minutes(short)));
            sums.push(("With the bows ahead", then));
        }
        (short, _) => sums.push(("Short", minutes(short))),
    }
    sums
}

/// Whether a planned step is the bow of its piece: the first of two.
fn is_bow(day: &BenchDay, piece: usize, step: usize) -> bool {
    let n = day.plan.as_ref().map_or(0, |plan| plan.steps.iter().filter(|s| s.piece == piece).count());
    n == 2 && step == 0
}

/// Whose piece it is.
pub(super) fn piece_name(order: &Order, is_boutonniere: bool) -> String {
    let size = order.size.as_deref().unwrap_or_default();
    let what = if is_boutonniere { "boutonniere" } else { size };
    match (order.wearer.trim(), what) {
        ("", "") => "no name yet".to_owned(),
        ("", what) => what.to_owned(),
        (name, "") => name.to_owned(),
        (name, what) => format!("{name}, {what}"),
    }
}

/// A minute of the day as an hour.
pub(super) fn clock(minute: u32, style: HourStyle) -> String {
    let part = |n: u32| i16::try_from(n).unwrap_or(0);
    Hour::new(part(minute / 60), part(minute % 60)).map_or_else(|| "24:00".to_owned(), |hour| hour.written(style))
}

/// The word for what is done in a stage.
pub fn stage_word(stage: Stage) -> &'static str {
    match stage {
        Stage::Bow => "bows",
        Stage::Base => "bases",
        Stage::Leaves => "leaves",
        Stage::Blooms => "blooms",
        Stage::Accents => "accents",
        Stage::Trims => "trims",
        Stage::Filler => "filler",
        Stage::Wrap => "wrapping",
        Stage::Pin => "pins",
        Stage::Check => "checks",
        Stage::WireUp => "wiring",
    }
}

/// Why there is no plan, as a sentence.
pub fn no_plan_words(why: &NoPlan) -> String {
    let minutes = |n: u32| minutes_text(f64::from(n));
    match why {
        NoPlan::NoMaker => "Nobody is there to make them: add a maker.".to_owned(),
        NoPlan::TooManyPieces | NoPlan::TooManySteps => {
            format!("A plan holds {MOST_PIECES} pieces at most: plan fewer days at a time.")
        }
        NoPlan::BeyondTheDay(_) => "The day is not long enough: take fewer hours, or begin earlier.".to_owned(),
        NoPlan::PieceTooLong { short_minutes, .. } => {
            format!("One piece alone takes {} more than there are before its time.", minutes(*short_minutes))
        }
        NoPlan::TooLong { short_minutes, .. } => {
            format!("Begun at midnight, {} are still missing: add a maker.", minutes(*short_minutes))
        }
    }
}
