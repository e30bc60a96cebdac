//! Closed forms and published figures.

use std::f32::consts::{PI, TAU};

use super::*;
use crate::light::path::LightMet;
use crate::light::sampler::Sampler;
use crate::light::tree::{Ray, Waiting};

/// The mean light along a ray and what surface gave it: colour times light, and gloss.
fn mean_light(scene: &LitScene, ray: &Ray, n: u32) -> Vec3 {
    let ready = ReadyScene::with_threads(scene, 1);
    let (paths, mut waiting) = (ready.paths(), Waiting::new());
    let one = |k: u32| {
        let mut sampler = Sampler::new(5, 9, k, n);
        let (surface, light) = paths.seen(ray, 1e-4, true, &mut sampler, &mut waiting);
        let LightMet { window, room, window_gloss, room_gloss } = light;
        surface.map_or(Vec3::ZERO, |s| s.tint) * (window + room) + window_gloss + room_gloss
    };
    (0..n).map(one).sum::<Vec3>() / n as f32
}

fn at_ball(offset: f32) -> Ray {
    Ray { origin: Vec3::new(offset, 0.0, 100.0), toward: Vec3::NEG_Z }
}

fn satin() -> Material {
    Material { mirror: 0.3, rough: 0.48, rough_along: 0.18, through: 0.1, ..Material::MATT }
}

fn velvet() -> Material {
    Material { fuzz: 1.0, mirror: 0.0, ..Material::MATT }
}

/// White furnace: what gives back all light cannot be told from the light round about it.
#[test]
fn white_things_vanish_in_even_light() {
    for material in
        [Material { mirror: 0.0, ..Material::MATT }, Material::MATT, Material { rough: 0.4, ..Material::BERRY }]
    {
        let scene = LitScene { placed: vec![in_place(ball(10.0, 1.0, material))], lights: even_light(1.0) };
        for offset in [0.0, 5.0, 8.0, 9.5] {
            let light = mean_light(&scene, &at_ball(offset), 4096);
            assert!((light - 1.0).abs().max_element() < 0.02, "{material:?} {offset}: {light}");
        }
    }
}

/// No material gives back more light than it gets, from wherever it is seen.
#[test]
fn no_material_makes_light() {
    let petal = Material { through_tint: Vec3::ONE, ..Material::PETAL };
    for material in [Material::MATT, petal, Material::LEAF, Material::BERRY, satin(), velvet()] {
        let scene = LitScene { placed: vec![in_place(ball(10.0, 1.0, material))], lights: even_light(1.0) };
        for offset in [0.0, 4.0, 7.0, 9.0, 9.8] {
            let light = mean_light(&scene, &at_ball(offset), 2048);
            assert!(light.max_element() < 1.015, "{material:?} {offset}: {light}");
            assert!(light.min_element() > 0.0, "{material:?} {offset}: {light}");
        }
    }
}

/// Two equal squares that face each other at the distance of their side: 0.1998 of what leaves one reaches the other (J. R. Howell, "A
/// catalog of radiation heat transfer configuration factors", C-11 with X = Y = 1: 0.199825).
#[test]
fn two_squares_see_each_other_by_a_fifth() {
    let white = Material { mirror: 0.0, ..Material::MATT };
    let scene = LitScene { placed: vec![in_place(square(100.0, 1.0, white))], lights: window_above(100.0, 100.0) };
    let ready = ReadyScene::with_threads(&scene, 1);
    let (paths, mut waiting) = (ready.paths(), Waiting::new());
    let n = 262_144;
    let sum: f32 = (0..n)
        .map(|k| {
            let mut sampler = Sampler::new(0, 0, k, n);
            let place = (sampler.pair() - 0.5) * 99.999;
            let ray = Ray { origin: place.extend(50.0), toward: Vec3::NEG_Z };
            paths.seen(&ray, 1e-4, false, &mut sampler, &mut waiting).1.window.x
        })
        .sum();
    let factor = sum / n as f32;
    assert!((factor - 0.199_825).abs() < 5e-4, "{factor}");
}

