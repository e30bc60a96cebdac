//! Flowers with rays about a disc, and what looks like them.

use super::Seed;
use super::cups::stamens;
use crate::light::{Affine3A, Material, Mesh, Vec2, Vec3};
use crate::model::curve::{GOLDEN, PI, TAU, cos, mix, pow, share, sin, smooth};
use crate::model::petal::{Petal, clawed, notched, pointed, round_end, strap, toothed};
use crate::model::solid::{ball, stem};
use crate::model::tone::{deeper, of_hex, paler, stem_green};

fn p(r: f32, z: f32) -> Vec2 {
    Vec2::new(r, z)
}

/// Beads in a spiral over a dome (H. Vogel 1979): its radius, its height over z = `foot`.
pub(super) fn disc_of_beads(n: u32, radius: f32, dome: f32, foot: f32, bead: f32, tint: impl Fn(f32) -> Vec3) -> Mesh {
    let mut mesh = Mesh::default();
    for i in 0..n {
        let u = pow(share(i, n), 0.5);
        let (turn, out) = (i as f32 * GOLDEN, radius * u);
        let up = foot + dome * (1.0 - u * u);
        let tone = tint(u);
        let mut one = ball(
            (6, 4),
            Material::MATT,
            |d| bead * (1.0 + 0.3 * d.z.max(0.0)),
            |d| deeper(tone, 0.35 * (0.5 - 0.5 * d.z)),
        );
        one.place(Affine3A::from_translation(Vec3::new(out * cos(turn), out * sin(turn), up)));
        mesh.append(&one);
    }
    let mut under = ball((18, 8), Material::MATT, |_| radius, |_| deeper(tint(0.8), 0.6));
    crate::model::solid::stretch(&mut under, Vec3::new(1.0, 1.0, (dome / radius).max(0.05)));
    under.place(Affine3A::from_translation(Vec3::Z * (foot - 0.25 * bead)));
    mesh.append(&under);
    mesh
}

/// Long narrow rays in two rows about a domed disc.
pub(super) fn daisy(seed: &mut Seed) -> Mesh {
    let (rise, open, tint) = (seed.rise, seed.open, seed.tint);
    let mut mesh = Mesh::default();
    for row in 0..2 {
        let n = 17;
        for i in 0..n {
            let turn = (i as f32 + 0.5 * row as f32) * TAU / n as f32 + seed.luck.bell(0.05);
            let long = mix(0.35, 1.0, open) * seed.luck.about_one(0.04) * mix(1.0, 0.95, row as f32);
            let up = mix(2.6 * rise, rise * (0.42 + 0.16 * row as f32), open) * seed.luck.about_one(0.18);
            let ray = Petal {
                cup: 0.25,
                outline: notched,
                profile: strap,
                crease: 0.10,
                grain: seed.luck.between(0.0, 90.0),
                roll: (0.78, 0.5),
                ..Petal::along(
                    [
                        p(0.14, 0.28 * rise),
                        p(0.35 * long, 0.5 * rise),
                        p(0.7 * long, mix(0.55 * rise, up, 0.5)),
                        p(long, up),
                    ],
                    0.115,
                )
            };
            mesh.append(&ray.mesh(turn, (7, 12), Material::PETAL, |s, t| {
                deeper(tint, 0.10 * (1.0 - t) + 0.04 * smooth(0.5, 1.0, sin(s * 9.0)))
            }));
        }
    }
    let (gold, green) = (of_hex(0xe3b32e), of_hex(0xb7b23c));
    mesh.append(&disc_of_beads(130, 0.27, 0.34 * rise, 0.48 * rise, 0.022, |u| gold.lerp(green, smooth(0.5, 0.0, u))));
    mesh
}

/// Eight to ten broad petals about a dark eye ringed with stamens.
pub(super) fn anemone(seed: &mut Seed) -> Mesh {
    let (rise, open, tint) = (seed.rise, seed.open, seed.tint);
    let dark = of_hex(0x1d1626);
    let mut mesh = Mesh::default();
    for row in 0..2 {
        for i in 0..5 {
            let turn = (i as f32 + 0.5 * row as f32) * TAU / 5.0 + seed.luck.bell(0.08);
            let long = mix(0.4, 1.0, open) * mix(1.0, 0.90, row as f32) * seed.luck.about_one(0.04);
            let up = mix(2.2, mix(0.62, 0.95, row as f32), open) * rise;
            let petal = Petal {
                cup: 0.9,
                outline: round_end,
                profile: clawed,
                ruffle: (0.03, 1.7, seed.luck.angle()),
                grain: seed.luck.between(0.0, 90.0),
                roll: (0.75, 0.45),
                ..Petal::along(
                    [p(0.05, 0.15 * rise), p(0.35 * long, 0.22 * rise), p(0.78 * long, 0.4 * up), p(long, up)],
                    0.46,
                )
            };
            mesh.append(&petal.mesh(turn, (14, 14), Material::PETAL, |s, t| {
                let vein = 0.06 * sin(s * 34.0);
                let ring = paler(tint, 0.75);
                deeper(tint, (0.08 + vein * (1.0 - t)).max(0.0)).lerp(ring, 0.75 * smooth(0.36, 0.22, t))
            }));
        }
    }
    mesh.append(&disc_of_beads(60, 0.13, 0.5 * rise, 0.45 * rise, 0.022, |_| dark));
    for ring in 0..3 {
        mesh.append(&stamens(
            seed,
            16,
            0.19 + 0.055 * ring as f32,
            (0.90 - 0.07 * ring as f32) * rise,
            0.026,
            dark,
            deeper(tint, 0.6),
        ));
    }
    mesh
}

