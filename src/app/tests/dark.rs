//! The window without a screen, for tests: what it would paint, and what it would tell a screen reader.

use std::sync::Arc;

use egui::accesskit::Role;

use crate::app::action::Action;
use crate::app::pages::PageAction;
use crate::app::shell::window::Window;
use crate::app::tests::seen::{Seen, gather};
use crate::session::Session;
use crate::store::{Shop, order_from_text, samples};

/// A window without a screen.
pub(crate) struct Dark {
    pub(crate) ctx: egui::Context,
    pub(crate) window: Window,
    /// Seconds since it was opened.
    time: f64,
    /// What the frame before told a screen reader: names and places.
    nodes: Vec<(String, Option<egui::Rect>)>,
    /// Names and places of what can be tapped or written in.
    pub(crate) targets: Vec<(String, egui::Rect)>,
    pub(super) focused: Option<egui::Id>,
    /// What paints the second window.
    second: Option<Arc<egui::viewport::DeferredViewportUiCallback>>,
}

/// Something done: asked of the window, or of one of its pages.
pub(crate) enum DarkAction {
    OfWindow(Action),
    OfPage(PageAction),
}

impl From<Action> for DarkAction {
    fn from(action: Action) -> Self {
        Self::OfWindow(action)
    }
}

impl From<PageAction> for DarkAction {
    fn from(action: PageAction) -> Self {
        Self::OfPage(action)
    }
}

impl Dark {
    pub(crate) fn showing(sample: &str) -> Self {
        let shop = Shop::built_in();
        let found = samples::orders().find(|s| s.path.contains(sample)).unwrap();
        let order = order_from_text(found.text, found.path, shop.stock()).unwrap();
        let session = Session::with(order, Arc::clone(shop.stock()), Arc::clone(shop.style()));
        Self::of(shop, session, &[])
    }

    pub(crate) fn of(shop: Shop, session: Session, said: &[String]) -> Self {
        let ctx = egui::Context::default();
        ctx.enable_accesskit();
        let window = Window::with_settings(&ctx, shop, session, said, |_| None);
        Self { ctx, window, time: 0.0, nodes: Vec::new(), targets: Vec::new(), focused: None, second: None }
    }

    /// Does something as if it had been asked for while painting.
    pub(crate) fn do_action(&mut self, action: impl Into<DarkAction>) {
        let ctx = self.ctx.clone();
        match action.into() {
            DarkAction::OfWindow(action) => self.window.run(&ctx, action),
            DarkAction::OfPage(action) => self.window.run_of_page(&ctx, action),
        }
        self.window.finish_files(&ctx);
    }

    /// Waits until the first layouts have come.
    pub(crate) fn wait_for_layouts(&mut self) {
        let ctx = self.ctx.clone();
        self.window.sheet.layouts.as_mut().expect("layouts on offer").wait(&ctx);
    }

    /// Waits until a small step is found, and does what follows from it.
    pub(crate) fn wait_for_step(&mut self) {
        let (ctx, client_view) = (self.ctx.clone(), self.window.is_client_view);
        let layouts = self.window.sheet.layouts.as_mut().expect("layouts on offer");
        if let Some(action) = layouts.wait_for_step(&ctx, client_view) {
            self.do_action(action);
        }
    }

    pub(crate) fn frame(&mut self, events: Vec<egui::Event>) -> Seen {
        self.frame_of(egui::RawInput { events, ..Default::default() })
    }

    pub(crate) fn frame_of(&mut self, input: egui::RawInput) -> Seen {
        self.time += 0.1;
        let size = egui::Rect::from_min_size(egui::Pos2::ZERO, egui::vec2(1366.0, 740.0));
        let input = egui::RawInput { screen_rect: Some(size), time: Some(self.time), focused: true, ..input };
        let ctx = self.ctx.clone();
        let mut out = ctx.run_ui(input, |ui| {
            let ctx = ui.ctx().clone();
            self.window.poll_background(&ctx);
            self.window.frame(ui);
        });
        self.window.finish_files(&ctx);
        out.textures_delta.clear();
        self.focused = ctx.memory(|m| m.focused());
        let second = out.viewport_output.get(&crate::app::shell::client_window::viewport());
        self.second = second.and_then(|window| window.viewport_ui_cb.clone());
        let mut texts = Vec::new();
        out.shapes.iter().for_each(|s| gather(&s.shape, &mut texts));
        let update = out.platform_output.accesskit_update.take();
        let nodes = update.map(|u| u.nodes).unwrap_or_default();
        let rect_of = |n: &egui::accesskit::Node| {
            let r = n.bounds()?;
            let at = |x, y| crate::app::widgets::points::pos(kurbo::Point::new(x, y));
            Some(egui::Rect::from_min_max(at(r.x0, r.y0), at(r.x1, r.y1)))
        };
        self.nodes = nodes.iter().filter_map(|(_, n)| Some((n.label()?.to_owned(), rect_of(n)))).collect();
        let is_target = |n: &egui::accesskit::Node| matches!(n.role(), Role::Button | Role::CheckBox | Role::TextInput);
        let targets = nodes.iter().filter(|(_, n)| is_target(n) && !n.is_disabled());
        let named = |n: &egui::accesskit::Node| n.label().or(n.placeholder()).unwrap_or("a field").to_owned();
        self.targets = targets.filter_map(|(_, n)| Some((named(n), rect_of(n)?))).collect();
        let told = |n: &egui::accesskit::Node| {
            [n.label(), n.value(), n.description()].into_iter().flatten().map(str::to_owned).collect::<Vec<_>>()
        };
        Seen { texts, names: nodes.iter().flat_map(|(_, n)| told(n)).collect() }
    }

