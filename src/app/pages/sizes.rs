//! Sizes side by side: two or three at one scale on this wrist, with what each adds and what it costs her; and what a purse
//! buys. Nothing here tells what anything costs the shop, so both sides of the counter see the same page; minutes are for
//! the designer alone.

use std::collections::BTreeSet;
use std::sync::Arc;

use egui::{Context, Rect, RichText, Stroke, Ui, UiBuilder, pos2, vec2};

use crate::app::action::Action;
use crate::app::pages::order_fields::Blank;
use crate::app::pages::order_form::blank_ui;
use crate::app::pages::page::{Page, head_ui};
use crate::app::pages::pictures::{Framed, common_view, picture_ui};
use crate::app::pages::stopped::{stopped_in_short_ui, stops};
use crate::app::shell::window::Window;
use crate::app::widgets::controls::{Weight, button};
use crate::app::widgets::plate::plate;
use crate::app::widgets::theme::{GRID, strong, title, words};
use crate::app::widgets::words::Counter;
use crate::app::workers::search_worker::{SearchEvent, SearchInputs, SearchRequest, SearchWorker};
use crate::book::Order;
use crate::history::Revision;
use crate::paperwork::{
    Difference, PurseAnswer, SizeOffer, besides, difference_words, fits_purse, price_difference, purse_words,
    short_price, sizes_side_by_side,
};
use crate::sheet::View;

/// Sizes shown at once, at most: what fits beside each other life-size or nearly.
const MOST: usize = 3;

/// The sizes as they were reckoned for an order.
struct Offered {
    revision: Revision,
    order: Arc<Order>,
    offers: Arc<Vec<SizeOffer>>,
}

/// The pictures of the sizes, and which are shown.
#[derive(Default)]
pub(crate) struct Boards {
    /// Names of the sizes that were chosen to be shown; none chosen shows the first of the house.
    chosen: Vec<String>,
    offers: Option<Offered>,
    /// Lays the sizes out.
    search: Option<SearchWorker>,
    /// Names of those that are not laid out yet.
    to_come: BTreeSet<String>,
}

impl Boards {
    /// Shows a size, or no longer; the one that was chosen first makes room.
    pub(crate) fn toggle(&mut self, name: &str) {
        let shown = self.shown();
        self.chosen = if shown.iter().any(|s| s == name) {
            shown.into_iter().filter(|s| s != name).collect()
        } else {
            let more = (shown.len() + 1).saturating_sub(MOST);
            shown.into_iter().skip(more).chain([name.to_owned()]).collect()
        };
    }

    /// Takes up what has been laid out since the last frame.
    fn hear(&mut self) {
        let (Some(search), Some(Offered { offers, .. })) = (&mut self.search, &mut self.offers) else { return };
        for event in search.poll() {
            match event {
                SearchEvent::SizeLaidOut(name, piece) => {
                    if let Some(offer) = Arc::make_mut(offers).iter_mut().find(|o| o.name == name) {
                        offer.piece = piece;
                        self.to_come.remove(&name);
                    }
                }
                // Those to come are shown as they are.
                SearchEvent::Failed => self.to_come.clear(),
                SearchEvent::First(_)
                | SearchEvent::Picture(..)
                | SearchEvent::Better(..)
                | SearchEvent::Rounds(_)
                | SearchEvent::Over
                | SearchEvent::StepDone(_)
                | SearchEvent::Next(_) => {}
            }
        }
    }

    /// Names of what is shown, in the order of the house.
    fn shown(&self) -> Vec<String> {
        let all: Vec<&SizeOffer> = self.offers.iter().flat_map(|offered| offered.offers.iter()).collect();
        let names = |of: &mut dyn Iterator<Item = &&SizeOffer>| of.map(|o| o.name.clone()).collect::<Vec<_>>();
        if !self.chosen.is_empty() {
            return names(&mut all.iter().filter(|o| self.chosen.contains(&o.name)));
        }
        let present = all.iter().position(|o| o.is_present).unwrap_or(0);
        let first = present.saturating_sub(MOST - 1);
        names(&mut all.iter().skip(first).take(MOST))
    }
}

