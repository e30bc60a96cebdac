//! What takes longer than a frame, on threads of its own.

pub(crate) mod easel;
pub(crate) mod photo_reader;
pub(crate) mod searcher;
