//! The template at 1:1: outlines to lay the piece out on, every part numbered against the bill of materials.
//!
//! Larger pieces go over several sheets. Printed at 100 % one millimetre is one millimetre; a bar of 100 mm is there to check it. No fills: it takes no ink.

use kurbo::{Affine, Arc, BezPath, Circle, Ellipse, Point, Rect, Shape as _, Vec2};

use super::column::{Column, LEADING, RISE, whole_name};
use super::picture::{Tails, reach};
use super::sheet::{Align, Document, HAIR, INK, PaperSheet, Pattern, SOFT};
use super::tiles::Tiles;
use super::words;
use crate::colour::Rgb;
use crate::export::lettering::{Face, Run};
use crate::export::paper_kind::{PaperJob, PaperKind, PaperReader, to_print};
use crate::geometry::{Lens, Shape, loop_curve};
use crate::paperwork::{BillLine, bill_of_materials, line_of};
use crate::piece::{Level, STEM_MM, STEM_WIDTH_MM, Side, Worn};
use crate::scene::upright;

/// Length of the bar that is measured before the template is trusted, mm.
pub const CHECK_BAR_MM: f64 = 100.0;

/// Sizes, mm.
const NAME_MM: f64 = 8.0;
const WORDS_MM: f64 = 3.8;
const NUMBER_MM: f64 = 3.6;
/// Thickness of the check bar, mm.
const BAR_MM: f64 = 0.8;
/// How finely curves are cut, mm: far below a printer's dot.
const TOLERANCE_MM: f64 = 0.005;
/// How far the cross reaches beyond the oval, mm.
const BEYOND_MM: f64 = 8.0;
/// White paper between a number and the lines around it.
const PAPER_WHITE: Rgb = Rgb::hex(0xffffff);

/// The template among the papers.
pub(in crate::export) static TEMPLATE: PaperKind = PaperKind {
    id: "template",
    title: "Template 1:1",
    reader: PaperReader::Bench,
    endings: &["pdf"],
    is_for_each_piece: true,
    missing: "",
    make: |job| to_print(template(job)),
};

/// The template of an order.
pub fn template(job: &PaperJob<'_>) -> Document {
    let mut column = Column::new(words::title(TEMPLATE.title, job.order), job.paper);
    head(&mut column, job);
    check_bar(&mut column);
    let reach = reach(job, Tails::Left);
    let inside = column.inside();
    let bill: Vec<BillLine> =
        bill_of_materials(&job.order.piece, job.stems, job.stock).into_iter().filter(|l| l.role.is_some()).collect();
    // Upright, what reaches toward the elbow reaches up.
    let room = Rect::new(inside.x0, column.y, inside.x1, inside.y1);
    if reach.height() <= room.width() && reach.width() <= room.height() {
        on_one_sheet(&mut column, job, reach, room, &bill);
    } else {
        over_sheets(&mut column, job, reach, &bill);
    }
    column.into_document()
}

/// The drawing in the middle of what is left of the sheet, the key below it.
fn on_one_sheet(column: &mut Column, job: &PaperJob<'_>, reach: Rect, room: Rect, bill: &[BillLine]) {
    let below = (bill.len().div_ceil(2) as f64 + 2.0) * WORDS_MM * LEADING + 4.0;
    let spare = (room.height() - below - reach.width()).max(0.0) / 2.0;
    let across = room.center().x - f64::midpoint(reach.y0, reach.y1);
    let centre = Point::new(across, room.y0 + spare + reach.x1);
    drawing(column.sheet(), job, Affine::translate(centre.to_vec2()) * upright());
    column.y = centre.y - reach.x0 + 2.0;
    key(column, job, bill);
}

/// The key and a plan first, then the drawing sheet by sheet; where even many sheets do not hold it, its middle alone.
fn over_sheets(column: &mut Column, job: &PaperJob<'_>, reach: Rect, bill: &[BillLine]) {
    let unit = words::unit(job.order);
    let upright_reach = Rect::new(reach.y0, -reach.x1, reach.y1, -reach.x0).inflate(BEYOND_MM, BEYOND_MM);
    let paper = column.inside();
    let (wide, long) = (unit.short(reach.height()), unit.short(reach.width()));
    let Some(tiles) = Tiles::over(upright_reach, paper) else {
        let said = words::far_larger_than_the_sheet((&wide, &long));
        column.paragraph(&said, Face::Strong, WORDS_MM, 0.0, INK);
        key(column, job, bill);
        return;
    };
    let said = words::larger_than_the_sheet((&wide, &long), tiles.n_sheets());
    column.paragraph(&said, Face::Strong, WORDS_MM, 0.0, INK);
    column.skip(3.0);
    tiles.plan(column);
    key(column, job, bill);
    let mut whole = PaperSheet::default();
    drawing(&mut whole, job, upright());
    tiles.write(column, &whole.marks);
}

