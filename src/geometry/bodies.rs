//! Shapes taken apart into simple pieces, and what of each piece's boundary others hide.
//!
//! Knows discs, lenses and convex polygons alike as overlaps of simple pieces, and who may touch whom; mm. Does not know
//! what the boundary is wanted for: [`super::cover`] and [`super::overlap`] add it up.

use std::ops::Range;

use kurbo::{Point, Rect};

use super::crossing::{ConvexPart, along};
use super::neighbours::Neighbours;
use super::nudge::{MOST_TRIES, is_in_doubt, nudged};
use super::oval_crossing::{crossed, is_near_edge};
use super::region::Region;
use super::spans::{Along, Hidden};
use super::{ConvexPolygon, Disc, Oval, Shape};

/// Shapes and polygons taken apart, no two boundaries of them in doubt.
#[derive(Debug)]
pub(super) struct Bodies {
    pieces: Vec<ConvexPart>,
    ranges: Vec<Range<usize>>,
    near: Neighbours,
}

/// Room to compute in, made once and used for every piece.
#[derive(Debug)]
pub(super) struct Scratch {
    /// What is hidden of the piece in hand.
    pub(super) hidden: Hidden,
    scratch: Hidden,
    clear: Hidden,
}

impl Scratch {
    pub(super) fn new() -> Self {
        Self { hidden: Hidden::new(), scratch: Hidden::new(), clear: Hidden::new() }
    }

    fn start(&mut self, piece: &ConvexPart) {
        match piece {
            ConvexPart::Round(_) => self.hidden.start_closed(),
            ConvexPart::Side(..) => self.hidden.start_edge(),
        }
    }

    /// Hides what lies inside all of several pieces.
    fn hide_inside_all<T>(&mut self, pieces: &[T], inside: impl Fn(&T) -> Along) {
        if let [piece] = pieces {
            self.hidden.hide(&inside(piece));
            return;
        }
        self.scratch.start_like(&self.hidden);
        for piece in pieces {
            self.scratch.hide_outside(&inside(piece));
            if self.scratch.is_all() {
                return;
            }
        }
        self.hidden.hide_left_of(&mut self.scratch);
    }

    /// Hides what does not lie inside all of several pieces.
    fn hide_outside_all(&mut self, pieces: &[ConvexPart], inside: impl Fn(&ConvexPart) -> Along) {
        for piece in pieces {
            self.hidden.hide_outside(&inside(piece));
        }
    }

    /// Turns what is hidden into what is left, and the other way round.
    fn turn_over(&mut self) {
        self.clear.start_like(&self.hidden);
        self.clear.hide_left_of(&mut self.hidden);
        std::mem::swap(&mut self.clear, &mut self.hidden);
    }
}

impl Bodies {
    /// Takes tidied shapes and polygons apart, for use alone or within a sound oval. The polygons come after the shapes.
    /// Shapes whose boundaries run together with others, or with the oval's edge, are nudged first (see [`super::nudge`]).
    pub(super) fn of(shapes: &[Shape], polygons: &[ConvexPolygon], within: Option<Oval>) -> Self {
        let mut bodies = Self::taken_apart(shapes, polygons);
        let mut own = Vec::new();
        for attempt in 0..MOST_TRIES {
            let doubtful = bodies.in_doubt(within);
            if doubtful.is_empty() {
                break;
            }
            if own.is_empty() {
                own = shapes.to_vec();
            }
            for index in doubtful {
                own[index] = nudged(&shapes[index], attempt);
            }
            bodies = Self::taken_apart(&own, polygons);
        }
        bodies
    }

    fn taken_apart(shapes: &[Shape], polygons: &[ConvexPolygon]) -> Self {
        let mut pieces = Vec::with_capacity(shapes.len());
        let mut ranges = Vec::with_capacity(shapes.len() + polygons.len());
        let mut bounds: Vec<Rect> = Vec::with_capacity(shapes.len() + polygons.len());
        for shape in shapes {
            let start = pieces.len();
            pieces.extend(shape.rounded_off().round_parts().map(ConvexPart::Round));
            ranges.push(start..pieces.len());
            bounds.push(shape.bounds());
        }
        for polygon in polygons {
            let start = pieces.len();
            pieces.extend(polygon.edges().map(|(p, q)| ConvexPart::Side(p, q)));
            ranges.push(start..pieces.len());
            bounds.push(polygon.bounds());
        }
        Self { pieces, ranges, near: Neighbours::of(&bounds) }
    }

