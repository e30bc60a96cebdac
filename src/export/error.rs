//! Why a paper or a picture could not be written.

use thiserror::Error;

/// Why something could not be written.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum ExportError {
    /// A size in it is beyond what a PDF can hold.
    #[error(
        "\u{201c}{title}\u{201d} could not be made as a PDF. Look for a size in the order that is far too large; picture and lists \
         can still be made."
    )]
    NotLaidOut {
        /// What the paper is called.
        title: String,
    },
    /// Labels beyond the edges of their paper.
    #[error("Labels of {width} x {height} mm in all do not fit on {paper} ({} x {} mm).", on.0, on.1)]
    LabelsTooLarge {
        /// All labels side by side, mm.
        width: f64,
        /// All labels above each other, mm.
        height: f64,
        /// The paper.
        paper: &'static str,
        /// Its size, mm.
        on: (f64, f64),
    },
    /// Labels on which nothing can be read, or of which there are none.
    #[error("A label is at least {width} x {height} mm, with at most {most} in a row.")]
    LabelsTooSmall {
        /// Least width, mm.
        width: f64,
        /// Least height, mm.
        height: f64,
        /// Most in a row or a column.
        most: u32,
    },
    /// Words that tell no sheet of labels.
    #[error("\u{201c}{typed}\u{201d} is no sheet of labels: letter-30, a4-24, or like a4 3x8 63.5x33.9.")]
    LabelsNotRead {
        /// As they were typed.
        typed: String,
    },
    /// A first label that the sheet does not have.
    #[error("The sheet has labels 1 to {last}: there is none to begin with at {first}.")]
    NoSuchLabel {
        /// The one asked for.
        first: u32,
        /// How many there are.
        last: u32,
    },
}
