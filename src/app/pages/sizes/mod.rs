//! Sizes side by side: two or three at one scale on this wrist, with what each adds and what it costs the client; and what a
//! budget buys. Minutes are for the designer alone.

use std::collections::BTreeSet;
use std::sync::Arc;

use egui::{Key, Rect, RichText, Stroke, Ui, UiBuilder, pos2, vec2};

use crate::app::action::Action;
use crate::app::context::{Context, Inputs, Requests};
use crate::app::page_list::PageId;
use crate::app::pages::{Page, PageInfo};
use crate::app::parts::board::{Framed, common_view, picture_ui};
use crate::app::parts::compare_tabs::tabs_ui;
use crate::app::parts::field::field_ui;
use crate::app::parts::page_head::head_ui;
use crate::app::parts::stopped::stopped_in_short_ui;
use crate::app::typing::field::Field;
use crate::app::view::ShopOnly;
use crate::app::widgets::controls::{Weight, button};
use crate::app::widgets::plate::plate;
use crate::app::widgets::theme::{GRID, strong, title, words};
use crate::app::widgets::words::Counter;
use crate::app::workers::search_worker::{SearchEvent, SearchInputs, SearchRequest, SearchWorker};
use crate::book::Order;
use crate::history::Revision;
use crate::paperwork::{
    BudgetAnswer, Difference, SizeOffer, budget_words, difference_words, fits_budget, other_charges, price_difference,
    short_price, sizes_side_by_side,
};
use crate::sheet::View;

/// Sizes shown at once, at most: what fits beside each other life-size or nearly.
const MOST: usize = 3;

/// The sizes of the shop for the open order, and which are shown.
#[derive(Default)]
pub(crate) struct SizesPage {
    /// Names of the sizes that were chosen to be shown; none chosen shows the first of the shop.
    chosen: Vec<String>,
    found: Option<Found>,
    /// Lays the sizes out.
    search: Option<SearchWorker>,
    /// Names of those that are not laid out yet.
    to_come: BTreeSet<String>,
    /// What the client's budget buys, where one is named.
    bought: Option<BudgetAnswer>,
}

/// The sizes as they were worked out for an order.
struct Found {
    revision: Revision,
    order: Arc<Order>,
    cards: Vec<SizeCard>,
}

/// One size: what a client may read of it, and the minutes it takes.
struct SizeCard {
    offer: SizeOffer,
    minutes: ShopOnly<f64>,
}

impl SizeCard {
    fn of(mut offer: SizeOffer) -> Self {
        let minutes = ShopOnly::new(std::mem::take(&mut offer.difference.minutes));
        Self { offer, minutes }
    }
}

/// What can be asked of the page.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum SizesAction {
    /// Show a size among those side by side, or no longer.
    Compare(String),
    /// The piece becomes the one that is drawn for this size.
    Choose(String),
}

impl Page for SizesPage {
    type Action = SizesAction;

    const INFO: PageInfo = PageInfo { on_rail: None, key: Key::C, is_for_shop: false };

    fn prepare(&mut self, inputs: &mut Inputs<'_>) {
        let revision = inputs.session.revision();
        // A budget, an extra or a payment changes no size.
        let known = self.found.as_ref().is_some_and(|found| {
            found.revision == revision || differs_in_terms_alone(&found.order, inputs.session.order())
        });
        if !known {
            self.find(inputs);
        }
        self.poll();
        let budget = inputs.session.order().terms.budget;
        let others = other_charges(&inputs.session.quote(), inputs.session.style());
        let offers: Vec<SizeOffer> = self.cards().iter().map(|card| card.offer.clone()).collect();
        self.bought = budget.map(|budget| fits_budget(&offers, budget, others));
    }

    fn ui(&self, ui: &mut Ui, cx: &Context<'_>, requests: &mut Requests<SizesAction>) {
        head_ui(ui, cx, Counter::SIZES, Counter::SIZES_LINE, &mut requests.shared);
        ui.horizontal(|ui| {
            tabs_ui(ui, cx, PageId::Sizes, &mut requests.shared);
            self.budget_ui(ui, cx, &mut requests.shared);
        });
        self.choice_ui(ui, cx, requests);
        stopped_in_short_ui(ui, cx, &mut requests.shared);
        self.boards_ui(ui, cx, requests);
    }

