//! The one place where what a person did is carried out, after painting.

use std::sync::Arc;

use crate::app::action::{Action, FirstShop, LayoutsAction, Notice};
use crate::app::dialogs::{Dialog, NextStep};
use crate::app::page_list::PageId;
use crate::app::pages::{PageAction, Pages};
use crate::app::sheet::layouts::Layouts;
use crate::app::sheet::room::ChecksShown;
use crate::app::shell::client_window;
use crate::app::shell::window::Window;
use crate::app::widgets::naming::in_text;
use crate::app::widgets::theme;
use crate::app::widgets::today::today;
use crate::app::widgets::words::{Counter, Mine};
use crate::app::workers::photo_worker::PhotoSource;
use crate::book::{Change, Order, matching_boutonniere, stop_flower};
use crate::command::{Command, Outcome};
use crate::paperwork::agree;
use crate::piece::Edit;
use crate::session::ActivePiece;
use crate::sheet::{Hand, Held, SheetInput};
use crate::stock::StockId;
use crate::units::LengthUnit;

impl Window {
    /// Does what was asked of a page, and what follows from it.
    pub(crate) fn run_of_page(&mut self, ctx: &egui::Context, action: PageAction) {
        if !action.keeps_notice() {
            self.notice = None;
        }
        let todo = self.with_inputs(ctx, |window, inputs| window.pages.run(action, inputs));
        for action in todo {
            self.run(ctx, action);
        }
    }

    /// Carries out one action.
    pub(crate) fn run(&mut self, ctx: &egui::Context, action: Action) {
        if action.dismisses_notice() {
            self.notice = None;
        }
        // What was done before it in this frame is seen by what comes after.
        self.views_now();
        match action {
            Action::Order(command) => {
                self.run_command(&command);
            }
            Action::OrderAndSay(command, notice) => {
                if self.run_command(&command) {
                    self.notice = Some(notice);
                }
            }
            Action::Write(..)
            | Action::LeaveField(_)
            | Action::GiveUpWristSize
            | Action::WristSize(_)
            | Action::Focus(_)
            | Action::Taps(_)
            | Action::AddExtra
            | Action::AddPayment { .. } => self.run_typing(action),
            Action::Sheet(_)
            | Action::Tray(_)
            | Action::Pick(_)
            | Action::PickIn(..)
            | Action::DragFromTray(_)
            | Action::DropFromTray(_)
            | Action::Colour(_)
            | Action::FitView
            | Action::PointAt(_)
            | Action::HoverOver(_)
            | Action::AskWhy(_)
            | Action::AskForMore
            | Action::ShowPassed
            | Action::Layouts(_) => self.run_on_sheet(ctx, action),
            Action::Show(page) => self.show_page(ctx, page),
            Action::ShowPiece(active) => self.show_piece(ctx, active),
            Action::AddBoutonniere => self.add_boutonniere(),
            Action::Cancel => self.cancel(ctx),
            Action::Undo => self.step_back(ctx, true),
            Action::Redo => self.step_back(ctx, false),
            Action::Agree => self.agree(),
            Action::ShiftDay(by) => self.days_off = (self.days_off + by).clamp(-1, 1),
            Action::SwitchView => self.switch_view(ctx),
            Action::SwitchClientWindow => {
                if !self.client_window.switch(ctx) {
                    self.say(client_window::NONE_HERE);
                }
            }
            Action::ShowOptions => self.options.open = !self.options.open,
            Action::Lengths(unit) => self.show_lengths_in(unit),
            Action::Eyes(eyes) => self.options.eyes = eyes,
            Action::Light => {
                self.light = self.light.next();
                theme::dress(ctx, self.light);
            }
            Action::Stock(request) => self.run_of_stock(ctx, request),
            Action::RulesChanged => {
                self.pages.rules_changed();
                self.sheet.layouts = None;
            }
            Action::Say(notice) => self.notice = Some(notice),
            Action::CloseNotice => self.notice = None,
            Action::ShowHelp => self.dialog = Dialog::Help,
            Action::Month(action) => self.run_month(action),
            Action::CloseDialog => self.close_dialog(),
            _ => self.run_with_files(ctx, action),
        }
    }

