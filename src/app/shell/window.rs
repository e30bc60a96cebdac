//! The window's state and its frame; what a person did is carried out in [`crate::app::shell::run`].
//!
//! A frame: what came from the workers is taken in, what is shown is brought up to date, everything is painted from a
//! [`Context`] that nothing changes meanwhile, and only then is carried out what was asked for.

use std::path::PathBuf;
use std::sync::Arc;

use egui::{Panel, Rect, Ui};

use crate::app::action::{Action, FirstDetails, Notice};
use crate::app::context::{Context, Inputs};
use crate::app::dialogs::{Dialog, dialog_ui};
use crate::app::opening::{Opened, own_folder};
use crate::app::page_list::PageId;
use crate::app::pages::{PageAction, Pages};
use crate::app::parts::said;
use crate::app::parts::tap_keys::board_ui;
use crate::app::picture::images::Images;
use crate::app::sheet::room::SheetRoom;
use crate::app::sheet::{TRAYS_HIGH, layouts_panel, trays, wrist_sheet};
use crate::app::shell::autosave::Autosave;
use crate::app::shell::client_window::ClientWindow;
use crate::app::shell::file_dialogs::FileDialogs;
use crate::app::shell::held_back::HeldBack;
use crate::app::shell::input_queue::InputQueue;
use crate::app::shell::options_panel::options_ui;
use crate::app::shell::shop_files::ShopFiles;
use crate::app::shell::zoom::Zoom;
use crate::app::shell::{keys, notice, rail, side_panel, top_bar};
use crate::app::typing::typed::Typing;
use crate::app::view::{ClientView, Goods, ShopView};
use crate::app::view_options::{self, ViewOptions};
use crate::app::widgets::finger::{may_become_tap, wake_for_what_waits};
use crate::app::widgets::keys::take_key;
use crate::app::widgets::theme::{self, Colours, Light};
use crate::app::widgets::today::today;
use crate::app::workers::handover::HandOverWorker;
use crate::app::workers::paper_worker::PaperWorker;
use crate::book::Written;
use crate::history::Revision;
use crate::session::{ActivePiece, Session};
use crate::stock::Stock;
use crate::store::{LastOrders, Shop};

/// Everything that lives as long as the window. View state is here and in its parts; nothing of it is saved in an order.
pub(crate) struct Window {
    pub(crate) shop: Shop,
    pub(crate) session: Session,
    /// What may be seen of the session, as it was before this frame was painted.
    pub(crate) views: Views,
    pub(crate) is_client_view: bool,
    pub(crate) page: PageId,
    pub(crate) pages: Pages,
    pub(crate) sheet: SheetRoom,
    pub(crate) dialog: Dialog,
    pub(crate) typing: Typing,
    pub(crate) options: ViewOptions,
    pub(crate) light: Light,
    pub(crate) notice: Option<Notice>,
    pub(crate) images: Images,
    pub(crate) files: ShopFiles<Self>,
    pub(crate) file_dialogs: FileDialogs,
    pub(crate) papers: Option<PaperWorker>,
    /// Hands papers to programs of the system.
    pub(crate) handing: Option<HandOverWorker>,
    pub(crate) autosave: Autosave,
    /// Where it is remembered which order was open last.
    pub(crate) last_orders: Option<LastOrders>,
    pub(crate) client_window: ClientWindow,
    /// The file of the order that was open before this one.
    pub(crate) came_from: Option<PathBuf>,
    /// Days by which what is agreed or told counts later.
    pub(crate) days_off: i64,
    /// Whether the page has just been opened.
    pub(crate) page_opened: bool,
    pub(crate) may_close: bool,
    /// Whether a text field had the keyboard in the frame before.
    was_typing: bool,
    /// Whether the keys on the screen have left a field that the page keeps itself.
    pub(crate) page_field_is_left: bool,
    /// What was told of a shop before its folder was there.
    pub(crate) told_first: Option<FirstDetails>,
    input_queue: InputQueue,
    held_back: HeldBack,
    zoom: Zoom,
}

/// What may be seen of the session.
pub(crate) struct Views {
    goods: Goods,
    /// The list of which the goods are.
    of_stock: Arc<Stock>,
    pub(crate) client: Arc<ClientView>,
    shop: ShopView,
    /// What they were made of.
    key: ViewKey,
}

