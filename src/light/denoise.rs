//! Smooths the light of spots over the surface they lie on, and leaves their colours and edges alone.
//!
//! An edge-avoiding wavelet of growing holes (Dammertz and others, "Edge-avoiding a-trous wavelet transform for fast global illumination
//! filtering", 2010), steered by the variance of the light (Schied and others, "Spatiotemporal variance-guided filtering", 2017).

use glam::Vec4;

use super::exposure::{BEHIND, Exposed, SpotGuide, SpotLight, SurfaceSpot};
use super::threads::share_out;

/// Passes, each with holes twice as wide as the one before.
pub(super) const N_PASSES: usize = 5;
/// How far the smoothing reaches, pixels: a step to each side in every pass, and one for the variance.
pub(super) const REACH: usize = (1 << N_PASSES) - 1 + 1;
/// Weights of a step from the middle, and of the middle itself.
const STEPS: [f32; 2] = [0.5, 0.25];
/// By how many standard deviations light of the window, of the room and gloss may differ and still be taken for the same.
const DEVIATIONS: Vec4 = Vec4::new(1.6, 3.0, 2.6, 1.0);
/// How much looser that is in the first passes, in which variances are guesses.
const LOOSER: [Vec4; N_PASSES] =
    [Vec4::new(2.0, 4.0, 3.5, 1.0), Vec4::new(1.3, 2.0, 2.0, 1.0), Vec4::ONE, Vec4::ONE, Vec4::ONE];
/// What may differ anyway, as a share of a white card's light.
const LEAST_DEVIATION: Vec4 = Vec4::new(0.004, 0.008, 0.004, 1.0);

/// Light this sure, as a share of a white card's, is left as it is by the wide passes.
const CALM: f32 = 0.002;

/// What all passes share.
#[derive(Debug)]
struct Smoother<'a> {
    exposed: &'a Exposed,
    /// Place among the small spots of each pixel's first, or `u32::MAX`.
    first_small: Vec<u32>,
    white: f32,
    pixel_mm: f32,
    n_threads: usize,
}

/// Smooths the light of all spots. `white` is the light of a white card, `pixel_mm` the width of a pixel.
pub(super) fn smooth_light(exposed: &mut Exposed, white: f32, pixel_mm: f32, n_threads: usize) {
    let mut first_small = vec![u32::MAX; exposed.guides.len()];
    for (i, small) in exposed.small.iter().enumerate().rev() {
        first_small[small.pixel as usize] = i as u32;
    }
    let mut lights = std::mem::take(&mut exposed.lights);
    let mut small: Vec<SpotLight> = exposed.small.iter().map(|small| small.spot.light).collect();
    let smoother = Smoother { exposed, first_small, white, pixel_mm, n_threads };
    let mut next = lights.clone();
    let mut next_small = small.clone();
    smoother.pass(&lights, &small, &mut next, &mut next_small, |s, at, guide, own| {
        s.with_even_variance(&lights, at, guide, own)
    });
    std::mem::swap(&mut lights, &mut next);
    std::mem::swap(&mut small, &mut next_small);
    for pass in 0..N_PASSES {
        smoother.pass(&lights, &small, &mut next, &mut next_small, |s, at, guide, own| {
            s.smoothed((&lights, &small), at, guide, own, pass)
        });
        std::mem::swap(&mut lights, &mut next);
        std::mem::swap(&mut small, &mut next_small);
    }
    exposed.lights = lights;
    for (spot, light) in exposed.small.iter_mut().zip(small) {
        spot.spot.light = light;
    }
}

