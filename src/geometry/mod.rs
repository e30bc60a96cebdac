//! Plane geometry of a wrist piece in f64 millimetres. No word of flowers here: discs, lenses, ovals.
//!
//! The frame, said once for the whole house:
//!
//! ```text
//!            x  along the forearm, positive toward the elbow
//!            ^
//!            |        angles from +x toward +y
//!            |
//!     -------+-------> y  across the wrist
//!            |
//!            v  (toward the hand)
//! ```
//!
//! The origin is the centre of the piece. On screen and paper x points up and y to the right. A piece for the other
//! wrist is the mirror image (x, y) -> (x, -y).

mod shape;

pub use kurbo::{Point, Vec2};
pub use shape::{Disc, Lens, Oval, Shape};