    /// What concerns files, other orders and papers.
    fn run_with_files(&mut self, ctx: &egui::Context, action: Action) {
        match action {
            // Other clients' names and the shop's papers are not for this client's eyes.
            Action::ShowOrders | Action::New | Action::ShowSharedStems | Action::MakePapers | Action::HandOver(..)
                if self.is_client_view => {}
            Action::ShowOrders => self.show_page(ctx, PageId::Orders),
            Action::New => self.leave_for(ctx, NextStep::New),
            Action::ShowSharedStems => self.show_shared_stems(),
            Action::ChangeListed(step, way) => self.change_listed(*step, way),
            Action::BillParty(party, files) => self.bill_party(party, files),
            Action::CopyListed(path, who) => self.leave_for(ctx, NextStep::Copy(path, who)),
            Action::Join(path) => {
                if let Dialog::SharedStems(joining) = &mut self.dialog {
                    joining.toggle(path);
                }
            }
            Action::Save => self.save_order(),
            Action::SaveCopy => self.save_copy(),
            Action::SavePicture => self.save_picture(),
            Action::SavePhotograph(png) => self.save_photograph(png),
            Action::MakePapers => self.make_papers(),
            Action::StopPapers => self.stop_papers(),
            Action::HandOver(kind, taker) => self.hand_over(ctx, kind, taker),
            Action::MakeQuote => self.make_quote(),
            Action::AskForOrder => self.ask_for_order(ctx),
            Action::AskForPhoto => self.ask_for_photo(ctx),
            Action::SaveShop => self.save_shop(),
            Action::ReadShopAgain => self.read_shop_again(),
            Action::AskForLogo => self.ask_for_logo(ctx),
            Action::AskForStyle => self.ask_for_style(ctx),
            Action::SaveOwnStyle(says) => self.save_own_style(says),
            Action::AddStyle(style) => self.add_style(*style),
            Action::AskWhereToShare(style) => self.ask_where_to_share(ctx, *style),
            Action::Open(path) => self.leave_for(ctx, NextStep::Open(path)),
            Action::Recovered(action) => self.run_recovered(ctx, action),
            Action::Begin(shop) => self.begin_shop(shop, true),
            Action::TellFirst(details) => {
                if let Dialog::FirstDetails(told) = &mut self.dialog {
                    *told = details;
                }
            }
            Action::TakeFirst => self.take_first_details(),
            Action::LeaveUnsaved => self.go_on(ctx, true),
            Action::SaveAndGoOn => self.save_then(|w, ctx, is_saved| w.go_on(ctx, is_saved)),
            // Everything else was carried out before.
            _ => {}
        }
    }

    fn run_on_sheet(&mut self, ctx: &egui::Context, action: Action) {
        let checks = &mut self.sheet.checks;
        match action {
            Action::Sheet(input) => self.handle_on_sheet(&input),
            Action::Tray(role) => self.sheet.tray = role,
            Action::Pick(id) => self.pick(&id),
            Action::PickIn(id, colour) => {
                self.show_page(ctx, PageId::Sheet);
                self.sheet.choose_colour(id.clone(), colour);
                self.pick(&id);
            }
            Action::DragFromTray(id) => {
                self.pick(&id);
                self.sheet.dragging_from_tray = true;
            }
            Action::DropFromTray(place) => {
                self.sheet.dragging_from_tray = false;
                if let Some(place) = place {
                    self.handle_on_sheet(&SheetInput::PutDown(place));
                }
            }
            Action::Colour(name) => self.recolour(&name),
            Action::FitView => self.sheet.fitted = false,
            Action::PointAt(question) => (checks.pointed_at, checks.asked_why) = (question, None),
            Action::HoverOver(question) => checks.hovered = question,
            Action::AskWhy(question) => checks.asked_why = question,
            Action::AskForMore => checks.asked_for_more = !checks.asked_for_more,
            Action::ShowPassed => checks.passed = !checks.passed,
            Action::Layouts(action) => self.run_layouts(ctx, action),
            _ => {}
        }
    }

    /// Carries out what changes the order; why it cannot be done is said. Whether it could be done.
    pub(crate) fn run_command(&mut self, command: &Command) -> bool {
        let before = self.session.piece().footprint;
        let outcome = self.session.run(command);
        // Another oval is shown whole.
        if self.session.piece().footprint != before {
            self.sheet.fitted = false;
        }
        self.sheet.forget_gone(&self.session);
        match (outcome, command) {
            (Err(refusal), _) => {
                self.say(&refusal.to_string());
                return false;
            }
            (Ok(Outcome::Unchanged), Command::Fix(_)) => {
                self.say("Locked. Unlock it first to move it.");
                return false;
            }
            (Ok(_), Command::Edit(Edit::Place(_))) => self.sheet.after_placing(&mut self.session),
            (Ok(_), _) => {}
        }
        true
    }

