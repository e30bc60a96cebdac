//! The window without a screen, for tests: what it would paint, and what it would tell a screen reader.

use std::sync::Arc;

use egui::accesskit::Role;

use crate::app::action::{Action, Notice};
use crate::app::dialogs::{Dialog, NextStep};
use crate::app::page_list::PageId;
use crate::app::pages::PageAction;
use crate::app::sheet::layouts::SearchStage;
use crate::app::shell::window::Window;
use crate::app::typing::field::Field;
use crate::piece::PartId;
use crate::session::Session;
use crate::sheet::SheetInput;
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
    focused: Option<egui::Id>,
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

/// What is seen, and what a screen reader is told.
pub(crate) struct Seen {
    pub(crate) texts: Vec<String>,
    pub(crate) names: Vec<String>,
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
    fn hold(&mut self, key: egui::Key, times: usize) {
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

fn gather(shape: &egui::Shape, texts: &mut Vec<String>) {
    match shape {
        egui::Shape::Text(text) => texts.push(text.galley.text().to_owned()),
        egui::Shape::Vec(shapes) => shapes.iter().for_each(|s| gather(s, texts)),
        _ => {}
    }
}

#[test]
fn every_bloom_is_a_node_with_a_name() {
    let mut dark = Dark::showing("03-full");
    let seen = dark.seen();
    for name in ["Spray rose 1", "Spray rose 7", "Waxflower 3", "Italian ruscus 8", "Wrist", "Save"] {
        assert!(seen.names.iter().any(|n| n == name), "{name} is not among {:?}", seen.names);
    }
}

#[test]
fn no_word_of_the_window_blames() {
    for page in
        [PageId::Sheet, PageId::Order, PageId::Sizes, PageId::Variations, PageId::Price, PageId::Style, PageId::Colour]
    {
        let mut dark = Dark::showing("04-too-wide");
        dark.do_action(Action::Show(page));
        dark.do_action(Action::WristSize("nonsense".to_owned()));
        for help in [false, true] {
            if help {
                dark.do_action(Action::ShowHelp);
            }
            for text in dark.seen().texts {
                let lower = text.to_lowercase();
                for word in ["error", "invalid", " user", "fail", "text editor"] {
                    assert!(!lower.contains(word), "{text}");
                }
            }
        }
    }
}

#[test]
fn a_tiny_window_with_a_chosen_bloom_still_paints() {
    let mut dark = Dark::showing("03-full");
    dark.do_action(Action::Sheet(SheetInput::SelectAll));
    for (width, height) in [(1366.0, 740.0), (500.0, 400.0), (320.0, 240.0), (90.0, 60.0)] {
        let size = egui::Rect::from_min_size(egui::Pos2::ZERO, egui::vec2(width, height));
        let input = egui::RawInput { screen_rect: Some(size), ..Default::default() };
        let mut out = dark.ctx.clone().run_ui(input, |ui| dark.window.frame(ui));
        out.textures_delta.clear();
    }
}

#[test]
fn a_key_in_a_field_is_for_the_field_alone() {
    let mut dark = Dark::showing("06-empty");
    dark.seen();
    dark.press(egui::Key::Num1);
    dark.seen();
    dark.press(egui::Key::W);
    dark.seen();
    dark.write("Mb1");
    dark.press(egui::Key::Enter);
    assert_eq!((dark.n_parts(), dark.window.session.order().wearer.ends_with("Mb1")), (0, true));
    dark.do_action(Action::Pick(crate::stock::StockId::new("spray-rose")));
    dark.seen();
    dark.press(egui::Key::Enter);
    assert_eq!(dark.n_parts(), 1, "on the sheet Enter puts down what is in the hand");
}

#[test]
fn arrows_move_a_bloom_and_leave_the_focus_where_it_is() {
    let mut dark = Dark::showing("03-full");
    dark.seen();
    dark.tap("Spray rose 3");
    let id = dark.window.sheet.hand.selected[0];
    let (focus, at) = (dark.focused, dark.window.session.order().piece.part(id).unwrap().centre);
    assert!(focus.is_some(), "a tap gives the sheet the keyboard");
    for _ in 0..3 {
        dark.press(egui::Key::ArrowRight);
    }
    let now = dark.window.session.order().piece.part(id).unwrap().centre;
    assert!((now.y - at.y - 3.0).abs() < 1e-9 && now.x == at.x, "{at:?} {now:?}");
    assert_eq!(dark.focused, focus);
}

#[test]
fn a_key_held_down_is_one_step_and_pressed_again_another() {
    let mut dark = Dark::showing("03-full");
    dark.do_action(Action::Sheet(SheetInput::Select(vec![PartId(3)])));
    let turn = |dark: &Dark| dark.window.session.order().piece.part(PartId(3)).unwrap().turn_rad;
    let began = turn(&dark);
    let n_steps = |dark: &Dark| ((turn(dark) - began) / crate::sheet::TURN_STEP_RAD).rem_euclid(24.0).round();
    dark.hold(egui::Key::R, 4);
    dark.hold(egui::Key::R, 2);
    assert_eq!(n_steps(&dark), 6.0);
    dark.do_action(Action::Undo);
    assert_eq!(n_steps(&dark), 4.0);
    dark.do_action(Action::Undo);
    assert_eq!(turn(&dark), began);
}

#[test]
fn a_card_steps_aside_once_something_else_is_done() {
    let mut dark = Dark::showing("03-full");
    dark.do_action(Action::WristSize("1.55".to_owned()));
    assert!(matches!(&dark.window.notice, Some(Notice::Card { offer: Some(_), .. })));
    dark.do_action(Action::PointAt(None));
    assert!(dark.window.notice.is_some(), "looking is not doing");
    dark.do_action(Action::Undo);
    assert_eq!(dark.window.notice, None);
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

#[test]
fn a_copy_is_kept_where_the_order_itself_could_not_be() {
    let folder = tempfile::tempdir().unwrap();
    let (mut dark, file) = dark_in(folder.path(), "03-full");
    dark.do_action(Action::Write(Field::Wearer, "Beatrix the Second".to_owned()));
    let elsewhere = "// changed by something else";
    std::fs::write(&file, elsewhere).unwrap();
    dark.do_action(Action::Save);
    let Some(Notice::Card { offer: Some((label, action)), .. }) = dark.window.notice.clone() else {
        panic!("no copy is offered: {:?}", dark.window.notice)
    };
    assert_eq!(*action, Action::SaveCopy);
    dark.tap(&label);
    assert!(dark.window.session.is_saved(), "{:?}", dark.window.notice);
    let copy = dark.window.session.path().unwrap().to_owned();
    assert_ne!(copy, file);
    assert!(std::fs::read_to_string(copy).unwrap().contains("Beatrix the Second"));
    assert_eq!(std::fs::read_to_string(file).unwrap(), elsewhere);
}

#[test]
fn a_shop_that_cannot_be_read_still_opens_a_window_that_says_so() {
    for text in [None, Some("(version: 1, name: \"half")] {
        let folder = tempfile::tempdir().unwrap();
        if let Some(text) = text {
            std::fs::write(folder.path().join("shop.ron"), text).unwrap();
        }
        let opening = crate::app::Opening { shop: Some(folder.path().to_owned()), ..crate::app::Opening::default() };
        let crate::app::opening::Opened { shop, session, said, .. } =
            crate::app::opening::lay_out(&opening, folder.path());
        assert!(!said.is_empty(), "{text:?}");
        let mut dark = Dark::of(shop, session, &said);
        let seen = dark.seen();
        assert!(seen.texts.iter().any(|t| t.contains(said[0].as_str())), "{said:?} is not shown");
        dark.tap("OK");
        dark.do_action(Action::Pick(crate::stock::StockId::new("spray-rose")));
        dark.do_action(Action::Sheet(SheetInput::PutDownHere));
        assert_eq!((dark.n_parts(), &dark.window.notice), (1, &None));
        let left = std::fs::read_to_string(folder.path().join("shop.ron")).ok();
        assert_eq!(left.as_deref(), text, "a damaged file is left as it is");
    }
}

#[test]
fn closing_with_the_caret_in_the_name_asks_about_what_was_typed() {
    let mut dark = Dark::showing("06-empty");
    dark.seen();
    dark.press(egui::Key::W);
    dark.seen();
    dark.write("Zoe");
    let mut input = egui::RawInput::default();
    input.viewports.entry(egui::ViewportId::ROOT).or_default().events.push(egui::ViewportEvent::Close);
    dark.frame_of(input);
    assert_eq!(dark.window.dialog, Dialog::Leave(NextStep::Close));
    assert!(dark.window.session.order().wearer.ends_with("Zoe"));
    assert!(!dark.window.may_close);
}

#[test]
fn a_left_handed_wearer_is_asked_about_the_other_wrist_and_nothing_is_done_before_a_yes() {
    let mut dark = Dark::showing("03-full");
    let side = dark.window.session.order().wrist.side;
    dark.do_action(Action::Show(PageId::Order));
    dark.tap(if side == crate::piece::Side::Left { "Left-handed" } else { "Right-handed" });
    assert_eq!(dark.window.session.order().wrist.side, side);
    assert!(dark.seen().texts.iter().any(|t| t == "Order (1)"));
    dark.tap("Not now");
    assert!(dark.seen().texts.iter().any(|t| t == "Order"), "a question that was left is not asked again");
    dark.window.pages.Order = crate::app::pages::order::OrderPage::default();
    dark.tap("Yes, do it");
    assert_eq!(dark.window.session.order().wrist.side, side.other());
}

#[test]
fn what_the_wearer_does_not_bear_does_not_come_into_the_hand() {
    let mut dark = Dark::showing("06-empty");
    dark.do_action(Action::change(crate::book::Change::Allergies(Some(vec!["spray rose".to_owned()]))));
    dark.do_action(Action::Pick(crate::stock::StockId::new("spray-rose")));
    assert_eq!(dark.window.sheet.hand.held, crate::sheet::Held::Nothing);
    assert!(matches!(&dark.window.notice, Some(Notice::Card { words, .. }) if words.contains("ALLERGY: Spray rose")));
}

#[test]
fn esc_leads_from_a_page_back_to_the_sheet_and_a_key_opens_it() {
    let mut dark = Dark::showing("03-full");
    dark.seen();
    let pages = [
        (egui::Key::Q, PageId::Order),
        (egui::Key::C, PageId::Sizes),
        (egui::Key::J, PageId::Variations),
        (egui::Key::I, PageId::Price),
        (egui::Key::Y, PageId::Style),
        (egui::Key::D, PageId::Colour),
    ];
    for (key, page) in pages {
        dark.press(key);
        assert_eq!(dark.window.page, page);
        let parts = dark.n_parts();
        dark.press(egui::Key::Delete);
        dark.press(egui::Key::Escape);
        assert_eq!((dark.window.page, dark.n_parts()), (PageId::Sheet, parts));
    }
}

#[test]
fn a_crowded_layout_that_was_taken_comes_with_what_would_help() {
    let mut dark = Dark::showing("02-classic");
    let short = crate::piece::Footprint { length_mm: 62.0, ..dark.window.session.order().piece.footprint };
    dark.do_action(Action::edit(crate::piece::Edit::Reshape(short)));
    let take_first = |dark: &mut Dark| {
        dark.seen();
        dark.tap("Arrange for me");
        dark.wait_for_layouts();
        dark.press(egui::Key::Num1);
    };
    take_first(&mut dark);
    let Some(Notice::Crowded { words, ways }) = dark.window.notice.clone() else {
        panic!("nothing helps: {:?}", dark.window.notice);
    };
    assert!(words.contains("need an oval"), "{words}");
    let before = dark.window.session.order().piece.clone();
    dark.tap(&ways[0].label);
    let after = dark.window.session.order().piece.clone();
    assert_eq!(after, before.apply(&ways[0].edit).unwrap());
    assert!(dark.window.sheet.layouts.is_some() && dark.window.notice.is_none(), "set out again");
    // A client sees no such card.
    let mut hers = Dark::showing("02-classic");
    hers.do_action(Action::edit(crate::piece::Edit::Reshape(short)));
    hers.press(egui::Key::P);
    hers.wait_for_layouts();
    hers.do_action(Action::SwitchView);
    let before = hers.window.session.order().piece.clone();
    hers.press(egui::Key::Num1);
    assert_ne!(hers.window.session.order().piece, before, "it is taken");
    assert!(!matches!(hers.window.notice, Some(Notice::Crowded { .. })));
}

#[test]
fn in_the_panel_of_layouts_x_stops_the_search_and_adds_nothing() {
    let mut dark = Dark::showing("05-bare-spots");
    dark.seen();
    dark.press(egui::Key::P);
    dark.press(egui::Key::X);
    assert!(dark.window.sheet.layouts.is_some() && dark.window.session.order().partner_piece.is_none());
    assert!(dark.window.sheet.layouts.as_ref().is_some_and(|o| o.stage == SearchStage::Stopped));
    dark.press(egui::Key::Escape);
    dark.press(egui::Key::X);
    assert!(dark.window.session.order().partner_piece.is_some(), "on the sheet it makes one to match");
}
