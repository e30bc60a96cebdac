//! The window's state and its frame; what a person did is done in [`crate::app::shell::run`].

use std::cell::Cell;
use std::collections::BTreeMap;
use std::path::PathBuf;
use std::sync::Arc;
use std::sync::mpsc::Receiver;

use egui::{Panel, Ui};

use crate::app::action::Action;
use crate::app::pages::colour;
use crate::app::pages::order_form;
use crate::app::pages::page::{Draft, Page};
use crate::app::pages::pictures::Pictures;
use crate::app::pages::price;
use crate::app::pages::sizes;
use crate::app::pages::style::Desk;
use crate::app::pages::style_page;
use crate::app::pages::suggestions::Proposing;
use crate::app::pages::variants;
use crate::app::sheet::canvas::Canvas;
use crate::app::sheet::layouts::Offered;
use crate::app::sheet::layouts_panel;
use crate::app::sheet::trays;
use crate::app::sheet::wrist_sheet;
use crate::app::shell::autosave::Safety;
use crate::app::shell::client_window;
use crate::app::shell::dialogs;
use crate::app::shell::files::{Asked, in_short};
use crate::app::shell::input_queue::InTurn;
use crate::app::shell::keys;
use crate::app::shell::notice;
use crate::app::shell::papers::Papers;
use crate::app::shell::preload::Ahead;
use crate::app::shell::rail;
use crate::app::shell::shared_stems;
use crate::app::shell::shop_files::ShopFiles;
use crate::app::shell::side_panel;
use crate::app::shell::top_bar;
use crate::app::shell::view_options::{self, Looks};
use crate::app::shell::zoom::Zoom;
use crate::app::widgets::tap_board;
use crate::app::widgets::theme::{self, Colours, Light};
use crate::app::widgets::thumbs::Thumbs;
use crate::piece::Question;
use crate::session::Session;
use crate::sheet::Sheet;
use crate::stock::{Role, StockId};
use crate::store::{LeftOver, Shop};

/// What is said of a picture that broke off; the one before it is still shown.
const BROKEN_PICTURE: &str = "This picture could not be drawn. The order is safe; the next change draws it again.";

/// What lies over the sheet.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Dialog {
    /// Nothing.
    None,
    /// The orders of the shop, with what is searched for.
    Orders(Listed),
    /// Something not kept would be left.
    Leave(Next),
    /// What was not kept when a window ended by surprise; one of them is about to be thrown away.
    LeftOver { sure: Option<usize> },
    /// The order in front and others, bought together.
    Together(shared_stems::Joining),
    /// Keys and gestures.
    Help,
    /// Nobody has begun a shop in this folder yet.
    FirstStart(PathBuf),
}

/// The orders of the shop as they are listed.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Listed {
    pub(crate) search: String,
    /// File and name of each.
    pub(crate) all: Arc<Vec<(PathBuf, String)>>,
    /// File of each that waits for an answer, and whom to ring for what.
    pub(crate) calls: Arc<Vec<(PathBuf, String)>>,
    /// Whether only those are shown.
    pub(crate) ringing: bool,
    /// Whether the files have been read.
    pub(crate) is_read: bool,
}

/// Where to go when the order in front has been seen to.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Next {
    /// Close the window.
    Close,
    /// A new order.
    New,
    /// Another order.
    Open(PathBuf),
    /// What was not kept last time.
    TakeUp(Box<LeftOver>),
}

/// Something said to the person in front.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Said {
    /// Done: a few words in the line under the sheet, gone with the next step.
    Done(String),
    /// Could not be done, or must be asked: a card over the sheet, with a thing to do about it.
    Wants { words: String, offer: Option<(String, Action)> },
    /// A layout was taken in which the blooms have little room: a card with what would help, each an edit.
    Crowded { words: String, ways: Vec<crate::set_out::Offer> },
}

