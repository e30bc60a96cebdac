//! The part of the surrogate that looks at where heads lie: corners, direction, top, grading, ends, spread, balance.

use super::super::table::PartPose;
use super::super::turns::share_of_turn;
use super::{Surrogate, lost, squared_gauge};
use crate::geometry::Point;
use crate::piece::Level;

impl Surrogate {
    /// The hull of the heads by sixteen tangents, over its box.
    pub(super) fn corners_lost(&self, poses: &[PartPose]) -> f64 {
        if self.heads.len() < 3 {
            return 0.0;
        }
        let mut reach = [f64::NEG_INFINITY; 16];
        for &i in &self.heads {
            let (p, r) = (poses[i].at, self.items[i].half_width);
            for (most, [c, s]) in reach.iter_mut().zip(SIXTEENTHS) {
                *most = most.max(p.x * c + p.y * s + r);
            }
        }
        let [cosine, sine] = SIXTEENTHS[1];
        let side = |k: usize| (reach[(k + 15) % 16] + reach[(k + 1) % 16] - 2.0 * cosine * reach[k]) / sine;
        let area: f64 = (0..16).map(|k| 0.5 * reach[k] * side(k).max(0.0)).sum();
        let fill = area / ((reach[0] + reach[8]) * (reach[4] + reach[12])).max(1.0);
        lost((fill - 0.935) / 0.07)
    }

    pub(super) fn askew_lost(&self, poses: &[PartPose]) -> f64 {
        let (mut xx, mut yy, mut xy) = (0.0, 0.0, 0.0);
        for (item, pose) in self.items.iter().zip(poses) {
            let area = item.reach * item.half_width;
            let long = 0.2 * (item.reach * item.reach - item.half_width * item.half_width);
            xx += area * (pose.at.x * pose.at.x + long * pose.toward.x * pose.toward.x);
            yy += area * (pose.at.y * pose.at.y + long * pose.toward.y * pose.toward.y);
            xy += area * (pose.at.x * pose.at.y + long * pose.toward.x * pose.toward.y);
        }
        // Twice the angle: tangent 0.28 is 8 degrees.
        let tangent = 2.0 * xy.abs() / (xx - yy).max(1e-6);
        lost((tangent - 0.25) / 3.0)
    }

    pub(super) fn top_lost(&self, poses: &[PartPose]) -> f64 {
        if self.blooms.len() < 3 {
            return 0.0;
        }
        let (mut well, mut off) = (0_u32, 0_u32);
        for &i in self.blooms.iter().filter(|&&i| poses[i].level == Level::Top) {
            let middle = squared_gauge(self.oval, poses[i].at) <= 0.54 * 0.54;
            well += u32::from(middle);
            off += u32::from(!middle);
        }
        match well {
            0 => 1.0,
            1..=3 => 0.25 * f64::from(off),
            n => 0.25 * f64::from(n - 3),
        }
    }

    pub(super) fn graded_lost(&self, poses: &[PartPose]) -> f64 {
        let out = |&i: &usize| (self.items[i].half_width, squared_gauge(self.oval, poses[i].at).sqrt());
        let blooms: Vec<(f64, f64)> = self.blooms.iter().map(out).collect();
        let (mut pairs, mut wrong) = (0_u32, 0_u32);
        for (k, first) in blooms.iter().enumerate() {
            for second in &blooms[k + 1..] {
                let (size, out) = (first.0 - second.0, first.1 - second.1);
                if size.abs() >= 1.0 && out.abs() >= 0.15 {
                    pairs += 1;
                    wrong += u32::from((size > 0.0) == (out > 0.0));
                }
            }
        }
        f64::from(wrong) / f64::from(pairs.max(1))
    }

