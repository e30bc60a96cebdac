//! Light that goes into skin and comes out nearby: spreads it along the picture's rows, then its columns, red farthest.

use super::Vec3;
use super::exposure::{Exposed, SpotGuide, SpotLight};
use super::threads::share_out;

/// How far red, green and blue spread, as shares of `soft_mm`: standard deviations. Red goes farthest through blood (after d'Eon and
/// Luebke, "Advanced techniques for realistic real-time skin rendering", GPU Gems 3, 2007; their sums of six curves, made one each).
const SPREADS: Vec3 = Vec3::new(0.44, 0.20, 0.12);
/// Pixels to each side, at most.
pub(super) const MOST_REACH: usize = 64;

/// Places to each side that are looked at: the light is smooth by then.
const MOST_PLACES: usize = 12;

/// Spreads the light of the window and of the room below soft surfaces. `pixel_mm` is the width of a pixel.
pub(super) fn soften(exposed: &mut Exposed, pixel_mm: f32, n_threads: usize) {
    if exposed.guides.iter().all(|guide| guide.soft_mm <= 0.0) {
        return;
    }
    let width = exposed.width;
    for step in [1, width] {
        let source: Vec<Vec3> = exposed.lights.iter().map(SpotLight::dull).collect();
        let guides = &exposed.guides;
        let spread = |at: usize, guide: &SpotGuide, own: Vec3| {
            let reach = reach_px(guide.soft_mm, pixel_mm);
            // Columns may run over all rows, rows only to their ends.
            let (before, after) = if step == 1 {
                (at % width, width - 1 - at % width)
            } else {
                (at / width, (guides.len() - 1 - at) / width)
            };
            let apart = reach.div_ceil(MOST_PLACES).max(1);
            let back = (1..=reach.min(before) / apart).map(|i| at - i * apart * step);
            let places = back.chain((1..=reach.min(after) / apart).map(|i| at + i * apart * step));
            let (mut sum, mut weights) = (own, Vec3::ONE);
            let per_square = -0.5 / (SPREADS * guide.soft_mm * SPREADS * guide.soft_mm);
            for q in places {
                if guides[q].key == guide.key {
                    let weight = (per_square * guides[q].point.distance_squared(guide.point)).map(decay);
                    sum += source[q] * weight;
                    weights += weight;
                }
            }
            sum / weights
        };
        let rows = exposed.lights.chunks_mut(width.max(1)).enumerate();
        share_out(
            n_threads,
            rows,
            || (),
            |(), (y, row)| {
                for (x, light) in row.iter_mut().enumerate() {
                    let at = y * width + x;
                    if guides[at].soft_mm > 0.0 {
                        *light = with_dull(light, spread(at, &guides[at], source[at]));
                    }
                }
            },
        );
        for small in exposed.small.iter_mut().filter(|small| small.spot.guide.soft_mm > 0.0) {
            let own = small.spot.light.dull();
            small.spot.light = with_dull(&small.spot.light, spread(small.pixel as usize, &small.spot.guide, own));
        }
    }
}

/// The same light but for what is seen through the surface's own colour.
fn with_dull(light: &SpotLight, dull: Vec3) -> SpotLight {
    SpotLight::of(Vec3::ZERO, dull, light.gloss(), light.variance)
}

/// Pixels to each side that light spreads to.
fn reach_px(soft_mm: f32, pixel_mm: f32) -> usize {
    ((soft_mm / pixel_mm.max(1e-6)).min(MOST_REACH as f32)) as usize
}

/// e to the power of x, for x of nought and below; within 0.4 %, from products alone.
fn decay(x: f32) -> f32 {
    let near = (1.0 + x * (1.0 / 64.0)).max(0.0);
    let two = near * near;
    let eight = two * two * two * two;
    let all = eight * eight;
    all * all * all * all
}
