//! What is still to find out about an order, and whom to ring for it.

use super::{Avoided, Needs, Order, OutOfSeason, Words};
use crate::piece::{Measured, Worn};
use crate::stock::Stock;

/// One thing that is not known yet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum MissingDetail {
    /// Who wears it.
    Wearer,
    /// Which dance or wedding.
    Dance,
    /// The day it is picked up.
    Day,
    /// The girth of the wrist.
    Girth,
    /// The colour of the dress.
    Dress,
    /// Whether anything is not borne.
    Allergies,
    /// Whether the boutonniere's wearer does not bear something.
    PartnerAllergies,
    /// Pacemaker, scent, watch or bandage, an arm to spare.
    Body,
    /// Pacemaker and scent of the boutonniere's wearer.
    PartnerBody,
    /// Adult or child.
    Kind,
    /// Which hand is used most.
    Hand,
    /// On which day the event is.
    EventDay,
    /// At what hour it is picked up.
    Hour,
    /// Where to ring.
    Phone,
    /// Who pays.
    Payer,
    /// With whom the wearer goes.
    Partner,
    /// Metal of the jewellery.
    Metal,
}

impl MissingDetail {
    /// Whether buying or making waits for it, so that somebody must be rung.
    pub fn holds_up(self) -> bool {
        match self {
            Self::Wearer | Self::Dance | Self::Day | Self::Girth | Self::Dress => true,
            Self::Allergies
            | Self::PartnerAllergies
            | Self::Body
            | Self::PartnerBody
            | Self::Kind
            | Self::Hand
            | Self::EventDay
            | Self::Hour
            | Self::Phone
            | Self::Payer
            | Self::Partner
            | Self::Metal => false,
        }
    }

    /// What it is, for a list: `dress colour`.
    pub fn name(self) -> &'static str {
        self.words().0
    }

    /// How one asks.
    pub fn question(self) -> &'static str {
        self.words().1
    }

    /// What a label or a card says where it is missing.
    pub fn warning(self) -> String {
        match self {
            Self::Girth => "wrist not measured".to_owned(),
            _ => format!("{} missing", self.name()),
        }
    }

    fn words(self) -> (&'static str, &'static str) {
        match self {
            Self::Wearer => ("wearer", "Who wears it?"),
            Self::Dance => ("event", "Which event?"),
            Self::Day => ("pick-up day", "Which day is pick-up?"),
            Self::Girth => ("wrist size", "Wrist size?"),
            Self::Dress => ("dress colour", "Dress colour?"),
            Self::Allergies => ("allergies", "Allergies or materials to avoid?"),
            Self::PartnerAllergies => ("partner's allergies", "Anything the partner must avoid?"),
            Self::Body => ("pacemaker, scent, arm to spare", "Pacemaker? Scent? Watch or bandage? An arm to spare?"),
            Self::PartnerBody => ("partner\u{2019}s pacemaker, scent", "Partner: a pacemaker? Trouble with scent?"),
            Self::Kind => ("adult or child", "Adult or child?"),
            Self::Hand => ("left- or right-handed", "Left- or right-handed?"),
            Self::EventDay => ("event day", "Which day is the event?"),
            Self::Hour => ("pick-up time", "What time is pick-up?"),
            Self::Phone => ("phone", "Phone number?"),
            Self::Payer => ("who pays", "Who pays?"),
            Self::Partner => ("partner", "Partner's name?"),
            Self::Metal => ("jewellery", "Silver or gold jewellery?"),
        }
    }
}

impl Order {
    /// What is still to find out, what holds up the work first. A boutonniere asks for no girth and no hand.
    ///
    /// Allergies that nobody understands are still to find out, as are those nobody asked about.
    pub fn missing_details(&self, stock: &Stock) -> Vec<MissingDetail> {
        let is_open = |needs: &Needs| needs.allergies.is_none() || Avoided::of(needs, stock).open().next().is_some();
        let blank = |words: &str| words.trim().is_empty();
        let on_wrist = self.piece.worn == Worn::Wrist;
        [
            (MissingDetail::Wearer, blank(&self.wearer)),
            (MissingDetail::Dance, blank(&self.dance)),
            (MissingDetail::Day, self.wanted.day().is_none()),
            (MissingDetail::Girth, on_wrist && self.wrist.measured == Measured::NotYet),
            (MissingDetail::Dress, self.taste.dress.is_blank()),
            (MissingDetail::Allergies, is_open(&self.needs)),
            (MissingDetail::PartnerAllergies, self.partner_piece.is_some() && is_open(&self.partner_needs)),
            (MissingDetail::Body, !self.needs.body.is_asked),
            (MissingDetail::PartnerBody, self.partner_piece.is_some() && !self.partner_needs.body.is_asked),
            (MissingDetail::Kind, self.needs.kind.is_none()),
            (MissingDetail::Hand, on_wrist && self.needs.handed.is_none()),
            (MissingDetail::EventDay, self.event_day.day().is_none()),
            (MissingDetail::Hour, self.wanted.hour().is_none()),
            (MissingDetail::Phone, blank(&self.people.phone)),
            (MissingDetail::Payer, blank(&self.people.payer)),
            (MissingDetail::Partner, blank(&self.people.partner)),
            (MissingDetail::Metal, blank(&self.taste.metal)),
        ]
        .into_iter()
        .filter_map(|(what, unknown)| unknown.then_some(what))
        .collect()
    }
}

