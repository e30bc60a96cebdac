//! What can take the middle of the window.

pub(crate) mod colour;
pub(crate) mod colour_rows;
pub(crate) mod dress_photo;
pub(crate) mod order_fields;
pub(crate) mod order_form;
pub(crate) mod page;
pub(crate) mod pictures;
pub(crate) mod price;
pub(crate) mod sizes;
pub(crate) mod stopped;
pub(crate) mod style;
pub(crate) mod style_files;
pub(crate) mod style_keys;
pub(crate) mod style_page;
pub(crate) mod style_rows;
pub(crate) mod suggestions;
pub(crate) mod variants;
