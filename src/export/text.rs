//! Papers as plain text, for people: the once-over and the stem list.

use std::fmt::Write as _;

use crate::book::{Order, safety_lines};
use crate::once_over::{Finding, OnceOver};
use crate::paperwork::{Price, StemList, cautions_of, chills_there, full_price};
use crate::piece::{PriceRule, Worn};
use crate::stock::{STANDING_LINE, Stock};
use crate::units::{counted, minutes_text};

/// The once-over, a line a question.
pub fn once_over_text(order: &Order, over: &OnceOver) -> String {
    let (m, unit) = (&over.measures, order.wrist.girth.unit());
    let points: f64 = over.findings.iter().map(Finding::points).sum();
    let weights: f64 = over.findings.iter().map(|f| f.weight).sum();
    let sum = format!("{points:.1} of the {weights:.0} points that apply");
    let mut text = format!("{}\nOnce-over: score {:.0} of 100 ({sum})\n\n", heading(order), over.whole_score());
    for found in &over.findings {
        let sign = if found.is_well() { " " } else { ">" };
        let points = format!("{:.1} of {:.0}", found.points(), found.weight);
        // Writing to a String cannot fail.
        _ = writeln!(text, "{sign} {:<20} {points:>13}   {}", found.question.title(), found.says());
        for remedy in &found.remedies {
            _ = writeln!(text, "{:40}{}", "", format_args!("fix: {}", remedy.label()));
        }
    }
    for (question, reason) in &order.piece.wishes.ignored {
        let why = if reason.is_empty() { String::new() } else { format!(": {reason}") };
        _ = writeln!(text, "  {:<20} {:>13}   Ignored for this piece{why}.", question.title(), "not checked");
    }
    _ = writeln!(
        text,
        "\n{} along the arm, {} across; {:.0} % of the oval covered; {}",
        unit.short(m.along_mm),
        unit.short(m.across_mm),
        m.cover_fraction() * 100.0,
        counted(m.room.len(), "gap", "gaps"),
    );
    text
}

/// The stem list and the price, with what to be careful of.
pub fn stems_text(order: &Order, stems: &StemList, price: &Price, rule: &PriceRule, stock: &Stock) -> String {
    let mut text = format!("{}\nStem list\n\n", heading(order));
    for line in safety_lines(order, stock) {
        _ = writeln!(text, "! {line}");
    }
    for l in &stems.lines {
        let to_come = if l.to_place > 0 { format!("  ({} still to place)", l.to_place) } else { String::new() };
        let what = format!("{}, {}", l.name, l.colour);
        let stems = counted(l.stems as usize, "stem", "stems");
        _ = writeln!(text, "{:>4} {:<8} {what:<36} {stems:>9}{to_come}", l.pieces, role_word(l.role, l.pieces));
    }
    for h in &stems.hard {
        let amount = match h.length_mm {
            Some(mm) => order.wrist.girth.unit().cut_text(mm),
            None => h.count.to_string(),
        };
        _ = writeln!(text, "{amount:>13} {}", h.name);
    }
    _ = writeln!(
        text,
        "\nMaking: {}   Price: {}",
        minutes_text(stems.minutes),
        full_price(price.rounded, &rule.currency)
    );
    _ = writeln!(text, "About {:.0} g (estimate).", stems.mass_g);
    text + &cautions_text(stems, order, stock)
}

/// The rows of the stem list of an order's piece for CSV, head first.
pub fn stems_rows(order: &Order, stems: &StemList) -> (Vec<&'static str>, Vec<Vec<String>>) {
    let head =
        vec!["stock", "name", "colour", "role", "pieces", "to_place", "stems", "length_mm", "cost_cents", "piece"];
    let piece = match order.piece.worn {
        Worn::Wrist => "wrist",
        Worn::Lapel => "boutonniere",
    };
    let fresh = stems.lines.iter().map(|l| {
        let (role, _) = l.role.words();
        vec![
            l.stock.to_string(),
            l.name.clone(),
            l.colour.to_string(),
            role.to_owned(),
            l.pieces.to_string(),
            l.to_place.to_string(),
            l.stems.to_string(),
            String::new(),
            l.cost.0.to_string(),
            piece.to_owned(),
        ]
    });
    let hard = stems.hard.iter().map(|h| {
        let length = h.length_mm.map_or_else(String::new, |mm| format!("{mm:.1}"));
        let (none, role) = (String::new(), "hard".to_owned());
        let count = h.count.to_string();
        let cost = h.cost.0.to_string();
        let nothing = "0".to_owned();
        let piece = piece.to_owned();
        vec![h.stock.to_string(), h.name.clone(), none.clone(), role, count, nothing, none, length, cost, piece]
    });
    (head, fresh.chain(hard).collect())
}

fn cautions_text(stems: &StemList, order: &Order, stock: &Stock) -> String {
    let mut text = "\nCautions\n".to_owned();
    for (caution, names) in cautions_of(stems, order, stock) {
        _ = writeln!(text, "- {}: {}", names.join(", "), caution.sentence());
    }
    for flower in chills_there(stems, stock) {
        _ = writeln!(text, "- {}", flower.says());
    }
    text + STANDING_LINE + "\n"
}

fn heading(order: &Order) -> String {
    let dance = if order.dance.is_empty() { String::new() } else { format!(", {}", order.dance) };
    if order.piece.worn == Worn::Lapel {
        return format!("{}{dance}\nfor the lapel", order.title());
    }
    let wrist = format!("{} wrist, {}", order.wrist.side.word(), order.wrist.girth.shown());
    let of_two = if order.partner_piece.is_some() { "\nWrist corsage, 1 of 2 pieces" } else { "" };
    format!("{}{dance}\n{wrist}{of_two}", order.title())
}

fn role_word(role: crate::stock::Role, n: u32) -> &'static str {
    let (one, many) = role.words();
    if n == 1 { one } else { many }
}
