//! How long colours take: stock ranked against a dress, and a photo of 12 megapixels read to one colour.
//!
//! `cargo bench --no-default-features --features benches --bench colour`. Peers in the same run: plain distance in CIE L*a*b* by
//! `palette`, and unpacking alone by `image`. Everything is made up, the same on every run.

use std::hint::black_box;
use std::io::Cursor;
use std::ops::ControlFlow;

use divan::Bencher;
use palette::color_difference::EuclideanDistance;
use palette::{FromColor, Lab, Srgb};
use posywright::colour::{PhotoRegion, Rgb, USUAL_LIGHT, against_dress, main_colours, rank, read_region};
use posywright::store::read_photo_bytes;

fn main() {
    divan::main();
}

fn stock(n: u32) -> Vec<(u32, Rgb)> {
    (0..n).map(|k| (k, Rgb::hex(k.wrapping_mul(2_654_435_769) >> 8))).collect()
}

const DRESS: Rgb = Rgb::hex(0x8b1427);

#[divan::bench(args = [400, 2000])]
fn ranking(bencher: Bencher<'_, '_>, n: u32) {
    let stock = stock(n);
    bencher.bench(|| rank(black_box(DRESS), &stock));
}

#[divan::bench(args = [2000])]
fn ranking_with_warnings(bencher: Bencher<'_, '_>, n: u32) {
    let stock = stock(n);
    bencher.bench(|| {
        let ranked = rank(black_box(DRESS), &stock);
        ranked.iter().map(|r| against_dress(DRESS, r.rgb).len()).sum::<usize>()
    });
}

/// The peer: the same list by straight distance.
#[divan::bench(args = [2000])]
fn ranking_by_plain_distance(bencher: Bencher<'_, '_>, n: u32) {
    let stock = stock(n);
    let lab = |c: Rgb| Lab::from_color(Srgb::new(c.r, c.g, c.b).into_format::<f64>());
    bencher.bench(|| {
        let dress: Lab<_, f64> = lab(black_box(DRESS));
        let mut list: Vec<(f64, u32)> = stock.iter().map(|(k, c)| (lab(*c).distance_squared(dress), *k)).collect();
        list.sort_by(|a, b| a.0.total_cmp(&b.0));
        list
    });
}

/// Folds of a fabric, 4000 by 3000 pixels, as a JPEG.
fn photo() -> Vec<u8> {
    let picture = image::RgbImage::from_fn(4000, 3000, |x, y| {
        let fold = 0.7 + 0.3 * (f64::from(x) / 80.0 + (f64::from(y) / 400.0).sin()).sin();
        let Rgb { r, g, b } = Rgb::from_linear(DRESS.linear().map(|light| light * fold));
        image::Rgb([r, g, b])
    });
    let mut bytes = Vec::new();
    image::codecs::jpeg::JpegEncoder::new_with_quality(&mut bytes, 90)
        .encode_image(&picture)
        .expect("a JPEG in memory");
    bytes
}

#[divan::bench(sample_count = 10, sample_size = 1)]
fn a_photo_of_12_megapixels_to_a_colour(bencher: Bencher<'_, '_>) {
    let bytes = photo();
    bencher.bench_local(|| {
        let photo =
            read_photo_bytes(&bytes, "bench", &mut |_| ControlFlow::Continue(())).ok().flatten().expect("a photo");
        let fabric = PhotoRegion::fabric(&photo, photo.width() / 2, photo.height() / 2);
        let main = main_colours(&photo, &PhotoRegion::whole(&photo), 5);
        (read_region(&photo, &fabric, USUAL_LIGHT, None), main)
    });
}

/// The peer: unpacking alone.
#[divan::bench(sample_count = 10, sample_size = 1)]
fn the_same_photo_unpacked_and_no_more(bencher: Bencher<'_, '_>) {
    let bytes = photo();
    bencher.bench_local(|| image::ImageReader::new(Cursor::new(&bytes)).with_guessed_format().map(|r| r.decode()));
}
