//! What the first frame will want, drawn while the window is being made: opening a screen takes longer than drawing a piece,
//! and leaves a core idle.
//!
//! It is a guess at the usual window. What turns out otherwise (another size, another order) is drawn as if nothing had been
//! drawn ahead.

use std::sync::mpsc::{Receiver, channel};

use crate::app::picture::canvas::Made;
use crate::app::picture::heads::{self, HeadKey};
use crate::app::sheet::trays;
use crate::app::sheet::wrist_sheet;
use crate::app::workers::picture_worker::{PictureLayer, layers};
use crate::app::workers::worker::start_thread;
use crate::export::{Finish, Pixels};
use crate::session::Session;

/// Pictures on their way from the thread that draws them.
pub(crate) struct Preloaded {
    /// `HeadImages` of the tray that is open at first. The way ends when all have been drawn.
    pub(crate) heads: Receiver<(HeadKey, Pixels)>,
    /// The sheet, quick.
    pub(crate) sheet: Receiver<(Made, Vec<PictureLayer>)>,
}

impl Preloaded {
    /// Begins to draw what a window on this order shows first.
    pub(crate) fn begin(session: &Session) -> Self {
        let (tell_head, heads) = channel();
        let (tell_sheet, sheet) = channel();
        let tray = trays::at_first(session);
        let (made, scene) = wrist_sheet::at_first(session);
        // Without a thread both ways end at once, and everything is drawn within its frame.
        drop(start_thread("preload", move || {
            // What the tray waits for comes first, for it is laid out first. The window may be gone at any time.
            for good in &tray {
                let which = trays::usual_head(good, made.pixels_per_point);
                let pixels = heads::drawn(good, &which);
                drop(tell_head.send((which, pixels)));
            }
            drop(tell_head);
            let drawn = layers(&scene(), &made.view, made.pixels_per_point, &[], Finish::Quick);
            drop(tell_sheet.send((made, drawn)));
        }));
        Self { heads, sheet }
    }
}