impl Smoother<'_> {
    /// Does something for each spot.
    fn pass(
        &self,
        lights: &[SpotLight],
        small: &[SpotLight],
        next: &mut [SpotLight],
        next_small: &mut [SpotLight],
        job: impl Fn(&Self, usize, &SpotGuide, &SpotLight) -> SpotLight + Sync,
    ) {
        const ROWS: usize = 8;
        const SPOTS: usize = 4096;
        let (width, guides) = (self.exposed.width.max(1), &self.exposed.guides);
        share_out(
            self.n_threads,
            next.chunks_mut(width * ROWS).enumerate(),
            || (),
            |(), (i, rows)| {
                for (j, out) in rows.iter_mut().enumerate() {
                    let at = i * width * ROWS + j;
                    *out = if guides[at].key == BEHIND { lights[at] } else { job(self, at, &guides[at], &lights[at]) };
                }
            },
        );
        share_out(
            self.n_threads,
            next_small.chunks_mut(SPOTS).enumerate(),
            || (),
            |(), (i, spots)| {
                for (j, out) in spots.iter_mut().enumerate() {
                    let at = i * SPOTS + j;
                    let of = &self.exposed.small[at];
                    let guide = &of.spot.guide;
                    *out =
                        if guide.key == BEHIND { small[at] } else { job(self, of.pixel as usize, guide, &small[at]) };
                }
            },
        );
    }

    /// A spot whose variance is the mean of its neighbours'.
    fn with_even_variance(&self, lights: &[SpotLight], at: usize, guide: &SpotGuide, own: &SpotLight) -> SpotLight {
        let (width, height) = (self.exposed.width, self.exposed.height);
        let (x, y) = (at % width, at / width);
        let (mut sum, mut n) = (own.variance, 1.0_f32);
        for v in y.saturating_sub(1)..(y + 2).min(height) {
            for u in x.saturating_sub(1)..(x + 2).min(width) {
                let q = v * width + u;
                if q != at && self.exposed.guides[q].key == guide.key {
                    sum += lights[q].variance;
                    n += 1.0;
                }
            }
        }
        SpotLight { variance: (sum / n).truncate().extend(own.variance.w), ..*own }
    }

    /// Brightness of a spot and its neighbours on the same surface: what a single bright sample is measured by.
    fn usual_brightness(&self, lights: &[SpotLight], at: usize, guide: &SpotGuide, own: &SpotLight) -> Vec4 {
        let (width, height) = (self.exposed.width, self.exposed.height);
        let (x, y) = (at % width, at / width);
        let known = Vec4::new(1.0, own.variance.w, 1.0, 1.0);
        let (mut sum, mut n) = (own.brightness() * known, known);
        for v in y.saturating_sub(1)..(y + 2).min(height) {
            for u in x.saturating_sub(1)..(x + 2).min(width) {
                let q = v * width + u;
                let other = &self.exposed.guides[q];
                if q != at && other.key == guide.key {
                    let (likeness, off_plane) = alike(guide, other, 0.5 / self.pixel_mm);
                    let weight =
                        Vec4::new(1.0, lights[q].variance.w, 1.0, 1.0) * likeness / (1.0 + off_plane * off_plane);
                    sum += lights[q].brightness() * weight;
                    n += weight;
                }
            }
        }
        sum / n.max(Vec4::splat(1e-6))
    }

    fn smoothed(
        &self,
        (lights, small): (&[SpotLight], &[SpotLight]),
        at: usize,
        guide: &SpotGuide,
        own: &SpotLight,
        pass: usize,
    ) -> SpotLight {
        let calm = CALM * self.white;
        if pass >= 2 && own.variance.w > 0.0 && own.variance.truncate().max_element() < calm * calm {
            return *own;
        }
        let (width, height) = (self.exposed.width as i64, self.exposed.height as i64);
        let (x, y) = (at as i64 % width, at as i64 / width);
        let step = 1_i64 << pass;
        let usual = if pass == 0 { self.usual_brightness(lights, at, guide, own) } else { own.brightness() };
        let mut sum = LightSum::of(own, usual, self.white, pass);
        let plane = 1.0 / (self.pixel_mm * (0.8 * step as f32 + 1.0));
        for dy in -1..=1_i64 {
            let v = y + dy * step;
            if v < 0 || v >= height {
                continue;
            }
            for dx in -1..=1_i64 {
                let u = x + dx * step;
                if u < 0 || u >= width || (dx == 0 && dy == 0) {
                    continue;
                }
                let q = (v * width + u) as usize;
                let by_place = STEPS[dx.unsigned_abs() as usize] * STEPS[dy.unsigned_abs() as usize];
                let other = &self.exposed.guides[q];
                if other.key == guide.key {
                    let (likeness, off_plane) = alike(guide, other, plane);
                    sum.add(&lights[q], by_place * likeness, off_plane);
                    if likeness > 0.0 {
                        continue;
                    }
                }
                if pass < 2 && self.first_small[q] != u32::MAX {
                    let first = self.first_small[q] as usize;
                    let here = self.exposed.small[first..].iter().zip(&small[first..]);
                    for (of, light) in here.take_while(|(of, _)| of.pixel as usize == q) {
                        let of: &SurfaceSpot = &of.spot;
                        if of.guide.key == guide.key {
                            let (likeness, off_plane) = alike(guide, &of.guide, plane);
                            sum.add(light, by_place * likeness * of.tint.w, off_plane);
                        }
                    }
                }
            }
        }
        sum.mean()
    }
}

