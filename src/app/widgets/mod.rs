//! What every room paints with: colours, buttons, icons, keys, words. Knows no order and no page.

pub(crate) mod controls;
pub(crate) mod finger;
pub(crate) mod icons;
pub(crate) mod keys;
pub(crate) mod naming;
pub(crate) mod paper_words;
pub(crate) mod plate;
pub(crate) mod points;
pub(crate) mod theme;
pub(crate) mod today;
pub(crate) mod words;
