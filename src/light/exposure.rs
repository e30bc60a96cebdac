//! Traces the samples of pixels and sorts them by the surface they met, so that light can be smoothed over each surface and edges stay as
//! sharp as the samples are.

use std::sync::Mutex;

use glam::Vec4;

use super::camera::Sight;
use super::path::{LightMet, Paths};
use super::sampler::Sampler;
use super::surface::MetSurface;
use super::threads::share_out;
use super::tree::Waiting;
use super::{PhotoProgress, Vec3};

/// Surfaces told apart in one pixel.
const MOST_SPOTS: usize = 3;
/// Rows that one thread traces at a time.
pub(super) const BAND: usize = 8;
/// Key of what is behind everything.
pub(super) const BEHIND: u32 = u32::MAX;
/// Rays that look once more at a pixel in which surfaces meet, to share it out among them.
const N_GLIMPSES: u32 = 8;
/// Surfaces count as one whose normals differ by no more than this cosine ...
const SAME_NORMAL: f32 = 0.75;
/// ... and that are no farther out of each other's plane than so many pixels, and mm.
const SAME_PLANE_PX: f32 = 2.0;
const SAME_PLANE_MM: f32 = 0.25;
/// Weights of red, green and blue in what the eye takes for brightness (ITU-R BT.709).
const BRIGHTNESS: Vec3 = Vec3::new(0.2126, 0.7152, 0.0722);

/// The surface of a spot, by which light is smoothed.
#[derive(Clone, Copy, Debug)]
pub(super) struct SpotGuide {
    pub(super) normal: Vec3,
    pub(super) key: u32,
    pub(super) point: Vec3,
    /// How far light spreads below the surface, mm.
    pub(super) soft_mm: f32,
}

/// Light of a spot. Each colour holds that of the window, of the room, and what is mirrored, so that all three are smoothed at once.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct SpotLight {
    pub(super) red: Vec4,
    pub(super) green: Vec4,
    pub(super) blue: Vec4,
    /// Variance of the brightness of window, room and gloss; then 1 if light of the room is known at all, else 0.
    pub(super) variance: Vec4,
}

impl SpotLight {
    pub(super) fn of(window: Vec3, room: Vec3, gloss: Vec3, variance: Vec4) -> Self {
        let kinds = |axis: usize| Vec4::new(window[axis], room[axis], gloss[axis], 0.0);
        Self { red: kinds(0), green: kinds(1), blue: kinds(2), variance }
    }

    /// Light that is seen through the surface's own colour: of window and room.
    pub(super) fn dull(&self) -> Vec3 {
        Vec3::new(self.red.x + self.red.y, self.green.x + self.green.y, self.blue.x + self.blue.y)
    }

    /// Light that is mirrored.
    pub(super) fn gloss(&self) -> Vec3 {
        Vec3::new(self.red.z, self.green.z, self.blue.z)
    }

    /// Brightness of window, room and gloss.
    #[inline]
    pub(super) fn brightness(&self) -> Vec4 {
        self.red * BRIGHTNESS.x + self.green * BRIGHTNESS.y + self.blue * BRIGHTNESS.z
    }
}

/// The samples of a pixel that met one surface.
#[derive(Clone, Copy, Debug)]
pub(super) struct SurfaceSpot {
    pub(super) guide: SpotGuide,
    pub(super) light: SpotLight,
    /// Colour of the surface, and the spot's share of the pixel.
    pub(super) tint: Vec4,
}

/// A spot beside the largest of its pixel.
#[derive(Clone, Copy, Debug)]
pub(super) struct SmallSpot {
    pub(super) pixel: u32,
    pub(super) spot: SurfaceSpot,
}

/// Rows of pixels as they were traced.
#[derive(Debug, Default)]
pub(super) struct Exposed {
    pub(super) width: usize,
    pub(super) height: usize,
    pub(super) guides: Vec<SpotGuide>,
    pub(super) lights: Vec<SpotLight>,
    pub(super) tints: Vec<Vec4>,
    /// By pixel.
    pub(super) small: Vec<SmallSpot>,
}

