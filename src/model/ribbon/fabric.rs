//! What a ribbon is made of, by how it takes light. All shares of light are our choice, by eye.

use std::f32::consts::{FRAC_PI_2, PI, TAU};

use crate::colour::Rgb;
use crate::light::{FineWeave, Material, Mesh, MeshGrid, Vec3};
use crate::piece::Bow;
use crate::stock::{Ribbon, Stock, Weave};

/// A ribbon without its line in stock is satin in this colour.
const UNKNOWN: Rgb = Rgb::hex(0xe9d9d2);
/// And so wide, mm.
const UNKNOWN_WIDTH_MM: f64 = 15.0;
/// A thread of a ribbon, in shares of its width.
#[derive(Clone, Copy, Debug, Default)]
struct Thread {
    middle: f32,
    /// How far it winds to both sides.
    swing: f32,
    /// How often it does so over the whole length, and where in a wave it begins, radians.
    waves: f32,
    begins: f32,
    wide: f32,
}

/// The threads of lace, and how far its scallops reach in, mm.
const THREAD_MM: f32 = 0.65;
const SCALLOP_MM: f32 = 2.6;
/// The most steps along a thread.
const MOST_STEPS: u32 = 900;
/// The firm edge of what one sees through, mm, and the most threads that are made.
const EDGE_MM: f32 = 0.7;
const MOST_THREADS: u32 = 120;
/// Widths that are made, mm.
const WIDTHS_MM: (f64, f64) = (1.0, 120.0);

/// A ribbon: what it is made of, its colour, its width.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fabric {
    /// What its surface does with light.
    pub material: Material,
    /// Share of light it gives back.
    pub tint: Vec3,
    /// Its width, mm.
    pub width_mm: f32,
    /// How much paler its edges are, below nought darker; as a share.
    pub edge: f32,
    /// How its threads lie, where one sees between them.
    pub make: Make,
}

/// How a ribbon is made.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Make {
    /// Close: nothing is seen between its threads.
    Close,
    /// Threads along it, so far apart, mm, each covering this share of that.
    Sheer(f32, f32),
    /// Threads that wind to and fro and leave eyes so wide, mm; the edges scalloped.
    Net(f32),
}

impl Fabric {
    /// The ribbon of this weave, colour and width.
    pub fn new(weave: Weave, rgb: Rgb, width_mm: f64) -> Self {
        let width = if width_mm.is_finite() { width_mm } else { UNKNOWN_WIDTH_MM };
        let tint = super::super::share_of_light(rgb);
        let (material, edge, make) = match weave {
            Weave::Satin => (SATIN, -0.05, Make::Close),
            Weave::Organza => (ORGANZA, 0.10, Make::Sheer(0.45, 0.55)),
            Weave::Velvet => (VELVET, -0.12, Make::Close),
            Weave::Grosgrain => (GROSGRAIN, -0.06, Make::Close),
            Weave::Lace => (LACE, 0.0, Make::Net(2.2)),
        };
        Self { material, tint, width_mm: width.clamp(WIDTHS_MM.0, WIDTHS_MM.1) as f32, edge, make }
    }

    /// The ribbon of a bow.
    pub fn of_bow(bow: &Bow, stock: &Stock) -> Self {
        let ribbon = stock.ribbon(&bow.ribbon);
        let rgb = ribbon.and_then(|r: &Ribbon| r.colour(&bow.colour)).map_or(UNKNOWN, |c| c.rgb);
        ribbon.map_or_else(|| Self::new(Weave::Satin, rgb, UNKNOWN_WIDTH_MM), |r| Self::new(r.weave, rgb, r.width_mm))
    }

    /// A piece of it as surface: `place` gives the point at `u` of its width and `v` of its length, each 0 to 1, in so many steps. What one
    /// sees through is made of its threads.
    pub(in crate::model) fn sheet(&self, [across, along]: [u32; 2], place: impl Fn(f32, f32) -> Vec3) -> Mesh {
        let tint = |u: f32| self.tint_at(u * 2.0 - 1.0);
        match self.make {
            Make::Close => Mesh::of_grid(MeshGrid::sheet(across, along), self.material, place, |u, _| tint(u)),
            Make::Sheer(apart, covers) => self.threads(along, place, self.straight(apart, covers)),
            Make::Net(eye) => {
                let n = 24;
                let at = |i: u32| place(0.5, i as f32 / n as f32);
                let length: f32 = (0..n).map(|i| at(i).distance(at(i + 1))).sum();
                self.threads((along * 3).min(MOST_STEPS), place, self.winding(eye, length))
            }
        }
    }

