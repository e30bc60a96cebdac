//! What lies over the sheet: the orders of the shop, the question before something is left unkept, the keys.

use egui::{Id, Modal, RichText, ScrollArea, TextEdit, Ui, vec2};

use crate::app::action::Action;
use crate::app::shell::first_start::first_start_ui;
use crate::app::shell::recovered::{Wish, offer_ui};
use crate::app::shell::shared_stems::together_ui;
use crate::app::shell::window::{Dialog, Listed, Window};
use crate::app::widgets::controls::{Weight, button, button_sized};
use crate::app::widgets::theme::{Colours, GRID, TARGET, strong, title, words};
use crate::app::widgets::words::Mine;
use crate::units::holds_words;

pub(crate) fn dialogs_ui(ui: &Ui, w: &mut Window, actions: &mut Vec<Action>) {
    let c = w.colours();
    let dialog = w.dialog.clone();
    let frame = egui::Frame::popup(&ui.ctx().global_style()).inner_margin(20).corner_radius(14);
    let modal = |name: &str| Modal::new(Id::unique(name)).frame(frame);
    let open = match dialog {
        Dialog::None => return,
        Dialog::FirstStart(_) => {
            modal("first start").show(ui.ctx(), |ui| first_start_ui(ui, &c, actions)).should_close()
        }
        Dialog::Help => modal("help").show(ui.ctx(), |ui| help_ui(ui, w, actions)).should_close(),
        Dialog::Leave(_) => {
            let name = w.session.order().title();
            modal("leave").show(ui.ctx(), |ui| leave_ui(ui, &c, &name, actions)).should_close()
        }
        Dialog::LeftOver { sure } => {
            modal("left over").show(ui.ctx(), |ui| offer_ui(ui, w, sure, actions)).should_close()
        }
        Dialog::Together(joining) => {
            modal("together").show(ui.ctx(), |ui| together_ui(ui, w, &joining, actions)).should_close()
        }
        Dialog::Orders(listed) => modal("orders").show(ui.ctx(), |ui| orders_ui(ui, w, listed, actions)).should_close(),
    };
    if open {
        actions.push(Action::CloseDialog);
    }
}

/// A name that fits on a button.
fn shortened(name: &str) -> String {
    cut(name, 56)
}

/// Letters in a row of the orders: whom to ring, for what, and where.
const ROW_LETTERS: usize = 92;

fn cut(name: &str, letters: usize) -> String {
    if name.chars().count() <= letters {
        return name.to_owned();
    }
    name.chars().take(letters - 1).chain(['\u{2026}']).collect()
}

fn leave_ui(ui: &mut Ui, c: &Colours, name: &str, actions: &mut Vec<Action>) {
    ui.set_max_width(470.0);
    ui.label(RichText::new(format!("{} is not kept yet", shortened(name))).font(title(24.0)).color(c.ink));
    ui.label("Keep it before you go on?");
    ui.add_space(GRID);
    ui.horizontal(|ui| {
        let keep = button(ui, c, "Keep it", Weight::Main);
        if ui.memory(|m| m.focused().is_none()) {
            keep.request_focus();
        }
        if keep.clicked() {
            actions.push(Action::KeepAndGoOn);
        }
        if button_sized(ui, c, "Leave it", Weight::Plain, vec2(0.0, 56.0)).clicked() {
            actions.push(Action::LeaveUnkept);
        }
        if button_sized(ui, c, "Stay here", Weight::Plain, vec2(0.0, 56.0)).clicked() {
            actions.push(Action::CloseDialog);
        }
    });
}

