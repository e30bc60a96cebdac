//! Equal discs as large as they can be in an oval, none over another: spreading without any flower's rules.
//!
//! From many seeded starts: discs push each other and the edge away while they grow, and where nothing gives any more the
//! radius is found by halving. Local only: with many starts it comes near the packings that are published, which the tests
//! hold it to. Millimetres.

use std::f64::consts::TAU;

use crate::geometry::{Oval, Point, Vec2};
use crate::units::chance::Chance;

/// Starts tried; with sixty the published packings of two to twelve are met within 0.5 %.
const STARTS: usize = 60;
/// Halvings of the radius after a start.
const HALVINGS: u32 = 14;
/// Pushes at one radius: after each start, and for the best of them in the end.
const PUSHES: [u32; 2] = [300, 6000];
/// How much the best may still grow in the end, as a share of its radius.
const LAST_GROWTH: f64 = 0.02;
/// Pushed together by less than this share of the radius, discs count as apart.
const APART: f64 = 2e-4;

/// Centres of `n` equal discs in the oval and the radius they can all have. Nothing for no discs.
pub fn equal_discs(n: usize, oval: Oval, seed: u64) -> (Vec<Point>, f64) {
    if n == 0 || !oval.is_sound() {
        return (Vec::new(), 0.0);
    }
    let mut chance = Chance::seeded(seed);
    let (mut best, mut radius) = (vec![Point::ZERO; n], 0.0);
    // No larger than all of the oval's area, nor than its narrow axis.
    let most = (oval.a * oval.b / n as f64).sqrt().min(oval.a.min(oval.b));
    for number in 0..STARTS {
        let start = start(n, number, oval, &mut chance);
        let (centres, found) = grown(start, oval, [0.0, most], radius, PUSHES[0]);
        if found > radius {
            (best, radius) = (centres, found);
        }
    }
    let (centres, found) = grown(best.clone(), oval, [radius, radius * (1.0 + LAST_GROWTH)], 0.0, PUSHES[1]);
    if found > radius { (centres, found) } else { (best, radius) }
}

/// Places to start from: anywhere, or every second time most of them on a ring, for the best packings of some counts have one.
fn start(n: usize, number: usize, oval: Oval, chance: &mut Chance) -> Vec<Point> {
    let n_inside = (number / 2) % 5;
    let n_ring = if number % 2 == 1 { n.saturating_sub(n_inside) } else { 0 };
    let ring = (0..n_ring).map(|k| oval.edge_at(TAU * k as f64 / n_ring as f64).to_vec2() * 0.72);
    let mut centres: Vec<Point> = ring.map(Vec2::to_point).collect();
    let share = if n_ring > 0 { 0.3 } else { 0.7 };
    while centres.len() < n {
        centres.push(Point::new(chance.between(-share, share) * oval.a, chance.between(-share, share) * oval.b));
    }
    centres
}

/// The discs grown from one radius as far as they go below another, by halving; given up when they cannot beat `least`.
fn grown(
    start: Vec<Point>,
    oval: Oval,
    [mut fits, mut too_large]: [f64; 2],
    least: f64,
    pushes: u32,
) -> (Vec<Point>, f64) {
    let mut centres = start;
    for _ in 0..HALVINGS {
        let tried = f64::midpoint(fits, too_large);
        let pushed = pushed(&centres, oval, tried, pushes);
        if room_for_all(&pushed, oval) >= (1.0 - APART) * tried {
            fits = tried;
            centres = pushed;
        } else {
            too_large = tried;
            if too_large <= least {
                break;
            }
        }
    }
    let radius = room_for_all(&centres, oval);
    (centres, radius)
}

/// The centres after each has been pushed out of the others and the edge, again and again.
fn pushed(centres: &[Point], oval: Oval, radius: f64, pushes: u32) -> Vec<Point> {
    let mut centres = centres.to_vec();
    for _ in 0..pushes {
        for i in 0..centres.len() {
            for j in i + 1..centres.len() {
                let way = centres[j] - centres[i];
                let apart = way.hypot2().sqrt();
                if apart < 2.0 * radius {
                    let along = if apart > 1e-9 { way / apart } else { Vec2::new(1.0, 0.0) };
                    let push = along * (0.5 * (2.0 * radius - apart));
                    centres[i] -= push;
                    centres[j] += push;
                }
            }
        }
        for p in &mut centres {
            *p = inside(*p, oval, radius);
        }
        if room_for_all(&centres, oval) >= (1.0 - 0.1 * APART) * radius {
            break;
        }
    }
    centres
}

/// The place moved in until a disc about it lies within the oval.
fn inside(p: Point, oval: Oval, radius: f64) -> Point {
    let depth = oval.depth(p);
    if depth >= radius {
        return p;
    }
    let edge = oval.nearest_edge(p);
    let outward = Vec2::new(edge.x / (oval.a * oval.a), edge.y / (oval.b * oval.b));
    p - outward / outward.hypot2().sqrt().max(1e-12) * (radius - depth)
}

/// The radius that discs about these centres can all have.
fn room_for_all(centres: &[Point], oval: Oval) -> f64 {
    let mut room = centres.iter().map(|p| oval.depth(*p)).fold(f64::INFINITY, f64::min);
    for (i, p) in centres.iter().enumerate() {
        for q in &centres[i + 1..] {
            room = room.min((*p - *q).hypot2().sqrt() / 2.0);
        }
    }
    room.max(0.0)
}
