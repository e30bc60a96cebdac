//! One scene, one picture: whatever the number of threads, and however it is cut into strips.

use super::*;
use crate::light::denoise::smooth_light;
use crate::light::exposure::{Exposed, SpotGuide, SpotLight};
use crate::light::sampler::Sampler;

fn camera() -> Camera {
    Camera {
        eye: Vec3::new(60.0, -160.0, 180.0),
        at: Vec3::new(0.0, 0.0, 4.0),
        up: Vec3::Z,
        width_mm: 90.0,
        lens_mm: 2.0,
    }
}

#[test]
fn one_thread_and_three_give_the_same_bytes() {
    let scene = still_life();
    let taken = |n: usize| {
        let progress = PhotoProgress::default();
        let picture = ReadyScene::with_threads(&scene, n).photograph(&camera(), &small(3), &progress).unwrap();
        assert_eq!(progress.share(), 1.0);
        picture
    };
    let one = taken(1);
    assert_eq!((one.width, one.height, one.rgb.len()), (48, 60, 48 * 60 * 3));
    assert!(one == taken(2) && one == taken(3));
}

#[test]
fn strips_leave_no_seam() {
    let ready = ReadyScene::with_threads(&still_life(), 2);
    let quality = Quality { width_px: 24, height_px: 1300, samples: 1 };
    let tall = Camera { width_mm: 2.0, ..camera() };
    let in_strips =
        |most_pixels: usize| ready.in_strips(&tall, &quality, &PhotoProgress::default(), most_pixels).unwrap();
    assert!(in_strips(usize::MAX) == in_strips(1));
}

/// The smoothing changes nothing where there is nothing to smooth.
#[test]
fn a_flat_field_stays_as_it_is() {
    let (width, height) = (40, 30);
    let light = Vec3::new(0.4, 0.5, 0.6);
    let spot = SpotLight::of(light, light * 0.5, light * 0.1, glam::Vec4::new(0.1, 0.1, 0.1, 1.0));
    let guide = |i: usize| {
        let point = Vec3::new((i % width) as f32, (i / width) as f32, 0.0);
        SpotGuide { normal: Vec3::Z, key: 7, point, soft_mm: 0.0 }
    };
    let n = width * height;
    let mut exposed = Exposed {
        width,
        height,
        guides: (0..n).map(guide).collect(),
        lights: vec![spot; n],
        tints: vec![glam::Vec4::ONE; n],
        small: Vec::new(),
    };
    smooth_light(&mut exposed, 1.0, 1.0, 2);
    for after in &exposed.lights {
        let change = (after.red - spot.red).abs() + (after.green - spot.green).abs() + (after.blue - spot.blue).abs();
        assert!(change.max_element() < 1e-5, "{change}");
    }
}

/// A field with noise about one value comes out with a small part of it, and at the same value.
#[test]
fn noise_on_a_flat_field_is_taken_away_and_its_mean_kept() {
    let (width, height) = (64, 64);
    let n = width * height;
    let mut chance = Sampler::new(1, 2, 0, 1);
    let lights: Vec<SpotLight> = (0..n)
        .map(|_| {
            let light = Vec3::splat(0.5 + 0.4 * (chance.by_chance() - 0.5));
            let variance = glam::Vec4::new(0.16 / 12.0, 0.16 / 12.0, 0.16 / 12.0, 1.0);
            SpotLight::of(light, light, light, variance)
        })
        .collect();
    let guide = |i: usize| {
        let point = Vec3::new((i % width) as f32, (i / width) as f32, 0.0);
        SpotGuide { normal: Vec3::Z, key: 7, point, soft_mm: 0.0 }
    };
    let guides = (0..n).map(guide).collect();
    let mut exposed = Exposed { width, height, guides, lights, tints: vec![glam::Vec4::ONE; n], small: Vec::new() };
    let spread = |lights: &[SpotLight]| {
        let mean = lights.iter().map(|l| l.red.y).sum::<f32>() / n as f32;
        (mean, (lights.iter().map(|l| (l.red.y - mean) * (l.red.y - mean)).sum::<f32>() / n as f32).sqrt())
    };
    let before = spread(&exposed.lights);
    smooth_light(&mut exposed, 1.0, 1.0, 2);
    let after = spread(&exposed.lights);
    assert!((after.0 - before.0).abs() < 0.003, "{before:?} {after:?}");
    assert!(after.1 < before.1 * 0.1, "{before:?} {after:?}");
}

/// Four samples a pixel, smoothed, are close to what four hundred find. Measured: a mean of 1.4 bytes, the worst hundredth above 9, which
/// are edges; a picture this small has many.
#[test]
fn few_samples_come_close_to_many() {
    let ready = ReadyScene::with_threads(&still_life(), 2);
    let taken = |samples: u32| ready.photograph(&camera(), &small(samples), &PhotoProgress::default()).unwrap().rgb;
    let (few, many) = (taken(4), taken(400));
    let mut apart: Vec<u8> = few.iter().zip(&many).map(|(a, b)| a.abs_diff(*b)).collect();
    apart.sort_unstable();
    let mean = apart.iter().map(|d| f64::from(*d)).sum::<f64>() / apart.len() as f64;
    let worst = apart[apart.len() * 99 / 100];
    assert!(mean < 2.0 && worst < 16, "{mean} {worst}");
}
