//! What the needs of a wearer suggest, each a question with the change that a yes would make. Nothing is done by itself and
//! nothing is assumed; what is done already is not asked again.

use super::child_rules::{POISON_BELOW_YEARS, SMALL_PARTS_BELOW_YEARS};
use super::stopped::{WearerStops, What, band_length_mm, stop_band, stopped};
use super::{Change, Order, OutOfSeason, Words};
use crate::piece::{Bow, Edit, Fixing, Footprint, HouseStyle, LapelHold, LapelWear, PartId, Worn};
use crate::stock::{BandKind, Caution, Stock, StockId, SundryKind};

/// A question and what a yes changes.
#[derive(Clone, Debug, PartialEq)]
pub struct Suggestion {
    /// The question.
    pub says: String,
    /// What a yes does, one step.
    pub change: Change,
}

/// Height over the wrist that hands on a wheel leave room for, mm; a shop rule, common practice, no source.
pub const FLAT_MM: f64 = 30.0;
/// How far up the arm a piece sits clear of a push rim, mm from the crease of the wrist; our choice.
pub const CLEAR_OF_RIM_MM: f64 = 80.0;

/// What may be asked now.
pub fn suggestions(order: &Order, style: &HouseStyle, stock: &Stock) -> Vec<Suggestion> {
    let asked = [
        for_the_side(order),
        for_the_chair(order, style),
        for_the_band(order, stock),
        for_the_width(order, style),
        for_the_flowers(order, stock),
        for_the_season(order, stock),
        for_the_making(order, stock),
        for_an_older_child(order, stock),
    ];
    asked.into_iter().flatten().collect()
}

fn suggestion(says: impl Into<String>, change: Change) -> Suggestion {
    Suggestion { says: says.into(), change }
}

/// An arm to be spared goes before the hand used most.
fn for_the_side(order: &Order) -> Vec<Suggestion> {
    if order.piece.worn != Worn::Wrist {
        return Vec::new();
    }
    let side = order.wrist.side;
    let other = Change::Side(side.other());
    let needs = &order.needs;
    match (needs.spared_arm.or(needs.body.worn_already), needs.handed) {
        // Where both wrists are taken there is no other one to offer.
        (Some(arm), _) if arm == side && [needs.spared_arm, needs.body.worn_already].contains(&Some(side.other())) => {
            vec![suggestion(Words::LAPEL, Change::Worn(Worn::Lapel))]
        }
        (Some(arm), _) if arm == side && needs.spared_arm.is_none() => {
            vec![suggestion(Words::off_the_watch(side.other().word()), other)]
        }
        (Some(arm), _) if arm == side => vec![suggestion(Words::off_the_arm(arm.word(), side.other().word()), other)],
        (None, Some(hand)) if hand == side => vec![suggestion(Words::other_wrist(side.other().word()), other)],
        (Some(_) | None, _) => Vec::new(),
    }
}

fn for_the_chair(order: &Order, style: &HouseStyle) -> Vec<Suggestion> {
    if !order.needs.pushes_chair || order.piece.worn != Worn::Wrist {
        return Vec::new();
    }
    let mut asked = Vec::new();
    if style.height_limit_mm(&order.piece.wishes) > FLAT_MM {
        asked.push(suggestion(
            Words::flat(&order.wrist.girth.unit().short(FLAT_MM)),
            Change::HeightLimit(Some(FLAT_MM)),
        ));
    }
    if let Some(bow) = order.piece.bow.as_ref().filter(|bow| bow.tails > 0) {
        let bow = Bow { tails: 0, ..bow.clone() };
        asked.push(suggestion(Words::NO_TAILS, Change::Piece(Edit::Tie(Some(bow)))));
    }
    let footprint = order.piece.footprint;
    if footprint.offset_mm < CLEAR_OF_RIM_MM {
        let higher = Footprint { offset_mm: CLEAR_OF_RIM_MM, ..footprint };
        asked.push(suggestion(Words::HIGHER, Change::Piece(Edit::Reshape(higher))));
    }
    if !order.notes.contains(Words::UPPER_ARM_NOTE) {
        let notes = format!("{} {}", order.notes.trim(), Words::UPPER_ARM_NOTE).trim().to_owned();
        let change = Change::Together(vec![Change::Notes(notes), Change::BandKind(BandKind::RibbonTie)]);
        asked.push(suggestion(Words::UPPER_ARM, change));
        asked.push(suggestion(Words::LAPEL, Change::Worn(Worn::Lapel)));
    }
    asked
}