    pub(crate) fn has_second(&self) -> bool {
        self.second.is_some()
    }

    /// A frame of the second window.
    pub(crate) fn second(&self, events: Vec<egui::ViewportEvent>) -> Seen {
        let paint = self.second.clone().expect("a second window");
        let id = crate::app::shell::client_window::viewport();
        let size = egui::Rect::from_min_size(egui::Pos2::ZERO, egui::vec2(1024.0, 720.0));
        let input =
            egui::RawInput { viewport_id: id, screen_rect: Some(size), time: Some(self.time), ..Default::default() };
        let mut input = input;
        input.viewports.entry(id).or_default().events = events;
        let ctx = self.ctx.clone();
        let mut out = ctx.run_ui(input, |ui| paint(ui));
        out.textures_delta.clear();
        let mut texts = Vec::new();
        out.shapes.iter().for_each(|s| gather(&s.shape, &mut texts));
        let nodes = out.platform_output.accesskit_update.take().map(|u| u.nodes).unwrap_or_default();
        Seen { texts, names: nodes.iter().filter_map(|(_, n)| n.label().map(str::to_owned)).collect() }
    }

    /// What is seen once everything has settled.
    pub(crate) fn seen(&mut self) -> Seen {
        self.frame(Vec::new());
        self.frame(Vec::new());
        self.frame(Vec::new())
    }

    /// A key goes down and up.
    pub(crate) fn press(&mut self, key: egui::Key) {
        self.frame(vec![key_event(key, KeyStroke::Down)]);
        self.frame(vec![key_event(key, KeyStroke::Up)]);
    }

    /// A key goes down and stays down: it comes `times` times before it goes up.
    pub(super) fn hold(&mut self, key: egui::Key, times: usize) {
        for n in 0..times {
            self.frame(vec![key_event(key, if n > 0 { KeyStroke::Again } else { KeyStroke::Down })]);
        }
        self.frame(vec![key_event(key, KeyStroke::Up)]);
    }

    pub(crate) fn write(&mut self, words: &str) {
        for letter in words.chars() {
            self.frame(vec![egui::Event::Text(letter.to_string())]);
        }
    }

    /// The places of what is told to a screen reader under names that hold these words.
    pub(crate) fn places(&self, words: &str) -> Vec<(String, egui::Rect)> {
        let named = self.nodes.iter().filter(|(name, _)| name.contains(words));
        named.filter_map(|(name, rect)| Some((name.clone(), (*rect)?))).collect()
    }

    /// Taps the button of this name.
    pub(crate) fn tap(&mut self, name: &str) {
        self.seen();
        let found = self.nodes.iter().find(|(n, rect)| n == name && rect.is_some());
        let pos = found.and_then(|(_, rect)| *rect).unwrap_or_else(|| panic!("no {name} in {:?}", self.nodes)).center();
        self.tap_at(pos);
    }

    /// Taps the uppermost of several of this name.
    pub(crate) fn tap_uppermost(&mut self, name: &str) {
        self.seen();
        let found = self.nodes.iter().filter(|(n, _)| n == name).filter_map(|(_, rect)| *rect);
        let rect = found.min_by(|a, b| a.min.y.total_cmp(&b.min.y));
        let pos = rect.unwrap_or_else(|| panic!("no {name} in {:?}", self.nodes)).center();
        self.tap_at(pos);
    }

    fn tap_at(&mut self, pos: egui::Pos2) {
        let button = |pressed| egui::Event::PointerButton {
            pos,
            button: egui::PointerButton::Primary,
            pressed,
            modifiers: egui::Modifiers::NONE,
        };
        self.frame(vec![egui::Event::PointerMoved(pos)]);
        self.frame(vec![button(true)]);
        self.frame(vec![button(false)]);
        self.frame(Vec::new());
    }

    pub(crate) fn n_parts(&self) -> usize {
        self.window.session.order().piece.parts().len()
    }
}

/// What a key does.
#[derive(Clone, Copy, PartialEq)]
enum KeyStroke {
    Down,
    Again,
    Up,
}

fn key_event(key: egui::Key, stroke: KeyStroke) -> egui::Event {
    egui::Event::Key {
        key,
        physical_key: None,
        pressed: stroke != KeyStroke::Up,
        repeat: stroke == KeyStroke::Again,
        modifiers: egui::Modifiers::NONE,
    }
}

/// A window on a sample order in a shop of its own in this folder.
pub(crate) fn dark_in(folder: &std::path::Path, sample: &str) -> (Dark, std::path::PathBuf) {
    let shop = shop_in(folder);
    let file = folder.join(format!("orders/{sample}.ron"));
    let (session, _) = Session::open(&file, Arc::clone(shop.stock()), Arc::clone(shop.style())).unwrap();
    (Dark::of(shop, session, &[]), file)
}

/// A shop in a folder of its own, with the demo's orders.
pub(crate) fn shop_in(folder: &std::path::Path) -> Shop {
    samples::write_into(folder).unwrap();
    Shop::open(folder).unwrap()
}
