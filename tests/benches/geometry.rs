//! How long the geometry takes, and how it compares with the ways not taken: polygons and sampling.
//!
//! `cargo bench --no-default-features --features benches`. Pieces are made up, the same on every run.

use std::hint::black_box;

use divan::Bencher;
use geo::{BooleanOps, Coord, LineString, MultiPolygon, Polygon, unary_union};
use posywright::geometry::{
    ConvexPolygon, Disc, GapSearch, Lens, Oval, Point, Shape, WristSection, asymmetry, covered, covered_mixed, gaps,
    hidden_shares, loop_outline, outline, overlaps, visible,
};

fn main() {
    divan::main();
}

/// An oval with discs in it, as many as an overfull piece has; more discs make a larger oval, not smaller discs.
fn piece(n_discs: usize) -> (Vec<Shape>, Oval) {
    let scale = (n_discs as f64 / 100.0).sqrt();
    let oval = Oval { a: 58.0 * scale, b: 36.0 * scale };
    let mut state = 7u64;
    let mut next = || {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (state >> 33) as f64 / (1u64 << 31) as f64
    };
    let mut shapes = Vec::new();
    while shapes.len() < n_discs {
        let centre = Point::new((2.0 * next() - 1.0) * oval.a, (2.0 * next() - 1.0) * oval.b);
        if oval.gauge(centre) <= 1.0 {
            shapes.push(Shape::disc(centre, 4.0 + 5.0 * next()));
        }
    }
    (shapes, oval)
}

/// Every fifth disc made a lens.
fn with_lenses(n_shapes: usize) -> (Vec<Shape>, Oval) {
    let (mut shapes, oval) = piece(n_shapes);
    for (index, shape) in shapes.iter_mut().enumerate().filter(|(index, _)| index % 5 == 0) {
        let turn = index as f64;
        *shape = Shape::Lens(Lens { centre: shape.centre(), length: 28.0, width: 10.0, turn });
    }
    (shapes, oval)
}

const SIZES: [usize; 3] = [40, 100, 1000];
const GROWTH: [usize; 5] = [250, 500, 1000, 2000, 4000];

mod cover {
    use super::{
        Bencher, ConvexPolygon, GROWTH, SIZES, black_box, covered, covered_mixed, loop_outline, piece,
        polygons_covered, with_lenses,
    };

    #[divan::bench(args = SIZES)]
    fn within_the_oval(bencher: Bencher<'_, '_>, n_discs: usize) {
        let (shapes, oval) = piece(n_discs);
        bencher.bench(|| covered(black_box(&shapes), Some(oval)));
    }

    #[divan::bench(args = SIZES)]
    fn without_an_oval(bencher: Bencher<'_, '_>, n_discs: usize) {
        let (shapes, _) = piece(n_discs);
        bencher.bench(|| covered(black_box(&shapes), None));
    }

    #[divan::bench(args = SIZES)]
    fn a_fifth_lenses(bencher: Bencher<'_, '_>, n_shapes: usize) {
        let (shapes, oval) = with_lenses(n_shapes);
        bencher.bench(|| covered(black_box(&shapes), Some(oval)));
    }

    #[divan::bench]
    fn a_hundred_and_six_loops(bencher: Bencher<'_, '_>) {
        let (shapes, oval) = piece(100);
        let loops: Vec<ConvexPolygon> = (0..6u8)
            .filter_map(|index| ConvexPolygon::around(&loop_outline(50.0, 20.0, f64::from(index), 48)))
            .collect();
        bencher.bench(|| covered_mixed(black_box(&shapes), &loops, Some(oval)));
    }

    #[divan::bench(args = GROWTH)]
    fn growth(bencher: Bencher<'_, '_>, n_discs: usize) {
        let (shapes, oval) = piece(n_discs);
        bencher.bench(|| covered(black_box(&shapes), Some(oval)));
    }

    /// The way not taken: discs and oval as polygons of 64 corners, joined and cut by the crate `geo`.
    #[divan::bench(args = SIZES)]
    fn by_polygons(bencher: Bencher<'_, '_>, n_discs: usize) {
        let (shapes, oval) = piece(n_discs);
        bencher.bench(|| polygons_covered(black_box(&shapes), oval));
    }
}

fn polygons_covered(shapes: &[Shape], oval: Oval) -> MultiPolygon<f64> {
    let polygons: Vec<Polygon<f64>> =
        shapes.iter().map(|shape| round_polygon(shape.centre(), shape.reach(), shape.reach())).collect();
    unary_union(&polygons).intersection(&round_polygon(Point::ORIGIN, oval.a, oval.b))
}

fn round_polygon(centre: Point, a: f64, b: f64) -> Polygon<f64> {
    let corner = |index: u8| {
        let (sine, cosine) = (f64::from(index) * std::f64::consts::TAU / 64.0).sin_cos();
        Coord { x: centre.x + a * cosine, y: centre.y + b * sine }
    };
    Polygon::new(LineString::new((0..64).map(corner).collect()), Vec::new())
}

mod free_places {
    use super::{Bencher, GROWTH, GapSearch, Oval, Point, SIZES, Shape, black_box, gaps, piece, sampled_largest};

    #[divan::bench(args = SIZES)]
    fn the_largest(bencher: Bencher<'_, '_>, n_discs: usize) {
        let (shapes, oval) = piece(n_discs);
        let search = GapSearch { most: 1, least_radius: 1.0, ..GapSearch::default() };
        bencher.bench(|| gaps(black_box(&shapes), oval, &search));
    }

    #[divan::bench(args = SIZES)]
    fn a_list_of_twenty(bencher: Bencher<'_, '_>, n_discs: usize) {
        let (shapes, oval) = piece(n_discs);
        let search = GapSearch { most: 20, least_radius: 1.0, ..GapSearch::default() };
        bencher.bench(|| gaps(black_box(&shapes), oval, &search));
    }

