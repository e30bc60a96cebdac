//! A fast surrogate for the once-over: what a layout would lose of its score, in points of 100, to a few parts of a point, and
//! what it would lose by preference.
//!
//! The search moves thousands of times on it; the true once-over has the last word on what it finds. Weights are the house
//! style's. Where a question of the once-over cannot be computed in a few operations, something near it stands here. Only
//! arithmetic and square roots, so that the same moves are made on every computer.
//!
//! A step is computed in the order of what it costs: what it does not touch is remembered, and what is lost already without
//! looking from above spares the look.

mod heads;
mod heaps;
mod seen;
mod step;

use super::grid::{Grid, Mask};
use super::plan::kinds_of;
use super::region::inner_of;
use super::table::{Item, PartPose, PartTable};
use crate::geometry::{Oval, Point, WristSection, best_spread};
use crate::once_over::Subject;
use crate::piece::{Question, Worn, Wrist};
use crate::stock::Role;

use heaps::Heaped;
use seen::{Masks, Pile};
pub(super) use step::SearchStep;

/// What a layout loses.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Loss {
    /// Of the score, points of 100.
    pub(super) score: f64,
    /// By preference, in points of about the same size.
    pub(super) preference: f64,
}

impl Loss {
    pub(super) fn total(self) -> f64 {
        self.score + PREFERENCE * self.preference
    }
}

/// How much of a point of the score a point of preference is worth: enough to choose between two good layouts.
pub(super) const PREFERENCE: f64 = 0.25;

/// How much it counts when a pile is higher, or more is hidden and pressed, than what costs the whole question: the once-over
/// does not mind, the search must find its way out.
const HIGHER_FURTHER: f64 = 1.0;
const HIDDEN_FURTHER: f64 = 0.5;

/// A layout on the grid, with what is remembered of it.
#[derive(Clone, Debug)]
pub(super) struct Layout {
    pub(super) poses: Vec<PartPose>,
    /// The seats that the plan gave, which the search leaves only for a reason.
    pub(super) seats: Vec<PartPose>,
    masks: Vec<Masks>,
    /// From the highest to the lowest; so many of the first are heads.
    order: Vec<usize>,
    n_topmost: usize,
    of_heads: OfHeads,
    leaves_lost: f64,
    topmost: Pile,
}

/// What depends on where heads lie and on nothing else.
#[derive(Clone, Copy, Debug, Default)]
struct OfHeads {
    /// Points lost by corners, top, grading, ends, spread, balance and what reaches past the edge.
    points: f64,
    heaped: Heaped,
}

/// Judges layouts of one table.
#[derive(Clone, Debug)]
pub(super) struct Surrogate {
    items: Vec<Item>,
    oval: Oval,
    grid: Grid,
    within: Mask,
    gap_centres: Mask,
    base: Mask,
    room_radius: f64,
    weights: Weights,
    ratio: [f64; 2],
    hidden_share: f64,
    width_limit: f64,
    height_limit: f64,
    /// Farthest that the middle of each head may lie from the arm's axis, mm.
    across_limits: Vec<f64>,
    blooms: Vec<usize>,
    heads: Vec<usize>,
    /// Accents by kind, with the least distance that counts as well spread.
    accents: Vec<(Vec<usize>, f64)>,
    leaves: Vec<usize>,
    fillers: Vec<usize>,
}

/// Points of 100 by question.
#[derive(Clone, Copy, Debug)]
struct Weights {
    outline: f64,
    width: f64,
    corners: f64,
    along: f64,
    top: f64,
    graded: f64,
    ends: f64,
    spread: f64,
    balance: f64,
    room: f64,
    hidden: f64,
    height: f64,
    base: f64,
    leaves: f64,
    past_edge: f64,
}

impl Weights {
    fn of(subject: Subject<'_>) -> Self {
        let aside = &subject.piece.wishes.ignored;
        let asked = |q: Question| if aside.contains_key(&q) { 0.0 } else { subject.style.weight(q) };
        let all: f64 = Question::ALL.into_iter().map(asked).sum();
        let on_wrist = if subject.piece.worn == Worn::Wrist { 1.0 } else { 0.0 };
        let points = |q: Question| if all > 0.0 { 100.0 * asked(q) / all } else { 0.0 };
        Self {
            outline: points(Question::Outline),
            width: on_wrist * points(Question::WidthOnWrist),
            corners: points(Question::Squareness),
            along: points(Question::AlongTheArm),
            top: points(Question::Top),
            graded: points(Question::GradedSizes),
            ends: points(Question::AxisEnds),
            spread: points(Question::EvenSpread),
            balance: on_wrist * points(Question::Balance),
            room: points(Question::RoomHere),
            hidden: points(Question::Hidden),
            height: on_wrist * points(Question::Height),
            base: on_wrist * points(Question::Mechanics),
            leaves: points(Question::Leaves),
            past_edge: on_wrist * points(Question::Protrusion),
        }
    }
}

