//! Buttons of the house: large enough for a wet finger, each with a name that a screen reader can say.

use egui::{Align2, Response, Role, ScrollArea, Sense, Stroke, Ui, Vec2, WidgetInfo, vec2};

use crate::app::widgets::icons::{Icon, paint_icon};
use crate::app::widgets::plate::plate;
use crate::app::widgets::theme::{Colours, GRID, MAIN_TARGET, TARGET, colour_of, strong, words};
use crate::colour::Rgb;

/// How a button stands out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Weight {
    /// The main action.
    Main,
    /// Any other.
    Plain,
    /// One of several, and the chosen one.
    Chosen,
}

/// A button with words. Its name is its words.
pub(crate) fn button(ui: &mut Ui, c: &Colours, label: &str, weight: Weight) -> Response {
    let height = if weight == Weight::Main { MAIN_TARGET } else { TARGET };
    button_sized(ui, c, label, weight, vec2(0.0, height))
}

/// A button with words, at least this large; it grows with its words.
pub(crate) fn button_sized(ui: &mut Ui, c: &Colours, label: &str, weight: Weight, least: Vec2) -> Response {
    let font = if weight == Weight::Plain { words(16.0) } else { strong(16.0) };
    let (fill, ink, edge) = match weight {
        Weight::Main => (c.leaf, c.on_leaf, c.leaf),
        Weight::Plain => (c.card, c.ink, c.line),
        Weight::Chosen => (c.kraft, c.ink, c.ink),
    };
    let galley = ui.painter().layout_no_wrap(label.to_owned(), font, ink);
    let size = vec2((galley.size().x + 26.0).max(least.x).max(TARGET), least.y.max(TARGET));
    let (rect, response) = ui.allocate_exact_size(size, Sense::click());
    response.widget_info(|| match weight {
        Weight::Chosen => WidgetInfo::selected(Role::Button, ui.is_enabled(), true, label),
        Weight::Main | Weight::Plain => WidgetInfo::labeled(Role::Button, ui.is_enabled(), label),
    });
    if ui.is_rect_visible(rect) {
        let fade = if ui.is_enabled() { 1.0 } else { 0.45 };
        let fill = if response.is_pointer_button_down_on() { fill.gamma_multiply(0.8) } else { fill };
        let edge = if response.hovered() || response.has_focus() { c.ink } else { edge };
        let width = if response.has_focus() { 2.5 } else { 1.0 };
        plate(ui.painter(), rect, fill.gamma_multiply(fade), Stroke::new(width, edge));
        let at = Align2::CENTER_CENTER.align_size_within_rect(galley.size(), rect).min;
        ui.painter().galley(at, galley, ink.gamma_multiply(fade));
    }
    response
}

/// A button with a drawing.
pub(crate) fn icon_button(ui: &mut Ui, c: &Colours, icon: Icon, name: &str, enabled: bool) -> Response {
    let (rect, response) =
        ui.allocate_exact_size(Vec2::splat(TARGET), if enabled { Sense::click() } else { Sense::hover() });
    response.widget_info(|| WidgetInfo::labeled(Role::Button, enabled, name));
    if ui.is_rect_visible(rect) {
        let ink = if enabled { c.ink } else { c.ink.gamma_multiply(0.35) };
        let fill = if response.is_pointer_button_down_on() { c.kraft } else { c.card };
        let edge = if response.has_focus() { Stroke::new(2.5, c.ink) } else { Stroke::new(1.0, c.line) };
        plate(ui.painter(), rect.shrink(1.0), fill, edge);
        paint_icon(ui.painter(), icon, rect, 24.0, ink);
    }
    response.on_hover_text(name)
}

/// A patch of colour, as large as a fingertip; its name is what a screen reader says.
pub(crate) fn swatch(ui: &mut Ui, c: &Colours, rgb: Rgb, name: &str, chosen: bool) -> Response {
    let (rect, response) = ui.allocate_exact_size(vec2(TARGET, TARGET), Sense::click());
    response.widget_info(|| WidgetInfo::selected(Role::Button, true, chosen, name));
    let edge = if chosen { Stroke::new(3.0, c.ink) } else { Stroke::new(1.0, c.soft) };
    let edge = if response.has_focus() { Stroke::new(3.0, c.rose) } else { edge };
    plate(ui.painter(), rect.shrink(5.0), colour_of(rgb), edge);
    response.on_hover_text(name)
}

/// Things side by side that scroll where there is no room below them: the bar lies over their lower edge while it is used.
pub(crate) fn sideways(ui: &mut Ui, add: impl FnOnce(&mut Ui)) {
    ui.spacing_mut().scroll.floating_allocated_width = 0.0;
    ui.style_mut().always_scroll_the_only_direction = true;
    ScrollArea::horizontal().auto_shrink([false, false]).show(ui, |ui| {
        ui.horizontal(|ui| {
            ui.spacing_mut().item_spacing.x = GRID;
            add(ui);
        });
    });
}
