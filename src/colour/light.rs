//! Between what is stored and what light does: the sRGB transfer function, linear sRGB, CIE XYZ.
//!
//! Transfer: IEC 61966-2-1:1999. Matrices: sRGB primaries with the white D65, as in CSS Color Module Level 4; Y of white
//! is 1. Every mixture of light (averaging, adapting, simulating other eyes) is computed here and never on stored values.

use std::sync::LazyLock;

use palette::convert::FromColorUnclamped;
use palette::{FromColor, LinSrgb, Oklab};

use super::Rgb;
use crate::units::nearest_whole;

/// Light (0 to 1) of a stored channel (0 to 1).
pub fn linear_of(stored: f64) -> f64 {
    if stored <= 0.04045 { stored / 12.92 } else { ((stored + 0.055) / 1.055).powf(2.4) }
}

/// Stored channel (0 to 1) for an amount of light (0 to 1).
pub fn from_linear(light: f64) -> f64 {
    if light <= 0.003_130_8 { light * 12.92 } else { 1.055 * light.powf(1.0 / 2.4) - 0.055 }
}

/// CIE XYZ under D65; Y of white is 1.
pub fn xyz_of(colour: Rgb) -> [f64; 3] {
    xyz_of_linear(colour.linear())
}

impl Rgb {
    /// Light of the three channels, 0 to 1.
    pub fn linear(self) -> [f64; 3] {
        [self.r, self.g, self.b].map(light_of_byte)
    }

    /// The nearest colour a screen can show for this much light.
    pub fn from_linear(light: [f64; 3]) -> Self {
        let [r, g, b] = light.map(byte_of_light);
        Self { r, g, b }
    }
}

/// OKLab of light that may lie outside what a screen shows.
pub(super) fn oklab_of_linear([r, g, b]: [f64; 3]) -> [f64; 3] {
    let lab = Oklab::from_color(LinSrgb::new(r, g, b));
    [lab.l, lab.a, lab.b]
}

/// Light of the channels of an OKLab colour, unclipped.
pub(super) fn linear_of_oklab([l, a, b]: [f64; 3]) -> [f64; 3] {
    let light: LinSrgb<f64> = LinSrgb::from_color_unclamped(Oklab::new(l, a, b));
    [light.red, light.green, light.blue]
}

/// XYZ of the white D65, from its chromaticity 0.3127, 0.3290.
pub(super) const WHITE: [f64; 3] = [0.3127 / 0.3290, 1.0, (1.0 - 0.3127 - 0.3290) / 0.3290];

/// A matrix by rows, to be multiplied with a column.
pub(super) type Matrix = [[f64; 3]; 3];

/// Linear sRGB to XYZ, as CSS Color Module Level 4 gives it. (The crate rounds the white to four digits, which a third digit of
/// a colour difference shows.)
const XYZ_OF_LINEAR: Matrix = [
    [506_752.0 / 1_228_815.0, 87_881.0 / 245_763.0, 12_673.0 / 70_218.0],
    [87_098.0 / 409_605.0, 175_762.0 / 245_763.0, 12_673.0 / 175_545.0],
    [7_918.0 / 409_605.0, 87_881.0 / 737_289.0, 1_001_167.0 / 1_053_270.0],
];

/// Its inverse, from the same place.
const LINEAR_OF_XYZ: Matrix = [
    [12_831.0 / 3_959.0, -329.0 / 214.0, -1_974.0 / 3_959.0],
    [-851_781.0 / 878_810.0, 1_648_619.0 / 878_810.0, 36_519.0 / 878_810.0],
    [705.0 / 12_673.0, -2_585.0 / 12_673.0, 705.0 / 667.0],
];

/// XYZ of light, unclipped.
pub(super) fn xyz_of_linear(light: [f64; 3]) -> [f64; 3] {
    times(&XYZ_OF_LINEAR, light)
}

/// Light of the channels for XYZ, unclipped.
pub(super) fn linear_of_xyz(xyz: [f64; 3]) -> [f64; 3] {
    times(&LINEAR_OF_XYZ, xyz)
}

/// A matrix times a column.
pub(super) fn times(matrix: &Matrix, [x, y, z]: [f64; 3]) -> [f64; 3] {
    matrix.map(|row| row[0] * x + row[1] * y + row[2] * z)
}

/// Light of each of the 256 stored values, so that pictures of millions of pixels need no powers.
static LIGHT: LazyLock<Vec<f64>> = LazyLock::new(|| (0..=255_u8).map(|v| linear_of(f64::from(v) / 255.0)).collect());

/// Light of a stored channel.
pub(super) fn light_of_byte(value: u8) -> f64 {
    LIGHT[usize::from(value)]
}

/// The stored channel nearest to this light; what is not between 0 and 1 is clipped.
pub(super) fn byte_of_light(light: f64) -> u8 {
    let value = nearest_whole(from_linear(light.clamp(0.0, 1.0)) * 255.0);
    u8::try_from(value.clamp(0, 255)).unwrap_or(u8::MAX)
}

/// [`byte_of_light`] by looking it up: for whole pictures, where it may be one value off in one of thousands.
pub(super) fn byte_near_light(light: f64) -> u8 {
    /// Steps of light. At 65,536 a step in the deepest shade is a seventh of one stored value.
    const STEPS: f64 = 65_535.0;
    static BYTES: LazyLock<Vec<u8>> =
        LazyLock::new(|| (0..=65_535_u32).map(|k| byte_of_light(f64::from(k) / STEPS)).collect());
    let at = nearest_whole(light.clamp(0.0, 1.0) * STEPS);
    usize::try_from(at).ok().and_then(|at| BYTES.get(at)).copied().unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_stored_value_comes_back_from_its_light() {
        for value in 0..=255_u8 {
            assert_eq!(byte_of_light(light_of_byte(value)), value);
            assert_eq!(byte_near_light(light_of_byte(value)), value);
        }
        assert_eq!((byte_of_light(-1.0), byte_of_light(2.0), byte_near_light(f64::NAN)), (0, 255, 0));
    }

    #[test]
    fn light_survives_the_way_through_xyz_and_oklab() {
        for light in [[0.2, 0.5, 0.9], [1.2, -0.1, 0.4], [0.0, 0.0, 0.0]] {
            for back in [linear_of_xyz(xyz_of_linear(light)), linear_of_oklab(oklab_of_linear(light))] {
                assert!(back.iter().zip(light).all(|(b, l)| (b - l).abs() < 1e-6), "{light:?} {back:?}");
            }
        }
    }
}
