//! What has changed since both said yes, in plain words. Prices are compared by the floor above, which calculates them.

use std::collections::BTreeMap;

use super::{Agreed, Order, When, Written};
use crate::piece::{Bow, Edit, Piece, Side};
use crate::stock::{Stock, StockId};
use crate::units::LengthUnit;

/// Every change since the yes, one line each; none when all stands as it was.
pub fn changes_since(agreed: &Agreed, now: &Order, stock: &Stock, written: Written) -> Vec<String> {
    let was = agreed.order();
    let mut changes = Vec::new();
    changes.extend(about(was, now, written));
    let unit = now.wrist.girth.unit();
    changes.extend(piece_changes(&was.piece, &now.piece, was.wrist.side == now.wrist.side, (stock, unit)));
    match (&was.partner_piece, &now.partner_piece) {
        (None, None) => {}
        (None, Some(_)) => changes.push("Matching boutonniere added.".to_owned()),
        (Some(_), None) => changes.push("Matching boutonniere removed.".to_owned()),
        (Some(was), Some(now)) => {
            changes.extend(
                piece_changes(was, now, true, (stock, unit)).into_iter().map(|line| format!("Boutonniere: {line}")),
            );
        }
    }
    changes
}

/// Wearer, day, dress, wrist and needs.
fn about(was: &Order, now: &Order, written: Written) -> Vec<String> {
    let side = |side: Side| side.word().to_owned();
    let size = |order: &Order| order.size.clone().unwrap_or_default();
    let extras = |order: &Order| {
        let names: Vec<&str> = order.terms.extras.iter().map(|e| e.name.as_str()).collect();
        names.join(", ")
    };
    let when = |when: &When| when.written(written);
    let allergies = |order: &Order| order.needs.allergies.clone().unwrap_or_default().join(", ");
    [
        changed("Wearer", &was.wearer, &now.wearer),
        changed("Event", &was.dance, &now.dance),
        changed("Event day", &when(&was.event_day), &when(&now.event_day)),
        changed("Pick-up", &when(&was.wanted), &when(&now.wanted)),
        changed("Collected by", &was.collected_by, &now.collected_by),
        changed("Size", &size(was), &size(now)),
        changed("Dress", &was.taste.dress.name(), &now.taste.dress.name()),
        changed("Wrist", &side(was.wrist.side), &side(now.wrist.side)),
        changed("Wrist size", &was.wrist.girth.shown(), &now.wrist.girth.shown()),
        changed("ALLERGY", &allergies(was), &allergies(now)),
        changed("Extras", &extras(was), &extras(now)),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// `Dress: teal is now sage.`; nothing when nothing changed.
fn changed(what: &str, was: &str, now: &str) -> Option<String> {
    match (was.trim(), now.trim()) {
        (was, now) if was == now => None,
        ("", now) => Some(format!("{what}: {now} added.")),
        (was, "") => Some(format!("{what}: {was} removed.")),
        (was, now) => Some(format!("{what}: {was} is now {now}.")),
    }
}

fn piece_changes(was: &Piece, now: &Piece, same_wrist: bool, (stock, unit): (&Stock, LengthUnit)) -> Vec<String> {
    let mut changes = flower_changes(was, now, stock);
    if changes.is_empty() && !is_laid_out_alike(was, now, same_wrist) {
        changes.push("Flowers moved.".to_owned());
    }
    let oval = |p: &Piece| unit.area_text(p.footprint.length_mm, p.footprint.width_mm);
    let band = |p: &Piece| {
        let id = p.band.as_ref();
        id.map_or_else(String::new, |id| stock.band(id).map_or_else(|| id.to_string(), |b| b.name.clone()))
    };
    changes.extend(changed("Band", &band(was), &band(now)));
    changes.extend(bow_change(was.bow.as_ref(), now.bow.as_ref(), (stock, unit)));
    changes.extend(changed("Oval", &oval(was), &oval(now)));
    changes
}

/// What of a bow changed, and nothing of what did not: `Bow: silver is now white.`
fn bow_change(was: Option<&Bow>, now: Option<&Bow>, (stock, unit): (&Stock, LengthUnit)) -> Option<String> {
    let joined = |words: Vec<String>| words.join(", ");
    match (was.map(|bow| bow_words(bow, stock, unit)), now.map(|bow| bow_words(bow, stock, unit))) {
        (Some(was), Some(now)) => {
            let differing = was.into_iter().zip(now).filter(|(was, now)| was != now);
            let (was, now) = differing.unzip();
            changed("Bow", &joined(was), &joined(now))
        }
        (was, now) => changed("Bow", &joined(was.unwrap_or_default()), &joined(now.unwrap_or_default())),
    }
}

/// Ribbon, colour, loops, tails and their lengths.
fn bow_words(bow: &Bow, stock: &Stock, unit: LengthUnit) -> Vec<String> {
    let ribbon = stock.ribbon(&bow.ribbon).map_or_else(|| bow.ribbon.to_string(), |r| r.name.clone());
    let tails = match bow.tails {
        0 => "no tails".to_owned(),
        n => format!("{n} tails of {}", unit.short(bow.tail_length_mm)),
    };
    let loops = bow.loops_a_side.saturating_mul(2);
    vec![
        ribbon,
        bow.colour.to_string(),
        format!("{loops} loops of {}", unit.short(bow.loop_length_mm)),
        tails,
        if bow.centre_loop { "a loop over the knot" } else { "no loop over the knot" }.to_owned(),
    ]
}

/// Whether every part sits where it sat; on the other wrist, where its mirror image sat.
fn is_laid_out_alike(was: &Piece, now: &Piece, same_wrist: bool) -> bool {
    let turned = if same_wrist { Ok(was.clone()) } else { was.apply(&Edit::Mirror) };
    turned.is_ok_and(|turned| turned.parts() == now.parts())
}

type Counts = BTreeMap<StockId, BTreeMap<String, u32>>;

fn counts(piece: &Piece) -> Counts {
    let mut counts = Counts::new();
    for part in piece.parts() {
        *counts.entry(part.stock.clone()).or_default().entry(part.colour.to_string()).or_default() += 1;
    }
    counts
}

/// Flowers put on, taken off, or in another colour.
fn flower_changes(was: &Piece, now: &Piece, stock: &Stock) -> Vec<String> {
    let (was, now) = (counts(was), counts(now));
    let none = BTreeMap::new();
    let mut ids: Vec<&StockId> = was.keys().chain(now.keys()).collect();
    ids.sort();
    ids.dedup();
    let mut changes = Vec::new();
    for id in ids {
        let name = stock.botanical(id).map_or_else(|| id.to_string(), |b| b.name.clone());
        changes.extend(colour_changes(&name, was.get(id).unwrap_or(&none), now.get(id).unwrap_or(&none)));
    }
    changes
}

/// Of one flower: what left a colour goes to the colours that gained, and the rest is taken off or put on.
fn colour_changes(name: &str, was: &BTreeMap<String, u32>, now: &BTreeMap<String, u32>) -> Vec<String> {
    let beyond = |a: &BTreeMap<String, u32>, b: &BTreeMap<String, u32>| -> Vec<(String, u32)> {
        let more = a.iter().map(|(c, n)| (c.clone(), n.saturating_sub(*b.get(c).unwrap_or(&0))));
        more.filter(|(_, n)| *n > 0).collect()
    };
    let (mut lost, mut gained) = (beyond(was, now), beyond(now, was));
    let mut changes = Vec::new();
    while let (Some(from), Some(to)) = (lost.first_mut(), gained.first_mut()) {
        let n = from.1.min(to.1);
        changes.push(format!("{name}: {n} {} {} now {}.", from.0, if n == 1 { "is" } else { "are" }, to.0));
        from.1 -= n;
        to.1 -= n;
        lost.retain(|(_, n)| *n > 0);
        gained.retain(|(_, n)| *n > 0);
    }
    changes.extend(lost.into_iter().map(|(colour, n)| format!("{name}: {n} {colour} removed.")));
    changes.extend(gained.into_iter().map(|(colour, n)| format!("{name}: {n} {colour} added.")));
    changes
}
