//! Small pieces whose scores are computed by hand, for the tables beside each check.
//!
//! The stock holds four things with round figures, and the style has limits of its own, so that no sum depends on what the
//! built-in lists say today.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::{Finding, Subject, look_over};
use crate::geometry::Point;
use crate::piece::{Edit, Footprint, HouseStyle, Level, NewPart, PartId, Piece, Question, ShapeRules, Worn, Wrist};
use crate::stock::{Botanical, Form, Role, Stock, StockId};
use crate::store::{built_in_stock, built_in_style};
use crate::units::Length;

/// A bloom 20 mm across, 10 mm high, 5 g: at twice the size it stands twice as high, and weighs the same.
pub(super) fn head(x: f64, y: f64) -> NewPart {
    part("head", Role::Bloom, Level::Raised, x, y)
}

/// An accent 10 mm across and 10 mm high, 1 g.
pub(super) fn berry(x: f64, y: f64) -> NewPart {
    part("berry", Role::Accent, Level::Raised, x, y)
}

/// A leaf 40 mm long and 10 mm wide that lies at this angle to the arm, 1 g.
pub(super) fn blade(x: f64, y: f64, degrees: f64) -> NewPart {
    NewPart { turn_rad: degrees.to_radians(), ..part("blade", Role::Leaf, Level::Flat, x, y) }
}

fn part(stock: &str, role: Role, level: Level, x: f64, y: f64) -> NewPart {
    let centre = Point::new(x, y);
    NewPart {
        stock: StockId::new(stock),
        colour: Arc::from("white"),
        role,
        centre,
        turn_rad: 0.0,
        size_mm: None,
        level,
    }
}

/// The same of another size.
pub(super) fn sized(part: NewPart, mm: f64) -> NewPart {
    NewPart { size_mm: Some(mm), ..part }
}

/// The same on another level.
pub(super) fn at(part: NewPart, level: Level) -> NewPart {
    NewPart { level, ..part }
}

/// A wrist piece of these parts on an oval of this length and width.
pub(super) fn piece(length_mm: f64, width_mm: f64, parts: impl IntoIterator<Item = NewPart>) -> Piece {
    let bare = Piece::empty(Worn::Wrist, Footprint { length_mm, width_mm, offset_mm: 50.0 });
    parts.into_iter().fold(bare, |piece, part| piece.apply(&Edit::Place(part)).unwrap())
}

/// The same on a lapel.
pub(super) fn on_lapel(mut piece: Piece) -> Piece {
    piece.worn = Worn::Lapel;
    piece
}

/// The n-th part that was put on.
pub(super) fn nth(n: u32) -> PartId {
    PartId(n)
}

/// Stock, style and wrist: limits 1.4 to 2.2 times as long as wide, 0.4 of a wrist of 150 mm, 45 mm high, gaps from 9 mm,
/// fullness 0.6 to 1.05, hidden from 0.4, 12 mm past the edge, 60 g, uneven from 1.25.
pub(super) struct Shop {
    pub(super) stock: Stock,
    pub(super) style: HouseStyle,
    pub(super) wrist: Wrist,
}

impl Shop {
    pub(super) fn new() -> Self {
        let stock = built_in_stock();
        let like = |id: &str| stock.botanical(&StockId::new(id)).unwrap().clone();
        let named = |of: Botanical, id: &str, mm: f64, mass_g: f64| Botanical {
            id: StockId::new(id),
            name: id.to_owned(),
            size_mm: [mm; 3],
            height_mm: 10.0,
            mass_g,
            ..of
        };
        let head = named(like("spray-rose"), "head", 20.0, 5.0);
        let berry = named(like("hypericum"), "berry", 10.0, 1.0);
        let blade = Botanical { breadth: 0.25, ..named(like("italian-ruscus"), "blade", 40.0, 1.0) };
        assert!(blade.form.is_long() && head.form != Form::NarrowLeaf);
        let shape = ShapeRules {
            width_of_girth: 0.4,
            length_to_width: [1.4, 2.2],
            height_mm: 45.0,
            room_mm: 9.0,
            fullness: [0.6, 1.05],
            hidden_share: 0.4,
            protrusion_mm: 12.0,
            mass_g: 60.0,
            uneven_from: 1.25,
        };
        let weights: BTreeMap<Question, f64> = Question::ALL.into_iter().map(|q| (q, 1.0)).collect();
        let style = HouseStyle { shape, weights, ..built_in_style() };
        let wrist = Wrist { girth: Length::from_mm(150.0), ..Wrist::usual() };
        Self { stock: Stock::new(vec![head, berry, blade], Vec::new(), Vec::new(), Vec::new()), style, wrist }
    }

    pub(super) fn subject<'a>(&'a self, piece: &'a Piece) -> Subject<'a> {
        Subject { piece, stock: &self.stock, style: &self.style, wrist: &self.wrist }
    }

    /// The answer to one question; `None` when it does not apply.
    pub(super) fn ask(&self, question: Question, piece: &Piece) -> Option<Finding> {
        look_over(self.subject(piece)).findings.into_iter().find(|f| f.question == question)
    }

    /// The score of a question that does apply.
    pub(super) fn score(&self, question: Question, piece: &Piece) -> f64 {
        self.ask(question, piece).map_or(f64::NAN, |f| f.score)
    }
}

/// The score by the plain rules.
pub(super) fn score(question: Question, piece: &Piece) -> f64 {
    Shop::new().score(question, piece)
}

/// Holds a table of pieces to the scores computed by hand, to a billionth.
pub(super) fn hold(question: Question, table: impl IntoIterator<Item = (&'static str, Piece, f64)>) {
    hold_to(1e-9, question, table);
}

/// The same to this much.
pub(super) fn hold_to(off: f64, question: Question, table: impl IntoIterator<Item = (&'static str, Piece, f64)>) {
    for (what, piece, by_hand) in table {
        let found = score(question, &piece);
        assert!((found - by_hand).abs() <= off, "{question:?}, {what}: {found}, by hand {by_hand}");
    }
}
