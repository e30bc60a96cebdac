//! An order as a file, one to a file, made to be read and written by hand as well.
//!
//! Only `version`, `piece` with its `oval`, and `stock` and `at` of a part must be there. Lengths are millimetres, or text
//! as people type it (`"15.5 cm"`, `"6 1/4"`); `turn` is in degrees; `at` is (along the arm toward the elbow, across it
//! toward the thumb of a left wrist). Remarks after `//` are welcome but not kept when the program writes the file.
//!
//! ```text
//! (
//!     version: 1,
//!     wearer: "Mina",                                       // "" when left out
//!     dance: "Harbour Hall",
//!     notes: "",
//!     wrist: (side: left, girth: "6 1/4", measured: tape),  // tape, told, not_yet
//!     size: "Classic",
//!     piece: (
//!         worn: wrist,                                      // wrist, lapel
//!         oval: (length: 90, width: 54, offset: 50),        // offset: from the crease of the wrist to the centre point
//!         band: "elastic-small",
//!         fixing: glued,                                    // glued, wired
//!         wishes: (avoided_counts: [4, 9], even_is_welcome: false, set_aside: ["balance"]), // may be left out
//!         bow: (ribbon: "satin-15", colour: "silver", loops_a_side: 2, loop_length: 46, loop_width: 16, tails: 2,
//!             tail_length: 70, centre_loop: true),          // each may be left out
//!         parts: [
//!             (id: 1, stock: "spray-rose", colour: "white", at: (26, 0), turn: 0, size: 30, level: raised,
//!                 locked: false, role: bloom),
//!             (stock: "italian-ruscus", at: (34, -12)),     // first colour of the list, usual size, turned 0, flat
//!         ],
//!     ),
//! )
//! ```
//!
//! What is left out: numbers of parts count on from the largest given; a colour is the first in stock; a role is the one
//! in stock; leaves and filler lie flat, blooms, accents and trims are raised. A girth that is given counts as measured
//! with a tape, one that is not as not measured yet.

use std::path::Path;

use serde::{Deserialize, Serialize};

use super::bow_lines::{self, BowLine};
use super::figures::{Axis, Number, PartSize, Place, Text, Turn};
use super::girth::Girth;
use super::reading::{bytes_of, line_with, name_of, nth_line_with, parse, text_of};
use super::refusal::{Cause, KNOWN_VERSION, Refusal};
use super::saving::{FileMark, RealDisk, save};
use super::wishes_line::WishesLine;
use super::words::Said;
use crate::book::Order;
use crate::geometry::Point;
use crate::piece::{Fixing, Footprint, Level, Measured, Part, PartId, Piece, Side, Worn, Wrist};
use crate::stock::{Role, Stock, StockId};
use crate::units::mm_text;

/// Most parts of a piece; our choice, far beyond any wrist.
const MOST_PARTS: usize = 5000;

/// How far the centre of a piece usually sits from the crease of the wrist, mm; our choice, common practice.
const USUAL_OFFSET_MM: f64 = 50.0;

/// The order that `text` holds. `name` is what the file is called in a refusal.
pub fn order_from_text(text: &str, name: &str, stock: &Stock) -> Result<Order, Refusal> {
    read_text(text, name, stock).map(|(order, _)| order)
}

/// The order as a file holds it, with nothing left out but what is empty.
pub fn order_to_text(order: &Order) -> String {
    super::writing::pretty(&OrderFile::of(order), 3)
}

/// An order as it was found on the disk.
#[derive(Clone, Debug, PartialEq)]
pub struct Kept {
    /// The order.
    pub order: Order,
    /// How the file looked, for keeping it again.
    pub mark: FileMark,
    /// What is odd in it but may be meant, as sentences.
    pub warnings: Vec<String>,
}

/// Reads the order in this file.
pub fn read_order(path: &Path, stock: &Stock) -> Result<Kept, Refusal> {
    let name = name_of(path);
    let bytes = bytes_of(path)?;
    let (order, warnings) = read_text(text_of(&bytes, &name)?, &name, stock)?;
    Ok(Kept { order, mark: FileMark::of_bytes(&bytes), warnings })
}

