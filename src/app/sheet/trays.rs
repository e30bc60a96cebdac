//! The trays along the bottom edge: what there is to pick from, in its colours, with what is left to place.

use std::sync::Arc;

use egui::{Align2, Rect, Role as Accessible, Sense, Stroke, Ui, UiBuilder, WidgetInfo, pos2, vec2};

use crate::app::action::Action;
use crate::app::context::Context;
use crate::app::page_list::PageId;
use crate::app::picture::heads::{HeadKey, with_margin};
use crate::app::sheet::room::SheetRoom;
use crate::app::sheet::tray_shelf::{ShelfDrag, drag_on_shelf, shelf_ui};
use crate::app::view::{Good, Goods};
use crate::app::widgets::controls::swatch;
use crate::app::widgets::controls::{Weight, button, sideways};
use crate::app::widgets::naming::so_many;
use crate::app::widgets::plate::edge_on;
use crate::app::widgets::theme::{Colours, GRID, TARGET, strong, words};
use crate::app::widgets::words::Counter;
use crate::book::Change;
use crate::piece::PieceSize;
use crate::session::{ActivePiece, Session};
use crate::sheet::Held;
use crate::stock::{Role, StockId};

/// One bucket, points.
const BUCKET: egui::Vec2 = vec2(104.0, 112.0);
/// The head in it, points.
const HEAD: f32 = 54.0;

pub(crate) fn trays_ui(ui: &mut Ui, cx: &Context<'_>, room: &SheetRoom, actions: &mut Vec<Action>) {
    head_ui(ui, cx, room, actions);
    let left = left_to_place(cx);
    // Each tray has a shelf of its own, and so has each piece.
    let name = ("tray", tray_name(room.tray), room.nth_piece);
    shelf_ui(ui, cx, name, BUCKET.y + GRID, |ui| {
        for (n, good) in in_tray_order(cx.client.goods.all(), room.tray, first(cx, room)).into_iter().enumerate() {
            good_ui(ui, cx, room, &TrayGood { good, n, left: &left }, actions);
        }
    });
}

/// What the tray that is open at first shows in the shop view without being scrolled.
pub(crate) fn at_first(session: &Session) -> Vec<Good> {
    /// As many as the usual window is wide.
    const SEEN: usize = 11;
    let goods = Goods::of(session.stock());
    let promised = session.size().into_iter().flat_map(|size| size.holds.iter().map(|planned| planned.stock.clone()));
    let on_it = session.size().into_iter().flat_map(|_| session.piece().parts().iter().map(|p| p.stock.clone()));
    let first: Vec<StockId> = promised.chain(on_it).collect();
    in_tray_order(goods.all(), Role::Bloom, &first).into_iter().take(SEEN).cloned().collect()
}

/// The picture of goods that nobody has chosen a colour for.
pub(crate) fn usual_head(good: &Good, pixels_per_point: f32) -> HeadKey {
    HeadKey::new(&good.id, &good.usual_colour(), with_margin(HEAD), pixels_per_point)
}

/// What is to come first, then what the shop has starred, then the order of the stock list.
fn in_tray_order<'a>(all: &'a [Good], role: Role, first: &[StockId]) -> Vec<&'a Good> {
    let mut tray: Vec<&Good> = all.iter().filter(|good| good.role == role && good.in_tray).collect();
    tray.sort_by_key(|good| (!first.contains(&good.id), !good.is_starred));
    tray
}

/// What comes first in the shop view; a client sees the list as it is.
fn first<'a>(cx: &Context<'_>, room: &'a SheetRoom) -> &'a [StockId] {
    if cx.shop.is_some() { room.first_in_trays() } else { &[] }
}

pub(crate) fn nth_in_tray(cx: &Context<'_>, room: &SheetRoom, n: usize) -> Option<StockId> {
    in_tray_order(cx.client.goods.all(), room.tray, first(cx, room)).get(n).map(|good| good.id.clone())
}

/// What the size promises, in the shop view: each kind with how many are still to be put on.
fn left_to_place(cx: &Context<'_>) -> Vec<(StockId, u32)> {
    let lines = cx.shop.filter(|_| cx.client.size().is_some()).map(|shop| &shop.derived.stems.lines);
    lines.into_iter().flatten().map(|line| (line.stock.clone(), line.to_place)).collect()
}

