//! One bill for the orders of a party.

use std::fmt::Write as _;
use std::path::{Path, PathBuf};

use super::cli_error::CliError;
use super::loaded_order::{LoadedOrder, json_text};
use crate::book::Order;
use crate::export::pdf::{PaperSize, party_bill_paper, pdf_of};
use crate::export::{party_bill_json, party_bill_text};
use crate::paperwork::party_bill;
use crate::store;

/// Which orders are billed together, and how.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PartyBillArgs {
    /// The orders, in the order in which they stand on the bill.
    pub files: Vec<PathBuf>,
    /// The file of the bill as PDF, when one is wanted.
    pub to: Option<PathBuf>,
    /// What that is printed on.
    pub paper: PaperSize,
    /// For machines.
    pub json: bool,
}

/// The bill in words, and warnings about the files. The party is the first that one of the orders names.
pub(super) fn bill_together(args: &PartyBillArgs, shop: Option<&Path>) -> Result<(String, Vec<String>), CliError> {
    let loaded: Vec<LoadedOrder> =
        args.files.iter().map(|file| LoadedOrder::read(file, shop)).collect::<Result<_, _>>()?;
    let Some(first) = loaded.first() else { return Err(CliError::Usage("party-bill needs an order.".to_owned())) };
    let orders: Vec<&Order> = loaded.iter().map(|loaded| &loaded.order).collect();
    let party = orders.iter().map(|order| order.party.trim()).find(|party| !party.is_empty()).unwrap_or_default();
    let bill = party_bill(party, &orders, &first.style, &first.stock);
    let mut text = if args.json { json_text(&party_bill_json(&bill)) } else { party_bill_text(&bill) };
    if let Some(to) = &args.to {
        let paper = party_bill_paper(&bill, &first.shop, args.paper);
        store::write_bytes(to, &pdf_of(&paper)?)?;
        if !args.json {
            _ = writeln!(text, "{}", to.display()); // writing to a String cannot fail
        }
    }
    Ok((text, loaded.into_iter().flat_map(|loaded| loaded.warnings).collect()))
}
