//! What a surface does with light.

use super::Vec3;

/// What a surface does with light; its own colour comes from the mesh.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Material {
    /// Share of the light that the surface mirrors when seen straight on, 0 to 1.
    pub mirror: f32,
    /// Roughness of that mirror across the mesh's tangent, 0 (a mirror) to 1.
    pub rough: f32,
    /// The same along the tangent; differs from `rough` for satin.
    pub rough_along: f32,
    /// Share of the diffuse light that goes through to the other side, 0 to 1: petals, organza.
    pub through: f32,
    /// What the light that goes through is multiplied by.
    pub through_tint: Vec3,
    /// A soft bright edge as of velvet and of hairs, 0 to 1.
    pub fuzz: f32,
    /// How far light spreads below the surface, mm; nought for none. Skin.
    pub soft_mm: f32,
    /// Fine structure that is not in the mesh.
    pub weave: FineWeave,
}

/// Fine structure that bends the normal, by place on the surface.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum FineWeave {
    /// Smooth.
    None,
    /// Threads that cross, so far apart, mm.
    Cloth(f32),
    /// The fine net of lines on skin, so wide, mm.
    Skin(f32),
    /// Cells of a petal, so wide, mm.
    Petal(f32),
    /// Ribs across the tangent, so far apart, mm: grosgrain.
    Ribs(f32),
}

impl Material {
    /// Dull and even: plaster.
    pub const MATT: Self = Self {
        mirror: 0.02,
        rough: 0.8,
        rough_along: 0.8,
        through: 0.0,
        through_tint: Vec3::ONE,
        fuzz: 0.0,
        soft_mm: 0.0,
        weave: FineWeave::None,
    };
    /// A soft petal.
    pub const PETAL: Self = Self {
        mirror: 0.03,
        rough: 0.5,
        rough_along: 0.5,
        through: 0.38,
        through_tint: Vec3::new(1.0, 0.93, 0.90),
        fuzz: 0.08,
        weave: FineWeave::Petal(0.09),
        ..Self::MATT
    };
    /// A leaf with a skin of wax.
    pub const LEAF: Self = Self {
        mirror: 0.045,
        rough: 0.28,
        rough_along: 0.28,
        through: 0.2,
        through_tint: Vec3::new(0.9, 1.0, 0.45),
        ..Self::MATT
    };
    /// A berry, a pearl: hard and round.
    pub const BERRY: Self = Self { mirror: 0.05, rough: 0.12, rough_along: 0.12, ..Self::MATT };
}
