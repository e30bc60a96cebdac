//! What an arm is built on: sections of forearm and palm, the joints of the fingers, tendons and veins. Millimetres of the model arm: a left
//! one, 154 mm round at the wrist, crease at y = 0, fingers toward -y, thumb toward -x, the back of the wrist at z = 0.

use crate::light::{Vec2, Vec3};

/// What it lies on.
pub(super) const TABLE_Z: f32 = -41.0;
/// From the tip of the longest finger to where the forearm is cut off.
pub(super) const Y_RANGE: (f32, f32) = (-182.0, 300.0);
/// All of it lies in here.
pub(super) const BOX: (Vec3, Vec3) = (Vec3::new(-70.0, -188.0, -50.0), Vec3::new(54.0, 304.0, 34.0));
/// From here on toward the elbow the cells may grow.
pub(super) const Y_COARSE: f32 = 15.0;

/// A section across the arm: an ellipse, or squarer.
#[derive(Clone, Copy, Debug)]
pub(super) struct ArmSection {
    pub(super) half_width: f32,
    pub(super) half_depth: f32,
    pub(super) middle_x: f32,
    pub(super) middle_z: f32,
    /// 0 for an ellipse, 1 for the curve of fourth degree.
    pub(super) square: f32,
}

/// A finger or the thumb: joints from the knuckle to the middle of the tip.
#[derive(Clone, Copy, Debug)]
pub(super) struct Digit {
    pub(super) joints: [Vec3; 4],
    pub(super) radii: [f32; 4],
    /// How far the shafts are slimmer than the joints, as a share.
    pub(super) waist: f32,
    /// Along each bone, of length 1.
    pub(super) ways: [Vec3; 3],
    /// Toward the back of each bone, of length 1.
    pub(super) backs: [Vec3; 3],
    pub(super) is_thumb: bool,
    /// Middle and radius of a ball round all of it.
    pub(super) ball: (Vec3, f32),
}

/// A line on the back of the hand that stands out: a tendon or a vein.
#[derive(Clone, Copy, Debug)]
pub(super) struct Cord {
    pub(super) from: Vec2,
    pub(super) to: Vec2,
    /// How far it stands out at both ends.
    pub(super) height: [f32; 2],
    /// Half its width.
    pub(super) half: f32,
}

/// The build of an arm.
#[derive(Clone, Debug)]
pub(super) struct Bones {
    half_width: f32,
    half_depth: f32,
    /// Where the wrist ends and the forearm begins to swell.
    wrist_end: f32,
    pub(super) digits: [Digit; 5],
    pub(super) tendons: Vec<Cord>,
    pub(super) veins: Vec<Cord>,
    /// 1 for a small child's soft hand, 0 for a grown one's.
    pub(super) softness: f32,
}

/// Palm from crease to webs: y, half width, half depth, middle x, middle z, squareness.
const PALM: [[f32; 6]; 7] = [
    [-12.0, 28.9, 18.8, 0.0, -20.2, 0.10],
    [-28.0, 31.4, 17.0, 0.0, -21.6, 0.25],
    [-45.0, 34.8, 15.3, 0.3, -23.0, 0.40],
    [-62.0, 37.4, 13.7, 0.5, -24.1, 0.48],
    [-78.0, 38.3, 12.2, 0.5, -24.6, 0.50],
    [-92.0, 37.8, 10.6, 0.5, -25.2, 0.50],
    [-110.0, 36.0, 8.8, 0.5, -26.4, 0.50],
];

/// A finger's figures: knuckle, sideways slope and lengths and rise of each bone, radii at knuckle, joints and tip.
struct FingerFigures {
    knuckle: Vec3,
    slope: [f32; 3],
    lengths: [f32; 3],
    rise: [f32; 3],
    radii: [f32; 4],
}

