//! The window: painting and input, nothing else. What a person does becomes an `Action`; actions are carried out once a
//! frame, after everything is painted.
//!
//! Rooms, each of which knows only those before it:
//!
//! | room | holds |
//! |---|---|
//! | `widgets` | colours, buttons, icons, words: no order and no page |
//! | `workers` | what takes longer than a frame |
//! | `typing` | fields, and what is typed that is not part of the order yet |
//! | `view` | what may be seen of an order: by the client, by the designer |
//! | `picture` | textures, and what is pencilled over them |
//! | `page_list`, `view_options`, `action`, `context` | the pages there are; what can be asked for; what a page reads |
//! | `parts` | what more than one page is made of |
//! | `sheet`, `pages`, `dialogs` | the wrist sheet; a folder for each page; what lies over them |
//! | `preload`, `opening` | what is drawn before there is a window; what it opens on |
//! | `shell` | the window itself, and the one place where actions are carried out |

mod action;
mod context;
mod dialogs;
mod opening;
mod page_list;
mod pages;
mod parts;
mod picture;
mod preload;
mod sheet;
mod shell;
#[cfg(test)]
mod tests;
mod typing;
mod view;
mod view_options;
mod widgets;
mod workers;

pub use crate::app::opening::Opening;

use crate::app::opening::{APP_ID, lay_out, own_folder};
use crate::app::shell::window::Window;
use crate::app::workers::photo_worker::PhotoSource;
use crate::app::workers::worker::start_thread;

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
