//! Any numbers at all, also those that are none: nothing panics, and what goes in finite comes out finite.

use posywright::geometry::{
    CentreLoop, ConvexPolygon, Disc, GapSearch, Give, Layers, Lens, Oval, Point, Region, RibbonWork, RoundHead, Shape,
    Stacked, Weighted, WristSection, angular_evenness, angular_gaps, asymmetry, best_spread, centre_of_weight, covered,
    covered_mixed, evenness, extents, gaps, hidden_shares, hull, loop_outline, outline, overlaps, spread, stack,
    two_sided, visible, weight_offset,
};
use proptest::collection::vec;
use proptest::prelude::*;

/// Any number; and often such as come up at the bench, so that shapes meet.
fn number() -> impl Strategy<Value = f64> {
    prop_oneof![
        3 => (-60i32..60).prop_map(f64::from),
        2 => -60.0..60.0f64,
        1 => proptest::num::f64::ANY,
        1 => prop_oneof![Just(0.0), Just(-0.0), Just(1e6), Just(1e-6), Just(1e300), Just(1e-300), Just(f64::MIN_POSITIVE)],
    ]
}

fn point() -> impl Strategy<Value = Point> {
    (number(), number()).prop_map(Point::from)
}

fn shape() -> impl Strategy<Value = Shape> {
    prop_oneof![
        (point(), number()).prop_map(|(centre, radius)| Shape::disc(centre, radius)),
        (point(), number(), number(), number()).prop_map(|(centre, length, width, turn)| Shape::Lens(Lens {
            centre,
            length,
            width,
            turn
        })),
    ]
}

fn oval() -> impl Strategy<Value = Oval> {
    (number(), number()).prop_map(|(a, b)| Oval { a, b })
}

fn is_finite(region: &Region) -> bool {
    [region.area, region.x, region.y, region.xx, region.yy, region.xy].iter().all(|value| value.is_finite())
}

fn config() -> ProptestConfig {
    ProptestConfig {
        cases: 2_000,
        failure_persistence: None,
        rng_seed: proptest::test_runner::RngSeed::Fixed(20_240_501),
        ..ProptestConfig::default()
    }
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn areas_are_finite(shapes in vec(shape(), 0..8), corners in vec(point(), 0..8), oval in oval()) {
        let polygons: Vec<ConvexPolygon> = ConvexPolygon::around(&corners).into_iter().collect();
        prop_assert!(is_finite(&covered(&shapes, None)));
        prop_assert!(is_finite(&covered(&shapes, Some(oval))));
        prop_assert!(is_finite(&covered_mixed(&shapes, &polygons, Some(oval))));
        prop_assert!(visible(&shapes).iter().all(is_finite));
        let layers = Layers::of(&shapes, oval);
        prop_assert!(is_finite(&layers.all) && is_finite(&layers.within));
        prop_assert!(layers.seen.iter().all(|seen| *seen >= 0.0 && seen.is_finite()));
        prop_assert!(hidden_shares(&shapes).iter().all(|share| (0.0..=1.0).contains(share)));
    }

    #[test]
    fn gaps_are_finite(shapes in vec(shape(), 0..6), oval in oval(), settings in (number(), number(), number())) {
        let search = GapSearch { overhang: settings.0, least_radius: settings.1, tolerance: settings.2.max(0.1), most: 3 };
        for gap in gaps(&shapes, oval, &search) {
            prop_assert!(gap.radius.is_finite() && gap.centre.is_finite());
        }
    }

    #[test]
    fn outlines_are_finite(shapes in vec(shape(), 0..8)) {
        if let Some(found) = outline(&shapes) {
            let figures = [
                found.length, found.width, found.hull_area, found.box_fill, found.squareness, found.exponent,
                found.solidity, found.ellipticity, found.semi_axes[0], found.semi_axes[1], found.length_to_width(),
            ];
            prop_assert!(figures.iter().all(|figure| figure.is_finite()), "{:?}", found);
        }
        prop_assert_eq!(extents(&shapes).is_some(), outline(&shapes).is_some());
        prop_assert!(hull(&shapes).iter().all(|point| point.is_finite()));
        if let Some(found) = asymmetry(&shapes) {
            prop_assert!([found.end_to_end, found.side_to_side, found.half_turn].iter().all(|share| (0.0..=1.0).contains(share)));
        }
    }

    #[test]
    fn spacing_is_finite(points in vec(point(), 0..9), oval in oval(), n_points in 0usize..40) {
        let shares = [evenness(&points), spread(&points, oval), angular_evenness(&points, oval)];
        prop_assert!(shares.iter().flatten().all(|share| (0.0..=1.0).contains(share)), "{:?}", shares);
        prop_assert!(best_spread(n_points, oval).is_finite());
        prop_assert!(angular_gaps(&points, oval).iter().all(|gap| gap.width() >= 0.0));
    }

    #[test]
    fn weights_and_heights_are_finite(places in vec((point(), number(), number(), number()), 0..8), oval in oval()) {
        let disc = |centre, radius| Disc { centre, radius };
        let discs: Vec<Disc> = places.iter().map(|place| disc(place.0, place.1)).collect();
        prop_assert!(overlaps(&discs).iter().all(|overlap| overlap.area.is_finite() && overlap.depth.is_finite()));
        let things: Vec<Weighted> =
            places.iter().map(|place| Weighted { disc: disc(place.0, place.1), weight: place.2 }).collect();
        prop_assert!(two_sided(&things).balance().is_finite());
        prop_assert!(centre_of_weight(&things).is_none_or(|centre| centre.is_finite()));
        prop_assert!(weight_offset(&things, oval).is_none_or(f64::is_finite));
        let pile: Vec<Stacked> = places
            .iter()
            .map(|place| Stacked { disc: disc(place.0, place.1), lift: place.2, thickness: place.3 })
            .filter(|stacked| stacked.lift.is_finite() && stacked.thickness.is_finite())
            .collect();
        let give = Give { sideways: 0.25, squash: 0.2 };
        prop_assert!(stack(&pile, give).top >= 0.0);
    }

    #[test]
    fn wrist_and_ribbon_are_finite(figures in [number(), number(), number(), number()], loops in 0u32..9) {
        let [a, b, c, d] = figures;
        let section = WristSection::new(a, b);
        let seen = section.seen(c);
        prop_assert!(seen.across.is_finite() && seen.height.is_finite() && seen.tilt.is_finite());
        if c.is_finite() && d.is_finite() {
            let head = RoundHead { radius: c, lift: d, dome: c };
            prop_assert!(!section.protrusion(c, head).is_nan());
        }
        let work = RibbonWork {
            loops_a_side: loops, loop_length: a, loop_width: b, pinch: c, tails: loops, tail_length: d, tail_cut: a,
            centre_loop: Some(CentreLoop { diameter: b, overlap: c }),
        };
        prop_assert!(work.ribbon().total().is_finite());
        prop_assert!(loop_outline(a, b, 0.5, 24).iter().all(|point| point.is_finite()));
    }
}
