//! The trays along the bottom edge: what there is to pick from, in its colours, with what is left to place.

use std::sync::Arc;

use egui::{Align2, Rect, Role as Accessible, Sense, Stroke, Ui, WidgetInfo, pos2, vec2};

use crate::app::action::Action;
use crate::app::pages::page::Page;
use crate::app::shell::view_options::swatch;
use crate::app::shell::window::Window;
use crate::app::widgets::controls::{Weight, button, sideways};
use crate::app::widgets::naming::so_many;
use crate::app::widgets::plate::edge_on;
use crate::app::widgets::theme::{Colours, GRID, strong, words};
use crate::app::widgets::thumbs::{Which, with_margin};
use crate::app::widgets::words::Counter;
use crate::book::Change;
use crate::piece::PieceSize;
use crate::session::{Front, Session};
use crate::sheet::Held;
use crate::stock::{Botanical, Role, StockId};

/// One bucket, points.
const BUCKET: egui::Vec2 = vec2(104.0, 112.0);
/// The head in it, points.
const HEAD: f32 = 54.0;

pub(crate) fn trays_ui(ui: &mut Ui, w: &mut Window, actions: &mut Vec<Action>) {
    head_ui(ui, w, actions);
    let stock = Arc::clone(w.session.stock());
    let left = left_to_place(w);
    sideways(ui, |ui| {
        let tray = w.tray;
        for (n, botanical) in in_tray_order(stock.botanicals(), tray, &left).into_iter().enumerate() {
            bucket_ui(ui, w, botanical, n, &left, actions);
        }
    });
}

/// What the tray that is open at first shows on my side without being scrolled.
pub(crate) fn at_first(session: &Session) -> Vec<Botanical> {
    /// As many as the usual window is wide.
    const SEEN: usize = 12;
    let promised = session.size().into_iter().flat_map(|size| {
        let on_it = session.piece().parts().iter().map(|p| p.stock.clone());
        size.holds.iter().map(|p| p.stock.clone()).chain(on_it).map(|id| (id, 0))
    });
    let promised: Vec<_> = promised.collect();
    in_tray_order(session.stock().botanicals(), Role::Bloom, &promised).into_iter().take(SEEN).cloned().collect()
}

/// The picture on a bucket that nobody has chosen a colour for.
pub(crate) fn usual_head(botanical: &Botanical, pixels_per_point: f32) -> Which {
    Which::new(&botanical.id, &usual_colour(botanical), with_margin(HEAD), pixels_per_point)
}

/// The colour in which a botanical is taken unless another is chosen.
pub(crate) fn usual_colour(botanical: &Botanical) -> Arc<str> {
    botanical.colours.first().map_or_else(|| Arc::from("white"), |c| c.name.as_str().into())
}

/// What the chosen size promises comes first, then the order of the stock list.
fn in_tray_order<'a>(all: &'a [Botanical], role: Role, left: &[(StockId, u32)]) -> Vec<&'a Botanical> {
    let mut tray: Vec<&Botanical> = all.iter().filter(|b| b.role == role && b.cut_from.is_none()).collect();
    tray.sort_by_key(|b| !left.iter().any(|(id, _)| *id == b.id));
    tray
}

pub(crate) fn nth_in_tray(w: &mut Window, n: usize) -> Option<StockId> {
    let stock = Arc::clone(w.session.stock());
    let left = left_to_place(w);
    in_tray_order(stock.botanicals(), w.tray, &left).get(n).map(|b| b.id.clone())
}

/// What the size promises: each kind with how many are still to be put on.
fn left_to_place(w: &mut Window) -> Vec<(StockId, u32)> {
    if w.session.size().is_none() || w.client_side {
        return Vec::new();
    }
    let derived = w.session.derived();
    derived.stems.lines.iter().map(|l| (l.stock.clone(), l.to_place)).collect()
}

fn head_ui(ui: &mut Ui, w: &Window, actions: &mut Vec<Action>) {
    let c = w.colours();
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 6.0;
        for role in Role::ALL {
            let (_, many) = role.words();
            let weight = if w.tray == role { Weight::Chosen } else { Weight::Plain };
            if button(ui, &c, many, weight).clicked() {
                actions.push(Action::Tray(role));
            }
        }
        ui.add_space(GRID);
        let coloured = what_is_coloured(w);
        match coloured {
            Some((botanical, now)) => colours_ui(ui, &c, &botanical, &now, actions),
            None => sizes_ui(ui, w, actions),
        }
    });
}

