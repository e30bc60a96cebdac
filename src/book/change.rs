//! What may change about an order, each one step to undo.

use super::{
    Agreed, Asked, Day, Discount, DressColour, Extra, KeptQuote, NeedChange, NumberCustom, Order, Payment, Progress,
    Reduction, Shown, WearerKind, When, usual_girth,
};
use crate::piece::{Edit, EditRefusal, Fixing, Measured, Piece, PieceSize, Side, Worn};
use crate::stock::{BandKind, Stock};
use crate::units::{Cents, Length};

/// What may change about an order, each one step to undo.
#[derive(Clone, Debug, PartialEq)]
pub enum Change {
    /// The piece.
    Piece(Edit),
    /// Who wears it.
    Wearer(String),
    /// Which dance.
    Dance(String),
    /// School or place.
    Place(String),
    /// The day of the event.
    EventDay(When),
    /// When it is picked up.
    Wanted(When),
    /// Who picks it up.
    CollectedBy(String),
    /// The last day on which something may be changed.
    LastChange(When),
    /// Who pays.
    Payer(String),
    /// With whom the wearer goes.
    Partner(String),
    /// Where to ring.
    Phone(String),
    /// Adult or child; a wrist nobody has measured becomes a usual one of that kind.
    Kind(Option<WearerKind>),
    /// The hand that is used most. The piece stays where it is; a proposal offers the other wrist.
    Handed(Option<Side>),
    /// Whether a wheelchair is pushed by hand.
    PushesChair(bool),
    /// An arm that is not to carry anything.
    SparedArm(Option<Side>),
    /// What is not borne; `None` is not asked yet.
    Allergies(Option<Vec<String>>),
    /// Nothing with latex.
    NoLatex(bool),
    /// Nothing that grips the wrist.
    NoSnugBand(bool),
    /// What the words about the wearer's allergies mean, and what is used all the same.
    Need(NeedChange),
    /// The same and more for the boutonniere's wearer.
    PartnerNeed(NeedChange),
    /// The dress.
    Dress(DressColour),
    /// Metal of the jewellery.
    Metal(String),
    /// What is liked.
    Likes(String),
    /// A custom of numbers.
    Custom(NumberCustom),
    /// Height allowed over the wrist for this piece, mm; `None` is the rule of the house.
    HeightLimit(Option<f64>),
    /// Notes.
    Notes(String),
    /// Notes for the boutonniere.
    PartnerNotes(String),
    /// The wrist has been measured; the band follows it.
    Girth(Length),
    /// Somebody told the girth; the band follows it.
    GirthTold(Length),
    /// Nobody has measured after all.
    NotMeasured,
    /// The other wrist; the piece becomes its mirror image.
    Side(Side),
    /// Another size: its oval, its bow and what it promises. Parts stay.
    Size(Box<PieceSize>),
    /// Wrist or lapel; the band follows it.
    Worn(Worn),
    /// The band of this kind that fits.
    BandKind(BandKind),
    /// Glued or wired.
    Fixing(Fixing),
    /// What the client wants to spend.
    Budget(Option<Cents>),
    /// A price asked instead of the worked one.
    Asked(Option<Asked>),
    /// What is charged for besides the piece.
    Extras(Vec<Extra>),
    /// Whether it is made in a rush.
    Rush(bool),
    /// What is taken off.
    Discount(Option<Discount>),
    /// What has been paid, and what went back.
    Payments(Vec<Payment>),
    /// The day on which the price was quoted, without what it was built on: the price follows stock and rules.
    QuotedOn(Option<Day>),
    /// The price was quoted on this day and stands as it was quoted.
    Quoted(Day, Box<KeptQuote>),
    /// Until when the price holds, for this order; `None` is the rule of the house.
    HoldsUntil(Option<Day>),
    /// The boutonniere that goes with it comes or goes.
    PartnerPiece(Option<Box<Piece>>),
    /// The boutonniere that goes with it changes.
    PartnerEdit(Edit),
    /// How it is shown to the client.
    Shown(Shown),
    /// Both said yes; or the yes is taken back.
    Agreed(Option<Box<Agreed>>),
    /// It is made, collected, cancelled; or not after all.
    Progress(Option<Progress>),
    /// The party that it belongs to.
    Party(String),
    /// Another number than the one that a second order has too.
    Number(u32),
    /// Several changes that are one step.
    Together(Vec<Self>),
}

impl Order {
    /// The order after `change`, or why it cannot be done.
    pub fn apply(&self, change: &Change, stock: &Stock) -> Result<Self, EditRefusal> {
        let mut after = self.clone();
        after.change(change, stock)?;
        Ok(after)
    }

