//! The shell: the window's state and frame, what stands round the page, dialogs, and the one place where commands are done.

pub(crate) mod autosave;
pub(crate) mod client_window;
pub(crate) mod dialogs;
pub(crate) mod files;
pub(crate) mod first_start;
pub(crate) mod input_queue;
pub(crate) mod keys;
pub(crate) mod notice;
pub(crate) mod papers;
pub(crate) mod preload;
pub(crate) mod quote_slip;
pub(crate) mod rail;
pub(crate) mod recovered;
pub(crate) mod run;
pub(crate) mod shared_stems;
pub(crate) mod shop_files;
pub(crate) mod side_panel;
pub(crate) mod top_bar;
pub(crate) mod view_options;
pub(crate) mod window;
pub(crate) mod zoom;
