//! Lengths: read as people type them, kept in millimetres, printed back the way they were typed.
//!
//! `155` is millimetres, `15.5 cm` and `6.25 in` say so, a fraction (`6 1/4`) means inches. A bare number that is far
//! off what is being measured is not guessed at: the reader gets a [`Doubt`] to ask.

use std::fmt;
use std::ops::RangeInclusive;

use super::nearest_whole;

/// Exact by definition since 1959 (international yard and pound agreement).
pub const MM_PER_INCH: f64 = 25.4;

/// The finest fraction of an inch that a tape measure shows; common practice, no source.
const SIXTEENTHS: u32 = 16;

/// The unit a length was typed in, so that it can be shown again the same way.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LengthUnit {
    /// Millimetres.
    Millimetre,
    /// Centimetres.
    Centimetre,
    /// Inches with a decimal point.
    DecimalInch,
    /// Inches with a fraction.
    FractionInch,
}

/// A length with the words it came in.
#[derive(Clone, Debug, PartialEq)]
pub struct Length {
    mm: f64,
    typed: String,
    unit: LengthUnit,
}

/// A length that could not be taken as typed.
#[derive(Clone, Debug, PartialEq)]
pub enum Doubt {
    /// Readable, but far off what is measured; `meant` is the likely length.
    Ask {
        /// What was typed.
        typed: String,
        /// What was probably meant.
        meant: Length,
    },
    /// Nothing that reads as a length, or no likely meaning.
    Unreadable {
        /// What was typed.
        typed: String,
        /// The least and the most that is taken, mm.
        usual_mm: (f64, f64),
    },
}

impl Length {
    /// A length that nobody typed: shown in millimetres.
    pub fn from_mm(mm: f64) -> Self {
        Self { mm, typed: mm_text(mm), unit: LengthUnit::Millimetre }
    }

    /// The length in millimetres.
    pub fn mm(&self) -> f64 {
        self.mm
    }

    /// The words as typed.
    pub fn typed(&self) -> &str {
        &self.typed
    }

    /// The unit it is shown in: the one it was typed in, unless another was asked for.
    pub fn unit(&self) -> LengthUnit {
        self.unit
    }

    /// The same length, to be shown in another unit. What was typed stays what was typed, so nothing is lost by looking.
    pub fn shown_in(&self, unit: LengthUnit) -> Self {
        Self { unit, ..self.clone() }
    }

    /// Reads a length without asking whether it is likely; `None` when the words are no length.
    pub fn parse(text: &str) -> Option<Self> {
        let typed = text.trim().to_owned();
        let lower = typed.to_lowercase().replace(',', ".");
        let (number, unit) = split_unit(&lower)?;
        let (value, is_fraction) = parse_number(number)?;
        let (mm, unit) = match unit {
            Some(LengthUnit::Millimetre) => (value, LengthUnit::Millimetre),
            Some(LengthUnit::Centimetre) => (value * 10.0, LengthUnit::Centimetre),
            Some(_) if !is_fraction => (value * MM_PER_INCH, LengthUnit::DecimalInch),
            Some(_) => (value * MM_PER_INCH, LengthUnit::FractionInch),
            None if is_fraction => (value * MM_PER_INCH, LengthUnit::FractionInch),
            None => (value, LengthUnit::Millimetre),
        };
        mm.is_finite().then_some(Self { mm, typed, unit })
    }

    /// Reads a length that should fall within `usual_mm`. A bare number outside it is tried as centimetres, inches and
    /// metres, and the first likely meaning is asked about.
    pub fn parse_within(text: &str, usual_mm: &RangeInclusive<f64>) -> Result<Self, Doubt> {
        let unreadable =
            || Doubt::Unreadable { typed: text.trim().to_owned(), usual_mm: (*usual_mm.start(), *usual_mm.end()) };
        let read = Self::parse(text).ok_or_else(unreadable)?;
        if usual_mm.contains(&read.mm) {
            return Ok(read);
        }
        let bare = read.typed.bytes().all(|b| b.is_ascii_digit() || b == b'.' || b == b',');
        let scales = [10.0, MM_PER_INCH, 100.0, 1000.0, 0.1];
        let meant = scales.iter().map(|s| read.mm * s).find(|mm| bare && usual_mm.contains(mm));
        Err(meant.map_or_else(unreadable, |mm| Doubt::Ask { typed: read.typed.clone(), meant: Self::from_mm(mm) }))
    }

