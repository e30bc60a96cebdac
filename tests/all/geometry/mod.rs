//! The geometry floor against figures from elsewhere: other methods, other libraries, published tables.
//!
//! The figures are in `tests/reference/geometry/`, each file with its origin.

mod any_numbers;
mod balance;
mod cover;
mod gaps;
mod laws;
mod made_up;
mod near_touching;
mod outline;
mod overlap;
mod reference;
mod ribbon;
mod spacing;
mod wrap;
