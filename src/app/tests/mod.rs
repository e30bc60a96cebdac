//! The window without a screen, driven by name.

mod counter_walks;
mod dark;
mod dress;
mod harness;
mod layout_walks;
mod sketch;
mod wearers;
mod wet_hands;
