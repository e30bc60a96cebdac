//! The price page: the slip line by line, extras, rush, another price with its reason, what is paid, why it is so much, and
//! the yes. On the client's side the same slip without what is the designer's own.

use std::sync::Arc;

use egui::{Align, Frame, Layout, Rect, RichText, ScrollArea, Stroke, TextEdit, Ui, pos2, vec2};

use crate::app::action::Action;
use crate::app::pages::order_fields::Blank;
use crate::app::pages::order_form::blank_ui;
use crate::app::pages::page::head_ui;
use crate::app::pages::pictures::{Framed, common_view, picture_ui};
use crate::app::pages::stopped::{stopped_ui, stops};
use crate::app::sheet::pair::{no_match_ui, pair_ui};
use crate::app::shell::window::Window;
use crate::app::widgets::controls::{Weight, button, button_sized, icon_button};
use crate::app::widgets::icons::Icon;
use crate::app::widgets::tap_board::Entry;
use crate::app::widgets::theme::{Colours, GRID, MAIN_TARGET, TARGET, strong, title, words};
use crate::app::widgets::today::today;
use crate::app::widgets::words::{Counter, Mine, Taps};
use crate::book::{Agreed, Change, Extra};
use crate::command::Command;
use crate::paperwork::{
    Quote, WHY_BELOW, agree, below_words_my_side, changed_since_agreed, holds_words, share_words, short_price,
    tax_words,
};
use crate::units::Cents;

/// What is open on the page, and what is being written on it that is not part of the order yet.
#[derive(Clone, Debug, Default)]
pub(crate) struct Pricing {
    /// Name and price of an extra.
    pub(crate) extra: [String; 2],
    why_shown: bool,
    /// Days by which the computer's day is put right.
    pub(crate) days_off: i64,
}

/// What can be asked of the page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Wish {
    /// The extra that was written.
    AddExtra,
    /// The extra of this place comes off.
    LeaveOut(usize),
    /// Show what the price is made of, or fold it away.
    Why,
    /// Put the day right by so many days.
    Day(i64),
    /// Make the quote slip, today.
    Slip,
    /// Both said yes, today.
    Yes,
}

impl Pricing {
    /// The extra as it is written, where both its fields can be read.
    fn written(&self) -> Option<Extra> {
        let [name, price] = &self.extra;
        let name = name.trim();
        let price = Cents::parse(price)?;
        (!name.is_empty()).then(|| Extra { name: name.to_owned(), price })
    }
}

impl Window {
    /// Does what was asked of the price page.
    pub(crate) fn do_about_price(&mut self, wish: Wish) {
        let extras = self.session.order().terms.extras.clone();
        match wish {
            Wish::AddExtra => {
                if let Some(extra) = self.pricing.written() {
                    self.change(&Change::Extras(extras.into_iter().chain([extra]).collect()));
                    self.pricing.extra = Default::default();
                }
            }
            Wish::LeaveOut(place) => {
                let others = extras.into_iter().enumerate().filter(|(n, _)| *n != place).map(|(_, extra)| extra);
                self.change(&Change::Extras(others.collect()));
            }
            Wish::Why => self.pricing.why_shown = !self.pricing.why_shown,
            Wish::Day(by) => self.pricing.days_off = (self.pricing.days_off + by).clamp(-1, 1),
            Wish::Slip => self.make_quote_slip(),
            Wish::Yes => self.say_yes(),
        }
    }

    fn say_yes(&mut self) {
        self.take_what_is_typed();
        self.run_command(&Command::EndRun);
        let order = self.session.order();
        if order.piece.parts().is_empty() && order.partner_piece.as_ref().is_none_or(|p| p.parts().is_empty()) {
            self.say(Counter::NOTHING_YET);
            return;
        }
        let Some(day) = today(self.pricing.days_off) else {
            self.say(Mine::NO_DAY);
            return;
        };
        let sheet = agree(self.session.order(), day, self.session.style(), self.session.stock());
        self.change(&Change::Agreed(Some(Box::new(sheet))));
    }
}