/// Whose it is, and at the right for which wrist.
fn head(column: &mut Column, job: &PaperJob<'_>) {
    let inside = column.inside();
    let side = Run::new(&words::where_worn_in_full(job.order), Face::Strong);
    let wide = side.width_mm(NAME_MM);
    let within = Rect::new(inside.x0, column.y, inside.x1 - wide - 6.0, column.y + NAME_MM * 1.1);
    let high = whole_name(column.sheet(), &words::wearer(job.order), Face::Title, NAME_MM, within);
    let at = Point::new(inside.x1 - wide, column.y + NAME_MM * RISE);
    column.sheet().run(side, at, NAME_MM, INK);
    column.skip(high.max(NAME_MM * LEADING));
    super::stops::stops(column, job, WORDS_MM);
}

/// The bar, with a tick at each 10 mm; it is exactly as long as it says.
fn check_bar(column: &mut Column) {
    let x0 = column.inside().x0;
    let top = column.y + 2.0;
    let block = |x: f64, y: f64, wide: f64, high: f64| Rect::new(x, y, x + wide, y + high).to_path(TOLERANCE_MM);
    column.sheet().fill(block(x0, top + 2.0, CHECK_BAR_MM, BAR_MM), INK);
    for i in 0..=10 {
        // Ticks stand within the bar's length, so that they do not make it longer.
        let x = x0 + f64::from(i) * (CHECK_BAR_MM - 0.3) / 10.0;
        let high = if i % 5 == 0 { 2.0 } else { 1.1 };
        column.sheet().fill(block(x, top + 2.0 - high, 0.3, high), INK);
    }
    let at = Point::new(x0 + CHECK_BAR_MM + 3.0, top + 2.8);
    column.sheet().words(words::PRINT_AT_100, Face::Strong, WORDS_MM, at, Align::Left);
    column.y = top + 4.0;
    column.paragraph(words::CHECK_BAR, Face::Text, WORDS_MM, 0.0, SOFT);
    column.paragraph(words::LINES_MEAN, Face::Text, WORDS_MM, 0.0, SOFT);
}

fn drawing(sheet: &mut PaperSheet, job: &PaperJob<'_>, place: Affine) {
    let piece = &job.order.piece;
    stem(sheet, job, place);
    bow(sheet, job, place);
    let (a, b) = (within_reason(piece.oval().a), within_reason(piece.oval().b));
    let around = Ellipse::new(Point::ORIGIN, (a, b), 0.0).to_path(TOLERANCE_MM);
    sheet.line(place * around, 0.35, SOFT, Pattern::Dashed(4.0, 1.5));
    for part in piece.from_below() {
        let (width_mm, pattern) = line_for(part.level);
        sheet.line(place * outline_of(&part.shape_in(job.stock)), width_mm, INK, pattern);
    }
    cross(sheet, job, place, Vec2::new(a + BEYOND_MM, b + BEYOND_MM));
    let mut taken = Vec::new();
    let parts = piece.from_below();
    for (i, part) in parts.iter().enumerate().rev() {
        if let Some(line) = line_of(part, job.stems, job.stock) {
            let above: Vec<Shape> = parts[i + 1..].iter().map(|p| p.shape_in(job.stock)).collect();
            let at = number_place(&part.shape_in(job.stock), &above, &taken);
            taken.push(at);
            number(sheet, place * at, line + 1);
        }
    }
}

/// A length that can be drawn: what is larger than any sheet, or no number, is cut.
fn within_reason(mm: f64) -> f64 {
    /// Longer than any sheet, mm.
    const MOST_MM: f64 = 1000.0;
    if mm.is_finite() { mm.clamp(0.0, MOST_MM) } else { 0.0 }
}

fn line_for(level: Level) -> (f64, Pattern) {
    match level {
        Level::Flat => (0.25, Pattern::Dashed(1.6, 1.0)),
        Level::Raised => (0.3, Pattern::Whole),
        Level::Top => (0.7, Pattern::Whole),
    }
}

