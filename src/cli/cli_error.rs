//! Why a command line was not understood or a command failed.

use crate::export::ExportError;
use crate::store::StoreError;

/// Why a command line was not understood or a command failed, as whole sentences.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum CliError {
    /// The command line was not understood.
    #[error("{0}")]
    Usage(String),
    /// A file could not be opened or saved.
    #[error(transparent)]
    File(#[from] StoreError),
    /// A paper or a picture could not be made.
    #[error(transparent)]
    Export(#[from] ExportError),
    /// The command could not be done.
    #[error("{0}")]
    Failed(String),
}
