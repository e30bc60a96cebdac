//! The free places in the oval: the largest circle that fits between the shapes, then the next beside it, and so on.
//!
//! Knows discs and lenses as obstacles, and how far a circle may reach past the oval's edge; mm. Does not know what would
//! fit into a gap.
//!
//! Best-first search over squares that are split in four. Clearance, the distance to the nearest obstacle, never changes
//! faster than the place moves, so a square cannot hold a better centre than its own centre's clearance plus half its
//! diagonal: when the best square promises no more than the tolerance above the best place found, that place is reported.
//! The most promising square is looked at closer before it is split: see `bound`.
//! The same idea serves in the JTS library (`LargestEmptyCircle`, M. Davis, JTS pull request 530, 2020).

mod bound;
mod field;
mod near;
mod polish;
mod queue;

use std::f64::consts::SQRT_2;

use kurbo::Point;

use super::{Disc, Oval, Shape};
use field::Obstacles;
use near::{Lists, Near};
use queue::Queue;

/// A free circle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gap {
    /// Its centre, in the oval.
    pub centre: Point,
    /// Its radius, mm.
    pub radius: f64,
}

/// What to look for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GapSearch {
    /// How far a gap may reach past the oval's edge, mm; infinite if only its centre must lie in the oval. Then no gap is
    /// given as larger than the oval's longer axis: it holds all of it.
    pub overhang: f64,
    /// Smaller gaps are not wanted, mm.
    pub least_radius: f64,
    /// A reported radius falls short of the largest possible by no more than this, mm. Usually it is exact to rounding.
    pub tolerance: f64,
    /// How many are wanted at most.
    pub most: usize,
}

impl Default for GapSearch {
    /// Inside the oval, from 2 mm radius, to 0.05 mm, up to twenty: our choice, finer than a hand places anything.
    fn default() -> Self {
        Self { overhang: 0.0, least_radius: 2.0, tolerance: 0.05, most: 20 }
    }
}

/// Sizes nearer to each other than this, mm, count as equal and are ordered by place, so that labels do not jump.
const SAME_SIZE_MM: f64 = 0.01;

/// The finest tolerance that is honoured, as a share of the oval's longer axis: finer squares only
/// cost time, since the polish is exact in nearly every case.
const LEAST_TOLERANCE: f64 = 1e-6;

/// Squares looked at before the search gives up and returns what it has. A hundred shapes take a few thousand; only a
/// ridge of equally good places searched at a tolerance finer than any use could come near this.
const MOST_SQUARES: usize = 100_000;

/// The free circles, each the largest that is left (to the tolerance) beside the shapes and the circles before it.
///
/// From large to small, those of one size by x and then by y. None if the oval is no oval.
pub fn gaps(shapes: &[Shape], oval: Oval, search: &GapSearch) -> Vec<Gap> {
    if !oval.is_sound() || search.overhang.is_nan() || search.most == 0 {
        return Vec::new();
    }
    let mut gaps = GapFinder::new(shapes, oval, search).run(search.most);
    sort_stably(&mut gaps);
    gaps
}

fn sort_stably(gaps: &mut [Gap]) {
    gaps.sort_by(|left, right| right.radius.total_cmp(&left.radius));
    let by_place = |left: &Gap, right: &Gap| {
        // Places are rounded first, so that mirror images, equal but for rounding, keep their order.
        let rounded = |value: f64| (value / SAME_SIZE_MM).round() + 0.0;
        rounded(left.centre.x)
            .total_cmp(&rounded(right.centre.x))
            .then(rounded(left.centre.y).total_cmp(&rounded(right.centre.y)))
    };
    let mut start = 0;
    while start < gaps.len() {
        let largest = gaps[start].radius;
        let n_same = gaps[start..].iter().take_while(|gap| largest - gap.radius <= SAME_SIZE_MM).count();
        gaps[start..start + n_same].sort_by(by_place);
        start += n_same;
    }
}

