//! Another way to make the same piece, beside the present one at one scale: what changes, minutes and price in one line; one
//! press takes it, one step takes it back. Minutes are for the designer alone.

use egui::{Key, Rect, RichText, ScrollArea, Stroke, Ui, UiBuilder, pos2, vec2};

use crate::app::action::Action;
use crate::app::context::{Context, Inputs, Requests};
use crate::app::page_list::PageId;
use crate::app::pages::{Page, PageInfo};
use crate::app::parts::board::{Framed, common_view, picture_ui};
use crate::app::parts::compare_tabs::tabs_ui;
use crate::app::parts::page_head::head_ui;
use crate::app::parts::stopped::stopped_in_short_ui;
use crate::app::view::ShopOnly;
use crate::app::widgets::controls::{Weight, button, button_sized};
use crate::app::widgets::plate::plate;
use crate::app::widgets::theme::{GRID, MAIN_TARGET, strong, title, words};
use crate::app::widgets::words::{Counter, Mine};
use crate::history::Revision;
use crate::paperwork::{
    Difference, Variation, VariationChoice, VariationChoices, VariationOffer, difference_words, offer_variation,
    price_difference, short_price, variation_choices,
};
use crate::piece::Piece;
use crate::stock::{BandKind, StockId};
use crate::units::Cents;

/// What is chosen on the page, and what was worked out of it.
#[derive(Debug, Default)]
pub(crate) struct VariationsPage {
    way: Variation,
    found: Option<(Revision, Variation, Compared)>,
}

/// The present piece and the other.
#[derive(Debug)]
struct Compared {
    choices: VariationChoices,
    /// Why some are not offered to this wearer.
    left_out: ShopOnly<Vec<String>>,
    /// What the client pays for the present piece.
    present: Cents,
    /// Nothing while nothing is chosen otherwise.
    other: Option<OtherWay>,
    refused: Option<String>,
}

/// The piece as it is chosen: what a client may read of it, and the minutes it takes.
#[derive(Debug)]
struct OtherWay {
    offer: VariationOffer,
    minutes: ShopOnly<f64>,
}

/// What can be asked of the page.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum VariationsAction {
    /// Another band, or the present one again.
    Band(Option<BandKind>),
    /// Other greens, or the present ones again.
    Greens(Option<StockId>),
    /// Another filler, or the present one again.
    Filler(Option<StockId>),
    /// Make it so.
    Take,
}

impl Page for VariationsPage {
    type Action = VariationsAction;

    const INFO: PageInfo = PageInfo { on_rail: None, key: Key::J, is_for_shop: false };

    fn prepare(&mut self, inputs: &mut Inputs<'_>) {
        let revision = inputs.session.revision();
        let known = self.found.as_ref().is_some_and(|(of, way, _)| (*of, way) == (revision, &self.way));
        if !known {
            self.found = Some((revision, self.way.clone(), compare(&self.way, inputs)));
        }
    }

    fn ui(&self, ui: &mut Ui, cx: &Context<'_>, requests: &mut Requests<VariationsAction>) {
        head_ui(ui, cx, Counter::VARIATIONS, Counter::VARIATIONS_LINE, &mut requests.shared);
        tabs_ui(ui, cx, PageId::Variations, &mut requests.shared);
        stopped_in_short_ui(ui, cx, &mut requests.shared);
        if let Some((_, _, compared)) = &self.found {
            self.compared_ui(ui, cx, compared, requests);
        }
    }

    fn run(&mut self, action: VariationsAction, _inputs: &mut Inputs<'_>) -> Vec<Action> {
        let way = &mut self.way;
        match action {
            VariationsAction::Band(band) => way.band = band,
            VariationsAction::Greens(greens) => way.greens = greens,
            VariationsAction::Filler(filler) => way.between = filler,
            VariationsAction::Take => {
                let other = self.found.take().and_then(|(_, _, compared)| compared.other);
                if let Some(OtherWay { offer, .. }) = other {
                    *self = Self::default();
                    return vec![Action::change(offer.change)];
                }
            }
        }
        Vec::new()
    }

    fn rules_changed(&mut self) {
        self.found = None;
    }
}

