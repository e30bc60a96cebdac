//! The market list for people, for a spreadsheet and for machines. Money in JSON and CSV is whole cents, days are
//! `2026-05-02`.

use std::fmt::Write as _;

use serde_json::{Value, json};

use super::csv_of;
use crate::book::{DateStyle, Occasion};
use crate::paperwork::{MarketBuy, MarketLine, MarketList, NoMarket, short_price};
use crate::units::{Cents, Currency, ceil_u32, counted};

/// The columns, in the order in which they stand.
const COLUMNS: [&str; 10] = [
    "stock",
    "colour",
    "heads",
    "heads_with_spare",
    "stems",
    "bunches",
    "supplier",
    "cost_cents",
    "leftover_heads",
    "order_by",
];

/// A line for each kind, colour and supplier. What two suppliers share out between them is counted on the first line alone.
pub fn market_csv(list: &MarketList) -> String {
    let rows: Vec<Vec<String>> = list.lines.iter().flat_map(csv_rows).collect();
    csv_of(&COLUMNS, &rows)
}

fn csv_rows(line: &MarketLine) -> Vec<Vec<String>> {
    let row = |i: usize, buy: Option<&MarketBuy>| {
        let once = |n: u32| if i == 0 { n.to_string() } else { String::new() };
        vec![
            line.stock.to_string(),
            line.colour.to_string(),
            once(line.heads),
            once(line.heads_with_spare),
            once(line.stems),
            buy.map_or(0, |buy| buy.packs).to_string(),
            buy.map(|buy| buy.supplier.clone()).unwrap_or_default(),
            buy.map_or(0, |buy| buy.cost.0).to_string(),
            once(line.leftover_heads),
            buy.and_then(|buy| buy.order_by).map(|day| day.to_string()).unwrap_or_default(),
        ]
    };
    if line.buys.is_empty() {
        return vec![row(0, None)];
    }
    line.buys.iter().enumerate().map(|(i, buy)| row(i, Some(buy))).collect()
}

/// The list for machines.
pub fn market_json(occasion: &Occasion, n_orders: usize, list: &MarketList) -> Value {
    let day = |day: Option<crate::book::Day>| day.map(|day| day.to_string());
    let lines = list.lines.iter().map(|line| {
        let buys = line.buys.iter().map(|buy| {
            json!({
                "supplier": buy.supplier,
                "bunches": buy.packs,
                "stems_each": buy.stems_each,
                "cost_cents": buy.cost.0,
                "order_by": day(buy.order_by),
            })
        });
        let first = line.buys.first();
        json!({
            "stock": line.stock.as_str(),
            "colour": &*line.colour,
            "heads": line.heads,
            "heads_with_spare": line.heads_with_spare,
            "stems": line.stems,
            "bunches": line.packs(),
            "supplier": line.buys.iter().map(|buy| buy.supplier.as_str()).collect::<Vec<_>>().join("; "),
            "cost_cents": line.cost().0,
            "leftover_heads": line.leftover_heads,
            "order_by": day(line.buys.iter().filter_map(|buy| buy.order_by).min().or(first.and_then(|b| b.order_by))),
            "stems_in_cooler": line.in_cooler,
            "stems_alone": line.stems_alone,
            "out_of_season": line.out_of_season,
            "buys": buys.collect::<Vec<_>>(),
        })
    });
    let goods = list.goods.iter().map(|line| {
        json!({
            "stock": line.stock.as_str(),
            "colour": &*line.colour,
            "count": line.count,
            "length_mm": line.length_mm,
            "grams": line.grams,
            "cost_cents": line.cost.0,
        })
    });
    let suppliers = list.suppliers.iter().map(|to| {
        json!({
            "name": to.name,
            "packs_cents": to.packs_cost.0,
            "delivery_cents": to.delivery.0,
            "order_by": day(to.order_by),
        })
    });
    json!({
        "occasion": occasion.id(),
        "orders": n_orders,
        "lines": lines.collect::<Vec<_>>(),
        "goods": goods.collect::<Vec<_>>(),
        "suppliers": suppliers.collect::<Vec<_>>(),
        "flowers_cents": list.flowers.0,
        "deliveries_cents": list.deliveries.0,
        "hard_goods_cents": list.hard_goods.0,
        "materials_cents": list.materials().0,
        "sales_cents": list.sales.0,
        "alone_cents": list.alone.map(|alone| alone.0),
        "unproven_cents": list.unproven.0,
    })
}

