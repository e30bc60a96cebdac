//! What the papers say, side by side.

use std::fmt::Write as _;

use crate::book::{DateStyle, Day, Order, Written};
use crate::export::paper_kind::PaperJob;
use crate::paperwork::{BillLine, Quote};
use crate::piece::{Bow, Measured, Side, Worn};
use crate::stock::{Caution, Role, Stock};
use crate::units::{Cents, LengthUnit, counted, inches_text, minutes_text, mm_text};

pub(super) use super::making_words::{how_it_is_made, how_to_pin, lapel, stem_length, step};

/// The papers' language, as a tag (RFC 3066).
pub(super) const LANGUAGE: &str = "en";
/// Who made the file.
pub(super) const MAKER: &str = "Posywright";

pub(super) const QUOTE: &str = "Quote";
pub(super) const AGREED: &str = "Agreed";
pub(super) const BOUTONNIERE: &str = "Matching boutonniere";
pub(super) const BOUTONNIERE_WORD: &str = "Boutonniere";
pub(super) const MADE_OF: &str = "What's in the price";
pub(super) const WITHOUT_TAX: &str = "Before tax";
pub(super) const TOTAL: &str = "Total";
pub(super) const DEPOSIT: &str = "Deposit";
pub(super) const BALANCE: &str = "Balance at pick-up";
pub(super) const PAID: &str = "Paid";
pub(super) const TAX_IN_IT: &str = "Tax in the total";
pub(super) const EACH_PRICED_ALONE: &str = "Each order is priced by itself; the total is their sum.";
pub(super) const PRICE_AGREED: &str = "Agreed price";
pub(super) const DEPOSIT_AGREED: &str = "Deposit";
pub(super) const CHANGED_SINCE: &str = "Changes since agreed";
pub(super) const NOTHING_CHANGED: &str = "No changes.";
pub(super) const SIGNED_CLIENT: &str = "Client's signature";
pub(super) const SIGNED_SHOP: &str = "Shop's signature";
pub(super) const FOR_THE_CLIENT: &str = "Client's copy";
pub(super) const FOR_THE_BOOK: &str = "Shop's copy";
pub(super) const PAID_ON: &str = "Paid on";
pub(super) const RECEIVED_BY: &str = "Received by";

/// The number under which the shop is known for tax.
pub(super) fn tax_number(number: &str) -> String {
    format!("Tax no. {number}")
}

pub(super) const IN_IT: &str = "Flowers and materials";
pub(super) const CAUTIONS: &str = "Cautions";
pub(super) const COLOURS_ON_PAPER: &str =
    "Colours are a guide: hold the real ribbon against the dress. No two flowers are alike.";
/// Common practice, no source.
pub(super) const NEAR_FLAMES: &str = "Keep flowers and ribbon away from candles and other flames.";

pub(super) const TO_THE_ELBOW: &str = "to the elbow";
pub(super) const TO_THE_HAND: &str = "to the hand";
pub(super) const THUMB_SIDE: &str = "thumb side";
/// What the bench must not overlook, and the notes of the order.
pub(super) fn notes(order: &Order, stock: &Stock) -> String {
    let told = order.for_the_bench(stock).join(" ");
    [told.as_str(), order.notes.trim()].into_iter().filter(|words| !words.is_empty()).collect::<Vec<_>>().join("\n")
}

/// What nobody has asked yet, for the client to tell.
pub(super) const PLEASE_TELL: &str =
    "Please tell us of a pacemaker or implant, scent, a watch or bandage, an arm to spare.";

/// `Made without baby's breath and latex.`
pub(super) fn made_without(names: &[String]) -> String {
    format!("Made without {}.", crate::book::listed(names))
}

pub(super) const NOTES: &str = "Notes";
pub(super) const STEPS: &str = "Steps";
pub(super) const NOTHING_YET: &str = "No flowers placed yet.";
pub(super) const MADE_BY: &str = "Made by _______________   Minutes taken ______";

pub(super) const PRINT_AT_100: &str = "Print at 100 %, do not fit to page.";
pub(super) const CHECK_BAR: &str = "This bar must measure 100 mm: check it with a ruler first.";
pub(super) const LINES_MEAN: &str =
    "Lines: dashed is flat on the base, thin is raised, thick is top, pale is bow loops.";
pub(super) const SHOP_COPY: &str = "Shop only: shows costs and suppliers. Not for the client.";
pub(super) const COSTS_ARE: &str = "Costs are for the heads used, not whole bunches. Prices and suppliers: stock list.";

