//! What to look out for where two colours meet, and the words for it, side by side.
//!
//! Limits are our choice, anchored where published: a difference of about 1 is the least an eye notices, a photo read with
//! a grey card is off by 2 to 5, and 0.02 of OKLab is the least step of CSS gamut mapping.

use super::{Eyes, Rgb, Vision, lab_difference};

/// To be said wherever a colour from a screen or a photo is relied on. Fabrics and petals that match in one light can differ
/// in another (metamerism), fabrics with brightener photograph bluer, blue and lavender flowers pinker (Kodak publication E-73,
/// 1999; W. G. Waters, "Recording the Blues").
pub const CAVEAT: &str = "Screen colours are a guide. Check a real swatch on the dress, under hall lighting.";

/// Something to look out for where two colours meet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum ColourWarning {
    /// From a few steps away the two are one colour.
    ReadsAsOne,
    /// They are as light as each other.
    OnlyColourSeparates,
    /// Eyes without these cones hardly tell them apart, though others do.
    MayMerge(Vision),
    /// A white beside a dress that is ivory, cream or champagne.
    WhiteBesideIvory,
}

impl ColourWarning {
    /// CIEDE2000 below which two colours read as one.
    const ONE_BELOW: f64 = 10.0;
    /// Difference of OKLab lightness below which only colour separates.
    const AS_LIGHT_BELOW: f64 = 0.12;
    /// CIEDE2000 that must be left for other eyes.
    const MERGE_BELOW: f64 = 12.0;

    /// Its short name for machines.
    pub fn id(self) -> &'static str {
        match self {
            Self::ReadsAsOne => "reads-as-one",
            Self::OnlyColourSeparates => "only-colour-separates",
            Self::MayMerge(Vision::Protan) => "may-merge-protan",
            Self::MayMerge(Vision::Deutan) => "may-merge-deutan",
            Self::MayMerge(Vision::Tritan) => "may-merge-tritan",
            Self::WhiteBesideIvory => "white-beside-ivory",
        }
    }

    /// Whether it is about colour-blind eyes: these have a view of their own, so a list need not repeat it in each row.
    pub fn is_about_eyesight(self) -> bool {
        matches!(self, Self::MayMerge(_))
    }

    /// A word or two, for a table.
    pub fn short(self) -> &'static str {
        match self {
            Self::ReadsAsOne => "blends in",
            Self::OnlyColourSeparates => "as light as the dress",
            Self::MayMerge(_) => "hard to see when colour-blind",
            Self::WhiteBesideIvory => "white yellows an ivory dress",
        }
    }

    /// A whole sentence, for the designer.
    pub fn says(self) -> String {
        match self {
            Self::ReadsAsOne => "From a few steps away the two blend into one.".to_owned(),
            Self::OnlyColourSeparates => {
                "Equally light: in dim light or a black-and-white photo it hardly shows.".to_owned()
            }
            Self::MayMerge(vision) => format!("Hard to tell apart for {}.", vision.whose()),
            Self::WhiteBesideIvory => {
                "Pure white can make an ivory dress look yellow. Cream or blush is kinder.".to_owned()
            }
        }
    }
}

impl ColourWarning {
    /// The same for the client, as something that can be done; nothing where it would only worry them.
    pub fn invites(self) -> Option<&'static str> {
        match self {
            Self::ReadsAsOne => Some("Much like the dress; a lighter or a darker ribbon would set it off."),
            Self::OnlyColourSeparates => {
                Some("Same lightness as the dress; a touch of white or of a deep colour lifts it.")
            }
            Self::MayMerge(_) => None,
            Self::WhiteBesideIvory => Some("Cream or blush is kinder to an ivory dress than a clear white."),
        }
    }
}

/// What to look out for where two colours meet, in the order of the list above. The order of the two does not matter.
pub fn warnings(one: Rgb, other: Rgb) -> Vec<ColourWarning> {
    let normal = one.difference(other);
    let steps = (one.oklab()[0] - other.oklab()[0]).abs();
    let merges = |vision: &Vision| {
        let eyes = Eyes::new(*vision, 1.0);
        let seen = lab_difference(eyes.see(one).lab(), eyes.see(other).lab());
        normal >= ColourWarning::MERGE_BELOW && seen < ColourWarning::MERGE_BELOW
    };
    let mut found = Vec::new();
    if normal < ColourWarning::ONE_BELOW {
        found.push(ColourWarning::ReadsAsOne);
    }
    if steps < ColourWarning::AS_LIGHT_BELOW {
        found.push(ColourWarning::OnlyColourSeparates);
    }
    found.extend(Vision::ALL.into_iter().filter(merges).map(ColourWarning::MayMerge));
    found
}

/// What to look out for with a bloom or ribbon of this colour against the dress: [`warnings`], and a white beside an ivory
/// dress, which designers avoid (common practice, told by makers of wedding flowers).
pub fn against_dress(dress: Rgb, bloom: Rgb) -> Vec<ColourWarning> {
    let mut found = warnings(dress, bloom);
    if is_ivory(dress) && is_white(bloom) {
        found.push(ColourWarning::WhiteBesideIvory);
    }
    found
}

/// Light with a little yellow in it: ivory, cream, champagne. Bounds are our choice, in OKLCH.
fn is_ivory(colour: Rgb) -> bool {
    let [l, chroma, hue] = colour.oklch();
    l >= 0.86 && (0.012..=0.08).contains(&chroma) && (50.0..=115.0).contains(&hue)
}

/// Very light and with hardly any hue. Bounds are our choice.
fn is_white(colour: Rgb) -> bool {
    let [l, chroma, _] = colour.oklch();
    l >= 0.95 && chroma < 0.012
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn white_on_white_reads_as_one_and_white_beside_ivory_is_told() {
        let (white, ivory) = (Rgb::hex(0xfbfaf6), Rgb::hex(0xf4ead4));
        assert_eq!(against_dress(white, white), [ColourWarning::ReadsAsOne, ColourWarning::OnlyColourSeparates]);
        assert!(against_dress(ivory, white).contains(&ColourWarning::WhiteBesideIvory));
        assert!(!against_dress(white, ivory).contains(&ColourWarning::WhiteBesideIvory), "ivory beside a white dress");
        assert!(against_dress(Rgb::hex(0x000080), white).is_empty());
    }

    #[test]
    fn every_warning_is_a_sentence_in_words_of_the_house() {
        let mut all =
            vec![ColourWarning::ReadsAsOne, ColourWarning::OnlyColourSeparates, ColourWarning::WhiteBesideIvory];
        all.extend(Vision::ALL.map(ColourWarning::MayMerge));
        for warning in all {
            let says = warning.says();
            assert!(says.ends_with('.') && (30..=90).contains(&says.chars().count()), "{says}");
            assert!(warning.short().chars().count() <= 30, "{warning:?}");
            assert!(!warning.short().is_empty() && warning.id().is_ascii());
            assert!(warning.invites().is_none_or(|says| says.ends_with('.') && !says.contains("warn")), "{warning:?}");
        }
    }
}