/// Index to little finger, bent as in a hand that lies at ease.
const FINGERS: [FingerFigures; 4] = [
    FingerFigures {
        knuckle: Vec3::new(-27.0, -82.0, -21.3),
        slope: [-0.10, -0.05, -0.01],
        lengths: [41.0, 24.0, 15.0],
        rise: [0.10, -0.33, -0.48],
        radii: [9.8, 8.6, 7.3, 6.0],
    },
    FingerFigures {
        knuckle: Vec3::new(-7.6, -84.5, -20.4),
        slope: [-0.02, 0.005, 0.02],
        lengths: [45.5, 28.5, 16.0],
        rise: [0.09, -0.37, -0.55],
        radii: [9.9, 8.7, 7.4, 6.1],
    },
    FingerFigures {
        knuckle: Vec3::new(10.8, -79.0, -21.2),
        slope: [0.075, 0.04, -0.01],
        lengths: [42.0, 27.0, 15.6],
        rise: [0.06, -0.42, -0.58],
        radii: [9.3, 8.2, 7.0, 5.8],
    },
    FingerFigures {
        knuckle: Vec3::new(27.2, -70.5, -23.6),
        slope: [0.20, 0.12, 0.03],
        lengths: [34.0, 19.5, 13.8],
        rise: [0.03, -0.36, -0.55],
        radii: [8.6, 7.2, 6.2, 5.2],
    },
];

/// Thumb: root, knuckle, joint, middle of the tip.
const THUMB: [Vec3; 4] = [
    Vec3::new(-17.5, -15.0, -23.5),
    Vec3::new(-37.5, -52.0, -27.0),
    Vec3::new(-49.0, -82.0, -28.5),
    Vec3::new(-55.5, -101.0, -31.5),
];
const THUMB_RADII: [f32; 4] = [13.0, 10.6, 9.4, 7.3];
/// Where the back of the thumb faces, beside the hand.
const THUMB_BACK: Vec3 = Vec3::new(-0.55, 0.0, 0.84);

/// Veins on the back of the hand and of the forearm: x, y, x, y.
const VEINS: [[f32; 4]; 13] = [
    [19.0, -82.0, 17.5, -62.0],
    [1.5, -86.0, 4.5, -68.0],
    [4.5, -68.0, 16.0, -50.0],
    [17.5, -62.0, 16.0, -50.0],
    [16.0, -50.0, 19.0, -28.0],
    [19.0, -28.0, 14.5, -4.0],
    [-18.0, -86.0, -15.5, -70.0],
    [-15.5, -70.0, 4.5, -60.0],
    [-15.5, -70.0, -17.0, -44.0],
    [-17.0, -44.0, -20.5, -16.0],
    [-20.5, -16.0, -17.0, 40.0],
    [-17.0, 40.0, -8.0, 110.0],
    [14.5, -4.0, 22.0, 70.0],
];

impl Bones {
    /// An arm whose wrist has these half axes, with a piece so far from its crease, all in the model's millimetres, and the girth it is
    /// meant for, mm.
    pub(super) fn new([half_width, half_depth]: [f32; 2], piece_y: f32, girth_mm: f32) -> Self {
        let softness = ((142.0 - girth_mm) / 30.0).clamp(0.0, 1.0);
        let mut bones = Self {
            half_width,
            half_depth,
            wrist_end: piece_y.clamp(16.0, 90.0),
            digits: [
                thumb(softness),
                finger(0, softness),
                finger(1, softness),
                finger(2, softness),
                finger(3, softness),
            ],
            tendons: Vec::new(),
            veins: Vec::new(),
            softness,
        };
        for (index, f) in FINGERS.iter().enumerate() {
            let from = Vec2::new(f.knuckle.x * 0.34 - 1.0, -20.0);
            let to = Vec2::new(f.knuckle.x, f.knuckle.y + 5.0);
            let high = (1.0 - 0.09 * index as f32) * (1.0 - 0.85 * softness);
            bones.tendons.push(Cord { from, to, height: [0.1 * high, high], half: 3.0 });
        }
        // The thumb's own, along the hollow at its root.
        let high = 0.7 * (1.0 - 0.8 * softness);
        bones.tendons.push(Cord {
            from: Vec2::new(-23.0, -6.0),
            to: Vec2::new(-38.5, -50.0),
            height: [0.2 * high, high],
            half: 3.4,
        });
        let high = 0.34 * (1.0 - softness);
        let cord = |[ax, ay, bx, by]: [f32; 4]| Cord {
            from: Vec2::new(ax, ay),
            to: Vec2::new(bx, by),
            height: [if by > 30.0 { high * 0.6 } else { high }; 2],
            half: if by > 0.0 { 2.8 } else { 2.1 },
        };
        bones.veins = VEINS.map(cord).to_vec();
        bones
    }

    /// Makes wrist and forearm narrower, or wider, by this factor.
    pub(super) fn shrink_wrist(&mut self, by: f32) {
        let by = by.clamp(0.9, 1.1);
        self.half_width *= by;
        self.half_depth *= by;
    }

