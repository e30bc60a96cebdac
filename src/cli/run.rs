//! Doing what was called for.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use super::{Call, StemsAs, help};
use crate::book::Order;
use crate::export::pdf::{self, Document, Job, Paper};
use crate::export::{
    csv_of, once_over_json, once_over_text, png_of, quote_json, quote_text, stems_json, stems_rows, stems_text,
};
use crate::paperwork::quote;
use crate::piece::HouseStyle;
use crate::scene::{Look, picture};
use crate::session::Derived;
use crate::stock::Stock;
use crate::store::{self, Shop, samples};

/// How a paper is laid out.
type MakePaper = fn(&Job<'_>) -> Document;
/// The papers that are PDFs, with what their files' names end in.
const PDFS: [(&str, MakePaper); 4] = [
    ("client.pdf", pdf::client_page),
    ("bench-card.pdf", pdf::bench_card),
    ("template.pdf", pdf::template),
    ("bill-of-materials.pdf", pdf::bill_of_materials_paper),
];

/// An order laid out with everything it needs: its stock, its style, and what follows from it.
#[derive(Debug)]
pub struct Bench {
    /// The shop's name.
    pub shop: String,
    /// The order.
    pub order: Order,
    /// What can be bought.
    pub stock: Arc<Stock>,
    /// The house style.
    pub style: Arc<HouseStyle>,
    /// What was to be said about the file.
    pub warnings: Vec<String>,
}

impl Bench {
    /// Reads the order in `file`, with the shop that it lies in or the one named.
    pub fn lay(file: &Path, shop: Option<&Path>) -> Result<Self, String> {
        let shop = match shop {
            Some(dir) => Shop::open(dir).map_err(|r| r.to_string())?,
            None => Shop::of_file(file),
        };
        let read = store::read_order(file, shop.stock()).map_err(|r| r.to_string())?;
        let (stock, style) = (Arc::clone(shop.stock()), Arc::clone(shop.style()));
        let name = shop.name().to_owned();
        let warnings = shop.warnings().iter().chain(&read.warnings).cloned().collect();
        Ok(Self { shop: name, order: read.order, stock, style, warnings })
    }

    /// Makes all papers into a folder and gives their paths.
    pub fn papers_into(&self, folder: &Path, name: &str, paper: Paper) -> Result<Vec<PathBuf>, String> {
        let derived = Derived::of(&self.order, &self.stock, &self.style);
        let Derived { over, stems, price } = &derived;
        let job =
            Job { shop: &self.shop, order: &self.order, stock: &self.stock, style: &self.style, stems, price, paper };
        let (head, rows) = stems_rows(stems);
        let (bill_head, bill_rows) = pdf::bill_rows(&job);
        let stems_words = stems_text(&self.order, stems, price, &self.style.prices, &self.stock);
        let lists = [
            ("picture.png", self.png(super::picture_wish::USUAL_WIDTH_PX)),
            ("stems.csv", csv_of(&head, &rows).into_bytes()),
            ("stems.txt", stems_words.into_bytes()),
            ("once-over.txt", once_over_text(&self.order, over).into_bytes()),
            ("bill-of-materials.csv", csv_of(&bill_head, &bill_rows).into_bytes()),
        ];
        store::make_folder(folder).map_err(|r| r.to_string())?;
        let mut made = Vec::new();
        let mut write = |kind: &str, bytes: &[u8]| {
            let path = folder.join(format!("{name}-{kind}"));
            store::write_bytes(&path, bytes).map_err(|r| r.to_string())?;
            made.push(path);
            Ok::<(), String>(())
        };
        for (kind, bytes) in lists {
            write(kind, &bytes)?;
        }
        for (kind, make) in PDFS {
            write(kind, &pdf::pdf_of(&make(&job))?)?;
        }
        Ok(made)
    }

    fn png(&self, width_px: u32) -> Vec<u8> {
        let scene = picture(&self.order.piece, &self.stock, &self.order.wrist, &Look::default());
        png_of(&scene, width_px)
    }
}

/// Does what was called for and gives what is to be printed: text, and beside it what is to be said about the file. The
/// window is not opened here. `progress` is told of each order where there are many.
pub fn run(call: &Call, shop: Option<&Path>, progress: &mut dyn FnMut(&str)) -> Result<(String, Vec<String>), String> {
    match call {
        Call::Window { .. } => Ok((String::new(), Vec::new())),
        Call::Help(topic) => Ok((help(topic.as_deref()), Vec::new())),
        Call::Version => Ok((format!("posywright {}\n", env!("CARGO_PKG_VERSION")), Vec::new())),
        Call::OnceOver { file, json } => {
            let bench = Bench::lay(file, shop)?;
            let derived = Derived::of(&bench.order, &bench.stock, &bench.style);
            let text = if *json {
                json_text(&once_over_json(&bench.order, &derived.over, &bench.stock))
            } else {
                once_over_text(&bench.order, &derived.over)
            };
            Ok((text, bench.warnings))
        }
        Call::Stems { file, form } => {
            let bench = Bench::lay(file, shop)?;
            Ok((stems(&bench, *form), bench.warnings))
        }
        Call::Match { colour, stock, json } => super::colours::match_colour(*colour, stock.as_deref(), shop, *json),
        Call::Dress { file, at, json } => super::colours::dress_colour(file, *at, *json),
        Call::Quote { file, json } => {
            let bench = Bench::lay(file, shop)?;
            let quote = quote(&bench.order, &bench.style, &bench.stock);
            let text =
                if *json { json_text(&quote_json(&bench.order, &quote)) } else { quote_text(&bench.order, &quote) };
            Ok((text, bench.warnings))
        }
        Call::Picture { files, wish } => {
            let benches = files.iter().map(|file| Bench::lay(file, shop)).collect::<Result<Vec<_>, _>>()?;
            store::write_bytes(&wish.to, &wish.bytes(&benches)?).map_err(|r| r.to_string())?;
            let warnings = benches.into_iter().flat_map(|bench| bench.warnings).collect();
            Ok((format!("{}\n", wish.to.display()), warnings))
        }
        Call::Forms(wish) => {
            store::write_bytes(&wish.to, &wish.chart_bytes()?).map_err(|r| r.to_string())?;
            Ok((format!("{}\n", wish.to.display()), Vec::new()))
        }
        Call::SetOut { file, to, seed, for_ms, json } => {
            let bench = Bench::lay(file, shop)?;
            let laid = super::set_out::lay_out(&bench, *seed, *for_ms)?;
            store::write_bytes(to, laid.text.as_bytes()).map_err(|r| r.to_string())?;
            let said = if *json { json_text(&laid.report) } else { format!("{}{}\n", laid.says, to.display()) };
            Ok((said, bench.warnings))
        }
        Call::Papers { files, into, paper } => papers(files, shop, into, *paper, progress),
    }
}

/// The papers of several orders, one order at a time, so that memory stays as it is however many they are. An order that
/// cannot be read does not keep the others from their papers.
fn papers(
    files: &[PathBuf],
    shop: Option<&Path>,
    into: &Path,
    paper: Paper,
    progress: &mut dyn FnMut(&str),
) -> Result<(String, Vec<String>), String> {
    let (mut list, mut warnings, mut refusals) = (String::new(), Vec::new(), Vec::new());
    let mut names = BTreeSet::new();
    for (i, file) in files.iter().enumerate() {
        if files.len() > 1 {
            progress(&format!("{} of {}: {}\n", i + 1, files.len(), file.display()));
        }
        let name = free_name(&name_of(file), &mut names);
        let made = Bench::lay(file, shop).and_then(|bench| {
            let made = bench.papers_into(into, &name, paper)?;
            Ok((made, bench.warnings))
        });
        match made {
            Ok((made, said)) => {
                list.extend(made.iter().map(|path| format!("{}\n", path.display())));
                warnings.extend(said);
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

/// A name that no order before had: `mina`, `mina-2`. Two files in two folders may be called alike. Letters are compared
/// without case, as some disks do.
fn free_name(name: &str, taken: &mut BTreeSet<String>) -> String {
    let numbered = (2..).map(|n: u32| format!("{name}-{n}"));
    let free = std::iter::once(name.to_owned()).chain(numbered).find(|n| taken.insert(n.to_lowercase()));
    free.unwrap_or_else(|| name.to_owned())
}

fn stems(bench: &Bench, form: StemsAs) -> String {
    let Derived { stems, price, .. } = Derived::of(&bench.order, &bench.stock, &bench.style);
    match form {
        StemsAs::Text => stems_text(&bench.order, &stems, &price, &bench.style.prices, &bench.stock),
        StemsAs::Json => json_text(&stems_json(&stems, &price)),
        StemsAs::Csv => {
            let (head, rows) = stems_rows(&stems);
            csv_of(&head, &rows)
        }
    }
}

pub(super) fn json_text(value: &serde_json::Value) -> String {
    format!("{value:#}\n")
}

/// The papers of the order in `file`, or of a sample order, into `folder`: what the program does where there is no
/// display.
pub fn papers_without_window(file: Option<&Path>, folder: &Path) -> Result<Vec<PathBuf>, String> {
    if let Some(file) = file {
        return Bench::lay(file, None)?.papers_into(folder, &name_of(file), Paper::default());
    }
    let shop = Shop::built_in();
    let sample = samples::orders().last().ok_or("There is no sample order.")?;
    let order = store::order_from_text(sample.text, sample.path, shop.stock()).map_err(|r| r.to_string())?;
    let (stock, style) = (Arc::clone(shop.stock()), Arc::clone(shop.style()));
    let bench = Bench { shop: shop.name().to_owned(), order, stock, style, warnings: Vec::new() };
    bench.papers_into(folder, &name_of(Path::new(sample.path)), Paper::default())
}

fn name_of(file: &Path) -> String {
    file.file_stem().map_or_else(|| "piece".to_owned(), |s| s.to_string_lossy().into_owned())
}
