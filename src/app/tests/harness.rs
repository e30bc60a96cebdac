//! The whole window without a screen, driven as a person or a screen reader drives it: by name, by key, by pointer. Tests speak to it alone
//! and know nothing of what the window is made of; what they ask of the order they ask of what was saved, or of the commands' own reports.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::rc::Rc;
use std::sync::Arc;
use std::time::{Duration, Instant};

use egui::accesskit::Role;
use egui::{Event, Key, Modifiers, PointerButton, Pos2, RawInput, Rect, ViewportEvent, ViewportId, pos2, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::NodeT as _;
use kurbo::Point;
use serde_json::Value;

use crate::app::opening::{Opened, Opening, lay_out};
use crate::app::shell::window::Window;
use crate::app::workers::photo_worker::PhotoSource;
use crate::book::Order;
use crate::piece::{HouseStyle, Piece};
use crate::store::samples;

/// Names that many tests tap. Everything else stands where it is used once.
pub(crate) mod name {
    /// The wrist and what lies on it.
    pub(crate) const SHEET: &str = "Wrist";
    /// The fields of the strip above.
    pub(crate) const WEARER: &str = "Wearer\u{2019}s name";
    pub(crate) const GIRTH: &str = "Wrist size";
    pub(crate) const NEW: &str = "New";
    pub(crate) const UNDO: &str = "Undo (Ctrl+Z)";
    pub(crate) const REDO: &str = "Redo (Ctrl+Y)";
    pub(crate) const SAVE: &str = "Save";
    pub(crate) const VIEW: &str = "View";
    pub(crate) const ACCEPT: &str = "Yes, do it";
    pub(crate) const NOT_NOW: &str = "Not now";
    pub(crate) const UNDERSTOOD: &str = "OK";
}

/// Points of the window: that of a laptop of 1366 x 768, less its bar.
pub(crate) const SIZE: egui::Vec2 = vec2(1366.0, 740.0);
/// Seconds from one frame to the next.
const FRAME: f32 = 0.1;
/// The longest that a test waits for a thread.
const PATIENCE: Duration = Duration::from_secs(30);

const WHOLE: Rect = Rect { min: Pos2::ZERO, max: pos2(SIZE.x, SIZE.y) };

/// A window and the shop that it shows.
pub(crate) struct TestWindow {
    harness: Harness<'static, Option<Window>>,
    shop: PathBuf,
    /// Goes when the window does.
    _folder: Option<tempfile::TempDir>,
}

/// What is seen, and what a screen reader is told.
pub(crate) struct Seen {
    pub(crate) texts: Vec<String>,
    pub(crate) names: Vec<String>,
}

impl Seen {
    /// All of it, a line each.
    pub(crate) fn all(&self) -> String {
        self.texts.iter().chain(&self.names).cloned().collect::<Vec<_>>().join("\n")
    }

    pub(crate) fn says(&self, words: &str) -> bool {
        self.texts.iter().chain(&self.names).any(|t| t.contains(words))
    }
}

/// Something to tap or to write in.
#[derive(Clone, Debug)]
pub(crate) struct Target {
    pub(crate) name: String,
    pub(crate) role: Role,
    pub(crate) rect: Rect,
}

/// With what a person does it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum By {
    Pointer,
    Keys,
}

/// Settings as they outlive a window.
#[derive(Clone, Default)]
pub(crate) struct Settings(BTreeMap<String, String>);

impl eframe::Storage for Settings {
    fn get_string(&self, key: &str) -> Option<String> {
        self.0.get(key).cloned()
    }
    fn set_string(&mut self, key: &str, value: String) {
        self.0.insert(key.to_owned(), value);
    }
    fn remove_string(&mut self, key: &str) {
        self.0.remove(key);
    }
    fn flush(&mut self) {}
}

/// The sample shop, laid out in a folder of its own.
pub(crate) fn sample_shop() -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    samples::write_into(folder.path()).unwrap();
    folder
}

/// The file of an order in a shop's folder.
pub(crate) fn order_file(shop: &Path, order: &str) -> PathBuf {
    shop.join("orders").join(format!("{order}.ron"))
}

/// An order of another wearer, made from a sample of the shop; `change` is done to its text.
pub(crate) fn order_of(shop: &Path, wearer: &str, sample: &str, change: impl Fn(String) -> String) -> PathBuf {
    let text = std::fs::read_to_string(order_file(shop, sample)).unwrap();
    let (before, after) = text.split_once("wearer: \"").unwrap();
    let (_, rest) = after.split_once('"').unwrap();
    let file = order_file(shop, &wearer.to_lowercase());
    std::fs::write(&file, change(format!("{before}wearer: \"{wearer}\"{rest}"))).unwrap();
    file
}

