//! The table itself: its head, by which it is sorted, and the rows in sight. Only those are painted, however many there are;
//! each tells a screen reader which of how many it is.

use std::path::Path;
use std::sync::Arc;

use egui::scroll_area::State as Scrolled;
use egui::text::{LayoutJob, TextWrapping};
use egui::{
    Align, Color32, FontId, Id, Key, Modifiers, Painter, Pos2, Rect, RichText, Role, ScrollArea, Sense, Shape, Stroke,
    Ui, UiBuilder, WidgetInfo, pos2, vec2,
};

use crate::app::action::Action;
use crate::app::context::{Context, Requests};
use crate::app::pages::orders::list::SortColumn;
use crate::app::pages::orders::{OrdersAction, OrdersPage};
use crate::app::parts::page_head::shortened;
use crate::app::widgets::controls::{Weight, button};
use crate::app::widgets::keys::{ARROWS, take_key};
use crate::app::widgets::plate::plate;
use crate::app::widgets::theme::{Colours, GRID, TARGET, strong, words};
use crate::book::OrderState;
use crate::paperwork::short_price;
use crate::store::OrderRow;
use crate::units::{Cents, Currency, counted};

/// Height of a row, points.
const ROW: f32 = 56.0;
/// Width of a picture, points.
const PICTURE: f32 = 62.0;

/// The columns: what stands over each, its width in points.
const COLUMNS: [(SortColumn, &str, f32); 8] = [
    (SortColumn::Number, "No.", 54.0),
    (SortColumn::Wearer, "Wearer", 172.0),
    (SortColumn::Event, "Event", 160.0),
    (SortColumn::Pickup, "Pick-up", 142.0),
    (SortColumn::Size, "Size", 96.0),
    (SortColumn::Price, "Price", 76.0),
    (SortColumn::Due, "To pay", 84.0),
    (SortColumn::State, "State", 94.0),
];

pub(super) fn table_ui(ui: &mut Ui, cx: &Context<'_>, page: &OrdersPage, requests: &mut Requests<OrdersAction>) {
    ui.spacing_mut().item_spacing.y = 0.0;
    columns_ui(ui, &cx.colours, page, requests);
    party_line_ui(ui, cx, page, requests);
    rows_ui(ui, cx, page, requests);
}

/// What stands over the columns: a tap sorts by it, a second one the other way round.
fn columns_ui(ui: &mut Ui, c: &Colours, page: &OrdersPage, requests: &mut Requests<OrdersAction>) {
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 0.0;
        ui.add_space(PICTURE);
        for (column, name, width) in COLUMNS {
            let (rect, response) = ui.allocate_exact_size(vec2(width, TARGET), Sense::click());
            let is_sorted = page.list.column == column;
            response.widget_info(|| WidgetInfo::selected(Role::Button, true, is_sorted, format!("Sort by {name}")));
            let ink = if is_sorted || response.has_focus() || response.hovered() { c.ink } else { c.soft };
            let text = text_in(ui.painter(), inside(rect), name, strong(15.0), ink, align_of(column));
            if is_sorted {
                arrow(ui.painter(), text.right_center() + vec2(10.0, 0.0), page.list.reversed, c.ink);
            }
            if response.has_focus() {
                plate(
                    ui.painter(),
                    Rect::from_min_max(rect.left_bottom() - vec2(0.0, 4.0), rect.max),
                    c.ink,
                    Stroke::NONE,
                );
            }
            if response.clicked() {
                requests.own.push(OrdersAction::Sort(column));
            }
        }
    });
}

/// Money stands at the right of its column, so that amounts can be compared.
fn align_of(column: SortColumn) -> Align {
    if matches!(column, SortColumn::Price | SortColumn::Due) { Align::Max } else { Align::Min }
}

/// A small triangle that points up, or down for what is the other way round.
fn arrow(painter: &Painter, at: Pos2, is_down: bool, ink: Color32) {
    let tip = if is_down { 4.0 } else { -4.0 };
    let corners = vec![at + vec2(-4.0, -tip / 2.0), at + vec2(4.0, -tip / 2.0), at + vec2(0.0, tip)];
    painter.add(Shape::convex_polygon(corners, ink, Stroke::NONE));
}

