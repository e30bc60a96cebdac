//! The wrist piece and the boutonniere that goes with it: seen together, each with its price; one press leads to the sheet of
//! the other and back.

use egui::{Align2, Rect, RichText, Role, Sense, Stroke, Ui, UiBuilder, WidgetInfo, pos2, vec2};

use crate::app::action::Action;
use crate::app::context::Context;
use crate::app::parts::board::{Framed, common_view, picture_ui};
use crate::app::widgets::controls::{Weight, button};
use crate::app::widgets::plate::plate;
use crate::app::widgets::theme::{GRID, TARGET, strong, words};
use crate::app::widgets::words::Counter;
use crate::book::Change;
use crate::paperwork::short_price;
use crate::piece::{Piece, Worn};
use crate::session::ActivePiece;

/// The card over the sheet's lower left corner, points.
const CARD: egui::Vec2 = vec2(132.0, 164.0);
/// Height of the boards on the price page, points.
const BOARD: f32 = 190.0;

pub(crate) fn other(which: ActivePiece) -> ActivePiece {
    match which {
        ActivePiece::Wrist => ActivePiece::Boutonniere,
        ActivePiece::Boutonniere => ActivePiece::Wrist,
    }
}

/// Over the sheet: the piece that is not on it, and the way to it; or the offer to make one.
pub(crate) fn card_ui(ui: &mut Ui, cx: &Context<'_>, sheet: Rect, layouts_open: bool, actions: &mut Vec<Action>) {
    let order = &cx.client.order;
    if order.piece.worn != Worn::Wrist || sheet.height() < 2.0 * CARD.y || layouts_open {
        return;
    }
    let c = cx.colours;
    let foot = pos2(sheet.min.x + 44.0, sheet.max.y - 36.0);
    let which = other(cx.client.active);
    let Some(piece) = cx.client.piece_of(which) else {
        let rect = Rect::from_min_size(foot - vec2(0.0, TARGET), vec2(170.0, TARGET));
        ui.scope_builder(UiBuilder::new().id_salt("match").max_rect(rect), |ui| {
            if button(ui, &c, Counter::MATCH, Weight::Plain).on_hover_text(Counter::MATCH_TIP).clicked() {
                actions.push(Action::AddBoutonniere);
            }
        });
        return;
    };
    let rect = Rect::from_min_size(foot - vec2(0.0, CARD.y), CARD);
    let response = ui.interact(rect, ui.scope_id().with("other piece"), Sense::click());
    let name = Counter::piece(which);
    let price =
        cx.client.quote.price_of(which).map(|price| short_price(price, &cx.client.currency)).unwrap_or_default();
    response.widget_info(|| WidgetInfo::labeled(Role::Button, true, Counter::edit(which)));
    let edge = if response.has_focus() || response.hovered() { c.ink } else { c.line };
    plate(ui.painter(), rect, c.card, Stroke::new(1.5, edge));
    let board = Rect::from_min_max(rect.min, pos2(rect.max.x, rect.max.y - 28.0)).shrink(4.0);
    let view = common_view([piece].into_iter(), cx.client, board.size());
    picture_ui(ui, cx, &Framed { name: card_name(which), piece, rect: board, view });
    let line = rect.left_bottom() + vec2(8.0, -14.0);
    ui.painter().text(line, Align2::LEFT_CENTER, name, strong(14.0), c.ink);
    let line = rect.right_bottom() + vec2(-8.0, -14.0);
    ui.painter().text(line, Align2::RIGHT_CENTER, price, strong(14.0), c.ink);
    if response.on_hover_text(Counter::edit(which)).clicked() {
        actions.push(Action::ShowPiece(which));
    }
}

fn card_name(which: ActivePiece) -> &'static str {
    match which {
        ActivePiece::Wrist => "card of the wrist piece",
        ActivePiece::Boutonniere => "card of the boutonniere",
    }
}

/// On the price page: both at one scale, their prices, the way to each sheet, and what makes or takes away the second.
pub(crate) fn pair_ui(ui: &mut Ui, cx: &Context<'_>, actions: &mut Vec<Action>) {
    let order = &cx.client.order;
    if order.piece.worn != Worn::Wrist {
        return;
    }
    let c = cx.colours;
    let shown: Vec<(ActivePiece, &Piece)> = [ActivePiece::Wrist, ActivePiece::Boutonniere]
        .into_iter()
        .filter_map(|f| Some((f, cx.client.piece_of(f)?)))
        .collect();
    let width = (ui.available_width() - GRID) / 2.0;
    let view = common_view(shown.iter().map(|(_, piece)| *piece), cx.client, vec2(width, BOARD));
    ui.horizontal_top(|ui| {
        ui.spacing_mut().item_spacing.x = GRID;
        for (which, piece) in &shown {
            ui.vertical(|ui| {
                ui.set_width(width);
                ui.spacing_mut().item_spacing.y = 4.0;
                let (rect, _) = ui.allocate_exact_size(vec2(width, BOARD), Sense::hover());
                plate(ui.painter(), rect, c.card, Stroke::new(1.0, c.line));
                picture_ui(ui, cx, &Framed { name: Counter::piece(*which), piece, rect: rect.shrink(3.0), view });
                let price =
                    cx.client.quote.price_of(*which).map(|p| short_price(p, &cx.client.currency)).unwrap_or_default();
                ui.horizontal(|ui| {
                    ui.spacing_mut().item_spacing.x = 6.0;
                    if button(ui, &c, Counter::piece(*which), Weight::Plain)
                        .on_hover_text(Counter::edit(*which))
                        .clicked()
                    {
                        actions.push(Action::ShowPiece(*which));
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
                    actions.push(Action::AddBoutonniere);
                }
            });
        }
    });
}

/// What takes the boutonniere away.
pub(crate) fn remove_boutonniere_ui(ui: &mut Ui, cx: &Context<'_>, actions: &mut Vec<Action>) {
    let there = cx.client.order.partner_piece.is_some();
    if there && button(ui, &cx.colours, Counter::NO_MATCH, Weight::Plain).clicked() {
        actions.push(Action::change(Change::PartnerPiece(None)));
    }
}
