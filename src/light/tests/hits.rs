//! The trees against looking at every triangle.

use super::*;
use crate::light::sampler::Sampler;
use crate::light::tree::{Ray, Waiting, World};

/// The nearest triangle, by looking at all of them in 64 bits.
fn nearest(scene: &LitScene, ray: &Ray) -> Option<f64> {
    let (o, d) = (ray.origin.as_dvec3(), ray.toward.as_dvec3());
    let mut best: Option<f64> = None;
    for placed in &scene.placed {
        for triangle in &placed.mesh.triangles {
            let [a, b, c] = triangle.map(|i| placed.place.transform_point3(placed.mesh.points[i as usize]).as_dvec3());
            let normal = (b - a).cross(c - a);
            let t = normal.dot(a - o) / normal.dot(d);
            let p = o + d * t;
            let is_inside =
                [(a, b), (b, c), (c, a)].iter().all(|(p0, p1)| (*p1 - *p0).cross(p - *p0).dot(normal) >= 0.0);
            if is_inside && t > 1e-3 && best.is_none_or(|least| t < least) {
                best = Some(t);
            }
        }
    }
    best
}

#[test]
fn rays_meet_what_looking_at_every_triangle_finds() {
    let scene = still_life();
    let world = World::of(&scene.placed, 2);
    let mut waiting = Waiting::new();
    let mut chance = Sampler::new(3, 4, 0, 1);
    let mut n_met = 0;
    for i in 0..1500 {
        let mut coordinate = |size: f32| (chance.by_chance() - 0.5) * size;
        let origin = Vec3::new(coordinate(120.0), coordinate(120.0), coordinate(60.0) + 40.0);
        let aim = Vec3::new(coordinate(60.0), coordinate(60.0), coordinate(30.0));
        // Along the axes too, and in planes of two of them.
        let toward = match i % 5 {
            0 => Vec3::NEG_Z,
            1 => Vec3::new(0.0, aim.y - origin.y, aim.z - origin.z),
            2 => Vec3::new(aim.x - origin.x, -0.0, aim.z - origin.z),
            _ => aim - origin,
        };
        let ray = Ray { origin, toward: toward.normalize() };
        let found = world.first_hit(&ray, 1e9, &mut waiting).map(|hit| f64::from(hit.distance));
        let told = nearest(&scene, &ray);
        n_met += u32::from(told.is_some());
        match (found, told) {
            (None, None) => {}
            (Some(found), Some(told)) => assert!((found - told).abs() < 1e-3, "{ray:?}: {found}, {told}"),
            // Only a ray along an edge may go either way.
            _ => panic!("{ray:?}: {found:?}, {told:?}"),
        }
        assert_eq!(world.is_blocked(&ray, 1e9, &mut waiting), told.is_some());
        if let Some(told) = told {
            assert!(!world.is_blocked(&ray, told as f32 * 0.999, &mut waiting));
        }
    }
    assert!(n_met > 1000, "{n_met}");
}

/// A ball is closed: no ray from its middle finds a seam between its triangles.
#[test]
fn no_ray_slips_between_triangles() {
    let world = World::of(&[in_place(ball(50.0, 0.5, Material::MATT))], 1);
    let mut waiting = Waiting::new();
    let mesh = ball(50.0, 0.5, Material::MATT);
    let mut aims: Vec<Vec3> = mesh.points.clone();
    aims.extend(mesh.triangles.iter().flat_map(|t| {
        let [a, b, c] = t.map(|i| mesh.points[i as usize]);
        [(a + b) * 0.5, (b + c) * 0.5, a * 0.3 + b * 0.7, a * 0.9 + c * 0.1]
    }));
    let slipped = aims.iter().filter(|aim| {
        let ray = Ray { origin: Vec3::new(0.3, 0.2, -0.1), toward: (**aim - Vec3::new(0.3, 0.2, -0.1)).normalize() };
        world.first_hit(&ray, 1e9, &mut waiting).is_none()
    });
    assert_eq!(slipped.count(), 0);
}
