//! A shelf of things side by side that scrolls by wheel, by the arrows at its ends and by drag, and stands at its beginning for
//! every piece.

use egui::style::ScrollAnimation;
use egui::{Rect, Response, ScrollArea, Ui, UiBuilder, pos2, vec2};

use crate::app::context::Context;
use crate::app::widgets::controls::icon_button;
use crate::app::widgets::icons::Icon;
use crate::app::widgets::theme::{GRID, TARGET};

/// What an arrow scrolls by, as a share of what is seen: what was last stays in sight.
const PAGE: f32 = 0.8;

/// Shows things on the shelf of this name; another name stands at its beginning.
pub(super) fn shelf_ui(ui: &mut Ui, cx: &Context<'_>, name: impl egui::AsIdSalt, high: f32, add: impl FnOnce(&mut Ui)) {
    let all = ui.available_rect_before_wrap();
    let all = Rect::from_min_max(all.min, pos2(all.max.x, (all.min.y + high).min(all.max.y)));
    let button = |x: f32| Rect::from_center_size(pos2(x, all.center().y), vec2(TARGET, TARGET));
    let mut pages = 0.0;
    for (icon, says, x, by) in [
        (Icon::Back, "Scroll back", all.min.x + TARGET / 2.0, 1.0),
        (Icon::On, "Scroll on", all.max.x - TARGET / 2.0, -1.0),
    ] {
        if ui.put(button(x), |ui: &mut Ui| icon_button(ui, &cx.colours, icon, says, true)).clicked() {
            pages += by;
        }
    }
    let middle = all.shrink2(vec2(TARGET + GRID / 2.0, 0.0));
    ui.scope_builder(UiBuilder::new().id_salt("shelf").max_rect(middle), |ui| {
        ui.spacing_mut().scroll.floating_allocated_width = 0.0;
        ui.style_mut().always_scroll_the_only_direction = true;
        ScrollArea::horizontal().id_salt(name).auto_shrink([false, false]).show(ui, |ui| {
            if pages != 0.0 {
                ui.scroll_with_delta(vec2(pages * PAGE * middle.width(), 0.0));
            }
            ui.horizontal(|ui| {
                ui.spacing_mut().item_spacing.x = GRID;
                add(ui);
            });
        });
    });
}

/// What a drag of a thing on the shelf is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum ShelfDrag {
    /// None, or one that scrolls the shelf.
    None,
    /// The thing is being taken off it: the drag leads up and away, or has left the shelf upward.
    Taken,
}

/// Reads a drag that began on a thing: one along the shelf scrolls it.
pub(super) fn drag_on_shelf(ui: &Ui, thing: &Response) -> ShelfDrag {
    if !thing.dragged() && !thing.drag_started() {
        return ShelfDrag::None;
    }
    let (origin, now, moved) = ui.input(|i| (i.pointer.press_origin(), i.pointer.interact_pos(), i.pointer.delta()));
    let (Some(origin), Some(now)) = (origin, now) else { return ShelfDrag::None };
    let way = now - origin;
    let leads_away = thing.drag_started() && -way.y > way.x.abs();
    if leads_away || now.y < thing.rect.min.y - GRID {
        return ShelfDrag::Taken;
    }
    // What moved before it counted as a drag is made up for.
    let along = if thing.drag_started() { way.x } else { moved.x };
    ui.scroll_with_delta_animation(vec2(along, 0.0), ScrollAnimation::none());
    ShelfDrag::None
}
