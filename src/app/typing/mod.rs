//! What is typed: the fields there are, what stands in them while it is not part of the order, and the keys on the screen.

pub(crate) mod field;
pub(crate) mod taps;
pub(crate) mod typed;
