//! An order as a file, one to a file, made to be read and written by hand as well.
//!
//! Only `version`, `piece` with its `oval`, and `stock` and `at` of a part must be there. Lengths are millimetres, or text
//! as people type it (`"15.5 cm"`, `"6 1/4"`); `turn` is in degrees; `at` is (along the arm toward the elbow, across it
//! toward the thumb of a left wrist). Remarks after `//` are welcome but lost when the program saves the file.
//!
//! ```text
//! (
//!     version: 1,
//!     number: 104,                                          // what the shop counts it as
//!     wearer: "Mina",                                       // "" when left out, as with every text
//!     dance: "Harbour Hall",
//!     place: "Harbour School",
//!     event_day: "9 May 2026",                              // the day of the dance
//!     wanted: "Saturday 2 pm",                              // pick-up, as said; 2026-05-09 14:00 is understood too
//!     wanted_told: (day: "2026-05-09", hour: "14:00"),      // what that told on the day it was typed, where it tells
//!                                                           // something else by itself; event_day_told,
//!                                                           // last_change_told likewise
//!     collected_by: "Ana", last_change: "4 May 2026",       // who picks it up; the last day to change something
//!     payer: "Mrs Vale", partner: "Jonas", phone: "555 0100",
//!     kind: adult,                                          // adult, child(6); left out: to find out
//!     handed: right,                                        // the hand used most; left out: to find out
//!     pushes_chair: false, spared_arm: left,                // a wheelchair pushed by hand; an arm not to be used
//!     allergies: ["babys-breath"],                          // names or words; [] is none, left out is not asked yet
//!     no_latex: false, no_snug_band: false,
//!     body: (asked: true, implant: false, no_scent: true, watch: left), // asked of anyone once; each may be left out
//!     meanings: {"heidis plant": "baby's breath"},          // what unknown words mean; "" is nothing here
//!     overruled: [(what: "babys-breath", cause: "gypsophila", reason: "her wish")], // stopped, and used all the same
//!     partner_needs: (kind: adult, allergies: [], no_latex: false), // of the boutonniere's wearer; meanings, overruled too
//!     partner_notes: "",                                    // for the boutonniere alone
//!     dress: (hex: "#1b2a4a", words: "midnight blue"),      // either may be left out
//!     metal: "silver", likes: "",
//!     notes: "",
//!     wrist: (side: left, girth: "6 1/4", measured: tape),  // tape, told, not_yet
//!     size: "Classic",
//!     purse: 30, asked: (price: 20, reason: "a neighbour"), // what she wants to spend; a price asked and why
//!     extras: [(name: "Ribbon wand", price: 2, tax: 0)],    // tax: percent, where it is not the rate of the house
//!     rush: false, discount: (off: percent(10), words: "for a friend"), // amount(5), percent(10)
//!     payments: [(sum: 13.50, on: "2026-05-02", way: "cash")], // a refund is below nothing
//!     paid: 13.50, paid_on: "2026-05-02",                   // one payment, as older files have it
//!     quoted_on: "2026-04-30",                              // the day, where it was noted
//!     holds_until: "2026-05-14",                            // left out: the days of the house from the quote
//!     piece: (
//!         worn: wrist,                                      // wrist, lapel
//!         oval: (length: 90, width: 54, offset: 50),        // offset: from the crease of the wrist to the centre point
//!         band: "elastic-small",
//!         fixing: glued,                                    // glued, wired
//!         lapel: (side: left, hold: pins), sprayed: false,  // of a boutonniere: pins, magnets; a finishing spray
//!         wishes: (avoided_counts: [4, 9], even_is_welcome: false, set_aside: ["balance"],
//!             reasons: {"balance": "on purpose"},           // why a question is set aside
//!             height: 30),                                  // height: allowed over the wrist; each may be left out
//!         bow: (ribbon: "satin-15", colour: "silver", loops_a_side: 2, loop_length: 46, loop_width: 16, tails: 2,
//!             tail_length: 70, centre_loop: true),          // each may be left out
//!         parts: [
//!             (id: 1, stock: "spray-rose", colour: "white", at: (26, 0), turn: 0, size: 30, level: raised,
//!                 locked: false, role: bloom),
//!             (stock: "italian-ruscus", at: (34, -12)),     // first colour of the list, usual size, turned 0, flat
//!         ],
//!     ),
//!     partner_piece: (worn: lapel, oval: (length: 60, width: 34)), // the boutonniere that goes with it, as a piece
//!     shown: (skin: brown, cloth: true, beside: coin),      // how the client saw it; left out: plain, true, ruler
//!     quoted: (until: "2026-05-14", charges: (..), order: (..)), // what the quote was built on; charges as below
//!     agreed: (on: "2026-05-02", price: 27, deposit: 13.50, holds_until: "2026-05-16", // the last two may be left out
//!         says: ["Classic"], charges: (lines: [(charge: wrist, what: "Classic", price: 27)], // may be left out
//!             rules: (deposit: 0.5, rush: 0.25, round_up_to: 1), total: 27), order: (version: 1, piece: (oval: (length: 90, width: 54)))),
//!     state: made,                                          // made, collected, cancelled; left out: asked, or agreed
//!     party: "Linden wedding",                              // orders of one name belong together
//! )
//! ```
//!
//! Versions. 2 added `paid_on`, `quoted_on`, `holds_until`, the agreed sheet's `deposit` and `holds_until`, and `reasons`; an
//! order that has none of them is still written as version 1, which every program opens. 3 added `number`, `event_day`,
//! `collected_by`, `last_change`, the three `.._told`, `shown`, `state`, `party`, `payments`, `discount`,
//! `quoted`, `tax` of an extra, `meanings`, `overruled`, `partner_needs`, `partner_notes` and `charges` of the agreed sheet; 4 added `body`, `lapel` and `sprayed`; `wanted` of an older file is the pick-up, as it always was. Whoever adds a field raises the
//! version where the field is present (`OrderFile::version_needed`) and stores a file of it in `tests/files`; a file of an
//! older version is opened whatever it holds.
//!
//! What is left out: numbers of parts count on from the largest given; a colour is the first in stock; a role is the one
//! in stock; leaves and filler lie flat, blooms, accents and trims are raised. A girth that is given counts as measured
//! with a tape, one that is not as not measured yet.

