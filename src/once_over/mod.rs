//! The once-over: a second pair of eyes before a stem is cut. Pure judgement; it never edits.
//!
//! [`look_over`] measures a piece once ([`Measures`]) and asks each question of the house style in a file of its own.
//! Every answer is a [`Finding`]: what was observed, as data, a figure with its unit, annotations of the sketch, points out of
//! the question's weight, and remedies where there are some. Words are made of it when it is shown. A question can be set
//! aside by the house style or for one piece. Knows nothing of screens, money or files.
//!
//! A question is entered in the table of `piece/question.rs`; of that table this file makes [`Observation`] and the call of its
//! `answer`.

mod along_the_arm;
mod axis_ends;
mod balance;
mod bow_seen;
#[cfg(test)]
mod cases;
mod even_spread;
mod fullness;
mod graded_sizes;
mod height;
mod hidden;
mod leaves;
mod measures;
mod mechanics;
mod odd_counts;
mod outline;
mod protrusion;
mod relief;
mod room_here;
mod squareness;
mod standing;
mod top;
mod weight;
mod width_on_wrist;
mod words;

use crate::geometry::{Disc, Point, Vec2};
use crate::piece::{Footprint, HouseStyle, Level, PartId, Piece, Question, Worn, Wrist, for_each_question};
use crate::stock::{Stock, StockId};
use crate::units::LengthUnit;

pub use even_spread::SpacingSeen;
pub(crate) use height::ZERO_AT as ZERO_HEIGHT_AT;
pub use measures::{HeadDisc, KindSpacing, Measures};
pub use odd_counts::CountedGroup;
pub use relief::Relief;
pub(crate) use relief::{CORE, GIVE, lift_mm};
pub use standing::{Standing, standing};

/// What the once-over looks at.
#[derive(Clone, Copy, Debug)]
pub struct Subject<'a> {
    /// The piece.
    pub piece: &'a Piece,
    /// What its parts are.
    pub stock: &'a Stock,
    /// What the shop asks for.
    pub style: &'a HouseStyle,
    /// Whose wrist it is for.
    pub wrist: &'a Wrist,
}

impl Subject<'_> {
    /// Whether it goes round a wrist.
    fn is_on_wrist(&self) -> bool {
        self.piece.worn == Worn::Wrist
    }

    /// The trade name of something, as it stands within a sentence.
    fn name_of(&self, id: &StockId) -> String {
        self.stock.botanical(id).map_or_else(|| id.to_string(), |b| b.name.to_lowercase())
    }
}

/// A thing to be drawn on the sketch, mm and radians in the piece's frame.
#[derive(Clone, Debug, PartialEq)]
pub enum Annotation {
    /// A dotted ring where something fits.
    Ring {
        /// Its centre.
        centre: Point,
        /// Its radius.
        radius: f64,
    },
    /// A wedge between two neighbours, as angles about the centre of the oval's eccentric circle.
    Wedge {
        /// From here,
        from_rad: f64,
        /// turning this way to here.
        to_rad: f64,
    },
    /// A ruler between two points.
    Ruler {
        /// One end.
        from: Point,
        /// The other.
        to: Point,
    },
    /// A line that shows which way something lies or tips.
    Axis {
        /// Where it begins.
        from: Point,
        /// Where it points.
        to: Point,
    },
}

impl Annotation {
    /// A ring round a disc.
    fn ring(disc: Disc) -> Self {
        Self::Ring { centre: disc.centre, radius: disc.radius }
    }
}

/// Something that would mend what was found. The floor above turns it into an edit, for only it proposes.
#[derive(Clone, Debug, PartialEq)]
pub enum Remedy {
    /// Draw all free parts toward the middle line until length over width is at least this.
    DrawInToRatio(f64),
    /// Draw all free parts toward the middle line until they are at most this wide, mm.
    DrawInToWidth(f64),
    /// Spread this kind evenly round the oval.
    EvenOut(StockId),
    /// Put something into this gap.
    FillRoom(Disc),
    /// Make the oval this long.
    Lengthen(Footprint),
    /// Turn the whole piece about its centre, radians.
    TurnAll(f64),
    /// Move the whole piece, mm.
    MoveAll(Vec2),
    /// One more of this kind, where there is most room.
    OneMore(StockId),
    /// One less of this kind.
    OneLess(StockId),
    /// Set parts to this level.
    Raise(Vec<PartId>, Level),
    /// Move the nearest free bloom to this end of the oval.
    TakeEnd(Point),
    /// Move a part away from what hides it.
    BringOut(PartId),
    /// Move a part to where there is most room.
    MoveToRoom(PartId),
    /// Move a part toward the middle line, mm.
    PullIn(PartId, f64),
    /// Loops long enough to look out at the sides.
    LongerLoops,
    /// Turn leaves along the arm, their tips outward.
    LayLengthwise(Vec<PartId>),
}

