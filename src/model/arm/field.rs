//! How far a place is from the skin: sections, cones and balls joined smoothly, and what stands out or is sunk by tenths of a millimetre.
//! Millimetres of the model arm. Only additions, products and roots, so that every computer gets the same bits.

use super::bones::{ArmSection, Bones, Cord, Digit, Y_RANGE, ease};
use crate::light::{Vec2, Vec3, noise};

/// Farther from the skin than this the small things are left out: more than they stand out, and than a cell is wide.
const FINE_MM: f32 = 2.4;

/// Millimetres from the skin, below nought within.
pub(super) fn distance(bones: &Bones, p: Vec3) -> f32 {
    let palm = palm(bones, p);
    let mut all = palm;
    let [thumb, fingers @ ..] = &bones.digits;
    for digit in fingers {
        if p.distance(digit.ball.0) < digit.ball.1 + 6.0 {
            let joined = union(palm, finger(digit, p), 7.0);
            // Two fingers are rounded into each other only as far as both stand out of the palm.
            all = union(all, joined, (palm - joined).min(1.2));
        }
    }
    if p.distance(thumb.ball.0) < thumb.ball.1 + 20.0 {
        // Wide where the thumb leaves the hand, none where it lies free.
        let soft = 2.0 + 14.0 * ease(-74.0, -34.0, p.y);
        all = union(all, finger(thumb, p), soft);
    }
    if all.abs() < FINE_MM { all - fine(bones, p) } else { all }
}

/// Forearm, wrist and palm, without fingers.
pub(super) fn palm(bones: &Bones, p: Vec3) -> f32 {
    let mut d = across(bones.section(p.y), p);
    if p.y > -34.0 {
        // The heads of ulna and radius.
        let bone = 1.0 - 0.6 * bones.softness;
        d = union(d, p.distance(Vec3::new(18.0, 8.0, -11.0)) - 8.5 * bone, 10.0);
        d = union(d, p.distance(Vec3::new(-21.0, -1.0, -17.5)) - 6.6 * bone, 8.0);
    }
    if p.y > 14.0 {
        return cut(d, p.y - Y_RANGE.1, 0.5);
    }
    // The outer edge of the hand, and the muscle between thumb and index finger.
    d = union(d, cone(p, [Vec3::new(23.0, -12.0, -26.5), Vec3::new(28.5, -58.0, -27.5)], [11.0, 9.6]), 9.0);
    d = union(d, cone(p, [Vec3::new(-25.0, -36.0, -21.5), Vec3::new(-31.0, -66.0, -23.0)], [9.5, 6.5]), 7.0);
    d = cut(d, Bones::palm_end(p.x) - p.y, 11.0);
    for digit in &bones.digits[1..] {
        let radius = digit.radii[0] * (1.0 - 0.06 * bones.softness);
        d = union(d, p.distance(digit.joints[0] + Vec3::new(0.0, 1.0, 0.4)) - radius, 7.5);
    }
    d
}

/// Distance from a section, true where it is small.
fn across(section: ArmSection, p: Vec3) -> f32 {
    let (a, b) = (section.half_width, section.half_depth);
    let (u, v) = ((p.x - section.middle_x).abs() / a, (p.z - section.middle_z).abs() / b);
    let (u2, v2) = (u * u, v * v);
    let round = (u2 + v2).sqrt();
    let square = (u2 * u2 + v2 * v2).sqrt().sqrt();
    let k = round + (square - round) * section.square;
    let slope = (u2 / (a * a) + v2 / (b * b)).sqrt();
    if slope < 1e-6 { -b } else { (k - 1.0) * round / slope }
}

