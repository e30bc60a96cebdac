//! Finding the line of the stock list that a supplier means.
//!
//! First the same name or id in any spelling; then the same words in any order, one or many of each; then a name that holds all words
//! of a line and more (`Spray rose white 50 cm`). Of several such lines the one with most words is meant; two with as many are
//! no answer.

use std::collections::{BTreeMap, BTreeSet};

use crate::stock::StockItem;
use crate::units::fold;

/// What a name means.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Match {
    /// The line at this place.
    One(usize),
    /// No line.
    None,
    /// Either of these, or more.
    Several(usize, usize),
}

/// The names of all lines. What is cut from something else is not bought under its own name.
pub(super) struct Names {
    exact: BTreeMap<String, usize>,
    by_words: Vec<(BTreeSet<String>, usize)>,
}

impl Names {
    pub(super) fn of(items: &[StockItem]) -> Self {
        let bought = || {
            let is_cut = |item: &StockItem| item.botanical().is_some_and(|b| b.cut_from.is_some());
            items.iter().enumerate().filter(move |(_, item)| !is_cut(item))
        };
        let mut exact = BTreeMap::new();
        for (n, item) in bought() {
            exact.entry(fold(item.id().as_str())).or_insert(n);
        }
        for (n, item) in bought() {
            exact.insert(fold(item.name()), n);
        }
        Self { exact, by_words: bought().map(|(n, item)| (words(item.name()), n)).collect() }
    }

    pub(super) fn find(&self, named: &str) -> Match {
        if let Some(place) = self.exact.get(&fold(named)) {
            return Match::One(*place);
        }
        let named = words(named);
        let held: Vec<&(BTreeSet<String>, usize)> =
            self.by_words.iter().filter(|(line, _)| !line.is_empty() && line.is_subset(&named)).collect();
        let most = held.iter().map(|(line, _)| line.len()).max().unwrap_or(0);
        let best: Vec<usize> = held.iter().filter(|(line, _)| line.len() == most).map(|(_, n)| *n).collect();
        match best.as_slice() {
            [] => Match::None,
            [one] => Match::One(*one),
            [a, b, ..] => Match::Several(*a, *b),
        }
    }
}

/// The words of a name without accents, small, one of each, and one for many.
fn words(name: &str) -> BTreeSet<String> {
    let folded = fold(name);
    let words = folded.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty());
    words.map(singular).collect()
}

/// `roses` as `rose`, `berries` as `berry`; words of at most three letters and those on -ss and -us as they are.
fn singular(word: &str) -> String {
    if let Some(stem) = word.strip_suffix("ies").filter(|stem| stem.len() > 2) {
        return format!("{stem}y");
    }
    let is_many = word.len() > 3 && word.ends_with('s') && !word.ends_with("ss") && !word.ends_with("us");
    if is_many { word[..word.len() - 1].to_owned() } else { word.to_owned() }
}