    /// The section at `y`.
    pub(super) fn section(&self, y: f32) -> ArmSection {
        if y >= 0.0 { self.forearm(y) } else { self.palm(y) }
    }

    /// From the crease on: the wrist as it was measured, then swelling (forearm about 1.5 times as far round as the wrist, from memory).
    fn forearm(&self, y: f32) -> ArmSection {
        let swell = ease(self.wrist_end, 195.0, y);
        let deep = self.half_depth * (1.0 + 0.68 * swell);
        ArmSection {
            half_width: self.half_width * (1.0 + 0.46 * swell),
            half_depth: deep,
            middle_x: 1.5 * swell,
            // It lies on its underside, so the back of it rises.
            middle_z: -self.half_depth + (deep - self.half_depth) * 0.95,
            square: 0.0,
        }
    }

    fn palm(&self, y: f32) -> ArmSection {
        let wrist = [0.0, self.half_width, self.half_depth, 0.0, -self.half_depth, 0.0];
        let row = |k: usize| if k == 0 { wrist } else { PALM[(k - 1).min(PALM.len() - 1)] };
        let k = (1..PALM.len()).find(|&k| row(k)[0] <= y).unwrap_or(PALM.len());
        let (before, from, to, after) = (row(k.saturating_sub(2)), row(k - 1), row(k), row(k + 1));
        let t = ((from[0] - y) / (from[0] - to[0])).clamp(0.0, 1.0);
        let at = |c: usize| {
            // Slopes at both ends from the neighbours; flat where the wrist begins.
            let slope = |a: [f32; 6], b: [f32; 6]| if a[0] == b[0] { 0.0 } else { (b[c] - a[c]) / (a[0] - b[0]) };
            let span = from[0] - to[0];
            let start = if k == 1 { 0.0 } else { slope(before, to) * span };
            hermite(from[c], to[c], start, slope(from, after) * span, t)
        };
        ArmSection { half_width: at(1), half_depth: at(2), middle_x: at(3), middle_z: at(4), square: at(5) }
    }

    /// How far toward the fingers the palm reaches at `x`: to the webs.
    pub(super) fn palm_end(x: f32) -> f32 {
        let off = x + 6.0;
        -101.5 + off * off * if off > 0.0 { 0.0115 } else { 0.005 }
    }
}

fn finger(index: usize, softness: f32) -> Digit {
    let f = &FINGERS[index];
    let mut joints = [f.knuckle; 4];
    for bone in 0..3 {
        let way = Vec3::new(f.slope[bone], -1.0, f.rise[bone]).normalize();
        joints[bone + 1] = joints[bone] + way * f.lengths[bone];
    }
    digit(joints, f.radii.map(|r| r * (1.0 + 0.08 * softness)), Vec3::Z, false, softness)
}

fn thumb(softness: f32) -> Digit {
    digit(THUMB, THUMB_RADII.map(|r| r * (1.0 + 0.06 * softness)), THUMB_BACK, true, softness)
}

fn digit(joints: [Vec3; 4], radii: [f32; 4], back: Vec3, is_thumb: bool, softness: f32) -> Digit {
    let ways = [0, 1, 2].map(|bone| (joints[bone + 1] - joints[bone]).normalize());
    let backs = ways.map(|way| (back - way * back.dot(way)).normalize());
    let middle = (joints[0] + joints[3]) * 0.5;
    let ball = (middle, joints[0].distance(joints[3]) * 0.5 + radii[0] + 4.0);
    Digit { joints, radii, waist: 0.035 * (1.0 - softness), ways, backs, is_thumb, ball }
}

/// 0 below `from`, 1 above `to`, smooth between.
pub(in crate::model) fn ease(from: f32, to: f32, x: f32) -> f32 {
    let t = ((x - from) / (to - from)).clamp(0.0, 1.0);
    t * t * (3.0 - 2.0 * t)
}

/// From `a` with this slope to `b` with that one.
fn hermite(a: f32, b: f32, slope_a: f32, slope_b: f32, t: f32) -> f32 {
    let (t2, t3) = (t * t, t * t * t);
    a * (2.0 * t3 - 3.0 * t2 + 1.0) + slope_a * (t3 - 2.0 * t2 + t) + b * (3.0 * t2 - 2.0 * t3) + slope_b * (t3 - t2)
}
