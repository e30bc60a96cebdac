//! Is each accent evenly spread? On a ring by the steps round the oval, elsewhere by distance.

use std::f64::consts::TAU;

use super::words::{Sentence, Wording, capitalised, place};
use super::{Annotation, Finding, KindSpacing, Measures, Remedy, Subject, finding};
use crate::geometry::{AngularGap, Oval, Point};
use crate::stock::Role;
use crate::units::plural;

/// Accents whose distances from the centre, as shares of the oval, differ by less than this are taken as a ring; our
/// choice.
const RING_DEPTH: f64 = 0.35;
/// Nearer to the centre than this share of the oval, an angle says nothing; our choice.
const TOO_NEAR: f64 = 0.15;
/// A widest step this much over the even one scores 0; our choice.
const ZERO_AT: f64 = 1.0;
/// From this score on distances are said to be even; our choice.
const EVEN_FROM: f64 = 0.8;

/// How the accents of the most uneven kind are spaced.
#[derive(Clone, Debug, PartialEq)]
pub struct AccentSpacing {
    /// What they are called, in the plural.
    pub name: String,
    /// How many.
    pub n: usize,
    /// What of it is seen.
    pub spacing: SpacingSeen,
}

/// What of the spacing an eye sees.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum SpacingSeen {
    /// Nothing to mend.
    Even,
    /// On a ring with a step so wide that it is seen.
    WideStep {
        /// How wide, degrees.
        widest_deg: f64,
        /// What would be even, degrees.
        even_deg: f64,
        /// Where on the edge of the oval its middle points.
        toward: Point,
    },
    /// Two that sit close, mm.
    Close {
        /// Between the nearest two.
        nearest_mm: f64,
    },
}

pub(super) fn answer(subject: Subject<'_>, measures: &Measures) -> Option<Finding> {
    let kinds = measures.kinds.iter().filter(|k| k.role == Role::Accent && k.count() >= 2);
    let judged: Vec<(f64, &KindSpacing)> = kinds.map(|k| (score(k, subject), k)).collect();
    let (worst_score, worst) = judged.iter().copied().min_by(|a, b| a.0.total_cmp(&b.0))?;
    let mean = judged.iter().map(|j| j.0).sum::<f64>() / judged.len() as f64;
    let ring_step = widest_step(worst).filter(|_| is_ring(worst, measures.oval));
    let nearest_mm = nearest(&worst.centres);
    let (spacing, figure, unit) = match ring_step {
        Some(step) => (step_seen(step, worst.count(), measures.oval, subject), step.width().to_degrees(), "degrees"),
        None if worst_score >= EVEN_FROM => (SpacingSeen::Even, nearest_mm, "mm"),
        None => (SpacingSeen::Close { nearest_mm }, nearest_mm, "mm"),
    };
    let observed = AccentSpacing { name: plural(&subject.name_of(&worst.stock)), n: worst.count(), spacing };
    let mut found = finding(subject, observed, figure, unit, mean);
    if !found.is_well() {
        let wedge = |s: &AngularGap| Annotation::Wedge { from_rad: s.from, to_rad: s.from + s.width() };
        found.annotations = ring_step.map(wedge).into_iter().collect();
        found.remedies.push(Remedy::EvenOut(worst.stock.clone()));
    }
    Some(found)
}

/// What is seen of the widest step of a ring, by the tolerance of the style.
fn step_seen(step: &AngularGap, n: usize, oval: Oval, subject: Subject<'_>) -> SpacingSeen {
    let (widest_deg, even_deg) = (step.width().to_degrees(), 360.0 / n as f64);
    if widest_deg / even_deg < subject.style.shape.uneven_from {
        return SpacingSeen::Even;
    }
    let middle = step.from + step.width() / 2.0;
    let toward = Point::new(oval.a * middle.cos(), oval.b * middle.sin());
    SpacingSeen::WideStep { widest_deg, even_deg, toward }
}

/// 1 when even. Within the shop's tolerance a ring loses only little, so that a hand's breadth is not a fault.
fn score(kind: &KindSpacing, subject: Subject<'_>) -> f64 {
    let distance = (kind.evenness.unwrap_or(1.0) * kind.spread.unwrap_or(1.0)).max(0.0).sqrt();
    match widest_step(kind) {
        Some(step) if is_ring(kind, subject.piece.oval()) => {
            let over = step.width() / (TAU / kind.count() as f64) - 1.0;
            1.0 - (over / ZERO_AT).clamp(0.0, 1.0)
        }
        _ => distance,
    }
}

fn is_ring(kind: &KindSpacing, oval: Oval) -> bool {
    let gauges = kind.centres.iter().map(|&c| oval.gauge(c));
    let (least, most) = gauges.fold((f64::INFINITY, 0.0_f64), |(lo, hi), g| (lo.min(g), hi.max(g)));
    least > TOO_NEAR && most - least < RING_DEPTH
}

