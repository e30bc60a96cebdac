//! What may be seen of the open order, as two values.
//!
//! [`ClientView`] holds what both sides of the counter may read: no cost, no score, no note is in it, so that showing one
//! to a client would not compile. [`ShopView`] holds the rest and is there in the shop view alone. What a page works out for
//! itself and must not show to a client it wraps in [`ShopOnly`].

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use crate::app::typing::field::Field;
use crate::app::widgets::naming::so_many;
use crate::app::workers::picture_worker::SceneMaker;
use crate::book::{
    Avoided, Charge, Day, Extra, Needs, Order, OrderDays, Payment, QuoteLine, Shown, Stopped, Taste, TaxLine,
    Understood, WearerStops, When, Written, changes_since, stopped_on_both,
};
use crate::colour::Rgb;
use crate::geometry::Shape;
use crate::history::Revision;
use crate::once_over::Annotation;
use crate::paperwork::{Pending, Quote, ShareOfThree, StemLine, n_example_prices};
use crate::piece::{HouseStyle, Part, Piece, PieceSize, Question, Wrist};
use crate::scene::{Ground, PictureOptions, Skin, picture};
use crate::session::{ActivePiece, Derived, Session};
use crate::stock::{Botanical, Caution, Form, Keeps, Role, Stock, StockColour, StockId};
use crate::units::{Cents, Currency, DecimalMark};

/// What both sides of the counter may read.
#[derive(Debug)]
pub(crate) struct ClientView {
    pub(crate) order: ClientOrder,
    /// Which piece is on the wrist sheet.
    pub(crate) active: ActivePiece,
    /// The wrist, its size in the unit that is shown.
    pub(crate) wrist: Wrist,
    pub(crate) goods: Goods,
    pub(crate) currency: Currency,
    pub(crate) quote: ClientQuote,
    /// What is in the active piece, a line a kind.
    pub(crate) contents: Vec<String>,
    /// What the client could still add, where there is room for something.
    pub(crate) invitation: Option<Invitation>,
    /// What the wearers must not get and is on their pieces.
    pub(crate) stopped: Vec<Stopped>,
    /// What of the trays the wearer of the active piece must not get.
    pub(crate) kept_off: BTreeSet<StockId>,
    /// What was typed about allergies, understood: of the wearer, and of the partner.
    pub(crate) understood: Vec<Understood>,
    pub(crate) partner_understood: Vec<Understood>,
    /// The sizes of the shop.
    pub(crate) sizes: Vec<PieceSize>,
    /// What has changed since the client agreed; what it costs stands in the quote.
    pub(crate) changes: Vec<String>,
    /// The order as it stands, a running gesture included.
    pub(crate) revision: Revision,
    /// The order without a running gesture.
    pub(crate) settled_revision: Revision,
    pub(crate) is_saved: bool,
    pub(crate) has_file: bool,
    pub(crate) can_undo: bool,
    pub(crate) can_redo: bool,
    /// The active piece without a running gesture.
    pub(crate) settled_piece: Piece,
    /// What stands in the fields that the client may read.
    pub(crate) texts: BTreeMap<Field, String>,
    /// For measures and pictures; it knows prices, so nobody else gets it.
    stock: Arc<Stock>,
    /// For pictures.
    scene_order: Arc<Order>,
}

/// The order as the client may read it.
#[derive(Clone, Debug)]
pub(crate) struct ClientOrder {
    pub(crate) title: String,
    /// `No. 104`; empty before it has a number.
    pub(crate) number: String,
    /// The days that stand in fields.
    days: BTreeMap<Field, When>,
    pub(crate) needs: Needs,
    pub(crate) partner_needs: Needs,
    pub(crate) taste: Taste,
    pub(crate) size: Option<String>,
    pub(crate) budget: Option<Cents>,
    pub(crate) extras: Vec<Extra>,
    pub(crate) payments: Vec<Payment>,
    pub(crate) rush: bool,
    pub(crate) piece: Piece,
    pub(crate) partner_piece: Option<Piece>,
    pub(crate) shown: Shown,
    pub(crate) agreed: Option<ClientAgreement>,
    /// Details that are missing.
    pub(crate) missing: Vec<crate::book::MissingDetail>,
}

/// What was agreed, as both read it.
#[derive(Clone, Debug)]
pub(crate) struct ClientAgreement {
    pub(crate) on: Day,
    pub(crate) price: Cents,
    pub(crate) lines: Vec<String>,
    pub(crate) holds_until: Option<Day>,
    pub(crate) piece: Piece,
}

