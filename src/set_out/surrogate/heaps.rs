//! The part of the surrogate that looks at how heads stand on one another: height, cores in one place, and, as preference, how hard
//! heads of one level press on each other. The rule is the once-over's own, pair by pair.

use super::{Layout, Surrogate};
use crate::once_over::{CORE, GIVE, ZERO_HEIGHT_AT, lift_mm};
use crate::piece::Level;

/// What a heap of heads loses: shares of the two questions, and points of preference.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Heaped {
    pub(super) height: f64,
    pub(super) crushed: f64,
    pub(super) pressed: f64,
}

/// A head that has found its height.
#[derive(Clone, Copy, Debug)]
struct Stood {
    x: f64,
    y: f64,
    radius: f64,
    thickness: f64,
    base: f64,
    level: Level,
    /// A spike lies, and carries nothing.
    is_long: bool,
}

/// Each crushed pair costs this share, as in the once-over.
const CRUSHED_COST: f64 = 0.25;

impl Surrogate {
    /// Stands the heads on one another from below.
    pub(super) fn heaped(&self, layout: &Layout) -> Heaped {
        let mut stood: Vec<Stood> = Vec::with_capacity(self.heads.len());
        let mut touched: Vec<(usize, f64)> = Vec::with_capacity(self.heads.len());
        let (mut top, mut n_crushed, mut pressed) = (0.0_f64, 0.0, 0.0);
        for &i in layout.order.iter().rev().filter(|&&i| self.items[i].is_head()) {
            let (item, pose) = (&self.items[i], &layout.poses[i]);
            let mut own = Stood {
                x: pose.at.x,
                y: pose.at.y,
                radius: item.half_width,
                thickness: item.thickness,
                base: lift_mm(pose.level),
                level: pose.level,
                is_long: item.is_long(),
            };
            touched.clear();
            for (k, below) in stood.iter().enumerate() {
                let smaller = own.radius.min(below.radius);
                let closest = below.radius + own.radius - GIVE.sideways * smaller;
                let squared = own.squared_way(below);
                if squared >= closest * closest {
                    continue;
                }
                if below.level == own.level {
                    let share = (closest - squared.sqrt()) / smaller;
                    pressed += share * share;
                }
                if !own.is_long && !below.is_long {
                    own.base = own.base.max(below.base + (1.0 - GIVE.squash) * below.thickness);
                    touched.push((k, squared));
                }
            }
            // Cores lie within what touches.
            for &(k, squared) in &touched {
                let below = &stood[k];
                let cores = CORE * (below.radius + own.radius);
                let apart = (own.base - below.base).abs();
                if squared < cores * cores && apart < f64::midpoint(below.thickness, own.thickness) {
                    n_crushed += 1.0;
                }
            }
            if !own.is_long {
                top = top.max(own.base + own.thickness);
            }
            stood.push(own);
        }
        let limit = self.height_limit;
        Heaped {
            height: ((top - limit) / (ZERO_HEIGHT_AT * limit.max(1.0))).max(0.0),
            crushed: CRUSHED_COST * n_crushed,
            pressed: 4.0 * pressed / self.heads.len().max(1) as f64,
        }
    }
}

impl Stood {
    fn squared_way(&self, other: &Self) -> f64 {
        let (x, y) = (self.x - other.x, self.y - other.y);
        x * x + y * y
    }
}
