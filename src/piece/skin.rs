//! The tone in which an arm is drawn: what a client chose to see the piece on.

use crate::colour::Rgb;

/// The tone in which the arm is drawn.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Skin {
    /// A plain form in the colour of paper, nobody's skin.
    #[default]
    Plain,
    /// Very light.
    Fair,
    /// Light and warm.
    Warm,
    /// Middling.
    Olive,
    /// Brown.
    Brown,
    /// Very dark.
    Deep,
}

impl Skin {
    /// All of them, in the order in which they are offered.
    pub const ALL: [Self; 6] = [Self::Plain, Self::Fair, Self::Warm, Self::Olive, Self::Brown, Self::Deep];

    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            Self::Plain => "plain",
            Self::Fair => "fair",
            Self::Warm => "warm",
            Self::Olive => "olive",
            Self::Brown => "brown",
            Self::Deep => "deep",
        }
    }

    /// Its colour in the light.
    pub fn rgb(self) -> Rgb {
        match self {
            Self::Plain => Rgb::hex(0xded0c5),
            Self::Fair => Rgb::hex(0xf0cdb9),
            Self::Warm => Rgb::hex(0xe0b091),
            Self::Olive => Rgb::hex(0xc4926b),
            Self::Brown => Rgb::hex(0x96623f),
            Self::Deep => Rgb::hex(0x5b3a28),
        }
    }
}