use std::path::Path;

use serde::{Deserialize, Serialize};

use super::about_lines::{self, AgreedLine, AskedLine, DressLine, ExtraLine, ShownLine};
use super::charge_lines::{DiscountLine, KeptQuoteLine, PaymentLine};
use super::day_line::DayLine;
use super::figures::{Money, Text};
use super::keywords::Keyword;
use super::kind_line::KindLine;
use super::log_file::{LogEvent, log_event};
use super::need_lines::{self, BodyLine, MeaningLines, OverruledLine, PartnerNeedsLine};
use super::piece_lines::{MOST_PARTS, PieceLine, PieceReader};
use super::reading::{Versioned, bytes_of, name_of, parse, text_of};
use super::saving::{FileStamp, RealDisk, save};
use super::store_error::{Cause, StoreError};
use super::told_line::ToldLine;
use super::wrist_line::WristLine;
use crate::book::{DEAREST, Needs, Order, PayWay, Payment, People, Progress, Taste, Terms, WallClock, Written};
use crate::piece::Side;
use crate::stock::Stock;
use crate::units::mm_text;

/// The order that `text` holds. `name` is what the file is called in a refusal.
pub fn order_from_text(text: &str, name: &str, stock: &Stock) -> Result<Order, StoreError> {
    read_text(text, name, stock).map(|(order, _)| order)
}

/// The order as a file holds it, with nothing left out but what is empty.
pub fn order_to_text(order: &Order) -> String {
    super::writing::pretty(&OrderFile::of(order), 3)
}

/// An order as it was found on the disk.
#[derive(Clone, Debug, PartialEq)]
pub struct SavedOrder {
    /// The order.
    pub order: Order,
    /// How the file looked, for saving it again.
    pub stamp: FileStamp,
    /// What is odd in it but may be meant, as sentences.
    pub warnings: Vec<String>,
}

