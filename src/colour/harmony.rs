//! How the hues of a palette lie to each other, in words: a description, never a judgement.
//!
//! Distance to hue templates: D. Cohen-Or, O. Sorkine, R. Gal, T. Leyvand, Y.-Q. Xu, "Color Harmonization", ACM TOG
//! 25(3):624-630, 2006, after Matsuda (1995); sector widths from memory, the same in two public programs. Ours is OKLCH hue
//! instead of HSV, and a mean in degrees instead of a sum. Nearly every palette of two or three colours fits some template, and
//! templates were found to predict little of what people like, so nothing is marked by it.

use super::{NEUTRAL_CHROMA, Rgb};

/// How the hues lie.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HueTemplate {
    /// Whites, greys and black alone.
    Neutral,
    /// One hue.
    One,
    /// Two hues across the circle.
    Opposite,
    /// Hues side by side.
    Neighbouring,
    /// A hue and a group at a right angle to it.
    GroupAndSide,
    /// A group and one hue across from it.
    GroupAndOpposite,
    /// Two groups across from each other.
    TwoGroups,
    /// Half of the circle.
    Half,
}

/// A sector of the circle of hues: middle and width, degrees.
type Sector = (f64, f64);

impl HueTemplate {
    /// The templates, the narrowest first.
    const TEMPLATES: [(Self, &[Sector]); 7] = [
        (Self::One, &[(0.0, 18.0)]),
        (Self::Opposite, &[(0.0, 18.0), (180.0, 18.0)]),
        (Self::Neighbouring, &[(0.0, 93.6)]),
        (Self::GroupAndSide, &[(0.0, 18.0), (90.0, 79.2)]),
        (Self::GroupAndOpposite, &[(0.0, 93.6), (180.0, 18.0)]),
        (Self::TwoGroups, &[(0.0, 93.6), (180.0, 93.6)]),
        (Self::Half, &[(0.0, 180.0)]),
    ];

    /// The words for it.
    pub fn words(self) -> &'static str {
        match self {
            Self::Neutral => "neutral",
            Self::One => "one colour family",
            Self::Opposite => "contrasting colours",
            Self::Neighbouring => "neighbours on the colour wheel",
            Self::GroupAndSide | Self::GroupAndOpposite | Self::TwoGroups => "two colour families",
            Self::Half => "many colours",
        }
    }
}

/// A palette in words and figures.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PaletteWords {
    /// The template that describes it best.
    pub hues: HueTemplate,
    /// Mean distance of its colours from that template, degrees, weighed by area and chroma.
    pub distance_deg: f64,
    /// From its darkest to its lightest, OKLab lightness.
    pub lightness_span: f64,
    /// Whether every colour with a hue is a pastel, and there is one.
    pub is_pastel: bool,
}

impl PaletteWords {
    /// Degrees within which a template describes a palette. Our choice.
    const FITS_DEG: f64 = 5.0;
    /// Degrees from which no template says anything. Our choice, a quarter of a right angle.
    const MIXED_DEG: f64 = 22.5;

    /// `neighbours on the colour wheel, all pastel`.
    pub fn words(&self) -> String {
        let hues = if self.distance_deg > Self::MIXED_DEG { "mixed colours" } else { self.hues.words() };
        if self.is_pastel { format!("{hues}, all pastel") } else { hues.to_owned() }
    }
}

/// The palette of these colours, each with its share of what is seen (any unit).
pub fn palette_words(colours: &[(Rgb, f64)]) -> PaletteWords {
    let all: Vec<([f64; 3], f64)> = colours.iter().map(|(c, area)| (c.oklch(), area.max(0.0))).collect();
    let hued: Vec<(f64, f64)> =
        all.iter().filter(|(c, _)| c[1] >= NEUTRAL_CHROMA).map(|(c, area)| (c[2], c[1] * area)).collect();
    let lightness = || all.iter().map(|(c, _)| c[0]);
    let span = lightness().fold(f64::MIN, f64::max) - lightness().fold(f64::MAX, f64::min);
    let (hues, distance_deg) = best_template(&hued);
    PaletteWords {
        hues,
        distance_deg,
        lightness_span: if all.is_empty() { 0.0 } else { span },
        is_pastel: !hued.is_empty() && colours.iter().all(|(c, _)| is_pastel(*c) || c.is_neutral()),
    }
}

/// Whether a colour is a pastel: light and softly coloured. Our rule; it takes the very pale, pale and very light names of
/// ISCC-NBS, 20 of 26.
pub fn is_pastel(colour: Rgb) -> bool {
    let [l, chroma, _] = colour.oklch();
    l >= 0.80 && (NEUTRAL_CHROMA..=0.10).contains(&chroma)
}

