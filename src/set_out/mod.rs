//! set_out