impl Exposed {
    /// A copy of its last rows.
    pub(super) fn last_rows(&self, n_rows: usize) -> Self {
        let first = self.width * self.height.saturating_sub(n_rows);
        let small = self.small.iter().filter(|small| small.pixel as usize >= first);
        Self {
            width: self.width,
            height: n_rows.min(self.height),
            guides: self.guides[first..].to_vec(),
            lights: self.lights[first..].to_vec(),
            tints: self.tints[first..].to_vec(),
            small: small.map(|small| SmallSpot { pixel: small.pixel - first as u32, ..*small }).collect(),
        }
    }
}

/// What is traced: rows `first_row` to `first_row + height` of a picture.
#[derive(Clone, Copy, Debug)]
pub(super) struct ExposureTask<'a> {
    pub(super) paths: &'a Paths<'a>,
    pub(super) sight: Sight,
    pub(super) width: usize,
    pub(super) first_row: usize,
    pub(super) height: usize,
    pub(super) samples: u32,
    pub(super) n_threads: usize,
}

impl ExposureTask<'_> {
    /// Traces all pixels but those of the first rows, which are `known`; `None` if it is told to stop. `tell` hears how many rows are done.
    pub(super) fn run(&self, known: Exposed, progress: &PhotoProgress, tell: impl Fn(usize) + Sync) -> Option<Exposed> {
        let n = self.width * self.height;
        let (n_known, known_rows) = (known.guides.len(), known.height);
        let mut exposed = Exposed { width: self.width, height: self.height, ..known };
        exposed.guides.resize(n, SurfaceSpot::behind().guide);
        exposed.lights.resize(n, SpotLight::default());
        exposed.tints.resize(n, Vec4::ZERO);
        let small: Mutex<Vec<SmallSpot>> = Mutex::new(Vec::new());
        let n_done = std::sync::atomic::AtomicUsize::new(0);
        let band = self.width * BAND;
        let guides = exposed.guides[n_known..].chunks_mut(band.max(1));
        let lights = exposed.lights[n_known..].chunks_mut(band.max(1));
        let tasks = guides.zip(lights).zip(exposed.tints[n_known..].chunks_mut(band.max(1)));
        share_out(self.n_threads, tasks.enumerate(), Waiting::new, |waiting, (i, ((guides, lights), tints))| {
            if progress.is_stopped() {
                return;
            }
            let mut found = Vec::new();
            let rows = guides.len() / self.width;
            for at in in_blocks(self.width, rows) {
                let mut spots =
                    self.pixel(at % self.width, self.first_row + known_rows + i * BAND + at / self.width, waiting);
                let Some(main) = spots.next() else { continue };
                (guides[at], lights[at], tints[at]) = (main.guide, main.light, main.tint);
                let pixel = (n_known + i * band + at) as u32;
                found.extend(spots.map(|spot| SmallSpot { pixel, spot }));
            }
            if let Ok(mut small) = small.lock() {
                small.append(&mut found);
            }
            tell(known_rows + n_done.fetch_add(rows, std::sync::atomic::Ordering::Relaxed) + rows);
        });
        exposed.small.append(&mut small.into_inner().unwrap_or_default());
        exposed.small.sort_by_key(|small| small.pixel);
        (!progress.is_stopped()).then_some(exposed)
    }

    /// The spots of one pixel, the largest first.
    fn pixel(&self, x: usize, y: usize, waiting: &mut Waiting) -> impl Iterator<Item = SurfaceSpot> + use<> {
        let mut sums = SpotSums::default();
        let corner = super::Vec2::new(x as f32, y as f32);
        // Light of the room is smoother than that of the window, and does with half the samples.
        let n_whole = self.samples.div_ceil(2);
        for k in 0..self.samples {
            let mut sampler = Sampler::new(x as u32, y as u32, k, self.samples);
            let (ray, per_mm) = self.sight.ray(corner + sampler.pair(), sampler.pair());
            let (surface, light) = self.paths.seen(&ray, per_mm, k < n_whole, &mut sampler, waiting);
            let pixel_mm = surface.map_or(0.0, |surface| surface.point.distance(ray.origin) * per_mm);
            sums.take(surface.as_ref(), &light, k < n_whole, pixel_mm);
        }
        if sums.n > 1 {
            for k in 0..N_GLIMPSES {
                let mut sampler = Sampler::new(x as u32, y as u32, k, N_GLIMPSES);
                let (ray, per_mm) = self.sight.ray(corner + sampler.pair(), sampler.pair());
                let surface = self.paths.glimpsed(&ray, waiting);
                let pixel_mm = surface.map_or(0.0, |surface| surface.point.distance(ray.origin) * per_mm);
                sums.nearest(surface.as_ref(), pixel_mm).n_seen += 1.0;
            }
        }
        let n_seen: f32 = sums.all().iter().map(|sum| sum.n_seen).sum();
        sums.all_mut().sort_by(|a, b| b.n_seen.total_cmp(&a.n_seen));
        (0..sums.n).map(move |i| sums.sums[i].spot(n_seen))
    }
}