/// A square of places, with what is known of it.
#[derive(Clone, Copy, Debug)]
struct Square {
    centre: Point,
    half_side: f64,
    /// No place in it has more clearance than this.
    promise: f64,
    /// Whether that was looked at closely.
    promised: Promised,
    /// How far the nearest shape is from the centre.
    free: f64,
    /// Clearance at the centre (or where the way from the oval's centre to it leaves the oval), and that place.
    found: f64,
    place: Point,
    /// Which obstacles can be nearest within it, and those from `n_listed` on.
    near: Near,
    n_listed: usize,
    /// How many obstacles are taken into account.
    n_known: usize,
}

impl Square {
    /// Takes the gaps found since it was looked at into account.
    fn take_in(&mut self, field: &Obstacles) {
        let reach = self.half_side * SQRT_2;
        for gap in self.n_known..field.n_obstacles() {
            // Whatever is in the square, the promised place as well as the found one, is nearer to something else.
            if !field.is_disc_within(gap, self.centre, self.promise.max(self.found) + reach) {
                continue;
            }
            let clearance = field.distance_to_disc(gap, self.centre);
            self.promise = self.promise.min(clearance + reach);
            let at_place = if self.place == self.centre { clearance } else { field.distance_to_disc(gap, self.place) };
            self.found = self.found.min(at_place);
        }
        self.n_known = field.n_obstacles();
    }
}

/// Where a square's promise comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Promised {
    /// From the clearance at its centre alone.
    Roughly,
    /// From the directions in which its limits grow.
    Closely,
}

struct GapFinder {
    field: Obstacles,
    least_radius: f64,
    tolerance: f64,
    squares: Vec<Square>,
    queue: Queue,
    lists: Lists,
    best: Gap,
    found: Vec<Gap>,
}

const NO_GAP: Gap = Gap { centre: Point::ORIGIN, radius: f64::NEG_INFINITY };

impl GapFinder {
    fn new(shapes: &[Shape], oval: Oval, search: &GapSearch) -> Self {
        let field = Obstacles::new(shapes, oval, search.overhang);
        let longest = oval.a.max(oval.b);
        let finest = LEAST_TOLERANCE * longest;
        Self {
            lists: Lists::of_all(&field, USUAL_SQUARES),
            field,
            least_radius: search.least_radius.max(finest),
            tolerance: search.tolerance.max(finest).min(longest),
            squares: Vec::with_capacity(USUAL_SQUARES),
            queue: Queue::with_room(USUAL_SQUARES),
            best: NO_GAP,
            found: Vec::new(),
        }
    }

    fn run(mut self, most: usize) -> Vec<Gap> {
        self.add_first_squares();
        while let Some(number) = self.queue.first() {
            if self.squares.len() > MOST_SQUARES || self.found.len() >= most {
                break;
            }
            let promise = self.squares[number].promise;
            self.squares[number].take_in(&self.field);
            let square = &self.squares[number];
            if square.found > self.best.radius {
                self.best = Gap { centre: square.place, radius: square.found };
            }
            if square.promise <= self.least_radius {
                self.queue.pop();
            } else if square.promise < promise {
                self.queue.wait_longer(square.promise, number);
            } else if square.promise <= self.best.radius + self.tolerance {
                self.report();
            } else if square.promised == Promised::Roughly && square.promise > 2.0 * SQRT_2 * square.half_side {
                // In a square larger than its clearance no direction holds all over.
                self.look_closely(number);
                self.queue.wait_longer(self.squares[number].promise.max(self.least_radius), number);
            } else {
                self.queue.pop();
                self.split(number);
            }
        }
        self.found
    }

