//! All tests that stand outside the crate, in one program, so that it is linked once.

#![expect(clippy::unwrap_used, reason = "a test that cannot go on should stop")]

mod avoid;
mod colour;
mod colour_commands;
mod commands;
mod counter;
mod gallery;
mod geometry;
mod house;
mod labels;
mod letterhead;
mod market;
mod money;
mod needs;
mod once_over;
mod one_result;
mod papers;
mod papers_for_the_bench;
mod picture;
mod season;
mod set_out;
mod set_out_gallery;
mod stems_and_price;
mod stopped_outlets;
mod store_files;
mod store_kill;
mod store_orders;
mod store_panic;
mod store_photos;
mod store_stock;
mod support;
mod weekend;
mod words;
mod worn_safely;