    fn change(&mut self, change: &Change, stock: &Stock) -> Result<(), EditRefusal> {
        match change {
            Change::Piece(edit) => self.piece = self.piece.apply(edit)?,
            Change::Wearer(words) => self.wearer.clone_from(words),
            Change::Dance(words) => self.dance.clone_from(words),
            Change::Place(words) => self.place.clone_from(words),
            Change::EventDay(when) => self.event_day.clone_from(when),
            Change::Wanted(when) => self.wanted.clone_from(when),
            Change::CollectedBy(words) => self.collected_by.clone_from(words),
            Change::LastChange(when) => self.last_change.clone_from(when),
            Change::Payer(words) => self.people.payer.clone_from(words),
            Change::Partner(words) => self.people.partner.clone_from(words),
            Change::Phone(words) => self.people.phone.clone_from(words),
            Change::Kind(kind) => self.take_kind(*kind, stock),
            Change::Handed(hand) => self.needs.handed = *hand,
            Change::PushesChair(pushes) => self.needs.pushes_chair = *pushes,
            Change::SparedArm(arm) => self.needs.spared_arm = *arm,
            Change::Allergies(things) => self.needs.allergies.clone_from(things),
            Change::NoLatex(no) => self.needs.no_latex = *no,
            Change::NoSnugBand(no) => self.needs.no_snug_band = *no,
            Change::Need(change) => self.needs.change(change),
            Change::PartnerNeed(change) => self.partner_needs.change(change),
            Change::Dress(dress) => self.taste.dress.clone_from(dress),
            Change::Metal(words) => self.taste.metal.clone_from(words),
            Change::Likes(words) => self.taste.likes.clone_from(words),
            Change::Custom(custom) => self.take_custom(custom),
            Change::HeightLimit(mm) => self.piece.wishes.height_mm = mm.filter(|mm| HEIGHTS_MM.contains(mm)),
            Change::Notes(words) => self.notes.clone_from(words),
            Change::PartnerNotes(words) => self.partner_notes.clone_from(words),
            Change::Girth(girth) => self.measure(girth.clone(), Measured::Tape, stock),
            Change::GirthTold(girth) => self.measure(girth.clone(), Measured::Told, stock),
            Change::NotMeasured => self.measure(usual_girth(self.needs.kind), Measured::NotYet, stock),
            Change::Side(side) => self.turn_to(*side)?,
            Change::Size(size) => {
                self.take_size(size);
                self.fit_band(stock);
            }
            Change::Worn(worn) => {
                self.piece.worn = *worn;
                self.fit_band(stock);
            }
            Change::BandKind(kind) => self.take_band(*kind, stock),
            Change::Fixing(fixing) => self.piece.fixing = *fixing,
            Change::Budget(budget) => self.terms.budget = budget.map(payable),
            Change::Asked(asked) => self.terms.asked = asked.clone().map(|a| Asked { price: payable(a.price), ..a }),
            Change::Extras(extras) => {
                self.terms.extras.clone_from(extras);
                for extra in &mut self.terms.extras {
                    extra.price = payable(extra.price);
                    extra.tax_percent = extra.tax_percent.map(percent);
                }
            }
            Change::Rush(rush) => self.terms.rush = *rush,
            Change::Discount(discount) => self.terms.discount = discount.clone().map(possible),
            Change::Payments(payments) => {
                self.terms.payments = payments.iter().map(Payment::plain).collect();
            }
            Change::QuotedOn(day) => (self.terms.quoted_on, self.quoted) = (*day, None),
            Change::Quoted(day, kept) => (self.terms.quoted_on, self.quoted) = (Some(*day), Some(kept.clone())),
            Change::HoldsUntil(day) => self.terms.holds_until = *day,
            Change::PartnerPiece(piece) => self.partner_piece = piece.as_deref().cloned(),
            Change::PartnerEdit(edit) => {
                self.partner_piece = self.partner_piece.as_ref().map(|p| p.apply(edit)).transpose()?;
            }
            Change::Shown(shown) => self.shown = *shown,
            Change::Agreed(agreed) => self.agreed.clone_from(agreed),
            Change::Progress(progress) => self.progress = *progress,
            Change::Party(words) => self.party.clone_from(words),
            Change::Number(number) => self.number = Some(*number),
            Change::Together(changes) => changes.iter().try_for_each(|c| self.change(c, stock))?,
        }
        Ok(())
    }

    fn take_kind(&mut self, kind: Option<WearerKind>, stock: &Stock) {
        self.needs.kind = kind;
        if self.wrist.measured == Measured::NotYet {
            self.measure(usual_girth(kind), Measured::NotYet, stock);
        }
    }

    fn take_custom(&mut self, custom: &NumberCustom) {
        self.piece.wishes.avoided_counts.clone_from(&custom.avoided);
        self.piece.wishes.even_is_welcome = custom.even_is_welcome;
    }

    fn measure(&mut self, girth: Length, measured: Measured, stock: &Stock) {
        self.wrist.girth = girth;
        self.wrist.measured = measured;
        self.fit_band(stock);
    }

