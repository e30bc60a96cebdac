//! Orders: who wears the piece, for which dance, and the piece itself.

mod order;

pub use order::{Change, Order};
