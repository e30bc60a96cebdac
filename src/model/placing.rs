//! Where each part of a piece stands in the round: on the skin that bends away under it, over what lies below it, leaning a little outward.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::bloom::{Look, bloom};
use super::curve::{TAU, cos, sin, turn_z};
use super::solid::{bowed, stem};
use super::tone::of_hex;
use crate::colour::Rgb;
use crate::geometry::{Point, WristSection};
use crate::light::{Affine3A, Mat3, Material, Mesh, MeshGrid, PlacedMesh, Vec2, Vec3};
use crate::once_over::standing;
use crate::piece::{Level, Part, PartId, Piece, STEM_WIDTH_MM, Worn, Wrist};
use crate::stock::{Form, Role, Stock};
use crate::units::chance::seed_of;

/// How many different heads of one kind, colour and size are grown; the others are those again, turned.
const VARIANTS: u32 = 5;
/// How far a head at the rim of the oval leans outward, radians; our choice by eye.
const LEAN_RAD: f32 = 0.30;
/// Height of glue and base under a leaf or sprig, mm; our choice.
const LEAF_LIFT_MM: f64 = 1.5;
const SPRIG_LIFT_MM: f64 = 3.0;
/// How high the taped base is in its middle, mm, and how much of the oval it takes; common practice, no source.
const BASE_MM: f32 = 3.0;
const BASE_SHARE: f32 = 0.82;
/// How far the stem is seen to go on under the bloom, mm.
const INTO_BLOOM_MM: f32 = 10.0;
/// How much higher heads stand over a bow, mm; our choice.
const OVER_BOW_MM: f64 = 3.0;
/// Colour of something that is not in stock.
const UNKNOWN_COLOUR: Rgb = Rgb::hex(0xe8ddd6);
/// Farthest from the middle that anything is placed, mm.
const FARTHEST_MM: f64 = 1000.0;

/// The surface under a piece: the wrist, or a lapel that is flat.
#[derive(Clone, Copy, Debug)]
pub(super) struct GroundUnder(Option<WristSection>);

impl GroundUnder {
    pub(super) fn under(piece: &Piece, wrist: &Wrist) -> Self {
        Self((piece.worn == Worn::Wrist).then(|| WristSection::new(wrist.girth_mm(), Wrist::FLATNESS)))
    }

    /// The place on the skin of a point of the sheet, and the turn that stands things upright there.
    pub(super) fn at(&self, point: Point) -> (Vec3, Mat3) {
        let bound = |mm: f64| if mm.is_finite() { mm.clamp(-FARTHEST_MM, FARTHEST_MM) } else { 0.0 };
        let (along, across) = (bound(point.x), bound(point.y));
        let Some(section) = &self.0 else {
            return (Vec3::new(across as f32, along as f32, 0.0), Mat3::IDENTITY);
        };
        let seen = section.seen(across);
        let down = seen.height - section.half_depth();
        let (s, c) = (sin(seen.tilt as f32), cos(seen.tilt as f32));
        let upright = Mat3::from_cols(Vec3::new(c, 0.0, -s), Vec3::Y, Vec3::new(s, 0.0, c));
        (Vec3::new(seen.across as f32, along as f32, down as f32), upright)
    }
}

/// What makes two heads share one surface.
type HeadKind = (Form, Rgb, [u64; 3], u32);

/// All parts of a piece on its ground.
pub(super) fn parts(piece: &Piece, stock: &Stock, ground: &GroundUnder) -> Vec<PlacedMesh> {
    let heights: BTreeMap<PartId, f64> =
        standing(piece, stock).into_iter().map(|head| (head.part, head.base_mm)).collect();
    let mut grown: BTreeMap<HeadKind, Arc<Mesh>> = BTreeMap::new();
    let oval = piece.oval();
    piece
        .from_below()
        .into_iter()
        .map(|part| {
            let look = look_of(part, stock);
            let variant = part.id.0 % VARIANTS;
            let kind =
                (look.form, look.colour, [look.size_mm, look.breadth, look.height_mm].map(f64::to_bits), variant);
            let mesh = grown.entry(kind).or_insert_with(|| Arc::new(bloom(&look))).clone();
            let over_bow = if piece.bow.is_some() { OVER_BOW_MM } else { 0.0 };
            let base = heights.get(&part.id).copied().unwrap_or_else(|| lift_of(part)) + over_bow;
            let reach =
                Vec3::new((part.centre.y / oval.b.max(1.0)) as f32, (part.centre.x / oval.a.max(1.0)) as f32, 0.0);
            PlacedMesh { mesh, place: placed(part, &look, base, reach, ground) }
        })
        .collect()
}

/// How far the heads of a piece reach from its middle in a direction of length 1, mm: so far a bow lies flat under them.
pub(super) fn covered_mm(piece: &Piece, toward: Vec2) -> f32 {
    let oval = piece.oval();
    let half = Vec2::new(oval.b.clamp(5.0, 200.0) as f32, oval.a.clamp(5.0, 200.0) as f32);
    1.0 / (toward / half).length().max(1e-3)
}

