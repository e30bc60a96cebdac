//! How a field is painted: with its name for a screen reader, the keyboard when it was asked for, and the keys on the
//! screen when they are wanted.

use egui::text::{CCursor, CCursorRange};
use egui::{Response, TextEdit, Ui, vec2};

use crate::app::action::Action;
use crate::app::context::Context;
use crate::app::parts::tap_keys::watch_focus;
use crate::app::typing::field::Field;
use crate::app::typing::taps::LONGEST;
use crate::app::widgets::theme::{TARGET, words};
use crate::piece::Measured;

/// A field of the order, its words part of the order letter by letter; or one of an extra that is not part of it yet.
pub(crate) fn field_ui(ui: &mut Ui, cx: &Context<'_>, field: Field, width: f32, actions: &mut Vec<Action>) -> Response {
    let mut text = text_in(cx, field);
    let edit = TextEdit::singleline(&mut text)
        // Whatever comes or goes about it, it stays the field that has the keyboard.
        .id(egui::Id::unique(("field", field.name())))
        .hint_text(field.hint())
        .font(words(17.0))
        .desired_width(width)
        .min_size(vec2(width, TARGET))
        .align(egui::Align2::LEFT_CENTER)
        .char_limit(LONGEST);
    let response = ui.add(edit).accessible_name(field.name());
    if cx.typing.focus == Some(field) {
        response.request_focus();
    }
    if response.gained_focus() {
        response.scroll_to_me(None);
    }
    watch_focus(&response, cx.typing, field, actions);
    if response.changed() {
        actions.push(Action::Write(field, text));
    }
    if response.lost_focus() && !cx.typing.taps.is_for(field) {
        actions.push(Action::LeaveField(field));
    }
    response
}

/// What stands in a field of the order.
pub(crate) fn text_in(cx: &Context<'_>, field: Field) -> String {
    let stands = || match cx.shop {
        Some(shop) if field.is_for_shop() => field.shown(&shop.order, cx.client.currency.decimal),
        Some(_) | None => cx.client.texts.get(&field).cloned().unwrap_or_default(),
    };
    cx.typing.in_field(field).map_or_else(stands, str::to_owned)
}

/// The wrist size, taken when its field is left.
pub(crate) fn wrist_size_ui(ui: &mut Ui, cx: &Context<'_>, width: f32, place: &str, actions: &mut Vec<Action>) {
    let field = Field::WristSize;
    let wrist = &cx.client.wrist;
    let shown = match wrist.measured {
        Measured::NotYet => format!("usual: {}", wrist.girth.shown()),
        Measured::Tape | Measured::Told => wrist.girth.shown(),
    };
    let mut text = cx.typing.in_field(field).map_or_else(|| shown.clone(), str::to_owned);
    let edit = TextEdit::singleline(&mut text)
        .id(egui::Id::unique(("wrist size", place)))
        .font(words(17.0))
        .desired_width(width)
        .min_size(vec2(width, TARGET))
        .align(egui::Align2::LEFT_CENTER)
        .char_limit(40);
    let mut output = edit.show(ui);
    let response = output
        .response
        .response
        .clone()
        .accessible_name(field.name())
        .on_hover_text("155, 15.5 cm or 6 1/4 in. Usually 142 to 168 mm (women, ANSUR II).");
    if cx.typing.focus == Some(field) && place == TOP_BAR {
        response.request_focus();
    }
    if response.gained_focus() {
        let typed = cx.typing.in_field(field).unwrap_or(wrist.girth.typed());
        let all = CCursorRange::two(CCursor::new(0), CCursor::new(typed.chars().count()));
        // What is typed next takes the place of what stands there.
        output.state.cursor.set_char_range(Some(all));
        output.state.store(ui.ctx(), response.id);
        actions.push(Action::Write(field, typed.to_owned()));
    }
    watch_focus(&response, cx.typing, field, actions);
    if response.changed() {
        actions.push(Action::Write(field, text.clone()));
    }
    if response.lost_focus() && !cx.typing.taps.is_for(field) {
        let given_up = ui.input(|i| i.key_pressed(egui::Key::Escape));
        let same = text == wrist.girth.typed() || text == shown;
        actions.push(if given_up || same { Action::GiveUpWristSize } else { Action::LeaveField(field) });
    }
}

/// Where the wrist size that a key leads to stands.
pub(crate) const TOP_BAR: &str = "top bar";
