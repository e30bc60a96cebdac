//! What a person means to do to a piece, and what cannot be done.
//!
//! [`Piece::apply`] gives the piece after an edit or says why not; it never changes the piece it was given.

use std::fmt;
use std::ops::RangeInclusive;
use std::sync::Arc;

use super::{Bow, Footprint, LapelWear, Level, Part, PartId, Piece, Question, Worn};
use crate::geometry::{Point, Vec2};
use crate::stock::{Botanical, Role, StockId};

/// Most parts on one piece. Our choice: ten times what a wrist could carry, and still quick to look over.
pub const MOST_PARTS: usize = 5000;
/// Farthest that a centre may lie from the centre point along either axis, mm. Our choice: an arm's length.
pub const FARTHEST_MM: f64 = 1000.0;
/// Sizes of one part, mm. Our choice: a seed pearl to a dinner plate.
pub const SIZES_MM: RangeInclusive<f64> = 1.0..=500.0;
/// Length and width of an oval, mm. Our choice.
pub const OVALS_MM: RangeInclusive<f64> = 2.0..=500.0;

/// A part that is about to be put on.
#[derive(Clone, Debug, PartialEq)]
pub struct NewPart {
    /// What it is.
    pub stock: StockId,
    /// Its colour, by its name in stock.
    pub colour: Arc<str>,
    /// The part it plays.
    pub role: Role,
    /// Where its centre goes.
    pub centre: Point,
    /// How it is turned, radians.
    pub turn_rad: f64,
    /// Its size, mm, when not the usual one.
    pub size_mm: Option<f64>,
    /// How high it sits.
    pub level: Level,
}

impl NewPart {
    /// One of `botanical` at a place, as it usually sits: greens and sprigs flat, the others raised.
    pub fn usual(botanical: &Botanical, colour: Arc<str>, centre: Point) -> Self {
        let level = match botanical.role {
            Role::Leaf | Role::Filler => Level::Flat,
            Role::Bloom | Role::Accent | Role::Trim => Level::Raised,
        };
        Self { stock: botanical.id.clone(), colour, role: botanical.role, centre, turn_rad: 0.0, size_mm: None, level }
    }
}

/// Where a part goes when a piece is set out: its whole pose.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Seat {
    /// The part.
    pub id: PartId,
    /// Where its centre goes.
    pub centre: Point,
    /// How it is turned, radians.
    pub turn_rad: f64,
    /// How high it sits.
    pub level: Level,
}

/// What a person means to do.
#[derive(Clone, Debug, PartialEq)]
pub enum Edit {
    /// Put one on.
    Place(NewPart),
    /// Move parts by the same way.
    Move(Vec<PartId>, Vec2),
    /// Move each part to its own place.
    MoveEach(Vec<(PartId, Point)>),
    /// Give parts their seats and put new ones on, in this order. Refused when one of the parts is locked.
    SetOut(Vec<Seat>, Vec<NewPart>),
    /// Rotate parts in place, radians.
    Rotate(Vec<PartId>, f64),
    /// Give parts a size, mm; `None` is the usual one.
    Resize(Vec<PartId>, Option<f64>),
    /// Set how high parts sit.
    SetLevel(Vec<PartId>, Level),
    /// Lock or free parts.
    Lock(Vec<PartId>, bool),
    /// Give parts another colour.
    Recolour(Vec<PartId>, Arc<str>),
    /// Remove parts.
    Remove(Vec<PartId>),
    /// Put copies of parts on, this far from them.
    Copy(Vec<PartId>, Vec2),
    /// Change the oval.
    Reshape(Footprint),
    /// Change the band.
    Band(Option<StockId>),
    /// Change the bow.
    Tie(Option<Bow>),
    /// Change the lapel, or what holds the boutonniere on it.
    Lapel(LapelWear),
    /// Give it a finishing spray, or none.
    Spray(bool),
    /// Ignore a check for this piece, for this reason.
    Ignore(Question, String),
    /// Check again what was ignored.
    CheckAgain(Question),
    /// Turn the piece into its mirror image, for the other wrist.
    Mirror,
    /// Several edits that are one step.
    Together(Vec<Self>),
}

