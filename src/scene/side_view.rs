//! The piece seen from the hand toward the elbow: the wrist's section, the band round it, and how high each head stands
//! over the skin. Scene x is height over the middle of the wrist, y goes across; mm.
//!
//! Places and tilts come from [`WristSection`], heights from [`standing`]; nothing is reckoned here.

use std::f64::consts::PI;

use kurbo::{Affine, BezPath, Point, Rect, Vec2};

use super::bloom::{Openness, lit_bloom};
use super::brush::{add, linear, oval, oval_radial};
use super::chance::seed_of;
use super::digits;
use super::draft::{Draft, LIGHT};
use super::hues::{Hues, PLUM, SEPAL};
use super::outline::{Blade, between, smooth};
use super::picture::{Ground, paper_over, shown};
use super::ribbon::Cloth;
use super::scale::{INK, Run, ruler};
use super::wrist::Skin;
use super::{Group, Item, Key, Scene};
use crate::colour::Rgb;
use crate::geometry::{Lens, Shape, WristSection};
use crate::once_over::{Standing, standing};
use crate::piece::{Part, Piece, Wrist};
use crate::stock::{BandKind, Form, Stock, Weave};

/// How a piece is to be shown from the side.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct SideLook {
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
/// Most that is shown of anything, mm.
const FARTHEST_MM: f64 = 400.0;

/// The side view. Ribbon is shown by its loops only.
pub fn side_view(piece: &Piece, stock: &Stock, wrist: &Wrist, look: &SideLook) -> Scene {
    let section = WristSection::new(wrist.girth_mm(), Wrist::FLATNESS);
    let heads = standing(piece, stock);
    let top = heads.iter().map(|h| h.base_mm + h.thickness_mm).filter(|mm| mm.is_finite()).fold(0.0, f64::max);
    let frame = frame_of(&section, piece, top.min(FARTHEST_MM));
    let mut groups = vec![ground(&section, piece, stock, look, frame), bow(&section, piece, stock)];
    groups.extend(greens(&section, piece, &heads));
    groups.extend(parts(&section, piece, stock, &heads));
    groups.push(marks(&section, top.min(FARTHEST_MM), look.limit_mm, frame));
    Scene { frame, groups }
}

fn frame_of(section: &WristSection, piece: &Piece, top_mm: f64) -> Rect {
    let half = piece.parts().iter().map(|p| p.centre.y.abs() + 20.0).filter(|mm| mm.is_finite()).fold(0.0, f64::max);
    let loops = piece.bow.as_ref().map_or(0.0, |bow| bow.loop_length_mm * 0.94);
    let loops = if loops.is_finite() { loops } else { 0.0 };
    let half = half.max(section.half_width() * 1.35).max(loops).min(FARTHEST_MM) + MARGIN_MM;
    let high = section.half_depth() + top_mm.max(LEAST_HIGH_MM) + MARGIN_MM;
    Rect::new(-section.half_depth() * 1.35 - MARGIN_MM, -half - 12.0, high, half)
}

