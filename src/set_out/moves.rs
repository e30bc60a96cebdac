//! The moves of the search: one part moved or turned, two that change places, a sprig thrown anywhere. Every part stays in
//! the region of its role, and keeps its level.

use super::region::brought_in;
use super::search::MoveReach;
use super::surrogate::{Layout, SearchStep};
use super::table::{Item, PartPose, PartTable, rounded};
use crate::geometry::{Point, Vec2};
use crate::stock::Role;
use crate::units::chance::Chance;
use crate::units::floor_u32;

/// How far a part moves at the start and at the end of a run, mm.
const STEPS_MM: [f64; 2] = [12.0, 0.3];
/// Shares of moves: places changed, a sprig thrown anywhere, a leaf turned.
const SWAPS: f64 = 0.12;
const THROWS: f64 = 0.17;
const TURNS: f64 = 0.4;
/// Share of the moves of leaves, sprigs and trims that are left to chance once more: most is lost by heads.
const AGAIN: f64 = 0.6;

/// A step by chance; `left` of the run is to come. `None` when what chance chose cannot be.
pub(super) fn a_step(
    table: &PartTable<'_>,
    layout: &Layout,
    free: &[usize],
    left: f64,
    reach: MoveReach,
    chance: &mut Chance,
) -> Option<SearchStep> {
    let i = one_to_move(table, free, chance)?;
    let chosen = chance.next_f64();
    let item = &table.items[i];
    let anywhere = reach == MoveReach::Anywhere;
    let mut pose = layout.poses[i];
    if anywhere && chosen < SWAPS {
        return swapped(table, layout, i, one_of(free, chance)?);
    }
    if anywhere && item.role == Role::Filler && chosen < THROWS {
        let oval = table.oval;
        pose.at = Point::new(chance.between(-0.9, 0.9) * oval.a, chance.between(-0.9, 0.9) * oval.b);
    } else if item.is_long() && chosen < TURNS {
        pose.toward = turned(pose.toward, chance.bell(0.05 + 0.25 * left));
    } else {
        let far = STEPS_MM[1] + (STEPS_MM[0] - STEPS_MM[1]) * left * left;
        let far = if anywhere { far } else { far.min(1.5) };
        pose.at += Vec2::new(chance.bell(1.8 * far), chance.bell(1.8 * far));
    }
    let pose = match reach {
        MoveReach::Anywhere => brought_in(item, pose, table.oval)?,
        MoveReach::Nearby(mm) => near(pose, &table.now[i], mm)?,
    };
    // As it will be saved, so that the search sees what rounding does.
    let pose = PartPose { at: rounded(pose.at), ..pose };
    Some(SearchStep { first: (i, pose), second: None })
}

/// Two that change places. Of two alike the one that was put on later lies higher, so that heads may; leaves and sprigs
/// that are alike may as well stay.
fn swapped(table: &PartTable<'_>, layout: &Layout, i: usize, j: usize) -> Option<SearchStep> {
    let (one, other) = (&table.items[i], &table.items[j]);
    let both_heads = one.is_head() && other.is_head();
    if i == j || (!both_heads && (one.role != other.role || one.is_like(other))) {
        return None;
    }
    let (p, q) = (layout.poses[i], layout.poses[j]);
    let put = |item: &Item, pose, at| brought_in(item, PartPose { at, ..pose }, table.oval);
    Some(SearchStep { first: (i, put(one, p, q.at)?), second: Some((j, put(other, q, p.at)?)) })
}

/// The pose, if it is so near to where the part lies now.
fn near(pose: PartPose, now: &PartPose, mm: f64) -> Option<PartPose> {
    // 0.01 less, for places are rounded in the end.
    ((pose.at - now.at).hypot2() <= (mm - 0.01) * (mm - 0.01)).then_some(pose)
}

fn one_to_move(table: &PartTable<'_>, free: &[usize], chance: &mut Chance) -> Option<usize> {
    let i = one_of(free, chance)?;
    if table.items[i].is_head() || chance.next_f64() >= AGAIN { Some(i) } else { one_of(free, chance) }
}

fn one_of(free: &[usize], chance: &mut Chance) -> Option<usize> {
    let place = chance.next_f64() * free.len() as f64;
    free.get(usize::try_from(floor_u32(place)).unwrap_or(0)).copied()
}

/// A direction turned by a small angle whose tangent is `by`.
fn turned(toward: Vec2, by: f64) -> Vec2 {
    let v = Vec2::new(toward.x - by * toward.y, toward.y + by * toward.x);
    v / v.hypot2().sqrt()
}
