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
//!
//! Nothing here panics, whatever the numbers: what is not finite or has no size is left out.

mod balance;
mod best_spread;
mod bodies;
mod cover;
mod crossing;
mod gaps;
mod hull;
mod layers;
mod lens;
mod neighbours;
mod nudge;
mod outline;
mod oval;
mod oval_crossing;
mod overlap;
mod polygon;
mod region;
mod ribbon;
mod shape;
mod spacing;
mod spans;
mod stack;
mod wrap;

pub use balance::{
    Asymmetry, TwoSided, Weighted, asymmetry, centre_of_seen_weight, centre_of_weight, moments_about_axis, two_sided,
    weight_offset,
};
pub use best_spread::best_spread;
pub use cover::{covered, covered_mixed};
pub use gaps::{Gap, GapSearch, gaps};
pub use hull::hull;
pub use kurbo::{Point, Vec2};
pub use layers::Layers;
pub use outline::{BoxFill, Outline, box_fill, extents, outline, outline_around};
pub use overlap::{Overlap, depth, hidden_share, hidden_shares, lens_area, overlaps, visible};
pub use polygon::ConvexPolygon;
pub use region::Region;
pub use ribbon::{
    CentreLoop, RibbonLength, RibbonWork, fan_angles, loop_arc, loop_curve, loop_directions, loop_outline,
};
pub use shape::{Disc, Lens, Oval, Shape};
pub use spacing::{
    AngularGap, angular_evenness, angular_gaps, evenness, evenness_and_spread, evenness_of_gaps, spread,
};
pub use stack::{Give, Meeting, Stack, Stacked, clashes, meeting, stack, stack_with_clashes};
pub use wrap::{RoundHead, Seen, WristSection};