    /// The length in its own unit and, where that is inches, the millimetres beside it: `6 1/4 in (159 mm)`.
    pub fn shown(&self) -> String {
        match self.unit {
            LengthUnit::Millimetre | LengthUnit::Centimetre => format!("{} mm", mm_text(self.mm)),
            LengthUnit::DecimalInch | LengthUnit::FractionInch => {
                format!("{} in ({:.0} mm)", inches_text(self.mm), self.mm)
            }
        }
    }

    /// `mm` written in this length's unit, with millimetres beside inches: `2 1/2 in (63.5 mm)`.
    pub fn like_this(&self, mm: f64) -> String {
        self.unit.text(mm)
    }
}

impl LengthUnit {
    /// A length written in this unit alone: `2 1/2 in`.
    pub fn short(self, mm: f64) -> String {
        match self {
            Self::Millimetre | Self::Centimetre => format!("{} mm", mm_text(mm)),
            Self::DecimalInch | Self::FractionInch => format!("{} in", inches_text(mm)),
        }
    }

    /// A length written in this unit, with millimetres beside inches: `2 1/2 in (63.5 mm)`.
    pub fn text(self, mm: f64) -> String {
        match self {
            Self::Millimetre | Self::Centimetre => format!("{} mm", mm_text(mm)),
            Self::DecimalInch | Self::FractionInch => format!("{} in ({} mm)", inches_text(mm), mm_text(mm)),
        }
    }

    /// Length and width in this unit: `90 x 54 mm`, `3 9/16 x 2 1/8 in`, with a true multiplication sign.
    pub fn area_text(self, long_mm: f64, wide_mm: f64) -> String {
        let long = if self.is_inch() { inches_text(long_mm) } else { mm_text(long_mm) };
        format!("{long} \u{d7} {}", self.short(wide_mm))
    }

    /// A length to be cut from a roll, up to the next whole millimetre or quarter of an inch, so that it is never short.
    pub fn cut_text(self, mm: f64) -> String {
        /// What a computed length may be above a whole step by noise alone, in steps.
        const NOISE: f64 = 1e-6;
        let step = if self.is_inch() { MM_PER_INCH / 4.0 } else { 1.0 };
        self.short((mm / step - NOISE).ceil() * step)
    }

    /// Whether it is a kind of inch.
    pub fn is_inch(self) -> bool {
        match self {
            Self::Millimetre | Self::Centimetre => false,
            Self::DecimalInch | Self::FractionInch => true,
        }
    }
}

impl fmt::Display for Doubt {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Ask { meant, .. } => write!(f, "do you mean {} mm?", mm_text(meant.mm)),
            Self::Unreadable { typed, usual_mm: (least, most) } => write!(
                f,
                "\u{201c}{typed}\u{201d} is not a length from {} to {} mm. Type 155, 15.5 cm or 6 1/4 in.",
                mm_text(*least),
                mm_text(*most)
            ),
        }
    }
}

/// Millimetres with at most one digit after the point: `155`, `63.5`.
pub fn mm_text(mm: f64) -> String {
    let tenths = (mm * 10.0).round() / 10.0 + 0.0;
    if tenths.fract() == 0.0 { format!("{tenths:.0}") } else { format!("{tenths:.1}") }
}

