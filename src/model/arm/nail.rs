//! A nail: a curved sheet in its bed, its sides and root under the skin, its end free. Millimetres of the model arm.

use super::bones::{Bones, Digit};
use super::field::{self, NAIL, ROOT_BOW, nail_root};
use super::skin::SkinLook;
use crate::light::{Mesh, MeshGrid, Vec3};

/// How far the nail stands over its bed in the middle, mm.
const LIFT_MM: f32 = 0.34;

/// The nail of one finger.
pub(super) fn nail(bones: &Bones, digit: &Digit, look: &SkinLook) -> Mesh {
    let at = |u: f32, v: f32| place(bones, digit, 1.0 - 2.0 * u, v);
    Mesh::of_grid(MeshGrid::sheet(14, 20), look.nail_material(), at, |u, v| look.nail_tint(v, 1.0 - 2.0 * u))
}

/// The place at `aside` of its half width, -1 to 1, and `along` of its length.
fn place(bones: &Bones, digit: &Digit, aside: f32, along: f32) -> Vec3 {
    let (r, way, back) = (digit.radii[3], digit.ways[2], digit.backs[2]);
    // The end is cut in a bow, the root is round.
    let a2 = aside * aside;
    let far = along * (1.0 - 0.17 * a2 * along) + ROOT_BOW * a2 * a2 * (1.0 - along) * (1.0 - along);
    let axis = nail_root(digit) + way * (far * r * NAIL.1);
    let sine = aside * (NAIL.0 + 0.03);
    let out = back * (1.0 - sine * sine).sqrt() + back.cross(way) * sine;
    let skin = reach(bones, axis, out, 1.6 * r);
    let sunk = 0.55 * a2 * a2 + 0.5 * (1.0 - (along / 0.10).min(1.0));
    // Toward its end it runs on straighter than the tip of the finger, which falls away below it.
    let own = r * (1.0 - 0.11 * along * along - 0.03 * a2);
    axis + out * if along > 0.45 { (skin + LIFT_MM - sunk).max(own) } else { skin + LIFT_MM - sunk }
}

/// How far it is to the skin from a place within.
fn reach(bones: &Bones, from: Vec3, way: Vec3, most: f32) -> f32 {
    let (mut near, mut far) = (0.0, most);
    for _ in 0..24 {
        let half = f32::midpoint(near, far);
        if field::distance(bones, from + way * half) < 0.0 { near = half } else { far = half }
    }
    near
}
