//! Cautions in plain words. The piece is worn on skin, near food and candles, perhaps by a child.

/// One thing to be careful of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Caution {
    /// Sap or dust that reddens skin.
    SkinIrritant,
    /// Known to cause allergy.
    Allergen,
    /// Poisonous when eaten.
    PoisonByMouth,
    /// Pollen that stains cloth.
    PollenStain,
    /// Dye that may mark cloth.
    Dye,
    /// Thorns, prickles or sharp ends.
    Spine,
    /// Sap that makes skin burn in sunlight: some of the carrot family.
    Sunlight,
    /// Tuliposide in the sap: nitrile keeps it off, vinyl does not.
    Tuliposide,
    /// Natural rubber.
    Latex,
    /// Nickel against the skin.
    Nickel,
    /// Comes off in parts a small child could swallow.
    SmallParts,
    /// Flammable spray.
    Aerosol,
    /// Glue whose solvent makes fumes that burn.
    Solvent,
    /// Burns when hot.
    Burn,
    /// A strong magnet: it disturbs implants, and two of them swallowed hold together in the gut.
    Magnet,
}

/// The line that stands under every list of cautions.
pub const STANDING_LINE: &str = "General caution, not medical advice. Follow the maker's label and local rules; where \
     someone has an allergy or a medical condition, their own doctor's advice goes first.";

impl Caution {
    /// All of them.
    pub const ALL: [Self; 15] = [
        Self::SkinIrritant,
        Self::Allergen,
        Self::PoisonByMouth,
        Self::PollenStain,
        Self::Dye,
        Self::Spine,
        Self::Sunlight,
        Self::Tuliposide,
        Self::Latex,
        Self::Nickel,
        Self::SmallParts,
        Self::Aerosol,
        Self::Solvent,
        Self::Burn,
        Self::Magnet,
    ];

    /// The caution as a sentence.
    pub fn sentence(self) -> &'static str {
        match self {
            Self::SkinIrritant => "Sap can redden skin: keep cut ends off the wrist, wear gloves when making.",
            Self::Allergen => "A known allergen: ask before use.",
            Self::PoisonByMouth => "Poisonous if eaten: keep away from children, food and plates.",
            Self::PollenStain => "Pollen stains cloth: take the anthers out.",
            Self::Dye => "Dye may mark cloth: keep off pale dresses.",
            Self::Spine => "Prickles or sharp ends: strip and check before it touches skin.",
            Self::Sunlight => "Sap and sunlight together burn skin: gloves, and wash it off before going out.",
            // Thiboutot and others, Archives of Dermatology 124:914, 1988: positive patch tests through vinyl, none through nitrile.
            Self::Tuliposide => "Wear nitrile gloves at the bench: vinyl does not stop tuliposide.",
            Self::Latex => "May contain natural rubber latex: ask the client; if in doubt, use a latex-free band.",
            Self::Nickel => "May hold nickel: ask, and keep it off bare skin if in doubt.",
            Self::SmallParts => "Small parts: not for children under three.",
            Self::Aerosol => "Flammable spray: use in fresh air, away from flames, and let it dry.",
            Self::Solvent => "Glue with solvent: air the room, no flame; follow the maker\u{2019}s label.",
            Self::Magnet => "Strong magnet: not near a pacemaker or other implant; never where a child can reach it.",
            Self::Burn => "Hot glue burns skin: keep cold water near, and let it cool before anyone touches it.",
        }
    }

    /// The caution in a word or two, for a tag.
    pub fn tag(self) -> &'static str {
        match self {
            Self::SkinIrritant => "skin irritant",
            Self::Allergen => "allergen",
            Self::PoisonByMouth => "poison by mouth",
            Self::PollenStain => "pollen stain",
            Self::Dye => "dye",
            Self::Spine => "spines",
            Self::Sunlight => "burns in sunlight",
            Self::Tuliposide => "nitrile gloves",
            Self::Latex => "latex",
            Self::Nickel => "nickel",
            Self::SmallParts => "small parts",
            Self::Aerosol => "aerosol",
            Self::Solvent => "solvent",
            Self::Burn => "burn",
            Self::Magnet => "magnet",
        }
    }
}
