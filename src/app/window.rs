//! The window's state, its frame, and the one place where what a person did is done.

use std::collections::BTreeMap;
use std::path::PathBuf;
use std::sync::Arc;
use std::sync::mpsc::Receiver;

use egui::{Panel, Ui};

use super::action::Action;
use super::canvas::Canvas;
use super::files::{Asked, in_short};
use super::theme::{self, Colours, Light};
use super::thumbs::Thumbs;
use super::{dialogs, keys, rail, sheet_place, side, strip, trays};
use crate::book::Change;
use crate::once_over::Remedy;
use crate::piece::{Edit, Footprint, NewPart, PartId, Question};
use crate::session::Session;
use crate::set_out::next_place;
use crate::sheet::{Deed, Held, Sheet};
use crate::stock::{Role, StockId};
use crate::store::Shop;
use crate::units::{Doubt, Length};

/// What lies over the sheet.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Dialog {
    /// Nothing.
    None,
    /// The orders of the shop, with what is searched for.
    Orders { search: String, all: Arc<Vec<(PathBuf, String)>> },
    /// Something not kept would be left.
    Leave(Next),
    /// Keys and gestures.
    Help,
}

/// Where to go when the order in front has been seen to.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Next {
    /// Close the window.
    Close,
    /// A new order.
    New,
    /// Another order.
    Open(PathBuf),
}

/// Something said to the person in front.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Said {
    /// Done: a few words in the line under the sheet, gone with the next step.
    Done(String),
    /// Could not be done, or must be asked: a card over the sheet, with a thing to do about it.
    Wants { words: String, offer: Option<(String, Action)> },
}

/// Everything that lives as long as the window. View state is here and in the sheet; nothing of it is kept in an order.
pub(super) struct Window {
    pub(super) shop: Shop,
    pub(super) session: Session,
    pub(super) sheet: Sheet,
    pub(super) canvas: Canvas,
    pub(super) thumbs: Thumbs,
    pub(super) light: Light,
    pub(super) client_side: bool,
    pub(super) tray: Role,
    pub(super) colours_chosen: BTreeMap<StockId, Arc<str>>,
    /// The finding that was tapped: its marks and remedies are shown until it is tapped again.
    pub(super) pointed_at: Option<Question>,
    /// The finding that the pointer or the focus rests on: its marks are shown meanwhile.
    pub(super) hovered: Option<Question>,
    /// Whether a text field had the keyboard in the frame before.
    pub(super) was_typing: bool,
    /// Whether the sheet, or a part on it, has the keyboard.
    pub(super) sheet_in_focus: bool,
    /// Whether the sheet is to get the keyboard.
    pub(super) focus_sheet: bool,
    pub(super) well_shown: bool,
    pub(super) dialog: Dialog,
    pub(super) said: Option<Said>,
    pub(super) fields: strip::Fields,
    pub(super) fitted: bool,
    pub(super) dragging_from_tray: bool,
    pub(super) waiting: Option<(Asked, Receiver<Option<PathBuf>>)>,
    pub(super) may_close: bool,
}

impl Window {
    pub(super) fn new(context: &eframe::CreationContext<'_>, shop: Shop, session: Session, said: &[String]) -> Self {
        let kept = |key: &str| context.storage.and_then(|s| s.get_string(key));
        Self::in_light(&context.egui_ctx, shop, session, said, kept)
    }

    /// A window with the settings that were kept.
    fn in_light(
        ctx: &egui::Context,
        shop: Shop,
        session: Session,
        said: &[String],
        kept: impl Fn(&str) -> Option<String>,
    ) -> Self {
        theme::put_fonts(ctx);
        let light = kept("light").and_then(|w| Light::from_word(&w)).unwrap_or(Light::Day);
        theme::dress(ctx, light);
        let said = (!said.is_empty()).then(|| Said::Wants { words: in_short(said), offer: None });
        Self {
            shop,
            session,
            sheet: Sheet::new(),
            canvas: Canvas::new(),
            thumbs: Thumbs::new(),
            light,
            client_side: kept("client_side").is_some_and(|w| w == "yes"),
            tray: Role::Bloom,
            colours_chosen: BTreeMap::new(),
            pointed_at: None,
            hovered: None,
            was_typing: false,
            sheet_in_focus: false,
            focus_sheet: false,
            well_shown: false,
            dialog: Dialog::None,
            said,
            fields: strip::Fields::default(),
            fitted: false,
            dragging_from_tray: false,
            waiting: None,
            may_close: false,
        }
    }