    /// Carries out commands, each whether or not those before it could be.
    fn run_commands(&mut self, commands: &[Command]) {
        for command in commands {
            self.run_command(command);
        }
    }

    fn handle_on_sheet(&mut self, input: &SheetInput) {
        let commands = self.sheet.handle(input, &self.session);
        self.run_commands(&commands);
    }

    /// Takes a bloom into the hand, unless the wearer must not get it.
    fn pick(&mut self, id: &StockId) {
        let stock = Arc::clone(self.session.stock());
        let stop = stop_flower(&self.session.wearers_order(), id, &stock);
        if let Some(stop) = stop.filter(|stop| stop.overruled.is_none()) {
            let instead: Vec<_> = stop.instead.iter().filter_map(|id| stock.botanical(id)).collect();
            let offer = instead.first();
            let offer = offer.map(|b| (format!("Use {}", in_text(&b.name)), Box::new(Action::Pick(b.id.clone()))));
            let names: Vec<String> = instead.iter().map(|b| in_text(&b.name)).collect();
            let others = if names.is_empty() { String::new() } else { format!(" {}", Counter::instead(&names)) };
            self.notice = Some(Notice::Card { words: format!("{}{others}", stop.why), offer });
            return;
        }
        self.sheet.pick(id, &self.views.client, &self.session);
    }

    fn recolour(&mut self, name: &Arc<str>) {
        if let Held::FromTray { new, .. } = &mut self.sheet.hand.held {
            new.colour = Arc::clone(name);
            let id = new.stock.clone();
            self.sheet.choose_colour(id, Arc::clone(name));
        } else if !self.sheet.hand.selected.is_empty() {
            let edit = Edit::Recolour(self.sheet.hand.selected.clone(), Arc::clone(name));
            self.run_command(&Command::Edit(edit));
        }
    }

    fn run_layouts(&mut self, ctx: &egui::Context, action: LayoutsAction) {
        match (&action, &self.sheet.layouts) {
            (LayoutsAction::Toggle, None) => self.open_layouts(ctx),
            (LayoutsAction::Toggle | LayoutsAction::Close, _) => {
                self.close_layouts();
            }
            (_, None) => {}
            (_, Some(_)) => {
                let goods = self.sheet.could_go_next(&self.session);
                let client_view = self.is_client_view;
                let layouts = self.sheet.layouts.as_mut();
                let todo = layouts.map(|layouts| layouts.run(action, client_view, goods)).unwrap_or_default();
                for action in todo {
                    self.run(ctx, action);
                }
            }
        }
    }

    /// Opens the panel of layouts; the hand is emptied, for the trays step aside.
    fn open_layouts(&mut self, ctx: &egui::Context) {
        if self.is_client_view || self.page != PageId::Sheet {
            return;
        }
        self.sheet.hand.held = Held::Nothing;
        self.run_command(&Command::EndRun);
        self.sheet.layouts = Some(Layouts::open(ctx, &self.session));
    }

    /// Closes the panel of layouts; `false` when it was not open.
    fn close_layouts(&mut self) -> bool {
        self.sheet.wants_focus |= self.sheet.layouts.is_some();
        self.sheet.layouts.take().is_some()
    }

    pub(crate) fn show_page(&mut self, ctx: &egui::Context, page: PageId) {
        if self.is_client_view && Pages::info(page).is_some_and(|info| info.is_for_shop) {
            return;
        }
        // What was said is of the page before, unless it waits for an answer.
        self.notice.take_if(|said| matches!(said, Notice::Card { offer: None, .. } | Notice::Crowded { .. }));
        self.typing.forget_refused_size();
        self.put_board_away();
        self.leave_page_field(ctx);
        self.take_what_is_typed();
        self.with_inputs(ctx, |window, inputs| window.pages.opened(page, inputs));
        if page == PageId::Style {
            self.list_styles();
        }
        self.page = page;
        self.sheet.layouts = None;
        self.options.open = false;
        self.page_opened = page != PageId::Sheet;
        if page == PageId::Orders {
            self.pages.Orders.select_first(self.came_from.as_deref());
            self.list_orders();
        }
        self.sheet.wants_focus = page == PageId::Sheet;
    }

    /// Puts one of the two pieces on the sheet, and shows the sheet.
    pub(crate) fn show_piece(&mut self, ctx: &egui::Context, active: ActivePiece) {
        if active == ActivePiece::Boutonniere && self.session.order().partner_piece.is_none() {
            return;
        }
        if self.page != PageId::Sheet {
            self.show_page(ctx, PageId::Sheet);
        }
        if self.session.active_piece() == active {
            return;
        }
        self.session.make_active(active);
        self.images.sheet.get_mut().clear();
        self.sheet.forget_piece();
        self.sheet.wants_focus = true;
    }

