//! Colours: reading, comparing and naming them, what a photo says about one, and how they look to other eyes.
//!
//! Knows nothing of flowers and opens no file. Two measures are used, each for one thing: CIEDE2000 for comparing and
//! naming, OKLab for mixing, shading and whatever is done to pixels. A colour on a screen or in a photo is a guide;
//! [`CAVEAT`] says so wherever one is shown.

mod clusters;
mod difference;
mod everyday;
mod grey_card;
mod harmony;
mod light;
mod name_table;
mod names;
mod photo;
mod region;
mod rgb;
mod swatches;
mod vision;
mod vision_table;
mod warnings;

pub use clusters::{MainColour, main_colours};
pub use difference::{Lab, Likeness, Ranked, lab_difference, rank};
pub use everyday::everyday_name;
pub use grey_card::{CardDoubt, GreyCard, adapted};
pub use harmony::{HueTemplate, PaletteWords, Relation, is_pastel, palette_words, relation};
pub use light::{from_linear, linear_of, xyz_of};
pub use names::{ColourName, name_of};
pub use photo::{Photo, ProfileUse, Reading, USUAL_LIGHT, read_region};
pub use region::PhotoRegion;
pub use rgb::{NEUTRAL_CHROMA, Rgb};
pub use swatches::{Swatch, swatch_named, swatches};
pub use vision::{Eyes, Vision};
pub use warnings::{CAVEAT, ColourWarning, against_dress, warnings};