/// Reads the order in this file.
pub fn read_order(path: &Path, stock: &Stock) -> Result<SavedOrder, StoreError> {
    let name = name_of(path);
    let read = bytes_of(path).and_then(|bytes| {
        let (order, warnings) = read_text(text_of(&bytes, &name)?, &name, stock)?;
        Ok(SavedOrder { order, stamp: FileStamp::of_bytes(&bytes), warnings })
    });
    read.inspect_err(|refusal| log_event(&LogEvent::OrderNotOpened(refusal.cause.name())))
}

/// Saves the order in this file: completely, or the last version stays. `stamp` is how the file looked when it was read;
/// without one the file must not be there yet. What is returned is the stamp for saving it the next time.
pub fn save_order(path: &Path, order: &Order, stamp: Option<&FileStamp>) -> Result<FileStamp, StoreError> {
    let text = order_to_text(order);
    let same = says_the_same(&text, order).map_err(|why| StoreError::new(&name_of(path), Cause::NotTheSame(why)));
    let saved = same.and_then(|()| save(&RealDisk, path, text.as_bytes(), stamp));
    match &saved {
        Ok(_) => log_event(&LogEvent::OrderSaved),
        Err(refusal) => log_event(&LogEvent::OrderNotSaved(refusal.cause.name())),
    }
    saved
}

/// The order and what is worth a look in it, though it could be opened.
fn read_text(text: &str, name: &str, stock: &Stock) -> Result<(Order, Vec<String>), StoreError> {
    let file: OrderFile = parse(text, name)?;
    let order = file.order(text, name, stock)?;
    let warnings = warnings(&order, stock);
    Ok((order, warnings))
}

/// Whether `text` says exactly what `order` is.
fn says_the_same(text: &str, order: &Order) -> Result<(), String> {
    let file: OrderFile = parse(text, "").map_err(|refusal| refusal.why())?;
    if file.piece.parts.len() > MOST_PARTS {
        return Err(Cause::TooManyParts(file.piece.parts.len()).why());
    }
    if file == OrderFile::of(order) { Ok(()) } else { Err("a figure would be lost".to_owned()) }
}

/// An order as a file holds it.
#[derive(Debug, Deserialize, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
pub(super) struct OrderFile {
    version: u64,
    #[serde(skip_serializing_if = "Option::is_none")]
    number: Option<u32>,
    #[serde(default)]
    wearer: Text,
    #[serde(default)]
    dance: Text,
    #[serde(default, skip_serializing_if = "Text::is_empty")]
    event_day: Text,
    #[serde(skip_serializing_if = "Option::is_none")]
    event_day_told: Option<ToldLine>,
    #[serde(default, skip_serializing_if = "Text::is_empty")]
    place: Text,
    #[serde(default, skip_serializing_if = "Text::is_empty")]
    wanted: Text,
    #[serde(skip_serializing_if = "Option::is_none")]
    wanted_told: Option<ToldLine>,
    #[serde(default, skip_serializing_if = "Text::is_empty")]
    collected_by: Text,
    #[serde(default, skip_serializing_if = "Text::is_empty")]
    last_change: Text,
    #[serde(skip_serializing_if = "Option::is_none")]
    last_change_told: Option<ToldLine>,
    #[serde(default, skip_serializing_if = "Text::is_empty")]
    payer: Text,
    #[serde(default, skip_serializing_if = "Text::is_empty")]
    partner: Text,
    #[serde(default, skip_serializing_if = "Text::is_empty")]
    phone: Text,
    #[serde(skip_serializing_if = "Option::is_none")]
    kind: Option<KindLine>,
    #[serde(skip_serializing_if = "Option::is_none")]
    handed: Option<Keyword<Side>>,
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pushes_chair: bool,
    #[serde(skip_serializing_if = "Option::is_none")]
    spared_arm: Option<Keyword<Side>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    allergies: Option<Vec<Text>>,
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    no_latex: bool,
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    no_snug_band: bool,
    #[serde(skip_serializing_if = "Option::is_none")]
    body: Option<BodyLine>,
    #[serde(default, skip_serializing_if = "MeaningLines::is_empty")]
    meanings: MeaningLines,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    overruled: Vec<OverruledLine>,
    #[serde(skip_serializing_if = "Option::is_none")]
    partner_needs: Option<PartnerNeedsLine>,
    #[serde(default, skip_serializing_if = "Text::is_empty")]
    partner_notes: Text,
    #[serde(skip_serializing_if = "Option::is_none")]
    dress: Option<DressLine>,
    #[serde(default, skip_serializing_if = "Text::is_empty")]
    metal: Text,
    #[serde(default, skip_serializing_if = "Text::is_empty")]
    likes: Text,
    #[serde(default)]
    notes: Text,
    #[serde(default)]
    wrist: WristLine,
    #[serde(skip_serializing_if = "Option::is_none")]
    size: Option<Text>,
    #[serde(skip_serializing_if = "Option::is_none")]
    purse: Option<Money>,
    #[serde(skip_serializing_if = "Option::is_none")]
    asked: Option<AskedLine>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    extras: Vec<ExtraLine>,
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    rush: bool,
    #[serde(skip_serializing_if = "Option::is_none")]
    discount: Option<DiscountLine>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    payments: Vec<PaymentLine>,
    #[serde(skip_serializing_if = "Option::is_none")]
    paid: Option<Money>,
    #[serde(skip_serializing_if = "Option::is_none")]
    paid_on: Option<DayLine>,
    #[serde(skip_serializing_if = "Option::is_none")]
    quoted_on: Option<DayLine>,
    #[serde(skip_serializing_if = "Option::is_none")]
    holds_until: Option<DayLine>,
    piece: PieceLine,
    #[serde(skip_serializing_if = "Option::is_none")]
    partner_piece: Option<PieceLine>,
    #[serde(skip_serializing_if = "Option::is_none")]
    shown: Option<ShownLine>,
    #[serde(skip_serializing_if = "Option::is_none")]
    quoted: Option<KeptQuoteLine>,
    #[serde(skip_serializing_if = "Option::is_none")]
    agreed: Option<AgreedLine>,
    #[serde(skip_serializing_if = "Option::is_none")]
    state: Option<Keyword<Progress>>,
    #[serde(default, skip_serializing_if = "Text::is_empty")]
    party: Text,
}

