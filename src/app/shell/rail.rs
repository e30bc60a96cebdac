//! The rail at the left: the places of the program that work, and what belongs to the whole window.

use egui::{Align2, Rect, Role, Sense, Stroke, StrokeKind, Ui, Vec2, WidgetInfo, vec2};

use crate::app::action::Action;
use crate::app::context::Context;
use crate::app::page_list::PageId;
use crate::app::pages::Pages;
use crate::app::typing::taps::TapKey;
use crate::app::view_options::ClientWindowState;
use crate::app::widgets::controls::icon_button;
use crate::app::widgets::icons::{Icon, paint_icon};
use crate::app::widgets::plate::plate;
use crate::app::widgets::theme::{GRID, ROUND, TARGET, strong, title, words};
use crate::app::widgets::words::Taps;

pub(crate) fn rail_ui(ui: &mut Ui, cx: &Context<'_>, actions: &mut Vec<Action>) {
    let c = cx.colours;
    ui.vertical_centered(|ui| {
        ui.label(egui::RichText::new("Posy\nwright").font(title(19.0)).color(c.ink));
        ui.add_space(GRID);
        let places = places(cx.is_client());
        let high = place_high(ui, places.len());
        for (name, icon, page) in places {
            place_ui(ui, cx, (name, icon, page), high, actions);
        }
    });
    ui.with_layout(egui::Layout::bottom_up(egui::Align::Center), |ui| {
        ui.add_space(GRID);
        if icon_button(ui, &c, Icon::Help, "Help: keys and gestures (F1)", true).clicked() {
            actions.push(Action::ShowHelp);
        }
        client_window_button_ui(ui, cx, actions);
        let light = format!("Light: {} (F8)", cx.light.word());
        if icon_button(ui, &c, Icon::Light, &light, true).clicked() {
            actions.push(Action::Light);
        }
        keyboard_button_ui(ui, cx, actions);
    });
}

/// The places in the order in which they stand: the sheet, then the pages that have a place here.
fn places(is_client: bool) -> Vec<(&'static str, Icon, PageId)> {
    let pages = Pages::ALL.iter().filter_map(|page| Pages::info(*page).map(|info| (*page, info)));
    let seen = pages.filter(|(_, info)| !(info.is_for_shop && is_client));
    let named = seen.filter_map(|(page, info)| info.on_rail.map(|(name, icon)| (name, icon, page)));
    std::iter::once(("Sketch", Icon::Sketch, PageId::Sheet)).chain(named).collect()
}

/// Height of a place, points: as much as the window leaves above the buttons at the foot, and never below a target.
fn place_high(ui: &Ui, n_places: usize) -> f32 {
    /// Where there is room.
    const USUAL: f32 = 72.0;
    /// The buttons at the foot with the word that may stand among them.
    const FOOT: f32 = 4.0 * (TARGET + GRID) + 2.0 * GRID + 20.0;
    let room = (ui.available_height() - FOOT) / n_places.max(1) as f32 - ui.spacing().item_spacing.y;
    room.clamp(TARGET, USUAL)
}

/// The client's window, and under the button how it stands.
fn client_window_button_ui(ui: &mut Ui, cx: &Context<'_>, actions: &mut Vec<Action>) {
    let (name, stands) = match cx.client_window {
        ClientWindowState::Closed => ("Open a client window (F4)", ""),
        ClientWindowState::Paused => ("Show this piece in the client window (F4)", "paused"),
        ClientWindowState::Showing => ("Close the client window (F4)", "client window"),
    };
    if !stands.is_empty() {
        ui.label(egui::RichText::new(stands).font(words(14.0)).color(cx.colours.ink));
    }
    if icon_button(ui, &cx.colours, Icon::Screen, name, true).clicked() {
        actions.push(Action::SwitchClientWindow);
    }
}

/// Whether keys come on the screen when a field is entered.
fn keyboard_button_ui(ui: &mut Ui, cx: &Context<'_>, actions: &mut Vec<Action>) {
    let is_on = cx.typing.taps.on;
    let pressed = icon_button(ui, &cx.colours, Icon::Letters, if is_on { Taps::ON } else { Taps::OFF }, true);
    if is_on {
        let ring = Stroke::new(2.5, cx.colours.leaf);
        ui.painter().circle_stroke(pressed.rect.center(), TARGET / 2.0 - 2.0, ring);
    }
    if pressed.clicked() {
        actions.push(Action::Taps(TapKey::Switch));
    }
}

/// One place of the rail; the sheet, tapped again, is shown whole.
fn place_ui(
    ui: &mut Ui,
    cx: &Context<'_>,
    (name, icon, page): (&str, Icon, PageId),
    high: f32,
    actions: &mut Vec<Action>,
) {
    let c = cx.colours;
    let here = cx.page == page;
    let (rect, response) = ui.allocate_exact_size(Vec2::new(72.0, high), Sense::click());
    response.widget_info(|| WidgetInfo::selected(Role::Button, true, here, name));
    let edge =
        if response.has_focus() || response.hovered() { Stroke::new(2.0, c.ink) } else { Stroke::new(1.0, c.line) };
    if here {
        plate(ui.painter(), rect, c.paper, edge);
    } else if edge.width > 1.0 {
        ui.painter().rect_stroke(rect, ROUND, edge, StrokeKind::Inside);
    }
    // The drawing gives way to the word where places are low.
    let low = rect.height() < 64.0;
    let (foot, drawing, font) = if low { (2.0, 24.0, strong(13.5)) } else { (7.0, 32.0, strong(15.0)) };
    let word = ui.painter().text(rect.center_bottom() - vec2(0.0, foot), Align2::CENTER_BOTTOM, name, font, c.ink);
    let upper = Rect::from_min_max(rect.min, egui::pos2(rect.max.x, word.min.y));
    paint_icon(ui.painter(), icon, upper, drawing, if here { c.leaf } else { c.ink });
    if response.clicked() {
        actions.push(if here && page == PageId::Sheet { Action::FitView } else { Action::Show(page) });
    }
}