/// A change of any of these asks for other views.
type ViewKey = (Revision, Revision, ActivePiece, [bool; 4], u32, Written);

impl Views {
    fn of(session: &mut Session, written: Written) -> Self {
        let (goods, of_stock) = (Goods::of(session.stock()), Arc::clone(session.stock()));
        let client = Arc::new(ClientView::of(session, &goods, written));
        Self { client, shop: ShopView::of(session), key: Self::key(session, written), goods, of_stock }
    }

    fn key(session: &Session, written: Written) -> ViewKey {
        let flags = [session.can_undo(), session.can_redo(), session.is_saved(), session.path().is_some()];
        (session.revision(), session.settled_revision(), session.active_piece(), flags, session.generation(), written)
    }

    /// Brings them up to date; another order asks for `anew`.
    fn refresh(&mut self, session: &mut Session, written: Written) {
        let key = Self::key(session, written);
        if !Arc::ptr_eq(&self.of_stock, session.stock()) {
            *self = Self::of(session, written);
        } else if self.key != key {
            self.client = Arc::new(ClientView::of(session, &self.goods, written));
            self.shop = ShopView::of(session);
            self.key = key;
        }
    }
}

impl Window {
    pub(crate) fn new(context: &eframe::CreationContext<'_>, opened: Opened) -> Self {
        let Opened { shop, session, said, begin_in, last_orders, is_last, preloaded } = opened;
        let setting = |key: &str| context.storage.and_then(|s| s.get_string(key));
        // An order without a shop has its copies where the program's own shop lies.
        let copies = shop.recovery_folder().unwrap_or_else(|| own_folder().join("recovery"));
        let mut window = Self::with_settings(&context.egui_ctx, shop, session, &said, setting);
        window.last_orders = Some(last_orders);
        if is_last && window.is_client_view {
            window.open_without_last();
        }
        window.images.heads.get_mut().expect(preloaded.heads);
        window.images.sheet.get_mut().expect(preloaded.sheet);
        window.watch_over(copies);
        if let Some(folder) = begin_in.filter(|_| window.dialog == Dialog::None) {
            window.dialog = Dialog::FirstStart(folder);
        }
        window
    }

    /// A window with the settings that were remembered.
    pub(crate) fn with_settings(
        ctx: &egui::Context,
        shop: Shop,
        session: Session,
        said: &[String],
        setting: impl Fn(&str) -> Option<String>,
    ) -> Self {
        theme::put_fonts(ctx);
        let light = setting("light").and_then(|w| Light::from_word(&w)).unwrap_or(Light::Day);
        theme::dress(ctx, light);
        let lengths = setting("lengths").and_then(|w| view_options::lengths_of_word(&w));
        let mut session = session;
        session.show_lengths_in(lengths);
        Self {
            views: Views::of(&mut session, shop.written()),
            shop,
            session,
            is_client_view: setting("client_side").is_some_and(|w| w == "yes"),
            page: PageId::default(),
            pages: Pages::default(),
            sheet: SheetRoom::new(),
            dialog: Dialog::None,
            typing: Typing::restored(&setting),
            options: ViewOptions { lengths, ..ViewOptions::new() },
            light,
            notice: (!said.is_empty()).then(|| Notice::card(in_short(said))),
            images: Images::new(),
            files: ShopFiles::new(ctx),
            file_dialogs: FileDialogs::default(),
            papers: None,
            handing: None,
            autosave: Autosave::default(),
            last_orders: None,
            client_window: ClientWindow::restored(&setting),
            came_from: None,
            days_off: 0,
            page_opened: false,
            may_close: false,
            was_typing: false,
            page_field_is_left: false,
            told_first: None,
            input_queue: InputQueue::default(),
            held_back: HeldBack::default(),
            zoom: Zoom::default(),
        }
    }

    /// The client sees this screen: nobody else's order stands on it when the window opens. On the page of the orders it is
    /// selected.
    fn open_without_last(&mut self) {
        let (stock, style) = (Arc::clone(self.shop.stock()), Arc::clone(self.shop.style()));
        let said = self.notice.take();
        self.replace_session(Session::fresh(stock, style), &[]);
        self.notice = said;
    }

