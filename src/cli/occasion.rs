//! The commands about an occasion: what to buy for it, who makes what when. They read a shop's folder and its orders.

use std::path::PathBuf;

use super::args::Args;
use super::cli_error::CliError;
use super::loaded_order::json_text;
use crate::book::{Occasion, OccasionMark, Order, OrderState, occasions, occasions_called, safety_lines};
use crate::export::{bench_json, bench_text, market_csv, market_json, market_text, no_market_words};
use crate::paperwork::{Effort, Makers, bench_day, market_list};
use crate::store::Shop;

/// How a report is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ReportFormat {
    /// For people.
    Text,
    /// For machines.
    Json,
    /// For a spreadsheet.
    Csv,
}

/// Which occasion of which shop.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OccasionArgs {
    /// The shop's folder.
    pub shop: PathBuf,
    /// The occasion: its id, its name, a day or a span of days.
    pub occasion: String,
}

/// What to buy.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MarketArgs {
    /// For what.
    pub of: OccasionArgs,
    /// How it is written.
    pub form: ReportFormat,
}

/// Who makes what when.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BenchArgs {
    /// For what.
    pub of: OccasionArgs,
    /// Who is there.
    pub makers: Makers,
    /// For machines.
    pub json: bool,
}

/// Reads shop and occasion.
pub(super) fn occasion_args(args: &Args, command: &str) -> Result<OccasionArgs, String> {
    let shop = match &args.words[1..] {
        [shop] => PathBuf::from(shop),
        [] => return Err(format!("{command} needs the shop\u{2019}s folder.")),
        _ => return Err(format!("{command} takes one shop\u{2019}s folder.")),
    };
    let occasion = args.text("occasion").ok_or(format!("{command} needs an occasion: add --occasion ID."))?;
    Ok(OccasionArgs { shop, occasion })
}

/// Reads what was typed after `market`.
pub(super) fn market_args(args: &Args) -> Result<MarketArgs, String> {
    let form = match (args.has("json"), args.has("csv")) {
        (true, true) => return Err("Choose one of --json and --csv.".to_owned()),
        (true, false) => ReportFormat::Json,
        (false, true) => ReportFormat::Csv,
        (false, false) => ReportFormat::Text,
    };
    Ok(MarketArgs { of: occasion_args(args, "market")?, form })
}

/// Reads what was typed after `bench`.
pub(super) fn bench_args(args: &Args) -> Result<BenchArgs, String> {
    let of = occasion_args(args, "bench")?;
    let count = args.number("makers", 1..=50)?.ok_or("bench needs makers: add --makers N.")?;
    let usual = Makers::usual(count);
    let hours = args.number("hours", 1..=16)?.map_or(usual.minutes_each, |hours: u32| hours * 60);
    let makers = Makers { minutes_each: hours, bows_ahead: args.has("bows-ahead"), ..usual };
    if makers.begin + makers.minutes_each >= crate::paperwork::MINUTES_A_DAY {
        return Err("--hours is at most 15: a bench day begins at 8 and ends that day.".to_owned());
    }
    Ok(BenchArgs { of, makers, json: args.has("json") })
}

/// The orders of an occasion.
#[derive(Debug)]
pub(super) struct GatheredOrders {
    pub(super) shop: Shop,
    pub(super) occasion: Occasion,
    /// All that are not cancelled, by number, then by the names of their files.
    pub(super) orders: Vec<Order>,
    pub(super) warnings: Vec<String>,
}