/// What the window opens on.
pub(crate) struct Opened {
    pub(crate) shop: Shop,
    pub(crate) session: Session,
    /// What is to be said about them.
    pub(crate) said: Vec<String>,
    /// The folder for a shop that nobody has begun yet.
    pub(crate) begin_in: Option<PathBuf>,
    /// What is drawn already.
    pub(crate) ahead: Ahead,
}

/// Everything that lives as long as the window. View state is here and in the sheet; nothing of it is kept in an order.
pub(crate) struct Window {
    pub(crate) shop: Shop,
    pub(crate) session: Session,
    pub(crate) sheet: Sheet,
    pub(crate) canvas: Canvas,
    pub(crate) thumbs: Thumbs,
    pub(crate) light: Light,
    pub(crate) looks: Looks,
    pub(crate) page: Page,
    /// Whether the page has just been opened, so that the keyboard goes to its head.
    pub(crate) page_opened: Cell<bool>,
    pub(crate) draft: Draft,
    pub(crate) boards: sizes::Boards,
    pub(crate) pricing: price::Pricing,
    pub(crate) ways: variants::Ways,
    pub(crate) pictures: Pictures,
    /// The page "House style".
    pub(crate) desk: Desk,
    pub(crate) colour_room: colour::ColourRoom,
    pub(crate) proposing: Proposing,
    /// Layouts to choose from, while they are offered.
    pub(crate) offered: Option<Offered>,
    pub(crate) client_side: bool,
    pub(crate) tray: Role,
    pub(crate) colours_chosen: BTreeMap<StockId, Arc<str>>,
    /// The finding that was tapped: its marks and remedies are shown until it is tapped again.
    pub(crate) pointed_at: Option<Question>,
    /// The question that is to be set aside, while its reason is asked for.
    pub(crate) asked_why: Option<Question>,
    /// The finding that the pointer or the focus rests on: its marks are shown meanwhile.
    pub(crate) hovered: Option<Question>,
    /// Whether the client has asked what could be added.
    pub(crate) asked_for_more: bool,
    /// What was done faster than frames are drawn.
    pub(crate) in_turn: InTurn,
    /// How large everything is shown.
    zoom: Zoom,
    /// Whether a text field had the keyboard in the frame before.
    pub(crate) was_typing: bool,
    /// Whether the sheet, or a part on it, has the keyboard.
    pub(crate) sheet_in_focus: bool,
    /// Whether the sheet is to get the keyboard.
    pub(crate) focus_sheet: bool,
    pub(crate) well_shown: bool,
    pub(crate) dialog: Dialog,
    pub(crate) said: Option<Said>,
    pub(crate) fields: top_bar::Fields,
    pub(crate) taps: tap_board::TapBoard,
    pub(crate) fitted: bool,
    pub(crate) dragging_from_tray: bool,
    /// The file of the order that was in front before this one.
    pub(crate) came_from: Option<PathBuf>,
    pub(crate) waiting: Option<(Asked, Receiver<Option<PathBuf>>)>,
    pub(crate) may_close: bool,
    pub(crate) safety: Safety,
    pub(crate) second: client_window::Second,
    pub(crate) papers: Papers,
    pub(crate) files: ShopFiles,
}

impl Window {
    pub(crate) fn new(context: &eframe::CreationContext<'_>, opened: Opened) -> Self {
        let Opened { shop, session, said, begin_in, ahead } = opened;
        let kept = |key: &str| context.storage.and_then(|s| s.get_string(key));
        // An order without a shop has its copies where the program's own shop lies.
        let copies = shop.recovery_folder().unwrap_or_else(|| crate::app::own_folder().join("recovery"));
        let mut window = Self::in_light(&context.egui_ctx, shop, session, &said, kept);
        window.thumbs.expect(ahead.heads);
        window.canvas.expect(ahead.sheet);
        window.watch_over(copies);
        if let Some(folder) = begin_in.filter(|_| window.dialog == Dialog::None) {
            window.dialog = Dialog::FirstStart(folder);
        }
        window
    }

