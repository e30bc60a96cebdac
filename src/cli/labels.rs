//! Labels for the boxes of orders, into a folder.

use std::path::{Path, PathBuf};

use super::args::Args;
use super::cli_error::CliError;
use super::loaded_order::LoadedOrder;
use super::occasion::{GatheredOrders, OccasionArgs, occasion_args};
use crate::book::{Order, Written};
use crate::export::pdf::{LabelRun, LabelSheet, label_frame, labels, pdf_of};
use crate::piece::HouseStyle;
use crate::stock::Stock;
use crate::store;

/// Most orders whose labels are printed at once; more than any one event has.
const MOST_ORDERS: usize = 10_000;
/// No sheet has more labels.
const MOST_LABELS: u32 = 400;

/// Whose labels are printed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LabelledOrders {
    /// Those of orders in these files.
    Files(Vec<PathBuf>),
    /// Those of all orders of an occasion.
    Occasion(OccasionArgs),
}

/// Whose labels, and on which sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct LabelArgs {
    /// The orders.
    pub of: LabelledOrders,
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
        of: if args.has("occasion") {
            LabelledOrders::Occasion(occasion_args(args, "labels")?)
        } else {
            LabelledOrders::Files(args.some_files("labels", MOST_ORDERS)?)
        },
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
    match &args.of {
        LabelledOrders::Files(files) => {
            let loaded: Vec<LoadedOrder> =
                files.iter().map(|file| LoadedOrder::read(file, shop)).collect::<Result<_, _>>()?;
            let Some(first) = loaded.first() else { return Err(CliError::Usage("labels needs an order.".to_owned())) };
            let orders: Vec<&Order> = loaded.iter().map(|loaded| &loaded.order).collect();
            let listed = write_labels(args, &orders, &args.run(&first.stock, &first.style, first.written))?;
            Ok((listed, loaded.into_iter().flat_map(|loaded| loaded.warnings).collect()))
        }
        LabelledOrders::Occasion(of) => {
            let gathered = GatheredOrders::read(of)?;
            let shop = &gathered.shop;
            let run = args.run(shop.stock(), shop.style(), shop.written());
            let listed = write_labels(args, &gathered.lent(), &run)?;
            Ok((listed, gathered.warnings))
        }
    }
}

impl LabelArgs {
    fn run<'a>(&self, stock: &'a Stock, style: &'a HouseStyle, written: Written) -> LabelRun<'a> {
        LabelRun { sheet: self.sheet, first: self.first, with_balance: self.with_balance, stock, style, written }
    }
}

/// The files made, a line each.
fn write_labels(args: &LabelArgs, orders: &[&Order], run: &LabelRun<'_>) -> Result<String, CliError> {
    let mut papers = vec![("labels.pdf", labels(orders, run)?)];
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
    Ok(listed.concat())
}
