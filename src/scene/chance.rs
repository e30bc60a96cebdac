//! Chance with a seed, so that the same bloom is drawn the same way in every outlet and on every day.

pub(super) use crate::units::chance::{Chance, seed_of};
