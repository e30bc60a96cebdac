//! The price page: the quote line by line, extras, rush, a price of her own with its reason, what is paid, what the price is
//! made of, and the agreement. In the client view the same without what is the designer's own.

use egui::{Align, Frame, Key, Layout, Rect, RichText, ScrollArea, Stroke, Ui, pos2, vec2};

use crate::app::action::Action;
use crate::app::context::{Context, Inputs, Requests};
use crate::app::pages::{Page, PageInfo};
use crate::app::parts::board::{Framed, common_view, picture_ui};
use crate::app::parts::field::field_ui;
use crate::app::parts::page_head::{head_ui, shortened};
use crate::app::parts::pair::{pair_ui, remove_boutonniere_ui};
use crate::app::parts::stopped::stopped_ui;
use crate::app::typing::field::Field;
use crate::app::view::{ClientAgreement, ShopView};
use crate::app::widgets::controls::{Weight, button, button_sized, icon_button};
use crate::app::widgets::icons::Icon;
use crate::app::widgets::theme::{Colours, GRID, MAIN_TARGET, TARGET, strong, title, words};
use crate::app::widgets::words::{Counter, Mine};
use crate::book::Change;
use crate::paperwork::{WHY_BELOW, below_words_my_side, holds_words, share_words, short_price};
use crate::units::Cents;

/// What is open on the page.
#[derive(Clone, Debug, Default)]
pub(crate) struct PricePage {
    /// Whether it is shown what the price is made of.
    shares_shown: bool,
}

/// What can be asked of the page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum PriceAction {
    /// The extra of this place comes off.
    RemoveExtra(usize),
    /// Show what the price is made of, or fold it away.
    ShowShares,
}

impl Page for PricePage {
    type Action = PriceAction;

    const INFO: PageInfo = PageInfo { on_rail: Some(("Price", Icon::Price)), key: Key::I, is_for_shop: false };

    fn ui(&self, ui: &mut Ui, cx: &Context<'_>, requests: &mut Requests<PriceAction>) {
        head_ui(ui, cx, Counter::PRICE, &shortened(&cx.client.order.title, 60), &mut requests.shared);
        ScrollArea::vertical().auto_shrink([false, false]).show(ui, |ui| {
            let width = (ui.available_width() - 3.0 * GRID) / 2.0;
            ui.horizontal_top(|ui| {
                ui.spacing_mut().item_spacing.x = 2.0 * GRID;
                ui.vertical(|ui| {
                    ui.set_width(width);
                    quote_ui(ui, cx, requests);
                    if let Some(shop) = cx.shop {
                        own_price_ui(ui, cx, shop, &mut requests.shared);
                    }
                    ui.add_space(GRID);
                    stopped_ui(ui, cx, &mut requests.shared);
                });
                ui.vertical(|ui| {
                    ui.set_width(width);
                    pair_ui(ui, cx, &mut requests.shared);
                    ui.horizontal(|ui| self.buttons_ui(ui, cx, requests));
                    if self.shares_shown {
                        shares_ui(ui, cx);
                    }
                    agreement_ui(ui, cx, &mut requests.shared);
                });
            });
        });
    }

    fn run(&mut self, action: PriceAction, inputs: &mut Inputs<'_>) -> Vec<Action> {
        match action {
            PriceAction::RemoveExtra(place) => {
                let extras = inputs.session.order().terms.extras.clone();
                let others = extras.into_iter().enumerate().filter(|(n, _)| *n != place).map(|(_, extra)| extra);
                vec![Action::change(Change::Extras(others.collect()))]
            }
            PriceAction::ShowShares => {
                self.shares_shown = !self.shares_shown;
                Vec::new()
            }
        }
    }
}