/// A band that is stopped gives way to the best that is not.
fn for_the_band(order: &Order, stock: &Stock) -> Vec<Suggestion> {
    let Some(present) = order.piece.band.as_ref().and_then(|id| stock.band(id)) else { return Vec::new() };
    let is_small = order.needs.child_years().is_some_and(|years| years < SMALL_PARTS_BELOW_YEARS);
    let stop = stop_band(order, &present.id, stock).filter(|stop| stop.overruled.is_none());
    if stop.is_none() && !(is_small && present.kind != BandKind::RibbonTie) {
        return Vec::new();
    }
    let tie = stock.band_for(BandKind::RibbonTie, order.wrist.girth_mm()).map(|b| b.id.clone());
    let needs = &order.needs;
    let wants_tie = needs.no_snug_band || needs.spared_arm.is_some() || is_small;
    let best = tie.filter(|_| wants_tie).or_else(|| stop.and_then(|s| s.instead.into_iter().next()));
    let Some(band) = best.and_then(|id| stock.band(&id)) else { return Vec::new() };
    let says = if is_small {
        Words::TIE_FOR_SMALL.to_owned()
    } else if needs.no_snug_band {
        Words::NO_GRIP.to_owned()
    } else if needs.spared_arm.is_some() {
        Words::NO_ELASTIC.to_owned()
    } else {
        Words::fitting_band(&band.name, &order.wrist.girth.unit().short(band_length_mm(order)))
    };
    vec![suggestion(says, Change::Piece(Edit::Band(Some(band.id.clone()))))]
}

/// A child's wrist is narrow: the oval follows what it carries.
fn for_the_width(order: &Order, style: &HouseStyle) -> Vec<Suggestion> {
    let girth = order.wrist.girth_mm();
    let limit = style.width_limit_mm(girth);
    let footprint = order.piece.footprint;
    let is_child = order.needs.child_years().is_some();
    if !is_child || order.piece.worn != Worn::Wrist || footprint.width_mm <= limit {
        return Vec::new();
    }
    let says = Words::narrower(&order.wrist.girth.unit().short(limit));
    vec![suggestion(says, Change::Piece(Edit::Reshape(Footprint { width_mm: limit, ..footprint })))]
}

/// A flower that is stopped gives way to another, or comes off where there is none.
fn for_the_flowers(order: &Order, stock: &Stock) -> Vec<Suggestion> {
    let flowers = stopped(order, stock).into_iter().filter_map(|stop| match stop.what {
        What::Flower(id) if stop.overruled.is_none() => Some((id, stop.name, stop.instead)),
        What::Flower(_)
        | What::Band(_)
        | What::Ribbon(_)
        | What::Sundry(_)
        | What::Tails
        | What::Wrist
        | What::Pin
        | What::Magnet => None,
    });
    flowers
        .map(|(id, name, instead)| match instead.first().and_then(|other| stock.botanical(other)) {
            Some(other) => {
                let change = swap(order, &id, &other.id, stock).unwrap_or_else(|| take_off(order, &id));
                suggestion(Words::swap(&name, &other.name), change)
            }
            None => suggestion(Words::take_off(&name), take_off(order, &id)),
        })
        .collect()
}

/// A flower that is not in trade on the day gives way to one that is.
fn for_the_season(order: &Order, stock: &Stock) -> Vec<Suggestion> {
    let one = |order: &Order, out: OutOfSeason| {
        let other = stock.botanical(out.instead.first()?)?;
        let is_on_it = order.piece.parts().iter().any(|part| part.stock == out.what);
        let change = is_on_it.then(|| swap(order, &out.what, &other.id, stock)).flatten()?;
        Some(suggestion(Words::in_season(&out.name, out.month, &other.name), change))
    };
    let hers = order.out_of_season(stock).into_iter().filter_map(|out| one(order, out));
    // The boutonniere has a wearer of its own, whose needs its swap heeds.
    let theirs = order.boutonniere();
    let theirs = theirs.iter().flat_map(|theirs| {
        let swaps = theirs.out_of_season(stock).into_iter().filter_map(|out| one(theirs, out));
        swaps.filter_map(on_the_boutonniere)
    });
    hers.chain(theirs).collect()
}

/// The same suggestion for the boutonniere of an order.
fn on_the_boutonniere(of: Suggestion) -> Option<Suggestion> {
    let Change::Piece(edit) = of.change else { return None };
    Some(suggestion(format!("{}{}", Words::BOUTONNIERE, of.says), Change::PartnerEdit(edit)))
}

