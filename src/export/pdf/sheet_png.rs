//! Sheets to pixels: the marks that the PDF is written from, drawn on white. No second layout.

use std::ops::Range;
use std::sync::Arc;

use kurbo::{Affine, BezPath, Cap, Join, Rect, Stroke, StrokeOpts};

use super::sheet::{Document, Mark, PaperSheet, Pattern};
use crate::book::Logo;
use crate::export::pixels::{Finish, Pixels, raster};
use crate::export::png_file::encoded;
use crate::scene::{Group, Key, Paint, Primitive, Tint};
use crate::units::ceil_u32;

/// Millimetres in an inch and in a metre.
const MM_PER_INCH: f64 = 25.4;
const MM_PER_METRE: f64 = 1000.0;
/// How finely lines are cut, mm.
const TOLERANCE_MM: f64 = 0.01;

/// Each sheet as a PNG with so many pixels to the inch, white paper included.
pub fn pngs_of(document: &Document, dpi: u32) -> Vec<Vec<u8>> {
    let scale = f64::from(dpi) / MM_PER_INCH;
    let size_mm = document.paper.size_mm();
    let of = |sheet| encoded(&sheet_pixels(size_mm, sheet, scale), scale * MM_PER_METRE).unwrap_or_default();
    document.sheets.iter().map(of).collect()
}

/// One sheet, counted from 0, so many pixels wide; none where there is no such sheet.
pub fn page_picture(document: &Document, sheet: usize, width_px: u32) -> Option<Pixels> {
    let size_mm = document.paper.size_mm();
    let scale = f64::from(width_px) / size_mm.0;
    document.sheets.get(sheet).map(|sheet| sheet_pixels(size_mm, sheet, scale))
}

/// The top of a document's first sheet, down to so many millimetres, at so many pixels to the millimetre.
pub(super) fn top_of(document: &Document, high_mm: f64, scale: f64) -> Pixels {
    let (width, height) = document.paper.size_mm();
    let blank = PaperSheet::default();
    sheet_pixels((width, high_mm.clamp(1.0, height)), document.sheets.first().unwrap_or(&blank), scale)
}

/// The sheet at so many pixels to the millimetre. Pictures lie between what was drawn before and after them.
fn sheet_pixels((width, height): (f64, f64), sheet: &PaperSheet, scale: f64) -> Pixels {
    let (width, height) = (ceil_u32((width * scale).round()), ceil_u32((height * scale).round()));
    let mut page = Pixels { width, height, rgba: vec![u8::MAX; width as usize * height as usize * 4] };
    let mut drawn = Group::new(Key::Inner, Affine::IDENTITY);
    for mark in &sheet.marks {
        match mark {
            Mark::Picture { groups, view, within } => {
                paint(&mut page, &std::mem::replace(&mut drawn, Group::new(Key::Inner, Affine::IDENTITY)), scale);
                picture(&mut page, groups, Affine::scale(scale) * *view, *within, scale);
            }
            Mark::Logo { logo, within } => {
                paint(&mut page, &std::mem::replace(&mut drawn, Group::new(Key::Inner, Affine::IDENTITY)), scale);
                self::logo(&mut page, logo, *within, scale);
            }
            Mark::Fill { path, paint } => drawn.fill(path.clone(), paint.clone()),
            Mark::Line { path, width_mm, rgb, pattern } => {
                drawn.fill(outline_of(path, *width_mm, *pattern), Paint::Solid(Tint { rgb: *rgb, alpha: 1.0 }));
            }
            Mark::Words { run, at, size_mm, rgb } => {
                let path = Affine::translate(at.to_vec2()) * run.outline(*size_mm);
                let paint = Paint::Solid(Tint { rgb: *rgb, alpha: 1.0 });
                drawn.items.push(Primitive::Fill { path: Arc::new(path), paint });
            }
        }
    }
    paint(&mut page, &drawn, scale);
    page
}

