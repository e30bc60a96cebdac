//! Threads, ribs, cells and lines too fine for the mesh: they bend the normal and shade the colour by place on the surface.

use super::directions::smooth;
use super::noise::floor;
use super::sampler::hash;
use super::{FineWeave, Vec2};

/// How a weave changes a place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct WovenPlace {
    /// How steep the surface is, across and along the tangent: rise over run.
    pub(super) slope: Vec2,
    /// What the colour is multiplied by.
    pub(super) shade: f32,
}

impl WovenPlace {
    const PLAIN: Self = Self { slope: Vec2::ZERO, shade: 1.0 };

    fn faded(self, share: f32) -> Self {
        Self { slope: self.slope * share, shade: 1.0 + (self.shade - 1.0) * share }
    }
}

/// The weave at a place laid flat, mm, as seen by a pixel so wide, mm: what is finer than the pixel fades.
pub(super) fn woven(weave: FineWeave, flat: Vec2, pixel_mm: f32) -> Option<WovenPlace> {
    let (size, at): (f32, fn(Vec2) -> WovenPlace) = match weave {
        FineWeave::None => return None,
        FineWeave::Cloth(size) => (size, cloth),
        FineWeave::Skin(size) => (size, skin),
        FineWeave::Petal(size) => (size, petal),
        FineWeave::Ribs(size) => (size, ribs),
    };
    let share = 1.0 - smooth(0.4, 1.2, pixel_mm / size);
    let veins = if matches!(weave, FineWeave::Petal(_)) { 1.0 - smooth(2.0, 8.0, pixel_mm / size) } else { 0.0 };
    if !(size > 0.0 && flat.is_finite() && (share > 0.0 || veins > 0.0)) {
        return None;
    }
    let place = flat / size;
    let fine = if share > 0.0 { at(place).faded(share) } else { WovenPlace::PLAIN };
    if veins <= 0.0 {
        return Some(fine);
    }
    let veined = petal_veins(place).faded(veins);
    Some(WovenPlace { slope: fine.slope + veined.slope, shade: fine.shade * veined.shade })
}

/// Threads that go over and under each other; one unit from thread to thread.
fn cloth(place: Vec2) -> WovenPlace {
    let uneven = Vec2::new(bumps(place * 0.31, 1), bumps(place * 0.31, 2)) * 0.10;
    let at = place + uneven;
    let cell = at.map(floor);
    let inside = at - cell - 0.5;
    let is_along_above = (cell.x as i64 + cell.y as i64) & 1 == 0;
    let (slope, yarn) = if is_along_above {
        (Vec2::new(inside.x * 1.5, inside.y * 0.5), Vec2::new(cell.x, at.y * 0.2))
    } else {
        (Vec2::new(inside.x * 0.5, inside.y * 1.5), Vec2::new(at.x * 0.2, cell.y))
    };
    let gap = inside.x.abs().max(inside.y.abs());
    // Between the threads it is dark; the mean over a cell is one.
    let shade = (1.1 - 0.8 * gap * gap) * (1.0 + 0.16 * bumps(yarn, 7));
    WovenPlace { slope: slope * 0.6, shade }
}

/// Round ribs across the tangent; one unit from rib to rib.
fn ribs(place: Vec2) -> WovenPlace {
    let inside = place.y - floor(place.y) - 0.5;
    let edge = 4.0 * inside * inside;
    WovenPlace {
        slope: Vec2::new(0.04 * bumps(place * Vec2::new(3.0, 1.0), 4), 1.7 * inside),
        shade: 1.06 - 0.3 * edge * edge,
    }
}

/// A net of fine lines with small fields between.
fn skin(place: Vec2) -> WovenPlace {
    let height = |at: Vec2| {
        let line = |x: f32| (x.abs() * 2.2).min(0.5);
        line(bumps(at * Vec2::new(0.9, 0.55), 3))
            + line(bumps(at * Vec2::new(0.5, 0.95), 5))
            + 0.4 * bumps(at * 0.35, 6)
    };
    WovenPlace { slope: slope_of(height, place, 0.1) * 0.14, shade: 1.0 }
}

/// The round cells of a petal's skin.
fn petal(place: Vec2) -> WovenPlace {
    WovenPlace {
        slope: slope_of(|at| bumps(at * 0.8, 9), place, 0.15) * 0.22,
        shade: 1.0 + 0.03 * bumps(place * 0.4, 8),
    }
}

/// Veins along a petal, some ten cells apart.
fn petal_veins(place: Vec2) -> WovenPlace {
    let height = |at: Vec2| bumps(at * Vec2::new(0.16, 0.012), 5) + 0.5 * bumps(at * Vec2::new(0.4, 0.03), 6);
    let here = height(place);
    let across = (height(place + Vec2::new(0.4, 0.0)) - here) / 0.4;
    WovenPlace { slope: Vec2::new(across * 0.45, 0.0), shade: 1.0 + 0.035 * here }
}

/// Smooth noise of -1 to 1 over the plane, another for every layer.
fn bumps(at: Vec2, layer: u32) -> f32 {
    let cell = at.map(floor);
    let inside = at - cell;
    let ease = inside * inside * (Vec2::splat(3.0) - inside * 2.0);
    let (x, y) = (cell.x as i32 as u32, cell.y as i32 as u32);
    let corner = |dx: u32, dy: u32| {
        let mixed = hash(
            x.wrapping_add(dx).wrapping_mul(0x8da6_b343) ^ y.wrapping_add(dy).wrapping_mul(0xd816_3841) ^ layer << 20,
        );
        (mixed >> 8) as f32 * (2.0 / 16_777_216.0) - 1.0
    };
    let mix = |a: f32, b: f32, t: f32| a + (b - a) * t;
    mix(mix(corner(0, 0), corner(1, 0), ease.x), mix(corner(0, 1), corner(1, 1), ease.x), ease.y)
}

fn slope_of(height: impl Fn(Vec2) -> f32, place: Vec2, step: f32) -> Vec2 {
    let here = height(place);
    let ahead = |by: Vec2| (height(place + by) - here) / step;
    Vec2::new(ahead(Vec2::new(step, 0.0)), ahead(Vec2::new(0.0, step)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn weaves_shade_but_keep_the_mean_colour_and_stay_flat_on_the_whole() {
        for weave in [FineWeave::Cloth(0.5), FineWeave::Ribs(0.5), FineWeave::Skin(0.5), FineWeave::Petal(0.5)] {
            let n = 331;
            let (mut shade, mut slope) = (0.0, Vec2::ZERO);
            for i in 0..n * n {
                let at = Vec2::new((i % n) as f32, (i / n) as f32) * (17.3 / n as f32) + 0.013;
                let place = woven(weave, at, 0.01).unwrap();
                shade += place.shade / (n * n) as f32;
                slope += place.slope / (n * n) as f32;
            }
            assert!((shade - 1.0).abs() < 0.03, "{weave:?}: {shade}");
            assert!(slope.length() < 0.05, "{weave:?}: {slope}");
        }
    }

    #[test]
    fn what_is_finer_than_a_pixel_is_not_seen() {
        assert_eq!(woven(FineWeave::Cloth(0.3), Vec2::new(1.0, 2.0), 1.0), None);
        assert_eq!(woven(FineWeave::Cloth(0.0), Vec2::new(1.0, 2.0), 1.0), None);
        assert_eq!(woven(FineWeave::Ribs(f32::NAN), Vec2::new(1.0, 2.0), 1.0), None);
    }
}