/// From a head's own frame, x out of the skin, to the scene: the place at this arc.
fn on_skin(section: &WristSection, arc: f64) -> (Affine, f64) {
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

fn ground(section: &WristSection, piece: &Piece, stock: &Stock, look: &SideLook, frame: Rect) -> Group {
    let mut draft = Draft::new(3, LIGHT);
    draft.group.key = Key::Ground;
    paper_over(&mut draft, look.ground, frame);
    let (p, q) = (section.half_width(), section.half_depth());
    let tone = look.skin.rgb();
    let away = draft.lightward() * -3.0;
    draft.shadow(Point::new(-q * 0.5, 0.0) + away, Vec2::new(q * 1.5, p * 1.5), 0.0, PLUM, 0.3);
    // The forearm widens behind the wrist; the nearer the lighter.
    for (grow, by) in [(1.26, -0.1), (1.17, -0.065), (1.08, -0.03)] {
        let radii = Vec2::new(q, p) * grow;
        let list = [
            (0.0, tone.lighter(by + 0.03).solid()),
            (0.75, tone.lighter(by).solid()),
            (1.0, tone.lighter(by - 0.07).solid()),
        ];
        let centre = Point::new(-q * (grow - 1.0) * 0.8, 0.0);
        draft.group.fill(
            oval(centre, radii, 0.0),
            oval_radial(centre + draft.lightward() * (q * 0.4), radii * 1.3, 0.0, &list),
        );
    }
    if let Some(band) = piece.band.as_ref().and_then(|id| stock.band(id)) {
        band_ring(&mut draft, section, band.kind, band.rgb);
    }
    wrist_face(&mut draft, Vec2::new(q, p), tone);
    draft.group
}

/// The wrist itself, end on: soft and round, nothing of what is inside.
fn wrist_face(draft: &mut Draft, radii: Vec2, tone: Rgb) {
    // Paler than skin: a section is a drawing, not an arm cut through.
    let tone = tone.mixed(Rgb::hex(0xf7efe8), 0.5);
    let list = [(0.0, 0.05), (0.45, 0.03), (0.8, -0.01), (1.0, -0.06)].map(|(at, by)| (at, tone.lighter(by).solid()));
    let lit = (draft.lightward() * (radii.x * 0.5)).to_point();
    draft.group.fill(oval(Point::ZERO, radii, 0.0), oval_radial(lit, radii * 1.35, 0.0, &list));
    let rim = [
        (0.0, tone.lighter(0.1).tint(0.0)),
        (0.9, tone.lighter(0.1).tint(0.0)),
        (0.97, tone.lighter(0.1).tint(0.5)),
        (1.0, tone.lighter(0.1).tint(0.0)),
    ];
    draft.group.fill(oval(Point::ZERO, radii, 0.0), oval_radial(Point::ZERO, radii, 0.0, &rim));
}

/// The band, seen on its edge, all the way round.
fn band_ring(draft: &mut Draft, section: &WristSection, kind: BandKind, rgb: Rgb) {
    let thick = match kind {
        BandKind::Elastic | BandKind::RibbonTie => 1.5,
        BandKind::Metal => 1.9,
        BandKind::Pearl => 5.0,
    };
    let (p, q) = (section.half_width(), section.half_depth());
    if kind == BandKind::Pearl {
        let count = crate::units::count_up(section.girth() / (thick * 1.04)).clamp(6, 120);
        for i in 0..count {
            let arc = section.girth() * (f64::from(i) / f64::from(count) - 0.5);
            let centre = on_skin(section, arc).0 * Point::new(thick * 0.42, 0.0);
            draft.ball(centre, thick / 2.0, &Hues::of(rgb), 0.7);
        }
        return;
    }
    let radii = Vec2::new(q + thick, p + thick);
    let list = [(0.0, rgb.lighter(0.08).solid()), (0.5, rgb.lighter(-0.02).solid()), (1.0, rgb.lighter(-0.2).solid())];
    draft.group.fill(oval(Point::ZERO, radii, 0.0), linear((radii.x, 0.0), (-radii.x, 0.0), &list));
    draft.group.stroke(oval(Point::ZERO, radii, 0.0), 0.2, rgb.lighter(-0.22).paint(0.7));
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
        group.items.push(Item::Group(draft.group));
    }
    group
}

