//! Which part of a photo is meant: all of it, a disc about a tap, or the fabric that a tap hit.
//!
//! Fabric grows from the tap over neighbours whose hue and chroma stay the same while lightness may change by small steps: shade
//! scales a and b of OKLab together with the lightness. It leaps over a line of shine or a seam. Bounds are our choice, by eye
//! on made-up folds.

use super::photo::is_clipped;
use super::{Photo, Rgb};
use crate::units::nearest_whole;

/// Pixels of a photo, as places in [`Photo::pixels`], in their order. At most about [`PhotoRegion::MOST`] of them.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct PhotoRegion {
    pixels: Vec<u32>,
}

impl PhotoRegion {
    /// About so many pixels are looked at; more do not change a median.
    pub const MOST: u32 = 90_000;

    /// The whole photo.
    pub fn whole(photo: &Photo) -> Self {
        let grid = PixelGrid::over(photo);
        Self { pixels: grid.cells().map(|(x, y)| grid.pixel(x, y)).collect() }
    }

    /// A disc, pixels. Empty when it lies outside; at least the pixel in its middle otherwise.
    pub fn disc(photo: &Photo, x: u32, y: u32, radius: u32) -> Self {
        let mut pixels = Vec::new();
        let reach = radius.min(photo.width().max(photo.height()));
        let step = nearest_whole((2.0 * f64::from(reach) / f64::from(Self::MOST).sqrt()).ceil()).max(1);
        let reach = i64::from(reach);
        let offsets = || (-reach / step..=reach / step).map(|k| k * step);
        for dy in offsets() {
            for dx in offsets().filter(|dx| dx * dx + dy * dy <= reach * reach) {
                let (px, py) = (i64::from(x) + dx, i64::from(y) + dy);
                if let (Ok(px), Ok(py)) = (u32::try_from(px), u32::try_from(py)) {
                    pixels.extend(photo.at(px, py).and_then(|_| u32::try_from(photo.place(px, py)).ok()));
                }
            }
        }
        Self { pixels }
    }

    /// The small disc that a finger means: a fiftieth of the shorter side, 3 pixels at least.
    pub fn tap(photo: &Photo, x: u32, y: u32) -> Self {
        Self::disc(photo, x, y, (photo.width().min(photo.height()) / 50).max(3))
    }

    /// The fabric about a tap; never less than [`PhotoRegion::tap`]. Empty when the tap is outside.
    pub fn fabric(photo: &Photo, x: u32, y: u32) -> Self {
        if photo.at(x, y).is_none() {
            return Self::default();
        }
        let tap = Self::tap(photo, x, y);
        let grid = PixelGrid::over(photo);
        let Some(seed) = tap.middle(photo) else { return tap };
        let mut pixels: Vec<u32> = tap.pixels.iter().copied().chain(grid.grown(x, y, seed)).collect();
        pixels.sort_unstable();
        pixels.dedup();
        Self { pixels }
    }

    /// Places in [`Photo::pixels`].
    pub fn pixels(&self) -> &[u32] {
        &self.pixels
    }

    /// The share of the photo it covers, 0 to 1; for a region that was grown or whole.
    pub fn share(&self, photo: &Photo) -> f64 {
        let step = f64::from(PixelGrid::over(photo).step);
        let all = photo.pixels().len().max(1) as f64;
        (self.pixels.len() as f64 * step * step / all).min(1.0)
    }

    /// The median on each OKLab axis.
    fn middle(&self, photo: &Photo) -> Option<[f64; 3]> {
        let labs: Vec<[f64; 3]> =
            self.pixels.iter().filter_map(|&at| photo.pixels().get(at as usize)).map(|c| c.oklab()).collect();
        let median = |axis: usize| {
            let mut values: Vec<f64> = labs.iter().map(|lab| lab[axis]).collect();
            values.sort_by(f64::total_cmp);
            values.get(values.len() / 2).copied()
        };
        Some([median(0)?, median(1)?, median(2)?])
    }
}

/// Every so manyth pixel of a photo.
struct PixelGrid<'a> {
    photo: &'a Photo,
    step: u32,
    across: u32,
    down: u32,
}

impl<'a> PixelGrid<'a> {
    fn over(photo: &'a Photo) -> Self {
        let all = photo.pixels().len() as f64;
        let step = (all / f64::from(PhotoRegion::MOST)).sqrt().ceil();
        let step = u32::try_from(nearest_whole(step)).unwrap_or(1).max(1);
        Self { photo, step, across: photo.width().div_ceil(step), down: photo.height().div_ceil(step) }
    }

