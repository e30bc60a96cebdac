//! A loop that stands: one strip from the knot out, round and back.

use super::{Course, Fabric, RibbonStrip, UnderRibbon};
use crate::geometry::{loop_arc, loop_curve};
use crate::light::{Mesh, Vec3};
use crate::model::arm::ease;
use crate::units::chance::Chance;
use kurbo::ParamCurve;

/// The most of its reach over which a loop lies flat, how far its halves are apart there, half of it in mm, and how much it falls with the
/// skin, radians; our choice.
const MOST_STEM: f32 = 0.62;
const HALF_GAP_MM: f32 = 0.7;
const STEM_FALL_RAD: f32 = 0.08;
/// Points on the curve of a loop.
const N_POINTS: usize = 240;
/// The least room between a loop and what is under it, mm.
const ROOM_MM: f32 = 1.0;
/// Steps by which a loop is raised until it has that room, radians, and how many at most.
const RAISE_RAD: f32 = 0.05;
const MOST_RAISES: u32 = 18;

/// Where a loop goes and how it stands.
#[derive(Clone, Copy, Debug)]
pub(super) struct StandingLoop {
    reach: f32,
    open: f32,
    /// Direction in the frame of the piece, radians.
    turn: f32,
    /// How much it leans to one side, radians.
    lean: f32,
    /// How steeply it rises, radians.
    rise: f32,
    /// How much it bends back down along its length, radians.
    droop: f32,
    /// How much it is twisted from the knot to its end, radians.
    twist: f32,
    /// How much higher than the lowest one it begins, mm.
    layer_mm: f32,
    /// How far its halves lie flat on each other before it opens, mm.
    stem: f32,
}

/// The middle of a loop seen from its side: how far out it is and how high, as the way goes along it.
struct Axis {
    places: Vec<[f32; 2]>,
    ways: Vec<[f32; 2]>,
    step: f32,
}

impl StandingLoop {
    /// The loop number `index`, counted from the lowest.
    pub(super) fn new(reach: f32, open: f32, turn: f32, index: u32, chance: &mut Chance) -> Self {
        let mut around = |spread: f64| chance.bell(spread) as f32;
        // Loops of both sides lean toward the hand or away from it by turns, so that their insides are seen.
        let way = if (index / 2).is_multiple_of(2) { 1.0 } else { -1.0 };
        Self {
            reach,
            open,
            turn: turn + around(0.05),
            lean: way * (0.55 + around(0.3)),
            rise: 0.12 + 0.07 * (index / 2) as f32 + around(0.06),
            droop: 0.30 + around(0.14),
            twist: way * (0.18 + around(0.2)),
            layer_mm: 0.45 * (index / 2) as f32,
            stem: 0.0,
        }
    }

    /// The same loop, lying flat so far out from the knot and then open as far as its ribbon lets it.
    pub(super) fn flat_for(self, stem_mm: f32) -> Self {
        Self { stem: stem_mm.clamp(0.0, MOST_STEM * self.reach), ..self }
    }

    /// Its surface, standing free of the ground.
    pub(super) fn mesh(mut self, fabric: &Fabric, knot_mm: f32, ground: &impl UnderRibbon) -> Mesh {
        for _ in 0..MOST_RAISES {
            if self.has_room(fabric, knot_mm, ground) {
                break;
            }
            self.rise += RAISE_RAD;
        }
        let (line, sides) = self.line(knot_mm);
        let total = line.length();
        let side = |length: f32| {
            let index = line.step_at(length) as usize;
            sides[index.min(sides.len() - 1)]
        };
        let narrow = |length: f32| {
            let from_knot = length.min(total - length) / (0.34 * total).max(1e-3);
            0.34 + 0.66 * ease(0.0, 1.0, from_knot)
        };
        RibbonStrip { fabric, line: &line, narrow: &narrow, side: &side, cut: &|_| 0.0 }.mesh(1.1)
    }

    fn has_room(&self, fabric: &Fabric, knot_mm: f32, ground: &impl UnderRibbon) -> bool {
        let (line, sides) = self.line(knot_mm);
        let half = fabric.width_mm * 0.5;
        // The pleats near the knot stand out of the strip.
        let room = ROOM_MM + 0.05 * fabric.width_mm;
        let n = sides.len();
        (n / 14..n - n / 14).step_by(5).all(|i| {
            let at = line.place(i);
            [-1.0, 0.0, 1.0].iter().all(|aside| ground.distance_mm(at + sides[i] * (half * aside)) > room)
        })
    }