fn compare(way: &Variation, inputs: &Inputs<'_>) -> Compared {
    let session = &inputs.session;
    let (order, style, stock) = (session.order(), session.style(), session.stock());
    let offer = |way: &Variation| offer_variation(order, way, style, stock);
    let (other, refused) = match (*way != Variation::default()).then(|| offer(way)) {
        Some(Ok(offer)) => (Some(offer), None),
        Some(Err(refusal)) => (None, Some(refusal.to_string())),
        None => (None, None),
    };
    let mut choices = variation_choices(order, stock);
    let left_out = ShopOnly::new(std::mem::take(&mut choices.left_out));
    let present = offer(&Variation::default()).map(|offer| offer.price).unwrap_or_default();
    let other = other.map(|mut offer| {
        let minutes = ShopOnly::new(std::mem::take(&mut offer.difference.minutes));
        OtherWay { offer, minutes }
    });
    Compared { choices, left_out, present, other, refused }
}

/// Width of the choices, points.
const CHOICES: f32 = 292.0;
/// Height of the words under a picture, points.
const WORDS_HIGH: f32 = 176.0;

impl VariationsPage {
    fn compared_ui(
        &self,
        ui: &mut Ui,
        cx: &Context<'_>,
        compared: &Compared,
        requests: &mut Requests<VariationsAction>,
    ) {
        let all = ui.available_rect_before_wrap();
        let boards = Rect::from_min_max(all.min, pos2(all.max.x - CHOICES - GRID, all.max.y));
        let aside = Rect::from_min_max(pos2(boards.max.x + GRID, all.min.y), all.max);
        let present = &cx.client.order.piece;
        let other = compared.other.as_ref().map(|other| &other.offer.piece);
        let width = (boards.width() - GRID) / 2.0;
        let size = vec2(width, boards.height() - WORDS_HIGH);
        let view = common_view([Some(present), other].into_iter().flatten(), cx.client, size);
        let rect = |n: f32| {
            let corner = pos2(boards.min.x + n * (width + GRID), boards.min.y);
            Rect::from_min_size(corner, vec2(width, boards.height()))
        };
        let board = CompareBoard { piece: Some(present), rect: rect(0.0), view, name: "current" };
        board_ui(ui, cx, &board, |ui| {
            heading_ui(ui, cx, Counter::CURRENT, &short_price(compared.present, &cx.client.currency));
            ui.label(RichText::new(Counter::CURRENT_DESIGN).font(words(16.0)).color(cx.colours.soft));
        });
        let name = format!("variation {:?}", self.way);
        let board = CompareBoard { piece: other, rect: rect(1.0), view, name: &name };
        board_ui(ui, cx, &board, |ui| other_ui(ui, cx, compared, requests));
        ui.scope_builder(UiBuilder::new().id_salt("choices").max_rect(aside), |ui| {
            let area = ScrollArea::vertical().auto_shrink([false, false]);
            area.show(ui, |ui| self.choices_ui(ui, cx, compared, requests));
        });
    }

    fn choices_ui(
        &self,
        ui: &mut Ui,
        cx: &Context<'_>,
        compared: &Compared,
        requests: &mut Requests<VariationsAction>,
    ) {
        ui.spacing_mut().item_spacing = vec2(6.0, 6.0);
        let Compared { choices, left_out, .. } = compared;
        let (way, own) = (&self.way, &mut requests.own);
        list_ui(ui, cx, Counter::BANDS, &choices.bands, way.band.as_ref(), VariationsAction::Band, own);
        list_ui(ui, cx, Counter::STURDY, &choices.lasting, way.greens.as_ref(), VariationsAction::Greens, own);
        list_ui(ui, cx, Counter::SOFT, &choices.fresh, way.greens.as_ref(), VariationsAction::Greens, own);
        list_ui(ui, cx, Counter::FILLER, &choices.between, way.between.as_ref(), VariationsAction::Filler, own);
        let Some(left_out) = cx.shop.map(|shop| left_out.get(shop)).filter(|left_out| !left_out.is_empty()) else {
            return;
        };
        ui.label(RichText::new(Mine::LEFT_OUT).font(strong(15.0)).color(cx.colours.rose));
        for why in left_out {
            ui.label(RichText::new(why).font(words(15.0)).color(cx.colours.ink));
        }
    }
}

