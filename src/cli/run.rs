//! Doing what was called for.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use super::papers::{Wanted, papers};
use super::{Call, StemsAs, help};
use crate::book::Order;
use crate::export::pdf::Paper;
use crate::export::{
    csv_of, once_over_json, once_over_text, quote_json, quote_text, stems_json, stems_rows, stems_text,
};
use crate::paperwork::quote;
use crate::piece::HouseStyle;
use crate::session::Derived;
use crate::stock::Stock;
use crate::store::{self, Shop, samples};

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
}

/// Does what was called for and gives what is to be printed: text, and beside it what is to be said about the file. The
/// window is not opened here. `progress` is told of each order where there are many.
pub fn run(call: &Call, shop: Option<&Path>, progress: &mut dyn FnMut(&str)) -> Result<(String, Vec<String>), String> {
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
        Call::Papers { files, into, paper, only } => {
            papers(Wanted { files, shop, into, paper: *paper, only }, progress)
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

pub(super) fn json_text(value: &serde_json::Value) -> String {
    format!("{value:#}\n")
}

/// The papers of the order in `file`, or of a sample order, into `folder`: what the program does where there is no
/// display.
pub fn papers_without_window(file: Option<&Path>, folder: &Path) -> Result<Vec<PathBuf>, String> {
    if let Some(file) = file {
        return Ok(Bench::lay(file, None)?.papers_into(folder, &name_of(file), Paper::default(), &[])?.paths);
    }
    let shop = Shop::built_in();
    let sample = samples::orders().last().ok_or("There is no sample order.")?;
    let order = store::order_from_text(sample.text, sample.path, shop.stock()).map_err(|r| r.to_string())?;
    let (stock, style) = (Arc::clone(shop.stock()), Arc::clone(shop.style()));
    let bench = Bench { shop: shop.name().to_owned(), order, stock, style, warnings: Vec::new() };
    Ok(bench.papers_into(folder, &name_of(Path::new(sample.path)), Paper::default(), &[])?.paths)
}

pub(super) fn name_of(file: &Path) -> String {
    file.file_stem().map_or_else(|| "piece".to_owned(), |s| s.to_string_lossy().into_owned())
}
