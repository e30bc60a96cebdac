//! What is in stock, ranked by how like the dress it is: a little picture, its name, how it lies to the dress.

use std::sync::Arc;

use egui::{Align2, Rect, Role, ScrollArea, Sense, Shape, Stroke, Ui, WidgetInfo, pos2, vec2};

use crate::app::action::Action;
use crate::app::context::{Context, Requests};
use crate::app::pages::colour::{ColourAction, capital};
use crate::app::widgets::controls::{Weight, button};
use crate::app::widgets::plate::plate;
use crate::app::widgets::theme::{Colours, colour_of, strong, words};
use crate::book::Order;
use crate::colour::{Likeness, Rgb};
use crate::paperwork::{ColourRow, colour_match};
use crate::stock::{Stock, StockId};

/// The list, worked out once for a dress and a stock, and what of it is shown.
#[derive(Default)]
pub(super) struct Ranking {
    pub(super) kind: Option<&'static str>,
    found: Option<(Rgb, Arc<Stock>, Vec<ColourRow>)>,
    /// The width of the ribbon of the bow.
    bow_width: Option<String>,
}

impl Ranking {
    /// Works the list out where the dress or the stock has changed.
    pub(super) fn prepare(&mut self, dress: Option<Rgb>, order: &Order, stock: &Arc<Stock>) {
        let ribbon = order.piece.bow.as_ref().and_then(|bow| stock.ribbon(&bow.ribbon));
        self.bow_width = ribbon.map(|ribbon| weave_and_width(&ribbon.name).1.to_owned());
        let Some(dress) = dress else {
            self.found = None;
            return;
        };
        let known = self.found.as_ref().is_some_and(|(of, from, _)| *of == dress && Arc::ptr_eq(from, stock));
        if !known {
            self.found = Some((dress, Arc::clone(stock), colour_match(dress, stock)));
        }
    }
}

/// What can be listed alone: the word of the stock list, and what stands on the button.
const KINDS: [(Option<&str>, &str); 6] = [
    (None, "All"),
    (Some("bloom"), "Blooms"),
    (Some("accent"), "Accents"),
    (Some("sprig"), "Filler"),
    (Some("ribbon"), "Ribbons"),
    (Some("trim"), "Trim"),
];

/// Height of a row, points.
const ROW: f32 = 54.0;

pub(super) fn rows_ui(ui: &mut Ui, cx: &Context<'_>, ranking: &Ranking, requests: &mut Requests<ColourAction>) {
    let c = cx.colours;
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = vec2(4.0, 4.0);
        for (kind, label) in KINDS {
            let weight = if ranking.kind == kind { Weight::Chosen } else { Weight::Plain };
            if button(ui, &c, label, weight).clicked() {
                requests.own.push(ColourAction::List(kind));
            }
        }
    });
    let Some((_, _, all)) = &ranking.found else {
        let ask = "Pick a dress colour to see matching stock.";
        ui.label(egui::RichText::new(ask).font(words(16.0)).color(c.soft));
        return;
    };
    let rows = listed(all, ranking.kind, ranking.bow_width.as_deref());
    // Only the rows in sight are laid out and drawn.
    ScrollArea::vertical().auto_shrink([false, false]).show_rows(ui, ROW, rows.len(), |ui, seen| {
        for row in &rows[seen] {
            row_ui(ui, cx, row, requests);
        }
    });
}

/// The rows of a kind; a ribbon that comes in several widths stands once, in the width of the bow where there is one.
fn listed<'a>(all: &'a [ColourRow], kind: Option<&str>, bow: Option<&str>) -> Vec<&'a ColourRow> {
    let mut rows: Vec<&ColourRow> = Vec::new();
    for row in all.iter().filter(|r| is_listed(r, kind)) {
        let same = |r: &&mut &ColourRow| {
            row.kind == "ribbon"
                && (r.kind, &r.name, weave_and_width(&r.of).0) == (row.kind, &row.name, weave_and_width(&row.of).0)
        };
        match rows.iter_mut().find(same) {
            None => rows.push(row),
            Some(shown) if bow == Some(weave_and_width(&row.of).1) => *shown = row,
            Some(_) => {}
        }
    }
    rows
}

/// `Satin, double-faced` and `15 mm (5/8 in)`.
fn weave_and_width(name: &str) -> (&str, &str) {
    name.rsplit_once(", ").unwrap_or((name, ""))
}

/// Greens go with every dress: among all they would only stand in the way.
fn is_listed(row: &ColourRow, kind: Option<&str>) -> bool {
    match kind {
        Some(kind) => row.kind == kind,
        None => row.kind != "leaf",
    }
}

