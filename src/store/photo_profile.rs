//! The colour profile of a photo: phones write Display P3, and what is read as sRGB then looks duller than the dress.
//!
//! Colours are converted in place, row by row, so that it takes no second picture of memory. A photo without a profile is sRGB,
//! as the web has it. A profile of grey or of inks is left alone: the decoder has made red, green and blue of these by itself.

use std::ops::ControlFlow;
use std::sync::Arc;

use image::DynamicImage;
use moxcms::{ColorProfile, DataColorSpace, Layout, ParsingOptions, Transform8BitExecutor, TransformOptions};

use super::log_file::{LogEvent, log_event};
use crate::colour::ProfileUse;

/// The largest profile that is read, bytes. Our choice: profiles of cameras and screens stay below 1 MB, those of printers below 4.
const MOST_PROFILE_BYTES: usize = 8 << 20;

/// Converts the colours of `image` to sRGB by its `profile`. `progress` gets shares from 0 to 1; `Break` when it said so.
pub(super) fn convert_to_srgb(
    image: DynamicImage,
    profile: Option<&[u8]>,
    progress: &mut dyn FnMut(f64) -> ControlFlow<()>,
) -> ControlFlow<(), (DynamicImage, ProfileUse)> {
    let Some(profile) = profile else { return ControlFlow::Continue((image, ProfileUse::NoProfile)) };
    match read_profile(profile) {
        Ok(Some(source)) => convert_by(image, &source, progress),
        Ok(None) => ControlFlow::Continue((image, ProfileUse::NotForScreens)),
        Err(why) => {
            log_event(&LogEvent::profile_not_used(&why));
            ControlFlow::Continue((image, ProfileUse::Unreadable))
        }
    }
}

/// The profile, when it is one of red, green and blue.
fn read_profile(bytes: &[u8]) -> Result<Option<ColorProfile>, moxcms::CmsError> {
    let limits = ParsingOptions { max_profile_size: MOST_PROFILE_BYTES, ..ParsingOptions::default() };
    let profile = ColorProfile::new_from_slice_with_options(bytes, limits)?;
    Ok((profile.color_space == DataColorSpace::Rgb).then_some(profile))
}

fn convert_by(
    image: DynamicImage,
    source: &ColorProfile,
    progress: &mut dyn FnMut(f64) -> ControlFlow<()>,
) -> ControlFlow<(), (DynamicImage, ProfileUse)> {
    let mut image = in_eight_bits(image);
    let layout = if image.color().has_alpha() { Layout::Rgba } else { Layout::Rgb };
    // Floating point: the fixed one is coarse in deep shade.
    let options = TransformOptions { prefer_fixed_point: false, ..TransformOptions::default() };
    let transform = match source.create_transform_8bit(layout, &ColorProfile::new_srgb(), layout, options) {
        Ok(transform) => transform,
        Err(why) => {
            log_event(&LogEvent::profile_not_used(&why));
            return ControlFlow::Continue((image, ProfileUse::Unreadable));
        }
    };
    let row_bytes = image.width() as usize * layout.channels();
    let done = match &mut image {
        DynamicImage::ImageRgba8(picture) => convert_rows(picture, row_bytes, &transform, progress)?,
        DynamicImage::ImageRgb8(picture) => convert_rows(picture, row_bytes, &transform, progress)?,
        _ => Err(moxcms::CmsError::InvalidLayout),
    };
    let used = if done.is_ok() { ProfileUse::Converted } else { ProfileUse::Unreadable };
    ControlFlow::Continue((image, used))
}

/// With three or four channels of eight bits; most photos are so already, and others let go of what they were.
fn in_eight_bits(image: DynamicImage) -> DynamicImage {
    match image {
        DynamicImage::ImageRgb8(_) | DynamicImage::ImageRgba8(_) => image,
        other if other.color().has_alpha() => DynamicImage::ImageRgba8(other.into_rgba8()),
        other => DynamicImage::ImageRgb8(other.into_rgb8()),
    }
}

fn convert_rows(
    pixels: &mut [u8],
    row_bytes: usize,
    transform: &Arc<Transform8BitExecutor>,
    progress: &mut dyn FnMut(f64) -> ControlFlow<()>,
) -> ControlFlow<(), Result<(), moxcms::CmsError>> {
    let rows = pixels.len() / row_bytes.max(1);
    let mut converted = vec![0; row_bytes];
    for (y, row) in pixels.chunks_exact_mut(row_bytes.max(1)).enumerate() {
        progress(y as f64 / rows.max(1) as f64)?;
        if let Err(why) = transform.transform(row, &mut converted) {
            return ControlFlow::Continue(Err(why));
        }
        row.copy_from_slice(&converted);
    }
    ControlFlow::Continue(Ok(()))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn plain() -> DynamicImage {
        DynamicImage::ImageRgb8(image::RgbImage::from_pixel(3, 2, image::Rgb([200, 60, 90])))
    }

    fn convert(profile: Option<&[u8]>) -> (DynamicImage, ProfileUse) {
        match convert_to_srgb(plain(), profile, &mut |_| ControlFlow::Continue(())) {
            ControlFlow::Continue(converted) => converted,
            ControlFlow::Break(()) => panic!("stopped"),
        }
    }

    /// A profile that says what sRGB is leaves a colour as it is; one of grey is not for these pixels.
    #[test]
    fn only_what_differs_from_srgb_is_changed() {
        let srgb = ColorProfile::new_srgb().encode().unwrap();
        assert_eq!(convert(Some(&srgb)), (plain(), ProfileUse::Converted));
        assert_eq!(convert(None), (plain(), ProfileUse::NoProfile));
        let grey = ColorProfile::new_gray_with_gamma(2.2).encode().unwrap();
        assert_eq!(convert(Some(&grey)), (plain(), ProfileUse::NotForScreens));
    }

    /// Every byte of a profile turned over, and every length of it: an answer each time, and the picture stays whole.
    #[test]
    fn a_damaged_profile_never_panics() {
        let whole = ColorProfile::new_display_p3().encode().unwrap();
        let mut unreadable = 0;
        for at in 0..whole.len() {
            for damage in [0xff, 0x80, 0x01] {
                let mut damaged = whole.clone();
                damaged[at] ^= damage;
                let (picture, _) = convert(Some(&damaged));
                assert_eq!((picture.width(), picture.height()), (3, 2));
            }
            unreadable += u32::from(convert(Some(&whole[..at])) == (plain(), ProfileUse::Unreadable));
        }
        assert!(unreadable > 100, "{unreadable} of {}", whole.len());
    }

    #[test]
    fn converting_can_be_watched_and_stopped() {
        let profile = ColorProfile::new_display_p3().encode().unwrap();
        let mut heard = Vec::new();
        let stopped = convert_to_srgb(plain(), Some(&profile), &mut |share| {
            heard.push(share);
            if heard.len() == 2 { ControlFlow::Break(()) } else { ControlFlow::Continue(()) }
        });
        assert!(stopped.is_break());
        assert_eq!(heard, [0.0, 0.5]);
    }
}