    pub(super) fn colours(&self) -> Colours {
        Colours::of(self.light)
    }

    /// The colour in which a botanical is taken from its tray.
    pub(super) fn colour_for(&self, id: &StockId) -> Arc<str> {
        let chosen = self.colours_chosen.get(id).cloned();
        let first =
            || self.session.stock().botanical(id).and_then(|b| b.colours.first().map(|c| c.name.as_str().into()));
        chosen.or_else(first).unwrap_or_else(|| Arc::from("white"))
    }

    fn lay(&mut self, ui: &mut Ui) -> Vec<Action> {
        let mut actions = Vec::new();
        let c = self.colours();
        let frame = egui::Frame::new().fill(c.paper).inner_margin(egui::Margin::symmetric(12, 6));
        let rail_frame = egui::Frame::new().fill(c.kraft).inner_margin(egui::Margin::symmetric(6, 10));
        Panel::left("rail").exact_size(84.0).resizable(false).frame(rail_frame).show(ui, |ui| {
            rail::rail_ui(ui, self, &mut actions);
        });
        Panel::top("strip").exact_size(64.0).resizable(false).frame(frame).show(ui, |ui| {
            strip::strip_ui(ui, self, &mut actions);
        });
        Panel::bottom("trays").exact_size(178.0).resizable(false).frame(frame).show(ui, |ui| {
            trays::trays_ui(ui, self, &mut actions);
        });
        let width = if self.client_side { 220.0 } else { 332.0 };
        Panel::right("side").exact_size(width).resizable(false).frame(frame).show(ui, |ui| {
            side::side_ui(ui, self, &mut actions);
        });
        egui::CentralPanel::default().frame(egui::Frame::new().fill(c.paper)).show(ui, |ui| {
            sheet_place::sheet_ui(ui, self, &mut actions);
        });
        dialogs::dialogs_ui(ui, self, &mut actions);
        keys::read_keys(ui, self, &mut actions);
        actions
    }

    fn run(&mut self, ctx: &egui::Context, action: Action) {
        match action {
            Action::Deeds(deeds) => self.do_deeds(&deeds),
            Action::Edit(edit) => self.change(&Change::Piece(edit)),
            Action::Mend(remedy) => self.mend(&remedy),
            Action::Change(change) => self.change(&change),
            Action::Wearer(name) => self.session.rename(&name),
            Action::Type(field) => self.fields.ask_for(field),
            Action::EndRun => self.session.end_run(),
            Action::Girth(words) => self.take_girth(&words),
            Action::Side(side) => self.change(&Change::Side(side)),
            Action::Tray(role) => self.tray = role,
            Action::Pick(id) => self.pick(&id),
            Action::Colour(name) => self.recolour(&name),
            Action::PutDown => self.put_down(),
            Action::Lift => self.sheet.lift(),
            Action::Cancel => self.cancel(),
            Action::Point(question) => self.pointed_at = question,
            Action::ShowWell => self.well_shown = !self.well_shown,
            Action::Undo => self.step_back(true),
            Action::Redo => self.step_back(false),
            Action::Keep => drop(self.keep()),
            Action::KeepCopy => self.keep_copy(ctx),
            Action::KeepPicture => self.keep_picture(),
            Action::ShowOrders | Action::New if self.client_side => {}
            Action::ShowOrders => {
                self.dialog = Dialog::Orders { search: String::new(), all: Arc::new(self.shop.orders_named("")) };
            }
            Action::New => self.leave_for(ctx, Next::New),
            Action::AskForFile => self.ask_for_file(ctx),
            Action::Open(path) => self.leave_for(ctx, Next::Open(path)),
            Action::ShowHelp => self.dialog = Dialog::Help,
            Action::CloseDialog => self.dialog = Dialog::None,
            Action::TurnScreen => self.turn_screen(),
            Action::Light => {
                self.light = self.light.next();
                theme::dress(ctx, self.light);
            }
            Action::Whole => self.fitted = false,
            Action::Zoom(by) => self.sheet.view.zoom(self.sheet.view.area.center(), by),
            Action::Select(id) => self.sheet.selected = vec![id],
            Action::SelectAll => {
                self.sheet.selected = self.session.order().piece.parts().iter().map(|p| p.id).collect();
            }
            Action::SelectNext(back) => self.sheet.select_next(back, &self.session.order().piece),
            Action::LeaveUnkept => self.go_on(ctx, true),
            Action::KeepAndGoOn => {
                let kept = self.keep();
                self.go_on(ctx, kept);
            }
            Action::Heard => self.said = None,
        }
    }