impl OrderFile {
    /// The order that the lines of `text` say.
    pub(super) fn order(&self, text: &str, name: &str, stock: &Stock) -> Result<Order, StoreError> {
        let reader = PieceReader { text, name, stock };
        let partner_text = about_lines::from_field(text, "partner_piece");
        let partner = PieceReader { text: &partner_text, ..reader };
        Ok(Order {
            number: self.number,
            wearer: self.wearer.0.clone(),
            dance: self.dance.0.clone(),
            place: self.place.0.clone(),
            event_day: ToldLine::when(&self.event_day.0, self.event_day_told),
            wanted: ToldLine::when(&self.wanted.0, self.wanted_told),
            collected_by: self.collected_by.0.clone(),
            last_change: ToldLine::when(&self.last_change.0, self.last_change_told),
            people: self.people(),
            needs: self.needs(),
            partner_needs: self.partner_needs.as_ref().map(PartnerNeedsLine::needs).unwrap_or_default(),
            taste: self.taste(),
            notes: self.notes.0.clone(),
            partner_notes: self.partner_notes.0.clone(),
            wrist: self.wrist.wrist(),
            size: self.size.as_ref().map(|s| s.0.clone()),
            terms: self.terms(),
            piece: reader.piece(&self.piece)?,
            partner_piece: self.partner_piece.as_ref().map(|p| partner.piece(p)).transpose()?,
            shown: self.shown.map(ShownLine::shown).unwrap_or_default(),
            quoted: self.quoted.as_ref().map(|q| q.quote(text, name, stock)).transpose()?.map(Box::new),
            agreed: self.agreed.as_ref().map(|a| a.agreed(text, name, stock)).transpose()?.map(Box::new),
            progress: self.state.map(|state| state.0),
            party: self.party.0.clone(),
        })
    }

    /// Whether it holds another order: what was quoted, or what was agreed.
    pub(super) fn holds_another(&self) -> bool {
        self.quoted.is_some() || self.agreed.is_some()
    }

    /// The version that it says it is written in.
    pub(super) fn version(&self) -> u64 {
        self.version
    }