pub(crate) fn price_page_ui(ui: &mut Ui, w: &mut Window, actions: &mut Vec<Action>) {
    let quote = w.session.quote();
    let whose = w.session.order().title();
    head_ui(ui, w, Counter::PRICE, &shortened(&whose), actions);
    let stops = stops(w);
    ScrollArea::vertical().auto_shrink([false, false]).show(ui, |ui| {
        let width = (ui.available_width() - 3.0 * GRID) / 2.0;
        ui.horizontal_top(|ui| {
            ui.spacing_mut().item_spacing.x = 2.0 * GRID;
            ui.vertical(|ui| {
                ui.set_width(width);
                slip_ui(ui, w, &quote, actions);
                if !w.client_side {
                    another_ui(ui, w, &quote, actions);
                }
                ui.add_space(GRID);
                stopped_ui(ui, w, &stops, actions);
            });
            ui.vertical(|ui| {
                ui.set_width(width);
                pair_ui(ui, w, &quote, actions);
                ui.horizontal(|ui| {
                    why_button_ui(ui, w, actions);
                    if !w.client_side
                        && button(ui, &w.colours(), Mine::SLIP, Weight::Plain).on_hover_text(Mine::SLIP_TIP).clicked()
                    {
                        actions.push(Action::Price(Wish::Slip));
                    }
                    no_match_ui(ui, w, actions);
                });
                why_ui(ui, w, &quote);
                yes_ui(ui, w, stops.is_empty(), actions);
            });
        });
    });
}

/// A name that fits beside the title.
fn shortened(name: &str) -> String {
    const LETTERS: usize = 60;
    if name.chars().count() <= LETTERS {
        return name.to_owned();
    }
    name.chars().take(LETTERS - 1).chain(['\u{2026}']).collect()
}

fn card(c: &Colours) -> Frame {
    Frame::new().fill(c.card).stroke((1.0, c.line)).corner_radius(12).inner_margin(14)
}

/// What it is for and what it comes to.
fn row_ui(ui: &mut Ui, c: &Colours, left: &str, right: &str, end: impl FnOnce(&mut Ui)) {
    ui.horizontal(|ui| {
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            ui.label(RichText::new(right).font(strong(18.0)).color(c.ink));
            end(ui);
            ui.with_layout(Layout::left_to_right(Align::Center).with_main_wrap(false), |ui| {
                ui.add(egui::Label::new(RichText::new(left).font(words(18.0)).color(c.ink)).truncate());
            });
        });
    });
}

fn slip_ui(ui: &mut Ui, w: &mut Window, quote: &Quote, actions: &mut Vec<Action>) {
    let c = w.colours();
    card(&c).show(ui, |ui| {
        ui.spacing_mut().item_spacing.y = 2.0;
        ui.spacing_mut().interact_size.y = ROW;
        let money = |price| short_price(price, &quote.currency);
        lines_ui(ui, w, quote, actions);
        ui.spacing_mut().interact_size.y = ROW;
        extra_ui(ui, w, actions);
        if let (Some(tax), Some(said)) = (&quote.tax, tax_words(quote)) {
            row_ui(ui, &c, &said, &money(tax.amount), |_| {});
        }
        ui.separator();
        ui.horizontal(|ui| {
            ui.set_min_height(TARGET);
            ui.label(RichText::new(Counter::IN_ALL).font(title(26.0)).color(c.ink));
            ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                ui.label(RichText::new(money(quote.total)).font(title(34.0)).color(c.ink));
            });
        });
        row_ui(ui, &c, Counter::NOW, &money(quote.deposit), |_| {});
        row_ui(ui, &c, Counter::LATER, &money(quote.balance), |_| {});
        let agreed = w.session.order().agreed.is_some();
        if let Some(until) = quote.holds_until.filter(|_| !agreed) {
            ui.label(RichText::new(holds_words(until)).font(words(15.0)).color(c.soft));
        }
        paid_ui(ui, w, quote, actions);
    });
}

/// Height of a line of the slip, points.
const ROW: f32 = 30.0;

