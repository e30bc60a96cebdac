//! The piece as a colour-blind viewer sees it. The picture worker draws it so; here is who is meant, the way there, and the
//! mark that nobody can take for the real colours.

use egui::{Align2, Color32, Pos2, Rect, Shape, Stroke, StrokeKind, Ui, UiBuilder, pos2, vec2};

use crate::app::action::Action;
use crate::app::pages::colour::Wish;
use crate::app::shell::window::Window;
use crate::app::widgets::controls::{Weight, button};
use crate::app::widgets::plate::plate;
use crate::app::widgets::theme::{Colours, GRID, colour_of, strong};
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

/// A button for each.
pub(crate) fn choices_ui(ui: &mut Ui, c: &Colours, now: Option<Vision>, actions: &mut Vec<Action>) {
    for (eyes, label) in CHOICES {
        let weight = if now == eyes { Weight::Chosen } else { Weight::Plain };
        if button(ui, c, label, weight).on_hover_text("As colour-blind eyes see it (F6)").clicked() {
            actions.push(Action::Colours(Wish::Eyes(eyes)));
        }
    }
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

/// Over the sheet: a hatched frame, whose eyes these are, and the way back.
pub(crate) fn mark_ui(ui: &mut Ui, w: &Window, rect: Rect, actions: &mut Vec<Action>) {
    let Some(vision) = w.looks.eyes else { return };
    let c = w.colours();
    frame(&ui.painter_at(rect), rect, &c);
    let says = format!("As {} see it: not its real colours", vision.whose());
    let width = (rect.width() - 140.0).clamp(240.0, 548.0);
    let tag = Rect::from_min_size(pos2(rect.center().x - width / 2.0, rect.min.y + 4.0), vec2(width, 56.0));
    plate(ui.painter(), tag, c.card, Stroke::new(2.0, c.rose));
    let at = pos2(tag.min.x + 14.0, tag.center().y);
    ui.painter().text(at, Align2::LEFT_CENTER, says, strong(16.0), c.rose);
    let back = Rect::from_min_max(pos2(tag.max.x - 112.0, tag.min.y + 6.0), tag.max - vec2(GRID, 6.0));
    ui.scope_builder(UiBuilder::new().id_salt("other eyes").max_rect(back), |ui| {
        if button(ui, &c, "Normal", Weight::Plain).on_hover_text("F6 shows the next kind of eyes").clicked() {
            actions.push(Action::Colours(Wish::Eyes(None)));
        }
    });
}
