//! The one place where what a person did is done, after painting.

use std::sync::Arc;

use crate::app::action::Action;
use crate::app::pages::order_fields::Blank;
use crate::app::pages::page::Page;
use crate::app::sheet::layouts::List;
use crate::app::shell::window::{Dialog, Next, Said, Window};
use crate::app::widgets::naming::in_text;
use crate::app::widgets::theme;
use crate::app::widgets::today::today;
use crate::book::{Change, stop_flower};
use crate::command::{Command, Outcome};
use crate::piece::{Edit, Footprint, NewPart, PartId};
use crate::session::Front;
use crate::set_out::next_place;
use crate::sheet::Held;
use crate::stock::StockId;
use crate::units::{Doubt, Length, LengthUnit};

impl Window {
    /// Does one action.
    pub(crate) fn run(&mut self, ctx: &egui::Context, action: Action) {
        if action.goes_on() {
            self.said = None;
        }
        match action {
            Action::Order(command) => self.run_command(&command),
            Action::Wearer(name) => self.write(Blank::Wearer, name),
            Action::Write(blank, words) => self.write(blank, words),
            Action::Taps(wish) => self.do_about_taps(wish),
            Action::NotNow(says) => self.proposing.leave(says),
            Action::Colours(wish) => self.do_about_colour(ctx, wish),
            Action::Compare(name) => self.boards.toggle(&name),
            Action::Ways(wish) => self.do_about_ways(wish),
            Action::Price(wish) => self.do_about_price(wish),
            Action::OnSheet(front) => self.put_on_sheet(front),
            Action::Turn(page) => self.turn_to(page),
            Action::Type(field) => self.fields.ask_for(field),
            Action::LeaveBlank => self.leave_blank(),
            Action::Girth(words) => self.take_girth(&words),
            Action::Side(side) => self.change(&Change::Side(side)),
            Action::Tray(role) => self.tray = role,
            Action::Pick(id) => self.pick(&id),
            Action::Colour(name) => self.recolour(&name),
            Action::PutDown => self.put_down(),
            Action::Lift => self.sheet.lift(),
            Action::Cancel => self.cancel(),
            Action::Point(question) => {
                self.pointed_at = question;
                self.asked_why = None;
            }
            Action::AskForMore => self.asked_for_more = !self.asked_for_more,
            Action::ShowWell => self.well_shown = !self.well_shown,
            Action::Undo => self.step_back(true),
            Action::Redo => self.step_back(false),
            Action::Keep => self.save_order(),
            Action::KeepCopy => self.keep_copy(),
            Action::KeepPicture => self.keep_picture(),
            Action::MakePapers => self.make_papers(),
            Action::ShowOrders | Action::New if self.client_side => {}
            Action::ShowOrders => self.list_orders(),
            Action::ShowTogether => self.show_together(),
            Action::Join(path) => self.join(path),
            Action::Ring(ringing) => self.list_calls(ringing),
            Action::New => self.leave_for(ctx, Next::New),
            Action::AskForFile => self.ask_for_file(ctx),
            Action::Open(path) => self.leave_for(ctx, Next::Open(path)),
            Action::ShowHelp => self.dialog = Dialog::Help,
            Action::CloseDialog => self.close_dialog(),
            Action::ShowLooks => self.looks.open = !self.looks.open,
            Action::Skin(skin) => self.looks.skin = skin,
            Action::Beside(beside) => self.looks.beside = beside,
            Action::Lengths(unit) => self.tell_lengths_in(unit),
            Action::Cloth(cloth) => self.looks.cloth = cloth,
            Action::TurnScreen => self.turn_screen(),
            Action::TurnSecond => self.turn_second(ctx),
            Action::Light => self.turn_light(ctx),
            Action::House(wish) => self.do_about_house(ctx, wish),
            Action::Begin(choice) => self.begin_shop(choice),
            Action::AskWhy(question) => self.asked_why = question,
            Action::Layouts(wish) => self.do_about_layouts(ctx, wish),
            Action::Whole => self.fitted = false,
            Action::Zoom(by) => self.sheet.view.zoom(self.sheet.view.area.center(), by),
            Action::Select(id) => self.sheet.selected = vec![id],
            Action::SelectAll => {
                self.sheet.selected = self.session.piece().parts().iter().map(|p| p.id).collect();
            }
            Action::SelectNext(back) => self.sheet.select_next(back, self.session.piece()),
            Action::LeaveUnkept => self.go_on(ctx, true),
            Action::LeftOver(wish) => self.do_about_left_over(ctx, wish),
            Action::KeepAndGoOn => self.save_then(|w, ctx, is_saved| w.go_on(ctx, is_saved)),
            Action::Heard => self.said = None,
        }
    }

