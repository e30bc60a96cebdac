//! How what is typed about allergies is read: in words of any form, with slips, with remarks around it.
//!
//! A line is cut at commas and at *and*, *or*. Of each piece the longest run of words that is known is taken first; what is
//! left and is no mere remark is looked at for a slip of the finger. A slip is taken only where one thing alone is meant; what
//! nobody knows stays unread and is never guessed at.

use std::collections::BTreeSet;

use super::avoid::{AvoidIndex, AvoidTerm};
use crate::units::{fold, steps_between};

/// What one piece of the line was read as.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct WordReading {
    /// The piece as it was typed.
    pub typed: String,
    /// The terms it means, by their place in the index.
    pub(super) terms: Vec<usize>,
    /// What it means, as it is said back.
    pub means: Vec<String>,
    /// Whether a slip of the finger was put right for it.
    pub is_slip: bool,
    /// Words in it that nobody knows; empty when all of it was read.
    pub unread: String,
    /// What the unread words may have meant, nearest first; for asking, never taken.
    pub near: Vec<String>,
}

/// Most words that make one name: `alpha methylene gamma butyrolactone`.
const LONGEST_NAME: usize = 5;
/// Letters from which one slip is forgiven, and from which two are. Shorter words are too near to each other: *rose* and
/// *nose*. Our choice.
const SLIP_FROM: (usize, usize) = (5, 8);
/// How many near names are shown; our choice, as many as fit in one line.
const MOST_NEAR: usize = 3;

impl AvoidIndex {
    /// Reads what was typed, piece by piece.
    pub fn read(&self, typed: &str) -> Vec<WordReading> {
        pieces(typed).into_iter().map(|piece| self.read_piece(&piece)).collect()
    }

    /// The terms that a reading means.
    pub fn terms_of<'a, 'r>(&'a self, reading: &'r WordReading) -> impl Iterator<Item = &'a AvoidTerm> + use<'a, 'r> {
        reading.terms.iter().filter_map(|&at| self.terms.get(at))
    }

    fn read_piece(&self, piece: &str) -> WordReading {
        let words = stems(piece);
        let mut reading = WordReading { typed: piece.to_owned(), ..WordReading::default() };
        let mut left: Vec<Vec<String>> = vec![Vec::new()];
        let mut at = 0;
        while at < words.len() {
            let mut run = (1..=LONGEST_NAME.min(words.len() - at)).rev();
            let known = run.find_map(|n| Some((n, *self.by_key.get(&joined(&words[at..at + n]))?)));
            if let Some((n, term)) = known {
                reading.terms.push(term);
                left.push(Vec::new());
                at += n;
            } else {
                if let Some(run) = left.last_mut() {
                    run.push(words[at].clone());
                }
                at += 1;
            }
        }
        self.read_the_rest(&left, &mut reading);
        reading.terms.sort_unstable();
        reading.terms.dedup();
        reading.means = self.terms_of(&reading).map(|term| term.name.clone()).collect();
        reading
    }

    /// What no name answers to: a remark, a word that counts alone, a slip, or unread.
    fn read_the_rest(&self, left: &[Vec<String>], reading: &mut WordReading) {
        let was_read = !reading.terms.is_empty();
        let mut unread: Vec<String> = Vec::new();
        let mut alone: Vec<usize> = Vec::new();
        for run in left {
            let mut at = 0;
            while at < run.len() {
                let reaction = (1..=LONGEST_NAME.min(run.len() - at))
                    .rev()
                    .find_map(|n| Some((n, *self.if_alone.get(&joined(&run[at..at + n]))?)));
                if let Some((n, term)) = reaction {
                    alone.push(term);
                    at += n;
                } else {
                    let word = &run[at];
                    if !self.beside.contains(word) && !is_number(word) {
                        unread.push(word.clone());
                    }
                    at += 1;
                }
            }
        }
        if !unread.is_empty() {
            self.read_slips(&mut unread, reading);
        }
        if !was_read && reading.terms.is_empty() && unread.is_empty() {
            reading.terms = alone;
        }
        // Where nothing was read, all of it is left, as it was typed.
        reading.unread = if reading.terms.is_empty() { reading.typed.trim().to_owned() } else { unread.join(" ") };
        if !reading.unread.is_empty() {
            reading.near = self.near(&joined(&stems(&reading.unread)));
        }
    }

    /// Takes from `unread` what is a slip of one known thing: all of it as one word, else word by word.
    fn read_slips(&self, unread: &mut Vec<String>, reading: &mut WordReading) {
        if unread.iter().any(|word| self.elsewhere.contains(word)) || self.elsewhere.contains(&joined(unread)) {
            return;
        }
        if let Some(term) = self.slip(&joined(unread)) {
            reading.terms.push(term);
            reading.is_slip = true;
            unread.clear();
            return;
        }
        unread.retain(|word| match self.slip(word) {
            Some(term) => {
                reading.terms.push(term);
                reading.is_slip = true;
                false
            }
            None => true,
        });
    }

    /// The one thing that a mistyped word means: nearest to it by slips, beginning with its letter. None when two things
    /// are as near, or when it is too short to say.
    fn slip(&self, word: &str) -> Option<usize> {
        let length = word.chars().count();
        let most = if length >= SLIP_FROM.1 { 2 } else { usize::from(length >= SLIP_FROM.0) };
        let first = word.chars().next()?;
        let mut best: Option<(usize, usize)> = None;
        let mut is_clear = true;
        for (key, &term) in self.by_key.range(first.to_string()..).take_while(|(key, _)| key.starts_with(first)) {
            let n_letters = key.chars().count();
            if n_letters < SLIP_FROM.0 || n_letters.abs_diff(length) > most {
                continue;
            }
            let steps = steps_between(word, key);
            match best {
                _ if steps > most => {}
                Some((least, known)) if steps == least && term != known => is_clear = false,
                Some((least, _)) if steps >= least => {}
                _ => {
                    best = Some((steps, term));
                    is_clear = true;
                }
            }
        }
        best.filter(|_| is_clear).map(|(_, term)| term)
    }

    /// Things whose words are near to this one.
    fn near(&self, word: &str) -> Vec<String> {
        let bound = word.chars().count() / 3 + 1;
        let mut found: Vec<(usize, usize)> = self
            .by_key
            .iter()
            .filter(|(key, _)| key.chars().count().abs_diff(word.chars().count()) <= bound)
            .map(|(key, &term)| (steps_between(word, key), term))
            .filter(|(steps, _)| *steps <= bound)
            .collect();
        found.sort_unstable();
        let mut taken = BTreeSet::new();
        let names = found.into_iter().filter_map(|(_, term)| self.terms.get(term)).map(|term| term.name.clone());
        names.filter(|name| taken.insert(name.clone())).take(MOST_NEAR).collect()
    }
}