/// A collar of pointed bracts under a pincushion of tiny flowers.
pub(super) fn astrantia(seed: &mut Seed) -> Mesh {
    let (rise, open, tint) = (seed.rise, seed.open, seed.tint);
    let green = of_hex(0xa9bd84);
    let mut mesh = Mesh::default();
    let n = 14;
    for i in 0..n {
        let bract = Petal {
            outline: pointed,
            profile: |t| 0.45 + 0.55 * sin(PI * (0.1 + 0.8 * t)),
            crease: 0.12,
            grain: seed.luck.between(0.0, 90.0),
            ..Petal::along(
                [
                    p(0.04, 0.0),
                    p(0.35, 0.2 * rise),
                    p(0.7, 0.36 * rise),
                    p(1.0 * seed.luck.about_one(0.03), mix(1.2, 0.50, open) * rise),
                ],
                0.27,
            )
        };
        mesh.append(&bract.mesh(i as f32 * TAU / n as f32, (8, 12), Material::PETAL, |s, t| {
            let vein = 0.10 * smooth(0.6, 1.0, sin(s * 15.0));
            deeper(tint, vein).lerp(green, 0.7 * smooth(0.80, 1.0, t) + 0.25 * smooth(0.3, 0.0, t))
        }));
    }
    for i in 0..46 {
        let u = pow(share(i, 46), 0.5);
        let turn = i as f32 * GOLDEN;
        let tip = Vec3::new(0.52 * u * cos(turn), 0.52 * u * sin(turn), rise * (1.0 - 0.26 * u * u));
        mesh.append(&stem(
            &[Vec3::Z * 0.1 * rise, tip * Vec3::new(0.6, 0.6, 0.72), tip],
            4,
            Material::MATT,
            |_| 0.010,
            green,
        ));
        let mut head = ball((6, 4), Material::MATT, |d| 0.040 * (1.0 + 0.2 * d.z), |_| paler(tint, 0.2));
        head.place(Affine3A::from_translation(tip));
        mesh.append(&head);
    }
    mesh
}

/// Frilled outer florets about a pincushion with pale stamens.
pub(super) fn scabiosa(seed: &mut Seed) -> Mesh {
    let (rise, open, tint) = (seed.rise, seed.open, seed.tint);
    let mut mesh = Mesh::default();
    for row in 0..3 {
        let n = 11;
        for i in 0..n {
            let turn = (i as f32 + 0.37 * row as f32) * TAU / n as f32 + seed.luck.bell(0.09);
            let long = mix(0.5, 1.0 - 0.17 * row as f32, open) * seed.luck.about_one(0.05);
            let up = rise * (0.44 + 0.16 * row as f32) * seed.luck.about_one(0.15);
            let petal = Petal {
                outline: toothed,
                profile: clawed,
                ruffle: (0.06, seed.luck.between(2.2, 3.4), seed.luck.angle()),
                grain: seed.luck.between(0.0, 90.0),
                roll: (0.8, 0.4),
                ..Petal::along(
                    [p(0.15, 0.3 * rise), p(0.4 * long, 0.5 * rise), p(0.75 * long, up), p(long, up * 0.94)],
                    0.23,
                )
            };
            mesh.append(&petal.mesh(turn, (14, 10), Material::PETAL, |s, t| {
                paler(deeper(tint, (0.12 * (1.0 - t) + 0.04 * sin(s * 22.0)).max(0.0)), 0.05)
            }));
        }
    }
    let cushion = deeper(tint, 0.15).lerp(of_hex(0xd9dcc6), 0.35);
    mesh.append(&disc_of_beads(90, 0.36, 0.34 * rise, 0.52 * rise, 0.036, |u| paler(cushion, 0.3 * (1.0 - u))));
    for i in 0..34 {
        let u = pow(share(i, 34), 0.5);
        let turn = i as f32 * GOLDEN + 0.5;
        let foot = Vec3::new(0.32 * u * cos(turn), 0.32 * u * sin(turn), 0.75 * rise);
        let tip = foot * Vec3::new(1.15, 1.15, 0.0) + Vec3::Z * (rise * seed.luck.between(0.98, 1.12));
        mesh.append(&stem(&[foot, foot.lerp(tip, 0.5), tip], 4, Material::MATT, |_| 0.007, paler(tint, 0.6)));
        let mut head = ball((5, 3), Material::MATT, |_| 0.022, |_| paler(tint, 0.75));
        head.place(Affine3A::from_translation(tip));
        mesh.append(&head);
    }
    mesh
}

