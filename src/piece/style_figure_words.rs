//! What the figures of a house style are called, and what is said when one cannot be taken.

use super::style_figure::{FigureKind, FigureSpan, MakingHow, StyleFigure};
use super::{HouseStyle, Making};
use crate::stock::Role;

/// Where the weights of the checks start from; the score sheets are named in `assets/docs/decisions.md` and in `assets/style.ron`.
pub const WEIGHTS_FROM: &str = "Weights follow published corsage score sheets. Judge colour and condition yourself.";

impl StyleFigure {
    /// What it is called.
    pub fn name(self, style: &HouseStyle) -> String {
        let held = |size: usize, nth: usize| {
            let planned = style.sizes.get(size).and_then(|s| s.holds.get(nth));
            planned.map_or_else(String::new, |p| format!("{}, {}", p.stock.as_str().replace('-', " "), p.colour))
        };
        let fixed = match self {
            Self::WidthOfGirth => "Max width, % of wrist",
            Self::RatioFrom => "Length to width, from",
            Self::RatioTo => "Length to width, to",
            Self::Height => "Max height",
            Self::Room => "Gap warning over",
            Self::FullFrom => "Least fullness",
            Self::FullTo => "Most fullness",
            Self::HiddenShare => "Bloom hidden over",
            Self::Protrusion => "Max overhang",
            Self::Mass => "Too heavy over",
            Self::UnevenFrom => "Uneven gaps from",
            Self::Weight(question) => question.title(),
            Self::SizeLength(_) => "Oval length",
            Self::SizeWidth(_) => "Oval width",
            Self::Held(size, nth) => return held(size, nth),
            Self::WristBase => "Wrist corsage base",
            Self::LapelBase => "Boutonniere base",
            Self::BowMinutes => "Bow",
            Self::Each(Role::Bloom) => "Each bloom",
            Self::Each(Role::Accent) => "Each accent",
            Self::Each(Role::Filler) => "Each sprig",
            Self::Each(Role::Leaf) => "Each leaf",
            Self::Each(Role::Trim) => "Each trim",
            Self::FreshTimes => "Fresh flower markup \u{d7}",
            Self::HardTimes => "Hard goods markup \u{d7}",
            Self::Making => "Making time",
            Self::RoundUpTo => "Round up to",
            Self::Deposit => "Deposit on agreement",
            Self::Rush => "Rush order",
            Self::Spare => "Spare stems",
        };
        fixed.to_owned()
    }

    /// The unit that stands behind it; empty for a plain number.
    pub fn unit(self, style: &HouseStyle) -> String {
        match (self, self.span(style).kind) {
            (Self::Mass, _) => "g".to_owned(),
            (Self::WristBase | Self::LapelBase | Self::BowMinutes | Self::Each(_), _) => "min".to_owned(),
            (_, FigureKind::Percent) => "%".to_owned(),
            (Self::Making, FigureKind::Money) => format!("{} a minute", style.prices.currency.sign),
            (_, FigureKind::Money) => style.prices.currency.sign.clone(),
            (_, FigureKind::Length) => "mm".to_owned(),
            (_, FigureKind::Number | FigureKind::Whole) => String::new(),
        }
    }
}

impl MakingHow {
    /// What its button says.
    pub fn label(self) -> &'static str {
        match self {
            Self::ByMinute => "Per minute",
            Self::OnTop => "% of materials",
            Self::OfWhole => "% of price",
        }
    }
}

/// What was written cannot stand there: what belongs there.
pub(super) fn does_not_read(figure: StyleFigure, style: &HouseStyle) -> String {
    let FigureSpan { kind, least, most, .. } = figure.span(style);
    let name = figure.name(style);
    let what = match kind {
        FigureKind::Length => format!("a length from {least} to {most} mm, like 45, 4.5 cm or 1 3/4 in"),
        FigureKind::Percent => format!("a percentage from {least} to {most}"),
        FigureKind::Number => format!("a number from {least} to {most}"),
        FigureKind::Whole => format!("a whole number from {least} to {most}"),
        FigureKind::Money => {
            let amount = |value: f64| style.prices.currency.decimal.written(&format!("{value:.2}"));
            format!("an amount from {} to {}", amount(least), amount(most))
        }
    };
    format!("{name}: enter {what}.")
}

/// A pair of limits the wrong way round.
pub(super) fn from_to(figure: StyleFigure, style: &HouseStyle) -> String {
    format!("{}: put the smaller number in \u{201c}from\u{201d}, the larger in \u{201c}to\u{201d}.", figure.name(style))
}

/// How making time is priced, in a sentence.
pub fn making_words(making: Making) -> &'static str {
    match making {
        Making::ByMinute(_) => "Materials times their markup, plus every minute at the bench.",
        Making::ShareOnTop(_) => "A share of the materials on top: 25 % of 75 makes 93.75.",
        Making::ShareOfWhole(_) => "A share of the whole price: at 25 %, materials of 75 make 100.",
    }
}
