//! Keys: everything a pointer can do. On a page with fields no letter changes anything: it may have been meant for a field.

use egui::{Key, Modifiers, Ui};

use crate::app::action::Action;
use crate::app::context::Context;
use crate::app::page_list::PageId;
use crate::app::pages::Pages;
use crate::app::parts::pair;
use crate::app::picture::colour_vision;
use crate::app::sheet::layouts_panel;
use crate::app::sheet::part_actions::{COPY_OFF, SIZE_STEP_MM};
use crate::app::sheet::room::SheetRoom;
use crate::app::sheet::trays::nth_in_tray;
use crate::app::typing::field::Field;
use crate::app::widgets::keys::take_key;
use crate::command::Command;
use crate::piece::{Edit, PartId, Question};
use crate::sheet::{Held, LONG_STEP_MM, SheetInput, TURN_STEP_RAD};
use crate::stock::Role;

const NONE: Modifiers = Modifiers::NONE;
const CTRL: Modifiers = Modifiers::COMMAND;
const SHIFT: Modifiers = Modifiers::SHIFT;

/// Keys of the whole window; they run after the panels, so that a text field or a button in focus takes its keys first.
pub(crate) fn whole_window(ui: &Ui, cx: &Context<'_>, actions: &mut Vec<Action>) {
    let eyes = colour_vision::next(cx.options.eyes);
    let keys = [
        (CTRL.plus(SHIFT), Key::Z, Action::Redo),
        (CTRL, Key::Z, Action::Undo),
        (CTRL, Key::Y, Action::Redo),
        (CTRL, Key::S, Action::Save),
        (CTRL.plus(SHIFT), Key::P, Action::MakePapers),
        (CTRL, Key::P, Action::SavePicture),
        (CTRL, Key::N, Action::New),
        (CTRL, Key::O, Action::ShowOrders),
        (NONE, Key::F1, Action::ShowHelp),
        (NONE, Key::F2, Action::SwitchView),
        (NONE, Key::F4, Action::SwitchClientWindow),
        (NONE, Key::F6, Action::Eyes(eyes)),
        (NONE, Key::F8, Action::Light),
        (NONE, Key::W, Action::Focus(Field::Wearer)),
        (NONE, Key::G, Action::Focus(Field::WristSize)),
    ];
    press(ui, keys, actions);
    let pages = Pages::ALL.iter().filter_map(|page| Some((*page, Pages::info(*page)?.key)));
    press(ui, pages.map(|(page, key)| (NONE, key, toggled(cx, page))), actions);
}

/// A page's key opens it, and closes it again.
fn toggled(cx: &Context<'_>, page: PageId) -> Action {
    Action::Show(if cx.page == page { PageId::Sheet } else { page })
}

fn press(ui: &Ui, keys: impl IntoIterator<Item = (Modifiers, Key, Action)>, actions: &mut Vec<Action>) {
    for (modifiers, key, action) in keys {
        if take_key(ui, modifiers, key) {
            actions.push(action);
        }
    }
}

/// Keys of the wrist sheet; `in_focus` when it, or a part on it, has the keyboard.
pub(crate) fn the_sheet(ui: &Ui, cx: &Context<'_>, room: &SheetRoom, in_focus: bool, actions: &mut Vec<Action>) {
    let free = in_focus || ui.memory(|m| m.focused().is_none());
    // In the panel of layouts it stops the search.
    if room.layouts.is_none() && take_key(ui, NONE, Key::X) {
        let there = cx.client.order.partner_piece.is_some();
        actions.push(if there { Action::ShowPiece(pair::other(cx.client.active)) } else { Action::AddBoutonniere });
    }
    layouts_panel::read_keys(ui, cx, room.layouts.as_ref(), free, actions);
    its_view(ui, actions);
    on_the_piece(ui, cx, room, actions);
    arrows(ui, room, actions);
    end_runs(ui, actions);
    from_the_tray(ui, cx, room, free, actions);
    once_over(ui, cx, room, free, actions);
}

/// Its view, and what is selected on it.
fn its_view(ui: &Ui, actions: &mut Vec<Action>) {
    let keys = [
        (NONE, Key::V, Action::ShowOptions),
        (NONE, Key::Num0, Action::FitView),
        (CTRL, Key::A, Action::Sheet(SheetInput::SelectAll)),
        (NONE, Key::PageUp, Action::Sheet(SheetInput::Zoom(1.25))),
        (NONE, Key::PageDown, Action::Sheet(SheetInput::Zoom(0.8))),
        (SHIFT, Key::N, Action::Sheet(SheetInput::SelectNext { back: true })),
        (NONE, Key::N, Action::Sheet(SheetInput::SelectNext { back: false })),
        (NONE, Key::M, Action::Sheet(SheetInput::Lift)),
        (SHIFT, Key::R, Action::Sheet(SheetInput::Rotate(-TURN_STEP_RAD))),
        (NONE, Key::R, Action::Sheet(SheetInput::Rotate(TURN_STEP_RAD))),
    ];
    press(ui, keys, actions);
}