    /// Another order is open: nothing of what was shown of the one before stays.
    pub(crate) fn replace_session(&mut self, session: Session, warnings: &[String]) {
        self.came_from = self.session.path().map(std::path::Path::to_owned);
        self.session = session;
        self.session.show_lengths_in(self.options.lengths);
        self.views = Views::of(&mut self.session, self.shop.written());
        self.files.next_order();
        self.autosave.forget();
        self.images.forget();
        // The lists of orders and of stock are not of the order before: one goes on where one was.
        self.pages = Pages {
            Orders: std::mem::take(&mut self.pages.Orders),
            Stock: std::mem::take(&mut self.pages.Stock),
            ..Pages::default()
        };
        self.client_window.pause();
        self.page = PageId::Sheet;
        self.typing.forget();
        self.sheet.forget_piece();
        self.days_off = 0;
        self.notice = (!warnings.is_empty()).then(|| Notice::card(in_short(warnings)));
    }

    /// One frame: what is dragged follows the pointer, what is shown is brought up to date, everything is painted, then
    /// what was asked for is carried out.
    pub(crate) fn frame(&mut self, ui: &mut Ui) {
        let ctx = ui.ctx().clone();
        if self.zoom.fit(&ctx) {
            self.sheet.fitted = false; // the sheet has another size: the piece is shown whole in it
        }
        if let Some(drag) = wrist_sheet::drag_of(&ctx, &self.sheet) {
            self.run(&ctx, Action::Sheet(drag));
        }
        self.prepare(&ctx, ui.available_rect_before_wrap());
        let (mut actions, mut of_page) = self.paint(ui);
        self.held_back.turn(&ctx, &mut actions, &mut of_page);
        self.page_opened = false;
        self.sheet.wants_focus = false;
        self.typing.focus = None;
        self.typing.taps.was_painted();
        self.was_typing = ui.text_edit_focused();
        if !actions.is_empty() || !of_page.is_empty() || self.input_queue.some_wait() {
            ctx.request_repaint();
        }
        wake_for_what_waits(&ctx);
        for action in of_page {
            self.run_of_page(&ctx, action);
        }
        for action in actions {
            self.run(&ctx, action);
        }
        self.leave_page_field(&ctx);
        let settled = !self.session.in_gesture();
        self.views.refresh(&mut self.session, self.shop.written());
        let client = settled.then_some(&self.views.client);
        self.client_window.sync(&ctx, self.shop.name(), self.light, client);
        self.sync_autosave();
    }

    /// Before each frame: what came from the workers, what was dropped or pasted, whether the window is to be closed.
    pub(crate) fn poll_background(&mut self, ctx: &egui::Context) {
        if !may_become_tap(ctx) {
            self.take_in_what_was_found(ctx);
        }
        self.handle_drop_and_paste(ctx);
        if ctx.input(|i| i.events.contains(&egui::Event::WindowFocused(false))) {
            self.flush_autosave();
        }
        self.handle_closing(ctx);
    }

    /// What the workers found. It may change what is shown anywhere, so that it waits while something is pressed.
    fn take_in_what_was_found(&mut self, ctx: &egui::Context) {
        self.poll_file_dialogs(ctx);
        self.poll_files(ctx);
        let found = self.with_inputs(ctx, |window, inputs| window.sheet.poll_layouts(inputs));
        for action in found {
            self.run(ctx, action);
        }
        self.poll_papers(ctx);
        if self.images.take_failure() {
            self.notice = Some(Notice::card(BROKEN_PICTURE));
        }
    }

    /// What is shown is brought up to date, and the sheet laid into the room it will have.
    fn prepare(&mut self, ctx: &egui::Context, all: Rect) {
        self.views.refresh(&mut self.session, self.shop.written());
        let page = self.page;
        self.with_inputs(ctx, |window, inputs| {
            window.pages.prepare(PageId::Order, inputs); // its suggestions are counted on every page
            window.pages.prepare(page, inputs);
        });
        if self.page == PageId::Sheet {
            let rect = wrist_sheet::sheet_rect(self.middle_of(all), self.sheet.layouts.is_some());
            self.sheet.settle_view(rect, &self.views.client);
            self.sheet.settle_trays(&self.views.client, &self.views.shop);
        }
    }

    /// What was changed since they were made is part of the views.
    pub(crate) fn views_now(&mut self) {
        self.views.refresh(&mut self.session, self.shop.written());
    }

