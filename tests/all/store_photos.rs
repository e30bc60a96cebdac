//! Photos that are brought in: good ones, and what else may arrive under the name of one.

use std::fs;
use std::io::Cursor;
use std::ops::ControlFlow;

use image::codecs::{jpeg::JpegEncoder, png::PngEncoder};
use image::{DynamicImage, ImageEncoder, ImageFormat, Rgb as Pixel, RgbImage};
use moxcms::ColorProfile;
use posywright::colour::{Photo, ProfileUse, Rgb, from_linear, linear_of};
use posywright::store::{Cause, PhotoFault, read_photo, read_photo_bytes};

fn packed(picture: &RgbImage, format: ImageFormat) -> Vec<u8> {
    let mut bytes = Cursor::new(Vec::new());
    picture.write_to(&mut bytes, format).unwrap();
    bytes.into_inner()
}

fn picture() -> RgbImage {
    RgbImage::from_fn(120, 80, |x, _| if x < 60 { Pixel([139, 20, 39]) } else { Pixel([28, 106, 112]) })
}

fn read(bytes: &[u8]) -> Result<Photo, PhotoFault> {
    match read_photo_bytes(bytes, "dress.jpg", &mut |_| ControlFlow::Continue(())) {
        Ok(photo) => Ok(photo.unwrap()),
        Err(refusal) => {
            let said = refusal.to_string();
            assert!(said.starts_with("Not opened: \u{201c}dress.jpg\u{201d}. ") && said.ends_with('.'), "{said}");
            match refusal.cause {
                Cause::Photo(trouble) => Err(trouble),
                other => panic!("{other:?}"),
            }
        }
    }
}

#[test]
fn a_png_keeps_its_colours_and_a_jpeg_nearly() {
    let png = read(&packed(&picture(), ImageFormat::Png)).unwrap();
    assert_eq!((png.width(), png.height(), png.at(10, 10)), (120, 80, Some(Rgb::hex(0x8b1427))));
    let jpeg = read(&packed(&picture(), ImageFormat::Jpeg)).unwrap();
    assert!(jpeg.at(10, 10).unwrap().difference(Rgb::hex(0x8b1427)) < 3.0);
}

/// The head of a PNG of 20,000 by 20,000 pixels with nothing behind it, and the size of a JPEG written over.
#[test]
fn a_small_file_that_claims_a_huge_picture_is_refused_before_it_is_unpacked() {
    let mut png = packed(&picture(), ImageFormat::Png);
    png[16..20].copy_from_slice(&20_000_u32.to_be_bytes());
    png[20..24].copy_from_slice(&20_000_u32.to_be_bytes());
    let mut crc = u32::MAX;
    for byte in &png[12..29] {
        crc ^= u32::from(*byte);
        for _ in 0..8 {
            crc = if crc & 1 == 1 { crc >> 1 ^ 0xedb8_8320 } else { crc >> 1 };
        }
    }
    png[29..33].copy_from_slice(&(!crc).to_be_bytes());
    assert_eq!(read(&png), Err(PhotoFault::TooManyPixels { width: 20_000, height: 20_000 }));
    let said = read_photo_bytes(&png, "dress.png", &mut |_| ControlFlow::Continue(())).unwrap_err().to_string();
    assert!(said.contains("The picture is 20,000 pixels wide"), "{said}");

    let mut jpeg = packed(&picture(), ImageFormat::Jpeg);
    let frame = jpeg.windows(2).position(|w| w[0] == 0xff && (0xc0..=0xc2).contains(&w[1])).unwrap();
    let size_at = |jpeg: &mut Vec<u8>, side: u16| {
        jpeg[frame + 5..frame + 7].copy_from_slice(&side.to_be_bytes());
        jpeg[frame + 7..frame + 9].copy_from_slice(&side.to_be_bytes());
    };
    size_at(&mut jpeg, 13_000);
    assert_eq!(read(&jpeg), Err(PhotoFault::TooManyPixels { width: 13_000, height: 13_000 }));
    // Within the sides, but 432 MB.
    size_at(&mut jpeg, 12_000);
    assert_eq!(read(&jpeg), Err(PhotoFault::TooMuchMemory));
}

#[test]
fn a_photo_that_is_cut_short_is_told_wherever_the_cut_is() {
    for format in [ImageFormat::Jpeg, ImageFormat::Png] {
        let whole = packed(&picture(), format);
        assert_eq!(read(&[]), Err(PhotoFault::Empty));
        for cut in (1..whole.len() - 16).step_by(whole.len() / 60 + 1) {
            assert!(read(&whole[..cut]).is_err(), "{format:?} cut at {cut} of {}", whole.len());
        }
    }
    let whole = packed(&picture(), ImageFormat::Jpeg);
    assert_eq!(read(&whole[..whole.len() * 3 / 4]), Err(PhotoFault::CutShort));
}