    fn add_first_squares(&mut self) {
        let all = self.lists.whole();
        let oval = self.field.oval;
        let half_side = oval.a.min(oval.b) / 2.0;
        let n_squares = |semi_axis: f64| {
            let mut n_squares = 1u32;
            while f64::from(n_squares) * half_side < semi_axis && n_squares < MOST_A_SIDE {
                n_squares += 1;
            }
            n_squares
        };
        let (n_along, n_across) = (n_squares(oval.a), n_squares(oval.b));
        // A very slim oval gets larger squares instead of more of them.
        let half_side = half_side.max(oval.a / f64::from(n_along)).max(oval.b / f64::from(n_across));
        for along in 0..n_along {
            for across in 0..n_across {
                let offset = |index: u32, n: u32| (2.0 * f64::from(index) + 1.0 - f64::from(n)) * half_side;
                let centre = Point::new(offset(along, n_along), offset(across, n_across));
                let free = self.field.nearest_obstacle(centre, self.lists.at(all));
                self.look_at(centre, half_side, free, all);
            }
        }
    }

    fn consider(&mut self, centre: Point, radius: f64) {
        if radius > self.best.radius {
            self.best = Gap { centre, radius };
        }
    }

    fn report(&mut self) {
        let gap = polish::polished(&self.field, self.best, self.tolerance);
        self.field.give_away(Disc { centre: gap.centre, radius: gap.radius });
        self.found.push(gap);
        self.best = NO_GAP;
    }

    /// Promises for a square what the directions of its limits allow. Where they promise most is tried as well.
    fn look_closely(&mut self, number: usize) {
        let square = self.squares[number];
        let listed = self.lists.at(square.near).iter().copied();
        let obstacles = listed.chain(square.n_listed..self.field.n_obstacles());
        let bound = bound::bound(&self.field, square.centre, square.half_side, square.promise, obstacles);
        self.squares[number].promise = bound.promise;
        self.squares[number].promised = Promised::Closely;
        let Some(place) = bound.place else { return };
        let gauge = self.field.oval.gauge(place);
        let given = (square.n_listed..self.field.n_obstacles()).map(|o| self.field.distance_to(o, place));
        let free = given.fold(self.nearest_listed(square.near, place), f64::min);
        let found = self.field.with_edge(place, gauge, free);
        if gauge <= 1.0 && found > square.found {
            (self.squares[number].place, self.squares[number].found) = (place, found);
            if found > self.least_radius {
                self.consider(place, found);
            }
        }
    }

    /// Looks at the four quarters of a square. Of the obstacles near it those are listed for them that can be nearest
    /// somewhere in it.
    fn split(&mut self, number: usize) {
        let square = self.squares[number];
        let quarter = square.half_side / 2.0;
        let centres = [(-quarter, -quarter), (-quarter, quarter), (quarter, -quarter), (quarter, quarter)]
            .map(|(x, y)| Point::new(square.centre.x + x, square.centre.y + y));
        let given = square.n_listed..self.field.n_obstacles();
        let within = square.free + 2.0 * SQRT_2 * square.half_side;
        let near = self.lists.closer(&self.field, square.near, given, square.centre, within);
        let free = self.field.nearest_to_each(&centres, self.lists.at(near));
        for (centre, free) in centres.into_iter().zip(free) {
            self.look_at(centre, quarter, free, near);
        }
    }

    /// Distance to the nearest obstacle of a list.
    fn nearest_listed(&self, near: Near, place: Point) -> f64 {
        self.field.nearest_obstacle(place, self.lists.at(near))
    }

    fn look_at(&mut self, centre: Point, half_side: f64, free: f64, near: Near) {
        let oval = self.field.oval;
        let reach = half_side * SQRT_2;
        let gauge = oval.gauge(centre);
        if gauge - reach / oval.a.min(oval.b) > 1.0 {
            return;
        }
        if free + reach <= self.least_radius {
            return;
        }
        let found = self.field.with_edge(centre, gauge, free);
        let promise = found + reach;
        if promise <= self.least_radius || promise.is_nan() {
            return;
        }
        let (place, found) = if gauge <= 1.0 {
            (centre, found)
        } else {
            let edge = Point::new(centre.x / gauge, centre.y / gauge);
            // Beyond the square others know better.
            let may_lie_in_it = edge.distance(centre) <= reach;
            let clearance = || self.field.with_edge(edge, 1.0, self.nearest_listed(near, edge));
            (edge, if may_lie_in_it { clearance() } else { f64::NEG_INFINITY })
        };
        if found > self.least_radius {
            self.consider(place, found);
        }
        let n_known = self.field.n_obstacles();
        self.queue.push(promise, self.squares.len());
        self.squares.push(Square {
            centre,
            half_side,
            promise,
            promised: Promised::Roughly,
            free,
            found,
            place,
            near,
            n_listed: n_known,
            n_known,
        });
    }
}

