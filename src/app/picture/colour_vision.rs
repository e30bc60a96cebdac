//! The piece as a colour-blind viewer sees it. The picture worker draws it so; here is who is meant, the way there, and the
//! mark that nobody can take for the real colours.

use egui::{Color32, Pos2, Rect, Shape, Stroke, StrokeKind, pos2, vec2};

use crate::app::widgets::theme::{Colours, colour_of};
use crate::colour::{Eyes, Rgb, Vision};

/// Eyes to choose from: what stands on the button.
pub(crate) const CHOICES: [(Option<Vision>, &str); 4] = [
    (None, "Normal"),
    (Some(Vision::Protan), "Red-blind"),
    (Some(Vision::Deutan), "Green-blind"),
    (Some(Vision::Tritan), "Blue-blind"),
];

/// The next kind of eyes, and after the last the usual ones.
pub(crate) fn next(eyes: Option<Vision>) -> Option<Vision> {
    let at = CHOICES.iter().position(|(of, _)| *of == eyes).unwrap_or(0);
    CHOICES[(at + 1) % CHOICES.len()].0
}

/// A plain colour as these eyes see it.
pub(crate) fn seen(rgb: Rgb, eyes: Option<Vision>) -> Color32 {
    colour_of(eyes.map_or(rgb, |vision| Eyes::new(vision, 1.0).see(rgb)))
}

/// A hatched frame about what is seen through other eyes.
pub(crate) fn frame(painter: &egui::Painter, rect: Rect, c: &Colours) {
    /// Width of the frame, and from stripe to stripe, points.
    const WIDE: f32 = 10.0;
    const STEP: f32 = 16.0;
    painter.rect_stroke(rect, 0.0, Stroke::new(WIDE, c.card), StrokeKind::Inside);
    let stripe = |from: Pos2| Shape::line_segment([from, from + vec2(WIDE, WIDE)], Stroke::new(3.0, c.rose));
    let along = |from: f32, to: f32| {
        std::iter::successors(Some(from), |at| Some(at + STEP)).take_while(move |at| at + WIDE <= to)
    };
    for x in along(rect.min.x, rect.max.x) {
        painter.add(stripe(pos2(x, rect.min.y)));
        painter.add(stripe(pos2(x, rect.max.y - WIDE)));
    }
    for y in along(rect.min.y, rect.max.y) {
        painter.add(stripe(pos2(rect.min.x, y)));
        painter.add(stripe(pos2(rect.max.x - WIDE, y)));
    }
}
