//! Why a paper or a picture could not be written.

use thiserror::Error;

/// Why something could not be written.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
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
}