    /// Lends what a page may reach; the rest of the window stays at hand.
    pub(crate) fn with_inputs<T>(
        &mut self,
        ctx: &egui::Context,
        give: impl FnOnce(&mut Lent<'_>, &mut Inputs<'_>) -> T,
    ) -> T {
        let is_typing = self.was_typing || self.typing.taps.is_written_in();
        let mut lent = Lent { pages: &mut self.pages, sheet: &mut self.sheet };
        let mut inputs = Inputs {
            ctx,
            session: &mut self.session,
            shop: &mut self.shop,
            client_view: self.is_client_view,
            is_typing,
        };
        give(&mut lent, &mut inputs)
    }

    fn context(&self) -> Context<'_> {
        let client = &*self.views.client;
        let can_undo = self.pages.undo_state(self.page).unwrap_or([client.can_undo, client.can_redo]);
        Context {
            client,
            shop: (!self.is_client_view).then_some(&self.views.shop),
            colours: Colours::of(self.light),
            light: self.light,
            options: &self.options,
            typing: &self.typing,
            notice: self.notice.as_ref(),
            images: &self.images,
            page: self.page,
            page_opened: self.page_opened,
            today: today(self.days_off),
            written: self.shop.written(),
            can_undo,
            n_suggestions: self.pages.Order.n_suggestions(),
            client_window: self.client_window.state,
        }
    }

    /// Paints everything; nothing changes meanwhile. Returns what was asked for.
    fn paint(&self, ui: &mut Ui) -> (Vec<Action>, Vec<PageAction>) {
        let cx = &self.context();
        let mut actions = Vec::new();
        let frame = egui::Frame::new().inner_margin(egui::Margin::symmetric(12, 6));
        self.panels_ui(ui, cx, frame, &mut actions);
        let middle = ui.available_rect_before_wrap();
        // The sheet reaches to the panels; every other page keeps a margin.
        let is_sheet = self.page == PageId::Sheet;
        let frame = if is_sheet { egui::Frame::NONE } else { frame };
        let mut sheet_in_focus = false;
        let mut of_page = Vec::new();
        egui::CentralPanel::default().frame(frame).show(ui, |ui| {
            if is_sheet {
                sheet_in_focus = wrist_sheet::sheet_ui(ui, cx, &self.sheet, &mut actions);
            } else {
                of_page = self.pages.ui(self.page, ui, cx, &mut actions);
            }
        });
        board_ui(ui, cx, middle, &mut actions);
        if is_sheet {
            notice::on_sketch_ui(ui, cx, middle, &mut actions);
        }
        options_ui(ui, self.sheet.hand.view.area, cx, &mut actions);
        dialog_ui(ui, cx, &self.dialog, &self.autosave.left, &mut actions);
        of_page.extend(self.read_keys(ui, cx, sheet_in_focus, &mut actions));
        (actions, of_page)
    }

    fn panels_ui(&self, ui: &mut Ui, cx: &Context<'_>, frame: egui::Frame, actions: &mut Vec<Action>) {
        let rail_frame = egui::Frame::new().fill(cx.colours.kraft).inner_margin(egui::Margin::symmetric(6, 10));
        let fixed = |panel: Panel, size: f32| panel.exact_size(size).resizable(false);
        fixed(Panel::left("rail"), RAIL).frame(rail_frame).show(ui, |ui| rail::rail_ui(ui, cx, actions));
        fixed(Panel::top("top bar"), TOP_BAR).frame(frame).show(ui, |ui| top_bar::top_bar_ui(ui, cx, actions));
        match (&self.sheet.layouts, self.page) {
            (Some(layouts), PageId::Sheet) => {
                let panel = fixed(Panel::bottom("layouts"), layouts_panel::HEIGHT).frame(frame);
                panel.show(ui, |ui| layouts_panel::panel_ui(ui, cx, layouts, actions));
            }
            (None, PageId::Sheet) => {
                let panel = fixed(Panel::bottom("trays"), TRAYS_HIGH).frame(frame);
                panel.show(ui, |ui| trays::trays_ui(ui, cx, &self.sheet, actions));
            }
            (_, _) => {}
        }
        if !Pages::is_wide(self.page) {
            let side = fixed(Panel::right("side"), self.side_width()).frame(frame);
            side.show(ui, |ui| side_panel::side_ui(ui, cx, &self.sheet.checks, actions));
        }
        if self.page != PageId::Sheet && said::words_said(cx).is_some() {
            let high = said::height(ui, cx, ui.available_width() - 2.0 * f32::from(BESIDE_CARD));
            let beside = egui::Margin::symmetric(BESIDE_CARD, 0);
            let strip = fixed(Panel::bottom("said"), high).frame(egui::Frame::new().inner_margin(beside));
            strip.show(ui, |ui| notice::below_page_ui(ui, cx, actions));
        }
    }

    fn side_width(&self) -> f32 {
        if self.is_client_view { SIDE_FOR_CLIENT } else { SIDE }
    }

    /// What the panels leave of a window for the sheet.
    fn middle_of(&self, all: Rect) -> Rect {
        let below = if self.sheet.layouts.is_some() { layouts_panel::HEIGHT } else { TRAYS_HIGH };
        let min = all.min + egui::vec2(RAIL, TOP_BAR);
        Rect::from_min_max(min, all.max - egui::vec2(self.side_width(), below))
    }

    /// Reads keys after everything was painted, so that a text field or a button in focus takes its keys first.
    fn read_keys(&self, ui: &Ui, cx: &Context<'_>, sheet_in_focus: bool, actions: &mut Vec<Action>) -> Vec<PageAction> {
        let typing = ui.text_edit_focused();
        if typing && take_key(ui, egui::Modifiers::COMMAND, egui::Key::S) {
            actions.push(Action::Save);
        }
        // The key that left a text field was meant for the field.
        if typing || self.was_typing {
            return Vec::new();
        }
        if take_key(ui, egui::Modifiers::NONE, egui::Key::Escape) {
            actions.push(Action::Cancel);
        }
        if self.dialog != Dialog::None {
            return Vec::new();
        }
        keys::whole_window(ui, cx, actions);
        if self.page == PageId::Sheet {
            keys::the_sheet(ui, cx, &self.sheet, sheet_in_focus, actions);
        }
        self.pages.read_keys(self.page, ui, cx, actions)
    }
}

