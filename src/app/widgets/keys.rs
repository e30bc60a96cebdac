//! Reading keys.

use egui::{EventFilter, Key, Modifiers, Ui};

/// Consumes a key that no text field wants.
pub(crate) fn take_key(ui: &Ui, modifiers: Modifiers, key: Key) -> bool {
    ui.input_mut(|i| i.consume_key(modifiers, key))
}

/// Arrows belong to whoever has the focus.
pub(crate) const ARROWS: EventFilter =
    EventFilter { tab: false, horizontal_arrows: true, vertical_arrows: true, escape: false };
