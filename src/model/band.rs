//! What goes round the wrist: elastic, pearls, a tied ribbon, a metal cuff, rhinestones, a slap band. Each follows the arm under it and
//! meets on the inner side. Space: that of [`crate::model`]; mm. Thicknesses are our choice.

use std::f32::consts::{FRAC_PI_2, PI, TAU};

use super::arm::{ArmSurface, ease};
use super::ribbon::{Course, Fabric, RibbonStrip};
use super::share_of_light;
use crate::colour::Rgb;
use crate::light::{Affine3A, FineWeave, Material, Mesh, MeshGrid, Quat, Vec3, noise};
use crate::stock::{Band, BandKind, Weave};

/// Widths that are made, mm.
const WIDTHS_MM: (f64, f64) = (2.0, 60.0);
/// The inner side of the wrist, as an angle from +x over the top.
const INNER: f32 = -FRAC_PI_2;
/// Points round the wrist.
const ROUND: usize = 180;
/// Between skin and band, mm.
const ROOM_MM: f32 = 0.15;

/// Cloth over elastic.
const ELASTIC: Material = Material { mirror: 0.04, rough: 0.5, rough_along: 0.5, fuzz: 0.1, ..Material::MATT };
const PEARL: Material = Material { mirror: 0.08, rough: 0.22, rough_along: 0.22, fuzz: 0.2, ..Material::MATT };
const METAL: Material = Material { mirror: 0.62, rough: 0.20, rough_along: 0.30, ..Material::MATT };
const STONE: Material = Material { mirror: 0.32, rough: 0.05, rough_along: 0.05, ..Material::MATT };
const FELT: Material =
    Material { mirror: 0.01, rough: 0.9, rough_along: 0.9, fuzz: 0.5, weave: FineWeave::Cloth(0.4), ..Material::MATT };

/// The band round `arm` under the piece; a tied one is of `ribbon`, where the piece has a bow of its own.
pub fn band(band: &Band, ribbon: Option<&Fabric>, arm: &ArmSurface) -> Mesh {
    let width = if band.width_mm.is_finite() { band.width_mm } else { 6.0 };
    let width = width.clamp(WIDTHS_MM.0, WIDTHS_MM.1) as f32;
    let tint = share_of_light(band.rgb);
    match band.kind {
        BandKind::Elastic => elastic(&WayRound::of(arm, width), tint),
        BandKind::Pearl => pearls(&WayRound::of(arm, width), tint),
        BandKind::RibbonTie => {
            let own = Fabric::new(Weave::Satin, band.rgb, f64::from(width));
            let fabric = ribbon.copied().unwrap_or(own);
            tied(&WayRound::of(arm, fabric.width_mm), &fabric)
        }
        BandKind::Metal => cuff(&WayRound::of(arm, width), tint),
        BandKind::Rhinestone => stones(&WayRound::of(arm, width), tint, band.rgb),
        BandKind::Slap => slap(&WayRound::of(arm, width), tint),
    }
}

/// The way round the arm that a band of some width takes: over the highest skin under it, as it does not bend across.
struct WayRound {
    middle: Vec3,
    radii: Vec<f32>,
    half: f32,
}

impl WayRound {
    fn of(arm: &ArmSurface, width: f32) -> Self {
        let half = width * 0.5;
        let (middle, radii) = arm.radii_mm(half * 0.94, ROOM_MM, ROUND);
        Self { middle, radii, half }
    }

    /// The place at this angle, `off` from the skin, `along` the arm from the middle of the band.
    fn at(&self, angle: f32, off: f32, along: f32) -> Vec3 {
        let turn = angle / TAU - (angle / TAU).floor();
        let step = turn * ROUND as f32;
        let (i, t) = (step as usize % ROUND, step - step.floor());
        let radius = self.radii[i] + (self.radii[(i + 1) % ROUND] - self.radii[i]) * t;
        self.middle + Self::way(angle) * (radius + off) + Vec3::Y * along
    }

    fn way(angle: f32) -> Vec3 {
        let (sine, cosine) = libm::sincosf(angle);
        Vec3::new(cosine, 0.0, sine)
    }

    /// Millimetres round, `off` from the skin.
    fn round(&self, off: f32) -> f32 {
        let at = |i: usize| self.at(i as f32 / ROUND as f32 * TAU, off, 0.0);
        (0..ROUND).map(|i| at(i).distance(at(i + 1))).sum()
    }