    /// Whether the list of orders is of those alone that wait for an answer.
    fn list_calls(&mut self, ringing: bool) {
        if let Dialog::Orders(listed) = &mut self.dialog {
            listed.ringing = ringing;
        }
    }

    fn tell_lengths_in(&mut self, unit: Option<LengthUnit>) {
        self.looks.lengths = unit;
        self.session.show_lengths_in(unit);
    }

    fn turn_light(&mut self, ctx: &egui::Context) {
        self.light = self.light.next();
        theme::dress(ctx, self.light);
    }

    /// Carries out what changes the order; why it cannot be done is shown.
    pub(crate) fn run_command(&mut self, command: &Command) {
        let before = self.session.piece().footprint;
        let outcome = self.session.run(command);
        self.refit_after(before);
        self.sheet.forget_gone(self.session.piece());
        match (outcome, command) {
            (Err(refusal), _) => self.say(&refusal.to_string()),
            (Ok(Outcome::Unchanged), Command::Fix(_)) => {
                self.say("Nothing can be moved that way: what would have to move is locked.");
            }
            (Ok(_), Command::Edit(Edit::Place(_))) => self.after_placing(),
            (Ok(_), _) => {}
        }
    }

    pub(crate) fn run_commands(&mut self, commands: &[Command]) {
        commands.iter().for_each(|command| self.run_command(command));
    }

    /// Changes the order, as one step.
    pub(crate) fn change(&mut self, change: &Change) {
        self.run_command(&Command::Change(change.clone()));
    }

    /// When the last one promised has been put on, the hand is empty again.
    fn after_placing(&mut self) {
        let Held::FromTray { new, .. } = &self.sheet.held else { return };
        let role = new.role;
        let derived = self.session.derived();
        let promised = self.session.size().is_some();
        let left = derived.stems.lines.iter().any(|l| l.role == role && l.to_place > 0);
        let planned = derived.stems.lines.iter().any(|l| l.role == role);
        if promised && planned && !left {
            self.sheet.held = Held::Nothing;
            self.sheet.selected = self.newest().into_iter().collect();
        } else if let Held::FromTray { new, .. } = &mut self.sheet.held {
            new.centre = next_place(self.session.piece(), self.session.stock());
        }
    }

    fn newest(&self) -> Option<PartId> {
        self.session.piece().parts().last().map(|p| p.id)
    }

    /// Takes what is written in a blank into the order, letter by letter; one stay in a blank is one step.
    /// Letter by letter: what reads is part of the order at once.
    pub(crate) fn write(&mut self, blank: Blank, words: String) {
        let before = Arc::clone(self.session.order());
        let mut change = blank.change(&words, &before);
        if blank == Blank::Paid {
            let on = Change::PaidOn(today(self.pricing.days_off));
            change = change.map(|paid| Change::Together(vec![paid, on]));
        }
        let refused = match change {
            None => Some(blank.refusal(&words)),
            Some(change) => self
                .session
                .run(&Command::ChangeInRun(change, blank.name().to_owned()))
                .err()
                .map(|why| why.to_string()),
        };
        self.draft.write(blank, words, &before, refused);
    }

    /// The field that was written in is left: the step stands for itself. What could not be taken is told, and what was there
    /// before comes back, for the beginning of a figure is another figure.
    pub(crate) fn leave_blank(&mut self) {
        self.run_command(&Command::EndRun);
        let Some(written) = self.draft.leave() else { return };
        let Some(why) = written.refused else { return };
        if *self.session.order() != written.before {
            self.run_command(&Command::Undo);
        }
        self.say(&why);
    }