/// The pieces, the extras and the rush. Extras have a button that takes them off.
fn lines_ui(ui: &mut Ui, w: &Window, quote: &Quote, actions: &mut Vec<Action>) {
    let c = w.colours();
    let terms = &w.session.order().terms;
    let n_pieces = quote.lines.len().saturating_sub(terms.extras.len() + usize::from(terms.rush));
    for (n, line) in quote.lines.iter().enumerate() {
        let extra = n.checked_sub(n_pieces).filter(|n| *n < terms.extras.len());
        // As high as the button that takes it off, so that words and price stand on one line.
        ui.spacing_mut().interact_size.y = if extra.is_some() { TARGET } else { ROW };
        row_ui(ui, &c, &line.what, &short_price(line.price, &quote.currency), |ui| {
            if let Some(place) = extra
                && icon_button(ui, &c, Icon::TakeOff, &Counter::leave_out(&line.what), true).clicked()
            {
                actions.push(Action::Price(Wish::LeaveOut(place)));
            }
        });
    }
}

/// A blank line on the slip: something extra and its price; and the rush.
fn extra_ui(ui: &mut Ui, w: &mut Window, actions: &mut Vec<Action>) {
    let c = w.colours();
    ui.add_space(4.0);
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 6.0;
        let rush = w.session.order().terms.rush;
        let weight = if rush { Weight::Chosen } else { Weight::Plain };
        if button(ui, &c, Counter::RUSH, weight).clicked() {
            actions.push(Action::change(Change::Rush(!rush)));
        }
        let name_width = (ui.available_width() - 64.0 - 70.0 - 12.0).max(60.0);
        let hints = [
            (Counter::EXTRA_HINT, Taps::EXTRA_NAME, name_width, Entry::ExtraName),
            ("5", Taps::EXTRA_PRICE, 64.0, Entry::ExtraPrice),
        ];
        let mut entered = false;
        for (text, (hint, name, width, entry)) in w.pricing.extra.iter_mut().zip(hints) {
            let field = TextEdit::singleline(text)
                .hint_text(hint)
                .font(words(17.0))
                .desired_width(width - 8.0)
                .min_size(vec2(width, TARGET))
                .align(egui::Align2::LEFT_CENTER)
                .char_limit(60);
            let response = ui.add(field).accessible_name(name);
            w.taps.enter(&response, entry, actions);
            entered |= response.lost_focus() && ui.input(|i| i.key_pressed(egui::Key::Enter));
        }
        let ready = w.pricing.written().is_some();
        let add = ui.add_enabled_ui(ready, |ui| button(ui, &c, Counter::ADD, Weight::Plain)).inner;
        if ready && (add.clicked() || entered) {
            actions.push(Action::Price(Wish::AddExtra));
        }
    });
    ui.add_space(4.0);
}

fn paid_ui(ui: &mut Ui, w: &mut Window, quote: &Quote, actions: &mut Vec<Action>) {
    let c = w.colours();
    let money = |price| short_price(price, &quote.currency);
    if !w.client_side {
        ui.scope(|ui| {
            ui.spacing_mut().interact_size.y = TARGET;
            ui.horizontal(|ui| paid_blank_ui(ui, w, quote, actions));
        });
    } else if quote.paid.0 > 0 {
        row_ui(ui, &c, Counter::PAID, &money(quote.paid), |_| {});
    }
    if quote.paid.0 > 0 && quote.due.0 <= 0 {
        ui.label(RichText::new(Counter::ALL_PAID).font(strong(17.0)).color(c.leaf));
    } else if quote.paid.0 > 0 {
        row_ui(ui, &c, Counter::DUE, &money(quote.due), |_| {});
    }
}

