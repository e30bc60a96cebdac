//! The stock page as it is painted: search and kinds on top, the table, and beside it the open line. Only rows in sight are
//! painted.

use egui::{Align2, Rect, Role as Accessible, ScrollArea, Sense, Shape, Stroke, TextEdit, Ui, WidgetInfo, pos2, vec2};

use super::adding::adding_ui;
use super::line::line_ui;
use super::{StockAction, StockUi};
use crate::app::context::Requests;
use crate::app::parts::tap_keys::watch_page_field;
use crate::app::typing::taps::PageKeys;
use crate::app::view::Good;
use crate::app::widgets::controls::{Weight, button};
use crate::app::widgets::icons::{Icon, paint_icon};
use crate::app::widgets::keys::ARROWS;
use crate::app::widgets::theme::{GRID, TARGET, colour_of, strong, words};
use crate::colour::Rgb;
use crate::paperwork::{full_price, short_price};
use crate::stock::{NewFlower, Role, StockColumn, StockItem, StockKind, season_words};
use crate::units::Cents;

/// What the search is called.
const SEARCH: &str = "Search the stock";
/// Width of the open line, points.
const LINE_WIDE: f32 = 520.0;
/// Height of the names of the columns, points.
const HEAD: f32 = TARGET;

pub(super) fn page_ui(ui: &mut Ui, p: StockUi<'_>, requests: &mut Requests<StockAction>) {
    let own = &mut requests.own;
    tools_ui(ui, p, own);
    kinds_ui(ui, p, own);
    let open = p.page.open_item();
    let adding = p.page.adding.as_ref();
    let is_beside = open.is_some() || adding.is_some();
    let all = ui.available_rect_before_wrap();
    let wide = if is_beside { all.width() - LINE_WIDE - GRID } else { all.width() };
    ui.horizontal_top(|ui| {
        ui.spacing_mut().item_spacing.x = GRID;
        ui.vertical(|ui| {
            ui.set_width(wide);
            table_ui(ui, p, is_beside, own);
        });
        if is_beside {
            ui.vertical(|ui| {
                ui.set_width(LINE_WIDE);
                match (adding, open) {
                    (Some(flower), _) => adding_ui(ui, p, flower, own),
                    (None, Some(item)) => line_ui(ui, p, item, own),
                    (None, None) => {}
                }
            });
        }
    });
}

fn tools_ui(ui: &mut Ui, p: StockUi<'_>, own: &mut Vec<StockAction>) {
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 6.0;
        let mut text = p.page.listing.search.clone();
        let field = TextEdit::singleline(&mut text)
            .hint_text("Search (/)")
            .font(words(17.0))
            .desired_width(260.0)
            .min_size(vec2(260.0, TARGET))
            .align(Align2::LEFT_CENTER)
            .char_limit(60);
        let response = ui.add(field.id(egui::Id::unique("stock search"))).accessible_name(SEARCH);
        if p.page.focuses_search[0] {
            response.request_focus();
        }
        let happened = watch_page_field(&response, p.cx.typing, (SEARCH, PageKeys::Words), &text);
        own.extend(happened.written.map(StockAction::Search));
        own.extend(happened.keys.into_iter().map(StockAction::Taps));
        let only = p.page.listing.only_examples;
        let weight = if only { Weight::Chosen } else { Weight::Plain };
        if button(ui, &p.cx.colours, "Example prices", weight).on_hover_text("Only lines still to go through").clicked()
        {
            own.push(StockAction::OnlyExamples(!only));
        }
        for (label, tip, action) in [
            ("New flower", "One of your own, in any of the forms", StockAction::New(Some(NewFlower::default()))),
            (
                "Import prices",
                "A supplier\u{2019}s list as CSV; you see it before it is taken",
                StockAction::AskForPrices,
            ),
            ("Export list", "As CSV for a spreadsheet", StockAction::AskWhereToExport),
        ] {
            if button(ui, &p.cx.colours, label, Weight::Plain).on_hover_text(tip).clicked() {
                own.push(action);
            }
        }
    });
}

fn kinds_ui(ui: &mut Ui, p: StockUi<'_>, own: &mut Vec<StockAction>) {
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 6.0;
        let kinds = [None].into_iter().chain(StockKind::ALL.map(Some));
        for kind in kinds {
            let weight = if p.page.listing.kind == kind { Weight::Chosen } else { Weight::Plain };
            if button(ui, &p.cx.colours, kind.map_or("All", many), weight).clicked() {
                own.push(StockAction::Kind(kind));
            }
        }
    });
}