/// A line as the PDF draws it: with flat ends.
fn outline_of(path: &BezPath, width_mm: f64, pattern: Pattern) -> BezPath {
    let stroke = Stroke::new(width_mm).with_caps(Cap::Butt).with_join(Join::Miter);
    let stroke = match pattern {
        Pattern::Whole => stroke,
        Pattern::Dashed(on, off) => stroke.with_dashes(0.0, [on, off]),
    };
    kurbo::stroke(path.iter(), &stroke, &StrokeOpts::default(), TOLERANCE_MM)
}

/// Lays what was drawn over the whole page.
fn paint(page: &mut Pixels, drawn: &Group, scale: f64) {
    if !drawn.items.is_empty() {
        let over = raster(&[drawn], Affine::scale(scale), page.width, page.height, Finish::Fine);
        cover(page, &over, 0, 0);
    }
}

/// Draws a picture into its box, whose edges are taken out to whole pixels.
fn picture(page: &mut Pixels, groups: &[Group], view: Affine, within: Rect, scale: f64) {
    let whole = |mm: f64| crate::units::floor_u32((mm * scale).max(0.0));
    let (x, y) = (whole(within.x0), whole(within.y0));
    let width = ceil_u32(within.x1 * scale).min(page.width).saturating_sub(x);
    let height = ceil_u32(within.y1 * scale).min(page.height).saturating_sub(y);
    let view = Affine::translate((-f64::from(x), -f64::from(y))) * view;
    let groups: Vec<&Group> = groups.iter().collect();
    cover(page, &raster(&groups, view, width, height, Finish::Fine), x, y);
}

/// Draws a logo into its box: each pixel of the page is the mean of those of the logo that it covers.
fn logo(page: &mut Pixels, logo: &Logo, within: Rect, scale: f64) {
    let whole = |mm: f64| crate::units::floor_u32((mm * scale).round().max(0.0));
    let (width, height) = (whole(within.width()).max(1), whole(within.height()).max(1));
    let source = |at: u32, n: u32, of: u32| {
        let edge = |at: u32| u64::from(at) * u64::from(of) / u64::from(n);
        let from = u32::try_from(edge(at)).unwrap_or(0).min(of - 1);
        from..u32::try_from(edge(at + 1)).unwrap_or(of).clamp(from + 1, of)
    };
    let mut rgba = Vec::with_capacity(width as usize * height as usize * 4);
    for y in 0..height {
        for x in 0..width {
            rgba.extend(mean(logo, source(x, width, logo.width_px()), source(y, height, logo.height_px())));
        }
    }
    cover(page, &Pixels { width, height, rgba }, whole(within.x0), whole(within.y0));
}

/// The mean of some pixels of a logo, premultiplied.
fn mean(logo: &Logo, columns: Range<u32>, rows: Range<u32>) -> [u8; 4] {
    let (mut sums, mut n) = ([0_u64; 4], 0_u64);
    for y in rows {
        for x in columns.clone() {
            let at = (y as usize * logo.width_px() as usize + x as usize) * 4;
            let Some([r, g, b, a]) = logo.rgba().get(at..at + 4) else { continue };
            let solid = u64::from(*a);
            for (sum, channel) in sums.iter_mut().zip([r, g, b]) {
                *sum += u64::from(*channel) * solid;
            }
            sums[3] += solid * 255;
            n += 255;
        }
    }
    sums.map(|sum| u8::try_from((sum + n / 2).checked_div(n).unwrap_or(0)).unwrap_or(u8::MAX))
}

/// Lays pixels over the page, their upper left corner at a column and a row of it. Colours are premultiplied.
fn cover(page: &mut Pixels, over: &Pixels, x: u32, y: u32) {
    let wide = over.width as usize * 4;
    if wide == 0 {
        return;
    }
    for (row, above) in over.rgba.chunks_exact(wide).enumerate() {
        let from = ((y as usize + row) * page.width as usize + x as usize) * 4;
        let Some(below) = page.rgba.get_mut(from..from + wide) else { return };
        for (under, pixel) in below.chunks_exact_mut(4).zip(above.chunks_exact(4)) {
            let left = u32::from(u8::MAX - pixel[3]);
            for (channel, new) in under.iter_mut().zip(pixel) {
                let kept = (u32::from(*channel) * left + 127) / 255;
                *channel = u8::try_from(kept + u32::from(*new)).unwrap_or(u8::MAX);
            }
        }
    }
}
