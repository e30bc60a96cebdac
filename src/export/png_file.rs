//! Scenes to PNG files that print life-size.

use png::{BitDepth, ColorType, Compression, Encoder, PixelDimensions, SrgbRenderingIntent, Unit};

use super::pixels::{Finish, Pixels, largest_width_px, raster, view_of};
use crate::scene::{Group, Scene};

/// Millimetres in a metre.
const MM_PER_METRE: f64 = 1000.0;

/// The picture `width_px` wide, with the pixels per metre at which it prints life-size. One that would be too high is made
/// smaller as a whole, never cut: see [`largest_width_px`].
pub fn png_of(scene: &Scene, width_px: u32) -> Vec<u8> {
    let width_px = width_px.min(largest_width_px(scene));
    let (view, width, height) = view_of(scene, width_px);
    let groups: Vec<&Group> = scene.groups.iter().collect();
    let mut pixels = raster(&groups, view, width, height, Finish::Fine);
    straighten(&mut pixels);
    let per_metre = f64::from(width) / scene.frame.height() * MM_PER_METRE;
    // Writing to memory fails only when the size is nothing, and `view_of` never gives that.
    encoded(&pixels, per_metre).unwrap_or_default()
}

/// Pixels as a file with so many of them to the metre.
pub(super) fn encoded(pixels: &Pixels, per_metre: f64) -> Result<Vec<u8>, png::EncodingError> {
    let mut bytes = Vec::new();
    let mut encoder = Encoder::new(&mut bytes, pixels.width, pixels.height);
    let opaque = pixels.rgba.chunks_exact(4).all(|pixel| pixel[3] == u8::MAX);
    encoder.set_color(if opaque { ColorType::Rgb } else { ColorType::Rgba });
    encoder.set_depth(BitDepth::Eight);
    encoder.set_compression(Compression::Fast);
    encoder.set_source_srgb(SrgbRenderingIntent::Perceptual);
    let per_metre = whole(per_metre);
    encoder.set_pixel_dims(Some(PixelDimensions { xppu: per_metre, yppu: per_metre, unit: Unit::Meter }));
    let mut writer = encoder.write_header()?;
    if opaque {
        let rgb: Vec<u8> = pixels.rgba.chunks_exact(4).flat_map(|pixel| [pixel[0], pixel[1], pixel[2]]).collect();
        writer.write_image_data(&rgb)?;
    } else {
        writer.write_image_data(&pixels.rgba)?;
    }
    writer.finish()?;
    Ok(bytes)
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to what the chunk holds")]
fn whole(per_metre: f64) -> u32 {
    if per_metre.is_finite() { per_metre.round().clamp(1.0, 1e9) as u32 } else { 1 }
}

/// PNG wants colour that is not multiplied by its cover.
fn straighten(pixels: &mut Pixels) {
    for pixel in pixels.rgba.chunks_exact_mut(4) {
        let alpha = u32::from(pixel[3]);
        if alpha != 0 && alpha != 255 {
            for channel in &mut pixel[..3] {
                let straight = (u32::from(*channel) * 255 + alpha / 2) / alpha;
                *channel = u8::try_from(straight).unwrap_or(u8::MAX);
            }
        }
    }
}
