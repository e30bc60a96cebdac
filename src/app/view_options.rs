//! The view options: the tone of the arm, and what stands beside the piece so that its size can be seen. They last as
//! long as the window and are never kept in an order.

use crate::colour::Vision;
use crate::scene::Skin;
use crate::units::LengthUnit;

/// What stands beside the piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Beside {
    /// A ruler along two edges.
    Ruler,
    /// A coin that everybody has in hand.
    Coin,
    /// Nothing.
    Nothing,
}

/// How the sheet looks.
#[derive(Clone, Copy, Debug)]
pub(crate) struct ViewOptions {
    pub(crate) skin: Skin,
    pub(crate) beside: Beside,
    /// Whether the cloth of the dress lies under the piece, where its colour is known.
    pub(crate) cloth: bool,
    /// Through which eyes the piece is seen; none are the usual ones.
    pub(crate) eyes: Option<Vision>,
    /// In which unit lengths are shown; none is as they were typed.
    pub(crate) lengths: Option<LengthUnit>,
    /// Whether the fold is open.
    pub(crate) open: bool,
}

impl ViewOptions {
    pub(crate) fn new() -> Self {
        Self { skin: Skin::Plain, beside: Beside::Ruler, cloth: true, eyes: None, lengths: None, open: false }
    }
}

/// In which units lengths can be shown.
pub(crate) const LENGTHS: [(&str, Option<LengthUnit>); 3] =
    [("As entered", None), ("mm", Some(LengthUnit::Millimetre)), ("in", Some(LengthUnit::FractionInch))];

/// The unit that was kept under this word, and the word for it.
pub(crate) fn lengths_of_word(word: &str) -> Option<LengthUnit> {
    LENGTHS.iter().find(|(label, _)| *label == word).and_then(|(_, unit)| *unit)
}

pub(crate) fn word_of_lengths(unit: Option<LengthUnit>) -> &'static str {
    LENGTHS.iter().find(|(_, of)| *of == unit).map_or(LENGTHS[0].0, |(label, _)| label)
}

/// A coin.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Coin {
    pub(crate) name: &'static str,
    pub(crate) diameter_mm: f64,
}

impl Coin {
    /// The coin of about an inch that goes with a currency. Diameters as the mints publish them, from memory.
    pub(crate) fn of(currency: &str) -> Self {
        match currency.trim() {
            "\u{a3}" => Self { name: "1 pound, 23 mm", diameter_mm: 23.43 },
            "$" => Self { name: "a quarter, 24 mm", diameter_mm: 24.26 },
            _ => Self { name: "1 euro, 23 mm", diameter_mm: 23.25 },
        }
    }
}

/// How the client's window stands.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum ClientWindowState {
    /// It is not there.
    #[default]
    Closed,
    /// It shows the shop's name alone.
    Paused,
    /// It shows the piece.
    Showing,
}
