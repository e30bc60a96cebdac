//! The window without a screen: `dark` looks at what is painted and told, `harness` drives it by name.

mod client;
mod colour;
mod counter;
mod counter_walks;
mod dark;
mod dress;
mod fields;
mod harness;
mod layout_walks;
mod layouts;
mod papers;
mod preload;
mod recovery;
mod shop_files;
mod sketch;
mod style;
mod taps;
mod wearer;
mod wearers;
mod wet_hands;