fn orders_ui(ui: &mut Ui, w: &mut Window, mut listed: Listed, actions: &mut Vec<Action>) {
    let c = w.colours();
    ui.set_width(760.0);
    ui.label(RichText::new("Orders").font(title(26.0)).color(c.ink));
    let field = TextEdit::singleline(&mut listed.search)
        .hint_text("Find by name")
        .font(words(17.0))
        .desired_width(740.0)
        .min_size(vec2(740.0, TARGET))
        .align(egui::Align2::LEFT_CENTER);
    let response = ui.add(field).accessible_name("Find by name");
    if ui.memory(|m| m.focused().is_none()) {
        response.request_focus();
    }
    let waiting = format!("To ring: {}", listed.calls.len());
    let weight = if listed.ringing { Weight::Chosen } else { Weight::Plain };
    let ring = button(ui, &c, &waiting, weight).on_hover_text("Orders for which something is still to find out");
    if ring.clicked() {
        actions.push(Action::Ring(!listed.ringing));
    }
    if !listed.is_read {
        ui.label(Mine::READING_ORDERS);
    }
    let rows = if listed.ringing { &listed.calls } else { &listed.all };
    let rows: Vec<_> = rows.iter().filter(|(_, name)| holds_words(name, &listed.search)).collect();
    // Only the rows in sight are laid out, however many orders there are.
    let area = ScrollArea::vertical().max_height(330.0).auto_shrink([false, true]);
    area.show_rows(ui, TARGET, rows.len(), |ui, seen| {
        for (path, name) in &rows[seen] {
            if button_sized(ui, &c, &cut(name, ROW_LETTERS), Weight::Plain, vec2(730.0, TARGET)).clicked() {
                actions.push(Action::Open(path.clone()));
            }
        }
    });
    if response.changed() {
        w.dialog = Dialog::Orders(listed);
    }
    ui.horizontal(|ui| {
        if button(ui, &c, "From a file\u{2026}", Weight::Plain).clicked() {
            actions.push(Action::CloseDialog);
            actions.push(Action::AskForFile);
        }
        let left = w.safety.left.len();
        if left > 0 && button(ui, &c, &format!("Not kept last time: {left}"), Weight::Plain).clicked() {
            actions.push(Action::LeftOver(Wish::Show));
        }
        if button(ui, &c, "Close", Weight::Plain).clicked() {
            actions.push(Action::CloseDialog);
        }
    });
}

/// Keys, in the order in which a new hand needs them.
const KEYS: [(&str, &str); 24] = [
    ("W, G", "type who wears it, the girth of the wrist"),
    ("1 \u{2026} 9", "take that bloom from the tray"),
    ("Enter", "put down what is in the hand, where it hovers"),
    ("Arrows", "move it, or what is chosen, by 1 mm; with Shift 5 mm"),
    ("Esc", "put back, let go, close"),
    ("N, Shift+N", "choose the next part, the one before"),
    ("R, Shift+R", "turn by 15\u{b0}, back"),
    ("+, \u{2212}", "larger, smaller by 1 mm"),
    ("U, K", "flat, raised, top; lock, unlock"),
    ("M", "lift what is chosen; the next tap puts it down"),
    ("Ctrl+D, Delete, Ctrl+A", "copy, take off, choose all"),
    ("Ctrl+Z, Ctrl+Y", "undo, do again"),
    ("Ctrl+S, Ctrl+P", "keep the order, keep the picture; with Shift make all papers"),
    ("Ctrl+N, Ctrl+O", "a new order, open an order"),
    ("B, A, S, L, T", "trays of blooms, accents, sprigs, leaves, trims"),
    ("O, then Enter", "look at what the once-over says next, take its remedy"),
    ("P, then 1 \u{2026} 4, 5", "layouts to choose from; take one; show a still better one"),
    ("P, then H, M, F, E, T", "layouts: one more here, mirror, fill, even out, tidy; A another place, X stop"),
    ("F2, F4, F8", "client\u{2019}s side or my side; a second window for the client; the light"),
    ("Q, D, I, C, J, X, Y", "order; colour; price; sizes; another way; boutonniere; house style"),
    ("V, F6", "the look: tone of the arm, ruler or coin; other eyes"),
    ("Page Up, Page Down, 0", "nearer, farther, the whole piece"),
    ("Ctrl with +, \u{2212}, 0", "everything larger, smaller, as usual"),
    ("Tab", "from button to button, and through the blooms"),
];

fn help_ui(ui: &mut Ui, w: &Window, actions: &mut Vec<Action>) {
    let c = &w.colours();
    ui.set_width(600.0);
    ui.label(RichText::new("Keys and gestures").font(title(26.0)).color(c.ink));
    ui.label("Tap a tray, then tap the sheet. Drag to move; drag bare paper to shift the sheet; pinch or roll the wheel to come nearer.");
    ScrollArea::vertical().max_height(520.0).show(ui, |ui| {
        ui.spacing_mut().interact_size.y = 0.0;
        egui::Grid::new("keys").num_columns(2).spacing(vec2(18.0, 0.0)).show(ui, |ui| {
            let for_the_client =
                |what: &str| !what.contains("once-over") && !what.contains("layouts") && !what.contains("house style");
            for (key, what) in KEYS.into_iter().filter(|(_, what)| !w.client_side || for_the_client(what)) {
                ui.label(RichText::new(key).font(strong(15.0)).color(c.ink));
                ui.label(RichText::new(what).font(words(15.0)).color(c.ink));
                ui.end_row();
            }
        });
    });
    if button(ui, c, "Close", Weight::Main).clicked() {
        actions.push(Action::CloseDialog);
    }
}