/// One party alone: what it comes to, its bill, and the way back to all.
fn party_line_ui(ui: &mut Ui, cx: &Context<'_>, page: &OrdersPage, requests: &mut Requests<OrdersAction>) {
    let Some(party) = &page.list.filter.party else { return };
    let (c, sum) = (&cx.colours, page.list.party_sum(party));
    let money = |cents| short_price(cents, &cx.client.currency);
    ui.horizontal(|ui| {
        let says = format!(
            "{}: {}, {}, paid {}, to pay {}",
            shortened(party, 40),
            counted(sum.n_orders, "order", "orders"),
            money(sum.price),
            money(sum.paid),
            money(sum.due())
        );
        ui.label(RichText::new(says).font(strong(17.0)).color(c.ink));
        if button(ui, c, "Party bill", Weight::Plain).on_hover_text("One bill for all of them, as PDF").clicked() {
            requests.shared.push(Action::BillParty(party.clone(), page.list.party_files(party)));
        }
        if button(ui, c, "All orders", Weight::Plain).clicked() {
            requests.own.push(OrdersAction::ShowParty(None));
        }
    });
    ui.add_space(6.0);
}

/// The rows in sight, as one list for a screen reader.
fn rows_ui(ui: &mut Ui, cx: &Context<'_>, page: &OrdersPage, requests: &mut Requests<OrdersAction>) {
    const SALT: &str = "order rows";
    let n = page.list.n_shown();
    if n == 0 && !page.list.all().is_empty() {
        ui.add_space(GRID);
        let says = "No order is like this. All shows every order.";
        ui.label(RichText::new(says).font(words(16.0)).color(cx.colours.soft));
    }
    let room = ui.available_rect_before_wrap();
    let list = ui.interact(room, Id::unique("orders"), Sense::hover());
    list.widget_info(|| WidgetInfo::labeled(Role::ListBox, true, "Orders"));
    ui.ctx().accesskit_node_builder(list.id, |node| node.set_size_of_set(n));
    let mut area = ScrollArea::vertical().id_salt(SALT).auto_shrink([false, false]);
    if let Some(place) = page.place.filter(|_| page.reveals) {
        let now = Scrolled::load(ui.ctx(), ui.make_persistent_id(SALT)).map_or(0.0, |state| state.clamped_offset().y);
        area = area.vertical_scroll_offset(offset_that_shows(place, now, room.height()));
    }
    let mut wanted = Vec::new();
    area.show_rows(ui, ROW, n, |ui, seen| {
        let builder = UiBuilder::new().id_salt("seen").accessibility_parent(list.id);
        ui.scope_builder(builder, |ui| {
            for place in seen {
                let Some(row) = page.list.at(place) else { continue };
                let is_selected = page.selected.as_deref() == Some(&row.path);
                let line = OrderLine { row, place, is_selected, takes_focus: is_selected && page.reveals };
                line_ui(ui, cx, &line, requests);
                wanted.push((row.path.clone(), row.modified));
            }
        });
    });
    if let Some(shop) = cx.shop {
        cx.images.thumbs.borrow_mut().want(ui.ctx(), wanted, &shop.stock);
    }
}

/// How far the rows are scrolled so that the one at `place` is seen whole, points; no farther than need be from `now`.
fn offset_that_shows(place: usize, now: f32, height: f32) -> f32 {
    #[expect(clippy::cast_precision_loss, reason = "far fewer orders than a float counts")]
    let top = place as f32 * ROW;
    now.min(top).max(top + ROW - height)
}

/// One order in the table.
struct OrderLine<'a> {
    row: &'a Arc<OrderRow>,
    /// From 0.
    place: usize,
    is_selected: bool,
    /// Whether it is to have the keyboard.
    takes_focus: bool,
}

