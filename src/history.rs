//! history