    /// Thin strips, each from one place of the width to another at `v`.
    fn threads(&self, along: u32, place: impl Fn(f32, f32) -> Vec3, threads: Vec<Thread>) -> Mesh {
        let mut mesh = Mesh::default();
        for thread in threads {
            let over = |u: f32, v: f32| {
                let middle = thread.middle + thread.swing * libm::sinf(v * thread.waves * TAU + thread.begins);
                (middle + (u - 0.5) * thread.wide).clamp(0.0, 1.0)
            };
            let at = |u: f32, v: f32| place(over(u, v), v);
            mesh.append(&Mesh::of_grid(MeshGrid::sheet(1, along), self.material, at, |u, v| {
                self.tint_at(over(u, v) * 2.0 - 1.0)
            }));
        }
        mesh
    }

    /// Threads of what is sheer, with a firm edge on both sides.
    fn straight(&self, apart: f32, covers: f32) -> Vec<Thread> {
        let edge = (EDGE_MM / self.width_mm).min(0.25);
        let n_threads = ((self.width_mm * (1.0 - 2.0 * edge) / apart) as u32).clamp(2, MOST_THREADS);
        let gap = (1.0 - 2.0 * edge) / n_threads as f32;
        let middle = |i: u32| edge + gap * (i as f32 + 0.5);
        let inner = (0..n_threads).map(|i| Thread { middle: middle(i), wide: gap * covers, ..Thread::default() });
        let edges = [0.5 * edge, 1.0 - 0.5 * edge].map(|middle| Thread { middle, wide: edge, ..Thread::default() });
        inner.chain(edges).collect()
    }

    /// Threads of a net over a length: neighbours wind against each other and meet; two firm bands, and scallops outside of them.
    fn winding(&self, eye: f32, length: f32) -> Vec<Thread> {
        let (thread, scallop) = (THREAD_MM / self.width_mm, (SCALLOP_MM / self.width_mm).min(0.2));
        let n_threads = ((self.width_mm * (1.0 - 2.0 * scallop) / eye) as u32).clamp(2, MOST_THREADS);
        let gap = (1.0 - 2.0 * scallop) / n_threads as f32;
        let waves = (length / (1.6 * eye)).max(1.0);
        let mut all: Vec<Thread> = (0..n_threads)
            .map(|i| Thread {
                middle: scallop + gap * (i as f32 + 0.5),
                swing: gap * 0.46,
                waves,
                begins: PI * (i % 2) as f32,
                wide: thread,
            })
            .collect();
        for side in [0.0_f32, 1.0] {
            let inward = |by: f32| (side - by).abs();
            all.push(Thread { middle: inward(scallop), wide: 1.8 * thread, ..Thread::default() });
            for (share, begins) in [(0.5, 0.0), (0.5, PI), (0.32, FRAC_PI_2)] {
                let (middle, swing) = (inward(scallop * 0.52), scallop * share * 0.9);
                all.push(Thread { middle, swing, waves: (length / 5.0).max(1.0), begins, wide: 1.2 * thread });
            }
        }
        all
    }

    /// Its colour at `aside` of half its width.
    pub(in crate::model) fn tint_at(&self, aside: f32) -> Vec3 {
        let edge = ((aside.abs() - 0.9) / 0.06).clamp(0.0, 1.0);
        (self.tint * (1.0 + self.edge * edge)).min(Vec3::splat(0.95))
    }
}

/// Long threads that lie along the ribbon: a bright band across it that moves with every bend.
const SATIN: Material = Material {
    mirror: 0.09,
    rough: 0.40,
    rough_along: 0.13,
    through: 0.10,
    through_tint: Vec3::new(1.0, 0.97, 0.93),
    ..Material::MATT
};

/// Thin and stiff threads that let light through themselves, and more between them.
const ORGANZA: Material = Material {
    mirror: 0.08,
    rough: 0.34,
    rough_along: 0.26,
    through: 0.5,
    through_tint: Vec3::new(1.0, 0.99, 0.97),
    ..Material::MATT
};

/// Ribs across, dull.
const GROSGRAIN: Material =
    Material { mirror: 0.04, rough: 0.5, rough_along: 0.6, weave: FineWeave::Ribs(0.8), ..Material::MATT };

/// Cotton thread.
const LACE: Material = Material { mirror: 0.03, rough: 0.6, rough_along: 0.5, through: 0.2, ..Material::MATT };

/// Pile: dark where it is looked into, bright at its rims.
const VELVET: Material =
    Material { mirror: 0.01, rough: 0.9, rough_along: 0.9, fuzz: 0.9, weave: FineWeave::Cloth(0.3), ..Material::MATT };
