//! Photos that are brought in: good ones, and what else may arrive under the name of one.

use std::fs;
use std::io::Cursor;

use image::{ImageFormat, Rgb as Pixel, RgbImage};
use posywright::colour::{Go, Photo, Rgb};
use posywright::store::{Cause, PhotoTrouble, read_photo, read_photo_bytes};

fn packed(picture: &RgbImage, format: ImageFormat) -> Vec<u8> {
    let mut bytes = Cursor::new(Vec::new());
    picture.write_to(&mut bytes, format).unwrap();
    bytes.into_inner()
}

fn picture() -> RgbImage {
    RgbImage::from_fn(120, 80, |x, _| if x < 60 { Pixel([139, 20, 39]) } else { Pixel([28, 106, 112]) })
}

fn read(bytes: &[u8]) -> Result<Photo, PhotoTrouble> {
    match read_photo_bytes(bytes, "dress.jpg", &mut |_| Go::On) {
        Ok(photo) => Ok(photo.unwrap()),
        Err(refusal) => {
            let said = refusal.to_string();
            assert!(
                said.starts_with("\u{201c}dress.jpg\u{201d} could not be opened: ") && said.ends_with('.'),
                "{said}"
            );
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
    assert_eq!(read(&png), Err(PhotoTrouble::TooManyPixels { width: 20_000, height: 20_000 }));
    let said = read_photo_bytes(&png, "dress.png", &mut |_| Go::On).unwrap_err().to_string();
    assert!(said.contains("that picture is 20,000 pixels wide"), "{said}");

    let mut jpeg = packed(&picture(), ImageFormat::Jpeg);
    let frame = jpeg.windows(2).position(|w| w[0] == 0xff && (0xc0..=0xc2).contains(&w[1])).unwrap();
    let size_at = |jpeg: &mut Vec<u8>, side: u16| {
        jpeg[frame + 5..frame + 7].copy_from_slice(&side.to_be_bytes());
        jpeg[frame + 7..frame + 9].copy_from_slice(&side.to_be_bytes());
    };
    size_at(&mut jpeg, 13_000);
    assert_eq!(read(&jpeg), Err(PhotoTrouble::TooManyPixels { width: 13_000, height: 13_000 }));
    // Within the sides, but 432 MB.
    size_at(&mut jpeg, 12_000);
    assert_eq!(read(&jpeg), Err(PhotoTrouble::TooMuchMemory));
}

#[test]
fn a_photo_that_is_cut_short_is_told_wherever_the_cut_is() {
    for format in [ImageFormat::Jpeg, ImageFormat::Png] {
        let whole = packed(&picture(), format);
        assert_eq!(read(&[]), Err(PhotoTrouble::Empty));
        for cut in (1..whole.len() - 16).step_by(whole.len() / 60 + 1) {
            assert!(read(&whole[..cut]).is_err(), "{format:?} cut at {cut} of {}", whole.len());
        }
    }
    let whole = packed(&picture(), ImageFormat::Jpeg);
    assert_eq!(read(&whole[..whole.len() * 3 / 4]), Err(PhotoTrouble::CutShort));
}

#[test]
fn what_is_no_photo_is_told() {
    for bytes in
        [&b"(version: 1)"[..], &[0; 64], b"GIF89a\x01\x00\x01\x00\x00\x00\x00", b"\xff\xd8", b"\x89PNG\r\n\x1a\n"]
    {
        assert!(read(bytes).is_err(), "{bytes:?}");
    }
    assert_eq!(read(b"<svg xmlns=\"http://www.w3.org/2000/svg\"/>"), Err(PhotoTrouble::NotAPhoto));
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
            refused += u32::from(read_photo_bytes(&damaged, "a", &mut |_| Go::On).is_err());
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
        Go::On
    });
    assert!(photo.unwrap().is_some());
    assert!(
        heard.len() > 10 && heard.windows(2).all(|w| w[0] <= w[1]) && heard.iter().all(|s| (0.0..=1.0).contains(s))
    );
    for limit in 1..heard.len() {
        let mut n = 0;
        let stopped = read_photo_bytes(&bytes, "a", &mut |_| {
            n += 1;
            if n == limit { Go::Stop } else { Go::On }
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
    let refusal = read_photo(&file, &mut |_| Go::On).unwrap_err();
    assert_eq!(refusal.cause, Cause::Photo(PhotoTrouble::TooManyBytes));
    assert_eq!(read_photo(&folder.path().join("none.jpg"), &mut |_| Go::On).unwrap_err().cause, Cause::NotThere);
    assert_eq!(read_photo(folder.path(), &mut |_| Go::On).unwrap_err().cause, Cause::Folder);
}
