//! The trade's order as a first layout: blooms at the ends of the oval's axes, two or three on top in the middle, accents
//! evenly on a ring, leaves lengthwise with the smaller ones outward, sprigs into the gaps, the largest gap first (all
//! common practice, no source). What is locked takes the seat it is nearest to.
//!
//! One plan has many turns: which way the sides are staggered, where the ring begins, how far the leaves fan.

use std::f64::consts::TAU;

use super::region::{drawn_in, inner_of};
use super::table::{Item, Origin, PartPose, PartTable, rounded};
use crate::geometry::{Disc, GapSearch, Lens, Oval, Point, Shape, Vec2, gaps};
use crate::once_over::Subject;
use crate::piece::Level;
use crate::stock::Role;
use crate::units::chance::Chance;

/// How far out the ring of accents runs, as a share of the oval; our choice, on the edge between middle and ends.
const RING: f64 = 0.72;
/// How far out further blooms sit between the ends and the top.
const BETWEEN: f64 = 0.62;
/// How far out leaf tips look, as a share of the oval: those at the sides, and the one past each end.
const TIPS: [f64; 2] = [1.13, 1.15];

/// Which of the many turns of a plan.
#[derive(Clone, Copy, Debug)]
pub(super) struct PlanVariant {
    /// -1, 0 or 1: which way the blooms at the sides are staggered along the arm.
    stagger: f64,
    /// Where rings begin, as a share of a step.
    ring: f64,
    /// How far leaves fan out, as a share of the usual.
    fan: f64,
}

impl PlanVariant {
    /// The first three are told apart by eye; beyond them chance chooses.
    pub(super) fn of(number: u32, chance: &mut Chance) -> Self {
        match number {
            0 => Self { stagger: 1.0, ring: 0.25, fan: 1.0 },
            1 => Self { stagger: -1.0, ring: 0.75, fan: 0.75 },
            2 => Self { stagger: 0.0, ring: 0.5, fan: 1.3 },
            _ => Self {
                stagger: [-1.0, 0.0, 1.0][usize::from(chance.next_f64() < 0.4) + usize::from(chance.next_f64() < 0.6)],
                ring: chance.next_f64(),
                fan: chance.between(0.6, 1.4),
            },
        }
    }
}

/// A layout in the trade's order.
pub(super) fn plan(table: &PartTable<'_>, variant: PlanVariant, chance: &mut Chance) -> Vec<PartPose> {
    let mut poses = table.now.clone();
    let Subject { style, wrist, .. } = table.subject;
    // What is wider than the wrist carries is planned narrower from the start.
    let narrow = Oval { b: table.oval.b.min(style.width_limit_mm(wrist.girth_mm()) / 2.0), ..table.oval };
    let table = &PartTable { oval: narrow, ..table.clone() };
    seat_blooms(table, variant, &mut poses);
    seat_rings(table, variant, &mut poses);
    seat_leaves(table, variant, &mut poses);
    seat_sprigs(table, &mut poses);
    for i in table.free() {
        let pose = PartPose { at: rounded(poses[i].at), ..poses[i] };
        poses[i] = drawn_in(&table.items[i], pose, table.oval);
        if !table.items[i].is_long() && table.items[i].role != Role::Leaf {
            poses[i].toward = fresh_direction(poses[i].at, &table.now[i], &table.items[i], chance);
        }
    }
    poses
}

/// A new head or sprig looks outward, a little to this side or that, so that no two look printed; what was there keeps its
/// turn.
fn fresh_direction(at: Point, now: &PartPose, item: &Item, chance: &mut Chance) -> Vec2 {
    let Origin::New(_) = item.origin else { return now.toward };
    let aside = Vec2::new(chance.between(-6.0, 6.0), chance.between(-6.0, 6.0));
    let outward = at.to_vec2() + aside;
    let length = outward.hypot2().sqrt();
    if length > 0.1 { outward / length } else { now.toward }
}

fn seat_blooms(table: &PartTable<'_>, variant: PlanVariant, poses: &mut [PartPose]) {
    let blooms: Vec<usize> = table.of_role(Role::Bloom).collect();
    let Some(largest) = blooms.iter().map(|&i| table.items[i].half_width).reduce(f64::max) else { return };
    let mut seats = bloom_seats(blooms.len(), table.oval, largest, variant);
    for &i in blooms.iter().filter(|&&i| table.items[i].locked) {
        if let Some(k) = nearest(&seats, poses[i].at) {
            seats.remove(k);
        }
    }
    // The smallest to the ends, the largest on top; of equal ones each to the seat nearest to where it lies.
    let mut free: Vec<usize> = blooms.into_iter().filter(|&i| !table.items[i].locked).collect();
    let size = |i: usize| table.items[i].half_width;
    free.sort_by(|&i, &j| size(i).total_cmp(&size(j)).then(i.cmp(&j)));
    let mut k = 0;
    while k < free.len() {
        let alike = free[k..].iter().take_while(|&&i| size(i) - size(free[k]) < 1.0).count();
        let group = seats.drain(..alike.min(seats.len())).collect();
        give_seats(&free[k..k + alike], group, poses);
        k += alike;
    }
}

