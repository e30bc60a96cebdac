//! How surfaces mirror: microfacets after Trowbridge and Reitz (GGX), rougher one way than the other if they are woven.
//!
//! Walter and others, "Microfacet models for refraction through rough surfaces" (2007); Heitz, "Sampling the GGX distribution of
//! visible normals" (JCGT 7(4), 2018); the share mirrored by angle after Schlick (1994).

use std::f32::consts::PI;

use super::directions::in_disk;
use super::{Material, Vec2, Vec3};

/// The smoothest that is told from a mirror.
const SMOOTHEST: f32 = 0.03;
/// The least cosine of the direction of sight: below, a surface is seen from its edge.
pub(super) const LEAST_COSINE: f32 = 0.02;
const N_ROUGH: usize = 16;
const N_COSINE: usize = 16;

/// What a surface mirrors, in the frame of its normal (z), its tangent (y) and what is across both (x).
#[derive(Clone, Copy, Debug)]
pub(super) struct Gloss {
    across: Vec3,
    along: Vec3,
    normal: Vec3,
    rough: Vec2,
    straight: f32,
    grazing: f32,
}

impl Gloss {
    /// `None` for a surface that mirrors nothing.
    pub(super) fn of(material: &Material, normal: Vec3, tangent: Vec3) -> Option<Self> {
        // No number is taken for none.
        let straight = if material.mirror > 0.0 { material.mirror.min(1.0) } else { return None };
        let flat = tangent - normal * normal.dot(tangent);
        let along = flat.try_normalize().unwrap_or_else(|| normal.any_orthonormal_vector());
        let rough = Vec2::new(material.rough, material.rough_along).clamp(Vec2::splat(SMOOTHEST), Vec2::ONE);
        // Rough surfaces shine less along their edge than smooth ones.
        let smooth = 1.0 - (rough.x * rough.y).sqrt();
        let grazing = straight.max((50.0 * straight).min(1.0) * smooth * smooth);
        Some(Self { across: along.cross(normal), along, normal, rough, straight, grazing })
    }

    /// The smoother of its two ways.
    pub(super) fn smoothest(&self) -> f32 {
        self.rough.min_element()
    }

    /// Share of light from `light` that goes to `sight`, per unit of solid angle, times the cosine of `light`.
    pub(super) fn toward(&self, sight: Vec3, light: Vec3) -> f32 {
        let (v, l) = (self.seen(sight), self.inside(light));
        if l.z <= 0.0 {
            return 0.0;
        }
        let half = (v + l).normalize_or(Vec3::Z);
        self.mirrored(v.dot(half)) * self.facets(half) / ((1.0 + self.hidden(v) + self.hidden(l)) * 4.0 * v.z)
    }

    /// How often [`Self::bounced`] goes into a direction, per unit of solid angle.
    pub(super) fn chance_of(&self, sight: Vec3, light: Vec3) -> f32 {
        let (v, l) = (self.seen(sight), self.inside(light));
        if l.z <= 0.0 {
            return 0.0;
        }
        self.facets((v + l).normalize_or(Vec3::Z)) / ((1.0 + self.hidden(v)) * 4.0 * v.z)
    }