/// The parts of the window that stay at hand while it lends the rest.
pub(crate) struct Lent<'a> {
    pub(crate) pages: &'a mut Pages,
    pub(crate) sheet: &'a mut SheetRoom,
}

/// Room beside a card below a page, points.
const BESIDE_CARD: i8 = 12;
/// Width of the rail, height of the bar on top, width of the side; points.
const RAIL: f32 = 84.0;
const TOP_BAR: f32 = 64.0;
const SIDE: f32 = 332.0;
const SIDE_FOR_CLIENT: f32 = 220.0;

/// What is said of a picture that broke off; the one before it is still shown.
const BROKEN_PICTURE: &str = "This picture could not be drawn. The next change draws it again.";

impl eframe::App for Window {
    fn logic(&mut self, ctx: &egui::Context, _frame: &mut eframe::Frame) {
        self.poll_background(ctx);
    }

    fn ui(&mut self, ui: &mut Ui, _frame: &mut eframe::Frame) {
        self.frame(ui);
    }

    fn raw_input_hook(&mut self, ctx: &egui::Context, input: &mut egui::RawInput) {
        self.input_queue.next_batch(input, ctx.text_edit_focused());
    }

    /// Paper is everywhere, so that nothing has to paint it.
    fn clear_color(&self, _visuals: &egui::Visuals) -> [f32; 4] {
        Colours::of(self.light).paper.to_normalized_gamma_f32()
    }

    fn save(&mut self, storage: &mut dyn eframe::Storage) {
        storage.set_string("light", self.light.word().to_owned());
        storage.set_string("client_side", if self.is_client_view { "yes" } else { "no" }.to_owned());
        storage.set_string("lengths", view_options::word_of_lengths(self.options.lengths).to_owned());
        self.typing.taps.store(storage);
        self.client_window.store(storage);
    }
}

/// The first few of many sentences, and how many more there are.
fn in_short(said: &[String]) -> String {
    const SHOWN: usize = 3;
    let words = said.iter().take(SHOWN).cloned().collect::<Vec<_>>().join(" ");
    match said.len() {
        n if n > SHOWN => format!("{words} And {} more.", n - SHOWN),
        _ => words,
    }
}
