//! What people call the things they must not get, and what of the stock each word stops. The list is data
//! (`assets/avoid.ron`); how a typed line is read stands in [`super::avoid_words`]. No medical judgement: too much is
//! stopped rather than too little.

use std::collections::{BTreeMap, BTreeSet};

use super::avoid_words::{joined, stems};
use super::{Band, BandKind, Botanical, Caution, Ribbon, StockId, Sundry, SundryKind};

/// One thing that people may have to avoid.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct AvoidThing {
    /// What it is called when it is said back: `baby's breath`.
    pub name: String,
    /// What people type for it.
    pub words: Vec<String>,
    /// Words that mean it only where nothing else was understood: `sneezing`.
    pub if_alone: Vec<String>,
    /// Families of plants it stops.
    pub families: Vec<String>,
    /// Genera it stops.
    pub genera: Vec<String>,
    /// Stops whatever carries one of these cautions.
    pub cautions: Vec<Caution>,
    /// Kinds of band it stops.
    pub bands: Vec<BandKind>,
    /// Kinds of sundry it stops.
    pub sundries: Vec<SundryKind>,
    /// Whether it stops all ribbon.
    pub ribbons: bool,
    /// Whether it stops beads: pearls, stones.
    pub is_bead: bool,
    /// Whether it says what something does and not what it is; nobody can promise a piece without it.
    pub is_kind_of_harm: bool,
    /// Where it was read.
    pub source: String,
}

/// The list as it is written.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct AvoidList {
    /// The things.
    pub things: Vec<AvoidThing>,
    /// The family of each genus.
    pub families: BTreeMap<String, String>,
    /// Words that stand beside a name and say nothing of it: `badly`, `white`.
    pub beside: Vec<String>,
    /// Words in names of stock that describe and do not name: `spray`, `small`.
    pub describing: Vec<String>,
    /// Words for things that are nothing of the trade, never taken for a slip: `peanut`.
    pub elsewhere: Vec<String>,
}

/// What one thing stops of a certain stock.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct AvoidTerm {
    /// What it is called when it is said back.
    pub name: String,
    /// Flowers, greens, trims, ribbons and bands.
    pub stops: BTreeSet<StockId>,
    /// Kinds of sundry.
    pub sundries: Vec<SundryKind>,
    /// Whether it says what something does and not what it is.
    pub is_kind_of_harm: bool,
}

/// The list, worked out for one stock: every word with what it stops there.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct AvoidIndex {
    pub(super) list: AvoidList,
    pub(super) terms: Vec<AvoidTerm>,
    /// Words, joined, and the term they mean.
    pub(super) by_key: BTreeMap<String, usize>,
    /// The same for words that count only alone.
    pub(super) if_alone: BTreeMap<String, usize>,
    pub(super) beside: BTreeSet<String>,
    pub(super) elsewhere: BTreeSet<String>,
}

/// The lines of a stock.
#[derive(Clone, Copy, Debug)]
pub(super) struct StockParts<'a> {
    pub(super) botanicals: &'a [Botanical],
    pub(super) ribbons: &'a [Ribbon],
    pub(super) bands: &'a [Band],
    pub(super) sundries: &'a [Sundry],
}

impl AvoidIndex {
    /// The index of `list` over these lines of stock.
    pub(super) fn of(list: AvoidList, stock: StockParts<'_>) -> Self {
        let mut index =
            Self { terms: Vec::new(), by_key: BTreeMap::new(), if_alone: BTreeMap::new(), ..Self::blank(&list) };
        for thing in &list.things {
            let at = index.add_term(term_of(thing, &list, stock));
            let keys = |words: &[String]| words.iter().map(|w| key(w)).filter(|k| !k.is_empty()).collect::<Vec<_>>();
            for key in keys(&thing.words) {
                index.by_key.entry(key).or_insert(at);
            }
            for key in keys(&thing.if_alone) {
                index.if_alone.entry(key).or_insert(at);
            }
        }
        index.add_families(&list, stock);
        index.add_stock(&list, stock);
        index.list = list;
        index
    }

    fn blank(list: &AvoidList) -> Self {
        let keys = |words: &[String]| words.iter().map(|w| key(w)).collect();
        Self { beside: keys(&list.beside), elsewhere: keys(&list.elsewhere), ..Self::default() }
    }

    /// The list it was made from.
    pub fn list(&self) -> &AvoidList {
        &self.list
    }

    /// The names of all things on the list, in alphabetical order: what an unread word may be said to mean.
    pub fn names(&self) -> Vec<&str> {
        let mut names: Vec<&str> = self.list.things.iter().map(|thing| thing.name.as_str()).collect();
        names.sort_unstable();
        names.dedup();
        names
    }

    fn add_term(&mut self, term: AvoidTerm) -> usize {
        self.terms.push(term);
        self.terms.len() - 1
    }

    /// Botanical names of families and genera that no line of the list spells out.
    fn add_families(&mut self, list: &AvoidList, stock: StockParts<'_>) {
        for (genus, family) in &list.families {
            for (word, is_family) in [(genus, false), (family, true)] {
                if self.by_key.contains_key(&key(word)) {
                    continue;
                }
                let mut thing = AvoidThing { name: word.clone(), ..AvoidThing::default() };
                if is_family { &mut thing.families } else { &mut thing.genera }.push(word.clone());
                let at = self.add_term(term_of(&thing, list, stock));
                self.by_key.insert(key(word), at);
            }
        }
    }