/// The base under the blooms, as the once-over takes it, mm.
const BASE: [f64; 2] = [16.0, 12.0];

impl Surrogate {
    pub(super) fn of(table: &PartTable<'_>) -> Self {
        let Subject { style, wrist, .. } = table.subject;
        let (oval, items) = (table.oval, table.items.clone());
        let grid = Grid::over(oval);
        let room_radius = (style.shape.room_mm / 2.0).max(1.0);
        let inner = |less: f64| grid.ellipse(Point::ZERO, (oval.a - less).max(0.1), (oval.b - less).max(0.1));
        let roles = |wanted: &[Role]| (0..items.len()).filter(|&i| wanted.contains(&items[i].role)).collect::<Vec<_>>();
        let section = WristSection::new(wrist.girth_mm(), Wrist::FLATNESS);
        let accents = kinds_of(table, &[Role::Accent]).into_iter().filter(|k| k.len() >= 2);
        Self {
            within: inner(0.0),
            gap_centres: inner(room_radius),
            base: grid.ellipse(Point::ZERO, BASE[0], BASE[1]),
            room_radius,
            weights: Weights::of(table.subject),
            ratio: style.shape.length_to_width,
            hidden_share: style.shape.hidden_share,
            width_limit: style.width_limit_mm(wrist.girth_mm()),
            height_limit: style.height_limit_mm(&table.subject.piece.wishes),
            across_limits: items.iter().map(|i| across_limit(i, &section, style.shape.protrusion_mm)).collect(),
            blooms: roles(&[Role::Bloom]),
            heads: roles(&[Role::Bloom, Role::Accent]),
            accents: accents.map(|k| (k.clone(), 0.8 * best_spread(k.len(), inner_of(&items[k[0]], oval)))).collect(),
            leaves: roles(&[Role::Leaf]),
            fillers: roles(&[Role::Filler]),
            grid,
            oval,
            items,
        }
    }

    /// Lays a layout on the grid.
    pub(super) fn layout(&self, table: &PartTable<'_>, poses: Vec<PartPose>, seats: Vec<PartPose>) -> Layout {
        let masks = poses.iter().enumerate().map(|(i, pose)| self.masks(i, pose)).collect();
        let mut order = table.lowest_first(&poses);
        order.reverse();
        let n_topmost = order.iter().take_while(|&&i| self.items[i].is_head()).count();
        let (of_heads, topmost) = (OfHeads::default(), Pile::default());
        let mut layout = Layout { poses, seats, masks, order, n_topmost, of_heads, leaves_lost: 0.0, topmost };
        layout.of_heads = self.of_heads(&layout);
        layout.leaves_lost = self.leaves_lost(&layout.poses);
        layout.topmost = self.topmost(&layout);
        layout
    }

    /// What a layout loses.
    pub(super) fn loss(&self, layout: &Layout) -> Loss {
        self.with_what_is_seen(self.without_looking(layout), layout)
    }

    /// What is lost at least: all but what has to be looked at from above.
    fn without_looking(&self, layout: &Layout) -> Loss {
        let w = &self.weights;
        let Heaped { height, crushed, pressed } = layout.of_heads.heaped;
        let [along, across] = self.extents(&layout.poses);
        let score = layout.of_heads.points
            + w.outline * self.proportion_lost(along / across.max(1.0))
            + w.width * lost((across - self.width_limit) / (0.4 * self.width_limit.max(1.0)))
            + w.along * self.askew_lost(&layout.poses)
            + w.hidden * more_than_lost(crushed, HIDDEN_FURTHER)
            + w.height * more_than_lost(height, HIGHER_FURTHER)
            + w.leaves * layout.leaves_lost;
        Loss { score, preference: pressed + self.strayed(layout) }
    }

    fn with_what_is_seen(&self, without: Loss, layout: &Layout) -> Loss {
        let (seen, crushed) = (self.seen(layout), layout.of_heads.heaped.crushed);
        let w = &self.weights;
        let hidden = |lost: f64| more_than_lost(lost, HIDDEN_FURTHER);
        let score = without.score
            + w.hidden * (hidden(seen.hidden_lost + crushed) - hidden(crushed))
            + w.room * seen.bare_share / 0.45
            + w.base * lost((0.97 - seen.base_covered) / 0.57);
        Loss { score, preference: without.preference + seen.preference }
    }

    fn of_heads(&self, layout: &Layout) -> OfHeads {
        let (w, poses) = (&self.weights, &layout.poses);
        let points = w.corners * self.corners_lost(poses)
            + w.top * self.top_lost(poses)
            + w.graded * self.graded_lost(poses)
            + w.ends * self.ends_lost(poses)
            + w.spread * self.spread_lost(poses)
            + w.balance * self.balance_lost(poses)
            + w.past_edge * self.past_edge_lost(poses);
        OfHeads { points, heaped: self.heaped(layout) }
    }

