//! The part of the stand-in that looks at how heads stand on one another: height, and cores in one place. The rule is the
//! once-over's own, pair by pair.

use super::{Laid, StandIn};
use crate::once_over::{CORE, GIVE, ZERO_HEIGHT_AT, lift_mm};

/// What a heap of heads loses, as shares of the two questions.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Heaped {
    pub(super) height: f64,
    pub(super) crushed: f64,
}

/// A head that has found its height.
#[derive(Clone, Copy, Debug)]
struct Stood {
    x: f64,
    y: f64,
    radius: f64,
    thickness: f64,
    base: f64,
}

/// Each crushed pair costs this share, as in the once-over.
const CRUSHED_COST: f64 = 0.25;

impl StandIn {
    /// Stands the heads on one another from below.
    pub(super) fn heaped(&self, laid: &Laid) -> Heaped {
        let mut stood: Vec<Stood> = Vec::with_capacity(self.heads.len());
        let (mut top, mut n_crushed) = (0.0_f64, 0.0);
        for &i in &laid.order {
            let (item, pose) = (&self.items[i], &laid.poses[i]);
            if !item.is_head() || item.is_long() {
                continue;
            }
            let (radius, thickness) = (item.reach, item.thickness);
            let mut own = Stood { x: pose.at.x, y: pose.at.y, radius, thickness, base: lift_mm(pose.level) };
            for below in &stood {
                let closest = below.radius + radius - GIVE.sideways * radius.min(below.radius);
                if own.squared_way(below) < closest * closest {
                    own.base = own.base.max(below.base + (1.0 - GIVE.squash) * below.thickness);
                }
            }
            for below in &stood {
                let cores = CORE * (below.radius + radius);
                let apart = (own.base - below.base).abs();
                if own.squared_way(below) < cores * cores && apart < f64::midpoint(below.thickness, thickness) {
                    n_crushed += 1.0;
                }
            }
            top = top.max(own.base + thickness);
            stood.push(own);
        }
        let limit = self.height_limit;
        Heaped {
            height: ((top - limit) / (ZERO_HEIGHT_AT * limit.max(1.0))).max(0.0),
            crushed: CRUSHED_COST * n_crushed,
        }
    }
}

impl Stood {
    fn squared_way(&self, other: &Self) -> f64 {
        let (x, y) = (self.x - other.x, self.y - other.y);
        x * x + y * y
    }
}
