//! The window: painting and input, nothing else. What a person does becomes an `Action`; actions run once a frame,
//! after everything is painted.
//!
//! Each file paints what a person sees in one place: the rail at the left, the strip on top, the trays along the bottom,
//! the side at the right, and the wrist sheet, which takes the rest.

mod action;
mod pages;
mod sheet;
mod shell;
#[cfg(test)]
mod tests;
mod widgets;
mod workers;

use std::path::{Path, PathBuf};
use std::sync::Arc;

use crate::app::shell::preload::Ahead;
use crate::app::shell::window::{Opened, Window};
use crate::app::workers::photo_worker::PhotoSource;
use crate::app::workers::worker::start_thread;

use crate::session::Session;
use crate::store::{LockState, OrderLock, Shop};

/// What to open the window on.
#[derive(Clone, Debug, Default)]
pub struct Opening {
    /// The file of an order.
    pub file: Option<PathBuf>,
    /// The shop's folder.
    pub shop: Option<PathBuf>,
    /// A photo of the dress, to be read.
    pub photo: Option<PathBuf>,
}

/// The name under which settings and the shop's folder are kept.
const APP_ID: &str = "posywright";

/// Opens the window and stays until it is closed. The failure says in a few words why there is none.
pub fn open(opening: &Opening) -> Result<(), String> {
    if !has_display() {
        return Err("there is no display".to_owned());
    }
    // Making a window takes longer than reading a shop.
    let photo = opening.photo.clone();
    let opening = opening.clone();
    let laid = start_thread("opening", move || lay_out(&opening, &own_folder()))
        .map_err(|why| format!("the computer has no thread to spare ({why})"))?;
    let options = eframe::NativeOptions {
        viewport: egui::ViewportBuilder::default()
            .with_title("Posywright")
            .with_app_id(APP_ID)
            .with_inner_size([1366.0, 740.0])
            .with_clamp_size_to_monitor_size(true)
            // Two thirds of what the pages need: below, all is shown smaller.
            .with_min_inner_size(shell::zoom::ROOM / 1.5),
        // Soft shadows come dithered enough from the drawing; without it software rendering has less to do.
        dithering: false,
        ..Default::default()
    };
    let made = eframe::run_native(
        APP_ID,
        options,
        Box::new(move |context| {
            let Ok(opened) = laid.join() else { return Err("the shop could not be read".into()) };
            let mut window = Window::new(context, opened);
            if let Some(photo) = photo {
                window.read_photo(&context.egui_ctx, PhotoSource::File(photo));
            }
            Ok(Box::new(window))
        }),
    );
    made.map_err(|why| format!("the display could not be used ({why})"))
}

fn has_display() -> bool {
    let named = |name: &str| std::env::var_os(name).is_some_and(|v| !v.is_empty());
    !cfg!(target_os = "linux") || named("DISPLAY") || named("WAYLAND_DISPLAY")
}

/// The shop and the order to begin with, and what is to be said about them. `own` is the folder that the computer gives
/// this program.
fn lay_out(opening: &Opening, own: &Path) -> Opened {
    let mut said = Vec::new();
    let shop = match (&opening.shop, &opening.file) {
        (Some(dir), _) => Shop::open(dir).map(Some),
        (None, Some(file)) => Ok(Some(Shop::of_file(file))),
        (None, None) => Shop::own(own),
    };
    let begin_in = matches!(shop, Ok(None)).then(|| own.to_owned());
    let shop = shop.unwrap_or_else(|refusal| {
        said.push(refusal.to_string());
        None
    });
    let shop = shop.unwrap_or_else(Shop::built_in);
    said.extend(shop.warnings().iter().cloned());
    let session = first_order(&shop, opening.file.clone(), &mut said);
    let ahead = Ahead::begin(&session);
    Opened { shop, session, said, begin_in, ahead }
}

/// The order asked for; else the one that is shown first in this shop, else a new one.
fn first_order(shop: &Shop, asked: Option<PathBuf>, said: &mut Vec<String>) -> Session {
    let (stock, style) = (Arc::clone(shop.stock()), Arc::clone(shop.style()));
    let first = asked.or_else(|| Some(shop.orders_folder().join(SHOWN_FIRST)).filter(|f| is_free(f)));
    match first {
        None => Session::fresh(stock, style),
        Some(file) => match Session::open(&file, Arc::clone(&stock), Arc::clone(&style)) {
            Ok((session, warnings)) => {
                said.extend(warnings);
                session
            }
            Err(refusal) => {
                said.push(refusal.to_string());
                Session::fresh(stock, style)
            }
        },
    }
}

/// The sample that a person sees first.
const SHOWN_FIRST: &str = "09-showpiece.ron";

/// Whether it is there and no other window shows it: a second window begins a new order.
fn is_free(file: &Path) -> bool {
    file.exists() && !matches!(OrderLock::try_acquire(file), LockState::HeldElsewhere)
}

fn own_folder() -> PathBuf {
    eframe::storage_dir(APP_ID).unwrap_or_else(|| PathBuf::from(".")).join("shop")
}
