//! Every form is as large as geometry and stack take it to be, and the same on every day.

use super::{Look, bloom};
use crate::colour::Rgb;
use crate::light::Mesh;
use crate::stock::Form;

const ROSE: Rgb = Rgb::hex(0xe3_979c);

fn look(form: Form, seed: u64) -> Look {
    Look {
        form,
        colour: ROSE,
        size_mm: 40.0,
        breadth: if form.is_long() { 0.4 } else { 1.0 },
        height_mm: 18.0,
        open: 1.0,
        seed,
    }
}

/// What of the measured disc or lens box is covered from above, on a grid of half millimetres.
fn covered_share(mesh: &Mesh, half: [f32; 2], is_inside: impl Fn(f32, f32) -> bool) -> f32 {
    const STEP: f32 = 0.5;
    let count = half.map(|h| (2.0 * h / STEP).ceil() as usize + 1);
    let mut is_covered = vec![false; count[0] * count[1]];
    for triangle in &mesh.triangles {
        let [a, b, c] = triangle.map(|i| mesh.points[i as usize].truncate());
        let area = (b - a).perp_dot(c - a);
        if area.abs() < 1e-9 {
            continue;
        }
        let (low, high) = (a.min(b).min(c), a.max(b).max(c));
        let cell = |v: f32, h: f32, n: usize| (((v + h) / STEP).max(0.0) as usize).min(n - 1);
        for j in cell(low.y, half[1], count[1])..=cell(high.y, half[1], count[1]) {
            for i in cell(low.x, half[0], count[0])..=cell(high.x, half[0], count[0]) {
                let p = glam::Vec2::new(i as f32 * STEP - half[0], j as f32 * STEP - half[1]);
                let shares =
                    [(b - p).perp_dot(c - p), (c - p).perp_dot(a - p), (a - p).perp_dot(b - p)].map(|s| s / area);
                is_covered[j * count[0] + i] |= shares.iter().all(|s| *s >= -0.02);
            }
        }
    }
    let (mut inside, mut covered) = (0, 0);
    for j in 0..count[1] {
        for i in 0..count[0] {
            if is_inside(i as f32 * STEP - half[0], j as f32 * STEP - half[1]) {
                inside += 1;
                covered += usize::from(is_covered[j * count[0] + i]);
            }
        }
    }
    covered as f32 / inside as f32
}

#[test]
fn every_form_fills_its_measure_and_no_more() {
    for form in Form::ALL {
        for seed in 0..3 {
            let look = look(form, seed);
            let mesh = bloom(&look);
            let (low, high) = mesh.bounds().unwrap();
            assert!(low.z.abs() < 1e-3, "{form:?} stands at {}", low.z);
            if form.is_long() {
                assert!((high.x - low.x - 40.0).abs() < 0.01 && (high.y - low.y - 16.0).abs() < 0.01, "{form:?}");
                assert!((high.z - 16.0).abs() < 0.01, "{form:?}: no higher than wide");
            } else {
                let reach = mesh.points.iter().map(|p| p.truncate().length()).fold(0.0, f32::max);
                assert!((reach - 20.0).abs() < 0.01 && (high.z - 18.0).abs() < 0.01, "{form:?}: {reach}, {}", high.z);
            }
        }
    }
}

#[test]
fn every_form_covers_what_a_bloom_of_its_kind_covers() {
    // Full heads hide what lies under them; stars, sprigs and needles let it show. The shares are our own measure of what is drawn.
    let full = [
        Form::Rose,
        Form::SprayRose,
        Form::Ranunculus,
        Form::Carnation,
        Form::Lisianthus,
        Form::ButtonMum,
        Form::Craspedia,
        Form::Succulent,
        Form::Scabiosa,
        Form::Anemone,
        Form::Delphinium,
        Form::Hydrangea,
        Form::Pearl,
        Form::Stone,
    ];
    let round = |form| covered_share(&bloom(&look(form, 1)), [20.0, 20.0], |x, y| x * x + y * y < 400.0);
    let thin: Vec<(Form, f32)> =
        full.map(|form| (form, round(form))).into_iter().filter(|(_, share)| *share < 0.68).collect();
    assert!(thin.is_empty(), "{thin:?}");
    for form in Form::ALL.into_iter().filter(|form| !form.is_long()) {
        let share = round(form);
        assert!(share > 0.2, "{form:?} covers {share}");
    }
    for form in [Form::BroadLeaf, Form::NarrowLeaf] {
        // A lens of two arcs covers 0.66 to 0.79 of its box; a leaf is measured as one.
        let share = covered_share(&bloom(&look(form, 1)), [20.0, 8.0], |_, _| true);
        assert!((0.5..0.85).contains(&share), "{form:?} covers {share} of its box");
    }
}

#[test]
fn surfaces_are_sound_whatever_is_asked() {
    for form in Form::ALL {
        for (size_mm, breadth, height_mm, open) in [
            (40.0, 0.4, 18.0, 1.0),
            (40.0, 0.4, 18.0, 0.0),
            (0.0, 0.0, 0.0, 0.5),
            (f64::NAN, f64::NAN, f64::INFINITY, f64::NAN),
            (1e9, 2.0, -4.0, 7.0),
        ] {
            let mesh = bloom(&Look { size_mm, breadth, height_mm, open, ..look(form, 5) });
            assert!(!mesh.triangles.is_empty() && mesh.triangles.len() < 80_000, "{form:?}: {}", mesh.triangles.len());
            assert_eq!(mesh.triangles.len(), mesh.kinds.len());
            assert!(mesh.points.iter().chain(&mesh.normals).chain(&mesh.tints).all(|v| v.is_finite()), "{form:?}");
            assert!(mesh.normals.iter().all(|n| (n.length() - 1.0).abs() < 1e-3), "{form:?}");
            assert!(mesh.tints.iter().all(|t| t.min_element() >= 0.0 && t.max_element() <= 1.0), "{form:?}");
            assert!(mesh.triangles.iter().flatten().all(|i| (*i as usize) < mesh.points.len()));
        }
    }
}

#[test]
fn one_seed_is_one_flower_and_another_another() {
    for form in [Form::Rose, Form::Waxflower, Form::BroadLeaf] {
        assert_eq!(bloom(&look(form, 3)).points, bloom(&look(form, 3)).points);
        assert_ne!(bloom(&look(form, 3)).points, bloom(&look(form, 4)).points, "{form:?}");
    }
}
