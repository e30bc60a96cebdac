//! Everything that the questions need, measured once. Millimetres, square millimetres, radians, grams.

use std::collections::BTreeMap;

use super::Subject;
use super::relief::Relief;
use crate::geometry::{
    AngularGap, BoxFill, ConvexPolygon, Disc, Gap, GapSearch, Layers, Lens, Outline, Oval, Point, Region, Shape,
    TwoSided, Weighted, angular_gaps, box_fill, covered, covered_mixed, evenness_and_spread, evenness_of_gaps, gaps,
    loop_outline, outline_around, two_sided, weight_offset,
};
use crate::piece::{Bow, Level, Part, PartId};
use crate::stock::{Botanical, Role, StockId};
use crate::units::join;

/// Gaps are found to this, mm; finer than anyone can glue.
const GAP_TOLERANCE_MM: f64 = 0.02;
/// Most gaps looked for; our choice, more than a person would fill one by one.
const MOST_GAPS: usize = 20;
/// The base under the blooms: band plate and glue, as semi-axes of an oval, mm; common practice, no source.
const BASE: Oval = Oval { a: 16.0, b: 12.0 };
/// Points on the outline of a loop; 24 lose 0.9 % of its area, and the share seen does not mind.
const LOOP_POINTS: usize = 24;
/// From so many parts on a second core pays: below, starting a thread takes as long as it saves. Measured.
const MANY_PARTS: usize = 40;
/// Loops on a side that are looked at; more lie on each other.
const MOST_LOOPS: u32 = 12;

/// How one kind of bloom or accent is spaced over the oval.
#[derive(Clone, Debug, PartialEq)]
pub struct KindSpacing {
    /// What it is.
    pub stock: StockId,
    /// The part it plays.
    pub role: Role,
    /// The parts, in the order they were put on.
    pub ids: Vec<PartId>,
    /// Their centres.
    pub centres: Vec<Point>,
    /// Shortest over mean edge of the minimum spanning tree, 0 to 1.
    pub evenness: Option<f64>,
    /// Smallest distance against the best possible in the oval, 0 to 1.
    pub spread: Option<f64>,
    /// 1 when all steps round the oval are equal, 0 when all lie one way.
    pub ring_evenness: Option<f64>,
    /// Steps round the oval between neighbours.
    pub steps: Vec<AngularGap>,
}

impl KindSpacing {
    /// How many there are.
    pub fn count(&self) -> usize {
        self.ids.len()
    }
}

/// A bloom or accent by its disc.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeadDisc {
    /// The part.
    pub id: PartId,
    /// Its disc; a spike counts as the disc of its width.
    pub disc: Disc,
    /// The part it plays.
    pub role: Role,
    /// How high it sits.
    pub level: Level,
}

/// All measures of one piece.
#[derive(Clone, Debug, PartialEq)]
pub struct Measures {
    /// The oval.
    pub oval: Oval,
    /// Outline of all parts; `None` when there is nothing.
    pub outline: Option<Outline>,
    /// Outline of blooms and accents alone.
    pub bloom_outline: Option<BoxFill>,
    /// Across the wrist, over all parts.
    pub across_mm: f64,
    /// Along the arm, over all parts.
    pub along_mm: f64,
    /// What of the oval is covered.
    pub cover: Region,
    /// Share of the base that is covered.
    pub base_covered: f64,
    /// Share of the loops that is seen beside the parts; `None` without a bow.
    pub bow_seen: Option<f64>,
    /// Areas of blooms and accents together over the area of the oval.
    pub fullness: f64,
    /// Gaps within the oval that an eye would see, largest first.
    pub room: Vec<Gap>,
    /// Accents and blooms by kind: accents first.
    pub kinds: Vec<KindSpacing>,
    /// Blooms and accents.
    pub heads: Vec<HeadDisc>,
    /// Leaves by their outlines.
    pub leaves: Vec<(PartId, Lens)>,
    /// How the torques of what is seen compare about the two axes.
    pub sides: TwoSided,
    /// How far the weight lies from the centre, as a share of the oval.
    pub offset: Option<f64>,
    /// What lies over what, and how high.
    pub relief: Relief,
    /// Mass of all parts, grams: planning figures.
    pub mass_g: f64,
    /// Width that this wrist allows.
    pub width_limit_mm: f64,
}

