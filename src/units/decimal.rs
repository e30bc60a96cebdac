//! The mark between a whole amount and its parts, as a shop writes it and as people type it.

/// What stands before the parts of a whole unit of money. The other mark parts thousands.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum DecimalMark {
    /// `12.50`
    #[default]
    Point,
    /// `12,50`
    Comma,
}

impl DecimalMark {
    /// Both.
    pub const ALL: [Self; 2] = [Self::Point, Self::Comma];

    /// The mark that most of these cells could only have: one or two digits behind it, or three behind the other.
    pub fn guess<'a>(cells: impl Iterator<Item = &'a str>) -> Self {
        let mut commas = 0_i32;
        for cell in cells {
            let digits: String = cell.chars().filter(|c| c.is_ascii_digit() || matches!(c, '.' | ',')).collect();
            let Some(at) = digits.rfind(['.', ',']) else { continue };
            let behind = digits.len() - at - 1;
            let has_both = digits.contains('.') && digits.contains(',');
            // Three digits behind a lone mark may be thousands of either.
            if has_both || matches!(behind, 1 | 2) {
                commas += if digits[at..].starts_with(',') { 1 } else { -1 };
            }
        }
        if commas > 0 { Self::Comma } else { Self::Point }
    }

    /// The mark, and the one that parts thousands.
    pub fn letters(self) -> (char, char) {
        match self {
            Self::Point => ('.', ','),
            Self::Comma => (',', '.'),
        }
    }

    /// A figure with a point, `36.50`, as the shop writes it.
    pub fn written(self, figure: &str) -> String {
        match self {
            Self::Point => figure.to_owned(),
            Self::Comma => figure.replace('.', ","),
        }
    }
}

/// A typed figure with a point where a lone comma stood: nobody parts thousands with a comma that two digits follow, and what
/// three follow is refused by whoever reads money.
pub fn with_a_point(typed: &str) -> String {
    if typed.contains('.') { typed.to_owned() } else { typed.replacen(',', ".", 1) }
}
