//! The logo of a shop: read from any picture within the limits of photos, kept small as PNG in the shop's folder.

use std::path::Path;

use image::imageops::FilterType;
use image::{DynamicImage, ImageFormat, RgbaImage};

use super::photo::{most_bytes, upright};
use super::photo_fault::PhotoFault;
use super::reading::{bytes_up_to, name_of};
use super::store_error::{Cause, StoreError};
use crate::book::Logo;

/// The longest side that is kept, pixels: 300 to the inch at twice the size that stands on a paper; our choice.
const LONGEST_KEPT_PX: u32 = 900;

/// The logo in a file: PNG or JPEG, the right way up, made smaller where it is larger than any paper shows.
pub fn read_logo(path: &Path) -> Result<Logo, StoreError> {
    let bytes = bytes_up_to(path, most_bytes(), Cause::Logo(PhotoFault::TooManyBytes))?;
    logo_of_bytes(&bytes).map_err(|fault| StoreError::new(&name_of(path), Cause::Logo(fault)))
}

fn logo_of_bytes(bytes: &[u8]) -> Result<Logo, PhotoFault> {
    let picture = made_smaller(upright(bytes)?);
    let (width, height) = picture.dimensions();
    Logo::new(width, height, picture.into_raw()).ok_or(PhotoFault::Empty)
}

/// At most as long as is kept. Colours are multiplied by how solid they are meanwhile, so that none bleeds out of what is clear.
fn made_smaller(picture: DynamicImage) -> RgbaImage {
    if picture.width().max(picture.height()) <= LONGEST_KEPT_PX {
        return picture.into_rgba8();
    }
    let mut picture = picture.into_rgba8();
    let share = |c: u8, of: u8| u8::try_from((u32::from(c) * u32::from(of) + 127) / 255).unwrap_or(u8::MAX);
    for pixel in picture.pixels_mut() {
        let [r, g, b, a] = pixel.0;
        pixel.0 = [share(r, a), share(g, a), share(b, a), a];
    }
    let whole = DynamicImage::ImageRgba8(picture);
    let mut small = whole.resize(LONGEST_KEPT_PX, LONGEST_KEPT_PX, FilterType::Triangle).into_rgba8();
    let whole_of = |c: u8, of: u8| {
        let whole = (u32::from(c) * 255 + u32::from(of) / 2).checked_div(u32::from(of));
        u8::try_from(whole.unwrap_or(0)).unwrap_or(u8::MAX)
    };
    for pixel in small.pixels_mut() {
        let [r, g, b, a] = pixel.0;
        pixel.0 = [whole_of(r, a), whole_of(g, a), whole_of(b, a), a];
    }
    small
}

/// A logo as the bytes of a PNG.
pub(super) fn logo_png(logo: &Logo) -> Option<Vec<u8>> {
    let picture = RgbaImage::from_raw(logo.width_px(), logo.height_px(), logo.rgba().to_vec())?;
    let mut bytes = std::io::Cursor::new(Vec::new());
    picture.write_to(&mut bytes, ImageFormat::Png).ok()?;
    Some(bytes.into_inner())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn png(width: u32, height: u32, pixel: [u8; 4]) -> Vec<u8> {
        let picture = RgbaImage::from_pixel(width, height, image::Rgba(pixel));
        let mut bytes = std::io::Cursor::new(Vec::new());
        picture.write_to(&mut bytes, ImageFormat::Png).unwrap();
        bytes.into_inner()
    }

    #[test]
    fn a_large_logo_is_made_smaller_in_its_proportion_and_keeps_its_colours() {
        let logo = logo_of_bytes(&png(2000, 500, [200, 100, 40, 128])).unwrap();
        assert_eq!((logo.width_px(), logo.height_px()), (900, 225));
        for pixel in logo.rgba().chunks_exact(4) {
            assert!(
                pixel[3] == 128 && pixel[..3].iter().zip([200, 100, 40]).all(|(a, b)| a.abs_diff(b) <= 1),
                "{pixel:?}"
            );
        }
        let small = logo_of_bytes(&png(3, 2, [9, 8, 7, 0])).unwrap();
        assert_eq!((small.width_px(), small.height_px(), &small.rgba()[..4]), (3, 2, &[9, 8, 7, 0][..]));
    }
}