    fn do_deeds(&mut self, deeds: &[Deed]) {
        for deed in deeds {
            self.do_deed(deed);
        }
    }

    fn do_deed(&mut self, deed: &Deed) {
        if matches!(self.said, Some(Said::Done(_))) {
            self.said = None;
        }
        let done = match deed {
            Deed::Do(edit) => self.session.change(&Change::Piece(edit.clone())),
            Deed::DoInRun(edit, run) => self.session.edit_in_run(edit, run),
            Deed::Preview(edit) => self.session.preview(edit),
            Deed::Settle => {
                self.session.settle();
                Ok(())
            }
            Deed::Abandon => {
                self.session.abandon();
                Ok(())
            }
        };
        match done {
            Err(refusal) => self.say(&refusal.to_string()),
            Ok(()) if matches!(deed, Deed::Do(Edit::Place(_))) => self.after_placing(),
            Ok(()) => {}
        }
    }

    /// When the last one promised has been put on, the hand is empty again.
    fn after_placing(&mut self) {
        let Held::FromTray { new, .. } = &self.sheet.held else { return };
        let role = new.role;
        let derived = self.session.derived();
        let promised = self.session.order().size.is_some();
        let left = derived.stems.lines.iter().any(|l| l.role == role && l.to_place > 0);
        let planned = derived.stems.lines.iter().any(|l| l.role == role);
        if promised && planned && !left {
            self.sheet.held = Held::Nothing;
            self.sheet.selected = self.newest().into_iter().collect();
        } else if let Held::FromTray { new, .. } = &mut self.sheet.held {
            new.centre = next_place(&self.session.order().piece, self.session.stock());
        }
    }

    fn newest(&self) -> Option<PartId> {
        self.session.order().piece.parts().last().map(|p| p.id)
    }

    fn change(&mut self, change: &Change) {
        if matches!(self.said, Some(Said::Done(_))) {
            self.said = None;
        }
        let before = self.session.order().piece.footprint;
        let changed = self.session.change(change);
        self.refit_after(before);
        match changed {
            Ok(()) => self.sheet.forget_gone(&self.session.order().piece),
            Err(refusal) => self.say(&refusal.to_string()),
        }
    }

    /// Another oval is shown whole.
    fn refit_after(&mut self, before: Footprint) {
        if self.session.order().piece.footprint != before {
            self.fitted = false;
        }
    }

    fn mend(&mut self, remedy: &Remedy) {
        match self.session.mend(remedy) {
            Ok(true) => {}
            Ok(false) => self.say("Nothing can be moved that way: what would have to move is locked."),
            Err(refusal) => self.say(&refusal.to_string()),
        }
    }

