//! The way to seeing the piece as a colour-blind viewer does, and back.

use egui::{Align2, Rect, Stroke, Ui, UiBuilder, pos2, vec2};

use crate::app::action::Action;
use crate::app::context::Context;
use crate::app::picture::colour_vision::{CHOICES, frame};
use crate::app::widgets::controls::{Weight, button};
use crate::app::widgets::plate::plate;
use crate::app::widgets::theme::{Colours, GRID, strong};
use crate::colour::Vision;

/// A button for each.
pub(crate) fn choices_ui(ui: &mut Ui, c: &Colours, now: Option<Vision>, actions: &mut Vec<Action>) {
    for (eyes, label) in CHOICES {
        let weight = if now == eyes { Weight::Chosen } else { Weight::Plain };
        if button(ui, c, label, weight).on_hover_text("As colour-blind eyes see it (F6)").clicked() {
            actions.push(Action::Eyes(eyes));
        }
    }
}

/// Over the sheet: a hatched frame, whose eyes these are, and the way back.
pub(crate) fn mark_ui(ui: &mut Ui, cx: &Context<'_>, rect: Rect, actions: &mut Vec<Action>) {
    let Some(vision) = cx.options.eyes else { return };
    let c = cx.colours;
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
            actions.push(Action::Eyes(None));
        }
    });
}
