//! The piece seen from the hand toward the elbow: the hand, the wrist, the band round it, and how high each head stands
//! over the skin. Scene x is height over the middle of the wrist, y goes across; mm.
//!
//! Places and tilts come from [`WristSection`], heights from [`standing`]; nothing is computed here.

use kurbo::{Affine, BezPath, Point, Rect, Vec2};

use super::bloom::{FROM_ABOVE, Openness, lit_bloom, side_bloom};
use super::brush::{add, linear};
use super::chance::seed_of;
use super::digits;
use super::draft::{Draft, LIGHT};
use super::hues::{Hues, PLUM, SEPAL};
use super::outline::{Blade, between, smooth};
use super::picture::{Ground, shown};
use super::ribbon::Cloth;
use super::scale::{INK, RulerDirection, ruler};
use super::side_arm;
use super::{Group, Key, Primitive, Scene};
use crate::colour::Rgb;
use crate::geometry::{Lens, Shape, WristSection};
use crate::once_over::{Standing, standing};
use crate::piece::{Part, Piece, Skin, Wrist};
use crate::stock::{Role, Stock, Weave};

/// How a piece is to be shown from the side.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct SideViewOptions {
    /// The tone of the arm.
    pub skin: Skin,
    /// What lies behind it.
    pub ground: Ground,
    /// The height that the house allows, mm, as a dashed line; only for my side.
    pub limit_mm: Option<f64>,
}

/// Room over the highest head and beside the widest thing, mm.
const MARGIN_MM: f64 = 12.0;
/// The least height over the skin that is shown, mm.
const LEAST_HIGH_MM: f64 = 50.0;
/// How far out the thumb reaches, in half widths of the wrist.
const THUMB: f64 = 1.8;
/// Most that is shown of anything, mm.
const FARTHEST_MM: f64 = 400.0;

/// The side view. Ribbon is shown by its loops only.
pub fn side_view(piece: &Piece, stock: &Stock, wrist: &Wrist, options: &SideViewOptions) -> Scene {
    let section = WristSection::new(wrist.girth_mm(), Wrist::FLATNESS);
    let heads = standing(piece, stock);
    let top = heads.iter().map(|h| h.base_mm + h.thickness_mm).filter(|mm| mm.is_finite()).fold(0.0, f64::max);
    let seen = side_arm::WristInView { section: &section, wrist };
    let frame = frame_of(&seen, piece, top.min(FARTHEST_MM));
    let mut groups = vec![side_arm::ground(&seen, piece, stock, options, frame), bow(&section, piece, stock)];
    groups.extend(base(&section, piece, &heads));
    groups.extend(parts(&section, piece, stock, &heads));
    groups.push(annotations(&section, top.min(FARTHEST_MM), options.limit_mm, frame));
    Scene { frame, groups }
}

fn frame_of(seen: &side_arm::WristInView<'_>, piece: &Piece, top_mm: f64) -> Rect {
    let section = seen.section;
    let half = piece.parts().iter().map(|p| p.centre.y.abs() + 20.0).filter(|mm| mm.is_finite()).fold(0.0, f64::max);
    let loops = piece.bow.as_ref().map_or(0.0, |bow| bow.loop_length_mm * 0.94);
    let loops = if loops.is_finite() { loops } else { 0.0 };
    let half = half.max(section.half_width() * THUMB).max(loops).min(FARTHEST_MM) + MARGIN_MM;
    let high = section.half_depth() + top_mm.max(LEAST_HIGH_MM) + MARGIN_MM;
    let low = seen.lowest_mm(piece).min(-section.half_depth() * 1.35);
    Rect::new(low - MARGIN_MM * 0.8, -half - 12.0, high, half)
}

/// From a head's own frame, x out of the skin, to the scene: the place at this arc.
pub(super) fn on_skin(section: &WristSection, arc: f64) -> (Affine, f64) {
    let seen = section.seen(arc);
    (Affine::translate((seen.height, seen.across)) * Affine::rotate(seen.tilt), seen.tilt)
}

/// A line along the skin, lifted off it, between two arcs.
fn along_skin(section: &WristSection, from: f64, to: f64, lift: impl Fn(f64) -> f64) -> Vec<Point> {
    const STEPS: u32 = 16;
    (0..=STEPS)
        .map(|i| {
            let t = f64::from(i) / f64::from(STEPS);
            on_skin(section, from + (to - from) * t).0 * Point::new(lift(t), 0.0)
        })
        .collect()
}

