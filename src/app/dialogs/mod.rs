//! What lies over the page: the question before something is left unsaved, what was not saved last
//! time, stems that orders share, the keys, the first start, a month.

pub(crate) mod first_start;
pub(crate) mod month;
pub(crate) mod recovered;
pub(crate) mod shared_stems;

use std::path::PathBuf;

use egui::{Id, Modal, RichText, ScrollArea, Ui, vec2};

use crate::app::action::{Action, CopyFor, FirstDetails};
use crate::app::context::Context;
use crate::app::parts::page_head::shortened;
use crate::app::widgets::controls::{Weight, button, button_sized};
use crate::app::widgets::theme::{GRID, strong, title, words};
use crate::store::LeftOver;
use first_start::{first_details_ui, first_start_ui};
use month::{MonthShown, month_ui};
use recovered::recovered_ui;
use shared_stems::{Joining, shared_stems_ui};

/// What lies over the page.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) enum Dialog {
    /// Nothing.
    #[default]
    None,
    /// Something not saved would be left.
    Leave(NextStep),
    /// What was not saved when a window ended by surprise; one of them is about to be thrown away.
    Recovered { sure: Option<usize> },
    /// This order and others, bought together.
    SharedStems(Joining),
    /// A month to choose a day from.
    Month(MonthShown),
    /// Keys and gestures.
    Help,
    /// Nobody has begun a shop in this folder yet.
    FirstStart(PathBuf),
    /// A shop was begun: what is asked about it first.
    FirstDetails(FirstDetails),
}

/// Where to go when the open order has been seen to.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum NextStep {
    /// Close the window.
    Close,
    /// A new order.
    New,
    /// Another order.
    Open(PathBuf),
    /// A new order made from a saved one.
    Copy(PathBuf, CopyFor),
    /// What was not saved last time.
    Restore(Box<LeftOver>),
}

pub(crate) fn dialog_ui(ui: &Ui, cx: &Context<'_>, dialog: &Dialog, left: &[LeftOver], actions: &mut Vec<Action>) {
    let frame = egui::Frame::popup(&ui.ctx().global_style()).inner_margin(20).corner_radius(14);
    let modal = |name: &str| Modal::new(Id::unique(name)).frame(frame);
    let ctx = ui.ctx();
    let should_close = match dialog {
        Dialog::None => return,
        Dialog::FirstStart(_) => {
            modal("first start").show(ctx, |ui| first_start_ui(ui, &cx.colours, actions)).should_close()
        }
        Dialog::FirstDetails(details) => {
            modal("first details").show(ctx, |ui| first_details_ui(ui, &cx.colours, details, actions)).should_close()
        }
        Dialog::Month(shown) => modal("month").show(ctx, |ui| month_ui(ui, cx, *shown, actions)).should_close(),
        Dialog::Help => modal("help").show(ctx, |ui| help_ui(ui, cx, actions)).should_close(),
        Dialog::Leave(_) => modal("leave").show(ctx, |ui| leave_ui(ui, cx, actions)).should_close(),
        Dialog::Recovered { sure } => {
            modal("recovered").show(ctx, |ui| recovered_ui(ui, &cx.colours, left, *sure, actions)).should_close()
        }
        Dialog::SharedStems(joining) => {
            modal("shared stems").show(ctx, |ui| shared_stems_ui(ui, cx, joining, actions)).should_close()
        }
    };
    if should_close {
        actions.push(Action::CloseDialog);
    }
}

