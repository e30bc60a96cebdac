//! The papers of an order: which there are, and the bytes of each. Knows no folder.

use super::pdf::{self, Document, Job, Paper};
use super::{csv_of, once_over_text, png_of, stems_rows, stems_text};
use crate::book::Order;
use crate::once_over::{Subject, look_over};
use crate::paperwork::{stem_list, worked_price};
use crate::piece::HouseStyle;
use crate::scene::{Ground, PictureOptions, picture};
use crate::stock::Stock;

/// Width of a picture of which nobody has said how wide it shall be, pixels; our choice.
pub const USUAL_WIDTH_PX: u32 = 1200;

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
    pub fn is_missing(self) -> &'static str {
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
    fn files(self, job: &Job<'_>) -> Result<Vec<PaperFile>, String> {
        let file = |ending: &str, bytes: Vec<u8>| (format!("{}.{ending}", self.word()), bytes);
        let alone = |make: fn(&Job<'_>) -> Document| Ok(vec![file("pdf", pdf::pdf_of(&make(job))?)]);
        let both =
            |document: Option<Document>| document.map_or(Ok(Vec::new()), |paper| to_print_and_send(self, &paper));
        match self {
            Self::Picture => {
                let options =
                    PictureOptions { ground: Ground::before(job.order.taste.dress.hex), ..PictureOptions::default() };
                let scene = picture(&job.order.piece, job.stock, &job.order.wrist, &options);
                Ok(vec![file("png", png_of(&scene, USUAL_WIDTH_PX))])
            }
            Self::Stems => {
                let (head, rows) = stems_rows(job.stems);
                let text = stems_text(job.order, job.stems, job.price, &job.style.prices, job.stock);
                Ok(vec![file("csv", csv_of(&head, &rows).into_bytes()), file("txt", text.into_bytes())])
            }
            Self::OnceOver => {
                let Job { order, stock, style, .. } = *job;
                let over = look_over(Subject { piece: &order.piece, stock, style, wrist: &order.wrist });
                Ok(vec![file("txt", once_over_text(job.order, &over).into_bytes())])
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
                Ok(vec![file("csv", csv_of(&head, &rows).into_bytes()), file("pdf", paper)])
            }
        }
    }
}

/// A paper to print and to send: as PDF, and each sheet as PNG; the second one's name ends in `-2.png`.
fn to_print_and_send(kind: PaperKind, paper: &Document) -> Result<Vec<PaperFile>, String> {
    let mut files = vec![(format!("{}.pdf", kind.word()), pdf::pdf_of(paper)?)];
    for (png, sheet) in pdf::pngs_of(paper, PAPER_DPI).into_iter().zip(1_u32..) {
        let number = if sheet == 1 { String::new() } else { format!("-{sheet}") };
        files.push((format!("{}{number}.png", kind.word()), png));
    }
    Ok(files)
}

/// What the papers of a house are made from.
#[derive(Clone, Copy, Debug)]
pub struct PaperDesk<'a> {
    /// The shop's name.
    pub shop: &'a str,
    /// What can be bought.
    pub stock: &'a Stock,
    /// The house style.
    pub style: &'a HouseStyle,
    /// What is printed on.
    pub paper: Paper,
}

/// A file yet to be written: what its name ends in, and its bytes.
pub type PaperFile = (String, Vec<u8>);

impl PaperDesk<'_> {
    /// The files of one kind, and of the boutonniere that goes with the order where it has one of its own; none where the order
    /// has no such paper. The failure is a sentence.
    pub fn files(&self, order: &Order, kind: PaperKind) -> Result<Vec<PaperFile>, String> {
        let mut files = self.of(order, kind)?;
        if let Some(boutonniere) = boutonniere_order(order).filter(|_| kind.is_for_each_piece()) {
            let more = self.of(&boutonniere, kind)?;
            files.extend(more.into_iter().map(|(ending, bytes)| (format!("boutonniere-{ending}"), bytes)));
        }
        Ok(files)
    }

    fn of(&self, order: &Order, kind: PaperKind) -> Result<Vec<PaperFile>, String> {
        let Self { shop, stock, style, paper } = *self;
        let size = order.size.as_ref().and_then(|name| style.size(name));
        let stems = &stem_list(&order.piece, size, stock, style);
        let price = &worked_price(stems.fresh_cents, stems.hard_cents, stems.minutes, &style.prices);
        kind.files(&Job { shop, order, stock, style, stems, price, paper })
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