/// The loops, as far to each side as they reach across, the farther ones first.
fn bow(section: &WristSection, piece: &Piece, stock: &Stock) -> Group {
    let mut group = Group::new(Key::Bow, Affine::IDENTITY);
    let Some(bow) = &piece.bow else { return group };
    let sound = |mm: f64| mm.is_finite() && mm > 0.0;
    if !sound(bow.loop_length_mm) || !sound(bow.loop_width_mm) {
        return group;
    }
    let ribbon = stock.ribbon(&bow.ribbon);
    let colour = ribbon.and_then(|r| r.colour(&bow.colour)).map_or(super::ribbon::UNKNOWN_RIBBON, |c| c.rgb);
    let cloth = Cloth::new(colour, ribbon.map_or(Weave::Satin, |r| r.weave));
    let mut turns = bow.loop_turns(bow.loops_a_side.min(12));
    turns.sort_by(|a, b| b.cos().total_cmp(&a.cos()));
    for (i, turn) in turns.into_iter().enumerate() {
        let reach = bow.loop_length_mm.min(FARTHEST_MM) * turn.sin();
        let rise = 0.16 + 0.16 * (i as f64 * 2.4).sin().abs();
        let mut draft = Draft::new(seed_of("side", 7), LIGHT);
        standing_loop(&mut draft, section.half_depth() + 2.0, reach, bow.loop_width_mm.min(60.0) * 0.42, rise, cloth);
        group.items.push(Primitive::Group(draft.group));
    }
    group
}

/// One loop from the knot over the top of the wrist out to `reach`: its far side first, then the near one.
fn standing_loop(draft: &mut Draft, knot: f64, reach: f64, open: f64, rise: f64, cloth: Cloth) {
    let at = |t: f64, v: f64| {
        Point::new(knot + rise * reach.abs() * (t * 2.2).sin() - reach.abs() * 0.1 * t * t + v * open, reach * t)
    };
    // Round at its far end, where the ribbon turns back.
    let upper = [at(0.0, 0.05), at(0.3, 0.45), at(0.62, 0.86), at(0.86, 0.84), at(0.97, 0.5), at(1.0, 0.1)];
    let lower = [at(0.0, -0.05), at(0.3, -0.35), at(0.62, -0.66), at(0.86, -0.64), at(0.97, -0.34), at(1.0, 0.1)];
    let middle = [at(0.0, 0.0), at(0.3, 0.14), at(0.62, 0.34), at(0.86, 0.4), at(0.97, 0.28), at(1.0, 0.1)];
    let ends = [Point::new(knot, 0.0), Point::new(knot, reach)];
    let inside = cloth.along(&[(0.0, -0.26), (0.6, -0.16), (1.0, -0.1)]);
    draft.group.fill(between(&upper, &lower), linear(ends[0], ends[1], &inside));
    let face = cloth.along(&[(0.0, -0.18), (0.3, -0.02), (0.5, 0.09), (0.68, 0.0), (0.85, 0.1), (1.0, -0.08)]);
    draft.group.fill(between(&middle, &lower), linear(ends[0], ends[1], &face));
    let mut rims = smooth(&upper, false);
    add(&mut rims, &smooth(&middle, false));
    draft.group.stroke(rims, 0.22, cloth.tone(0.14, 0.8));
}

/// Whether the piece has leaves: only then any are shown.
fn is_leafy(piece: &Piece) -> bool {
    piece.parts().iter().any(|part| part.role == Role::Leaf)
}

