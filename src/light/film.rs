//! From light to the colours of a screen: exposed and balanced by a grey card, highlights rolled off as film does, a slight glow.

use super::Vec3;
use super::directions::smooth;
use super::sampler::hash;
use super::threads::share_out;

/// Up to this light colours come out as they are ...
const STRAIGHT: f32 = 0.58;
/// ... and above so much they pale, as bright things do.
const PALE: (f32, f32) = (0.9, 5.0);
/// Light that glows beyond its place, and how much of it.
const GLOW_FROM: f32 = 0.8;
const GLOW_MOST: f32 = 3.0;
const GLOW_SHARE: f32 = 0.05;
/// Cells of the glow from left to right.
const GLOW_CELLS: usize = 160;
/// The most light that is kept, in white cards.
const MOST_LIGHT: f32 = 64.0;
const N_TONES: usize = 4096;
/// Unevenness against steps in soft shades, in steps of a byte.
const GRAIN: f32 = 0.9;

/// A picture in light, before it is developed: kept as square roots in 16 bits.
#[derive(Debug)]
pub(super) struct Negative {
    width: usize,
    light: Vec<[u16; 3]>,
}

impl Negative {
    pub(super) fn new(width: usize, height: usize) -> Self {
        Self { width, light: vec![[0; 3]; width * height] }
    }

    /// The rows from `first` on, to be written.
    pub(super) fn rows_mut(&mut self, first: usize) -> std::slice::ChunksMut<'_, [u16; 3]> {
        let start = (first * self.width).min(self.light.len());
        self.light[start..].chunks_mut(self.width.max(1))
    }

    /// How a light is kept that is given in white cards.
    pub(super) fn kept(light: Vec3) -> [u16; 3] {
        let root = |x: f32| if x > 0.0 { (x.min(MOST_LIGHT) / MOST_LIGHT).sqrt() } else { 0.0 };
        light.to_array().map(|x| (root(x) * 65_535.0 + 0.5) as u16)
    }

    fn light(kept: [u16; 3]) -> Vec3 {
        let root = Vec3::from_array(kept.map(f32::from)) / 65_535.0;
        root * root * MOST_LIGHT
    }

    /// The picture: red, green and blue of each pixel, row by row from the top, as sRGB bytes.
    pub(super) fn developed(&self, n_threads: usize) -> Vec<u8> {
        let mut bytes = vec![0; self.light.len() * 3];
        let (tones, glow) = (Tones::new(), Glow::of(self));
        let rows = bytes.chunks_mut((self.width * 3).max(1)).zip(self.light.chunks(self.width.max(1)));
        share_out(
            n_threads,
            rows.enumerate(),
            || (),
            |(), (y, (out, row))| {
                for (x, kept) in row.iter().enumerate() {
                    let light = Self::light(*kept) + glow.at(x, y) * GLOW_SHARE;
                    let grain = hash(x as u32 ^ hash(y as u32));
                    let uneven = ((grain & 0xffff) as f32 + (grain >> 16) as f32) / 65_536.0 - 1.0;
                    for (byte, tone) in out[x * 3..].iter_mut().zip(on_film(light).to_array()) {
                        *byte = (tones.of(tone) + uneven * GRAIN + 0.5).clamp(0.0, 255.0) as u8;
                    }
                }
            },
        );
        bytes
    }
}

/// What film makes of light, in white cards: as it is up to three fifths, then rolled off toward white, its hue kept.
pub(super) fn on_film(light: Vec3) -> Vec3 {
    let brightest = light.max_element();
    if brightest <= STRAIGHT {
        return light.max(Vec3::ZERO);
    }
    let above = (brightest - STRAIGHT) / (1.0 - STRAIGHT);
    let rolled = STRAIGHT + (1.0 - STRAIGHT) * above / (1.0 + above * above).sqrt();
    let kept = light.max(Vec3::ZERO) * (rolled / brightest);
    kept + (Vec3::splat(rolled) - kept) * (0.6 * smooth(PALE.0, PALE.1, brightest))
}

/// The bytes of sRGB by light (IEC 61966-2-1).
struct Tones {
    table: Vec<f32>,
}

impl Tones {
    fn new() -> Self {
        let tone = |i: usize| {
            let root = i as f64 / (N_TONES - 1) as f64;
            let light = root * root;
            let stored = if light <= 0.003_130_8 { 12.92 * light } else { 1.055 * libm::pow(light, 1.0 / 2.4) - 0.055 };
            (stored * 255.0) as f32
        };
        Self { table: (0..N_TONES).map(tone).collect() }
    }

