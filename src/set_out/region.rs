//! Where a part of each role may lie: its region of the oval, mm.
//!
//! Heads lie within the oval but for a hand's breadth of their edge, those on top in the middle; sprigs are centred inside;
//! leaves lie along the arm, and only their tips look out. The figures are ours, by eye.

use super::table::{Item, PartPose};
use crate::geometry::{Oval, Point};
use crate::piece::Level;
use crate::stock::Role;

/// Share of its radius by which a head stays inside the edge.
const HEAD_INSIDE: f64 = 0.85;
/// Share of its radius by which a sprig stays inside.
const SPRIG_INSIDE: f64 = 0.6;
/// As far out as this share of the oval is still the middle; within what the once-over calls the middle (0.55).
const MIDDLE: f64 = 0.5;
/// How far out the tip of a leaf may look, as a share of the oval.
const TIP_OUT: f64 = 1.17;
/// How far out the middle of a leaf may lie.
const LEAF_OUT: f64 = 0.85;
/// A leaf points along the arm when its direction across is at most this: sine of 32 degrees, within the 35 of the once-over.
const MOST_ACROSS: f64 = 0.53;
/// An oval keeps at least this semi-axis, mm, however large the head.
const LEAST_MM: f64 = 0.5;

/// Whether a pose lies in its role's region.
pub(super) fn holds(item: &Item, pose: &PartPose, oval: Oval) -> bool {
    /// Places are rounded, and turns to whole degrees; so much may be lost by it, as a share.
    const ROUNDING: f64 = 1.001;
    const TURNING: f64 = 1.02;
    if item.role == Role::Leaf && item.is_long() {
        return leaf_lies_well(item, pose, oval, TURNING);
    }
    let inner = inner_of(item, oval);
    inner.gauge(pose.at) <= ROUNDING && (pose.level != Level::Top || oval.gauge(pose.at) <= MIDDLE * ROUNDING)
}

/// The pose brought into its region; `None` for a leaf that would lie badly.
pub(super) fn brought_in(item: &Item, pose: PartPose, oval: Oval) -> Option<PartPose> {
    if item.role == Role::Leaf && item.is_long() {
        return leaf_lies_well(item, &pose, oval, 1.0).then_some(pose);
    }
    let mut at = within(inner_of(item, oval), 1.0, pose.at);
    if pose.level == Level::Top {
        at = within(oval, MIDDLE, at);
    }
    Some(PartPose { at, ..pose })
}

/// The oval in which the centre of a part may lie.
pub(super) fn inner_of(item: &Item, oval: Oval) -> Oval {
    let share = match item.role {
        Role::Bloom | Role::Accent | Role::Trim => HEAD_INSIDE,
        Role::Filler => SPRIG_INSIDE,
        Role::Leaf => 0.5,
    };
    let inset = share * item.half_width;
    Oval { a: (oval.a - inset).max(LEAST_MM), b: (oval.b - inset).max(LEAST_MM) }
}

fn within(oval: Oval, most: f64, p: Point) -> Point {
    let gauge = squared_gauge(oval, p);
    if gauge <= most * most {
        return p;
    }
    let shrink = most / gauge.sqrt();
    Point::new(p.x * shrink, p.y * shrink)
}

fn squared_gauge(oval: Oval, p: Point) -> f64 {
    let (x, y) = (p.x / oval.a, p.y / oval.b);
    x * x + y * y
}

/// The pose brought into its region, a leaf by drawing it to the middle.
pub(super) fn drawn_in(item: &Item, pose: PartPose, oval: Oval) -> PartPose {
    /// Steps toward the middle, each leaving so much of the way.
    const STEPS: u32 = 40;
    const LEFT: f64 = 0.93;
    let mut pose = pose;
    for _ in 0..STEPS {
        if let Some(well) = brought_in(item, pose, oval) {
            return well;
        }
        pose.at = Point::new(pose.at.x * LEFT, pose.at.y * LEFT);
    }
    pose
}

/// `more` than 1 lets it lie a little farther out.
fn leaf_lies_well(item: &Item, pose: &PartPose, oval: Oval, more: f64) -> bool {
    let half = pose.toward * item.reach;
    // A leaf longer than the oval cannot keep its tips in; it may lie in the middle.
    let tip_out = more * TIP_OUT.max((item.reach + 2.0) / oval.a);
    pose.toward.y.abs() <= more * MOST_ACROSS
        && squared_gauge(oval, pose.at) <= more * LEAF_OUT * LEAF_OUT
        && [pose.at + half, pose.at - half].iter().all(|tip| squared_gauge(oval, *tip) <= tip_out * tip_out)
}
