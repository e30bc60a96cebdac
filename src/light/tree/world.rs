//! All placed meshes under one tree; meshes that are placed many times are built once.

use std::collections::BTreeMap;
use std::sync::Arc;
use std::sync::Mutex;

use glam::{Affine3A, Vec3A};

use super::build::{Box3, BoxedThing, Branch};
use super::mesh_tree::{Facet, MeshTree};
use super::ray::{FourRays, Ray, RayHit};
use super::wide::{Waiting, WideNode, folded, walk};
use crate::light::threads::share_out;
use crate::light::{Material, Mesh, PlacedMesh, Vec3};

/// A mesh tree at a place.
#[derive(Debug)]
struct PlacedTree {
    mesh: usize,
    world_from_mesh: Affine3A,
    mesh_from_world: Affine3A,
    is_moved: bool,
}

/// Everything that rays can meet.
#[derive(Debug)]
pub(in crate::light) struct World {
    meshes: Vec<MeshTree>,
    placed: Vec<PlacedTree>,
    nodes: Vec<WideNode>,
}

impl World {
    /// The trees of all placed meshes, built by so many threads. A mesh whose place is flat or no number is left out.
    pub(in crate::light) fn of(placed: &[PlacedMesh], n_threads: usize) -> Self {
        let mut numbers: BTreeMap<*const Mesh, usize> = BTreeMap::new();
        let mut sources: Vec<Arc<Mesh>> = Vec::new();
        let mut trees = Vec::new();
        for at in placed {
            let mesh = *numbers.entry(Arc::as_ptr(&at.mesh)).or_insert_with(|| {
                sources.push(at.mesh.clone());
                sources.len() - 1
            });
            let back = at.place.inverse();
            if at.place.is_finite() && back.is_finite() {
                trees.push(PlacedTree {
                    mesh,
                    world_from_mesh: at.place,
                    mesh_from_world: back,
                    is_moved: at.place != Affine3A::IDENTITY,
                });
            }
        }
        let meshes = built(&sources, n_threads);
        let boxed = |(id, tree): (usize, &PlacedTree)| {
            let around = meshes[tree.mesh].boxes().into_iter().fold(Box3::EMPTY, |all, of| all.with(moved(of, tree)));
            BoxedThing { around, id: id as u32 }
        };
        let mut things: Vec<BoxedThing> = trees.iter().enumerate().map(boxed).collect();
        things.retain(|thing| thing.around.low.cmple(thing.around.high).all());
        let nodes = if things.is_empty() {
            Vec::new()
        } else {
            folded(&Branch::of(&mut things, 1), |ids| ids.first().copied().unwrap_or_default())
        };
        Self { meshes, placed: trees, nodes }
    }

    /// What the ray meets first, if it is nearer than so far.
    pub(in crate::light) fn first_hit(&self, ray: &Ray, far: f32, waiting: &mut Waiting) -> Option<RayHit> {
        let mut hit = RayHit::none_within(far);
        self.shoot::<false>(ray, &mut hit, waiting);
        hit.is_some().then_some(hit)
    }

    /// Whether anything is on the ray before so far.
    pub(in crate::light) fn is_blocked(&self, ray: &Ray, far: f32, waiting: &mut Waiting) -> bool {
        self.shoot::<true>(ray, &mut RayHit::none_within(far), waiting)
    }

    fn shoot<const ANY: bool>(&self, ray: &Ray, hit: &mut RayHit, waiting: &mut Waiting) -> bool {
        waiting.clear();
        let mut far = hit.distance;
        walk::<ANY>(&self.nodes, &FourRays::of(ray), &mut far, waiting, |leaf, far, waiting| {
            let Some(tree) = self.placed.get(leaf as usize) else { return false };
            let is_met = self.meshes[tree.mesh].shoot::<ANY>(&tree.seen(ray), hit, waiting);
            if is_met {
                hit.placed = leaf;
                *far = hit.distance;
            }
            is_met
        })
    }

    /// The mesh that was met, and where it is placed.
    pub(in crate::light) fn met(&self, hit: &RayHit) -> (&MeshTree, &Affine3A) {
        let tree = &self.placed[hit.placed as usize];
        (&self.meshes[tree.mesh], &tree.world_from_mesh)
    }

    /// The triangle that was met, flat, turned as it is placed, with its material.
    pub(in crate::light) fn facet(&self, hit: &RayHit) -> (Facet, &Material) {
        let tree = &self.placed[hit.placed as usize];
        let mesh = &self.meshes[tree.mesh];
        let mut facet = mesh.facets[hit.triangle as usize];
        if tree.is_moved {
            facet.normal = tree.world_from_mesh.transform_vector3(facet.normal).normalize_or(Vec3::Z);
        }
        (facet, &mesh.mesh.materials[usize::from(facet.kind)])
    }
}

impl PlacedTree {
    /// The ray as the mesh sees it; distances along it stay the same.
    fn seen(&self, ray: &Ray) -> Ray {
        if !self.is_moved {
            return *ray;
        }
        let back = &self.mesh_from_world;
        Ray { origin: back.transform_point3(ray.origin), toward: back.transform_vector3(ray.toward) }
    }
}

fn built(sources: &[Arc<Mesh>], n_threads: usize) -> Vec<MeshTree> {
    let done: Mutex<BTreeMap<usize, MeshTree>> = Mutex::new(BTreeMap::new());
    // The largest first, so that no thread is left alone with it at the end.
    let mut order: Vec<usize> = (0..sources.len()).collect();
    order.sort_by_key(|i| std::cmp::Reverse(sources[*i].triangles.len()));
    share_out(
        n_threads,
        order.into_iter(),
        || (),
        |(), i| {
            let tree = MeshTree::of(sources[i].clone());
            if let Ok(mut done) = done.lock() {
                done.insert(i, tree);
            }
        },
    );
    done.into_inner().unwrap_or_default().into_values().collect()
}

/// The box that holds a box once it is placed.
fn moved(of: Box3, tree: &PlacedTree) -> Box3 {
    if !tree.is_moved {
        return of;
    }
    Box3::around((0..8).map(|i| {
        let pick = |bit: usize, axis: usize| if i >> bit & 1 == 0 { of.low[axis] } else { of.high[axis] };
        let corner = tree.world_from_mesh.transform_point3a(Vec3A::new(pick(0, 0), pick(1, 1), pick(2, 2)));
        // A little larger, against rounding.
        corner + (corner - tree.world_from_mesh.translation) * 1e-6
    }))
}
