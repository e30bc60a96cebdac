//! Labels for the boxes of orders, into a folder.

use std::path::{Path, PathBuf};

use super::args::Args;
use super::cli_error::CliError;
use super::loaded_order::LoadedOrder;
use crate::book::Order;
use crate::export::pdf::{LabelRun, LabelSheet, label_frame, labels, pdf_of};
use crate::store;

/// Most orders whose labels are printed at once; more than any one event has.
const MOST_ORDERS: usize = 10_000;
/// No sheet has more labels.
const MOST_LABELS: u32 = 400;

/// Whose labels, and on which sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct LabelArgs {
    /// The orders.
    pub files: Vec<PathBuf>,
    /// The folder that they go into.
    pub into: PathBuf,
    /// The sheet of labels.
    pub sheet: LabelSheet,
    /// The first free label, counted from 1.
    pub first: u32,
    /// Whether they tell what is still to pay.
    pub with_balance: bool,
    /// Whether a test print is wanted too.
    pub with_frame: bool,
}

impl Eq for LabelArgs {}

/// Reads what was typed after `labels`.
pub(super) fn label_args(args: &Args) -> Result<LabelArgs, String> {
    Ok(LabelArgs {
        files: args.some_files("labels", MOST_ORDERS)?,
        into: args.place("into").ok_or("labels needs a folder to save in: add --into DIR.")?,
        sheet: LabelSheet::parse(&args.text("sheet").unwrap_or_else(|| "a4-24".to_owned()))
            .map_err(|refusal| refusal.to_string())?,
        first: args.number("first", 1..=MOST_LABELS)?.unwrap_or(1),
        with_balance: !args.has("no-balance"),
        with_frame: args.has("frame"),
    })
}

/// The files made, a line each, and warnings about the orders.
pub(super) fn print_labels(args: &LabelArgs, shop: Option<&Path>) -> Result<(String, Vec<String>), CliError> {
    let loaded: Vec<LoadedOrder> =
        args.files.iter().map(|file| LoadedOrder::read(file, shop)).collect::<Result<_, _>>()?;
    let Some(first) = loaded.first() else { return Err(CliError::Usage("labels needs an order.".to_owned())) };
    let orders: Vec<&Order> = loaded.iter().map(|loaded| &loaded.order).collect();
    let run = LabelRun {
        sheet: args.sheet,
        first: args.first,
        with_balance: args.with_balance,
        stock: &first.stock,
        style: &first.style,
        written: first.written,
    };
    let mut papers = vec![("labels.pdf", labels(&orders, &run)?)];
    if args.with_frame {
        papers.push(("labels-frame.pdf", label_frame(args.sheet)));
    }
    store::make_folder(&args.into)?;
    let mut listed = Vec::new();
    for (name, paper) in papers {
        let path = args.into.join(name);
        store::write_bytes(&path, &pdf_of(&paper)?)?;
        listed.push(format!("{}\n", path.display()));
    }
    Ok((listed.concat(), loaded.into_iter().flat_map(|loaded| loaded.warnings).collect()))
}
