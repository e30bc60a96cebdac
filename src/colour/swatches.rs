//! Plain swatches to pick a dress colour from, when there is neither fabric nor photo yet.
//!
//! Names are everyday words, and the colours are ours, by eye: no chart of a maker of paint, ink or fabric stands behind
//! them. In the order a person looks: whites, then round the hues from pink to brown, then greys.

use super::Rgb;

/// A swatch: what it is called and how it looks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Swatch {
    /// `dusty pink`.
    pub name: &'static str,
    /// How it looks.
    pub rgb: Rgb,
}

/// All swatches.
pub fn swatches() -> &'static [Swatch] {
    &SWATCHES
}

/// The swatch of this name, or of another word for it; large and small letters are alike.
pub fn swatch_named(name: &str) -> Option<Swatch> {
    let said = name.trim().to_lowercase();
    let name = OTHER_WORDS.iter().find(|(other, _)| *other == said).map_or(said.as_str(), |(_, name)| name);
    SWATCHES.iter().find(|s| s.name == name).copied()
}

/// What else people say for a swatch. Common usage, no source; the cloth in hand decides.
const OTHER_WORDS: [(&str, &str); 8] = [
    ("burgundy", "wine"),
    ("dusty rose", "dusty pink"),
    ("emerald", "bright green"),
    ("gray", "grey"),
    ("hot pink", "bright pink"),
    ("lavender", "lilac"),
    ("maroon", "wine"),
    ("royal blue", "bright blue"),
];

const fn swatch(name: &'static str, hex: u32) -> Swatch {
    Swatch { name, rgb: Rgb::hex(hex) }
}

const SWATCHES: [Swatch; 36] = [
    swatch("white", 0xf9f8f5),
    swatch("ivory", 0xf5ecd8),
    swatch("cream", 0xf2e2b8),
    swatch("champagne", 0xe5cfae),
    swatch("blush", 0xf0d0ca),
    swatch("pink", 0xeda6b6),
    swatch("dusty pink", 0xc99093),
    swatch("bright pink", 0xdf3d86),
    swatch("coral", 0xef7e66),
    swatch("peach", 0xf6bf98),
    swatch("orange", 0xe27a2b),
    swatch("rust", 0xa5502f),
    swatch("red", 0xc41e2e),
    swatch("dark red", 0x8b1427),
    swatch("wine", 0x571529),
    swatch("plum", 0x5d2b50),
    swatch("purple", 0x67389a),
    swatch("lilac", 0xb79bcf),
    swatch("pale lavender", 0xd8d0ea),
    swatch("pale blue", 0xbcd4e8),
    swatch("dusty blue", 0x8ea5bd),
    swatch("bright blue", 0x2858bd),
    swatch("navy", 0x1c2849),
    swatch("turquoise", 0x2fa8b0),
    swatch("teal", 0x1c6a70),
    swatch("mint", 0xb9e0c9),
    swatch("sage", 0xa3b297),
    swatch("bright green", 0x159257),
    swatch("forest green", 0x1f4630),
    swatch("yellow", 0xf1d458),
    swatch("gold", 0xc5a04a),
    swatch("brown", 0x674431),
    swatch("silver", 0xc6c9cc),
    swatch("grey", 0x83868a),
    swatch("charcoal", 0x3f4247),
    swatch("black", 0x17171a),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_two_swatches_are_hard_to_tell_apart_or_share_a_name() {
        for (i, one) in SWATCHES.iter().enumerate() {
            for other in &SWATCHES[i + 1..] {
                let d = one.rgb.difference(other.rgb);
                assert!(d > 5.0 && one.name != other.name, "{} {}: {d:.1}", one.name, other.name);
            }
        }
    }

    #[test]
    fn a_swatch_is_found_by_its_name() {
        assert_eq!(swatch_named(" Dusty Pink ").map(|s| s.rgb), Some(Rgb::hex(0xc99093)));
        assert_eq!(swatch_named("mauvish"), None);
    }

    #[test]
    fn every_other_word_leads_to_a_swatch_and_is_none_itself() {
        for (other, name) in OTHER_WORDS {
            assert_eq!(swatch_named(other).map(|s| s.name), Some(name));
            assert!(SWATCHES.iter().all(|s| s.name != other), "{other}");
        }
        assert_eq!(swatch_named("Burgundy "), swatch_named("wine"));
    }
}