/// What is paid so far: written, or half and all of it by one press.
fn paid_blank_ui(ui: &mut Ui, w: &mut Window, quote: &Quote, actions: &mut Vec<Action>) {
    let c = w.colours();
    ui.spacing_mut().item_spacing.x = 6.0;
    ui.label(RichText::new(Mine::PAID).font(words(18.0)).color(c.ink));
    amount_ui(ui, w, Blank::Paid, 84.0, actions);
    for sum in [quote.deposit, quote.total] {
        let weight = if quote.paid == sum && sum.0 > 0 { Weight::Chosen } else { Weight::Plain };
        if button(ui, &c, &short_price(sum, &quote.currency), weight).clicked() {
            let paid = if quote.paid == sum { Cents(0) } else { sum };
            let on = today(w.pricing.days_off).filter(|_| paid.0 > 0);
            let change = Change::Together(vec![Change::Paid(paid), Change::PaidOn(on)]);
            actions.push(Action::change(change));
        }
    }
}

/// A blank for an amount; while what stands in it cannot be read, how it is written stands beside it.
fn amount_ui(ui: &mut Ui, w: &mut Window, blank: Blank, width: f32, actions: &mut Vec<Action>) {
    blank_ui(ui, w, blank, width, actions);
    let readable = |words: &str| blank.change(words, w.session.order()).is_some();
    if w.draft.in_field(blank).is_some_and(|words| !readable(words)) {
        let c = w.colours();
        ui.label(RichText::new(Mine::AMOUNT).font(words(14.0)).color(c.rose));
    }
}

/// My side: a price asked instead of the worked one, and what it means.
fn another_ui(ui: &mut Ui, w: &mut Window, quote: &Quote, actions: &mut Vec<Action>) {
    let c = w.colours();
    ui.add_space(GRID);
    card(&c).show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.spacing_mut().item_spacing.y = 4.0;
        ui.horizontal(|ui| {
            ui.spacing_mut().item_spacing.x = 6.0;
            ui.label(RichText::new(format!("{} {}", Mine::ANOTHER, quote.currency)).font(strong(16.0)).color(c.ink));
            amount_ui(ui, w, Blank::Asked, 84.0, actions);
            if quote.asked.is_some() {
                let width = ui.available_width() - 8.0;
                blank_ui(ui, w, Blank::Reason, width, actions);
            } else {
                let house = Mine::house(&short_price(quote.house, &quote.currency));
                ui.label(RichText::new(house).font(words(15.0)).color(c.soft));
            }
        });
        if let Some(said) = below_words_my_side(quote) {
            ui.label(RichText::new(said).font(strong(16.0)).color(c.rose));
            if quote.asked.as_ref().is_some_and(|a| a.reason.trim().is_empty()) {
                ui.label(RichText::new(WHY_BELOW).font(words(15.0)).color(c.ink));
            }
        }
    });
}

fn why_button_ui(ui: &mut Ui, w: &Window, actions: &mut Vec<Action>) {
    let weight = if w.pricing.why_shown { Weight::Chosen } else { Weight::Plain };
    if button(ui, &w.colours(), Counter::WHY, weight).clicked() {
        actions.push(Action::Price(Wish::Why));
    }
}

/// The bar of three; it tells shares and no sum.
fn why_ui(ui: &mut Ui, w: &Window, quote: &Quote) {
    if !w.pricing.why_shown {
        return;
    }
    let c = w.colours();
    ui.label(RichText::new(Counter::MADE_OF).font(words(16.0)).color(c.ink));
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), 64.0), egui::Sense::hover());
    let bar = Rect::from_min_size(rect.min, vec2(rect.width(), 28.0));
    let mut from = bar.min.x;
    for ((name, percent), fill) in share_words(&quote.share_of_three).into_iter().zip([c.rose, c.kraft, c.leaf]) {
        let width = bar.width() * percent as f32 / 100.0;
        let part = Rect::from_min_size(pos2(from, bar.min.y), vec2(width, bar.height()));
        ui.painter().rect(part, 4.0, fill, Stroke::new(1.0, c.card), egui::StrokeKind::Inside);
        let mut job =
            egui::text::LayoutJob::simple(format!("{name}\n{percent} %"), words(15.0), c.ink, width.max(40.0));
        job.wrap.max_rows = 2;
        let galley = ui.painter().layout_job(job);
        ui.painter().galley(pos2(from + 2.0, bar.max.y + 2.0), galley, c.ink);
        from += width;
    }
}

