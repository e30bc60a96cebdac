//! Sheets to PDF, by `krilla`. The only file that knows it.
//!
//! One scale at the start of each page, then everything, sizes of letters included, is millimetres. No date and no chance:
//! the same sheets give the same bytes.

use std::sync::LazyLock;

use krilla::color::rgb;
use krilla::geom as kg;
use krilla::image::Image;
use krilla::metadata::Metadata;
use krilla::num::NormalizedF32;
use krilla::page::PageSettings;
use krilla::paint as kp;
use krilla::surface::Surface;
use krilla::text as kt;
use kurbo::{Affine, BezPath, PathEl, Point, Rect, Shape as _};

use super::packed::packed;
use super::sheet::{Document, Mark, Pattern};
use super::words;
use crate::colour::Rgb;
use crate::export::ExportError;
use crate::export::caption::Caption;
use crate::export::lettering::{Face, Run};
use crate::scene::{Paint, Primitive, Scene, Stop, Tint, upright};

/// Points of a page to the millimetre: 72 to the inch (ISO 32000-1, 8.3.2.3), 25.4 mm to the inch.
const POINTS_PER_MM: f64 = 72.0 / 25.4;

/// The sheets as a PDF.
pub fn pdf_of(document: &Document) -> Result<Vec<u8>, ExportError> {
    let size_mm = document.paper.size_mm();
    let sheets: Vec<&[Mark]> = document.sheets.iter().map(|sheet| &sheet.marks[..]).collect();
    written(&document.title, size_mm, &sheets)
}

/// A picture alone as a PDF, on a page of its own size: it prints life-size; words below it, where there are any, can be
/// searched.
pub fn picture_pdf(scene: Scene, title: &str, below: Option<&str>) -> Result<Vec<u8>, ExportError> {
    let frame = scene.frame;
    // Upright, the frame's length is the height.
    let (wide, mut high) = (frame.height(), frame.width());
    let view = Affine::translate((-frame.y0, frame.x1)) * upright();
    let within = Rect::from_origin_size((0.0, 0.0), (wide, high));
    let mut marks = vec![Mark::Picture { groups: scene.groups, view, within }];
    if let Some(caption) = below.and_then(|words| Caption::below(frame, words)) {
        high = caption.strip.y1;
        let paint = Paint::Solid(Tint { rgb: Caption::PAPER, alpha: 1.0 });
        marks.push(Mark::Fill { path: caption.strip.to_path(0.1), paint });
        let words = |(run, at)| Mark::Words { run, at, size_mm: caption.size_mm, rgb: Caption::INK };
        marks.extend(caption.lines.into_iter().map(words));
    }
    written(title, (wide, high), &[&marks])
}

fn written(title: &str, (width, height): (f64, f64), sheets: &[&[Mark]]) -> Result<Vec<u8>, ExportError> {
    let refused = || ExportError::NotLaidOut { title: title.to_owned() };
    let mut pdf = krilla::Document::new();
    pdf.set_metadata(
        Metadata::new()
            .title(title.to_owned())
            .language(words::LANGUAGE.to_owned())
            .creator(words::MAKER.to_owned())
            .document_id(title.to_owned()),
    );
    for marks in sheets {
        let settings = PageSettings::from_wh(narrow(width * POINTS_PER_MM), narrow(height * POINTS_PER_MM));
        let mut page = pdf.start_page_with(settings.ok_or_else(refused)?);
        let mut surface = page.surface();
        surface.push_transform(&transform(Affine::scale(POINTS_PER_MM)));
        for mark in *marks {
            draw(&mut surface, mark);
        }
        surface.pop();
        surface.finish();
        page.finish();
    }
    pdf.finish().ok().map(packed).ok_or_else(refused)
}

