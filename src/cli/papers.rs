//! The papers of an order: which there are, how each is made, and those of many orders at once.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::mpsc::{Sender, channel};

use super::run::{Bench, name_of};
use crate::book::Order;
use crate::export::pdf::{self, Document, Job, Paper};
use crate::export::{csv_of, once_over_text, png_of, stems_rows, stems_text};
use crate::paperwork::{stem_list, worked_price};
use crate::scene::{Look, picture};
use crate::session::Derived;
use crate::store;

/// A paper, or what lies beside the papers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PaperKind {
    /// The picture alone.
    Picture,
    /// The stem list.
    Stems,
    /// The once-over.
    OnceOver,
    /// The client's page.
    Client,
    /// What it costs, and until when.
    QuoteSlip,
    /// What both said yes to.
    AgreedSheet,
    /// What was paid.
    Receipt,
    /// For the bench.
    BenchCard,
    /// Outlines at 1:1.
    Template,
    /// All that is used.
    BillOfMaterials,
}

/// Pixels to the inch of a paper as a picture: fine enough to be read on a phone and printed; our choice.
const PAPER_DPI: u32 = 150;
/// Orders whose papers are made at once, at most; each takes some tens of megabytes.
const MOST_AT_ONCE: usize = 4;

impl PaperKind {
    /// All kinds, in the order in which they are made.
    pub const ALL: [Self; 10] = [
        Self::Picture,
        Self::Stems,
        Self::OnceOver,
        Self::Client,
        Self::QuoteSlip,
        Self::AgreedSheet,
        Self::Receipt,
        Self::BenchCard,
        Self::Template,
        Self::BillOfMaterials,
    ];

    /// What it is called on the command line and in the names of files.
    pub fn word(self) -> &'static str {
        match self {
            Self::Picture => "picture",
            Self::Stems => "stems",
            Self::OnceOver => "once-over",
            Self::Client => "client",
            Self::QuoteSlip => "quote-slip",
            Self::AgreedSheet => "agreed-sheet",
            Self::Receipt => "receipt",
            Self::BenchCard => "bench-card",
            Self::Template => "template",
            Self::BillOfMaterials => "bill-of-materials",
        }
    }

    /// The kind of this word.
    pub fn of_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|kind| kind.word() == word)
    }

    /// Whether a boutonniere has one of its own: what is made at the bench, piece by piece.
    fn is_for_each_piece(self) -> bool {
        match self {
            Self::BenchCard | Self::Template | Self::BillOfMaterials | Self::Stems => true,
            Self::Picture | Self::OnceOver | Self::Client | Self::QuoteSlip | Self::AgreedSheet | Self::Receipt => {
                false
            }
        }
    }

    /// Why an order has no such paper.
    fn is_missing(self) -> &'static str {
        match self {
            Self::AgreedSheet => "nobody has said yes yet, so there is no agreed sheet",
            Self::Receipt => "nothing has been paid yet, so there is no receipt",
            Self::Picture
            | Self::Stems
            | Self::OnceOver
            | Self::Client
            | Self::QuoteSlip
            | Self::BenchCard
            | Self::Template
            | Self::BillOfMaterials => "there is no such paper",
        }
    }

    /// Its files: what their names end in, and their bytes. None where the order has no such paper.
    fn files(self, job: &Job<'_>) -> Result<Vec<(&'static str, Vec<u8>)>, String> {
        let alone = |make: fn(&Job<'_>) -> Document| Ok(vec![("pdf", pdf::pdf_of(&make(job))?)]);
        match self {
            Self::Picture => {
                let scene = picture(&job.order.piece, job.stock, &job.order.wrist, &Look::default());
                Ok(vec![("png", png_of(&scene, super::picture_wish::USUAL_WIDTH_PX))])
            }
            Self::Stems => {
                let (head, rows) = stems_rows(job.stems);
                let text = stems_text(job.order, job.stems, job.price, &job.style.prices, job.stock);
                Ok(vec![("csv", csv_of(&head, &rows).into_bytes()), ("txt", text.into_bytes())])
            }
            Self::OnceOver => {
                let over = Derived::of(job.order, job.stock, job.style).over;
                Ok(vec![("txt", once_over_text(job.order, &over).into_bytes())])
            }
            Self::Client => alone(pdf::client_page),
            Self::QuoteSlip => both(Some(pdf::quote_slip(job))),
            Self::AgreedSheet => both(pdf::agreed_sheet(job)),
            Self::Receipt => both(pdf::receipt(job)),
            Self::BenchCard => alone(pdf::bench_card),
            Self::Template => alone(pdf::template),
            Self::BillOfMaterials => {
                let (head, rows) = pdf::bill_rows(job);
                let paper = pdf::pdf_of(&pdf::bill_of_materials_paper(job))?;
                Ok(vec![("csv", csv_of(&head, &rows).into_bytes()), ("pdf", paper)])
            }
        }
    }
}

