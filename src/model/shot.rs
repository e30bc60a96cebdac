//! From where a piece is photographed, and everything that is then in front of the camera.

use std::sync::Arc;

use super::arm::ArmSurface;
use super::lapel::{self, Lapel};
use super::placing::{GroundUnder, base, covered_mm, parts, taped_stem};
use super::ribbon::{self, Fabric};
use super::{band, cloth};
use crate::colour::Rgb;
use crate::light::{Affine3A, Camera, Lights, LitScene, PlacedMesh, Vec3};
use crate::piece::{Piece, Skin, Worn, Wrist};
use crate::stock::Stock;

/// From where a piece is seen.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Viewpoint {
    /// From straight above, the elbow up, as on the sheet.
    Above,
    /// From the hand and from one side, as one who faces her sees it.
    #[default]
    ThreeQuarter,
    /// As its wearer sees it: her fingers up.
    Wearer,
    /// From the hand, low: its height shows.
    Side,
}

impl Viewpoint {
    /// All of them, in the order in which they are offered.
    pub const ALL: [Self; 4] = [Self::Above, Self::ThreeQuarter, Self::Wearer, Self::Side];

    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            Self::Above => "above",
            Self::ThreeQuarter => "three-quarter",
            Self::Wearer => "wearer",
            Self::Side => "side",
        }
    }

    /// From the middle of the piece toward the lens, and what points up in the picture.
    fn axes(self) -> (Vec3, Vec3) {
        match self {
            Self::Above => (Vec3::Z, Vec3::Y),
            Self::ThreeQuarter => (Vec3::new(0.42, -0.72, 0.80), Vec3::Z),
            Self::Wearer => (Vec3::new(-0.22, 0.62, 0.86), Vec3::Z),
            Self::Side => (Vec3::new(0.0, -1.0, 0.40), Vec3::Z),
        }
    }
}

/// What is photographed, and how.
#[derive(Clone, Copy, Debug)]
pub struct Shot<'a> {
    /// The piece.
    pub piece: &'a Piece,
    /// What there is in stock.
    pub stock: &'a Stock,
    /// Who wears it.
    pub wrist: &'a Wrist,
    /// The tone of the arm.
    pub skin: Skin,
    /// The cloth behind it; paper without one.
    pub cloth: Option<Rgb>,
    /// From where.
    pub from: Viewpoint,
}

/// How finely surfaces are made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Detail {
    /// For a small first look.
    Draft,
    /// For everything that is kept.
    Full,
}

impl Detail {
    /// How fine the skin is meshed, mm.
    fn arm_cell_mm(self) -> f32 {
        match self {
            Self::Draft => 3.0,
            Self::Full => 1.3,
        }
    }
}

/// Distance of the lens, mm: far enough that nothing near looks swollen.
const DISTANCE_MM: f32 = 620.0;
/// Radius of the lens, mm; what lies a hand's length before or behind the piece grows soft.
const LENS_MM: f32 = 3.2;
/// The piece takes about this share of the picture's height.
const SHARE_OF_HEIGHT: f32 = 0.52;
/// The least that a picture shows from left to right, mm.
const LEAST_WIDTH_MM: f32 = 96.0;

impl Shot<'_> {
    /// Everything in front of the camera.
    pub fn scene(&self, detail: Detail) -> LitScene {
        let ground = GroundUnder::under(self.piece, self.wrist);
        let mut meshes = Vec::new();
        let fabric = self.piece.bow.as_ref().map(|bow| Fabric::of_bow(bow, self.stock));
        let covered = |toward| covered_mm(self.piece, toward);
        let loops = match self.piece.worn {
            Worn::Wrist => {
                meshes.push(base(self.piece, &ground));
                let arm = ArmSurface::new(self.wrist, self.piece.footprint.offset_mm);
                meshes.push(arm.mesh(self.skin, detail.arm_cell_mm()));
                meshes.push(cloth::ground(self.cloth, &arm));
                let band = self.piece.band.as_ref().and_then(|id| self.stock.band(id));
                meshes.extend(band.map(|band| band::band(band, fabric.as_ref(), &arm)));
                self.piece.bow.as_ref().map(|bow| ribbon::bow_under(bow, self.stock, &arm, covered))
            }
            Worn::Lapel => {
                meshes.push(lapel::lapel(None));
                meshes.push(taped_stem(self.piece, self.stock));
                self.piece.bow.as_ref().map(|bow| ribbon::bow_under(bow, self.stock, &Lapel, covered))
            }
        };
        meshes.extend(loops);
        let still = |mesh| PlacedMesh { mesh: Arc::new(mesh), place: Affine3A::IDENTITY };
        let mut placed = parts(self.piece, self.stock, &ground);
        placed.extend(meshes.into_iter().map(still));
        LitScene { placed, lights: Lights::by_a_window() }
    }

    /// The camera for a picture of this width over its height.
    pub fn camera(&self, width_over_height: f32) -> Camera {
        let shape = if width_over_height.is_finite() { width_over_height.clamp(0.1, 10.0) } else { 0.8 };
        let oval = self.piece.oval();
        let long = (2.0 * oval.a.max(oval.b)).clamp(20.0, 400.0) as f32;
        let bow = self.piece.bow.as_ref().map_or(0.0, |bow| 2.0 * bow.loop_length_mm).clamp(0.0, 400.0) as f32;
        let (toward, up) = self.from.axes();
        let high = long.max(0.7 * bow) / SHARE_OF_HEIGHT * if self.from == Viewpoint::Side { 0.86 } else { 1.0 };
        let at = Vec3::new(0.0, if self.piece.worn == Worn::Wrist { -0.06 * long } else { 0.0 }, 10.0);
        Camera {
            eye: at + toward.normalize() * DISTANCE_MM,
            at,
            up,
            width_mm: (high * shape).max(LEAST_WIDTH_MM),
            lens_mm: LENS_MM,
        }
    }
}