    /// The shapes with a boundary in doubt, in order and each once.
    fn in_doubt(&self, within: Option<Oval>) -> Vec<usize> {
        let doubtful = |body: &usize| {
            let rounds = || self.rounds(*body);
            within.is_some_and(|oval| rounds().any(|disc| is_near_edge(oval, disc)))
                || self
                    .near(*body)
                    .iter()
                    .any(|&other| rounds().any(|first| self.rounds(other).any(|second| is_in_doubt(first, second))))
        };
        (0..self.len()).filter(doubtful).collect()
    }

    /// The discs whose overlap a body is; none for a polygon.
    fn rounds(&self, body: usize) -> impl Iterator<Item = Disc> {
        self.pieces(body).iter().filter_map(|piece| match piece {
            ConvexPart::Round(disc) => Some(*disc),
            ConvexPart::Side(..) => None,
        })
    }

    /// How many there are.
    pub(super) fn len(&self) -> usize {
        self.ranges.len()
    }

    /// The bodies that may touch one, by index.
    pub(super) fn near(&self, body: usize) -> &[usize] {
        self.near.at(body)
    }

    /// The pieces whose overlap a body is.
    pub(super) fn pieces(&self, body: usize) -> &[ConvexPart] {
        &self.pieces[self.ranges[body].clone()]
    }

    /// Starts on one piece of a body: hides what is no boundary of the body itself.
    pub(super) fn start(&self, scratch: &mut Scratch, body: usize, piece: usize) {
        let pieces = self.pieces(body);
        scratch.start(&pieces[piece]);
        if let ConvexPart::Round(_) = pieces[piece] {
            for (other, twin) in pieces.iter().enumerate() {
                if other != piece {
                    // Of two equal pieces the first keeps the boundary.
                    scratch.hidden.hide_outside(&along(&pieces[piece], twin, piece < other));
                }
            }
        }
    }

    /// Hides what lies inside another body; where the boundaries are the same, `when_same` decides.
    pub(super) fn hide_inside(&self, scratch: &mut Scratch, piece: &ConvexPart, other: usize, when_same: bool) {
        scratch.hide_inside_all(self.pieces(other), |side| along(piece, side, when_same));
    }

    /// Hides what lies outside another body; where the boundaries are the same, `when_same` decides.
    pub(super) fn hide_outside(&self, scratch: &mut Scratch, piece: &ConvexPart, other: usize, when_same: bool) {
        scratch.hide_outside_all(self.pieces(other), |side| along(piece, side, when_same));
    }

    /// Hides, of the oval's edge, what lies inside no body. `inside` says for every piece where the edge lies inside it.
    pub(super) fn hide_oval_outside_all(&self, scratch: &mut Scratch, inside: &[Along]) {
        scratch.hidden.start_closed();
        for range in &self.ranges {
            scratch.hide_inside_all(&inside[range.clone()], Along::clone);
        }
        scratch.turn_over();
    }

    /// How every piece and the oval lie: where the piece's boundary is inside the oval, and where the oval's is inside it.
    pub(super) fn crossed(&self, oval: Oval) -> (Vec<Along>, Vec<Along>) {
        self.pieces.iter().map(|piece| crossed(piece, oval)).map(|[piece, oval]| (piece, oval)).unzip()
    }

    /// The same for an oval that is none: nothing lies inside anything.
    pub(super) fn nowhere(&self) -> (Vec<Along>, Vec<Along>) {
        (vec![Along::Nowhere; self.pieces.len()], vec![Along::Nowhere; self.pieces.len()])
    }

    /// Where a body's piece stands among all pieces.
    pub(super) fn place(&self, body: usize, piece: usize) -> usize {
        self.ranges[body].start + piece
    }
}

/// Adds what is left of a piece's boundary.
pub(super) fn add_left(region: &mut Region, piece: &ConvexPart, hidden: &mut Hidden) {
    match *piece {
        ConvexPart::Round(disc) => hidden.each_left(|from, to| region.add_arc(disc, from, to)),
        ConvexPart::Side(p, q) => hidden.each_left(|from, to| region.add_edge(on_edge(p, q, from), on_edge(p, q, to))),
    }
}

/// Takes away what is left of a piece's boundary.
pub(super) fn remove_left(region: &mut Region, piece: &ConvexPart, hidden: &mut Hidden) {
    match *piece {
        ConvexPart::Round(disc) => hidden.each_left(|from, to| region.remove_arc(disc, from, to)),
        ConvexPart::Side(p, q) => hidden.each_left(|from, to| region.add_edge(on_edge(p, q, to), on_edge(p, q, from))),
    }
}

/// The place on an edge; its ends exactly.
fn on_edge(p: Point, q: Point, share: f64) -> Point {
    if share >= 1.0 { q } else { p.lerp(q, share) }
}
