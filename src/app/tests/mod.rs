//! The window without a screen: `dark` looks at what is painted and told, `harness` drives it by name.

mod client;
mod colour;
mod counter;
mod counter_walks;
mod dark;
mod dark_window;
mod dress;
mod fields;
mod hands;
mod harness;
mod layout_walks;
mod layouts;
mod papers;
mod preload;
mod recovery;
mod sample_shop;
mod seen;
mod shop_files;
mod sketch;
mod style;
mod taps;
mod wearer;
mod wearers;
mod wet_hands;
