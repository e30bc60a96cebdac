//! Another way to make the same piece, beside the present one at one scale: what changes, minutes and price in one line; one
//! press takes it, one step takes it back. Minutes are for the designer alone.

use std::sync::Arc;

use egui::{Rect, RichText, ScrollArea, Stroke, Ui, UiBuilder, pos2, vec2};

use crate::app::action::Action;
use crate::app::pages::page::{Page, head_ui};
use crate::app::pages::pictures::{Framed, common_view, picture_ui};
use crate::app::pages::sizes::tabs_ui;
use crate::app::pages::stopped::{stopped_in_short_ui, stops};
use crate::app::shell::window::Window;
use crate::app::widgets::controls::{Weight, button, button_sized};
use crate::app::widgets::plate::plate;
use crate::app::widgets::theme::{GRID, MAIN_TARGET, strong, title, words};
use crate::app::widgets::words::{Counter, Mine};
use crate::history::Revision;
use crate::paperwork::{
    Choice, Difference, Way, WayChoices, WayOffer, difference_words, made_another_way, price_difference, short_price,
    way_choices,
};
use crate::piece::Piece;
use crate::stock::{BandKind, StockId};
use crate::units::Cents;

/// What is chosen on the page, and what was reckoned of it.
#[derive(Debug, Default)]
pub(crate) struct Ways {
    way: Way,
    reckoned: Option<(Revision, Way, Arc<Compared>)>,
}

/// The present piece and the other.
#[derive(Debug)]
struct Compared {
    choices: WayChoices,
    /// What the client pays for the present piece.
    present: Cents,
    /// Nothing while nothing is chosen otherwise.
    other: Option<WayOffer>,
    refused: Option<String>,
}

/// What can be asked of the page.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Wish {
    /// Another band, or the present one again.
    Band(Option<BandKind>),
    /// Other greens, or the present ones again.
    Greens(Option<StockId>),
    /// Something else between the blooms, or what is there again.
    Between(Option<StockId>),
    /// Make it so.
    Take,
}

impl Window {
    /// Does what was asked of the page.
    pub(crate) fn do_about_ways(&mut self, wish: Wish) {
        let way = &mut self.ways.way;
        match wish {
            Wish::Band(band) => way.band = band,
            Wish::Greens(greens) => way.greens = greens,
            Wish::Between(between) => way.between = between,
            Wish::Take => {
                if let Some(offer) = &compared(self).other {
                    self.change(&offer.change);
                    self.ways = Ways::default();
                }
            }
        }
    }
}

/// Reckoned once a revision and choice.
fn compared(w: &mut Window) -> Arc<Compared> {
    let revision = w.session.revision();
    if let Some((of, way, compared)) = &w.ways.reckoned
        && (*of, way) == (revision, &w.ways.way)
    {
        return Arc::clone(compared);
    }
    let (order, style, stock) = (w.session.order(), w.session.style(), w.session.stock());
    let offer = |way: &Way| made_another_way(order, way, style, stock);
    let (other, refused) = match (w.ways.way != Way::default()).then(|| offer(&w.ways.way)) {
        Some(Ok(offer)) => (Some(offer), None),
        Some(Err(refusal)) => (None, Some(refusal.to_string())),
        None => (None, None),
    };
    let choices = way_choices(order, stock);
    let present = offer(&Way::default()).map(|offer| offer.price).unwrap_or_default();
    let found = Arc::new(Compared { choices, present, other, refused });
    w.ways.reckoned = Some((revision, w.ways.way.clone(), Arc::clone(&found)));
    found
}

/// Width of the choices, points.
const CHOICES: f32 = 292.0;
/// Height of the words under a picture, points.
const WORDS_HIGH: f32 = 176.0;

pub(crate) fn ways_ui(ui: &mut Ui, w: &mut Window, actions: &mut Vec<Action>) {
    let compared = compared(w);
    head_ui(ui, w, Counter::WAYS, Counter::WAYS_LINE, actions);
    tabs_ui(ui, w, Page::Ways, actions);
    let stops = stops(w);
    stopped_in_short_ui(ui, w, &stops, actions);
    let all = ui.available_rect_before_wrap();
    let boards = Rect::from_min_max(all.min, pos2(all.max.x - CHOICES - GRID, all.max.y));
    let aside = Rect::from_min_max(pos2(boards.max.x + GRID, all.min.y), all.max);
    let order = Arc::clone(w.session.order());
    let other = compared.other.as_ref();
    let width = (boards.width() - GRID) / 2.0;
    let size = vec2(width, boards.height() - WORDS_HIGH);
    let pieces = [Some(&order.piece), other.map(|o| &o.piece)];
    let view = common_view(pieces.into_iter().flatten(), w.session.stock(), size);
    let board = |n: f32| {
        Rect::from_min_size(pos2(boards.min.x + n * (width + GRID), boards.min.y), vec2(width, boards.height()))
    };
    let present = Board { piece: Some(&order.piece), rect: board(0.0), view, name: "as it is" };
    board_ui(ui, w, &present, |ui, w| {
        let price = short_price(compared.present, &w.session.style().prices.currency);
        heading_ui(ui, w, Counter::AS_IT_IS, &price);
        ui.label(RichText::new(Counter::ON_SHEET).font(words(16.0)).color(w.colours().soft));
    });
    let name = format!("another way {:?}", w.ways.way);
    let made = Board { piece: other.map(|o| &o.piece), rect: board(1.0), view, name: &name };
    board_ui(ui, w, &made, |ui, w| other_ui(ui, w, &compared, actions));
    ui.scope_builder(UiBuilder::new().id_salt("choices").max_rect(aside), |ui| {
        ScrollArea::vertical().auto_shrink([false, false]).show(ui, |ui| choices_ui(ui, w, &compared.choices, actions));
    });
}

