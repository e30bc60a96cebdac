//! The colour of skin from place to place: paler and redder patches, knuckles and fingertips, folds, veins, the inside of the hand. All shares
//! are our choice, by eye. Linear light.

use super::bones::{Bones, ease};
use super::field::{hump, joint_folds, ridge, wrist_fold};
use crate::light::{FineWeave, Material, Vec2, Vec3, fbm, noise};
use crate::piece::Skin;

/// How a tone looks all over.
#[derive(Clone, Copy, Debug)]
pub(super) struct SkinLook {
    base: Vec3,
    /// How strongly blood and veins show, 0 to 1.
    blood: f32,
    /// How dark it is, 0 to 1.
    dark: f32,
    /// How far light spreads below, mm.
    soft_mm: f32,
}

/// What blood lets through.
const RED: Vec3 = Vec3::new(1.05, 0.72, 0.68);
/// What a vein lets through.
const BLUE: Vec3 = Vec3::new(0.78, 0.92, 0.95);

impl SkinLook {
    pub(super) fn of(skin: Skin) -> Self {
        let (blood, dark, soft_mm) = match skin {
            Skin::Plain => (0.12, 0.05, 1.2),
            Skin::Fair => (0.8, 0.0, 2.2),
            Skin::Warm => (0.66, 0.12, 2.0),
            Skin::Olive => (0.5, 0.3, 1.6),
            Skin::Brown => (0.34, 0.65, 1.2),
            Skin::Deep => (0.22, 1.0, 0.9),
        };
        let base = Vec3::from_array(skin.rgb().linear().map(|c| c as f32));
        Self { base, blood, dark, soft_mm }
    }

    pub(super) fn material(&self) -> Material {
        Material {
            mirror: 0.036,
            rough: 0.40 - 0.05 * self.dark,
            rough_along: 0.40 - 0.05 * self.dark,
            fuzz: 0.07,
            soft_mm: self.soft_mm,
            weave: FineWeave::Skin(0.9),
            ..Material::MATT
        }
    }

    /// The colour at this place of the model arm, which faces this way.
    pub(super) fn tint(&self, bones: &Bones, p: Vec3, normal: Vec3) -> Vec3 {
        let patches = fbm(p * 0.07, 3);
        let grain = fbm(p * 0.42 + Vec3::splat(31.0), 2);
        let mut colour = self.base * (1.0 + 0.10 * patches + 0.08 * grain);
        let (joint, tip, folds) = Self::at_fingers(bones, p);
        // Palm and fingers wholly, the forearm a little.
        let inside = ease(-0.15, 0.55, -normal.z) * (0.35 + 0.65 * ease(20.0, -10.0, p.y));
        let redness = 0.55 * joint + 0.85 * tip + 0.4 * inside + 0.75 * patches.max(0.0) + 0.2 * grain;
        colour *= Vec3::ONE.lerp(RED, (redness * self.blood).clamp(0.0, 1.0));
        // Where there is more pigment, knuckles are darker and the inside of the hand is paler.
        colour *= 1.0 - self.dark * 0.22 * joint;
        colour = colour.lerp(Vec3::new(0.62, 0.36, 0.25), 0.5 * self.dark * inside);
        if normal.z > 0.0 {
            let vein = (ridge(&bones.veins, Vec2::new(p.x, p.y)) / 0.34).min(1.0);
            colour *= Vec3::ONE.lerp(BLUE, 0.55 * vein * self.blood);
            colour *= 1.0 - 0.10 * wrist_fold(p);
        }
        colour *= Vec3::ONE - Vec3::new(0.12, 0.20, 0.22) * folds;
        colour *= 1.0 - self.freckle(p);
        colour.clamp(Vec3::ZERO, Vec3::splat(0.95))
    }

    /// How near a joint, how near a fingertip, how deep in a fold; each 0 to 1.
    fn at_fingers(bones: &Bones, p: Vec3) -> (f32, f32, f32) {
        let (mut joint, mut tip, mut folds): (f32, f32, f32) = (0.0, 0.0, 0.0);
        for digit in &bones.digits {
            if p.distance(digit.ball.0) > digit.ball.1 + 4.0 {
                continue;
            }
            let (j, r) = (&digit.joints, &digit.radii);
            let near = |at: Vec3, within: f32| hump(p.distance(at) / within);
            let knuckle = if digit.is_thumb { 0.3 } else { 0.6 };
            joint = joint.max(knuckle * near(j[0] + digit.backs[0] * r[0], 14.0));
            joint =
                joint.max(near(j[1] + digit.backs[1] * r[1], 11.0)).max(0.6 * near(j[2] + digit.backs[2] * r[2], 8.0));
            tip = tip.max(near(j[3] + digit.ways[2] * r[3] * 0.8, r[3] * 2.6));
            folds = folds.max(joint_folds(digit, p));
        }
        (joint, tip, folds)
    }

    /// How much darker a small spot is, 0 to 1: few, and none where they would not be seen.
    fn freckle(&self, p: Vec3) -> f32 {
        let spot = ease(0.72, 0.84, noise(p * 1.05 + Vec3::splat(7.3))) * ease(-0.1, 0.25, noise(p * 0.045));
        spot * 0.08 * (self.blood * 1.6 - 0.15).clamp(0.0, 1.0)
    }

    pub(super) fn nail_material(&self) -> Material {
        Material { mirror: 0.045, rough: 0.2, rough_along: 0.2, weave: FineWeave::None, fuzz: 0.0, ..self.material() }
    }

    /// The colour of a nail at `along` of its length from the root and `aside` of its half width.
    pub(super) fn nail_tint(&self, along: f32, aside: f32) -> Vec3 {
        let rosy = Vec3::new(0.80, 0.44, 0.37);
        let bed = self.base.lerp(rosy, 0.25 + 0.35 * self.blood);
        let moon = hump(Vec2::new(along / 0.26, aside / 0.62).length()) * (1.0 - ease(0.2, 0.3, along));
        let pale = Vec3::new(0.82, 0.66, 0.58);
        let colour = bed.lerp(pale, 0.4 * moon);
        let edge = 0.87 - 0.11 * aside * aside;
        colour.lerp(Vec3::new(0.86, 0.80, 0.72), 0.85 * ease(edge, edge + 0.05, along))
    }
}
