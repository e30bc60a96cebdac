//! From one colour of the stock list to the tones of a petal, throat to rim, and of its shadows.
//!
//! Lightness moves in OKLab with the chroma kept, so petals go deeper and never grey. White gets a warm throat, dark
//! colours get a lifted rim. All steps are our choice, by eye.

use crate::colour::Rgb;

/// The colour of shade on neutral ground: a warm plum, never black.
pub(crate) const PLUM: Rgb = Rgb::hex(0x341a22);
/// Pure light.
pub(crate) const WHITE: Rgb = Rgb::hex(0xffffff);
/// Yellow of pollen and eyes.
pub(crate) const POLLEN: Rgb = Rgb::hex(0xe3ae2b);
/// Green of sepals and stalks.
pub(crate) const SEPAL: Rgb = Rgb::hex(0x6d8c50);

/// The tones of one petal.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Hues {
    /// Where petals meet.
    pub(crate) throat: Rgb,
    /// The middle of a petal.
    pub(crate) mid: Rgb,
    /// Toward its rim.
    pub(crate) rim: Rgb,
    /// The very edge.
    pub(crate) edge: Rgb,
    /// The colour of shade on it.
    pub(crate) shade: Rgb,
    /// How strongly shade shows on it, 1 for a middling colour.
    pub(crate) depth: f64,
}

/// 0 below `from`, 1 above `to` (or the other way round), smooth between.
pub(crate) fn ease(from: f64, to: f64, x: f64) -> f64 {
    let t = ((x - from) / (to - from)).clamp(0.0, 1.0);
    t * t * (3.0 - 2.0 * t)
}

impl Hues {
    /// The tones of a bloom of this colour.
    pub(crate) fn of(colour: Rgb) -> Self {
        let [l, a, b] = colour.oklab();
        let (white, dark) = (ease(0.86, 0.97, l), ease(0.48, 0.28, l));
        let pale = ease(0.66, 0.88, l);
        let tone = |by: f64, rich: f64, warm: f64| {
            Rgb::from_oklab([(l + by).clamp(0.05, 0.995), a * rich + warm * white * 0.16, b * rich + warm * white])
        };
        let throat = tone(-0.19 + 0.03 * pale + 0.03 * white + 0.04 * dark, 1.12 + 0.55 * pale, 0.034);
        let mid = tone(-0.05 + 0.012 * pale + 0.02 * white + 0.01 * dark, 1.06 + 0.16 * pale, 0.011);
        let rim = tone(0.045 + 0.02 * dark, 0.94, 0.003);
        let edge = tone(0.10 + 0.055 * dark, 0.80, 0.0);
        let own = throat.lighter(-0.30 + 0.05 * white).richer(0.9);
        Self {
            throat,
            mid,
            rim,
            edge,
            shade: PLUM.mixed(own, 0.35 + 0.25 * pale + 0.2 * white),
            depth: 1.0 - 0.14 * pale - 0.2 * white + 0.25 * dark,
        }
    }

    /// The tones further in: `share` of the way toward the throat.
    pub(crate) fn deeper(self, share: f64) -> Self {
        Self {
            throat: self.throat.lighter(-0.05 * share * self.depth),
            mid: self.mid.mixed(self.throat, share * 0.45),
            rim: self.rim.mixed(self.mid, share * 0.62),
            edge: self.edge.mixed(self.rim, share * 0.48),
            ..self
        }
    }

    /// All tones lighter by `by`.
    pub(crate) fn lit(self, by: f64) -> Self {
        let [throat, mid, rim, edge] = [self.throat, self.mid, self.rim, self.edge].map(|c| c.lighter(by));
        Self { throat, mid, rim, edge, ..self }
    }

    /// The tones of a green or of anything else that is waxy: less spread than a petal.
    pub(crate) fn of_leaf(colour: Rgb) -> Self {
        Self {
            throat: colour.lighter(-0.14),
            mid: colour.lighter(-0.04),
            rim: colour.lighter(0.04),
            edge: colour.lighter(0.12).richer(0.9),
            shade: PLUM.mixed(colour.lighter(-0.4), 0.5),
            depth: 1.0,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn white_stays_light_and_warm_and_dark_keeps_its_rim() {
        let white = Hues::of(WHITE);
        let [l, _, b] = white.throat.oklab();
        assert!(l > 0.78 && b > 0.01, "{:?}", white.throat);
        let dark = Hues::of(Rgb::hex(0x4a0d1f));
        assert!(dark.edge.oklab()[0] - dark.throat.oklab()[0] > 0.22);
    }

    #[test]
    fn tones_rise_from_throat_to_edge() {
        for colour in [0xffffff, 0xf3c6c4, 0x800020, 0x101010, 0x5fa8e0, 0xf7d417] {
            let h = Hues::of(Rgb::hex(colour));
            let l = [h.throat, h.mid, h.rim, h.edge].map(|c| c.oklab()[0]);
            assert!(l.windows(2).all(|w| w[0] <= w[1] + 2e-3), "{colour:x} {l:?}");
        }
    }
}
