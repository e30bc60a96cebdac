//! A supplier's price list before anything of it is taken: which column is what, what would change, which lines cannot be taken.

use std::sync::Arc;

use egui::{Align2, ComboBox, Rect, RichText, ScrollArea, Sense, Stroke, Ui, pos2, vec2};

use super::table::money;
use super::{StockAction, StockUi};
use crate::app::context::Requests;
use crate::app::parts::page_head::shortened;
use crate::app::widgets::controls::{Weight, button};
use crate::app::widgets::theme::{GRID, MAIN_TARGET, TARGET, strong, words};
use crate::paperwork::{PriceChange, PriceColumn, PriceColumns, PriceImport, PriceTable, RefusedRow, price_import};
use crate::stock::StockItem;
use crate::units::{DecimalMark, counted};

/// A list that is looked at.
pub(crate) struct Importing {
    /// The name of its file.
    name: String,
    table: Arc<PriceTable>,
    columns: PriceColumns,
    import: PriceImport,
    shows_refused: bool,
}

/// Something done with the list.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum ImportAction {
    /// This column of the list holds this; none for not in the list.
    Column(PriceColumn, Option<usize>),
    /// Another mark before cents.
    Decimal(DecimalMark),
    /// Show the lines that cannot be taken, or what would change.
    ShowRefused(bool),
    /// Take what would change.
    Take,
    /// Take nothing.
    Leave,
}

impl Importing {
    pub(super) fn of(name: String, table: PriceTable, items: &[StockItem]) -> Self {
        let columns = PriceColumns::guess(&table);
        let import = price_import(&table, &columns, items);
        Self { name, table: Arc::new(table), columns, import, shows_refused: false }
    }

    pub(super) fn changes(&self) -> &[PriceChange] {
        &self.import.changes
    }

    /// Does what concerns the look of the list alone.
    pub(super) fn run(&mut self, action: &ImportAction, items: &[StockItem]) {
        match action {
            ImportAction::Column(column, place) => self.columns = self.columns.with(*column, *place, &self.table),
            ImportAction::Decimal(mark) => self.columns.decimal = *mark,
            ImportAction::ShowRefused(refused) => return self.shows_refused = *refused,
            ImportAction::Take | ImportAction::Leave => return,
        }
        self.import = price_import(&self.table, &self.columns, items);
    }
}

pub(super) fn import_ui(ui: &mut Ui, p: StockUi<'_>, list: &Importing, requests: &mut Requests<StockAction>) {
    let own = &mut requests.own;
    ui.spacing_mut().item_spacing = vec2(6.0, 6.0);
    let rows = counted(list.table.rows.len(), "line", "lines");
    ui.label(
        RichText::new(format!("{}: {rows}", shortened(&list.name, 50))).font(strong(16.0)).color(p.cx.colours.ink),
    );
    columns_ui(ui, p, list, own);
    first_lines_ui(ui, p, list);
    result_ui(ui, p, list, own);
    ScrollArea::vertical().id_salt(list.shows_refused).auto_shrink([false, false]).show_rows(
        ui,
        ROW,
        if list.shows_refused { list.import.refused.len() } else { list.import.changes.len() },
        |ui, seen| {
            ui.spacing_mut().item_spacing.y = 0.0;
            if list.shows_refused {
                list.import.refused.iter().take(seen.end).skip(seen.start).for_each(|row| refused_ui(ui, p, row));
            } else {
                list.import.changes.iter().take(seen.end).skip(seen.start).for_each(|row| change_ui(ui, p, row));
            }
        },
    );
}