/// One loop from the knot over the top of the wrist out to `reach`: its far side first, then the near one.
fn standing_loop(draft: &mut Draft, knot: f64, reach: f64, open: f64, rise: f64, cloth: Cloth) {
    let at = |t: f64, v: f64| {
        Point::new(knot + rise * reach.abs() * (t * 2.2).sin() - reach.abs() * 0.1 * t * t + v * open, reach * t)
    };
    let upper = [at(0.0, 0.05), at(0.3, 0.45), at(0.62, 0.8), at(0.88, 0.62), at(1.0, 0.0)];
    let lower = [at(0.0, -0.05), at(0.3, -0.35), at(0.62, -0.62), at(0.88, -0.52), at(1.0, 0.0)];
    let middle = [at(0.0, 0.0), at(0.3, 0.12), at(0.62, 0.26), at(0.88, 0.2), at(1.0, 0.0)];
    let ends = [Point::new(knot, 0.0), Point::new(knot, reach)];
    let inside = cloth.along(&[(0.0, -0.26), (0.6, -0.16), (1.0, -0.1)]);
    draft.group.fill(between(&upper, &lower), linear(ends[0], ends[1], &inside));
    let face = cloth.along(&[(0.0, -0.18), (0.3, -0.02), (0.5, 0.09), (0.68, 0.0), (0.85, 0.1), (1.0, -0.08)]);
    draft.group.fill(between(&middle, &lower), linear(ends[0], ends[1], &face));
    let mut rims = smooth(&upper, false);
    add(&mut rims, &smooth(&middle, false));
    draft.group.stroke(rims, 0.22, cloth.tone(0.14, 0.8));
}

/// The greens between the heads and the skin, that hide stems and glue: as wide as the oval, as high as what they hide.
fn greens(section: &WristSection, piece: &Piece, heads: &[Standing]) -> Option<Group> {
    const LEAVES: u32 = 17;
    let half = piece.oval().b;
    let high = heads.iter().map(|h| h.base_mm).filter(|mm| mm.is_finite()).fold(0.0, f64::max).min(11.0);
    if heads.is_empty() || !half.is_finite() {
        return None;
    }
    let half = half.min(section.girth() * 0.27) * 0.84;
    let mut draft = Draft::new(seed_of("greens", 1), LIGHT);
    let deep = Rgb::hex(0x2f4d31);
    let skin = along_skin(section, -half, half, |_| 0.0);
    let mound = along_skin(section, -half, half, |t| (high + 1.0) * (t * PI).sin().powf(0.6));
    let (top, foot) = ((section.half_depth() + high, 0.0), (section.half_depth() * 0.6, 0.0));
    let list = [(0.0, deep.lighter(0.03).solid()), (1.0, deep.lighter(-0.1).solid())];
    draft.group.fill(between(&skin, &mound), linear(top, foot, &list));
    let hues = Hues::of_leaf(Rgb::hex(0x4c7a4a));
    for i in 0..LEAVES {
        let t = f64::from(i * 7 % LEAVES) / f64::from(LEAVES - 1) * 2.0 - 1.0;
        let (place, _) = on_skin(section, t * half);
        let length = (4.0 + high * 0.9) * (1.0 - 0.3 * t * t) * draft.chance.between(0.8, 1.15);
        let blade = Blade { length, half: length * 0.2, peak: 0.45, blunt: 0.85, ..Blade::PETAL };
        let lean = t * 0.9 + draft.chance.about(0.4);
        let lit = hues.lit(draft.chance.about(0.05));
        draft.blade(place * Affine::rotate(lean), &blade, &lit, 3, 0.5);
    }
    draft.group.key = Key::Bow;
    Some(draft.group)
}

/// The parts, those toward the elbow first, leaves and sprigs under the heads of their place.
fn parts(section: &WristSection, piece: &Piece, stock: &Stock, heads: &[Standing]) -> Vec<Group> {
    let mut drawn: Vec<(bool, f64, Group)> = Vec::new();
    for part in piece.from_below() {
        let sound = part.centre.is_finite() && part.size_in(stock).is_finite() && part.size_in(stock) > 0.0;
        if !sound {
            continue;
        }
        let head = heads.iter().find(|h| h.part == part.id);
        let group = match (head, part.shape_in(stock)) {
            (Some(head), _) => head_group(section, part, stock, head),
            (None, Shape::Lens(lens)) => leaf_group(section, part, stock, lens),
            (None, Shape::Disc(disc)) => {
                let height_mm = stock.botanical(&part.stock).map_or(6.0, |b| b.height_mm);
                let low = Standing { part: part.id, disc, base_mm: 1.0, thickness_mm: height_mm };
                head_group(section, part, stock, &low)
            }
        };
        drawn.push((head.is_some(), part.centre.x, group));
    }
    drawn.sort_by(|a, b| a.0.cmp(&b.0).then(b.1.total_cmp(&a.1)));
    drawn.into_iter().map(|(_, _, group)| group).collect()
}

