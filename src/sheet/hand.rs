//! The hand on the sheet: one bloom at a time, by tap-then-tap, by drag and by keyboard.
//!
//! A drag keeps where it began and recomputes from there; it never adds up small steps. A press that hardly moves is a
//! tap however long it lasts, so a wet finger or a resting palm does nothing by itself.

use kurbo::{Point, Vec2};

use super::View;
use crate::command::Command;
use crate::geometry::Shape;
use crate::piece::{Edit, NewPart, Part, PartId, Piece};
use crate::stock::Stock;

/// A press that moves no farther than this, points, is a tap: a quarter of the smallest target and a little, since wet fingers
/// slip; our choice.
pub const TAP_SLIP: f64 = 12.0;
/// A part smaller than this on screen, points across, is as easy to hit as if it were this large.
const LEAST_TARGET: f64 = 44.0;
/// One turn of the turn key, radians: 15 degrees, our choice.
pub const TURN_STEP_RAD: f64 = std::f64::consts::PI / 12.0;
/// A long nudge, mm; a short one is 1 mm.
pub const LONG_STEP_MM: f64 = 5.0;

/// What the hand holds.
#[derive(Clone, Debug, PartialEq)]
pub enum Held {
    /// Nothing.
    Nothing,
    /// A bloom from a tray, to go where the next tap is.
    FromTray {
        /// What it will be; its `centre` is where it hovers.
        new: NewPart,
        /// Whether it points outward along the arm by itself, as leaves do until somebody turns them.
        outward: bool,
    },
    /// Parts lifted from the sheet, to go where the next tap is.
    Lifted(Vec<PartId>),
}

/// What goes on while the pointer is down.
#[derive(Clone, Debug, PartialEq)]
pub enum Hand {
    /// Nothing.
    Idle,
    /// Down, and perhaps only a tap.
    Down {
        /// Where, on screen.
        at: Point,
        /// The part under it.
        on: Option<PartId>,
        /// Whether it adds to what is selected.
        adds: bool,
    },
    /// Moving parts.
    Moving {
        /// Which.
        ids: Vec<PartId>,
        /// Where the pointer went down, mm.
        from: Point,
    },
    /// Moving the sheet.
    Panning {
        /// Where the pointer was last, on screen.
        last: Point,
    },
}

/// Something done on the sheet by pointer, key or screen reader; points are on screen.
#[derive(Clone, Debug, PartialEq)]
pub enum SheetInput {
    /// The pointer goes down; with a key held it adds to what is selected.
    Press {
        /// Where.
        at: Point,
        /// Whether it adds.
        adds: bool,
    },
    /// The pointer moves while it is up.
    Hover(Point),
    /// The pointer moves while it is down.
    Drag(Point),
    /// The pointer goes up.
    Release(Point),
    /// What is held is put down at a place, mm.
    PutDown(Point),
    /// What is held is put down where it hovers.
    PutDownHere,
    /// What is selected is lifted, to go where the next tap is.
    Lift,
    /// The gesture ends; else the hand is emptied; else nothing is selected.
    Cancel,
    /// An arrow key: up and right are -1, 0 or 1.
    Nudge {
        /// Along the arm.
        up: f64,
        /// Across it.
        right: f64,
        /// How far, mm.
        step_mm: f64,
    },
    /// A rotate key, radians.
    Rotate(f64),
    /// Larger or smaller, mm.
    Resize(f64),
    /// Zoom about a point on screen.
    ZoomAt(Point, f64),
    /// Zoom about the middle.
    Zoom(f64),
    /// Select these parts.
    Select(Vec<PartId>),
    /// Select every part.
    SelectAll,
    /// Select the next part, or the one before.
    SelectNext {
        /// Whether the one before.
        back: bool,
    },
}

/// The piece as a hand finds it.
#[derive(Clone, Copy, Debug)]
pub struct Grip<'a> {
    /// The piece, a running gesture included.
    pub piece: &'a Piece,
    /// The piece without a running gesture.
    pub settled: &'a Piece,
    /// What it is made of.
    pub stock: &'a Stock,
}

/// The sheet: its view, what is selected, what the hand does.
#[derive(Clone, Debug)]
pub struct Sheet {
    /// What is shown.
    pub view: View,
    /// Selected parts, in the order they were chosen.
    pub selected: Vec<PartId>,
    /// What the hand holds.
    pub held: Held,
    /// What the pointer does.
    pub hand: Hand,
}

