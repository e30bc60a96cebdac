//! The wrist sheet: the picture, what is drawn over it, the trays, and the layouts on offer.

pub(crate) mod layouts;
pub(crate) mod layouts_panel;
pub(crate) mod part_actions;
pub(crate) mod room;
pub(crate) mod trays;
pub(crate) mod wrist_sheet;