fn on_the_piece(ui: &Ui, cx: &Context<'_>, room: &SheetRoom, actions: &mut Vec<Action>) {
    let larger = take_key(ui, NONE, Key::Plus) || take_key(ui, SHIFT, Key::Plus) || take_key(ui, NONE, Key::Equals);
    let smaller = take_key(ui, NONE, Key::Minus);
    for (pressed, by) in [(larger, SIZE_STEP_MM), (smaller, -SIZE_STEP_MM)] {
        if pressed {
            actions.push(Action::Sheet(SheetInput::Resize(by)));
        }
    }
    let chosen: Vec<PartId> = room.hand.selected.clone();
    let piece = cx.client.piece();
    let Some(first) = chosen.first().and_then(|id| piece.part(*id)) else { return };
    let all_locked = chosen.iter().filter_map(|id| piece.part(*id)).all(|p| p.locked);
    let edits = [
        (NONE, Key::U, Edit::SetLevel(chosen.clone(), first.level.next())),
        (NONE, Key::K, Edit::Lock(chosen.clone(), !all_locked)),
        (CTRL, Key::D, Edit::Copy(chosen.clone(), COPY_OFF)),
        (NONE, Key::Delete, Edit::Remove(chosen.clone())),
        (NONE, Key::Backspace, Edit::Remove(chosen.clone())),
    ];
    press(ui, edits.map(|(modifiers, key, edit)| (modifiers, key, Action::edit(edit))), actions);
}

fn arrows(ui: &Ui, room: &SheetRoom, actions: &mut Vec<Action>) {
    let in_hand = matches!(room.hand.held, Held::FromTray { .. });
    if !in_hand && room.hand.selected.is_empty() {
        return;
    }
    const ARROWS: [(Key, f64, f64); 4] = [
        (Key::ArrowUp, 1.0, 0.0),
        (Key::ArrowDown, -1.0, 0.0),
        (Key::ArrowRight, 0.0, 1.0),
        (Key::ArrowLeft, 0.0, -1.0),
    ];
    for (key, up, right) in ARROWS {
        for (modifiers, step) in [(SHIFT, LONG_STEP_MM), (NONE, 1.0)] {
            let times = ui.input_mut(|i| i.count_and_consume_key(modifiers, key));
            if times > 0 {
                actions.push(Action::Sheet(SheetInput::Nudge { up, right, step_mm: step * times as f64 }));
            }
        }
    }
}

/// A run of steps lasts while its key is down.
fn end_runs(ui: &Ui, actions: &mut Vec<Action>) {
    let released = ui.input(|i| i.events.iter().any(|e| matches!(e, egui::Event::Key { pressed: false, .. })));
    if released {
        actions.push(Action::Order(Command::EndRun));
    }
}

fn from_the_tray(ui: &Ui, cx: &Context<'_>, room: &SheetRoom, free: bool, actions: &mut Vec<Action>) {
    const NUMBERS: [Key; 9] =
        [Key::Num1, Key::Num2, Key::Num3, Key::Num4, Key::Num5, Key::Num6, Key::Num7, Key::Num8, Key::Num9];
    let trays = [
        (NONE, Key::B, Action::Tray(Role::Bloom)),
        (NONE, Key::A, Action::Tray(Role::Accent)),
        (NONE, Key::S, Action::Tray(Role::Filler)),
        (NONE, Key::L, Action::Tray(Role::Leaf)),
        (NONE, Key::T, Action::Tray(Role::Trim)),
    ];
    press(ui, trays, actions);
    for (n, key) in NUMBERS.into_iter().enumerate() {
        if take_key(ui, NONE, key)
            && let Some(id) = nth_in_tray(cx, room, n)
        {
            actions.push(Action::Pick(id));
        }
    }
    if free && matches!(room.hand.held, Held::FromTray { .. }) && take_key(ui, NONE, Key::Enter) {
        actions.push(Action::Sheet(SheetInput::PutDownHere));
    }
}

/// O goes round the findings; Enter applies the remedy of the one pointed at. For the designer alone.
fn once_over(ui: &Ui, cx: &Context<'_>, room: &SheetRoom, free: bool, actions: &mut Vec<Action>) {
    let Some(shop) = cx.shop else { return };
    let findings = &shop.derived.over.findings;
    let shown: Vec<Question> = findings.iter().filter(|f| !f.is_well()).map(|f| f.question).collect();
    let pointed_at = room.checks.pointed_at;
    if take_key(ui, NONE, Key::O) {
        let at = pointed_at.and_then(|q| shown.iter().position(|s| *s == q));
        let next = at.map_or(0, |i| i + 1);
        actions.push(Action::PointAt(shown.get(next).copied()));
    }
    let pointed = findings.iter().find(|f| Some(f.question) == pointed_at);
    if free
        && room.hand.held == Held::Nothing
        && let Some(remedy) = pointed.and_then(|f| f.remedies.first())
        && take_key(ui, NONE, Key::Enter)
    {
        actions.push(Action::fix(remedy.clone()));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The second of two pages with one key could never be opened by it.
    #[test]
    fn every_page_has_a_key_of_its_own() {
        let keys: Vec<Key> = Pages::ALL.iter().filter_map(|page| Some(Pages::info(*page)?.key)).collect();
        for (index, key) in keys.iter().enumerate() {
            assert!(!keys[..index].contains(key), "{key:?} opens two pages");
        }
        assert!(keys.len() > 6);
    }
}
