//! The questions that the once-over asks. They live here so that a house style can weigh them.

/// One question about the shape of a piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Question {
    /// Oval and narrow, not wide or square?
    Outline,
    /// Odd numbers of blooms and of each accent?
    OddCounts,
    /// Each accent evenly spread?
    EvenSpread,
    /// No bare spots?
    RoomHere,
    /// Neither crowded nor thin for its oval?
    Fullness,
    /// Narrow enough for this wrist?
    WidthOnWrist,
}

impl Question {
    /// All questions, in the order in which a designer looks.
    pub const ALL: [Self; 6] =
        [Self::Outline, Self::WidthOnWrist, Self::OddCounts, Self::EvenSpread, Self::RoomHere, Self::Fullness];

    /// Its name in files and in reports for machines.
    pub fn id(self) -> &'static str {
        match self {
            Self::Outline => "outline",
            Self::OddCounts => "odd_counts",
            Self::EvenSpread => "even_spread",
            Self::RoomHere => "room_here",
            Self::Fullness => "fullness",
            Self::WidthOnWrist => "width_on_wrist",
        }
    }

    /// The question with this name.
    pub fn from_id(id: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|q| q.id() == id)
    }

    /// Its name on screen.
    pub fn title(self) -> &'static str {
        match self {
            Self::Outline => "Outline",
            Self::OddCounts => "Odd counts",
            Self::EvenSpread => "Even spread",
            Self::RoomHere => "Room here",
            Self::Fullness => "Fullness",
            Self::WidthOnWrist => "Width",
        }
    }
}