/// The yes, or what was agreed and what has changed since.
fn yes_ui(ui: &mut Ui, w: &mut Window, all_well: bool, actions: &mut Vec<Action>) {
    let c = w.colours();
    let order = Arc::clone(w.session.order());
    ui.add_space(GRID);
    card(&c).show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.spacing_mut().item_spacing.y = 4.0;
        match &order.agreed {
            None => {
                ui.label(RichText::new(Counter::WHAT_YES_DOES).font(words(16.0)).color(c.ink));
                let label = if all_well { Counter::YES } else { Counter::YES_ALL_THE_SAME };
                yes_button_ui(ui, w, label, all_well, actions);
            }
            Some(agreed) => agreed_ui(ui, w, agreed, all_well, actions),
        }
    });
}

fn yes_button_ui(ui: &mut Ui, w: &Window, label: &str, all_well: bool, actions: &mut Vec<Action>) {
    let c = w.colours();
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 6.0;
        // What is stopped is seen to first: the button does not call then.
        let weight = if all_well { Weight::Main } else { Weight::Plain };
        if button_sized(ui, &c, label, weight, vec2(150.0, MAIN_TARGET)).clicked() {
            actions.push(Action::Price(Wish::Yes));
        }
        let day = today(w.pricing.days_off).map(|day| day.text()).unwrap_or_default();
        if !w.client_side && icon_button(ui, &c, Icon::Smaller, Mine::EARLIER, true).clicked() {
            actions.push(Action::Price(Wish::Day(-1)));
        }
        ui.label(RichText::new(Counter::today(&day)).font(words(17.0)).color(c.ink));
        if !w.client_side && icon_button(ui, &c, Icon::Larger, Mine::LATER, true).clicked() {
            actions.push(Action::Price(Wish::Day(1)));
        }
    });
}

/// What has changed since comes first, with the yes to it; then the sheet as it was frozen.
fn agreed_ui(ui: &mut Ui, w: &mut Window, agreed: &Agreed, all_well: bool, actions: &mut Vec<Action>) {
    let c = w.colours();
    let price = short_price(agreed.price, &w.session.style().prices.currency);
    let said = Counter::agreed_on(&agreed.on.text(), &price);
    ui.label(RichText::new(said).font(title(24.0)).color(c.ink));
    let changed = changed_since_agreed(w.session.order(), w.session.style(), w.session.stock());
    let (state, ink) = if changed.is_empty() { (Counter::AS_AGREED, c.leaf) } else { (Counter::CHANGED, c.rose) };
    ui.horizontal(|ui| {
        ui.spacing_mut().interact_size.y = TARGET;
        ui.label(RichText::new(state).font(strong(17.0)).color(ink));
        if !w.client_side {
            ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                if button(ui, &c, Mine::TAKE_BACK, Weight::Plain).clicked() {
                    actions.push(Action::change(Change::Agreed(None)));
                }
            });
        }
    });
    for line in &changed {
        ui.label(RichText::new(line).font(words(16.0)).color(c.ink));
    }
    if !changed.is_empty() {
        yes_button_ui(ui, w, Counter::YES_AGAIN, all_well, actions);
    }
    ui.separator();
    let until = agreed.holds_until.map(holds_words);
    for line in agreed.says.iter().chain(&until) {
        ui.label(RichText::new(line).font(words(15.0)).color(c.ink));
    }
    if agreed.order().piece != w.session.order().piece {
        as_agreed_ui(ui, w, agreed);
    }
}

/// The picture that both said yes to, drawn again from the sheet.
fn as_agreed_ui(ui: &mut Ui, w: &mut Window, agreed: &Agreed) {
    let c = w.colours();
    ui.label(RichText::new(Counter::PICTURE_AS_AGREED).font(words(15.0)).color(c.soft));
    let (rect, _) = ui.allocate_exact_size(vec2(200.0, 190.0), egui::Sense::hover());
    let piece = &agreed.order().piece;
    let view = common_view([piece].into_iter(), w.session.stock(), rect.size());
    picture_ui(ui, w, &Framed { name: "as agreed", piece, rect, view });
}