/// The sums of one pixel.
#[derive(Clone, Copy, Debug)]
struct SpotSums {
    sums: [SpotSum; MOST_SPOTS],
    n: usize,
}

impl Default for SpotSums {
    fn default() -> Self {
        Self { sums: [SpotSum::of(None); MOST_SPOTS], n: 0 }
    }
}

impl SpotSums {
    fn all(&self) -> &[SpotSum] {
        &self.sums[..self.n.min(MOST_SPOTS)]
    }

    fn all_mut(&mut self) -> &mut [SpotSum] {
        &mut self.sums[..self.n.min(MOST_SPOTS)]
    }

    /// Adds a sample to the spot of its surface, or begins one.
    fn take(&mut self, surface: Option<&MetSurface>, light: &LightMet, is_whole: bool, pixel_mm: f32) {
        let fits = self.all().iter().position(|sum| sum.misfit(surface, pixel_mm) <= 1.0);
        if fits.is_none() && self.n < MOST_SPOTS {
            self.sums[self.n] = SpotSum::of(surface);
            self.n += 1;
        }
        let sum = match fits {
            Some(i) => &mut self.sums[i],
            None => self.nearest(surface, pixel_mm),
        };
        sum.add(surface, light, is_whole);
    }

    /// The spot that is most like a surface.
    fn nearest(&mut self, surface: Option<&MetSurface>, pixel_mm: f32) -> &mut SpotSum {
        let misfits = self.all().iter().map(|sum| sum.misfit(surface, pixel_mm)).enumerate();
        let i = misfits.min_by(|a, b| a.1.total_cmp(&b.1)).map_or(0, |(i, _)| i);
        &mut self.sums[i]
    }
}

/// Places of a band of rows, block by block, so that pixels near each other follow each other.
fn in_blocks(width: usize, rows: usize) -> impl Iterator<Item = usize> {
    (0..width.div_ceil(BAND)).flat_map(move |block| {
        (0..rows).flat_map(move |y| (block * BAND..((block + 1) * BAND).min(width)).map(move |x| y * width + x))
    })
}

/// Sums over the samples of a spot.
#[derive(Clone, Copy, Debug)]
struct SpotSum {
    /// Samples, those of them with light of the room, and rays that saw it in all.
    n: f32,
    n_whole: f32,
    n_seen: f32,
    first: SpotGuide,
    tint: Vec3,
    normal: Vec3,
    point: Vec3,
    light: LightMet,
    /// Squared brightness of window, room and gloss.
    squares: Vec3,
}