#[test]
fn what_is_no_photo_is_told() {
    for bytes in
        [&b"(version: 1)"[..], &[0; 64], b"GIF89a\x01\x00\x01\x00\x00\x00\x00", b"\xff\xd8", b"\x89PNG\r\n\x1a\n"]
    {
        assert!(read(bytes).is_err(), "{bytes:?}");
    }
    assert_eq!(read(b"<svg xmlns=\"http://www.w3.org/2000/svg\"/>"), Err(PhotoFault::NotAPhoto));
}

/// Every byte of a small photo turned over, one at a time: an answer each time, whatever it is.
#[test]
fn damage_anywhere_never_panics() {
    let small =
        RgbImage::from_fn(9, 7, |x, y| Pixel([30 * u8::try_from(x % 8).unwrap(), 30 * u8::try_from(y).unwrap(), 90]));
    for format in [ImageFormat::Jpeg, ImageFormat::Png] {
        let whole = packed(&small, format);
        let mut refused = 0;
        for at in 0..whole.len() {
            let mut damaged = whole.clone();
            damaged[at] ^= 0xff;
            refused += u32::from(read_photo_bytes(&damaged, "a", &mut |_| ControlFlow::Continue(())).is_err());
        }
        assert!(refused > 0, "{format:?}");
    }
}

#[test]
fn reading_can_be_watched_and_stopped() {
    let bytes = packed(&picture(), ImageFormat::Png);
    let mut heard = Vec::new();
    let photo = read_photo_bytes(&bytes, "a", &mut |share| {
        heard.push(share);
        ControlFlow::Continue(())
    });
    assert!(photo.unwrap().is_some());
    assert!(
        heard.len() > 10 && heard.windows(2).all(|w| w[0] <= w[1]) && heard.iter().all(|s| (0.0..=1.0).contains(s))
    );
    for limit in 1..heard.len() {
        let mut n = 0;
        let stopped = read_photo_bytes(&bytes, "a", &mut |_| {
            n += 1;
            if n == limit { ControlFlow::Break(()) } else { ControlFlow::Continue(()) }
        });
        assert!(stopped.unwrap().is_none(), "{limit}");
        assert_eq!(n, limit, "nothing is asked after stop");
    }
}

#[test]
fn files_that_are_missing_or_too_large_are_told() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("large.png");
    fs::File::create(&file).unwrap().set_len(41 << 20).unwrap();
    let refusal = read_photo(&file, &mut |_| ControlFlow::Continue(())).unwrap_err();
    assert_eq!(refusal.cause, Cause::Photo(PhotoFault::TooManyBytes));
    assert_eq!(
        read_photo(&folder.path().join("none.jpg"), &mut |_| ControlFlow::Continue(())).unwrap_err().cause,
        Cause::NotThere
    );
    assert_eq!(read_photo(folder.path(), &mut |_| ControlFlow::Continue(())).unwrap_err().cause, Cause::Folder);
}

/// Display P3 to sRGB by CSS Color Module Level 4, "Sample code for color conversions": linear P3 to XYZ, XYZ to linear sRGB; the
/// transfer function is that of sRGB for both. What an sRGB screen cannot show is clipped.
fn srgb_of_p3(stored: [u8; 3]) -> Rgb {
    const XYZ_OF_P3: [[f64; 3]; 3] = [
        [608_311.0 / 1_250_200.0, 189_793.0 / 714_400.0, 198_249.0 / 1_000_160.0],
        [35_783.0 / 156_275.0, 247_089.0 / 357_200.0, 198_249.0 / 2_500_400.0],
        [0.0, 32_229.0 / 714_400.0, 5_220_557.0 / 5_000_800.0],
    ];
    const SRGB_OF_XYZ: [[f64; 3]; 3] = [
        [12_831.0 / 3_959.0, -329.0 / 214.0, -1_974.0 / 3_959.0],
        [-851_781.0 / 878_810.0, 1_648_619.0 / 878_810.0, 36_519.0 / 878_810.0],
        [705.0 / 12_673.0, -2_585.0 / 12_673.0, 705.0 / 667.0],
    ];
    let times = |m: &[[f64; 3]; 3], v: [f64; 3]| m.map(|row| row[0] * v[0] + row[1] * v[1] + row[2] * v[2]);
    let light = times(&SRGB_OF_XYZ, times(&XYZ_OF_P3, stored.map(|c| linear_of(f64::from(c) / 255.0))));
    let [r, g, b] = light.map(|l| (from_linear(l.clamp(0.0, 1.0)) * 255.0).round());
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "whole and from 0 to 255")]
    Rgb { r: r as u8, g: g as u8, b: b as u8 }
}

