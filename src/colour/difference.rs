//! How different two colours look: CIEDE2000, and lists ranked by it.
//!
//! G. Sharma, W. Wu, E. N. Dalal, "The CIEDE2000 Color-Difference Formula: Implementation Notes, Supplementary Test Data,
//! and Mathematical Observations", Color Research and Application 30(1):21-30, 2005; through the crate `palette` in f64. It
//! is symmetric; 1 is about the least that an eye notices on patches that touch.

use palette::Lab as PaletteLab;
use palette::color_difference::Ciede2000;
use palette::white_point::D65;

use super::Rgb;
use super::light::{WHITE, xyz_of_linear};

/// A colour in CIE L*a*b* under D65, ready to be compared many times.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lab(PaletteLab<D65, f64>);

impl Lab {
    /// From L* (0 to 100), a*, b*.
    pub fn new(l: f64, a: f64, b: f64) -> Self {
        Self(PaletteLab::new(l, a, b))
    }

    /// From XYZ under D65, Y of white 1: CIE 15:2004 with the exact fractions of CSS Color Module Level 4.
    pub fn of_xyz(xyz: [f64; 3]) -> Self {
        const KNEE: f64 = 216.0 / 24_389.0;
        const SLOPE: f64 = 24_389.0 / 27.0;
        let curve = |t: f64| if t > KNEE { t.cbrt() } else { (SLOPE * t + 16.0) / 116.0 };
        let [x, y, z] = [0, 1, 2].map(|i| curve(xyz[i] / WHITE[i]));
        Self::new(116.0 * y - 16.0, 500.0 * (x - y), 200.0 * (y - z))
    }

    /// L*, a*, b*.
    pub fn figures(self) -> [f64; 3] {
        [self.0.l, self.0.a, self.0.b]
    }
}

impl From<Rgb> for Lab {
    fn from(colour: Rgb) -> Self {
        Self::of_xyz(xyz_of_linear(colour.linear()))
    }
}

/// CIEDE2000 between two colours.
pub fn lab_difference(one: Lab, other: Lab) -> f64 {
    one.0.difference(other.0)
}

impl Rgb {
    /// CIE L*a*b* under D65.
    pub fn lab(self) -> Lab {
        Lab::from(self)
    }

    /// CIEDE2000 to another colour: 0 is the same, about 1 the least an eye notices, above 10 clearly another.
    pub fn difference(self, other: Self) -> f64 {
        lab_difference(self.lab(), other.lab())
    }
}

/// How near a difference is, in a word. The steps are our choice: a photo read with a grey card is off by 2 to 5.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Likeness {
    /// Up to 2: side by side an eye hardly tells them apart.
    Same,
    /// Up to 5.
    Close,
    /// Up to 10.
    Near,
    /// Above.
    Different,
}

impl Likeness {
    /// The class of a CIEDE2000 difference.
    pub fn of(delta_e00: f64) -> Self {
        match delta_e00 {
            d if d <= 2.0 => Self::Same,
            d if d <= 5.0 => Self::Close,
            d if d <= 10.0 => Self::Near,
            _ => Self::Different,
        }
    }

    /// The word for machines.
    pub fn id(self) -> &'static str {
        match self {
            Self::Same => "same",
            Self::Close => "close",
            Self::Near => "near",
            Self::Different => "different",
        }
    }

    /// What stands on screen and paper.
    pub fn words(self) -> &'static str {
        match self {
            Self::Same => "match",
            Self::Close => "close",
            Self::Near => "similar",
            Self::Different => "no match",
        }
    }
}

/// One of the colours that were ranked.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ranked<T> {
    /// What was ranked.
    pub what: T,
    /// Its colour.
    pub rgb: Rgb,
    /// CIEDE2000 to the colour that is sought.
    pub delta_e00: f64,
}

/// All of a list, the most like first; what is equally like keeps its order.
pub fn rank<T: Clone>(target: Rgb, list: &[(T, Rgb)]) -> Vec<Ranked<T>> {
    let sought = target.lab();
    let of =
        |(what, rgb): &(T, Rgb)| Ranked { what: what.clone(), rgb: *rgb, delta_e00: lab_difference(sought, rgb.lab()) };
    let mut ranked: Vec<Ranked<T>> = list.iter().map(of).collect();
    ranked.sort_by(|a, b| a.delta_e00.total_cmp(&b.delta_e00));
    ranked
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_list_is_ranked_with_the_most_like_first_and_ties_in_their_order() {
        let list = [("navy", 0x000080), ("red", 0xff0000), ("dark red", 0x8b0000), ("red again", 0xff0000)];
        let list = list.map(|(name, hex)| (name, Rgb::hex(hex)));
        let names: Vec<&str> = rank(Rgb::hex(0xff0000), &list).iter().map(|r| r.what).collect();
        assert_eq!(names, ["red", "red again", "dark red", "navy"]);
        assert!(rank::<u8>(Rgb::hex(0), &[]).is_empty());
    }

    #[test]
    fn likeness_has_its_steps_where_it_says() {
        for (d, word) in
            [(0.0, "same"), (2.0, "same"), (2.1, "close"), (5.0, "close"), (9.9, "near"), (10.1, "different")]
        {
            assert_eq!(Likeness::of(d).id(), word, "{d}");
        }
    }
}
