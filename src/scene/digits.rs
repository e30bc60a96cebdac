//! The ten digits as pen strokes, for figures on rulers: no fonts are known here. A digit stands in a box one high and
//! six tenths wide, as on a page: the first number runs to the right, the second up.

use kurbo::{Affine, BezPath, Point, Vec2};

use super::brush::add;
use super::outline::{polygon, smooth};
use super::{Group, Paint};

/// Width of a digit's box over its height.
const WIDE: f64 = 0.6;
/// From one digit to the next over the height.
const STEP: f64 = 0.78;
/// Thickness of the pen over the height.
const PEN: f64 = 0.11;

/// Writes a number `high` tall, its middle at `centre` on a page that stands upright.
pub(crate) fn write(group: &mut Group, number: u32, centre: Point, high: f64, paint: Paint) {
    let digits: Vec<u32> = number.to_string().chars().filter_map(|c| c.to_digit(10)).collect();
    let wide = STEP * (digits.len().max(1) as f64 - 1.0) + WIDE;
    let mut path = BezPath::new();
    for (i, digit) in digits.into_iter().enumerate() {
        let left = i as f64 * STEP - wide / 2.0;
        for stroke in strokes(digit) {
            add(&mut path, &(Affine::translate(Vec2::new(-0.5, left)) * stroke));
        }
    }
    group.stroke(Affine::translate(centre.to_vec2()) * Affine::scale(high) * path, high * PEN, paint);
}

/// How wide a number is that is `high` tall.
pub(crate) fn width_of(number: u32, high: f64) -> f64 {
    (STEP * (number.to_string().len() as f64 - 1.0) + WIDE) * high
}

/// The strokes of one digit, x up and y to the right as in every scene.
fn strokes(digit: u32) -> Vec<BezPath> {
    let points =
        |list: &[(f64, f64)]| -> Vec<Point> { list.iter().map(|&(right, up)| Point::new(up, right)).collect() };
    let round = |list: &[(f64, f64)]| smooth(&points(list), false);
    let ring = |list: &[(f64, f64)]| smooth(&points(list), true);
    let sharp = |list: &[(f64, f64)]| {
        let mut path = polygon(&points(list));
        path.pop();
        path
    };
    match digit {
        0 => vec![ring(&[(0.3, 1.0), (0.55, 0.74), (0.55, 0.26), (0.3, 0.0), (0.05, 0.26), (0.05, 0.74)])],
        1 => vec![sharp(&[(0.12, 0.78), (0.36, 1.0), (0.36, 0.0)])],
        2 => vec![
            round(&[(0.06, 0.76), (0.28, 1.0), (0.53, 0.76), (0.4, 0.42), (0.05, 0.0)]),
            sharp(&[(0.05, 0.0), (0.55, 0.0)]),
        ],
        3 => vec![
            round(&[(0.07, 0.86), (0.3, 1.0), (0.52, 0.78), (0.26, 0.54)]),
            round(&[(0.26, 0.54), (0.55, 0.28), (0.3, 0.0), (0.05, 0.16)]),
        ],
        4 => vec![sharp(&[(0.42, 0.0), (0.42, 1.0), (0.03, 0.3), (0.57, 0.3)])],
        5 => vec![
            sharp(&[(0.51, 1.0), (0.14, 1.0), (0.09, 0.56)]),
            round(&[(0.09, 0.56), (0.34, 0.64), (0.55, 0.32), (0.3, 0.0), (0.05, 0.12)]),
        ],
        6 => vec![
            round(&[(0.48, 0.96), (0.18, 0.76), (0.05, 0.34)]),
            ring(&[(0.05, 0.3), (0.3, 0.58), (0.55, 0.3), (0.3, 0.0)]),
        ],
        7 => vec![sharp(&[(0.05, 1.0), (0.55, 1.0), (0.22, 0.0)])],
        8 => vec![
            ring(&[(0.3, 1.0), (0.5, 0.78), (0.3, 0.55), (0.1, 0.78)]),
            ring(&[(0.3, 0.55), (0.56, 0.28), (0.3, 0.0), (0.04, 0.28)]),
        ],
        _ => vec![
            ring(&[(0.55, 0.7), (0.3, 0.42), (0.05, 0.7), (0.3, 1.0)]),
            round(&[(0.55, 0.66), (0.42, 0.24), (0.12, 0.04)]),
        ],
    }
}
