//! What a ray finds where it meets a mesh: the place, which way it faces, its colour and its gloss.

use super::gloss::{Gloss, LEAST_COSINE, MirroredShare};
use super::tree::{Ray, RayHit, World};
use super::weave::woven;
use super::{Material, Vec2, Vec3};

/// How far off a surface the next ray starts, mm, so that it does not meet the surface itself.
const OFF: f32 = 0.01;

/// A place on a surface, seen from one side.
#[derive(Clone, Copy, Debug)]
pub(super) struct MetSurface {
    /// The place, mm.
    pub(super) point: Vec3,
    /// The place lifted onto the round surface that the flat triangles stand for: light grazing it is then not cut by their edges
    /// (Hanika, "Hacking the shadow terminator", Ray Tracing Gems II, 2021).
    lifted: Vec3,
    /// Away from the triangle, on the side it is seen from.
    pub(super) facing: Vec3,
    /// The same, smoothed over the mesh and bent by the weave.
    pub(super) normal: Vec3,
    /// The same without the weave.
    pub(super) smooth_normal: Vec3,
    /// Share of light given back that is not mirrored.
    pub(super) tint: Vec3,
    /// What it mirrors; colour of the mirror.
    pub(super) gloss: Option<(Gloss, Vec3)>,
    /// Share that goes through, and what that is multiplied by.
    pub(super) through: (f32, Vec3),
    /// How far light spreads below the surface, mm.
    pub(super) soft_mm: f32,
    /// Which mesh and which of its materials.
    pub(super) key: u32,
}

impl MetSurface {
    /// The place that the eye sees.
    pub(super) fn seen(world: &World, ray: &Ray, hit: &RayHit, pixel_mm: f32, shares: &MirroredShare) -> Self {
        let (tree, place) = world.met(hit);
        let mesh = &tree.mesh;
        let (facet, material) = world.facet(hit);
        let triangle = mesh.triangles[hit.triangle as usize].map(|i| i as usize);
        let weights = [1.0 - hit.u - hit.v, hit.u, hit.v];
        let mixed = |list: &[Vec3]| (0..3).map(|i| list[triangle[i]] * weights[i]).sum::<Vec3>();
        let toward_eye = -ray.toward;
        let side = if facet.normal.dot(toward_eye) < 0.0 { -1.0 } else { 1.0 };
        let facing = facet.normal * side;
        let turned = |v: Vec3| place.transform_vector3(v);
        let smooth_normal = (turned(mixed(&mesh.normals)) * side).normalize_or(facing);
        let tangent = turned(mixed(&mesh.tangents)).normalize_or_zero();
        let flat = (0..3).map(|i| mesh.flat.get(triangle[i]).copied().unwrap_or_default() * weights[i]).sum::<Vec2>();
        let mut tint = mixed(&mesh.tints).clamp(Vec3::ZERO, Vec3::ONE);
        let mut normal = smooth_normal;
        let size = place.matrix3.x_axis.length();
        if let Some(woven) = woven(material.weave, flat, pixel_mm / size) {
            let across = tangent.cross(smooth_normal) * side;
            normal = (normal - across * woven.slope.x - tangent * woven.slope.y).normalize_or(smooth_normal);
            tint = (tint * woven.shade).min(Vec3::ONE);
        }
        // Kept on the side it is seen from.
        let cosine = normal.dot(toward_eye);
        if cosine < LEAST_COSINE {
            normal = (normal + toward_eye * (LEAST_COSINE - cosine)).normalize_or(facing);
        }
        let flat_point = mixed(&mesh.points);
        let lifts = (0..3).map(|i| {
            let (corner, up) = (mesh.points[triangle[i]], mesh.normals[triangle[i]] * side);
            up * ((flat_point - corner).dot(up).min(0.0) * -weights[i])
        });
        let point = ray.origin + ray.toward * hit.distance;
        let lift = turned(lifts.sum::<Vec3>());
        let gloss = Gloss::of(material, normal, tangent);
        let mirrored = gloss.map_or(0.0, |gloss| shares.of(&gloss, toward_eye));
        let fuzzy = fuzzed(tint, material.fuzz, normal.dot(toward_eye));
        Self {
            point,
            lifted: point + lift,
            facing,
            normal,
            smooth_normal,
            tint: fuzzy * (1.0 - mirrored),
            gloss: gloss.map(|gloss| (gloss, mirror_colour(material, tint))),
            through: (material.through.clamp(0.0, 1.0), material.through_tint.clamp(Vec3::ZERO, Vec3::ONE)),
            soft_mm: material.soft_mm.max(0.0),
            key: key_of(hit, facet.kind),
        }
    }

    /// A place that light bounces from on its way: flat, dull, of one colour.
    pub(super) fn met(world: &World, ray: &Ray, hit: &RayHit) -> Self {
        let (facet, material) = world.facet(hit);
        let facing = if facet.normal.dot(ray.toward) > 0.0 { -facet.normal } else { facet.normal };
        let point = ray.origin + ray.toward * hit.distance;
        Self {
            point,
            lifted: point,
            facing,
            normal: facing,
            smooth_normal: facing,
            tint: facet.tint,
            gloss: None,
            through: (material.through.clamp(0.0, 1.0), material.through_tint.clamp(Vec3::ZERO, Vec3::ONE)),
            soft_mm: 0.0,
            key: key_of(hit, facet.kind),
        }
    }

    /// A ray that leaves from here, on the side it goes to.
    pub(super) fn leaving(&self, toward: Vec3) -> Ray {
        let is_front = self.facing.dot(toward) >= 0.0;
        let origin = if is_front { self.lifted + self.facing * OFF } else { self.point - self.facing * OFF };
        Ray { origin, toward }
    }
}

fn key_of(hit: &RayHit, kind: u16) -> u32 {
    hit.placed << 6 | u32::from(kind) & 63
}

/// Hairs and pile show their bright flanks where the surface is seen from its edge, and the dark between them from above.
fn fuzzed(tint: Vec3, fuzz: f32, cosine: f32) -> Vec3 {
    let fuzz = if fuzz > 0.0 { fuzz.min(1.0) } else { return tint };
    let edge = 1.0 - cosine.clamp(0.0, 1.0);
    let pale = tint * 0.4 + tint.map(f32::sqrt) * 0.36;
    let above = tint * (1.0 - 0.45 * fuzz * fuzz * (1.0 - edge * edge));
    above + (pale - above) * (fuzz * edge * edge)
}

/// Wax and skin mirror white; threads, which mirror much, mirror in their own colour.
fn mirror_colour(material: &Material, tint: Vec3) -> Vec3 {
    let own = super::directions::smooth(0.08, 0.3, material.mirror);
    Vec3::ONE + ((tint * 1.1).min(Vec3::ONE).map(f32::sqrt) - Vec3::ONE) * own
}