impl PricePage {
    fn buttons_ui(&self, ui: &mut Ui, cx: &Context<'_>, requests: &mut Requests<PriceAction>) {
        let weight = if self.shares_shown { Weight::Chosen } else { Weight::Plain };
        if button(ui, &cx.colours, Counter::WHY, weight).clicked() {
            requests.own.push(PriceAction::ShowShares);
        }
        if cx.shop.is_some()
            && button(ui, &cx.colours, Mine::SLIP, Weight::Plain).on_hover_text(Mine::SLIP_TIP).clicked()
        {
            requests.shared.push(Action::MakeQuote);
        }
        remove_boutonniere_ui(ui, cx, &mut requests.shared);
    }
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

fn quote_ui(ui: &mut Ui, cx: &Context<'_>, requests: &mut Requests<PriceAction>) {
    let c = cx.colours;
    let quote = &cx.client.quote;
    card(&c).show(ui, |ui| {
        ui.spacing_mut().item_spacing.y = 2.0;
        let money = |price| short_price(price, &cx.client.currency);
        lines_ui(ui, cx, requests);
        ui.spacing_mut().interact_size.y = ROW;
        extra_ui(ui, cx, &mut requests.shared);
        if let (Some(tax), Some(words)) = (&quote.tax, &quote.tax_words) {
            row_ui(ui, &c, words, &money(tax.amount), |_| {});
        }
        ui.separator();
        ui.horizontal(|ui| {
            ui.set_min_height(TARGET);
            ui.label(RichText::new(Counter::TOTAL).font(title(26.0)).color(c.ink));
            ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                ui.label(RichText::new(money(quote.total)).font(title(34.0)).color(c.ink));
            });
        });
        row_ui(ui, &c, Counter::DEPOSIT, &money(quote.deposit), |_| {});
        row_ui(ui, &c, Counter::BALANCE, &money(quote.balance), |_| {});
        if let Some(until) = quote.holds_until.filter(|_| cx.client.order.agreed.is_none()) {
            ui.label(RichText::new(holds_words(until, cx.written.date)).font(words(15.0)).color(c.soft));
        }
        paid_ui(ui, cx, &mut requests.shared);
    });
}

/// Height of a line of the quote, points.
const ROW: f32 = 30.0;

/// The pieces, the extras and the rush. Extras have a button that takes them off.
fn lines_ui(ui: &mut Ui, cx: &Context<'_>, requests: &mut Requests<PriceAction>) {
    let order = &cx.client.order;
    let lines = &cx.client.quote.lines;
    let n_pieces = lines.len().saturating_sub(order.extras.len() + usize::from(order.rush));
    for (n, line) in lines.iter().enumerate() {
        let extra = n.checked_sub(n_pieces).filter(|n| *n < order.extras.len());
        // As high as the button that takes it off, so that words and price stand on one line.
        ui.spacing_mut().interact_size.y = if extra.is_some() { TARGET } else { ROW };
        row_ui(ui, &cx.colours, &line.what, &short_price(line.price, &cx.client.currency), |ui| {
            if let Some(place) = extra
                && icon_button(ui, &cx.colours, Icon::Remove, &Counter::remove(&line.what), true).clicked()
            {
                requests.own.push(PriceAction::RemoveExtra(place));
            }
        });
    }
}

/// A blank line on the quote: an extra and its price; and the rush.
fn extra_ui(ui: &mut Ui, cx: &Context<'_>, actions: &mut Vec<Action>) {
    ui.add_space(4.0);
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 6.0;
        let rush = cx.client.order.rush;
        let weight = if rush { Weight::Chosen } else { Weight::Plain };
        if button(ui, &cx.colours, Counter::RUSH, weight).clicked() {
            actions.push(Action::change(Change::Rush(!rush)));
        }
        let name_width = (ui.available_width() - 64.0 - 70.0 - 12.0).max(60.0);
        let mut entered = false;
        for (field, width) in [(Field::ExtraName, name_width - 8.0), (Field::ExtraPrice, 56.0)] {
            let response = field_ui(ui, cx, field, width, actions);
            entered |= response.lost_focus() && ui.input(|i| i.key_pressed(Key::Enter));
        }
        let ready = cx.typing.extra().is_some();
        let add = ui.add_enabled_ui(ready, |ui| button(ui, &cx.colours, Counter::ADD, Weight::Plain)).inner;
        if ready && (add.clicked() || entered) {
            actions.push(Action::AddExtra);
        }
    });
    ui.add_space(4.0);
}

