//! What this wearer must not get: flowers, bands and materials that do not agree with her, each with others to take instead.
//!
//! Stopping is a help for the designer and no medical judgement; [`crate::stock::STANDING_LINE`] stands beside it. What the
//! words about allergies stop is read in [`super::understood`]; the rules for children stand in [`super::child_rules`].

use std::borrow::Cow;

use super::child_rules::{is_poison_for, is_small_part, is_too_young_for_magnets, is_under_three};
use super::{Avoided, Order, Words};
use crate::piece::{Fixing, LapelHold, Side, Worn};
use crate::stock::{Band, BandKind, Botanical, Caution, Stock, StockId, SundryKind};

/// What is stopped.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum What {
    /// A flower or green.
    Flower(StockId),
    /// A band.
    Band(StockId),
    /// The ribbon of the bow.
    Ribbon(StockId),
    /// Glue, wire, tape or a pin, which the way it is made needs.
    Sundry(SundryKind),
    /// The loose tails of the bow.
    Tails,
    /// The wrist it is worn on.
    Wrist,
    /// The pin that would hold it on a lapel.
    Pin,
    /// The magnets that would.
    Magnet,
}

impl What {
    /// Its word in files.
    pub fn key(&self) -> &str {
        match self {
            Self::Flower(id) | Self::Band(id) | Self::Ribbon(id) => id.as_str(),
            Self::Sundry(kind) => sundry_word(*kind),
            Self::Tails => "tails",
            Self::Wrist => "wrist",
            Self::Pin => "pin",
            Self::Magnet => "magnet",
        }
    }
}

/// One thing that is stopped.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stopped {
    /// What.
    pub what: What,
    /// What for: the word typed, `latex`, `small parts` and the like.
    pub cause: String,
    /// Its trade name.
    pub name: String,
    /// Why, as a sentence.
    pub why: String,
    /// What may stand in for it, best first; at most three.
    pub instead: Vec<StockId>,
    /// Why the designer uses it all the same; none where it stays stopped.
    pub overruled: Option<String>,
    /// Whether it concerns the boutonniere's wearer.
    pub is_partners: bool,
}

impl Stopped {
    /// Whether it can hurt; a band that only does not fit cannot.
    pub fn concerns_safety(&self) -> bool {
        ![TOO_BIG, TOO_SMALL].contains(&self.cause.as_str())
    }

    /// Everything about it, for a paper or a warning: whose it is, why it is stopped, and why it is used all the same.
    pub fn line(&self) -> String {
        let whose = if self.is_partners { Words::BOUTONNIERE } else { "" };
        let kept = self.overruled.as_ref().map(|reason| format!(" {}", Words::overruled(reason))).unwrap_or_default();
        format!("{whose}{}{kept}", self.why)
    }
}

/// Causes that are a matter of fit alone.
const TOO_BIG: &str = "too big";
const TOO_SMALL: &str = "too small";

/// Ease of a child's band over the girth, mm: a finger's breadth; common practice, no source.
pub const BAND_EASE_MM: f64 = 10.0;

/// Most alternatives that are named; our choice, as many as one reads at a glance.
const MOST_INSTEAD: usize = 3;

/// Length of a band cut for this wrist, mm: the girth and its ease.
pub fn band_length_mm(order: &Order) -> f64 {
    order.wrist.girth_mm() + BAND_EASE_MM
}

/// Everything on the wearer's own piece that is stopped. The boutonniere is worn by somebody else and is not looked at.
pub fn stopped(order: &Order, stock: &Stock) -> Vec<Stopped> {
    WearerStops::of(order, stock).all()
}

/// Everything that is stopped on both pieces of an order, each for its own wearer.
pub fn stopped_on_both(order: &Order, stock: &Stock) -> Vec<Stopped> {
    let theirs = order.boutonniere().map(|theirs| stopped(&theirs, stock)).unwrap_or_default();
    let theirs = theirs.into_iter().map(|stop| Stopped { is_partners: true, ..stop });
    stopped(order, stock).into_iter().chain(theirs).collect()
}

/// What can hurt on both pieces of an order, a line each, and what among the allergies nobody understands: what a paper or a
/// command says first.
pub fn safety_lines(order: &Order, stock: &Stock) -> Vec<String> {
    let stops = stopped_on_both(order, stock).into_iter().filter(Stopped::concerns_safety);
    let mut lines: Vec<String> = stops.map(|stop| stop.line()).collect();
    let theirs = order.partner_piece.as_ref().map(|_| &order.partner_needs);
    for (needs, whose) in [(Some(&order.needs), ""), (theirs, Words::BOUTONNIERE)] {
        let Some(needs) = needs else { continue };
        let unread: Vec<String> = Avoided::of(needs, stock).open().map(|word| word.unread.clone()).collect();
        if !unread.is_empty() {
            lines.push(format!("{whose}{}", Words::not_understood(&unread)));
        }
    }
    lines
}