/// A paper to print and to send: as PDF, and its first sheet as PNG.
fn both(document: Option<Document>) -> Result<Vec<(&'static str, Vec<u8>)>, String> {
    let Some(document) = document else { return Ok(Vec::new()) };
    let first = pdf::pngs_of(&document, PAPER_DPI).into_iter().next().unwrap_or_default();
    Ok(vec![("pdf", pdf::pdf_of(&document)?), ("png", first)])
}

/// What was made of one order, and what is to be said about it.
#[derive(Debug, Default)]
pub(super) struct Made {
    pub(super) paths: Vec<PathBuf>,
    told: Vec<String>,
}

impl Bench {
    /// Makes papers of these kinds into a folder, all there are where none is named. A paper that is named and that the
    /// order does not have is told; where nothing else was made it is the failure.
    pub(super) fn papers_into(
        &self,
        folder: &Path,
        name: &str,
        paper: Paper,
        only: &[PaperKind],
    ) -> Result<Made, String> {
        store::make_folder(folder).map_err(|r| r.to_string())?;
        let mut made = Made::default();
        for kind in PaperKind::ALL.into_iter().filter(|kind| only.is_empty() || only.contains(kind)) {
            let mut files = self.of(&self.order, paper, kind)?;
            if files.is_empty() && !only.is_empty() {
                made.told.push(format!("{name}: {}.", kind.is_missing()));
            }
            if let Some(boutonniere) = boutonniere_order(&self.order).filter(|_| kind.is_for_each_piece()) {
                let more = self.of(&boutonniere, paper, kind)?;
                files.extend(more.into_iter().map(|(kind, bytes)| (format!("boutonniere-{kind}"), bytes)));
            }
            for (kind, bytes) in files {
                let path = folder.join(format!("{name}-{kind}"));
                store::write_bytes(&path, &bytes).map_err(|r| r.to_string())?;
                made.paths.push(path);
            }
        }
        if made.paths.is_empty() { Err(made.told.join("\n")) } else { Ok(made) }
    }

    /// The files of one kind: what their names end in, and their bytes.
    fn of(&self, order: &Order, paper: Paper, kind: PaperKind) -> Result<Vec<(String, Vec<u8>)>, String> {
        let (stock, style) = (&*self.stock, &*self.style);
        let size = order.size.as_ref().and_then(|name| style.size(name));
        let stems = &stem_list(&order.piece, size, stock, style);
        let price = &worked_price(stems.fresh_cents, stems.hard_cents, stems.minutes, &style.prices);
        let files = kind.files(&Job { shop: &self.shop, order, stock, style, stems, price, paper })?;
        Ok(files.into_iter().map(|(ending, bytes)| (format!("{}.{ending}", kind.word()), bytes)).collect())
    }
}

/// The boutonniere that goes with an order as an order of its own, for the bench.
fn boutonniere_order(order: &Order) -> Option<Order> {
    let piece = order.partner_piece.clone()?;
    let partner = order.people.partner.trim();
    let wearer = match (partner, order.wearer.trim()) {
        ("", wearer) => wearer.to_owned(),
        (partner, "") => partner.to_owned(),
        (partner, wearer) => format!("{partner}, with {wearer}"),
    };
    Some(Order { wearer, piece, partner_piece: None, size: None, agreed: None, ..order.clone() })
}