    fn people(&self) -> People {
        People { payer: self.payer.0.clone(), partner: self.partner.0.clone(), phone: self.phone.0.clone() }
    }

    fn needs(&self) -> Needs {
        Needs {
            kind: self.kind.map(KindLine::kind),
            handed: self.handed.map(|h| h.0),
            pushes_chair: self.pushes_chair,
            spared_arm: self.spared_arm.map(|a| a.0),
            allergies: self.allergies.as_ref().map(|things| things.iter().map(|t| t.0.clone()).collect()),
            no_latex: self.no_latex,
            no_snug_band: self.no_snug_band,
            body: self.body.map(BodyLine::body).unwrap_or_default(),
            meanings: need_lines::meanings(&self.meanings),
            overruled: self.overruled.iter().map(OverruledLine::overruled).collect(),
        }
    }

    fn taste(&self) -> Taste {
        let dress = self.dress.as_ref().map(DressLine::dress).unwrap_or_default();
        Taste { dress, metal: self.metal.0.clone(), likes: self.likes.0.clone() }
    }

    fn terms(&self) -> Terms {
        Terms {
            budget: self.purse.map(|p| p.0),
            asked: self.asked.as_ref().map(AskedLine::asked),
            extras: self.extras.iter().map(ExtraLine::extra).collect(),
            rush: self.rush,
            discount: self.discount.as_ref().map(DiscountLine::discount),
            payments: self.paid_before().into_iter().chain(self.payments.iter().map(PaymentLine::payment)).collect(),
            quoted_on: self.quoted_on.map(|d| d.0),
            holds_until: self.holds_until.map(|d| d.0),
        }
    }

    /// What files of before version 3 say of payments: one sum, and perhaps a day.
    fn paid_before(&self) -> Option<Payment> {
        let sum = self.paid.map(|p| p.0).filter(|sum| sum.0 > 0)?;
        Some(Payment { on: self.paid_on.map(|d| d.0), way: PayWay::NotNoted, sum })
    }

    /// The lines of an order, with nothing left out but what is empty.
    pub(super) fn of(order: &Order) -> Self {
        let text = |words: &str| Text(words.to_owned());
        let Order { people, needs, taste, terms, .. } = order;
        // One payment of which no way is known is written as files of before version 3 had it.
        let (paid, payments) = match &terms.payments[..] {
            [only] if only.way == PayWay::NotNoted && (1..=DEAREST.0).contains(&only.sum.0) => (Some(only), &[][..]),
            payments => (None, payments),
        };
        let mut file = Self {
            version: 1,
            number: order.number,
            wearer: text(&order.wearer),
            dance: text(&order.dance),
            place: text(&order.place),
            event_day: text(order.event_day.words()),
            event_day_told: ToldLine::of(&order.event_day),
            wanted: text(order.wanted.words()),
            wanted_told: ToldLine::of(&order.wanted),
            collected_by: text(&order.collected_by),
            last_change: text(order.last_change.words()),
            last_change_told: ToldLine::of(&order.last_change),
            payer: text(&people.payer),
            partner: text(&people.partner),
            phone: text(&people.phone),
            kind: needs.kind.map(KindLine::of),
            handed: needs.handed.map(Keyword),
            pushes_chair: needs.pushes_chair,
            spared_arm: needs.spared_arm.map(Keyword),
            allergies: needs.allergies.as_ref().map(|things| things.iter().map(|t| text(t)).collect()),
            no_latex: needs.no_latex,
            no_snug_band: needs.no_snug_band,
            body: BodyLine::of(needs.body),
            meanings: need_lines::meaning_lines(&needs.meanings),
            overruled: needs.overruled.iter().map(OverruledLine::of).collect(),
            partner_needs: PartnerNeedsLine::of(&order.partner_needs),
            partner_notes: text(&order.partner_notes),
            dress: DressLine::of(&taste.dress),
            metal: text(&taste.metal),
            likes: text(&taste.likes),
            notes: text(&order.notes),
            wrist: WristLine::of(&order.wrist),
            size: order.size.as_deref().map(text),
            purse: terms.budget.map(Money),
            asked: terms.asked.as_ref().map(AskedLine::of),
            extras: terms.extras.iter().map(ExtraLine::of).collect(),
            rush: terms.rush,
            discount: terms.discount.as_ref().map(DiscountLine::of),
            payments: payments.iter().map(PaymentLine::of).collect(),
            paid: paid.map(|p| Money(p.sum)),
            paid_on: paid.and_then(|p| p.on).map(DayLine),
            quoted_on: terms.quoted_on.map(DayLine),
            holds_until: terms.holds_until.map(DayLine),
            piece: PieceLine::of(&order.piece),
            partner_piece: order.partner_piece.as_ref().map(PieceLine::of),
            shown: ShownLine::of(order.shown),
            quoted: order.quoted.as_deref().map(KeptQuoteLine::of),
            agreed: order.agreed.as_deref().map(AgreedLine::of),
            state: order.progress.map(Keyword),
            party: text(&order.party),
        };
        file.version = file.version_needed();
        file
    }

