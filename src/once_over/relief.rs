//! The third dimension: what hides what, what cannot be built, how high it stands, how far it reaches past the wrist.

use super::measures::KnownPart;
use crate::geometry::{Give, RoundHead, Shape, Stacked, WristSection, hidden_share, stack_with_clashes};
use crate::piece::{Level, Part, PartId, Wrist};
use crate::stock::{Botanical, Role};

/// How much soft heads give sideways and from above, as shares of radius and height; common practice, no source.
pub(crate) const GIVE: Give = Give { sideways: 0.25, squash: 0.45 };
/// The core of a head that cannot share its place, as a share of its radius; our choice.
pub(crate) const CORE: f64 = 0.4;
/// Height of the glue and stem under a part, mm; our choice.
pub(crate) const fn lift_mm(level: Level) -> f64 {
    match level {
        Level::Flat => 2.0,
        Level::Raised => 6.0,
        Level::Top => 10.0,
    }
}

/// What lies over what.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Relief {
    /// Share of each bloom and accent that others hide.
    pub hidden: Vec<(PartId, f64)>,
    /// Pairs of heads that would have to be in one place.
    pub crushed: Vec<(PartId, PartId)>,
    /// Height over the skin, mm.
    pub top_mm: f64,
    /// The part that stands highest.
    pub highest: Option<PartId>,
    /// How far the farthest head reaches past the edge of the wrist, mm; below zero when all stay within.
    pub past_edge_mm: f64,
    /// The part that reaches farthest.
    pub farthest: Option<PartId>,
}

impl Relief {
    /// The relief of a piece on its wrist: of its parts from below and what is seen of each, mm2.
    pub(super) fn of(wrist: &Wrist, from_below: &[KnownPart<'_>], seen_mm2: &[f64]) -> Self {
        let heads = from_below.iter().zip(seen_mm2).filter(|(known, _)| is_head(known.part));
        let hidden = heads.map(|(known, seen)| (known.part.id, hidden_share(&known.shape, *seen))).collect();
        let discs: Vec<(&Part, Stacked)> = from_below
            .iter()
            .filter_map(|known| Some((known.part, stacked(known.part, &known.shape, known.botanical)?)))
            .collect();
        let heaps: Vec<Stacked> = discs.iter().map(|d| d.1).collect();
        let (heights, clashes) = stack_with_clashes(&heaps, GIVE, CORE);
        let top_of = |i: usize| heights.bases[i] + heaps[i].thickness;
        let highest = (0..heaps.len()).max_by(|&i, &j| top_of(i).total_cmp(&top_of(j)));
        let section = WristSection::new(wrist.girth_mm(), Wrist::FLATNESS);
        let farthest = farthest_reach(&section, &heaps);
        Self {
            hidden,
            crushed: clashes.into_iter().map(|(i, j)| (discs[i].0.id, discs[j].0.id)).collect(),
            top_mm: heights.top,
            highest: highest.map(|i| discs[i].0.id),
            past_edge_mm: farthest.map_or(f64::NEG_INFINITY, |(_, mm)| mm).max(-section.half_width()),
            farthest: farthest.map(|(i, _)| discs[i].0.id),
        }
    }
}

/// The head that reaches farthest past the edge, and how far. What could not reach farther than the farthest so far is not
/// computed exactly: seen from above nothing lies farther out than its arc, nor rises more than by lift and dome or radius.
fn farthest_reach(section: &WristSection, heaps: &[Stacked]) -> Option<(usize, f64)> {
    let half = section.half_width();
    let at_most = |h: &Stacked| h.disc.centre.y.abs().min(half) + h.lift + h.thickness.max(h.disc.radius) - half;
    let mut order: Vec<(usize, f64)> = heaps.iter().map(at_most).enumerate().collect();
    order.sort_by(|a, b| b.1.total_cmp(&a.1));
    let mut peaks = Peaks { section, quarter: section.girth() / 4.0, known: Vec::new() };
    let mut farthest: Option<(usize, f64)> = None;
    for (i, bound) in order {
        if farthest.is_some_and(|(_, mm)| mm >= bound) {
            break;
        }
        let reach = peaks.reach_past(&heaps[i]);
        if farthest.is_none_or(|(_, mm)| reach > mm) {
            farthest = Some((i, reach));
        }
    }
    farthest
}

/// Where heads of each kind reach farthest, and how far; a piece has few kinds.
struct Peaks<'a> {
    section: &'a WristSection,
    /// From the top to the side, mm.
    quarter: f64,
    known: Vec<(RoundHead, f64, f64)>,
}

