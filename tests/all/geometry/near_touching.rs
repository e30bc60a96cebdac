//! Families of shapes that nearly coincide, nearly touch or nearly osculate, 1e-15 to 1e-5 mm apart: what they cover is what the
//! shapes cover of which they are near copies, which other tests hold against figures from elsewhere.

use std::f64::consts::PI;

use posywright::geometry::{Layers, Lens, Oval, Point, Shape, Vec2, covered, visible};

use crate::geometry::made_up::{Numbers, on_grid, oval};

/// Families made up; a tenth of them is asked what is seen of each shape too, which takes longer.
const N_FAMILIES: u64 = 100_000;

/// What boundaries may be moved by before areas are calculated, mm2 along the edges of a dozen shapes.
const NUDGED_MM2: f64 = 1e-2;

/// One or two discs that lie in a special way: the oval itself, inside it at its end or side, bent there as it is, or inside the first.
fn special(numbers: &mut Numbers, oval: Oval) -> Vec<Shape> {
    let radius = numbers.between(3.0, oval.a.min(oval.b));
    let at_end = Shape::disc(Point::new(oval.a - radius, 0.0), radius);
    match numbers.below(5) {
        0 => vec![Shape::disc(Point::ORIGIN, oval.a), Shape::disc(Point::ORIGIN, oval.b)],
        1 => vec![at_end],
        2 => {
            let bend = oval.b * oval.b / oval.a;
            vec![Shape::disc(Point::new(oval.a - bend, 0.0), bend)]
        }
        3 => vec![at_end, Shape::disc(Point::new(oval.a - radius / 2.0, 0.0), radius / 2.0)],
        _ => Vec::new(),
    }
}

/// A copy that is off by no more than `off` mm in each figure.
fn near_copy(shape: &Shape, off: f64, numbers: &mut Numbers) -> Shape {
    let mut by = || numbers.between(-off, off);
    match *shape {
        Shape::Disc(disc) => Shape::disc(disc.centre + Vec2::new(by(), by()), disc.radius + by()),
        Shape::Lens(lens) => {
            let centre = lens.centre + Vec2::new(by(), by());
            Shape::Lens(Lens { centre, length: lens.length + by(), width: lens.width + by(), turn: lens.turn })
        }
    }
}

/// How much the areas of a family may differ from those of the shapes that they are copies of, mm2.
fn allowed(shapes: &[Shape], off: f64) -> f64 {
    let edges: f64 = shapes.iter().map(|shape| 2.0 * PI * shape.reach()).sum();
    // A lens bends more than its figures change.
    NUDGED_MM2 + 8.0 * off * edges
}

#[test]
fn near_copies_cover_what_their_models_cover_and_never_more_than_the_oval() {
    for seed in 0..N_FAMILIES {
        let mut numbers = Numbers::from_seed(seed);
        let oval = oval(&mut numbers);
        let n_models = 1 + numbers.below(3);
        let mut models = on_grid(&mut numbers, n_models);
        models.extend(special(&mut numbers, oval));
        let off = 10_f64.powf(numbers.between(-15.0, -5.0));
        let copies: Vec<Shape> = (0..2 + numbers.below(2))
            .flat_map(|_| models.iter().map(|model| near_copy(model, off, &mut numbers)).collect::<Vec<_>>())
            .collect();
        let (wanted, found) = (covered(&models, Some(oval)).area, covered(&copies, Some(oval)).area);
        let allowed = allowed(&copies, off);
        assert!((wanted - found).abs() <= allowed, "{seed}: {wanted} {found}, {off:e} off, {allowed} allowed");
        assert!(found <= oval.area(), "{seed}");
        let (wanted, found) = (covered(&models, None).area, covered(&copies, None).area);
        assert!((wanted - found).abs() <= allowed, "{seed}: {wanted} {found} in all, {off:e} off");
        if seed % 10 == 0 {
            let layers = Layers::of(&copies, oval);
            let seen: f64 = visible(&copies).iter().map(|region| region.area).sum();
            assert!((layers.all.area - wanted).abs() <= allowed, "{seed}: {} {wanted} in layers", layers.all.area);
            assert!((layers.seen.iter().sum::<f64>() - wanted).abs() <= allowed, "{seed}: {:?}", layers.seen);
            assert!((seen - wanted).abs() <= allowed, "{seed}: {seen} {wanted} visible");
        }
    }
}
