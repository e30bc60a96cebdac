//! Keys: everything a pointer can do. On a page with fields no letter changes anything: it may have been meant for a field.

use egui::{Key, Modifiers, Ui};

use crate::app::action::Action;
use crate::app::pages::colour::{self, Wish};
use crate::app::pages::page::Page;
use crate::app::pages::style_keys;
use crate::app::sheet::colour_vision;
use crate::app::sheet::layouts_panel;
use crate::app::sheet::pair;
use crate::app::sheet::part_actions::{COPY_OFF, SIZE_STEP_MM};
use crate::app::sheet::trays::nth_in_tray;
use crate::app::sheet::wrist_sheet::take_key;
use crate::app::shell::top_bar::Field;
use crate::app::shell::window::{Dialog, Window};
use crate::command::Command;
use crate::piece::{Edit, PartId, Question};
use crate::sheet::{Held, LONG_STEP_MM, TURN_STEP_RAD};
use crate::stock::Role;

const NONE: Modifiers = Modifiers::NONE;
const CTRL: Modifiers = Modifiers::COMMAND;
const SHIFT: Modifiers = Modifiers::SHIFT;

/// Runs after the panels, so that a text field or a button in focus takes its keys first.
pub(crate) fn read_keys(ui: &Ui, w: &mut Window, actions: &mut Vec<Action>) {
    let typing = ui.text_edit_focused();
    let was_typing = std::mem::replace(&mut w.was_typing, typing);
    if typing && take_key(ui, CTRL, Key::S) {
        actions.push(Action::Keep);
    }
    // The key that left a text field was meant for the field.
    if typing || was_typing {
        return;
    }
    if take_key(ui, NONE, Key::Escape) {
        actions.push(Action::Cancel);
    }
    if w.dialog != Dialog::None {
        return;
    }
    whole_window(ui, w, actions);
    if w.page == Page::House {
        style_keys::read_keys(ui, actions);
    }
    if w.page == Page::Colour {
        colour::read_keys(ui, w, actions);
    }
    if w.page != Page::Sheet {
        return;
    }
    // In the panel of layouts it stops the search.
    if !w.offers_layouts() && take_key(ui, NONE, Key::X) {
        let there = w.session.order().partner_piece.is_some();
        let other = Action::OnSheet(pair::other(w.session.front()));
        actions.push(if there { other } else { Action::change(pair::made_to_match(w)) });
    }
    layouts_panel::read_keys(ui, w, actions);
    the_sheet(ui, actions);
    on_the_piece(ui, w, actions);
    arrows(ui, w, actions);
    end_runs(ui, actions);
    from_the_tray(ui, w, actions);
    once_over(ui, w, actions);
}

fn whole_window(ui: &Ui, w: &Window, actions: &mut Vec<Action>) {
    let turn = |page| Action::Turn(if w.page == page { Page::Sheet } else { page });
    let keys = [
        (CTRL.plus(SHIFT), Key::Z, Action::Redo),
        (CTRL, Key::Z, Action::Undo),
        (CTRL, Key::Y, Action::Redo),
        (CTRL, Key::S, Action::Keep),
        (CTRL.plus(SHIFT), Key::P, Action::MakePapers),
        (CTRL, Key::P, Action::KeepPicture),
        (CTRL, Key::N, Action::New),
        (CTRL, Key::O, Action::ShowOrders),
        (NONE, Key::F1, Action::ShowHelp),
        (NONE, Key::F2, Action::TurnScreen),
        (NONE, Key::F4, Action::TurnSecond),
        (NONE, Key::F6, Action::Colours(Wish::Eyes(colour_vision::next(w.looks.eyes)))),
        (NONE, Key::F8, Action::Light),
        (NONE, Key::Q, turn(Page::Questions)),
        (NONE, Key::C, turn(Page::Sizes)),
        (NONE, Key::J, turn(Page::Ways)),
        (NONE, Key::I, turn(Page::Price)),
        (NONE, Key::Y, turn(Page::House)),
        (NONE, Key::D, turn(Page::Colour)),
        (NONE, Key::W, Action::Type(Field::Wearer)),
        (NONE, Key::G, Action::Type(Field::Girth)),
    ];
    press(ui, keys, actions);
}

fn press(ui: &Ui, keys: impl IntoIterator<Item = (Modifiers, Key, Action)>, actions: &mut Vec<Action>) {
    for (modifiers, key, action) in keys {
        if take_key(ui, modifiers, key) {
            actions.push(action);
        }
    }
}

/// Its view, and what is chosen on it.
fn the_sheet(ui: &Ui, actions: &mut Vec<Action>) {
    let keys = [
        (CTRL, Key::A, Action::SelectAll),
        (NONE, Key::V, Action::ShowLooks),
        (NONE, Key::Num0, Action::Whole),
        (NONE, Key::PageUp, Action::Zoom(1.25)),
        (NONE, Key::PageDown, Action::Zoom(0.8)),
        (SHIFT, Key::N, Action::SelectNext(true)),
        (NONE, Key::N, Action::SelectNext(false)),
        (NONE, Key::M, Action::Lift),
    ];
    press(ui, keys, actions);
}

