//! Why a file cannot be read as a photo, side by side: why, and what to do.

/// What is the matter with a photo.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PhotoFault {
    /// Nothing in it.
    Empty,
    /// Neither PNG nor JPEG.
    NotAPhoto,
    /// The file is larger than is read.
    TooManyBytes,
    /// The picture is larger than is read, whatever the file weighs.
    TooManyPixels {
        /// Width, pixels.
        width: u32,
        /// Height, pixels.
        height: u32,
    },
    /// It would take more memory than a photo may.
    TooMuchMemory,
    /// The end is missing.
    CutShort,
    /// It does not hold together.
    Damaged,
}

/// The most bytes of a photo that are read, megabytes. Our choice: phones stay below 15.
pub(super) const MOST_MEGABYTES: u64 = 40;
/// The longest side that is read, pixels. Our choice: more than any phone, and what a screen could never show.
pub(super) const LONGEST_SIDE: u32 = 12_000;

impl std::fmt::Display for PhotoFault {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.why())
    }
}

impl std::error::Error for PhotoFault {}

impl PhotoFault {
    pub(super) fn why(self) -> String {
        match self {
            Self::Empty => "it is empty".into(),
            Self::NotAPhoto => "it is not a JPEG or PNG picture".into(),
            Self::TooManyBytes => format!("it is larger than {MOST_MEGABYTES} MB"),
            Self::TooManyPixels { width, height } if width >= height => {
                format!("the picture is {} pixels wide; the most is {}", grouped(width), grouped(LONGEST_SIDE))
            }
            Self::TooManyPixels { height, .. } => {
                format!("the picture is {} pixels high; the most is {}", grouped(height), grouped(LONGEST_SIDE))
            }
            Self::TooMuchMemory => "the picture needs more than 256 MB of memory".into(),
            Self::CutShort => "part of the picture is missing".into(),
            Self::Damaged => "the picture is damaged".into(),
        }
    }

    pub(super) fn remedy(self) -> &'static str {
        match self {
            Self::NotAPhoto => "Choose a .jpg or .png photo.",
            Self::TooManyBytes | Self::TooManyPixels { .. } | Self::TooMuchMemory => {
                "Make it smaller, or crop it to the dress."
            }
            Self::Empty | Self::CutShort | Self::Damaged => "Copy it from the phone again, or choose another photo.",
        }
    }
}

impl PhotoFault {
    pub(super) fn remedy_for_logo(self) -> &'static str {
        match self {
            Self::NotAPhoto => "Choose a .png or .jpg picture.",
            Self::TooManyBytes | Self::TooManyPixels { .. } | Self::TooMuchMemory => "Choose a smaller copy of it.",
            Self::Empty | Self::CutShort | Self::Damaged => "Choose another copy of it.",
        }
    }
}

/// `20,000`.
fn grouped(n: u32) -> String {
    if n < 1000 { n.to_string() } else { format!("{},{:03}", n / 1000, n % 1000) }
}