impl Measures {
    /// Measures a piece.
    pub fn take(subject: Subject<'_>) -> Self {
        let known = subject.known_parts();
        let shapes = shapes_of(&known);
        Self { room: room(subject, &shapes), ..Self::all_but_room(subject, &known, &shapes) }
    }

    /// The same on two cores, where there are parts enough to make it worth while.
    pub(super) fn take_on_two_cores(subject: Subject<'_>) -> Self {
        if subject.piece.parts().len() < MANY_PARTS {
            return Self::take(subject);
        }
        let known = subject.known_parts();
        let shapes = shapes_of(&known);
        let (room, rest) = join(|| room(subject, &shapes), || Self::all_but_room(subject, &known, &shapes));
        Self { room, ..rest }
    }

    /// Everything but the gaps, which take about half of the time.
    fn all_but_room(subject: Subject<'_>, known: &[KnownPart<'_>], shapes: &[Shape]) -> Self {
        let Subject { piece, style, wrist, .. } = subject;
        let oval = piece.oval();
        let with_shape = || piece.parts().iter().zip(shapes);
        let head_shapes: Vec<Shape> = with_shape().filter(|(p, _)| is_head(p)).map(|(_, s)| *s).collect();
        let heads: Vec<HeadDisc> = with_shape().filter(|(p, _)| is_head(p)).map(|(p, s)| head(p, s)).collect();
        let weights: Vec<Weighted> = heads.iter().map(|h| Weighted { disc: h.disc, weight: 1.0 }).collect();
        let from_below: Vec<KnownPart<'_>> = piece.order_from_below().into_iter().map(|index| known[index]).collect();
        let layers = Layers::of(&shapes_of(&from_below), oval);
        let whole = outline_around(shapes, layers.all);
        let silhouette_mm2 = whole.as_ref().map_or(0.0, |o| o.region.area);
        Self {
            oval,
            bloom_outline: box_fill(&head_shapes),
            across_mm: whole.as_ref().map_or(0.0, |o| o.bounds.height()),
            along_mm: whole.as_ref().map_or(0.0, |o| o.bounds.width()),
            outline: whole,
            cover: layers.within,
            base_covered: covered(&near_base(shapes), Some(BASE)).area / BASE.area(),
            bow_seen: piece.bow.as_ref().and_then(|bow| bow_seen(bow, shapes, silhouette_mm2)),
            fullness: head_shapes.iter().map(Shape::area).fold(0.0, |sum, area| sum + area) / oval.area(),
            room: Vec::new(),
            kinds: kinds(subject, &heads),
            leaves: with_shape().filter_map(|(p, s)| leaf(p, s)).collect(),
            sides: two_sided(&weights),
            offset: weight_offset(&weights, oval),
            relief: Relief::of(wrist, &from_below, &layers.seen),
            mass_g: mass(known),
            width_limit_mm: style.width_limit_mm(wrist.girth_mm()),
            heads,
        }
    }

    /// Share of the oval that something covers.
    pub fn cover_fraction(&self) -> f64 {
        self.cover.area / self.oval.area()
    }

    /// Blooms, accents left out.
    pub fn blooms(&self) -> impl Iterator<Item = &HeadDisc> {
        self.heads.iter().filter(|h| h.role == Role::Bloom)
    }

    /// How many blooms there are.
    pub fn n_blooms(&self) -> usize {
        self.blooms().count()
    }
}

/// A part, what the stock has under its name, looked up once, and its outline.
#[derive(Clone, Copy, Debug)]
pub(super) struct KnownPart<'a> {
    pub(super) part: &'a Part,
    pub(super) botanical: Option<&'a Botanical>,
    pub(super) shape: Shape,
}

impl<'a> Subject<'a> {
    /// The parts, in the order they were put on.
    fn known_parts(&self) -> Vec<KnownPart<'a>> {
        let stock = self.stock;
        let known = |part: &'a Part| {
            let botanical = stock.botanical(&part.stock);
            KnownPart { part, botanical, shape: part.shape_as(botanical) }
        };
        self.piece.parts().iter().map(known).collect()
    }
}

