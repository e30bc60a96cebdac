//! The wrist piece and the boutonniere that goes with it: seen together, each with its price; one press leads to the sheet of
//! the other and back.

use std::sync::Arc;

use egui::{Align2, Rect, RichText, Role, Sense, Stroke, Ui, UiBuilder, WidgetInfo, pos2, vec2};

use crate::app::action::Action;
use crate::app::pages::page::Page;
use crate::app::pages::pictures::{Framed, common_view, picture_ui};
use crate::app::shell::window::Window;
use crate::app::widgets::controls::{Weight, button};
use crate::app::widgets::plate::plate;
use crate::app::widgets::theme::{GRID, TARGET, strong, words};
use crate::app::widgets::words::Counter;
use crate::book::{Change, Order, matching_boutonniere};
use crate::paperwork::{Quote, short_price};
use crate::piece::{Piece, Worn};
use crate::session::Front;
use crate::sheet::Sheet;
use crate::units::Cents;

/// The card over the sheet's lower left corner, points.
const CARD: egui::Vec2 = vec2(132.0, 164.0);
/// Height of the boards on the price page, points.
const BOARD: f32 = 190.0;

impl Window {
    /// Puts one of the two pieces on the sheet, and turns to the sheet.
    pub(crate) fn put_on_sheet(&mut self, front: Front) {
        if front == Front::Partners && self.session.order().partner_piece.is_none() {
            return;
        }
        if self.page != Page::Sheet {
            self.turn_to(Page::Sheet);
        }
        if self.session.front() == front {
            return;
        }
        self.session.turn_to(front);
        self.canvas.clear();
        self.sheet = Sheet { view: self.sheet.view, ..Sheet::new() };
        self.pointed_at = None;
        self.hovered = None;
        self.asked_for_more = false;
        self.fitted = false;
        self.focus_sheet = true;
    }

    /// A step back or forward that changed only the other piece puts that one on the sheet, so that it is seen.
    pub(crate) fn show_what_changed(&mut self, before: &Arc<Order>) {
        let now = self.session.order();
        let hers = before.piece != now.piece;
        let theirs = before.partner_piece != now.partner_piece && before.partner_piece.is_some();
        let front = match (hers, theirs) {
            (true, false) => Front::Wearers,
            (false, true) if now.partner_piece.is_some() => Front::Partners,
            (true | false, _) => return,
        };
        if self.page == Page::Sheet {
            self.put_on_sheet(front);
        }
    }
}

/// What makes a boutonniere to go with the wrist piece.
pub(crate) fn made_to_match(w: &Window) -> Change {
    let piece = matching_boutonniere(w.session.order(), w.session.style(), w.session.stock());
    Change::PartnerPiece(Some(Box::new(piece)))
}

/// What it costs the client: the line of the quote, as long as the pieces have prices of their own.
fn price_of(quote: &Quote, front: Front) -> Option<Cents> {
    let line = match front {
        Front::Wearers => quote.lines.first(),
        Front::Partners => quote.lines.get(1),
    };
    line.filter(|_| quote.asked.is_none()).map(|line| line.price)
}

fn piece_of(order: &Order, front: Front) -> Option<&Piece> {
    match front {
        Front::Wearers => Some(&order.piece),
        Front::Partners => order.partner_piece.as_ref(),
    }
}

pub(crate) fn other(front: Front) -> Front {
    match front {
        Front::Wearers => Front::Partners,
        Front::Partners => Front::Wearers,
    }
}

