//! One order: a wearer, a wrist, a piece, and all that is known around them.

use super::{Agreed, KeptQuote, Needs, People, Progress, Shown, Taste, Terms, When, Written};
use crate::piece::{Footprint, Piece, PieceSize, Worn, Wrist};
use crate::stock::{BandKind, Stock};

/// An order as it is kept, one to a file. Whatever is empty is still to find out.
#[derive(Clone, Debug, PartialEq)]
pub struct Order {
    /// What the shop counts it as; none before it is saved for the first time.
    pub number: Option<u32>,
    /// Who wears it.
    pub wearer: String,
    /// For which dance or wedding.
    pub dance: String,
    /// School or place.
    pub place: String,
    /// The day of the dance or wedding.
    pub event_day: When,
    /// When it is picked up.
    pub wanted: When,
    /// Who picks it up; the payer or the wearer where nobody said.
    pub collected_by: String,
    /// The last day on which something may be changed.
    pub last_change: When,
    /// The people around the wearer.
    pub people: People,
    /// What the wearer's body asks for.
    pub needs: Needs,
    /// What the body of the boutonniere's wearer asks for.
    pub partner_needs: Needs,
    /// Dress, jewellery, likes.
    pub taste: Taste,
    /// Notes that go with the piece.
    pub notes: String,
    /// Notes that go with the boutonniere.
    pub partner_notes: String,
    /// The wrist.
    pub wrist: Wrist,
    /// Name of the size agreed on, if one was chosen.
    pub size: Option<String>,
    /// Purse, asked price, extras.
    pub terms: Terms,
    /// The piece.
    pub piece: Piece,
    /// The boutonniere that goes with it, worn on the partner's lapel.
    pub partner_piece: Option<Piece>,
    /// How the piece was shown to the client.
    pub shown: Shown,
    /// What the last quote was built on.
    pub quoted: Option<Box<KeptQuote>>,
    /// What both said yes to.
    pub agreed: Option<Box<Agreed>>,
    /// How far it has come beyond that.
    pub progress: Option<Progress>,
    /// The party that it belongs to: orders of one name are shown and billed together. Empty when it stands alone.
    pub party: String,
}

impl Order {
    /// An order about which nothing is known yet: a usual left wrist, the first size of the house, no parts.
    pub fn blank(first_size: Option<&PieceSize>, stock: &Stock) -> Self {
        let footprint = Footprint { length_mm: 90.0, width_mm: 54.0, offset_mm: USUAL_OFFSET_MM };
        let mut order = Self {
            number: None,
            wearer: String::new(),
            dance: String::new(),
            place: String::new(),
            event_day: When::default(),
            wanted: When::default(),
            collected_by: String::new(),
            last_change: When::default(),
            people: People::default(),
            needs: Needs::default(),
            partner_needs: Needs::default(),
            taste: Taste::default(),
            notes: String::new(),
            partner_notes: String::new(),
            wrist: Wrist::usual(),
            size: None,
            terms: Terms::default(),
            piece: Piece::empty(Worn::Wrist, footprint),
            partner_piece: None,
            shown: Shown::default(),
            quoted: None,
            agreed: None,
            progress: None,
            party: String::new(),
        };
        if let Some(size) = first_size {
            order.take_size(size);
        }
        order.fit_band(stock);
        order
    }

    /// The boutonniere that goes with the order as an order of its own, with its own wearer's needs and notes.
    pub fn boutonniere(&self) -> Option<Self> {
        let piece = self.partner_piece.clone()?;
        let partner = self.people.partner.trim();
        let wearer = match (partner, self.wearer.trim()) {
            ("", wearer) => wearer.to_owned(),
            (partner, "") => partner.to_owned(),
            (partner, wearer) => format!("{partner}, with {wearer}"),
        };
        let (needs, notes) = (self.partner_needs.clone(), self.partner_notes.clone());
        let mut theirs = Self { wearer, needs, notes, piece, ..self.clone() };
        (theirs.size, theirs.partner_piece, theirs.quoted, theirs.agreed) = (None, None, None, None);
        Some(theirs)
    }

    /// What the order is called on screen and in lists.
    pub fn title(&self) -> String {
        match (self.wearer.trim(), self.size.as_deref()) {
            ("", None) => "New piece".to_owned(),
            ("", Some(size)) => format!("New {size}"),
            (name, None) => name.to_owned(),
            (name, Some(size)) => format!("{name} \u{2013} {size}"),
        }
    }

    /// `No. 104`; empty before it has a number.
    pub fn number_text(&self) -> String {
        self.number.map_or_else(String::new, |number| format!("No. {number}"))
    }

    /// The title with what tells two of one name apart: dance, place, partner, pick-up with the name of its month.
    pub fn title_line(&self) -> String {
        self.title_line_in(Written::default())
    }

    /// The same with days and hours as a shop writes them.
    pub fn title_line_in(&self, written: Written) -> String {
        let with = if self.people.partner.trim().is_empty() {
            String::new()
        } else {
            format!("with {}", self.people.partner.trim())
        };
        let two = if self.partner_piece.is_some() { " and boutonniere" } else { "" };
        let (title, when) = (self.title() + two, self.wanted.written(written));
        let known = [&title, self.dance.trim(), self.place.trim(), &with, &when];
        known.into_iter().filter(|w| !w.is_empty()).collect::<Vec<_>>().join(", ")
    }

    pub(super) fn take_size(&mut self, size: &PieceSize) {
        self.size = Some(size.name.clone());
        self.piece.worn = size.worn;
        self.piece.footprint.length_mm = size.length_mm;
        self.piece.footprint.width_mm = size.width_mm;
        self.piece.bow.clone_from(&size.bow);
    }

    /// A wrist piece gets the band of its kind that fits the wrist; a boutonniere has none.
    pub(super) fn fit_band(&mut self, stock: &Stock) {
        let kind = self.piece.band.as_ref().and_then(|id| stock.band(id)).map_or(BandKind::Elastic, |b| b.kind);
        self.take_band(kind, stock);
    }

    /// The band of `kind` that fits the wrist, for a wrist piece.
    pub(super) fn take_band(&mut self, kind: BandKind, stock: &Stock) {
        self.piece.band = match self.piece.worn {
            Worn::Wrist => stock.band_for(kind, self.wrist.girth_mm()).map(|b| b.id.clone()),
            Worn::Lapel => None,
        };
    }
}

/// How far above the crease of the wrist a piece sits, mm: the middle of the 38 to 64 mm (1 1/2 to 2 1/2 in) that
/// National Ribbon's "Tips and Tricks" gives for the band.
const USUAL_OFFSET_MM: f64 = 50.0;