/// Fabrics of an evening as a phone stores them in Display P3: dusty rose, burgundy, royal blue, dark green, lilac, champagne.
const P3_FABRICS: [[u8; 3]; 6] =
    [[193, 146, 148], [129, 33, 43], [58, 88, 182], [45, 69, 50], [179, 156, 203], [225, 207, 178]];

/// One square of 16 pixels a fabric, so that each is whole blocks of a JPEG.
fn fabrics() -> RgbImage {
    RgbImage::from_fn(96, 16, |x, _| Pixel(P3_FABRICS[x as usize / 16]))
}

fn packed_with(profile: Vec<u8>, picture: &DynamicImage, format: ImageFormat) -> Vec<u8> {
    let mut bytes = Vec::new();
    let (kind, sides) = (picture.color().into(), (picture.width(), picture.height()));
    if format == ImageFormat::Png {
        let mut encoder = PngEncoder::new(&mut bytes);
        encoder.set_icc_profile(profile).unwrap();
        encoder.write_image(picture.as_bytes(), sides.0, sides.1, kind).unwrap();
    } else {
        let mut encoder = JpegEncoder::new_with_quality(&mut bytes, 100);
        encoder.set_icc_profile(profile).unwrap();
        encoder.write_image(picture.as_bytes(), sides.0, sides.1, kind).unwrap();
    }
    bytes
}

/// How far each fabric of a photo lies from what it is in sRGB, CIEDE2000.
fn off_from_srgb(photo: &Photo) -> [f64; 6] {
    [0, 1, 2, 3, 4, 5].map(|k: u32| photo.at(16 * k + 8, 8).unwrap().difference(srgb_of_p3(P3_FABRICS[k as usize])))
}

#[test]
fn a_photo_in_display_p3_comes_in_as_srgb() {
    let profile = ColorProfile::new_display_p3().encode().unwrap();
    let plain = DynamicImage::ImageRgb8(fabrics());
    for picture in
        [plain.clone(), DynamicImage::ImageRgba8(plain.to_rgba8()), DynamicImage::ImageRgb16(plain.to_rgb16())]
    {
        let read = read(&packed_with(profile.clone(), &picture, ImageFormat::Png)).unwrap();
        assert_eq!(read.profile(), ProfileUse::Converted);
        let off = off_from_srgb(&read);
        assert!(off.iter().all(|d| *d < 0.5), "{:?}: {off:.2?}", picture.color());
    }
    // A JPEG rounds colours when it is packed, so the truth is what it holds.
    let packed_jpeg = packed_with(profile, &plain, ImageFormat::Jpeg);
    let held = image::load_from_memory(&packed_jpeg).unwrap().to_rgb8();
    let jpeg = read(&packed_jpeg).unwrap();
    assert_eq!(jpeg.profile(), ProfileUse::Converted);
    for (x, y, pixel) in held.enumerate_pixels() {
        let off = jpeg.at(x, y).unwrap().difference(srgb_of_p3(pixel.0));
        assert!(off < 0.5, "{x},{y}: {off:.2}");
    }
    // Without the profile the same pixels are other colours: the strong ones by more than an eye notices.
    let bare = read(&packed(&fabrics(), ImageFormat::Png)).unwrap();
    let off = off_from_srgb(&bare);
    assert_eq!(bare.profile(), ProfileUse::NoProfile);
    assert!(off.iter().all(|d| *d > 0.5) && off[1] > 2.0, "{off:.2?}");
}

#[test]
fn a_broken_profile_leaves_the_colours_as_srgb_and_says_so() {
    let plain = DynamicImage::ImageRgb8(fabrics());
    for format in [ImageFormat::Png, ImageFormat::Jpeg] {
        let broken = read(&packed_with(b"no profile at all".to_vec(), &plain, format)).unwrap();
        assert_eq!(broken.profile(), ProfileUse::Unreadable, "{format:?}");
        let bare = read(&packed(&fabrics(), format)).unwrap();
        assert!(broken.at(24, 8).unwrap().difference(bare.at(24, 8).unwrap()) < 1.0);
        let doubt = broken.profile().doubt().unwrap();
        assert!(doubt.contains("colour profile") && doubt.len() <= 90, "{doubt}");
        assert_eq!(bare.profile().doubt(), None);
    }
}
