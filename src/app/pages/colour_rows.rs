//! What is in stock, ranked by how like the dress it is: a little picture, its name, how it lies to the dress.

use std::sync::Arc;

use egui::{Align2, Rect, Role, ScrollArea, Sense, Shape, Stroke, Ui, WidgetInfo, pos2, vec2};

use crate::app::action::Action;
use crate::app::pages::colour::{Wish, capital};
use crate::app::shell::window::Window;
use crate::app::widgets::controls::{Weight, button};
use crate::app::widgets::plate::plate;
use crate::app::widgets::theme::{Colours, colour_of, strong, words};
use crate::colour::{Likeness, Rgb};
use crate::paperwork::{ColourRow, colour_match};
use crate::stock::Stock;

/// The list, reckoned once for a dress and a stock, and what of it is shown.
#[derive(Default)]
pub(crate) struct Ranking {
    pub(crate) kind: Option<&'static str>,
    reckoned: Option<(Rgb, Arc<Stock>, Arc<Vec<ColourRow>>)>,
}

impl Ranking {
    fn rows(&mut self, dress: Rgb, stock: &Arc<Stock>) -> Arc<Vec<ColourRow>> {
        match &self.reckoned {
            Some((of, from, rows)) if *of == dress && Arc::ptr_eq(from, stock) => Arc::clone(rows),
            _ => {
                let rows = Arc::new(colour_match(dress, stock));
                self.reckoned = Some((dress, Arc::clone(stock), Arc::clone(&rows)));
                rows
            }
        }
    }
}

/// What can be listed alone: the word of the stock list, and what stands on the button.
const KINDS: [(Option<&str>, &str); 6] = [
    (None, "All"),
    (Some("bloom"), "Blooms"),
    (Some("accent"), "Accents"),
    (Some("sprig"), "Sprigs"),
    (Some("ribbon"), "Ribbons"),
    (Some("trim"), "Trims"),
];

/// Height of a row, points.
const ROW: f32 = 54.0;

pub(crate) fn rows_ui(ui: &mut Ui, w: &mut Window, actions: &mut Vec<Action>) {
    let c = w.colours();
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = vec2(4.0, 4.0);
        for (kind, label) in KINDS {
            let weight = if w.colour_room.ranking.kind == kind { Weight::Chosen } else { Weight::Plain };
            if button(ui, &c, label, weight).clicked() {
                actions.push(Action::Colours(Wish::Kind(kind)));
            }
        }
    });
    let Some(dress) = w.session.order().taste.dress.hex else {
        let ask = "Pick a dress colour to see matching stock.";
        ui.label(egui::RichText::new(ask).font(words(16.0)).color(c.soft));
        return;
    };
    let stock = Arc::clone(w.session.stock());
    let kind = w.colour_room.ranking.kind;
    let all = w.colour_room.ranking.rows(dress, &stock);
    let rows = listed(&all, kind, width_of_bow(w));
    // Only the rows in sight are laid out and drawn.
    ScrollArea::vertical().auto_shrink([false, false]).show_rows(ui, ROW, rows.len(), |ui, seen| {
        for row in &rows[seen] {
            row_ui(ui, w, row, actions);
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

fn width_of_bow(w: &Window) -> Option<&str> {
    let ribbon = w.session.stock().ribbon(&w.session.order().piece.bow.as_ref()?.ribbon)?;
    Some(weave_and_width(&ribbon.name).1)
}

/// Greens go with every dress: among all they would only stand in the way.
fn is_listed(row: &ColourRow, kind: Option<&str>) -> bool {
    match kind {
        Some(kind) => row.kind == kind,
        None => row.kind != "leaf",
    }
}

fn row_ui(ui: &mut Ui, w: &mut Window, row: &ColourRow, actions: &mut Vec<Action>) {
    let c = w.colours();
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width() - 10.0, ROW), Sense::click());
    let of = if row.kind == "ribbon" { weave_and_width(&row.of).0 } else { &row.of };
    let name = format!("{of}, {}", row.name);
    let (says, aside) = said_of(row, w.client_side);
    response.widget_info(|| WidgetInfo::labeled(Role::Button, true, format!("{name}: {says}")));
    if !ui.is_rect_visible(rect) {
        return;
    }
    let edge = if response.has_focus() { Stroke::new(2.5, c.ink) } else { Stroke::new(1.0, c.line) };
    plate(ui.painter(), rect, c.card, edge);
    let picture = Rect::from_center_size(pos2(rect.min.x + 28.0, rect.center().y), vec2(46.0, 46.0));
    picture_ui(ui, w, row, picture);
    let right = rect.max.x - 10.0;
    let told = ui.painter().text(pos2(right, rect.min.y + 8.0), Align2::RIGHT_TOP, &aside, words(14.0), c.soft);
    line(ui, &name, pos2(rect.min.x + 58.0, rect.min.y + 6.0), told.min.x - 8.0, strong(16.0), c.ink);
    let warned = row.warnings.iter().any(|w| !w.is_about_eyesight());
    let ink = if !warned || w.client_side { c.soft } else { c.rose };
    line(ui, &says, pos2(rect.min.x + 58.0, rect.min.y + 29.0), right, words(14.0), ink);
    if response.gained_focus() {
        response.scroll_to_me(None);
    }
    if response.clicked()
        && let Some(wish) = wish_of(w, row)
    {
        actions.push(Action::Colours(wish));
    }
    response.on_hover_text(hover_of(w, row));
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
fn said_of(row: &ColourRow, client_side: bool) -> (String, String) {
    let likeness = Likeness::of(row.delta_e00);
    let relation = row.relation.words();
    let aside = likeness.words().to_owned();
    if client_side {
        return (capital(relation), aside);
    }
    let mut short: Vec<&str> = row.warnings.iter().filter(|w| !w.is_about_eyesight()).map(|w| w.short()).collect();
    short.dedup();
    let says = if short.is_empty() { relation.to_owned() } else { short.join("; ") };
    (capital(&says), aside)
}

fn hover_of(w: &Window, row: &ColourRow) -> String {
    let what = match wish_of(w, row) {
        Some(Wish::Take(..)) => "Tap to pick it up.",
        Some(Wish::Tie(..)) => "Tap to use it for the bow.",
        _ => "",
    };
    let warns = if w.client_side { Vec::new() } else { row.warnings.iter().map(|w| w.says()).collect() };
    let all: Vec<String> = warns.into_iter().chain((!what.is_empty()).then(|| what.to_owned())).collect();
    if all.is_empty() { row.relation.words().to_owned() } else { all.join(" ") }
}

/// What a tap does: a bloom goes into the hand, a ribbon onto the bow, where there is one.
fn wish_of(w: &Window, row: &ColourRow) -> Option<Wish> {
    let colour: Arc<str> = Arc::from(row.name.as_str());
    match row.kind {
        "ribbon" => w.session.order().piece.bow.is_some().then(|| Wish::Tie(row.stock.clone(), colour)),
        "band" => None,
        _ => Some(Wish::Take(row.stock.clone(), colour)),
    }
}

/// A bloom as it is drawn; of a ribbon or a band, a length of it.
fn picture_ui(ui: &Ui, w: &mut Window, row: &ColourRow, place: Rect) {
    let c = w.colours();
    let stock = Arc::clone(w.session.stock());
    match stock.botanical(&row.stock) {
        Some(botanical) => {
            let head = place.shrink(0.07 * place.width());
            w.thumbs.paint(ui.painter(), head, botanical, &Arc::from(row.name.as_str()));
        }
        None => ribbon(ui, &c, row.rgb, place),
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
