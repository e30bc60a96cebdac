//! The wrist that the piece is for.

use std::ops::RangeInclusive;

use crate::units::{Length, LengthUnit};

/// Which wrist.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// The left one.
    Left,
    /// The right one.
    Right,
}

impl Side {
    /// The other one.
    pub fn other(self) -> Self {
        match self {
            Self::Left => Self::Right,
            Self::Right => Self::Left,
        }
    }

    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            Self::Left => "left",
            Self::Right => "right",
        }
    }
}

/// How the girth is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Measured {
    /// With a tape.
    Tape,
    /// Told by somebody.
    Told,
    /// Not yet: the usual girth stands in for it.
    NotYet,
}

/// A wrist: which one, how far round.
#[derive(Clone, Debug, PartialEq)]
pub struct Wrist {
    /// Which one.
    pub side: Side,
    /// How far round, as typed.
    pub girth: Length,
    /// How it is known.
    pub measured: Measured,
}

impl Wrist {
    /// Median wrist circumference of women, ANSUR II (Gordon et al., Natick TR-15/007, 2014; n = 1986), mm.
    pub const USUAL_GIRTH_MM: f64 = 154.0;

    /// Girths that are taken without asking, mm: from a small child (girls of 6: mean 125, SD 9.3; Ozturk et al., J Clin
    /// Res Pediatr Endocrinol 9:329-336, 2017) to beyond the largest man of ANSUR II (216).
    pub const GIRTHS_MM: RangeInclusive<f64> = 90.0..=260.0;

    /// Depth over breadth of the wrist taken as an ellipse. Girth over breadth is 3.05 in women (Heinz et al., J. Stat.
    /// Educ. 11(2), 2003); the flatter figure for real wrists is from memory.
    pub const FLATNESS: f64 = 0.70;

    /// A left wrist nobody has measured.
    pub fn usual() -> Self {
        Self { side: Side::Left, girth: Length::from_mm(Self::USUAL_GIRTH_MM), measured: Measured::NotYet }
    }

    /// The same wrist with its girth shown in this unit; `None` shows it as it was typed.
    pub fn shown_in(&self, unit: Option<LengthUnit>) -> Self {
        let girth = unit.map_or_else(|| self.girth.clone(), |unit| self.girth.shown_in(unit));
        Self { girth, ..self.clone() }
    }

    /// The girth, mm.
    pub fn girth_mm(&self) -> f64 {
        self.girth.mm()
    }
}
