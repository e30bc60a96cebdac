//! The textures of pictures beside the sheet, by a name of their own.

use std::collections::BTreeMap;

use crate::app::picture::canvas::Canvas;

/// Pictures kept at once; our choice, more than any page shows.
const MOST: usize = 12;

/// The pictures.
#[derive(Default)]
pub(crate) struct Boards {
    canvases: BTreeMap<String, Canvas>,
}

impl Boards {
    /// Whether one of them could not be drawn since this was last asked.
    pub(crate) fn take_failure(&mut self) -> bool {
        // All are asked, so that one sentence stands for all.
        self.canvases.values_mut().filter_map(|canvas| canvas.take_failure().then_some(())).count() > 0
    }

    /// The picture of this name. One name always stands for the same piece at one revision of the order.
    pub(crate) fn of(&mut self, name: &str) -> &mut Canvas {
        if self.canvases.len() >= MOST && !self.canvases.contains_key(name) {
            self.canvases.clear();
        }
        self.canvases.entry(name.to_owned()).or_insert_with(Canvas::patient)
    }
}
