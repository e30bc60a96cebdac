//! A piece in the round: flowers, leaves, ribbon, band and the arm that wears it, as surfaces that light falls on.
//!
//! The space is that of [`crate::light`]: x across the wrist (y of the piece), y toward the elbow (x of the piece), z away from the arm;
//! the origin lies on the base in the middle of the piece.

#![expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "surfaces are in f32, far finer than a hair; counts are small and bounded where they are made"
)]

pub mod arm;
pub mod band;
mod bloom;
pub mod cloth;
mod curve;
pub mod lapel;
mod luck;
mod petal;
mod placing;
pub mod ribbon;
mod shot;
mod solid;
mod tone;

pub use bloom::{Look, bloom};
pub use shot::{Detail, Shot, Viewpoint};
use tone::linear as share_of_light;