/// How a bloom's colour lies to the dress.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Relation {
    /// One of the two is white, grey or black: any hue goes beside it.
    Neutral,
    /// Within 9 degrees, the sector of one hue.
    OneHue,
    /// Within 30 degrees.
    Neighbouring,
    /// Within 30 degrees of straight across.
    Opposite,
    /// Anything between.
    Apart,
}

impl Relation {
    /// The words for machines.
    pub fn id(self) -> &'static str {
        match self {
            Self::Neutral => "neutral",
            Self::OneHue => "one hue",
            Self::Neighbouring => "neighbouring hue",
            Self::Opposite => "opposite hue",
            Self::Apart => "another hue",
        }
    }

    /// What stands on screen.
    pub fn words(self) -> &'static str {
        match self {
            Self::Neutral => "neutral, always safe",
            Self::OneHue => "same colour family",
            Self::Neighbouring => "neighbouring colour",
            Self::Opposite => "contrast",
            Self::Apart => "another colour",
        }
    }
}

/// How one colour's hue lies to another's. Steps of 30 degrees as colour wheels have them: common practice.
pub fn relation(one: Rgb, other: Rgb) -> Relation {
    let apart = degrees_apart(one.oklch()[2], other.oklch()[2]);
    match apart {
        _ if one.is_neutral() || other.is_neutral() => Relation::Neutral,
        d if d <= 9.0 => Relation::OneHue,
        d if d <= 30.0 => Relation::Neighbouring,
        d if d >= 150.0 => Relation::Opposite,
        _ => Relation::Apart,
    }
}

/// The narrowest template that fits, else the one that comes nearest, with its distance. Hues in degrees with weights.
fn best_template(hued: &[(f64, f64)]) -> (HueTemplate, f64) {
    if hued.iter().map(|h| h.1).sum::<f64>() <= 0.0 {
        return (HueTemplate::Neutral, 0.0);
    }
    let measured = HueTemplate::TEMPLATES.map(|(hues, sectors)| (hues, template_distance(hued, sectors)));
    let fits = measured.iter().find(|(_, d)| *d <= PaletteWords::FITS_DEG);
    let nearest = || measured.iter().min_by(|a, b| a.1.total_cmp(&b.1));
    fits.or_else(nearest).copied().unwrap_or((HueTemplate::Neutral, 0.0))
}

/// The least mean distance in degrees over all turns of a template by whole degrees.
fn template_distance(hued: &[(f64, f64)], sectors: &[Sector]) -> f64 {
    let weight: f64 = hued.iter().map(|h| h.1).sum();
    let outside = |hue: f64, turn: f64| {
        let to_sector = |(middle, width): &Sector| (degrees_apart(hue, middle + turn) - width / 2.0).max(0.0);
        sectors.iter().map(to_sector).fold(f64::MAX, f64::min)
    };
    let mean = |turn: f64| hued.iter().map(|(hue, w)| w * outside(*hue, turn)).sum::<f64>() / weight;
    (0..360).map(|turn| mean(f64::from(turn))).fold(f64::MAX, f64::min)
}

/// Between two hues, 0 to 180 degrees.
fn degrees_apart(one: f64, other: f64) -> f64 {
    let d = (one - other).rem_euclid(360.0);
    d.min(360.0 - d)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_for_palettes_a_florist_knows() {
        let words = |hexes: &[u32]| {
            let colours: Vec<(Rgb, f64)> = hexes.iter().map(|&h| (Rgb::hex(h), 1.0)).collect();
            palette_words(&colours).words()
        };
        assert_eq!(words(&[0xffffff, 0xc0c0c0]), "neutral");
        assert_eq!(words(&[0xf4c2c2, 0xe8a0a0, 0xc97c7c]), "one colour family");
        assert_eq!(words(&[0xf4c2c2, 0xffffff]), "one colour family, all pastel");
        assert_eq!(words(&[]), "neutral");
    }

    #[test]
    fn a_bloom_lies_to_the_dress_by_its_hue() {
        let navy = Rgb::hex(0x000080);
        assert_eq!(relation(navy, Rgb::hex(0xffffff)), Relation::Neutral);
        assert_eq!(relation(navy, Rgb::hex(0x0000ff)), Relation::OneHue);
        assert_eq!(relation(navy, Rgb::hex(0xf5d000)), Relation::Opposite);
        assert_eq!(relation(Rgb::hex(0xff7f50), Rgb::hex(0xd2042d)), Relation::Neighbouring);
        assert_eq!(relation(navy, Rgb::hex(0xd2042d)), Relation::Apart);
    }

    /// A hue whose angle is no number never comes from eight bits, and degrees wrap.
    #[test]
    fn degrees_wrap() {
        assert_eq!((degrees_apart(350.0, 10.0), degrees_apart(10.0, 190.0)), (20.0, 180.0));
    }
}
