//! The picture, in millimetres: paths and paints in groups keyed by part. One scene feeds every outlet.
//!
//! Scene space is piece space: x toward the elbow, y across; an outlet turns it upright with [`upright`]. Knows nothing
//! of pixels, files or windows.

mod as_shown;
mod band;
mod bloom;
mod brush;
mod chance;
mod digits;
mod draft;
mod hues;
mod outline;
mod picture;
mod ribbon;
mod scale;
mod side_arm;
mod side_by_side;
mod side_view;
mod wrist;

use std::sync::Arc;

use kurbo::{Affine, BezPath, Point, Rect, Shape as _};

use crate::colour::Rgb;
use crate::piece::PartId;

pub use crate::piece::Skin;

pub use as_shown::as_shown;
pub use bloom::{Openness, bloom, form_chart, opens};
pub use picture::{Ground, PictureOptions, frame_for, picture};
pub use scale::{COIN_MM, RulerDirection, coin, ruler, with_coin, with_scale};
pub use side_by_side::{SideBySide, side_by_side};
pub use side_view::{SideViewOptions, side_view};

/// A colour with its cover: 0 is clear, 1 is solid.
#[derive(Clone, Copy, Debug, PartialEq)]
#[expect(missing_docs, reason = "a colour and its cover")]
pub struct Tint {
    pub rgb: Rgb,
    pub alpha: f64,
}

/// A stop of a gradient, at 0 to 1.
#[derive(Clone, Copy, Debug, PartialEq)]
#[expect(missing_docs, reason = "a place and its tint")]
pub struct Stop {
    pub at: f64,
    pub tint: Tint,
}

/// What a path is filled with. Gradients mix in sRGB as SVG and PDF do; mix nicer colours in OKLab when making stops.
#[derive(Clone, Debug, PartialEq)]
pub enum Paint {
    /// One tint.
    Solid(Tint),
    /// From one point to another.
    Linear {
        /// Where stop 0 lies.
        from: Point,
        /// Where stop 1 lies.
        to: Point,
        /// The stops, in order.
        stops: Arc<[Stop]>,
    },
    /// The unit circle's radial gradient, placed by `place`; so an ellipse costs nothing.
    Radial {
        /// Where the unit circle goes.
        place: Affine,
        /// The stops, in order.
        stops: Arc<[Stop]>,
    },
}

impl Paint {
    /// Whether it is clear at its far end, as shadows and glows are: such a paint has no edge to be measured.
    pub fn fades(&self) -> bool {
        match self {
            Self::Solid(tint) => tint.alpha <= 0.0,
            Self::Linear { stops, .. } | Self::Radial { stops, .. } => stops.last().is_none_or(|s| s.tint.alpha <= 0.0),
        }
    }

    /// The same paint, moved.
    pub fn moved(self, by: Affine) -> Self {
        match self {
            Self::Solid(_) => self,
            Self::Linear { from, to, stops } => Self::Linear { from: by * from, to: by * to, stops },
            Self::Radial { place, stops } => Self::Radial { place: by * place, stops },
        }
    }
}

/// One thing to be painted.
#[derive(Clone, Debug, PartialEq)]
pub enum Primitive {
    /// A filled path.
    Fill {
        /// Its outline.
        path: Arc<BezPath>,
        /// Its paint.
        paint: Paint,
    },
    /// A stroked path with round ends.
    Stroke {
        /// Its line.
        path: Arc<BezPath>,
        /// Its width, mm.
        width: f64,
        /// Its paint.
        paint: Paint,
    },
    /// A group.
    Group(Group),
}

/// Whose picture a group is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Key {
    /// Paper, wrist, cast shadow, band: what stands still.
    Ground,
    /// The stem of a boutonniere.
    Stem,
    /// The bow.
    Bow,
    /// A part of the piece.
    Part(PartId),
    /// Rulers, coins and heights over the picture.
    Annotations,
    /// Inside another group.
    Inner,
}

/// Items that move together.
#[derive(Clone, Debug, PartialEq)]
pub struct Group {
    /// Whose picture it is.
    pub key: Key,
    /// From its own frame to its parent's.
    pub transform: Affine,
    /// Its items, lowest first.
    pub items: Vec<Primitive>,
}

impl Group {
    /// A group without items.
    pub fn new(key: Key, transform: Affine) -> Self {
        Self { key, transform, items: Vec::new() }
    }

    /// Adds a filled path on top.
    pub fn fill(&mut self, path: BezPath, paint: Paint) {
        self.items.push(Primitive::Fill { path: Arc::new(path), paint });
    }

    /// Adds a stroked path on top.
    pub fn stroke(&mut self, path: BezPath, width: f64, paint: Paint) {
        self.items.push(Primitive::Stroke { path: Arc::new(path), width, paint });
    }

    /// Walks all paths, lowest first, each with its transform to the space of `at`.
    pub fn walk(&self, at: Affine, visit: &mut impl FnMut(&Primitive, Affine)) {
        let here = at * self.transform;
        for item in &self.items {
            match item {
                Primitive::Group(group) => group.walk(here, visit),
                Primitive::Fill { .. } | Primitive::Stroke { .. } => visit(item, here),
            }
        }
    }

    /// The box around all its paths in the space of `at`; `None` when there are none.
    pub fn bounds(&self, at: Affine) -> Option<Rect> {
        let mut all: Option<Rect> = None;
        self.walk(at, &mut |item, here| all = join(all, item.bounds(here)));
        all
    }

    /// The box around what has an edge: shadows and glows, which fade to nothing, are left out.
    pub fn edge_bounds(&self, at: Affine) -> Option<Rect> {
        let mut all: Option<Rect> = None;
        self.walk(at, &mut |item, here| {
            if !item.fades() {
                all = join(all, item.bounds(here));
            }
        });
        all
    }
}

impl Primitive {
    /// The box around it in the space of `at`; `None` when there is nothing in it.
    pub fn bounds(&self, at: Affine) -> Option<Rect> {
        match self {
            Self::Group(group) => group.bounds(at),
            Self::Fill { path, .. } => (!path.elements().is_empty()).then(|| bounds_of(path, at)),
            Self::Stroke { path, width, .. } => {
                let half = width * at.determinant().abs().sqrt() / 2.0;
                (!path.elements().is_empty()).then(|| bounds_of(path, at).inflate(half, half))
            }
        }
    }

    fn fades(&self) -> bool {
        match self {
            Self::Group(_) => false,
            Self::Fill { paint, .. } | Self::Stroke { paint, .. } => paint.fades(),
        }
    }
}

fn bounds_of(path: &BezPath, at: Affine) -> Rect {
    (at * path.clone()).bounding_box()
}

fn join(all: Option<Rect>, more: Option<Rect>) -> Option<Rect> {
    match (all, more) {
        (Some(a), Some(b)) => Some(a.union(b)),
        (a, b) => a.or(b),
    }
}

/// A whole picture.
#[derive(Clone, Debug, PartialEq)]
pub struct Scene {
    /// What of piece space it shows, mm.
    pub frame: Rect,
    /// Its groups, lowest first.
    pub groups: Vec<Group>,
}

/// From piece space to upright space: x up, y to the right, still millimetres.
pub fn upright() -> Affine {
    Affine::new([0.0, -1.0, 1.0, 0.0, 0.0, 0.0])
}
