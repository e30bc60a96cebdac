//! The wrist sheet: the picture, what is drawn over it, the trays, and the layouts on offer.

pub(crate) mod layouts;
pub(crate) mod layouts_panel;
pub(crate) mod part_actions;
pub(crate) mod room;
mod tray_shelf;
pub(crate) mod trays;
pub(crate) mod wrist_sheet;

/// Height of the trays, and of the line above them, which holds the colours of what was picked; points.
pub(crate) const TRAYS_HIGH: f32 = 178.0;
pub(crate) const HINT_HIGH: f32 = 48.0;