/// What the client pays.
#[derive(Clone, Debug)]
pub(crate) struct ClientQuote {
    pub(crate) lines: Vec<QuoteLine>,
    pub(crate) taxes: Vec<TaxLine>,
    pub(crate) total: Cents,
    pub(crate) deposit: Cents,
    pub(crate) balance: Cents,
    pub(crate) paid: Cents,
    pub(crate) due: Cents,
    pub(crate) holds_until: Option<Day>,
    pub(crate) shares: ShareOfThree,
    /// What is not agreed yet.
    pub(crate) pending: Option<Pending>,
}

/// Something the client could add, and where.
#[derive(Clone, Debug)]
pub(crate) struct Invitation {
    pub(crate) question: Question,
    pub(crate) says: String,
    pub(crate) marks: Vec<Annotation>,
}

/// What the designer alone reads.
#[derive(Debug)]
pub(crate) struct ShopView {
    pub(crate) order: Arc<Order>,
    pub(crate) derived: Arc<Derived>,
    pub(crate) quote: Arc<Quote>,
    pub(crate) style: Arc<HouseStyle>,
    pub(crate) stock: Arc<Stock>,
    /// How many lines of the price are still at the price that came with the program.
    pub(crate) n_example_prices: usize,
}

/// Something that only the designer may read: getting it takes the shop's view.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct ShopOnly<T>(T);

impl<T> ShopOnly<T> {
    pub(crate) fn new(secret: T) -> Self {
        Self(secret)
    }

    pub(crate) fn get(&self, _seen_by: &ShopView) -> &T {
        &self.0
    }
}

/// What can be put on a piece, without what it costs.
#[derive(Clone, Debug)]
pub(crate) struct Goods(Arc<Vec<Good>>);

/// One kind of goods.
#[derive(Clone, Debug)]
pub(crate) struct Good {
    pub(crate) id: StockId,
    pub(crate) name: String,
    pub(crate) botanical: String,
    pub(crate) role: Role,
    pub(crate) form: Form,
    pub(crate) usual_mm: f64,
    pub(crate) breadth: f64,
    pub(crate) colours: Vec<StockColour>,
    pub(crate) keeps: Keeps,
    pub(crate) cautions: Vec<Caution>,
    /// Whether it is in a tray: not what is cut from something else, nor what the shop has hidden.
    pub(crate) in_tray: bool,
    /// Whether it comes first in its tray.
    pub(crate) is_starred: bool,
}

impl Goods {
    pub(crate) fn of(stock: &Stock) -> Self {
        Self(Arc::new(stock.botanicals().iter().map(Good::of).collect()))
    }

    pub(crate) fn all(&self) -> &[Good] {
        &self.0
    }

    pub(crate) fn get(&self, id: &StockId) -> Option<&Good> {
        self.0.iter().find(|good| good.id == *id)
    }

    /// The trade name.
    pub(crate) fn name(&self, id: &StockId) -> String {
        self.get(id).map_or_else(|| id.to_string(), |good| good.name.clone())
    }
}

impl Good {
    pub(crate) fn of(botanical: &Botanical) -> Self {
        Self {
            id: botanical.id.clone(),
            name: botanical.name.clone(),
            botanical: botanical.botanical.clone(),
            role: botanical.role,
            form: botanical.form,
            usual_mm: botanical.usual_mm(),
            breadth: botanical.breadth,
            colours: botanical.colours.clone(),
            keeps: botanical.keeps,
            cautions: botanical.cautions.clone(),
            in_tray: botanical.cut_from.is_none() && !botanical.shelf.is_hidden,
            is_starred: botanical.shelf.is_starred,
        }
    }

    /// The colour in which it is taken unless another is chosen.
    pub(crate) fn usual_colour(&self) -> Arc<str> {
        self.colours.first().map_or_else(|| Arc::from("white"), |colour| colour.name.as_str().into())
    }

    pub(crate) fn rgb(&self, colour: &str) -> Option<Rgb> {
        self.colours.iter().find(|c| c.name == colour).map(|c| c.rgb)
    }
}

/// What the picture stands on: arm and cloth.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Tone {
    pub(crate) skin: Skin,
    pub(crate) dress: Option<Rgb>,
}

impl Tone {
    /// That on which an order is shown.
    pub(crate) fn of(shown: Shown, taste: &Taste) -> Self {
        Self { skin: shown.skin, dress: taste.dress.hex.filter(|_| shown.cloth) }
    }
}

