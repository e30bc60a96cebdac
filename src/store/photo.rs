//! Photos of dresses: from a file or from dropped and pasted bytes to pixels, the right way up.
//!
//! What a picture claims to be is looked at before anything is unpacked: 48 KB can claim 400 million pixels. JPEG and PNG.

use std::io::Cursor;
use std::ops::ControlFlow;
use std::path::Path;

use image::metadata::Orientation;
use image::{DynamicImage, GenericImageView, ImageDecoder, ImageError, ImageFormat, ImageReader, Limits};

use super::photo_fault::{LONGEST_SIDE, MOST_MEGABYTES, PhotoFault};
use super::photo_profile::convert_to_srgb;
use super::reading::{bytes_up_to, name_of};
use super::store_error::{Cause, StoreError};
use crate::colour::{Photo, Rgb};

/// The most memory that unpacking may take, bytes.
const MOST_MEMORY: u64 = 256 << 20;
const MOST_BYTES: u64 = MOST_MEGABYTES << 20;

/// Shares of the work that are done when the file is read, when it is unpacked, and when its colours are converted.
const DONE: [f64; 3] = [0.05, 0.5, 0.6];

/// The photo in a file; none when `progress`, which hears shares from 0 to 1, said to stop.
pub fn read_photo(path: &Path, progress: &mut dyn FnMut(f64) -> ControlFlow<()>) -> Result<Option<Photo>, StoreError> {
    if progress(0.0).is_break() {
        return Ok(None);
    }
    let bytes = bytes_up_to(path, MOST_BYTES, Cause::Photo(PhotoFault::TooManyBytes))?;
    read_photo_bytes(&bytes, &name_of(path), progress)
}

/// The photo in these bytes, dropped or pasted; `name` is what it is called in a refusal.
pub fn read_photo_bytes(
    bytes: &[u8],
    name: &str,
    progress: &mut dyn FnMut(f64) -> ControlFlow<()>,
) -> Result<Option<Photo>, StoreError> {
    let refuse = |trouble| StoreError::new(name, Cause::Photo(trouble));
    if progress(DONE[0]).is_break() {
        return Ok(None);
    }
    let DecodedPhoto { image, way_up, profile } = unpacked(bytes).map_err(refuse)?;
    if progress(DONE[1]).is_break() {
        return Ok(None);
    }
    let part = |from: f64, to: f64, share: f64| from + (to - from) * share;
    let converted = convert_to_srgb(image, profile.as_deref(), &mut |share| progress(part(DONE[1], DONE[2], share)));
    let ControlFlow::Continue((image, profile)) = converted else { return Ok(None) };
    let (width, height) = upright_size(image.dimensions(), way_up);
    let pixel = |x: u32, y: u32| {
        let (x, y) = stored_place((x, y), image.dimensions(), way_up);
        colour_at(&image, x, y)
    };
    let photo = Photo::made_of(width, height, pixel, &mut |share| progress(part(DONE[2], 1.0, share)));
    Ok(photo.map(|photo| photo.with_profile(profile)))
}

/// A picture as it is stored.
struct DecodedPhoto {
    image: DynamicImage,
    /// How it must be turned.
    way_up: Orientation,
    /// Its colour profile, as the file holds it.
    profile: Option<Vec<u8>>,
}

/// The most bytes of a picture that are read.
pub(super) fn most_bytes() -> u64 {
    MOST_BYTES
}

/// The picture in these bytes the right way up, in the colours of the file.
pub(super) fn upright(bytes: &[u8]) -> Result<DynamicImage, PhotoFault> {
    let DecodedPhoto { mut image, way_up, .. } = unpacked(bytes)?;
    image.apply_orientation(way_up);
    Ok(image)
}

fn unpacked(bytes: &[u8]) -> Result<DecodedPhoto, PhotoFault> {
    if bytes.is_empty() {
        return Err(PhotoFault::Empty);
    }
    if bytes.len() as u64 > MOST_BYTES {
        return Err(PhotoFault::TooManyBytes);
    }
    let format = image::guess_format(bytes).ok().filter(|f| matches!(f, ImageFormat::Jpeg | ImageFormat::Png));
    let format = format.ok_or(PhotoFault::NotAPhoto)?;
    let reader = |limits: Limits| {
        let mut reader = ImageReader::with_format(Cursor::new(bytes), format);
        reader.limits(limits);
        reader
    };
    let mut limits = Limits::no_limits();
    limits.max_alloc = Some(MOST_MEMORY);
    let (width, height) = reader(limits.clone()).into_dimensions().map_err(|e| trouble_of(&e))?;
    if width.max(height) > LONGEST_SIDE {
        return Err(PhotoFault::TooManyPixels { width, height });
    }
    limits.max_image_width = Some(LONGEST_SIDE);
    limits.max_image_height = Some(LONGEST_SIDE);
    if format == ImageFormat::Jpeg && !ends(bytes) {
        return Err(PhotoFault::CutShort);
    }
    let mut decoder = reader(limits.clone()).into_decoder().map_err(|e| trouble_of(&e))?;
    if decoder.total_bytes() > MOST_MEMORY {
        return Err(PhotoFault::TooMuchMemory);
    }
    let way_up = decoder.orientation().unwrap_or(Orientation::NoTransforms);
    // A profile that cannot even be taken out of the file is one that cannot be read.
    let profile = decoder.icc_profile().unwrap_or_else(|_| Some(Vec::new()));
    let image = DynamicImage::from_decoder(decoder).map_err(|e| trouble_of(&e))?;
    Ok(DecodedPhoto { image, way_up, profile })
}

