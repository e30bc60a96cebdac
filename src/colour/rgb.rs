//! One colour: straight 8-bit sRGB as it is stored and shown, and OKLab for mixing and shading.
//!
//! OKLab as published by B. Ottosson, "A perceptual color space for image processing" (2020), through the crate
//! `palette`, in f64.

use palette::{FromColor, Oklab, Srgb};

/// A colour without transparency, sRGB, 8 bits a channel.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[expect(missing_docs, reason = "the channels are the channels")]
pub struct Rgb {
    pub r: u8,
    pub g: u8,
    pub b: u8,
}

impl Rgb {
    /// From a number written as `0xRRGGBB`.
    pub const fn hex(rrggbb: u32) -> Self {
        let [_, r, g, b] = rrggbb.to_be_bytes();
        Self { r, g, b }
    }

    /// Reads `#rgb` and `#rrggbb`, with or without the `#`.
    pub fn parse(text: &str) -> Option<Self> {
        let digits = text.trim().trim_start_matches('#');
        let plain = digits.bytes().all(|b| b.is_ascii_hexdigit());
        let number = u32::from_str_radix(digits, 16).ok().filter(|_| plain)?;
        match digits.len() {
            6 => Some(Self::hex(number)),
            3 => {
                let wide = |n: u32| (n & 0xf) * 0x11;
                Some(Self::hex(wide(number >> 8) << 16 | wide(number >> 4) << 8 | wide(number)))
            }
            _ => None,
        }
    }

    /// `#rrggbb`.
    pub fn text(self) -> String {
        format!("#{:02x}{:02x}{:02x}", self.r, self.g, self.b)
    }

    /// OKLab lightness, a, b.
    pub fn oklab(self) -> [f64; 3] {
        let lab = Oklab::from_color(Srgb::new(self.r, self.g, self.b).into_format::<f64>());
        [lab.l, lab.a, lab.b]
    }

    /// OKLab lightness (0 to 1), chroma, and hue in degrees from 0 to 360. Below [`NEUTRAL_CHROMA`] the hue says nothing.
    pub fn oklch(self) -> [f64; 3] {
        oklch_of(self.oklab())
    }

    /// Whether it has too little chroma to speak of a hue.
    pub fn is_neutral(self) -> bool {
        self.oklch()[1] < NEUTRAL_CHROMA
    }

    /// The nearest colour a screen can show.
    pub fn from_oklab([l, a, b]: [f64; 3]) -> Self {
        let rgb: Srgb<u8> = Srgb::from_color(Oklab::new(l, a, b)).into_format();
        Self { r: rgb.red, g: rgb.green, b: rgb.blue }
    }

    /// Lighter by `by` of OKLab lightness (darker when negative), chroma kept.
    pub fn lighter(self, by: f64) -> Self {
        let [l, a, b] = self.oklab();
        Self::from_oklab([(l + by).clamp(0.0, 1.0), a, b])
    }

    /// Chroma times `times`.
    pub fn richer(self, times: f64) -> Self {
        let [l, a, b] = self.oklab();
        Self::from_oklab([l, a * times, b * times])
    }

    /// The OKLab mixture: this at 0, `other` at 1.
    pub fn mixed(self, other: Self, part: f64) -> Self {
        let (from, to, part) = (self.oklab(), other.oklab(), part.clamp(0.0, 1.0));
        Self::from_oklab([0, 1, 2].map(|i| from[i] + (to[i] - from[i]) * part))
    }
}

/// OKLab chroma below which a colour is white, grey or black to us: our choice, the least chroma among the pale centres of
/// the ISCC-NBS names.
pub const NEUTRAL_CHROMA: f64 = 0.02;

/// Lightness, chroma and hue in degrees, of OKLab lightness, a, b.
pub(super) fn oklch_of([l, a, b]: [f64; 3]) -> [f64; 3] {
    [l, a.hypot(b), b.atan2(a).to_degrees().rem_euclid(360.0)]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn hex_reads_short_and_long_and_refuses_the_rest() {
        assert_eq!(Rgb::parse("#800020"), Some(Rgb { r: 128, g: 0, b: 32 }));
        assert_eq!(Rgb::parse("f0a"), Some(Rgb { r: 255, g: 0, b: 170 }));
        for text in ["", "#12345", "#gggggg", "+12345", "#1234567"] {
            assert_eq!(Rgb::parse(text), None, "{text}");
        }
    }

    /// CSS Color Module Level 4, section on OKLab: `oklab(51.975% -0.1403 0.10768)` is `#008000`.
    #[test]
    fn oklab_agrees_with_the_published_pair_for_green() {
        let lab = Rgb::hex(0x008000).oklab();
        for (got, published) in lab.iter().zip([0.51975, -0.1403, 0.10768]) {
            assert!((got - published).abs() < 6e-5, "{lab:?}");
        }
        assert_eq!(Rgb::from_oklab(lab), Rgb::hex(0x008000));
    }
}
