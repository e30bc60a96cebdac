//! The bow under the blooms: loops that stand, tails that fall over what they lie on, a knot; all of one ribbon at its true width.
//!
//! What a piece says is kept: a loop has the length of [`geometry::loop_arc`](crate::geometry::loop_arc), a tail its own length to the tips
//! of its cut, every strip the width of the ribbon in stock. Only where ribbon is drawn together in the knot is it narrower, by pleats.
//! Space: that of [`crate::model`].

mod drape;
mod fabric;
mod knot;
mod standing;
mod strip;

use std::f64::consts::PI;

use crate::light::{Mesh, Vec2, Vec3};
use crate::piece::Bow;
use crate::stock::Stock;
use crate::units::chance::{Chance, seed_of};

pub use fabric::Fabric;
pub(super) use strip::{Course, RibbonStrip};

/// What a ribbon may lie on.
pub trait UnderRibbon {
    /// Millimetres from its surface, below nought within.
    fn distance_mm(&self, place: Vec3) -> f32;
    /// The height of what lies below all of it, mm.
    fn floor_mm(&self) -> f32;
}

impl UnderRibbon for super::arm::ArmSurface {
    fn distance_mm(&self, place: Vec3) -> f32 {
        self.distance_mm(place)
    }

    fn floor_mm(&self) -> f32 {
        self.lowest_mm()
    }
}

/// Loops a side and tails beyond this many would only hide each other.
const MOST: u32 = 24;
/// The longest loop or tail that is made, mm.
const LONGEST_MM: f64 = 400.0;
/// Half the angle over which tails spread, radians; by eye.
const TAIL_FAN_RAD: f64 = 0.25;
/// Loops begin to open so far out under the heads, as a share of what these cover.
const UNDER_HEADS: f32 = 0.8;
/// How high the middle of the knot is over the base, mm.
const KNOT_MM: f32 = 3.0;

/// The whole bow as it lies on `ground`, nothing over it.
pub fn bow(bow: &Bow, stock: &Stock, ground: &impl UnderRibbon) -> Mesh {
    bow_under(bow, stock, ground, |_| 0.0)
}

/// The whole bow as it lies on `ground` under heads that reach `covered` mm from the middle in a direction of length 1: so far its loops lie
/// flat, and they open beyond. Nothing where it has neither loops nor tails.
pub fn bow_under(bow: &Bow, stock: &Stock, ground: &impl UnderRibbon, covered: impl Fn(Vec2) -> f32) -> Mesh {
    let fabric = Fabric::of_bow(bow, stock);
    let mut mesh = Mesh::default();
    let seed = seed_of(bow.ribbon.as_str(), bow.loops_a_side);
    if let Some(length) = sane(bow.tail_length_mm) {
        for (turn, i) in tail_turns(bow.tails.min(MOST)).zip(0_u32..) {
            let mut chance = Chance::seeded(seed ^ u64::from(i + 1000));
            let from = Vec3::new(0.0, 0.0, KNOT_MM - 1.0 + 0.5 * i as f32);
            mesh.append(&drape::tail(&fabric, length, turn as f32, from, ground, &mut chance));
        }
    }
    let (Some(reach), Some(open)) = (sane(bow.loop_length_mm), sane(bow.loop_width_mm)) else { return mesh };
    for (turn, i) in bow.loop_turns(bow.loops_a_side.min(MOST)).into_iter().zip(0_u32..) {
        let mut chance = Chance::seeded(seed ^ u64::from(i));
        let (sine, cosine) = libm::sincosf(turn as f32);
        let stem = covered(Vec2::new(sine, cosine)) * UNDER_HEADS;
        let shape = standing::StandingLoop::new(reach, open, turn as f32, i, &mut chance).flat_for(stem);
        mesh.append(&shape.mesh(&fabric, KNOT_MM, ground));
    }
    if bow.loops_a_side > 0 {
        mesh.append(&knot::knot(&fabric, KNOT_MM));
        if bow.centre_loop {
            mesh.append(&knot::centre_loop(&fabric, Bow::CENTRE_LOOP.diameter as f32, KNOT_MM));
        }
    }
    mesh
}

fn sane(mm: f64) -> Option<f32> {
    (mm.is_finite() && mm > 0.0).then_some(mm.min(LONGEST_MM) as f32)
}

/// Directions of the tails in the frame of the piece, radians: toward the hand, -x, spread a little.
fn tail_turns(count: u32) -> impl Iterator<Item = f64> {
    let last = f64::from(count.max(2) - 1);
    (0..count).map(move |i| {
        let t = if count == 1 { 0.4 } else { f64::from(i) / last * 2.0 - 1.0 };
        PI + t * TAIL_FAN_RAD
    })
}

#[cfg(test)]
mod tests;
