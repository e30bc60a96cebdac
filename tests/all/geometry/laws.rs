//! What must hold for every piece, on made-up ones: loose, and on a grid where everything touches.

use std::f64::consts::PI;

use posywright::geometry::{
    ConvexPolygon, Gap, GapSearch, Layers, Lens, Oval, Point, Region, Shape, Vec2, covered, covered_mixed, gaps,
    hidden_shares, outline, visible,
};

use crate::geometry::made_up::{Numbers, grown, loose, mirrored, moved, on_grid, oval};

/// Pieces made up of each kind.
const N_PIECES: u64 = 3000;

/// Areas of a few thousand mm2 may differ by this between two ways to calculate them, mm2.
const TOLERANCE_MM2: f64 = 2e-8;

fn pieces(seed: u64) -> impl Iterator<Item = (Vec<Shape>, Oval, Numbers)> {
    (0..N_PIECES).flat_map(move |index| {
        [true, false].map(|gridded| {
            let mut numbers = Numbers::from_seed(seed.wrapping_mul(1_000_003).wrapping_add(index));
            let n_shapes = 1 + numbers.below(12);
            let shapes = if gridded { on_grid(&mut numbers, n_shapes) } else { loose(&mut numbers, n_shapes) };
            let oval = oval(&mut numbers);
            (shapes, oval, numbers)
        })
    })
}

#[track_caller]
fn same_area(left: f64, right: f64, shapes: &[Shape]) {
    assert!((left - right).abs() <= TOLERANCE_MM2, "{left} {right} {shapes:?}");
}

/// In a round oval the area follows a second way: shapes and the disc, less their union.
#[test]
fn a_round_oval_is_a_disc() {
    for (shapes, oval, _) in pieces(1) {
        let radius = oval.b;
        let within = covered(&shapes, Some(Oval { a: radius, b: radius })).area;
        let disc = Shape::disc(Point::ORIGIN, radius);
        let all: Vec<Shape> = shapes.iter().copied().chain([disc]).collect();
        let expected = covered(&shapes, None).area + disc.area() - covered(&all, None).area;
        same_area(within, expected, &shapes);
    }
}

/// Lines across, and what of each lies in any shape and in the oval: no arc is looked at.
#[test]
fn lines_drawn_across_measure_the_same_area() {
    for (shapes, oval, _) in pieces(2).take(120) {
        let n_lines = 3000;
        let step = 2.0 * oval.a / f64::from(n_lines);
        let sum: f64 =
            (0..n_lines).map(|line| covered_on_line(&shapes, oval, -oval.a + step * (f64::from(line) + 0.5))).sum();
        let found = covered(&shapes, Some(oval)).area;
        assert!((found - sum * step).abs() < 0.05, "{found} {} {oval:?} {shapes:?}", sum * step);
    }
}

fn covered_on_line(shapes: &[Shape], oval: Oval, x: f64) -> f64 {
    let half = |radius: f64, offset: f64| (radius * radius - offset * offset).max(0.0).sqrt();
    let edge = oval.b * half(1.0, x / oval.a);
    let mut stretches: Vec<(f64, f64)> = shapes
        .iter()
        .map(|shape| match shape {
            Shape::Disc(disc) => vec![*disc],
            Shape::Lens(lens) => lens.discs().to_vec(),
        })
        .filter(|discs| discs.iter().all(|disc| (x - disc.centre.x).abs() < disc.radius))
        .map(|discs| {
            discs.iter().fold((-edge, edge), |(low, high), disc| {
                let reach = half(disc.radius, x - disc.centre.x);
                (f64::max(low, disc.centre.y - reach), f64::min(high, disc.centre.y + reach))
            })
        })
        .filter(|(low, high)| low < high)
        .collect();
    stretches.sort_by(|left, right| left.0.total_cmp(&right.0));
    let mut reached = f64::NEG_INFINITY;
    let mut sum = 0.0;
    for (low, high) in stretches {
        sum += (high - low.max(reached)).max(0.0);
        reached = reached.max(high);
    }
    sum
}

