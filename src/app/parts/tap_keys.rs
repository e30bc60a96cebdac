//! The tap board: letters and figures on the screen, for hands too wet for keys. Whatever is written in a field of an order can
//! be tapped in here; the field shows it letter by letter, as if it were typed.

use egui::{Align2, Area, Frame, Id, Rect, RichText, Ui, vec2};

use crate::app::action::Action;
use crate::app::context::Context;
use crate::app::parts::field::text_in;
use crate::app::typing::field::Field;
use crate::app::typing::taps::{BoardField, KeyLayer, PageField, PageKeys, TapKey};
use crate::app::typing::typed::Typing;
use crate::app::widgets::controls::{Weight, button_sized};
use crate::app::widgets::theme::{strong, words};
use crate::app::widgets::words::Taps;

/// A field has been entered: the board comes for it when it is wanted.
pub(crate) fn watch_focus(response: &egui::Response, typing: &Typing, field: Field, actions: &mut Vec<Action>) {
    let taps = &typing.taps;
    if response.changed() && taps.is_for(field) {
        actions.push(Action::Taps(TapKey::Away)); // somebody has dry hands after all
    }
    if taps.on && response.gained_focus() {
        let low = response.rect.center().y > response.ctx.content_rect().center().y;
        actions.push(Action::Taps(TapKey::Enter(BoardField::Order(field), low)));
    }
}

/// What became of a field that a page keeps itself.
pub(crate) struct PageTyping {
    /// What stands in it now, where somebody has typed or tapped.
    pub(crate) written: Option<String>,
    /// Whether it was left.
    pub(crate) is_left: bool,
    /// What the keys on the screen are to do; the page hands it on.
    pub(crate) keys: Vec<TapKey>,
}

/// Watches a field that a page keeps itself, after it was painted with `words` in it: the board comes for it when it is wanted, and
/// what is tapped there is written like what is typed.
pub(crate) fn watch_page_field(
    response: &egui::Response,
    typing: &Typing,
    (name, page_keys): (&str, PageKeys),
    words: &str,
) -> PageTyping {
    let (taps, id) = (&typing.taps, response.id);
    let mut keys = Vec::new();
    if response.changed() && taps.is_for_page(id) {
        keys.push(TapKey::Away); // somebody has dry hands after all
    }
    if taps.on && response.gained_focus() {
        let low = response.rect.center().y > response.ctx.content_rect().center().y;
        let field = PageField { id, name: name.to_owned(), keys: page_keys, words: words.to_owned() };
        keys.push(TapKey::Enter(BoardField::Page(field), low));
    }
    let tapped = taps.tapped_in(id).map(str::to_owned);
    let written = if response.changed() { Some(words.to_owned()) } else { tapped };
    PageTyping { written, is_left: response.lost_focus() && !taps.is_for_page(id), keys }
}

/// Letters of what stands in the field that are shown over the board; the last ones.
const SHOWN: usize = 44;
/// A key, points: larger than the least, since one taps many of them.
const KEY: egui::Vec2 = vec2(52.0, 46.0);
/// A key of a board with figures alone, points.
const FIGURE: egui::Vec2 = vec2(72.0, 50.0);
/// Between two keys, points.
const BETWEEN: f32 = 4.0;

const LETTERS: [&str; 4] = ["1234567890", "qwertyuiop", "asdfghjkl'", "zxcvbnm,.-"];
/// What the names of Europe and Vietnam's plainer ones are written with, and signs of days and hours.
const ACCENTS: [&str; 5] = ["áàâäãåæąăç", "ćčđéèêëęğí", "îïıłñńóòôö", "õøőœśšşßúù", "ûüűýźżžþ#/:@"];

/// The board over `middle`, in the half where the field is not.
pub(crate) fn board_ui(ui: &Ui, cx: &Context<'_>, middle: Rect, actions: &mut Vec<Action>) {
    let Some(field) = cx.typing.taps.field().filter(|_| cx.typing.taps.on) else { return };
    let c = cx.colours;
    let (pivot, at) = if cx.typing.taps.field_is_low {
        (Align2::CENTER_TOP, middle.center_top() + vec2(0.0, 4.0))
    } else {
        (Align2::CENTER_BOTTOM, middle.center_bottom() - vec2(0.0, 4.0))
    };
    let area = Area::new(Id::unique("tap board")).pivot(pivot).fixed_pos(at).order(egui::Order::Middle);
    let card = Frame::new().fill(c.card).stroke((1.5, c.ink)).corner_radius(14).inner_margin(10);
    area.show(ui.ctx(), |ui| {
        card.show(ui, |ui| {
            ui.spacing_mut().item_spacing = vec2(BETWEEN, BETWEEN);
            stands_ui(ui, cx, field);
            match field.figures() {
                Some(rows) => rows.iter().for_each(|row| figures_row_ui(ui, cx, row, actions)),
                None => letters_ui(ui, cx, field, actions),
            }
            foot_ui(ui, cx, field, actions);
        });
    });
}

