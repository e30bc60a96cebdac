//! What every room paints with: colours, buttons, icons, letters. Knows no order and no page.

pub(crate) mod controls;
pub(crate) mod icons;
pub(crate) mod naming;
pub(crate) mod plate;
pub(crate) mod points;
pub(crate) mod tap_board;
pub(crate) mod theme;
pub(crate) mod thumbs;
pub(crate) mod today;
pub(crate) mod words;
