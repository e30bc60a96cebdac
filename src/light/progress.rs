//! How far a photograph has come, seen from another thread, and the word to stop it.

use std::sync::atomic::{AtomicBool, AtomicU32, Ordering};

/// How far a photograph has come. Shared with the thread that makes it.
#[derive(Debug, Default)]
pub struct PhotoProgress {
    /// Millionths.
    done: AtomicU32,
    is_stopped: AtomicBool,
}

/// Parts of `share`.
const WHOLE: f32 = 1e6;

impl PhotoProgress {
    /// Share that is done, 0 to 1.
    pub fn share(&self) -> f32 {
        self.done.load(Ordering::Relaxed) as f32 / WHOLE
    }

    /// Asks for an end; the photograph is given up within some hundredths of a second.
    pub fn stop(&self) {
        self.is_stopped.store(true, Ordering::Relaxed);
    }

    /// Whether an end was asked for.
    pub fn is_stopped(&self) -> bool {
        self.is_stopped.load(Ordering::Relaxed)
    }

    /// Tells that so much is done; never goes back.
    pub(super) fn reach(&self, share: f32) {
        self.done.fetch_max((share.clamp(0.0, 1.0) * WHOLE) as u32, Ordering::Relaxed);
    }
}