/// What many of a kind are called.
fn many(kind: StockKind) -> &'static str {
    match kind {
        StockKind::Botanical(Role::Bloom) => "Blooms",
        StockKind::Botanical(Role::Accent) => "Accents",
        StockKind::Botanical(Role::Filler) => "Filler",
        StockKind::Botanical(Role::Leaf) => "Greenery",
        StockKind::Botanical(Role::Trim) => "Trim",
        StockKind::Ribbon => "Ribbon",
        StockKind::Band => "Bands",
        StockKind::Sundry => "Sundries",
    }
}

/// The columns that are shown, and what share of the width each takes.
fn columns(is_narrow: bool) -> &'static [(StockColumn, f32)] {
    use StockColumn as C;
    const WIDE: [(StockColumn, f32); 8] = [
        (C::Name, 0.26),
        (C::Kind, 0.09),
        (C::Cost, 0.11),
        (C::StemsPerBunch, 0.08),
        (C::PerStem, 0.08),
        (C::CostEach, 0.10),
        (C::Supplier, 0.16),
        (C::Season, 0.12),
    ];
    const NARROW: [(StockColumn, f32); 5] =
        [(C::Name, 0.40), (C::Cost, 0.16), (C::StemsPerBunch, 0.11), (C::PerStem, 0.11), (C::Supplier, 0.22)];
    if is_narrow { &NARROW } else { &WIDE }
}

fn column_name(column: StockColumn) -> &'static str {
    match column {
        StockColumn::Name => "Name",
        StockColumn::Kind => "Kind",
        StockColumn::Cost => "Cost a bunch",
        StockColumn::StemsPerBunch => "Stems",
        StockColumn::PerStem => "Heads",
        StockColumn::CostEach => "Cost a head",
        StockColumn::Supplier => "Supplier",
        StockColumn::Season => "Season",
    }
}

/// Whether a column holds figures, which stand under each other at the right.
fn is_figure(column: StockColumn) -> bool {
    use StockColumn as C;
    match column {
        C::Cost | C::StemsPerBunch | C::PerStem | C::CostEach => true,
        C::Name | C::Kind | C::Supplier | C::Season => false,
    }
}

/// Where the columns lie in a row.
fn cells(row: Rect, is_narrow: bool) -> impl Iterator<Item = (StockColumn, Rect)> {
    let mut left = row.min.x;
    columns(is_narrow).iter().map(move |&(column, share)| {
        let cell = Rect::from_min_size(pos2(left, row.min.y), vec2(row.width() * share, row.height()));
        left = cell.max.x;
        (column, cell)
    })
}

fn table_ui(ui: &mut Ui, p: StockUi<'_>, is_narrow: bool, own: &mut Vec<StockAction>) {
    ui.spacing_mut().item_spacing.y = 0.0;
    // The bar of the rows below takes its room at the right.
    let wide = ui.available_width() - GRID - ui.spacing().scroll.bar_width;
    head_ui(ui, p, wide, is_narrow, own);
    if p.page.rows.is_empty() {
        ui.add_space(2.0 * GRID);
        ui.label("Nothing in the list is called that.");
        return;
    }
    // Whole rows: none is cut by the lower edge.
    let high = (ui.available_height() / TARGET).floor().max(1.0) * TARGET;
    ScrollArea::vertical().auto_shrink([false, false]).max_height(high).show_rows(
        ui,
        TARGET,
        p.page.rows.len(),
        |ui, seen| {
            if let Some(row) = p.page.row_of_keyboard().filter(|_| p.page.shows_row[0]) {
                let rows_down = row as f32 - seen.start as f32;
                let top = ui.min_rect().top() + rows_down * TARGET;
                ui.scroll_to_rect(Rect::from_min_size(pos2(ui.min_rect().left(), top), vec2(1.0, TARGET)), None);
            }
            for item in p.page.rows.iter().take(seen.end).skip(seen.start) {
                row_ui(ui, p, item, wide, is_narrow, own);
            }
        },
    );
}