/// For each thing that a list may say: in which of its columns.
fn columns_ui(ui: &mut Ui, p: StockUi<'_>, list: &Importing, own: &mut Vec<StockAction>) {
    let wide = (ui.available_width() - 2.0 * GRID) / 3.0;
    for row in PriceColumn::ALL.chunks(3) {
        ui.horizontal(|ui| {
            for column in row {
                column_ui(ui, p, list, *column, wide, own);
            }
        });
    }
    ui.horizontal(|ui| {
        ui.label(RichText::new("Amounts are written").font(words(15.0)).color(p.cx.colours.soft));
        for (mark, label) in [(DecimalMark::Point, "12.50"), (DecimalMark::Comma, "12,50")] {
            let weight = if list.columns.decimal == mark { Weight::Chosen } else { Weight::Plain };
            if button(ui, &p.cx.colours, label, weight).clicked() {
                own.push(StockAction::Import(ImportAction::Decimal(mark)));
            }
        }
    });
}

fn column_ui(
    ui: &mut Ui,
    p: StockUi<'_>,
    list: &Importing,
    column: PriceColumn,
    wide: f32,
    own: &mut Vec<StockAction>,
) {
    const NONE: &str = "not in the list";
    let label = 104.0;
    let (rect, _) = ui.allocate_exact_size(vec2(label, TARGET), Sense::hover());
    ui.painter().text(rect.left_center(), Align2::LEFT_CENTER, column.label(), words(15.0), p.cx.colours.ink);
    let place = list.columns.place(column);
    let name = |n: usize| shortened(&list.table.head[n], 24);
    let shown = place.map_or_else(|| NONE.to_owned(), name);
    let mut chosen = place;
    let combo = ComboBox::from_id_salt(column.label()).selected_text(shown).width(wide - label - 4.0 * GRID);
    let response = combo.show_ui(ui, |ui| {
        ui.selectable_value(&mut chosen, None, NONE);
        for n in 0..list.table.head.len() {
            ui.selectable_value(&mut chosen, Some(n), name(n));
        }
    });
    response.response.accessible_name(format!("Column for {}", column.label().to_lowercase()));
    if chosen != place {
        own.push(StockAction::Import(ImportAction::Column(column, chosen)));
    }
}

/// The first lines of the file, each column under its name and what it is taken for.
fn first_lines_ui(ui: &mut Ui, p: StockUi<'_>, list: &Importing) {
    const SHOWN: usize = 3;
    let c = p.cx.colours;
    let n_columns = list.table.head.len().min(8);
    let height = 22.0;
    let (all, _) =
        ui.allocate_exact_size(vec2(ui.available_width(), height * (SHOWN + 1) as f32 + 8.0), Sense::hover());
    ui.painter().rect(all, 6.0, c.card, Stroke::new(1.0, c.line), egui::StrokeKind::Inside);
    let wide = all.width() / n_columns.max(1) as f32;
    for n in 0..n_columns {
        let column =
            Rect::from_min_size(pos2(all.min.x + n as f32 * wide, all.min.y + 4.0), vec2(wide, all.height() - 8.0));
        let painter = ui.painter().with_clip_rect(column.shrink2(vec2(6.0, 0.0)).intersect(ui.clip_rect()));
        let is_used = list.columns.in_place(n).is_some();
        let ink = if is_used { c.ink } else { c.soft };
        let at = |line: usize| column.min + vec2(6.0, line as f32 * height);
        painter.text(at(0), Align2::LEFT_TOP, &list.table.head[n], strong(14.0), ink);
        for (line, row) in list.table.rows.iter().take(SHOWN).enumerate() {
            let cell = row.cells.get(n).map_or("", String::as_str);
            painter.text(at(line + 1), Align2::LEFT_TOP, cell, words(14.0), ink);
        }
    }
}

