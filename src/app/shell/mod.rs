//! The shell: the window's state and frame, what stands round the page, files, and the one place where actions are carried
//! out.

pub(crate) mod autosave;
pub(crate) mod client_window;
pub(crate) mod drop_and_paste;
pub(crate) mod file_dialogs;
pub(crate) mod files;
pub(crate) mod held_back;
pub(crate) mod input_queue;
pub(crate) mod keys;
pub(crate) mod notice;
pub(crate) mod options_panel;
pub(crate) mod order_list;
pub(crate) mod paper_files;
pub(crate) mod rail;
pub(crate) mod recovery;
pub(crate) mod run;
pub(crate) mod run_month;
pub(crate) mod run_typing;
pub(crate) mod shop_details;
pub(crate) mod shop_files;
pub(crate) mod side_panel;
mod stock;
pub(crate) mod style_files;
pub(crate) mod top_bar;
pub(crate) mod window;
pub(crate) mod zoom;
