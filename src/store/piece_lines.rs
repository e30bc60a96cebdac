//! A piece in files, shared by what an order is for, the boutonniere that goes with it, and the agreed sheet.

use serde::{Deserialize, Serialize};

use super::bow_lines::{self, BowLine};
use super::figures::{Angle, Axis, Number, Offset, PartSize, Text};
use super::keywords::Keyword;
use super::reading::{line_with, nth_line_with};
use super::store_error::{Cause, StoreError};
use super::wishes_line::WishesLine;
use crate::geometry::Point;
use crate::piece::{Fixing, Footprint, LapelHold, LapelWear, Level, Part, PartId, Piece, Side, Worn};
use crate::stock::{Role, Stock, StockId};

/// Most parts of a piece; our choice, far beyond any wrist.
pub(super) const MOST_PARTS: usize = 5000;

/// How far the centre of a piece usually sits from the crease of the wrist, mm; our choice, common practice.
const USUAL_OFFSET_MM: f64 = 50.0;

/// A piece as a file holds it.
#[derive(Debug, Deserialize, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
pub(super) struct PieceLine {
    worn: Option<Keyword<Worn>>,
    oval: OvalLine,
    #[serde(skip_serializing_if = "Option::is_none")]
    band: Option<Text>,
    fixing: Option<Keyword<Fixing>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    lapel: Option<LapelLine>,
    #[serde(default, skip_serializing_if = "is_no")]
    sprayed: bool,
    #[serde(skip_serializing_if = "Option::is_none")]
    bow: Option<BowLine>,
    #[serde(skip_serializing_if = "Option::is_none")]
    wishes: Option<WishesLine>,
    #[serde(default)]
    pub(super) parts: Vec<PartLine>,
}

#[derive(Debug, Deserialize, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
struct OvalLine {
    length: Axis,
    width: Axis,
    offset: Option<Offset>,
}

/// `(side: right, hold: magnets)`; what is left out is the left lapel, and pins.
#[derive(Debug, Deserialize, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
struct LapelLine {
    #[serde(skip_serializing_if = "Option::is_none")]
    side: Option<Keyword<Side>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    hold: Option<Keyword<LapelHold>>,
}

impl LapelLine {
    fn lapel(&self) -> LapelWear {
        let usual = LapelWear::default();
        LapelWear { side: self.side.map_or(usual.side, |s| s.0), hold: self.hold.map_or(usual.hold, |h| h.0) }
    }

    /// The line of what is not as usual; none where all of it is.
    fn of(lapel: LapelWear) -> Option<Self> {
        let usual = LapelWear::default();
        let side = (lapel.side != usual.side).then_some(Keyword(lapel.side));
        let hold = (lapel.hold != usual.hold).then_some(Keyword(lapel.hold));
        (lapel != usual).then_some(Self { side, hold })
    }
}

/// A part as a file holds it.
#[derive(Debug, Deserialize, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
pub(super) struct PartLine {
    id: Option<Number>,
    stock: Text,
    colour: Option<Text>,
    at: (Offset, Offset),
    #[serde(skip_serializing_if = "Option::is_none")]
    turn: Option<Angle>,
    #[serde(skip_serializing_if = "Option::is_none")]
    size: Option<PartSize>,
    level: Option<Keyword<Level>>,
    #[serde(default, skip_serializing_if = "is_no")]
    locked: bool,
    role: Option<Keyword<Role>>,
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde hands over a reference")]
fn is_no(answer: &bool) -> bool {
    !answer
}

/// Turns the lines of a file into a piece.
pub(super) struct PieceReader<'a> {
    pub(super) text: &'a str,
    pub(super) name: &'a str,
    pub(super) stock: &'a Stock,
}

