//! What the arm lies on: the cloth of the dress with its weave and soft folds, or plain paper. Space: that of [`crate::model`]; mm.

use super::arm::{ArmSurface, ease};
use super::share_of_light;
use crate::colour::Rgb;
use crate::light::{FineWeave, Material, Mesh, MeshGrid, Vec3, fbm, noise};

/// How far the ground goes from the middle of the piece, mm: beyond what any camera here sees.
const FAR_MM: f32 = 900.0;
/// How high the folds are, mm; our choice.
const FOLD_MM: f32 = 11.0;
/// How much the cloth gives under the arm, mm, so that nothing floats.
const GIVES_MM: f32 = 0.6;
/// Paper, a little warm.
const PAPER: Rgb = Rgb::hex(0xece8e2);

/// Cloth of a dress.
const CLOTH: Material = Material {
    mirror: 0.035,
    rough: 0.55,
    rough_along: 0.45,
    fuzz: 0.16,
    weave: FineWeave::Cloth(0.45),
    ..Material::MATT
};

/// The ground under `arm`: cloth of this colour, or paper where none is known.
pub fn ground(dress: Option<Rgb>, arm: &ArmSurface) -> Mesh {
    let floor = arm.lowest_mm() + GIVES_MM;
    let warp = |t: f32| {
        let t = t * 2.0 - 1.0;
        t * (0.28 + 0.72 * t * t) * FAR_MM
    };
    match dress {
        None => {
            let tint = share_of_light(PAPER);
            let at = |u: f32, v: f32| Vec3::new(warp(u), warp(v), floor);
            Mesh::of_grid(MeshGrid::sheet(24, 24), Material::MATT, at, |_, _| tint)
        }
        Some(rgb) => {
            let tint = share_of_light(rgb);
            let at = |u: f32, v: f32| {
                let (x, y) = (warp(u), warp(v));
                Vec3::new(x, y, floor + folds(x, y) * beside(arm, x, y))
            };
            Mesh::of_grid(MeshGrid::sheet(220, 220), CLOTH, at, |u, v| {
                let place = Vec3::new(warp(u), warp(v), 0.0);
                tint * (1.0 + 0.03 * fbm(place * 0.05, 3))
            })
        }
    }
}

/// Height of the folds, mm: long soft ridges that run aslant and give out.
fn folds(x: f32, y: f32) -> f32 {
    let (along, across) = (0.80 * x + 0.60 * y, 0.60 * x - 0.80 * y);
    let sway = 26.0 * noise(Vec3::new(along * 0.006, across * 0.004, 2.5));
    let ridge = |wave: f32, seed: f32| {
        let n = noise(Vec3::new((across + sway) / wave, along / (wave * 4.6), seed));
        let high = 1.0 - n.abs() * 1.7;
        high.max(0.0) * high.max(0.0)
    };
    FOLD_MM * (ridge(95.0, 0.5) + 0.30 * ridge(46.0, 9.5)) + 1.6 * noise(Vec3::new(x * 0.013, y * 0.013, 4.5))
}

/// 0 under the arm, 1 well beside it.
fn beside(arm: &ArmSurface, x: f32, y: f32) -> f32 {
    let [tips, elbow] = arm.ends_mm();
    let size = arm.ends_mm()[1] - tips;
    let (before, after) = ((tips - y).max(0.0), (y - elbow).max(0.0));
    let out = (x.abs() - 0.15 * size).max(0.0);
    ease(0.0, 60.0, Vec3::new(out, before, after).length())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::piece::Wrist;

    #[test]
    fn it_lies_under_the_arm_and_touches_it() {
        let arm = ArmSurface::new(&Wrist::usual(), 25.0);
        for dress in [None, Some(Rgb::hex(0x22304f))] {
            let mesh = ground(dress, &arm);
            let deepest = mesh.points.iter().map(|p| arm.distance_mm(*p)).fold(f32::MAX, f32::min);
            assert!(deepest > -2.5 && deepest < 0.5, "{deepest}");
            let (low, high) = mesh.bounds().unwrap();
            assert!(low.x < -800.0 && high.y > 800.0 && high.z < -10.0);
        }
    }

    #[test]
    fn paper_is_flat_and_cloth_is_not() {
        let arm = ArmSurface::new(&Wrist::usual(), 25.0);
        let rise = |dress| ground(dress, &arm).bounds().map(|(low, high)| high.z - low.z).unwrap();
        assert_eq!(rise(None), 0.0);
        assert!(rise(Some(Rgb::hex(0x800020))) > 6.0);
    }
}
