//! The wrist sheet: the picture, what is drawn over it, the trays, and the layouts on offer.

pub(crate) mod canvas;
pub(crate) mod colour_vision;
pub(crate) mod layouts;
pub(crate) mod layouts_panel;
pub(crate) mod overlay;
pub(crate) mod pair;
pub(crate) mod part_actions;
pub(crate) mod trays;
pub(crate) mod wrist_sheet;
