//! The light that a place sends to the eye: straight from the window, and round about by way of its neighbours and the room.

use super::Vec3;
use super::directions::{PER_PI, about};
use super::gloss::{Gloss, MirroredShare};
use super::sampler::Sampler;
use super::sources::{Sources, WindowPoint};
use super::surface::MetSurface;
use super::tree::{Ray, Waiting, World};

/// Surfaces rougher than this mirror what the light round about finds anyway; smoother ones look for themselves.
const DULL: f32 = 0.30;
/// Of all paths to a surface, the share that look for what it mirrors; all look at the window.
const LOOKING: f32 = 0.5;
/// How often light is followed from surface to surface.
const MOST_BOUNCES: u32 = 3;
/// How far rays go, mm.
const FAR: f32 = 1e9;
/// Light on its way is at most so many times that of a white card: few paths that find the window by chance do not speckle.
const BRIGHTEST_BOUNCE: f32 = 3.0;
const BRIGHTEST_GLOSS: f32 = 8.0;
/// Below this share of light left, paths end by chance, and those that go on count for more.
const FAINT: f32 = 0.25;

/// Light that comes from a place, before its colour is multiplied in.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct LightMet {
    /// From the window, over the surface's own colour.
    pub(super) window: Vec3,
    /// From all else, over the surface's own colour.
    pub(super) room: Vec3,
    /// Of the window, mirrored.
    pub(super) window_gloss: Vec3,
    /// Of all else, mirrored.
    pub(super) room_gloss: Vec3,
}

/// All that paths need to know.
#[derive(Debug)]
pub(super) struct Paths<'a> {
    pub(super) world: &'a World,
    pub(super) sources: &'a Sources,
    pub(super) shares: &'a MirroredShare,
    /// Light of a white card, to tell what is bright.
    pub(super) white: f32,
}