fn leave_ui(ui: &mut Ui, cx: &Context<'_>, actions: &mut Vec<Action>) {
    let c = &cx.colours;
    ui.set_max_width(470.0);
    let name = shortened(&cx.client.order.title, 56);
    ui.label(RichText::new(format!("Save changes to {name}?")).font(title(24.0)).color(c.ink));
    ui.add_space(GRID);
    ui.horizontal(|ui| {
        let save = button(ui, c, "Save", Weight::Main);
        if ui.memory(|m| m.focused().is_none()) {
            save.request_focus();
        }
        if save.clicked() {
            actions.push(Action::SaveAndGoOn);
        }
        if button_sized(ui, c, "Don\u{2019}t save", Weight::Plain, vec2(0.0, 56.0)).clicked() {
            actions.push(Action::LeaveUnsaved);
        }
        if button_sized(ui, c, "Cancel", Weight::Plain, vec2(0.0, 56.0)).clicked() {
            actions.push(Action::CloseDialog);
        }
    });
}

/// Keys, in the order in which a new hand needs them, and whether they are for the designer alone.
const KEYS: &[(&str, &str, bool)] = &[
    ("W, G", "wearer\u{2019}s name, wrist size", false),
    ("1 \u{2026} 9", "pick that flower from the tray", false),
    ("Enter", "place it", false),
    ("Arrows", "move by 1 mm; with Shift 5 mm", false),
    ("Esc", "cancel, deselect, close", false),
    ("N, Shift+N", "select the next part, the one before", false),
    ("R, Shift+R", "rotate by 15\u{b0}, back", false),
    ("+, \u{2212}", "larger, smaller by 1 mm", false),
    ("U, K", "level: flat, raised, top; lock, unlock", false),
    ("M", "move what is selected; the next tap places it", false),
    ("Ctrl+D, Delete, Ctrl+A", "copy, remove, select all", false),
    ("Ctrl+Z, Ctrl+Y", "undo, redo", false),
    ("Ctrl+S, Ctrl+P", "save the order, save the picture", false),
    ("F9, Ctrl+Shift+P", "papers: see, print, send; make all papers", true),
    ("F9, then P, O, E, F, L", "print, open, send, show folder; larger", true),
    ("F12", "weekend: what to buy, the bench day, labels", true),
    ("Ctrl+N, Ctrl+O, F3", "new order; the orders of the shop", true),
    ("B, A, S, L, T", "trays: blooms, accents, filler, greenery, trim", false),
    ("O, then Enter", "next thing to check, fix it", true),
    ("P, then 1 \u{2026} 4, 5", "arrange for me: use that layout; show a better one", true),
    ("P, then H, M, F, E, T", "add one, mirror, fill gaps, space evenly, tidy up; A next gap, X stop", true),
    ("F2, F4, F8", "shop view or client view; client window; light or dark", false),
    ("Q, D, I, C, J, X", "order; colours; price; sizes; variations; boutonniere", false),
    ("F10", "photo of the piece in the round", false),
    ("Y, F5, F7", "shop rules; shop; stock, where / searches", true),
    ("V, F6", "view options; colour-blind views", false),
    ("Page Up, Page Down, 0", "zoom in, zoom out, fit; in a month the one before, the next", false),
    ("Tab", "from button to button, and through the blooms", false),
];

fn help_ui(ui: &mut Ui, cx: &Context<'_>, actions: &mut Vec<Action>) {
    let c = &cx.colours;
    ui.set_width(600.0);
    ui.label(RichText::new("Keys and gestures").font(title(26.0)).color(c.ink));
    ui.label("Tap a flower, then the wrist. Drag to move. Drag the background to pan; pinch to zoom.");
    ScrollArea::vertical().max_height(520.0).show(ui, |ui| {
        ui.spacing_mut().interact_size.y = 0.0;
        egui::Grid::new("keys").num_columns(2).spacing(vec2(18.0, 0.0)).show(ui, |ui| {
            for (key, what, _) in KEYS.iter().filter(|(.., for_shop)| !for_shop || cx.shop.is_some()) {
                ui.label(RichText::new(*key).font(strong(15.0)).color(c.ink));
                ui.label(RichText::new(*what).font(words(15.0)).color(c.ink));
                ui.end_row();
            }
        });
    });
    if button(ui, c, "Close", Weight::Main).clicked() {
        actions.push(Action::CloseDialog);
    }
}