/// An order that waits for an answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CallBack {
    /// Where the order stands among those given.
    pub place: usize,
    /// What it is called, with what tells it apart.
    pub title: String,
    /// Where to ring; empty when that is not known either.
    pub phone: String,
    /// What to ask; nothing where only the season is in the way.
    pub asks: Vec<MissingDetail>,
    /// What is not in trade on the day, so that something else must be agreed.
    pub out_of_season: Vec<OutOfSeason>,
}

impl CallBack {
    /// `Mina – Petite, Harbour Hall: needs wrist size and dress colour · 555 0100`.
    pub fn line(&self) -> String {
        format!("{}: needs {}", self.title, self.needs())
    }

    /// `wrist size, dress colour and something in season for Ranunculus · 555 0100`.
    pub fn needs(&self) -> String {
        let out: Vec<&str> = self.out_of_season.iter().map(|out| out.name.as_str()).collect();
        let season = (!out.is_empty()).then(|| Words::something_in_season(&out));
        let needs: Vec<String> = self.asks.iter().map(|a| a.name().to_owned()).chain(season).collect();
        let phone = if self.phone.is_empty() { "no phone" } else { &self.phone };
        format!("{} \u{b7} {phone}", super::listed(&needs))
    }
}

/// Whom to ring: the orders for which something is not known that holds up the work, or that hold a flower out of season; soonest
/// wanted first.
pub fn call_backs<'a>(orders: impl IntoIterator<Item = &'a Order>, stock: &Stock) -> Vec<CallBack> {
    let mut found: Vec<_> = orders
        .into_iter()
        .enumerate()
        .filter_map(|(place, order)| {
            let asks: Vec<MissingDetail> = order.missing_details(stock).into_iter().filter(|a| a.holds_up()).collect();
            let out_of_season = order.out_of_season(stock);
            let phone = order.people.phone.trim().to_owned();
            let soon = (order.wanted.day().is_none(), order.wanted.day(), order.wanted.hour());
            let is_held_up = !asks.is_empty() || !out_of_season.is_empty();
            is_held_up.then(|| (soon, CallBack { place, title: order.title_line(), phone, asks, out_of_season }))
        })
        .collect();
    found.sort_by_key(|(soon, _)| *soon);
    found.into_iter().map(|(_, call)| call).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::book::{Change, DressColour, When};
    use crate::units::Length;

    fn known() -> Vec<Change> {
        vec![
            Change::Wearer("Ida".into()),
            Change::Dance("Harbour Hall".into()),
            Change::Wanted(When::typed("9 May 2026, 2 pm")),
            Change::Girth(Length::from_mm(150.0)),
            Change::Dress(DressColour { hex: None, words: "teal".into() }),
        ]
    }

    #[test]
    fn an_order_waits_for_what_holds_up_the_work_and_for_nothing_else() {
        let stock = Stock::default();
        let blank = Order::blank(None, &stock);
        assert_eq!(blank.missing_details(&stock).len(), 15);
        let whole = blank.apply(&Change::Together(known()), &stock).unwrap();
        assert!(call_backs([&whole], &stock).is_empty());
        assert!(
            whole.missing_details(&stock).contains(&MissingDetail::Allergies),
            "asked, though the work does not wait"
        );
        let mut without = known();
        without.pop();
        let held = blank.apply(&Change::Together(without), &stock).unwrap();
        let calls = call_backs([&whole, &held], &stock);
        assert_eq!((calls.len(), calls[0].place, calls[0].asks.as_slice()), (1, 1, &[MissingDetail::Dress][..]));
        assert_eq!(calls[0].line(), "Ida, Harbour Hall, Sat 9 May 2026, 2:00 pm: needs dress colour \u{b7} no phone");
        assert_eq!(MissingDetail::Dress.warning(), "dress colour missing");
    }

    #[test]
    fn the_soonest_is_rung_first_and_those_without_a_day_last() {
        let stock = Stock::default();
        let on = |day: &str| Order::blank(None, &stock).apply(&Change::Wanted(When::typed(day)), &stock).unwrap();
        let orders = [on("soon"), on("16 May 2026"), on("9 May 2026 3 pm"), on("9 May 2026 2 pm")];
        let places: Vec<usize> = call_backs(&orders, &stock).iter().map(|c| c.place).collect();
        assert_eq!(places, [3, 2, 1, 0]);
    }
}
