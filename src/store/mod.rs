//! The shop folder: reading and writing every file. The only floor that knows serde, and the only one that opens files.
//!
//! Files are RON, one order to a file, with a version first. The file types are this floor's own, so that the types of
//! the floors below may change without changing what lies on disk. Reading never panics: whatever a file holds, the
//! answer is a value or a [`StoreError`] in plain words. Writing happens completely or leaves the last version.

mod about_lines;
mod avoid_file;
mod bow_lines;
mod charge_lines;
mod day_line;
mod figures;
mod girth;
mod keywords;
mod kind_line;
mod last_orders;
mod locks;
mod log_file;
mod logo;
mod nearest;
mod need_lines;
mod order_file;
mod order_index;
mod order_row;
mod panic_hook;
mod paper_folder;
mod photo;
mod photo_fault;
mod photo_profile;
mod piece_lines;
mod places;
mod price_file;
mod price_lines;
mod reading;
mod recovery;
pub mod samples;
mod saving;
mod shop;
mod shop_details;
mod shop_saving;
mod shop_stock;
mod shop_styles;
mod stock_file;
mod stock_lines;
mod store_error;
mod style_file;
mod suppliers_file;
mod thread_guard;
mod told_line;
mod wishes_line;
mod wrist_line;
mod writing;

pub use avoid_file::built_in_avoid_list;
pub use last_orders::LastOrders;
pub use locks::{LockState, OrderLock};
pub use log_file::start_log;
pub use logo::read_logo;
pub use order_file::{SavedOrder, order_from_text, order_to_text, read_order, save_order};
pub use order_index::{OrderIndex, RepeatedNumber};
pub use order_row::{OrderRow, SearchWords};
pub use panic_hook::install_panic_hook;
pub use photo::{read_photo, read_photo_bytes};
pub use photo_fault::PhotoFault;
pub use places::write_bytes;
pub use price_file::{price_table, read_price_list};
pub use recovery::{LeftOver, Recovery, left_over};
pub use saving::FileStamp;
pub use shop::{OrderEntry, Shop, make_folder};
pub use shop_details::{ShopDetails, ShopMoney};
pub use shop_stock::{StockOnDisk, StockToSave, holds_any};
pub use stock_file::{built_in_stock, stock_from_text, stock_of_file, stock_to_text};
pub use store_error::{Cause, FileLine, StoreError};
pub use style_file::{built_in_style, built_in_styles, save_style, style_from_text, style_to_text};
pub use suppliers_file::suppliers_from_text;
#[cfg(all(test, feature = "gui"))]
pub(crate) use thread_guard::NoFilesHere;
