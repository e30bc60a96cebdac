//! What shines: the window as a source that is aimed at, the room by direction.

use super::directions::{PER_PI, about, smooth};
use super::{Lights, Vec2, Vec3};

/// Cosines to the card's direction between which its light fades in.
const CARD_EDGE: (f32, f32) = (0.35, 0.85);
/// Points along each side by which the light on a card is added up.
const N_SIDE: u32 = 24;

/// The lights, with what is reckoned once.
#[derive(Clone, Copy, Debug)]
pub(super) struct Sources {
    lights: Lights,
    /// Where the window looks, of length 1.
    facing: Vec3,
    /// Area of the window, mm2; nought if there is none.
    area: f32,
}

/// A point of the window, as seen from a surface.
#[derive(Clone, Copy, Debug)]
pub(super) struct WindowPoint {
    /// Where it is, of length 1.
    pub(super) toward: Vec3,
    /// How far, mm.
    pub(super) distance: f32,
    /// Light that falls on a surface that faces it, if the whole window shone like it.
    pub(super) light: Vec3,
    /// How often points of the window are taken near there, per unit of solid angle.
    pub(super) chance: f32,
}

impl Sources {
    pub(super) fn of(lights: &Lights) -> Self {
        let across = lights.window.half_across.cross(lights.window.half_up) * 4.0;
        let is_there =
            across.is_finite() && lights.window.centre.is_finite() && lights.window.radiance.max_element() > 0.0;
        let area = if is_there { across.length() } else { 0.0 };
        Self { lights: *lights, facing: across.normalize_or(Vec3::Z), area }
    }

    /// Light of the room that comes from a direction of length 1; the window is not part of it.
    pub(super) fn room(&self, toward: Vec3) -> Vec3 {
        let Lights { above, below, card, .. } = &self.lights;
        let by_height = *below + (*above - *below) * (0.5 + 0.5 * toward.z);
        by_height + card.1 * smooth(CARD_EDGE.0, CARD_EDGE.1, toward.dot(card.0))
    }

    /// Light that comes from all round where a path is not followed further.
    pub(super) fn dim_room(&self) -> Vec3 {
        (self.lights.above + self.lights.below) * 0.4
    }

    /// A point of the window by a pair of 0 to 1; `None` where the window does not shine to.
    pub(super) fn window_point(&self, from: Vec3, pair: Vec2) -> Option<WindowPoint> {
        let window = &self.lights.window;
        let there = window.centre + window.half_across * (pair.x * 2.0 - 1.0) + window.half_up * (pair.y * 2.0 - 1.0);
        let way = there - from;
        let square = way.length_squared();
        let distance = square.sqrt();
        let toward = way / distance;
        let cosine = -self.facing.dot(toward);
        let is_seen = self.area > 0.0 && cosine > 0.0 && square > 0.0;
        let size = cosine * self.area / square;
        is_seen.then(|| WindowPoint { toward, distance, light: window.radiance * size, chance: 1.0 / size })
    }

    /// The point of the window in which a ray of length 1 ends, with the window's own light.
    pub(super) fn window_seen(&self, from: Vec3, toward: Vec3) -> Option<WindowPoint> {
        let window = &self.lights.window;
        let slope = -self.facing.dot(toward);
        let distance = self.facing.dot(from - window.centre) / slope;
        if !(self.area > 0.0 && slope > 0.0 && distance > 0.0) {
            return None;
        }
        let at = from + toward * distance - window.centre;
        let share = |half: Vec3| at.dot(half).abs() / half.length_squared();
        let is_inside = share(window.half_across) <= 1.0 && share(window.half_up) <= 1.0;
        let chance = distance * distance / (slope * self.area);
        is_inside.then_some(WindowPoint { toward, distance, light: window.radiance, chance })
    }

    /// What a white card gives back that lies at `place`, facing `normal`, with nothing before it.
    pub(super) fn on_white_card(&self, place: Vec3, normal: Vec3) -> Vec3 {
        let pairs = (0..N_SIDE * N_SIDE).map(|i| Vec2::new((i % N_SIDE) as f32 + 0.5, (i / N_SIDE) as f32 + 0.5));
        let sum = pairs.map(|pair| pair / N_SIDE as f32).fold(Vec3::ZERO, |sum, pair| {
            let window = self
                .window_point(place, pair)
                .map_or(Vec3::ZERO, |point| point.light * (normal.dot(point.toward).max(0.0) * PER_PI));
            sum + window + self.room(about(normal, pair))
        });
        sum / (N_SIDE * N_SIDE) as f32
    }
}