impl GatheredOrders {
    /// Reads the shop and gathers the orders. Refused where there is no such occasion, or several; an order that cannot be
    /// read is reported and keeps the others from nothing.
    pub(super) fn read(args: &OccasionArgs) -> Result<Self, CliError> {
        let shop = Shop::open(&args.shop)?;
        let mut warnings = shop.warnings().to_vec();
        let mut read = Vec::new();
        for entry in shop.orders() {
            match entry.order {
                Ok(saved) => read.push(saved.order),
                Err(refusal) => warnings.push(refusal.to_string()),
            }
        }
        let marks: Vec<OccasionMark> = read.iter().map(OccasionMark::of).collect();
        let mut found = occasions_called(&args.occasion, &marks);
        if found.len() != 1 {
            return Err(CliError::Failed(none_or_several(&args.occasion, &found, &occasions(&marks))));
        }
        let occasion = found.remove(0);
        let mut orders: Vec<Order> = read
            .into_iter()
            .zip(&marks)
            .filter(|(order, mark)| occasion.holds(mark) && order.state() != OrderState::Cancelled)
            .map(|(order, _)| order)
            .collect();
        if orders.is_empty() {
            return Err(CliError::Failed(format!("No order belongs to {}.", args.occasion)));
        }
        orders.sort_by_key(|order| order.number.unwrap_or(u32::MAX));
        let stops = |order: &Order| -> Vec<String> {
            let title = order.title();
            safety_lines(order, shop.stock()).into_iter().map(|line| format!("{title}: {line}")).collect()
        };
        warnings.extend(orders.iter().flat_map(stops));
        Ok(Self { shop, occasion, orders, warnings })
    }

    /// Its orders, lent.
    pub(super) fn lent(&self) -> Vec<&Order> {
        self.orders.iter().collect()
    }

    fn title(&self) -> String {
        let written = self.shop.written().date;
        let name = self.occasion.name();
        let days = self.occasion.days().map(|(first, last)| {
            let first_told = first.with_weekday(written);
            if first == last { first_told } else { format!("{first_told} to {}", last.with_weekday(written)) }
        });
        let n = crate::units::counted(self.orders.len(), "order", "orders");
        let parts = [Some(name.to_owned()).filter(|n| !n.is_empty()), days, Some(n)];
        parts.into_iter().flatten().collect::<Vec<_>>().join(", ")
    }
}

fn none_or_several(asked: &str, found: &[Occasion], all: &[Occasion]) -> String {
    /// So many are named.
    const NAMED: usize = 8;
    let ids = |of: &[Occasion]| of.iter().take(NAMED).map(Occasion::id).collect::<Vec<_>>().join(", ");
    match (found.is_empty(), all.is_empty()) {
        (false, _) => format!("\u{201c}{asked}\u{201d} may be any of these: {}.", ids(found)),
        (true, false) => format!("No occasion is called \u{201c}{asked}\u{201d}. There are: {}.", ids(all)),
        (true, true) => "No order names an event or a party yet. Give days instead: 2026-05-08..2026-05-10.".to_owned(),
    }
}

/// What to buy, and warnings about the orders.
pub(super) fn market(args: &MarketArgs) -> Result<(String, Vec<String>), CliError> {
    let gathered = GatheredOrders::read(&args.of)?;
    let (shop, orders) = (&gathered.shop, gathered.lent());
    let suppliers = shop.suppliers()?;
    let list = market_list(&orders, &suppliers, shop.style(), shop.stock());
    let list = list.map_err(|why| CliError::Failed(no_market_words(&why)))?;
    let text = match args.form {
        ReportFormat::Json => json_text(&market_json(&gathered.occasion, orders.len(), &list)),
        ReportFormat::Csv => market_csv(&list),
        ReportFormat::Text => market_text(&gathered.title(), &list, &shop.style().prices.currency, shop.written().date),
    };
    Ok((text, gathered.warnings))
}

/// Who makes what when, and warnings about the orders.
pub(super) fn bench(args: &BenchArgs) -> Result<(String, Vec<String>), CliError> {
    let gathered = GatheredOrders::read(&args.of)?;
    let (shop, orders) = (&gathered.shop, gathered.lent());
    let day = bench_day(&orders, args.makers, Effort::default(), shop.style(), shop.stock());
    let text = if args.json {
        json_text(&bench_json(&gathered.occasion, &orders, args.makers, &day))
    } else {
        bench_text(&gathered.title(), &orders, args.makers, &day, shop.written().hour)
    };
    Ok((text, gathered.warnings))
}
