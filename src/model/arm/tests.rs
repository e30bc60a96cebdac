//! What an arm is held to.

use super::*;
use crate::piece::Measured;
use crate::units::Length;

fn wrist(girth_mm: f64, side: Side) -> Wrist {
    Wrist { side, girth: Length::from_mm(girth_mm), measured: Measured::Tape }
}

/// Length of the cut through the triangles at this y.
fn girth_of_cut(mesh: &Mesh, y: f32) -> f32 {
    let cut = |a: Vec3, b: Vec3| ((a.y < y) != (b.y < y)).then(|| a.lerp(b, (y - a.y) / (b.y - a.y)));
    let length = |t: &[u32; 3]| {
        let [a, b, c] = t.map(|i| mesh.points[i as usize]);
        let ends: Vec<Vec3> = [cut(a, b), cut(b, c), cut(c, a)].into_iter().flatten().collect();
        if ends.len() == 2 { ends[0].distance(ends[1]) } else { 0.0 }
    };
    mesh.triangles.iter().map(length).sum()
}

#[test]
fn the_wrist_under_the_piece_is_as_far_round_as_it_was_measured() {
    for girth in [90.0, 118.0, 154.0, 176.0, 216.0, 260.0] {
        for offset in [5.0, 25.0, 45.0] {
            let arm = ArmSurface::new(&wrist(girth, Side::Left), offset);
            let mesh = arm.mesh(Skin::Warm, girth as f32 / 50.0);
            let off = f64::from(girth_of_cut(&mesh, 0.0)) / girth - 1.0;
            assert!(off.abs() < 0.02, "{girth} at {offset}: {off:.4}");
            let skin = arm.top_mm(0.0, 0.0).unwrap();
            assert!(skin.abs() < 0.3, "{skin}");
        }
    }
}

/// ANSUR II (Gordon et al., Natick TR-15/007, 2014): median hand breadth of women 78 mm at a wrist of 154 mm, of men 88 at 176.
#[test]
fn the_hand_is_as_broad_as_hands_are() {
    for (girth, breadth) in [(154.0, 78.0), (176.0, 88.0)] {
        let arm = ArmSurface::new(&wrist(girth, Side::Left), 25.0);
        let scale = arm.scale;
        // Across the heads of the metacarpals, without the thumb.
        let inside = |x: f32| (0..45).any(|k| field::palm(&arm.bones, Vec3::new(x, -77.0, -k as f32)) < 0.0);
        let reach = |side: f32| (0..1200).map(|k| k as f32 * 0.05).take_while(|x| inside(x * side)).last().unwrap();
        let wide = f64::from((reach(1.0) + reach(-1.0)) * scale);
        assert!((wide - breadth).abs() < 3.0, "{wide} for {breadth}");
    }
}

#[test]
fn a_right_arm_is_a_left_one_in_the_mirror() {
    let [left, right] =
        [Side::Left, Side::Right].map(|side| ArmSurface::new(&wrist(154.0, side), 25.0).mesh(Skin::Fair, 5.0));
    assert_eq!(left.points.len(), right.points.len());
    assert!(left.points.iter().zip(&right.points).all(|(l, r)| *l == Vec3::new(-r.x, r.y, r.z)));
    assert!(left.tints == right.tints);
    let (low, high) = left.bounds().unwrap();
    assert!(-low.x > high.x, "the thumb of a left hand is on the left: {low} {high}");
}

#[test]
fn triangles_face_outward_and_leave_no_hole() {
    let arm = ArmSurface::new(&wrist(154.0, Side::Right), 25.0);
    let mesh = arm.mesh(Skin::Fair, 4.0);
    let n_of_skin = mesh.kinds.iter().filter(|kind| **kind == 0).count();
    let mut edges = std::collections::BTreeMap::new();
    let (mut faces_out, mut all) = (0, 0);
    for triangle in &mesh.triangles[..n_of_skin] {
        let [a, b, c] = triangle.map(|i| mesh.points[i as usize]);
        let n = triangle.iter().map(|i| mesh.normals[*i as usize]).sum::<Vec3>();
        faces_out += usize::from((b - a).cross(c - a).dot(n) >= 0.0);
        all += 1;
        for k in 0..3 {
            *edges.entry((triangle[k], triangle[(k + 1) % 3])).or_insert(0_i32) += 1;
            *edges.entry((triangle[(k + 1) % 3], triangle[k])).or_insert(0) -= 1;
        }
    }
    assert!(faces_out as f32 > 0.99 * all as f32, "{faces_out} of {all}");
    assert!(edges.values().all(|sum| *sum == 0), "closed");
}

#[test]
fn the_worst_figures_are_answered() {
    for girth in [0.0, 1e9, 90.0, 260.0] {
        for offset in [f64::NAN, f64::INFINITY, -400.0, 400.0] {
            let arm = ArmSurface::new(&wrist(girth, Side::Left), offset);
            assert!(arm.girth_mm(0.0).is_finite());
            let mesh = arm.mesh(Skin::Deep, 8.0);
            assert!(mesh.points.iter().chain(&mesh.normals).all(|p| p.is_finite()));
        }
    }
    assert!(!ArmSurface::new(&Wrist::usual(), 25.0).mesh(Skin::Plain, f32::NAN).points.is_empty());
}
