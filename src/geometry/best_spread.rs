//! How far apart so many points can be in an oval, at best.
//!
//! Knows a table for up to twelve points and a bound beyond; mm. The best placings were searched by optimisation, not
//! proven; on a circle they agree with the packings of equal circles that are published (see `tests/all/geometry/spacing.rs`).

use std::f64::consts::{PI, SQRT_2};

use kurbo::{Ellipse, Shape as _};

use super::Oval;

/// Width over length at which the table gives figures, from the circle downward.
const RATIOS: [f64; 15] = [1.0, 0.9, 0.8, 0.7, 0.6, 0.5, 0.4, 0.35, 0.3, 0.25, 0.2, 0.15, 0.1, 0.05, 0.0];

/// Largest smallest distance of 2 to 12 points in the ellipse with semi-axes 1 and the ratio. Rows for 1 to 0.4: searched
/// with many starts and gradients, the best found. Rows for 0.35 to 0.05: a plain random search of our own, which comes
/// within 0.1 % of the rows above. The row for 0 is exact: points in a line.
const TABLE: [[f64; 11]; 15] = [
    [
        2.0,
        1.7320508076,
        SQRT_2,
        1.1755705046,
        1.0,
        1.0,
        0.8677674782,
        0.7653668647,
        0.7109782356,
        0.6840402867,
        0.6601527350,
    ],
    [
        2.0,
        1.6365834402,
        1.3453624047,
        1.1163207395,
        0.9501312336,
        0.9261930691,
        0.8245491290,
        0.7273474832,
        0.6871776684,
        0.6535229837,
        0.6226599860,
    ],
    [
        2.0,
        1.5226820286,
        1.2806248475,
        1.0557386020,
        0.9010989011,
        0.8557276348,
        0.7816515361,
        0.6899461783,
        0.6685079259,
        0.6219048768,
        0.5841819518,
    ],
    [
        2.0,
        1.3896109631,
        1.2206555616,
        0.9925049584,
        0.8538681948,
        0.7896517720,
        0.7388764360,
        0.6570860447,
        0.6490262473,
        0.5869204965,
        0.5536797051,
    ],
    [
        2.0,
        1.25,
        1.1661903790,
        0.9236723479,
        0.8095238095,
        0.7278632232,
        0.6698914846,
        0.6186099274,
        0.5908920192,
        0.5521848880,
        0.5234342041,
    ],
    [
        2.0,
        1.1547005384,
        1.0336227882,
        0.8433051088,
        0.7692307692,
        0.6678466721,
        0.6066811970,
        0.5652920859,
        0.5391163717,
        0.5079739369,
        0.4751760344,
    ],
    [
        2.0,
        1.0910894512,
        0.8952350988,
        0.7565329961,
        0.7341772152,
        0.6082762530,
        0.5628797419,
        0.5076999467,
        0.4844709783,
        0.4534669170,
        0.4333329670,
    ],
    [2.0, 1.06752, 0.83923, 0.73100, 0.67765, 0.58338, 0.54590, 0.48339, 0.45552, 0.42247, 0.40618],
    [2.0, 1.04828, 0.79178, 0.69052, 0.62527, 0.54898, 0.51975, 0.46221, 0.43523, 0.39888, 0.37607],
    [2.0, 1.03280, 0.75251, 0.63260, 0.57317, 0.52514, 0.47841, 0.43059, 0.40803, 0.37640, 0.35787],
    [2.0, 1.02062, 0.72104, 0.58489, 0.51237, 0.47042, 0.44086, 0.40615, 0.37741, 0.35006, 0.32810],
    [2.0, 1.01144, 0.69700, 0.54772, 0.46381, 0.41211, 0.37844, 0.35569, 0.33903, 0.32003, 0.30239],
    [2.0, 1.00504, 0.68007, 0.52119, 0.42852, 0.36885, 0.32794, 0.29866, 0.27707, 0.26079, 0.24830],
    [2.0, 1.00125, 0.67000, 0.50529, 0.40715, 0.34229, 0.29642, 0.26243, 0.23634, 0.21578, 0.19923],
    [2.0, 1.0, 2.0 / 3.0, 0.5, 0.4, 1.0 / 3.0, 2.0 / 7.0, 0.25, 2.0 / 9.0, 0.2, 2.0 / 11.0],
];

