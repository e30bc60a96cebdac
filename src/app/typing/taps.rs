//! The keys on the screen as they stand, for hands too wet for real ones: which field they write into, and what a tap makes
//! of what stands there.

use crate::app::typing::field::Field;

/// Which keys are shown for a field that takes words.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum KeyLayer {
    #[default]
    Letters,
    Accents,
}

/// A field that the board writes into.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum BoardField {
    /// One of the order.
    Order(Field),
    /// One that a page keeps itself.
    Page(PageField),
}

/// A field that a page keeps itself.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct PageField {
    pub(crate) id: egui::Id,
    /// What it is called.
    pub(crate) name: String,
    pub(crate) keys: PageKeys,
    /// What stands in it.
    pub(crate) words: String,
}

/// Which keys a field of a page needs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum PageKeys {
    /// Letters.
    Words,
    /// Letters, each word with a capital.
    Names,
    /// Letters, and a key for the next line.
    Lines,
    /// Figures with a decimal mark.
    Figures,
}

impl BoardField {
    /// What it is called.
    pub(crate) fn name(&self) -> &str {
        match self {
            Self::Order(field) => field.name(),
            Self::Page(field) => &field.name,
        }
    }

    /// Keys for a field that takes figures alone; none for one that takes words.
    pub(crate) fn figures(&self) -> Option<&'static [&'static [&'static str]]> {
        match self {
            Self::Order(field) => figures(*field),
            Self::Page(field) => (field.keys == PageKeys::Figures).then_some(MONEY),
        }
    }

    /// Whether it has lines.
    pub(crate) fn has_lines(&self) -> bool {
        matches!(self, Self::Page(PageField { keys: PageKeys::Lines, .. }))
    }

    /// Whether its words are names, so that each begins with a capital.
    fn holds_names(&self) -> bool {
        match self {
            Self::Order(field) => holds_names(*field),
            Self::Page(field) => matches!(field.keys, PageKeys::Names | PageKeys::Lines),
        }
    }
}

/// The board as it stands.
#[derive(Clone, Debug, Default)]
pub(crate) struct TapBoard {
    /// Whether it comes when a field is entered.
    pub(crate) on: bool,
    into: Option<BoardField>,
    /// Whether words were tapped that the page of the field has not seen yet.
    is_new: bool,
    /// Whether the field is in the lower half of the window, so that the board goes to the upper one.
    pub(crate) field_is_low: bool,
    pub(crate) layer: KeyLayer,
    /// Whether the next letter is a capital, or for once is none.
    turned: bool,
    /// Whether the next tap takes the place of what stands there.
    pub(crate) fresh: bool,
}

/// What can be tapped on the board, or changes it.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum TapKey {
    /// Let it come when a field is entered, or no longer.
    Switch,
    /// A field was entered, in the lower half of the window or not.
    Enter(BoardField, bool),
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
    /// The field is typed in with real keys: the board goes.
    Away,
}

const MONEY: &[&[&str]] = &[&["7", "8", "9"], &["4", "5", "6"], &["1", "2", "3"], &["0", "."]];

/// Keys for a field of the order that takes figures alone; none for one that takes words.
fn figures(field: Field) -> Option<&'static [&'static [&'static str]]> {
    const YEARS: &[&[&str]] = &[&["7", "8", "9"], &["4", "5", "6"], &["1", "2", "3"], &["0"]];
    const DISCOUNT: &[&[&str]] = &[&["7", "8", "9"], &["4", "5", "6"], &["1", "2", "3"], &["0", ".", " %"]];
    const COUNTS: &[&[&str]] = &[&["7", "8", "9"], &["4", "5", "6"], &["1", "2", "3"], &["0", ", "]];
    const WRIST: &[&[&str]] = &[
        &["7", "8", "9", " 1/8", " 1/4"],
        &["4", "5", "6", " 3/8", " 1/2"],
        &["1", "2", "3", " 5/8", " 3/4"],
        &["0", ".", " cm", " in", " 7/8"],
    ];
    match field {
        Field::WristSize => Some(WRIST),
        Field::ExtraPrice | Field::ExtraTax | Field::Budget | Field::Asked | Field::PaymentSum => Some(MONEY),
        Field::Discount => Some(DISCOUNT),
        Field::Years | Field::PartnerYears => Some(YEARS),
        Field::Avoided => Some(COUNTS),
        _ => None,
    }
}