impl Peaks<'_> {
    /// How far a head reaches past the edge. One that is bent round the side reaches as far as it did on its way there, so
    /// that farther out never counts as better.
    fn reach_past(&mut self, heap: &Stacked) -> f64 {
        /// Within this share of the way to the side a head reaches the farther the farther out it sits.
        const RISING: f64 = 0.4;
        let head = RoundHead { radius: heap.disc.radius, lift: heap.lift, dome: heap.thickness };
        let arc = heap.disc.centre.y.abs();
        if arc <= RISING * self.quarter {
            return self.section.protrusion(arc, head);
        }
        let (place, peak) = self.peak(head);
        if arc >= place { peak } else { self.section.protrusion(arc, head) }
    }

    fn peak(&mut self, head: RoundHead) -> (f64, f64) {
        if let Some((_, place, peak)) = self.known.iter().find(|(h, ..)| *h == head) {
            return (*place, *peak);
        }
        let (place, peak) = self.section.farthest(head);
        self.known.push((head, place, peak));
        (place, peak)
    }
}

fn is_head(part: &Part) -> bool {
    matches!(part.role, Role::Bloom | Role::Accent)
}

/// Heads are what stands; leaves and sprigs lie between them.
pub(super) fn stacked(part: &Part, shape: &Shape, botanical: Option<&Botanical>) -> Option<Stacked> {
    let Shape::Disc(disc) = shape else { return None };
    if !is_head(part) {
        return None;
    }
    let scale = botanical.map_or(1.0, |b| 2.0 * disc.radius / b.usual_mm().max(1.0));
    let thickness = botanical.map_or(disc.radius, |b| b.height_mm * scale);
    Some(Stacked { disc: *disc, lift: lift_mm(part.level), thickness })
}

#[cfg(test)]
mod tests {
    use super::super::cases::{Shop, at, head, piece, sized};
    use super::*;
    use crate::once_over::Measures;
    use crate::piece::NewPart;
    use crate::units::chance::Chance;

    /// How far past the edge the heads reach, by trying every twentieth of a millimetre of the way out to each.
    fn tried(section: &WristSection, heads: &[Stacked]) -> (usize, f64) {
        let quarter = section.girth() / 4.0;
        let reach = |heap: &Stacked| {
            let head = RoundHead { radius: heap.disc.radius, lift: heap.lift, dome: heap.thickness };
            let out = heap.disc.centre.y.abs();
            // What sits lower than where such a head reaches farthest counts where it sits, what is bent farther round counts
            // at the farthest place on its way.
            let (mut best, mut arc) = (section.protrusion(out.min(quarter), head), 0.0);
            while arc < out.min(quarter) {
                best = f64::max(best, section.protrusion(arc, head));
                arc += 0.05;
            }
            best
        };
        let all = heads.iter().map(reach).enumerate();
        all.max_by(|a, b| a.1.total_cmp(&b.1)).unwrap_or((0, f64::NEG_INFINITY))
    }

    #[test]
    fn the_short_cuts_find_the_head_that_reaches_farthest() {
        let shop = Shop::new();
        let section = WristSection::new(shop.wrist.girth_mm(), Wrist::FLATNESS);
        let mut chance = Chance::seeded(5);
        for n in 0..200 {
            let heads: Vec<NewPart> = (0..6)
                .map(|_| {
                    let one = head(chance.between(-40.0, 40.0), chance.between(-60.0, 60.0));
                    at(sized(one, chance.between(4.0, 70.0)), Level::Raised)
                })
                .collect();
            let heaps: Vec<Stacked> = heads
                .iter()
                .map(|part| {
                    let mm = part.size_mm.unwrap();
                    Stacked {
                        disc: crate::geometry::Disc { centre: part.centre, radius: mm / 2.0 },
                        lift: 6.0,
                        thickness: mm / 2.0,
                    }
                })
                .collect();
            let (index, by_trying) = tried(&section, &heaps);
            let relief = Measures::take(shop.subject(&piece(90.0, 54.0, heads))).relief;
            assert!((relief.past_edge_mm - by_trying).abs() < 2e-3, "{n}: {} for {by_trying}", relief.past_edge_mm);
            assert_eq!(relief.farthest.map(|id| id.0 as usize), Some(index + 1), "{n}");
        }
    }
}
