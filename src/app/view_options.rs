//! The view options that last as long as the window and are never kept in an order. The tone of the arm, the cloth and what
//! stands beside the piece belong to the order: `book::Shown`.

use crate::colour::Vision;
use crate::units::LengthUnit;

/// How the sheet looks.
#[derive(Clone, Copy, Debug)]
pub(crate) struct ViewOptions {
    /// Through which eyes the piece is seen; none are the usual ones.
    pub(crate) eyes: Option<Vision>,
    /// In which unit lengths are shown; none is as they were typed.
    pub(crate) lengths: Option<LengthUnit>,
    /// Whether the fold is open.
    pub(crate) open: bool,
}

impl ViewOptions {
    pub(crate) fn new() -> Self {
        Self { eyes: None, lengths: None, open: false }
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
