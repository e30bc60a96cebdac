//! Runs a command.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use serde_json::Value;

use super::cli_error::CliError;
use super::loaded_order::{LoadedOrder, json_text, name_of, with_stops};
use super::papers::{PapersJob, papers};
use super::{CliCommand, StemsFormat, help};
use crate::book::Order;
use crate::export::pdf::PaperSize;
use crate::export::{
    csv_of, once_over_json, once_over_text, quote_json, quote_text, stems_json, stems_rows, stems_text,
};
use crate::paperwork::{StemList, quote, stem_list};
use crate::session::Derived;
use crate::store::{self, Shop, samples};

/// Runs a command and returns what to print: text, and beside it warnings about the file. Opens no window. `progress`
/// is called with a line for each order where there are many.
pub fn run(
    command: &CliCommand,
    shop: Option<&Path>,
    progress: &mut dyn FnMut(&str),
) -> Result<(String, Vec<String>), CliError> {
    match command {
        CliCommand::Window { .. } => Ok((String::new(), Vec::new())),
        CliCommand::Help(topic) => Ok((help(topic.as_deref()), Vec::new())),
        CliCommand::Version => Ok((format!("posywright {}\n", env!("CARGO_PKG_VERSION")), Vec::new())),
        CliCommand::OnceOver { file, json } => {
            let loaded = LoadedOrder::read(file, shop)?;
            let derived = Derived::of(&loaded.order, &loaded.stock, &loaded.style);
            let text = if *json {
                let report = once_over_json(&loaded.order, &derived.over, &loaded.stock);
                json_text(&with_stops(report, &loaded.order, &loaded.stock))
            } else {
                once_over_text(&loaded.order, &derived.over)
            };
            Ok((text, loaded.warnings))
        }
        CliCommand::Stems { file, form } => {
            let loaded = LoadedOrder::read(file, shop)?;
            Ok((stems(&loaded, *form), loaded.warnings))
        }
        CliCommand::Match { colour, stock, json } => {
            super::colours::match_colour(*colour, stock.as_deref(), shop, *json)
        }
        CliCommand::Dress { file, at, json } => super::colours::dress_colour(file, *at, *json),
        CliCommand::Quote { file, json } => {
            let loaded = LoadedOrder::read(file, shop)?;
            let quote = quote(&loaded.order, &loaded.style, &loaded.stock);
            let report = || with_stops(quote_json(&loaded.order, &quote), &loaded.order, &loaded.stock);
            let text = if *json { json_text(&report()) } else { quote_text(&loaded.order, &quote) };
            Ok((text, loaded.warnings))
        }
        CliCommand::Picture { files, options } => {
            let orders = files.iter().map(|file| LoadedOrder::read(file, shop)).collect::<Result<Vec<_>, _>>()?;
            store::write_bytes(&options.to, &options.bytes(&orders)?)?;
            let warnings = orders.into_iter().flat_map(|loaded| loaded.warnings).collect();
            Ok((format!("{}\n", options.to.display()), warnings))
        }
        CliCommand::Photograph(options) => {
            let loaded = LoadedOrder::read(&options.file, shop)?;
            store::write_bytes(&options.to, &options.bytes(&loaded, progress)?)?;
            Ok((format!("{}\n", options.to.display()), loaded.warnings))
        }
        CliCommand::Forms(options) => {
            store::write_bytes(&options.to, &options.chart_bytes()?)?;
            Ok((format!("{}\n", options.to.display()), Vec::new()))
        }
        CliCommand::SetOut { file, to, seed, for_ms, json } => {
            let loaded = LoadedOrder::read(file, shop)?;
            let arranged = super::set_out::arrange(&loaded, *seed, *for_ms)?;
            store::write_bytes(to, arranged.text.as_bytes())?;
            let text = if *json { json_text(&arranged.report) } else { format!("{}{}\n", arranged.says, to.display()) };
            Ok((text, loaded.warnings))
        }
        CliCommand::Market(args) => super::occasion::market(args),
        CliCommand::Bench(args) => super::occasion::bench(args),
        CliCommand::Labels(args) => super::labels::print_labels(args, shop),
        CliCommand::PartyBill(args) => super::party_bill::bill_together(args, shop),
        CliCommand::Papers { files, into, paper, only } => {
            papers(PapersJob { files, shop, into, paper: *paper, only }, progress)
        }
    }
}

fn stems(loaded: &LoadedOrder, form: StemsFormat) -> String {
    let rule = &loaded.style.prices;
    let of = |order: &Order| {
        let size = order.size.as_ref().and_then(|name| loaded.style.size(name));
        stem_list(&order.piece, size, &loaded.stock, &loaded.style)
    };
    let (order, partner) = (&loaded.order, loaded.order.boutonniere());
    let (stems, others) = (of(order), partner.as_ref().map(|order| (order, of(order))));
    match form {
        StemsFormat::Text => {
            let text = |order, stems: &StemList| stems_text(order, stems, &stems.price(rule), rule, &loaded.stock);
            let more = others.map_or_else(String::new, |(order, stems)| format!("\n{}", text(order, &stems)));
            text(order, &stems) + &more
        }
        StemsFormat::Json => {
            let mut report = stems_json(&stems, &stems.price(rule));
            report["boutonniere"] = others.map_or(Value::Null, |(_, stems)| stems_json(&stems, &stems.price(rule)));
            json_text(&with_stops(report, order, &loaded.stock))
        }
        StemsFormat::Csv => {
            let (head, mut rows) = stems_rows(order, &stems);
            rows.extend(others.into_iter().flat_map(|(order, stems)| stems_rows(order, &stems).1));
            csv_of(&head, &rows)
        }
    }
}

/// The papers of the order in `file`, or of a sample order, into `folder`: what the program does where there is no
/// display.
pub fn papers_without_window(file: Option<&Path>, folder: &Path) -> Result<Vec<PathBuf>, CliError> {
    if let Some(file) = file {
        return Ok(LoadedOrder::read(file, None)?
            .papers_into(folder, &name_of(file), PaperSize::default(), &[])?
            .paths);
    }
    let shop = Shop::built_in();
    let sample = samples::orders().last().ok_or_else(|| CliError::Failed("No sample order.".to_owned()))?;
    let order = store::order_from_text(sample.text, sample.path, shop.stock())?;
    let (stock, style) = (Arc::clone(shop.stock()), Arc::clone(shop.style()));
    let loaded = LoadedOrder {
        shop: shop.letterhead().clone(),
        order,
        stock,
        style,
        written: shop.written(),
        warnings: Vec::new(),
    };
    Ok(loaded.papers_into(folder, &name_of(Path::new(sample.path)), PaperSize::default(), &[])?.paths)
}