fn head_ui(ui: &mut Ui, cx: &Context<'_>, room: &SheetRoom, actions: &mut Vec<Action>) {
    let c = cx.colours;
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 6.0;
        for role in Role::ALL {
            let weight = if room.tray == role { Weight::Chosen } else { Weight::Plain };
            if button(ui, &c, tray_name(role), weight).clicked() {
                actions.push(Action::Tray(role));
            }
        }
        ui.add_space(GRID);
        sizes_ui(ui, cx, actions);
    });
}

fn tray_name(role: Role) -> &'static str {
    match role {
        Role::Bloom => "Blooms",
        Role::Accent => "Accents",
        Role::Filler => "Filler",
        Role::Leaf => "Greenery",
        Role::Trim => "Trim",
    }
}

/// The goods whose colours are offered: in the hand, or selected when all that is selected is of one kind.
pub(super) fn what_is_coloured<'a>(cx: &Context<'a>, room: &SheetRoom) -> Option<(&'a Good, Arc<str>)> {
    if let Held::FromTray { new, .. } = &room.hand.held {
        return Some((cx.client.goods.get(&new.stock)?, Arc::clone(&new.colour)));
    }
    let piece = cx.client.piece();
    let mut chosen = room.hand.selected.iter().filter_map(|id| piece.part(*id));
    let first = chosen.next()?;
    chosen.all(|p| p.stock == first.stock).then_some(())?;
    Some((cx.client.goods.get(&first.stock)?, Arc::clone(&first.colour)))
}

/// Its colours at the right of a line, the one that is taken marked; returns where they begin.
pub(super) fn colours_ui(
    ui: &mut Ui,
    cx: &Context<'_>,
    of: (&Good, &str),
    line: Rect,
    actions: &mut Vec<Action>,
) -> f32 {
    /// What they may take of the line; more of them scroll.
    const SHARE: f32 = 0.6;
    let ((good, now), between) = (of, 4.0);
    let wide = good.colours.len() as f32 * (TARGET + between);
    let begin = line.max.x - wide.min(line.width() * SHARE) - GRID;
    let place = Rect::from_min_max(pos2(begin, line.min.y + 2.0), line.max - vec2(GRID, 2.0));
    ui.scope_builder(UiBuilder::new().id_salt(("colours", good.id.to_string())).max_rect(place), |ui| {
        sideways(ui, |ui| {
            ui.spacing_mut().item_spacing.x = between;
            for colour in &good.colours {
                if swatch(ui, &cx.colours, colour.rgb, &colour.name, colour.name == now).clicked() {
                    actions.push(Action::Colour(Arc::from(colour.name.as_str())));
                }
            }
        });
    });
    begin
}

fn sizes_ui(ui: &mut Ui, cx: &Context<'_>, actions: &mut Vec<Action>) {
    let c = cx.colours;
    if cx.client.active == ActivePiece::Boutonniere {
        // The sizes are the wrist piece's.
        if button(ui, &c, Counter::BACK_TO_WRIST, Weight::Chosen).clicked() {
            actions.push(Action::ShowPiece(ActivePiece::Wrist));
        }
        return;
    }
    let order = &cx.client.order;
    for size in &cx.client.sizes {
        let chosen = order.size.as_deref() == Some(size.name.as_str());
        let weight = if chosen { Weight::Chosen } else { Weight::Plain };
        if button(ui, &c, &size.name, weight).on_hover_text(size_words(cx, size)).clicked() && !chosen {
            actions.push(Action::change(Change::Size(Box::new(size.clone()))));
        }
    }
    ui.add_space(GRID);
    if button(ui, &c, "Compare sizes", Weight::Plain)
        .on_hover_text("Sizes at one scale, with their prices (C)")
        .clicked()
    {
        actions.push(Action::Show(PageId::Sizes));
    }
}

fn size_words(cx: &Context<'_>, size: &PieceSize) -> String {
    let what = size.holds.iter().map(|p| {
        let good = cx.client.goods.get(&p.stock);
        good.map_or_else(|| format!("{} {}", p.count, p.stock), |b| so_many(p.count, b.role, &b.name))
    });
    what.collect::<Vec<_>>().join(", ")
}

