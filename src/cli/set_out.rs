//! Arranging an order from the command line: the same command writes the same bytes, on every run and computer.

use serde_json::{Value, json};

use super::LoadedOrder;
use super::cli_error::CliError;
use super::loaded_order::with_stops;
use crate::book::{Order, WearerStops};
use crate::once_over::{Subject, look_over};
use crate::set_out::{LayoutSearch, NoProposal, Proposal, SearchOptions};
use crate::store;

/// The order and the reports on it.
pub(super) struct SetOutResult {
    /// The order with its new layout, as text for a file.
    pub(super) text: String,
    /// The report for people.
    pub(super) says: String,
    /// The report for machines.
    pub(super) report: Value,
}

/// Sets the piece of an order out. A piece that is as good as can be is written as it is.
pub(super) fn arrange(loaded: &LoadedOrder, seed: u64, for_ms: u32) -> Result<SetOutResult, CliError> {
    let order = &loaded.order;
    let size = order.size.as_ref().and_then(|name| loaded.style.size(name));
    let stock = WearerStops::of(order, &loaded.stock).stock_to_propose();
    let subject = Subject { piece: &order.piece, stock: &stock, style: &loaded.style, wrist: &order.wrist };
    let mut search = LayoutSearch::new(subject, size, seed).map_err(|why| CliError::Failed(why.to_string()))?;
    let options = SearchOptions::within_ms(for_ms, search.n_parts(), seed);
    search.rounds(options.rounds);
    match search.proposal() {
        Ok(proposal) => {
            let piece = order.piece.apply(&proposal.edit).map_err(|refusal| CliError::Failed(refusal.to_string()))?;
            let after = Order { piece, ..order.clone() };
            let report = with_stops(report(&proposal, options, for_ms), &after, &loaded.stock);
            Ok(SetOutResult { text: store::order_to_text(&after), says: text_of(&proposal), report })
        }
        Err(why @ NoProposal::NothingBetter) => {
            let mark = look_over(subject).score;
            Ok(SetOutResult {
                text: store::order_to_text(order),
                says: format!("{why}\n"),
                report: with_stops(
                    json!({
                        "says": why.to_string(), "mark_before": mark, "mark_after": mark, "seed": seed, "for_ms": for_ms,
                        "rounds": options.rounds, "tries": search.n_tries(),
                    }),
                    order,
                    &loaded.stock,
                ),
            })
        }
        Err(why) => Err(CliError::Failed(why.to_string())),
    }
}

fn text_of(proposal: &Proposal) -> String {
    let marks = format!("From {:.1} to {:.1} of 100.", proposal.score_before, proposal.score_after);
    let crowded = proposal.crowded.as_ref().map_or(String::new(), |c| {
        let offers: Vec<&str> = c.offers.iter().map(|o| o.label.as_str()).collect();
        let helps = if offers.is_empty() { String::new() } else { format!(" What helps: {}.", offers.join("; ")) };
        format!("{}{helps}\n", c.says)
    });
    format!("{}\n{marks}\n{crowded}", proposal.says)
}

/// Milliseconds are those asked for: what a clock would say differs from run to run.
fn report(proposal: &Proposal, options: SearchOptions, for_ms: u32) -> Value {
    let crowded = proposal.crowded.as_ref().map(|c| {
        let offers: Vec<&str> = c.offers.iter().map(|o| o.label.as_str()).collect();
        json!({ "says": c.says, "offers": offers })
    });
    json!({
        "says": proposal.says,
        "mark_before": proposal.score_before,
        "mark_after": proposal.score_after,
        "seed": options.seed,
        "for_ms": for_ms,
        "rounds": options.rounds,
        "tries": proposal.n_tries,
        "crowded": crowded,
    })
}