/// What is written and what stands there, with the place of the next letter.
fn stands_ui(ui: &mut Ui, cx: &Context<'_>, field: &BoardField) {
    let c = cx.colours;
    let written = written_in(cx, field).replace('\n', " / ");
    let n = written.chars().count();
    let end: String = written.chars().skip(n.saturating_sub(SHOWN)).collect();
    ui.horizontal(|ui| {
        ui.spacing_mut().interact_size.y = 28.0;
        ui.label(RichText::new(field.name()).font(words(15.0)).color(c.soft));
        let ink = if cx.typing.taps.fresh { c.soft } else { c.ink };
        ui.label(RichText::new(format!("{end}|")).font(strong(19.0)).color(ink));
    });
}

fn figures_row_ui(ui: &mut Ui, cx: &Context<'_>, row: &[&str], actions: &mut Vec<Action>) {
    ui.horizontal(|ui| {
        for key in row.iter().map(|key| cx.client.currency.decimal.written(key)) {
            if button_sized(ui, &cx.colours, key.trim(), Weight::Plain, FIGURE).clicked() {
                actions.push(Action::Taps(TapKey::Write(key)));
            }
        }
    });
}

/// What stands in a field.
fn written_in(cx: &Context<'_>, field: &BoardField) -> String {
    match field {
        BoardField::Order(field) => text_in(cx, *field),
        BoardField::Page(field) => field.words.clone(),
    }
}

fn letters_ui(ui: &mut Ui, cx: &Context<'_>, field: &BoardField, actions: &mut Vec<Action>) {
    let capital = cx.typing.taps.capital(field, &written_in(cx, field));
    let rows: &[&str] = match cx.typing.taps.layer {
        KeyLayer::Letters => &LETTERS,
        KeyLayer::Accents => &ACCENTS,
    };
    for row in rows {
        ui.horizontal(|ui| {
            for letter in row.chars() {
                let key =
                    if capital && letter != '\u{df}' { letter.to_uppercase().collect() } else { letter.to_string() };
                if button_sized(ui, &cx.colours, &key, Weight::Plain, KEY).clicked() {
                    actions.push(Action::Taps(TapKey::Write(key)));
                }
            }
        });
    }
}

fn foot_ui(ui: &mut Ui, cx: &Context<'_>, field: &BoardField, actions: &mut Vec<Action>) {
    let c = cx.colours;
    let mut key = |ui: &mut Ui, label: &str, weight, wide: f32, wish| {
        if button_sized(ui, &c, label, weight, vec2(wide, KEY.y)).clicked() {
            actions.push(Action::Taps(wish));
        }
    };
    ui.horizontal(|ui| {
        if field.figures().is_none() {
            let capital = cx.typing.taps.capital(field, &written_in(cx, field));
            let chosen = |on| if on { Weight::Chosen } else { Weight::Plain };
            key(ui, Taps::CAPITAL, chosen(capital), KEY.x, TapKey::Capital);
            key(ui, Taps::ACCENTS, chosen(cx.typing.taps.layer == KeyLayer::Accents), KEY.x, TapKey::Accents);
            let wide = if field.has_lines() { 84.0 } else { 170.0 };
            key(ui, Taps::SPACE, Weight::Plain, wide, TapKey::Write(" ".to_owned()));
            if field.has_lines() {
                key(ui, Taps::LINE, Weight::Plain, 82.0, TapKey::Write("\n".to_owned()));
            }
        }
        key(ui, Taps::RUB_OUT, Weight::Plain, KEY.x, TapKey::RubOut);
        key(ui, Taps::EMPTY, Weight::Plain, KEY.x, TapKey::Empty);
        key(ui, Taps::DONE, Weight::Main, 76.0, TapKey::Done);
    });
}