    /// 0 to 255, between the steps.
    fn of(&self, light: f32) -> f32 {
        let at = light.clamp(0.0, 1.0).sqrt() * (N_TONES - 1) as f32;
        let i = (at as usize).min(N_TONES - 2);
        self.table[i] + (self.table[i + 1] - self.table[i]) * (at - i as f32)
    }
}

/// Bright light spread over its surroundings, by coarse cells.
struct Glow {
    columns: usize,
    rows: usize,
    cell_px: f32,
    light: Vec<Vec3>,
}

impl Glow {
    fn of(negative: &Negative) -> Self {
        let width = negative.width.max(1);
        let cell = width.div_ceil(GLOW_CELLS);
        let height = negative.light.len() / width;
        let (columns, rows) = (width.div_ceil(cell), height.div_ceil(cell));
        let mut sums = vec![(Vec3::ZERO, 0.0_f32); columns * rows];
        for (i, kept) in negative.light.iter().enumerate() {
            let (light, n) = &mut sums[i / width / cell * columns + i % width / cell];
            *light += (Negative::light(*kept) - GLOW_FROM).clamp(Vec3::ZERO, Vec3::splat(GLOW_MOST));
            *n += 1.0;
        }
        let mut glow = Self {
            columns,
            rows,
            cell_px: cell as f32,
            light: sums.into_iter().map(|(light, n)| light / n.max(1.0)).collect(),
        };
        for _ in 0..3 {
            glow.spread(1, columns);
            glow.spread(columns, rows);
        }
        glow
    }

    /// Means of three cells along a line of cells; `step` from one to the next.
    fn spread(&mut self, step: usize, length: usize) {
        let old = self.light.clone();
        for (i, light) in self.light.iter_mut().enumerate() {
            let along = i / step % length;
            let before = if along > 0 { old[i - step] } else { old[i] };
            let after = if along + 1 < length { old[i + step] } else { old[i] };
            *light = (before + old[i] + after) / 3.0;
        }
    }

    fn at(&self, x: usize, y: usize) -> Vec3 {
        let place = |at: usize, n: usize| ((at as f32 + 0.5) / self.cell_px - 0.5).clamp(0.0, (n - 1) as f32);
        let (u, v) = (place(x, self.columns), place(y, self.rows));
        let (i, j) = (u as usize, v as usize);
        let (i2, j2) = ((i + 1).min(self.columns - 1), (j + 1).min(self.rows - 1));
        let at = |i: usize, j: usize| self.light[j * self.columns + i];
        let (s, t) = (u - i as f32, v - j as f32);
        at(i, j).lerp(at(i2, j), s).lerp(at(i, j2).lerp(at(i2, j2), s), t)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shown(light: Vec3) -> [u8; 3] {
        let mut negative = Negative::new(8, 8);
        negative.rows_mut(0).for_each(|row| row.fill(Negative::kept(light)));
        let bytes = negative.developed(1);
        let mean = |channel: usize| {
            let sum: usize = bytes.iter().skip(channel).step_by(3).map(|b| usize::from(*b)).sum();
            ((sum as f64 / 64.0) + 0.5) as u8
        };
        [mean(0), mean(1), mean(2)]
    }

    /// A card that gives back 18 % is 118 of 255 in sRGB (IEC 61966-2-1: 1.055 x 0.18^(1/2.4) - 0.055 = 0.4614).
    #[test]
    fn a_grey_card_stays_grey() {
        assert_eq!(shown(Vec3::splat(0.18)), [118, 118, 118]);
    }

    #[test]
    fn colours_of_the_middle_stay_and_bright_ones_keep_their_hue() {
        let deep_red = Vec3::new(0.35, 0.02, 0.03);
        assert_eq!(on_film(deep_red), deep_red);
        let bright = on_film(deep_red * 2.4);
        assert!((bright.y / bright.x - deep_red.y / deep_red.x).abs() < 1e-4);
        let mut last = 0.0;
        for i in 0..400 {
            let white = on_film(Vec3::splat(i as f32 * 0.02));
            assert!(white.x >= last && white.x <= 1.0 && white.x == white.y && white.y == white.z);
            last = white.x;
        }
        assert!(last > 0.99);
    }

    #[test]
    fn light_is_kept_within_half_a_step_of_a_byte() {
        for light in [0.0, 0.001, 0.02, 0.18, 0.7, 3.0] {
            let back = Negative::light(Negative::kept(Vec3::splat(light))).x;
            assert!((back - light).abs() <= 0.002 * light + 2e-6, "{light}: {back}");
        }
        assert_eq!(Negative::kept(Vec3::new(f32::NAN, -1.0, f32::INFINITY)), [0, 0, 65_535]);
    }
}
