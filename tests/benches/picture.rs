//! How long a picture takes: a Full piece of 2400 x 3000 pixels, beside a general SVG renderer on our own SVG of it.
//!
//! `cargo bench --no-default-features --features benches --bench picture`. One thread each; most memory held is reported too.

use std::hint::black_box;
use std::path::Path;

use divan::{AllocProfiler, Bencher};
use kurbo::Rect;
use posywright::cli::LoadedOrder;
use posywright::export::{Finish, png_of, raster, svg_of, view_of};
use posywright::scene::{Group, PictureOptions, Scene, form_chart, picture};
use resvg::tiny_skia::{Pixmap, Transform};
use resvg::usvg::{Options, Tree};

#[global_allocator]
static ALLOCATOR: AllocProfiler = AllocProfiler::system();

const WIDTH_PX: u32 = 2400;
const HEIGHT_PX: u32 = 3000;

fn main() {
    divan::main();
}

/// The sample of a Full piece, framed four to five.
fn full() -> Scene {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("samples/orders/03-full.ron");
    let bench = LoadedOrder::read(&file, None).expect("the sample reads");
    let frame = Some(Rect::new(-105.0, -68.0, 65.0, 68.0));
    picture(
        &bench.order.piece,
        &bench.stock,
        &bench.order.wrist,
        &PictureOptions { frame, ..PictureOptions::default() },
    )
}

#[divan::bench]
fn scene_made(bencher: Bencher<'_, '_>) {
    bencher.bench_local(|| black_box(full()));
}

#[divan::bench]
fn pixels_fine(bencher: Bencher<'_, '_>) {
    let scene = full();
    let (view, width, height) = view_of(&scene, WIDTH_PX);
    assert_eq!((width, height), (WIDTH_PX, HEIGHT_PX));
    let groups: Vec<&Group> = scene.groups.iter().collect();
    bencher.bench_local(|| black_box(raster(&groups, view, width, height, Finish::Fine)));
}

#[divan::bench]
fn png_file(bencher: Bencher<'_, '_>) {
    let scene = full();
    bencher.bench_local(|| black_box(png_of(&scene, WIDTH_PX)));
}

#[divan::bench]
fn svg_text(bencher: Bencher<'_, '_>) {
    let scene = full();
    bencher.bench_local(|| black_box(svg_of(&scene)));
}

/// The peer: our own SVG read and drawn at the same size.
#[divan::bench]
fn peer_reads_and_draws_our_svg(bencher: Bencher<'_, '_>) {
    let svg = svg_of(&full());
    bencher.bench_local(|| {
        let tree = Tree::from_str(&svg, &Options::default()).expect("our SVG reads");
        let mut pixmap = Pixmap::new(WIDTH_PX, HEIGHT_PX).expect("a size");
        let scale = 2400.0 / tree.size().width();
        resvg::render(&tree, Transform::from_scale(scale, scale), &mut pixmap.as_mut());
        black_box(pixmap)
    });
}

#[divan::bench]
fn chart_of_all_forms(bencher: Bencher<'_, '_>) {
    bencher.bench_local(|| black_box(form_chart()));
}
