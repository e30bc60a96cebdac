//! Scenes to bytes: pixels, PNG, SVG. Opens no file.

mod pixels;
mod png_file;
mod svg_file;

pub use pixels::{Finish, Pixels, raster, view_of};
pub use png_file::png_of;
pub use svg_file::svg_of;
