//! The tap board: letters and figures on the screen, for hands too wet for keys. Whatever is written in a field of an order can
//! be tapped in here; the field shows it letter by letter, as if it were typed.

use egui::{Align2, Area, Frame, Id, Rect, RichText, Ui, vec2};

use crate::app::action::Action;
use crate::app::pages::order_fields::Blank;
use crate::app::shell::window::Window;
use crate::app::widgets::controls::{Weight, button_sized, icon_button};
use crate::app::widgets::icons::Icon;
use crate::app::widgets::theme::{TARGET, strong, words};
use crate::app::widgets::words::Taps;

/// The field that is written in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Entry {
    /// A blank of the order.
    Blank(Blank),
    /// The girth of the wrist.
    Girth,
    /// What is extra on the slip.
    ExtraName,
    /// Its price.
    ExtraPrice,
}

/// Which keys are shown for a field that takes words.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
enum Layer {
    #[default]
    Letters,
    Accents,
}

/// The board as it stands.
#[derive(Clone, Debug, Default)]
pub(crate) struct TapBoard {
    /// Whether it comes when a field is entered.
    pub(crate) on: bool,
    into: Option<Entry>,
    /// Whether the field is in the lower half of the window, so that the board goes to the upper one.
    field_is_low: bool,
    layer: Layer,
    /// Whether the next letter is a capital, or for once is none.
    turned: bool,
    /// Whether the next tap takes the place of what stands there.
    fresh: bool,
}

/// What can be asked of the board.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Wish {
    /// Let it come when a field is entered, or no longer.
    Switch,
    /// A field was entered, in the lower half of the window or not.
    Enter(Entry, bool),
    /// So much more is written.
    Write(String),
    /// The last letter comes off.
    RubOut,
    /// Everything comes off.
    Empty,
    /// A capital next, or none.
    Capital,
    /// Letters with accents, or those without.
    Accents,
    /// The field is as it shall be.
    Done,
}

impl Entry {
    fn name(self) -> &'static str {
        match self {
            Self::Blank(blank) => blank.name(),
            Self::Girth => Taps::GIRTH,
            Self::ExtraName => Taps::EXTRA_NAME,
            Self::ExtraPrice => Taps::EXTRA_PRICE,
        }
    }

    /// Keys of a field that takes figures alone; none for one that takes words.
    fn figures(self) -> Option<&'static [&'static [&'static str]]> {
        const YEARS: &[&[&str]] = &[&["7", "8", "9"], &["4", "5", "6"], &["1", "2", "3"], &["0"]];
        const MONEY: &[&[&str]] = &[&["7", "8", "9"], &["4", "5", "6"], &["1", "2", "3"], &["0", "."]];
        const COUNTS: &[&[&str]] = &[&["7", "8", "9"], &["4", "5", "6"], &["1", "2", "3"], &["0", ", "]];
        const GIRTH: &[&[&str]] = &[
            &["7", "8", "9", " 1/8", " 1/4"],
            &["4", "5", "6", " 3/8", " 1/2"],
            &["1", "2", "3", " 5/8", " 3/4"],
            &["0", ".", " cm", " in", " 7/8"],
        ];
        match self {
            Self::Girth => Some(GIRTH),
            Self::ExtraPrice | Self::Blank(Blank::Purse | Blank::Asked | Blank::Paid) => Some(MONEY),
            Self::Blank(Blank::Years) => Some(YEARS),
            Self::Blank(Blank::Avoided) => Some(COUNTS),
            Self::ExtraName | Self::Blank(_) => None,
        }
    }

    /// Whether its words are names, so that each begins with a capital.
    fn is_a_name(self) -> bool {
        matches!(self, Self::Blank(Blank::Wearer | Blank::Dance | Blank::Place | Blank::Partner | Blank::Payer))
    }
}

impl TapBoard {
    /// The board as it was left last time.
    pub(crate) fn kept(kept: impl Fn(&str) -> Option<String>) -> Self {
        Self { on: kept(KEPT).is_some_and(|w| w == "yes"), ..Self::default() }
    }

    pub(crate) fn keep(&self, storage: &mut dyn eframe::Storage) {
        storage.set_string(KEPT, if self.on { "yes" } else { "no" }.to_owned());
    }

    /// A field has been entered: the board comes for it when it is wanted.
    pub(crate) fn enter(&mut self, field: &egui::Response, entry: Entry, actions: &mut Vec<Action>) {
        if field.changed() && self.is_for(entry) {
            self.into = None; // somebody has dry hands after all
        }
        if self.on && field.gained_focus() {
            let low = field.rect.center().y > field.ctx.content_rect().center().y;
            actions.push(Action::Taps(Wish::Enter(entry, low)));
        }
    }

