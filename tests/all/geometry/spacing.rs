//! Even spacing against published packings of circles, searched placings and another library's trees.

use posywright::geometry::{Oval, Point, angular_evenness, best_spread, evenness, spread};

use crate::geometry::reference::{list, near, number, numbers, read};

/// n equal circles in a circle: the ratio of the radii is 1 + 2/d, d the best distance of n points in the unit circle.
/// R. L. Graham 1968 (up to 7), U. Pirl 1969 (8 to 10), H. Melissen 1994 (11), F. Fodor 2000 (12).
#[test]
fn the_best_spread_in_a_circle_is_the_published_packing() {
    for case in list(&read("spacing.json"), "circle") {
        let n_points = usize::try_from(case["n"].as_u64().unwrap()).unwrap();
        let found = 1.0 + 2.0 / best_spread(n_points, Oval { a: 1.0, b: 1.0 });
        let published = number(case, "published");
        // Beyond twelve a bound stands in for the table.
        let tolerance = if n_points <= 12 { 1e-8 } else { 0.03 * published };
        near(found, published, tolerance, &n_points.to_string());
    }
}

#[test]
fn the_best_spread_in_an_oval_is_the_searched_one() {
    let table = read("spacing.json");
    for (ratio, row) in table["ellipse"].as_object().unwrap() {
        let ratio: f64 = ratio.parse().unwrap();
        for (n_points, distance) in row.as_object().unwrap() {
            let found = best_spread(n_points.parse().unwrap(), Oval { a: 1.0, b: ratio });
            near(found, distance.as_f64().unwrap(), 1e-9, n_points);
        }
    }
}

/// Closed forms: four at the ends of the axes, sqrt(1 + k2) from k = 0.6 on; three, 1/sqrt(1 - k2) up to there.
#[test]
fn three_and_four_points_keep_their_closed_forms() {
    for ratio in [0.6, 0.7, 0.8, 0.9, 1.0f64] {
        near(best_spread(4, Oval { a: 1.0, b: ratio }), (1.0 + ratio * ratio).sqrt(), 1e-9, "four");
    }
    for ratio in [0.1, 0.35, 0.45, 0.6f64] {
        near(best_spread(3, Oval { a: 1.0, b: ratio }), 1.0 / (1.0 - ratio * ratio).sqrt(), 1e-9, "three");
    }
}

#[test]
fn the_measures_are_those_of_the_table() {
    for case in list(&read("spacing.json"), "measures") {
        let name = case["name"].as_str().unwrap();
        let points: Vec<Point> =
            list(case, "points").iter().map(|point| Point::new(numbers(point)[0], numbers(point)[1])).collect();
        let room = Oval { a: numbers(&case["room"])[0], b: numbers(&case["room"])[1] };
        near(evenness(&points).unwrap(), number(case, "evenness"), 1e-12, name);
        near(best_spread(points.len(), room), number(case, "best_spread"), 0.003 * number(case, "best_spread"), name);
        // The table gives the share of the best; a spread is full at four fifths of it.
        let share = number(case, "spread_of_best") / 0.8;
        near(spread(&points, room).unwrap(), share.min(1.0), 0.004, name);
        // A point in the centre has no angle and is left out here, but not in the table.
        if points.iter().all(|point| room.gauge(*point) > 0.15) {
            near(angular_evenness(&points, room).unwrap(), number(case, "angular_evenness"), 1e-12, name);
        }
    }
}