    /// A window with the settings that were kept.
    pub(crate) fn in_light(
        ctx: &egui::Context,
        shop: Shop,
        session: Session,
        said: &[String],
        kept: impl Fn(&str) -> Option<String>,
    ) -> Self {
        theme::put_fonts(ctx);
        let light = kept("light").and_then(|w| Light::from_word(&w)).unwrap_or(Light::Day);
        theme::dress(ctx, light);
        let mut session = session;
        let looks = Looks { lengths: kept("lengths").and_then(|w| view_options::lengths_of_word(&w)), ..Looks::new() };
        session.show_lengths_in(looks.lengths);
        let said = (!said.is_empty()).then(|| Said::Wants { words: in_short(said), offer: None });
        Self {
            shop,
            session,
            sheet: Sheet::new(),
            canvas: Canvas::new(),
            thumbs: Thumbs::new(),
            light,
            looks,
            page: Page::default(),
            page_opened: Cell::new(false),
            draft: Draft::default(),
            boards: sizes::Boards::default(),
            pricing: price::Pricing::default(),
            ways: variants::Ways::default(),
            pictures: Pictures::default(),
            desk: Desk::default(),
            colour_room: colour::ColourRoom::default(),
            proposing: Proposing::default(),
            offered: None,
            client_side: kept("client_side").is_some_and(|w| w == "yes"),
            tray: Role::Bloom,
            colours_chosen: BTreeMap::new(),
            pointed_at: None,
            asked_why: None,
            hovered: None,
            asked_for_more: false,
            in_turn: InTurn::default(),
            was_typing: false,
            sheet_in_focus: false,
            focus_sheet: false,
            well_shown: false,
            dialog: Dialog::None,
            said,
            fields: top_bar::Fields::default(),
            taps: tap_board::TapBoard::kept(&kept),
            fitted: false,
            dragging_from_tray: false,
            came_from: None,
            waiting: None,
            may_close: false,
            safety: Safety::default(),
            second: client_window::Second::kept(&kept),
            papers: Papers::default(),
            files: ShopFiles::new(ctx),
            zoom: Zoom::default(),
        }
    }

    pub(crate) fn colours(&self) -> Colours {
        Colours::of(self.light)
    }

    /// One frame: what is dragged follows the pointer, everything is laid out, then what was done is done.
    pub(crate) fn frame(&mut self, ui: &mut Ui) {
        let ctx = ui.ctx().clone();
        if self.zoom.fit(&ctx) {
            self.fitted = false; // the sheet has another size: the piece is shown whole in it
        }
        wrist_sheet::follow_pointer(&ctx, self);
        let actions = self.lay(ui);
        if !actions.is_empty() || self.in_turn.some_wait() {
            ctx.request_repaint();
        }
        for action in actions {
            self.run(&ctx, action);
        }
        self.show_second(&ctx);
        self.mind();
    }

    /// Before each frame: has a file been chosen, is the window to be closed?
    pub(crate) fn look_up(&mut self, ctx: &egui::Context) {
        self.hear_of_file(ctx);
        self.hear_of_files(ctx);
        self.hear_of_layouts(ctx);
        self.hear_of_gifts(ctx);
        self.hear_of_papers();
        if self.canvas.take_failure() || self.pictures.take_failure() {
            self.say(BROKEN_PICTURE);
        }
        if ctx.input(|i| i.events.contains(&egui::Event::WindowFocused(false))) {
            self.mind_now();
        }
        let closing = ctx.input(|i| i.viewport().close_requested());
        if closing && !self.may_close {
            self.take_what_is_typed();
            self.finish_files(ctx);
        }
        if closing && !self.may_close && !self.session.is_kept() {
            ctx.send_viewport_cmd(egui::ViewportCommand::CancelClose);
            self.mind_now();
            self.dialog = Dialog::Leave(Next::Close);
        }
    }

    /// The colour of the cloth under the piece.
    pub(crate) fn cloth(&self) -> Option<crate::colour::Rgb> {
        self.session.order().taste.dress.hex.filter(|_| self.looks.cloth)
    }