#[test]
fn turning_mirroring_scaling_and_reordering_change_nothing() {
    for (shapes, oval, mut numbers) in pieces(3) {
        let all = covered(&shapes, None);
        let within = covered(&shapes, Some(oval)).area;
        let (turn, by) = (numbers.between(-4.0, 4.0), Vec2::new(numbers.between(-9.0, 9.0), 3.0));
        let turned: Vec<Shape> = shapes.iter().map(|shape| moved(shape, turn, by)).collect();
        same_area(covered(&turned, None).area, all.area, &shapes);
        let expected = all.centroid().unwrap().to_vec2();
        let (sine, cosine) = turn.sin_cos();
        let expected = Vec2::new(expected.x * cosine - expected.y * sine, expected.x * sine + expected.y * cosine) + by;
        assert!((covered(&turned, None).centroid().unwrap().to_vec2() - expected).hypot() < 1e-9);
        let mirror: Vec<Shape> = shapes.iter().map(mirrored).collect();
        same_area(covered(&mirror, Some(oval)).area, within, &shapes);
        let half_turned: Vec<Shape> = shapes.iter().map(|shape| moved(shape, PI, Vec2::ZERO)).collect();
        same_area(covered(&half_turned, Some(oval)).area, within, &shapes);
        let larger: Vec<Shape> = shapes.iter().map(|shape| grown(shape, 3.0)).collect();
        let larger_oval = Oval { a: oval.a * 3.0, b: oval.b * 3.0 };
        same_area(covered(&larger, Some(larger_oval)).area / 9.0, within, &shapes);
        let mut reversed = shapes.clone();
        reversed.reverse();
        same_area(covered(&reversed, Some(oval)).area, within, &shapes);
    }
}

#[test]
fn hidden_doubles_and_parts_change_nothing() {
    for (shapes, oval, mut numbers) in pieces(4) {
        let all = covered(&shapes, None).area;
        let within = covered(&shapes, Some(oval)).area;
        let host = shapes[numbers.below(shapes.len())];
        let depth = -host.distance(host.centre());
        let inner = Shape::disc(host.centre(), depth * numbers.between(0.1, 1.0));
        let touching = Shape::disc(host.centre(), depth);
        for extra in [inner, touching, host] {
            for at in [0, shapes.len()] {
                let mut more = shapes.clone();
                more.insert(at, extra);
                same_area(covered(&more, None).area, all, &more);
                same_area(covered(&more, Some(oval)).area, within, &more);
            }
        }
    }
}

#[test]
fn parts_add_up_and_more_covers_more() {
    for (shapes, oval, mut numbers) in pieces(5) {
        let (some, rest) = shapes.split_at(numbers.below(shapes.len() + 1));
        let all = covered(&shapes, Some(oval)).area;
        let (first, second) = (covered(some, Some(oval)).area, covered(rest, Some(oval)).area);
        assert!(all <= first + second + TOLERANCE_MM2 && all >= first.max(second) - TOLERANCE_MM2);
        assert!(all <= oval.area() + TOLERANCE_MM2 && all <= covered(&shapes, None).area + TOLERANCE_MM2);
        // Cut along the middle by a half-plane as large as needed, the halves add up.
        let half = |x: f64| {
            let corners = [(0.0, -200.0), (x, -200.0), (x, 200.0), (0.0, 200.0)].map(Point::from);
            ConvexPolygon::around(&corners).unwrap()
        };
        let under = |polygon: ConvexPolygon| {
            let area = polygon.area();
            let cut = polygon.clone();
            covered(&shapes, None).area + area - covered_mixed(&shapes, &[cut], None).area
        };
        let halves = under(half(200.0)) + under(half(-200.0));
        assert!((halves - covered(&shapes, None).area).abs() < 1e-6, "{halves} {shapes:?}");
    }
}

#[test]
fn what_is_seen_of_each_adds_up_to_what_all_cover() {
    for (shapes, _, _) in pieces(6) {
        let seen = visible(&shapes);
        let total = seen.iter().fold(0.0, |sum, region: &Region| sum + region.area);
        same_area(total, covered(&shapes, None).area, &shapes);
        let top = hidden_shares(&shapes).pop().unwrap();
        assert!(top < 1e-9, "the uppermost is all seen: {top}");
    }
}

#[test]
fn one_walk_says_what_three_say() {
    for (shapes, oval, _) in pieces(11) {
        let layers = Layers::of(&shapes, oval);
        for (found, seen) in layers.seen.iter().zip(visible(&shapes)) {
            same_area(*found, seen.area, &shapes);
        }
        same_area(layers.all.area, covered(&shapes, None).area, &shapes);
        same_area(layers.within.area, covered(&shapes, Some(oval)).area, &shapes);
        if let Some((found, wanted)) = layers.all.spread().zip(covered(&shapes, None).spread()) {
            assert!(found.iter().zip(wanted).all(|(found, wanted)| (found - wanted).abs() < 1e-6), "{shapes:?}");
        }
    }
}

