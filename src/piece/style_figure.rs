//! The figures of a house style one by one: what stands in each and what may be written there.
//!
//! As people read them: a share is shown in percent, a length in millimetres, money in the shop's currency. What is written
//! gives a whole new style, or a sentence that says what belongs there; the style it came from is never half changed.

use super::style_figure_words as words;
use super::{HouseStyle, Making, Question};
use crate::stock::Role;
use crate::units::{Cents, Currency, Length, floor_u32, with_a_point};

/// One figure of a house style.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum StyleFigure {
    /// Width allowed across the wrist, of its girth.
    WidthOfGirth,
    /// Least length over width.
    RatioFrom,
    /// Most length over width.
    RatioTo,
    /// Height allowed over the wrist.
    Height,
    /// The smallest gap that counts as a bare spot.
    Room,
    /// Least fullness.
    FullFrom,
    /// Most fullness.
    FullTo,
    /// How much of a bloom may be hidden.
    HiddenShare,
    /// How far a head may reach past the edge of the wrist.
    Protrusion,
    /// Mass from which a piece is heavy.
    Mass,
    /// Largest over ideal angle that still looks even.
    UnevenFrom,
    /// Weight of a question in the score.
    Weight(Question),
    /// Length of the oval of a size, by its place in the house.
    SizeLength(usize),
    /// Width of that oval.
    SizeWidth(usize),
    /// How many of its nth kind a size holds.
    Held(usize, usize),
    /// Minutes for the base of a wrist piece.
    WristBase,
    /// Minutes for the base of a boutonniere.
    LapelBase,
    /// Minutes for the bow.
    BowMinutes,
    /// Minutes for each part of a role.
    Each(Role),
    /// Fresh goods times this.
    FreshTimes,
    /// Hard goods times this.
    HardTimes,
    /// Making time: money a minute, or a share.
    Making,
    /// Prices are rounded up to a step of this.
    RoundUpTo,
    /// Share of the total paid at the yes.
    Deposit,
    /// Share on top for a rush.
    Rush,
    /// Share bought over what is needed.
    Spare,
}

/// What kind of figure it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum FigureKind {
    /// Millimetres.
    Length,
    /// A share, shown in percent.
    Percent,
    /// A plain number.
    Number,
    /// A number without a fraction.
    Whole,
    /// Cents, shown as money.
    Money,
}

/// Between which figures one lies and by how much a tap changes it, as shown.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct FigureSpan {
    pub(super) kind: FigureKind,
    pub(super) least: f64,
    pub(super) most: f64,
    step: f64,
}

/// How making time is paid for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MakingHow {
    /// By the minute.
    ByMinute,
    /// A share on top of the goods.
    OnTop,
    /// A share of the whole price.
    OfWhole,
}

impl MakingHow {
    /// All ways, the most usual first.
    pub const ALL: [Self; 3] = [Self::ByMinute, Self::OnTop, Self::OfWhole];

    /// The way of a rule.
    pub fn of(making: Making) -> Self {
        match making {
            Making::ByMinute(_) => Self::ByMinute,
            Making::ShareOnTop(_) => Self::OnTop,
            Making::ShareOfWhole(_) => Self::OfWhole,
        }
    }

    /// The way with a figure to start from: 75 cents a minute, or a quarter (inside the published 20 to 35 per cent).
    pub fn usual(self) -> Making {
        match self {
            Self::ByMinute => Making::ByMinute(75.0),
            Self::OnTop => Making::ShareOnTop(0.25),
            Self::OfWhole => Making::ShareOfWhole(0.25),
        }
    }
}

impl StyleFigure {
    /// What stands there, as people read it; `None` where the style has no such size or kind.
    pub fn shown(self, style: &HouseStyle) -> Option<String> {
        let value = self.value(style)?;
        let figure = match self.span(style).kind {
            FigureKind::Money => Cents::nearest(value * 100.0).to_string(),
            FigureKind::Length | FigureKind::Percent | FigureKind::Number | FigureKind::Whole => plain(value),
        };
        Some(style.prices.currency.decimal.written(&figure))
    }