fn head_ui(ui: &mut Ui, p: StockUi<'_>, wide: f32, is_narrow: bool, own: &mut Vec<StockAction>) {
    let c = p.cx.colours;
    let (row, _) = ui.allocate_exact_size(vec2(wide, HEAD), Sense::hover());
    for (column, cell) in cells(row, is_narrow) {
        let area = ui.interact(cell, ui.scope_id().with(column_name(column)), Sense::click());
        let sorts = p.page.listing.sorted_by == column;
        let name = format!("Sort by {}", column_name(column).to_lowercase());
        area.widget_info(|| WidgetInfo::selected(Accessible::Button, true, sorts, &name));
        if area.has_focus() || area.hovered() {
            ui.painter().rect_stroke(cell.shrink(2.0), 4.0, Stroke::new(1.5, c.soft), egui::StrokeKind::Inside);
        }
        let (at, align) = place(column, cell);
        let ink = if sorts { c.ink } else { c.soft };
        let told = ui.painter().text(at, align, column_name(column), strong(14.0), ink);
        if sorts {
            arrow_ui(ui, told, p.page.listing.is_descending, column, ink);
        }
        if area.clicked() {
            own.push(StockAction::Sort(column));
        }
    }
    ui.painter().hline(row.x_range(), row.max.y - 1.0, Stroke::new(1.0, c.line));
}

/// A small arrow beside the name of a column: up, or down.
fn arrow_ui(ui: &Ui, told: Rect, is_down: bool, column: StockColumn, ink: egui::Color32) {
    let middle =
        if is_figure(column) { told.left_center() - vec2(9.0, 0.0) } else { told.right_center() + vec2(9.0, 0.0) };
    let tip = if is_down { 4.0 } else { -4.0 };
    let points = vec![middle + vec2(0.0, tip), middle + vec2(-4.5, -tip), middle + vec2(4.5, -tip)];
    ui.painter().add(Shape::convex_polygon(points, ink, Stroke::NONE));
}

/// Where the words of a cell stand.
fn place(column: StockColumn, cell: Rect) -> (egui::Pos2, Align2) {
    // Words that follow figures keep their distance from them.
    let inner = cell.shrink2(vec2(if is_figure(column) { 10.0 } else { 6.0 }, 0.0));
    if is_figure(column) {
        (inner.right_center(), Align2::RIGHT_CENTER)
    } else {
        (inner.left_center(), Align2::LEFT_CENTER)
    }
}

fn row_ui(ui: &mut Ui, p: StockUi<'_>, item: &StockItem, wide: f32, is_narrow: bool, own: &mut Vec<StockAction>) {
    let c = p.cx.colours;
    let key = item.key();
    let (row, response) = ui.allocate_exact_size(vec2(wide, TARGET), Sense::click());
    let is_here = p.page.at.as_ref() == Some(&key);
    let is_open = is_here && p.page.is_open;
    response.widget_info(|| WidgetInfo::selected(Accessible::Button, true, is_open, told(p, item)));
    if response.has_focus() {
        // Arrows go from row to row and not to whatever lies beside.
        ui.memory_mut(|m| m.set_focus_lock_filter(response.id, ARROWS));
    }
    if is_open {
        ui.painter().rect_filled(row, 4.0, c.kraft.gamma_multiply(0.45));
    } else if response.hovered() {
        ui.painter().rect_filled(row, 4.0, c.card);
    }
    if is_here || response.has_focus() {
        ui.painter().rect_stroke(row.shrink(1.0), 4.0, Stroke::new(2.0, c.ink), egui::StrokeKind::Inside);
    }
    for (column, cell) in cells(row, is_narrow) {
        cell_ui(ui, p, item, column, cell);
    }
    ui.painter().hline(row.x_range(), row.max.y - 0.5, Stroke::new(1.0, c.line.gamma_multiply(0.6)));
    if response.clicked() {
        own.push(StockAction::Open(key));
    }
}

/// A row as a screen reader tells it.
fn told(p: StockUi<'_>, item: &StockItem) -> String {
    let shelf = item.shelf();
    let mut words = vec![item.name().to_owned(), item.kind().tray_word().to_owned(), money(p, item.cost())];
    words.extend(shelf.has_example_price.then(|| "example price".to_owned()));
    words.extend(shelf.is_starred.then(|| "starred".to_owned()));
    words.extend(shelf.is_hidden.then(|| "hidden".to_owned()));
    words.join(", ")
}

pub(super) fn money(p: StockUi<'_>, cents: Cents) -> String {
    short_price(cents, &p.cx.client.currency)
}

/// With its cents, so that amounts stand under each other.
fn amount(p: StockUi<'_>, cents: Cents) -> String {
    full_price(cents, &p.cx.client.currency)
}

