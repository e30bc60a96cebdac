//! The strip on top: whose piece it is, on which wrist, undo, keep, and the switch between the two sides of the counter.

use egui::text::{CCursor, CCursorRange};
use egui::{TextEdit, Ui, vec2};

use crate::app::action::Action;
use crate::app::pages::order_fields::Blank;
use crate::app::pages::page::Page;
use crate::app::pages::suggestions::n_waiting;
use crate::app::shell::view_options;
use crate::app::shell::window::Window;
use crate::app::widgets::controls::{Weight, button, button_sized, icon_button};
use crate::app::widgets::icons::Icon;
use crate::app::widgets::tap_board::Entry;
use crate::app::widgets::theme::{TARGET, words};
use crate::app::widgets::words::Counter;
use crate::piece::{Measured, Side, Worn, Wrist};

/// A field of the strip.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Field {
    Wearer,
    Girth,
}

/// A girth being typed that is not part of the order yet.
#[derive(Clone, Debug, Default)]
pub(crate) struct Fields {
    girth: Option<String>,
    /// What of that could not be taken.
    refused: Option<String>,
    asked_for: Option<Field>,
}

impl Fields {
    /// The field gets the keyboard in the next frame.
    pub(crate) fn ask_for(&mut self, field: Field) {
        self.asked_for = Some(field);
    }

    fn is_asked_for(&mut self, field: Field) -> bool {
        let asked = self.asked_for == Some(field);
        if asked {
            self.asked_for = None;
        }
        asked
    }

    /// The girth as it is being typed.
    pub(crate) fn girth_typed(&self) -> Option<&str> {
        self.girth.as_deref()
    }

    /// Takes what is being typed, to be made part of the order before it is kept or left.
    pub(crate) fn take_girth(&mut self) -> Option<String> {
        self.girth.take()
    }

    /// The girth as it is tapped in.
    pub(crate) fn write_girth(&mut self, words: &str) {
        self.girth = Some(words.to_owned());
    }

    /// Puts words back that could not be taken, so that they can be mended.
    pub(crate) fn put_back_girth(&mut self, words: &str) {
        self.girth = Some(words.to_owned());
        self.refused = Some(words.to_owned());
    }

    /// Gives up words that were put back and that nobody has mended.
    pub(crate) fn forget_refused(&mut self) {
        let refused = self.refused.take();
        self.girth.take_if(|girth| refused.as_ref() == Some(girth));
    }
}

pub(crate) fn strip_ui(ui: &mut Ui, w: &mut Window, actions: &mut Vec<Action>) {
    let c = w.colours();
    ui.horizontal_centered(|ui| {
        ui.spacing_mut().item_spacing.x = 6.0;
        wearer_ui(ui, w, actions);
        if w.session.order().piece.worn == Worn::Wrist {
            wrist_ui(ui, w, actions);
        }
        let (can_undo, can_redo) = if w.is_in_house() {
            (w.desk.can_undo(), w.desk.can_redo())
        } else {
            (w.session.can_undo(), w.session.can_redo())
        };
        if icon_button(ui, &c, Icon::Undo, "Undo (Ctrl+Z)", can_undo).clicked() {
            actions.push(Action::Undo);
        }
        if icon_button(ui, &c, Icon::Redo, "Do again (Ctrl+Y)", can_redo).clicked() {
            actions.push(Action::Redo);
        }
        for (label, tip, action, mine_alone) in [
            ("New", "A new order (Ctrl+N)", Action::New, true),
            ("Open", "Open an order (Ctrl+O)", Action::ShowOrders, true),
            ("Papers", Counter::PAPERS_TIP, Action::MakePapers, false),
        ] {
            // Other clients' names are not for this client's eyes.
            let shown = !(mine_alone && w.client_side);
            if shown && button(ui, &c, label, Weight::Plain).on_hover_text(tip).clicked() {
                actions.push(action);
            }
        }
        if button_sized(ui, &c, "Keep", Weight::Main, vec2(76.0, 50.0)).on_hover_text("Keep (Ctrl+S)").clicked() {
            actions.push(Action::Keep);
        }
        view_options::button_ui(ui, w, actions);
        order_button_ui(ui, w, actions);
        ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| screen_side_ui(ui, w, actions));
    });
}

/// What is known of the order, and how much is not.
fn order_button_ui(ui: &mut Ui, w: &mut Window, actions: &mut Vec<Action>) {
    let c = w.colours();
    let open = w.page == Page::Questions;
    let weight = if open { Weight::Chosen } else { Weight::Plain };
    let label = match n_waiting(w) {
        0 => "Order".to_owned(),
        n => format!("Order ({n})"),
    };
    let shown = button(ui, &c, &label, weight).on_hover_text("What is known of the order, and what is to find out (Q)");
    if shown.clicked() {
        actions.push(Action::Turn(if open { Page::Sheet } else { Page::Questions }));
    }
}

