//! The price page: the quote line by line, extras, rush, a price of her own with its reason, what is paid, what the price is
//! made of, and the agreement. In the client view the same without what is the designer's own.

mod agreement;
mod own_price;
mod payments;
mod quote_lines;

use egui::{Align, Frame, Key, Layout, Rect, RichText, ScrollArea, Stroke, Ui, pos2, vec2};

use crate::app::action::Action;
use crate::app::context::{Context, Inputs, Requests};
use crate::app::pages::{Page, PageInfo};
use crate::app::parts::field::field_ui;
use crate::app::parts::page_head::{head_ui, shortened};
use crate::app::parts::pair::{pair_ui, remove_boutonniere_ui};
use crate::app::parts::stopped::stopped_ui;
use crate::app::typing::field::Field;
use crate::app::widgets::controls::{Weight, button};
use crate::app::widgets::icons::Icon;
use crate::app::widgets::theme::{Colours, GRID, strong, words};
use crate::app::widgets::words::{Counter, Mine};
use crate::book::{Change, PayWay};
use crate::paperwork::share_words;

/// What is open on the page.
#[derive(Clone, Debug, Default)]
pub(crate) struct PricePage {
    /// Whether it is shown what the price is made of.
    shares_shown: bool,
    /// Whether the next payment goes back to the client.
    is_refund: bool,
}

/// What can be asked of the page.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum PriceAction {
    /// The extra of this place comes off.
    RemoveExtra(usize),
    /// The payment of this place comes off.
    RemovePayment(usize),
    /// What is written was paid in this way; without one, in the way that is written.
    Pay(Option<PayWay>),
    /// The next payment goes back to the client, or does not.
    Refund,
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
                    self.quote_ui(ui, cx, requests);
                    if let Some(shop) = cx.shop {
                        own_price::own_price_ui(ui, cx, shop, &mut requests.shared);
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
                    agreement::agreement_ui(ui, cx, &mut requests.shared);
                });
            });
        });
    }

    fn run(&mut self, action: PriceAction, inputs: &mut Inputs<'_>) -> Vec<Action> {
        let terms = &inputs.session.order().terms;
        match action {
            PriceAction::RemoveExtra(place) => vec![Action::change(Change::Extras(without(&terms.extras, place)))],
            PriceAction::RemovePayment(place) => {
                vec![Action::change(Change::Payments(without(&terms.payments, place)))]
            }
            PriceAction::Pay(way) => {
                let is_refund = std::mem::take(&mut self.is_refund);
                vec![Action::AddPayment { way, is_refund }]
            }
            PriceAction::Refund => {
                self.is_refund = !self.is_refund;
                Vec::new()
            }
            PriceAction::ShowShares => {
                self.shares_shown = !self.shares_shown;
                Vec::new()
            }
        }
    }
}

/// All of them but the one of this place.
fn without<T: Clone>(all: &[T], place: usize) -> Vec<T> {
    all.iter().enumerate().filter(|(n, _)| *n != place).map(|(_, one)| one.clone()).collect()
}

impl PricePage {
    fn quote_ui(&self, ui: &mut Ui, cx: &Context<'_>, requests: &mut Requests<PriceAction>) {
        card(&cx.colours).show(ui, |ui| {
            ui.spacing_mut().item_spacing.y = 2.0;
            quote_lines::lines_ui(ui, cx, requests);
            payments::payments_ui(ui, cx, self.is_refund, requests);
        });
    }

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

/// Height of a line of the quote, points.
const ROW: f32 = 30.0;

/// A field for an amount; while what stands in it cannot be read, how it is written stands beside it.
fn amount_ui(ui: &mut Ui, cx: &Context<'_>, field: Field, width: f32, actions: &mut Vec<Action>) {
    field_ui(ui, cx, field, width, actions);
    amount_words_ui(ui, cx, field);
}

/// How an amount is written, while what stands in its field cannot be read.
fn amount_words_ui(ui: &mut Ui, cx: &Context<'_>, field: Field) {
    if cx.typing.is_unreadable(field) {
        let example = if field == Field::Discount { Mine::REDUCTION } else { Mine::AMOUNT };
        ui.label(RichText::new(example).font(words(14.0)).color(cx.colours.rose));
    }
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
