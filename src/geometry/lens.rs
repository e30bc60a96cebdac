//! A lens made ready to be asked many times: its frame and its discs worked out once.
//!
//! Knows one lens in its own frame, axis along u, folded to one quarter; mm. Does not know other shapes.

use kurbo::{Point, Vec2};

use super::Lens;

/// A lens with what every question about it needs.
#[derive(Clone, Copy, Debug)]
pub(super) struct LensFrame {
    centre: Point,
    axis: Vec2,
    half_length: f64,
    /// Radius of its two discs.
    radius: f64,
    /// How far their centres lie from the lens's own.
    offset: f64,
}

impl LensFrame {
    pub(super) fn of(lens: &Lens) -> Self {
        let width = lens.width.min(lens.length);
        let radius = (lens.length * lens.length + width * width) / (4.0 * width);
        Self {
            centre: lens.centre,
            axis: Vec2::from_angle(lens.turn),
            half_length: lens.length / 2.0,
            radius,
            offset: radius - width / 2.0,
        }
    }

    /// How far `p` lies from the outline, positive outside; and the direction in which that grows fastest.
    pub(super) fn nearest(&self, p: Point) -> (f64, Vec2) {
        let across = Vec2::new(-self.axis.y, self.axis.x);
        let away = p - self.centre;
        let (along, aside) = (away.dot(self.axis), away.dot(across));
        let (from, short) = self.folded(along.abs(), aside.abs());
        let length = from.hypot2().sqrt();
        let local = direction(from, length);
        // Away from a tip the direction may point inward along the axis, so signs are multiplied, not copied.
        let grows = self.axis * (local.x * 1f64.copysign(along)) + across * (local.y * 1f64.copysign(aside));
        (length - short, grows)
    }

    /// The distance alone.
    #[inline]
    pub(super) fn distance(&self, p: Point) -> f64 {
        let away = p - self.centre;
        let (from, short) = self.folded(away.dot(self.axis).abs(), self.axis.cross(away).abs());
        // Not by `hypot`: nothing here is so large or so small that a square would lose it.
        from.hypot2().sqrt() - short
    }

    /// How far it reaches from its centre in a direction given by its (folded) parts along the axis and across it.
    pub(super) fn support(&self, along: f64, across: f64) -> f64 {
        // The arc's normals lie within the directions from its centre to the tips.
        if along * self.offset <= self.half_length * across {
            self.radius - self.offset * across
        } else {
            self.half_length * along
        }
    }

    /// The way from the centre of the arc, where that is nearest, or from the tip; and how much of it lies inside.
    fn folded(&self, u: f64, v: f64) -> (Vec2, f64) {
        let to_arc = u * self.offset <= self.half_length * (v + self.offset);
        // Chosen value by value: the processor then need not guess which way it goes.
        let back = if to_arc { 0.0 } else { self.half_length };
        let aside = if to_arc { self.offset } else { 0.0 };
        let short = if to_arc { self.radius } else { 0.0 };
        (Vec2::new(u - back, v + aside), short)
    }
}

/// `away` made one long; some direction if it has none.
pub(super) fn direction(away: Vec2, length: f64) -> Vec2 {
    if length > 0.0 { away / length } else { Vec2::new(1.0, 0.0) }
}
