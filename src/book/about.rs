//! What is known about an order besides its piece: people, body, taste, money. Whatever is empty is still to find out.

use std::collections::{BTreeMap, BTreeSet};

use super::{DEAREST, Day};
use crate::colour::Rgb;
use crate::piece::Side;
use crate::units::{Cents, fold};

/// The people around the wearer. An empty name is not known yet.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct People {
    /// Who pays.
    pub payer: String,
    /// With whom the wearer goes.
    pub partner: String,
    /// Where to ring, as the client gave it.
    pub phone: String,
}

/// Who wears it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WearerKind {
    /// Grown up, or nearly.
    Adult,
    /// A child.
    Child {
        /// Age in whole years.
        years: u32,
    },
}

/// What may change about the needs of one wearer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NeedChange {
    /// Adult or child.
    Kind(Option<WearerKind>),
    /// What is not borne; `None` is not asked yet.
    Allergies(Option<Vec<String>>),
    /// Nothing with latex.
    NoLatex(bool),
    /// Pacemaker, scent, watch or bandage.
    Body(BodyNeeds),
    /// What a word means that nobody knew.
    Meaning {
        /// The word.
        word: String,
        /// What it means; empty: looked through, nothing here; `None` takes it back.
        meaning: Option<String>,
    },
    /// Something stopped is used all the same; without a reason it is stopped again.
    Overrule(Overruled),
}

impl NeedChange {
    /// What it is called where it can be taken back.
    pub fn words(&self) -> &'static str {
        match self {
            Self::Kind(_) => "adult or child",
            Self::Allergies(_) => "allergies",
            Self::NoLatex(_) => "no latex",
            Self::Body(_) => "pacemaker, scent, watch",
            Self::Meaning { .. } => "what it means",
            Self::Overrule(_) => "used all the same",
        }
    }
}

/// What is asked of anyone once, in plain words: a pacemaker, scent, a watch or bandage, an arm to spare.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct BodyNeeds {
    /// Whether all of it was asked and all there is to tell was told.
    pub is_asked: bool,
    /// A pacemaker or another implant that a magnet may disturb.
    pub has_implant: bool,
    /// Nothing scented.
    pub no_scent: bool,
    /// A wrist that carries a watch, a bandage or the like.
    pub worn_already: Option<Side>,
}

/// What the wearer's body asks for. None of it is assumed; none of it needs a reason.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Needs {
    /// Adult or child.
    pub kind: Option<WearerKind>,
    /// The hand that is used most; the piece goes on the other wrist.
    pub handed: Option<Side>,
    /// Whether the wearer pushes a wheelchair with the hands.
    pub pushes_chair: bool,
    /// An arm that was operated on or is not to carry anything.
    pub spared_arm: Option<Side>,
    /// Flowers and materials not borne: names in stock or plain words. `None` is not asked yet, an empty list is none.
    pub allergies: Option<Vec<String>>,
    /// Nothing with latex.
    pub no_latex: bool,
    /// Nothing that grips the wrist.
    pub no_snug_band: bool,
    /// Pacemaker, scent, watch or bandage, and whether they were asked about.
    pub body: BodyNeeds,
    /// What the designer said that words mean which nobody knew, folded; an empty meaning: looked through, nothing here.
    pub meanings: BTreeMap<String, String>,
    /// What is used although it is stopped, each with the reason.
    pub overruled: Vec<Overruled>,
}

/// Something that is stopped and used all the same, because the designer says so.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Overruled {
    /// What: an id in stock, or `wrist`, `pin`, `tails`, `glue` and the like.
    pub what: String,
    /// What it is stopped for: the word typed, `latex`, `small parts` and the like. Another cause stops it anew.
    pub cause: String,
    /// Why it is used.
    pub reason: String,
}

impl Needs {
    /// Why something that is stopped for this cause is used all the same.
    pub fn reason_for(&self, what: &str, cause: &str) -> Option<&str> {
        let is_it = |o: &&Overruled| o.what == what && fold(&o.cause) == fold(cause);
        self.overruled.iter().find(is_it).map(|o| o.reason.as_str())
    }

    /// These needs after a change.
    pub(super) fn change(&mut self, change: &NeedChange) {
        match change {
            NeedChange::Kind(kind) => self.kind = *kind,
            NeedChange::Allergies(things) => self.allergies.clone_from(things),
            NeedChange::NoLatex(no) => self.no_latex = *no,
            NeedChange::Body(body) => self.body = *body,
            NeedChange::Meaning { word, meaning } => self.settle(word, meaning.as_deref()),
            NeedChange::Overrule(overruled) => self.overrule(overruled),
        }
    }

    /// Uses something all the same, or no longer where the reason is empty.
    fn overrule(&mut self, new: &Overruled) {
        self.overruled.retain(|o| (&o.what, fold(&o.cause)) != (&new.what, fold(&new.cause)));
        if !new.reason.trim().is_empty() {
            self.overruled.push(new.clone());
        }
    }

    /// Says what a word means that nobody knew; `None` takes it back.
    fn settle(&mut self, word: &str, meaning: Option<&str>) {
        match meaning {
            Some(meaning) => self.meanings.insert(fold(word.trim()), meaning.trim().to_owned()),
            None => self.meanings.remove(&fold(word.trim())),
        };
    }