fn draw(surface: &mut Surface<'_>, mark: &Mark) {
    match mark {
        Mark::Fill { path, paint } => fill(surface, path, paint),
        Mark::Line { path, width_mm, rgb, pattern } => {
            let dash = match pattern {
                Pattern::Whole => None,
                Pattern::Dashed(on, off) => {
                    Some(kp::StrokeDash { array: vec![narrow(*on), narrow(*off)], offset: 0.0 })
                }
            };
            let paint = kp::Paint::from(colour(*rgb));
            stroke(surface, path, kp::Stroke { paint, width: narrow(*width_mm), dash, ..kp::Stroke::default() });
        }
        Mark::Logo { logo, within } => {
            let image = Image::from_rgba8(logo.rgba().to_vec(), logo.width_px(), logo.height_px());
            let Some(size) = kg::Size::from_wh(narrow(within.width()), narrow(within.height())) else { return };
            surface.push_transform(&transform(Affine::translate(within.origin().to_vec2())));
            surface.draw_image(image, size);
            surface.pop();
        }
        Mark::Words { run, at, size_mm, rgb } => letters(surface, run, *at, *size_mm, *rgb),
        Mark::Picture { groups, view, within } => {
            let Some(clip) = path_of(&within.to_path(0.1)) else { return };
            surface.push_clip_path(&clip, &kp::FillRule::NonZero);
            surface.push_transform(&transform(*view));
            for group in groups {
                group.walk(Affine::IDENTITY, &mut |item, here| picture_item(surface, item, here, *within, *view));
            }
            surface.pop();
            surface.pop();
        }
    }
}

/// One item of a picture; what lies wholly outside the frame is not written.
fn picture_item(surface: &mut Surface<'_>, item: &Primitive, here: Affine, within: Rect, view: Affine) {
    let seen = item.bounds(view * here).filter(|b| b.is_finite() && b.overlaps(within));
    if seen.is_none() || !here.is_finite() {
        return;
    }
    surface.push_transform(&transform(here));
    match item {
        Primitive::Group(_) => {}
        Primitive::Fill { path, paint } => fill(surface, &rounded(path, view * here), paint),
        Primitive::Stroke { path, width, paint } => {
            let path = &rounded(path, view * here);
            let (paint, opacity) = painted(paint);
            let width = narrow(*width);
            let (line_cap, line_join) = (kp::LineCap::Round, kp::LineJoin::Round);
            stroke(surface, path, kp::Stroke { paint, opacity, width, line_cap, line_join, ..kp::Stroke::default() });
        }
    }
    surface.pop();
}

/// A path whose points are as exact as paper can show, and not more: each digit is a byte of the file.
fn rounded(path: &BezPath, to_paper: Affine) -> BezPath {
    /// Finer than any printer's dot, mm.
    const FINEST_MM: f64 = 0.002;
    /// Digits that single precision has; more say nothing.
    const MOST_DIGITS: f64 = 7.0;
    let scale = to_paper.determinant().abs().sqrt();
    let steps = 10_f64.powf((scale / FINEST_MM).log10().ceil().clamp(0.0, MOST_DIGITS));
    let near = |p: Point| Point::new((p.x * steps).round() / steps, (p.y * steps).round() / steps);
    let elements = path.elements().iter().map(|element| match *element {
        PathEl::MoveTo(p) => PathEl::MoveTo(near(p)),
        PathEl::LineTo(p) => PathEl::LineTo(near(p)),
        PathEl::QuadTo(a, p) => PathEl::QuadTo(near(a), near(p)),
        PathEl::CurveTo(a, b, p) => PathEl::CurveTo(near(a), near(b), near(p)),
        PathEl::ClosePath => PathEl::ClosePath,
    });
    elements.collect()
}

fn fill(surface: &mut Surface<'_>, path: &BezPath, paint: &Paint) {
    let (paint, opacity) = painted(paint);
    surface.set_stroke(None);
    surface.set_fill(Some(kp::Fill { paint, opacity, rule: kp::FillRule::NonZero }));
    if let Some(path) = path_of(path) {
        surface.draw_path(&path);
    }
}

fn stroke(surface: &mut Surface<'_>, path: &BezPath, stroke: kp::Stroke) {
    surface.set_fill(None);
    surface.set_stroke(Some(stroke));
    if let Some(path) = path_of(path) {
        surface.draw_path(&path);
    }
}

