//! Pictures on the screen: the textures of the wrist sheet, of boards and of heads, and what is pencilled over them.

pub(crate) mod boards;
pub(crate) mod canvas;
pub(crate) mod colour_vision;
pub(crate) mod heads;
pub(crate) mod images;
pub(crate) mod pencil;
pub(crate) mod thumbs;
