//! Colours of surfaces: what share of the light they give back, per colour, in linear light.

use super::curve::pow;
use crate::colour::Rgb;
use crate::light::Vec3;

/// The brightest that anything gives back: fresh snow gives back a little more, paper a little less.
const BRIGHTEST: f32 = 0.9;

/// A stock colour as a share of light (IEC 61966-2-1).
pub(super) fn linear(colour: Rgb) -> Vec3 {
    let one = |byte: u8| {
        let v = f32::from(byte) / 255.0;
        if v <= 0.04045 { v / 12.92 } else { pow((v + 0.055) / 1.055, 2.4) }
    };
    Vec3::new(one(colour.r), one(colour.g), one(colour.b)) * BRIGHTEST
}

/// Deeper and fuller by `by`, 0 to 1.
pub(super) fn deeper(tint: Vec3, by: f32) -> Vec3 {
    let power = 1.0 + 0.9 * by;
    Vec3::new(pow(tint.x, power), pow(tint.y, power), pow(tint.z, power)) * (1.0 - 0.25 * by)
}

/// Toward white by `by`, 0 to 1.
pub(super) fn paler(tint: Vec3, by: f32) -> Vec3 {
    tint.lerp(Vec3::splat(BRIGHTEST * 0.97), by)
}

/// From a number as `0xRRGGBB`.
pub(super) fn of_hex(rrggbb: u32) -> Vec3 {
    linear(Rgb::hex(rrggbb))
}

/// Green of stems and calyx.
pub(super) fn stem_green() -> Vec3 {
    of_hex(0x6f8f4a)
}