    /// A direction into which light from `sight` is mirrored, and what it counts for; `None` if it would go into the surface.
    pub(super) fn bounced(&self, sight: Vec3, pair: Vec2) -> Option<(Vec3, f32)> {
        let v = self.seen(sight);
        let stretched = Vec3::new(self.rough.x * v.x, self.rough.y * v.y, v.z).normalize_or(Vec3::Z);
        let one = if stretched.z < 0.999 { Vec3::Z.cross(stretched).normalize_or(Vec3::X) } else { Vec3::X };
        let other = stretched.cross(one);
        let disk = in_disk(pair);
        let lean = 0.5 * (1.0 + stretched.z);
        let y = (1.0 - lean) * (1.0 - disk.x * disk.x).max(0.0).sqrt() + lean * disk.y;
        let up = (1.0 - disk.x * disk.x - y * y).max(0.0).sqrt();
        let facet = one * disk.x + other * y + stretched * up;
        let half = Vec3::new(self.rough.x * facet.x, self.rough.y * facet.y, facet.z.max(1e-4)).normalize_or(Vec3::Z);
        let l = half * (2.0 * v.dot(half)) - v;
        if l.z <= 0.0 {
            return None;
        }
        let share = (1.0 + self.hidden(v)) / (1.0 + self.hidden(v) + self.hidden(l));
        let out = self.across * l.x + self.along * l.y + self.normal * l.z;
        Some((out, self.mirrored(v.dot(half)) * share))
    }

    fn inside(&self, direction: Vec3) -> Vec3 {
        Vec3::new(direction.dot(self.across), direction.dot(self.along), direction.dot(self.normal))
    }

    fn seen(&self, sight: Vec3) -> Vec3 {
        let v = self.inside(sight);
        Vec3::new(v.x, v.y, v.z.max(LEAST_COSINE))
    }

    fn mirrored(&self, cosine: f32) -> f32 {
        let slope = 1.0 - cosine.clamp(0.0, 1.0);
        let square = slope * slope;
        self.straight + (self.grazing - self.straight) * square * square * slope
    }

    /// How many facets face so.
    fn facets(&self, half: Vec3) -> f32 {
        let (x, y) = (half.x / self.rough.x, half.y / self.rough.y);
        let q = x * x + y * y + half.z * half.z;
        1.0 / (PI * self.rough.x * self.rough.y * q * q)
    }

    /// Smith's shadowing, as his auxiliary function.
    fn hidden(&self, v: Vec3) -> f32 {
        let (x, y) = (self.rough.x * v.x, self.rough.y * v.y);
        0.5 * ((1.0 + (x * x + y * y) / (v.z * v.z)).sqrt() - 1.0)
    }
}

/// How much of all light a gloss mirrors, by roughness and by the angle of sight: what is mirrored does not go into the surface.
#[derive(Clone, Debug)]
pub(super) struct MirroredShare {
    /// By roughness, then by cosine: the share with a mirror that gives everything straight on, and with one that does so along its edge.
    table: Vec<Vec2>,
}

impl MirroredShare {
    pub(super) fn new() -> Self {
        let cells = (0..N_ROUGH * N_COSINE).map(|i| {
            let rough = (i / N_COSINE) as f32 / (N_ROUGH - 1) as f32;
            let cosine = ((i % N_COSINE) as f32 / (N_COSINE - 1) as f32).max(LEAST_COSINE);
            Vec2::new(Self::summed(rough, cosine, 1.0, 0.0), Self::summed(rough, cosine, 0.0, 1.0))
        });
        Self { table: cells.collect() }
    }

    fn summed(rough: f32, cosine: f32, straight: f32, grazing: f32) -> f32 {
        const N: u32 = 12;
        let gloss = Gloss {
            across: Vec3::X,
            along: Vec3::Y,
            normal: Vec3::Z,
            rough: Vec2::splat(rough.max(SMOOTHEST)),
            straight,
            grazing,
        };
        let sight = Vec3::new((1.0 - cosine * cosine).max(0.0).sqrt(), 0.0, cosine);
        let pairs = (0..N * N).map(|i| Vec2::new((i % N) as f32 + 0.5, (i / N) as f32 + 0.5) / N as f32);
        pairs.filter_map(|pair| gloss.bounced(sight, pair)).map(|(_, weight)| weight).sum::<f32>() / (N * N) as f32
    }

