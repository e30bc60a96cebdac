//! What people call a colour: `teal`, `dusty pink`. For screens and papers; the published names (`names.rs`) are for machines.
//!
//! The nearest of the plain swatches and of the further names below, by CIEDE2000. The words are everyday ones and the colours ours, by
//! eye, laid where the swatches leave room: no published colour name is farther than 12 from one of them.

use std::sync::LazyLock;

use super::swatches::swatches;
use super::{Lab, Rgb, lab_difference};

/// The everyday name of the colour, in small letters.
pub fn everyday_name(colour: Rgb) -> &'static str {
    static NAMED: LazyLock<Vec<(Lab, &'static str)>> = LazyLock::new(|| {
        let further = FURTHER.iter().map(|&(name, hex)| (Rgb::hex(hex).lab(), name));
        swatches().iter().map(|s| (s.rgb.lab(), s.name)).chain(further).collect()
    });
    let sought = colour.lab();
    let off = |named: &&(Lab, &'static str)| lab_difference(sought, named.0);
    // The list is never empty; without it a colour would still be a colour.
    NAMED.iter().min_by(|a, b| off(a).total_cmp(&off(b))).map_or("colour", |(_, name)| name)
}

/// Names beside those of the swatches.
const FURTHER: [(&str, u32); 56] = [
    ("beige", 0xd3c09a),
    ("tan", 0xbf9c70),
    ("taupe", 0x8e7d70),
    ("mocha", 0x7b5a46),
    ("chocolate", 0x3c2a22),
    ("khaki", 0xa09468),
    ("olive", 0x6b6530),
    ("dark olive", 0x40421f),
    ("moss green", 0x5a7040),
    ("grass green", 0x4d8a34),
    ("lime green", 0xa3c63f),
    ("pale green", 0xcfdfa5),
    ("emerald", 0x0f7a4f),
    ("jade", 0x4aa585),
    ("seafoam", 0x8fcbb5),
    ("dark teal", 0x0f4048),
    ("slate", 0x4f5c6d),
    ("grey blue", 0x6c8294),
    ("sky blue", 0x6fb1e0),
    ("cornflower", 0x5b82d6),
    ("periwinkle", 0x8a8fd0),
    ("cobalt", 0x1d4a9c),
    ("indigo", 0x34306f),
    ("violet", 0x7d55b5),
    ("lavender", 0x9d8fcf),
    ("orchid", 0xb06fb5),
    ("magenta", 0xa82878),
    ("mauve", 0x9c7a92),
    ("dusty purple", 0x74597a),
    ("aubergine", 0x38203a),
    ("berry", 0x8a2a5a),
    ("raspberry", 0xb23a5e),
    ("rose", 0xd9788f),
    ("dark pink", 0xb6627a),
    ("salmon", 0xf09a88),
    ("apricot", 0xf2b271),
    ("terracotta", 0xb8664a),
    ("dusty brown", 0xa87f6b),
    ("brick red", 0x9c3f35),
    ("mahogany", 0x5a2422),
    ("amber", 0xe6a02e),
    ("mustard", 0xb28a1e),
    ("bronze", 0x8a651f),
    ("lemon", 0xf2e88a),
    ("chartreuse", 0xc4cf3c),
    ("dark blue", 0x12207a),
    ("ultramarine", 0x2430b8),
    ("peacock", 0x0f8494),
    ("sea green", 0x25907c),
    ("grey green", 0x5f7268),
    ("dark taupe", 0x594e4a),
    ("leaf green", 0x7f9a35),
    ("apple green", 0x86cf7a),
    ("aqua", 0x30d8d8),
    ("fuchsia", 0xe02fd0),
    ("lime", 0x40dc3c),
];

#[cfg(test)]
mod tests {
    use super::super::name_table::NAMES;
    use super::*;

    fn off(colour: Rgb) -> f64 {
        let name = everyday_name(colour);
        let further = FURTHER.iter().find(|(further, _)| *further == name).map(|(_, hex)| Rgb::hex(*hex));
        let named = further.or_else(|| swatches().iter().find(|s| s.name == name).map(|s| s.rgb)).unwrap();
        colour.difference(named)
    }

    #[test]
    fn every_swatch_and_every_further_name_is_called_by_itself_alone() {
        let swatches = swatches().iter().map(|s| (s.name, s.rgb));
        let all: Vec<(&str, Rgb)> = swatches.chain(FURTHER.map(|(name, hex)| (name, Rgb::hex(hex)))).collect();
        for (i, (name, rgb)) in all.iter().enumerate() {
            assert_eq!(everyday_name(*rgb), *name);
            assert!(all[..i].iter().all(|(other, _)| other != name), "{name} stands twice");
        }
    }

    /// The middles of the 267 published names lie all over what a screen can show: the everyday names leave no hole between them.
    #[test]
    fn an_everyday_name_is_near_wherever_a_published_one_is() {
        let far = NAMES.iter().filter(|(hex, _)| off(Rgb::hex(*hex)) > 10.0).count();
        assert!(far * 33 <= NAMES.len(), "{far} of {} are farther than 10", NAMES.len());
        for (hex, words) in NAMES {
            assert!(
                off(Rgb::hex(hex)) <= 12.0,
                "{words}: {} is {:.1} off",
                everyday_name(Rgb::hex(hex)),
                off(Rgb::hex(hex))
            );
        }
    }

    /// Published names and what people call such a colour, by the meaning of the words.
    #[test]
    fn everyday_names_are_of_the_hue_that_is_published() {
        let of_hue = [
            ("vivid red", "red"),
            ("very dark red", "wine"),
            ("pale pink", "blush"),
            ("vivid orange", "orange"),
            ("vivid yellow", "yellow"),
            ("moderate olive", "olive"),
            ("vivid green", "bright green"),
            ("moderate bluish green", "teal"),
            ("light blue", "sky blue"),
            ("dark violet", "aubergine"),
            ("deep brown", "brown"),
            ("light grey", "silver"),
        ];
        for (published, everyday) in of_hue {
            let (hex, _) = NAMES.iter().find(|(_, words)| *words == published).unwrap();
            assert_eq!(everyday_name(Rgb::hex(*hex)), everyday, "{published}");
        }
    }
}
