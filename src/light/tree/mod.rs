//! Which surface a ray meets first: a tree of boxes for every mesh, and one more over the meshes that are placed.
//!
//! Boxes are split by the surface-area heuristic (Wald, "On fast construction of SAH-based bounding volume hierarchies", 2007) into a
//! tree of two branches, which is then folded into nodes of four whose boxes are tested at once.

mod build;
mod mesh_tree;
mod ray;
mod wide;
mod world;

pub(super) use ray::{Ray, RayHit};
pub(super) use wide::Waiting;
pub(super) use world::World;