/// A leaf on edge: a thin blade that follows the skin and lifts at its tip.
fn leaf_group(section: &WristSection, part: &Part, stock: &Stock, lens: Lens) -> Group {
    let (_, colour) = shown(part, stock);
    let reach = (lens.length * lens.turn.sin()).abs().hypot(lens.width * lens.turn.cos()) / 2.0;
    let reach = reach.clamp(1.0, FARTHEST_MM);
    let tip = if lens.turn.sin() * lens.centre.y.signum() >= 0.0 { 1.0 } else { 0.0 };
    let (from, to) = (lens.centre.y - reach, lens.centre.y + reach);
    let rise = |t: f64| 1.0 + 2.5 * (t - (1.0 - tip)).powi(2);
    let under = along_skin(section, from, to, rise);
    let over = along_skin(section, from, to, |t| rise(t) + 0.4 + 2.6 * (t * PI).sin());
    let mut draft = Draft::new(seed_of("leaf", part.id.0), LIGHT);
    let ends = (under.first().copied().unwrap_or_default(), under.last().copied().unwrap_or_default());
    let list = [(0.0, colour.lighter(0.06).solid()), (0.5, colour.solid()), (1.0, colour.lighter(-0.08).solid())];
    draft.group.fill(between(&under, &over), linear(ends.0, ends.1, &list));
    draft.group.stroke(smooth(&over, false), 0.25, colour.lighter(0.14).paint(0.7));
    draft.group.key = Key::Part(part.id);
    draft.group
}

/// The share from which on a head is a flat face without a cup.
const FLAT_FACE: f64 = 0.8;

/// How much of a head's height its face takes, seen from the side; the rest is its cup.
fn face_share(form: Form) -> f64 {
    match form {
        Form::Craspedia | Form::Berry | Form::Pearl | Form::Stone | Form::Brunia => 1.0,
        Form::Daisy
        | Form::Anemone
        | Form::Dendrobium
        | Form::Cymbidium
        | Form::Stephanotis
        | Form::StarFloret
        | Form::Delphinium
        | Form::Hydrangea
        | Form::Nerine
        | Form::Alstroemeria
        | Form::Waxflower
        | Form::BabysBreath
        | Form::Statice
        | Form::Thistle
        | Form::Astrantia => FLAT_FACE,
        _ => 0.58,
    }
}

/// A head: its cup of petals on green sepals, and over it its face, foreshortened into the height that is reckoned with.
fn head_group(section: &WristSection, part: &Part, stock: &Stock, head: &Standing) -> Group {
    let (form, colour) = shown(part, stock);
    let (place, tilt) = on_skin(section, head.disc.centre.y);
    let light = LIGHT - tilt;
    let (r, high) = (head.disc.radius.clamp(0.5, FARTHEST_MM), head.thickness_mm.clamp(0.5, FARTHEST_MM));
    let base = head.base_mm.clamp(0.0, FARTHEST_MM);
    let seed = seed_of(part.stock.as_str(), part.id.0);
    let mut draft = Draft::new(seed, light);
    let face = face_share(form);
    if base > 0.5 {
        collar(&mut draft, base, r);
    }
    if face < FLAT_FACE {
        cup(&mut draft, r, high, face, &Hues::of(colour));
    }
    let bloom = lit_bloom(form, seed, [r * 2.0, 1.0], colour, Openness::Open, light);
    let edge = bloom.edge_bounds(Affine::IDENTITY).unwrap_or(Rect::new(-r, -r, r, r));
    let mut laid = Group::new(Key::Inner, Affine::IDENTITY);
    laid.transform = Affine::translate((high * (1.0 - face), 0.0))
        * Affine::scale_non_uniform(high * face / edge.width().max(1e-6), 1.0)
        * Affine::translate((-edge.x0, -edge.center().y));
    laid.items.push(Item::Group(bloom));
    draft.group.items.push(Item::Group(laid));
    draft.group.key = Key::Part(part.id);
    draft.group.transform = place * Affine::translate((base, 0.0));
    draft.group
}

