//! What a hand does to a window without a screen: taps, drags and slips, a new size, closing.

use std::sync::Arc;

use egui::{Event, Key, Modifiers, PointerButton, Pos2, RawInput, Rect, ViewportEvent, ViewportId, vec2};
use kurbo::Point;

use super::harness::{Target, TestWindow, WHOLE, name};
use super::seen::{Seen, gather};

impl TestWindow {
    /// Taps what has this name.
    pub(crate) fn tap(&mut self, name: &str) {
        let at = self.place_of(name);
        self.tap_at(at);
    }

    /// Taps the first whose name begins so: the rest of it tells figures.
    pub(crate) fn tap_like(&mut self, beginning: &str) -> String {
        let found = self.find(|n| n.starts_with(beginning));
        let name = found.as_ref().map(|t| t.name.clone()).unwrap_or_default();
        let at = self.place_in_sight(found, beginning);
        self.tap_at(at);
        name
    }

    /// Taps what has this name in a dialog, which stands in the middle.
    pub(crate) fn tap_in_dialog(&mut self, name: &str) {
        let off = |t: &Target| t.rect.center().distance(WHOLE.center());
        let found = self.targets().into_iter().filter(|t| t.name == name);
        let found = found.min_by(|a, b| off(a).total_cmp(&off(b)));
        let at = self.place_in_sight(found, name);
        self.tap_at(at);
    }

    /// Names of what can be tapped only after `done`.
    pub(crate) fn new_after(&mut self, done: impl FnOnce(&mut Self)) -> Vec<String> {
        let before: Vec<String> = self.targets().into_iter().map(|t| t.name).collect();
        done(self);
        self.targets().into_iter().map(|t| t.name).filter(|name| !before.contains(name)).collect()
    }

    /// Taps a finding of the once-over, and the first of what it offers.
    pub(crate) fn take_first_remedy(&mut self, finding: &str) {
        let offered = self.new_after(|w| drop(w.tap_like(&format!("{finding}: "))));
        self.tap(offered.first().unwrap_or_else(|| panic!("{finding} offers nothing")));
    }

    /// Taps each of these in turn.
    pub(crate) fn tap_all(&mut self, names: &[&str]) {
        for name in names {
            self.tap(name);
        }
    }

    pub(crate) fn tap_at(&mut self, at: Pos2) {
        self.event(Event::PointerMoved(at));
        self.event(button(at, true));
        self.event(button(at, false));
        self.frames(2);
    }

    /// Taps as a wet finger does: for 0.3 s, and slipping by 9 points on the way.
    pub(crate) fn tap_wet(&mut self, name: &str, slip: egui::Vec2) {
        let at = self.place_of(name);
        self.tap_wet_at(at, slip);
    }

    pub(crate) fn tap_wet_at(&mut self, at: Pos2, slip: egui::Vec2) {
        self.event(Event::PointerMoved(at));
        self.event(button(at, true));
        self.frames(1);
        self.event(Event::PointerMoved(at + slip));
        self.event(button(at + slip, false));
        self.frames(2);
    }

    /// Taps a field, writes over what stood there, and leaves it by Enter.
    pub(crate) fn type_into(&mut self, name: &str, words: &str) {
        self.tap(name);
        self.press_with(Modifiers::COMMAND, Key::A);
        self.write(words);
        self.press(Key::Enter);
    }

    /// Taps the wrist at this place of the piece, mm along the arm and across it.
    pub(crate) fn tap_sheet(&mut self, along_mm: f64, across_mm: f64) {
        let at = self.on_screen(along_mm, across_mm);
        self.tap_at(at);
    }

    /// Where a place of the piece is on the screen.
    pub(crate) fn on_screen(&mut self, along_mm: f64, across_mm: f64) -> Pos2 {
        self.frames(1);
        let at = self.window().sheet.hand.view.to_screen(Point::new(along_mm, across_mm));
        let at = crate::app::widgets::points::pos(at);
        let sheet = self.find(|n| n == name::SHEET).unwrap();
        assert!(sheet.rect.contains(at), "({along_mm}, {across_mm}) is not on the sheet: {at:?} in {:?}", sheet.rect);
        at
    }

    /// Drags what lies at one place of the piece to another, mm.
    pub(crate) fn drag(&mut self, from_mm: (f64, f64), to_mm: (f64, f64)) {
        let (from, to) = (self.on_screen(from_mm.0, from_mm.1), self.on_screen(to_mm.0, to_mm.1));
        self.drag_between(from, to);
    }

    pub(crate) fn drag_between(&mut self, from: Pos2, to: Pos2) {
        self.event(Event::PointerMoved(from));
        self.event(button(from, true));
        for n in 1..=6 {
            self.event(Event::PointerMoved(from + (to - from) * (n as f32 / 6.0)));
        }
        self.event(button(to, false));
        self.frames(2);
    }

    pub(crate) fn resize(&mut self, size: egui::Vec2) {
        self.harness.set_size(size);
        self.frames(3);
    }

    /// Asks the window to close, as its frame does; whether it would.
    pub(crate) fn close(&mut self) -> bool {
        self.frame_with(|input| {
            let root = input.viewports.entry(ViewportId::ROOT).or_default();
            root.events.push(ViewportEvent::Close);
        });
        let root = self.harness.output().viewport_output.get(&ViewportId::ROOT);
        !root.is_some_and(|out| out.commands.contains(&egui::ViewportCommand::CancelClose))
    }

    // The second window.

    fn second_painter(&self) -> Option<Arc<egui::viewport::DeferredViewportUiCallback>> {
        let mut others = self.harness.output().viewport_output.iter().filter(|(id, _)| **id != ViewportId::ROOT);
        others.find_map(|(_, out)| out.viewport_ui_cb.clone())
    }

    pub(crate) fn has_second(&self) -> bool {
        self.second_painter().is_some()
    }

    /// A frame of the second window.
    pub(crate) fn second(&self, events: Vec<ViewportEvent>) -> Seen {
        let others = self.harness.output().viewport_output.keys().copied();
        let id = others.into_iter().find(|id| *id != ViewportId::ROOT).expect("a second window");
        let paint = self.second_painter().expect("a second window");
        let size = Rect::from_min_size(Pos2::ZERO, vec2(1024.0, 720.0));
        let mut input = RawInput { viewport_id: id, screen_rect: Some(size), ..RawInput::default() };
        input.viewports.entry(id).or_default().events = events;
        let mut out = self.harness.ctx.run_ui(input, |ui| paint(ui));
        out.textures_delta.clear();
        let mut texts = Vec::new();
        out.shapes.iter().for_each(|s| gather(&s.shape, &mut texts));
        let nodes = out.platform_output.accesskit_update.take().map(|u| u.nodes).unwrap_or_default();
        Seen { texts, names: nodes.iter().filter_map(|(_, n)| n.label().map(str::to_owned)).collect() }
    }
}

pub(super) fn button(pos: Pos2, pressed: bool) -> Event {
    Event::PointerButton { pos, button: PointerButton::Primary, pressed, modifiers: Modifiers::NONE }
}