fn line_ui(ui: &mut Ui, cx: &Context<'_>, line: &OrderLine<'_>, requests: &mut Requests<OrdersAction>) {
    let (c, row) = (&cx.colours, line.row);
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), ROW), Sense::hover());
    // Wherever it comes to stand, it is the row of that order.
    let id = row_id(&row.path);
    let response = ui.interact(rect, id, Sense::click());
    let name = spoken(row, &cx.client.currency);
    response.widget_info(|| WidgetInfo::selected(Role::ListBoxOption, true, line.is_selected, &name));
    ui.ctx().accesskit_node_builder(id, |node| node.set_position_in_set(line.place));
    if line.takes_focus {
        response.request_focus();
    }
    if response.has_focus() {
        ui.memory_mut(|m| m.set_focus_lock_filter(id, ARROWS));
    }
    let edge = if response.has_focus() { Stroke::new(2.5, c.ink) } else { Stroke::new(1.0, c.line) };
    let fill = if line.is_selected { c.kraft } else { c.card };
    plate(ui.painter(), rect.shrink2(vec2(0.0, 1.5)), fill, edge);
    cells(ui.painter(), cx, row, rect, line.is_selected);
    if response.clicked() || (response.gained_focus() && !line.is_selected) {
        requests.own.push(OrdersAction::Select(row.path.clone()));
    }
}

/// By what the row of an order is known, wherever it stands.
pub(super) fn row_id(path: &Path) -> Id {
    Id::unique(("order row", path))
}

/// What a screen reader says of an order.
fn spoken(row: &OrderRow, currency: &Currency) -> String {
    if let Some(refusal) = &row.refusal {
        return refusal.to_string();
    }
    let (price, due) = (short_price(row.price, currency), short_price(row.due(), currency));
    let party = if row.party.is_empty() { String::new() } else { format!(", party {}", row.party) };
    format!("{}, {price}, to pay {due}, {}{party}", row.title, row.state.word())
}

/// What is painted of an order, column by column: what tells it apart above, what belongs to it below.
fn cells(painter: &Painter, cx: &Context<'_>, row: &OrderRow, rect: Rect, is_selected: bool) {
    let c = &cx.colours;
    let quiet = if is_selected { c.ink } else { c.soft };
    let picture = Rect::from_min_size(rect.min, vec2(PICTURE, ROW)).shrink2(vec2(6.0, 4.0));
    cx.images.thumbs.borrow().paint(painter, picture, &row.path, row.modified);
    let mut left = rect.min.x + PICTURE;
    for (column, _, width) in COLUMNS {
        let cell = inside(Rect::from_min_size(pos2(left, rect.min.y), vec2(width, ROW)));
        left += width;
        let [above, below] = words_in(column, row, cx);
        let ink = if column == SortColumn::State && row.state == OrderState::Cancelled || is_late(column, row, cx) {
            c.rose
        } else {
            c.ink
        };
        let font = if column == SortColumn::Wearer { strong(16.0) } else { words(16.0) };
        if below.is_empty() {
            text_in(painter, cell, &above, font, ink, align_of(column));
            continue;
        }
        let middle = cell.center().y;
        let upper = Rect::from_min_max(pos2(cell.min.x, cell.min.y + 5.0), pos2(cell.max.x, middle + 3.0));
        let lower = Rect::from_min_max(pos2(cell.min.x, middle + 2.0), pos2(cell.max.x, cell.max.y - 5.0));
        text_in(painter, upper, &above, font, ink, align_of(column));
        text_in(painter, lower, &below, words(14.0), quiet, align_of(column));
    }
}

/// Whether it should have been picked up by now.
fn is_late(column: SortColumn, row: &OrderRow, cx: &Context<'_>) -> bool {
    let is_past = || row.pickup.day().zip(cx.today).is_some_and(|(day, today)| day < today);
    column == SortColumn::Pickup && !row.state.is_over() && is_past()
}

