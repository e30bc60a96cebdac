//! A scene and a camera become a picture.

use super::camera::Sight;
use super::denoise::{REACH, smooth_light};
use super::exposure::{Exposed, ExposureTask};
use super::film::Negative;
use super::gloss::MirroredShare;
use super::path::Paths;
use super::skin::{MOST_REACH, soften};
use super::sources::Sources;
use super::threads::{n_cores, share_out};
use super::tree::World;
use super::{Camera, LitScene, PhotoProgress, Vec3};

/// The most pixels that are traced before they are smoothed: bounds the memory, some 250 bytes each.
const MOST_PIXELS: usize = 1_250_000;
/// The largest side of a picture.
const MOST_SIDE: u32 = 16_384;
/// Share of the work that building the trees takes, about.
const BUILDING: f32 = 0.06;
const TRACED: f32 = 0.85;

/// How large and how fine a photograph is to be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Quality {
    /// Pixels from left to right.
    pub width_px: u32,
    /// Pixels from top to bottom.
    pub height_px: u32,
    /// Paths of light per pixel: 1 for a first look, 4 for a clean picture.
    pub samples: u32,
}

/// A picture.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Photograph {
    /// Pixels from left to right.
    pub width: u32,
    /// Pixels from top to bottom.
    pub height: u32,
    /// Red, green and blue of each pixel in sRGB, row by row from the top.
    pub rgb: Vec<u8>,
}

/// A scene made ready for photographs: from several sides, or first coarse and then finer, without beginning anew each time.
#[derive(Debug)]
pub struct ReadyScene {
    world: World,
    sources: Sources,
    shares: MirroredShare,
    /// What a white card gives back that lies at the middle, face up.
    white: Vec3,
    n_threads: usize,
}

/// Photographs a scene. `None` if `progress` was told to stop. The same scene, camera and quality give the same bytes on every computer.
pub fn photograph(
    scene: &LitScene,
    camera: &Camera,
    quality: &Quality,
    progress: &PhotoProgress,
) -> Option<Photograph> {
    ReadyScene::new(scene).photograph(camera, quality, progress)
}

impl ReadyScene {
    /// Makes a scene ready, with all threads of the computer.
    pub fn new(scene: &LitScene) -> Self {
        Self::with_threads(scene, n_cores())
    }

    /// The same with so many threads; what comes out does not depend on it.
    pub fn with_threads(scene: &LitScene, n_threads: usize) -> Self {
        let sources = Sources::of(&scene.lights);
        let white = sources.on_white_card(Vec3::ZERO, Vec3::Z);
        Self {
            world: World::of(&scene.placed, n_threads),
            sources,
            shares: MirroredShare::new(),
            // In the dark nothing is balanced.
            white: if white.is_finite() && white.min_element() > 1e-6 { white } else { Vec3::ONE },
            n_threads: n_threads.max(1),
        }
    }

    pub(super) fn paths(&self) -> Paths<'_> {
        let white = self.white.element_sum() / 3.0;
        Paths { world: &self.world, sources: &self.sources, shares: &self.shares, white }
    }

    /// Photographs it. `None` if `progress` was told to stop.
    pub fn photograph(&self, camera: &Camera, quality: &Quality, progress: &PhotoProgress) -> Option<Photograph> {
        self.in_strips(camera, quality, progress, MOST_PIXELS)
    }

    /// The same, with no more than so many pixels traced before they are smoothed, as far as that goes.
    pub(super) fn in_strips(
        &self,
        camera: &Camera,
        quality: &Quality,
        progress: &PhotoProgress,
        most_pixels: usize,
    ) -> Option<Photograph> {
        let (width, height) = (quality.width_px.min(MOST_SIDE), quality.height_px.min(MOST_SIDE));
        progress.reach(BUILDING);
        let mut negative = Negative::new(width as usize, height as usize);
        let sight = Sight::of(camera, width, height);
        let paths = self.paths();
        let height_px = height as usize;
        let strips = strips(width as usize, height_px, most_pixels);
        let mut known = Exposed::default();
        for (i, strip) in strips.iter().enumerate() {
            let task = ExposureTask {
                paths: &paths,
                sight,
                width: width as usize,
                first_row: strip.traced.start,
                height: strip.traced.len(),
                samples: quality.samples.max(1),
                n_threads: self.n_threads,
            };
            let before = strip.kept.start as f32 / height_px as f32;
            let mut exposed = task.run(std::mem::take(&mut known), progress, |rows| {
                let share = rows as f32 / strip.traced.len() as f32 * strip.kept.len() as f32 / height_px as f32;
                progress.reach(BUILDING + (TRACED - BUILDING) * (before + share));
            })?;
            if let Some(next) = strips.get(i + 1) {
                known = exposed.last_rows(strip.traced.end - next.traced.start);
            }
            smooth_light(&mut exposed, paths.white, sight.pixel_mm, self.n_threads);
            soften(&mut exposed, sight.pixel_mm, self.n_threads);
            if progress.is_stopped() {
                return None;
            }
            self.keep(&exposed, strip.kept.start - strip.traced.start, strip.kept.len(), |rows| {
                negative.rows_mut(strip.kept.start).take(rows)
            });
        }
        let rgb = negative.developed(self.n_threads);
        progress.reach(1.0);
        Some(Photograph { width, height, rgb })
    }

    /// Puts colour and light together again, balanced by the white card.
    fn keep<'a>(
        &self,
        exposed: &Exposed,
        skipped: usize,
        n_rows: usize,
        rows: impl FnOnce(usize) -> std::iter::Take<std::slice::ChunksMut<'a, [u16; 3]>>,
    ) {
        let width = exposed.width;
        let balance = 1.0 / self.white;
        share_out(
            self.n_threads,
            rows(n_rows).enumerate(),
            || (),
            |(), (y, out)| {
                let start = (y + skipped) * width;
                let mut small = exposed.small.partition_point(|small| (small.pixel as usize) < start);
                for (x, kept) in out.iter_mut().enumerate() {
                    let at = start + x;
                    let (light, tint) = (&exposed.lights[at], exposed.tints[at]);
                    let shine = |light: &super::exposure::SpotLight, tint: glam::Vec4| {
                        (light.dull() * tint.truncate() + light.gloss()) * tint.w
                    };
                    let mut sum = shine(light, tint);
                    while let Some(of) = exposed.small.get(small).filter(|of| of.pixel as usize == at) {
                        sum += shine(&of.spot.light, of.spot.tint);
                        small += 1;
                    }
                    *kept = Negative::kept(sum * balance);
                }
            },
        );
    }
}

/// Rows that are kept, and those that have to be traced for them.
#[derive(Clone, Debug, PartialEq, Eq)]
struct PhotoStrip {
    kept: std::ops::Range<usize>,
    traced: std::ops::Range<usize>,
}

/// Cuts a picture into strips that fit the memory. Each has as many rows more as smoothing reaches, so no seam is seen; those that two
/// strips share are traced once and smoothed twice.
fn strips(width: usize, height: usize, most_pixels: usize) -> Vec<PhotoStrip> {
    let margin = REACH + MOST_REACH;
    let fits = (most_pixels / width.max(1)).max(4 * margin);
    if height <= fits {
        return vec![PhotoStrip { kept: 0..height, traced: 0..height }];
    }
    let each = fits - 2 * margin;
    (0..height.div_ceil(each))
        .map(|i| {
            let kept = i * each..((i + 1) * each).min(height);
            let traced = kept.start.saturating_sub(margin)..(kept.end + margin).min(height);
            PhotoStrip { kept, traced }
        })
        .collect()
}
