//! Published names of colours, for machines: adjective and hue, as `light yellowish pink`. People read [`super::everyday_name`].
//!
//! The nearest of the 267 ISCC-NBS names by CIEDE2000 (the table names its source). Their middles come from painted chips
//! and are duller than a screen, and their hue words are not words of fashion; a name that is far off is given as "about".
//! Whoever knows a better word keeps the word beside the swatch.

use std::fmt;
use std::sync::LazyLock;

use super::name_table::NAMES;
use super::{Lab, Rgb, lab_difference};

/// The name of a colour, and how far the middle of that name is from it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ColourName {
    /// `deep red`.
    pub words: &'static str,
    /// CIEDE2000 to the middle of the name.
    pub delta_e00: f64,
}

impl ColourName {
    /// CIEDE2000 from which a name is only about right: our choice, a little above the distance between neighbouring
    /// middles.
    const ABOUT_FROM: f64 = 6.0;

    /// Whether the name fits only roughly.
    pub fn is_about(&self) -> bool {
        self.delta_e00 > Self::ABOUT_FROM
    }
}

impl fmt::Display for ColourName {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let about = if self.is_about() { "about " } else { "" };
        write!(f, "{about}{}", self.words)
    }
}

/// The name whose middle is nearest. 267 comparisons; not for every pixel of a picture.
pub fn name_of(colour: Rgb) -> ColourName {
    static MIDDLES: LazyLock<Vec<(Lab, &'static str)>> =
        LazyLock::new(|| NAMES.iter().map(|&(hex, words)| (Rgb::hex(hex).lab(), words)).collect());
    let sought = colour.lab();
    let named = MIDDLES.iter().map(|&(lab, words)| ColourName { words, delta_e00: lab_difference(sought, lab) });
    // The table is never empty; without it a colour would still be a colour.
    named
        .min_by(|a, b| a.delta_e00.total_cmp(&b.delta_e00))
        .unwrap_or(ColourName { words: "colour", delta_e00: f64::MAX })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_middle_has_its_own_name() {
        for (hex, words) in NAMES {
            let name = name_of(Rgb::hex(hex));
            assert!(name.delta_e00 < 1e-9, "{words}");
            assert_eq!(name.words, words);
        }
    }

    #[test]
    fn a_name_that_is_far_off_says_about() {
        assert_eq!(name_of(Rgb::hex(0x000080)).to_string(), "about vivid purplish blue");
        assert_eq!(name_of(Rgb::hex(0x800020)).to_string(), "deep red");
    }
}