    /// The age of a child, years.
    pub fn child_years(&self) -> Option<u32> {
        match self.kind {
            Some(WearerKind::Child { years }) => Some(years),
            Some(WearerKind::Adult) | None => None,
        }
    }
}

/// The colour of the dress: how it looks where that is known, and what it was called.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct DressColour {
    /// As near as a screen can show.
    pub hex: Option<Rgb>,
    /// As it was said: `teal`, `midnight blue`.
    pub words: String,
}

impl DressColour {
    /// Whether nothing is known.
    pub fn is_blank(&self) -> bool {
        self.hex.is_none() && self.words.trim().is_empty()
    }

    /// What to call it; empty when nothing is known.
    pub fn name(&self) -> String {
        match (self.words.trim(), self.hex) {
            ("", Some(rgb)) => rgb.text(),
            (words, _) => words.to_owned(),
        }
    }
}

/// What the wearer likes and will wear with it.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Taste {
    /// The dress.
    pub dress: DressColour,
    /// Metal of the jewellery, as said.
    pub metal: String,
    /// Flowers, colours, styles liked.
    pub likes: String,
}

/// A price that the designer asks instead of the worked one.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Asked {
    /// The price.
    pub price: Cents,
    /// Why.
    pub reason: String,
}

/// Something that is charged for besides the piece.
#[derive(Clone, Debug, PartialEq)]
pub struct Extra {
    /// What.
    pub name: String,
    /// Its price.
    pub price: Cents,
    /// A tax rate of its own, percent: delivery or food may be taxed in another way. `None` is the rate of the house.
    pub tax_percent: Option<f64>,
}

/// What is taken off the price.
#[derive(Clone, Debug, PartialEq)]
pub struct Discount {
    /// How much.
    pub off: Reduction,
    /// For what, as the client reads it; may be empty.
    pub words: String,
}

/// How much is taken off.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Reduction {
    /// So much, at most all of it.
    Amount(Cents),
    /// So many percent of pieces, extras and rush.
    Percent(f64),
}

/// A payment, or a refund.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Payment {
    /// The day, where it was noted.
    pub on: Option<Day>,
    /// In which way.
    pub way: PayWay,
    /// How much; below nothing for what went back.
    pub sum: Cents,
}

/// In which way somebody paid.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub enum PayWay {
    /// Nobody noted it.
    #[default]
    NotNoted,
    /// Notes and coins.
    Cash,
    /// A card.
    Card,
    /// From bank to bank.
    Transfer,
    /// Another way, in words.
    Other(String),
}

impl Payment {
    /// So much was paid; nobody noted when and how.
    pub fn of(sum: Cents) -> Self {
        Self { on: None, way: PayWay::NotNoted, sum }
    }

    /// The same as an order may hold it: a sum within bounds, a way by its own name.
    pub(super) fn plain(&self) -> Self {
        let sum = self.sum.clamp(-DEAREST, DEAREST);
        Self { on: self.on, way: PayWay::of(self.way.words()), sum }
    }
}

impl PayWay {
    /// The way that is written so; empty words are none.
    pub fn of(words: &str) -> Self {
        match words.trim() {
            "" => Self::NotNoted,
            words => [Self::Cash, Self::Card, Self::Transfer]
                .into_iter()
                .find(|way| way.words().eq_ignore_ascii_case(words))
                .unwrap_or_else(|| Self::Other(words.to_owned())),
        }
    }

    /// What it is called; empty where nobody noted it.
    pub fn words(&self) -> &str {
        match self {
            Self::NotNoted => "",
            Self::Cash => "cash",
            Self::Card => "card",
            Self::Transfer => "transfer",
            Self::Other(words) => words,
        }
    }
}

/// Money of one order.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Terms {
    /// What the client wants to spend.
    pub budget: Option<Cents>,
    /// The price asked instead of the worked one.
    pub asked: Option<Asked>,
    /// Extras.
    pub extras: Vec<Extra>,
    /// Whether it is made in a rush.
    pub rush: bool,
    /// What is taken off.
    pub discount: Option<Discount>,
    /// What has been paid, and what went back, in the order in which it was noted.
    pub payments: Vec<Payment>,
    /// The day on which the price was quoted.
    pub quoted_on: Option<Day>,
    /// Until when the price holds, where that was said for this order; else the days of the house count from the quote.
    pub holds_until: Option<Day>,
}

impl Terms {
    /// What has been paid so far, less what went back.
    pub fn paid(&self) -> Cents {
        self.payments.iter().map(|payment| payment.sum).sum()
    }
}

/// A custom of numbers.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct NumberCustom {
    /// Counts that are avoided.
    pub avoided: BTreeSet<u32>,
    /// Whether even numbers are as welcome as odd ones.
    pub even_is_welcome: bool,
}

impl NumberCustom {
    /// Odd numbers for happy events, as the house does anyhow.
    pub fn no_even() -> Self {
        Self::default()
    }

    /// Neither 4 nor 9, even numbers otherwise welcome. As told of Japan by florists: common practice, no source.
    pub fn no_four_no_nine() -> Self {
        Self { avoided: [4, 9].into(), even_is_welcome: true }
    }
}