/// Keeps the order in this file: completely, or the last version stays. `mark` is how the file looked when it was read;
/// without one the file must not be there yet. What is returned is the mark for keeping it the next time.
pub fn keep_order(path: &Path, order: &Order, mark: Option<&FileMark>) -> Result<FileMark, Refusal> {
    let text = order_to_text(order);
    says_the_same(&text, order).map_err(|why| Refusal::new(&name_of(path), Cause::NotTheSame(why)))?;
    save(&RealDisk, path, text.as_bytes(), mark)
}

/// The order and what is worth a look in it, though it could be opened.
fn read_text(text: &str, name: &str, stock: &Stock) -> Result<(Order, Vec<String>), Refusal> {
    let file: OrderFile = parse(text, name)?;
    let order = Reader { text, name, stock }.order(&file)?;
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

#[derive(Debug, Deserialize, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
struct OrderFile {
    version: u64,
    #[serde(default)]
    wearer: Text,
    #[serde(default)]
    dance: Text,
    #[serde(default)]
    notes: Text,
    #[serde(default)]
    wrist: WristLine,
    #[serde(skip_serializing_if = "Option::is_none")]
    size: Option<Text>,
    piece: PieceLine,
}

#[derive(Debug, Default, Deserialize, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
struct WristLine {
    side: Option<Said<Side>>,
    girth: Option<Girth>,
    measured: Option<Said<Measured>>,
}

#[derive(Debug, Deserialize, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
struct PieceLine {
    worn: Option<Said<Worn>>,
    oval: OvalLine,
    #[serde(skip_serializing_if = "Option::is_none")]
    band: Option<Text>,
    fixing: Option<Said<Fixing>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    bow: Option<BowLine>,
    #[serde(skip_serializing_if = "Option::is_none")]
    wishes: Option<WishesLine>,
    #[serde(default)]
    parts: Vec<PartLine>,
}

#[derive(Debug, Deserialize, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
struct OvalLine {
    length: Axis,
    width: Axis,
    offset: Option<Place>,
}

#[derive(Debug, Deserialize, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
struct PartLine {
    id: Option<Number>,
    stock: Text,
    colour: Option<Text>,
    at: (Place, Place),
    #[serde(skip_serializing_if = "Option::is_none")]
    turn: Option<Turn>,
    #[serde(skip_serializing_if = "Option::is_none")]
    size: Option<PartSize>,
    level: Option<Said<Level>>,
    #[serde(default, skip_serializing_if = "is_no")]
    locked: bool,
    role: Option<Said<Role>>,
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde hands over a reference")]
fn is_no(answer: &bool) -> bool {
    !answer
}

/// Turns the lines of a file into an order.
struct Reader<'a> {
    text: &'a str,
    name: &'a str,
    stock: &'a Stock,
}

impl Reader<'_> {
    fn order(&self, file: &OrderFile) -> Result<Order, Refusal> {
        Ok(Order {
            wearer: file.wearer.0.clone(),
            dance: file.dance.0.clone(),
            notes: file.notes.0.clone(),
            wrist: file.wrist.wrist(),
            size: file.size.as_ref().map(|s| s.0.clone()),
            piece: self.piece(&file.piece)?,
        })
    }

    fn piece(&self, line: &PieceLine) -> Result<Piece, Refusal> {
        let oval = &line.oval;
        let footprint = Footprint {
            length_mm: oval.length.0,
            width_mm: oval.width.0,
            offset_mm: oval.offset.map_or(USUAL_OFFSET_MM, |o| o.0),
        };
        let bow = line.bow.as_ref().map(|b| b.bow(self.stock));
        if let Some(cause) = bow.as_ref().and_then(|b| bow_lines::fault(b, self.stock)) {
            return Err(Refusal::at(self.name, line_with(self.text, "bow", ""), cause));
        }
        let band = self.band(line)?;
        let fixing = line.fixing.map_or(Fixing::Glued, |f| f.0);
        let worn = line.worn.map_or(Worn::Wrist, |w| w.0);
        let mut piece = Piece::restore(worn, footprint, self.parts(&line.parts)?)
            .map_err(|refusal| Refusal::at(self.name, None, Cause::Value(refusal.to_string())))?;
        piece.band = band;
        piece.bow = bow;
        piece.fixing = fixing;
        if let Some(wishes) = &line.wishes {
            let line = || line_with(self.text, "set_aside", "");
            piece.wishes = wishes.wishes().map_err(|cause| Refusal::at(self.name, line(), cause))?;
        }
        Ok(piece)
    }

    fn band(&self, line: &PieceLine) -> Result<Option<StockId>, Refusal> {
        let Some(name) = &line.band else { return Ok(None) };
        let id = StockId::new(&name.0);
        if self.stock.band(&id).is_some() {
            return Ok(Some(id));
        }
        let near = super::nearest::nearest(&name.0, self.stock.bands().iter().map(|b| b.id.as_str()));
        let cause = Cause::NotInStock { what: "band", found: name.0.clone(), near };
        Err(Refusal::at(self.name, line_with(self.text, "band", ""), cause))
    }

    fn parts(&self, lines: &[PartLine]) -> Result<Vec<Part>, Refusal> {
        if lines.len() > MOST_PARTS {
            return Err(Refusal::new(self.name, Cause::TooManyParts(lines.len())));
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
                return Err(Refusal::at(self.name, again, Cause::Twice { what: "id", name: number.to_string() }));
            }
            parts.push(self.part(line, i, number)?);
        }
        Ok(parts)
    }

    fn part(&self, line: &PartLine, place: usize, number: u32) -> Result<Part, Refusal> {
        let stock = StockId::new(&line.stock.0);
        let known = self.stock.botanical(&stock);
        let usual = known.and_then(|b| b.colours.first()).map_or("", |c| c.name.as_str());
        let colour = line.colour.as_ref().map_or(usual, |c| c.0.as_str());
        let fault = bow_lines::flower_fault(&stock, colour, self.stock);
        let (Some(botanical), None) = (known, &fault) else {
            let cause =
                fault.unwrap_or(Cause::NotInStock { what: "flower", found: line.stock.0.clone(), near: vec![] });
            return Err(Refusal::at(self.name, nth_line_with(self.text, "stock", "", place), cause));
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

impl WristLine {
    fn wrist(&self) -> Wrist {
        let usual = Wrist::usual();
        let presumed = if self.girth.is_some() { Measured::Tape } else { usual.measured };
        Wrist {
            side: self.side.map_or(usual.side, |s| s.0),
            girth: self.girth.as_ref().map_or(usual.girth, |g| g.0.clone()),
            measured: self.measured.map_or(presumed, |m| m.0),
        }
    }

    fn of(wrist: &Wrist) -> Self {
        Self {
            side: Some(Said(wrist.side)),
            girth: Some(Girth(wrist.girth.clone())),
            measured: Some(Said(wrist.measured)),
        }
    }
}

impl OrderFile {
    fn of(order: &Order) -> Self {
        Self {
            version: KNOWN_VERSION,
            wearer: Text(order.wearer.clone()),
            dance: Text(order.dance.clone()),
            notes: Text(order.notes.clone()),
            wrist: WristLine::of(&order.wrist),
            size: order.size.clone().map(Text),
            piece: PieceLine::of(&order.piece),
        }
    }
}

impl PieceLine {
    fn of(piece: &Piece) -> Self {
        let Footprint { length_mm, width_mm, offset_mm } = piece.footprint;
        Self {
            worn: Some(Said(piece.worn)),
            oval: OvalLine {
                length: Axis::new(length_mm),
                width: Axis::new(width_mm),
                offset: Some(Place::new(offset_mm)),
            },
            band: piece.band.as_ref().map(|b| Text(b.to_string())),
            fixing: Some(Said(piece.fixing)),
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
            at: (Place::new(part.centre.x), Place::new(part.centre.y)),
            turn: (part.turn_rad != 0.0).then(|| Turn::new(degrees(part.turn_rad))),
            size: part.size_mm.map(PartSize::new),
            level: Some(Said(part.level)),
            locked: part.locked,
            role: Some(Said(part.role)),
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

/// What is odd in an order but may be meant.
fn warnings(order: &Order, stock: &Stock) -> Vec<String> {
    let mut found = Vec::new();
    for part in order.piece.parts() {
        let (Some(size), Some(b)) = (part.size_mm, stock.botanical(&part.stock)) else { continue };
        if size < b.size_mm[0] || size > b.size_mm[2] {
            found.push(format!(
                "Part {} ({}) is {} mm; it usually comes from {} to {} mm.",
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
                "{} fits wrists from {} to {} mm, and this one is {} mm.",
                band.name,
                mm_text(band.fits_mm[0]),
                mm_text(band.fits_mm[1]),
                mm_text(girth)
            ));
        }
    }
    found
}