/// What would become of it, and the two answers.
fn result_ui(ui: &mut Ui, p: StockUi<'_>, list: &Importing, own: &mut Vec<StockAction>) {
    let c = p.cx.colours;
    let (n, refused) = (list.import.changes.len(), list.import.refused.len());
    ui.horizontal(|ui| {
        ui.set_min_height(MAIN_TARGET);
        for (label, shows) in [(format!("{n} to change"), false), (format!("{refused} not taken"), true)] {
            let weight = if list.shows_refused == shows { Weight::Chosen } else { Weight::Plain };
            if button(ui, &c, &label, weight).clicked() {
                own.push(StockAction::Import(ImportAction::ShowRefused(shows)));
            }
        }
        let line = match (list.columns.is_enough(), list.import.n_same) {
            (false, _) => "Choose the column of the name, and that of the cost.".to_owned(),
            (true, 0) => String::new(),
            (true, n) => format!("{n} as they are"),
        };
        ui.label(RichText::new(line).font(words(15.0)).color(c.soft));
        ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
            let ready = n > 0 && list.columns.is_enough();
            let take = ui.add_enabled_ui(ready, |ui| button(ui, &c, "Take changes", Weight::Main)).inner;
            if ready && take.clicked() {
                own.push(StockAction::Import(ImportAction::Take));
            }
            if button(ui, &c, "Take nothing", Weight::Plain).clicked() {
                own.push(StockAction::Import(ImportAction::Leave));
            }
        });
    });
}

/// Height of a line of the preview, points.
const ROW: f32 = 30.0;

/// The number of a line in the file, its name there, and what becomes of it.
fn line_of(ui: &mut Ui, p: StockUi<'_>, line: u64, named: &str, says: (&str, egui::Color32)) {
    let c = p.cx.colours;
    let (row, response) = ui.allocate_exact_size(vec2(ui.available_width() - GRID, ROW), Sense::hover());
    let told = format!("Line {line}, {named}: {}", says.0);
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Label, true, &told));
    let cell = |from: f32, to: f32| Rect::from_x_y_ranges(row.min.x + from..=row.min.x + to, row.y_range());
    let clipped = |cell: Rect| ui.painter().with_clip_rect(cell.intersect(ui.clip_rect()));
    let (first, second, third) = (cell(0.0, 52.0), cell(60.0, 330.0), cell(340.0, row.width()));
    clipped(first).text(first.right_center(), Align2::RIGHT_CENTER, line.to_string(), words(14.0), c.soft);
    clipped(second).text(second.left_center(), Align2::LEFT_CENTER, named, words(15.0), c.ink);
    clipped(third).text(third.left_center(), Align2::LEFT_CENTER, says.0, words(15.0), says.1);
    ui.painter().hline(row.x_range(), row.max.y - 0.5, Stroke::new(1.0, c.line.gamma_multiply(0.6)));
}

fn refused_ui(ui: &mut Ui, p: StockUi<'_>, row: &RefusedRow) {
    line_of(ui, p, row.line, &row.named, (&row.why, p.cx.colours.rose));
}

fn change_ui(ui: &mut Ui, p: StockUi<'_>, change: &PriceChange) {
    line_of(ui, p, change.line, &change.named, (&change_words(p, change), p.cx.colours.ink));
}

/// `Spray rose: $18 to $19.50, 10 to 25 stems`.
fn change_words(p: StockUi<'_>, change: &PriceChange) -> String {
    let (before, after) = (&change.before, &change.after);
    let mut words = Vec::new();
    if before.cost() != after.cost() {
        words.push(format!("{} to {}", money(p, before.cost()), money(p, after.cost())));
    } else if before.shelf().has_example_price && !after.shelf().has_example_price {
        words.push(format!("{} is right", money(p, after.cost())));
    }
    if let (Some(was), Some(is)) = (before.botanical(), after.botanical()) {
        for (was, is, what) in
            [(was.stems_per_bunch, is.stems_per_bunch, "stems"), (was.per_stem, is.per_stem, "heads a stem")]
        {
            words.extend((was != is).then(|| format!("{was} to {is} {what}")));
        }
        words.extend((was.supplier != is.supplier).then(|| format!("from {}", is.supplier)));
    }
    format!("{}: {}", after.name(), words.join(", "))
}
