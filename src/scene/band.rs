//! The band round the arm: elastic, pearls, a tied ribbon, a metal cuff, rhinestones, a slap band.

use kurbo::{Affine, BezPath, Point, Vec2};

use super::brush::{add, circle, linear};
use super::draft::Draft;
use super::hues::{Hues, PLUM, WHITE};
use super::outline::{between, smooth};
use super::ribbon::Cloth;
use super::wrist::Arm;
use super::{Paint, Tint};
use crate::colour::Rgb;
use crate::stock::{Band, BandKind, Weave};

/// Draws the band round the arm at the piece's centre.
pub(crate) fn band(draft: &mut Draft, band: &Band, arm: &Arm) {
    let width = if band.width_mm.is_finite() { band.width_mm.clamp(1.0, 60.0) } else { 6.0 };
    let [left, right] = [-1.0, 1.0].map(|side| arm.half_at(0.0, side) + OVERHANG_MM);
    let strip = Strip { left, right, half: width / 2.0, sag: (left + right) * 0.045 };
    strip.shadow(draft);
    match band.kind {
        BandKind::Elastic => strip.elastic(draft, band.rgb),
        BandKind::Pearl => strip.pearls(draft, band.rgb),
        BandKind::RibbonTie => strip.cloth(draft, Cloth::new(band.rgb, Weave::Satin)),
        BandKind::Slap => strip.cloth(draft, Cloth::new(band.rgb, Weave::Velvet)),
        BandKind::Rhinestone => strip.stones(draft, band.rgb),
        BandKind::Metal => strip.metal(draft, band.rgb),
    }
}

/// How far a band stands out over the arm's edge, mm; its own thickness, our choice.
const OVERHANG_MM: f64 = 0.7;

/// A strip across the arm, sagging toward the hand as a ring does when it is seen from a little above.
struct Strip {
    left: f64,
    right: f64,
    half: f64,
    sag: f64,
}

impl Strip {
    /// The point at `v` of the way from left to right (0 to 1) and `u` of half its width.
    fn at(&self, u: f64, v: f64) -> Point {
        let t = v * 2.0 - 1.0;
        Point::new(u * self.half - self.sag * (1.0 - t * t), -self.left + (self.left + self.right) * v)
    }

    fn line(&self, u: f64) -> Vec<Point> {
        (0..=10).map(|i| self.at(u, f64::from(i) / 10.0)).collect()
    }

    fn outline(&self) -> BezPath {
        between(&self.line(-1.0), &self.line(1.0))
    }

    fn across(&self, list: &[(f64, Tint)]) -> Paint {
        linear((0.0, -self.left), (0.0, self.right), list)
    }

    /// What the strip casts on the arm, soft in a few steps and never beyond the arm's own edge.
    fn shadow(&self, draft: &mut Draft) {
        for i in 0..4 {
            let grow = 0.25 + 0.4 * f64::from(i);
            let under = Self {
                left: self.left - OVERHANG_MM,
                right: self.right - OVERHANG_MM,
                half: self.half + grow,
                ..*self
            };
            let away = Vec2::new(draft.lightward().x * -0.9, 0.0);
            draft.fill(Affine::translate(away), under.outline(), PLUM.paint(0.06));
        }
    }

    fn elastic(&self, draft: &mut Draft, rgb: Rgb) {
        let round = [(0.0, -0.16), (0.2, 0.0), (0.4, 0.05), (0.75, -0.02), (1.0, -0.18)];
        draft.group.fill(self.outline(), self.across(&round.map(|(at, by)| (at, rgb.lighter(by).solid()))));
        let (mut dark, mut light) = (BezPath::new(), BezPath::new());
        for i in 0..46 {
            let v = (f64::from(i) + 0.5 + draft.chance.bell(0.3)) / 46.0;
            let slip = draft.chance.bell(0.012);
            add(&mut dark, &smooth(&[self.at(-0.97, v), self.at(0.0, v + slip), self.at(0.97, v - slip)], false));
            add(
                &mut light,
                &smooth(&[self.at(-0.9, v + 0.007), self.at(0.0, v + slip + 0.007), self.at(0.9, v)], false),
            );
        }
        draft.group.stroke(dark, self.half * 0.09, rgb.lighter(-0.14).paint(0.28));
        draft.group.stroke(light, self.half * 0.06, rgb.lighter(0.1).paint(0.5));
    }

    fn cloth(&self, draft: &mut Draft, cloth: Cloth) {
        let list = cloth.along(&[
            (0.0, -0.16),
            (0.14, 0.01),
            (0.28, 0.10),
            (0.4, 0.02),
            (0.62, -0.04),
            (0.8, 0.06),
            (1.0, -0.16),
        ]);
        draft.group.fill(self.outline(), self.across(&list));
        self.round_over(draft, 0.22);
    }

    fn metal(&self, draft: &mut Draft, rgb: Rgb) {
        let list = [
            (0.0, -0.3),
            (0.12, 0.02),
            (0.2, 0.2),
            (0.27, 0.03),
            (0.5, -0.12),
            (0.7, 0.05),
            (0.78, 0.16),
            (0.86, -0.04),
            (1.0, -0.32),
        ];
        draft.group.fill(self.outline(), self.across(&list.map(|(at, by)| (at, rgb.lighter(by).solid()))));
        self.round_over(draft, 0.5);
    }

    /// Light along the upper edge, shade along the lower one.
    fn round_over(&self, draft: &mut Draft, strength: f64) {
        let upper = between(&self.line(0.72), &self.line(1.0));
        let lower = between(&self.line(-1.0), &self.line(-0.74));
        draft.group.fill(upper, WHITE.paint(strength));
        draft.group.fill(lower, PLUM.paint(strength * 0.6));
    }

    /// Rows of stones in their settings.
    fn stones(&self, draft: &mut Draft, rgb: Rgb) {
        const ROWS: [f64; 3] = [-0.66, 0.0, 0.66];
        let wide = self.left + self.right;
        let r = (self.half * 0.3).max(0.3);
        let count = (0..200_u32).take_while(|i| f64::from(*i) * r * 2.1 < wide).count().max(3);
        let setting = self.across(&[
            (0.0, rgb.lighter(-0.3).solid()),
            (0.4, rgb.lighter(-0.08).solid()),
            (1.0, rgb.lighter(-0.34).solid()),
        ]);
        draft.group.fill(self.outline(), setting);
        let (mut crowns, mut sparks) = (BezPath::new(), BezPath::new());
        for u in ROWS {
            for i in 0..count {
                let centre = self.at(u, (i as f64 + 0.5) / count as f64);
                add(&mut crowns, &circle(centre, r * 0.92));
                add(&mut sparks, &circle(centre + draft.lightward() * (r * draft.chance.between(0.1, 0.5)), r * 0.4));
            }
        }
        draft.group.fill(crowns, rgb.lighter(0.04).paint(1.0));
        draft.group.fill(sparks, WHITE.paint(0.9));
    }

    fn pearls(&self, draft: &mut Draft, rgb: Rgb) {
        let wide = self.left + self.right;
        let count = (0..200_u32).take_while(|i| f64::from(*i) * self.half * 1.96 < wide).count().max(3);
        let r = wide / (count as f64 * 2.0);
        let hues = Hues::of(rgb);
        for i in 0..count {
            let centre = self.at(0.0, (i as f64 + 0.5) / count as f64);
            draft.ball(centre, r, &hues, 0.8);
        }
    }
}
