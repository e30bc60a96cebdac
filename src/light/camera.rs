//! A camera with a thin lens.

use super::directions::in_disk;
use super::tree::Ray;
use super::{Vec2, Vec3};

/// Where the camera stands and what it takes in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Camera {
    /// Where its lens is, mm.
    pub eye: Vec3,
    /// What is in the middle of the picture, and sharp, mm.
    pub at: Vec3,
    /// What points up in the picture; not along the line of sight.
    pub up: Vec3,
    /// How much of the plane through `at` the picture shows from left to right, mm.
    pub width_mm: f32,
    /// Radius of the lens, mm; nought makes everything sharp.
    pub lens_mm: f32,
}

/// A camera made ready for pictures of one size.
#[derive(Clone, Copy, Debug)]
pub(super) struct Sight {
    eye: Vec3,
    at: Vec3,
    right: Vec3,
    up: Vec3,
    lens_mm: f32,
    /// Width of a pixel at what is sharp, mm.
    pub(super) pixel_mm: f32,
    /// From the middle of the picture to its left and upper edge, in pixels.
    middle: Vec2,
}

impl Sight {
    pub(super) fn of(camera: &Camera, width_px: u32, height_px: u32) -> Self {
        let forward = (camera.at - camera.eye).try_normalize().unwrap_or(Vec3::NEG_Z);
        let right = forward.cross(camera.up).try_normalize().unwrap_or_else(|| forward.any_orthonormal_vector());
        Self {
            eye: camera.eye,
            at: if camera.at == camera.eye { camera.eye + forward } else { camera.at },
            right,
            up: right.cross(forward),
            lens_mm: camera.lens_mm.max(0.0),
            pixel_mm: camera.width_mm / width_px.max(1) as f32,
            middle: Vec2::new(width_px as f32, height_px as f32) * 0.5,
        }
    }

    /// The ray through a place of the picture, in pixels from its upper left corner, and the width of a pixel per mm along it.
    pub(super) fn ray(&self, place: Vec2, lens: Vec2) -> (Ray, f32) {
        let off = (place - self.middle) * self.pixel_mm;
        let sharp = self.at + self.right * off.x - self.up * off.y;
        let disk = in_disk(lens) * self.lens_mm;
        let origin = self.eye + self.right * disk.x + self.up * disk.y;
        let way = sharp - origin;
        let distance = way.length();
        (Ray { origin, toward: way / distance }, self.pixel_mm / distance)
    }
}