fn trouble_of(why: &ImageError) -> PhotoFault {
    match why {
        ImageError::Limits(_) => PhotoFault::TooMuchMemory,
        ImageError::IoError(_) => PhotoFault::CutShort,
        ImageError::Unsupported(_) => PhotoFault::NotAPhoto,
        _ => PhotoFault::Damaged,
    }
}

/// Whether the scan of a JPEG comes to its end mark. Without it the rest would be unpacked as grey. The small picture that a
/// camera puts into the head has an end mark of its own, so the head is passed over.
fn ends(jpeg: &[u8]) -> bool {
    const END: [u8; 2] = [0xff, 0xd9];
    const SCAN: u8 = 0xda;
    let mut at = 2;
    while let Some([0xff, kind, high, low]) = jpeg.get(at..at + 4) {
        if *kind == SCAN {
            return jpeg[at..].windows(2).any(|pair| pair == END);
        }
        at += 2 + usize::from(u16::from_be_bytes([*high, *low]));
    }
    false
}

fn colour_at(image: &DynamicImage, x: u32, y: u32) -> Rgb {
    if let DynamicImage::ImageRgb8(plain) = image {
        let [r, g, b] = plain.get_pixel(x, y).0;
        return Rgb { r, g, b };
    }
    let [r, g, b, alpha] = image.get_pixel(x, y).0;
    // What shows through is white, as paper is.
    let over = |c: u8| {
        let (c, a) = (u32::from(c), u32::from(alpha));
        u8::try_from((c * a + 255 * (255 - a) + 127) / 255).unwrap_or(u8::MAX)
    };
    Rgb { r: over(r), g: over(g), b: over(b) }
}

fn upright_size((width, height): (u32, u32), way_up: Orientation) -> (u32, u32) {
    match way_up {
        Orientation::NoTransforms
        | Orientation::Rotate180
        | Orientation::FlipHorizontal
        | Orientation::FlipVertical => (width, height),
        Orientation::Rotate90 | Orientation::Rotate270 | Orientation::Rotate90FlipH | Orientation::Rotate270FlipH => {
            (height, width)
        }
    }
}

/// Where a pixel of the upright picture lies in the stored one, which has this size. Turns are with the clock.
fn stored_place((x, y): (u32, u32), (width, height): (u32, u32), way_up: Orientation) -> (u32, u32) {
    let (right, bottom) = (width.saturating_sub(1), height.saturating_sub(1));
    match way_up {
        Orientation::NoTransforms => (x, y),
        Orientation::Rotate90 => (y, bottom - x),
        Orientation::Rotate180 => (right - x, bottom - y),
        Orientation::Rotate270 => (right - y, x),
        Orientation::FlipHorizontal => (right - x, y),
        Orientation::FlipVertical => (x, bottom - y),
        Orientation::Rotate90FlipH => (y, x),
        Orientation::Rotate270FlipH => (right - y, bottom - x),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Against the turning of the crate `image` itself.
    #[test]
    fn every_way_up_is_turned_as_exif_means_it() {
        let stored =
            image::RgbImage::from_fn(3, 2, |x, y| image::Rgb([u8::try_from(x).unwrap(), u8::try_from(y).unwrap(), 9]));
        for exif in 1..=8 {
            let way_up = Orientation::from_exif(exif).unwrap();
            let mut turned = DynamicImage::ImageRgb8(stored.clone());
            turned.apply_orientation(way_up);
            assert_eq!(upright_size((3, 2), way_up), turned.dimensions(), "{way_up:?}");
            for (x, y, pixel) in turned.to_rgb8().enumerate_pixels() {
                let (sx, sy) = stored_place((x, y), (3, 2), way_up);
                assert_eq!(stored.get_pixel(sx, sy), pixel, "{way_up:?}");
            }
        }
    }
}