/// Every size for this order, reckoned once a revision; each is laid out on a thread, and has no picture until it is.
fn offers(w: &mut Window, ctx: &Context) -> Arc<Vec<SizeOffer>> {
    let revision = w.session.revision();
    // A purse, an extra or a payment changes no size.
    let known = w.boards.offers.as_ref().is_some_and(|offered| {
        offered.revision == revision || differs_in_terms_alone(&offered.order, w.session.order())
    });
    if !known {
        let (order, stock, style) = (w.session.order(), w.session.stock(), w.session.style());
        let offers = sizes_side_by_side(order, style, stock);
        let to_come = offers.iter().filter(|o| !o.is_present);
        let sizes = to_come.map(|o| {
            let inputs = SearchInputs::of(o.piece.clone(), order, stock, style);
            (o.name.clone(), SearchInputs { size: style.size(&o.name).cloned(), ..inputs })
        });
        let search = w.boards.search.get_or_insert_with(|| SearchWorker::new(ctx));
        search.request(SearchRequest::Sizes(sizes.collect()));
        w.boards.to_come = offers.iter().filter(|o| !o.is_present).map(|o| o.name.clone()).collect();
        w.boards.offers = Some(Offered { revision, order: Arc::clone(order), offers: Arc::new(offers) });
    }
    w.boards.hear();
    w.boards.offers.as_ref().map(|offered| Arc::clone(&offered.offers)).unwrap_or_default()
}

fn differs_in_terms_alone(a: &Order, b: &Order) -> bool {
    Order { terms: b.terms.clone(), ..a.clone() } == *b
}

pub(crate) fn sizes_ui(ui: &mut Ui, w: &mut Window, actions: &mut Vec<Action>) {
    let offers = offers(w, ui.ctx());
    head_ui(ui, w, Counter::SIZES, Counter::SIZES_LINE, actions);
    ui.horizontal(|ui| {
        tabs_ui(ui, w, Page::Sizes, actions);
        purse_ui(ui, w, &offers, actions);
    });
    choice_ui(ui, w, &offers, actions);
    let on_piece = stops(w);
    stopped_in_short_ui(ui, w, &on_piece, actions);
    let shown = w.boards.shown();
    let shown: Vec<&SizeOffer> = offers.iter().filter(|o| shown.contains(&o.name)).collect();
    let fits = bought(w, &offers).and_then(|bought| bought.fits).map(|(name, _)| name);
    let all = ui.available_rect_before_wrap();
    let width = (all.width() - GRID * (shown.len().max(1) - 1) as f32) / shown.len().max(1) as f32;
    let boards: Vec<Rect> = (0..shown.len())
        .map(|n| Rect::from_min_size(pos2(all.min.x + n as f32 * (width + GRID), all.min.y), vec2(width, all.height())))
        .collect();
    let size = vec2(width, all.height() - WORDS_HIGH);
    let view = common_view(shown.iter().map(|o| &o.piece), w.session.stock(), size);
    for (offer, rect) in shown.into_iter().zip(boards) {
        let picked = fits.as_ref() == Some(&offer.name);
        board_ui(ui, w, &Board { offer, rect, view, picked }, actions);
    }
}

/// One size and where it stands.
struct Board<'a> {
    offer: &'a SizeOffer,
    rect: Rect,
    view: View,
    /// Whether it is the largest that the purse buys.
    picked: bool,
}

/// Height of the words under a picture, points.
const WORDS_HIGH: f32 = 176.0;

/// The two pages on which pieces stand side by side.
pub(crate) fn tabs_ui(ui: &mut Ui, w: &Window, here: Page, actions: &mut Vec<Action>) {
    let c = w.colours();
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 2.0;
        for (label, page, tip) in
            [(Counter::SIZES_TAB, Page::Sizes, Counter::SIZES_TIP), (Counter::WAYS, Page::Ways, Counter::WAYS_TIP)]
        {
            let weight = if page == here { Weight::Chosen } else { Weight::Plain };
            if button(ui, &c, label, weight).on_hover_text(tip).clicked() && page != here {
                actions.push(Action::Turn(page));
            }
        }
    });
}