    pub(super) fn take_girth(&mut self, words: &str) {
        match Length::parse_within(words, &crate::piece::Wrist::GIRTHS_MM) {
            Ok(girth) if girth == self.session.order().wrist.girth => {}
            Ok(girth) => {
                self.said = None;
                self.change(&Change::Girth(girth));
            }
            Err(doubt) => {
                let offer = match &doubt {
                    Doubt::Ask { meant, .. } => {
                        let yes = format!("Yes, {}", meant.shown());
                        Some((yes, Action::Girth(format!("{} mm", meant.typed()))))
                    }
                    Doubt::Unreadable { .. } => None,
                };
                if offer.is_none() {
                    self.fields.put_back_girth(words);
                }
                self.said = Some(Said::Wants { words: format!("Girth of the wrist: {doubt}"), offer });
            }
        }
    }

    fn pick(&mut self, id: &StockId) {
        let colour = self.colour_for(id);
        let place = next_place(&self.session.order().piece, self.session.stock());
        if let Some(botanical) = self.session.stock().botanical(id) {
            let outward = botanical.form.is_long();
            self.sheet.pick(NewPart::usual(botanical, colour, place), outward);
            self.focus_sheet = true;
        }
    }

    fn recolour(&mut self, name: &Arc<str>) {
        if let Held::FromTray { new, .. } = &mut self.sheet.held {
            new.colour = Arc::clone(name);
            self.colours_chosen.insert(new.stock.clone(), Arc::clone(name));
        } else if !self.sheet.selected.is_empty() {
            self.change(&Change::Piece(Edit::Recolour(self.sheet.selected.clone(), Arc::clone(name))));
        }
    }

    fn put_down(&mut self) {
        if let Held::FromTray { new, .. } = &self.sheet.held {
            let place = new.centre;
            let deeds = self.sheet.put_down(place, self.session.settled_piece());
            self.do_deeds(&deeds);
        }
    }

    fn cancel(&mut self) {
        if self.dialog != Dialog::None {
            self.dialog = Dialog::None;
            return;
        }
        let deeds = self.sheet.cancel();
        if deeds.is_empty() && self.said.take().is_some() {
            return;
        }
        self.do_deeds(&deeds);
    }

    fn step_back(&mut self, back: bool) {
        self.sheet.hand = crate::sheet::Hand::Idle;
        let before = self.session.order().piece.footprint;
        let went = if back { self.session.undo() } else { self.session.redo() };
        self.refit_after(before);
        if went {
            self.sheet.forget_gone(&self.session.order().piece);
        }
    }

    fn turn_screen(&mut self) {
        self.client_side = !self.client_side;
        self.sheet.selected.clear();
        self.fitted = false;
        self.pointed_at = None;
        self.said = None;
    }

    pub(super) fn say(&mut self, words: &str) {
        self.said = Some(Said::Wants { words: words.to_owned(), offer: None });
    }

    pub(super) fn tell_done(&mut self, words: String) {
        self.said = Some(Said::Done(words));
    }
}

impl eframe::App for Window {
    fn logic(&mut self, ctx: &egui::Context, _frame: &mut eframe::Frame) {
        self.hear_of_file(ctx);
        let closing = ctx.input(|i| i.viewport().close_requested());
        if closing && !self.may_close {
            self.take_what_is_typed();
        }
        if closing && !self.may_close && !self.session.is_kept() {
            ctx.send_viewport_cmd(egui::ViewportCommand::CancelClose);
            self.dialog = Dialog::Leave(Next::Close);
        }
    }

    fn ui(&mut self, ui: &mut Ui, _frame: &mut eframe::Frame) {
        let actions = self.lay(ui);
        let ctx = ui.ctx().clone();
        if !actions.is_empty() {
            ctx.request_repaint();
        }
        for action in actions {
            self.run(&ctx, action);
        }
    }