    /// Whether it writes into a field.
    pub(crate) fn is_written_in(&self) -> bool {
        self.on && self.into.is_some()
    }

    /// Whether it writes into this field: then the field is not left when it loses the keyboard to the board.
    pub(crate) fn is_for(&self, entry: Entry) -> bool {
        self.on && self.into == Some(entry)
    }

    /// Whether the next letter is a capital, after `written`.
    fn capital(&self, entry: Entry, written: &str) -> bool {
        let begins = written.is_empty() || written.ends_with([' ', '-', '\'']);
        (entry.is_a_name() && begins) != self.turned
    }
}

impl Window {
    /// Does what was asked of the board.
    pub(crate) fn do_about_taps(&mut self, wish: Wish) {
        match wish {
            Wish::Switch => {
                self.leave_taps();
                self.taps.on = !self.taps.on;
            }
            Wish::Enter(entry, field_is_low) => {
                self.leave_taps();
                // What stands in a field of figures is a whole, and is written anew.
                let fresh = entry.figures().is_some();
                self.taps = TapBoard { into: Some(entry), field_is_low, fresh, on: true, ..TapBoard::default() };
            }
            Wish::Write(more) => self.rewrite(|written| written + &more),
            Wish::RubOut => self.rewrite(|written| {
                let n = written.chars().count().saturating_sub(1);
                written.chars().take(n).collect()
            }),
            Wish::Empty => self.rewrite(|_| String::new()),
            Wish::Capital => self.taps.turned = !self.taps.turned,
            Wish::Accents => {
                self.taps.layer = match self.taps.layer {
                    Layer::Letters => Layer::Accents,
                    Layer::Accents => Layer::Letters,
                };
            }
            Wish::Done => self.leave_taps(),
        }
    }

    /// What was tapped in is taken into the order; the board goes.
    pub(crate) fn leave_taps(&mut self) {
        match self.taps.into.take() {
            Some(Entry::Girth) => self.take_what_is_typed(),
            Some(Entry::Blank(_)) => self.leave_blank(),
            None | Some(Entry::ExtraName | Entry::ExtraPrice) => {}
        }
    }

    /// What stands in the field.
    fn written(&self, entry: Entry) -> String {
        match entry {
            Entry::Blank(blank) => {
                self.draft.in_field(blank).map_or_else(|| blank.shown(self.session.order()), str::to_owned)
            }
            Entry::Girth => {
                let typed = || self.session.order().wrist.girth.typed().to_owned();
                self.fields.girth_typed().map_or_else(typed, str::to_owned)
            }
            Entry::ExtraName => self.pricing.extra[0].clone(),
            Entry::ExtraPrice => self.pricing.extra[1].clone(),
        }
    }

    fn rewrite(&mut self, change: impl FnOnce(String) -> String) {
        let Some(entry) = self.taps.into else { return };
        let stands = if std::mem::take(&mut self.taps.fresh) { String::new() } else { self.written(entry) };
        self.taps.turned = false;
        let text: String = change(stands).chars().take(MOST_LETTERS).collect();
        match entry {
            Entry::Blank(blank) => self.write(blank, text),
            Entry::Girth => self.fields.write_girth(text.trim_start()),
            Entry::ExtraName => self.pricing.extra[0] = text,
            Entry::ExtraPrice => self.pricing.extra[1] = text,
        }
    }
}

/// The name under which it is kept whether the board comes.
const KEPT: &str = "tap_board";
/// As many letters as the longest field takes.
const MOST_LETTERS: usize = 200;
/// Letters of what stands in the field that are shown over the board; the last ones.
const SHOWN: usize = 44;
/// A key, points: larger than the least, since one taps many of them.
const KEY: egui::Vec2 = vec2(52.0, 46.0);
/// A key of a board with figures alone, points.
const FIGURE: egui::Vec2 = vec2(72.0, 50.0);
/// Between two keys, points.
const BETWEEN: f32 = 4.0;

const LETTERS: [&str; 4] = ["1234567890", "qwertyuiop", "asdfghjkl'", "zxcvbnm,.-"];
/// What the names of Europe and Vietnam's plainer ones are written with, and three signs.
const ACCENTS: [&str; 5] = ["áàâäãåæąăç", "ćčđéèêëęğí", "îïıłñńóòôö", "õøőœśšşßúù", "ûüűýźżžþ#/"];