/// Squares that a usual piece takes: room for them is made at once.
const USUAL_SQUARES: usize = 2_000;

/// First squares along one axis at most.
const MOST_A_SIDE: u32 = 64;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Lens;

    fn disc(x: f64, y: f64, radius: f64) -> Shape {
        Shape::disc(Point::new(x, y), radius)
    }

    #[test]
    fn an_empty_oval_takes_its_inscribed_circle_first() {
        let found = gaps(&[], Oval { a: 45.0, b: 30.0 }, &GapSearch { most: 1, ..GapSearch::default() });
        assert_eq!(found.len(), 1);
        assert!((found[0].radius - 30.0).abs() < 1e-6, "{found:?}");
    }

    #[test]
    fn a_full_oval_has_no_gap() {
        let oval = Oval { a: 30.0, b: 20.0 };
        assert_eq!(gaps(&[disc(1.0, 1.0, 40.0)], oval, &GapSearch::default()), []);
        let anywhere = GapSearch { overhang: f64::INFINITY, ..GapSearch::default() };
        assert_eq!(gaps(&[disc(1.0, 1.0, 40.0)], oval, &anywhere), []);
    }

    #[test]
    fn gaps_are_disjoint_free_and_sorted() {
        let lens = Shape::Lens(Lens { centre: Point::new(-20.0, 8.0), length: 36.0, width: 12.0, turn: 0.5 });
        let shapes = [disc(0.0, 0.0, 12.0), disc(22.0, -9.0, 8.0), lens];
        let oval = Oval { a: 45.0, b: 30.0 };
        for overhang in [0.0, 5.0, f64::INFINITY] {
            let search = GapSearch { overhang, ..GapSearch::default() };
            let found = gaps(&shapes, oval, &search);
            assert!(found.len() > 5);
            for (index, gap) in found.iter().enumerate() {
                assert!(oval.gauge(gap.centre) <= 1.0 + 1e-9);
                assert!(oval.depth(gap.centre) + overhang >= gap.radius - 1e-9);
                for shape in &shapes {
                    assert!(shape.distance(gap.centre) >= gap.radius - 1e-9);
                }
                for later in &found[index + 1..] {
                    assert!(later.centre.distance(gap.centre) >= later.radius + gap.radius - 1e-9);
                    assert!(later.radius <= gap.radius + SAME_SIZE_MM);
                }
            }
        }
    }

    #[test]
    fn equal_gaps_stand_in_order_of_place() {
        let oval = Oval { a: 45.0, b: 30.0 };
        let found = gaps(&[disc(0.0, 0.0, 4.0)], oval, &GapSearch { most: 2, ..GapSearch::default() });
        assert!(found[0].centre.x < 0.0 && found[1].centre.x > 0.0);
    }

    #[test]
    fn the_worst_numbers_are_answered() {
        let shapes = [disc(f64::NAN, 0.0, 1.0), disc(0.0, 0.0, 0.0), disc(1e300, 0.0, 1e300), disc(0.0, 0.0, 5.0)];
        for oval in
            [Oval { a: 1e6, b: 1e-6 }, Oval { a: 0.0, b: 1.0 }, Oval { a: f64::NAN, b: 1.0 }, Oval { a: 9.0, b: 9.0 }]
        {
            for tolerance in [f64::NAN, -1.0, 0.0, 1.0] {
                for overhang in [f64::NAN, -3.0, 0.0, f64::INFINITY] {
                    let search = GapSearch { overhang, tolerance, least_radius: 1.0, most: 3 };
                    for gap in gaps(&shapes, oval, &search) {
                        assert!(gap.radius.is_finite() && gap.centre.is_finite());
                    }
                }
            }
        }
    }
}