struct CompareBoard<'a> {
    piece: Option<&'a Piece>,
    rect: Rect,
    view: crate::sheet::View,
    name: &'a str,
}

fn board_ui(ui: &mut Ui, cx: &Context<'_>, board: &CompareBoard<'_>, under: impl FnOnce(&mut Ui)) {
    let c = cx.colours;
    let CompareBoard { piece, rect, view, name } = *board;
    plate(ui.painter(), rect, c.card, Stroke::new(1.0, c.line));
    if let Some(piece) = piece {
        let upper = Rect::from_min_max(rect.min, pos2(rect.max.x, rect.max.y - WORDS_HIGH)).shrink(3.0);
        picture_ui(ui, cx, &Framed { name, piece, rect: upper, view });
    }
    let lower = Rect::from_min_max(pos2(rect.min.x + 12.0, rect.max.y - WORDS_HIGH + 6.0), rect.max - vec2(12.0, 6.0));
    ui.scope_builder(UiBuilder::new().id_salt(name).max_rect(lower), |ui| {
        ui.spacing_mut().item_spacing.y = 2.0;
        under(ui);
    });
}

fn heading_ui(ui: &mut Ui, cx: &Context<'_>, name: &str, price: &str) {
    let c = cx.colours;
    ui.horizontal(|ui| {
        ui.spacing_mut().interact_size.y = 30.0;
        ui.label(RichText::new(name).font(title(22.0)).color(c.ink));
        ui.label(RichText::new(price).font(title(26.0)).color(c.ink));
    });
}

fn other_ui(ui: &mut Ui, cx: &Context<'_>, compared: &Compared, requests: &mut Requests<VariationsAction>) {
    let c = cx.colours;
    let Some(other) = &compared.other else {
        let says = compared.refused.as_deref().unwrap_or(Counter::PICK_A_CHANGE);
        ui.label(RichText::new(says).font(words(17.0)).color(c.soft));
        return;
    };
    // The button first: however much is reported below, it can be reached.
    ui.horizontal(|ui| {
        heading_ui(ui, cx, Counter::CHANGED_DESIGN, &short_price(other.offer.price, &cx.client.currency));
        ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
            if button_sized(ui, &c, Counter::USE_THIS, Weight::Main, vec2(110.0, MAIN_TARGET)).clicked() {
                requests.own.push(VariationsAction::Take);
            }
        });
    });
    ui.label(RichText::new(line(other, cx)).font(words(16.0)).color(c.ink));
}

/// `Salal instead of Italian ruscus, +2 min, +$3`; minutes are the shop's own.
fn line(other: &OtherWay, cx: &Context<'_>) -> String {
    let minutes = cx.shop.map_or(0.0, |shop| *other.minutes.get(shop));
    let counts = difference_words(&Difference { minutes, ..other.offer.difference });
    let price = price_difference(other.offer.difference.price, &cx.client.currency);
    let all = other.offer.says.iter().map(String::as_str).chain([counts.as_str(), price.as_str()]);
    all.filter(|words| !words.is_empty()).collect::<Vec<_>>().join(", ")
}

/// A heading and what there is to choose under it; tapped again it is as it was.
fn list_ui<T: Clone + PartialEq>(
    ui: &mut Ui,
    cx: &Context<'_>,
    heading: &str,
    choices: &[VariationChoice<T>],
    chosen: Option<&T>,
    ask: impl Fn(Option<T>) -> VariationsAction,
    own: &mut Vec<VariationsAction>,
) {
    if choices.is_empty() {
        return;
    }
    let c = cx.colours;
    ui.label(RichText::new(heading).font(strong(15.0)).color(c.ink));
    ui.horizontal_wrapped(|ui| {
        for choice in choices {
            let is_chosen = chosen == Some(&choice.what);
            let weight = if is_chosen { Weight::Chosen } else { Weight::Plain };
            if button(ui, &c, &choice.name, weight).clicked() {
                own.push(ask((!is_chosen).then(|| choice.what.clone())));
            }
        }
    });
}