/// What a command reports of an order: the same figures that a person gets from it.
pub(crate) fn report(file: &Path, command: &str) -> Value {
    let words = [command, &file.display().to_string(), "--json"].map(std::ffi::OsString::from);
    let (call, shop) = crate::cli::parse_args(words).unwrap();
    let (text, _) = crate::cli::run(&call, shop.as_deref(), &mut |_| {}).unwrap();
    serde_json::from_str(&text).unwrap()
}

impl TestWindow {
    /// On a sample order, in a sample shop of its own.
    pub(crate) fn on_sample(sample: &str) -> Self {
        let folder = sample_shop();
        let window = Self::on(&order_file(folder.path(), sample));
        Self { _folder: Some(folder), ..window }
    }

    /// On the file of an order.
    pub(crate) fn on(file: &Path) -> Self {
        Self::with(&Opening { file: Some(file.to_owned()), ..Opening::default() }, &own_of(file), &Settings::default())
    }

    /// On the file of an order, with a photo of the dress that was named in the call.
    pub(crate) fn on_with_photo(file: &Path, photo: &Path) -> Self {
        let mut window = Self::on(file);
        let ctx = window.harness.ctx.clone();
        window.window_mut().read_photo(&ctx, PhotoSource::File(photo.to_owned()));
        window
    }

    /// As a start of the program opens it, with the settings of the window before.
    pub(crate) fn with(opening: &Opening, own: &Path, settings: &Settings) -> Self {
        let opened = lay_out(opening, own);
        let shop = opening.shop.clone().or_else(|| Some(opening.file.as_ref()?.parent()?.parent()?.to_owned()));
        let shop = shop.unwrap_or_else(|| own.to_owned());
        Self { harness: harness_on(opened, settings.clone()), shop, _folder: None }
    }

    /// What a window that closes leaves for the next.
    pub(crate) fn settings(&mut self) -> Settings {
        let mut settings = Settings::default();
        eframe::App::save(self.window_mut(), &mut settings);
        settings
    }

    fn window(&self) -> &Window {
        self.harness.state().as_ref().unwrap()
    }

    fn window_mut(&mut self) -> &mut Window {
        self.harness.state_mut().as_mut().unwrap()
    }

    // What is there.

    /// The order in front, saved or not.
    pub(crate) fn order(&self) -> Arc<Order> {
        Arc::clone(self.window().session.order())
    }

    /// The wearer's piece.
    pub(crate) fn piece(&self) -> Piece {
        self.order().piece.clone()
    }

    pub(crate) fn n_parts(&self) -> usize {
        self.order().piece.parts().len()
    }

    /// The shop rules that hold in the window.
    pub(crate) fn style(&self) -> Arc<HouseStyle> {
        Arc::clone(self.window().session.style())
    }

    pub(crate) fn is_saved(&self) -> bool {
        self.window().session.is_saved()
    }

    pub(crate) fn shop(&self) -> &Path {
        &self.shop
    }

    /// The file of the order in front.
    pub(crate) fn file(&self) -> PathBuf {
        self.window().session.path().unwrap().to_owned()
    }

    /// Saves the order by key and returns what a command reports of its file.
    pub(crate) fn saved(&mut self, command: &str) -> Value {
        report(&self.save(), command)
    }

    /// Saves the order by key.
    pub(crate) fn save(&mut self) -> PathBuf {
        self.press_with(Modifiers::COMMAND, Key::S);
        self.wait_until_saved();
        self.file()
    }

    /// A file is written beside the window.
    pub(crate) fn wait_until_saved(&mut self) {
        self.wait_until("a saved order", |w| w.is_saved());
        self.frames(2);
    }

    /// Saves the order and returns what stands in its file.
    pub(crate) fn saved_text(&mut self) -> String {
        std::fs::read_to_string(self.save()).unwrap()
    }

    /// What is seen once everything has settled.
    pub(crate) fn seen(&mut self) -> Seen {
        self.frames(3);
        self.seen_now()
    }