/// Beyond the table this share of Oler's bound: the table's own figures lie at 0.85 to 0.95 of it from seven points on.
const SHARE_OF_BOUND: f64 = 0.92;

/// The largest distance that `n_points` can all keep from each other in the oval, mm; nought for fewer than two.
///
/// Between the rows of the table by straight lines, right to 0.3 % down to a ratio of 0.4 and to about 2 % below. An axis
/// below nought counts as nought: the points then have only a line.
pub fn best_spread(n_points: usize, oval: Oval) -> f64 {
    let axis = |length: f64| if length.is_finite() { length.max(0.0) } else { 0.0 };
    let (long, short) = (axis(oval.a).max(axis(oval.b)), axis(oval.a).min(axis(oval.b)));
    if n_points < 2 || long <= 0.0 {
        return 0.0;
    }
    let ratio = short / long;
    let column = n_points - 2;
    let last = TABLE[0].len() - 1;
    let unit = if column <= last {
        tabled(column, ratio)
    } else {
        tabled(last, ratio).min(SHARE_OF_BOUND * oler_bound(n_points, ratio))
    };
    unit * long
}

fn tabled(column: usize, ratio: f64) -> f64 {
    // Three points in a slim oval: one in the middle of an edge, two opposite, to which a closed form is known.
    if column == 1 && ratio <= 0.6 {
        return 1.0 / (1.0 - ratio * ratio).sqrt();
    }
    let row = RATIOS[1..].iter().take_while(|&&listed| listed > ratio).count().min(RATIOS.len() - 2);
    let share = (RATIOS[row] - ratio) / (RATIOS[row] - RATIOS[row + 1]);
    TABLE[row][column] * (1.0 - share) + TABLE[row + 1][column] * share
}

/// The distance d that solves (2 / sqrt 3) A / d2 + P / (2 d) + 1 = n for the ellipse with semi-axes 1 and the ratio: no n
/// points can keep more (N. Oler, Acta Mathematica 105, 1961, 19-48; from memory).
fn oler_bound(n_points: usize, ratio: f64) -> f64 {
    let area = PI * ratio;
    let perimeter =
        if ratio > 0.0 { Ellipse::new((0.0, 0.0), (1.0, ratio), 0.0).perimeter(PERIMETER_ACCURACY) } else { 4.0 };
    let (quadratic, half) = ((n_points - 1) as f64, perimeter / 4.0);
    (half + (half * half + 2.0 * quadratic * area / 3f64.sqrt()).sqrt()) / quadratic
}

/// Accuracy asked of an ellipse's perimeter, for a semi-axis of 1.
const PERIMETER_ACCURACY: f64 = 1e-9;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn fewer_than_two_points_and_no_room_have_no_spread() {
        let oval = Oval { a: 40.0, b: 30.0 };
        assert_eq!(best_spread(0, oval), 0.0);
        assert_eq!(best_spread(1, oval), 0.0);
        assert_eq!(best_spread(5, Oval { a: -3.0, b: 0.0 }), 0.0);
        assert_eq!(best_spread(5, Oval { a: f64::NAN, b: f64::INFINITY }), 0.0);
    }

    #[test]
    fn points_in_a_line_share_it_evenly() {
        assert!((best_spread(5, Oval { a: 20.0, b: -1.0 }) - 10.0).abs() < 1e-12);
        // Beyond the table the bound is exact for a line, less the usual share.
        assert!((best_spread(21, Oval { a: 0.0, b: 20.0 }) - 2.0 * SHARE_OF_BOUND).abs() < 1e-9);
    }

    #[test]
    fn more_points_come_closer_and_a_turned_oval_is_the_same() {
        for ratio in [1.0, 0.93, 0.71, 0.5, 0.33, 0.1] {
            let oval = Oval { a: 40.0, b: 40.0 * ratio };
            for n_points in 2..60 {
                let more = best_spread(n_points + 1, oval);
                assert!(more <= best_spread(n_points, oval), "{n_points} {ratio}");
                assert_eq!(more, best_spread(n_points + 1, Oval { a: oval.b, b: oval.a }));
            }
        }
    }
}