/// What nobody asked yet about the wearers of an order, a line each: pacemaker, scent, watch or bandage, the arm to spare.
pub fn not_asked_lines(order: &Order) -> Vec<String> {
    let theirs = order.partner_piece.as_ref().map(|_| &order.partner_needs);
    let own = if order.piece.worn == Worn::Lapel { Words::NOT_ASKED_ON_LAPEL } else { Words::NOT_ASKED };
    let all = [(Some(&order.needs), "", own), (theirs, Words::BOUTONNIERE, Words::NOT_ASKED_ON_LAPEL)];
    let open = all.into_iter().filter(|(needs, ..)| needs.is_some_and(|needs| !needs.body.is_asked));
    open.map(|(_, whose, says)| format!("{whose}{says}")).collect()
}

/// Whether this flower is stopped for this wearer: asked before it is put on or swapped in.
pub fn stop_flower(order: &Order, id: &StockId, stock: &Stock) -> Option<Stopped> {
    WearerStops::of(order, stock).flower(id)
}

/// Whether this band is stopped for this wearer.
pub fn stop_band(order: &Order, id: &StockId, stock: &Stock) -> Option<Stopped> {
    WearerStops::of(order, stock).band(id)
}

/// What one wearer must not get, worked out once and asked often.
#[derive(Clone, Debug)]
pub struct WearerStops<'o, 's> {
    order: &'o Order,
    stock: &'s Stock,
    avoided: Avoided,
}

/// Why something is stopped: the cause and the sentence.
type Why = (String, String);

impl<'o, 's> WearerStops<'o, 's> {
    /// What the wearer of the order's piece must not get.
    pub fn of(order: &'o Order, stock: &'s Stock) -> Self {
        Self { order, stock, avoided: Avoided::of(&order.needs, stock) }
    }