    /// Its middle line and which way its width lies at each point of it.
    pub(super) fn line(&self, knot_mm: f32) -> (Course, Vec<Vec3>) {
        let (sine, cosine) = libm::sincosf(self.turn);
        // Out from the knot, across that.
        let (out, across) = (Vec3::new(sine, cosine, 0.0), Vec3::new(-cosine, sine, 0.0));
        let knot = Vec3::Z * (knot_mm + self.layer_mm);
        let axis = self.axis();
        let mut places = Vec::new();
        let mut sides = Vec::new();
        for [far, high] in self.profile() {
            let ([x, z], [ahead, upward]) = axis.at(far);
            let up = Vec3::Z * ahead - out * upward;
            let open = ease(self.stem - 4.0, self.stem + 14.0, far);
            let lean = if self.stem > 0.0 { open } else { 1.0 } * self.lean + self.twist * far / self.reach;
            let (lean_sine, lean_cosine) = libm::sincosf(lean);
            places.push(knot + out * x + Vec3::Z * z + (up * lean_cosine + across * lean_sine) * high);
            sides.push(across * lean_cosine - up * lean_sine);
        }
        (Course::through(places), sides)
    }

    /// The loop laid flat, from the knot and back: how far out, and how far above or below its middle. Where it lies flat first, the rest
    /// opens wider, so that it takes the same ribbon.
    fn profile(&self) -> Vec<[f32; 2]> {
        let (reach, stem) = (f64::from(self.reach), f64::from(self.stem));
        let open = self.open_after_stem();
        let curve = loop_curve(reach - stem, open, 0.0);
        let flat = |share: f32, side: f32| [share * self.stem, side * HALF_GAP_MM * share.sqrt()];
        let n_flat = if self.stem > 0.0 { N_POINTS / 5 } else { 0 };
        let there = (0..n_flat).map(|i| flat(i as f32 / n_flat as f32, 1.0));
        let round = (0..=N_POINTS).map(|i| {
            let point = curve.eval(i as f64 / N_POINTS as f64);
            let from_gap = if n_flat > 0 { 1.0 - 2.0 * i as f32 / N_POINTS as f32 } else { 0.0 };
            [point.x as f32 + self.stem, point.y as f32 + HALF_GAP_MM * from_gap]
        });
        let back = (0..n_flat).rev().map(|i| flat(i as f32 / n_flat as f32, -1.0));
        let all: Vec<[f32; 2]> = there.chain(round).chain(back).collect();
        if n_flat > 0 { rounded(&all) } else { all }
    }

    fn open_after_stem(&self) -> f64 {
        let (reach, stem, open) = (f64::from(self.reach), f64::from(self.stem), f64::from(self.open));
        if stem <= 0.0 {
            return open;
        }
        let asked = loop_arc(reach, open) - 2.0 * stem;
        let (mut low, mut high) = (0.0, 6.0 * open);
        for _ in 0..40 {
            let middle = f64::midpoint(low, high);
            if loop_arc(reach - stem, middle) < asked { low = middle } else { high = middle }
        }
        low
    }

    /// Its axis: flat under the heads, then rising and bending back; what is longer outside of a bend is shorter inside.
    fn axis(&self) -> Axis {
        let n = 160;
        let step = self.reach * 1.02 / n as f32;
        let (mut place, mut axis) = ([0.0, 0.0], Axis { places: Vec::new(), ways: Vec::new(), step });
        for i in 0..=n {
            let far = i as f32 * step;
            let risen = if self.stem > 0.0 { ease(self.stem - 8.0, self.stem + 8.0, far) } else { 1.0 };
            let bent = (far - self.stem).max(0.0) / (self.reach - self.stem);
            let (sine, cosine) = libm::sincosf(self.rise * risen - STEM_FALL_RAD * (1.0 - risen) - self.droop * bent);
            axis.places.push(place);
            axis.ways.push([cosine, sine]);
            place = [place[0] + cosine * step, place[1] + sine * step];
        }
        axis
    }
}

impl Axis {
    /// Where it is, and which way it goes, so far along.
    fn at(&self, far: f32) -> ([f32; 2], [f32; 2]) {
        let step = (far / self.step).max(0.0);
        let i = (step as usize).min(self.places.len() - 2);
        let t = step - i as f32;
        let mix = |of: &[[f32; 2]]| [0, 1].map(|k| of[i][k] + (of[i + 1][k] - of[i][k]) * t);
        (mix(&self.places), mix(&self.ways))
    }
}

/// The same line without its sharp bends, its ends where they were.
fn rounded(line: &[[f32; 2]]) -> Vec<[f32; 2]> {
    const REACH: usize = 7;
    let last = line.len() - 1;
    (0..line.len())
        .map(|i| {
            let reach = REACH.min(i).min(last - i);
            let near = &line[i - reach..=i + reach];
            [0, 1].map(|k| near.iter().map(|p| p[k]).sum::<f32>() / near.len() as f32)
        })
        .collect()
}
