//! Photographs of a piece to PNG files that print life-size.

use super::pixels::Pixels;
use super::png_file::encoded;
use crate::light::{Camera, PhotoProgress, Photograph, Quality, photograph};
use crate::model::{Detail, Shot};

/// Width over height of the picture a client gets: as high as a telephone likes it.
pub const PHOTO_SHAPE: f32 = 0.8;
/// Pixels across when none are asked for.
pub const PHOTO_WIDTH_PX: u32 = 1000;
/// Millimetres in a metre.
const MM_PER_METRE: f64 = 1000.0;

/// How fine a photograph is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum PhotoFinish {
    /// A first look: two paths of light a pixel.
    Quick,
    /// For a client: six.
    #[default]
    Fine,
    /// For print and for an album: sixteen.
    Finest,
}

impl PhotoFinish {
    /// All of them, from the quickest.
    pub const ALL: [Self; 3] = [Self::Quick, Self::Fine, Self::Finest];

    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            Self::Quick => "quick",
            Self::Fine => "fine",
            Self::Finest => "finest",
        }
    }

    /// Paths of light a pixel.
    pub fn samples(self) -> u32 {
        match self {
            Self::Quick => 2,
            Self::Fine => 6,
            Self::Finest => 16,
        }
    }
}

/// Width and height of a photograph of this width, pixels.
pub fn photograph_size(width_px: u32) -> [u32; 2] {
    let width_px = width_px.max(1);
    [width_px, crate::units::ceil_u32(f64::from(width_px) / f64::from(PHOTO_SHAPE))]
}

/// The photograph as a PNG of this width, a quarter higher than wide. `None` if `progress` was told to stop.
pub fn photograph_png(
    shot: &Shot<'_>,
    width_px: u32,
    finish: PhotoFinish,
    progress: &PhotoProgress,
) -> Option<Vec<u8>> {
    let [width_px, height_px] = photograph_size(width_px);
    let camera = shot.camera(PHOTO_SHAPE);
    let quality = Quality { width_px, height_px, samples: finish.samples() };
    let taken = photograph(&shot.scene(Detail::Full), &camera, &quality, progress)?;
    Some(photograph_file(&taken, &camera))
}

/// A photograph that was taken as the bytes of a PNG, with the pixels to the metre at which the middle of the piece prints life-size.
pub fn photograph_file(taken: &Photograph, camera: &Camera) -> Vec<u8> {
    let rgba = taken.rgb.chunks_exact(3).flat_map(|p| [p[0], p[1], p[2], u8::MAX]).collect();
    let pixels = Pixels { width: taken.width, height: taken.height, rgba };
    let per_metre = f64::from(taken.width) / f64::from(camera.width_mm) * MM_PER_METRE;
    // Writing to memory fails only when the size is nothing.
    encoded(&pixels, per_metre).unwrap_or_default()
}