/// One finger: a cone from each joint to the middle of the bone and on to the next joint, fuller at the joints.
fn finger(digit: &Digit, p: Vec3) -> f32 {
    let (j, r) = (&digit.joints, &digit.radii);
    let mut d = f32::INFINITY;
    for bone in 0..2 {
        let slim = 1.0 - digit.waist * if digit.is_thumb { 0.6 } else { 1.0 };
        let (middle, waist) = ((j[bone] + j[bone + 1]) * 0.5, f32::midpoint(r[bone], r[bone + 1]) * slim);
        let one = cone(p, [j[bone], middle], [r[bone], waist]);
        let two = cone(p, [middle, j[bone + 1]], [waist, r[bone + 1]]);
        d = d.min(one).min(two);
    }
    // The last bone with its pad below.
    d = d.min(cone(p, [j[2], j[3]], [r[2], r[3]]));
    let pad = (j[2] + j[3]) * 0.5 + digit.ways[2] * 2.0 - digit.backs[2] * (r[3] * 0.22);
    d = union(d, p.distance(pad) - r[3] * 0.96, 2.0);
    // The knob of the middle joint.
    let knob = j[1] + digit.backs[1] * 0.8;
    union(d, p.distance(knob) - r[1] * 0.94, 1.5)
}

/// What stands out of the skin, mm: tendons, veins, folds at the joints; sunk nails.
fn fine(bones: &Bones, p: Vec3) -> f32 {
    let mut out = 0.0;
    if p.z > bones.section(p.y).middle_z {
        let here = Vec2::new(p.x, p.y);
        out += ridge(&bones.tendons, here) + ridge(&bones.veins, here);
        out -= 0.12 * wrist_fold(p);
    }
    for digit in &bones.digits {
        if p.distance(digit.ball.0) < digit.ball.1 {
            out -= 0.20 * joint_folds(digit, p) * (1.0 - 0.5 * bones.softness);
            out -= 0.5 * nail_bed(digit, p);
        }
    }
    out
}

/// The height of cords over their surroundings; where two meet the higher one counts.
pub(super) fn ridge(cords: &[Cord], here: Vec2) -> f32 {
    let mut highest: f32 = 0.0;
    for cord in cords {
        if here.y < cord.from.y.min(cord.to.y) - 6.0 || here.y > cord.from.y.max(cord.to.y) + 6.0 {
            continue;
        }
        let way = cord.to - cord.from;
        let t = ((here - cord.from).dot(way) / way.length_squared()).clamp(0.0, 1.0);
        // A little to and fro, as nothing in a hand is straight.
        let bend = 4.0 * t * (1.0 - t) * (1.0 - 2.0 * t) * 1.6;
        let side = Vec2::new(way.y, -way.x).normalize_or_zero();
        let off = here.distance(cord.from + way * t + side * bend) / (cord.half * 1.9);
        let height = cord.height[0] + (cord.height[1] - cord.height[0]) * t;
        highest = highest.max(height * hump(off));
    }
    highest
}

/// How deep in the folds across the back of the wrist, 0 to 1.
pub(super) fn wrist_fold(p: Vec3) -> f32 {
    if (p.y + 1.0).abs() > 12.0 {
        return 0.0;
    }
    // They wander and give out here and there.
    let slow = noise(Vec3::new(p.x * 0.13, p.y * 0.1, 3.0));
    let bow = 0.004 * p.x * p.x + 1.3 * slow;
    let fold = |y: f32, half: f32, seed: f32| {
        let strength = 0.5 + 0.5 * noise(Vec3::new(p.x * 0.16, seed, 0.0));
        hump((p.y - y + bow) / half) * strength.clamp(0.0, 1.0)
    };
    let wide = 1.0 - ease(10.0, 24.0, p.x.abs());
    (fold(-1.0, 1.5, 1.5) + 0.6 * fold(-5.2, 1.3, 7.5) + 0.5 * fold(2.6, 1.3, 4.5)).min(1.0) * wide
}