/// Each seat to the part nearest to it that has none yet.
fn give_seats(parts: &[usize], mut seats: Vec<PartPose>, poses: &mut [PartPose]) {
    for &i in parts {
        if let Some(k) = nearest(&seats, poses[i].at) {
            let seat = seats.remove(k);
            poses[i] = PartPose { toward: poses[i].toward, ..seat };
        }
    }
}

fn nearest(seats: &[PartPose], p: Point) -> Option<usize> {
    (0..seats.len()).min_by(|&i, &j| (seats[i].at - p).hypot2().total_cmp(&(seats[j].at - p).hypot2()))
}

/// Seats of so many blooms, from the ends inward.
fn bloom_seats(n: usize, oval: Oval, radius: f64, variant: PlanVariant) -> Vec<PartPose> {
    let inner = Oval { a: (oval.a - radius).max(1.0), b: (oval.b - radius).max(1.0) };
    let seat = |x: f64, y: f64, level| PartPose { at: Point::new(x, y), toward: Vec2::new(1.0, 0.0), level };
    let aside = (0.75 * radius).min(0.45 * inner.a);
    let stagger = variant.stagger * aside;
    // Without a stagger both sides draw back, and the top comes forward.
    let [back, forward] = if variant.stagger == 0.0 { [0.6 * aside, 0.35 * aside] } else { [0.0, 0.0] };
    let lean = variant.stagger * 0.15 * inner.b;
    let mut seats = Vec::with_capacity(n);
    let n_ends = match n {
        0 | 1 => 0,
        2..=4 => 2,
        _ => 4,
    };
    let n_top = match n - n_ends {
        left if n >= 3 => left.min(3),
        _ => 0,
    };
    if n_ends >= 2 {
        seats.extend([seat(inner.a, lean, Level::Raised), seat(-inner.a, -lean, Level::Raised)]);
    }
    if n_ends >= 4 {
        seats.extend([seat(-stagger - back, inner.b, Level::Raised), seat(stagger - back, -inner.b, Level::Raised)]);
    }
    let n_between = n - n_ends - n_top;
    for k in 0..n_between {
        // Between the ends: not at the axes, where the ends sit.
        let angle = TAU * (k as f64 + 0.5) / n_between as f64;
        let (s, c) = angle.sin_cos();
        seats.push(seat(BETWEEN * inner.a * c, BETWEEN * inner.b * s, Level::Raised));
    }
    let level = if n >= 3 { Level::Top } else { Level::Raised };
    let apart = (0.75 * radius).min(0.45 * oval.a);
    match n_top.max(usize::from(n == 1)) {
        0 => {}
        1 => seats.push(seat(forward, 0.0, level)),
        2 => seats.extend([seat(apart, lean, level), seat(-apart, -lean, level)]),
        _ => {
            let side = if variant.stagger < 0.0 { -1.0 } else { 1.0 };
            let y = side * 0.42 * radius;
            seats.extend([seat(1.15 * apart, -y, level), seat(-1.15 * apart, -y, level), seat(0.0, y, level)]);
        }
    }
    seats
}

/// Accents and trims: each kind evenly round its ring, kinds between each other; trims nearer in.
fn seat_rings(table: &PartTable<'_>, variant: PlanVariant, poses: &mut [PartPose]) {
    let kinds = kinds_of(table, &[Role::Accent, Role::Trim]);
    let n_kinds = kinds.len().max(1) as f64;
    for (number, kind) in kinds.iter().enumerate() {
        let step = TAU / kind.len() as f64;
        let locked: Option<usize> = kind.iter().copied().find(|&i| table.items[i].locked);
        // A locked one says where the ring begins.
        let start =
            locked.map_or(step * (variant.ring + number as f64 / n_kinds), |i| table.oval.angle_of(poses[i].at));
        let item = &table.items[kind[0]];
        let share = if item.role == Role::Trim { 0.5 * RING } else { RING };
        let ring = inner_of(item, table.oval);
        let mut seats: Vec<PartPose> = (0..kind.len())
            .map(|k| {
                let (s, c) = (start + step * k as f64).sin_cos();
                let at = Point::new(share * ring.a * c, share * ring.b * s);
                PartPose { at, toward: Vec2::new(1.0, 0.0), level: Level::Raised }
            })
            .collect();
        for &i in kind.iter().filter(|&&i| table.items[i].locked) {
            if let Some(k) = nearest(&seats, poses[i].at) {
                seats.remove(k);
            }
        }
        let free: Vec<usize> = kind.iter().copied().filter(|&i| !table.items[i].locked).collect();
        give_seats(&free, seats, poses);
    }
}