    pub(super) fn ends_lost(&self, poses: &[PartPose]) -> f64 {
        let (a, b) = (self.oval.a, self.oval.b);
        let ends = [Point::new(a, 0.0), Point::new(-a, 0.0), Point::new(0.0, b), Point::new(0.0, -b)];
        let n_ends = match self.blooms.len() {
            0..=2 => return 0.0,
            3 | 4 => 2,
            _ => 4,
        };
        let lost_at = |end: &Point| {
            let off = |i: &usize| ((poses[*i].at - *end).hypot2().sqrt() - self.items[*i].half_width).abs();
            let nearest = self.heads.iter().map(off).fold(f64::INFINITY, f64::min);
            lost((nearest - 6.8) / 18.0)
        };
        ends[..n_ends].iter().map(lost_at).sum::<f64>() / n_ends as f64
    }

    pub(super) fn spread_lost(&self, poses: &[PartPose]) -> f64 {
        let of_kind = |(kind, apart): &(Vec<usize>, f64)| {
            let (mut least, mut most) = (f64::INFINITY, 0.0_f64);
            for &i in kind {
                let gauge = squared_gauge(self.oval, poses[i].at).sqrt();
                (least, most) = (least.min(gauge), most.max(gauge));
            }
            if least > 0.15 && most - least < 0.35 {
                self.ring_lost(kind, poses)
            } else {
                close_lost(kind, *apart, poses)
            }
        };
        self.accents.iter().map(of_kind).sum::<f64>() / self.accents.len().max(1) as f64
    }

    fn ring_lost(&self, kind: &[usize], poses: &[PartPose]) -> f64 {
        let turn = |i: &usize| share_of_turn(poses[*i].at.x / self.oval.a, poses[*i].at.y / self.oval.b);
        let mut turns: Vec<f64> = kind.iter().map(turn).collect();
        turns.sort_by(f64::total_cmp);
        let last = turns.first().zip(turns.last()).map_or(0.0, |(first, last)| first + 1.0 - last);
        let widest = turns.windows(2).map(|w| w[1] - w[0]).fold(last, f64::max);
        lost(widest * kind.len() as f64 - 1.0)
    }

    pub(super) fn balance_lost(&self, poses: &[PartPose]) -> f64 {
        let mut sides = [[0.0; 2]; 2];
        for &i in &self.heads {
            let r = self.items[i].half_width;
            for (axis, at) in [poses[i].at.x, poses[i].at.y].into_iter().enumerate() {
                let weight = r * r * r;
                let u = (at / r).clamp(-1.0, 1.0);
                let beyond = if at.abs() >= r { (at / r).max(0.0) } else { 0.2122 + 0.5 * u + 0.2878 * u * u };
                sides[axis][0] += weight * beyond;
                sides[axis][1] += weight * (beyond - at / r);
            }
        }
        let tip = |s: [f64; 2]| (s[0] - s[1]).abs() / s[0].max(s[1]).max(1e-9);
        let balance = 1.0 - 0.5 * (tip(sides[0]) + tip(sides[1]));
        lost((0.7 - balance) / 0.6)
    }
}

/// Directions by sixteenths of a turn, as cosine and sine.
const SIXTEENTHS: [[f64; 2]; 16] = {
    const C: f64 = 0.923_879_532_511_286_7;
    const S: f64 = 0.382_683_432_365_089_8;
    const H: f64 = std::f64::consts::FRAC_1_SQRT_2;
    [
        [1.0, 0.0],
        [C, S],
        [H, H],
        [S, C],
        [0.0, 1.0],
        [-S, C],
        [-H, H],
        [-C, S],
        [-1.0, 0.0],
        [-C, -S],
        [-H, -H],
        [-S, -C],
        [0.0, -1.0],
        [S, -C],
        [H, -H],
        [C, -S],
    ]
};

/// Where accents do not lie on a ring: the nearest two against the best that so many could do.
fn close_lost(kind: &[usize], apart: f64, poses: &[PartPose]) -> f64 {
    let mut nearest = f64::INFINITY;
    for (k, &i) in kind.iter().enumerate() {
        for &j in &kind[k + 1..] {
            nearest = nearest.min((poses[i].at - poses[j].at).hypot2());
        }
    }
    1.0 - (nearest.sqrt() / apart.max(1.0)).min(1.0).sqrt()
}