fn row_ui(ui: &mut Ui, cx: &Context<'_>, row: &ColourRow, requests: &mut Requests<ColourAction>) {
    let c = cx.colours;
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width() - 10.0, ROW), Sense::click());
    let of = if row.kind == "ribbon" { weave_and_width(&row.of).0 } else { &row.of };
    let name = format!("{of}, {}", row.name);
    let (says, aside) = said_of(row, cx.is_client());
    response.widget_info(|| WidgetInfo::labeled(Role::Button, true, format!("{name}: {says}")));
    if !ui.is_rect_visible(rect) {
        return;
    }
    let edge = if response.has_focus() { Stroke::new(2.5, c.ink) } else { Stroke::new(1.0, c.line) };
    plate(ui.painter(), rect, c.card, edge);
    let picture = Rect::from_center_size(pos2(rect.min.x + 28.0, rect.center().y), vec2(46.0, 46.0));
    picture_ui(ui, cx, row, picture);
    let right = rect.max.x - 10.0;
    let told = ui.painter().text(pos2(right, rect.min.y + 8.0), Align2::RIGHT_TOP, &aside, words(14.0), c.soft);
    line(ui, &name, pos2(rect.min.x + 58.0, rect.min.y + 6.0), told.min.x - 8.0, strong(16.0), c.ink);
    let warned = row.warnings.iter().any(|w| !w.is_about_eyesight());
    let ink = if !warned || cx.is_client() { c.soft } else { c.rose };
    line(ui, &says, pos2(rect.min.x + 58.0, rect.min.y + 29.0), right, words(14.0), ink);
    if response.gained_focus() {
        response.scroll_to_me(None);
    }
    if response.clicked() {
        match tap_of(cx, row) {
            RowTap::Take(id, colour) => requests.shared.push(Action::PickIn(id, colour)),
            RowTap::Tie(ribbon, colour) => requests.own.push(ColourAction::Tie(ribbon, colour)),
            RowTap::Nothing => {}
        }
    }
    response.on_hover_text(hover_of(cx, row));
}

/// One line of words that ends where there is no more room.
fn line(ui: &Ui, text: &str, at: egui::Pos2, end: f32, font: egui::FontId, ink: egui::Color32) {
    let mut job = egui::text::LayoutJob::simple(text.to_owned(), font, ink, (end - at.x).max(20.0));
    job.wrap.max_rows = 1;
    job.wrap.break_anywhere = true;
    let galley = ui.painter().layout_job(job);
    ui.painter().galley(at, galley, ink);
}

/// The line under the name, and what stands at the right.
fn said_of(row: &ColourRow, client_view: bool) -> (String, String) {
    let relation = row.relation.words();
    let aside = Likeness::of(row.delta_e00).words().to_owned();
    if client_view {
        return (capital(relation), aside);
    }
    let mut short: Vec<&str> = row.warnings.iter().filter(|w| !w.is_about_eyesight()).map(|w| w.short()).collect();
    short.dedup();
    let says = if short.is_empty() { relation.to_owned() } else { short.join("; ") };
    (capital(&says), aside)
}

fn hover_of(cx: &Context<'_>, row: &ColourRow) -> String {
    let what = match tap_of(cx, row) {
        RowTap::Take(..) => "Tap to place it on the wrist.",
        RowTap::Tie(..) => "Tap to use it for the bow.",
        RowTap::Nothing => "",
    };
    let warns = if cx.is_client() { Vec::new() } else { row.warnings.iter().map(|w| w.says()).collect() };
    let all: Vec<String> = warns.into_iter().chain((!what.is_empty()).then(|| what.to_owned())).collect();
    if all.is_empty() { row.relation.words().to_owned() } else { all.join(" ") }
}

/// What a tap on a row does.
enum RowTap {
    /// A bloom goes into the hand.
    Take(StockId, Arc<str>),
    /// A ribbon goes onto the bow.
    Tie(StockId, Arc<str>),
    Nothing,
}

fn tap_of(cx: &Context<'_>, row: &ColourRow) -> RowTap {
    let colour: Arc<str> = Arc::from(row.name.as_str());
    match row.kind {
        "ribbon" if cx.client.order.piece.bow.is_some() => RowTap::Tie(row.stock.clone(), colour),
        "ribbon" | "band" => RowTap::Nothing,
        _ => RowTap::Take(row.stock.clone(), colour),
    }
}

/// A bloom as it is drawn; of a ribbon or a band, a length of it.
fn picture_ui(ui: &Ui, cx: &Context<'_>, row: &ColourRow, place: Rect) {
    match cx.client.goods.get(&row.stock) {
        Some(good) => {
            let head = place.shrink(0.07 * place.width());
            cx.images.heads.borrow_mut().paint(ui.painter(), head, good, &Arc::from(row.name.as_str()));
        }
        None => ribbon(ui, &cx.colours, row.rgb, place),
    }
}

/// A length of ribbon with a notched end.
fn ribbon(ui: &Ui, c: &Colours, rgb: Rgb, place: Rect) {
    let (from, to) = (place.min + vec2(2.0, 12.0), place.max - vec2(2.0, 12.0));
    let notch = pos2(to.x - 9.0, place.center().y);
    let upper = vec![from, pos2(to.x, from.y), notch, pos2(from.x, notch.y)];
    let lower = vec![pos2(from.x, notch.y), notch, to, pos2(from.x, to.y)];
    for half in [upper, lower] {
        ui.painter().add(Shape::convex_polygon(half, colour_of(rgb), Stroke::NONE));
    }
    let edge = vec![from, pos2(to.x, from.y), notch, to, pos2(from.x, to.y)];
    ui.painter().add(Shape::closed_line(edge, Stroke::new(1.0, c.soft)));
}
