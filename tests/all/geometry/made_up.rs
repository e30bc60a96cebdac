//! Made-up pieces: the same ones on every run.

use posywright::geometry::{Lens, Oval, Point, Shape, Vec2};

/// Random numbers, the same from a seed on every run.
pub(crate) struct Numbers(fastrand::Rng);

impl Numbers {
    pub(crate) fn from_seed(seed: u64) -> Self {
        Self(fastrand::Rng::with_seed(seed))
    }

    /// Between two figures.
    pub(crate) fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.0.f64()
    }

    /// A whole figure below `bound`.
    pub(crate) fn below(&mut self, bound: usize) -> usize {
        self.0.usize(..bound)
    }
}

/// Anywhere, any size: discs, and a lens now and then.
pub(crate) fn loose(numbers: &mut Numbers, n_shapes: usize) -> Vec<Shape> {
    let shape = |_| {
        let centre = Point::new(numbers.between(-45.0, 45.0), numbers.between(-32.0, 32.0));
        if numbers.below(4) == 0 {
            let length = numbers.between(10.0, 50.0);
            let width = length * numbers.between(0.1, 1.0);
            Shape::Lens(Lens { centre, length, width, turn: numbers.between(-7.0, 7.0) })
        } else {
            Shape::disc(centre, numbers.between(2.0, 14.0))
        }
    };
    (0..n_shapes).map(shape).collect()
}

/// On a grid of whole millimetres: touching, equal and contained ones come up all the time, also with the oval's edge.
pub(crate) fn on_grid(numbers: &mut Numbers, n_shapes: usize) -> Vec<Shape> {
    let shape = |_| {
        let whole = |numbers: &mut Numbers, range: usize| numbers.below(2 * range + 1) as f64 - range as f64;
        let centre = Point::new(whole(numbers, 6) * 5.0, whole(numbers, 4) * 5.0);
        if numbers.below(5) == 0 {
            let turn = numbers.below(8) as f64 * std::f64::consts::FRAC_PI_4;
            Shape::Lens(Lens { centre, length: 20.0, width: 10.0 + 5.0 * numbers.below(3) as f64, turn })
        } else {
            Shape::disc(centre, 5.0 * (1 + numbers.below(3)) as f64)
        }
    };
    (0..n_shapes).map(shape).collect()
}

/// One of several ovals, among them a round one and one that is wider than long.
pub(crate) fn oval(numbers: &mut Numbers) -> Oval {
    let sizes = [(45.0, 30.0), (30.0, 30.0), (25.0, 40.0), (50.0, 15.0), (35.0, 20.0)];
    let (a, b) = sizes[numbers.below(sizes.len())];
    Oval { a, b }
}

/// The shape turned about the origin and moved.
pub(crate) fn moved(shape: &Shape, turn: f64, by: Vec2) -> Shape {
    let (sine, cosine) = turn.sin_cos();
    let place = |p: Point| Point::new(p.x * cosine - p.y * sine, p.x * sine + p.y * cosine) + by;
    match *shape {
        Shape::Disc(disc) => Shape::disc(place(disc.centre), disc.radius),
        Shape::Lens(lens) => Shape::Lens(Lens { centre: place(lens.centre), turn: lens.turn + turn, ..lens }),
    }
}

/// The shape grown about the origin.
pub(crate) fn grown(shape: &Shape, scale: f64) -> Shape {
    let place = |p: Point| (p.to_vec2() * scale).to_point();
    match *shape {
        Shape::Disc(disc) => Shape::disc(place(disc.centre), disc.radius * scale),
        Shape::Lens(lens) => Shape::Lens(Lens {
            centre: place(lens.centre),
            length: lens.length * scale,
            width: lens.width * scale,
            ..lens
        }),
    }
}

/// The shape in the mirror (x, y) -> (x, -y).
pub(crate) fn mirrored(shape: &Shape) -> Shape {
    let place = |p: Point| Point::new(p.x, -p.y);
    match *shape {
        Shape::Disc(disc) => Shape::disc(place(disc.centre), disc.radius),
        Shape::Lens(lens) => Shape::Lens(Lens { centre: place(lens.centre), turn: -lens.turn, ..lens }),
    }
}