impl SpotSum {
    fn of(surface: Option<&MetSurface>) -> Self {
        let first = surface.map_or(SurfaceSpot::behind().guide, |s| SpotGuide {
            normal: s.smooth_normal,
            key: s.key,
            point: s.point,
            soft_mm: s.soft_mm,
        });
        Self {
            n: 0.0,
            n_whole: 0.0,
            n_seen: 0.0,
            first,
            tint: Vec3::ZERO,
            normal: Vec3::ZERO,
            point: Vec3::ZERO,
            light: LightMet::default(),
            squares: Vec3::ZERO,
        }
    }

    fn add(&mut self, surface: Option<&MetSurface>, light: &LightMet, is_whole: bool) {
        // A sample that is no number is lost, not spread.
        let number = |v: Vec3| if v.is_finite() { v } else { Vec3::ZERO };
        self.n += 1.0;
        self.n_seen += 1.0;
        self.n_whole += if is_whole { 1.0 } else { 0.0 };
        if let Some(surface) = surface {
            self.tint += number(surface.tint);
            self.normal += number(surface.smooth_normal);
            self.point += number(surface.point);
        }
        let window = number(light.window);
        let room = number(light.room);
        let (window_gloss, room_gloss) = (number(light.window_gloss), number(light.room_gloss));
        self.light.window += window;
        self.light.room += room;
        self.light.window_gloss += window_gloss;
        self.light.room_gloss += room_gloss;
        let gloss = window_gloss + room_gloss;
        let bright = Vec3::new(window.dot(BRIGHTNESS), room.dot(BRIGHTNESS), gloss.dot(BRIGHTNESS));
        self.squares += bright * bright;
    }

    /// How unlike a surface is to that of this spot: up to 1 they are taken for one.
    fn misfit(&self, surface: Option<&MetSurface>, pixel_mm: f32) -> f32 {
        let Some(surface) = surface else { return if self.first.key == BEHIND { 0.0 } else { f32::MAX } };
        if surface.key != self.first.key {
            return 1e6 + surface.point.distance(self.first.point);
        }
        let off_plane = (surface.point - self.first.point).dot(self.first.normal).abs();
        let by_plane = off_plane / (SAME_PLANE_PX * pixel_mm + SAME_PLANE_MM);
        let by_normal = (1.0 - surface.smooth_normal.dot(self.first.normal)) / (1.0 - SAME_NORMAL);
        by_plane.max(by_normal)
    }

    /// What is known of the spot, of a pixel that so many rays saw.
    fn spot(&self, n_seen: f32) -> SurfaceSpot {
        let (each, each_whole) = (1.0 / self.n.max(1.0), 1.0 / self.n_whole.max(1.0));
        let (window, room) = (self.light.window * each, self.light.room * each_whole);
        let gloss = self.light.window_gloss * each + self.light.room_gloss * each_whole;
        let means = SpotLight::of(window, room, gloss, Vec4::ZERO).brightness().truncate();
        let n = Vec3::new(self.n, self.n_whole, self.n);
        // The variance of the mean; one sample says nothing of it, and is taken for as unsure as it is bright.
        let unsure = (self.squares / n.max(Vec3::ONE) - means * means).max(Vec3::ZERO) / (n - 1.0).max(Vec3::ONE);
        let unsure = Vec3::select(n.cmpgt(Vec3::ONE), unsure, means * means);
        let is_room_known = if self.n_whole > 0.0 { 1.0 } else { 0.0 };
        let guide = if self.first.key == BEHIND {
            self.first
        } else {
            SpotGuide { normal: self.normal.normalize_or(self.first.normal), point: self.point * each, ..self.first }
        };
        SurfaceSpot {
            guide,
            light: SpotLight::of(window, room, gloss, unsure.extend(is_room_known)),
            tint: (self.tint * each).extend(self.n_seen / n_seen.max(1.0)),
        }
    }
}

impl SurfaceSpot {
    fn behind() -> Self {
        let guide = SpotGuide { normal: Vec3::Z, key: BEHIND, point: Vec3::ZERO, soft_mm: 0.0 };
        Self { guide, light: SpotLight::default(), tint: Vec4::ZERO }
    }
}