/// How alike two surfaces face, 0 to 1, and how far one is out of the other's plane.
fn alike(guide: &SpotGuide, other: &SpotGuide, plane: f32) -> (f32, f32) {
    let cosine = guide.normal.dot(other.normal).max(0.0);
    let square = cosine * cosine;
    let (fourth, eighth) = (square * square, square * square * square * square);
    (eighth * eighth * fourth, (other.point - guide.point).dot(guide.normal).abs() * plane)
}

/// A mean of lights like one's own.
struct LightSum {
    usual: Vec4,
    per_deviation: Vec4,
    light: SpotLight,
    weights: Vec4,
}

impl LightSum {
    /// Begins with a spot's own light, which counts as much as it is like what is usual there.
    fn of(own: &SpotLight, usual: Vec4, white: f32, pass: usize) -> Self {
        let deviations =
            own.variance.map(f32::sqrt) * DEVIATIONS * LOOSER[pass.min(N_PASSES - 1)] + LEAST_DEVIATION * white;
        let mut sum = Self { usual, per_deviation: 1.0 / deviations, light: SpotLight::default(), weights: Vec4::ZERO };
        if own.variance.w <= 0.0 {
            // Where nothing is known of the room, neighbours are taken at their word.
            sum.per_deviation.y = 0.0;
        }
        sum.add(own, STEPS[0] * STEPS[0], 0.0);
        sum
    }

    #[inline]
    fn add(&mut self, light: &SpotLight, weight: f32, off_plane: f32) {
        let apart = (light.brightness() - self.usual).abs() * self.per_deviation + off_plane;
        // Close to exp(-x), and nought from eight on.
        let near = (Vec4::ONE - apart * 0.125).max(Vec4::ZERO);
        let near = near * near;
        let near = near * near;
        let known = Vec4::new(1.0, light.variance.w, 1.0, 1.0);
        let weights = near * near * known * weight + known * 1e-7;
        self.light.red += light.red * weights;
        self.light.green += light.green * weights;
        self.light.blue += light.blue * weights;
        self.light.variance += light.variance * weights * weights;
        self.weights += weights;
    }

    fn mean(self) -> SpotLight {
        let is_room_known = self.weights.y > 0.0;
        let weights = self.weights.max(Vec4::splat(1e-12));
        let mut variance = self.light.variance / (weights * weights);
        variance.w = if is_room_known { 1.0 } else { 0.0 };
        SpotLight {
            red: self.light.red / weights,
            green: self.light.green / weights,
            blue: self.light.blue / weights,
            variance,
        }
    }
}
