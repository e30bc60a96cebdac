//! session
