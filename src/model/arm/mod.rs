//! Forearm, wrist and hand as one surface, lying at ease with its back up.
//!
//! Everything is scaled from the girth of the wrist. Under the piece the section is that of [`WristSection`], on which the rest of the
//! program reckons; the hand is as broad as women's hands are for such a girth (hand breadth 78 mm at a wrist of 154 mm round: ANSUR II,
//! Gordon et al., Natick TR-15/007, 2014; for men the same ratio gives 89 mm, measured 88). The lengths of the bones, and all that is soft,
//! are our choice, by eye and from memory.
//!
//! Space: that of [`crate::model`]; the skin under the middle of the piece is at z = 0. Knows nothing of bands, ribbons or flowers.

mod bones;
mod field;
mod nail;
mod skin;
mod surface;

use crate::geometry::WristSection;
use crate::light::{Mesh, Vec2, Vec3};
use crate::piece::{Side, Skin, Wrist};

pub(super) use bones::ease;
pub(super) use surface::gradient;

use bones::Bones;

/// An arm of this size, this side, with the piece this far from its crease.
#[derive(Clone, Debug)]
pub struct ArmSurface {
    bones: Bones,
    /// Millimetres per millimetre of the model arm.
    scale: f32,
    /// From the middle of the piece to the crease, toward the hand, mm.
    crease_mm: f32,
    /// -1 for a right arm.
    mirror: f32,
}

/// How far from the crease a piece may sit, mm; what lies beyond is brought to the nearest.
const OFFSETS_MM: (f64, f64) = (-20.0, 120.0);

/// Steps and aim, mm, of the search for the skin along a line.
const MOST_STEPS: u32 = 80;
const NEAR_MM: f32 = 0.02;

impl ArmSurface {
    /// The arm with this wrist, its crease `offset_mm` toward the hand from the middle of the piece. Girths no wrist can have are brought
    /// to the nearest that is taken.
    pub fn new(wrist: &Wrist, offset_mm: f64) -> Self {
        let girth = wrist.girth_mm();
        let girth = if girth.is_finite() { girth } else { Wrist::USUAL_GIRTH_MM };
        let girth = girth.clamp(*Wrist::GIRTHS_MM.start(), *Wrist::GIRTHS_MM.end());
        let offset = if offset_mm.is_finite() { offset_mm.clamp(OFFSETS_MM.0, OFFSETS_MM.1) } else { 0.0 };
        let scale = (girth / Wrist::USUAL_GIRTH_MM) as f32;
        let section = WristSection::new(Wrist::USUAL_GIRTH_MM, Wrist::FLATNESS);
        let half = [section.half_width() as f32, section.half_depth() as f32];
        let mirror = match wrist.side {
            Side::Left => 1.0,
            Side::Right => -1.0,
        };
        let crease_mm = offset as f32;
        let mut arm = Self { bones: Bones::new(half, crease_mm / scale, girth as f32), scale, crease_mm, mirror: 1.0 };
        for _ in 0..3 {
            // The heads of the bones stand out of the section where it is measured.
            arm.bones.shrink_wrist(girth as f32 / arm.girth_mm(0.0));
        }
        arm.mirror = mirror;
        arm
    }

    /// Millimetres from the skin, below nought within; near the skin true to some hundredths, farther off a guess that is not too large.
    pub fn distance_mm(&self, place: Vec3) -> f32 {
        field::distance(&self.bones, self.in_model(place)) * self.scale
    }

    /// Away from the arm at this place, of length 1.
    pub fn normal(&self, place: Vec3) -> Vec3 {
        gradient(place, 0.3 * self.scale, |p| self.distance_mm(p))
    }

    /// How high the skin is at this place seen from above, mm; nothing beside the arm.
    pub fn top_mm(&self, x: f32, y: f32) -> Option<f32> {
        let mut z = 45.0 * self.scale;
        let lowest = self.lowest_mm();
        for _ in 0..MOST_STEPS {
            let away = self.distance_mm(Vec3::new(x, y, z));
            if away < NEAR_MM {
                return Some(z);
            }
            z -= (away * 0.9).max(NEAR_MM);
            if z < lowest {
                return None;
            }
        }
        None
    }

    /// Points all round the arm in the plane at `y`, so many and `off` mm off the skin, evenly turned about the middle of the section,
    /// from the side at +x over the top.
    pub fn ring(&self, y: f32, off: f32, n_points: usize) -> Vec<Vec3> {
        let middle = self.middle(y);
        let turn = |i: usize| i as f32 / n_points.max(1) as f32 * std::f32::consts::TAU;
        (0..n_points)
            .map(|i| {
                let (sine, cosine) = libm::sincosf(turn(i));
                let way = Vec3::new(cosine, 0.0, sine);
                middle + way * self.reach(middle, way, off)
            })
            .collect()
    }

