//! What is reckoned from a piece: stem list, goods, minutes, price. Rows and figures, no formatting.
//!
//! Money is reckoned in f64 cents and becomes whole [`crate::units::Cents`] only where a person reads it, so that a
//! sprig of 12.5 cents keeps its half. Knows nothing of pictures, files or screens.

mod agree;
mod cautions;
mod minutes;
mod offers;
mod price;
mod price_words;
mod quote;
mod stem_list;

pub use agree::{agree, changed_since_agreed};
pub use cautions::cautions_of;
pub use minutes::making_minutes;
pub use offers::{Difference, PurseAnswer, SizeOffer, fits_purse, sizes_side_by_side};
pub use price::{Price, ShareOfThree, making_from_whole, worked_price};
pub use price_words::{
    WHY_BELOW, below_words_my_side, difference_words, price_difference, purse_words, share_words, short_price,
    tax_words,
};
pub use quote::{MySide, Quote, QuoteLine, TaxLine, quote, taxed};
pub use stem_list::{HardLine, StemLine, StemList, bow_ribbon_mm, stem_list};