/// The rail's button: whether the board comes.
pub(crate) fn rail_button_ui(ui: &mut Ui, w: &Window) -> bool {
    let c = w.colours();
    let name = if w.taps.on { Taps::ON } else { Taps::OFF };
    let pressed = icon_button(ui, &c, Icon::Letters, name, true);
    if w.taps.on {
        ui.painter().circle_stroke(pressed.rect.center(), TARGET / 2.0 - 2.0, egui::Stroke::new(2.5, c.leaf));
    }
    pressed.clicked()
}

/// The board over `middle`, in the half where the field is not.
pub(crate) fn board_ui(ui: &Ui, w: &Window, middle: Rect, actions: &mut Vec<Action>) {
    let Some(entry) = w.taps.into.filter(|_| w.taps.on) else { return };
    let c = w.colours();
    let (pivot, at) = if w.taps.field_is_low {
        (Align2::CENTER_TOP, middle.center_top() + vec2(0.0, 4.0))
    } else {
        (Align2::CENTER_BOTTOM, middle.center_bottom() - vec2(0.0, 4.0))
    };
    let area = Area::new(Id::unique("tap board")).pivot(pivot).fixed_pos(at).order(egui::Order::Middle);
    let card = Frame::new().fill(c.card).stroke((1.5, c.ink)).corner_radius(14).inner_margin(10);
    area.show(ui.ctx(), |ui| {
        card.show(ui, |ui| {
            ui.spacing_mut().item_spacing = vec2(BETWEEN, BETWEEN);
            stands_ui(ui, w, entry);
            match entry.figures() {
                Some(rows) => rows.iter().for_each(|row| figures_row_ui(ui, w, row, actions)),
                None => letters_ui(ui, w, entry, actions),
            }
            foot_ui(ui, w, entry, actions);
        });
    });
}

/// What is written and what stands there, with the place of the next letter.
fn stands_ui(ui: &mut Ui, w: &Window, entry: Entry) {
    let c = w.colours();
    let written = w.written(entry);
    let n = written.chars().count();
    let end: String = written.chars().skip(n.saturating_sub(SHOWN)).collect();
    ui.horizontal(|ui| {
        ui.spacing_mut().interact_size.y = 28.0;
        ui.label(RichText::new(entry.name()).font(words(15.0)).color(c.soft));
        let ink = if w.taps.fresh { c.soft } else { c.ink };
        ui.label(RichText::new(format!("{end}|")).font(strong(19.0)).color(ink));
    });
}

fn figures_row_ui(ui: &mut Ui, w: &Window, row: &[&str], actions: &mut Vec<Action>) {
    ui.horizontal(|ui| {
        for key in row {
            if button_sized(ui, &w.colours(), key.trim(), Weight::Plain, FIGURE).clicked() {
                actions.push(Action::Taps(Wish::Write((*key).to_owned())));
            }
        }
    });
}

fn letters_ui(ui: &mut Ui, w: &Window, entry: Entry, actions: &mut Vec<Action>) {
    let capital = w.taps.capital(entry, &w.written(entry));
    let rows: &[&str] = match w.taps.layer {
        Layer::Letters => &LETTERS,
        Layer::Accents => &ACCENTS,
    };
    for row in rows {
        ui.horizontal(|ui| {
            for letter in row.chars() {
                let key =
                    if capital && letter != '\u{df}' { letter.to_uppercase().collect() } else { letter.to_string() };
                if button_sized(ui, &w.colours(), &key, Weight::Plain, KEY).clicked() {
                    actions.push(Action::Taps(Wish::Write(key)));
                }
            }
        });
    }
}

fn foot_ui(ui: &mut Ui, w: &Window, entry: Entry, actions: &mut Vec<Action>) {
    let c = w.colours();
    let mut key = |ui: &mut Ui, label: &str, weight, wide: f32, wish| {
        if button_sized(ui, &c, label, weight, vec2(wide, KEY.y)).clicked() {
            actions.push(Action::Taps(wish));
        }
    };
    ui.horizontal(|ui| {
        if entry.figures().is_none() {
            let capital = w.taps.capital(entry, &w.written(entry));
            let chosen = |on| if on { Weight::Chosen } else { Weight::Plain };
            key(ui, Taps::CAPITAL, chosen(capital), KEY.x, Wish::Capital);
            key(ui, Taps::ACCENTS, chosen(w.taps.layer == Layer::Accents), KEY.x, Wish::Accents);
            key(ui, Taps::SPACE, Weight::Plain, 170.0, Wish::Write(" ".to_owned()));
        }
        key(ui, Taps::RUB_OUT, Weight::Plain, KEY.x, Wish::RubOut);
        key(ui, Taps::EMPTY, Weight::Plain, KEY.x, Wish::Empty);
        key(ui, Taps::DONE, Weight::Main, 76.0, Wish::Done);
    });
}
