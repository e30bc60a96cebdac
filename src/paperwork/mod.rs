//! What is reckoned from a piece: stem list, goods, minutes, price. Rows and figures, no formatting.
//!
//! Money is reckoned in f64 cents and becomes whole [`crate::units::Cents`] only where a person reads it, so that a
//! sprig of 12.5 cents keeps its half. Knows nothing of pictures, files or screens.

mod cautions;
mod colour_match;
mod minutes;
mod price;
mod stem_list;

pub use cautions::cautions_of;
pub use colour_match::{ColourRow, colour_match};
pub use minutes::making_minutes;
pub use price::{Price, making_from_whole, worked_price};
pub use stem_list::{HardLine, StemLine, StemList, bow_ribbon_mm, stem_list};
