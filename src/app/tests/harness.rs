//! The whole window without a screen, driven as a person or a screen reader drives it: by name, by key, by pointer. Tests speak to it alone
//! and know nothing of what the window is made of; what they ask of the order they ask of what was saved, or of the commands' own reports.

use std::cell::RefCell;
use std::path::{Path, PathBuf};
use std::rc::Rc;
use std::sync::Arc;
use std::time::{Duration, Instant};

use egui::accesskit::Role;
use egui::{Event, Key, Modifiers, Pos2, RawInput, Rect, ViewportId, pos2, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::NodeT as _;
use serde_json::Value;

use crate::app::opening::{Opened, Opening, lay_out};
use crate::app::shell::window::Window;
use crate::app::tests::sample_shop::{Settings, order_file, report, sample_shop};
use crate::app::tests::seen::{Seen, gather};
use crate::app::workers::photo_worker::PhotoSource;
use crate::book::Order;
use crate::piece::{HouseStyle, Piece};

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

pub(super) const WHOLE: Rect = Rect { min: Pos2::ZERO, max: pos2(SIZE.x, SIZE.y) };

/// A window and the shop that it shows.
pub(crate) struct TestWindow {
    pub(super) harness: Harness<'static, Option<Window>>,
    shop: PathBuf,
    /// Goes when the window does.
    _folder: Option<tempfile::TempDir>,
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

    pub(super) fn window(&self) -> &Window {
        self.harness.state().as_ref().unwrap()
    }

    pub(super) fn window_mut(&mut self) -> &mut Window {
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

    /// Whether the order in front has no file yet.
    pub(crate) fn file_is_none(&self) -> bool {
        self.window().session.path().is_none()
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

    pub(super) fn seen_now(&self) -> Seen {
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
    pub(super) fn all_named(&self) -> Vec<Target> {
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

    pub(super) fn place_of(&mut self, name: &str) -> Pos2 {
        let found = self.find(|n| n == name);
        self.place_in_sight(found, name)
    }

    pub(super) fn place_in_sight(&self, found: Option<Target>, name: &str) -> Pos2 {
        let target = found.unwrap_or_else(|| panic!("no {name:?} in\n{}", self.names()));
        assert!(WHOLE.contains(target.rect.center()), "{name:?} lies beyond the window: {:?}", target.rect);
        target.rect.center()
    }

    pub(super) fn names(&self) -> String {
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

    /// Files that were asked for are written beside the window.
    pub(crate) fn wait_for_files(&mut self) {
        let ctx = self.harness.ctx.clone();
        self.window_mut().finish_files(&ctx);
        self.frames(2);
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

    pub(super) fn tab_until(&mut self, name: &str, is_it: impl Fn(&str) -> bool) {
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
}

impl Target {
    /// Whether it can be tapped or written in.
    pub(super) fn is_one(&self) -> bool {
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
