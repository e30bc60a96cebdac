//! The bow under the blooms.

use std::sync::Arc;

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
}