/// The list for people, supplier by supplier.
pub fn market_text(title: &str, list: &MarketList, currency: &Currency, dates: DateStyle) -> String {
    let money = |sum: Cents| short_price(sum, currency);
    let mut text = format!("{title}\n");
    for to in &list.suppliers {
        let by = to.order_by.map(|day| format!(", order by {}", day.with_weekday(dates))).unwrap_or_default();
        // Writing to a String cannot fail.
        _ = writeln!(text, "\n{}{by}", supplier_name(&to.name));
        for (line, buy) in bought_from(list, &to.name) {
            _ = writeln!(text, "  {}", market_row(line, buy, &money));
        }
        if to.delivery != Cents(0) {
            _ = writeln!(text, "  {:<66} {:>9}", "Delivery", money(to.delivery));
        }
    }
    _ = writeln!(text, "\nFrom the shelf");
    for line in &list.goods {
        _ = writeln!(text, "  {:<66} {:>9}", goods_words(line), money(line.cost));
    }
    _ = writeln!(text);
    for (what, told) in market_sums(list, &money) {
        _ = writeln!(text, "{what:<28} {told}");
    }
    for line in list.lines.iter().filter(|line| line.out_of_season.is_some()) {
        _ = writeln!(text, "{}", out_of_season_words(line));
    }
    text
}

/// Who sells it, where that is known.
pub(super) fn supplier_name(name: &str) -> &str {
    if name.is_empty() { "No supplier named" } else { name }
}

/// What is bought from one supplier.
pub(super) fn bought_from<'a>(
    list: &'a MarketList,
    supplier: &str,
) -> impl Iterator<Item = (&'a MarketLine, &'a MarketBuy)> {
    let mine = list.lines.iter().flat_map(|line| line.buys.iter().map(move |buy| (line, buy)));
    mine.filter(move |(_, buy)| buy.supplier == supplier)
}

fn market_row(line: &MarketLine, buy: &MarketBuy, money: &dyn Fn(Cents) -> String) -> String {
    let what = format!("{}, {}", line.name, line.colour);
    let packs = counted(buy.packs as usize, "bunch", "bunches");
    format!("{what:<46} {packs:>10} of {:<5} {:>9}", buy.stems_each, money(buy.cost))
}

/// `Satin ribbon, 15 mm, white: 52 lengths, 41.2 m`
pub(super) fn goods_words(line: &crate::paperwork::MarketGoods) -> String {
    let colour = if line.colour.is_empty() { String::new() } else { format!(", {}", line.colour) };
    let much = match (line.length_mm, line.grams) {
        (_, Some(grams)) => format!("{} ({grams:.0} g)", line.count),
        // Up to the next tenth of a metre, so that a roll is not a hand short.
        (Some(mm), None) => {
            let tenths = f64::from(ceil_u32(mm / 100.0)) / 10.0;
            format!("{} ({tenths:.1} m)", counted(line.count as usize, "length", "lengths"))
        }
        (None, None) => line.count.to_string(),
    };
    format!("{}{colour}: {much}", line.name)
}

/// What the list comes to, with the share of the sales.
pub(super) fn market_sums(list: &MarketList, money: &dyn Fn(Cents) -> String) -> Vec<(&'static str, String)> {
    let share = |cost: Cents| {
        let percent = 100.0 * cost.0 as f64 / list.sales.0.max(1) as f64;
        if list.sales.0 > 0 { format!("{}, {percent:.1} % of sales", money(cost)) } else { money(cost) }
    };
    let mut sums = vec![("Flowers and greens", share(list.flowers))];
    if list.deliveries != Cents(0) {
        sums.push(("Deliveries", money(list.deliveries)));
    }
    sums.push(("All materials", share(list.materials())));
    sums.push(("Sales, without tax", money(list.sales)));
    if let Some(alone) = list.alone {
        let saved = alone - list.flowers;
        sums.push(("Bought piece by piece", format!("{}, {} more", money(alone), money(saved))));
    }
    if list.unproven != Cents(0) {
        sums.push(("May be cheaper by at most", money(list.unproven)));
    }
    sums
}

/// `Ranunculus, white, is out of season in November.`
pub(super) fn out_of_season_words(line: &MarketLine) -> String {
    let month = line.out_of_season.unwrap_or_default();
    format!("{}, {}, is out of season in {month}.", line.name, line.colour)
}

/// Why there is no list, as a sentence.
pub fn no_market_words(why: &NoMarket) -> String {
    match why {
        NoMarket::TooMuch => "There is more to weigh than one list holds: take fewer days at a time.".to_owned(),
        NoMarket::Short(short) => {
            let named = |(name, colour, stems): &(String, std::sync::Arc<str>, u32)| {
                format!("{} of {name}, {colour}", counted(*stems as usize, "stem", "stems"))
            };
            let all: Vec<String> = short.iter().map(named).collect();
            format!("Not to be had: {}. Add a supplier, or swap them.", crate::book::listed(&all))
        }
    }
}