    fn run(&mut self, action: SizesAction, inputs: &mut Inputs<'_>) -> Vec<Action> {
        match action {
            SizesAction::Compare(name) => self.toggle(&name),
            SizesAction::Choose(name) => {
                let card = self.cards().iter().find(|card| card.offer.name == name);
                let size = inputs.session.style().size(&name);
                if let (Some(card), Some(size)) = (card, size) {
                    return vec![Action::change(card.offer.taken(&inputs.session.order().piece, size))];
                }
            }
        }
        Vec::new()
    }

    fn rules_changed(&mut self) {
        *self = Self::default();
    }
}

impl SizesPage {
    fn cards(&self) -> &[SizeCard] {
        self.found.as_ref().map_or(&[], |found| &found.cards)
    }

    /// Works every size out for this order; each is laid out by the worker, and has no picture until it is.
    fn find(&mut self, inputs: &Inputs<'_>) {
        let session = &inputs.session;
        let (order, stock, style) = (session.order(), session.stock(), session.style());
        let offers = sizes_side_by_side(order, style, stock);
        let others = || offers.iter().filter(|o| !o.is_present);
        let sizes = others().map(|o| {
            let search = SearchInputs::of(o.piece.clone(), order, stock, style);
            (o.name.clone(), SearchInputs { size: style.size(&o.name).cloned(), ..search })
        });
        let search = self.search.get_or_insert_with(|| SearchWorker::new(inputs.ctx));
        search.request(SearchRequest::Sizes(sizes.collect()));
        self.to_come = others().map(|o| o.name.clone()).collect();
        let cards = offers.into_iter().map(SizeCard::of).collect();
        self.found = Some(Found { revision: session.revision(), order: Arc::clone(order), cards });
    }

