//! A tail that falls over what it lies on: a net of points held at their distances, let fall and brought to rest.
//!
//! Position-based dynamics (Mueller, Heidelberger, Hennix, Ratcliff: Position Based Dynamics, J. Vis. Commun. Image R. 18, 2007). Only
//! additions, products and roots, so that every computer gets the same bits.

use super::{Course, Fabric, UnderRibbon};
use crate::light::{Mesh, Vec3};
use crate::model::arm::gradient;
use crate::units::chance::Chance;

/// Points across.
const ACROSS: usize = 5;
/// Steps until it rests, and rounds over all links in each.
const STEPS: u32 = 90;
const ROUNDS: u32 = 10;
/// What a step adds in speed, mm a step.
const FALL_MM: f32 = 0.06;
/// The room between ribbon and skin, mm.
const ROOM_MM: f32 = 0.9;
/// And the least in the finished strip.
const LEAST_ROOM_MM: f32 = 0.35;
/// It is made so much longer than it is cut, so that the cut lies within it.
const SPARE: f32 = 1.08;
/// How deep the cut goes into the end, in widths of the ribbon; our choice.
const CUT: f32 = 0.5;

/// Points and their distances.
struct Net {
    now: Vec<Vec3>,
    before: Vec<Vec3>,
    links: Vec<Link>,
    rows: usize,
}

/// Two points, how far apart they are, and how firmly.
struct Link {
    ends: [usize; 2],
    length: f32,
    firm: f32,
}

/// One tail of this length in the direction `turn` of the piece, from a place in the knot.
pub(super) fn tail(
    fabric: &Fabric,
    length: f32,
    turn: f32,
    from: Vec3,
    ground: &impl UnderRibbon,
    chance: &mut Chance,
) -> Mesh {
    let mut net = Net::laid_out(fabric, length * SPARE, turn, from, chance);
    for step in 0..STEPS {
        net.step(ground, if step + 15 < STEPS { 0.94 } else { 0.7 });
    }
    net.mesh(fabric, length, ground)
}

impl Net {
    fn laid_out(fabric: &Fabric, length: f32, turn: f32, from: Vec3, chance: &mut Chance) -> Self {
        let half = fabric.width_mm * 0.5;
        let gap = (fabric.width_mm / 4.0).clamp(2.5, 6.0).max(length / 110.0);
        let rows = ((length / gap) as usize).max(3) + 2;
        let (sine, cosine) = libm::sincosf(turn);
        let (out, across) = (Vec3::new(sine, cosine, 0.0), Vec3::new(-cosine, sine, 0.0));
        let swing = [chance.between(0.04, 0.10) as f32, chance.angle() as f32];
        let side = if chance.next_f64() < 0.5 { -1.0 } else { 1.0 };
        let mut now = Vec::with_capacity(rows * ACROSS);
        let mut place = from;
        for row in 0..rows {
            // It leaves the knot rising a little, and in a slow wave to both sides.
            let far = row as f32 * gap;
            let way = swing[0] * side * libm::sinf(far * 0.032 + swing[1]);
            let rise = 0.30 - far * 0.004 + 0.50 * libm::sinf(far * 0.105 + swing[1]);
            let step = (out + across * way + Vec3::Z * rise.max(-0.3)).normalize();
            let width = step.cross(Vec3::Z).normalize_or(across) * -1.0;
            let wide = half * (0.42 + 0.58 * (far / (2.2 * fabric.width_mm)).min(1.0));
            // Turned a little about its own middle, one way and the other.
            let roll = 0.25 * libm::sinf(far * 0.05 + swing[1] * 2.0);
            for column in 0..ACROSS {
                let aside = column as f32 / 2.0 - 1.0;
                now.push(place + (width + Vec3::Z * roll).normalize() * (aside * wide));
            }
            place += step * gap;
        }
        let mut net = Self { before: now.clone(), now, links: Vec::new(), rows };
        net.link(gap);
        net
    }

    /// Holds neighbours firmly and those beyond them softly: cloth that does not stretch, and is a little stiff.
    fn link(&mut self, gap: f32) {
        let mut add = |now: &[Vec3], a: usize, b: usize, firm: f32, share: f32| {
            self.links.push(Link { ends: [a, b], length: now[a].distance(now[b]) * share, firm });
        };
        for row in 0..self.rows {
            for column in 0..ACROSS {
                let here = row * ACROSS + column;
                if row + 1 < self.rows {
                    add(&self.now, here, here + ACROSS, 1.0, 1.0);
                    if column + 1 < ACROSS {
                        add(&self.now, here, here + ACROSS + 1, 0.9, 1.0);
                        add(&self.now, here + 1, here + ACROSS, 0.9, 1.0);
                    }
                }
                if column + 1 < ACROSS {
                    add(&self.now, here, here + 1, 1.0, 1.0);
                }
                if column + 2 < ACROSS {
                    add(&self.now, here, here + 2, 0.5, 1.0);
                }
                if row + 3 < self.rows {
                    // Stiffer for short steps, as the same cloth is.
                    add(&self.now, here, here + 3 * ACROSS, (2.2 / gap).min(0.7), 1.0);
                }
            }
        }
    }