impl ClientView {
    /// The view of a session. `goods` are those of its stock.
    pub(crate) fn of(session: &mut Session, goods: &Goods, written: Written) -> Self {
        let (derived, quote) = (session.derived(), session.quote());
        let (order, stock, style) = (Arc::clone(session.order()), Arc::clone(session.stock()), session.style());
        let changes = order.agreed.as_ref().map(|agreed| changes_since(agreed, &order, &stock, written));
        let invites = derived.over.findings.iter().find_map(|f| {
            let says = f.invitation()?;
            Some(Invitation { question: f.question, says, marks: f.annotations.clone() })
        });
        Self {
            active: session.active_piece(),
            wrist: session.wrist_as_shown(),
            goods: goods.clone(),
            currency: style.prices.currency.clone(),
            quote: ClientQuote::of(&quote),
            contents: contents(session.piece(), &derived),
            invitation: invites,
            stopped: stopped_on_both(&order, &stock),
            kept_off: kept_off(&session.wearers_order(), &stock),
            understood: Avoided::of(&order.needs, &stock).words,
            partner_understood: Avoided::of(&order.partner_needs, &stock).words,
            sizes: style.sizes.clone(),
            changes: changes.unwrap_or_default(),
            revision: session.revision(),
            settled_revision: session.settled_revision(),
            is_saved: session.is_saved(),
            has_file: session.path().is_some(),
            can_undo: session.can_undo(),
            can_redo: session.can_redo(),
            settled_piece: session.settled_piece().clone(),
            texts: texts(&order, style.prices.currency.decimal),
            order: ClientOrder::of(&order, &stock),
            stock,
            scene_order: order,
        }
    }

    /// Arm and cloth as they are shown.
    pub(crate) fn tone(&self) -> Tone {
        Tone::of(self.order.shown, &self.order.taste)
    }

    /// The active piece, a running gesture included.
    pub(crate) fn piece(&self) -> &Piece {
        self.piece_of(self.active).unwrap_or(&self.order.piece)
    }

    pub(crate) fn piece_of(&self, which: ActivePiece) -> Option<&Piece> {
        match which {
            ActivePiece::Wrist => Some(&self.order.piece),
            ActivePiece::Boutonniere => self.order.partner_piece.as_ref(),
        }
    }

    /// The size that promises something of the active piece.
    pub(crate) fn size(&self) -> Option<&PieceSize> {
        let name = self.order.size.as_ref().filter(|_| self.active == ActivePiece::Wrist)?;
        self.sizes.iter().find(|size| size.name == *name)
    }

    /// Whether all of these words about an allergy are known.
    pub(crate) fn is_understood(&self, typed: &str) -> bool {
        let read = self.stock.avoid().read(typed);
        !read.is_empty() && read.iter().all(|reading| reading.unread.is_empty())
    }

    /// The outline of a part, mm.
    pub(crate) fn shape(&self, part: &Part) -> Shape {
        part.shape_in(&self.stock)
    }

    /// The diameter or the length of a part, mm.
    pub(crate) fn size_mm(&self, part: &Part) -> f64 {
        part.size_in(&self.stock)
    }

    /// Whether lengths are shown in inches.
    pub(crate) fn in_inches(&self) -> bool {
        self.wrist.girth.unit().is_inch()
    }

    /// The name of a band or a botanical within a sentence.
    pub(crate) fn name_in_text(&self, id: &StockId) -> Option<String> {
        let flower = self.goods.get(id).map(|good| good.name.as_str());
        let band = || self.stock.band(id).map(|band| band.name.as_str());
        flower.or_else(band).map(crate::app::widgets::naming::in_text)
    }

    /// The scene of a piece on this wrist, to be made elsewhere. `frame` is what is drawn of the ground, mm.
    pub(crate) fn scene(&self, piece: Piece, tone: Tone, frame: kurbo::Rect) -> SceneMaker {
        scene_of(piece, &self.scene_order, Arc::clone(&self.stock), tone, frame)
    }

    /// What of a piece is to be seen when it is shown whole, mm.
    pub(crate) fn frame_to_fit(&self, piece: &Piece) -> kurbo::Rect {
        frame_to_fit(piece, &self.stock)
    }
}

impl ShopView {
    pub(crate) fn of(session: &mut Session) -> Self {
        Self {
            derived: session.derived(),
            quote: session.quote(),
            order: Arc::clone(session.order()),
            style: Arc::clone(session.style()),
            stock: Arc::clone(session.stock()),
            n_example_prices: n_example_prices(session.order(), session.style(), session.stock()),
        }
    }
}

impl ClientOrder {
    /// The day that stands in a field; none where something else does.
    pub(crate) fn day_in(&self, field: Field) -> Option<&When> {
        self.days.get(&field)
    }