#[test]
fn the_outline_holds_what_it_covers() {
    for (shapes, _, _) in pieces(7) {
        let found = outline(&shapes).unwrap();
        assert!(found.region.area <= found.hull_area + TOLERANCE_MM2);
        assert!(found.hull_area <= found.length * found.width + TOLERANCE_MM2);
        assert!(found.ellipticity <= 1.0 && found.ellipticity > 0.0 && found.solidity <= 1.0);
        let turned: Vec<Shape> = shapes.iter().map(|shape| moved(shape, 1.0, Vec2::new(5.0, 5.0))).collect();
        let turned = outline(&turned).unwrap();
        same_area(turned.hull_area, found.hull_area, &shapes);
        assert!((turned.semi_axes[0] - found.semi_axes[0]).abs() < 1e-7);
    }
}

/// The best place of a grid is never better than the promise allows, and what is reported is free.
#[test]
fn no_sampled_place_beats_the_promise() {
    for (shapes, oval, mut numbers) in pieces(8).take(400) {
        let overhang = [0.0, 4.0, f64::INFINITY][numbers.below(3)];
        let search = GapSearch { overhang, least_radius: 1.0, tolerance: 0.05, most: 6 };
        let found = gaps(&shapes, oval, &search);
        let clearance = |place: Point| {
            let free = shapes.iter().map(|shape| shape.distance(place)).fold(f64::INFINITY, f64::min);
            free.min(oval.depth(place) + overhang).min(2.0 * oval.a.max(oval.b))
        };
        let sampled = (0..101 * 101)
            .map(|k| Point::new((f64::from(k % 101) / 50.0 - 1.0) * oval.a, (f64::from(k / 101) / 50.0 - 1.0) * oval.b))
            .filter(|place| oval.gauge(*place) <= 1.0)
            .map(clearance)
            .fold(0.0, f64::max);
        let largest = found.iter().map(|gap| gap.radius).fold(1.0, f64::max);
        assert!(largest >= sampled - search.tolerance, "{largest} {sampled} {oval:?} {shapes:?}");
        for (index, Gap { centre, radius }) in found.iter().enumerate() {
            assert!(clearance(*centre) >= radius - 1e-9, "{shapes:?}");
            assert!(found[..index].iter().all(|other| other.centre.distance(*centre) >= other.radius + radius - 1e-9));
        }
        assert_eq!(found, gaps(&shapes, oval, &search), "the same again");
    }
}

/// A slim lens is made of huge discs: the area must not drown in them.
#[test]
fn slim_lenses_keep_their_area() {
    for slimness in [0.5, 0.1, 0.02, 0.003, 0.0005] {
        let lens = Lens { centre: Point::new(12.0, -7.0), length: 40.0, width: 40.0 * slimness, turn: 0.3 };
        let shape = Shape::Lens(lens);
        let found = covered(&[shape], None);
        assert!((found.area / shape.area() - 1.0).abs() < 1e-8, "{slimness} {}", found.area / shape.area());
        let centre = found.centroid().unwrap();
        assert!(centre.distance(lens.centre) < 1e-6);
        let [xx, yy, xy] = found.spread().unwrap();
        let [along, across] = spread_by_strips(lens);
        let (sine, cosine) = lens.turn.sin_cos();
        let near = |left: f64, right: f64| assert!((left - right).abs() < 1e-5, "{slimness}: {left} {right}");
        near(xx, along * cosine * cosine + across * sine * sine);
        near(yy, along * sine * sine + across * cosine * cosine);
        near(xy, (along - across) * sine * cosine);
    }
}

/// Second moments over the area, along the axis and across it, from thin strips.
fn spread_by_strips(lens: Lens) -> [f64; 2] {
    let n_strips = 100_000;
    let radius = (lens.length * lens.length + lens.width * lens.width) / (4.0 * lens.width);
    let [mut area, mut along, mut across] = [0.0; 3];
    for strip in 0..n_strips {
        let u = lens.length * ((f64::from(strip) + 0.5) / f64::from(n_strips) - 0.5);
        let height = lens.width - 2.0 * u * u / (radius + (radius * radius - u * u).sqrt());
        area += height;
        along += u * u * height;
        across += height * height * height / 12.0;
    }
    [along / area, across / area]
}
