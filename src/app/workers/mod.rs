//! What takes longer than a frame: one kind of worker, and what each does.

pub(crate) mod handover;
pub(crate) mod letterhead_worker;
pub(crate) mod page_worker;
pub(crate) mod paper_worker;
pub(crate) mod photo_worker;
pub(crate) mod photograph_worker;
pub(crate) mod picture_worker;
pub(crate) mod search_worker;
pub(crate) mod thumb_worker;
pub(crate) mod weekend_worker;
pub(crate) mod worker;