    /// The stock as it was given.
    pub fn stock(&self) -> &'s Stock {
        self.stock
    }

    /// What was typed about allergies, understood.
    pub fn avoided(&self) -> &Avoided {
        &self.avoided
    }

    /// Everything that is stopped on the piece.
    pub fn all(&self) -> Vec<Stopped> {
        let mut used: Vec<&StockId> = self.order.piece.parts().iter().map(|p| &p.stock).collect();
        used.sort();
        used.dedup();
        let flowers = used.into_iter().filter_map(|id| self.flower(id));
        let band = self.order.piece.band.as_ref().and_then(|id| self.band(id));
        flowers.chain(band).chain(self.bow()).chain(self.making()).chain(self.wrist()).chain(self.hold()).collect()
    }

    /// Whether this flower may be put on: it is not stopped, or it is used all the same.
    pub fn may_place(&self, id: &StockId) -> bool {
        self.flower(id).is_none_or(|stop| stop.overruled.is_some())
    }

    /// Whether nothing speaks against this flower: only such are ever proposed.
    pub fn may_propose(&self, id: &StockId) -> bool {
        self.stock.botanical(id).is_some_and(|b| self.why_no_flower(b).is_none())
    }

    /// The stock of which nothing that speaks against this wearer is ever proposed; the stock itself where nothing does.
    pub fn stock_to_propose(&self) -> Cow<'s, Stock> {
        let against = self.stock.botanicals().iter().filter(|b| self.why_no_flower(b).is_some());
        let against: Vec<StockId> = against.map(|b| b.id.clone()).collect();
        if against.is_empty() { Cow::Borrowed(self.stock) } else { Cow::Owned(self.stock.withholding(against)) }
    }

    /// What the piece may be said to be made without: what was typed and understood, where nothing of it is on the piece and
    /// nothing typed is left open. Never a kind of harm: nobody can promise that.
    pub fn made_without(&self) -> Vec<String> {
        let is_open = self.avoided.open().next().is_some();
        let is_broken = self.all().iter().any(Stopped::concerns_safety);
        let is_empty = self.order.piece.parts().is_empty();
        if is_open || is_broken || is_empty { Vec::new() } else { self.avoided.promised().to_vec() }
    }

    /// Why this flower is stopped, and what may stand in for it.
    pub fn flower(&self, id: &StockId) -> Option<Stopped> {
        let botanical = self.stock.botanical(id)?;
        let why = self.why_no_flower(botanical)?;
        let instead = self.others_for(botanical);
        Some(Stopped { instead, ..self.stop(What::Flower(id.clone()), &botanical.name, why) })
    }

    /// Flowers of the same role that are not stopped, best first.
    pub fn others_for(&self, botanical: &Botanical) -> Vec<StockId> {
        let on_piece = |b: &Botanical| self.order.piece.parts().iter().any(|p| p.stock == b.id);
        let alike = self.stock.offered();
        let mut others: Vec<&Botanical> = alike
            .filter(|b| b.role == botanical.role && b.id != botanical.id)
            .filter(|b| self.why_no_flower(b).is_none())
            .collect();
        let needs = &self.order.needs;
        let asks_care = |b: &Botanical| {
            let is_told = b.cautions.contains(&Caution::Allergen) && needs.allergies.is_some();
            is_told || (b.cautions.contains(&Caution::PoisonByMouth) && needs.child_years().is_some())
        };
        let off = |b: &Botanical| (b.usual_mm() - botanical.usual_mm()).abs();
        others.sort_by(|a, b| {
            let care = asks_care(a).cmp(&asks_care(b));
            care.then(on_piece(b).cmp(&on_piece(a))).then(off(a).total_cmp(&off(b)))
        });
        others.into_iter().take(MOST_INSTEAD).map(|b| b.id.clone()).collect()
    }

    /// Why this band is stopped, and what may stand in for it.
    pub fn band(&self, id: &StockId) -> Option<Stopped> {
        let band = self.stock.band(id)?;
        let why = self.why_no_band(band)?;
        let girth = self.order.wrist.girth_mm();
        let mut instead: Vec<StockId> = Vec::new();
        for kind in [band.kind, BandKind::RibbonTie, BandKind::Elastic, BandKind::Metal, BandKind::Pearl] {
            let fitting = self.stock.band_for(kind, girth).filter(|b| self.why_no_band(b).is_none());
            if let Some(fitting) = fitting.filter(|b| !instead.contains(&b.id)) {
                instead.push(fitting.id.clone());
            }
        }
        instead.truncate(MOST_INSTEAD);
        Some(Stopped { instead, ..self.stop(What::Band(id.clone()), &band.name, why) })
    }

    fn stop(&self, what: What, name: &str, (cause, why): Why) -> Stopped {
        let overruled = self.order.needs.reason_for(what.key(), &cause).map(str::to_owned);
        Stopped { what, cause, name: name.to_owned(), why, instead: Vec::new(), overruled, is_partners: false }
    }

    /// The ribbon of the bow, and its tails on a small child.
    fn bow(&self) -> Vec<Stopped> {
        let Some(bow) = &self.order.piece.bow else { return Vec::new() };
        let ribbon = self.stock.ribbon(&bow.ribbon).and_then(|ribbon| {
            let word = self.avoided.word_for(&ribbon.id)?;
            let why = (word.to_owned(), Words::named(&ribbon.name, word));
            Some(self.stop(What::Ribbon(ribbon.id.clone()), &ribbon.name, why))
        });
        let has_cords = bow.tails > 0 && is_under_three(&self.order.needs);
        let tails = has_cords.then(|| self.stop(What::Tails, "Tails", ("cords".into(), Words::NO_CORDS.to_owned())));
        ribbon.into_iter().chain(tails).collect()
    }

    /// Glue, wire, tape and pins: what the way the piece is made and worn needs.
    fn making(&self) -> Vec<Stopped> {
        let piece = &self.order.piece;
        let (is_wired, on_lapel) = (piece.fixing == Fixing::Wired, piece.worn == Worn::Lapel);
        let needed = [
            (SundryKind::Adhesive, !is_wired),
            (SundryKind::Wire, is_wired),
            (SundryKind::Tape, is_wired || on_lapel),
            (SundryKind::Pin, on_lapel && piece.lapel.hold == LapelHold::Pins),
            (SundryKind::Spray, piece.is_sprayed),
        ];
        let kinds = needed.into_iter().filter(|(_, is_needed)| *is_needed && !piece.parts().is_empty());
        let why = |kind: SundryKind| {
            let name = sundry_name(kind);
            let by_word = self.avoided.word_for_sundry(kind).map(|word| (word.to_owned(), Words::named(name, word)));
            let is_sharp = kind == SundryKind::Wire && is_under_three(&self.order.needs);
            by_word.or_else(|| is_sharp.then(|| ("sharp ends".into(), Words::ends(name))))
        };
        kinds.filter_map(|(kind, _)| Some(self.stop(What::Sundry(kind), sundry_name(kind), why(kind)?))).collect()
    }

    /// A wrist of the arm that is to be spared, or one that carries a watch or a bandage.
    fn wrist(&self) -> Vec<Stopped> {
        let Order { piece, needs, wrist, .. } = self.order;
        let is_this = |arm: Option<Side>| piece.worn == Worn::Wrist && arm == Some(wrist.side);
        let name = format!("{} wrist", wrist.side.word());
        let stop = |cause: &str, why: &str| self.stop(What::Wrist, &name, (cause.to_owned(), why.to_owned()));
        let spared = is_this(needs.spared_arm).then(|| stop("arm to avoid", Words::SPARED_WRIST));
        let taken = is_this(needs.body.worn_already).then(|| stop("watch or bandage", Words::WORN_ALREADY));
        spared.into_iter().chain(taken).collect()
    }

    /// A pin on a small child; magnets on a child, and beside a pacemaker.
    fn hold(&self) -> Option<Stopped> {
        let Order { piece, needs, .. } = self.order;
        if piece.worn == Worn::Wrist {
            return None;
        }
        let stop = |what: What, name: &str, cause: &str, why: &str| self.stop(what, name, (cause.into(), why.into()));
        match piece.lapel.hold {
            LapelHold::Pins => is_under_three(needs).then(|| stop(What::Pin, "Pin", "under three", Words::NO_PIN)),
            LapelHold::Magnets if needs.body.has_implant => {
                Some(stop(What::Magnet, "Magnet", "pacemaker", Words::NO_MAGNET))
            }
            LapelHold::Magnets => is_too_young_for_magnets(needs)
                .then(|| stop(What::Magnet, "Magnet", "swallowed magnets", Words::NO_MAGNET_FOR_CHILD)),
        }
    }

    fn why_no_flower(&self, botanical: &Botanical) -> Option<Why> {
        let (needs, name) = (&self.order.needs, &botanical.name);
        let by_word = self.avoided.word_for(&botanical.id).map(|word| (word.to_owned(), Words::named(name, word)));
        by_word
            .or_else(|| {
                let is_swallowed = is_small_part(botanical) && is_under_three(needs);
                is_swallowed.then(|| ("small parts".into(), Words::small_part(name)))
            })
            .or_else(|| is_poison_for(botanical, needs).then(|| ("poisonous if eaten".into(), Words::poison(name))))
    }

    fn why_no_band(&self, band: &Band) -> Option<Why> {
        let Order { needs, wrist, .. } = self.order;
        let has = |caution| band.cautions.contains(&caution);
        let (girth, unit) = (wrist.girth_mm(), wrist.girth.unit());
        let grips = band.kind != BandKind::RibbonTie;
        let stretches = matches!(band.kind, BandKind::Elastic | BandKind::Pearl | BandKind::Rhinestone);
        let why = |cause: &str, says: String| Some((cause.to_owned(), says));
        if needs.no_latex && has(Caution::Latex) {
            why("latex", Words::latex(&band.name))
        } else if let Some(word) = self.avoided.word_for(&band.id) {
            why(word, Words::named(&band.name, word))
        } else if needs.body.has_implant && has(Caution::Magnet) {
            why("pacemaker", Words::magnet_band(&band.name))
        } else if is_under_three(needs) && has(Caution::SmallParts) {
            why("small parts", Words::small_part(&band.name))
        } else if is_under_three(needs) && matches!(band.kind, BandKind::Metal | BandKind::Slap) {
            why("sharp ends", Words::ends(&band.name))
        } else if needs.no_snug_band && grips || needs.spared_arm.is_some() && band.kind == BandKind::Slap {
            why("nothing tight", Words::grips(&band.name))
        } else if needs.spared_arm.is_some() && stretches {
            why("arm to avoid", Words::no_elastic(&band.name))
        } else if girth < band.fits_mm[0] {
            why(TOO_BIG, Words::too_big(&band.name, &unit.short(girth), &unit.short(girth + BAND_EASE_MM)))
        } else if girth > band.fits_mm[1] {
            why(TOO_SMALL, Words::too_small(&band.name, &unit.short(girth)))
        } else {
            None
        }
    }
}

/// The word of a kind of sundry in files.
fn sundry_word(kind: SundryKind) -> &'static str {
    match kind {
        SundryKind::Adhesive => "glue",
        SundryKind::Wire => "wire",
        SundryKind::Tape => "tape",
        SundryKind::Box => "box",
        SundryKind::Spray => "spray",
        SundryKind::Pin => "pins",
        SundryKind::Base => "base",
        SundryKind::Stem => "stem",
    }
}

/// What a kind of sundry is called where it is stopped.
fn sundry_name(kind: SundryKind) -> &'static str {
    match kind {
        SundryKind::Adhesive => "Glue",
        SundryKind::Wire => "Wire",
        SundryKind::Tape => "Stem tape",
        SundryKind::Box => "Box",
        SundryKind::Spray => "Finishing spray",
        SundryKind::Pin => "Pin",
        SundryKind::Base => "Base",
        SundryKind::Stem => "Stem",
    }
}