    /// The style with `words` there, or what belongs there instead.
    pub fn write(self, style: &HouseStyle, words: &str) -> Result<HouseStyle, String> {
        let span = self.span(style);
        let refused = || words::does_not_read(self, style);
        let value = match span.kind {
            FigureKind::Length => Length::parse(words).map(|l| l.mm()),
            FigureKind::Percent | FigureKind::Number | FigureKind::Whole | FigureKind::Money => {
                number(words, &style.prices.currency)
            }
        };
        let value = value.filter(|v| span.kind != FigureKind::Whole || v.fract() == 0.0).ok_or_else(refused)?;
        let value = if span.kind == FigureKind::Money { money(value).ok_or_else(refused)? } else { value };
        if !(span.least..=span.most).contains(&value) {
            return Err(refused());
        }
        self.put(style, value)
    }

    /// The style with one step more or less there; as it was at the end of what goes.
    pub fn stepped(self, style: &HouseStyle, up: bool) -> Result<HouseStyle, String> {
        let span = self.span(style);
        let now = self.value(style).unwrap_or(span.least);
        // On to the next whole step, so that 0.37 becomes 0.40 and not 0.42.
        let steps = now / span.step;
        let next = if up { (steps + 1e-6).floor() + 1.0 } else { (steps - 1e-6).ceil() - 1.0 };
        self.put(style, (next * span.step).clamp(span.least, span.most))
    }

    /// What stands there, as shown: percent for a share, whole money for cents.
    fn value(self, style: &HouseStyle) -> Option<f64> {
        let (shape, minutes, prices) = (&style.shape, &style.minutes, &style.prices);
        Some(match self {
            Self::WidthOfGirth => shape.width_of_girth * 100.0,
            Self::RatioFrom => shape.length_to_width[0],
            Self::RatioTo => shape.length_to_width[1],
            Self::Height => shape.height_mm,
            Self::Room => shape.room_mm,
            Self::FullFrom => shape.fullness[0],
            Self::FullTo => shape.fullness[1],
            Self::HiddenShare => shape.hidden_share * 100.0,
            Self::Protrusion => shape.protrusion_mm,
            Self::Mass => shape.mass_g,
            Self::UnevenFrom => shape.uneven_from,
            Self::Weight(question) => style.weight(question),
            Self::SizeLength(size) => style.sizes.get(size)?.length_mm,
            Self::SizeWidth(size) => style.sizes.get(size)?.width_mm,
            Self::Held(size, nth) => f64::from(style.sizes.get(size)?.holds.get(nth)?.count),
            Self::WristBase => minutes.wrist_base,
            Self::LapelBase => minutes.lapel_base,
            Self::BowMinutes => minutes.bow,
            Self::Each(role) => minutes.each.get(&role).copied().unwrap_or(0.0),
            Self::FreshTimes => prices.fresh_times,
            Self::HardTimes => prices.hard_times,
            Self::Making => match prices.making {
                Making::ByMinute(cents) => cents / 100.0,
                Making::ShareOnTop(share) | Making::ShareOfWhole(share) => share * 100.0,
            },
            Self::RoundUpTo => prices.round_up_to.0 as f64 / 100.0,
            Self::Deposit => prices.deposit * 100.0,
            Self::Rush => prices.rush * 100.0,
            Self::Spare => style.spare * 100.0,
        })
    }