/// Time and price of the one piece that a bill is for; what the order comes to stands on the quote.
pub(super) fn piece_price(making: &str, price: &str) -> String {
    format!("Making {making}. Price of this piece by the shop rules: {price}.")
}

/// What stands at the foot of a sheet.
pub(super) fn foot(title: &str, sheet: usize, of: usize) -> String {
    if of == 1 { title.to_owned() } else { format!("{title}   {sheet} of {of}") }
}

/// The title of a paper about an order.
pub(super) fn title(paper: &str, order: &Order) -> String {
    let dance = order.dance.trim();
    let dance = if dance.is_empty() { String::new() } else { format!(", {dance}") };
    let number = order.number.map_or_else(String::new, |_| format!("{}, ", order.number_text()));
    format!("{number}{}{dance} \u{2013} {paper}", order.title())
}

/// Who it is for, as large as the sheet allows.
pub(super) fn wearer(order: &Order) -> String {
    let name = order.wearer.trim();
    if name.is_empty() { "No name yet".to_owned() } else { name.to_owned() }
}

/// Number, dance and size.
pub(super) fn occasion(order: &Order) -> String {
    let number = order.number_text();
    let size = order.size.clone().unwrap_or_default();
    let pieces = match (&order.partner_piece, size.as_str()) {
        (None, _) => size,
        (Some(_), "") => "wrist corsage and boutonniere".to_owned(),
        (Some(_), size) => format!("{size} and boutonniere"),
    };
    let parts: Vec<&str> =
        [number.as_str(), order.dance.trim(), &pieces].into_iter().filter(|p| !p.is_empty()).collect();
    parts.join(" \u{b7} ")
}

/// What a party is called on its bill.
pub(super) fn party_name(party: &str) -> &str {
    if party.trim().is_empty() { "Orders together" } else { party.trim() }
}

/// The title of a party's bill.
pub(super) fn party_bill_title(party: &str) -> String {
    format!("{} \u{2013} Bill", party_name(party))
}

/// What is still to pay, or what goes back when more was paid than it comes to; the amount is never below nothing.
pub(super) fn due(due: Cents) -> (&'static str, Cents) {
    if due.0 < 0 { ("Refund due", Cents(due.0.saturating_neg())) } else { ("Balance due", due) }
}

/// The day on which the price was quoted.
pub(super) fn quoted_on(day: Day, style: DateStyle) -> String {
    format!("Quoted on {}.", day.written(style))
}

/// The day of the yes.
pub(super) fn agreed_on(day: Day, style: DateStyle) -> String {
    format!("Agreed on {}", day.written(style))
}

/// Who paid: the payer, else the wearer.
pub(super) fn received_from(order: &Order) -> String {
    let payer = order.people.payer.trim();
    format!("Received from {}", if payer.is_empty() { wearer(order) } else { payer.to_owned() })
}

/// For which order.
pub(super) fn received_for(job: &PaperJob<'_>) -> String {
    format!("for {}", job.order.title_line_in(job.written))
}

