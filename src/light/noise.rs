//! Smooth noise by place: the same place has the same value on every computer.

use super::Vec3;

/// A value of -1 to 1 that changes smoothly over one unit.
pub fn noise(place: Vec3) -> f32 {
    let cell = place.map(floor);
    let inside = place - cell;
    let ease = inside * inside * inside * (inside * (inside * 6.0 - 15.0) + 10.0);
    let corner = |dx: i32, dy: i32, dz: i32| value(cell.x as i32 + dx, cell.y as i32 + dy, cell.z as i32 + dz);
    let mix = |a: f32, b: f32, t: f32| a + (b - a) * t;
    let edge = |dy: i32, dz: i32| mix(corner(0, dy, dz), corner(1, dy, dz), ease.x);
    let face = |dz: i32| mix(edge(0, dz), edge(1, dz), ease.y);
    mix(face(0), face(1), ease.z)
}

/// Noise of ever finer grain, each half as strong as the one before; about -1 to 1.
pub fn fbm(place: Vec3, octaves: u32) -> f32 {
    let (mut sum, mut share, mut at) = (0.0, 0.5, place);
    for _ in 0..octaves {
        sum += share * noise(at);
        share *= 0.5;
        at = at * 2.03 + Vec3::new(11.3, 7.7, 5.1);
    }
    sum
}

/// The whole number below; quicker than the library's, which has to mind numbers without fractions.
pub(super) fn floor(x: f32) -> f32 {
    let whole = x as i32 as f32;
    if whole > x { whole - 1.0 } else { whole }
}

fn value(x: i32, y: i32, z: i32) -> f32 {
    let mut h = (x as u32).wrapping_mul(0x8da6_b343)
        ^ (y as u32).wrapping_mul(0xd816_3841)
        ^ (z as u32).wrapping_mul(0xcb1a_b31f);
    h ^= h >> 15;
    h = h.wrapping_mul(0x2c1b_3c6d);
    h ^= h >> 12;
    h = h.wrapping_mul(0x297a_2d39);
    h ^= h >> 15;
    h as f32 / u32::MAX as f32 * 2.0 - 1.0
}
