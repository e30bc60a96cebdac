//! The main colours of a photo: k-means in OKLab with a fixed start, so that one photo always gives the same.
//!
//! The start is the colour nearest to the mean, then always the one farthest from those chosen; our own, after the usual rule.

use super::{Photo, PhotoRegion, Rgb};

/// One of the main colours.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MainColour {
    /// The colour.
    pub rgb: Rgb,
    /// Its share of the region, 0 to 1.
    pub share: f64,
}

/// Rounds after which nothing worth seeing changes.
const ROUNDS: usize = 24;
/// About so many pixels are sorted; more do not change the middles.
const SAMPLE: usize = 20_000;

/// At most `count` main colours of a region, the largest first.
pub fn main_colours(photo: &Photo, region: &PhotoRegion, count: usize) -> Vec<MainColour> {
    let step = region.pixels().len().div_ceil(SAMPLE).max(1);
    let places = region.pixels().iter().step_by(step);
    let labs: Vec<[f64; 3]> =
        places.filter_map(|&at| photo.pixels().get(at as usize)).map(|colour| colour.oklab()).collect();
    let mut middles = starts(&labs, count);
    let mut sizes = vec![0_usize; middles.len()];
    for _ in 0..ROUNDS {
        let (next, n) = means(&labs, &middles);
        let is_settled = next == middles;
        (middles, sizes) = (next, n);
        if is_settled {
            break;
        }
    }
    let all = labs.len().max(1) as f64;
    let found = middles.iter().zip(&sizes).filter(|(_, n)| **n > 0);
    let mut found: Vec<MainColour> =
        found.map(|(lab, n)| MainColour { rgb: Rgb::from_oklab(*lab), share: *n as f64 / all }).collect();
    found.sort_by(|a, b| b.share.total_cmp(&a.share));
    found
}

fn starts(labs: &[[f64; 3]], count: usize) -> Vec<[f64; 3]> {
    let mean = mean_of(labs);
    let nearest = labs.iter().min_by(|a, b| apart2(**a, mean).total_cmp(&apart2(**b, mean)));
    let mut chosen: Vec<[f64; 3]> = nearest.into_iter().copied().take(count).collect();
    let mut distance: Vec<f64> = labs.iter().map(|_| f64::MAX).collect();
    while let Some(last) = chosen.last().copied().filter(|_| chosen.len() < count) {
        for (d, lab) in distance.iter_mut().zip(labs) {
            *d = d.min(apart2(*lab, last));
        }
        let farthest = labs.iter().zip(&distance).max_by(|a, b| a.1.total_cmp(b.1));
        match farthest {
            Some((lab, d)) if *d > 0.0 => chosen.push(*lab),
            _ => break,
        }
    }
    chosen
}

fn means(labs: &[[f64; 3]], middles: &[[f64; 3]]) -> (Vec<[f64; 3]>, Vec<usize>) {
    let mut groups = vec![([0.0; 3], 0_usize); middles.len()];
    for lab in labs {
        let nearest = (0..middles.len()).min_by(|&a, &b| apart2(*lab, middles[a]).total_cmp(&apart2(*lab, middles[b])));
        if let Some((sum, n)) = nearest.and_then(|k| groups.get_mut(k)) {
            *sum = [0, 1, 2].map(|i| sum[i] + lab[i]);
            *n += 1;
        }
    }
    let mean = |((sum, n), old): (&([f64; 3], usize), &[f64; 3])| {
        if *n == 0 { *old } else { sum.map(|s| s / *n as f64) }
    };
    (groups.iter().zip(middles).map(mean).collect(), groups.iter().map(|g| g.1).collect())
}

fn mean_of(labs: &[[f64; 3]]) -> [f64; 3] {
    let n = labs.len().max(1) as f64;
    [0, 1, 2].map(|i| labs.iter().map(|lab| lab[i]).sum::<f64>() / n)
}

fn apart2(a: [f64; 3], b: [f64; 3]) -> f64 {
    (0..3).map(|i| (a[i] - b[i]).powi(2)).sum()
}

#[cfg(test)]
mod tests {
    use std::ops::ControlFlow;

    use super::*;

    #[test]
    fn three_fields_are_three_colours_with_their_shares() {
        let fields = [0x8b1427, 0xf5ecd8, 0x1c6a70].map(Rgb::hex);
        let pixel = |x: u32, _| {
            if x < 60 {
                fields[0]
            } else if x < 90 {
                fields[1]
            } else {
                fields[2]
            }
        };
        let photo = Photo::made_of(100, 50, pixel, &mut |_| ControlFlow::Continue(())).unwrap();
        let found = main_colours(&photo, &PhotoRegion::whole(&photo), 5);
        let shares: Vec<f64> = found.iter().map(|m| (m.share * 100.0).round()).collect();
        assert_eq!(found.iter().map(|m| m.rgb).collect::<Vec<_>>(), fields);
        assert_eq!(shares, [60.0, 30.0, 10.0]);
        assert!(main_colours(&photo, &PhotoRegion::default(), 5).is_empty());
        assert!(main_colours(&photo, &PhotoRegion::whole(&photo), 0).is_empty());
    }
}
