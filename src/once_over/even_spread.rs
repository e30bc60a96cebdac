//! Is each accent evenly spread? On a ring by the steps round the oval, elsewhere by distance.

use std::f64::consts::TAU;

use super::{Finding, KindSpread, Measures, Remedy, SketchMark, Subject, finding, words};
use crate::geometry::{AngularGap, Oval, Point};
use crate::piece::Question;
use crate::stock::Role;

/// Accents whose distances from the centre, as shares of the oval, differ by less than this are taken as a ring; our
/// choice.
const RING_DEPTH: f64 = 0.35;
/// Nearer to the centre than this share of the oval, an angle says nothing; our choice.
const TOO_NEAR: f64 = 0.15;
/// A widest step this much over the even one scores 0; our choice.
const ZERO_AT: f64 = 1.0;

pub(super) fn answer(subject: Subject<'_>, measures: &Measures) -> Option<Finding> {
    let kinds = measures.kinds.iter().filter(|k| k.role == Role::Accent && k.count() >= 2);
    let judged: Vec<(f64, &KindSpread)> = kinds.map(|k| (score(k, subject), k)).collect();
    let (worst_score, worst) = judged.iter().copied().min_by(|a, b| a.0.total_cmp(&b.0))?;
    let mean = judged.iter().map(|j| j.0).sum::<f64>() / judged.len() as f64;
    let name = subject.stock.botanical(&worst.stock).map_or(worst.stock.to_string(), |b| b.name.to_lowercase());
    let n = worst.count();
    let even_step = 360.0 / n as f64;
    let widest = widest_step(worst);
    let (says, figure, unit) = match widest {
        Some(step) if is_ring(worst, measures.oval) => {
            let degrees = step.width().to_degrees();
            let uneven = degrees / even_step >= subject.style.shape.uneven_from;
            let middle = step.from + step.width() / 2.0;
            let toward = Point::new(measures.oval.a * middle.cos(), measures.oval.b * middle.sin());
            let says = if uneven {
                words::spread_step(&name, degrees, even_step, &words::place(toward))
            } else {
                words::spread_well(&name, n)
            };
            (says, degrees, "degrees")
        }
        _ if worst_score >= 0.8 => (words::spread_well(&name, n), nearest(&worst.centres), "mm"),
        _ => (words::spread_close(&name, nearest(&worst.centres)), nearest(&worst.centres), "mm"),
    };
    let mut found = finding(Question::EvenSpread, says, figure, unit, mean);
    if !found.is_well() {
        found.marks = widest
            .filter(|_| is_ring(worst, measures.oval))
            .map(|s| SketchMark::Wedge { from_rad: s.from, to_rad: s.from + s.width() })
            .into_iter()
            .collect();
        found.remedies.push(Remedy::EvenOut(worst.stock.clone()));
    }
    Some(found)
}

/// 1 when even. Within the shop's tolerance a ring loses only little, so that a hand's breadth is not a fault.
fn score(kind: &KindSpread, subject: Subject<'_>) -> f64 {
    let distance = (kind.evenness.unwrap_or(1.0) * kind.spread.unwrap_or(1.0)).max(0.0).sqrt();
    match widest_step(kind) {
        Some(step) if is_ring(kind, subject.piece.oval()) => {
            let over = step.width() / (TAU / kind.count() as f64) - 1.0;
            1.0 - (over / ZERO_AT).clamp(0.0, 1.0)
        }
        _ => distance,
    }
}

fn is_ring(kind: &KindSpread, oval: Oval) -> bool {
    let gauges = kind.centres.iter().map(|&c| oval.gauge(c));
    let (least, most) = gauges.fold((f64::INFINITY, 0.0_f64), |(lo, hi), g| (lo.min(g), hi.max(g)));
    least > TOO_NEAR && most - least < RING_DEPTH
}

fn widest_step(kind: &KindSpread) -> Option<&AngularGap> {
    kind.steps.iter().max_by(|a, b| a.width().total_cmp(&b.width()))
}

/// Distance of the nearest two, mm.
fn nearest(points: &[Point]) -> f64 {
    let pairs = points.iter().enumerate().flat_map(|(i, p)| points[i + 1..].iter().map(move |q| p.distance(*q)));
    pairs.min_by(f64::total_cmp).unwrap_or(0.0)
}