    fn put(self, style: &HouseStyle, value: f64) -> Result<HouseStyle, String> {
        let mut after = style.clone();
        let share = value / 100.0;
        let (shape, minutes, prices) = (&mut after.shape, &mut after.minutes, &mut after.prices);
        match self {
            Self::WidthOfGirth => shape.width_of_girth = share,
            Self::RatioFrom => shape.length_to_width[0] = value,
            Self::RatioTo => shape.length_to_width[1] = value,
            Self::Height => shape.height_mm = value,
            Self::Room => shape.room_mm = value,
            Self::FullFrom => shape.fullness[0] = value,
            Self::FullTo => shape.fullness[1] = value,
            Self::HiddenShare => shape.hidden_share = share,
            Self::Protrusion => shape.protrusion_mm = value,
            Self::Mass => shape.mass_g = value,
            Self::UnevenFrom => shape.uneven_from = value,
            Self::Weight(question) => after = after.weighing(question, value),
            Self::SizeLength(size) => {
                if let Some(size) = after.sizes.get_mut(size) {
                    size.length_mm = value;
                }
            }
            Self::SizeWidth(size) => {
                if let Some(size) = after.sizes.get_mut(size) {
                    size.width_mm = value;
                }
            }
            Self::Held(size, nth) => {
                let held = after.sizes.get_mut(size).and_then(|s| s.holds.get_mut(nth));
                if let Some(held) = held {
                    held.count = floor_u32(value);
                }
            }
            Self::WristBase => minutes.wrist_base = value,
            Self::LapelBase => minutes.lapel_base = value,
            Self::BowMinutes => minutes.bow = value,
            Self::Each(role) => drop(minutes.each.insert(role, value)),
            Self::FreshTimes => prices.fresh_times = value,
            Self::HardTimes => prices.hard_times = value,
            Self::Making => {
                prices.making = match MakingHow::of(prices.making) {
                    MakingHow::ByMinute => Making::ByMinute(value * 100.0),
                    MakingHow::OnTop => Making::ShareOnTop(share),
                    MakingHow::OfWhole => Making::ShareOfWhole(share),
                }
            }
            Self::RoundUpTo => prices.round_up_to = Cents::nearest(value * 100.0),
            Self::Deposit => prices.deposit = share,
            Self::Rush => prices.rush = share,
            Self::Spare => after.spare = share,
        }
        self.is_in_order(&after).then_some(after).ok_or_else(|| words::from_to(self, style))
    }

    /// Whether a pair of limits still runs from the smaller to the larger.
    fn is_in_order(self, style: &HouseStyle) -> bool {
        let [ratio, full] = [style.shape.length_to_width, style.shape.fullness];
        match self {
            Self::RatioFrom | Self::RatioTo => ratio[0] <= ratio[1],
            Self::FullFrom | Self::FullTo => full[0] <= full[1],
            _ => true,
        }
    }

    /// The bounds are those of a style's file or narrower; our choice.
    pub(super) fn span(self, style: &HouseStyle) -> FigureSpan {
        let (kind, least, most, step) = match self {
            Self::WidthOfGirth => (FigureKind::Percent, 5.0, 100.0, 1.0),
            Self::RatioFrom | Self::RatioTo => (FigureKind::Number, 0.1, 10.0, 0.1),
            Self::Height => (FigureKind::Length, 5.0, 200.0, 1.0),
            Self::Room => (FigureKind::Length, 1.0, 100.0, 1.0),
            Self::FullFrom | Self::FullTo => (FigureKind::Number, 0.0, 10.0, 0.05),
            Self::HiddenShare | Self::Deposit => (FigureKind::Percent, 0.0, 100.0, 5.0),
            Self::Protrusion => (FigureKind::Length, 0.1, 100.0, 1.0),
            Self::Mass => (FigureKind::Number, 1.0, 1000.0, 5.0),
            Self::UnevenFrom => (FigureKind::Number, 1.0, 10.0, 0.05),
            Self::Weight(_) => (FigureKind::Number, 0.0, 100.0, 1.0),
            Self::SizeLength(_) | Self::SizeWidth(_) => {
                (FigureKind::Length, *super::OVALS_MM.start(), *super::OVALS_MM.end(), 2.0)
            }
            Self::Held(..) => (FigureKind::Whole, 0.0, 100.0, 1.0),
            Self::WristBase | Self::LapelBase | Self::BowMinutes | Self::Each(_) => {
                (FigureKind::Number, 0.0, 240.0, 0.5)
            }
            Self::FreshTimes | Self::HardTimes => (FigureKind::Number, 0.0, 20.0, 0.1),
            Self::Making => match style.prices.making {
                Making::ByMinute(_) => (FigureKind::Money, 0.0, 10.0, 0.05),
                Making::ShareOnTop(_) => (FigureKind::Percent, 0.0, 500.0, 1.0),
                Making::ShareOfWhole(_) => (FigureKind::Percent, 0.0, 95.0, 1.0),
            },
            Self::RoundUpTo => (FigureKind::Money, 0.01, 1000.0, 0.5),
            Self::Rush | Self::Spare => (FigureKind::Percent, 0.0, 200.0, 1.0),
        };
        FigureSpan { kind, least, most, step }
    }
}

