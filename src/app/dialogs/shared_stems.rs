//! Shared stems: the open order and others beside it, what each kind comes to over all of them and how many stems that
//! saves. For the designer alone.

use std::collections::BTreeSet;
use std::path::PathBuf;
use std::sync::Arc;

use egui::{Align, Layout, RichText, ScrollArea, Ui, vec2};

use crate::app::action::Action;
use crate::app::context::Context;
use crate::app::widgets::controls::{Weight, button, button_sized};
use crate::app::widgets::naming::so_many;
use crate::app::widgets::theme::{Colours, GRID, TARGET, strong, title, words};
use crate::app::widgets::words::Mine;
use crate::book::Order;
use crate::paperwork::{Together, TogetherLine, bought_together, short_price};
use crate::units::fold;

/// The orders that can be joined, and those that are.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Joining {
    /// File and order of each but the one in front.
    others: Arc<Vec<(PathBuf, Order)>>,
    /// Files of those that are joined.
    joined: BTreeSet<PathBuf>,
    /// Whether the files have been read.
    is_read: bool,
}

impl Joining {
    /// None is joined yet. What goes to the same event is bought for the same day, so it comes first.
    pub(crate) fn of(event: &str, mut others: Vec<(PathBuf, Order)>) -> Self {
        let event = fold(event.trim());
        others.sort_by_key(|(_, order)| fold(order.dance.trim()) != event);
        Self { others: Arc::new(others), joined: BTreeSet::new(), is_read: true }
    }

    /// Joins an order, or leaves it out again.
    pub(crate) fn toggle(&mut self, path: PathBuf) {
        if !self.joined.remove(&path) {
            self.joined.insert(path);
        }
    }
}

/// Height of the lists, points.
const LISTS: f32 = 440.0;

/// For the designer alone: in the client view nothing is shown.
pub(crate) fn shared_stems_ui(ui: &mut Ui, cx: &Context<'_>, joining: &Joining, actions: &mut Vec<Action>) {
    let c = cx.colours;
    let Some(shop) = cx.shop else { return };
    ui.set_width(940.0);
    ui.label(RichText::new(Mine::TOGETHER).font(title(26.0)).color(c.ink));
    let front = shop.order.title_line();
    ui.label(RichText::new(Mine::together_with(&front)).font(words(16.0)).color(c.soft));
    ui.horizontal_top(|ui| {
        ui.spacing_mut().item_spacing.x = 2.0 * GRID;
        ui.vertical(|ui| {
            ui.set_width(380.0);
            let area = ScrollArea::vertical().id_salt("orders to join").max_height(LISTS).auto_shrink([false, false]);
            area.show_rows(ui, TARGET, joining.others.len(), |ui, seen| {
                for (path, order) in &joining.others[seen] {
                    let weight = if joining.joined.contains(path) { Weight::Chosen } else { Weight::Plain };
                    if row_ui(ui, &c, &order.title_line(), weight) {
                        actions.push(Action::Join(path.clone()));
                    }
                }
            });
        });
        ui.vertical(|ui| {
            ui.set_width(ui.available_width());
            let now = &shop.order;
            let chosen = joining.others.iter().filter(|(path, _)| joining.joined.contains(path));
            let orders: Vec<&Order> = std::iter::once(&**now).chain(chosen.map(|(_, order)| order)).collect();
            if orders.len() < 2 {
                let says = if joining.is_read { Mine::CHOOSE_ORDERS } else { Mine::READING_ORDERS };
                ui.label(RichText::new(says).font(words(17.0)).color(c.ink));
                return;
            }
            sum_ui(ui, cx, &bought_together(&orders, &shop.style, &shop.stock));
        });
    });
    if button(ui, &c, "Close", Weight::Plain).clicked() {
        actions.push(Action::CloseDialog);
    }
}

/// One order to be joined; a long name is cut, so that the row stays in its column.
fn row_ui(ui: &mut Ui, c: &Colours, name: &str, weight: Weight) -> bool {
    const LETTERS: usize = 42;
    let long = name.chars().count() > LETTERS;
    let shown = if long { name.chars().take(LETTERS - 1).chain(['\u{2026}']).collect() } else { name.to_owned() };
    button_sized(ui, c, &shown, weight, vec2(360.0, TARGET)).on_hover_text(name).clicked()
}

/// What all of them come to.
fn sum_ui(ui: &mut Ui, cx: &Context<'_>, together: &Together) {
    let c = cx.colours;
    let area = ScrollArea::vertical().id_salt("together").max_height(LISTS - 84.0).auto_shrink([false, true]);
    area.show(ui, |ui| together.lines.iter().for_each(|line| line_ui(ui, &c, line)));
    ui.separator();
    ui.label(RichText::new(Mine::stems_saved(together.stems_saved())).font(strong(17.0)).color(c.leaf));
    let price = short_price(together.price, &cx.client.currency);
    ui.label(RichText::new(Mine::together_price(&price)).font(title(26.0)).color(c.ink));
}

/// `10 spray roses, white: 3 stems` and, quieter, how that came about.
fn line_ui(ui: &mut Ui, c: &Colours, line: &TogetherLine) {
    ui.spacing_mut().item_spacing.y = 1.0;
    ui.spacing_mut().interact_size.y = 24.0;
    ui.horizontal(|ui| {
        let what = format!("{}, {}", so_many(line.pieces, line.role, &line.name), line.colour);
        ui.label(RichText::new(what).font(words(17.0)).color(c.ink));
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            ui.label(RichText::new(Mine::stems(line.stems)).font(strong(17.0)).color(c.ink));
        });
    });
    let how = Mine::how_joined(&line.each, line.with_spare, line.stems_alone);
    ui.label(RichText::new(how).font(words(14.0)).color(c.soft));
    ui.add_space(6.0);
}