/// What stands in a column, in two lines.
fn words_in(column: SortColumn, row: &OrderRow, cx: &Context<'_>) -> [String; 2] {
    let money = |cents: Cents| short_price(cents, &cx.client.currency);
    if row.refusal.is_some() && column != SortColumn::Wearer {
        return [String::new(), String::new()];
    }
    match column {
        SortColumn::Number => [row.number.map_or_else(String::new, |number| number.to_string()), String::new()],
        SortColumn::Wearer => {
            let with = if row.partner.is_empty() { String::new() } else { format!("with {}", row.partner) };
            let name = if row.wearer.trim().is_empty() { "no name yet" } else { row.wearer.trim() };
            [name.to_owned(), if row.party.is_empty() { with } else { row.party.clone() }]
        }
        SortColumn::Event => [row.event.clone(), row.place.clone()],
        SortColumn::Pickup => match (row.pickup.day(), row.pickup.hour()) {
            (Some(day), hour) => {
                let late = is_late(column, row, cx).then(|| "late".to_owned());
                let below = [hour.map(|hour| hour.written(cx.written.hour)), late];
                [day.with_weekday(cx.written.date), below.into_iter().flatten().collect::<Vec<_>>().join(", ")]
            }
            (None, _) => [row.pickup.written(cx.written), String::new()],
        },
        SortColumn::Size => {
            let and = if row.with_boutonniere { "and boutonniere" } else { "" };
            [row.size.clone(), and.to_owned()]
        }
        SortColumn::Price => [money(row.price), String::new()],
        SortColumn::Due if row.due() <= Cents(0) && row.price > Cents(0) => ["paid".to_owned(), String::new()],
        SortColumn::Due => {
            [money(row.due()), if row.paid == Cents(0) { String::new() } else { "part paid".to_owned() }]
        }
        SortColumn::State => [row.state.word().to_owned(), String::new()],
    }
}

/// The keys of the table, for whoever has the keyboard: a row, the search, or nothing.
pub(super) fn read_keys(ui: &Ui, requests: &mut Requests<OrdersAction>) {
    /// A page of rows: as many as a small laptop shows.
    const PAGE: isize = 8;
    let keys = [
        (Key::ArrowDown, OrdersAction::Move(1)),
        (Key::ArrowUp, OrdersAction::Move(-1)),
        (Key::PageDown, OrdersAction::Move(PAGE)),
        (Key::PageUp, OrdersAction::Move(-PAGE)),
        (Key::Home, OrdersAction::First),
        (Key::End, OrdersAction::Last),
    ];
    for (key, action) in keys {
        // In the search they go to the ends of what is written.
        let is_for_text = matches!(key, Key::Home | Key::End) && ui.text_edit_focused();
        let n_times = if is_for_text { 0 } else { ui.input_mut(|i| i.count_and_consume_key(Modifiers::NONE, key)) };
        requests.own.extend(std::iter::repeat_n(action, n_times));
    }
}

/// Enter opens the selected order from wherever no other button has the keyboard.
pub(super) fn read_enter(ui: &Ui, page: &OrdersPage, requests: &mut Requests<OrdersAction>) {
    if let Some(row) = page.selected_row()
        && take_key(ui, Modifiers::NONE, Key::Enter)
    {
        requests.shared.push(Action::Open(row.path.clone()));
    }
}

/// A cell without its margins.
fn inside(cell: Rect) -> Rect {
    cell.shrink2(vec2(6.0, 0.0))
}

/// One line in the middle of `rect`, cut where it is too long; returns where it stands.
fn text_in(painter: &Painter, rect: Rect, text: &str, font: FontId, ink: Color32, align: Align) -> Rect {
    let mut job = LayoutJob::simple_singleline(text.to_owned(), font, ink);
    job.wrap = TextWrapping::truncate_at_width(rect.width());
    let galley = painter.layout_job(job);
    let place = egui::Align2([align, Align::Center]).align_size_within_rect(galley.size(), rect);
    painter.galley(place.min, galley, ink);
    place
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rows_are_scrolled_no_farther_than_need_be() {
        let height = 9.5 * ROW;
        assert_eq!(offset_that_shows(3, 0.0, height), 0.0, "in sight already");
        assert_eq!(offset_that_shows(3, 5.0 * ROW, height), 3.0 * ROW, "up to its top");
        assert_eq!(offset_that_shows(9, 0.0, height), 0.5 * ROW, "down until it is whole");
        assert_eq!(offset_that_shows(9_999, 0.0, height), 9_990.5 * ROW);
    }
}
