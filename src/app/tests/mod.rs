//! The window without a screen: `dark` looks at what is painted and told, `harness` drives it by name.

mod client;
mod colour;
mod counter;
mod counter_walks;
mod dark;
mod dark_window;
mod days;
mod dress;
mod fields;
mod finger;
mod hands;
mod harness;
mod layout_walks;
mod layouts;
mod many_orders;
#[cfg(unix)]
mod new_shop;
mod opening;
mod orders;
mod papers;
mod photograph;
mod preload;
mod recovery;
mod sample_shop;
mod seen;
mod shop_files;
mod shop_page;
mod sketch;
#[cfg(unix)]
pub(crate) mod stand_ins;
mod stock;
mod style;
mod taps;
mod wearer;
mod wearers;
mod weekend;
mod wet_hands;