/// Light of a polygon on a place: half the sum over its sides of the angle each is seen under times the cosine between the normal and that
/// side's plane (J. H. Lambert, "Photometria", 1760; as in Baum and others, 1989). Over pi, for a surface that gives all back.
fn lambert(place: Vec3, normal: Vec3, corners: [Vec3; 4]) -> f32 {
    let toward = corners.map(|c| (c - place).normalize());
    let side = |i: usize| {
        let (a, b) = (toward[i], toward[(i + 1) % 4]);
        libm::acosf(a.dot(b).clamp(-1.0, 1.0)) * a.cross(b).normalize().dot(normal)
    };
    (0..4).map(side).sum::<f32>().abs() / TAU
}

#[test]
fn a_ball_and_a_plane_under_a_square_light_are_as_lambert_says() {
    let white = Material { mirror: 0.0, ..Material::MATT };
    let half = 60.0;
    let corners =
        [(1.0, 1.0), (-1.0, 1.0), (-1.0, -1.0), (1.0, -1.0)].map(|(x, y)| Vec3::new(x * half, y * half, 90.0));
    let lights = window_above(90.0, half * 2.0);
    let plane = LitScene { placed: vec![in_place(square(400.0, 1.0, white))], lights };
    for x in [0.0, 35.0, 80.0, 150.0] {
        let ray = Ray { origin: Vec3::new(x, 20.0, 50.0), toward: Vec3::NEG_Z };
        let (light, told) = (mean_light(&plane, &ray, 4096).x, lambert(Vec3::new(x, 20.0, 0.0), Vec3::Z, corners));
        assert!((light - told).abs() < 0.003 + 0.01 * told, "plane at {x}: {light}, {told}");
    }
    // The whole window is above the horizon of these places.
    let round = LitScene { placed: vec![in_place(ball(10.0, 1.0, white))], lights };
    for x in [0.0, 2.5, 5.0] {
        let ray = Ray { origin: Vec3::new(x, 0.0, 50.0), toward: Vec3::NEG_Z };
        let place = Vec3::new(x, 0.0, (100.0 - x * x).sqrt());
        let (light, told) = (mean_light(&round, &ray, 4096).x, lambert(place, place / 10.0, corners));
        assert!((light - told).abs() < 0.003 + 0.01 * told, "ball at {x}: {light}, {told}");
    }
}

/// Half the light that a sheet does not keep comes out on its other side, in the colour it is tinted with.
#[test]
fn a_sheet_lets_through_what_it_says() {
    let sheet = Material { mirror: 0.0, through: 0.4, through_tint: Vec3::new(1.0, 0.8, 0.5), ..Material::MATT };
    let turned = Affine3A::from_rotation_x(PI);
    let mesh = Arc::new(square(100.0, 0.5, sheet));
    let light_on = |place: Affine3A, from: f32| {
        let scene =
            LitScene { placed: vec![PlacedMesh { mesh: mesh.clone(), place }], lights: window_above(100.0, 100.0) };
        mean_light(&scene, &Ray { origin: Vec3::Z * from, toward: Vec3::NEG_Z * from.signum() }, 4096)
    };
    for place in [Affine3A::IDENTITY, turned] {
        let (above, below) = (light_on(place, 50.0), light_on(place, -50.0));
        let share = below / above;
        assert!((share - Vec3::new(1.0, 0.8, 0.5) * (0.4 / 0.6)).abs().max_element() < 0.01, "{share}");
    }
}

/// A card that gives back 18 %, in full light and facing up, is 118 of 255 in sRGB, without a cast though the window is warm.
#[test]
fn a_grey_card_in_the_picture_is_grey() {
    let grey = Material { mirror: 0.0, ..Material::MATT };
    let scene = LitScene { placed: vec![in_place(square(60.0, 0.18, grey))], lights: Lights::by_a_window() };
    let picture = photograph(&scene, &from_above(40.0), &small(16), &PhotoProgress::default()).unwrap();
    let n = picture.rgb.len() / 3;
    let mean =
        |channel: usize| picture.rgb.iter().skip(channel).step_by(3).map(|b| f64::from(*b)).sum::<f64>() / n as f64;
    for channel in 0..3 {
        assert!((mean(channel) - 117.6).abs() < 1.5, "{channel}: {}", mean(channel));
    }
}