    pub(crate) fn turn_to(&mut self, page: Page) {
        if page == Page::House && self.client_side {
            return;
        }
        // What was said is of the page before, unless it waits for an answer.
        self.said.take_if(|said| matches!(said, Said::Wants { offer: None, .. } | Said::Crowded { .. }));
        self.fields.forget_refused();
        self.leave_taps();
        self.take_what_is_typed();
        if page == Page::House {
            self.open_house();
        }
        self.page = page;
        self.offered = None;
        self.sheet_in_focus = false;
        self.looks.open = false;
        self.page_opened.set(page != Page::Sheet);
        self.focus_sheet = page == Page::Sheet;
    }

    /// Another oval is shown whole.
    fn refit_after(&mut self, before: Footprint) {
        if self.session.piece().footprint != before {
            self.fitted = false;
        }
    }

    pub(crate) fn take_girth(&mut self, words: &str) {
        if words.trim().is_empty() {
            self.change(&Change::NotMeasured);
            return;
        }
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

    /// Takes a bloom into the hand, unless the wearer does not bear it.
    fn pick(&mut self, id: &StockId) {
        let stock = Arc::clone(self.session.stock());
        // What her partner does not bear nobody has asked here.
        let hers = self.session.front() == Front::Wearers;
        if let Some(stop) = stop_flower(self.session.order(), id, &stock).filter(|_| hers) {
            let instead: Vec<_> = stop.instead.iter().filter_map(|id| stock.botanical(id)).collect();
            let offer = instead.first().map(|b| (format!("Take {}", in_text(&b.name)), Action::Pick(b.id.clone())));
            let names: Vec<String> = instead.iter().map(|b| in_text(&b.name)).collect();
            let others = if names.is_empty() { String::new() } else { format!(" Instead: {}.", names.join(", ")) };
            self.said = Some(Said::Wants { words: format!("{}{others}", stop.why), offer });
            return;
        }
        let colour = self.colour_for(id);
        let place = next_place(self.session.piece(), self.session.stock());
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
            self.run_command(&Command::Edit(Edit::Recolour(self.sheet.selected.clone(), Arc::clone(name))));
        }
    }

    fn put_down(&mut self) {
        if let Held::FromTray { new, .. } = &self.sheet.held {
            let place = new.centre;
            let commands = self.sheet.put_down(place, self.session.settled_piece());
            self.run_commands(&commands);
        }
    }

    fn cancel(&mut self) {
        if self.dialog != Dialog::None {
            self.close_dialog();
            return;
        }
        if std::mem::take(&mut self.looks.open) {
            return;
        }
        if self.close_layouts() {
            return;
        }
        if self.page != Page::Sheet {
            self.turn_to(Page::Sheet);
            return;
        }
        let commands = self.sheet.cancel();
        if commands.is_empty() && self.said.take().is_some() {
            return;
        }
        self.run_commands(&commands);
    }

    fn step_back(&mut self, back: bool) {
        if self.page == Page::House {
            self.step_house(back);
            return;
        }
        self.leave_taps();
        self.sheet.hand = crate::sheet::Hand::Idle;
        let order = Arc::clone(self.session.order());
        self.run_command(&if back { Command::Undo } else { Command::Redo });
        self.show_what_changed(&order);
    }

    pub(crate) fn turn_screen(&mut self) {
        self.client_side = !self.client_side;
        if self.page == Page::House {
            self.turn_to(Page::Sheet);
        }
        if let Some(offered) = &mut self.offered {
            offered.list = List::Layouts;
        }
        self.sheet.selected.clear();
        self.asked_for_more = false;
        self.fitted = false;
        self.pointed_at = None;
        self.asked_why = None;
        self.said = None;
    }

    pub(crate) fn say(&mut self, words: &str) {
        self.said = Some(Said::Wants { words: words.to_owned(), offer: None });
    }

    pub(crate) fn tell_done(&mut self, words: String) {
        self.said = Some(Said::Done(words));
    }
}
