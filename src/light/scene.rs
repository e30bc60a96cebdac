//! What is in front of the camera, and what lights it.

use std::sync::Arc;

use super::{Affine3A, Mesh, Vec3};

/// A mesh at a place. Many may share one mesh.
#[derive(Clone, Debug)]
pub struct PlacedMesh {
    /// The surfaces.
    pub mesh: Arc<Mesh>,
    /// Turn, size and place; size is the same in all directions.
    pub place: Affine3A,
}

/// A window: a rectangle that shines to one side.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WindowLight {
    /// Its middle, mm.
    pub centre: Vec3,
    /// From the middle to the middle of one side, mm.
    pub half_across: Vec3,
    /// From the middle to the middle of the next side, mm. It shines along `half_across` x `half_up`.
    pub half_up: Vec3,
    /// Light it gives, per colour.
    pub radiance: Vec3,
}

/// Everything that shines.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lights {
    /// The window.
    pub window: WindowLight,
    /// Light of the room from straight above.
    pub above: Vec3,
    /// Light of the room from straight below; between them it is mixed evenly by height.
    pub below: Vec3,
    /// A card that throws light back into the shade: its direction (of length 1) and its light.
    pub card: (Vec3, Vec3),
}

/// What is photographed.
#[derive(Clone, Debug)]
pub struct LitScene {
    /// All surfaces.
    pub placed: Vec<PlacedMesh>,
    /// What lights them.
    pub lights: Lights,
}

impl Lights {
    /// One soft window from the top left, a bright room, a warm card to the right.
    pub fn by_a_window() -> Self {
        let centre = Vec3::new(-360.0, 330.0, 500.0);
        let toward = -centre.normalize();
        let across = Vec3::Z.cross(toward).normalize();
        Self {
            window: WindowLight {
                centre,
                half_across: across * 135.0,
                half_up: toward.cross(across) * 175.0,
                radiance: Vec3::new(1.0, 0.955, 0.90) * 27.0,
            },
            above: Vec3::new(0.40, 0.42, 0.46),
            below: Vec3::new(0.14, 0.12, 0.11),
            card: (Vec3::new(0.85, -0.35, 0.40).normalize(), Vec3::new(0.42, 0.39, 0.35)),
        }
    }
}
