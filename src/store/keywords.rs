//! Words in files that stand for one of a few things: `raised`, `left`, `glued`.

use std::fmt;
use std::marker::PhantomData;

use serde::de::{self, Deserialize, Deserializer, Visitor};
use serde::{Serialize, Serializer};

use super::store_error;
use crate::book::{Beside, Charge, DateStyle, HourStyle, Progress};
use crate::piece::{Fixing, LapelHold, Level, Measured, Side, Skin, TaxHow, Worn};
use crate::stock::{BandKind, Caution, Form, Keeps, Role, SundryKind, Weave};
use crate::units::DecimalMark;

/// A closed set of things, each with its word.
pub(super) trait KeywordSet: Copy + PartialEq + 'static {
    /// What the words are, for messages.
    const WHAT: &'static str;
    /// The words.
    const WORDS: &'static [(&'static str, Self)];
}

/// One of a few things, written as a bare word.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Keyword<T>(pub(super) T);

impl<T: KeywordSet> Serialize for Keyword<T> {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        let found = T::WORDS.iter().position(|(_, thing)| *thing == self.0).unwrap_or(0);
        let number = u32::try_from(found).unwrap_or(0);
        to.serialize_unit_variant("Keyword", number, T::WORDS[found].0)
    }
}

impl<'de, T: KeywordSet> Deserialize<'de> for Keyword<T> {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        from.deserialize_identifier(KeywordVisitor(PhantomData))
    }
}

struct KeywordVisitor<T>(PhantomData<T>);

impl<T: KeywordSet> Visitor<'_> for KeywordVisitor<T> {
    type Value = Keyword<T>;
    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a ")?;
        f.write_str(T::WHAT)
    }
    fn visit_str<E: de::Error>(self, found: &str) -> Result<Self::Value, E> {
        let known = T::WORDS.iter().find(|(word, _)| *word == found);
        known.map(|&(_, thing)| Keyword(thing)).ok_or_else(|| {
            let words: Vec<String> = T::WORDS.iter().map(|(word, _)| (*word).to_owned()).collect();
            E::custom(store_error::no_such_word(T::WHAT, found, &words))
        })
    }
}

/// A form, under its own name in small letters: `spray_rose`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct FormKeyword(pub(super) Form);

/// The words of all forms, made once.
static FORM_WORDS: std::sync::OnceLock<Vec<String>> = std::sync::OnceLock::new();

impl Serialize for FormKeyword {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        // The writer wants a word that lasts as long as the program, which a word that is made here does not.
        let words = FORM_WORDS.get_or_init(|| Form::ALL.map(form_word).to_vec());
        let found = Form::ALL.iter().position(|form| *form == self.0).unwrap_or(0);
        to.serialize_unit_variant("Form", u32::try_from(found).unwrap_or(0), &words[found])
    }
}

impl<'de> Deserialize<'de> for FormKeyword {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        from.deserialize_identifier(FormVisitor)
    }
}

struct FormVisitor;

impl Visitor<'_> for FormVisitor {
    type Value = FormKeyword;
    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a form")
    }
    fn visit_str<E: de::Error>(self, found: &str) -> Result<FormKeyword, E> {
        let known = Form::ALL.into_iter().find(|&form| form_word(form) == found);
        known.map(FormKeyword).ok_or_else(|| {
            let words: Vec<String> = Form::ALL.into_iter().map(form_word).collect();
            E::custom(store_error::no_such_word("form", found, &words))
        })
    }
}

/// `SprayRose` as `spray_rose`.
fn form_word(form: Form) -> String {
    let mut word = String::new();
    for letter in format!("{form:?}").chars() {
        if letter.is_uppercase() && !word.is_empty() {
            word.push('_');
        }
        word.extend(letter.to_lowercase());
    }
    word
}

macro_rules! words {
    ($thing:ty, $what:literal, $($word:literal => $variant:ident),+ $(,)?) => {
        impl KeywordSet for $thing {
            const WHAT: &'static str = $what;
            const WORDS: &'static [(&'static str, Self)] = &[$(($word, Self::$variant)),+];
        }
    };
}

words!(Side, "side", "left" => Left, "right" => Right);
words!(Measured, "way of measuring", "tape" => Tape, "told" => Told, "not_yet" => NotYet);
words!(
    Skin, "tone of skin",
    "plain" => Plain, "fair" => Fair, "warm" => Warm, "olive" => Olive, "brown" => Brown, "deep" => Deep,
);
words!(Beside, "thing beside the piece", "ruler" => Ruler, "coin" => Coin, "nothing" => Nothing);
words!(Worn, "way of wearing", "wrist" => Wrist, "lapel" => Lapel);
words!(LapelHold, "way of holding", "pins" => Pins, "magnets" => Magnets);
words!(Fixing, "way of fixing", "glued" => Glued, "wired" => Wired);
words!(DecimalMark, "decimal mark", "point" => Point, "comma" => Comma);
words!(DateStyle, "way of writing a day", "month_name" => MonthName, "slashes" => Slashes, "dots" => Dots);
words!(HourStyle, "way of writing an hour", "am_pm" => AmPm, "hours_24" => Hours24);
words!(TaxHow, "way of taxing", "added" => Added, "included" => Included);
words!(
    Charge, "word for a charge",
    "wrist" => Wrist, "boutonniere" => Boutonniere, "pieces" => Pieces, "extra" => Extra, "rush" => Rush,
    "discount" => Discount, "rest" => Rest,
);
words!(Level, "level", "flat" => Flat, "raised" => Raised, "top" => Top);
words!(Progress, "state", "made" => Made, "collected" => Collected, "cancelled" => Cancelled);
words!(Role, "role", "bloom" => Bloom, "accent" => Accent, "filler" => Filler, "leaf" => Leaf, "trim" => Trim);
words!(Keeps, "word for keeping", "poor" => Poor, "fair" => Fair, "good" => Good, "excellent" => Excellent);
words!(
    Weave, "weave",
    "satin" => Satin, "organza" => Organza, "velvet" => Velvet, "grosgrain" => Grosgrain, "lace" => Lace,
);
words!(
    BandKind, "kind of band",
    "elastic" => Elastic, "pearl" => Pearl, "ribbon_tie" => RibbonTie, "metal" => Metal, "rhinestone" => Rhinestone,
    "slap" => Slap,
);
words!(
    SundryKind, "kind of sundry",
    "adhesive" => Adhesive, "wire" => Wire, "tape" => Tape, "box" => Box, "spray" => Spray, "pin" => Pin,
    "base" => Base, "stem" => Stem,
);
words!(
    Caution, "caution",
    "skin_irritant" => SkinIrritant, "allergen" => Allergen, "poison_by_mouth" => PoisonByMouth,
    "pollen_stain" => PollenStain, "dye" => Dye, "spine" => Spine, "latex" => Latex, "nickel" => Nickel,
    "small_parts" => SmallParts, "aerosol" => Aerosol, "burn" => Burn,
    "magnet" => Magnet, "sunlight" => Sunlight, "tuliposide" => Tuliposide, "solvent" => Solvent,
);