    /// The oldest version that knows everything it holds, so that an older program opens what it can.
    fn version_needed(&self) -> u64 {
        let days = [self.paid_on, self.quoted_on, self.holds_until];
        let is_second = days.iter().any(Option::is_some)
            || self.piece.is_of_version_2()
            || self.partner_piece.as_ref().is_some_and(PieceLine::is_of_version_2);
        let agreed = self.agreed.as_ref().map_or(1, AgreedLine::version_needed);
        let own = [(4, self.is_of_version_4()), (3, self.is_of_version_3()), (2, is_second)];
        let own = own.into_iter().find(|(_, is_it)| *is_it).map_or(1, |(version, _)| version);
        own.max(agreed)
    }

    /// Whether it holds what only version 4 knows.
    fn is_of_version_4(&self) -> bool {
        let pieces = std::iter::once(&self.piece).chain(&self.partner_piece);
        let partners = self.partner_needs.as_ref().is_some_and(PartnerNeedsLine::is_of_version_4);
        self.body.is_some() || partners || pieces.into_iter().any(PieceLine::is_of_version_4)
    }

    /// Whether it holds of money what only version 3 knows.
    fn is_of_version_3_in_money(&self) -> bool {
        self.discount.is_some()
            || !self.payments.is_empty()
            || self.quoted.is_some()
            || self.extras.iter().any(ExtraLine::is_of_version_3)
    }

    /// Whether it holds what only version 3 knows.
    fn is_of_version_3(&self) -> bool {
        let words = [&self.event_day, &self.collected_by, &self.last_change, &self.party, &self.partner_notes];
        let told = [self.event_day_told, self.wanted_told, self.last_change_told];
        let has_needs = !self.meanings.is_empty() || !self.overruled.is_empty() || self.partner_needs.is_some();
        let is_told = words.iter().any(|words| !words.is_empty()) || told.iter().any(Option::is_some);
        self.number.is_some()
            || self.state.is_some()
            || self.shown.is_some()
            || has_needs
            || is_told
            || self.is_of_version_3_in_money()
    }
}

impl Versioned for OrderFile {
    const KIND: &'static str = "order";
    const NEWEST: u64 = 4;
}

/// What is odd in an order but may be meant.
fn warnings(order: &Order, stock: &Stock) -> Vec<String> {
    let mut found = order.days().warnings(&WallClock::NONE, Written::default());
    for part in order.piece.parts() {
        let (Some(size), Some(b)) = (part.size_mm, stock.botanical(&part.stock)) else { continue };
        if size < b.size_mm[0] || size > b.size_mm[2] {
            found.push(format!(
                "Part {} ({}) is {} mm; usual is {} to {} mm.",
                part.id.0,
                b.name,
                mm_text(size),
                mm_text(b.size_mm[0]),
                mm_text(b.size_mm[2])
            ));
        }
    }
    if let Some(band) = order.piece.band.as_ref().and_then(|id| stock.band(id)) {
        let girth = order.wrist.girth_mm();
        if girth < band.fits_mm[0] || girth > band.fits_mm[1] {
            found.push(format!(
                "{} fits wrists of {} to {} mm; this one is {} mm.",
                band.name,
                mm_text(band.fits_mm[0]),
                mm_text(band.fits_mm[1]),
                mm_text(girth)
            ));
        }
    }
    found
}