impl HouseStyle {
    /// The style with this weight for a question; one of nothing is not asked.
    #[must_use]
    pub fn weighing(mut self, question: Question, weight: f64) -> Self {
        if weight > 0.0 {
            self.weights.insert(question, weight);
        } else {
            self.weights.remove(&question);
        }
        self
    }
}

/// Up to three digits after the point, none that says nothing.
fn plain(value: f64) -> String {
    let words = format!("{value:.3}");
    words.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// `0.4`, `0,4`, `40 %`, `12 min`, `$0.75`, `x 3.5`: the number in it.
fn number(words: &str, currency: &Currency) -> Option<f64> {
    let bare = currency.without(words).trim_start_matches(['x', '\u{d7}']).trim();
    let bare = ["%", "minutes", "min", "g"].iter().find_map(|unit| bare.strip_suffix(unit)).unwrap_or(bare).trim();
    let bare = with_a_point(bare);
    let reads = !bare.is_empty() && bare.bytes().all(|b| b.is_ascii_digit() || b == b'.');
    bare.parse().ok().filter(|v: &f64| reads && v.is_finite())
}

/// Money has whole cents.
fn money(value: f64) -> Option<f64> {
    let cents = Cents::nearest(value * 100.0);
    ((value * 100.0 - cents.0 as f64).abs() < 1e-6).then_some(value)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::store::{built_in_stock, built_in_style, style_from_text, style_to_text};

    /// Every figure that the built-in style has.
    fn all(style: &HouseStyle) -> Vec<StyleFigure> {
        use StyleFigure as F;
        let mut all = vec![
            F::WidthOfGirth,
            F::RatioFrom,
            F::RatioTo,
            F::Height,
            F::Room,
            F::FullFrom,
            F::FullTo,
            F::HiddenShare,
            F::Protrusion,
            F::Mass,
            F::UnevenFrom,
            F::WristBase,
            F::LapelBase,
            F::BowMinutes,
            F::FreshTimes,
            F::HardTimes,
            F::Making,
            F::RoundUpTo,
            F::Deposit,
            F::Rush,
            F::Spare,
        ];
        all.extend(Question::ALL.map(F::Weight));
        all.extend(Role::ALL.map(F::Each));
        for (n, size) in style.sizes.iter().enumerate() {
            all.extend([F::SizeLength(n), F::SizeWidth(n)]);
            all.extend((0..size.holds.len()).map(|nth| F::Held(n, nth)));
        }
        all
    }

    #[test]
    fn what_is_shown_can_be_written_and_changes_nothing() {
        let style = built_in_style();
        for figure in all(&style) {
            let shown = figure.shown(&style).unwrap();
            assert_eq!(figure.write(&style, &shown).as_ref(), Ok(&style), "{figure:?}: {shown}");
            let with_unit = format!("{shown} {}", figure.unit(&style));
            if !matches!(figure, StyleFigure::Making | StyleFigure::RoundUpTo) {
                assert_eq!(figure.write(&style, with_unit.trim()).as_ref(), Ok(&style), "{figure:?}: {with_unit}");
            }
        }
        assert_eq!(StyleFigure::Making.write(&style, "$0.75").as_ref(), Ok(&style));
        assert_eq!(StyleFigure::WidthOfGirth.write(&style, "40,0 %").as_ref(), Ok(&style));
        assert_eq!(StyleFigure::Height.write(&style, "4.5 cm").as_ref(), Ok(&style));
    }

    #[test]
    fn whatever_can_be_written_can_be_kept_and_read_again() {
        let (style, stock) = (built_in_style(), built_in_stock());
        for how in MakingHow::ALL {
            let mut style = style.clone();
            style.prices.making = how.usual();
            for figure in all(&style) {
                let span = figure.span(&style);
                for end in [span.least, span.most, (span.least + span.most) / 3.0] {
                    let Ok(after) = figure.write(&style, &plain(end)) else { continue };
                    let back = style_from_text(&style_to_text(&after), "s.ron", &style, &stock);
                    let back = back.unwrap_or_else(|why| panic!("{figure:?} at {end}: {why}"));
                    assert_eq!(back, after, "{figure:?} at {end}");
                }
            }
        }
    }

    #[test]
    fn what_does_not_belong_there_is_a_sentence_that_says_what_does() {
        let style = built_in_style();
        for figure in all(&style) {
            for words in ["", "abc", "-1", "1e9", "99999", "nan", "..", "1 2 x"] {
                let said = figure.write(&style, words).unwrap_err();
                assert!(said.ends_with('.') && said.starts_with(&figure.name(&style)), "{figure:?}, {words}: {said}");
                assert!(said.chars().count() <= 90, "{}: {said}", said.chars().count());
            }
        }
        let fixed = all(&style).into_iter().filter(|f| !matches!(f, StyleFigure::Held(..)));
        for name in fixed.map(|f| f.name(&style)) {
            assert!(name.chars().count() <= 24, "{name}");
        }
        assert!(StyleFigure::RatioFrom.write(&style, "3").unwrap_err().contains("smaller number"));
        assert!(StyleFigure::RoundUpTo.write(&style, "0.005").unwrap_err().contains("an amount from 0.01"));
        assert!(StyleFigure::Held(0, 0).write(&style, "2.5").unwrap_err().contains("a whole number"));
    }

    #[test]
    fn a_tap_goes_to_the_next_whole_step_and_stops_at_the_ends() {
        let style = built_in_style();
        let up = StyleFigure::WidthOfGirth.stepped(&style, true).unwrap();
        assert_eq!(StyleFigure::WidthOfGirth.shown(&up).as_deref(), Some("41"));
        assert_eq!(StyleFigure::WidthOfGirth.stepped(&up, false), Ok(style.clone()));
        let odd = StyleFigure::Deposit.write(&style, "33").unwrap();
        let next = |up| StyleFigure::Deposit.shown(&StyleFigure::Deposit.stepped(&odd, up).unwrap());
        assert_eq!((next(true).as_deref(), next(false).as_deref()), (Some("35"), Some("30")));
        let none = StyleFigure::Spare.write(&style, "0").unwrap();
        assert_eq!(StyleFigure::Spare.stepped(&none, false).as_ref(), Ok(&none));
        // A house that rounds to the cent comes to whole steps from there.
        let cent = StyleFigure::RoundUpTo.write(&style, "0.01").unwrap();
        assert_eq!(StyleFigure::RoundUpTo.stepped(&cent, true).unwrap().prices.round_up_to, Cents(50));
    }

    #[test]
    fn a_question_without_weight_is_not_asked() {
        let style = built_in_style();
        let off = StyleFigure::Weight(Question::Balance).write(&style, "0").unwrap();
        assert!(!off.weights.contains_key(&Question::Balance));
    }
}
