//! What the figures of a house style are called, and what is said when one cannot be taken.

use super::style_figure::{Kind, MakingHow, Span, StyleFigure};
use super::{HouseStyle, Making};
use crate::stock::Role;

/// Where the weights of the questions start from. iRubric: published scoring rubrics for corsages, codes as given there;
/// Cumberland County: the fair's card for floral work.
pub const WEIGHTS_FROM: &str = "The weights start from published score sheets: iRubric CX82XCX and L7XW26 (form, focal point, \
    colour alike) and the Cumberland County fair card (principles, condition, distinction, suitability, 25 each). Ours: \
    shape 30, focal point and counts 20, even spacing 20, gaps and base 15, size on this wrist 15. Colour and condition stay \
    with people.";

impl StyleFigure {
    /// What it is called.
    pub fn name(self, style: &HouseStyle) -> String {
        let held = |size: usize, nth: usize| {
            let planned = style.sizes.get(size).and_then(|s| s.holds.get(nth));
            planned.map_or_else(String::new, |p| format!("{}, {}", p.stock.as_str().replace('-', " "), p.colour))
        };
        let fixed = match self {
            Self::WidthOfGirth => "Width allowed, of the girth",
            Self::RatioFrom => "Length over width, from",
            Self::RatioTo => "Length over width, to",
            Self::Height => "Height allowed",
            Self::Room => "A bare spot, from",
            Self::FullFrom => "Fullness, from",
            Self::FullTo => "Fullness, to",
            Self::HiddenShare => "Hidden, from",
            Self::Protrusion => "Past the wrist\u{2019}s edge",
            Self::Mass => "Heavy, from",
            Self::UnevenFrom => "Uneven, from",
            Self::Weight(question) => question.title(),
            Self::SizeLength(_) => "Oval along the arm",
            Self::SizeWidth(_) => "Oval across it",
            Self::Held(size, nth) => return held(size, nth),
            Self::WristBase => "Base of a wrist piece",
            Self::LapelBase => "Base of a boutonniere",
            Self::BowMinutes => "The bow",
            Self::Each(Role::Bloom) => "Each bloom",
            Self::Each(Role::Accent) => "Each accent",
            Self::Each(Role::Filler) => "Each sprig",
            Self::Each(Role::Leaf) => "Each leaf",
            Self::Each(Role::Trim) => "Each trim",
            Self::FreshTimes => "Fresh goods times",
            Self::HardTimes => "Hard goods times",
            Self::Making => "Making time",
            Self::RoundUpTo => "Prices up to the next",
            Self::TaxPercent => "Tax",
            Self::Deposit => "Deposit at the yes",
            Self::Rush => "On top for a rush",
            Self::Spare => "Bought over what is needed",
        };
        fixed.to_owned()
    }

    /// The unit that stands behind it; empty for a plain number.
    pub fn unit(self, style: &HouseStyle) -> String {
        match (self, self.span(style).kind) {
            (Self::Mass, _) => "g".to_owned(),
            (Self::WristBase | Self::LapelBase | Self::BowMinutes | Self::Each(_), _) => "min".to_owned(),
            (Self::TaxPercent, _) | (_, Kind::Percent) => "%".to_owned(),
            (Self::Making, Kind::Money) => format!("{} a minute", style.prices.currency),
            (_, Kind::Money) => style.prices.currency.clone(),
            (_, Kind::Length) => "mm".to_owned(),
            (_, Kind::Number | Kind::Whole) => String::new(),
        }
    }
}

impl MakingHow {
    /// What its button says.
    pub fn label(self) -> &'static str {
        match self {
            Self::ByMinute => "By the minute",
            Self::OnTop => "Share on top of the goods",
            Self::OfWhole => "Share of the whole price",
        }
    }
}

/// What was written cannot stand there: what belongs there.
pub(super) fn does_not_read(figure: StyleFigure, style: &HouseStyle, written: &str) -> String {
    let Span { kind, least, most, .. } = figure.span(style);
    let name = figure.name(style);
    let written: String = written.trim().chars().take(30).collect();
    let found = if written.is_empty() {
        "nothing stands there".to_owned()
    } else {
        format!("\u{201c}{written}\u{201d} is not")
    };
    let what = match kind {
        Kind::Length => format!("a length from {least} to {most} mm, as 45, 4.5 cm or 1 3/4 in"),
        Kind::Percent => format!("a percentage from {least} to {most}"),
        Kind::Number => format!("a number from {least} to {most}"),
        Kind::Whole => format!("a whole number from {least} to {most}"),
        Kind::Money => format!("an amount from {least:.2} to {most:.2}"),
    };
    format!("{name}: {what} belongs here, and {found}.")
}

/// A pair of limits the wrong way round.
pub(super) fn from_to(figure: StyleFigure, style: &HouseStyle) -> String {
    format!(
        "{}: the smaller figure belongs to \u{201c}from\u{201d}, the larger to \u{201c}to\u{201d}.",
        figure.name(style)
    )
}

/// How making time is reckoned, in a sentence.
pub fn making_words(making: Making) -> &'static str {
    match making {
        Making::ByMinute(_) => "Goods times their multiples, and every minute at the bench.",
        Making::ShareOnTop(_) => "A share of the goods\u{2019} price, added to it: 25 % of 75 makes 93.75.",
        Making::ShareOfWhole(_) => "A share of the whole price: at 25 %, goods of 75 make 100.",
    }
}
