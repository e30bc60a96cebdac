//! The commands about colours: what in stock is like a dress, and what colour a dress in a photo has.

use std::ffi::{OsStr, OsString};
use std::ops::ControlFlow;
use std::path::Path;
use std::sync::Arc;

use super::cli_error::CliError;
use super::loaded_order::json_text;
use crate::colour::{Photo, PhotoRegion, Rgb, USUAL_LIGHT, main_colours, read_region, swatch_named};
use crate::export::{dress_json, dress_text, match_json, match_text};
use crate::paperwork::colour_match;
use crate::store::{Shop, read_photo, stock_of_file};

/// Main colours of a photo that are named.
const MAIN_COLOURS: usize = 5;

pub(super) fn match_colour(
    dress: Rgb,
    stock: Option<&Path>,
    shop: Option<&Path>,
    json: bool,
) -> Result<(String, Vec<String>), CliError> {
    let shop = match shop {
        Some(dir) => Shop::open(dir)?,
        None => Shop::built_in(),
    };
    let stock = match stock {
        Some(file) => Arc::new(stock_of_file(file, shop.stock())?),
        None => Arc::clone(shop.stock()),
    };
    let rows = colour_match(dress, &stock);
    let text = if json { json_text(&match_json(dress, &rows)) } else { match_text(dress, &rows) };
    Ok((text, shop.warnings().to_vec()))
}

pub(super) fn dress_colour(file: &Path, at: Option<(u32, u32)>, json: bool) -> Result<(String, Vec<String>), CliError> {
    let photo = read_photo(file, &mut |_| ControlFlow::Continue(()))?;
    let photo = photo.ok_or_else(|| {
        CliError::Failed(format!(
            "Not opened: \u{201c}{}\u{201d}. It has no pixels. Choose another photo.",
            file.display()
        ))
    })?;
    let (x, y) = at.unwrap_or((photo.width() / 2, photo.height() / 2));
    let fabric = PhotoRegion::fabric(&photo, x, y);
    let reading =
        read_region(&photo, &fabric, USUAL_LIGHT, None).ok_or_else(|| CliError::Failed(outside(&photo, x, y)))?;
    let main = main_colours(&photo, &PhotoRegion::whole(&photo), MAIN_COLOURS);
    let share = fabric.share(&photo);
    let text = if json {
        json_text(&dress_json(&photo, (x, y), share, &reading, &main))
    } else {
        dress_text(&photo, (x, y), share, &reading, &main)
    };
    Ok((text, Vec::new()))
}

fn outside(photo: &Photo, x: u32, y: u32) -> String {
    let (width, height) = (photo.width(), photo.height());
    format!("Nothing at {x},{y}: the photo is {width} by {height} pixels. Choose a place inside it.")
}

/// The one colour that was typed: hex, or the name of a swatch in one word or more.
pub(super) fn colour_typed(words: &[OsString]) -> Result<Rgb, String> {
    const EXAMPLE: &str = "Write it as '#8b1427', or as the name of a swatch: navy.";
    let typed: Vec<String> = words.iter().map(|w| w.to_string_lossy().into_owned()).collect();
    let typed = typed.join(" ");
    if typed.trim().is_empty() {
        return Err(format!("match needs a colour. {EXAMPLE}"));
    }
    let read = Rgb::parse(&typed).or_else(|| swatch_named(&typed).map(|s| s.rgb));
    read.ok_or_else(|| format!("\u{201c}{typed}\u{201d} is not a colour. {EXAMPLE}"))
}

/// A place typed as `620,900`.
pub(super) fn place_typed(typed: Option<&OsStr>) -> Result<(u32, u32), String> {
    let read = typed.and_then(OsStr::to_str).and_then(|text| text.split_once(','));
    let place = read.and_then(|(x, y)| Some((x.trim().parse().ok()?, y.trim().parse().ok()?)));
    place.ok_or_else(|| "--at needs two whole numbers, pixels from the left and the top: --at 620,900.".to_owned())
}
