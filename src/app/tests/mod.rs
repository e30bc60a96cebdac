//! The window without a screen.

mod client;
mod colour;
mod counter;
pub(crate) mod dark;
mod fields;
mod style;
mod taps;
mod wearer;