    /// Its days.
    pub(crate) fn days(&self) -> Option<OrderDays<'_>> {
        let [event, pickup, last_change] = Field::DAYS.map(|field| self.days.get(&field));
        let is_agreed = self.agreed.is_some();
        Some(OrderDays { event: event?, pickup: pickup?, last_change: last_change?, is_agreed })
    }

    fn of(order: &Order, stock: &Stock) -> Self {
        Self {
            title: order.title(),
            number: order.number_text(),
            days: Field::DAYS.into_iter().filter_map(|field| Some((field, field.day_in(order)?.clone()))).collect(),
            needs: order.needs.clone(),
            partner_needs: order.partner_needs.clone(),
            taste: order.taste.clone(),
            size: order.size.clone(),
            budget: order.terms.budget,
            extras: order.terms.extras.clone(),
            payments: order.terms.payments.clone(),
            rush: order.terms.rush,
            piece: order.piece.clone(),
            partner_piece: order.partner_piece.clone(),
            shown: order.shown,
            agreed: order.agreed.as_ref().map(|agreed| ClientAgreement {
                on: agreed.on,
                price: agreed.price,
                lines: agreed.says.clone(),
                holds_until: agreed.holds_until,
                piece: agreed.order().piece.clone(),
            }),
            missing: order.missing_details(stock),
        }
    }
}

impl ClientQuote {
    fn of(quote: &Quote) -> Self {
        Self {
            lines: quote.lines.clone(),
            taxes: quote.taxes.clone(),
            total: quote.total,
            deposit: quote.deposit,
            balance: quote.balance,
            paid: quote.paid,
            due: quote.due,
            holds_until: quote.holds_until,
            shares: quote.share_of_three,
            pending: quote.pending.clone(),
        }
    }

    /// What one of the two pieces costs, as long as they have prices of their own.
    pub(crate) fn price_of(&self, which: ActivePiece) -> Option<Cents> {
        let charge = match which {
            ActivePiece::Wrist => Charge::Wrist,
            ActivePiece::Boutonniere => Charge::Boutonniere,
        };
        self.lines.iter().find(|line| line.charge == charge).map(|line| line.price)
    }
}

/// `3 spray roses, white`.
pub(crate) fn stem_words(line: &StemLine) -> String {
    format!("{}, {}", so_many(line.pieces, line.role, &line.name), line.colour)
}

/// What of the stock this wearer must not get, unless the designer uses it all the same.
fn kept_off(order: &Order, stock: &Stock) -> BTreeSet<StockId> {
    let stops = WearerStops::of(order, stock);
    let all = stock.botanicals().iter().filter(|b| !stops.may_place(&b.id));
    all.map(|b| b.id.clone()).collect()
}

fn texts(order: &Order, decimal: DecimalMark) -> BTreeMap<Field, String> {
    let fields = Field::OF_ORDER.into_iter().filter(|field| !field.is_for_shop());
    fields.map(|field| (field, field.shown(order, decimal))).collect()
}

fn contents(piece: &Piece, derived: &Derived) -> Vec<String> {
    let bow = piece.bow.as_ref().map(|bow| format!("{} bow", bow.colour));
    derived.stems.lines.iter().map(stem_words).chain(bow).collect()
}

/// How far cloth is laid about the centre, mm: one piece of cloth, whatever is seen of it, so that its folds stay.
const CLOTH: kurbo::Rect = kurbo::Rect::new(-260.0, -260.0, 260.0, 260.0);

/// The scene of a piece on the wrist of an order, to be made elsewhere.
pub(crate) fn scene_of(
    piece: Piece,
    order: &Arc<Order>,
    stock: Arc<Stock>,
    tone: Tone,
    frame: kurbo::Rect,
) -> SceneMaker {
    let Tone { skin, dress } = tone;
    let frame = if dress.is_some() { CLOTH } else { frame };
    let ground = dress.map_or(Ground::Clear, Ground::Dress);
    let look = PictureOptions { skin, ground, frame: Some(frame), ..PictureOptions::default() };
    let order = Arc::clone(order);
    Box::new(move || picture(&piece, &stock, &order.wrist, &look))
}

/// The oval, the parts and the loops; tails may reach farther.
pub(crate) fn frame_to_fit(piece: &Piece, stock: &Stock) -> kurbo::Rect {
    /// Loops longer than this, mm, may reach out of the window.
    const LONGEST_MM: f64 = 120.0;
    /// Room about the oval, mm.
    const MARGIN_MM: f64 = 16.0;
    let oval = piece.oval();
    let shapes: Vec<_> = piece.parts().iter().map(|p| p.shape_in(stock)).collect();
    let mut all = kurbo::Rect::new(-oval.a, -oval.b, oval.a, oval.b);
    if let Some(parts) = crate::geometry::extents(&shapes) {
        all = all.union(parts);
    }
    if let Some(bow) = &piece.bow {
        let reach = bow.loop_length_mm.min(LONGEST_MM);
        all = all.union(kurbo::Rect::new(-reach / 2.0, -reach, reach / 2.0, reach));
    }
    all.inflate(MARGIN_MM, MARGIN_MM)
}
