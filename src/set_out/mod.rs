//! Proposals: edits that would make a piece better. Nothing here changes a piece, and nothing locked ever moves.

mod even_out;
mod fill;

pub use even_out::even_out;
pub use fill::{filler_for, next_place};
