//! Which obstacles can be nearest somewhere in a square: lists that grow shorter as squares grow smaller.
//!
//! Knows obstacles by number, all lists in one stretch of memory; mm. In every list lenses stand before discs, as they do
//! in the field, so that each loop asks shapes of one kind and the processor need not guess which kind comes next.

use std::ops::Range;

use kurbo::Point;

use super::field::Obstacles;

/// A list's place in memory.
#[derive(Clone, Copy, Debug)]
pub(super) struct Near {
    start: usize,
    end: usize,
}

/// All lists.
#[derive(Debug)]
pub(super) struct Lists {
    obstacles: Vec<usize>,
}

impl Lists {
    /// One list of all that there is, with room for more.
    pub(super) fn of_all(field: &Obstacles, room: usize) -> Self {
        let mut obstacles = Vec::with_capacity(room.max(field.n_obstacles()));
        obstacles.extend(0..field.n_obstacles());
        Self { obstacles }
    }

    /// All lists as one.
    pub(super) fn whole(&self) -> Near {
        Near { start: 0, end: self.obstacles.len() }
    }

    /// A list.
    pub(super) fn at(&self, near: Near) -> &[usize] {
        &self.obstacles[near.start..near.end]
    }

    /// Writes the list of those from another, and of those `given` since, that are no further from `place` than `within`.
    pub(super) fn closer(
        &mut self,
        field: &Obstacles,
        near: Near,
        given: Range<usize>,
        place: Point,
        within: f64,
    ) -> Near {
        let start = self.obstacles.len();
        self.obstacles.resize(start + (near.end - near.start) + given.len(), 0);
        let (known, new) = self.obstacles.split_at_mut(start);
        let known = &known[near.start..near.end];
        let (lenses, discs) = known.split_at(field.n_lenses_of(known));
        // Every obstacle is written down, and the next one over it unless it counts: no guess which of them do.
        let mut n_kept = 0;
        for &obstacle in lenses {
            new[n_kept] = obstacle;
            n_kept += usize::from(field.distance_to_lens(obstacle, place) <= within);
        }
        for obstacle in discs.iter().copied().chain(given) {
            new[n_kept] = obstacle;
            n_kept += usize::from(field.is_disc_within(obstacle, place, within));
        }
        self.obstacles.truncate(start + n_kept);
        Near { start, end: start + n_kept }
    }
}