impl Sheet {
    /// A sheet with nothing in the hand.
    pub fn new() -> Self {
        Self { view: View::new(), selected: Vec::new(), held: Held::Nothing, hand: Hand::Idle }
    }

    /// Takes in what was done; returns what follows for the order.
    pub fn handle(&mut self, input: &SheetInput, grip: Grip<'_>) -> Vec<Command> {
        let Grip { piece, settled, stock } = grip;
        match input {
            SheetInput::Press { at, adds } => self.press(*at, *adds, settled, stock),
            SheetInput::Hover(at) => self.hover(*at),
            SheetInput::Drag(at) => return self.drag(*at),
            SheetInput::Release(at) => return self.release(*at, settled),
            SheetInput::PutDown(place) => return self.put_down(*place, settled),
            SheetInput::PutDownHere => return self.put_down_here(settled),
            SheetInput::Lift => self.lift(),
            SheetInput::Cancel => return self.cancel(),
            SheetInput::Nudge { up, right, step_mm } => return self.nudge(*up, *right, *step_mm),
            SheetInput::Rotate(by_rad) => return self.rotate(*by_rad),
            SheetInput::Resize(by_mm) => return self.resize(*by_mm, piece, stock),
            SheetInput::ZoomAt(at, by) => self.view.zoom(*at, *by),
            SheetInput::Zoom(by) => self.view.zoom(self.view.area.center(), *by),
            SheetInput::Select(ids) => self.selected.clone_from(ids),
            SheetInput::SelectAll => self.selected = piece.parts().iter().map(|p| p.id).collect(),
            SheetInput::SelectNext { back } => self.select_next(*back, piece),
        }
        Vec::new()
    }

    /// Takes a bloom from a tray into the hand; what was selected is let go. `outward` turns it along the arm, away from
    /// the centre, until somebody turns it.
    pub fn pick(&mut self, new: NewPart, outward: bool) {
        self.selected.clear();
        self.held = Held::FromTray { new, outward };
        self.aim();
    }

    /// Lifts what is selected, to be put down by the next tap.
    pub fn lift(&mut self) {
        if !self.selected.is_empty() {
            self.held = Held::Lifted(self.selected.clone());
        }
    }

    /// The pointer goes down. `settled` is the piece without a running gesture.
    pub fn press(&mut self, at: Point, adds: bool, settled: &Piece, stock: &Stock) {
        let on = self.part_under(at, settled, stock);
        self.hand = Hand::Down { at, on, adds };
    }

    /// The pointer moves, down or not.
    pub fn hover(&mut self, at: Point) {
        if let Held::FromTray { new, .. } = &mut self.held {
            new.centre = self.view.to_piece(at);
        }
        self.aim();
    }

    /// The pointer moves while it is down.
    pub fn drag(&mut self, at: Point) -> Vec<Command> {
        self.hover(at);
        let began = match &self.hand {
            Hand::Down { at: from, on, .. } if (at - *from).hypot() > TAP_SLIP => Some((*from, *on)),
            _ => None,
        };
        if let Some((from, on)) = began {
            self.hand = self.begin_drag(from, on);
        }
        match &mut self.hand {
            Hand::Moving { ids, from } => {
                let by = self.view.to_piece(at) - *from;
                vec![Command::Preview(Edit::Move(ids.clone(), by))]
            }
            Hand::Panning { last } => {
                let by = at - *last;
                *last = at;
                self.view.pan(by);
                Vec::new()
            }
            Hand::Idle | Hand::Down { .. } => Vec::new(),
        }
    }

    /// The pointer goes up. `settled` is the piece without a running gesture.
    pub fn release(&mut self, at: Point, settled: &Piece) -> Vec<Command> {
        match std::mem::replace(&mut self.hand, Hand::Idle) {
            Hand::Down { at: from, on, adds } => self.tap(from, on, adds, settled),
            Hand::Moving { .. } => vec![Command::Commit],
            Hand::Panning { .. } => Vec::new(),
            Hand::Idle => {
                self.hover(at);
                Vec::new()
            }
        }
    }