    /// So many places at even distances round, from the inner side on, as angles.
    fn even(&self, count: usize, off: f32) -> Vec<f32> {
        let angle = |i: usize| INNER + i as f32 / ROUND as f32 * TAU;
        let line = Course::through((0..=ROUND).map(|i| self.at(angle(i), off, 0.0)).collect());
        let step = line.length() / count.max(1) as f32;
        (0..count).map(|i| INNER + line.step_at((i as f32 + 0.5) * step) / ROUND as f32 * TAU).collect()
    }

    /// A solid strip from one angle to another: `thick` mm, its edges rounded, lifted and made wider from place to place.
    fn strip(
        &self,
        [from, to]: [f32; 2],
        thick: f32,
        material: Material,
        tint: Vec3,
        shape: impl Fn(f32) -> StripShape,
    ) -> Mesh {
        let along = 240;
        let at = |u: f32, v: f32| {
            let StripShape { lift, wide, rough } = shape(v);
            let (sine, cosine) = libm::sincosf(-u * TAU);
            let round = 1.0 / (sine * sine * sine * sine + cosine * cosine * cosine * cosine).sqrt().sqrt();
            // The ends are closed.
            let whole = if v <= 0.0 || v >= 1.0 { 0.0 } else { 1.0 };
            let off = thick * 0.5 * (1.0 + whole * round * sine) + lift + rough * whole;
            self.at(from + (to - from) * v, off, self.half * wide * whole * round * cosine)
        };
        Mesh::of_grid(MeshGrid::tube(20, along), material, at, |_, v| {
            tint * (1.0 - 0.10 * shape(v).rough.abs().min(1.0))
        })
    }
}

/// How a strip is at a place: lifted, so wide, uneven.
struct StripShape {
    lift: f32,
    wide: f32,
    rough: f32,
}

/// Gathered cloth, sewn together on the inner side.
fn elastic(wrap: &WayRound, tint: Vec3) -> Mesh {
    let n_gathers = (wrap.round(0.0) / 2.1) as i32;
    let shape = |v: f32| {
        let gather = libm::sinf(v * n_gathers as f32 * TAU) * 0.20 + 0.25 * noise(Vec3::new(v * 90.0, 0.5, 0.5));
        StripShape { lift: 0.0, wide: 1.0 + 0.02 * gather, rough: gather }
    };
    let mut mesh = wrap.strip([INNER, INNER + TAU], 1.1, ELASTIC, tint, shape);
    // Where its ends lie over each other.
    let seam = 5.0 / wrap.radii[ROUND * 3 / 4].max(1.0);
    let flat = |_: f32| StripShape { lift: 0.8, wide: 0.97, rough: 0.0 };
    mesh.append(&wrap.strip([INNER - seam, INNER + seam], 1.1, ELASTIC, tint * 0.96, flat));
    mesh
}

/// Two rows of beads, one set in the gaps of the other, on clear elastic.
fn pearls(wrap: &WayRound, tint: Vec3) -> Mesh {
    let radius = wrap.half * 0.52;
    let mut mesh = Mesh::default();
    let bead = ball(radius, PEARL, tint);
    let count = ((wrap.round(radius) / (radius * 2.02)) as usize).clamp(6, 200);
    let (one, two) = (wrap.even(count, radius), wrap.even(count * 2, radius));
    for (row, angles) in [one, two.into_iter().skip(1).step_by(2).collect::<Vec<f32>>()].iter().enumerate() {
        let along = if row == 0 { -0.9 * radius } else { 0.9 * radius };
        for angle in angles {
            mesh.append_at(&bead, Affine3A::from_translation(wrap.at(*angle, radius * 0.95, along)));
        }
    }
    mesh
}