/// How a part is to look.
pub(super) fn look_of(part: &Part, stock: &Stock) -> Look {
    let botanical = stock.botanical(&part.stock);
    let size_mm = part.size_in(stock);
    let usual = botanical.map_or(size_mm, |b| b.usual_mm());
    let high = botanical.map_or(0.5 * size_mm, |b| b.height_mm * size_mm / usual.max(1.0));
    Look {
        form: botanical.map_or(Form::StarFloret, |b| b.form),
        colour: botanical.and_then(|b| b.colour(&part.colour)).map_or(UNKNOWN_COLOUR, |c| c.rgb),
        size_mm,
        breadth: botanical.map_or(1.0, |b| b.breadth),
        height_mm: high,
        open: 1.0,
        seed: seed_of(part.stock.as_str(), part.id.0 % VARIANTS),
    }
}

/// The base under the heads that hides glue and stems: as long and nearly as wide as the oval, a low dome of tape.
pub(super) fn base(piece: &Piece, ground: &GroundUnder) -> Mesh {
    let oval = piece.oval();
    let half = [oval.a, oval.b].map(|mm| if mm.is_finite() { mm.clamp(1.0, 200.0) } else { 1.0 });
    let tape = Material { rough: 0.6, rough_along: 0.6, fuzz: 0.15, ..Material::MATT };
    let at = |u: f32, v: f32| {
        let (turn, out) = (u * TAU, BASE_SHARE * v);
        let point = Point::new(half[0] * f64::from(out * cos(turn)), half[1] * f64::from(out * sin(turn)));
        let (foot, upright) = ground.at(point);
        foot + upright * Vec3::Z * (BASE_MM * (1.0 - v * v * v) + 0.2)
    };
    let tint = of_hex(0x5f7d4c);
    Mesh::of_grid(MeshGrid::tube(48, 10), tape, at, |u, v| tint * (0.92 + 0.08 * sin(40.0 * u + 9.0 * v)))
}

/// The wired and taped stem of a boutonniere, from under its bloom to its end; nothing on a wrist.
pub(super) fn taped_stem(piece: &Piece, stock: &Stock) -> Mesh {
    let (Some(binding), Some(end)) = (piece.binding_point(stock), piece.stem_end(stock)) else {
        return Mesh::default();
    };
    let tape = Material { rough: 0.5, rough_along: 0.5, fuzz: 0.10, ..Material::MATT };
    let at = |p: Point, z: f32| Vec3::new(p.y as f32, p.x as f32, z);
    let path = bowed(at(binding, 9.0) + Vec3::Y * INTO_BLOOM_MM, at(end, 3.2), Vec3::Z * -1.0, 24);
    stem(&path, 12, tape, |v| STEM_WIDTH_MM as f32 * (0.52 - 0.16 * v), of_hex(0x54723f))
}

fn lift_of(part: &Part) -> f64 {
    let level = match part.level {
        Level::Flat => 0.0,
        Level::Raised => 4.0,
        Level::Top => 8.0,
    };
    level + if part.role == Role::Leaf { LEAF_LIFT_MM } else { SPRIG_LIFT_MM }
}

fn placed(part: &Part, look: &Look, base_mm: f64, reach: Vec3, ground: &GroundUnder) -> Affine3A {
    let (foot, upright) = ground.at(part.centre);
    let turn = if part.turn_rad.is_finite() { part.turn_rad as f32 } else { 0.0 };
    // Angles of the sheet run from the elbow to the side; those of the space from the side to the elbow.
    let spin = if look.form.is_long() { turn_z(std::f32::consts::FRAC_PI_2 - turn) } else { turn_z(-turn) };
    let lean = if look.form.is_long() {
        // The tip of a leaf hangs down to the skin.
        Mat3::IDENTITY
    } else {
        lean_to(reach.clamp_length_max(1.0) * LEAN_RAD)
    };
    let base = if base_mm.is_finite() { base_mm.clamp(0.0, FARTHEST_MM) as f32 } else { 0.0 };
    Affine3A::from_mat3_translation(upright * lean * spin, foot + upright * Vec3::Z * base)
}

/// The turn that tips z toward this direction of the ground by its length, radians.
fn lean_to(by: Vec3) -> Mat3 {
    let angle = by.length();
    if angle < 1e-5 {
        return Mat3::IDENTITY;
    }
    let toward = by / angle;
    let (s, c) = (sin(angle), cos(angle));
    let axis = Vec3::Z.cross(toward);
    let cross = |v: Vec3| axis.cross(v);
    let turned = |v: Vec3| v * c + cross(v) * s + axis * axis.dot(v) * (1.0 - c);
    Mat3::from_cols(turned(Vec3::X), turned(Vec3::Y), turned(Vec3::Z))
}