/// Why an edit was not done.
#[derive(Clone, Debug, PartialEq)]
pub enum EditRefusal {
    /// All the parts meant are locked.
    AllLocked,
    /// No such part is on the piece.
    Gone(PartId),
    /// There are too many parts already.
    TooMany,
    /// A place beyond reach.
    TooFar,
    /// A size out of range.
    Size(f64),
    /// An oval out of range.
    Oval,
    /// Two parts with one number.
    Twice(PartId),
}

impl fmt::Display for EditRefusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::AllLocked => f.write_str("That is locked. Unlock it first."),
            Self::Gone(_) => f.write_str("That part is no longer on the piece."),
            Self::TooMany => {
                write!(f, "A piece holds at most {MOST_PARTS} parts. Remove some first.")
            }
            Self::TooFar => write!(f, "More than {FARTHEST_MM} mm from the centre. Choose a nearer place."),
            Self::Size(mm) => {
                write!(f, "{mm} mm is no size for a part. Choose {} to {} mm.", SIZES_MM.start(), SIZES_MM.end())
            }
            Self::Oval => {
                write!(f, "An oval is {} to {} mm long and wide.", OVALS_MM.start(), OVALS_MM.end())
            }
            Self::Twice(PartId(id)) => write!(f, "Two parts have the number {id}. Give one of them another."),
        }
    }
}

impl Piece {
    /// A piece as it was saved, its parts checked.
    pub fn restore(worn: Worn, footprint: Footprint, parts: Vec<Part>) -> Result<Self, EditRefusal> {
        check_footprint(&footprint)?;
        if parts.len() > MOST_PARTS {
            return Err(EditRefusal::TooMany);
        }
        let mut ids: Vec<PartId> = parts.iter().map(|p| p.id).collect();
        ids.sort_unstable();
        if let Some(pair) = ids.windows(2).find(|pair| pair[0] == pair[1]) {
            return Err(EditRefusal::Twice(pair[0]));
        }
        for part in &parts {
            check_place(part.centre)?;
            check_size(part.size_mm)?;
        }
        let next_id = ids.last().map_or(1, |id| id.0.saturating_add(1));
        Ok(Self { parts, next_id, ..Self::empty(worn, footprint) })
    }

    /// The piece after `edit`, or why it cannot be done.
    pub fn apply(&self, edit: &Edit) -> Result<Self, EditRefusal> {
        let mut after = self.clone();
        after.change(edit)?;
        Ok(after)
    }