/// A ribbon laid round and knotted on the inner side, its ends short.
fn tied(wrap: &WayRound, fabric: &Fabric) -> Mesh {
    let angle = |i: usize| INNER + i as f32 / ROUND as f32 * TAU;
    let line = Course::through((0..=ROUND).map(|i| wrap.at(angle(i), 0.35, 0.0)).collect());
    let total = line.length();
    let narrow = |length: f32| 0.42 + 0.58 * ease(0.0, 0.16 * total, length.min(total - length));
    let mut mesh = RibbonStrip { fabric, line: &line, narrow: &narrow, side: &|_| -Vec3::Y, cut: &|_| 0.0 }.mesh(1.3);
    let thick = 1.4 + fabric.width_mm * 0.07;
    let knot = ball(thick, fabric.material, fabric.tint);
    let at = wrap.at(INNER, thick * 0.85, 0.0);
    mesh.append_at(&knot, Affine3A::from_translation(at));
    for side in [-1.0, 1.0] {
        let ends = (0..=20).map(|i| {
            let t = i as f32 / 20.0;
            at + Vec3::new(side * 20.0 * t, side * 5.0 * t, -0.4 * t)
        });
        let end = Course::through(ends.collect());
        let narrow = |length: f32| 0.45 + 0.55 * ease(0.0, 9.0, length);
        let cut = |aside: f32| 0.5 * fabric.width_mm.min(16.0) * (1.0 - aside.abs());
        mesh.append(&RibbonStrip { fabric, line: &end, narrow: &narrow, side: &|_| Vec3::Y, cut: &cut }.mesh(1.3));
    }
    mesh
}

/// Flat metal, open on the inner side, its ends curled away from the skin.
fn cuff(wrap: &WayRound, tint: Vec3) -> Mesh {
    let gap = 9.0 / wrap.radii[ROUND * 3 / 4].max(1.0);
    let curl = |v: f32| {
        let end = (v.min(1.0 - v) * wrap.round(0.0)).max(0.0);
        let near = 1.0 - (end / 6.0).min(1.0);
        StripShape { lift: 2.6 * near * near, wide: 1.0, rough: 0.0 }
    };
    wrap.strip([INNER + gap, INNER + TAU - gap], 0.7, METAL, tint * 0.5, curl)
}

/// Spring steel in cloth: its end lies over its beginning on the inner side.
fn slap(wrap: &WayRound, tint: Vec3) -> Mesh {
    let over = 14.0 / wrap.radii[ROUND * 3 / 4].max(1.0);
    let [from, to] = [INNER - over, INNER + TAU + over];
    let shape = |v: f32| {
        let wrapped = ease(1.0 - 3.2 * over / (to - from), 1.0 - 1.9 * over / (to - from), v);
        StripShape { lift: 1.6 * wrapped, wide: 1.0, rough: 0.0 }
    };
    wrap.strip([from, to], 1.5, FELT, tint, shape)
}

/// Rows of cut stones in their cups.
fn stones(wrap: &WayRound, tint: Vec3, rgb: Rgb) -> Mesh {
    let flat = |_: f32| StripShape { lift: 0.0, wide: 1.0, rough: 0.0 };
    let cups = share_of_light(rgb.lighter(-0.1));
    let mut mesh = wrap.strip([INNER, INNER + TAU], 1.0, METAL, cups * 0.5, flat);
    let n_rows = ((wrap.half * 2.0 / 4.0) as usize).clamp(1, 6);
    let radius = wrap.half / n_rows as f32 * 0.90;
    let count = ((wrap.round(1.0) / (radius * 2.12)) as usize).clamp(6, 260);
    for row in 0..n_rows {
        let along = wrap.half * (2.0 * (row as f32 + 0.5) / n_rows as f32 - 1.0);
        for (i, angle) in wrap.even(count, 1.0).into_iter().enumerate() {
            let stone = cut_stone(radius, tint, (row * 1000 + i) as f32);
            let (sine, cosine) = libm::sincosf((FRAC_PI_2 - angle) * 0.5);
            let turn = Quat::from_xyzw(0.0, sine, 0.0, cosine);
            let place = Affine3A::from_rotation_translation(turn, wrap.at(angle, 1.0, along));
            mesh.append_at(&stone, place);
        }
    }
    mesh
}