fn paid_ui(ui: &mut Ui, cx: &Context<'_>, actions: &mut Vec<Action>) {
    let c = cx.colours;
    let quote = &cx.client.quote;
    let money = |price| short_price(price, &cx.client.currency);
    if cx.shop.is_some() {
        ui.scope(|ui| {
            ui.spacing_mut().interact_size.y = TARGET;
            ui.horizontal(|ui| paid_field_ui(ui, cx, actions));
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

/// What is paid so far: written, or the deposit and all of it by one press.
fn paid_field_ui(ui: &mut Ui, cx: &Context<'_>, actions: &mut Vec<Action>) {
    let quote = &cx.client.quote;
    ui.spacing_mut().item_spacing.x = 6.0;
    ui.label(RichText::new(Mine::PAID).font(words(18.0)).color(cx.colours.ink));
    amount_ui(ui, cx, Field::Paid, 84.0, actions);
    for sum in [quote.deposit, quote.total] {
        let weight = if quote.paid == sum && sum.0 > 0 { Weight::Chosen } else { Weight::Plain };
        if button(ui, &cx.colours, &short_price(sum, &cx.client.currency), weight).clicked() {
            let paid = if quote.paid == sum { Cents(0) } else { sum };
            let on = cx.today.filter(|_| paid.0 > 0);
            actions.push(Action::change(Change::Together(vec![Change::Paid(paid), Change::PaidOn(on)])));
        }
    }
}

/// A field for an amount; while what stands in it cannot be read, how it is written stands beside it.
fn amount_ui(ui: &mut Ui, cx: &Context<'_>, field: Field, width: f32, actions: &mut Vec<Action>) {
    field_ui(ui, cx, field, width, actions);
    if cx.typing.is_unreadable(field) {
        ui.label(RichText::new(Mine::AMOUNT).font(words(14.0)).color(cx.colours.rose));
    }
}

/// Shop view: a price of her own instead of the shop's, and what it means.
fn own_price_ui(ui: &mut Ui, cx: &Context<'_>, shop: &ShopView, actions: &mut Vec<Action>) {
    let c = cx.colours;
    let quote = &shop.quote;
    ui.add_space(GRID);
    card(&c).show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.spacing_mut().item_spacing.y = 4.0;
        ui.horizontal(|ui| {
            ui.spacing_mut().item_spacing.x = 6.0;
            ui.label(
                RichText::new(format!("{} {}", Mine::OWN_PRICE, quote.currency.sign)).font(strong(16.0)).color(c.ink),
            );
            amount_ui(ui, cx, Field::Asked, 84.0, actions);
            if quote.asked.is_some() {
                let width = ui.available_width() - 8.0;
                field_ui(ui, cx, Field::Reason, width, actions);
            } else {
                let house = Mine::shop_price(&short_price(quote.house, &quote.currency));
                ui.label(RichText::new(house).font(words(15.0)).color(c.soft));
            }
        });
        if let Some(below) = below_words_my_side(quote) {
            ui.label(RichText::new(below).font(strong(16.0)).color(c.rose));
            if quote.asked.as_ref().is_some_and(|a| a.reason.trim().is_empty()) {
                ui.label(RichText::new(WHY_BELOW).font(words(15.0)).color(c.ink));
            }
        }
    });
}

/// The bar of three; it tells shares and no sum.
fn shares_ui(ui: &mut Ui, cx: &Context<'_>) {
    let c = cx.colours;
    ui.label(RichText::new(Counter::MADE_OF).font(words(16.0)).color(c.ink));
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), 64.0), egui::Sense::hover());
    let bar = Rect::from_min_size(rect.min, vec2(rect.width(), 28.0));
    let mut from = bar.min.x;
    for ((name, percent), fill) in share_words(&cx.client.quote.shares).into_iter().zip([c.rose, c.kraft, c.leaf]) {
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

/// The button that agrees, or what was agreed and what has changed since.
fn agreement_ui(ui: &mut Ui, cx: &Context<'_>, actions: &mut Vec<Action>) {
    let c = cx.colours;
    let all_well = cx.client.stopped.is_empty();
    ui.add_space(GRID);
    card(&c).show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.spacing_mut().item_spacing.y = 4.0;
        match &cx.client.order.agreed {
            None => {
                ui.label(RichText::new(Counter::WHAT_YES_DOES).font(words(16.0)).color(c.ink));
                agree_button_ui(ui, cx, if all_well { Counter::AGREE } else { Counter::AGREE_ANYWAY }, actions);
            }
            Some(agreed) => agreed_ui(ui, cx, agreed, actions),
        }
    });
}