/// The botanical whose colours are offered: in the hand, or selected when all that is selected is of one kind.
fn what_is_coloured(w: &Window) -> Option<(Botanical, Arc<str>)> {
    let stock = w.session.stock();
    if let Held::FromTray { new, .. } = &w.sheet.held {
        return Some((stock.botanical(&new.stock)?.clone(), Arc::clone(&new.colour)));
    }
    let piece = w.session.piece();
    let mut chosen = w.sheet.selected.iter().filter_map(|id| piece.part(*id));
    let first = chosen.next()?;
    chosen.all(|p| p.stock == first.stock).then_some(())?;
    Some((stock.botanical(&first.stock)?.clone(), Arc::clone(&first.colour)))
}

fn colours_ui(ui: &mut Ui, c: &Colours, of: &Botanical, now: &str, actions: &mut Vec<Action>) {
    for colour in &of.colours {
        if swatch(ui, c, colour.rgb, &colour.name, colour.name == now).clicked() {
            actions.push(Action::Colour(Arc::from(colour.name.as_str())));
        }
    }
}

fn sizes_ui(ui: &mut Ui, w: &Window, actions: &mut Vec<Action>) {
    let c = w.colours();
    if w.session.front() == Front::Partners {
        // The sizes are the wrist piece's.
        if button(ui, &c, Counter::BACK_TO_WRIST, Weight::Chosen).clicked() {
            actions.push(Action::OnSheet(Front::Wearers));
        }
        return;
    }
    let order = w.session.order();
    for size in &w.session.style().sizes {
        let chosen = order.size.as_deref() == Some(size.name.as_str());
        let weight = if chosen { Weight::Chosen } else { Weight::Plain };
        if button(ui, &c, &size.name, weight).on_hover_text(size_words(w, size)).clicked() && !chosen {
            actions.push(Action::change(Change::Size(Box::new(size.clone()))));
        }
    }
    ui.add_space(GRID);
    if button(ui, &c, "Side by side", Weight::Plain)
        .on_hover_text("Sizes at one scale, with their prices (C)")
        .clicked()
    {
        actions.push(Action::Turn(Page::Sizes));
    }
}

fn size_words(w: &Window, size: &PieceSize) -> String {
    let what = size.holds.iter().map(|p| {
        let stocked = w.session.stock().botanical(&p.stock);
        stocked.map_or_else(|| format!("{} {}", p.count, p.stock), |b| so_many(p.count, b.role, &b.name))
    });
    what.collect::<Vec<_>>().join(", ")
}

fn bucket_ui(
    ui: &mut Ui,
    w: &mut Window,
    botanical: &Botanical,
    n: usize,
    left: &[(StockId, u32)],
    actions: &mut Vec<Action>,
) {
    let c = w.colours();
    let colour = w.colour_for(&botanical.id);
    let (rect, response) = ui.allocate_exact_size(BUCKET, Sense::click_and_drag());
    let in_hand = matches!(&w.sheet.held, Held::FromTray { new, .. } if new.stock == botanical.id);
    response.widget_info(|| {
        WidgetInfo::selected(Accessible::Button, true, in_hand, format!("{}, {colour}", botanical.name))
    });
    let to_place = left.iter().find(|(id, _)| *id == botanical.id).map(|(_, n)| *n);
    if ui.is_rect_visible(rect) {
        let edge = if in_hand || response.has_focus() { Stroke::new(2.5, c.rose) } else { Stroke::new(1.0, c.line) };
        edge_on(ui.painter(), rect, c.paper, edge);
        let head = Rect::from_center_size(pos2(rect.center().x, rect.min.y + 36.0), vec2(HEAD, HEAD));
        w.thumbs.paint(ui.painter(), head, botanical, &colour);
        name_of(ui, &c, rect, &botanical.name);
        if let Some(to_place) = to_place {
            let (words, ink) =
                if to_place > 0 { (format!("{to_place} to place"), c.rose) } else { ("placed".to_owned(), c.leaf) };
            ui.painter().text(rect.center_bottom() - vec2(0.0, 4.0), Align2::CENTER_BOTTOM, words, strong(13.0), ink);
        }
        if n < 9 {
            let key = (n + 1).to_string();
            ui.painter().text(rect.right_top() + vec2(-8.0, 5.0), Align2::RIGHT_TOP, key, words(13.0), c.soft);
        }
    }
    if response.clicked() || response.drag_started() {
        w.dragging_from_tray = response.drag_started();
        actions.push(Action::Pick(botanical.id.clone()));
    }
    response.on_hover_text(tip(botanical));
}

/// The name under a bucket's picture, in one line or two.
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

fn tip(b: &Botanical) -> String {
    let cautions: Vec<&str> = b.cautions.iter().map(|x| x.tag()).collect();
    let cautions = if cautions.is_empty() { String::new() } else { format!("\nCare: {}", cautions.join(", ")) };
    format!("{} ({})\n{} mm, {}{cautions}", b.name, b.botanical, crate::units::mm_text(b.usual_mm()), b.keeps.word())
}