    /// Puts down what the hand holds at a place, mm: the end of a tap, of a drag from a tray, or of Enter.
    pub fn put_down(&mut self, place: Point, settled: &Piece) -> Vec<Command> {
        if let Held::FromTray { new, .. } = &mut self.held {
            new.centre = place;
        }
        self.aim();
        match self.held.clone() {
            Held::Nothing => Vec::new(),
            Held::FromTray { new, .. } => vec![Command::Edit(Edit::Place(new))],
            Held::Lifted(ids) => {
                self.held = Held::Nothing;
                let centres: Vec<Point> = ids.iter().filter_map(|id| Some(settled.part(*id)?.centre)).collect();
                let Some(middle) = mean(&centres) else { return Vec::new() };
                vec![Command::Edit(Edit::Move(ids, place - middle))]
            }
        }
    }

    fn put_down_here(&mut self, settled: &Piece) -> Vec<Command> {
        match &self.held {
            Held::FromTray { new, .. } => self.put_down(new.centre, settled),
            Held::Nothing | Held::Lifted(_) => Vec::new(),
        }
    }

    /// Esc, or a second finger: the gesture ends as if it had never begun; then the hand is emptied; then nothing is
    /// selected.
    pub fn cancel(&mut self) -> Vec<Command> {
        let was = std::mem::replace(&mut self.hand, Hand::Idle);
        if matches!(was, Hand::Moving { .. }) {
            return vec![Command::Revert];
        }
        if self.held == Held::Nothing {
            self.selected.clear();
        }
        self.held = Held::Nothing;
        Vec::new()
    }

    /// An arrow key: moves the bloom in the hand, else what is selected. `up` and `right` are -1, 0 or 1.
    pub fn nudge(&mut self, up: f64, right: f64, step_mm: f64) -> Vec<Command> {
        let by = Vec2::new(up, right) * step_mm;
        if let Held::FromTray { new, .. } = &mut self.held {
            new.centre += by;
            self.aim();
            return Vec::new();
        }
        self.on_selected(|ids| Command::EditInRun(Edit::Move(ids.clone(), by), run("nudge", &ids)))
    }

    /// A turn key.
    pub fn rotate(&mut self, by_rad: f64) -> Vec<Command> {
        if let Held::FromTray { new, outward } = &mut self.held {
            *outward = false;
            new.turn_rad += by_rad;
            return Vec::new();
        }
        self.on_selected(|ids| Command::EditInRun(Edit::Rotate(ids.clone(), by_rad), run("turn", &ids)))
    }

    /// Makes what is selected larger or smaller by `by_mm`.
    pub fn resize(&self, by_mm: f64, piece: &Piece, stock: &Stock) -> Vec<Command> {
        let parts: Vec<&Part> = self.selected.iter().filter_map(|id| piece.part(*id)).collect();
        if parts.is_empty() {
            return Vec::new();
        }
        vec![Command::EditInRun(resized(&parts, by_mm, stock), run("resize", &self.selected))]
    }

    /// The next part after the selected one, round and round; the one before it when `back`.
    pub fn select_next(&mut self, back: bool, piece: &Piece) {
        let ids: Vec<PartId> = piece.parts().iter().map(|p| p.id).collect();
        let at = self.selected.last().and_then(|id| ids.iter().position(|i| i == id));
        let n = ids.len();
        let next = match at {
            _ if n == 0 => None,
            None => Some(if back { n - 1 } else { 0 }),
            Some(at) if back => Some((at + n - 1) % n),
            Some(at) => Some((at + 1) % n),
        };
        self.selected = next.map(|i| ids[i]).into_iter().collect();
    }

    /// Lets go of parts that are no longer on the piece.
    pub fn forget_gone(&mut self, piece: &Piece) {
        self.selected.retain(|id| piece.part(*id).is_some());
        if let Held::Lifted(ids) = &mut self.held {
            ids.retain(|id| piece.part(*id).is_some());
        }
    }

    /// The topmost part under a screen point; a small one counts as if it were as large as a fingertip.
    pub fn part_under(&self, at: Point, piece: &Piece, stock: &Stock) -> Option<PartId> {
        let p = self.view.to_piece(at);
        let hit = piece.part_at(p, |part| part.shape_in(stock)).map(|part| part.id);
        hit.or_else(|| {
            let near = |part: &&Part| {
                let reach = (LEAST_TARGET / 2.0 / self.view.scale).max(match part.shape_in(stock) {
                    Shape::Disc(d) => d.radius,
                    Shape::Lens(l) => l.width / 2.0,
                });
                part.centre.distance(p) <= reach
            };
            let nearest = piece.parts().iter().filter(near);
            nearest.min_by(|a, b| a.centre.distance(p).total_cmp(&b.centre.distance(p))).map(|part| part.id)
        })
    }

