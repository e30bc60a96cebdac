//! What a paper is: what it is called, whom it is for, what it is made from. Which papers there are stands in [`super::papers`].

use std::fmt;

use super::pdf::sheet::{Document, PaperSize};
use crate::book::{Letterhead, Order, Written};
use crate::paperwork::{Price, StemList};
use crate::piece::HouseStyle;
use crate::scene::Scene;
use crate::stock::Stock;

/// Everything that a paper is made from.
#[derive(Clone, Copy, Debug)]
pub struct PaperJob<'a> {
    /// The shop as its clients read it.
    pub shop: &'a Letterhead,
    /// The order.
    pub order: &'a Order,
    /// What can be bought.
    pub stock: &'a Stock,
    /// The house style.
    pub style: &'a HouseStyle,
    /// The stem list of the order.
    pub stems: &'a StemList,
    /// Its price.
    pub price: &'a Price,
    /// How the shop writes days and hours.
    pub written: Written,
    /// The paper it is printed on.
    pub paper: PaperSize,
}

/// Whom a paper is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PaperReader {
    /// The client: no cost, no supplier, no score.
    Client,
    /// Whoever makes the piece.
    Bench,
    /// The shop alone.
    Shop,
}

/// A kind of paper: what it is called, whom it is for, and how it is made.
#[derive(Clone, Copy, Debug)]
pub struct PaperKind {
    /// What it is called on the command line and in the names of files: `quote-slip`.
    pub id: &'static str,
    /// What it is called on itself.
    pub title: &'static str,
    /// Whom it is for.
    pub reader: PaperReader,
    /// What the names of its files end in; more sheets as pictures follow as `-2.png`.
    pub endings: &'static [&'static str],
    /// Whether a boutonniere has one of its own: what is made or worn piece by piece.
    pub is_for_each_piece: bool,
    /// Why an order may have none, as a clause; empty where every order has one.
    pub missing: &'static str,
    /// Makes what is in its files, one for each ending; nothing where the order has no such paper.
    pub make: fn(&PaperJob<'_>) -> Vec<PaperContent>,
}

/// What is in a file of a paper.
#[derive(Clone, Debug)]
pub enum PaperContent {
    /// Sheets as PDF.
    Pdf(Document),
    /// Each sheet as PNG.
    Pngs(Document),
    /// A picture as PNG.
    Picture(Scene),
    /// Words as they stand, with the ending of their file.
    Words(&'static str, String),
}

impl Eq for PaperKind {}
impl PartialEq for PaperKind {
    fn eq(&self, other: &Self) -> bool {
        self.id == other.id
    }
}

/// Its id.
impl fmt::Display for PaperKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.id)
    }
}

impl PaperKind {
    /// Why an order has no such paper.
    pub fn why_missing(&self) -> &'static str {
        if self.missing.is_empty() { "there is no such paper" } else { self.missing }
    }
}

/// A paper to print.
pub(super) fn to_print(document: Document) -> Vec<PaperContent> {
    vec![PaperContent::Pdf(document)]
}

/// A paper to print and to send.
pub(super) fn to_print_and_send(document: Document) -> Vec<PaperContent> {
    vec![PaperContent::Pdf(document.clone()), PaperContent::Pngs(document)]
}
