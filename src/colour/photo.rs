//! What a photo says about one colour: pixels, and the colour of a lit fabric in a part of them.
//!
//! Fabric has folds and shine. Shade keeps hue and chroma (over lightness) and takes lightness; shine is clipped or among the
//! lightest. So the middle of a band of lightness is read: usually from the 70th to the 95th percentile, which came within
//! 1.6 of CIEDE2000 of made-up folds where the plain median was 7.4 off. How light the fabric would be in even light is a guess,
//! therefore a slider moves the band from shade to light. No files here.

use std::ops::ControlFlow;

use super::light::{byte_near_light, light_of_byte};
use super::{GreyCard, PhotoRegion, Rgb};
use crate::units::{ceil_u32, nearest_whole};

/// What was made of the colour profile that a photo came with.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum ProfileUse {
    /// It had none: its colours are sRGB.
    #[default]
    NoProfile,
    /// Its colours were converted to sRGB.
    Converted,
    /// The profile is one of grey or of inks, and was left alone.
    NotForScreens,
    /// The profile is broken: its colours are taken as sRGB.
    Unreadable,
}

impl ProfileUse {
    /// What has to be said of it beside a colour.
    pub fn doubt(self) -> Option<&'static str> {
        match self {
            Self::Unreadable => Some("This photo's colour profile is damaged, so colours may be a little off."),
            Self::NoProfile | Self::Converted | Self::NotForScreens => None,
        }
    }
}

/// A photo, ready to be read: at most [`Photo::LONGEST`] pixels a side. Rows from the top, pixels from the left.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Photo {
    width: u32,
    height: u32,
    pixels: Vec<Rgb>,
    profile: ProfileUse,
}

impl Photo {
    /// The longer side, pixels: fits any graphics card, and is more than a colour needs.
    pub const LONGEST: u32 = 2000;

    /// A photo of `width` by `height` pixels, made smaller by a whole factor where it is larger than is kept: each pixel is
    /// then the mean light of a square. `progress` hears shares from 0 to 1. None when there is nothing, or when stopped.
    pub fn made_of(
        width: u32,
        height: u32,
        pixel: impl Fn(u32, u32) -> Rgb,
        progress: &mut dyn FnMut(f64) -> ControlFlow<()>,
    ) -> Option<Self> {
        let factor = width.max(height).div_ceil(Self::LONGEST).max(1);
        let (across, down) = (width / factor, height / factor);
        if across == 0 || down == 0 {
            return None;
        }
        let mut pixels = Vec::new();
        for y in 0..down {
            if progress(f64::from(y) / f64::from(down)).is_break() {
                return None;
            }
            if factor == 1 {
                pixels.extend((0..across).map(|x| pixel(x, y)));
            } else {
                pixels.extend((0..across).map(|x| mean_light(x * factor, y * factor, factor, &pixel)));
            }
        }
        Some(Self { width: across, height: down, pixels, profile: ProfileUse::NoProfile })
    }

    /// The same photo, with what was made of its colour profile.
    pub fn with_profile(self, profile: ProfileUse) -> Self {
        Self { profile, ..self }
    }

    /// What was made of its colour profile.
    pub fn profile(&self) -> ProfileUse {
        self.profile
    }

    /// Width, pixels.
    pub fn width(&self) -> u32 {
        self.width
    }
    /// Height, pixels.
    pub fn height(&self) -> u32 {
        self.height
    }
    /// All pixels, row by row.
    pub fn pixels(&self) -> &[Rgb] {
        &self.pixels
    }

    /// The pixel at `x` from the left and `y` from the top; none outside.
    pub fn at(&self, x: u32, y: u32) -> Option<Rgb> {
        let inside = x < self.width && y < self.height;
        inside.then(|| self.pixels.get(self.place(x, y)).copied()).flatten()
    }

    pub(super) fn place(&self, x: u32, y: u32) -> usize {
        y as usize * self.width as usize + x as usize
    }
}

fn mean_light(left: u32, top: u32, side: u32, pixel: &impl Fn(u32, u32) -> Rgb) -> Rgb {
    let mut sum = [0.0; 3];
    for y in top..top + side {
        for x in left..left + side {
            let Rgb { r, g, b } = pixel(x, y);
            for (sum, channel) in sum.iter_mut().zip([r, g, b]) {
                *sum += light_of_byte(channel);
            }
        }
    }
    let n = f64::from(side) * f64::from(side);
    let [r, g, b] = sum.map(|s| byte_near_light(s / n));
    Rgb { r, g, b }
}

/// Whether a channel has run into the end of what the camera keeps, so that the hue is no longer right. Bounds are ours.
pub(super) fn is_clipped(Rgb { r, g, b }: Rgb) -> bool {
    [r, g, b].iter().any(|c| *c <= 2 || *c >= 253)
}

/// Where the slider stands at first: the middle of the band from the 70th to the 95th percentile.
pub const USUAL_LIGHT: f64 = 0.825;

/// Half the width of the band that is read, as a share of the pixels.
const HALF_BAND: f64 = 0.125;

/// Share of the pixels that must not be clipped for the clipped ones to be left out. Our choice: of a saturated or a blown-out
/// fabric all are clipped, and its colour is still best told from them.
const LEAST_KEPT: f64 = 0.2;