fn agree_button_ui(ui: &mut Ui, cx: &Context<'_>, label: &str, actions: &mut Vec<Action>) {
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 6.0;
        // What is stopped is seen to first: the button does not call then.
        let weight = if cx.client.stopped.is_empty() { Weight::Main } else { Weight::Plain };
        if button_sized(ui, &cx.colours, label, weight, vec2(150.0, MAIN_TARGET)).clicked() {
            actions.push(Action::Agree);
        }
        let day = cx.today.map(|day| day.written(cx.written.date)).unwrap_or_default();
        if cx.shop.is_some() && icon_button(ui, &cx.colours, Icon::Less, Mine::EARLIER, true).clicked() {
            actions.push(Action::ShiftDay(-1));
        }
        ui.label(RichText::new(day).font(words(17.0)).color(cx.colours.ink));
        if cx.shop.is_some() && icon_button(ui, &cx.colours, Icon::More, Mine::LATER, true).clicked() {
            actions.push(Action::ShiftDay(1));
        }
    });
}

/// What has changed since comes first, with the yes to it; then the agreement as it was frozen.
fn agreed_ui(ui: &mut Ui, cx: &Context<'_>, agreed: &ClientAgreement, actions: &mut Vec<Action>) {
    let c = cx.colours;
    let price = short_price(agreed.price, &cx.client.currency);
    let on = Counter::agreed_on(&agreed.on.written(cx.written.date), &price);
    ui.label(RichText::new(on).font(title(24.0)).color(c.ink));
    let changed = &cx.client.changes;
    let (state, ink) = if changed.is_empty() { (Counter::AS_AGREED, c.leaf) } else { (Counter::CHANGED, c.rose) };
    ui.horizontal(|ui| {
        ui.spacing_mut().interact_size.y = TARGET;
        ui.label(RichText::new(state).font(strong(17.0)).color(ink));
        if cx.shop.is_some() {
            ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                if button(ui, &c, Mine::TAKE_BACK, Weight::Plain).clicked() {
                    actions.push(Action::change(Change::Agreed(None)));
                }
            });
        }
    });
    for line in changed {
        ui.label(RichText::new(line).font(words(16.0)).color(c.ink));
    }
    if !changed.is_empty() {
        agree_button_ui(ui, cx, Counter::AGREE_AGAIN, actions);
    }
    ui.separator();
    let until = agreed.holds_until.map(|until| holds_words(until, cx.written.date));
    for line in agreed.lines.iter().chain(&until) {
        ui.label(RichText::new(line).font(words(15.0)).color(c.ink));
    }
    if agreed.piece != cx.client.order.piece {
        as_agreed_ui(ui, cx, agreed);
    }
}

/// The picture that both agreed to, drawn again from the agreement.
fn as_agreed_ui(ui: &mut Ui, cx: &Context<'_>, agreed: &ClientAgreement) {
    ui.label(RichText::new(Counter::PICTURE_AS_AGREED).font(words(15.0)).color(cx.colours.soft));
    let (rect, _) = ui.allocate_exact_size(vec2(200.0, 190.0), egui::Sense::hover());
    let piece = &agreed.piece;
    let view = common_view([piece].into_iter(), cx.client, rect.size());
    picture_ui(ui, cx, &Framed { name: "as agreed", piece, rect, view });
}