    fn seen_now(&self) -> Seen {
        let mut texts = Vec::new();
        self.harness.output().shapes.iter().for_each(|s| gather(&s.shape, &mut texts));
        let told = |node: egui_kittest::Node<'_>| {
            let node = node.accesskit_node();
            [node.label(), node.value(), node.description(), node.placeholder().map(str::to_owned)]
        };
        let names = self.harness.root().children_recursive().flat_map(told).flatten().collect();
        Seen { texts, names }
    }

    /// Whether this is seen, or told to a screen reader.
    pub(crate) fn says(&mut self, words: &str) -> bool {
        self.seen().says(words)
    }

    /// Everything that can be tapped or written in.
    pub(crate) fn targets(&mut self) -> Vec<Target> {
        self.frames(2);
        self.all_named().into_iter().filter(Target::is_one).collect()
    }

    /// Whether something of this name can be tapped.
    pub(crate) fn offers(&mut self, name: &str) -> bool {
        self.targets().iter().any(|t| t.name == name)
    }

    /// Everything with a name and a place that is not switched off.
    fn all_named(&self) -> Vec<Target> {
        let nodes = self.harness.root().children_recursive();
        let named = |node: egui_kittest::Node<'_>| {
            let of = node.accesskit_node();
            let name = of.label().or_else(|| of.data().placeholder().map(str::to_owned));
            let name = name.or_else(|| (of.role() == Role::TextInput).then(|| "a field".to_owned()))?;
            let placed = of.raw_bounds().is_some() && !of.is_disabled();
            placed.then(|| Target { name, role: of.role(), rect: node.rect() })
        };
        nodes.filter_map(named).collect()
    }

    /// The place of what has this name: what can be tapped comes before what is only told.
    pub(crate) fn find(&mut self, is_it: impl Fn(&str) -> bool) -> Option<Target> {
        self.frames(2);
        let mut found = self.all_named();
        found.retain(|t| is_it(&t.name) && t.rect.is_finite());
        found.sort_by_key(|t| !t.is_one());
        found.into_iter().next()
    }

    fn place_of(&mut self, name: &str) -> Pos2 {
        let found = self.find(|n| n == name);
        self.place_in_sight(found, name)
    }

    fn place_in_sight(&self, found: Option<Target>, name: &str) -> Pos2 {
        let target = found.unwrap_or_else(|| panic!("no {name:?} in\n{}", self.names()));
        assert!(WHOLE.contains(target.rect.center()), "{name:?} lies beyond the window: {:?}", target.rect);
        target.rect.center()
    }

    fn names(&self) -> String {
        self.all_named().iter().map(|t| format!("{:?} {}", t.role, t.name)).collect::<Vec<_>>().join("\n")
    }

    // What a person does.

    pub(crate) fn frames(&mut self, n: usize) {
        (0..n).for_each(|_| self.harness.step());
    }

    /// A frame that gets this from the system.
    pub(crate) fn frame_with(&mut self, input: impl FnOnce(&mut RawInput)) {
        input(self.harness.input_mut());
        self.harness.step();
    }

    pub(crate) fn event(&mut self, event: Event) {
        self.harness.event(event);
        self.harness.step();
    }

    /// Time goes by with nothing done.
    pub(crate) fn rest(&mut self, seconds: f32) {
        self.frames(crate::units::ceil_u32(f64::from(seconds / FRAME)) as usize);
    }

    /// Frames until `done`; threads have a minute.
    pub(crate) fn wait_until(&mut self, what: &str, mut done: impl FnMut(&mut Self) -> bool) {
        let began = Instant::now();
        while !done(self) {
            assert!(began.elapsed() < PATIENCE, "{what} never came: {}", self.seen().texts.join("\n"));
            std::thread::sleep(Duration::from_millis(2));
            self.harness.step();
        }
    }

    /// Whether no other frame is asked for, but one in a while that looks whether a file has changed.
    pub(crate) fn is_at_rest(&self) -> bool {
        let root = self.harness.output().viewport_output.get(&ViewportId::ROOT);
        root.is_some_and(|out| out.repaint_delay >= Duration::from_secs(1))
    }

    /// Waits until these words are seen or told.
    pub(crate) fn wait_for(&mut self, words: &str) {
        self.wait_until(words, |w| w.seen_now().says(words));
    }

    pub(crate) fn press(&mut self, key: Key) {
        self.press_with(Modifiers::NONE, key);
    }

    pub(crate) fn press_all(&mut self, keys: &[Key]) {
        for key in keys {
            self.press(*key);
        }
    }

    pub(crate) fn press_with(&mut self, modifiers: Modifiers, key: Key) {
        if modifiers == Modifiers::NONE {
            self.harness.key_press(key);
        } else {
            self.harness.key_press_modifiers(modifiers, key);
        }
        self.frames(2);
    }

    /// A key goes down and stays down: it comes `times` times before it goes up.
    pub(crate) fn hold(&mut self, key: Key, times: usize) {
        let event =
            |pressed, repeat| Event::Key { key, physical_key: None, pressed, repeat, modifiers: Modifiers::NONE };
        (0..times).for_each(|n| self.event(event(true, n > 0)));
        self.event(event(false, false));
    }

    pub(crate) fn undo(&mut self) {
        self.press_with(Modifiers::COMMAND, Key::Z);
    }

    pub(crate) fn redo(&mut self) {
        self.press_with(Modifiers::COMMAND, Key::Y);
    }

    /// Types, a letter to a frame, into what has the keyboard.
    pub(crate) fn write(&mut self, words: &str) {
        for letter in words.chars() {
            self.event(Event::Text(letter.to_string()));
        }
    }

    /// Goes from stop to stop by key until what has this name has the keyboard.
    pub(crate) fn tab_to(&mut self, name: &str) {
        self.tab_until(name, |n| n == name);
    }

    fn tab_until(&mut self, name: &str, is_it: impl Fn(&str) -> bool) {
        let mut passed = Vec::new();
        for _ in 0..80 {
            let focused = self.focused();
            if focused.as_deref().is_some_and(&is_it) {
                return;
            }
            passed.extend(focused);
            self.press(Key::Tab);
        }
        panic!("{name:?} is not reached by Tab, these are: {passed:?}");
    }

    /// Goes to the first stop whose name begins so, and presses it.
    pub(crate) fn press_like(&mut self, beginning: &str) {
        self.tab_until(beginning, |n| n.starts_with(beginning));
        self.press(Key::Enter);
    }

    /// The name of what has the keyboard.
    pub(crate) fn focused(&self) -> Option<String> {
        let mut nodes = self.harness.root().children_recursive().filter(|node| node.is_focused());
        nodes.find_map(|node| {
            let of = node.accesskit_node();
            of.label().or_else(|| of.data().placeholder().map(str::to_owned))
        })
    }

    /// Chooses what has this name by pointer or by keys alone.
    pub(crate) fn choose(&mut self, by: By, name: &str) {
        match by {
            By::Pointer => self.tap(name),
            By::Keys => {
                self.tab_to(name);
                self.press(Key::Enter);
            }
        }
    }

    /// Accepts all that is proposed for this wearer.
    pub(crate) fn accept_all(&mut self, by: By) {
        let mut n = 0;
        while self.offers(name::ACCEPT) {
            self.choose(by, name::ACCEPT);
            n += 1;
            assert!(n < 9, "it is proposed again and again");
        }
        assert!(n > 0, "nothing was proposed");
    }

    /// Writes in a field that is entered by pointer or by keys alone, and leaves it.
    pub(crate) fn write_in(&mut self, by: By, field: &str, words: &str) {
        match by {
            By::Pointer => self.tap(field),
            By::Keys => self.tab_to(field),
        }
        self.write(words);
        self.press(Key::Enter);
    }

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