/// Inches to the nearest sixteenth, as a fraction in lowest terms: `6 1/4`, `2 1/2`, `3/8`, `7`.
pub fn inches_text(mm: f64) -> String {
    let all = nearest_whole(mm.abs() / MM_PER_INCH * f64::from(SIXTEENTHS));
    let (whole, mut top, mut bottom) = (all / i64::from(SIXTEENTHS), all % i64::from(SIXTEENTHS), SIXTEENTHS);
    while top > 0 && top % 2 == 0 {
        top /= 2;
        bottom /= 2;
    }
    let sign = if mm < 0.0 && all > 0 { "-" } else { "" };
    match (whole, top) {
        (_, 0) => format!("{sign}{whole}"),
        (0, _) => format!("{sign}{top}/{bottom}"),
        _ => format!("{sign}{whole} {top}/{bottom}"),
    }
}

fn split_unit(text: &str) -> Option<(&str, Option<LengthUnit>)> {
    const ENDINGS: [(&str, LengthUnit); 8] = [
        ("mm", LengthUnit::Millimetre),
        ("cm", LengthUnit::Centimetre),
        ("inches", LengthUnit::DecimalInch),
        ("inch", LengthUnit::DecimalInch),
        ("in.", LengthUnit::DecimalInch),
        ("in", LengthUnit::DecimalInch),
        ("\"", LengthUnit::DecimalInch),
        ("\u{2033}", LengthUnit::DecimalInch),
    ];
    let text = text.trim();
    let found = ENDINGS.iter().find_map(|&(ending, unit)| text.strip_suffix(ending).map(|rest| (rest, unit)));
    match found {
        Some((rest, unit)) => Some((rest.trim(), Some(unit))),
        None => (!text.is_empty()).then_some((text, None)),
    }
}

/// A decimal, a fraction, or a whole number and a fraction; the flag tells whether there was a fraction.
fn parse_number(text: &str) -> Option<(f64, bool)> {
    const GLYPHS: [(char, &str); 9] = [
        ('\u{bc}', " 1/4"),
        ('\u{bd}', " 1/2"),
        ('\u{be}', " 3/4"),
        ('\u{215b}', " 1/8"),
        ('\u{215c}', " 3/8"),
        ('\u{215d}', " 5/8"),
        ('\u{215e}', " 7/8"),
        ('\u{2044}', "/"),
        ('-', " "),
    ];
    if text.starts_with('-') {
        return None;
    }
    let plain = GLYPHS.iter().fold(text.to_owned(), |t, &(glyph, words)| t.replace(glyph, words));
    let words: Vec<&str> = plain.split_whitespace().collect();
    match words[..] {
        [one] if one.contains('/') => Some((parse_fraction(one)?, true)),
        [one] => Some((parse_decimal(one)?, false)),
        [whole, part] if part.contains('/') && whole.bytes().all(|b| b.is_ascii_digit()) => {
            Some((parse_decimal(whole)? + parse_fraction(part)?, true))
        }
        _ => None,
    }
}

fn parse_fraction(text: &str) -> Option<f64> {
    let (top, bottom) = text.split_once('/')?;
    let (top, bottom): (u32, u32) = (top.parse().ok()?, bottom.parse().ok()?);
    (bottom > 0).then(|| f64::from(top) / f64::from(bottom))
}

