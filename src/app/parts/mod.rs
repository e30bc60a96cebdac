//! Parts that more than one page is made of.

pub(crate) mod board;
pub(crate) mod colour_vision;
pub(crate) mod compare_tabs;
pub(crate) mod field;
pub(crate) mod page_head;
pub(crate) mod pair;
pub(crate) mod price_shown;
pub(crate) mod said;
pub(crate) mod stopped;
pub(crate) mod tap_keys;
