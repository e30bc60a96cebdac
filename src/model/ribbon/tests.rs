//! What a bow is held to.

use super::*;
use crate::geometry::loop_arc;
use crate::light::Vec3;
use crate::model::arm::ArmSurface;
use crate::piece::Wrist;
use crate::stock::{StockId, Weave};

/// A table, far below.
struct Table(f32);

impl UnderRibbon for Table {
    fn distance_mm(&self, place: Vec3) -> f32 {
        place.z - self.0
    }

    fn floor_mm(&self) -> f32 {
        self.0
    }
}

fn satin(width_mm: f64) -> Fabric {
    Fabric::new(Weave::Satin, crate::colour::Rgb::hex(0xf4ead4), width_mm)
}

/// Length of one column of a mesh laid as `across` quads wide.
fn column(mesh: &Mesh, across: usize, index: usize) -> f32 {
    let column: Vec<Vec3> = mesh.points.iter().skip(index).step_by(across + 1).copied().collect();
    column.windows(2).map(|w| w[0].distance(w[1])).sum()
}

fn row(mesh: &Mesh, across: usize, index: usize) -> f32 {
    let row = &mesh.points[index * (across + 1)..(index + 1) * (across + 1)];
    row.windows(2).map(|w| w[0].distance(w[1])).sum()
}

#[test]
fn a_loop_takes_the_ribbon_that_is_reckoned_and_is_as_wide_as_it_is() {
    for width in [9.0, 15.0, 25.0, 38.0] {
        for (reach, open) in [(45.0, 18.0), (60.0, 26.0), (80.0, 30.0)] {
            for (index, stem) in (0..6).flat_map(|index| [(index, 0.0), (index, 0.4 * reach)]) {
                let shape = standing::StandingLoop::new(reach, open, 1.2, index, &mut Chance::seeded(u64::from(index)));
                let shape = shape.flat_for(stem);
                let mesh = shape.mesh(&satin(width), 3.0, &Table(-30.0));
                let asked = loop_arc(f64::from(reach), f64::from(open));
                let (line, _) = shape.line(3.0);
                let off = f64::from(line.length()) / asked - 1.0;
                assert!(off.abs() < 0.01, "{reach} {open} {index}: {off:.4}");
                let n_rows = mesh.points.len() / 25;
                let wide = f64::from(row(&mesh, 24, n_rows / 2));
                assert!((wide / width - 1.0).abs() < 0.01, "{wide} of {width}");
            }
        }
    }
}

#[test]
fn a_tail_is_as_long_and_as_wide_as_it_is_said_to_be() {
    let arm = ArmSurface::new(&Wrist::usual(), 25.0);
    for (length, width) in [(60.0, 9.0), (110.0, 25.0)] {
        let mesh = drape::tail(&satin(width), length, 3.4, Vec3::new(0.0, 0.0, 2.0), &arm, &mut Chance::seeded(7));
        let cut = 0.5 * width as f32;
        let middle = column(&mesh, 16, 8);
        assert!((middle / (length - cut) - 1.0).abs() < 0.01, "{middle} of {}", length - cut);
        for edge in [0, 16] {
            let edge = column(&mesh, 16, edge);
            assert!((edge / length - 1.0).abs() < 0.04, "{edge} of {length}");
        }
        let n_rows = mesh.points.len() / 17;
        let wide = row(&mesh, 16, n_rows * 3 / 5);
        assert!((wide / width as f32 - 1.0).abs() < 0.04, "{wide} of {width}");
        let deepest = mesh.points.iter().map(|p| arm.distance_mm(*p)).fold(f32::MAX, f32::min);
        assert!(deepest > -0.6, "lies on the hand: {deepest}");
    }
}

#[test]
fn loops_lie_low_under_the_heads_and_open_beyond() {
    let shape = standing::StandingLoop::new(60.0, 25.0, 1.2, 0, &mut Chance::seeded(3)).flat_for(28.0);
    let mesh = shape.mesh(&satin(15.0), 3.0, &Table(-30.0));
    let high = |from: f32, to: f32| {
        let within = mesh.points.iter().filter(|p| (from..to).contains(&p.truncate().length()));
        within.map(|p| p.z).fold((f32::MAX, f32::MIN), |(low, high), z| (low.min(z), high.max(z)))
    };
    let (low, top) = high(8.0, 22.0);
    assert!(top - low < 6.0, "{low} {top}");
    let (low, top) = high(34.0, 70.0);
    assert!(top - low > 15.0, "{low} {top}");
}

#[test]
fn loops_stand_clear_of_the_arm() {
    let arm = ArmSurface::new(&Wrist::usual(), 25.0);
    let shape = standing::StandingLoop::new(60.0, 25.0, std::f32::consts::FRAC_PI_2, 0, &mut Chance::seeded(3));
    let mesh = shape.mesh(&satin(25.0), 3.0, &arm);
    let out = mesh.points.iter().filter(|p| p.x.hypot(p.y) > 14.0);
    assert!(out.map(|p| arm.distance_mm(*p)).fold(f32::MAX, f32::min) > -0.5);
}

#[test]
fn the_worst_bows_are_answered() {
    for mm in [f64::NAN, f64::INFINITY, -3.0, 0.0, 1e-9, 0.4, 1e9] {
        let asked = Bow {
            ribbon: StockId::new("no-such"),
            colour: "none".into(),
            loops_a_side: 2,
            loop_length_mm: mm,
            loop_width_mm: mm,
            tails: 2,
            tail_length_mm: mm,
            centre_loop: true,
        };
        let mesh = bow(&asked, &Stock::default(), &Table(-40.0));
        assert!(mesh.points.iter().chain(&mesh.normals).all(|p| p.is_finite()), "{mm}");
        assert_eq!(mesh.points.is_empty(), !(mm.is_finite() && mm > 0.0));
    }
}