/// Digits with at most one point; no sign, no exponent, no words such as `inf`.
fn parse_decimal(text: &str) -> Option<f64> {
    let plain = text.bytes().all(|b| b.is_ascii_digit() || b == b'.') && text.bytes().any(|b| b.is_ascii_digit());
    if plain && text.len() <= 12 { text.parse().ok() } else { None }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What a wrist girth may be; any range would do here.
    const USUAL: RangeInclusive<f64> = 90.0..=260.0;

    #[test]
    fn lengths_read_as_people_type_them() {
        for (text, mm) in [
            ("155", 155.0),
            ("155 mm", 155.0),
            ("15.5 cm", 155.0),
            ("15,5cm", 155.0),
            ("6 1/4", 158.75),
            ("6-1/4 in", 158.75),
            ("6\u{bc}\"", 158.75),
            ("6.25 in", 158.75),
            ("5/8", 15.875),
        ] {
            assert!((Length::parse(text).unwrap().mm() - mm).abs() < 1e-9, "{text}");
        }
        for text in ["", "mm", "-5", "1e3", "inf", "NaN", "6 1/0", "6 7", "a 1/2", "1.2.3", "99999999999999"] {
            assert_eq!(Length::parse(text), None, "{text}");
        }
    }

    #[test]
    fn a_quarter_inch_stays_a_quarter_inch_however_often_the_unit_changes() {
        let girth = Length::parse_within("6 1/4", &USUAL).unwrap();
        assert_eq!(girth.shown(), "6 1/4 in (159 mm)");
        assert_eq!(girth.like_this(girth.mm() * 0.40), "2 1/2 in (63.5 mm)");
        let mut looked_at = girth.clone();
        for _ in 0..5 {
            looked_at = looked_at.shown_in(LengthUnit::Millimetre);
            assert_eq!((looked_at.shown().as_str(), looked_at.like_this(63.5).as_str()), ("158.8 mm", "63.5 mm"));
            looked_at = looked_at.shown_in(LengthUnit::FractionInch);
        }
        assert_eq!(looked_at, girth, "looking loses nothing");
        let mut mm = girth.mm();
        for _ in 0..5 {
            mm = Length::parse(&format!("{mm} mm")).unwrap().mm();
            mm = Length::parse(&inches_text(mm)).map_or(mm, |l| l.mm());
        }
        assert_eq!((mm, inches_text(mm).as_str()), (158.75, "6 1/4"));
        assert_eq!(girth.typed(), "6 1/4");
    }

    /// By hand: 681 mm are 26.81 in, up to 27; 54 mm are 2.126 in, 2 1/8 to the sixteenth; 90 mm are 3.543, 3 9/16.
    #[test]
    fn a_unit_writes_lengths_areas_and_what_is_to_be_cut() {
        let (mm, inch) = (LengthUnit::Millimetre, LengthUnit::FractionInch);
        assert_eq!((mm.short(63.5), inch.short(63.5)), ("63.5 mm".to_owned(), "2 1/2 in".to_owned()));
        assert_eq!(mm.area_text(90.0, 54.0), "90 \u{d7} 54 mm");
        assert_eq!(inch.area_text(90.0, 54.0), "3 9/16 \u{d7} 2 1/8 in");
        for (length, in_mm, in_inches) in [
            (681.0, "681 mm", "27 in"),
            (680.2, "681 mm", "27 in"),
            (685.8, "686 mm", "27 in"),
            (686.0, "686 mm", "27 1/4 in"),
        ] {
            assert_eq!((mm.cut_text(length).as_str(), inch.cut_text(length).as_str()), (in_mm, in_inches), "{length}");
        }
    }

    #[test]
    fn a_bare_number_far_off_is_asked_about() {
        for (text, meant) in [("1.55", 155.0), ("15.5", 155.0), ("6.25", 158.75), ("1550", 155.0), ("0.155", 155.0)] {
            match Length::parse_within(text, &USUAL) {
                Err(Doubt::Ask { meant: m, .. }) => assert!((m.mm() - meant).abs() < 1e-9, "{text}: {m:?}"),
                other => panic!("{text}: {other:?}"),
            }
        }
        let Err(doubt) = Length::parse_within("1.55", &USUAL) else { panic!() };
        assert_eq!(doubt.to_string(), "do you mean 155 mm?");
        assert!(matches!(Length::parse_within("4 mm", &USUAL), Err(Doubt::Unreadable { .. })));
        assert!(matches!(Length::parse_within("about six", &USUAL), Err(Doubt::Unreadable { .. })));
    }

    #[test]
    fn inches_print_in_lowest_terms() {
        for (mm, text) in [(0.0, "0"), (12.7, "1/2"), (25.4, "1"), (38.1, "1 1/2"), (9.525, "3/8"), (-12.7, "-1/2")] {
            assert_eq!(inches_text(mm), text);
        }
    }
}
