//! Whether a finger, or a button of the pointer, is down: what may not move meanwhile waits for it.

use egui::Context;

use crate::app::widgets::theme::LONGEST_TAP;

/// Whether what is pressed may still become a tap: nothing may move under it, neither now nor in the frame of its release. A press
/// that lasts longer is none, and keeps nothing waiting.
pub(crate) fn may_become_tap(ctx: &Context) -> bool {
    ctx.input(|i| is_down(i) || i.pointer.any_released())
}

/// Whether it is down, and not yet for too long to be a tap.
pub(crate) fn is_pressing(ctx: &Context) -> bool {
    ctx.input(is_down)
}

fn is_down(i: &egui::InputState) -> bool {
    let is_long = i.pointer.press_start_time().is_some_and(|began| i.time - began > LONGEST_TAP);
    i.pointer.any_down() && !is_long
}

/// Asks for the frame in which what waits for a finger is done.
pub(crate) fn wake_for_what_waits(ctx: &Context) {
    let (down, released) = ctx.input(|i| (is_down(i), i.pointer.any_released()));
    if released {
        ctx.request_repaint();
    } else if down {
        ctx.request_repaint_after(std::time::Duration::from_secs_f64(LONGEST_TAP));
    }
}