/// The name becomes part of the order as it is typed; one stay in the field is one step.
fn wearer_ui(ui: &mut Ui, w: &mut Window, actions: &mut Vec<Action>) {
    let mut text = w.session.order().wearer.clone();
    let field = TextEdit::singleline(&mut text)
        .hint_text("Who wears it?")
        .font(words(17.0))
        .desired_width(190.0)
        .min_size(vec2(190.0, TARGET))
        .align(egui::Align2::LEFT_CENTER)
        .char_limit(80);
    let response = ui.add(field).accessible_name("Who wears it");
    if w.fields.is_asked_for(Field::Wearer) {
        response.request_focus();
    }
    w.taps.enter(&response, Entry::Blank(Blank::Wearer), actions);
    if response.changed() {
        actions.push(Action::Wearer(text));
    }
    if response.lost_focus() && !w.taps.is_for(Entry::Blank(Blank::Wearer)) {
        actions.push(Action::LeaveBlank);
    }
}

fn wrist_ui(ui: &mut Ui, w: &mut Window, actions: &mut Vec<Action>) {
    let c = w.colours();
    let wrist = w.session.order().wrist.clone();
    for side in [Side::Left, Side::Right] {
        let (label, weight) = match side {
            Side::Left => ("Left", wrist.side),
            Side::Right => ("Right", wrist.side),
        };
        let weight = if weight == side { Weight::Chosen } else { Weight::Plain };
        if button(ui, &c, label, weight).on_hover_text("Which wrist").clicked() {
            actions.push(Action::Side(side));
        }
    }
    girth_ui(ui, w, 158.0, "Girth of the wrist", Some(Field::Girth), actions);
}

/// The girth, taken when its field is left; `field` is what a key asks for.
pub(crate) fn girth_ui(
    ui: &mut Ui,
    w: &mut Window,
    width: f32,
    name: &str,
    field: Option<Field>,
    actions: &mut Vec<Action>,
) {
    let wrist = w.session.wrist_as_shown();
    let is_asked_for = field.is_some_and(|field| w.fields.is_asked_for(field));
    let shown = girth_words(&wrist);
    let mut text = w.fields.girth.clone().unwrap_or_else(|| shown.clone());
    let edit = TextEdit::singleline(&mut text)
        .font(words(17.0))
        .desired_width(width)
        .min_size(vec2(width, TARGET))
        .align(egui::Align2::LEFT_CENTER)
        .char_limit(40);
    let mut output = edit.show(ui);
    let response = output.response.response.clone().accessible_name(name).on_hover_text(
        "Girth of the wrist: 155, 15.5 cm or 6 1/4 in. The usual one is 142 to 168 mm (women, ANSUR II).",
    );
    if is_asked_for {
        response.request_focus();
    }
    if response.gained_focus() {
        let typed = w.fields.girth.get_or_insert_with(|| wrist.girth.typed().to_owned());
        let all = CCursorRange::two(CCursor::new(0), CCursor::new(typed.chars().count()));
        // What is typed next takes the place of what stands there.
        output.state.cursor.set_char_range(Some(all));
        output.state.store(ui.ctx(), response.id);
    }
    w.taps.enter(&response, Entry::Girth, actions);
    if response.changed() {
        w.fields.girth = Some(text.clone());
    }
    if response.lost_focus() && !w.taps.is_for(Entry::Girth) {
        let given_up = ui.input(|i| i.key_pressed(egui::Key::Escape));
        w.fields.girth = None;
        if !given_up && text != wrist.girth.typed() && text != shown {
            actions.push(Action::Girth(text));
        }
    }
}

fn girth_words(wrist: &Wrist) -> String {
    match wrist.measured {
        Measured::NotYet => format!("usual: {}", wrist.girth.shown()),
        Measured::Tape | Measured::Told => wrist.girth.shown(),
    }
}

/// Both sides of the counter, the present one marked.
fn screen_side_ui(ui: &mut Ui, w: &Window, actions: &mut Vec<Action>) {
    let c = w.colours();
    ui.spacing_mut().item_spacing.x = 2.0;
    for (label, client) in [("My side", false), ("Client\u{2019}s side", true)] {
        let weight = if w.client_side == client { Weight::Chosen } else { Weight::Plain };
        let turned = button_sized(ui, &c, label, weight, vec2(88.0, 50.0));
        if turned.on_hover_text("Who sees the screen (F2)").clicked() && w.client_side != client {
            actions.push(Action::TurnScreen);
        }
    }
}