    fn begin_drag(&mut self, from: Point, on: Option<PartId>) -> Hand {
        match (&self.held, on) {
            (Held::Nothing, Some(id)) => {
                if !self.selected.contains(&id) {
                    self.selected = vec![id];
                }
                Hand::Moving { ids: self.selected.clone(), from: self.view.to_piece(from) }
            }
            _ => Hand::Panning { last: from },
        }
    }

    fn tap(&mut self, at: Point, on: Option<PartId>, adds: bool, settled: &Piece) -> Vec<Command> {
        if self.held != Held::Nothing {
            return self.put_down(self.view.to_piece(at), settled);
        }
        match on {
            None if adds => {}
            None => self.selected.clear(),
            Some(id) if adds && self.selected.contains(&id) => self.selected.retain(|s| *s != id),
            Some(id) if adds => self.selected.push(id),
            Some(id) => self.selected = vec![id],
        }
        Vec::new()
    }

    fn aim(&mut self) {
        if let Held::FromTray { new, outward: true } = &mut self.held {
            new.turn_rad = if new.centre.x < 0.0 { std::f64::consts::PI } else { 0.0 };
        }
    }

    fn on_selected(&self, command: impl FnOnce(Vec<PartId>) -> Command) -> Vec<Command> {
        if self.selected.is_empty() { Vec::new() } else { vec![command(self.selected.clone())] }
    }
}

impl Default for Sheet {
    fn default() -> Self {
        Self::new()
    }
}

/// The edit that makes these parts larger or smaller by `by_mm`.
fn resized(parts: &[&Part], by_mm: f64, stock: &Stock) -> Edit {
    let edit = |part: &&Part| Edit::Resize(vec![part.id], Some(part.size_in(stock) + by_mm));
    Edit::Together(parts.iter().map(edit).collect())
}

/// Steps of one key on the same parts are one run.
fn run(what: &str, ids: &[PartId]) -> String {
    let ids: Vec<String> = ids.iter().map(|id| id.0.to_string()).collect();
    format!("{what} {}", ids.join(" "))
}