    /// One step of falling, holding together and lying on what is below.
    fn step(&mut self, ground: &impl UnderRibbon, keep: f32) {
        let fixed = 2 * ACROSS;
        for i in fixed..self.now.len() {
            let speed = (self.now[i] - self.before[i]) * keep;
            self.before[i] = self.now[i];
            self.now[i] += speed.clamp_length_max(2.0) - Vec3::Z * FALL_MM;
        }
        self.lie_on(ground, fixed);
        for _ in 0..ROUNDS {
            self.hold(fixed);
        }
    }

    /// Once over all links: neighbours come nearer to their distance.
    fn hold(&mut self, fixed: usize) {
        for link in &self.links {
            let [a, b] = link.ends;
            let between = self.now[b] - self.now[a];
            let length = between.length();
            if length < 1e-6 {
                continue;
            }
            let push = between * ((length - link.length) / length * link.firm * 0.5);
            match (a < fixed, b < fixed) {
                (true, true) => {}
                (true, false) => self.now[b] -= push * 2.0,
                (false, true) => self.now[a] += push * 2.0,
                (false, false) => {
                    self.now[a] += push;
                    self.now[b] -= push;
                }
            }
        }
    }

    /// Lifts what has sunk into the ground.
    fn lie_on(&mut self, ground: &impl UnderRibbon, fixed: usize) {
        let floor = ground.floor_mm() + ROOM_MM;
        for i in fixed..self.now.len() {
            let away = ground.distance_mm(self.now[i]);
            let lifted = if away < ROOM_MM {
                self.now[i] + out_of(ground, self.now[i]) * (ROOM_MM - away).min(4.0)
            } else {
                self.now[i]
            };
            let lifted = lifted.with_z(lifted.z.max(floor));
            if lifted != self.now[i] {
                // What touches hardly slips.
                self.before[i] = lifted.lerp(self.before[i] + (lifted - self.now[i]), 0.12);
                self.now[i] = lifted;
            }
        }
    }

    /// The strip through the points, cut to its length.
    fn mesh(&self, fabric: &Fabric, length: f32, ground: &impl UnderRibbon) -> Mesh {
        // Its middle as fine as it is drawn, so that the length is true.
        const FINE: usize = 6;
        let steps = (self.rows - 1) * FINE;
        let middle = (0..=steps).map(|i| self.at(0.5, i as f32 / FINE as f32)).collect();
        let line = Course::through(middle);
        let cut = (CUT * fabric.width_mm).min(0.4 * length);
        let place = |u: f32, v: f32| {
            let aside = (u * 2.0 - 1.0).abs();
            // Only the second half draws back for the cut, so that rows lie square across before it.
            let back = (2.0 * v - 1.0).max(0.0) * cut * (1.0 - aside);
            let at = self.at(u, line.step_at(v * length - back) / FINE as f32);
            // Between the points of the net, too, nothing comes through.
            let away = ground.distance_mm(at);
            if away < LEAST_ROOM_MM { at + out_of(ground, at) * (LEAST_ROOM_MM - away).min(4.0) } else { at }
        };
        let along = ((length / 1.3) as u32).clamp(4, 300);
        fabric.sheet([16, along], place)
    }

    /// The place at `u` of its width, 0 to 1, and so many rows along; smooth between the points.
    fn at(&self, u: f32, row: f32) -> Vec3 {
        let along = |column: usize| {
            let i = (row.max(0.0) as usize).min(self.rows - 2);
            let t = row - i as f32;
            let point = |k: usize| self.now[k.min(self.rows - 1) * ACROSS + column];
            smooth([point(i.saturating_sub(1)), point(i), point(i + 1), point(i + 2)], t)
        };
        let over = u.clamp(0.0, 1.0) * (ACROSS - 1) as f32;
        let i = (over as usize).min(ACROSS - 2);
        let column = |k: usize| along(k.min(ACROSS - 1));
        // Beyond its edges it runs straight on.
        let before = if i == 0 { column(0) * 2.0 - column(1) } else { column(i - 1) };
        let after = if i + 2 > ACROSS - 1 { column(i + 1) * 2.0 - column(i) } else { column(i + 2) };
        smooth([before, column(i), column(i + 1), after], over - i as f32)
    }
}

/// Which way it is out of the ground.
fn out_of(ground: &impl UnderRibbon, place: Vec3) -> Vec3 {
    gradient(place, 0.4, |p| ground.distance_mm(p))
}

/// Catmull and Rom's curve between the two middle points.
fn smooth([a, b, c, d]: [Vec3; 4], t: f32) -> Vec3 {
    b + (c - a + (a * 2.0 - b * 5.0 + c * 4.0 - d + ((b - c) * 3.0 + d - a) * t) * t) * (0.5 * t)
}