    fn change(&mut self, edit: &Edit) -> Result<(), EditRefusal> {
        match edit {
            Edit::Place(new) => self.place(new.clone()),
            Edit::Move(ids, by) => {
                self.free(ids)?.try_for_each(|p| check_place(p.centre + *by).map(|()| p.centre += *by))
            }
            Edit::MoveEach(places) => self.move_each(places),
            Edit::SetOut(seats, new) => self.set_out(seats, new),
            Edit::Rotate(ids, by) => {
                let by = if by.is_finite() { *by } else { 0.0 };
                self.free(ids)?.for_each(|p| p.turn_rad = (p.turn_rad + by).rem_euclid(std::f64::consts::TAU));
                Ok(())
            }
            Edit::Resize(ids, size) => {
                check_size(*size)?;
                self.free(ids)?.for_each(|p| p.size_mm = *size);
                Ok(())
            }
            Edit::SetLevel(ids, level) => {
                self.any(ids)?.for_each(|p| p.level = *level);
                Ok(())
            }
            Edit::Lock(ids, locked) => {
                self.any(ids)?.for_each(|p| p.locked = *locked);
                Ok(())
            }
            Edit::Recolour(ids, colour) => {
                self.any(ids)?.for_each(|p| p.colour = Arc::clone(colour));
                Ok(())
            }
            Edit::Remove(ids) => {
                self.free(ids)?.for_each(drop);
                self.parts.retain(|p| p.locked || !ids.contains(&p.id));
                Ok(())
            }
            Edit::Copy(ids, by) => self.copy(ids, *by),
            Edit::Reshape(footprint) => {
                check_footprint(footprint)?;
                self.footprint = *footprint;
                Ok(())
            }
            Edit::Band(band) => {
                self.band.clone_from(band);
                Ok(())
            }
            Edit::Tie(bow) => {
                self.bow.clone_from(bow);
                Ok(())
            }
            Edit::Lapel(lapel) => {
                self.lapel = *lapel;
                Ok(())
            }
            Edit::Spray(spray) => {
                self.is_sprayed = *spray;
                Ok(())
            }
            Edit::Ignore(question, reason) => {
                self.wishes.ignored.insert(*question, reason.clone());
                Ok(())
            }
            Edit::CheckAgain(question) => {
                self.wishes.ignored.remove(question);
                Ok(())
            }
            Edit::Mirror => {
                for part in &mut self.parts {
                    part.centre.y = -part.centre.y;
                    part.turn_rad = (-part.turn_rad).rem_euclid(std::f64::consts::TAU);
                }
                Ok(())
            }
            Edit::Together(edits) => edits.iter().try_for_each(|e| self.change(e)),
        }
    }

    fn place(&mut self, new: NewPart) -> Result<(), EditRefusal> {
        check_place(new.centre)?;
        check_size(new.size_mm)?;
        if self.parts.len() >= MOST_PARTS || self.next_id == u32::MAX {
            return Err(EditRefusal::TooMany);
        }
        let id = PartId(self.next_id);
        self.next_id += 1;
        let NewPart { stock, colour, role, centre, turn_rad, size_mm, level } = new;
        self.parts.push(Part { id, stock, colour, role, centre, turn_rad, size_mm, level, locked: false });
        Ok(())
    }

    fn copy(&mut self, ids: &[PartId], by: Vec2) -> Result<(), EditRefusal> {
        let copies: Vec<NewPart> = self.any(ids)?.map(|p| NewPart { centre: p.centre + by, ..p.as_new() }).collect();
        copies.into_iter().try_for_each(|new| self.place(new))
    }

    fn move_each(&mut self, places: &[(PartId, Point)]) -> Result<(), EditRefusal> {
        for &(id, place) in places {
            check_place(place)?;
            let part = self.parts.iter_mut().find(|p| p.id == id).ok_or(EditRefusal::Gone(id))?;
            if part.locked {
                return Err(EditRefusal::AllLocked);
            }
            part.centre = place;
        }
        Ok(())
    }

    fn set_out(&mut self, seats: &[Seat], new: &[NewPart]) -> Result<(), EditRefusal> {
        for seat in seats {
            check_place(seat.centre)?;
            let part = self.parts.iter_mut().find(|p| p.id == seat.id).ok_or(EditRefusal::Gone(seat.id))?;
            if part.locked {
                return Err(EditRefusal::AllLocked);
            }
            part.centre = seat.centre;
            part.turn_rad = if seat.turn_rad.is_finite() { seat.turn_rad } else { part.turn_rad };
            part.level = seat.level;
        }
        new.iter().try_for_each(|part| self.place(part.clone()))
    }

    /// The parts meant; refused when one of them is gone.
    fn any(&mut self, ids: &[PartId]) -> Result<impl Iterator<Item = &mut Part>, EditRefusal> {
        if let Some(&id) = ids.iter().find(|id| self.part(**id).is_none()) {
            return Err(EditRefusal::Gone(id));
        }
        Ok(self.parts.iter_mut().filter(|p| ids.contains(&p.id)))
    }

