//! Numbers that spread evenly: over one pixel's samples, and over neighbouring pixels together, so that what is smoothed later is even too.
//!
//! The first two dimensions of Sobol's sequence, scrambled by hashing (Burley, "Practical hash-based Owen scrambling", JCGT 9(4), 2020),
//! run along a curve through blocks of pixels (Ahmed and Wonka, "Screen-space blue-noise diffusion of Monte Carlo sampling error via
//! hierarchical ordering of pixels", 2020).

use super::Vec2;

/// Bits of x and y that are laid along one curve: blocks of 64 x 64 pixels.
const BLOCK_BITS: u32 = 6;
const ONE_PER_BIT: f32 = 1.0 / 16_777_216.0;

/// Gives pairs of numbers for one sample of one pixel.
#[derive(Clone, Copy, Debug)]
pub(super) struct Sampler {
    index: u32,
    seed: u32,
    chance: u32,
}

impl Sampler {
    /// For sample `k` of `n` of the pixel (x, y).
    pub(super) fn new(x: u32, y: u32, k: u32, n: u32) -> Self {
        let inside = (1 << BLOCK_BITS) - 1;
        let along = interleaved(x & inside) | interleaved(y & inside) << 1;
        let index = along.wrapping_mul(n.next_power_of_two()) + k;
        let block = hash((x >> BLOCK_BITS) ^ hash((y >> BLOCK_BITS).wrapping_add(0x9e37_79b9)));
        Self { index, seed: block, chance: hash(block ^ hash(index.wrapping_add(0x68bc_21eb))) }
    }

    /// The next pair, each 0 to 1 (1 left out), spread evenly over samples and pixels.
    pub(super) fn pair(&mut self) -> Vec2 {
        self.seed = hash(self.seed.wrapping_add(0x9e37_79b9));
        let index = scrambled(self.index, self.seed);
        let one = scrambled(index.reverse_bits(), self.seed ^ 0xa511_e9b3);
        let other = scrambled(second_dimension(index), self.seed ^ 0x6399_2d3b);
        Vec2::new((one >> 8) as f32, (other >> 8) as f32) * ONE_PER_BIT
    }

    /// A number of 0 to 1 (1 left out) by chance alone.
    pub(super) fn by_chance(&mut self) -> f32 {
        self.chance = hash(self.chance.wrapping_add(0x9e37_79b9));
        (self.chance >> 8) as f32 * ONE_PER_BIT
    }

    /// A pair by chance alone: for what is far along a path.
    pub(super) fn pair_by_chance(&mut self) -> Vec2 {
        Vec2::new(self.by_chance(), self.by_chance())
    }
}

/// Spreads the lower 16 bits to the even places.
fn interleaved(x: u32) -> u32 {
    let x = (x | x << 8) & 0x00ff_00ff;
    let x = (x | x << 4) & 0x0f0f_0f0f;
    let x = (x | x << 2) & 0x3333_3333;
    (x | x << 1) & 0x5555_5555
}

/// Sobol's second dimension: the digits times Pascal's triangle modulo 2, then mirrored.
fn second_dimension(index: u32) -> u32 {
    let masks = [0xaaaa_aaaa_u32, 0xcccc_cccc, 0xf0f0_f0f0, 0xff00_ff00, 0xffff_0000];
    masks.iter().enumerate().fold(index, |x, (level, mask)| x ^ (x & mask) >> (1 << level)).reverse_bits()
}

/// Owen's scrambling by a hash: each digit is flipped or not by the digits before it.
fn scrambled(x: u32, seed: u32) -> u32 {
    let mut x = x.reverse_bits();
    x ^= x.wrapping_mul(0x3d20_adea);
    x = x.wrapping_add(seed);
    x = x.wrapping_mul((seed >> 16) | 1);
    x ^= x.wrapping_mul(0x0552_6c56);
    x ^= x.wrapping_mul(0x53a2_2864);
    x.reverse_bits()
}

/// Mixes all bits.
pub(super) fn hash(x: u32) -> u32 {
    let x = (x ^ x >> 16).wrapping_mul(0x21f0_aaad);
    let x = (x ^ x >> 15).wrapping_mul(0xd35a_2d97);
    x ^ x >> 15
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A (0, 2)-sequence: of 16 points that follow each other, each of 16 boxes of any shape holds one.
    #[test]
    fn sixteen_samples_fill_sixteen_boxes_of_every_shape() {
        for (columns, rows) in [(16, 1), (8, 2), (4, 4), (2, 8), (1, 16)] {
            let mut met = vec![0; 16];
            for k in 0..16 {
                let mut sampler = Sampler::new(37, 91, k, 16);
                sampler.pair();
                let p = sampler.pair();
                assert!(p.x >= 0.0 && p.x < 1.0 && p.y >= 0.0 && p.y < 1.0);
                met[(p.x * columns as f32) as usize * rows + (p.y * rows as f32) as usize] += 1;
            }
            assert!(met.iter().all(|n| *n == 1), "{columns} x {rows}: {met:?}");
        }
    }

    #[test]
    fn four_pixels_with_four_samples_fill_them_together() {
        let mut met = vec![0; 16];
        for (x, y, k) in (0..16).map(|i| (6 + (i & 1), 8 + (i >> 1 & 1), i >> 2)) {
            let p = Sampler::new(x, y, k, 4).pair();
            met[(p.x * 4.0) as usize * 4 + (p.y * 4.0) as usize] += 1;
        }
        assert!(met.iter().all(|n| *n == 1), "{met:?}");
    }

    /// What chance alone gives 16,384 points: a mean within four standard errors, sqrt(1/12/16384) each.
    #[test]
    fn chance_is_even() {
        let mut sampler = Sampler::new(0, 0, 0, 1);
        let mean: f64 = (0..16_384).map(|_| f64::from(sampler.by_chance())).sum::<f64>() / 16_384.0;
        assert!((mean - 0.5).abs() < 4.0 * 0.00226, "{mean}");
    }
}