/// A brilliant: a flat table over eight slanting faces, each of its own brightness, as they mirror different parts of a room.
fn cut_stone(radius: f32, tint: Vec3, seed: f32) -> Mesh {
    let ring = |k: usize, r: f32, z: f32| {
        let (sine, cosine) = libm::sincosf((k as f32 + 0.5) / 8.0 * TAU);
        Vec3::new(cosine * r, sine * r, z)
    };
    let mut mesh = Mesh { materials: vec![STONE], ..Mesh::default() };
    let mut face = |corners: &[Vec3], number: f32| {
        let first = mesh.points.len() as u32;
        let out = (corners[1] - corners[0]).cross(corners[2] - corners[0]).normalize_or(Vec3::Z);
        let bright = 0.55 + 0.45 * noise(Vec3::new(seed * 0.731 + 0.5, number * 1.37 + 0.5, 0.5));
        for corner in corners {
            mesh.points.push(*corner);
            mesh.normals.push(out);
            mesh.tangents.push(Vec3::ZERO);
            mesh.tints.push((tint * bright).clamp(Vec3::ZERO, Vec3::splat(0.95)));
        }
        for k in 1..corners.len() as u32 - 1 {
            mesh.triangles.push([first, first + k, first + k + 1]);
            mesh.kinds.push(0);
        }
    };
    let table: Vec<Vec3> = (0..8).map(|k| ring(k, radius * 0.56, radius * 0.52)).collect();
    face(&table, 0.0);
    for k in 0..8 {
        let (low, next) = (ring(k, radius, 0.0), ring(k + 1, radius, 0.0));
        face(&[low, next, table[(k + 1) % 8], table[k]], k as f32 + 1.0);
    }
    mesh
}

fn ball(radius: f32, material: Material, tint: Vec3) -> Mesh {
    let at = |u: f32, v: f32| {
        let ((sine, cosine), (high, flat)) = (libm::sincosf(u * TAU), libm::sincosf((v - 0.5) * PI));
        Vec3::new(cosine * flat, sine * flat, high) * radius
    };
    Mesh::of_grid(MeshGrid::tube(18, 12), material, at, |_, _| tint)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::piece::{Measured, Side, Wrist};
    use crate::stock::{Shelf, StockId};
    use crate::units::{Cents, Length};

    const KINDS: [BandKind; 6] = [
        BandKind::Elastic,
        BandKind::Pearl,
        BandKind::RibbonTie,
        BandKind::Metal,
        BandKind::Rhinestone,
        BandKind::Slap,
    ];

    fn of_kind(kind: BandKind, width_mm: f64) -> Band {
        Band {
            id: StockId::new("band"),
            name: "Band".to_owned(),
            kind,
            fits_mm: [90.0, 260.0],
            width_mm,
            rgb: Rgb::hex(0xf4efe6),
            price: Cents(0),
            supplier: String::new(),
            cautions: Vec::new(),
            shelf: Shelf::default(),
        }
    }

    fn arm(girth_mm: f64) -> ArmSurface {
        ArmSurface::new(&Wrist { side: Side::Left, girth: Length::from_mm(girth_mm), measured: Measured::Tape }, 25.0)
    }

    /// Along the arm, mm, of what lies on the back of the wrist.
    fn width_above(mesh: &Mesh) -> f32 {
        let above = mesh.points.iter().filter(|p| p.z > -8.0).map(|p| p.y);
        let (low, high) = above.fold((f32::MAX, f32::MIN), |(low, high), y| (low.min(y), high.max(y)));
        high - low
    }

    #[test]
    fn a_band_is_as_wide_as_it_is_sold_and_goes_round_the_wrist() {
        for girth in [90.0, 154.0, 260.0] {
            let arm = arm(girth);
            for kind in KINDS {
                let mesh = band(&of_kind(kind, 14.0), None, &arm);
                let (low, high) = mesh.bounds().unwrap();
                let wide = width_above(&mesh);
                assert!((wide - 14.0).abs() < 1.2, "{kind:?} {wide}");
                assert!(high.z > 0.0 && low.z < arm.ring(0.0, 0.0, 4)[3].z, "{kind:?}: above and below");
                let deepest = mesh.points.iter().map(|p| arm.distance_mm(*p)).fold(f32::MAX, f32::min);
                assert!(deepest > -0.8, "{kind:?} on {girth}: {deepest}");
            }
        }
    }

    #[test]
    fn a_tied_one_is_of_the_ribbon_of_the_bow() {
        let ribbon = Fabric::new(Weave::Velvet, Rgb::hex(0x521022), 25.0);
        let mesh = band(&of_kind(BandKind::RibbonTie, 15.0), Some(&ribbon), &arm(154.0));
        assert!(mesh.materials.contains(&ribbon.material));
        assert!((width_above(&mesh) - 25.0).abs() < 0.6);
    }

    #[test]
    fn the_worst_bands_are_answered() {
        for width in [f64::NAN, f64::INFINITY, -4.0, 0.0, 1e9] {
            for kind in KINDS {
                let mesh = band(&of_kind(kind, width), None, &arm(90.0));
                assert!(mesh.points.iter().all(|p| p.is_finite()), "{kind:?} {width}");
            }
        }
    }
}