    fn save(&mut self, storage: &mut dyn eframe::Storage) {
        storage.set_string("light", self.light.word().to_owned());
        storage.set_string("client_side", if self.client_side { "yes" } else { "no" }.to_owned());
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::store::{order_from_text, samples};

    /// A window without a screen: what it would paint, and what it would tell a screen reader.
    struct Dark {
        ctx: egui::Context,
        window: Window,
    }

    struct Seen {
        texts: Vec<String>,
        names: Vec<String>,
    }

    impl Dark {
        fn showing(sample: &str) -> Self {
            let ctx = egui::Context::default();
            ctx.enable_accesskit();
            let shop = Shop::built_in();
            let found = samples::orders().find(|s| s.path.contains(sample)).unwrap();
            let order = order_from_text(found.text, found.path, shop.stock()).unwrap();
            let (stock, style) = (Arc::clone(shop.stock()), Arc::clone(shop.style()));
            let session = Session::with(order, stock, style);
            let window = Window::in_light(&ctx, shop, session, &[], |_| None);
            Self { ctx, window }
        }

        fn frame(&mut self) -> Seen {
            let size = egui::Rect::from_min_size(egui::Pos2::ZERO, egui::vec2(1366.0, 740.0));
            let input = egui::RawInput { screen_rect: Some(size), ..Default::default() };
            let ctx = self.ctx.clone();
            let mut out = ctx.run_ui(input, |ui| {
                let actions = self.window.lay(ui);
                for action in actions {
                    self.window.run(&ctx, action);
                }
            });
            out.textures_delta.clear();
            let mut texts = Vec::new();
            out.shapes.iter().for_each(|s| gather(&s.shape, &mut texts));
            let update = out.platform_output.accesskit_update.take();
            let nodes = update.map(|u| u.nodes).unwrap_or_default();
            let names = nodes.iter().filter_map(|(_, n)| n.label().map(str::to_owned)).collect();
            Seen { texts, names }
        }

        /// What is seen once everything has settled.
        fn seen(&mut self) -> Seen {
            self.frame();
            self.frame();
            self.frame()
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
        for name in ["Spray rose 1", "Spray rose 7", "Waxflower 3", "Italian ruscus 8", "Wrist sheet", "Keep"] {
            assert!(seen.names.iter().any(|n| n == name), "{name} is not among {:?}", seen.names);
        }
    }

    #[test]
    fn the_clients_side_shows_no_cost_no_mark_and_no_other_order() {
        for sample in ["01-petite", "05-bare-spots", "08-boutonniere", "09-showpiece"] {
            let mut dark = Dark::showing(sample);
            let mine = dark.seen().texts.join("\n").to_lowercase();
            assert!(mine.contains("costs") && mine.contains("of 100"), "the test looks at the wrong words: {mine}");
            dark.window.run(&dark.ctx.clone(), Action::TurnScreen);
            dark.window.run(&dark.ctx.clone(), Action::ShowOrders);
            let seen = dark.seen();
            for word in ["cost", "worked", "margin", "of 100", "once-over", "not kept", "crowded", "harbour hall"] {
                let shown = seen.texts.iter().chain(&seen.names).find(|t| t.to_lowercase().contains(word));
                assert_eq!(shown, None, "{sample}: the client sees {word}");
            }
        }
    }

    #[test]
    fn no_word_of_the_window_blames() {
        let mut dark = Dark::showing("04-too-wide");
        dark.window.run(&dark.ctx.clone(), Action::Girth("nonsense".to_owned()));
        dark.window.run(&dark.ctx.clone(), Action::ShowHelp);
        for text in dark.seen().texts {
            let lower = text.to_lowercase();
            for word in ["error", "invalid", " user", "fail"] {
                assert!(!lower.contains(word), "{text}");
            }
        }
    }

    #[test]
    fn a_tiny_window_with_a_chosen_bloom_still_paints() {
        let mut dark = Dark::showing("03-full");
        dark.window.run(&dark.ctx.clone(), Action::SelectAll);
        for (width, height) in [(1366.0, 740.0), (500.0, 400.0), (320.0, 240.0), (90.0, 60.0)] {
            let size = egui::Rect::from_min_size(egui::Pos2::ZERO, egui::vec2(width, height));
            let input = egui::RawInput { screen_rect: Some(size), ..Default::default() };
            let mut out = dark.ctx.clone().run_ui(input, |ui| drop(dark.window.lay(ui)));
            out.textures_delta.clear();
        }
    }
}