/// What the client's papers say about days and people, a line each: event, pick-up, last day to change, who pays.
pub(super) fn days_for_client(order: &Order, written: Written) -> Vec<String> {
    let line = |what: &str, said: String| (!said.is_empty()).then(|| format!("{what}: {said}"));
    [
        line("Event", event(order, written)),
        line("Pick-up", pickup(order, written)),
        line("Changes until", order.last_change.written(written)),
        line("Paid by", order.people.payer.trim().to_owned()),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// What an agreement says of them besides its first line, which tells place, partner and pick-up.
pub(super) fn days_besides_title(order: &Order, written: Written) -> String {
    let line = |what: &str, said: &str| (!said.is_empty()).then(|| format!("{what}: {said}"));
    let lines = [
        line("Event", &order.event_day.written(written)),
        line("Collected by", order.collected_by.trim()),
        line("Changes until", &order.last_change.written(written)),
        line("Paid by", order.people.payer.trim()),
    ];
    lines.into_iter().flatten().collect::<Vec<_>>().join(" \u{b7} ")
}

/// What a bench card says of them on one line.
pub(super) fn days_for_bench(order: &Order, written: Written) -> String {
    let parts = [("Pick-up", pickup(order, written)), ("Event", event(order, written))];
    let lines = parts.into_iter().filter(|(_, said)| !said.is_empty()).map(|(what, said)| format!("{what}: {said}"));
    lines.collect::<Vec<_>>().join(" \u{b7} ")
}

/// Day, place and partner of the event.
pub(super) fn event(order: &Order, written: Written) -> String {
    let partner = order.people.partner.trim();
    let partner = if partner.is_empty() { String::new() } else { format!("with {partner}") };
    joined(&[&order.event_day.written(written), order.place.trim(), &partner])
}

/// Day and hour of the pick-up, and who comes.
pub(super) fn pickup(order: &Order, written: Written) -> String {
    let by = order.collected_by.trim();
    let by = if by.is_empty() { String::new() } else { format!("by {by}") };
    joined(&[&order.wanted.written(written), &by])
}

/// Whom the shop calls: who pays, and the phone. For the shop alone.
pub(super) fn contact(order: &Order) -> String {
    joined(&[order.people.payer.trim(), order.people.phone.trim()])
}

pub(super) fn joined(parts: &[&str]) -> String {
    parts.iter().filter(|part| !part.is_empty()).copied().collect::<Vec<_>>().join(", ")
}

/// What was agreed, and when the rest is paid.
pub(super) fn receipt_days(job: &PaperJob<'_>, quote: &Quote, money: &dyn Fn(Cents) -> String) -> Vec<String> {
    let PaperJob { order, written, .. } = *job;
    let agreed = order.agreed.as_deref().map(|a| match a.deposit {
        Some(deposit) => format!("Deposit of {} agreed on {}.", money(deposit), a.on.written(written.date)),
        None => format!("Agreed on {}.", a.on.written(written.date)),
    });
    let rest = (quote.due.0 > 0).then(|| match order.wanted.written(written).as_str() {
        "" => "Balance due at pick-up.".to_owned(),
        when => format!("Balance due at pick-up: {when}."),
    });
    [agreed, rest].into_iter().flatten().collect()
}

/// Which wrist or lapel, in capitals.
pub(super) fn where_worn(order: &Order) -> &'static str {
    let side = match order.piece.worn {
        Worn::Wrist => order.wrist.side,
        Worn::Lapel => order.piece.lapel.side,
    };
    match side {
        Side::Left => "LEFT",
        Side::Right => "RIGHT",
    }
}

/// What it is worn on, in capitals.
pub(super) fn worn_on(order: &Order) -> &'static str {
    match order.piece.worn {
        Worn::Wrist => "WRIST",
        Worn::Lapel => "LAPEL",
    }
}

/// Which wrist, or the lapel.
pub(super) fn where_worn_in_full(order: &Order) -> String {
    format!("{} {}", where_worn(order), worn_on(order))
}

/// Where the piece goes, for the client.
pub(super) fn for_which(order: &Order) -> String {
    match order.piece.worn {
        Worn::Lapel => format!("A boutonniere for the {}", lapel(order)),
        Worn::Wrist => format!("For the {} wrist, {}", order.wrist.side.word(), order.wrist.girth.shown()),
    }
}

/// The girth and how it is known.
pub(super) fn girth(order: &Order) -> String {
    let known = match order.wrist.measured {
        Measured::Tape => "measured",
        Measured::Told => "told by the client, not measured",
        Measured::NotYet => "NOT MEASURED, usual size shown",
    };
    format!("{}, {known}", order.wrist.girth.shown())
}

/// The unit of an order's lengths: the one that its wrist was measured in.
pub(super) fn unit(order: &Order) -> LengthUnit {
    order.wrist.girth.unit()
}

/// The size of the oval.
pub(super) fn oval(order: &Order) -> String {
    let oval = order.piece.footprint;
    let unit = unit(order);
    let (long, wide) = (unit.short(oval.length_mm), unit.short(oval.width_mm));
    match order.piece.worn {
        Worn::Wrist => format!("{long} along the arm, {wide} across"),
        Worn::Lapel => format!("{long} high, {wide} wide"),
    }
}

/// How far up the arm the piece sits.
pub(super) fn seat(order: &Order) -> Option<String> {
    let offset = order.piece.footprint.offset_mm;
    (order.piece.worn == Worn::Wrist).then(|| format!("centre {} above the wrist crease", unit(order).short(offset)))
}

/// How a bow is tied, from which length of ribbon.
pub(super) fn bow_recipe(bow: &Bow, ribbon: &str, ribbon_mm: f64, unit: LengthUnit) -> String {
    let mut text = format!("Cut {} of {ribbon}, {}. ", unit.cut_text(ribbon_mm), bow.colour);
    let loops = counted(bow.loops_a_side as usize, "loop", "loops");
    // Writing to a String cannot fail.
    _ = write!(text, "{loops} a side, {}", unit.short(bow.loop_length_mm));
    if bow.tails > 0 {
        let tails = counted(bow.tails as usize, "tail", "tails");
        _ = write!(text, "; {tails}, {}", unit.short(bow.tail_length_mm));
    }
    text + if bow.centre_loop { "; a small loop over the knot." } else { "." }
}

