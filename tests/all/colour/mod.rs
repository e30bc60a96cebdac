//! Colours against published tables and general libraries. Each file in `tests/reference/colour/` names where its figures
//! come from.

mod grey_card;
mod names;
mod photos;
mod spaces;
mod two_colours;
mod vision;

use posywright::colour::Rgb;
use serde_json::Value;

/// One file of figures.
fn read(name: &str) -> Value {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/reference/colour").join(name);
    serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap()
}

/// The members of a list, never none.
fn list<'a>(value: &'a Value, name: &str) -> &'a [Value] {
    let list = value[name].as_array().unwrap();
    assert!(!list.is_empty(), "{name}");
    list
}

fn three(value: &Value) -> [f64; 3] {
    let list = value.as_array().unwrap();
    assert_eq!(list.len(), 3, "{value}");
    [0, 1, 2].map(|i| list[i].as_f64().unwrap())
}

fn colour(value: &Value) -> Rgb {
    Rgb::parse(value.as_str().unwrap()).unwrap()
}

#[track_caller]
fn near(found: &[f64], expected: &[f64], tolerance: f64, what: &str) {
    assert_eq!(found.len(), expected.len());
    let off = found.iter().zip(expected).map(|(f, e)| (f - e).abs()).fold(0.0, f64::max);
    assert!(off <= tolerance, "{what}: found {found:?}, expected {expected:?}");
}