/// The base between the heads and the skin, that hides stems and glue: as wide as the oval, as high as what it hides; taped,
/// and under its leaves where there are any.
fn base(section: &WristSection, piece: &Piece, heads: &[Standing]) -> Option<Group> {
    let half = piece.oval().b;
    if heads.is_empty() || !half.is_finite() {
        return None;
    }
    let half = half.min(section.girth() * 0.27) * 0.9;
    let mut draft = Draft::new(seed_of("greens", 1), LIGHT);
    let skin = along_skin(section, -half, half, |_| -0.6);
    let mound = along_skin(section, -half, half, |t| 0.55 * hidden_at(heads, (t * 2.0 - 1.0) * half) + 1.0);
    let deep = Rgb::hex(0x26402b);
    let (top, foot) = ((section.half_depth() + 16.0, 0.0), (section.half_depth() - 4.0, 0.0));
    let list = [(0.0, deep.lighter(0.06).solid()), (1.0, deep.lighter(-0.06).solid())];
    draft.group.fill(between(&skin, &mound), linear(top, foot, &list));
    // The tall ones stand behind, deep; the low ones before them, in the light.
    const RANKS: [(f64, u32, f64); 4] = [(1.0, 9, -0.05), (0.72, 12, -0.01), (0.46, 15, 0.03), (0.26, 17, 0.05)];
    let ranks: &[_] = if is_leafy(piece) { &RANKS } else { &[] };
    for &(share, count, by) in ranks {
        for i in 0..count {
            let step = f64::from(i * 5 % count);
            let t = (step + 0.5) / f64::from(count) * 2.0 - 1.0 + draft.chance.bell(0.04);
            let (place, _) = on_skin(section, t * half);
            let length = (3.5 + hidden_at(heads, t * half) * share * 1.06) * draft.chance.between(0.86, 1.1);
            let wide = (length * 0.2).clamp(1.2, 3.4);
            let bend = t * 0.2 + draft.chance.bell(0.12);
            let blade = Blade { length, half: wide, peak: 0.46, blunt: 0.85, bend, ..Blade::PETAL };
            let lean = t * (0.35 + 0.5 * (1.0 - share)) + draft.chance.bell(0.2);
            let tone = Rgb::hex(0x4c7a4a).mixed(Rgb::hex(0x7f9c83), if i % 4 == 0 { 0.5 } else { 0.0 });
            draft.blade(place * Affine::rotate(lean), &blade, &Hues::of_leaf(tone.lighter(by)), 3, 0.4);
        }
    }
    draft.group.key = Key::Bow;
    Some(draft.group)
}

/// How high the underside of the heads stands about this arc, mm: what greens have to hide there.
fn hidden_at(heads: &[Standing], arc: f64) -> f64 {
    let under = heads.iter().map(|head| {
        let off = (arc - head.disc.centre.y) / (head.disc.radius * 1.3).max(1.0);
        (head.base_mm + 0.2 * head.thickness_mm) * (1.0 - off * off)
    });
    under.filter(|mm| mm.is_finite()).fold(0.0, f64::max).min(FARTHEST_MM)
}

/// The parts, those toward the elbow first, leaves and sprigs under the heads of their place.
fn parts(section: &WristSection, piece: &Piece, stock: &Stock, heads: &[Standing]) -> Vec<Group> {
    let is_leafy = is_leafy(piece);
    let mut drawn: Vec<(bool, f64, Group)> = Vec::new();
    for part in piece.from_below() {
        let sound = part.centre.is_finite() && part.size_in(stock).is_finite() && part.size_in(stock) > 0.0;
        if !sound {
            continue;
        }
        let head = heads.iter().find(|h| h.part == part.id);
        let group = match (head, part.shape_in(stock)) {
            (Some(head), _) => head_group(section, part, stock, head, is_leafy),
            (None, Shape::Lens(lens)) => leaf_group(section, part, stock, lens),
            (None, Shape::Disc(disc)) => {
                let height_mm = stock.botanical(&part.stock).map_or(6.0, |b| b.height_mm);
                let low = Standing { part: part.id, disc, base_mm: 1.0, thickness_mm: height_mm };
                head_group(section, part, stock, &low, is_leafy)
            }
        };
        drawn.push((head.is_some(), part.centre.x, group));
    }
    drawn.sort_by(|a, b| a.0.cmp(&b.0).then(b.1.total_cmp(&a.1)));
    drawn.into_iter().map(|(_, _, group)| group).collect()
}

/// A leaf or a spike that lies on the skin, seen as flat as it lies; the end that looks outward lifts a little.
fn leaf_group(section: &WristSection, part: &Part, stock: &Stock, lens: Lens) -> Group {
    const LIFT: f64 = 0.07;
    /// Seen a little more from above than the heads, else those along the arm are slivers.
    const LAID: f64 = FROM_ABOVE * 1.4;
    let (form, colour) = shown(part, stock);
    let (place, tilt) = on_skin(section, lens.centre.y);
    let length = lens.length.clamp(1.0, FARTHEST_MM);
    let seed = seed_of(part.stock.as_str(), part.id.0);
    let light = LIGHT - tilt - lens.turn;
    let mut leaf = lit_bloom(form, seed, [length, lens.width / length], colour, Openness::Open, light);
    leaf.transform = Affine::rotate(lens.turn) * leaf.transform;
    let outward = if lens.centre.y < 0.0 { -LIFT } else { LIFT };
    let mut group = Group::new(Key::Part(part.id), Affine::IDENTITY);
    group.transform = place * Affine::new([LAID, 0.0, outward, 1.0, 1.6, 0.0]);
    group.items.push(Primitive::Group(leaf));
    group
}

