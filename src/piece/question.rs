//! The questions that the once-over asks. They live here so that a house style can weigh them.

/// One question about a piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Question {
    /// Oval and narrow, not wide?
    Outline,
    /// Narrow enough for this wrist?
    WidthOnWrist,
    /// Round at the ends, not square at the corners?
    Squareness,
    /// Does it run along the arm, not across or askew?
    AlongTheArm,
    /// Odd numbers of blooms and of each accent, or what the wearer's custom wants?
    OddCounts,
    /// Two or three blooms in the middle, above the others?
    Top,
    /// Blooms graded from small at the ends to large in the middle?
    GradedSizes,
    /// A bloom at each end of the oval's axes?
    AxisEnds,
    /// Each accent evenly spread?
    EvenSpread,
    /// In balance about the centre?
    Balance,
    /// No bare spots?
    RoomHere,
    /// Neither crowded nor thin for its oval?
    Fullness,
    /// No bloom hidden or crushed by another?
    Hidden,
    /// Base and glue covered?
    Mechanics,
    /// Is the bow seen?
    BowSeen,
    /// Leaves lengthwise, the smaller ones outward?
    Leaves,
    /// Flat enough over the wrist?
    Height,
    /// Within the edges of the wrist?
    Protrusion,
    /// Light enough?
    Weight,
}

impl Question {
    /// All questions, in the order in which a designer looks.
    pub const ALL: [Self; 19] = [
        Self::Outline,
        Self::WidthOnWrist,
        Self::Squareness,
        Self::AlongTheArm,
        Self::OddCounts,
        Self::Top,
        Self::GradedSizes,
        Self::AxisEnds,
        Self::EvenSpread,
        Self::Balance,
        Self::RoomHere,
        Self::Fullness,
        Self::Hidden,
        Self::Mechanics,
        Self::BowSeen,
        Self::Leaves,
        Self::Height,
        Self::Protrusion,
        Self::Weight,
    ];

    /// Its name in files and in reports for machines.
    pub fn id(self) -> &'static str {
        self.names().0
    }

    /// Its name on screen.
    pub fn title(self) -> &'static str {
        self.names().1
    }

    /// The question with this name in files.
    pub fn from_id(id: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|q| q.id() == id)
    }

    fn names(self) -> (&'static str, &'static str) {
        match self {
            Self::Outline => ("outline", "Outline"),
            Self::WidthOnWrist => ("width_on_wrist", "Width"),
            Self::Squareness => ("squareness", "Corners"),
            Self::AlongTheArm => ("along_the_arm", "Along the arm"),
            Self::OddCounts => ("odd_counts", "Odd counts"),
            Self::Top => ("top", "Top"),
            Self::GradedSizes => ("graded_sizes", "Graded sizes"),
            Self::AxisEnds => ("axis_ends", "Ends taken"),
            Self::EvenSpread => ("even_spread", "Even spread"),
            Self::Balance => ("balance", "Balance"),
            Self::RoomHere => ("room_here", "Room here"),
            Self::Fullness => ("fullness", "Fullness"),
            Self::Hidden => ("hidden", "Hidden blooms"),
            Self::Mechanics => ("mechanics", "Base covered"),
            Self::BowSeen => ("bow_seen", "Bow seen"),
            Self::Leaves => ("leaves", "Leaves"),
            Self::Height => ("height", "Height"),
            Self::Protrusion => ("protrusion", "Past the edge"),
            Self::Weight => ("weight", "Weight"),
        }
    }
}