fn is_number(word: &str) -> bool {
    word.chars().all(|c| c.is_ascii_digit())
}

/// The pieces of a line: cut at signs that part things and at *and*, *or*, *plus*.
fn pieces(typed: &str) -> Vec<String> {
    let is_sign = |c: char| matches!(c, ',' | ';' | '/' | '&' | '+' | '\n' | '|' | '(' | ')' | ':');
    let mut pieces: Vec<String> = Vec::new();
    for part in typed.split(is_sign) {
        let mut piece: Vec<&str> = Vec::new();
        for word in part.split_whitespace() {
            if ["and", "or", "plus", "but", "nor"].contains(&word.to_lowercase().as_str()) {
                pieces.push(piece.join(" "));
                piece.clear();
            } else {
                piece.push(word);
            }
        }
        pieces.push(piece.join(" "));
    }
    pieces.retain(|piece| piece.chars().any(char::is_alphanumeric));
    pieces
}

/// The words of `text` as they are compared: folded, without apostrophes, one of what is many: `Daisies` is `daisy`, and
/// `Baby's-Breath` is `baby breath`.
pub(super) fn stems(text: &str) -> Vec<String> {
    let is_apostrophe = |c: &char| matches!(c, '\'' | '\u{2019}' | '\u{2018}' | '\u{b4}' | '`');
    let folded: String = fold(text).chars().filter(|c| !is_apostrophe(c)).collect();
    folded.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty()).map(stem).collect()
}

/// One of what a word says; both sides of a comparison go through it, so that it need not be English.
fn stem(word: &str) -> String {
    let is_long = word.chars().count() > 3;
    let ends = |ends: &[&str]| ends.iter().any(|end| word.ends_with(end));
    if let Some(of) = word.strip_suffix("ies").filter(|_| word.chars().count() > 4) {
        format!("{of}y")
    } else if ends(&["sses", "shes", "ches", "xes"]) {
        word[..word.len() - 2].to_owned()
    } else if is_long && ends(&["s"]) && !ends(&["ss", "us", "is"]) {
        word[..word.len() - 1].to_owned()
    } else {
        word.to_owned()
    }
}

/// Words as one: `wax flower` is looked up as `waxflower` is.
pub(super) fn joined(words: &[String]) -> String {
    words.concat()
}