impl Remedy {
    /// What its button says.
    pub fn label(&self) -> &'static str {
        words::remedy(self)
    }
}

macro_rules! observations {
    ($($id:ident $variant:ident $observed:ident $title:literal $asks:literal;)+) => {
        $(pub use $id::$observed;)+

        /// What was observed for one question: measured values, the limits they are held against, the parts concerned.
        #[derive(Clone, Debug, PartialEq)]
        pub enum Observation {
            $(#[doc = $asks] $variant($observed),)+
        }

        $(impl From<$observed> for Observation {
            fn from(observed: $observed) -> Self {
                Self::$variant(observed)
            }
        })+

        impl Observation {
            /// The question it answers.
            pub fn question(&self) -> Question {
                match self {
                    $(Self::$variant(_) => Question::$variant,)+
                }
            }

            fn worded(&self) -> &dyn words::Sentence {
                match self {
                    $(Self::$variant(observed) => observed,)+
                }
            }
        }

        /// The answer to a question; `None` where it does not apply.
        fn ask(question: Question, subject: Subject<'_>, measures: &Measures) -> Option<Finding> {
            match question {
                $(Question::$variant => $id::answer(subject, measures).into(),)+
            }
        }
    };
}

for_each_question!(observations);

/// One answer.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// The question.
    pub question: Question,
    /// What was observed.
    pub observed: Observation,
    /// The figure behind it.
    pub figure: f64,
    /// Unit of the figure: `mm`, `degrees`, `g`, or empty for a ratio or a count.
    pub unit: &'static str,
    /// The unit in which lengths are written: that of the wrist's size.
    pub lengths_in: LengthUnit,
    /// How well it is, 0 to 1.
    pub score: f64,
    /// Weight of the question.
    pub weight: f64,
    /// Where to look.
    pub annotations: Vec<Annotation>,
    /// What would mend it.
    pub remedies: Vec<Remedy>,
}

impl Finding {
    /// What was observed, and what would help, in a sentence.
    pub fn says(&self) -> String {
        words::sentence(self)
    }

    /// The same as an invitation, for the client's eyes; `None` when it is nothing to show.
    pub fn invitation(&self) -> Option<String> {
        words::invitation(self)
    }

    /// Points earned of the weight.
    pub fn points(&self) -> f64 {
        self.weight * self.score
    }

    /// Whether nothing needs doing.
    pub fn is_well(&self) -> bool {
        self.score >= WELL_FROM
    }
}

/// A score from which a question counts as well answered; our choice.
const WELL_FROM: f64 = 0.995;

/// Everything seen.
#[derive(Clone, Debug, PartialEq)]
pub struct OnceOver {
    /// Points over weights of the questions that apply, 0 to 100.
    pub score: f64,
    /// What was measured.
    pub measures: Measures,
    /// One finding a question that applies: what matters most first.
    pub findings: Vec<Finding>,
}

impl OnceOver {
    /// The score as a person reads it: whole points, and a hundred only where nothing is lost.
    pub fn whole_score(&self) -> f64 {
        (self.score + 1e-9).floor()
    }
}

/// Looks a piece over, on this thread alone: for those who look at many.
pub fn look_over(subject: Subject<'_>) -> OnceOver {
    judged(subject, Measures::take(subject))
}

/// The same on two cores, for the one piece a person looks at: the result is the same, a full piece takes half as long.
pub fn look_over_at_once(subject: Subject<'_>) -> OnceOver {
    judged(subject, Measures::take_on_two_cores(subject))
}

fn judged(subject: Subject<'_>, measures: Measures) -> OnceOver {
    let ignored = &subject.piece.wishes.ignored;
    let mut findings: Vec<Finding> = Question::ALL
        .into_iter()
        .filter(|q| subject.style.weight(*q) > 0.0 && !ignored.contains_key(q))
        // Of an empty oval there is one thing to say.
        .filter(|q| measures.outline.is_some() || *q == Question::Outline)
        .filter_map(|q| ask(q, subject, &measures).map(|f| Finding { weight: subject.style.weight(q), ..f }))
        .collect();
    let weights: f64 = findings.iter().map(|f| f.weight).sum();
    let points: f64 = findings.iter().map(Finding::points).sum();
    let score = if weights > 0.0 { (100.0 * points / weights).clamp(0.0, 100.0) } else { 0.0 };
    findings.sort_by(|a, b| (b.weight - b.points()).total_cmp(&(a.weight - a.points())));
    OnceOver { score, measures, findings }
}