    /// The parts meant that are not locked; refused when there is none.
    fn free(&mut self, ids: &[PartId]) -> Result<impl Iterator<Item = &mut Part>, EditRefusal> {
        let any_free = self.parts.iter().any(|p| !p.locked && ids.contains(&p.id));
        let meant = self.any(ids)?;
        if any_free { Ok(meant.filter(|p| !p.locked)) } else { Err(EditRefusal::AllLocked) }
    }
}

impl Part {
    /// What would put the same part on again.
    pub fn as_new(&self) -> NewPart {
        NewPart {
            stock: self.stock.clone(),
            colour: Arc::clone(&self.colour),
            role: self.role,
            centre: self.centre,
            turn_rad: self.turn_rad,
            size_mm: self.size_mm,
            level: self.level,
        }
    }
}

fn check_place(p: Point) -> Result<(), EditRefusal> {
    // Written so that not-a-number is refused too.
    if p.x.abs() <= FARTHEST_MM && p.y.abs() <= FARTHEST_MM { Ok(()) } else { Err(EditRefusal::TooFar) }
}

fn check_size(size: Option<f64>) -> Result<(), EditRefusal> {
    match size {
        Some(mm) if !SIZES_MM.contains(&mm) => Err(EditRefusal::Size(mm)),
        _ => Ok(()),
    }
}