fn shapes_of(known: &[KnownPart<'_>]) -> Vec<Shape> {
    known.iter().map(|known| known.shape).collect()
}

/// Gaps within the oval that an eye would see.
fn room(subject: Subject<'_>, shapes: &[Shape]) -> Vec<Gap> {
    let search = GapSearch {
        overhang: 0.0,
        least_radius: (subject.style.shape.room_mm / 2.0).max(1.0),
        tolerance: GAP_TOLERANCE_MM,
        most: MOST_GAPS,
    };
    gaps(shapes, subject.piece.oval(), &search)
}

fn is_head(part: &Part) -> bool {
    matches!(part.role, Role::Bloom | Role::Accent)
}

fn head(part: &Part, shape: &Shape) -> HeadDisc {
    let radius = match shape {
        Shape::Disc(d) => d.radius,
        Shape::Lens(l) => l.width / 2.0,
    };
    HeadDisc { id: part.id, disc: Disc { centre: part.centre, radius }, role: part.role, level: part.level }
}

fn leaf(part: &Part, shape: &Shape) -> Option<(PartId, Lens)> {
    match shape {
        Shape::Lens(lens) if part.role == Role::Leaf => Some((part.id, *lens)),
        Shape::Lens(_) | Shape::Disc(_) => None,
    }
}

fn mass(known: &[KnownPart<'_>]) -> f64 {
    let grams = known.iter().filter_map(|known| known.botanical).map(|b| b.mass_g);
    grams.fold(0.0, |sum, g| sum + g)
}

fn kinds(subject: Subject<'_>, heads: &[HeadDisc]) -> Vec<KindSpacing> {
    let mut groups: BTreeMap<(u8, &StockId), Vec<&HeadDisc>> = BTreeMap::new();
    for (part, head) in subject.piece.parts().iter().filter(|p| is_head(p)).zip(heads) {
        let rank = u8::from(head.role == Role::Bloom);
        groups.entry((rank, &part.stock)).or_default().push(head);
    }
    let oval = subject.piece.oval();
    groups.into_iter().map(|((_, stock), heads)| kind_spacing(oval, stock.clone(), &heads)).collect()
}

fn kind_spacing(oval: Oval, stock: StockId, heads: &[&HeadDisc]) -> KindSpacing {
    let centres: Vec<Point> = heads.iter().map(|h| h.disc.centre).collect();
    let radius = heads.iter().map(|h| h.disc.radius).fold(0.0, f64::max);
    let (evenness, spread) = evenness_and_spread(&centres, room_for_centres(oval, radius));
    let steps = angular_gaps(&centres, oval);
    KindSpacing {
        evenness,
        spread,
        ring_evenness: evenness_of_gaps(&steps),
        steps,
        role: heads.first().map_or(Role::Accent, |h| h.role),
        ids: heads.iter().map(|h| h.id).collect(),
        stock,
        centres,
    }
}

/// The oval in which centres of heads of this radius lie when the heads stay inside; a stand-in for the exact inner
/// parallel curve.
fn room_for_centres(oval: Oval, radius: f64) -> Oval {
    let least = 1.0;
    Oval { a: (oval.a - radius).max(least), b: (oval.b - radius).max(least) }
}

/// The shapes that can cover some of the base.
fn near_base(shapes: &[Shape]) -> Vec<Shape> {
    let reach = BASE.a.max(BASE.b);
    shapes.iter().filter(|s| s.centre().to_vec2().hypot() <= reach + s.reach()).copied().collect()
}

/// Area of the loops beside the parts over their whole area.
fn bow_seen(bow: &Bow, shapes: &[Shape], silhouette_mm2: f64) -> Option<f64> {
    let n_loops = bow.loops_a_side.min(MOST_LOOPS);
    let loops: Vec<ConvexPolygon> = bow
        .loop_turns(n_loops)
        .into_iter()
        .map(|turn| loop_outline(bow.loop_length_mm, bow.loop_width_mm, turn, LOOP_POINTS))
        .filter_map(|points| ConvexPolygon::around(&points))
        .collect();
    let all = covered_mixed(&[], &loops, None).area;
    let seen = covered_mixed(shapes, &loops, None).area - silhouette_mm2;
    (all > 0.0).then(|| (seen / all).clamp(0.0, 1.0))
}

/// The disc of a gap.
pub(super) fn gap_disc(gap: &Gap) -> Disc {
    Disc { centre: gap.centre, radius: gap.radius }
}
