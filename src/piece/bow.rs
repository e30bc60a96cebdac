//! The bow under the blooms.

use std::f64::consts::FRAC_PI_2;
use std::sync::Arc;

use crate::geometry::CentreLoop;
use crate::stock::StockId;

/// Ribbon work under the blooms: loops fan out to both sides across the oval's long axis, tails hang toward the hand.
#[derive(Clone, Debug, PartialEq)]
pub struct Bow {
    /// The ribbon.
    pub ribbon: StockId,
    /// Its colour, by its name in stock.
    pub colour: Arc<str>,
    /// Loops on each side.
    pub loops_a_side: u32,
    /// How far a loop reaches from the knot, mm.
    pub loop_length_mm: f64,
    /// How wide a loop stands open, mm.
    pub loop_width_mm: f64,
    /// Tails.
    pub tails: u32,
    /// Length of a tail, mm.
    pub tail_length_mm: f64,
    /// Whether a small loop covers the knot.
    pub centre_loop: bool,
}

impl Bow {
    /// Half the angle over which the loops of one side fan out, radians; our choice by eye.
    pub const FAN_RAD: f64 = 0.9;

    /// The small loop over the knot, mm; common practice, no source.
    pub const CENTRE_LOOP: CentreLoop = CentreLoop { diameter: 16.0, overlap: 12.0 };
}

impl Bow {
    /// Directions of the loops, radians: `n_a_side` to each side across the arm, fanned out, the outermost first as they lie
    /// lowest.
    pub fn loop_turns(&self, n_a_side: u32) -> Vec<f64> {
        let last = f64::from(n_a_side.max(2) - 1);
        let mut turns: Vec<(f64, f64)> = Vec::new();
        for i in 0..n_a_side {
            let t = if n_a_side == 1 { 0.0 } else { f64::from(i) / last * 2.0 - 1.0 };
            for side in [FRAC_PI_2, -FRAC_PI_2] {
                turns.push((t.abs(), side + t * Self::FAN_RAD * side.signum()));
            }
        }
        turns.sort_by(|a, b| b.0.total_cmp(&a.0));
        turns.into_iter().map(|(_, turn)| turn).collect()
    }
}
