//! What a model can get wrong, and what a person can do: none of it may break the program.

use super::*;

fn taken(scene: &LitScene, camera: &Camera) -> Photograph {
    ReadyScene::with_threads(scene, 2).photograph(camera, &small(2), &PhotoProgress::default()).unwrap()
}

#[test]
fn an_empty_scene_is_a_picture_of_the_room() {
    let scene = LitScene { placed: vec![], lights: Lights::by_a_window() };
    assert_eq!(taken(&scene, &from_above(100.0)).rgb.len(), 48 * 60 * 3);
    let hollow = LitScene { placed: vec![in_place(Mesh::default())], lights: even_light(0.0) };
    assert!(taken(&hollow, &from_above(100.0)).rgb.iter().all(|byte| *byte <= 1));
}

#[test]
fn a_camera_inside_a_mesh_sees_its_inside() {
    let scene = LitScene { placed: vec![in_place(ball(50.0, 0.8, Material::PETAL))], lights: Lights::by_a_window() };
    let camera = Camera { eye: Vec3::ZERO, at: Vec3::X, up: Vec3::X, width_mm: 1.0, lens_mm: 0.5 };
    let picture = taken(&scene, &camera);
    assert!(picture.rgb.iter().any(|byte| *byte > 10), "light comes through");
}

#[test]
fn cameras_without_a_direction_or_a_size_break_nothing() {
    let scene = still_life();
    let still = Camera { eye: Vec3::ZERO, at: Vec3::ZERO, up: Vec3::ZERO, width_mm: 0.0, lens_mm: -1.0 };
    let lost =
        Camera { eye: Vec3::splat(f32::NAN), at: Vec3::INFINITY, up: Vec3::NAN, width_mm: f32::NAN, lens_mm: 1.0 };
    for camera in [still, lost] {
        taken(&scene, &camera);
    }
    let ready = ReadyScene::with_threads(&scene, 1);
    for (width_px, height_px) in [(0, 0), (0, 5), (5, 0), (1, 1)] {
        let quality = Quality { width_px, height_px, samples: 0 };
        let picture = ready.photograph(&from_above(50.0), &quality, &PhotoProgress::default()).unwrap();
        assert_eq!(picture.rgb.len() as u32, width_px * height_px * 3);
    }
}

#[test]
fn triangles_that_are_none_are_left_out() {
    let mut mesh = square(100.0, 0.5, Material::MATT);
    let good =
        taken(&LitScene { placed: vec![in_place(mesh.clone())], lights: Lights::by_a_window() }, &from_above(80.0));
    let n = mesh.points.len() as u32;
    for point in [Vec3::NAN, Vec3::INFINITY, Vec3::splat(f32::MAX), Vec3::ZERO, Vec3::ZERO, Vec3::ZERO] {
        mesh.points.push(point);
        mesh.normals.push(Vec3::Z);
        mesh.tangents.push(Vec3::Y);
        mesh.tints.push(Vec3::splat(0.5));
    }
    // No number, no end, no area, a corner that is not there, a material that is not there, no material named.
    mesh.triangles.extend([
        [0, 1, n],
        [0, 1, n + 1],
        [n + 3, n + 4, n + 5],
        [0, 0, 1],
        [0, 1, 9999],
        [0, 1, 2],
        [1, 2, 3],
    ]);
    mesh.kinds.extend([0, 0, 0, 0, 0, 40]);
    assert!(
        good == taken(
            &LitScene { placed: vec![in_place(mesh.clone())], lights: Lights::by_a_window() },
            &from_above(80.0)
        )
    );
    mesh.normals.truncate(2);
    mesh.materials.clear();
    taken(&LitScene { placed: vec![in_place(mesh)], lights: Lights::by_a_window() }, &from_above(80.0));
}

#[test]
fn places_and_materials_that_are_no_numbers_break_nothing() {
    let odd = Material {
        mirror: f32::NAN,
        rough: f32::NAN,
        rough_along: -1.0,
        through: f32::NAN,
        through_tint: Vec3::NAN,
        fuzz: f32::NAN,
        soft_mm: f32::INFINITY,
        weave: FineWeave::Cloth(f32::NAN),
    };
    let mesh = Arc::new(square(100.0, f32::NAN, odd));
    let odd_tint = Arc::new(square(100.0, 0.5, Material { soft_mm: 1e9, mirror: 2.0, ..odd }));
    let flat = Affine3A::from_scale(Vec3::new(1.0, 1.0, 0.0));
    let placed = [flat, Affine3A::from_scale(Vec3::ZERO), Affine3A::from_translation(Vec3::NAN), Affine3A::IDENTITY]
        .into_iter()
        .flat_map(|place| [PlacedMesh { mesh: mesh.clone(), place }, PlacedMesh { mesh: odd_tint.clone(), place }])
        .collect();
    let mut lights = Lights::by_a_window();
    taken(&LitScene { placed, lights }, &from_above(80.0));
    lights.window.radiance = Vec3::splat(f32::NAN);
    lights.window.half_across = Vec3::ZERO;
    lights.card.0 = Vec3::ZERO;
    taken(&LitScene { lights, ..still_life() }, &from_above(80.0));
}

#[test]
fn who_asks_for_an_end_gets_no_picture() {
    let progress = PhotoProgress::default();
    assert_eq!(progress.share(), 0.0);
    progress.stop();
    assert_eq!(photograph(&still_life(), &from_above(80.0), &small(4), &progress), None);
}