/// What is wanted of many orders.
#[derive(Clone, Copy, Debug)]
pub(super) struct Wanted<'a> {
    pub(super) files: &'a [PathBuf],
    pub(super) shop: Option<&'a Path>,
    pub(super) into: &'a Path,
    pub(super) paper: Paper,
    pub(super) only: &'a [PaperKind],
}

/// The papers of several orders: as many orders at once as there are cores, so that memory stays as it is however many
/// there are. An order that cannot be read does not keep the others from their papers.
pub(super) fn papers(wanted: Wanted<'_>, progress: &mut dyn FnMut(&str)) -> Result<(String, Vec<String>), String> {
    let (mut list, mut warnings, mut refusals) = (String::new(), Vec::new(), Vec::new());
    for made in all_made(wanted, progress) {
        match made {
            Ok(made) => {
                list.extend(made.paths.iter().map(|path| format!("{}\n", path.display())));
                warnings.extend(made.told);
            }
            Err(refusal) => refusals.push(refusal),
        }
    }
    warnings.dedup();
    if refusals.is_empty() {
        return Ok((list, warnings));
    }
    if !list.is_empty() {
        refusals.push(format!("The papers of the other orders were made:\n{}", list.trim_end()));
    }
    Err(refusals.join("\n"))
}

type Outcome = Result<Made, String>;

/// What became of each order, in the order in which they were named.
fn all_made(wanted: Wanted<'_>, progress: &mut dyn FnMut(&str)) -> Vec<Outcome> {
    let mut taken = BTreeSet::new();
    let names: Vec<String> = wanted.files.iter().map(|file| free_name(&name_of(file), &mut taken)).collect();
    let n = wanted.files.len();
    let cores = std::thread::available_parallelism().map_or(1, std::num::NonZero::get);
    let (next, (tell, told)) = (AtomicUsize::new(0), channel());
    let mut made: Vec<Option<Outcome>> = std::iter::repeat_with(|| None).take(n).collect();
    std::thread::scope(|scope| {
        for _ in 0..cores.min(MOST_AT_ONCE).min(n) {
            let (tell, next, names) = (tell.clone(), &next, &names);
            scope.spawn(move || make_next(wanted, names, next, &tell));
        }
        drop(tell);
        for (done, (i, outcome)) in told.into_iter().enumerate() {
            if n > 1 {
                progress(&format!("{} of {n}: {}\n", done + 1, wanted.files[i].display()));
            }
            made[i] = Some(outcome);
        }
    });
    made.into_iter().flatten().collect()
}

/// Makes the papers of the next order that nobody has taken yet, until there is none.
fn make_next(wanted: Wanted<'_>, names: &[String], next: &AtomicUsize, tell: &Sender<(usize, Outcome)>) {
    while let Some((i, file)) = Some(next.fetch_add(1, Ordering::Relaxed)).and_then(|i| Some((i, wanted.files.get(i)?)))
    {
        let made = Bench::lay(file, wanted.shop).and_then(|bench| {
            let made = bench.papers_into(wanted.into, &names[i], wanted.paper, wanted.only)?;
            Ok(Made { told: bench.warnings.into_iter().chain(made.told).collect(), ..made })
        });
        if tell.send((i, made)).is_err() {
            return;
        }
    }
}

/// A name that no order before had: `mina`, `mina-2`. Two files in two folders may be called alike. Letters are compared
/// without case, as some disks do.
fn free_name(name: &str, taken: &mut BTreeSet<String>) -> String {
    let numbered = (2..).map(|n: u32| format!("{name}-{n}"));
    let free = std::iter::once(name.to_owned()).chain(numbered).find(|n| taken.insert(n.to_lowercase()));
    free.unwrap_or_else(|| name.to_owned())
}