/// A colour read from a photo.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reading {
    /// The colour, corrected where a card was given.
    pub rgb: Rgb,
    /// OKLab of it before it was made to fit a screen.
    pub oklab: [f64; 3],
    /// Share of the region that the camera clipped, 0 to 1. From a half on the colour is doubtful.
    pub clipped: f64,
    /// The same fabric in deep shade and in full light, uncorrected: the ends of the slider.
    pub ends: [Rgb; 2],
}

/// The colour of a region. `light` moves from shade (0) to light (1), [`USUAL_LIGHT`] to begin with. None when the region is
/// empty.
pub fn read_region(photo: &Photo, region: &PhotoRegion, light: f64, card: Option<&GreyCard>) -> Option<Reading> {
    let all: Vec<Rgb> = region.pixels().iter().filter_map(|&at| photo.pixels.get(at as usize).copied()).collect();
    let sound: Vec<Rgb> = all.iter().copied().filter(|c| !is_clipped(*c)).collect();
    let share = sound.len() as f64 / all.len().max(1) as f64;
    let used = if share < LEAST_KEPT { &all } else { &sound };
    let mut labs: Vec<[f64; 3]> = used.iter().map(|c| c.oklab()).collect();
    labs.sort_by(|a, b| a[0].total_cmp(&b[0]));
    let seen = band_middle(&labs, light)?;
    let oklab = card.map_or(seen, |card| card.correct_oklab(seen));
    let ends = [band_middle(&labs, 0.0)?, band_middle(&labs, 1.0)?].map(Rgb::from_oklab);
    Some(Reading { rgb: Rgb::from_oklab(oklab), oklab, clipped: 1.0 - share, ends })
}

/// The median on each axis of the band of lightness about `light`; the colours go from dark to light.
fn band_middle(from_dark: &[[f64; 3]], light: f64) -> Option<[f64; 3]> {
    let light = if light.is_nan() { USUAL_LIGHT } else { light };
    let start = (light - HALF_BAND).clamp(0.0, 1.0 - 2.0 * HALF_BAND);
    let n = from_dark.len() as f64;
    let first = usize::try_from(nearest_whole(start * n)).ok()?.min(from_dark.len().saturating_sub(1));
    let past = (first + ceil_u32(2.0 * HALF_BAND * n) as usize).min(from_dark.len());
    let band = from_dark.get(first..past)?;
    let median = |axis: usize| {
        let mut values: Vec<f64> = band.iter().map(|lab| lab[axis]).collect();
        values.sort_by(f64::total_cmp);
        values.get(values.len() / 2).copied()
    };
    Some([median(0)?, median(1)?, median(2)?])
}

#[cfg(test)]
mod tests {
    use super::*;

    fn plain(width: u32, height: u32, colour: Rgb) -> Photo {
        Photo::made_of(width, height, |_, _| colour, &mut |_| ControlFlow::Continue(())).unwrap()
    }

    #[test]
    fn a_large_photo_is_made_smaller_by_the_mean_of_light() {
        // A board of black and white squares of one pixel: half of the light is stored as 188.
        let board = |x: u32, y: u32| if (x + y).is_multiple_of(2) { Rgb::hex(0xffffff) } else { Rgb::hex(0) };
        let photo = Photo::made_of(4000, 10, board, &mut |_| ControlFlow::Continue(())).unwrap();
        assert_eq!((photo.width(), photo.height()), (2000, 5));
        assert!(photo.pixels().iter().all(|p| *p == Rgb::hex(0xbcbcbc)), "{:?}", photo.at(0, 0));
    }

    #[test]
    fn progress_is_heard_and_can_stop_it() {
        let mut heard = Vec::new();
        let stopped = Photo::made_of(8, 8, |_, _| Rgb::hex(0), &mut |share| {
            heard.push(share);
            if heard.len() == 3 { ControlFlow::Break(()) } else { ControlFlow::Continue(()) }
        });
        assert_eq!((stopped, heard), (None, vec![0.0, 0.125, 0.25]));
        assert_eq!(Photo::made_of(0, 5, |_, _| Rgb::hex(0), &mut |_| ControlFlow::Continue(())), None);
    }

    #[test]
    fn a_plain_photo_reads_as_its_colour_wherever_the_slider_stands() {
        let colour = Rgb::hex(0x8ea5bd);
        let photo = plain(30, 20, colour);
        for light in [0.0, 0.5, 1.0, -3.0, 9.0, f64::NAN] {
            let read = read_region(&photo, &PhotoRegion::whole(&photo), light, None).unwrap();
            assert_eq!((read.rgb, read.clipped), (colour, 0.0));
        }
        assert_eq!(photo.at(30, 0), None);
    }

    #[test]
    fn a_colour_whose_channel_is_at_its_end_still_reads() {
        let photo = plain(10, 10, Rgb::hex(0xd2002d));
        let read = read_region(&photo, &PhotoRegion::whole(&photo), USUAL_LIGHT, None).unwrap();
        assert_eq!((read.rgb, read.clipped), (Rgb::hex(0xd2002d), 1.0));
    }
}
