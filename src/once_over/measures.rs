//! Everything that the questions need, measured once.

use std::collections::BTreeMap;

use super::Subject;
use crate::geometry::{
    AngularGap, Disc, Gap, GapSearch, Outline, Oval, Point, Shape, angular_evenness, angular_gaps, covered, evenness,
    extents, gaps, outline, spread,
};
use crate::piece::{Part, PartId};
use crate::stock::{Role, StockId};

/// Gaps are found to this, mm; finer than anyone can glue.
const GAP_TOLERANCE_MM: f64 = 0.05;
/// Most gaps looked for; our choice, more than a person would fill one by one.
const MOST_GAPS: usize = 20;

/// How one kind of bloom or accent is spread over the oval.
#[derive(Clone, Debug, PartialEq)]
pub struct KindSpread {
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

impl KindSpread {
    /// How many there are.
    pub fn count(&self) -> usize {
        self.ids.len()
    }
}

/// All measures of one piece, mm and mm2.
#[derive(Clone, Debug, PartialEq)]
pub struct Measures {
    /// The oval.
    pub oval: Oval,
    /// Outline of all parts; `None` when there is nothing.
    pub outline: Option<Outline>,
    /// Outline of blooms and accents alone.
    pub bloom_outline: Option<Outline>,
    /// Across the wrist, over all parts.
    pub across_mm: f64,
    /// Along the arm, over all parts.
    pub along_mm: f64,
    /// Area of the oval that something covers.
    pub covered_mm2: f64,
    /// Areas of blooms and accents together over the area of the oval.
    pub fullness: f64,
    /// Gaps within the oval that an eye would see, largest first.
    pub room: Vec<Gap>,
    /// Accents and blooms by kind: accents first.
    pub kinds: Vec<KindSpread>,
    /// Blooms of any kind.
    pub n_blooms: usize,
    /// Width that this wrist allows.
    pub width_limit_mm: f64,
}

impl Measures {
    /// Measures a piece.
    pub fn take(subject: Subject<'_>) -> Self {
        let Subject { piece, stock, style, wrist } = subject;
        let oval = piece.oval();
        let shapes: Vec<Shape> = piece.parts().iter().map(|p| p.shape_in(stock)).collect();
        let heads: Vec<Shape> = piece.parts().iter().filter(|p| is_head(p)).map(|p| p.shape_in(stock)).collect();
        let room_radius = (style.shape.room_mm / 2.0).max(1.0);
        let search =
            GapSearch { overhang: 0.0, least_radius: room_radius, tolerance: GAP_TOLERANCE_MM, most: MOST_GAPS };
        let bounds = extents(&shapes);
        Self {
            oval,
            outline: outline(&shapes),
            bloom_outline: outline(&heads),
            across_mm: bounds.map_or(0.0, |b| b.height()),
            along_mm: bounds.map_or(0.0, |b| b.width()),
            covered_mm2: covered(&shapes, Some(oval)).area,
            fullness: heads.iter().map(Shape::area).fold(0.0, |sum, area| sum + area) / oval.area(),
            room: gaps(&shapes, oval, &search),
            kinds: kinds(subject),
            n_blooms: piece.parts().iter().filter(|p| p.role == Role::Bloom).count(),
            width_limit_mm: style.width_limit_mm(wrist.girth_mm()),
        }
    }

    /// Share of the oval that something covers.
    pub fn cover_fraction(&self) -> f64 {
        self.covered_mm2 / self.oval.area()
    }
}

fn is_head(part: &Part) -> bool {
    matches!(part.role, Role::Bloom | Role::Accent)
}

fn kinds(subject: Subject<'_>) -> Vec<KindSpread> {
    let mut groups: BTreeMap<(u8, StockId), Vec<&Part>> = BTreeMap::new();
    for part in subject.piece.parts().iter().filter(|p| is_head(p)) {
        let rank = u8::from(part.role == Role::Bloom);
        groups.entry((rank, part.stock.clone())).or_default().push(part);
    }
    groups.into_iter().map(|((_, stock), parts)| kind_spread(subject, stock, &parts)).collect()
}

fn kind_spread(subject: Subject<'_>, stock: StockId, parts: &[&Part]) -> KindSpread {
    let oval = subject.piece.oval();
    let centres: Vec<Point> = parts.iter().map(|p| p.centre).collect();
    let radius = parts.iter().map(|p| p.shape_in(subject.stock).reach()).fold(0.0, f64::max);
    KindSpread {
        evenness: evenness(&centres),
        spread: spread(&centres, room_for_centres(oval, radius)),
        ring_evenness: angular_evenness(&centres, oval),
        steps: angular_gaps(&centres, oval),
        role: parts.first().map_or(Role::Accent, |p| p.role),
        ids: parts.iter().map(|p| p.id).collect(),
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

/// The disc of a gap.
pub(super) fn gap_disc(gap: &Gap) -> Disc {
    Disc { centre: gap.centre, radius: gap.radius }
}
