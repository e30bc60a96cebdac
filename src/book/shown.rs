//! How the piece was shown to the client: the tone of the arm, whether the cloth of the dress lay under it, and what lay beside
//! it for its size. It belongs to the order, so that papers and pictures show what the client saw.

use crate::piece::Skin;

/// What stands beside the piece for its size.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Beside {
    /// A ruler along two edges of the screen; papers have their own scale.
    #[default]
    Ruler,
    /// A coin that everybody has in hand.
    Coin,
    /// Nothing.
    Nothing,
}

/// How the piece was shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Shown {
    /// The tone of the arm.
    pub skin: Skin,
    /// Whether the cloth of the dress lies under the piece, where its colour is known.
    pub cloth: bool,
    /// What stands beside it.
    pub beside: Beside,
}

impl Default for Shown {
    fn default() -> Self {
        Self { skin: Skin::Plain, cloth: true, beside: Beside::Ruler }
    }
}

/// A coin.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Coin {
    /// What it is called, with its size.
    pub name: &'static str,
    /// How wide it is.
    pub diameter_mm: f64,
}

impl Coin {
    /// The coin of about an inch that goes with a currency. Diameters as the mints publish them, from memory.
    pub fn of(currency: &str) -> Self {
        match currency.trim() {
            "\u{a3}" => Self { name: "1 pound, 23 mm", diameter_mm: 23.43 },
            "$" => Self { name: "a quarter, 24 mm", diameter_mm: 24.26 },
            _ => Self { name: "1 euro, 23 mm", diameter_mm: 23.25 },
        }
    }
}
