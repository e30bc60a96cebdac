//! Rows of the page of the shop's rules: a figure with a step less, a field and a step more; a question with its switch.

use egui::text::{CCursor, CCursorRange};
use egui::{Align2, Rect, Response, Role, Sense, Stroke, StrokeKind, TextEdit, Ui, WidgetInfo, pos2, vec2};

use crate::app::pages::style::{StyleAction, StyleUi};
use crate::app::widgets::controls::icon_button;
use crate::app::widgets::icons::{Icon, paint_icon};
use crate::app::widgets::plate::plate;
use crate::app::widgets::theme::{TARGET, strong, words};
use crate::piece::{Question, StyleFigure};

/// Width of the field of a figure, points.
const FIELD_WIDE: f32 = 74.0;
/// Width of the unit behind it, points.
const UNIT_WIDE: f32 = 66.0;

/// Figures under the names given, two to a row.
pub(crate) fn figures_ui(ui: &mut Ui, p: &StyleUi<'_>, figures: &[(StyleFigure, String)], own: &mut Vec<StyleAction>) {
    let width = (ui.available_width() - 24.0) / 2.0;
    for pair in figures.chunks(2) {
        ui.horizontal(|ui| {
            ui.spacing_mut().item_spacing.x = 6.0;
            for (n, (figure, name)) in pair.iter().enumerate() {
                if n > 0 {
                    ui.add_space(12.0);
                }
                let label = width - 2.0 * TARGET - FIELD_WIDE - UNIT_WIDE - 24.0;
                name_ui(ui, p, name, label);
                figure_ui(ui, p, *figure, name, FIELD_WIDE, own);
                let unit = figure.unit(&p.shop.style);
                let (rect, _) = ui.allocate_exact_size(vec2(UNIT_WIDE, TARGET), Sense::hover());
                ui.painter().text(rect.left_center(), Align2::LEFT_CENTER, unit, words(15.0), p.cx.colours.soft);
            }
        });
    }
}

/// A name that wraps where it is long.
fn name_ui(ui: &mut Ui, p: &StyleUi<'_>, name: &str, width: f32) {
    let (rect, _) = ui.allocate_exact_size(vec2(width, TARGET), Sense::hover());
    let ink = p.cx.colours.ink;
    let galley = ui.painter().layout(name.to_owned(), words(15.5), ink, width);
    let at = Align2::LEFT_CENTER.align_size_within_rect(galley.size(), rect).min;
    ui.painter().galley(at, galley, ink);
}

/// A step less, the field, a step more.
fn figure_ui(ui: &mut Ui, p: &StyleUi<'_>, figure: StyleFigure, name: &str, width: f32, own: &mut Vec<StyleAction>) {
    let c = p.cx.colours;
    if seen(icon_button(ui, &c, Icon::Less, &format!("Less: {name}"), true)).clicked() {
        own.push(StyleAction::Step(figure, false));
    }
    let typed = p.page.typed.as_ref().filter(|t| t.figure == figure);
    let refused = typed.is_some_and(|t| t.refused.is_some());
    let mut text = typed.map_or_else(|| figure.shown(&p.shop.style).unwrap_or_default(), |t| t.words.clone());
    let field = TextEdit::singleline(&mut text)
        .font(words(17.0))
        .text_color(if refused { c.rose } else { c.ink })
        .desired_width(width)
        .min_size(vec2(width, TARGET))
        .align(Align2::CENTER_CENTER)
        .char_limit(24);
    let mut output = field.show(ui);
    let response = seen(output.response.response.clone().accessible_name(name));
    if response.gained_focus() {
        // What is typed next takes the place of what stands there.
        let all = CCursorRange::two(CCursor::new(0), CCursor::new(text.chars().count()));
        output.state.cursor.set_char_range(Some(all));
        output.state.store(ui.ctx(), response.id);
    }
    if response.changed() {
        own.push(StyleAction::Write(figure, text));
    }
    if response.lost_focus() {
        own.push(StyleAction::Leave);
    }
    if seen(icon_button(ui, &c, Icon::More, &format!("More: {name}"), true)).clicked() {
        own.push(StyleAction::Step(figure, true));
    }
}

/// What gets the keyboard comes into sight.
fn seen(response: Response) -> Response {
    if response.gained_focus() {
        response.scroll_to_me(None);
    }
    response
}

/// Whether a question is asked, and its weight.
pub(crate) fn question_ui(ui: &mut Ui, p: &StyleUi<'_>, question: Question, width: f32, own: &mut Vec<StyleAction>) {
    let field = 56.0;
    ui.spacing_mut().item_spacing.x = 4.0;
    let asked = p.shop.style.weight(question) > 0.0;
    let rest = width - 2.0 * TARGET - field - 16.0;
    if switch_ui(ui, p, question.title(), asked, if asked { rest } else { width - 4.0 }).clicked() {
        own.push(StyleAction::Ask(question, !asked));
    }
    if asked {
        figure_ui(ui, p, StyleFigure::Weight(question), question.title(), field, own);
    }
    ui.add_space(4.0);
}

/// A switch with a tick and its name.
fn switch_ui(ui: &mut Ui, p: &StyleUi<'_>, name: &str, on: bool, width: f32) -> Response {
    let c = p.cx.colours;
    let (rect, response) = ui.allocate_exact_size(vec2(width, TARGET), Sense::click());
    let response = seen(response);
    let told = if on { format!("{name}: on") } else { format!("{name}: off") };
    response.widget_info(|| WidgetInfo::selected(Role::CheckBox, true, on, &told));
    let edge = if response.has_focus() { Stroke::new(2.5, c.ink) } else { Stroke::new(1.0, c.line) };
    plate(ui.painter(), rect, c.card, edge);
    let sign = Rect::from_center_size(pos2(rect.min.x + 17.0, rect.center().y), vec2(18.0, 18.0));
    ui.painter().rect(sign, 4.0, c.paper, Stroke::new(1.2, c.soft), StrokeKind::Inside);
    if on {
        paint_icon(ui.painter(), Icon::Well, sign, 18.0, c.leaf);
    }
    let (label, font) = if on { (name.to_owned(), strong(14.5)) } else { (told, words(14.5)) };
    let ink = if on { c.ink } else { c.soft };
    ui.painter().text(pos2(rect.min.x + 32.0, rect.center().y), Align2::LEFT_CENTER, label, font, ink);
    response
}

/// The name under which a size or a style is to be kept.
pub(crate) fn new_name_ui(ui: &mut Ui, p: &StyleUi<'_>, width: f32, own: &mut Vec<StyleAction>) {
    let mut text = p.page.new_name.clone();
    let field = TextEdit::singleline(&mut text)
        .hint_text("name")
        .font(words(17.0))
        .desired_width(width)
        .min_size(vec2(width, TARGET))
        .align(Align2::LEFT_CENTER)
        .char_limit(40);
    let response = seen(ui.add(field).accessible_name("Name to save under"));
    if response.changed() {
        own.push(StyleAction::NewName(text));
    }
}