    /// Box on the arm's axes: along, across.
    fn extents(&self, poses: &[PartPose]) -> [f64; 2] {
        let (mut lo, mut hi) = ([f64::INFINITY; 2], [f64::NEG_INFINITY; 2]);
        for (item, pose) in self.items.iter().zip(poses) {
            let half = half_box(item, pose);
            for (axis, at) in [pose.at.x, pose.at.y].into_iter().enumerate() {
                lo[axis] = lo[axis].min(at - half[axis]);
                hi[axis] = hi[axis].max(at + half[axis]);
            }
        }
        [hi[0] - lo[0], hi[1] - lo[1]]
    }

    fn proportion_lost(&self, ratio: f64) -> f64 {
        let [from, to] = self.ratio;
        lost((2.0 * (from - ratio) / from).max((ratio - to) / (1.5 * to)))
    }

    /// How far parts have strayed from their seats, as preference. The plan is regular; what leaves it without need looks spilt.
    fn strayed(&self, layout: &Layout) -> f64 {
        /// So far from its seat, mm, a part costs its whole weight.
        const WHOLE_MM: f64 = 8.0;
        let one = |(item, (pose, seat)): (&Item, (&PartPose, &PartPose))| {
            let [place, turn] = match item.role {
                Role::Bloom => [2.5, 0.0],
                Role::Leaf => [2.0, 4.0],
                Role::Accent | Role::Trim => [1.0, 0.0],
                Role::Filler => [0.7, 0.0],
            };
            let off = (pose.at - seat.at).hypot2() / (WHOLE_MM * WHOLE_MM);
            place * off + turn * (pose.toward - seat.toward).hypot2()
        };
        let pairs = layout.poses.iter().zip(layout.seats.iter());
        self.items.iter().zip(pairs).map(one).sum::<f64>() / self.items.len().max(1) as f64
    }

    fn leaves_lost(&self, poses: &[PartPose]) -> f64 {
        let (mut pairs, mut wrong) = (0_u32, 0_u32);
        for (k, &i) in self.leaves.iter().enumerate() {
            for &j in &self.leaves[k + 1..] {
                let (p, q) = (poses[i].at, poses[j].at);
                let longer = 2.0 * (self.items[i].reach - self.items[j].reach);
                let farther = p.x.abs() - q.x.abs();
                if (p.x > 0.0) == (q.x > 0.0) && longer.abs() >= 2.0 && farther.abs() >= 2.0 {
                    pairs += 1;
                    wrong += u32::from((longer > 0.0) == (farther > 0.0));
                }
            }
        }
        0.3 * f64::from(wrong) / f64::from(pairs.max(1))
    }

    fn past_edge_lost(&self, poses: &[PartPose]) -> f64 {
        let over = |i: &usize| poses[*i].at.y.abs() - self.across_limits[*i];
        lost(self.heads.iter().map(over).fold(0.0, f64::max) / 15.0)
    }
}

/// A share of something lost; more than the whole counts a little further, so that the search sees which way is back.
fn more_than_lost(share: f64, further: f64) -> f64 {
    if share > 1.0 { 1.0 + further * (share - 1.0) } else { share.max(0.0) }
}

/// A share of something lost, 0 to 1.
fn lost(share: f64) -> f64 {
    share.clamp(0.0, 1.0)
}

fn squared_gauge(oval: Oval, p: Point) -> f64 {
    let (x, y) = (p.x / oval.a, p.y / oval.b);
    x * x + y * y
}

/// Half the box of an item on the arm's axes.
fn half_box(item: &Item, pose: &PartPose) -> [f64; 2] {
    if !item.is_long() {
        return [item.reach; 2];
    }
    // A lens reaches as far as its tip, or as the arc of radius r that faces this way.
    let (l, w, t) = (item.reach, item.half_width, pose.toward);
    let r = (l * l + w * w) / (2.0 * w);
    let reach = |along: f64, aside: f64| if aside * r > r - w { r - (r - w) * aside } else { l * along };
    [reach(t.x.abs(), t.y.abs()), reach(t.y.abs(), t.x.abs())]
}

/// How far from the arm's axis the middle of a head may lie before it reaches too far past the edge of the wrist, mm.
fn across_limit(item: &Item, section: &WristSection, limit: f64) -> f64 {
    /// Places tried between the top and the side of the wrist.
    const STEPS: u32 = 60;
    /// Lift of a raised head, as the once-over takes it, mm.
    const LIFT_MM: f64 = 6.0;
    if !item.is_head() {
        return f64::INFINITY;
    }
    let head = crate::geometry::RoundHead { radius: item.half_width, lift: LIFT_MM, dome: item.thickness };
    let quarter = section.girth() / 4.0;
    let place = |k: u32| quarter * f64::from(k) / f64::from(STEPS);
    (1..=STEPS).find(|k| section.protrusion(place(*k), head) > limit).map_or(f64::INFINITY, |k| place(k - 1))
}