/// Glue gives way to wire and wire to glue where the other is not stopped; tails and the bow come off.
fn for_the_making(order: &Order, stock: &Stock) -> Vec<Suggestion> {
    let stops = stopped(order, stock);
    let is_stopped = |kind| stops.iter().any(|stop| stop.what == What::Sundry(kind));
    let other = |fixing| {
        let after = order.apply(&Change::Fixing(fixing), stock).ok();
        after.filter(|after| !stopped(after, stock).iter().any(|stop| matches!(stop.what, What::Sundry(_))))
    };
    let mut asked = Vec::new();
    if is_stopped(SundryKind::Adhesive) && other(Fixing::Wired).is_some() {
        asked.push(suggestion(Words::WIRE_IT, Change::Fixing(Fixing::Wired)));
    }
    if is_stopped(SundryKind::Wire) && other(Fixing::Glued).is_some() {
        asked.push(suggestion(Words::GLUE_IT, Change::Fixing(Fixing::Glued)));
    }
    let magnet = |order: &Order| {
        let stops = stopped(order, stock);
        stops.iter().any(|stop| stop.what == What::Magnet && stop.overruled.is_none())
    };
    let pinned = |order: &Order| Edit::Lapel(LapelWear { hold: LapelHold::Pins, ..order.piece.lapel });
    if magnet(order) {
        asked.push(suggestion(Words::PIN_IT, Change::Piece(pinned(order))));
    }
    if let Some(theirs) = order.boutonniere().filter(|theirs| magnet(theirs)) {
        let says = format!("{}{}", Words::BOUTONNIERE, Words::PIN_IT);
        asked.push(suggestion(says, Change::PartnerEdit(pinned(&theirs))));
    }
    let has = |is: fn(&What) -> bool| stops.iter().any(|stop| stop.overruled.is_none() && is(&stop.what));
    if has(|what| matches!(what, What::Ribbon(_))) {
        asked.push(suggestion(Words::NO_BOW, Change::Piece(Edit::Tie(None))));
    } else if let Some(bow) = order.piece.bow.as_ref().filter(|_| has(|what| *what == What::Tails)) {
        let bow = Bow { tails: 0, ..bow.clone() };
        asked.push(suggestion(Words::TAILS_OFF, Change::Piece(Edit::Tie(Some(bow)))));
    }
    asked
}

/// What is poisonous by mouth is asked about for a child who is old enough not to have it stopped.
fn for_an_older_child(order: &Order, stock: &Stock) -> Vec<Suggestion> {
    if order.needs.child_years().is_none_or(|years| years < POISON_BELOW_YEARS) {
        return Vec::new();
    }
    let stops = WearerStops::of(order, stock);
    let mut ids: Vec<&StockId> = order.piece.parts().iter().map(|p| &p.stock).collect();
    ids.sort();
    ids.dedup();
    let poisonous = ids
        .into_iter()
        .filter_map(|id| stock.botanical(id))
        .filter(|b| b.cautions.contains(&Caution::PoisonByMouth) && stops.may_propose(&b.id));
    let harmless = |id: &StockId| stock.botanical(id).filter(|b| !b.cautions.contains(&Caution::PoisonByMouth));
    poisonous
        .map(|b| match stops.others_for(b).iter().find_map(harmless) {
            Some(other) => {
                let change = swap(order, &b.id, &other.id, stock).unwrap_or_else(|| take_off(order, &b.id));
                suggestion(Words::swap_poison(&b.name, &other.name), change)
            }
            None => suggestion(Words::take_off_poison(&b.name), take_off(order, &b.id)),
        })
        .collect()
}

/// Every `id` on the piece becomes `other`, where it sits and as it is turned, in the nearest colour that there is: the
/// same name, else the first. `None` when `other` is not in stock.
pub fn swap(order: &Order, id: &StockId, other: &StockId, stock: &Stock) -> Option<Change> {
    let botanical = stock.botanical(other)?;
    let mut edits = vec![Edit::Lock(parts_of(order, id), false), Edit::Remove(parts_of(order, id))];
    for part in order.piece.parts().iter().filter(|p| p.stock == *id) {
        let colour = botanical.colour(&part.colour).map_or("", |c| c.name.as_str());
        let usual = crate::piece::NewPart::usual(botanical, colour.into(), part.centre);
        edits.push(Edit::Place(crate::piece::NewPart { turn_rad: part.turn_rad, level: part.level, ..usual }));
    }
    Some(Change::Piece(Edit::Together(edits)))
}

fn take_off(order: &Order, id: &StockId) -> Change {
    let ids = parts_of(order, id);
    Change::Piece(Edit::Together(vec![Edit::Lock(ids.clone(), false), Edit::Remove(ids)]))
}

fn parts_of(order: &Order, id: &StockId) -> Vec<PartId> {
    order.piece.parts().iter().filter(|p| p.stock == *id).map(|p| p.id).collect()
}