/// How deep in the folds over the joints of a finger, 0 to 1.
pub(super) fn joint_folds(digit: &Digit, p: Vec3) -> f32 {
    let mut deep: f32 = 0.0;
    for joint in if digit.is_thumb { 2..3 } else { 1..3 } {
        let from = p - digit.joints[joint];
        if from.length_squared() > 4.0 * digit.radii[joint] * digit.radii[joint] {
            continue;
        }
        let (back, way) = (
            (digit.backs[joint] + digit.backs[joint - 1]).normalize_or_zero(),
            (digit.ways[joint] + digit.ways[joint - 1]).normalize_or_zero(),
        );
        let r = digit.radii[joint];
        let (along, over) = (from.dot(way), from.dot(back) / r);
        if over < 0.2 || along.abs() > r {
            continue;
        }
        let aside = from.dot(back.cross(way)) / r;
        // Lens-shaped: the folds draw together at both sides, and none is straight.
        let wander = 0.5 * noise(Vec3::new(aside * 2.3, along * 0.22, digit.joints[joint].x));
        let spread = along / (1.0 - 0.45 * aside * aside).max(0.3) + wander;
        let (apart, reach) = if joint == 1 || digit.is_thumb { (2.5, 6.4) } else { (2.1, 3.4) };
        let place = spread / apart + 0.5;
        let wave = hump((place - place.floor() - 0.5) / 0.36);
        let strength = 0.62 + 0.5 * noise(Vec3::new(place.floor() * 3.7 + 0.5, aside * 1.6, digit.joints[joint].y));
        deep = deep.max(wave * strength.clamp(0.0, 1.0) * hump(along / reach) * ease(0.3, 0.8, over));
    }
    deep
}

/// Half width and length of a nail over the radius of its tip.
pub(super) const NAIL: (f32, f32) = (0.78, 1.72);

/// How far the root of a nail is bowed, as a share of its length.
pub(super) const ROOT_BOW: f32 = 0.22;

/// Where a place lies in the frame of a nail: along it from its root, 0 to 1 at the tip, and across it, -1 to 1.
pub(super) fn in_nail(digit: &Digit, p: Vec3) -> (f32, f32) {
    let r = digit.radii[3];
    let (way, back) = (digit.ways[2], digit.backs[2]);
    let from = p - nail_root(digit);
    (from.dot(way) / (r * NAIL.1), from.dot(back.cross(way)) / (r * NAIL.0))
}

/// The middle of a nail's root, on the axis of the finger.
pub(super) fn nail_root(digit: &Digit) -> Vec3 {
    digit.joints[3] - digit.ways[2] * (digit.radii[3] * 0.92)
}

/// How far within the bed of the nail, 0 to 1.
fn nail_bed(digit: &Digit, p: Vec3) -> f32 {
    let r = digit.radii[3];
    let from = p - digit.joints[3];
    if from.length_squared() > 6.0 * r * r || from.dot(digit.backs[2]) < 0.1 * r {
        return 0.0;
    }
    let (along, aside) = in_nail(digit, p);
    let root = along - ROOT_BOW * aside * aside * aside * aside;
    ease(0.0, 0.12, root) * (1.0 - ease(0.9, 1.1, aside.abs())) * (1.0 - ease(1.15, 1.35, along))
}

/// A round cone between two places.
fn cone(p: Vec3, [a, b]: [Vec3; 2], [ra, rb]: [f32; 2]) -> f32 {
    let way = b - a;
    let t = ((p - a).dot(way) / way.length_squared()).clamp(0.0, 1.0);
    p.distance(a + way * t) - (ra + (rb - ra) * t)
}

/// Both together, rounded where they meet over a width of `soft` mm.
fn union(a: f32, b: f32, soft: f32) -> f32 {
    let h = (soft - (a - b).abs()).max(0.0);
    if h > 0.0 { a.min(b) - h * h / (4.0 * soft) } else { a.min(b) }
}

/// `a` without what lies on the positive side of `b`, rounded.
fn cut(a: f32, b: f32, soft: f32) -> f32 {
    -union(-a, -b, soft)
}

/// 1 at nought, 0 from 1 on, smooth between.
pub(super) fn hump(x: f32) -> f32 {
    let rest = (1.0 - x * x).max(0.0);
    rest * rest
}