impl PieceReader<'_> {
    /// The piece of a line, or what is wrong with it.
    pub(super) fn piece(&self, line: &PieceLine) -> Result<Piece, StoreError> {
        let oval = &line.oval;
        let footprint = Footprint {
            length_mm: oval.length.0,
            width_mm: oval.width.0,
            offset_mm: oval.offset.map_or(USUAL_OFFSET_MM, |o| o.0),
        };
        let bow = line.bow.as_ref().map(|b| b.bow(self.stock));
        if let Some(cause) = bow.as_ref().and_then(|b| bow_lines::fault(b, self.stock)) {
            return Err(StoreError::at(self.name, line_with(self.text, "bow", ""), cause));
        }
        let band = self.band(line)?;
        let fixing = line.fixing.map_or(Fixing::Glued, |f| f.0);
        let worn = line.worn.map_or(Worn::Wrist, |w| w.0);
        let mut piece = Piece::restore(worn, footprint, self.parts(&line.parts)?)
            .map_err(|refusal| StoreError::at(self.name, None, Cause::Value(refusal.to_string())))?;
        piece.band = band;
        piece.bow = bow;
        piece.fixing = fixing;
        piece.lapel = line.lapel.as_ref().map(LapelLine::lapel).unwrap_or_default();
        piece.is_sprayed = line.sprayed;
        if let Some(wishes) = &line.wishes {
            let line = || line_with(self.text, "set_aside", "");
            piece.wishes = wishes.wishes().map_err(|cause| StoreError::at(self.name, line(), cause))?;
        }
        Ok(piece)
    }

    fn band(&self, line: &PieceLine) -> Result<Option<StockId>, StoreError> {
        let Some(name) = &line.band else { return Ok(None) };
        let id = StockId::new(&name.0);
        if self.stock.band(&id).is_some() {
            return Ok(Some(id));
        }
        let near = super::nearest::nearest(&name.0, self.stock.bands().iter().map(|b| b.id.as_str()));
        let cause = Cause::NotInStock { what: "band", found: name.0.clone(), near };
        Err(StoreError::at(self.name, line_with(self.text, "band", ""), cause))
    }

    fn parts(&self, lines: &[PartLine]) -> Result<Vec<Part>, StoreError> {
        if lines.len() > MOST_PARTS {
            return Err(StoreError::new(self.name, Cause::TooManyParts(lines.len())));
        }
        let mut next = lines.iter().filter_map(|l| l.id).map(|n| n.whole()).max().unwrap_or(0);
        let mut given = std::collections::BTreeSet::new();
        let mut parts = Vec::with_capacity(lines.len());
        for (i, line) in lines.iter().enumerate() {
            let number = line.id.map_or_else(
                || {
                    next += 1;
                    next
                },
                |n| n.whole(),
            );
            if !given.insert(number) {
                let again = nth_line_with(self.text, "id", &number.to_string(), 1);
                return Err(StoreError::at(self.name, again, Cause::Twice { what: "id", name: number.to_string() }));
            }
            parts.push(self.part(line, i, number)?);
        }
        Ok(parts)
    }

    fn part(&self, line: &PartLine, place: usize, number: u32) -> Result<Part, StoreError> {
        let stock = StockId::new(&line.stock.0);
        let known = self.stock.botanical(&stock);
        let usual = known.and_then(|b| b.colours.first()).map_or("", |c| c.name.as_str());
        let colour = line.colour.as_ref().map_or(usual, |c| c.0.as_str());
        let fault = bow_lines::flower_fault(&stock, colour, self.stock);
        let (Some(botanical), None) = (known, &fault) else {
            let cause =
                fault.unwrap_or(Cause::NotInStock { what: "flower", found: line.stock.0.clone(), near: vec![] });
            return Err(StoreError::at(self.name, nth_line_with(self.text, "stock", "", place), cause));
        };
        let role = line.role.map_or(botanical.role, |r| r.0);
        Ok(Part {
            id: PartId(number),
            stock,
            colour: colour.into(),
            role,
            centre: Point::new(line.at.0.0, line.at.1.0),
            turn_rad: line.turn.map_or(0.0, |t| t.0.to_radians()),
            size_mm: line.size.map(|s| s.0),
            level: line.level.map_or_else(|| usual_level(role), |l| l.0),
            locked: line.locked,
        })
    }
}

fn usual_level(role: Role) -> Level {
    match role {
        Role::Leaf | Role::Filler => Level::Flat,
        Role::Bloom | Role::Accent | Role::Trim => Level::Raised,
    }
}

impl PieceLine {
    /// Whether it holds what only version 2 of an order knows.
    pub(super) fn is_of_version_2(&self) -> bool {
        self.wishes.as_ref().is_some_and(WishesLine::is_of_version_2)
    }

    /// Whether it holds what only version 4 of an order knows.
    pub(super) fn is_of_version_4(&self) -> bool {
        self.lapel.is_some() || self.sprayed
    }

    /// The line of a piece, with nothing left out but what is empty.
    pub(super) fn of(piece: &Piece) -> Self {
        let Footprint { length_mm, width_mm, offset_mm } = piece.footprint;
        Self {
            worn: Some(Keyword(piece.worn)),
            oval: OvalLine {
                length: Axis::new(length_mm),
                width: Axis::new(width_mm),
                offset: Some(Offset::new(offset_mm)),
            },
            band: piece.band.as_ref().map(|b| Text(b.to_string())),
            fixing: Some(Keyword(piece.fixing)),
            lapel: LapelLine::of(piece.lapel),
            sprayed: piece.is_sprayed,
            wishes: WishesLine::of(&piece.wishes),
            bow: piece.bow.as_ref().map(BowLine::of),
            parts: piece.parts().iter().map(PartLine::of).collect(),
        }
    }
}

impl PartLine {
    fn of(part: &Part) -> Self {
        Self {
            id: Some(Number::new(f64::from(part.id.0))),
            stock: Text(part.stock.to_string()),
            colour: Some(Text(part.colour.to_string())),
            at: (Offset::new(part.centre.x), Offset::new(part.centre.y)),
            turn: (part.turn_rad != 0.0).then(|| Angle::new(degrees(part.turn_rad))),
            size: part.size_mm.map(PartSize::new),
            level: Some(Keyword(part.level)),
            locked: part.locked,
            role: Some(Keyword(part.role)),
        }
    }
}

/// An angle in degrees, to a millionth of a millionth where that gives back the same angle: 15 and not
/// 15.000000000000002. Full turns beyond ten are taken off.
fn degrees(angle_rad: f64) -> f64 {
    let exact = angle_rad.to_degrees();
    let within = if exact.abs() > 3600.0 { exact % 360.0 } else { exact };
    let short = (within * 1e9).round() / 1e9;
    if short.to_radians() == angle_rad || within != exact { short } else { within }
}