    /// The middle of the arm under the piece, and how far from it a stiff band of this half width goes round, `off` mm off the skin: so many
    /// radii from the side at +x over the top.
    pub fn radii_mm(&self, half_width: f32, off: f32, n_radii: usize) -> (Vec3, Vec<f32>) {
        let middle = self.middle(0.0);
        let radius = |i: usize| {
            let (sine, cosine) = libm::sincosf(i as f32 / n_radii.max(1) as f32 * std::f32::consts::TAU);
            let way = Vec3::new(cosine, 0.0, sine);
            let at = |along: f32| self.reach(middle + Vec3::Y * along, way, off);
            [-half_width, -0.5 * half_width, 0.0, 0.5 * half_width, half_width].map(at).into_iter().fold(0.0, f32::max)
        };
        (middle, (0..n_radii).map(radius).collect())
    }

    /// How far round the arm is in the plane at `y`, mm.
    pub fn girth_mm(&self, y: f32) -> f32 {
        let ring = self.ring(y, 0.0, 160);
        (0..ring.len()).map(|i| ring[i].distance(ring[(i + 1) % ring.len()])).sum()
    }

    /// The lowest of the arm under the wrist, mm: where it lies on something.
    pub fn lowest_mm(&self) -> f32 {
        (bones::TABLE_Z - 0.4) * self.scale
    }

    /// How far the arm goes from the middle of the piece: to the tips of the fingers, and to where it is cut off toward the elbow, mm.
    pub fn ends_mm(&self) -> [f32; 2] {
        [bones::Y_RANGE.0, bones::Y_RANGE.1].map(|y| y * self.scale - self.crease_mm)
    }

    /// Its surface in this tone, in cells of so many mm on the hand and larger ones on the forearm.
    pub fn mesh(&self, skin: Skin, cell_mm: f32) -> Mesh {
        let cell = if cell_mm.is_finite() { cell_mm.clamp(0.4, 8.0) } else { 1.2 } / self.scale;
        let grid = surface::Cells::of(bones::BOX, cell, bones::Y_COARSE);
        let (points, triangles) = grid.surface(|p| field::distance(&self.bones, p));
        let normals: Vec<Vec3> =
            points.iter().map(|p| gradient(*p, 0.3, |q| field::distance(&self.bones, q))).collect();
        let look = skin::SkinLook::of(skin);
        let tints = points.iter().zip(&normals).map(|(p, n)| look.tint(&self.bones, *p, *n)).collect();
        let mut mesh = Mesh {
            flat: points.iter().map(|p| laid_flat(*p)).collect(),
            tangents: normals.iter().map(|n| (Vec3::Y - *n * n.y).normalize_or_zero()).collect(),
            kinds: vec![0; triangles.len()],
            materials: vec![look.material()],
            points,
            normals,
            tints,
            triangles,
        };
        for digit in &self.bones.digits {
            mesh.append(&nail::nail(&self.bones, digit, &look));
        }
        for flat in &mut mesh.flat {
            *flat *= self.scale;
        }
        self.to_space(mesh)
    }

    fn in_model(&self, place: Vec3) -> Vec3 {
        Vec3::new(place.x * self.mirror, place.y + self.crease_mm, place.z) / self.scale
    }

    fn to_space(&self, mut mesh: Mesh) -> Mesh {
        for point in &mut mesh.points {
            let scaled = *point * self.scale;
            *point = Vec3::new(scaled.x * self.mirror, scaled.y - self.crease_mm, scaled.z);
        }
        if self.mirror < 0.0 {
            for direction in mesh.normals.iter_mut().chain(&mut mesh.tangents) {
                direction.x = -direction.x;
            }
            for triangle in &mut mesh.triangles {
                triangle.swap(1, 2);
            }
        }
        mesh
    }

    fn middle(&self, y: f32) -> Vec3 {
        let section = self.bones.section((y + self.crease_mm) / self.scale);
        Vec3::new(section.middle_x * self.scale * self.mirror, y, section.middle_z * self.scale)
    }

    /// How far along `way` from a place within the arm it is to `off` mm off the skin.
    fn reach(&self, from: Vec3, way: Vec3, off: f32) -> f32 {
        let (mut near, mut far) = (0.0, 120.0 * self.scale);
        for _ in 0..40 {
            let half = f32::midpoint(near, far);
            if self.distance_mm(from + way * half) < off { near = half } else { far = half }
        }
        near
    }
}

/// The skin laid flat for its fine lines: across over the back to both sides, along the arm. Stretched here and there, which nobody sees.
fn laid_flat(p: Vec3) -> Vec2 {
    Vec2::new(p.x - 0.8 * p.z * p.x / (p.x.abs() + 6.0), p.y + 0.2 * p.z)
}

#[cfg(test)]
mod tests;
