//! The geometry floor against figures from elsewhere: other methods, other libraries, published tables.
//!
//! The figures are in `tests/reference/geometry/`, each file with its origin.

mod balance;
mod cover;
mod gaps;
mod outline;
mod overlap;
mod reference;
mod ribbon;
mod spacing;
mod wrap;