struct Board<'a> {
    piece: Option<&'a Piece>,
    rect: Rect,
    view: crate::sheet::View,
    name: &'a str,
}

fn board_ui(ui: &mut Ui, w: &mut Window, board: &Board<'_>, under: impl FnOnce(&mut Ui, &Window)) {
    let c = w.colours();
    let Board { rect, view, name, .. } = *board;
    plate(ui.painter(), rect, c.card, Stroke::new(1.0, c.line));
    if let Some(piece) = board.piece {
        let upper = Rect::from_min_max(rect.min, pos2(rect.max.x, rect.max.y - WORDS_HIGH)).shrink(3.0);
        picture_ui(ui, w, &Framed { name, piece, rect: upper, view });
    }
    let lower = Rect::from_min_max(pos2(rect.min.x + 12.0, rect.max.y - WORDS_HIGH + 6.0), rect.max - vec2(12.0, 6.0));
    ui.scope_builder(UiBuilder::new().id_salt(name).max_rect(lower), |ui| {
        ui.spacing_mut().item_spacing.y = 2.0;
        under(ui, w);
    });
}

fn heading_ui(ui: &mut Ui, w: &Window, name: &str, price: &str) {
    let c = w.colours();
    ui.horizontal(|ui| {
        ui.spacing_mut().interact_size.y = 30.0;
        ui.label(RichText::new(name).font(title(22.0)).color(c.ink));
        ui.label(RichText::new(price).font(title(26.0)).color(c.ink));
    });
}

fn other_ui(ui: &mut Ui, w: &Window, compared: &Compared, actions: &mut Vec<Action>) {
    let c = w.colours();
    let Some(offer) = &compared.other else {
        let said = compared.refused.as_deref().unwrap_or(Counter::CHOOSE_WAY);
        ui.label(RichText::new(said).font(words(17.0)).color(c.soft));
        return;
    };
    let currency = &w.session.style().prices.currency;
    // The button first: however much is told below, it can be reached.
    ui.horizontal(|ui| {
        heading_ui(ui, w, Counter::THE_OTHER_WAY, &short_price(offer.price, currency));
        ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
            if button_sized(ui, &c, Counter::TAKE_WAY, Weight::Main, vec2(110.0, MAIN_TARGET)).clicked() {
                actions.push(Action::Ways(Wish::Take));
            }
        });
    });
    ui.label(RichText::new(line(offer, w.client_side, currency)).font(words(16.0)).color(c.ink));
}

/// `Salal for Italian ruscus, +2 min, +$3`; minutes are the shop's own.
fn line(offer: &WayOffer, client_side: bool, currency: &str) -> String {
    let minutes = if client_side { 0.0 } else { offer.difference.minutes };
    let counts = difference_words(&Difference { minutes, ..offer.difference });
    let price = price_difference(offer.difference.price, currency);
    let told = offer.says.iter().map(String::as_str).chain([counts.as_str(), price.as_str()]);
    told.filter(|words| !words.is_empty()).collect::<Vec<_>>().join(", ")
}

fn choices_ui(ui: &mut Ui, w: &Window, choices: &WayChoices, actions: &mut Vec<Action>) {
    ui.spacing_mut().item_spacing = vec2(6.0, 6.0);
    let c = w.colours();
    let way = &w.ways.way;
    list_ui(ui, w, Counter::BANDS, &choices.bands, way.band.as_ref(), Wish::Band, actions);
    list_ui(ui, w, Counter::LASTING, &choices.lasting, way.greens.as_ref(), Wish::Greens, actions);
    list_ui(ui, w, Counter::FRESH, &choices.fresh, way.greens.as_ref(), Wish::Greens, actions);
    list_ui(ui, w, Counter::BETWEEN, &choices.between, way.between.as_ref(), Wish::Between, actions);
    if !w.client_side && !choices.left_out.is_empty() {
        ui.label(RichText::new(Mine::LEFT_OUT).font(strong(15.0)).color(c.rose));
        for why in &choices.left_out {
            ui.label(RichText::new(why).font(words(15.0)).color(c.ink));
        }
    }
}

/// A heading and what there is to choose under it; tapped again it is as it was.
fn list_ui<T: Clone + PartialEq>(
    ui: &mut Ui,
    w: &Window,
    heading: &str,
    choices: &[Choice<T>],
    chosen: Option<&T>,
    wish: impl Fn(Option<T>) -> Wish,
    actions: &mut Vec<Action>,
) {
    if choices.is_empty() {
        return;
    }
    let c = w.colours();
    ui.label(RichText::new(heading).font(strong(15.0)).color(c.ink));
    ui.horizontal_wrapped(|ui| {
        for choice in choices {
            let is_chosen = chosen == Some(&choice.what);
            let weight = if is_chosen { Weight::Chosen } else { Weight::Plain };
            if button(ui, &c, &choice.name, weight).clicked() {
                actions.push(Action::Ways(wish((!is_chosen).then(|| choice.what.clone()))));
            }
        }
    });
}