fn widest_step(kind: &KindSpacing) -> Option<&AngularGap> {
    kind.steps.iter().max_by(|a, b| a.width().total_cmp(&b.width()))
}

/// Distance of the nearest two, mm.
fn nearest(points: &[Point]) -> f64 {
    let pairs = points.iter().enumerate().flat_map(|(i, p)| points[i + 1..].iter().map(move |q| p.distance(*q)));
    pairs.min_by(f64::total_cmp).unwrap_or(0.0)
}

impl Sentence for AccentSpacing {
    fn sentence(&self, words: Wording) -> String {
        let Self { name, n, spacing } = self;
        match spacing {
            SpacingSeen::Even => format!("The {n} {name} are evenly spaced."),
            SpacingSeen::WideStep { toward, .. } => {
                format!("{} bunch up: a wide gap {}.", capitalised(name), place(*toward))
            }
            SpacingSeen::Close { nearest_mm } => {
                format!("Two {name} are {} apart. Space them evenly.", words.length(*nearest_mm))
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::cases::{Shop, berry, hold, piece};
    use crate::piece::{Piece, Question};

    /// Berries at 0.7 of the way out of an oval of 90 by 54, at these eccentric angles.
    fn ring(degrees: &[f64]) -> Piece {
        piece(
            90.0,
            54.0,
            degrees.iter().map(|d| {
                let (s, c) = d.to_radians().sin_cos();
                berry(0.7 * 45.0 * c, 0.7 * 27.0 * s)
            }),
        )
    }

    #[test]
    fn a_ring_loses_by_its_widest_step_over_the_even_one() {
        hold(
            Question::EvenSpread,
            [
                ("three even ones", ring(&[0.0, 120.0, 240.0]), 1.0),
                ("steps of 150, 90 and 120: 150 / 120 is 0.25 over", ring(&[0.0, 150.0, 240.0]), 0.75),
                ("steps of 180, 60 and 120: 0.5 over", ring(&[0.0, 180.0, 240.0]), 0.5),
                ("steps of 240: twice the even one", ring(&[0.0, 240.0, 300.0]), 0.0),
                ("all in one quarter", ring(&[0.0, 30.0, 60.0]), 0.0),
                ("two opposite", ring(&[0.0, 180.0]), 1.0),
            ],
        );
    }

    /// One in the middle has no angle, so distance is measured. With two there is one edge, so evenness is 1; two points 5 mm
    /// inside an oval 90 long can lie 80 apart, of which 0.8 is asked.
    #[test]
    fn elsewhere_the_nearest_two_are_held_against_the_farthest_that_could_be() {
        let apart = |mm: f64| piece(90.0, 54.0, [berry(0.0, 0.0), berry(mm, 0.0)]);
        hold(
            Question::EvenSpread,
            [
                ("20 of 64 mm", apart(20.0), (20.0_f64 / 64.0).sqrt()),
                ("36 of 64 mm", apart(36.0), 0.75),
                ("on each other", apart(0.0), 0.0),
            ],
        );
    }

    #[test]
    fn a_ring_may_be_a_third_of_the_oval_deep_and_one_berry_is_not_judged() {
        // Places at 0.9 and 0.56 are still a ring; at 0.9 and 0.54 they are not, and lie 0.9 x 45 + 0.54 x 45 mm apart,
        // more than the 64 asked.
        let off = |share: f64| piece(90.0, 54.0, [berry(0.9 * 45.0, 0.0), berry(0.0, share * 27.0)]);
        let apart = |share: f64| (0.9_f64 * 45.0).hypot(share * 27.0) / 64.0;
        let figure = |p: &Piece| Shop::new().ask(Question::EvenSpread, p).map(|f| (f.unit, f.score));
        let (unit, score) = figure(&off(0.56)).unwrap();
        // Steps of 90 and 270 degrees: 270 / 180 is 0.5 over.
        assert!(unit == "degrees" && (score - 0.5).abs() < 1e-9, "{score}");
        let (unit, score) = figure(&off(0.54)).unwrap();
        assert!(unit == "mm" && (score - apart(0.54).sqrt()).abs() < 1e-9, "{score}");
        assert_eq!(figure(&piece(90.0, 54.0, [berry(20.0, 0.0)])), None);
    }

    #[test]
    fn the_words_follow_the_shops_tolerance() {
        // 149 / 120 is 1.242, 151 / 120 is 1.258; the shop looks from 1.25 on.
        let says = |d: f64| Shop::new().ask(Question::EvenSpread, &ring(&[0.0, d, 240.0])).unwrap().says();
        assert_ne!(says(149.0), says(151.0));
        assert_eq!(says(149.0), says(120.0));
    }
}