/// The leaves that stand between a head and the skin: they hide what it is glued to.
fn collar(draft: &mut Draft, base: f64, r: f64) {
    let stem = smooth(&[Point::new(-base, 0.0), Point::new(0.4, 0.0)], false);
    draft.group.stroke(stem, (r * 0.09).min(1.2), SEPAL.lighter(-0.14).paint(1.0));
    let hues = Hues::of_leaf(Rgb::hex(0x44704a));
    for lean in [-0.75, 0.75, -0.3, 0.3, 0.0] {
        let length = (base * 1.15 + 2.0) * draft.chance.between(0.85, 1.1);
        let half = (length * 0.24).min(r * 0.4);
        let blade = Blade { length, half, peak: 0.5, blunt: 0.8, ..Blade::PETAL };
        let lit = hues.lit(draft.chance.about(0.05));
        let turn = lean + draft.chance.about(0.12);
        draft.blade(Affine::translate((-base, 0.0)) * Affine::rotate(turn), &blade, &lit, 3, 0.4);
    }
}

/// The outer petals from the side, and the sepals that hold them.
fn cup(draft: &mut Draft, r: f64, high: f64, face: f64, hues: &Hues) {
    let rim = high * (1.0 - face * 0.52);
    let under = hues.deeper(0.35);
    for (turn, long) in [(-0.98_f64, 1.0), (0.98, 1.0), (-0.62, 0.98), (0.62, 0.98), (-0.2, 0.95), (0.3, 0.93)] {
        let reach = 1.0 / ((turn.cos() / rim).hypot(turn.sin() / (r * 0.97)));
        let blade = Blade {
            length: reach * long,
            half: r * 0.36,
            peak: 0.72,
            blunt: 0.48,
            foot: 0.3,
            wave: 0.02,
            ..Blade::PETAL
        };
        draft.blade(Affine::rotate(turn), &blade, &under, 0, r * 0.05);
    }
    let green = Hues::of_leaf(SEPAL);
    for turn in [-1.1, 1.1, -0.55, 0.6, 0.02] {
        let blade = Blade { length: high * 0.36, half: r * 0.085, peak: 0.35, blunt: 0.9, foot: 0.8, ..Blade::PETAL };
        draft.blade(Affine::rotate(turn), &blade, &green, 0, 0.0);
    }
    draft.group.fill(oval(Point::new(high * 0.02, 0.0), Vec2::new(high * 0.07, r * 0.15), 0.0), green.mid.paint(1.0));
}

/// The ruler from the skin up, the height reached, and the height allowed.
fn marks(section: &WristSection, top_mm: f64, limit_mm: Option<f64>, frame: Rect) -> Group {
    let mut group = Group::new(Key::Marks, Affine::IDENTITY);
    let skin = section.half_depth();
    let left = frame.y0 + 16.0;
    let length = ((frame.x1 - 3.0 - skin) / 10.0).floor().max(1.0) * 10.0;
    group.items.push(Item::Group(ruler(Point::new(skin, left), length, Run::Up)));
    if top_mm > 0.0 {
        let level = skin + top_mm;
        let mut line = BezPath::new();
        line.move_to((level, left));
        line.line_to((level, left + 9.0));
        group.stroke(line, 0.3, INK.paint(0.9));
        let tall = crate::units::count_up(top_mm.round());
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