fn cell_ui(ui: &Ui, p: StockUi<'_>, item: &StockItem, column: StockColumn, cell: Rect) {
    let c = p.cx.colours;
    let ink = if item.shelf().is_hidden { c.soft } else { c.ink };
    let botanical = item.botanical();
    let text = match column {
        StockColumn::Name => return name_ui(ui, p, item, cell),
        StockColumn::Cost => return cost_ui(ui, p, item, cell),
        StockColumn::Kind => item.kind().tray_word().to_owned(),
        StockColumn::StemsPerBunch => botanical.map(|b| b.stems_per_bunch.to_string()).unwrap_or_default(),
        StockColumn::PerStem => botanical.map(|b| b.per_stem.to_string()).unwrap_or_default(),
        StockColumn::CostEach => botanical.map(|_| amount(p, Cents::nearest(item.cents_each()))).unwrap_or_default(),
        StockColumn::Supplier => item.supplier().to_owned(),
        StockColumn::Season => botanical.map(|b| season_words(&b.months)).unwrap_or_default(),
    };
    let (at, align) = place(column, cell);
    ui.painter().with_clip_rect(cell.intersect(ui.clip_rect())).text(at, align, text, words(15.0), ink);
}

/// Picture, name, and whether it is starred or hidden.
fn name_ui(ui: &Ui, p: StockUi<'_>, item: &StockItem, cell: Rect) {
    let c = p.cx.colours;
    let shelf = item.shelf();
    picture_ui(ui, p, item, Rect::from_center_size(pos2(cell.min.x + 22.0, cell.center().y), vec2(30.0, 30.0)));
    let right = if shelf.is_starred || shelf.is_hidden { cell.max.x - 24.0 } else { cell.max.x };
    let room = Rect::from_min_max(pos2(cell.min.x + 44.0, cell.min.y), pos2(right, cell.max.y));
    let ink = if shelf.is_hidden { c.soft } else { c.ink };
    let mut job = egui::text::LayoutJob::simple(item.name().to_owned(), strong(15.5), ink, room.width() - 4.0);
    job.wrap.max_rows = 1;
    let galley = ui.painter().layout_job(job);
    let at = Align2::LEFT_CENTER.align_size_within_rect(galley.size(), room).min;
    ui.painter().galley(at, galley, ink);
    let sign = Rect::from_center_size(pos2(cell.max.x - 12.0, cell.center().y), vec2(18.0, 18.0));
    if shelf.is_hidden {
        paint_icon(ui.painter(), Icon::Hidden, sign, 18.0, c.soft);
    } else if shelf.is_starred {
        paint_icon(ui.painter(), Icon::Star, sign, 18.0, c.rose);
    }
}

/// A head, or the first colours as patches.
pub(super) fn picture_ui(ui: &Ui, p: StockUi<'_>, item: &StockItem, place: Rect) {
    if let Some(b) = item.botanical() {
        let good = Good::of(b);
        let colour = good.usual_colour();
        p.cx.images.heads.borrow_mut().paint(ui.painter(), place, &good, &colour);
        return;
    }
    let rgb = match item {
        StockItem::Ribbon(r) => r.colours.first().map(|c| c.rgb),
        StockItem::Band(b) => Some(b.rgb),
        StockItem::Botanical(_) | StockItem::Sundry(_) => None,
    };
    if let Some(rgb) = rgb {
        patch_ui(ui, p, rgb, place.shrink(4.0));
    }
}

pub(super) fn patch_ui(ui: &Ui, p: StockUi<'_>, rgb: Rgb, place: Rect) {
    let edge = Stroke::new(1.0, p.cx.colours.soft);
    ui.painter().rect(place, 4.0, colour_of(rgb), edge, egui::StrokeKind::Inside);
}

/// The cost, and under it whether it is an example.
fn cost_ui(ui: &Ui, p: StockUi<'_>, item: &StockItem, cell: Rect) {
    let c = p.cx.colours;
    let is_example = item.shelf().has_example_price;
    let (at, align) = place(StockColumn::Cost, cell);
    let up = if is_example { vec2(0.0, 7.0) } else { vec2(0.0, 0.0) };
    let ink = if item.shelf().is_hidden { c.soft } else { c.ink };
    ui.painter().text(at - up, align, amount(p, item.cost()), strong(15.5), ink);
    if is_example {
        ui.painter().text(at + vec2(0.0, 10.0), align, "example", words(13.0), c.rose);
    }
}