    #[divan::bench(args = SIZES)]
    fn twenty_with_centres_inside(bencher: Bencher<'_, '_>, n_discs: usize) {
        let (shapes, oval) = piece(n_discs);
        let search = GapSearch { overhang: f64::INFINITY, most: 20, least_radius: 1.0, tolerance: 0.05 };
        bencher.bench(|| gaps(black_box(&shapes), oval, &search));
    }

    #[divan::bench(args = GROWTH)]
    fn growth(bencher: Bencher<'_, '_>, n_discs: usize) {
        let (shapes, oval) = piece(n_discs);
        let search = GapSearch { most: 20, least_radius: 1.0, ..GapSearch::default() };
        bencher.bench(|| gaps(black_box(&shapes), oval, &search));
    }

    /// A ring of equally good places all round: the worst that a sketch can do to the search.
    #[divan::bench]
    fn a_ridge(bencher: Bencher<'_, '_>) {
        let shapes = [Shape::disc(Point::ORIGIN, 12.0)];
        let oval = Oval { a: 32.0, b: 32.0 };
        bencher.bench(|| gaps(black_box(&shapes), oval, &GapSearch::default()));
    }

    /// The way not taken: the clearance at every place of a 0.1 mm grid, for the largest gap alone.
    #[divan::bench(args = [40, 100], sample_count = 5)]
    fn by_sampling(bencher: Bencher<'_, '_>, n_discs: usize) {
        let (shapes, oval) = piece(n_discs);
        bencher.bench(|| sampled_largest(black_box(&shapes), oval));
    }
}

fn sampled_largest(shapes: &[Shape], oval: Oval) -> f64 {
    let mut largest = 0.0;
    let mut x = -oval.a;
    while x <= oval.a {
        let mut y = -oval.b;
        while y <= oval.b {
            let place = Point::new(x, y);
            if oval.gauge(place) <= 1.0 {
                let free = shapes.iter().map(|shape| shape.distance(place)).fold(f64::INFINITY, f64::min);
                // The edge is asked only where it can matter.
                if free > largest {
                    largest = f64::max(largest, free.min(oval.depth(place)));
                }
            }
            y += 0.1;
        }
        x += 0.1;
    }
    largest
}

mod layers {
    use super::{Bencher, Disc, GROWTH, SIZES, black_box, hidden_shares, overlaps, piece, visible, with_lenses};

    #[divan::bench(args = SIZES)]
    fn seen_of_each(bencher: Bencher<'_, '_>, n_discs: usize) {
        let (shapes, _) = piece(n_discs);
        bencher.bench(|| visible(black_box(&shapes)));
    }

    #[divan::bench(args = SIZES)]
    fn seen_with_lenses(bencher: Bencher<'_, '_>, n_shapes: usize) {
        let (shapes, _) = with_lenses(n_shapes);
        bencher.bench(|| hidden_shares(black_box(&shapes)));
    }

    #[divan::bench(args = GROWTH)]
    fn growth(bencher: Bencher<'_, '_>, n_discs: usize) {
        let (shapes, _) = piece(n_discs);
        bencher.bench(|| visible(black_box(&shapes)));
    }

    #[divan::bench(args = SIZES)]
    fn pairs(bencher: Bencher<'_, '_>, n_discs: usize) {
        let discs: Vec<Disc> =
            piece(n_discs).0.iter().map(|shape| Disc { centre: shape.centre(), radius: shape.reach() }).collect();
        bencher.bench(|| overlaps(black_box(&discs)));
    }
}

mod form {
    use super::{Bencher, SIZES, WristSection, asymmetry, black_box, outline, piece, with_lenses};

    #[divan::bench(args = SIZES)]
    fn of_discs(bencher: Bencher<'_, '_>, n_discs: usize) {
        let (shapes, _) = piece(n_discs);
        bencher.bench(|| outline(black_box(&shapes)));
    }

    #[divan::bench(args = SIZES)]
    fn hull_with_lenses(bencher: Bencher<'_, '_>, n_shapes: usize) {
        let (shapes, _) = with_lenses(n_shapes);
        bencher.bench(|| posywright::geometry::hull(black_box(&shapes)));
    }

    #[divan::bench(args = [40, 100])]
    fn three_mirrors(bencher: Bencher<'_, '_>, n_discs: usize) {
        let (shapes, _) = piece(n_discs);
        bencher.bench(|| asymmetry(black_box(&shapes)));
    }

    #[divan::bench]
    fn a_place_on_the_wrist(bencher: Bencher<'_, '_>) {
        let section = WristSection::new(154.0, 0.7);
        bencher.bench(|| section.seen(black_box(23.0)));
    }
}

/// Everything a still pointer asks for, at once.
#[divan::bench(args = [40, 100])]
fn a_whole_look(bencher: Bencher<'_, '_>, n_shapes: usize) {
    let (shapes, oval) = with_lenses(n_shapes);
    bencher.bench(|| {
        let shapes = black_box(&shapes);
        let list = gaps(shapes, oval, &GapSearch::default());
        (covered(shapes, Some(oval)), outline(shapes), list, hidden_shares(shapes), asymmetry(shapes))
    });
}

/// Everything a moving pointer asks for.
#[divan::bench(args = [40, 100])]
fn a_look_while_dragging(bencher: Bencher<'_, '_>, n_shapes: usize) {
    let (shapes, oval) = with_lenses(n_shapes);
    let search = GapSearch { most: 5, tolerance: 0.1, ..GapSearch::default() };
    bencher.bench(|| {
        let shapes = black_box(&shapes);
        (covered(shapes, Some(oval)), covered(shapes, None), gaps(shapes, oval, &search))
    });
}