    fn add_boutonniere(&mut self) {
        let piece = matching_boutonniere(self.session.order(), self.session.style(), self.session.stock());
        self.run_command(&Command::Change(Change::PartnerPiece(Some(Box::new(piece)))));
    }

    fn cancel(&mut self, ctx: &egui::Context) {
        if self.dialog != Dialog::None {
            return self.close_dialog();
        }
        if std::mem::take(&mut self.options.open) || self.close_layouts() {
            return;
        }
        if self.page != PageId::Sheet {
            return self.show_page(ctx, PageId::Sheet);
        }
        let commands = self.sheet.handle(&SheetInput::Cancel, &self.session);
        if commands.is_empty() && self.notice.take().is_some() {
            return;
        }
        self.run_commands(&commands);
    }

    fn step_back(&mut self, ctx: &egui::Context, back: bool) {
        if self.pages.undo_state(self.page).is_some() {
            let page = self.page;
            let todo = self.with_inputs(ctx, |window, inputs| window.pages.undo(page, back, inputs));
            return for action in todo {
                self.run(ctx, action);
            };
        }
        self.put_board_away();
        self.sheet.hand.hand = Hand::Idle;
        let order = Arc::clone(self.session.order());
        self.run_command(&if back { Command::Undo } else { Command::Redo });
        self.show_what_changed(ctx, &order);
    }

    /// A step back or forward that changed only the other piece puts that one on the sheet, so that it is seen.
    fn show_what_changed(&mut self, ctx: &egui::Context, before: &Arc<Order>) {
        let now = self.session.order();
        let wearers = before.piece != now.piece;
        let partners = before.partner_piece != now.partner_piece && before.partner_piece.is_some();
        let active = match (wearers, partners) {
            (true, false) => ActivePiece::Wrist,
            (false, true) if now.partner_piece.is_some() => ActivePiece::Boutonniere,
            (true | false, _) => return,
        };
        if self.page == PageId::Sheet {
            self.show_piece(ctx, active);
        }
    }

    fn agree(&mut self) {
        self.take_what_is_typed();
        self.run_command(&Command::EndRun);
        let order = self.session.order();
        if order.piece.parts().is_empty() && order.partner_piece.as_ref().is_none_or(|p| p.parts().is_empty()) {
            return self.say(Counter::NOTHING_YET);
        }
        let Some(day) = today(self.days_off) else { return self.say(Mine::NO_DAY) };
        let sheet = agree(order, day, self.session.style(), self.session.stock());
        self.run_command(&Command::Change(Change::Agreed(Some(Box::new(sheet)))));
    }

    fn switch_view(&mut self, ctx: &egui::Context) {
        self.is_client_view = !self.is_client_view;
        if Pages::info(self.page).is_some_and(|info| info.is_for_shop) {
            self.show_page(ctx, PageId::Sheet);
        }
        if let Some(layouts) = &mut self.sheet.layouts {
            layouts.list = crate::app::action::LayoutList::Layouts;
        }
        self.sheet.hand.selected.clear();
        self.sheet.checks = ChecksShown { passed: self.sheet.checks.passed, ..ChecksShown::default() };
        self.sheet.fitted = false;
        self.notice = None;
    }

    fn show_lengths_in(&mut self, unit: Option<LengthUnit>) {
        self.options.lengths = unit;
        self.session.show_lengths_in(unit);
    }

    /// A photo to be read, on the page that reads it.
    pub(crate) fn read_photo(&mut self, ctx: &egui::Context, source: PhotoSource) {
        if self.page != PageId::Colour {
            self.show_page(ctx, PageId::Colour);
        }
        self.notice = None;
        self.pages.Colour.read_photo(ctx, source);
    }

    /// Closes what is open over the page. The first start left unanswered begins with an empty shop, so that whatever is
    /// drawn next has a place to be saved in.
    fn close_dialog(&mut self) {
        match self.dialog {
            Dialog::FirstStart(_) => self.begin_shop(FirstShop::Empty, false),
            Dialog::FirstDetails(_) => self.take_first_details(),
            _ => self.dialog = Dialog::None,
        }
    }

    pub(crate) fn say(&mut self, words: &str) {
        self.notice = Some(Notice::card(words));
    }

    pub(crate) fn say_done(&mut self, words: impl Into<String>) {
        self.notice = Some(Notice::Done(words.into()));
    }
}
