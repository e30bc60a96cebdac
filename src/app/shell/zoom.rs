//! How large everything is shown: as large as the person likes, and no larger than the window has room for.
//!
//! A small screen whose points are made larger by the desktop has fewer of them than the pages need. There all is shown
//! smaller, so that nothing lies over anything else or past the edge; the keys of the desktop's own custom (Ctrl with plus,
//! minus, nought) still change it within that room.

use egui::{Context, Vec2, vec2};

/// What the pages need, points.
pub(crate) const ROOM: Vec2 = vec2(1320.0, 700.0);
/// Below this nothing can be read; our choice.
const SMALLEST: f32 = 0.5;

/// What was wanted, what was set, and at what the last frame was shown.
#[derive(Debug, Default)]
pub(crate) struct Zoom {
    wanted: f32,
    set: Option<f32>,
    shown: Option<f32>,
}

impl Zoom {
    /// Within each frame: sets what the next one is shown at. Whether this one is shown at another than the one before.
    pub(crate) fn fit(&mut self, ctx: &Context) -> bool {
        let now = ctx.zoom_factor();
        let changed = self.shown.replace(now).is_some_and(|before| before != now);
        if self.set != Some(now) {
            // Changed by the person; what was kept of a smaller window is not what she wants.
            self.wanted = if self.set.is_none() { now.max(1.0) } else { now };
        }
        let zoom = self.wanted.min(most(ctx.input(|i| i.viewport_rect().size()) * now));
        self.set = Some(zoom);
        ctx.set_zoom_factor(zoom);
        changed
    }
}

/// The largest zoom at which a window of so many points (at a zoom of 1) has room for everything, in hundredths: rounding
/// must not make it tremble.
fn most(window: Vec2) -> f32 {
    let fits = (window / ROOM).min_elem();
    ((fits * 100.0 + 0.001).floor() / 100.0).max(SMALLEST)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Frames of a window of so many pixels on a desktop that makes its points larger by `scale`.
    fn frames(ctx: &Context, zoom: &mut Zoom, pixels: Vec2, scale: f32) -> f32 {
        for _ in 0..4 {
            let points = pixels / scale / ctx.zoom_factor();
            let mut input = egui::RawInput {
                screen_rect: Some(egui::Rect::from_min_size(egui::Pos2::ZERO, points)),
                ..Default::default()
            };
            input.viewports.entry(egui::ViewportId::ROOT).or_default().native_pixels_per_point = Some(scale);
            let mut out = ctx.run_ui(input, |ui| {
                zoom.fit(ui.ctx());
            });
            out.textures_delta.clear();
        }
        ctx.zoom_factor()
    }

    #[test]
    fn a_small_screen_of_large_points_is_shown_smaller_and_a_large_one_as_it_is() {
        for (pixels, scale, shown) in [
            (vec2(1366.0, 740.0), 1.0, 1.0),
            (vec2(1366.0, 740.0), 1.25, 0.82),
            (vec2(1366.0, 740.0), 1.5, 0.68),
            (vec2(1366.0, 740.0), 2.0, 0.51),
            (vec2(2560.0, 1440.0), 1.0, 1.0),
            (vec2(10.0, 10.0), 1.0, SMALLEST),
        ] {
            let zoom = frames(&Context::default(), &mut Zoom::default(), pixels, scale);
            assert!((zoom - shown).abs() < 1e-4, "{pixels} at {scale}: {zoom}");
        }
    }

    #[test]
    fn what_a_person_wants_comes_back_with_the_room_for_it() {
        let (ctx, mut zoom) = (Context::default(), Zoom::default());
        let large = vec2(2560.0, 1440.0);
        frames(&ctx, &mut zoom, large, 1.0);
        ctx.set_zoom_factor(1.5);
        assert!((frames(&ctx, &mut zoom, large, 1.0) - 1.5).abs() < 1e-6);
        assert!((frames(&ctx, &mut zoom, vec2(1366.0, 740.0), 1.0) - 1.03).abs() < 1e-4);
        assert!((frames(&ctx, &mut zoom, large, 1.0) - 1.5).abs() < 1e-6);
    }
}