/// Whether the words of a field are names, so that each begins with a capital.
fn holds_names(field: Field) -> bool {
    matches!(field, Field::Wearer | Field::Dance | Field::Place | Field::Partner | Field::Payer)
}

impl TapBoard {
    /// The board as it was left last time.
    pub(crate) fn restored(setting: impl Fn(&str) -> Option<String>) -> Self {
        Self { on: setting(SETTING).is_some_and(|w| w == "yes"), ..Self::default() }
    }

    pub(crate) fn store(&self, storage: &mut dyn eframe::Storage) {
        storage.set_string(SETTING, if self.on { "yes" } else { "no" }.to_owned());
    }

    /// Whether it writes into a field.
    pub(crate) fn is_written_in(&self) -> bool {
        self.on && self.into.is_some()
    }

    /// Whether it writes into this field: then the field is not left when it loses the keyboard to the board.
    pub(crate) fn is_for(&self, field: Field) -> bool {
        self.on && self.into == Some(BoardField::Order(field))
    }

    /// Whether it writes into this field of a page.
    pub(crate) fn is_for_page(&self, id: egui::Id) -> bool {
        self.on && matches!(&self.into, Some(BoardField::Page(field)) if field.id == id)
    }

    /// What was tapped into this field of a page and is to be taken by it in this frame.
    pub(crate) fn tapped_in(&self, id: egui::Id) -> Option<&str> {
        match &self.into {
            Some(BoardField::Page(field)) if self.is_new && field.id == id => Some(&field.words),
            Some(_) | None => None,
        }
    }

    /// A frame was painted: whatever page has the field has taken what was tapped.
    pub(crate) fn was_painted(&mut self) {
        self.is_new = false;
    }

    /// Whether the next letter is a capital, after `written`.
    pub(crate) fn capital(&self, field: &BoardField, written: &str) -> bool {
        let begins = written.is_empty() || written.ends_with([' ', '-', '\'', '\n']);
        (field.holds_names() && begins) != self.turned
    }
}

impl TapBoard {
    /// The field that it writes into.
    pub(crate) fn field(&self) -> Option<&BoardField> {
        self.into.as_ref()
    }

    /// It goes; returns the field that it wrote into.
    pub(crate) fn put_away(&mut self) -> Option<BoardField> {
        self.into.take()
    }

    /// A field was entered.
    pub(crate) fn enter(&mut self, field: BoardField, field_is_low: bool) {
        // What stands in a field of figures is a whole, and is written anew.
        let fresh = field.figures().is_some();
        *self = Self { into: Some(field), field_is_low, fresh, on: true, ..Self::default() };
    }

    /// A key was tapped for a field of a page, which takes it when it is painted next.
    pub(crate) fn tap_in_page(&mut self, key: &TapKey) {
        let Some(BoardField::Page(field)) = &self.into else { return };
        let stands = field.words.clone();
        if let Some(words) = self.tap(key, stands)
            && let Some(BoardField::Page(field)) = &mut self.into
        {
            field.words = words;
            self.is_new = true;
        }
    }

    /// What stands in the field after a key was tapped; none for a key that writes nothing.
    pub(crate) fn tap(&mut self, key: &TapKey, stands: String) -> Option<String> {
        let text = match key {
            TapKey::Write(more) => self.fresh_or(stands) + more,
            TapKey::RubOut => {
                let stands = self.fresh_or(stands);
                let n = stands.chars().count().saturating_sub(1);
                stands.chars().take(n).collect()
            }
            TapKey::Empty => String::new(),
            TapKey::Capital => {
                self.turned = !self.turned;
                return None;
            }
            TapKey::Accents => {
                self.layer = match self.layer {
                    KeyLayer::Letters => KeyLayer::Accents,
                    KeyLayer::Accents => KeyLayer::Letters,
                };
                return None;
            }
            TapKey::Switch | TapKey::Enter(..) | TapKey::Done | TapKey::Away => return None,
        };
        self.fresh = false;
        self.turned = false;
        let text: String = text.chars().take(LONGEST).collect();
        Some(if self.into == Some(BoardField::Order(Field::WristSize)) { text.trim_start().to_owned() } else { text })
    }

    fn fresh_or(&self, stands: String) -> String {
        if self.fresh { String::new() } else { stands }
    }
}

/// Letters that a field takes at most.
pub(crate) const LONGEST: usize = 200;
/// The name of the setting whether the board comes.
const SETTING: &str = "tap_board";
