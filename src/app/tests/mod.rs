//! The window without a screen.
