//! What the words about allergies were understood as, and what of the stock they stop. A word that nobody knows stays open until
//! the designer says what it means, or that she has looked through the list herself.

use std::collections::{BTreeMap, BTreeSet};

use super::Needs;
use crate::stock::{AvoidTerm, Stock, StockId, SundryKind, WordReading};
use crate::units::fold;

/// One thing that was typed, and what became of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Understood {
    /// As it was typed.
    pub typed: String,
    /// What it was understood as; empty while nobody knows.
    pub means: Vec<String>,
    /// Whether a slip of the finger was put right for it.
    pub is_slip: bool,
    /// The words in it that nobody knows.
    pub unread: String,
    /// Whether the designer has said what they mean, or that they stop nothing here.
    pub is_settled: bool,
    /// What they may have meant, nearest first.
    pub near: Vec<String>,
    /// How many things in stock it stops.
    pub n_stopped: usize,
}

impl Understood {
    /// Whether it still waits for the designer.
    pub fn is_open(&self) -> bool {
        !self.unread.is_empty() && !self.is_settled
    }
}

/// Everything that was typed about allergies, understood.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Avoided {
    /// What was typed, thing by thing.
    pub words: Vec<Understood>,
    /// What is stopped, with the word that stops it.
    by_id: BTreeMap<StockId, String>,
    by_sundry: BTreeMap<SundryKind, String>,
    /// Names of things that can be promised to be absent.
    promised: Vec<String>,
}

/// What stands for latex and for scent among the words.
const LATEX: &str = "latex";
pub(super) const SCENT: &str = "scent";

impl Avoided {
    /// What `needs` say, for this stock.
    pub fn of(needs: &Needs, stock: &Stock) -> Self {
        let mut avoided = Self::default();
        for typed in needs.allergies.iter().flatten() {
            for reading in stock.avoid().read(typed) {
                avoided.add(reading, needs, stock);
            }
        }
        let ticked = [(needs.no_latex, LATEX), (needs.body.no_scent, SCENT)];
        for (_, word) in ticked.into_iter().filter(|(is_ticked, _)| *is_ticked) {
            let typed: Vec<Understood> = std::mem::take(&mut avoided.words);
            for reading in stock.avoid().read(word) {
                avoided.add(reading, needs, stock);
            }
            avoided.words = typed;
        }
        avoided
    }

    fn add(&mut self, reading: WordReading, needs: &Needs, stock: &Stock) {
        let typed = reading.typed.clone();
        let is_all_read = reading.unread.is_empty();
        let meaning = needs.meanings.get(&fold(&reading.unread)).filter(|_| !is_all_read);
        let meant: Vec<WordReading> = meaning.iter().flat_map(|words| stock.avoid().read(words)).collect();
        let mut found: BTreeSet<&StockId> = BTreeSet::new();
        let mut kinds: BTreeSet<SundryKind> = BTreeSet::new();
        for part in std::iter::once(&reading).chain(&meant) {
            for term in stock.avoid().terms_of(part) {
                self.stop(term, &typed, is_all_read || meaning.is_some());
                found.extend(&term.stops);
                kinds.extend(&term.sundries);
            }
        }
        let n_stopped = found.len() + kinds.len();
        let is_settled = meaning.is_some();
        let means = reading.means.into_iter().chain(meant.into_iter().flat_map(|m| m.means)).collect();
        let WordReading { is_slip, unread, near, .. } = reading;
        self.words.push(Understood { typed, means, is_slip, unread, is_settled, near, n_stopped });
    }

    fn stop(&mut self, term: &AvoidTerm, typed: &str, can_be_promised: bool) {
        for id in &term.stops {
            self.by_id.entry(id.clone()).or_insert_with(|| typed.to_owned());
        }
        for kind in &term.sundries {
            self.by_sundry.entry(*kind).or_insert_with(|| typed.to_owned());
        }
        if can_be_promised && !term.is_kind_of_harm && !self.promised.contains(&term.name) {
            self.promised.push(term.name.clone());
        }
    }

    /// The word that stops this.
    pub fn word_for(&self, id: &StockId) -> Option<&str> {
        self.by_id.get(id).map(String::as_str)
    }

    /// The word that stops sundries of this kind.
    pub fn word_for_sundry(&self, kind: SundryKind) -> Option<&str> {
        self.by_sundry.get(&kind).map(String::as_str)
    }

    /// Words that wait for the designer.
    pub fn open(&self) -> impl Iterator<Item = &Understood> {
        self.words.iter().filter(|word| word.is_open())
    }

    /// Names of things that a piece without them may be said to be made without; never a kind of harm, never what was not
    /// read.
    pub fn promised(&self) -> &[String] {
        &self.promised
    }
}
