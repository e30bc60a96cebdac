//! Light: from surfaces, materials and a camera to a photograph. Knows nothing of flowers, hands or wrists.
//!
//! The space, said once: millimetres, right-handed, z up. Colours are linear light with the primaries of sRGB. All arithmetic
//! that is not exact comes from `libm`, so that one scene gives the same bytes on every computer and with any number of threads.
//!
//! The way of a picture: [`LitScene`] and [`Camera`] -> `tree` (what rays meet) -> `path` (light of one ray) -> `exposure` (samples by pixel
//! and surface) -> `denoise` and `skin` (light made smooth) -> `film` (bytes).

#![expect(
    clippy::cast_possible_truncation,
    clippy::cast_possible_wrap,
    clippy::cast_sign_loss,
    reason = "pixels, bins and bits are cut from numbers whose range is known where they are cut"
)]

mod camera;
mod denoise;
mod directions;
mod exposure;
mod film;
mod gloss;
mod material;
mod mesh;
mod noise;
mod path;
mod photograph;
mod progress;
mod sampler;
mod scene;
mod skin;
mod sources;
mod surface;
#[cfg(test)]
mod tests;
mod threads;
mod tree;
mod weave;

pub use camera::Camera;
pub use glam::{Affine3A, Mat3, Quat, Vec2, Vec3};
pub use material::{FineWeave, Material};
pub use mesh::{Mesh, MeshGrid};
pub use noise::{fbm, noise};
pub use photograph::{Photograph, Quality, ReadyScene, photograph};
pub use progress::PhotoProgress;
pub use scene::{Lights, LitScene, PlacedMesh, WindowLight};
