//! A strip of ribbon along a line: its frames, its width, its pleats.

use super::Fabric;
use crate::light::{Mesh, Vec3};

/// A line in space as places, with the sum of lengths up to each.
#[derive(Clone, Debug)]
pub(in crate::model) struct Course {
    places: Vec<Vec3>,
    lengths: Vec<f32>,
}

impl Course {
    /// Through these places, of which there is at least one.
    pub(in crate::model) fn through(places: Vec<Vec3>) -> Self {
        let mut length = 0.0;
        let mut lengths = Vec::with_capacity(places.len());
        for (i, place) in places.iter().enumerate() {
            length += if i == 0 { 0.0 } else { place.distance(places[i - 1]) };
            lengths.push(length);
        }
        Self { places, lengths }
    }

    /// All of it, mm.
    pub(in crate::model) fn length(&self) -> f32 {
        self.lengths.last().copied().unwrap_or(0.0)
    }

    /// Between which places, and how far between them, it is so many mm from the start; as one number.
    pub(in crate::model) fn step_at(&self, length: f32) -> f32 {
        let last = self.places.len().saturating_sub(1);
        let i = self.lengths.partition_point(|l| *l <= length).clamp(1, last.max(1));
        if last == 0 {
            return 0.0;
        }
        let span = self.lengths[i] - self.lengths[i - 1];
        let rest = if span > 1e-6 { (length - self.lengths[i - 1]) / span } else { 0.0 };
        (i - 1) as f32 + rest.clamp(0.0, 1.0)
    }

    /// The place with this number.
    pub(in crate::model) fn place(&self, index: usize) -> Vec3 {
        self.places[index.min(self.places.len() - 1)]
    }

    /// The place so many mm from the start.
    pub(in crate::model) fn at(&self, length: f32) -> Vec3 {
        let step = self.step_at(length);
        let i = (step as usize).min(self.places.len() - 1);
        let next = (i + 1).min(self.places.len() - 1);
        self.places[i].lerp(self.places[next], step - i as f32)
    }
}

/// A strip: where its middle runs, which way its width lies.
pub(in crate::model) struct RibbonStrip<'a> {
    /// The ribbon.
    pub(in crate::model) fabric: &'a Fabric,
    /// Its middle.
    pub(in crate::model) line: &'a Course,
    /// How narrow it is drawn together at a length, 1 where it is not.
    pub(in crate::model) narrow: &'a dyn Fn(f32) -> f32,
    /// Across it at a length, of length 1, square to the line.
    pub(in crate::model) side: &'a dyn Fn(f32) -> Vec3,
    /// How much of its end is cut off at a place of its half width, mm.
    pub(in crate::model) cut: &'a dyn Fn(f32) -> f32,
}

/// Folds over the width where a ribbon is drawn together.
const N_PLEATS: f32 = 3.0;

impl RibbonStrip<'_> {
    /// Its surface, in steps of about so many mm along.
    pub(in crate::model) fn mesh(&self, step_mm: f32) -> Mesh {
        let length = self.line.length();
        let along = ((length / step_mm.max(0.2)) as u32).clamp(4, 400);
        let at = |u: f32, v: f32| {
            let aside = u * 2.0 - 1.0;
            let back = (2.0 * v - 1.0).max(0.0) * (self.cut)(aside).min(0.4 * length);
            self.place(aside, v * length - back)
        };
        self.fabric.sheet([24, along], at)
    }

    fn place(&self, aside: f32, length: f32) -> Vec3 {
        let half = self.fabric.width_mm * 0.5;
        let narrow = (self.narrow)(length).clamp(0.05, 1.0);
        let side = (self.side)(length);
        let (before, after) = (self.line.at(length - 0.6), self.line.at(length + 0.6));
        let out = (after - before).cross(side).normalize_or_zero();
        // A zigzag of so many folds keeps the width of the cloth; a wave of the same height nearly.
        let deep = half * 2.0 * (1.0 - narrow * narrow).max(0.0).sqrt() / (4.0 * N_PLEATS);
        let pleat = deep * libm::sinf(aside * std::f32::consts::PI * N_PLEATS + 0.6);
        self.line.at(length) + side * (aside * half * narrow) + out * pleat
    }
}
