//! The questions that the once-over asks, and the one table in which each is entered.
//!
//! They live here so that a house style can weigh them. The table holds names and words alone: this file makes the enum of
//! it, `once_over` what is observed and who answers, `store` the line of weights in a style's file.

/// A line for each question, in the order in which a designer looks: its name in files, which is also the name of its file in
/// `once_over`; its variant; the type of what is observed for it; its title on screen; what it asks.
macro_rules! for_each_question {
    ($make:ident) => {
        $make! {
            outline Outline Proportion "Outline" "Oval and narrow, not wide?";
            width_on_wrist WidthOnWrist WidthAcross "Width" "Narrow enough for this wrist?";
            squareness Squareness CornerFill "Corners" "Round at the ends, not square at the corners?";
            along_the_arm AlongTheArm ArmAngle "Along the arm" "Does it run along the arm, not across or askew?";
            odd_counts OddCounts PartCounts "Odd numbers"
                "Odd numbers of blooms and of each accent, or what the wearer's custom wants?";
            top Top FocalBlooms "Focal flower" "Two or three blooms in the middle, above the others?";
            graded_sizes GradedSizes SizeOrder "Graded sizes"
                "Blooms graded from small at the ends to large in the middle?";
            axis_ends AxisEnds FilledEnds "Ends filled" "A bloom at each end of the oval's axes?";
            even_spread EvenSpread AccentSpacing "Even spacing" "Each accent evenly spaced?";
            balance Balance TorqueBalance "Balance" "In balance about the centre?";
            room_here RoomHere BareSpots "Gaps" "No bare spots?";
            fullness Fullness BloomFill "Fullness" "Neither crowded nor thin for its oval?";
            hidden Hidden HiddenHeads "Hidden blooms" "No bloom hidden or crushed by another?";
            mechanics Mechanics BaseCover "Mechanics hidden" "Base and glue covered?";
            bow_seen BowSeen BowShare "Bow visible" "Is the bow seen?";
            leaves Leaves LeafDirections "Leaves" "Leaves lengthwise, the smaller ones outward?";
            height Height HeightOverWrist "Height" "Flat enough over the wrist?";
            protrusion Protrusion EdgeReach "Overhang" "Within the edges of the wrist?";
            weight Weight PlannedMass "Weight" "Light enough?";
        }
    };
}
pub(crate) use for_each_question;

macro_rules! questions {
    ($($id:ident $variant:ident $observed:ident $title:literal $asks:literal;)+) => {
        /// One question about a piece.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
        pub enum Question {
            $(#[doc = $asks] $variant,)+
        }

        impl Question {
            /// All questions, in the order in which a designer looks.
            pub const ALL: [Self; [$(stringify!($id)),+].len()] = [$(Self::$variant),+];

            /// Its name in files and in reports for machines.
            pub fn id(self) -> &'static str {
                match self {
                    $(Self::$variant => stringify!($id),)+
                }
            }

            /// Its name on screen.
            pub fn title(self) -> &'static str {
                match self {
                    $(Self::$variant => $title,)+
                }
            }
        }
    };
}

for_each_question!(questions);

impl Question {
    /// The question with this name in files.
    pub fn from_id(id: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|q| q.id() == id)
    }
}