/// The stem of a boutonniere, with where it is bound and how long it is cut.
fn stem(sheet: &mut PaperSheet, job: &PaperJob<'_>, place: Affine) {
    let piece = &job.order.piece;
    let Some((at, end)) = piece.binding_point(job.stock).zip(piece.stem_end(job.stock)) else { return };
    if piece.parts().is_empty() {
        return;
    }
    let half = STEM_WIDTH_MM / 2.0;
    sheet.line(
        place * Rect::new(end.x, end.y - half, at.x, at.y + half).to_path(TOLERANCE_MM),
        0.3,
        INK,
        Pattern::Whole,
    );
    let unit = words::unit(job.order);
    let beside = |x: f64| place * Point::new(x, at.y + half) + Vec2::new(2.0, 1.2);
    label(sheet, &words::stem_length(unit), beside(end.x + STEM_MM * 0.3), Align::Left);
}

/// Loops as the ribbon's curves; tails hang free and are not drawn.
fn bow(sheet: &mut PaperSheet, job: &PaperJob<'_>, place: Affine) {
    const MOST: u32 = 24;
    let Some(bow) = &job.order.piece.bow else { return };
    let at = job.order.piece.binding_point(job.stock).unwrap_or(Point::ORIGIN);
    let place = place * Affine::translate(at.to_vec2());
    for turn in bow.loop_turns(bow.loops_a_side.min(MOST)) {
        let curve = loop_curve(bow.loop_length_mm, bow.loop_width_mm, turn);
        let mut path = BezPath::new();
        path.move_to(curve.p0);
        path.curve_to(curve.p1, curve.p2, curve.p3);
        sheet.line(place * path, 0.25, HAIR, Pattern::Whole);
    }
}

/// The cross at the centre point, with where its ends lead to.
fn cross(sheet: &mut PaperSheet, job: &PaperJob<'_>, place: Affine, reach: Vec2) {
    const AT_MIDDLE_MM: f64 = 5.0;
    let ends = [Vec2::new(1.0, 0.0), Vec2::new(-1.0, 0.0), Vec2::new(0.0, 1.0), Vec2::new(0.0, -1.0)];
    for end in ends {
        let far = Point::new(end.x * reach.x, end.y * reach.y);
        let edge = (far.to_vec2() * (1.0 - BEYOND_MM / far.to_vec2().hypot())).to_point();
        sheet.rule(place * edge, place * far, 0.4, INK);
        sheet.rule(place * Point::ORIGIN, place * (end * AT_MIDDLE_MM).to_point(), 0.4, INK);
    }
    if job.order.piece.worn == Worn::Lapel {
        return;
    }
    let (elbow, hand) = (place * Point::new(reach.x, 0.0), place * Point::new(-reach.x, 0.0));
    let elbow_word = format!("\u{2191} {}", words::TO_THE_ELBOW);
    let hand_word = format!("\u{2193} {}", words::TO_THE_HAND);
    label(sheet, &elbow_word, elbow + Vec2::new(2.0, 2.5), Align::Left);
    label(sheet, &hand_word, hand + Vec2::new(2.0, 0.0), Align::Left);
    // On a left wrist, hand at the bottom, the thumb is at the left; see the frame of the piece.
    let (thumb, align) = match job.order.wrist.side {
        Side::Left => (place * Point::new(0.0, -reach.y), Align::Right),
        Side::Right => (place * Point::new(0.0, reach.y), Align::Left),
    };
    let away = if align == Align::Right { -1.5 } else { 1.5 };
    label(sheet, words::THUMB_SIDE, thumb + Vec2::new(away, 1.2), align);
}

/// Words on a white ground, so that no line runs through them.
fn label(sheet: &mut PaperSheet, text: &str, at: Point, align: Align) {
    let run = Run::new(text, Face::Text);
    let wide = run.width_mm(WORDS_MM);
    let x = if align == Align::Right { at.x - wide } else { at.x };
    let ground = Rect::new(x - 0.6, at.y - WORDS_MM * 0.8, x + wide + 0.6, at.y + WORDS_MM * 0.3);
    sheet.fill(ground.to_path(TOLERANCE_MM), PAPER_WHITE);
    sheet.run(run, Point::new(x, at.y), WORDS_MM, INK);
}