/// A finding before its weight is known.
fn finding(
    subject: Subject<'_>,
    observed: impl Into<Observation>,
    figure: f64,
    unit: &'static str,
    score: f64,
) -> Finding {
    let observed = observed.into();
    Finding {
        question: observed.question(),
        observed,
        figure: if figure.is_finite() { figure } else { 0.0 },
        unit,
        lengths_in: subject.wrist.girth.unit(),
        score: if score.is_finite() { score.clamp(0.0, 1.0) } else { 0.0 },
        weight: 0.0,
        annotations: Vec::new(),
        remedies: Vec::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::cases::{Shop, head, piece};
    use super::*;
    use crate::piece::Edit;

    /// One head on an oval of 80 by 80, by weights of 3 and 1: it fills a sixteenth, of 0.6 that is 0.1041667; one is odd.
    #[test]
    fn the_score_is_points_over_weights_of_what_is_asked() {
        let mut shop = Shop::new();
        shop.style.weights = [(Question::OddCounts, 3.0), (Question::Fullness, 1.0)].into();
        let one = piece(80.0, 80.0, [head(0.0, 0.0)]);
        let fill = 0.0625 / 0.6;
        let score = |shop: &Shop, piece: &Piece| look_over(shop.subject(piece)).score;
        assert!((score(&shop, &one) - 100.0 * (3.0 + fill) / 4.0).abs() < 1e-9);
        let ignored = one.apply(&Edit::Ignore(Question::OddCounts, String::new())).unwrap();
        assert!((score(&shop, &ignored) - 100.0 * fill).abs() < 1e-9);
        shop.style.weights.insert(Question::Fullness, 0.0);
        assert_eq!(score(&shop, &one), 100.0);
        assert_eq!(score(&shop, &ignored), 0.0, "nothing is asked");
    }

    #[test]
    fn what_costs_most_stands_first_and_an_empty_oval_has_one_finding() {
        let mut shop = Shop::new();
        shop.style.weights = [(Question::OddCounts, 1.0), (Question::Fullness, 9.0)].into();
        // Two are even, so all of 1 is lost; of 9 for fullness 0.125 / 0.6 is earned, so 7.125 are lost.
        let two = look_over(shop.subject(&piece(80.0, 80.0, [head(0.0, 0.0), head(20.0, 0.0)])));
        let order: Vec<Question> = two.findings.iter().map(|f| f.question).collect();
        assert_eq!(order, [Question::Fullness, Question::OddCounts]);
        assert!((two.findings[0].points() - 1.875).abs() < 1e-9, "{}", two.findings[0].points());
        let nothing = look_over(Shop::new().subject(&piece(80.0, 80.0, [])));
        assert_eq!(nothing.findings.iter().map(|f| f.question).collect::<Vec<_>>(), [Question::Outline]);
        assert_eq!(nothing.score, 0.0);
    }

    #[test]
    fn a_hundred_is_shown_only_where_nothing_is_lost() {
        let over = look_over(Shop::new().subject(&piece(80.0, 80.0, [head(0.0, 0.0)])));
        for (score, shown) in [(99.999, 99.0), (100.0, 100.0), (0.4, 0.0), (72.0 - 1e-12, 72.0)] {
            assert_eq!(OnceOver { score, ..over.clone() }.whole_score(), shown);
        }
        let well = |score: f64| Finding { score, ..over.findings[0].clone() }.is_well();
        assert!(well(0.995) && !well(0.994));
    }

    /// Only a gap is shown to a client, and only as room for one more.
    #[test]
    fn a_client_is_invited_and_never_judged() {
        let over = look_over(Shop::new().subject(&piece(80.0, 80.0, [head(0.0, 0.0), head(60.0, 0.0)])));
        let shown: Vec<(Question, String)> =
            over.findings.iter().filter_map(|f| Some((f.question, f.invitation()?))).collect();
        assert_eq!(shown, [(Question::RoomHere, "There is room for one more here.".to_owned())]);
    }
}