    fn cells(&self) -> impl Iterator<Item = (u32, u32)> + use<> {
        let (across, down) = (self.across, self.down);
        (0..down).flat_map(move |y| (0..across).map(move |x| (x, y)))
    }

    fn pixel(&self, x: u32, y: u32) -> u32 {
        u32::try_from(self.photo.place(x * self.step, y * self.step)).unwrap_or(u32::MAX)
    }

    fn colour(&self, x: u32, y: u32) -> Rgb {
        self.photo.at(x * self.step, y * self.step).unwrap_or(Rgb::hex(0))
    }

    /// The places that a flood from the tap reaches over fabric like the seed.
    fn grown(&self, x: u32, y: u32, seed: [f64; 3]) -> Vec<u32> {
        /// Most change of OKLab lightness from a cell to the next.
        const STEP: f64 = 0.09;
        /// Cells that may be leapt: a hundredth of the side of the grid.
        const LEAP: u32 = 3;
        let start = ((x / self.step).min(self.across - 1), (y / self.step).min(self.down - 1));
        let place = |(x, y): (u32, u32)| (y * self.across + x) as usize;
        let mut seen = vec![false; self.across as usize * self.down as usize];
        seen[place(start)] = true;
        let (mut open, mut found) = (vec![start], Vec::new());
        while let Some((x, y)) = open.pop() {
            let here = self.colour(x, y).oklab();
            found.push(self.pixel(x, y));
            let sides = |d: u32| [(x.wrapping_sub(d), y), (x + d, y), (x, y.wrapping_sub(d)), (x, y + d)];
            let around = (1..=LEAP).flat_map(|d| sides(d).map(|next| (next, STEP * f64::from(d))));
            for (next, step) in around.filter(|((x, y), _)| *x < self.across && *y < self.down) {
                if seen[place(next)] {
                    continue;
                }
                let colour = self.colour(next.0, next.1);
                let lab = colour.oklab();
                if !is_clipped(colour) && (lab[0] - here[0]).abs() < step && is_same_fabric(lab, seed) {
                    seen[place(next)] = true;
                    open.push(next);
                }
            }
        }
        found
    }
}

/// Whether two OKLab colours may be one fabric in more or less light.
fn is_same_fabric([l, a, b]: [f64; 3], seed: [f64; 3]) -> bool {
    /// Most distance of a and b, each over its lightness: for grey, for each of chroma, and at most.
    const HUE_ROOM: [f64; 3] = [0.015, 0.3, 0.06];
    /// Least and most lightness over that of the seed.
    const LIGHT_ROOM: std::ops::Range<f64> = 0.35..1.8;
    let scale = |l: f64| 1.0 / l.max(0.05);
    let apart = (a * scale(l) - seed[1] * scale(seed[0])).hypot(b * scale(l) - seed[2] * scale(seed[0]));
    let rich = seed[1].hypot(seed[2]) * scale(seed[0]);
    let room = (HUE_ROOM[0] + HUE_ROOM[1] * rich).min(HUE_ROOM[2]);
    apart < room && LIGHT_ROOM.contains(&(l * scale(seed[0])))
}

#[cfg(test)]
mod tests {
    use std::ops::ControlFlow;

    use super::*;

    fn halves() -> Photo {
        let pixel = |x: u32, _| if x < 300 { Rgb::hex(0x8b1427) } else { Rgb::hex(0x1c6a70) };
        Photo::made_of(500, 400, pixel, &mut |_| ControlFlow::Continue(())).unwrap()
    }

    #[test]
    fn the_fabric_ends_where_another_begins() {
        let photo = halves();
        for (x, part) in [(20, 0.6), (450, 0.4)] {
            let fabric = PhotoRegion::fabric(&photo, x, 200);
            assert!((fabric.share(&photo) - part).abs() < 0.03, "{x}: {}", fabric.share(&photo));
        }
    }

    #[test]
    fn a_tap_at_the_edge_or_outside_does_no_harm() {
        let photo = halves();
        assert!(!PhotoRegion::tap(&photo, 0, 0).pixels().is_empty());
        assert!(!PhotoRegion::fabric(&photo, 499, 399).pixels().is_empty());
        for (x, y) in [(500, 10), (u32::MAX, u32::MAX)] {
            assert!(PhotoRegion::fabric(&photo, x, y).pixels().is_empty());
        }
        assert!(PhotoRegion::disc(&photo, 4000, 4000, 10).pixels().is_empty());
        let most = PhotoRegion::disc(&photo, 250, 200, u32::MAX).pixels().len();
        assert!(most > 100 && most <= 250_000, "{most}");
    }
}