    /// Takes in what has been laid out since the last frame.
    fn poll(&mut self) {
        let (Some(search), Some(found)) = (&mut self.search, &mut self.found) else { return };
        for event in search.poll() {
            match event {
                SearchEvent::SizeLaidOut(name, piece) => {
                    if let Some(card) = found.cards.iter_mut().find(|card| card.offer.name == name) {
                        card.offer.piece = piece;
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

    /// Shows a size, or no longer; the one that was chosen first makes room.
    fn toggle(&mut self, name: &str) {
        let shown = self.shown();
        self.chosen = if shown.iter().any(|s| s == name) {
            shown.into_iter().filter(|s| s != name).collect()
        } else {
            let more = (shown.len() + 1).saturating_sub(MOST);
            shown.into_iter().skip(more).chain([name.to_owned()]).collect()
        };
    }

    /// Names of what is shown, in the order of the shop.
    fn shown(&self) -> Vec<String> {
        let all: Vec<&SizeOffer> = self.cards().iter().map(|card| &card.offer).collect();
        let names = |of: &mut dyn Iterator<Item = &&SizeOffer>| of.map(|o| o.name.clone()).collect::<Vec<_>>();
        if !self.chosen.is_empty() {
            return names(&mut all.iter().filter(|o| self.chosen.contains(&o.name)));
        }
        let present = all.iter().position(|o| o.is_present).unwrap_or(0);
        let first = present.saturating_sub(MOST - 1);
        names(&mut all.iter().skip(first).take(MOST))
    }

    fn budget_ui(&self, ui: &mut Ui, cx: &Context<'_>, actions: &mut Vec<Action>) {
        let c = cx.colours;
        let currency = &cx.client.currency;
        ui.horizontal(|ui| {
            ui.label(RichText::new(format!("{} {}", Counter::BUDGET, currency.sign)).font(strong(16.0)).color(c.ink));
            field_ui(ui, cx, Field::Budget, 84.0, actions);
            if let Some(bought) = &self.bought {
                let says = budget_words(bought, currency);
                ui.add(egui::Label::new(RichText::new(says).font(words(16.0)).color(c.ink)).wrap());
            }
        });
    }

    fn choice_ui(&self, ui: &mut Ui, cx: &Context<'_>, requests: &mut Requests<SizesAction>) {
        let shown = self.shown();
        ui.horizontal(|ui| {
            ui.spacing_mut().item_spacing.x = 6.0;
            for card in self.cards() {
                let name = &card.offer.name;
                let weight = if shown.contains(name) { Weight::Chosen } else { Weight::Plain };
                if button(ui, &cx.colours, name, weight).clicked() {
                    requests.own.push(SizesAction::Compare(name.clone()));
                }
            }
        });
    }

    fn boards_ui(&self, ui: &mut Ui, cx: &Context<'_>, requests: &mut Requests<SizesAction>) {
        let shown = self.shown();
        let shown: Vec<&SizeCard> = self.cards().iter().filter(|card| shown.contains(&card.offer.name)).collect();
        let fits = self.bought.as_ref().and_then(|bought| bought.fits.as_ref()).map(|(name, _)| name);
        let all = ui.available_rect_before_wrap();
        let width = (all.width() - GRID * (shown.len().max(1) - 1) as f32) / shown.len().max(1) as f32;
        let size = vec2(width, all.height() - WORDS_HIGH);
        let view = common_view(shown.iter().map(|card| &card.offer.piece), cx.client, size);
        for (n, card) in shown.into_iter().enumerate() {
            let corner = pos2(all.min.x + n as f32 * (width + GRID), all.min.y);
            let rect = Rect::from_min_size(corner, vec2(width, all.height()));
            let picked = fits == Some(&card.offer.name);
            let is_laid_out = !self.to_come.contains(&card.offer.name);
            board_ui(ui, cx, &SizeBoard { card, rect, view, picked, is_laid_out }, requests);
        }
    }
}

fn differs_in_terms_alone(a: &Order, b: &Order) -> bool {
    Order { terms: b.terms.clone(), ..a.clone() } == *b
}

/// One size and where it stands.
struct SizeBoard<'a> {
    card: &'a SizeCard,
    rect: Rect,
    view: View,
    /// Whether it is the largest that the budget buys.
    picked: bool,
    is_laid_out: bool,
}

/// Height of the words under a picture, points.
const WORDS_HIGH: f32 = 176.0;

fn board_ui(ui: &mut Ui, cx: &Context<'_>, board: &SizeBoard<'_>, requests: &mut Requests<SizesAction>) {
    let c = cx.colours;
    let SizeBoard { card: SizeCard { offer, .. }, rect, view, picked, is_laid_out } = *board;
    let edge = if picked { Stroke::new(3.0, c.leaf) } else { Stroke::new(1.0, c.line) };
    plate(ui.painter(), rect, c.card, edge);
    if is_laid_out {
        let rect = Rect::from_min_max(rect.min, pos2(rect.max.x, rect.max.y - WORDS_HIGH)).shrink(3.0);
        picture_ui(ui, cx, &Framed { name: &offer.name, piece: &offer.piece, rect, view });
    }
    let lower = Rect::from_min_max(pos2(rect.min.x + 12.0, rect.max.y - WORDS_HIGH + 6.0), rect.max - vec2(12.0, 6.0));
    ui.scope_builder(UiBuilder::new().id_salt(&offer.name).max_rect(lower), |ui| {
        ui.spacing_mut().item_spacing.y = 2.0;
        ui.horizontal(|ui| {
            ui.spacing_mut().interact_size.y = 30.0;
            ui.label(RichText::new(&offer.name).font(title(24.0)).color(c.ink));
            ui.label(RichText::new(short_price(offer.price, &cx.client.currency)).font(title(28.0)).color(c.ink));
            if picked {
                ui.label(RichText::new(Counter::WITHIN_BUDGET).font(strong(16.0)).color(c.leaf));
            }
        });
        if offer.is_present {
            ui.label(RichText::new(Counter::CURRENT_DESIGN).font(words(16.0)).color(c.soft));
            return;
        }
        ui.label(RichText::new(against(board.card, cx)).font(words(16.0)).color(c.ink));
        if !offer.stopped.is_empty() {
            let stopped = Counter::stopped_here(&offer.stopped);
            ui.label(RichText::new(stopped).font(strong(15.0)).color(c.rose));
        }
        ui.add_space(2.0);
        // What is taken is what was shown.
        let choose = |ui: &mut Ui| button(ui, &c, &Counter::choose(&offer.name), Weight::Plain);
        if ui.add_enabled_ui(is_laid_out, choose).inner.clicked() {
            requests.own.push(SizesAction::Choose(offer.name.clone()));
        }
    });
}

/// `+2 heads, +1 sprig, +2 leaves, +4 min, +$7`; minutes are the shop's own.
fn against(card: &SizeCard, cx: &Context<'_>) -> String {
    let minutes = cx.shop.map_or(0.0, |shop| *card.minutes.get(shop));
    let what = difference_words(&Difference { minutes, ..card.offer.difference });
    let price = price_difference(card.offer.difference.price, &cx.client.currency);
    if what.is_empty() { price } else { format!("{what}, {price}") }
}