/// A bow for the client.
pub(super) fn bow_for_client(bow: &Bow, ribbon: &str) -> String {
    let weave = ribbon.split(',').next().unwrap_or(ribbon);
    format!("{} {} bow", upper_first(&bow.colour), weave.to_lowercase())
}

fn upper_first(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// `5 blooms`.
pub(super) fn count_of(role: Role, n: u32) -> String {
    let (one, many) = role.words();
    counted(n as usize, one, many)
}

/// Name and colour of a line.
pub(super) fn what(line: &BillLine) -> String {
    if line.colour.is_empty() { line.name.clone() } else { format!("{}, {}", line.name, line.colour) }
}

/// The sizes of a line's parts: `30 mm`, `28 to 32 mm`.
pub(super) fn sizes(line: &BillLine, unit: LengthUnit) -> String {
    match line.sizes_mm {
        None => String::new(),
        Some((least, most)) if unit.short(least) == unit.short(most) => unit.short(least),
        Some((least, most)) if unit.is_inch() => format!("{} to {}", inches_text(least), unit.short(most)),
        Some((least, most)) => format!("{} to {}", mm_text(least), unit.short(most)),
    }
}

/// How much of a line is used: heads, or a length of a roll.
pub(super) fn amount(line: &BillLine, unit: LengthUnit) -> String {
    match (line.length_mm, line.role) {
        (Some(mm), _) => unit.cut_text(mm),
        (None, Some(role)) => count_of(role, line.count),
        (None, None) => line.count.to_string(),
    }
}

/// Stems and the bunch they come from: `2 of 10`.
pub(super) fn stems(line: &BillLine) -> String {
    match (line.stems, line.stems_per_bunch) {
        (Some(n), Some(bunch)) => format!("{n} (bunch of {bunch})"),
        (Some(n), None) => n.to_string(),
        (None, _) => String::new(),
    }
}

/// What is promised but not on the sketch.
pub(super) fn still_to_place(n: u32) -> String {
    format!("{n} still to place, where there is room.")
}

/// Minutes of a step, where they are planned.
pub(super) fn minutes(minutes: f64) -> String {
    if minutes > 0.0 { minutes_text(minutes) } else { String::new() }
}

/// All minutes and the mass.
pub(super) fn total_minutes(minutes: f64, mass_g: f64) -> String {
    format!("Total {}. About {mass_g:.0} g (estimate).", minutes_text(minutes))
}

/// A caution with what it is for.
pub(super) fn caution(names: &[String], sentence: &str) -> String {
    format!("{}: {sentence}", names.join(", "))
}

/// A caution as the wearer needs it; none where it is the maker's alone.
pub(super) fn client_caution(caution: Caution) -> Option<&'static str> {
    match caution {
        Caution::SkinIrritant => Some("Sap can redden skin. Take it off if the skin itches."),
        Caution::Allergen => Some("Known allergen. Tell us about any allergy beforehand."),
        Caution::PoisonByMouth => Some("Poisonous if eaten: keep away from children, animals, food and plates."),
        Caution::PollenStain => Some("Pollen stains cloth: keep it off a pale dress."),
        Caution::Dye => Some("Dye may mark cloth: keep it off a pale dress."),
        Caution::Spine => Some("May have a prickle or sharp end: handle with care."),
        Caution::Latex => Some("May contain latex: tell us about a latex allergy."),
        Caution::Nickel => Some("May contain nickel: tell us about a nickel allergy."),
        Caution::SmallParts => Some("Small parts may come off: not for children under three."),
        Caution::Aerosol => Some("Sprayed to keep it fresh: let it air; keep it away from flames."),
        Caution::Magnet => Some("Strong magnet: not with a pacemaker or other implant; out of reach of children."),
        Caution::Sunlight => Some("Sap can burn skin in sunlight: wash it off at once."),
        // The maker's alone.
        Caution::Burn | Caution::Solvent | Caution::Tuliposide => None,
    }
}

/// Where a piece is larger than the sheet.
pub(super) fn larger_than_the_sheet((wide, long): (&str, &str), n_sheets: u32) -> String {
    format!(
        "Too large for one sheet: {wide} wide and {long} long with its bow. It follows on {n_sheets} sheets, laid out as below. \
         Cut each sheet along its dashed lines and lay it on the dashed lines of the next."
    )
}

/// Where even many sheets do not hold it.
pub(super) fn far_larger_than_the_sheet((wide, long): (&str, &str)) -> String {
    format!(
        "Too large to print: {wide} wide and {long} long with its bow. Look for a size or a place in the order that is far \
         too large."
    )
}