    /// Share of light that a gloss mirrors, seen so: 0 to 1.
    pub(super) fn of(&self, gloss: &Gloss, sight: Vec3) -> f32 {
        let rough = (gloss.rough.x * gloss.rough.y).sqrt() * (N_ROUGH - 1) as f32;
        let cosine = gloss.normal.dot(sight).clamp(0.0, 1.0) * (N_COSINE - 1) as f32;
        let (i, j) = ((rough as usize).min(N_ROUGH - 2), (cosine as usize).min(N_COSINE - 2));
        let (s, t) = (rough - i as f32, cosine - j as f32);
        let at = |i: usize, j: usize| self.table[i * N_COSINE + j];
        let cell = at(i, j).lerp(at(i, j + 1), t).lerp(at(i + 1, j).lerp(at(i + 1, j + 1), t), s);
        (cell.x * gloss.straight + cell.y * gloss.grazing).clamp(0.0, 1.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::light::FineWeave;
    use crate::light::directions::sin_cos_of_turn;

    fn materials() -> Vec<Material> {
        let satin = Material { mirror: 0.3, rough: 0.48, rough_along: 0.18, weave: FineWeave::None, ..Material::MATT };
        let mirror = Material { mirror: 1.0, rough: 0.3, rough_along: 0.3, ..Material::MATT };
        vec![Material::MATT, Material::PETAL, Material::LEAF, Material::BERRY, satin, mirror]
    }

    fn sight(cosine: f32, turn: f32) -> Vec3 {
        let (sin, cos) = sin_cos_of_turn(turn);
        let flat = (1.0 - cosine * cosine).sqrt();
        Vec3::new(flat * cos, flat * sin, cosine)
    }

    /// The light mirrored, summed over the half sphere, is never more than what came, and is what sampling finds.
    #[test]
    fn no_gloss_gives_back_more_light_than_it_gets() {
        for material in materials() {
            let gloss = Gloss::of(&material, Vec3::Z, Vec3::Y).unwrap();
            for (cosine, turn) in [(0.95, 0.0), (0.7, 0.1), (0.4, 0.25), (0.15, 0.05)] {
                let v = sight(cosine, turn);
                let n = 400;
                let summed: f32 = (0..n * n)
                    .map(|i| {
                        // Evenly over the half sphere: each cell counts for 2 pi / n^2.
                        let (z, f) = (((i / n) as f32 + 0.5) / n as f32, ((i % n) as f32 + 0.5) / n as f32);
                        gloss.toward(v, sight(z, f)) * 2.0 * PI / (n * n) as f32
                    })
                    .sum();
                let m = 200;
                let pairs = (0..m * m).map(|i| Vec2::new((i % m) as f32 + 0.5, (i / m) as f32 + 0.5) / m as f32);
                let sampled: f32 =
                    pairs.filter_map(|p| gloss.bounced(v, p)).map(|(_, w)| w).sum::<f32>() / (m * m) as f32;
                assert!(summed <= 1.001 && sampled <= 1.0, "{material:?} at {cosine}: {summed} {sampled}");
                assert!((summed - sampled).abs() < 0.01 + 0.03 * sampled, "{material:?} {cosine}: {summed} {sampled}");
            }
        }
    }

    #[test]
    fn the_table_of_shares_agrees_with_sampling() {
        let table = MirroredShare::new();
        for material in materials().iter().filter(|m| m.rough == m.rough_along) {
            let gloss = Gloss::of(material, Vec3::Z, Vec3::Y).unwrap();
            for cosine in [0.97, 0.6, 0.35, 0.12] {
                let v = sight(cosine, 0.0);
                let m = 100;
                let pairs = (0..m * m).map(|i| Vec2::new((i % m) as f32 + 0.5, (i / m) as f32 + 0.5) / m as f32);
                let sampled: f32 =
                    pairs.filter_map(|p| gloss.bounced(v, p)).map(|(_, w)| w).sum::<f32>() / (m * m) as f32;
                let told = table.of(&gloss, v);
                assert!((told - sampled).abs() < 0.03, "{material:?} at {cosine}: {told} {sampled}");
            }
        }
    }
}