    fn turn_to(&mut self, side: Side) -> Result<(), EditRefusal> {
        if side != self.wrist.side {
            self.wrist.side = side;
            self.piece = self.piece.apply(&Edit::Mirror)?;
        }
        Ok(())
    }
}

/// A discount that can be given: no more than all of it.
fn possible(discount: Discount) -> Discount {
    let off = match discount.off {
        Reduction::Amount(cents) => Reduction::Amount(payable(cents)),
        Reduction::Percent(of) => Reduction::Percent(percent(of)),
    };
    Discount { off, ..discount }
}

/// A rate from nothing to all of it; what is no number is nothing.
fn percent(rate: f64) -> f64 {
    if rate.is_nan() { 0.0 } else { rate.clamp(0.0, 100.0) }
}

/// An amount that an order may hold: not below nothing, not above [`DEAREST`].
pub(super) fn payable(price: Cents) -> Cents {
    price.clamp(Cents(0), DEAREST)
}

/// The most that any one amount of an order may be; our choice, as for prices in stock.
pub const DEAREST: Cents = Cents(100_000_000);

/// Limits of height that may be set for one piece, mm; our choice.
pub const HEIGHTS_MM: std::ops::RangeInclusive<f64> = 5.0..=200.0;

impl Change {
    /// What it is called where it can be taken back: "Undo: dress colour".
    pub fn words(&self) -> &'static str {
        match self {
            Self::Piece(_) => "piece",
            Self::Wearer(_) => "wearer",
            Self::Dance(_) => "event",
            Self::Place(_) => "school or place",
            Self::EventDay(_) => "event day",
            Self::Wanted(_) => "pick-up day and time",
            Self::CollectedBy(_) => "who collects",
            Self::LastChange(_) => "last day to change",
            Self::Payer(_) => "who pays",
            Self::Partner(_) => "partner",
            Self::Phone(_) => "phone",
            Self::Kind(_) => "adult or child",
            Self::Handed(_) => "left- or right-handed",
            Self::PushesChair(_) => "pushes a wheelchair",
            Self::SparedArm(_) => "arm to avoid",
            Self::Allergies(_) => "allergies",
            Self::NoLatex(_) => "no latex",
            Self::NoSnugBand(_) => "nothing tight",
            Self::Need(change) => change.words(),
            Self::PartnerNeed(_) => "partner's needs",
            Self::Dress(_) => "dress colour",
            Self::Metal(_) => "jewellery",
            Self::Likes(_) => "likes",
            Self::Custom(_) => "flower count",
            Self::HeightLimit(_) => "height allowed",
            Self::Notes(_) => "notes",
            Self::PartnerNotes(_) => "boutonniere notes",
            Self::Girth(_) | Self::GirthTold(_) | Self::NotMeasured => "wrist size",
            Self::Side(_) => "wrist",
            Self::Size(_) => "size",
            Self::Worn(_) => "where it is worn",
            Self::BandKind(_) => "band",
            Self::Fixing(_) => "glued or wired",
            Self::Budget(_) => "budget",
            Self::Asked(_) => "your price",
            Self::Extras(_) => "extras",
            Self::Rush(_) => "rush order",
            Self::Discount(_) => "discount",
            Self::Payments(_) => "payment",
            Self::QuotedOn(_) | Self::Quoted(..) => "quote",
            Self::HoldsUntil(_) => "price holds until",
            Self::PartnerPiece(_) | Self::PartnerEdit(_) => "matching boutonniere",
            Self::Shown(_) => "how it is shown",
            Self::Agreed(_) => "agreement",
            Self::Progress(_) => "state",
            Self::Party(_) => "party",
            Self::Number(_) => "number",
            Self::Together(changes) => changes.first().map_or("nothing", Self::words),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Point;
    use crate::piece::{Level, NewPart};
    use crate::stock::{Role, StockId};
    use std::sync::Arc;

    #[test]
    fn the_other_wrist_mirrors_the_piece_and_back_again() {
        let stock = Stock::default();
        let new = NewPart {
            stock: StockId::new("rose"),
            colour: Arc::from("white"),
            role: Role::Bloom,
            centre: Point::new(12.0, 8.0),
            turn_rad: 0.0,
            size_mm: None,
            level: Level::Raised,
        };
        let left = Order::blank(None, &stock).apply(&Change::Piece(Edit::Place(new)), &stock).unwrap();
        let right = left.apply(&Change::Side(Side::Right), &stock).unwrap();
        assert_eq!(right.piece.parts()[0].centre, Point::new(12.0, -8.0));
        assert_eq!(right.apply(&Change::Side(Side::Right), &stock).unwrap(), right);
        assert_eq!(right.apply(&Change::Side(Side::Left), &stock).unwrap(), left);
    }
}
