//! How colours look to the one man in twelve and one woman in two hundred who tell red and green apart badly, and to the
//! few who do so with blue and yellow.
//!
//! Matrices of Machado, Oliveira and Fernandes (2009) on linear sRGB; between their steps of severity a straight line. For
//! blue cones the authors call it an approximation. The shares of people are common knowledge, from memory.

use super::Rgb;
use super::light::{Matrix, byte_near_light, light_of_byte, times};
use super::vision_table::{DEUTAN, PROTAN, TRITAN};

/// Which cones of the eye are weak or missing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Vision {
    /// Red cones: red looks dark, red and green run together.
    Protan,
    /// Green cones, the most frequent: red and green run together.
    Deutan,
    /// Blue cones, rare: blue and green, yellow and pink run together.
    Tritan,
}

impl Vision {
    /// All three.
    pub const ALL: [Self; 3] = [Self::Protan, Self::Deutan, Self::Tritan];

    /// The word doctors use.
    pub fn word(self) -> &'static str {
        match self {
            Self::Protan => "protan",
            Self::Deutan => "deutan",
            Self::Tritan => "tritan",
        }
    }

    /// Whose eyes these are, for a sentence: "hard to tell apart for ...".
    pub fn whose(self) -> &'static str {
        match self {
            Self::Protan => "red-blind eyes (protan)",
            Self::Deutan => "green-blind eyes (deutan)",
            Self::Tritan => "blue-blind eyes (tritan)",
        }
    }

    fn steps(self) -> &'static [Matrix; 11] {
        match self {
            Self::Protan => &PROTAN,
            Self::Deutan => &DEUTAN,
            Self::Tritan => &TRITAN,
        }
    }
}

/// A pair of eyes to look through.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Eyes {
    matrix: Matrix,
}

impl Eyes {
    /// Eyes of this kind; `severity` from 0 (as most people see) to 1 (the cones are missing), else the nearer end.
    pub fn new(vision: Vision, severity: f64) -> Self {
        let steps = vision.steps();
        let at = if severity.is_nan() { 0.0 } else { severity.clamp(0.0, 1.0) * 10.0 };
        let below = (0..10).rev().find(|&k| f64::from(k) <= at).unwrap_or(0);
        let part = at - f64::from(below);
        let below = usize::try_from(below).unwrap_or(0);
        let (from, to) = (&steps[below], &steps[below + 1]);
        let cell = |r: usize, c: usize| from[r][c] + (to[r][c] - from[r][c]) * part;
        Self { matrix: [0, 1, 2].map(|r| [0, 1, 2].map(|c| cell(r, c))) }
    }

    /// The rows that work on linear red, green, blue.
    pub fn matrix(&self) -> [[f64; 3]; 3] {
        self.matrix
    }

    /// A colour as these eyes see it.
    pub fn see(&self, colour: Rgb) -> Rgb {
        Rgb::from_linear(self.light(colour.linear()))
    }

    /// A whole picture as these eyes see it: straight RGBA, 8 bits a channel, four bytes a pixel. Alpha stays as it is, and
    /// what is left over at the end is not touched.
    pub fn see_picture(&self, rgba: &mut [u8]) {
        for pixel in rgba.chunks_exact_mut(4) {
            let seen = self.light([0, 1, 2].map(|i| light_of_byte(pixel[i])));
            for (channel, light) in pixel.iter_mut().zip(seen) {
                *channel = byte_near_light(light);
            }
        }
    }

    fn light(&self, light: [f64; 3]) -> [f64; 3] {
        times(&self.matrix, light)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn at_severity_zero_everything_stays_and_greys_always_do() {
        for vision in Vision::ALL {
            for hex in [0xd2042d, 0x046307, 0x000080, 0xffffff] {
                let colour = Rgb::hex(hex);
                assert_eq!(Eyes::new(vision, 0.0).see(colour), colour);
            }
            for severity in [0.33, 1.0, 7.0, f64::NAN, -1.0] {
                assert_eq!(Eyes::new(vision, severity).see(Rgb::hex(0x808080)), Rgb::hex(0x808080), "{severity}");
            }
        }
    }

    #[test]
    fn a_picture_is_seen_as_its_colours_are_and_alpha_stays() {
        let eyes = Eyes::new(Vision::Deutan, 1.0);
        let mut picture = [210, 4, 45, 255, 4, 99, 7, 128, 9];
        eyes.see_picture(&mut picture);
        let (red, green) = (eyes.see(Rgb::hex(0xd2042d)), eyes.see(Rgb::hex(0x046307)));
        assert_eq!(picture, [red.r, red.g, red.b, 255, green.r, green.g, green.b, 128, 9]);
    }
}
