//! The ring of actions beside what is selected: each 44 points, each with a key of its own.

use egui::{Rect, Ui, Vec2, pos2, vec2};

use crate::app::action::Action;
use crate::app::context::Context;
use crate::app::sheet::room::SheetRoom;
use crate::app::widgets::controls::icon_button;
use crate::app::widgets::icons::Icon;
use crate::app::widgets::points::{f32_of, pos};
use crate::app::widgets::theme::TARGET;
use crate::geometry::Vec2 as Way;
use crate::piece::{Edit, Part, PartId};
use crate::sheet::{Hand, Held, SheetInput, TURN_STEP_RAD};

/// How far a copy lands from what it was copied from, mm.
pub(crate) const COPY_OFF: Way = Way::new(0.0, 12.0);
/// One step of the size buttons, mm.
pub(crate) const SIZE_STEP_MM: f64 = 1.0;

pub(crate) fn ring_ui(ui: &mut Ui, cx: &Context<'_>, room: &SheetRoom, sheet: Rect, actions: &mut Vec<Action>) {
    let piece = cx.client.piece();
    let chosen: Vec<&Part> = room.hand.selected.iter().filter_map(|id| piece.part(*id)).collect();
    let Some(last) = chosen.last().filter(|_| room.hand.held == Held::Nothing && room.hand.hand == Hand::Idle) else {
        return;
    };
    let at = pos(room.hand.view.to_screen(last.centre));
    let reach = f32_of(cx.client.shape(last).reach() * room.hand.view.scale);
    let c = cx.colours;
    let buttons = buttons(&chosen);
    let radius = (reach + TARGET * 0.62).min(sheet.height().min(sheet.width()) * 0.36).max(TARGET * 1.45);
    let room = radius + TARGET / 2.0 + 4.0;
    let within = |v: f32, from: f32, to: f32| v.min(to - room).max(from + room);
    let middle = pos2(within(at.x, sheet.min.x, sheet.max.x), within(at.y, sheet.min.y, sheet.max.y));
    let n = buttons.len() as f32;
    for (k, (icon, name, action)) in buttons.into_iter().enumerate() {
        let turn = std::f32::consts::TAU * k as f32 / n - std::f32::consts::FRAC_PI_2;
        let place = middle + vec2(turn.cos(), turn.sin()) * radius;
        let rect = Rect::from_center_size(place, Vec2::splat(TARGET));
        let clicked = ui.put(rect, |ui: &mut Ui| icon_button(ui, &c, icon, &name, true)).clicked();
        if clicked {
            actions.push(action);
        }
    }
}

fn buttons(chosen: &[&Part]) -> Vec<(Icon, String, Action)> {
    let ids: Vec<PartId> = chosen.iter().map(|p| p.id).collect();
    let all_locked = chosen.iter().all(|p| p.locked);
    let level = chosen[0].level.next();
    let (lock_icon, lock_name) = if all_locked { (Icon::Free, "Unlock (K)") } else { (Icon::Locked, "Lock (K)") };
    let named = |icon, name: &str, action| (icon, name.to_owned(), action);
    let turned = Edit::Rotate(ids.clone(), TURN_STEP_RAD);
    let mut ring = vec![
        named(Icon::Turn, "Rotate (R)", Action::edit(turned)),
        named(Icon::Larger, "Larger (+)", Action::Sheet(SheetInput::Resize(SIZE_STEP_MM))),
        named(Icon::Smaller, "Smaller (\u{2212})", Action::Sheet(SheetInput::Resize(-SIZE_STEP_MM))),
        named(Icon::Lift, "Move: tap where (M)", Action::Sheet(SheetInput::Lift)),
        named(Icon::Copy, "Copy (Ctrl+D)", Action::edit(Edit::Copy(ids.clone(), COPY_OFF))),
    ];
    ring.push((Icon::Raise, format!("Level: {} (U)", level.word()), Action::edit(Edit::SetLevel(ids.clone(), level))));
    ring.push(named(lock_icon, lock_name, Action::edit(Edit::Lock(ids.clone(), !all_locked))));
    ring.push(named(Icon::Remove, "Remove (Delete)", Action::edit(Edit::Remove(ids))));
    ring
}