/// Parts of these roles by what they are, in the order of their first.
pub(super) fn kinds_of(table: &PartTable<'_>, roles: &[Role]) -> Vec<Vec<usize>> {
    let mut kinds: Vec<Vec<usize>> = Vec::new();
    for (i, item) in table.items.iter().enumerate().filter(|(_, item)| roles.contains(&item.role)) {
        match kinds.iter_mut().find(|k| table.items[k[0]].stock == item.stock) {
            Some(kind) => kind.push(i),
            None => kinds.push(vec![i]),
        }
    }
    kinds
}

/// Leaves: half to each end, tips outward, fanned; the smallest farthest out.
fn seat_leaves(table: &PartTable<'_>, variant: PlanVariant, poses: &mut [PartPose]) {
    let mut free: Vec<usize> = table.of_role(Role::Leaf).filter(|&i| !table.items[i].locked).collect();
    let length = |i: usize| table.items[i].reach;
    free.sort_by(|&i, &j| length(i).total_cmp(&length(j)).then(i.cmp(&j)));
    for (end, sign) in [1.0, -1.0].into_iter().enumerate() {
        let side: Vec<usize> = free.iter().copied().skip(end).step_by(2).collect();
        for (k, &i) in side.iter().enumerate() {
            poses[i] = leaf_pose(&table.items[i], table.oval, k, side.len(), sign, variant);
        }
    }
}

/// The k-th of n leaves toward one end. The first lies nearest to the arm's axis, so farthest out.
fn leaf_pose(item: &Item, oval: Oval, k: usize, n: usize, sign: f64, variant: PlanVariant) -> PartPose {
    /// Tips as seen from the middle, as places on the unit circle: from the end toward the side, by turns left and right.
    const OUT: [[f64; 2]; 4] = [[0.92, 0.38], [0.8, 0.6], [0.57, 0.82], [0.42, 0.91]];
    /// Sines of the angles at which those leaves lie to the arm.
    const ACROSS: [f64; 4] = [0.12, 0.2, 0.26, 0.22];
    let alone = n % 2 == 1 && k == 0;
    // Beyond the one past the end leaves come in pairs, left and right.
    let pair = k.saturating_sub(n % 2);
    let spread = pair / 2 + usize::from(n <= 3);
    let [along, across] = if alone { [1.0, 0.0] } else { OUT[spread.min(3)] };
    let side = if pair.is_multiple_of(2) { sign } else { -sign };
    let sine = if alone { 0.0 } else { (ACROSS[spread.min(3)] * variant.fan).min(0.5) };
    let toward = Vec2::new(sign * (1.0 - sine * sine).sqrt(), side * sine);
    let tip_out = TIPS[usize::from(alone)];
    let tip = Point::new(sign * tip_out * oval.a * along, side * tip_out * oval.b * across);
    // What is longer than half the oval begins behind the middle; more than one in the same place is drawn in a little.
    let drawn_in = 0.08 * oval.a * (spread.max(3) - 3) as f64;
    let at = tip - toward * item.reach - Vec2::new(sign * drawn_in, 0.0);
    PartPose { at, toward, level: Level::Flat }
}

/// Sprigs, the largest first, each into the largest gap that heads and the sprigs before it leave.
fn seat_sprigs(table: &PartTable<'_>, poses: &mut [PartPose]) {
    let stays = |i: &usize| table.items[*i].is_head() || (table.items[*i].locked && table.items[*i].role != Role::Leaf);
    let mut shapes: Vec<Shape> =
        (0..table.items.len()).filter(stays).map(|i| shape(&table.items[i], &poses[i])).collect();
    let mut sprigs: Vec<usize> = table.of_role(Role::Filler).filter(|&i| !table.items[i].locked).collect();
    sprigs.sort_by(|&i, &j| table.items[j].reach.total_cmp(&table.items[i].reach).then(i.cmp(&j)));
    for i in sprigs {
        let place = largest_gap(&shapes, table.oval, table.items[i].reach).unwrap_or(Point::ZERO);
        let level = Level::Flat;
        poses[i] = PartPose { at: rounded(place), level, ..poses[i] };
        // In the next gap there is no room where this one's middle is.
        let taken = Disc { centre: poses[i].at, radius: 0.8 * table.items[i].half_width };
        shapes.push(Shape::Disc(taken));
    }
}

/// Where the largest gap is in which something of this reach mostly lies inside the oval.
fn largest_gap(shapes: &[Shape], oval: Oval, reach: f64) -> Option<Point> {
    /// Good enough for a proposal, mm.
    const TOLERANCE_MM: f64 = 0.5;
    let search = GapSearch { overhang: 0.3 * reach, least_radius: 0.5, tolerance: TOLERANCE_MM, most: 1 };
    gaps(shapes, oval, &search).first().map(|g| g.centre)
}

/// The shape an item has in a pose.
pub(super) fn shape(item: &Item, pose: &PartPose) -> Shape {
    if item.is_long() {
        let (length, width) = (2.0 * item.reach, 2.0 * item.half_width);
        Shape::Lens(Lens { centre: pose.at, length, width, turn: pose.toward.atan2() })
    } else {
        Shape::disc(pose.at, item.reach)
    }
}