fn check_footprint(f: &Footprint) -> Result<(), EditRefusal> {
    let within = OVALS_MM.contains(&f.length_mm) && OVALS_MM.contains(&f.width_mm) && f.offset_mm.abs() <= FARTHEST_MM;
    if within { Ok(()) } else { Err(EditRefusal::Oval) }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn piece_with(n: usize) -> Piece {
        let footprint = Footprint { length_mm: 90.0, width_mm: 54.0, offset_mm: 50.0 };
        (0..n).fold(Piece::empty(Worn::Wrist, footprint), |p, i| p.apply(&Edit::Place(rose(i as f64, 8.0))).unwrap())
    }

    fn rose(x: f64, y: f64) -> NewPart {
        NewPart {
            stock: StockId::new("rose"),
            colour: Arc::from("white"),
            role: Role::Bloom,
            centre: Point::new(x, y),
            turn_rad: 0.0,
            size_mm: None,
            level: Level::Raised,
        }
    }

    fn ids(piece: &Piece) -> Vec<PartId> {
        piece.parts().iter().map(|p| p.id).collect()
    }

    #[test]
    fn a_number_is_never_given_twice() {
        let piece = piece_with(3);
        let fewer = piece.apply(&Edit::Remove(vec![PartId(3)])).unwrap();
        let again = fewer.apply(&Edit::Place(rose(0.0, 0.0))).unwrap();
        assert_eq!(ids(&again), [PartId(1), PartId(2), PartId(4)]);
    }

    #[test]
    fn locked_parts_stay_where_they_are() {
        let piece = piece_with(2).apply(&Edit::Lock(vec![PartId(1)], true)).unwrap();
        let moved = piece.apply(&Edit::Move(ids(&piece), Vec2::new(5.0, 0.0))).unwrap();
        assert_eq!(moved.part(PartId(1)), piece.part(PartId(1)));
        assert_eq!(moved.parts()[1].centre, Point::new(6.0, 8.0));
        for edit in [
            Edit::Move(vec![PartId(1)], Vec2::new(1.0, 0.0)),
            Edit::Rotate(vec![PartId(1)], 1.0),
            Edit::Remove(vec![PartId(1)]),
            Edit::MoveEach(vec![(PartId(1), Point::ZERO)]),
        ] {
            assert_eq!(piece.apply(&edit), Err(EditRefusal::AllLocked), "{edit:?}");
        }
    }

    #[test]
    fn a_piece_that_is_set_out_keeps_its_locked_parts_and_gets_the_new_ones() {
        let piece = piece_with(2).apply(&Edit::Lock(vec![PartId(1)], true)).unwrap();
        let seat = |id| Seat { id: PartId(id), centre: Point::new(7.0, 1.0), turn_rad: 0.5, level: Level::Top };
        let after = piece.apply(&Edit::SetOut(vec![seat(2)], vec![rose(3.0, 3.0)])).unwrap();
        assert_eq!(after.part(PartId(1)), piece.part(PartId(1)));
        let moved = after.part(PartId(2)).unwrap();
        assert_eq!((moved.centre, moved.turn_rad, moved.level), (Point::new(7.0, 1.0), 0.5, Level::Top));
        assert_eq!(after.part(PartId(3)).unwrap().centre, Point::new(3.0, 3.0));
        assert_eq!(piece.apply(&Edit::SetOut(vec![seat(1)], Vec::new())), Err(EditRefusal::AllLocked));
        assert_eq!(piece.apply(&Edit::SetOut(vec![seat(9)], Vec::new())), Err(EditRefusal::Gone(PartId(9))));
    }

    #[test]
    fn the_mirror_image_of_the_mirror_image_is_the_piece() {
        let piece = piece_with(1).apply(&Edit::MoveEach(vec![(PartId(1), Point::new(12.0, 8.0))])).unwrap();
        let mirrored = piece.apply(&Edit::Mirror).unwrap();
        assert_eq!(mirrored.parts()[0].centre, Point::new(12.0, -8.0));
        assert_eq!(mirrored.apply(&Edit::Mirror).unwrap(), piece);
    }

    /// A tip that points 30 degrees to the right of the elbow points 30 degrees to the left in the mirror: 360 - 30.
    #[test]
    fn what_is_turned_is_turned_the_other_way_in_the_mirror() {
        let turned = piece_with(1).apply(&Edit::Rotate(vec![PartId(1)], 30_f64.to_radians())).unwrap();
        let mirrored = turned.apply(&Edit::Mirror).unwrap();
        assert!((mirrored.parts()[0].turn_rad.to_degrees() - 330.0).abs() < 1e-9);
        let straight = piece_with(1).apply(&Edit::Mirror).unwrap();
        assert_eq!(straight.parts()[0].turn_rad, 0.0);
    }

    #[test]
    fn impossible_places_sizes_and_ovals_are_refused_and_change_nothing() {
        let piece = piece_with(1);
        let one = vec![PartId(1)];
        let oval = |length_mm| Footprint { length_mm, ..piece.footprint };
        for edit in [
            Edit::Move(one.clone(), Vec2::new(f64::NAN, 0.0)),
            Edit::Move(one.clone(), Vec2::new(1e9, 0.0)),
            Edit::Resize(one.clone(), Some(-3.0)),
            Edit::Resize(one, Some(f64::INFINITY)),
            Edit::Reshape(oval(0.0)),
            Edit::Reshape(oval(f64::NAN)),
            Edit::Remove(vec![PartId(99)]),
            Edit::Together(vec![Edit::Mirror, Edit::Remove(vec![PartId(99)])]),
        ] {
            assert!(piece.apply(&edit).is_err(), "{edit:?}");
        }
    }

    #[test]
    fn a_refusal_fits_a_line() {
        for why in [
            EditRefusal::AllLocked,
            EditRefusal::Gone(PartId(7)),
            EditRefusal::TooMany,
            EditRefusal::TooFar,
            EditRefusal::Size(1234.5),
            EditRefusal::Oval,
            EditRefusal::Twice(PartId(4000)),
        ] {
            let said = why.to_string();
            assert!(said.ends_with('.') && said.chars().count() <= 90, "{said}");
        }
    }

    #[test]
    fn parts_that_share_a_number_are_refused_when_restored() {
        let part = piece_with(1).parts()[0].clone();
        let footprint = piece_with(0).footprint;
        assert_eq!(
            Piece::restore(Worn::Wrist, footprint, vec![part.clone(), part]),
            Err(EditRefusal::Twice(PartId(1)))
        );
    }
}