/// Trumpets with cut rims about a dark tuft.
pub(super) fn cornflower(seed: &mut Seed) -> Mesh {
    let (rise, open, tint) = (seed.rise, seed.open, seed.tint);
    let mut mesh = Mesh::default();
    let n = 11;
    for i in 0..n {
        let turn = i as f32 * TAU / n as f32 + seed.luck.bell(0.08);
        let up = rise * seed.luck.between(0.6, 0.95);
        for side in 0..5 {
            let lobe = Petal {
                outline: pointed,
                profile: clawed,
                cup: 0.14,
                grain: seed.luck.between(0.0, 90.0),
                roll: (0.75, 0.6),
                ..Petal::along(
                    [
                        p(0.06, 0.25 * rise),
                        p(0.35, 0.6 * rise),
                        p(0.66, up * 0.9),
                        p(mix(0.6, 1.0, open) * seed.luck.about_one(0.08), up),
                    ],
                    0.095,
                )
            };
            mesh.append(&lobe.mesh(turn + (side as f32 - 2.0) * 0.115, (6, 10), Material::PETAL, |_, t| {
                deeper(tint, 0.22 * (1.0 - t))
            }));
        }
    }
    let violet = of_hex(0x53307a);
    for i in 0..30 {
        let u = pow(share(i, 30), 0.5);
        let turn = i as f32 * GOLDEN;
        let tip = Vec3::new(0.40 * u * cos(turn), 0.40 * u * sin(turn), rise * (1.05 - 0.2 * u));
        let foot = Vec3::new(tip.x * 0.4, tip.y * 0.4, 0.3 * rise);
        mesh.append(&stem(
            &[foot, foot.lerp(tip, 0.6), tip],
            5,
            Material::MATT,
            |v| 0.022 * (1.0 - 0.5 * v),
            violet.lerp(tint, 0.25),
        ));
    }
    let mut cup =
        ball((14, 8), Material::LEAF, |d| 0.26 * (1.0 - 0.2 * d.z), |d| stem_green() * (0.7 + 0.3 * sin(d.z * 24.0)));
    cup.place(Affine3A::from_translation(Vec3::Z * 0.2));
    mesh.append(&cup);
    mesh
}

/// A cone of beads in a collar of spines.
pub(super) fn thistle(seed: &mut Seed) -> Mesh {
    let (rise, tint) = (seed.rise, seed.tint);
    let steel = Material { rough: 0.4, rough_along: 0.4, mirror: 0.05, through: 0.1, ..Material::LEAF };
    let mut mesh = Mesh::default();
    for row in 0..2 {
        let n = 10;
        for i in 0..n {
            let long = seed.luck.between(0.85, 1.0) * mix(1.0, 0.72, row as f32);
            let spine = Petal {
                outline: pointed,
                profile: |t| 0.5 + 0.5 * sin(PI * (0.15 + 0.8 * t)),
                crease: 0.35,
                grain: seed.luck.between(0.0, 90.0),
                ..Petal::along(
                    [
                        p(0.05, 0.05 * rise),
                        p(0.4 * long, 0.05 * rise),
                        p(0.7 * long, 0.12 * rise),
                        p(long, rise * mix(0.22, 0.42, row as f32)),
                    ],
                    0.085,
                )
            };
            mesh.append(&spine.mesh(
                (i as f32 + 0.5 * row as f32) * TAU / n as f32 + seed.luck.bell(0.08),
                (6, 10),
                steel,
                |s, t| paler(deeper(tint, 0.12), 0.35 * smooth(0.3, 0.0, s.abs()) * (1.0 - t)),
            ));
        }
    }
    let n = 150;
    for i in 0..n {
        let down = pow(share(i, n), 0.55) * 1.75;
        let turn = i as f32 * GOLDEN;
        let d = Vec3::new(sin(down) * cos(turn), sin(down) * sin(turn), cos(down));
        let at = Vec3::new(d.x * 0.40, d.y * 0.40, rise * (0.48 + 0.46 * d.z));
        let mut bead = ball(
            (5, 4),
            Material::MATT,
            |e| 0.042 * (1.0 + 0.9 * e.dot(d).max(0.0)),
            |e| paler(tint, 0.25 * e.dot(d).max(0.0)),
        );
        bead.place(Affine3A::from_translation(at));
        mesh.append(&bead);
    }
    let mut core = ball((14, 10), Material::MATT, |_| 0.38, |_| deeper(tint, 0.6));
    crate::model::solid::stretch(&mut core, Vec3::new(1.0, 1.0, rise * 1.15));
    core.place(Affine3A::from_translation(Vec3::Z * (0.48 * rise)));
    mesh.append(&core);
    mesh
}