/// One kind of goods and its place in the tray.
struct TrayGood<'a> {
    good: &'a Good,
    n: usize,
    left: &'a [(StockId, u32)],
}

fn good_ui(ui: &mut Ui, cx: &Context<'_>, room: &SheetRoom, of: &TrayGood<'_>, actions: &mut Vec<Action>) {
    let TrayGood { good, n, left } = *of;
    let c = cx.colours;
    let colour = room.colour_for(&good.id, cx.client);
    let (rect, response) = ui.allocate_exact_size(BUCKET, Sense::click_and_drag());
    let is_kept_off = cx.client.kept_off.contains(&good.id);
    let kept_off = if is_kept_off { format!(", {}", Counter::KEPT_OFF) } else { String::new() };
    let name = format!("{}, {colour}{kept_off}", good.name);
    let in_hand = matches!(&room.hand.held, Held::FromTray { new, .. } if new.stock == good.id);
    response.widget_info(|| WidgetInfo::selected(Accessible::Button, true, in_hand, name.clone()));
    let to_place = left.iter().find(|(id, _)| *id == good.id).map(|(_, n)| *n);
    if ui.is_rect_visible(rect) {
        let edge = if in_hand || response.has_focus() { Stroke::new(2.5, c.rose) } else { Stroke::new(1.0, c.line) };
        edge_on(ui.painter(), rect, c.paper, edge);
        let head = Rect::from_center_size(pos2(rect.center().x, rect.min.y + 36.0), vec2(HEAD, HEAD));
        cx.images.heads.borrow_mut().paint(ui.painter(), head, good, &colour);
        name_of(ui, &c, rect, &good.name);
        if is_kept_off {
            let (at, ink) = (rect.center_bottom() - vec2(0.0, 4.0), c.rose);
            ui.painter().line_segment([head.left_bottom(), head.right_top()], Stroke::new(3.0, ink));
            ui.painter().text(at, Align2::CENTER_BOTTOM, Counter::KEPT_OFF, strong(13.0), ink);
        } else if let Some(to_place) = to_place {
            let (words, ink) =
                if to_place > 0 { (format!("{to_place} to place"), c.rose) } else { ("placed".to_owned(), c.leaf) };
            ui.painter().text(rect.center_bottom() - vec2(0.0, 4.0), Align2::CENTER_BOTTOM, words, strong(13.0), ink);
        }
        if n < 9 {
            let key = (n + 1).to_string();
            ui.painter().text(rect.right_top() + vec2(-8.0, 5.0), Align2::RIGHT_TOP, key, words(13.0), c.soft);
        }
    }
    if response.gained_focus() {
        response.scroll_to_me(None);
    }
    let is_taken = !room.dragging_from_tray && drag_on_shelf(ui, &response) == ShelfDrag::Taken;
    if is_taken {
        actions.push(Action::DragFromTray(good.id.clone()));
    } else if response.clicked() {
        actions.push(Action::Pick(good.id.clone()));
    }
    response.on_hover_text(tip(good));
}

/// The name under a picture, in one line or two.
fn name_of(ui: &Ui, c: &Colours, rect: Rect, name: &str) {
    let mut job = egui::text::LayoutJob::simple(name.to_owned(), words(14.0), c.ink, rect.width() - 8.0);
    job.wrap.max_rows = 1;
    job.halign = egui::Align::Center;
    let galley = ui.painter().layout_job(job);
    let galley = if galley.elided {
        let mut smaller = egui::text::LayoutJob::simple(name.to_owned(), words(12.5), c.ink, rect.width() - 6.0);
        smaller.wrap.max_rows = 2;
        smaller.halign = egui::Align::Center;
        ui.painter().layout_job(smaller)
    } else {
        galley
    };
    ui.painter().galley(pos2(rect.center().x, rect.min.y + HEAD + 13.0), galley, c.ink);
}

fn tip(b: &Good) -> String {
    let cautions: Vec<&str> = b.cautions.iter().map(|x| x.tag()).collect();
    let cautions = if cautions.is_empty() { String::new() } else { format!("\nCare: {}", cautions.join(", ")) };
    format!("{} ({})\n{} mm, {}{cautions}", b.name, b.botanical, crate::units::mm_text(b.usual_mm), b.keeps.word())
}