impl Target {
    /// Whether it can be tapped or written in.
    fn is_one(&self) -> bool {
        matches!(self.role, Role::Button | Role::CheckBox | Role::RadioButton | Role::TextInput | Role::ListBoxOption)
    }
}

/// The folder that the computer would give the program: one of the test's own.
fn own_of(file: &Path) -> PathBuf {
    file.parent().and_then(Path::parent).unwrap().join("own")
}

/// The window is made before the first frame, as eframe does it, and painted without kittest's margin.
fn harness_on(opened: Opened, settings: Settings) -> Harness<'static, Option<Window>> {
    let made: Rc<RefCell<Option<Window>>> = Rc::default();
    let slot = Rc::clone(&made);
    let set_up = move |ctx: &egui::Context| {
        // As on a desktop, it may open others.
        ctx.set_embed_viewports(false);
        let mut context = eframe::CreationContext::_new_kittest(ctx.clone());
        context.storage = Some(&settings);
        *slot.borrow_mut() = Some(Window::new(&context, opened));
    };
    let paint = move |ui: &mut egui::Ui, window: &mut Option<Window>| {
        let window = window.get_or_insert_with(|| made.borrow_mut().take().unwrap());
        let (ctx, mut frame) = (ui.ctx().clone(), eframe::Frame::_new_kittest());
        eframe::App::logic(window, &ctx, &mut frame);
        let whole = ctx.content_rect();
        ui.scope_builder(egui::UiBuilder::new().max_rect(whole), |ui| {
            ui.set_clip_rect(whole);
            eframe::App::ui(window, ui, &mut frame);
        });
    };
    let builder = Harness::builder().with_size(SIZE).with_step_dt(FRAME).with_context_setup(set_up);
    builder.build_ui_state(paint, None)
}

fn button(pos: Pos2, pressed: bool) -> Event {
    Event::PointerButton { pos, button: PointerButton::Primary, pressed, modifiers: Modifiers::NONE }
}

fn gather(shape: &egui::Shape, texts: &mut Vec<String>) {
    match shape {
        egui::Shape::Text(text) => texts.push(text.galley.text().to_owned()),
        egui::Shape::Vec(shapes) => shapes.iter().for_each(|s| gather(s, texts)),
        _ => {}
    }
}
