//! once_over