fn purse_ui(ui: &mut Ui, w: &mut Window, offers: &[SizeOffer], actions: &mut Vec<Action>) {
    let c = w.colours();
    let currency = w.session.style().prices.currency.clone();
    ui.horizontal(|ui| {
        ui.label(RichText::new(format!("To spend {currency}")).font(strong(16.0)).color(c.ink));
        blank_ui(ui, w, Blank::Purse, 84.0, actions);
        if let Some(bought) = bought(w, offers) {
            let says = purse_words(&bought, &currency);
            ui.add(egui::Label::new(RichText::new(says).font(words(16.0)).color(c.ink)).wrap());
        }
    });
}

/// What her purse buys, where she has named one.
fn bought(w: &mut Window, offers: &[SizeOffer]) -> Option<PurseAnswer> {
    let purse = w.session.order().terms.purse?;
    let besides = besides(&w.session.quote(), w.session.style());
    Some(fits_purse(offers, purse, besides))
}

fn choice_ui(ui: &mut Ui, w: &Window, offers: &[SizeOffer], actions: &mut Vec<Action>) {
    let c = w.colours();
    let shown = w.boards.shown();
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 6.0;
        for offer in offers {
            let weight = if shown.contains(&offer.name) { Weight::Chosen } else { Weight::Plain };
            if button(ui, &c, &offer.name, weight).clicked() {
                actions.push(Action::Compare(offer.name.clone()));
            }
        }
    });
}

fn board_ui(ui: &mut Ui, w: &mut Window, board: &Board<'_>, actions: &mut Vec<Action>) {
    let c = w.colours();
    let Board { offer, rect, picked, .. } = *board;
    let edge = if picked { Stroke::new(3.0, c.leaf) } else { Stroke::new(1.0, c.line) };
    plate(ui.painter(), rect, c.card, edge);
    board_picture_ui(ui, w, board);
    let currency = &w.session.style().prices.currency;
    let lower = Rect::from_min_max(pos2(rect.min.x + 12.0, rect.max.y - WORDS_HIGH + 6.0), rect.max - vec2(12.0, 6.0));
    ui.scope_builder(UiBuilder::new().id_salt(&offer.name).max_rect(lower), |ui| {
        ui.spacing_mut().item_spacing.y = 2.0;
        ui.horizontal(|ui| {
            ui.spacing_mut().interact_size.y = 30.0;
            ui.label(RichText::new(&offer.name).font(title(24.0)).color(c.ink));
            ui.label(RichText::new(short_price(offer.price, currency)).font(title(28.0)).color(c.ink));
            if picked {
                ui.label(RichText::new("fits").font(strong(16.0)).color(c.leaf));
            }
        });
        if offer.is_present {
            ui.label(RichText::new("On the sheet now.").font(words(16.0)).color(c.soft));
            return;
        }
        ui.label(RichText::new(against(offer, w.client_side, currency)).font(words(16.0)).color(c.ink));
        if !offer.stopped.is_empty() {
            let said = Counter::stopped_here(&offer.stopped);
            ui.label(RichText::new(said).font(strong(15.0)).color(c.rose));
        }
        ui.add_space(2.0);
        if button(ui, &c, &format!("Take {}", offer.name), Weight::Plain).clicked()
            && let Some(size) = w.session.style().size(&offer.name)
        {
            actions.push(Action::change(offer.taken(&w.session.order().piece, size)));
        }
    });
}

/// `+2 heads, +1 sprig, +2 leaves, +4 min, +$7`; minutes are the shop's own.
fn against(offer: &SizeOffer, client_side: bool, currency: &str) -> String {
    let minutes = if client_side { 0.0 } else { offer.difference.minutes };
    let what = difference_words(&Difference { minutes, ..offer.difference });
    let price = price_difference(offer.difference.price, currency);
    if what.is_empty() { price } else { format!("{what}, {price}") }
}

fn board_picture_ui(ui: &Ui, w: &mut Window, board: &Board<'_>) {
    let Board { offer, rect, view, .. } = *board;
    if w.boards.to_come.contains(&offer.name) {
        return;
    }
    let rect = Rect::from_min_max(rect.min, pos2(rect.max.x, rect.max.y - WORDS_HIGH)).shrink(3.0);
    picture_ui(ui, w, &Framed { name: &offer.name, piece: &offer.piece, rect, view });
}