    /// The colour in which a botanical is taken from its tray.
    pub(crate) fn colour_for(&self, id: &StockId) -> Arc<str> {
        let chosen = self.colours_chosen.get(id).cloned();
        let usual = || self.session.stock().botanical(id).map(trays::usual_colour);
        chosen.or_else(usual).unwrap_or_else(|| Arc::from("white"))
    }

    pub(crate) fn lay(&mut self, ui: &mut Ui) -> Vec<Action> {
        let mut actions = Vec::new();
        let c = self.colours();
        let frame = egui::Frame::new().inner_margin(egui::Margin::symmetric(12, 6));
        let rail_frame = egui::Frame::new().fill(c.kraft).inner_margin(egui::Margin::symmetric(6, 10));
        Panel::left("rail").exact_size(84.0).resizable(false).frame(rail_frame).show(ui, |ui| {
            rail::rail_ui(ui, self, &mut actions);
        });
        Panel::top("strip").exact_size(64.0).resizable(false).frame(frame).show(ui, |ui| {
            top_bar::strip_ui(ui, self, &mut actions);
        });
        if self.offers_layouts() {
            Panel::bottom("choices").exact_size(layouts_panel::HEIGHT).resizable(false).frame(frame).show(ui, |ui| {
                layouts_panel::choices_ui(ui, self, &mut actions);
            });
        } else if self.page == Page::Sheet {
            Panel::bottom("trays").exact_size(178.0).resizable(false).frame(frame).show(ui, |ui| {
                trays::trays_ui(ui, self, &mut actions);
            });
        }
        let width = if self.client_side { 220.0 } else { 332.0 };
        Panel::right("side").exact_size(width).resizable(false).frame(frame).show(ui, |ui| {
            side_panel::side_ui(ui, self, &mut actions);
        });
        let middle = ui.available_rect_before_wrap();
        let page_ui: fn(&mut Ui, &mut Self, &mut Vec<Action>) = match self.page {
            Page::Sheet => wrist_sheet::sheet_ui,
            Page::Questions => order_form::questions_ui,
            Page::Colour => colour::colour_ui,
            Page::Sizes => sizes::sizes_ui,
            Page::Ways => variants::ways_ui,
            Page::Price => price::price_page_ui,
            Page::House => style_page::house_ui,
        };
        // The sheet reaches to the panels; every other page keeps a margin.
        let frame = if self.page == Page::Sheet { egui::Frame::NONE } else { frame };
        egui::CentralPanel::default().frame(frame).show(ui, |ui| page_ui(ui, self, &mut actions));
        tap_board::board_ui(ui, self, middle, &mut actions);
        notice::said_ui(ui, self, middle, &mut actions);
        view_options::looks_ui(ui, self, &mut actions);
        dialogs::dialogs_ui(ui, self, &mut actions);
        keys::read_keys(ui, self, &mut actions);
        actions
    }
}

impl eframe::App for Window {
    fn logic(&mut self, ctx: &egui::Context, _frame: &mut eframe::Frame) {
        self.look_up(ctx);
    }

    fn ui(&mut self, ui: &mut Ui, _frame: &mut eframe::Frame) {
        self.frame(ui);
    }

    fn raw_input_hook(&mut self, ctx: &egui::Context, input: &mut egui::RawInput) {
        self.in_turn.hand_on(input, ctx.text_edit_focused());
    }

    /// Paper is everywhere, so that nothing has to paint it.
    fn clear_color(&self, _visuals: &egui::Visuals) -> [f32; 4] {
        self.colours().paper.to_normalized_gamma_f32()
    }

    fn save(&mut self, storage: &mut dyn eframe::Storage) {
        storage.set_string("light", self.light.word().to_owned());
        storage.set_string("client_side", if self.client_side { "yes" } else { "no" }.to_owned());
        storage.set_string("lengths", view_options::word_of_lengths(self.looks.lengths).to_owned());
        self.taps.keep(storage);
        self.second.keep(storage);
    }
}