/// A head: its flower in profile, as wide and as high as it is measured, over the stem and the leaves that hold it.
fn head_group(section: &WristSection, part: &Part, stock: &Stock, head: &Standing, is_leafy: bool) -> Group {
    let (form, colour) = shown(part, stock);
    let (place, tilt) = on_skin(section, head.disc.centre.y);
    let light = LIGHT - tilt;
    let (r, high) = (head.disc.radius.clamp(0.5, FARTHEST_MM), head.thickness_mm.clamp(0.5, FARTHEST_MM));
    let base = head.base_mm.clamp(0.0, FARTHEST_MM);
    let seed = seed_of(part.stock.as_str(), part.id.0);
    let mut draft = Draft::new(seed, light);
    let away = draft.lightward() * (r * -0.1);
    draft.shadow(Point::new(high * 0.2, 0.0) + away, Vec2::new(high * 0.5, r * 1.05), 0.0, PLUM, 0.3);
    if base > 0.5 && !form.is_bead() {
        collar(&mut draft, base, r, is_leafy);
    }
    draft.group.items.push(Primitive::Group(side_bloom(form, seed, [r * 2.0, high], colour, light)));
    draft.group.key = Key::Part(part.id);
    draft.group.transform = place * Affine::translate((base, 0.0));
    draft.group
}

/// The stem down to the skin, and a few leaves close under the head of a piece that has leaves.
fn collar(draft: &mut Draft, base: f64, r: f64, is_leafy: bool) {
    let stem = smooth(&[Point::new(-base, 0.0), Point::new(0.4, 0.0)], false);
    let width = (r * 0.09).min(1.2);
    draft.group.stroke(stem.clone(), width, SEPAL.lighter(-0.16).paint(1.0));
    draft.stroke(Affine::translate((0.0, -width * 0.2)), stem, width * 0.4, SEPAL.paint(0.9));
    let hues = Hues::of_leaf(Rgb::hex(0x44704a));
    let foot = base.min(r * 0.55);
    let leans: &[f64] = if is_leafy { &[-1.0, 1.0, -0.45, 0.5] } else { &[] };
    for &lean in leans {
        let length = (foot + r * 0.2) * draft.chance.between(0.85, 1.1);
        let half = (length * 0.2).min(r * 0.2);
        let blade = Blade { length, half, peak: 0.5, blunt: 0.8, bend: lean * 0.15, ..Blade::PETAL };
        let lit = hues.lit(draft.chance.bell(0.05));
        draft.blade(Affine::translate((-foot, 0.0)) * Affine::rotate(lean), &blade, &lit, 3, 0.4);
    }
}

/// The ruler from the skin up, the height reached, and the height allowed.
fn annotations(section: &WristSection, top_mm: f64, limit_mm: Option<f64>, frame: Rect) -> Group {
    let mut group = Group::new(Key::Annotations, Affine::IDENTITY);
    let skin = section.half_depth();
    let left = frame.y0 + 16.0;
    let length = ((frame.x1 - 3.0 - skin) / 10.0).floor().max(1.0) * 10.0;
    group.items.push(Primitive::Group(ruler(Point::new(skin, left), length, RulerDirection::Up)));
    if top_mm > 0.0 {
        let level = skin + top_mm;
        let mut line = BezPath::new();
        line.move_to((level, left));
        line.line_to((level, left + 9.0));
        group.stroke(line, 0.3, INK.paint(0.9));
        let tall = crate::units::ceil_u32(top_mm.round());
        digits::write(&mut group, tall, Point::new(level + 3.4, left + 6.0), 3.6, INK.paint(1.0));
    }
    if let Some(limit) = limit_mm.filter(|mm| mm.is_finite() && *mm > 0.0 && *mm < FARTHEST_MM) {
        group.stroke(dashed(section, limit), 0.4, Rgb::hex(0xa8485a).paint(0.9));
    }
    group
}

/// A dashed line at one height over the skin, from side to side.
fn dashed(section: &WristSection, height: f64) -> BezPath {
    const DASHES: u32 = 28;
    let half = section.girth() * 0.165;
    let mut path = BezPath::new();
    for i in 0..DASHES {
        let at = |part: f64| half * ((f64::from(i) + part) / f64::from(DASHES) * 2.0 - 1.0);
        add(&mut path, &smooth(&along_skin(section, at(0.0), at(0.6), |_| height), false));
    }
    path
}
