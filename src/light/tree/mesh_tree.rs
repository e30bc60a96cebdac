//! The tree of one mesh: its triangles, four to a leaf, tested at once (Moller and Trumbore, "Fast, minimum storage ray-triangle
//! intersection", 1997).

use std::sync::Arc;

use glam::{Vec3A, Vec4};

use super::build::{Box3, BoxedThing, Branch};
use super::ray::{FourRays, Ray, RayHit};
use super::wide::{Waiting, WideNode, folded, walk};
use crate::light::{Mesh, Vec3};

/// Shares of a triangle's corners may be less than nought by so much: closes the seam between two neighbours against rounding.
const SEAM: f32 = -2e-6;

/// Four triangles: a corner each, and the two sides from there.
#[derive(Clone, Copy, Debug)]
struct TriangleQuad {
    corner: [Vec4; 3],
    sides: [[Vec4; 3]; 2],
    triangles: [u32; 4],
}

/// One triangle as light that bounces sees it: flat and of one colour.
#[derive(Clone, Copy, Debug)]
pub(in crate::light) struct Facet {
    /// Away from the surface, of length 1.
    pub(in crate::light) normal: Vec3,
    /// Share of light given back.
    pub(in crate::light) tint: Vec3,
    /// Place in the materials of the mesh.
    pub(in crate::light) kind: u16,
}

/// A mesh that rays can be shot at.
#[derive(Debug)]
pub(in crate::light) struct MeshTree {
    /// The mesh.
    pub(in crate::light) mesh: Arc<Mesh>,
    /// Its triangles; those that cannot be met are there too, of any look.
    pub(in crate::light) facets: Vec<Facet>,
    nodes: Vec<WideNode>,
    quads: Vec<TriangleQuad>,
}

impl MeshTree {
    /// The tree of a mesh. Triangles without area, with a place that is no number or with a corner that is not there are left out.
    pub(super) fn of(mesh: Arc<Mesh>) -> Self {
        let mut things = Vec::with_capacity(mesh.triangles.len());
        let mut facets = Vec::with_capacity(mesh.triangles.len());
        for (id, triangle) in mesh.triangles.iter().enumerate() {
            let facet = facet(&mesh, id, *triangle);
            facets.push(facet.unwrap_or(Facet { normal: Vec3::Z, tint: Vec3::ZERO, kind: 0 }));
            if facet.is_some() {
                let corners = triangle.map(|i| Vec3A::from(mesh.points[i as usize]));
                things.push(BoxedThing { around: Box3::around(corners), id: id as u32 });
            }
        }
        let mut quads = Vec::with_capacity(things.len() / 2);
        let nodes = if things.is_empty() {
            Vec::new()
        } else {
            folded(&Branch::of(&mut things, 4), |ids| {
                quads.push(TriangleQuad::of(&mesh, ids));
                quads.len() as u32 - 1
            })
        };
        Self { mesh, facets, nodes, quads }
    }

    /// Boxes that together hold the mesh, some sixteen of them.
    pub(super) fn boxes(&self) -> Vec<Box3> {
        let Some(root) = self.nodes.first() else { return Vec::new() };
        let inner: Vec<Box3> = root.nodes().filter_map(|i| self.nodes.get(i)).flat_map(WideNode::boxes).collect();
        // Branches of the root that are leaves have no boxes inside.
        if root.nodes().count() == root.boxes().count() { inner } else { root.boxes().collect() }
    }

    /// Shortens `hit` to what the ray meets before; gives whether it does. With `ANY`, to anything it meets.
    pub(super) fn shoot<const ANY: bool>(&self, ray: &Ray, hit: &mut RayHit, waiting: &mut Waiting) -> bool {
        let four = FourRays::of(ray);
        let mut far = hit.distance;
        walk::<ANY>(&self.nodes, &four, &mut far, waiting, |leaf, far, _| {
            let is_met = self.quads.get(leaf as usize).is_some_and(|quad| quad.shoot(&four, hit));
            *far = hit.distance;
            is_met
        })
    }
}

fn facet(mesh: &Mesh, id: usize, triangle: [u32; 3]) -> Option<Facet> {
    let at = |list: &[Vec3], i: u32| list.get(i as usize).copied().filter(|v| v.is_finite());
    let three = |list: &[Vec3]| Some([at(list, triangle[0])?, at(list, triangle[1])?, at(list, triangle[2])?]);
    let [a, b, c] = three(&mesh.points)?;
    let [na, nb, nc] = three(&mesh.normals)?;
    let [ta, tb, tc] = three(&mesh.tints)?;
    three(&mesh.tangents)?;
    let kind = *mesh.kinds.get(id)?;
    mesh.materials.get(usize::from(kind))?;
    let normal = (b - a).cross(c - a).try_normalize()?;
    let normal = if normal.dot(na + nb + nc) < 0.0 { -normal } else { normal };
    Some(Facet { normal, tint: ((ta + tb + tc) / 3.0).clamp(Vec3::ZERO, Vec3::ONE), kind })
}

impl TriangleQuad {
    fn of(mesh: &Mesh, ids: &[u32]) -> Self {
        let mut quad = Self { corner: [Vec4::ZERO; 3], sides: [[Vec4::ZERO; 3]; 2], triangles: [u32::MAX; 4] };
        for (lane, id) in ids.iter().take(4).enumerate() {
            let [a, b, c] = mesh.triangles[*id as usize].map(|i| mesh.points[i as usize]);
            for axis in 0..3 {
                quad.corner[axis][lane] = a[axis];
                quad.sides[0][axis][lane] = (b - a)[axis];
                quad.sides[1][axis][lane] = (c - a)[axis];
            }
            quad.triangles[lane] = *id;
        }
        quad
    }

    #[inline]
    fn shoot(&self, ray: &FourRays, hit: &mut RayHit) -> bool {
        let [one, other] = &self.sides;
        let p = cross(&ray.toward, other);
        let inverse = Vec4::ONE / dot(one, &p);
        let s = [0, 1, 2].map(|axis| ray.origin[axis] - self.corner[axis]);
        let u = dot(&s, &p) * inverse;
        let q = cross(&s, one);
        let v = dot(&ray.toward, &q) * inverse;
        let t = dot(other, &q) * inverse;
        let least = Vec4::splat(SEAM);
        let is_inside = u.cmpge(least) & v.cmpge(least) & (u + v).cmple(Vec4::splat(1.0 - SEAM));
        let is_ahead = t.cmpgt(Vec4::splat(1e-5)) & t.cmplt(Vec4::splat(hit.distance));
        let mut mask = (is_inside & is_ahead).bitmask();
        if mask == 0 {
            return false;
        }
        let mut is_met = false;
        while mask != 0 {
            let lane = mask.trailing_zeros() as usize & 3;
            mask &= mask - 1;
            if t[lane] < hit.distance && self.triangles[lane] != u32::MAX {
                *hit = RayHit { distance: t[lane], triangle: self.triangles[lane], u: u[lane], v: v[lane], ..*hit };
                is_met = true;
            }
        }
        is_met
    }
}

#[inline]
fn cross(a: &[Vec4; 3], b: &[Vec4; 3]) -> [Vec4; 3] {
    [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}

#[inline]
fn dot(a: &[Vec4; 3], b: &[Vec4; 3]) -> Vec4 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}