fn letters(surface: &mut Surface<'_>, run: &Run, at: Point, size_mm: f64, rgb: Rgb) {
    let Some(font) = font(run.face) else { return };
    let glyphs: Vec<kt::KrillaGlyph> = run
        .glyphs
        .iter()
        .map(|g| {
            let id = kt::GlyphId::new(g.id);
            kt::KrillaGlyph::new(id, narrow(g.advance), narrow(g.dx), narrow(g.dy), 0.0, g.bytes.clone(), None)
        })
        .collect();
    surface.set_stroke(None);
    let paint = kp::Paint::from(colour(rgb));
    surface.set_fill(Some(kp::Fill { paint, opacity: NormalizedF32::ONE, rule: kp::FillRule::NonZero }));
    let at = kg::Point::from_xy(narrow(at.x), narrow(at.y));
    surface.draw_glyphs(at, &glyphs, font, &run.text, narrow(size_mm), false);
}

/// The face as krilla wants it, read once for all papers.
fn font(face: Face) -> Option<kt::Font> {
    static FONTS: LazyLock<[Option<kt::Font>; 3]> =
        LazyLock::new(|| Face::ALL.map(|face| kt::Font::new(face.file().into(), 0)));
    let at = Face::ALL.iter().position(|f| *f == face)?;
    FONTS[at].clone()
}

/// A paint, and how solid it is as a whole.
fn painted(paint: &Paint) -> (kp::Paint, NormalizedF32) {
    match paint {
        Paint::Solid(tint) => (colour(tint.rgb).into(), share(tint.alpha)),
        Paint::Linear { from, to, stops } => {
            let gradient = kp::LinearGradient {
                x1: narrow(from.x),
                y1: narrow(from.y),
                x2: narrow(to.x),
                y2: narrow(to.y),
                transform: kg::Transform::identity(),
                spread_method: kp::SpreadMethod::Pad,
                stops: stops_of(stops),
                anti_alias: true,
            };
            (gradient.into(), NormalizedF32::ONE)
        }
        Paint::Radial { place, stops } => {
            let gradient = kp::RadialGradient {
                fx: 0.0,
                fy: 0.0,
                fr: 0.0,
                cx: 0.0,
                cy: 0.0,
                cr: 1.0,
                transform: transform(*place),
                spread_method: kp::SpreadMethod::Pad,
                stops: stops_of(stops),
                anti_alias: true,
            };
            (gradient.into(), NormalizedF32::ONE)
        }
    }
}

fn stops_of(stops: &[Stop]) -> Vec<kp::Stop> {
    stops
        .iter()
        .map(|s| kp::Stop { offset: share(s.at), color: colour(s.tint.rgb).into(), opacity: share(s.tint.alpha) })
        .collect()
}

fn colour(rgb: Rgb) -> rgb::Color {
    rgb::Color::new(rgb.r, rgb.g, rgb.b)
}

fn transform(affine: Affine) -> kg::Transform {
    let [a, b, c, d, e, f] = affine.as_coeffs().map(narrow);
    kg::Transform::from_row(a, b, c, d, e, f)
}

fn path_of(path: &BezPath) -> Option<kg::Path> {
    if !path.is_finite() {
        return None;
    }
    let mut builder = kg::PathBuilder::new();
    for element in path.elements() {
        match *element {
            PathEl::MoveTo(p) => builder.move_to(narrow(p.x), narrow(p.y)),
            PathEl::LineTo(p) => builder.line_to(narrow(p.x), narrow(p.y)),
            PathEl::QuadTo(a, p) => builder.quad_to(narrow(a.x), narrow(a.y), narrow(p.x), narrow(p.y)),
            PathEl::CurveTo(a, b, p) => {
                builder.cubic_to(narrow(a.x), narrow(a.y), narrow(b.x), narrow(b.y), narrow(p.x), narrow(p.y));
            }
            PathEl::ClosePath => builder.close(),
        }
    }
    builder.finish()
}

fn share(value: f64) -> NormalizedF32 {
    NormalizedF32::new(narrow(value).clamp(0.0, 1.0)).unwrap_or(NormalizedF32::ONE)
}

#[expect(clippy::cast_possible_truncation, reason = "PDF takes single precision, a millionth of a page is plenty")]
fn narrow(value: f64) -> f32 {
    value as f32
}
