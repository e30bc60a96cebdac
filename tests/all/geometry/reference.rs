//! Reading the reference figures.

use std::path::Path;

use posywright::geometry::{Disc, Lens, Point, Shape};
use serde_json::Value;

/// One file of figures.
pub(crate) fn read(name: &str) -> Value {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/reference/geometry").join(name);
    let text = std::fs::read_to_string(path).expect("a file of figures");
    serde_json::from_str(&text).expect("figures as JSON")
}

/// The members of a list.
pub(crate) fn list<'a>(value: &'a Value, name: &str) -> &'a [Value] {
    value[name].as_array().unwrap_or_else(|| panic!("{name}"))
}

/// A figure.
pub(crate) fn number(value: &Value, name: &str) -> f64 {
    value[name].as_f64().unwrap_or_else(|| panic!("{name} in {value}"))
}

/// A whole figure.
pub(crate) fn count(value: &Value, name: &str) -> u32 {
    u32::try_from(value[name].as_u64().expect("a count")).expect("a small count")
}

/// Figures side by side.
pub(crate) fn numbers(value: &Value) -> Vec<f64> {
    value.as_array().expect("a list").iter().map(|member| member.as_f64().expect("a figure")).collect()
}

/// A disc given as x, y, radius.
pub(crate) fn disc(value: &Value) -> Disc {
    let figures = numbers(value);
    Disc { centre: Point::new(figures[0], figures[1]), radius: figures[2] }
}

/// The discs under a name, as shapes.
pub(crate) fn discs(value: &Value, name: &str) -> Vec<Shape> {
    list(value, name).iter().map(|value| Shape::Disc(disc(value))).collect()
}

/// A shape given as one disc, or as the two whose overlap a lens is.
pub(crate) fn shape(value: &Value) -> Shape {
    let parts: Vec<Disc> = value.as_array().expect("a list of discs").iter().map(disc).collect();
    match parts[..] {
        [disc] => Shape::Disc(disc),
        [first, second] => {
            let apart = first.centre - second.centre;
            let radius = first.radius;
            let half_width = radius - apart.hypot() / 2.0;
            let length = 2.0 * (radius * radius - apart.hypot2() / 4.0).sqrt();
            let centre = first.centre.midpoint(second.centre);
            Shape::Lens(Lens { centre, length, width: 2.0 * half_width, turn: (-apart.x).atan2(apart.y) })
        }
        _ => panic!("{value}"),
    }
}

/// Fails, with the name of the case, if two figures are further apart than the tolerance.
#[track_caller]
pub(crate) fn near(found: f64, expected: f64, tolerance: f64, what: &str) {
    assert!((found - expected).abs() <= tolerance, "{what}: found {found}, expected {expected}");
}
