//! Every texture of the window in one place. Painting fills them as it needs them and nothing else is changed by it: they
//! are a cache, and whatever they hold can be drawn again.

use std::cell::RefCell;

use crate::app::picture::boards::Boards;
use crate::app::picture::canvas::Canvas;
use crate::app::picture::heads::HeadImages;
use crate::app::picture::thumbs::Thumbs;

/// The textures.
pub(crate) struct Images {
    /// The wrist sheet.
    pub(crate) sheet: RefCell<Canvas>,
    /// `HeadImages` for the trays and the hand.
    pub(crate) heads: RefCell<HeadImages>,
    /// Pieces on boards beside each other.
    pub(crate) boards: RefCell<Boards>,
    /// The piece before the dress.
    pub(crate) preview: RefCell<Canvas>,
    /// Saved orders in their list.
    pub(crate) thumbs: RefCell<Thumbs>,
}

impl Images {
    pub(crate) fn new() -> Self {
        Self {
            sheet: RefCell::new(Canvas::new()),
            heads: RefCell::new(HeadImages::new()),
            boards: RefCell::default(),
            preview: RefCell::new(Canvas::patient()),
            thumbs: RefCell::default(),
        }
    }

    /// Whether one of them could not be drawn since this was last asked.
    pub(crate) fn take_failure(&mut self) -> bool {
        // Both are asked, so that one sentence stands for all.
        let sheet = self.sheet.get_mut().take_failure();
        self.boards.get_mut().take_failure() || sheet
    }

    /// Another order is open: nothing of the one before is shown.
    pub(crate) fn forget(&self) {
        self.sheet.borrow_mut().clear();
        self.boards.take();
        self.preview.replace(Canvas::patient());
    }
}