fn mean(points: &[Point]) -> Option<Point> {
    let sum = points.iter().fold(Vec2::ZERO, |sum, p| sum + p.to_vec2());
    (!points.is_empty()).then(|| (sum / points.len() as f64).to_point())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::piece::{Footprint, Level, Worn};
    use crate::stock::{Role, StockId};
    use std::sync::Arc;

    fn rose(centre: Point) -> NewPart {
        NewPart {
            stock: StockId::new("rose"),
            colour: Arc::from("white"),
            role: Role::Bloom,
            centre,
            turn_rad: 0.0,
            size_mm: Some(30.0),
            level: Level::Raised,
        }
    }

    fn bench() -> (Sheet, Piece, Stock) {
        let footprint = Footprint { length_mm: 90.0, width_mm: 54.0, offset_mm: 50.0 };
        let piece = [Point::new(20.0, 0.0), Point::new(-20.0, 0.0)]
            .iter()
            .fold(Piece::empty(Worn::Wrist, footprint), |p, c| p.apply(&Edit::Place(rose(*c))).unwrap());
        let mut sheet = Sheet::new();
        sheet.view.area = kurbo::Rect::new(0.0, 0.0, 800.0, 600.0);
        (sheet, piece, Stock::default())
    }

    /// Does what a window would do with the commands of one gesture.
    fn done(commands: &[Command], piece: &Piece) -> Piece {
        commands.iter().fold(piece.clone(), |after, command| match command {
            Command::Edit(e) | Command::EditInRun(e, _) | Command::Preview(e) => piece.apply(e).unwrap(),
            Command::Commit => after,
            Command::Revert => piece.clone(),
            _ => panic!("the hand gives no {command:?}"),
        })
    }

    #[test]
    fn tap_then_tap_puts_a_bloom_where_the_second_tap_was() {
        let (mut sheet, piece, stock) = bench();
        sheet.pick(rose(Point::ZERO), false);
        let at = sheet.view.to_screen(Point::new(3.0, 9.0));
        sheet.press(at, false, &piece, &stock);
        let after = done(&sheet.release(at, &piece), &piece);
        assert!((after.parts()[2].centre - Point::new(3.0, 9.0)).hypot() < 1e-9);
        assert!(matches!(sheet.held, Held::FromTray { .. }), "the hand keeps it for the next tap");
    }

    #[test]
    fn a_part_is_moved_by_tap_then_tap_as_well_as_by_drag() {
        let (mut sheet, piece, stock) = bench();
        let (from, to) = (sheet.view.to_screen(Point::new(20.0, 0.0)), sheet.view.to_screen(Point::new(10.0, 12.0)));
        sheet.press(from, false, &piece, &stock);
        assert!(sheet.release(from, &piece).is_empty());
        sheet.lift();
        sheet.press(to, false, &piece, &stock);
        let tapped = done(&sheet.release(to, &piece), &piece);
        sheet.cancel();
        sheet.press(from, false, &piece, &stock);
        let mut commands = sheet.drag(from + (to - from) * 0.5);
        commands.extend(sheet.drag(to));
        commands.extend(sheet.release(to, &piece));
        let dragged = done(&commands, &piece);
        for after in [tapped, dragged] {
            assert!((after.parts()[0].centre - Point::new(10.0, 12.0)).hypot() < 1e-9, "{after:?}");
        }
    }

    #[test]
    fn a_wet_finger_that_slips_a_little_moves_nothing() {
        let (mut sheet, piece, stock) = bench();
        let at = sheet.view.to_screen(Point::new(20.0, 0.0));
        sheet.press(at, false, &piece, &stock);
        assert!(sheet.drag(at + Vec2::new(6.0, 5.0)).is_empty());
        assert!(sheet.release(at + Vec2::new(6.0, 5.0), &piece).is_empty());
        assert_eq!(sheet.selected, [PartId(1)]);
    }

    #[test]
    fn escape_gives_up_the_drag_then_the_hand_then_the_selection() {
        let (mut sheet, piece, stock) = bench();
        let at = sheet.view.to_screen(Point::new(20.0, 0.0));
        sheet.press(at, false, &piece, &stock);
        sheet.drag(at + Vec2::new(40.0, 0.0));
        assert_eq!(sheet.cancel(), [Command::Revert]);
        sheet.lift();
        assert!(sheet.cancel().is_empty());
        assert_eq!((&sheet.held, sheet.selected.len()), (&Held::Nothing, 1));
        sheet.cancel();
        assert!(sheet.selected.is_empty());
    }

    #[test]
    fn arrows_move_the_bloom_in_the_hand_before_anything_selected() {
        let (mut sheet, piece, _) = bench();
        sheet.selected = vec![PartId(2)];
        let commands = sheet.nudge(1.0, 0.0, 1.0);
        assert_eq!(done(&commands, &piece).parts()[1].centre, Point::new(-19.0, 0.0));
        sheet.pick(rose(Point::ZERO), false);
        assert!(sheet.nudge(0.0, -1.0, LONG_STEP_MM).is_empty());
        assert!(matches!(&sheet.held, Held::FromTray { new, .. } if new.centre == Point::new(0.0, -5.0)));
    }

    #[test]
    fn a_drag_on_bare_paper_moves_the_sheet_and_changes_nothing() {
        let (mut sheet, piece, stock) = bench();
        let (from, middle) = (Point::new(40.0, 40.0), sheet.view.middle);
        sheet.press(from, false, &piece, &stock);
        assert!(sheet.drag(from + Vec2::new(80.0, 0.0)).is_empty());
        assert!(sheet.release(from, &piece).is_empty());
        assert!(sheet.view.middle != middle);
    }

    #[test]
    fn tab_goes_round_all_parts_both_ways() {
        let (mut sheet, piece, _) = bench();
        sheet.select_next(false, &piece);
        sheet.select_next(false, &piece);
        assert_eq!(sheet.selected, [PartId(2)]);
        sheet.select_next(false, &piece);
        assert_eq!(sheet.selected, [PartId(1)]);
        sheet.select_next(true, &piece);
        assert_eq!(sheet.selected, [PartId(2)]);
    }
}