impl Paths<'_> {
    /// What the eye sees along a ray: a surface and its light, or the light of the room behind everything. `pixel_mm` is the width of a pixel
    /// per unit of the ray. Light of the room, which takes most of the time, is followed only if it `is_whole`.
    pub(super) fn seen(
        &self,
        ray: &Ray,
        pixel_mm: f32,
        is_whole: bool,
        sampler: &mut Sampler,
        waiting: &mut Waiting,
    ) -> (Option<MetSurface>, LightMet) {
        let Some(hit) = self.world.first_hit(ray, FAR, waiting) else {
            let window = self.sources.window_seen(ray.origin, ray.toward).map_or(Vec3::ZERO, |point| point.light);
            let window_gloss = window.max(self.sources.room(ray.toward));
            return (None, LightMet { window_gloss, ..LightMet::default() });
        };
        let surface = MetSurface::seen(self.world, ray, &hit, pixel_mm * hit.distance, self.shares);
        let mut light = self.of_window(&surface, -ray.toward, sampler, waiting);
        if is_whole {
            (light.room, light.room_gloss) = self.of_room(&surface, -ray.toward, sampler, waiting);
        }
        (Some(surface), light)
    }

    /// The surface that a ray meets first.
    pub(super) fn glimpsed(&self, ray: &Ray, waiting: &mut Waiting) -> Option<MetSurface> {
        let hit = self.world.first_hit(ray, FAR, waiting)?;
        Some(MetSurface::met(self.world, ray, &hit))
    }

    fn of_window(&self, surface: &MetSurface, sight: Vec3, sampler: &mut Sampler, waiting: &mut Waiting) -> LightMet {
        let mut met = LightMet::default();
        let Some((window, point)) = self.window_on(surface, sampler.pair(), waiting) else { return met };
        met.window = window;
        if let Some((gloss, colour)) = surface.gloss.filter(|_| surface.facing.dot(point.toward) > 0.0) {
            // What smooth surfaces also find by themselves counts for less here.
            let own = if gloss.smoothest() < DULL { gloss.chance_of(sight, point.toward) * LOOKING } else { 0.0 };
            let weight = point.chance / (point.chance + own);
            let mirrored = colour * point.light * (gloss.toward(sight, point.toward) * weight);
            met.window_gloss = limited(mirrored, BRIGHTEST_GLOSS * self.white);
        }
        met
    }

    /// Light from all round: spread, and mirrored.
    fn of_room(&self, surface: &MetSurface, sight: Vec3, sampler: &mut Sampler, waiting: &mut Waiting) -> (Vec3, Vec3) {
        let (toward, weight) = spread(surface, sampler.pair(), sampler.by_chance());
        let found = self.found(surface.leaving(toward), sampler, waiting);
        let mirrored = match surface.gloss {
            Some((gloss, colour)) if gloss.smoothest() >= DULL => {
                let front = 1.0 - surface.through.0;
                let cosine = surface.normal.dot(toward);
                // Spread by the cosine, so what the gloss mirrors is weighed by that.
                let is_front = cosine > 0.0 && front > 0.0;
                let share = if is_front { gloss.toward(sight, toward) / (cosine * PER_PI * front) } else { 0.0 };
                colour * found * share.min(BRIGHTEST_GLOSS)
            }
            Some((gloss, colour)) => colour * self.mirrored(surface, &gloss, sight, sampler, waiting),
            None => Vec3::ZERO,
        };
        (weight * found, limited(mirrored, BRIGHTEST_GLOSS * self.white))
    }

    /// Light from one point of the window: what the dull surface gives back of it over its colour, and the point. `None` if it is dark.
    fn window_on(&self, surface: &MetSurface, pair: super::Vec2, waiting: &mut Waiting) -> Option<(Vec3, WindowPoint)> {
        let point = self.sources.window_point(surface.point, pair)?;
        let cosine = surface.normal.dot(point.toward);
        let flat_cosine = surface.facing.dot(point.toward);
        let (through, tint) = surface.through;
        let share = if flat_cosine > 0.0 {
            Vec3::splat((1.0 - through) * cosine.max(0.0))
        } else {
            tint * (through * (-cosine).max(-0.5 * flat_cosine))
        };
        let is_dark = share.max_element() <= 0.0;
        if is_dark || self.world.is_blocked(&surface.leaving(point.toward), point.distance * 0.9995, waiting) {
            return None;
        }
        Some((point.light * share * PER_PI, point))
    }

    /// Light that a ray finds: of the room, or of surfaces, whose light is followed on.
    fn found(&self, ray: Ray, sampler: &mut Sampler, waiting: &mut Waiting) -> Vec3 {
        let (mut ray, mut left, mut sum) = (ray, Vec3::ONE, Vec3::ZERO);
        let limit = BRIGHTEST_BOUNCE * self.white;
        for bounce in 0..MOST_BOUNCES {
            let Some(hit) = self.world.first_hit(&ray, FAR, waiting) else {
                sum += left * self.sources.room(ray.toward);
                break;
            };
            let surface = MetSurface::met(self.world, &ray, &hit);
            left *= surface.tint;
            let pair = if bounce == 0 { sampler.pair() } else { sampler.pair_by_chance() };
            if let Some((window, _)) = self.window_on(&surface, pair, waiting) {
                sum += limited(left * window, limit);
            }
            if bounce + 1 == MOST_BOUNCES {
                sum += left * self.sources.dim_room();
                break;
            }
            let strongest = left.max_element();
            if strongest < FAINT {
                if sampler.by_chance() * FAINT >= strongest {
                    break;
                }
                left *= FAINT / strongest;
            }
            let pair = if bounce == 0 { sampler.pair() } else { sampler.pair_by_chance() };
            let (toward, weight) = spread(&surface, pair, sampler.by_chance());
            left *= weight;
            ray = surface.leaving(toward);
        }
        limited(sum, limit)
    }

    /// What a smooth surface mirrors.
    fn mirrored(
        &self,
        surface: &MetSurface,
        gloss: &Gloss,
        sight: Vec3,
        sampler: &mut Sampler,
        waiting: &mut Waiting,
    ) -> Vec3 {
        let Some((toward, weight)) = gloss.bounced(sight, sampler.pair()) else { return Vec3::ZERO };
        if surface.facing.dot(toward) <= 0.0 {
            return Vec3::ZERO;
        }
        let ray = surface.leaving(toward);
        let window = self.sources.window_seen(ray.origin, toward);
        let far = window.map_or(FAR, |point| point.distance);
        let found = match self.world.first_hit(&ray, far, waiting) {
            None => match window {
                Some(point) => {
                    let own = gloss.chance_of(sight, toward) * LOOKING;
                    point.light * (own / (own + point.chance)) + self.sources.room(toward)
                }
                None => self.sources.room(toward),
            },
            Some(hit) => {
                let met = MetSurface::met(self.world, &ray, &hit);
                let pair = sampler.pair_by_chance();
                let window = self.window_on(&met, pair, waiting).map_or(Vec3::ZERO, |(window, _)| window);
                met.tint * (window + self.sources.dim_room())
            }
        };
        found * weight
    }
}

/// Where dull light goes on to, and what it is multiplied by.
fn spread(surface: &MetSurface, pair: super::Vec2, choice: f32) -> (Vec3, Vec3) {
    let (through, tint) = surface.through;
    let is_through = choice < through;
    let side = if is_through { -1.0 } else { 1.0 };
    let toward = about(surface.normal * side, pair);
    // What a bent normal would send to the wrong side is thrown back.
    let below = (surface.facing * side).dot(toward).min(0.0);
    let toward = (toward - surface.facing * (side * 2.0 * below)).normalize_or(surface.facing * side);
    (toward, if is_through { tint } else { Vec3::ONE })
}

/// Light no brighter than so, its colour kept.
fn limited(light: Vec3, most: f32) -> Vec3 {
    let brightest = light.max_element();
    if brightest > most { light * (most / brightest) } else { light }
}