fn on_the_piece(ui: &Ui, w: &mut Window, actions: &mut Vec<Action>) {
    if take_key(ui, SHIFT, Key::R) {
        actions.extend(w.sheet.turn(-TURN_STEP_RAD).into_iter().map(Action::Order));
    }
    if take_key(ui, NONE, Key::R) {
        actions.extend(w.sheet.turn(TURN_STEP_RAD).into_iter().map(Action::Order));
    }
    let larger = take_key(ui, NONE, Key::Plus) || take_key(ui, SHIFT, Key::Plus) || take_key(ui, NONE, Key::Equals);
    let smaller = take_key(ui, NONE, Key::Minus);
    for (pressed, by) in [(larger, SIZE_STEP_MM), (smaller, -SIZE_STEP_MM)] {
        if pressed {
            actions.extend(w.sheet.resize(by, w.session.piece(), w.session.stock()).into_iter().map(Action::Order));
        }
    }
    let chosen: Vec<PartId> = w.sheet.selected.clone();
    let piece = w.session.piece();
    let Some(first) = chosen.first().and_then(|id| piece.part(*id)) else { return };
    let all_locked = chosen.iter().filter_map(|id| piece.part(*id)).all(|p| p.locked);
    let edits = [
        (NONE, Key::U, Edit::Raise(chosen.clone(), first.level.next())),
        (NONE, Key::K, Edit::Lock(chosen.clone(), !all_locked)),
        (CTRL, Key::D, Edit::Copy(chosen.clone(), COPY_OFF)),
        (NONE, Key::Delete, Edit::TakeOff(chosen.clone())),
        (NONE, Key::Backspace, Edit::TakeOff(chosen.clone())),
    ];
    for (modifiers, key, edit) in edits {
        if take_key(ui, modifiers, key) {
            actions.push(Action::edit(edit));
        }
    }
}

fn arrows(ui: &Ui, w: &mut Window, actions: &mut Vec<Action>) {
    let in_hand = matches!(w.sheet.held, Held::FromTray { .. });
    if !in_hand && w.sheet.selected.is_empty() {
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
                actions.extend(w.sheet.nudge(up, right, step * times as f64).into_iter().map(Action::Order));
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

fn from_the_tray(ui: &Ui, w: &mut Window, actions: &mut Vec<Action>) {
    const NUMBERS: [Key; 9] =
        [Key::Num1, Key::Num2, Key::Num3, Key::Num4, Key::Num5, Key::Num6, Key::Num7, Key::Num8, Key::Num9];
    const TRAYS: [(Key, Role); 5] = [
        (Key::B, Role::Bloom),
        (Key::A, Role::Accent),
        (Key::S, Role::Filler),
        (Key::L, Role::Leaf),
        (Key::T, Role::Trim),
    ];
    for (key, role) in TRAYS {
        if take_key(ui, NONE, key) {
            w.tray = role;
        }
    }
    for (n, key) in NUMBERS.into_iter().enumerate() {
        if take_key(ui, NONE, key)
            && let Some(id) = nth_in_tray(w, n)
        {
            actions.push(Action::Pick(id));
        }
    }
    let free = w.sheet_in_focus || ui.memory(|m| m.focused().is_none());
    let nothing_else_wants_enter = free && matches!(w.sheet.held, Held::FromTray { .. });
    if nothing_else_wants_enter && take_key(ui, NONE, Key::Enter) {
        actions.push(Action::PutDown);
    }
}

/// O goes round the findings; Enter takes the remedy of the one pointed at.
fn once_over(ui: &Ui, w: &mut Window, actions: &mut Vec<Action>) {
    if w.client_side {
        return;
    }
    let derived = w.session.derived();
    let shown: Vec<Question> = derived.over.findings.iter().filter(|f| !f.is_well()).map(|f| f.question).collect();
    if take_key(ui, NONE, Key::O) {
        let at = w.pointed_at.and_then(|q| shown.iter().position(|s| *s == q));
        let next = at.map_or(0, |i| i + 1);
        actions.push(Action::Point(shown.get(next).copied()));
    }
    let pointed = derived.over.findings.iter().find(|f| Some(f.question) == w.pointed_at);
    let unfocused = w.sheet_in_focus || ui.memory(|m| m.focused().is_none());
    let free = w.sheet.held == Held::Nothing && unfocused;
    if free
        && let Some(remedy) = pointed.and_then(|f| f.remedies.first())
        && take_key(ui, NONE, Key::Enter)
    {
        actions.push(Action::fix(remedy.clone()));
    }
}
