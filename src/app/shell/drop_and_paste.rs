//! What is dropped on the window or pasted: a photo, an order, a price list, or a colour in words.

use std::path::Path;
use std::sync::Arc;

use crate::app::action::{Action, StockRequest};
use crate::app::dialogs::Dialog;
use crate::app::page_list::PageId;
use crate::app::shell::window::Window;
use crate::app::workers::photo_worker::PhotoSource;
use crate::book::{Change, DressColour};
use crate::colour::{Rgb, swatch_named};

impl Window {
    /// Before each frame.
    pub(crate) fn handle_drop_and_paste(&mut self, ctx: &egui::Context) {
        if self.dialog != Dialog::None {
            return;
        }
        let dropped = ctx.input(|i| i.raw.dropped_files.first().map(|file| file.path().to_owned()));
        let is_order = |path: &Path| path.extension().is_some_and(|e| e.eq_ignore_ascii_case("ron"));
        match dropped {
            // Other orders are not for this client's eyes.
            Some(path) if is_order(&path) && self.is_client_view => {}
            Some(path) if is_order(&path) => self.run(ctx, Action::Open(path)),
            Some(path) if self.page == PageId::Shop => self.take_logo(path),
            Some(path) if is_price_list(&path) && self.is_client_view => {}
            Some(path) if is_price_list(&path) => self.run_of_stock(ctx, StockRequest::ReadPrices(path)),
            Some(path) => self.read_photo(ctx, PhotoSource::File(path)),
            None => {}
        }
        let typing = ctx.text_edit_focused();
        let pasted = ctx.input(|i| i.events.iter().find_map(pasted_in));
        match pasted {
            Some(Pasted::Photo(image)) => self.read_photo(ctx, PhotoSource::Pasted(image)),
            Some(Pasted::Words(words)) if self.page == PageId::Colour && !typing => self.take_pasted(ctx, &words),
            Some(Pasted::Words(_)) | None => {}
        }
    }

    /// Words that were pasted beside any field: a colour, or where a photo lies.
    fn take_pasted(&mut self, ctx: &egui::Context, words: &str) {
        let words = words.trim();
        let dress =
            |rgb, words: &str| Action::change(Change::Dress(DressColour { hex: Some(rgb), words: words.to_owned() }));
        if let Some(rgb) = Rgb::parse(words) {
            self.run(ctx, dress(rgb, ""));
        } else if let Some(plain) = swatch_named(words) {
            self.run(ctx, dress(plain.rgb, plain.name));
        } else if let Some(path) = words.strip_prefix("file://").or_else(|| words.starts_with('/').then_some(words)) {
            self.read_photo(ctx, PhotoSource::File(path.into()));
        }
    }
}

/// Whether a file is a table, by its ending.
fn is_price_list(path: &Path) -> bool {
    path.extension().is_some_and(|e| ["csv", "tsv", "txt"].iter().any(|known| e.eq_ignore_ascii_case(known)))
}

/// What may be pasted beside a field.
enum Pasted {
    Photo(Arc<egui::ColorImage>),
    Words(String),
}

fn pasted_in(event: &egui::Event) -> Option<Pasted> {
    match event {
        egui::Event::PasteImage(image) => Some(Pasted::Photo(Arc::clone(image))),
        egui::Event::Paste(words) => Some(Pasted::Words(words.clone())),
        _ => None,
    }
}
