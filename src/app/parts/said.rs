//! Where a card stands that says something: on the sketch over its lower edge, between the buttons that lie there; on a page in a strip
//! of its own below it. It never lies on a button.

use egui::{Rect, Ui, pos2, vec2};

use crate::app::action::Notice;
use crate::app::context::Context;
use crate::app::widgets::theme::{GRID, MAIN_TARGET, TARGET, words};

/// On the button that closes a card with nothing else to do, and on the longest that closes one with an offer.
pub(crate) const DISMISS: &str = "Cancel";
/// On the one that leaves a crowded layout as it is.
pub(crate) const LEAVE_AS_IS: &str = "Leave as is";
/// Room about the words, points.
pub(crate) const MARGIN: f32 = 10.0;
/// Widest card, points: longer lines are hard to read.
const WIDEST: f32 = 620.0;
/// What the buttons in the lower corners of the sketch take, left and right; points.
const CORNERS: (f32, f32) = (226.0, 170.0);
/// What lies under the card on the sketch: the line of the ruler.
const UNDER: f32 = 44.0;

/// The words of the card that is shown; none while there is none.
pub(crate) fn words_said<'a>(cx: &Context<'a>) -> Option<&'a str> {
    match cx.notice? {
        Notice::Card { words, .. } => Some(words),
        Notice::Crowded { words, .. } => cx.shop.map(|_| words.as_str()),
        Notice::Done(_) => None,
    }
}

/// What stands on its buttons.
fn labels<'a>(cx: &Context<'a>) -> Vec<&'a str> {
    match cx.notice {
        Some(Notice::Card { offer, .. }) => offer.iter().map(|(label, _)| label.as_str()).chain([DISMISS]).collect(),
        Some(Notice::Crowded { ways, .. }) => ways.iter().map(|way| way.label.as_str()).chain([LEAVE_AS_IS]).collect(),
        Some(Notice::Done(_)) | None => Vec::new(),
    }
}

/// How high the card is when it is so wide, points: its words and the rows of its buttons.
pub(crate) fn height(ui: &Ui, cx: &Context<'_>, wide: f32) -> f32 {
    let inside = (wide - 2.0 * MARGIN).max(TARGET);
    let size_of =
        |text: &str| ui.painter().layout(text.to_owned(), words(16.0), egui::Color32::PLACEHOLDER, inside).size();
    let (mut n_rows, mut x) = (1, 0.0);
    for label in labels(cx) {
        // As wide as a button is made for its words, and the space after it.
        let button = size_of(label).x + 26.0 + GRID;
        if x > 0.0 && x + button > inside {
            (n_rows, x) = (n_rows + 1, 0.0);
        }
        x += button;
    }
    let said = words_said(cx).map_or(0.0, |said| size_of(said).y);
    said + n_rows as f32 * (MAIN_TARGET + GRID) + 2.0 * MARGIN
}

/// The card's place on the sketch.
pub(crate) fn place_on_sketch(ui: &Ui, cx: &Context<'_>, sheet: Rect) -> Rect {
    let (left, right) = (sheet.min.x + CORNERS.0, sheet.max.x - CORNERS.1);
    let wide = (right - left).min(WIDEST).max(260.0_f32.min(sheet.width()));
    let x = (left.midpoint(right) - wide / 2.0).max(sheet.min.x);
    let foot = sheet.max.y - UNDER;
    let top = foot - height(ui, cx, wide);
    Rect::from_min_max(pos2(x, top), pos2(x + wide, foot))
}

/// What is left of the sketch for what may not lie under the card.
pub(crate) fn free_of_card(ui: &Ui, cx: &Context<'_>, sheet: Rect) -> Rect {
    match words_said(cx) {
        Some(_) => Rect::from_min_max(sheet.min, pos2(sheet.max.x, place_on_sketch(ui, cx, sheet).min.y)),
        None => sheet,
    }
}

/// The room inside the strip of a page.
pub(crate) fn inside(strip: Rect) -> Rect {
    strip.shrink2(vec2(MARGIN, MARGIN))
}
