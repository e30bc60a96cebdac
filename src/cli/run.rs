//! Doing what was called for.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use super::{Call, StemsAs, help};
use crate::book::Order;
use crate::export::{
    csv_of, once_over_json, once_over_text, png_of, quote_json, quote_text, stems_json, stems_rows, stems_text,
};
use crate::paperwork::quote;
use crate::piece::HouseStyle;
use crate::scene::{Look, picture};
use crate::session::Derived;
use crate::stock::Stock;
use crate::store::{self, Shop, samples};

/// An order laid out with everything it needs: its stock, its style, and what follows from it.
#[derive(Debug)]
pub struct Bench {
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
        let warnings = shop.warnings().iter().chain(&read.warnings).cloned().collect();
        Ok(Self { order: read.order, stock, style, warnings })
    }

    /// Makes all papers into a folder and gives their paths.
    pub fn papers_into(&self, folder: &Path, name: &str) -> Result<Vec<PathBuf>, String> {
        let derived = Derived::of(&self.order, &self.stock, &self.style);
        let Derived { over, stems, price } = &derived;
        let (head, rows) = stems_rows(stems);
        let stems_words = stems_text(&self.order, stems, price, &self.style.prices, &self.stock);
        let papers = [
            ("picture.png", self.png(super::call::USUAL_WIDTH_PX)),
            ("stems.csv", csv_of(&head, &rows).into_bytes()),
            ("stems.txt", stems_words.into_bytes()),
            ("once-over.txt", once_over_text(&self.order, over).into_bytes()),
        ];
        store::make_folder(folder).map_err(|r| r.to_string())?;
        let mut made = Vec::new();
        for (kind, bytes) in papers {
            let path = folder.join(format!("{name}-{kind}"));
            store::write_bytes(&path, &bytes).map_err(|r| r.to_string())?;
            made.push(path);
        }
        Ok(made)
    }

    fn png(&self, width_px: u32) -> Vec<u8> {
        let scene = picture(&self.order.piece, &self.stock, &self.order.wrist, &Look::default());
        png_of(&scene, width_px)
    }
}

/// Does what was called for and gives what is to be printed: text, and beside it what is to be said about the file. The
/// window is not opened here.
pub fn run(call: &Call, shop: Option<&Path>) -> Result<(String, Vec<String>), String> {
    match call {
        Call::Window(_) => Ok((String::new(), Vec::new())),
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
        Call::Quote { file, json } => {
            let bench = Bench::lay(file, shop)?;
            let quote = quote(&bench.order, &bench.style, &bench.stock);
            let text =
                if *json { json_text(&quote_json(&bench.order, &quote)) } else { quote_text(&bench.order, &quote) };
            Ok((text, bench.warnings))
        }
        Call::Picture { file, to, width_px } => {
            let bench = Bench::lay(file, shop)?;
            store::write_bytes(to, &bench.png(*width_px)).map_err(|r| r.to_string())?;
            Ok((format!("{}\n", to.display()), bench.warnings))
        }
        Call::Papers { file, into } => {
            let bench = Bench::lay(file, shop)?;
            let name = name_of(file);
            let made = bench.papers_into(into, &name)?;
            let list: Vec<String> = made.iter().map(|p| p.display().to_string()).collect();
            Ok((list.join("\n") + "\n", bench.warnings))
        }
    }
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

fn json_text(value: &serde_json::Value) -> String {
    format!("{value:#}\n")
}

/// The papers of the order in `file`, or of a sample order, into `folder`: what the program does where there is no
/// display.
pub fn papers_without_window(file: Option<&Path>, folder: &Path) -> Result<Vec<PathBuf>, String> {
    if let Some(file) = file {
        return Bench::lay(file, None)?.papers_into(folder, &name_of(file));
    }
    let shop = Shop::built_in();
    let sample = samples::orders().last().ok_or("There is no sample order.")?;
    let order = store::order_from_text(sample.text, sample.path, shop.stock()).map_err(|r| r.to_string())?;
    let (stock, style) = (Arc::clone(shop.stock()), Arc::clone(shop.style()));
    let bench = Bench { order, stock, style, warnings: Vec::new() };
    bench.papers_into(folder, &name_of(Path::new(sample.path)))
}

fn name_of(file: &Path) -> String {
    file.file_stem().map_or_else(|| "piece".to_owned(), |s| s.to_string_lossy().into_owned())
}