    /// The stock's own names: whole names, ids, and the words in them that name and do not describe. A whole name of a plant
    /// stops what the name of its genus stops; a word that is known already stops what is called so besides.
    fn add_stock(&mut self, list: &AvoidList, stock: StockParts<'_>) {
        let describing: BTreeSet<String> = list.describing.iter().map(|w| key(w)).collect();
        for plant in stock.botanicals {
            let thing = AvoidThing { genera: genera_of(&plant.botanical), ..AvoidThing::default() };
            let mut alike = term_of(&thing, list, stock).stops;
            alike.insert(plant.id.clone());
            // What its genus cross-reacts with is stopped by its own name as well.
            let kin = thing.genera.iter().filter_map(|genus| self.terms.get(*self.by_key.get(&key(genus))?));
            alike.extend(kin.flat_map(|term| term.stops.iter().cloned()));
            for whole in whole_names(plant) {
                self.add_name(key(&whole), &plant.name, &alike);
            }
            let own = BTreeSet::from([plant.id.clone()]);
            self.add_tokens(&[&plant.name, plant.id.as_str()], &plant.name, &own, &describing);
            self.beside.extend(epithets_of(&plant.botanical).iter().map(|word| key(word)));
        }
        let bands = stock.bands.iter().map(|b| (&b.id, &b.name));
        for (id, name) in bands.chain(stock.ribbons.iter().map(|r| (&r.id, &r.name))) {
            let own = BTreeSet::from([id.clone()]);
            self.add_name(key(name), name, &own);
            self.add_tokens(&[name, id.as_str()], name, &own, &describing);
        }
        for sundry in stock.sundries {
            let term = AvoidTerm { name: sundry.name.clone(), sundries: vec![sundry.kind], ..AvoidTerm::default() };
            let at = self.add_term(term);
            self.by_key.entry(key(&sundry.name)).or_insert(at);
            self.by_key.entry(key(sundry.id.as_str())).or_insert(at);
        }
    }

    fn add_tokens(&mut self, names: &[&str], said: &str, stops: &BTreeSet<StockId>, describing: &BTreeSet<String>) {
        let mut tokens: Vec<String> = names.iter().flat_map(|name| stems(name)).collect();
        tokens.sort();
        tokens.dedup();
        for token in tokens {
            let names_it = token.chars().count() >= SHORTEST_NAME && !token.starts_with(|c: char| c.is_ascii_digit());
            if names_it && !describing.contains(&token) && !self.beside.contains(&token) {
                self.add_name(token, said, stops);
            }
        }
    }

    fn add_name(&mut self, key: String, said: &str, stops: &BTreeSet<StockId>) {
        if key.is_empty() {
            return;
        }
        if let Some(&at) = self.by_key.get(&key) {
            self.terms[at].stops.extend(stops.iter().cloned());
        } else {
            let at = self.add_term(AvoidTerm { name: said.to_owned(), stops: stops.clone(), ..AvoidTerm::default() });
            self.by_key.insert(key, at);
        }
    }
}

/// Letters of the shortest word in a name that finds it; our choice, so that a lone "a" stops nothing.
const SHORTEST_NAME: usize = 3;

/// The words of a name as they are looked up.
fn key(words: &str) -> String {
    joined(&stems(words))
}

/// What a thing stops of this stock.
fn term_of(thing: &AvoidThing, list: &AvoidList, stock: StockParts<'_>) -> AvoidTerm {
    let has = |cautions: &[Caution]| cautions.iter().any(|c| thing.cautions.contains(c));
    let is_kin = |plant: &Botanical| {
        genera_of(&plant.botanical).iter().any(|genus| {
            thing.genera.contains(genus)
                || list.families.get(genus).is_some_and(|family| thing.families.contains(family))
        })
    };
    let plants =
        stock.botanicals.iter().filter(|b| is_kin(b) || has(&b.cautions) || (thing.is_bead && b.form.is_bead()));
    let bands = stock.bands.iter().filter(|b| thing.bands.contains(&b.kind) || has(&b.cautions));
    let ribbons = stock.ribbons.iter().filter(|_| thing.ribbons);
    let ids = plants.map(|b| &b.id).chain(bands.map(|b| &b.id)).chain(ribbons.map(|r| &r.id));
    let stops = ids.cloned().collect();
    let sundries = thing.sundries.clone();
    AvoidTerm { name: thing.name.clone(), stops, sundries, is_kind_of_harm: thing.is_kind_of_harm }
}

/// The genera in a botanical name as the list writes it: `Erica, Calluna`, `Delphinium elatum, D. x belladonna`. None for what
/// is no plant.
pub fn genera_of(botanical: &str) -> Vec<String> {
    let is_genus = |word: &&str| {
        let mut letters = word.chars();
        letters.next().is_some_and(char::is_uppercase) && word.chars().count() > 3 && letters.all(char::is_lowercase)
    };
    let words = botanical.split(|c: char| !(c.is_alphabetic() || c == '\'' || c == '\u{2018}' || c == '.'));
    let mut genera: Vec<String> = words.filter(is_genus).map(str::to_owned).collect();
    genera.sort();
    genera.dedup();
    genera
}

/// The words of a botanical name that are no genus.
fn epithets_of(botanical: &str) -> Vec<&str> {
    let words = botanical.split(|c: char| !c.is_alphabetic());
    words.filter(|word| word.chars().count() > 3 && word.chars().all(char::is_lowercase)).collect()
}

/// Names that mean this plant and no other: its trade name, its id, its botanical name up to the first comma.
fn whole_names(plant: &Botanical) -> Vec<String> {
    let first = plant.botanical.split([',', ';', '(']).next().unwrap_or_default();
    let latin = if genera_of(first).is_empty() { String::new() } else { first.to_owned() };
    vec![plant.name.clone(), plant.id.as_str().to_owned(), latin]
}