/// Where a part's number stands: in its middle, unless something lies over it or another number is near; then elsewhere in
/// its outline, where it is seen.
fn number_place(shape: &Shape, above: &[Shape], taken: &[Point]) -> Point {
    /// Numbers nearer than this run into each other, mm.
    const APART_MM: f64 = 4.6;
    /// Numbers stand this far off a line where they can, mm.
    const CLEAR_MM: f64 = 2.0;
    const WAYS: u32 = 16;
    let (centre, reach) = (shape.centre(), shape.reach());
    let around = (0..WAYS).map(|i| Vec2::from_angle(f64::from(i) / f64::from(WAYS) * std::f64::consts::TAU));
    let around: Vec<Vec2> = around.collect();
    let rings = [0.3, 0.5, 0.7, 0.85].into_iter().flat_map(|share| around.iter().map(move |way| (share, *way)));
    let places: Vec<Point> = std::iter::once(centre)
        .chain(rings.map(|(share, way)| centre + way * (reach * share)))
        .filter(|p| shape.contains(*p))
        .collect();
    let apart = |p: &Point| taken.iter().all(|t| t.distance(*p) >= APART_MM);
    let seen = |p: &Point| above.iter().all(|s| !s.contains(*p));
    let clear = |p: &Point| shape.distance(*p) < -CLEAR_MM && above.iter().all(|s| s.distance(*p) > CLEAR_MM);
    let best = places.iter().find(|p| apart(p) && clear(p));
    let best = best.or_else(|| places.iter().find(|p| apart(p) && seen(p)));
    best.or_else(|| places.iter().find(|p| apart(p))).copied().unwrap_or(centre)
}

/// A number on a little white disc, so that no line runs through it.
fn number(sheet: &mut PaperSheet, at: Point, number: usize) {
    let run = Run::new(&number.to_string(), Face::Strong);
    let wide = run.width_mm(NUMBER_MM);
    sheet.fill(Circle::new(at, NUMBER_MM * 0.62).to_path(TOLERANCE_MM), PAPER_WHITE);
    sheet.run(run, Point::new(at.x - wide / 2.0, at.y + NUMBER_MM * 0.33), NUMBER_MM, INK);
}

/// Which number is what, in two columns.
fn key(column: &mut Column, job: &PaperJob<'_>, bill: &[BillLine]) {
    let inside = column.inside();
    let unit = words::unit(job.order);
    let half = inside.width() / 2.0;
    column.make_room(WORDS_MM * LEADING * 2.0);
    for pair in bill.chunks(2) {
        column.make_room(WORDS_MM * LEADING);
        for (i, line) in pair.iter().enumerate() {
            let text = format!(
                "{}   {}: {}  {}",
                line.number,
                words::what(line),
                words::amount(line, unit),
                words::sizes(line, unit)
            );
            let run = Run::cut(text.trim_end(), Face::Text, WORDS_MM, half - 3.0);
            let at = Point::new(inside.x0 + i as f64 * half, column.y + WORDS_MM);
            column.sheet().run(run, at, WORDS_MM, INK);
        }
        column.skip(WORDS_MM * LEADING);
    }
}

/// The outline that a part is calculated with.
fn outline_of(shape: &Shape) -> BezPath {
    match shape.tidy() {
        None => BezPath::new(),
        Some(Shape::Disc(disc)) => Circle::new(disc.centre, disc.radius).to_path(TOLERANCE_MM),
        Some(Shape::Lens(lens)) => lens_outline(&lens),
    }
}

/// A leaf's outline: from tip to tip along the arc of one disc, and back along the other's.
fn lens_outline(lens: &Lens) -> BezPath {
    let along = Vec2::from_angle(lens.turn);
    let tip = lens.centre + along * (lens.length / 2.0);
    let mut path = BezPath::new();
    path.move_to(tip);
    for disc in lens.discs() {
        let start = path_end(&path, tip) - disc.centre;
        let other = lens.centre - (path_end(&path, tip) - lens.centre);
        let end = other - disc.centre;
        let sweep = start.cross(end).atan2(start.dot(end));
        let arc = Arc::new(disc.centre, (disc.radius, disc.radius), start.atan2(), sweep, 0.0);
        path.extend(arc.append_iter(TOLERANCE_MM));
    }
    path.close_path();
    path
}

fn path_end(path: &BezPath, start: Point) -> Point {
    path.elements().last().and_then(kurbo::PathEl::end_point).unwrap_or(start)
}