/// Over the sheet: the piece that is not on it, and the way to it; or the offer to make one.
pub(crate) fn card_ui(ui: &mut Ui, w: &mut Window, sheet: Rect, actions: &mut Vec<Action>) {
    let order = Arc::clone(w.session.order());
    if order.piece.worn != Worn::Wrist || sheet.height() < 2.0 * CARD.y || w.offers_layouts() {
        return;
    }
    let c = w.colours();
    let foot = pos2(sheet.min.x + 44.0, sheet.max.y - 36.0);
    let front = other(w.session.front());
    let Some(piece) = piece_of(&order, front) else {
        let rect = Rect::from_min_size(foot - vec2(0.0, TARGET), vec2(170.0, TARGET));
        ui.scope_builder(UiBuilder::new().id_salt("match").max_rect(rect), |ui| {
            if button(ui, &c, Counter::MATCH, Weight::Plain).on_hover_text(Counter::MATCH_TIP).clicked() {
                actions.push(Action::change(made_to_match(w)));
            }
        });
        return;
    };
    let rect = Rect::from_min_size(foot - vec2(0.0, CARD.y), CARD);
    let response = ui.interact(rect, ui.scope_id().with("other piece"), Sense::click());
    let quote = w.session.quote();
    let name = Counter::piece(front);
    let price = price_of(&quote, front).map(|price| short_price(price, &quote.currency)).unwrap_or_default();
    response.widget_info(|| WidgetInfo::labeled(Role::Button, true, Counter::to_sheet(front)));
    let edge = if response.has_focus() || response.hovered() { c.ink } else { c.line };
    plate(ui.painter(), rect, c.card, Stroke::new(1.5, edge));
    let board = Rect::from_min_max(rect.min, pos2(rect.max.x, rect.max.y - 28.0)).shrink(4.0);
    let view = common_view([piece].into_iter(), w.session.stock(), board.size());
    picture_ui(ui, w, &Framed { name: card_name(front), piece, rect: board, view });
    let line = rect.left_bottom() + vec2(8.0, -14.0);
    ui.painter().text(line, Align2::LEFT_CENTER, name, strong(14.0), c.ink);
    let line = rect.right_bottom() + vec2(-8.0, -14.0);
    ui.painter().text(line, Align2::RIGHT_CENTER, price, strong(14.0), c.ink);
    if response.on_hover_text(Counter::to_sheet(front)).clicked() {
        actions.push(Action::OnSheet(front));
    }
}

fn card_name(front: Front) -> &'static str {
    match front {
        Front::Wearers => "card of the wrist piece",
        Front::Partners => "card of the boutonniere",
    }
}

/// On the price page: both at one scale, their prices, the way to each sheet, and what makes or takes away the second.
pub(crate) fn pair_ui(ui: &mut Ui, w: &mut Window, quote: &Quote, actions: &mut Vec<Action>) {
    let order = Arc::clone(w.session.order());
    if order.piece.worn != Worn::Wrist {
        return;
    }
    let c = w.colours();
    let shown: Vec<(Front, &Piece)> =
        [Front::Wearers, Front::Partners].into_iter().filter_map(|f| Some((f, piece_of(&order, f)?))).collect();
    let width = (ui.available_width() - GRID) / 2.0;
    let view = common_view(shown.iter().map(|(_, piece)| *piece), w.session.stock(), vec2(width, BOARD));
    ui.horizontal_top(|ui| {
        ui.spacing_mut().item_spacing.x = GRID;
        for (front, piece) in &shown {
            ui.vertical(|ui| {
                ui.set_width(width);
                ui.spacing_mut().item_spacing.y = 4.0;
                let (rect, _) = ui.allocate_exact_size(vec2(width, BOARD), Sense::hover());
                plate(ui.painter(), rect, c.card, Stroke::new(1.0, c.line));
                picture_ui(ui, w, &Framed { name: Counter::piece(*front), piece, rect: rect.shrink(3.0), view });
                let price = price_of(quote, *front).map(|p| short_price(p, &quote.currency)).unwrap_or_default();
                ui.horizontal(|ui| {
                    ui.spacing_mut().item_spacing.x = 6.0;
                    if button(ui, &c, Counter::piece(*front), Weight::Plain)
                        .on_hover_text(Counter::to_sheet(*front))
                        .clicked()
                    {
                        actions.push(Action::OnSheet(*front));
                    }
                    ui.label(RichText::new(price).font(strong(17.0)).color(c.ink));
                });
            });
        }
        if shown.len() == 1 {
            ui.vertical(|ui| {
                ui.set_width(width);
                ui.label(RichText::new(Counter::MATCH_TIP).font(words(16.0)).color(c.soft));
                if button(ui, &c, Counter::MATCH, Weight::Plain).clicked() {
                    actions.push(Action::change(made_to_match(w)));
                }
            });
        }
    });
}

/// What takes the boutonniere away.
pub(crate) fn no_match_ui(ui: &mut Ui, w: &Window, actions: &mut Vec<Action>) {
    let there = w.session.order().partner_piece.is_some();
    if there && button(ui, &w.colours(), Counter::NO_MATCH, Weight::Plain).clicked() {
        actions.push(Action::change(Change::PartnerPiece(None)));
    }
}
