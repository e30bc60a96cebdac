//! Sets of stretches of one curve's parameter: what of an arc or an edge is hidden, and what is left.
//!
//! Knows numbers only. A closed curve runs from -pi to pi and wraps there; an edge runs from 0 to 1.

use std::f64::consts::PI;

/// Where along a curve something holds.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Along {
    /// Nowhere.
    Nowhere,
    /// Everywhere.
    Everywhere,
    /// From the first parameter on to the second (past pi on a closed curve if the second is smaller).
    Between(f64, f64),
    /// On several such stretches, in order.
    Several(Vec<(f64, f64)>),
}

/// What is hidden of a curve. Add stretches, then ask for what is left.
#[derive(Debug)]
pub(super) struct Hidden {
    lower: f64,
    upper: f64,
    closed: bool,
    all: bool,
    list: Vec<(f64, f64)>,
}

impl Hidden {
    /// An empty set, to be used again and again.
    pub(super) fn new() -> Self {
        Self { lower: -PI, upper: PI, closed: true, all: false, list: Vec::new() }
    }

    /// Starts over on a closed curve.
    pub(super) fn start_closed(&mut self) {
        (self.lower, self.upper, self.closed, self.all) = (-PI, PI, true, false);
        self.list.clear();
    }

    /// Starts over on an edge.
    pub(super) fn start_edge(&mut self) {
        (self.lower, self.upper, self.closed, self.all) = (0.0, 1.0, false, false);
        self.list.clear();
    }

    /// Starts over on the same kind of curve as `other`.
    pub(super) fn start_like(&mut self, other: &Self) {
        (self.lower, self.upper, self.closed, self.all) = (other.lower, other.upper, other.closed, false);
        self.list.clear();
    }

    /// Whether nothing can be left.
    pub(super) fn is_all(&self) -> bool {
        self.all
    }

    /// Hides where `along` holds.
    pub(super) fn hide(&mut self, along: &Along) {
        match along {
            Along::Nowhere => {}
            Along::Everywhere => self.all = true,
            Along::Between(from, to) => self.push(*from, *to),
            Along::Several(stretches) => stretches.iter().for_each(|&(from, to)| self.push(from, to)),
        }
    }

    /// Hides where `along` does not hold.
    pub(super) fn hide_outside(&mut self, along: &Along) {
        match along {
            Along::Nowhere => self.all = true,
            Along::Everywhere => {}
            Along::Between(from, to) if from == to => self.all = true,
            Along::Between(from, to) => self.push_between(*from, *to),
            Along::Several(stretches) => self.hide_between(stretches),
        }
    }

    /// Hides the stretches that `other` leaves over.
    pub(super) fn hide_left_of(&mut self, other: &mut Self) {
        other.each_left(|from, to| self.push(from, to));
    }

    /// Calls `use_stretch` with each stretch that is left, in order.
    pub(super) fn each_left(&mut self, mut use_stretch: impl FnMut(f64, f64)) {
        if self.all {
            return;
        }
        self.list.sort_unstable_by(|left, right| left.0.total_cmp(&right.0));
        let mut reached = self.lower;
        for &(from, to) in &self.list {
            if from > reached {
                use_stretch(reached, from);
            }
            reached = reached.max(to);
        }
        if reached < self.upper {
            use_stretch(reached, self.upper);
        }
    }

    fn push(&mut self, from: f64, to: f64) {
        if from <= to {
            self.list.push((from, to));
        } else if self.closed {
            self.list.push((from, self.upper));
            self.list.push((self.lower, to));
        }
    }

    /// Hides the rest of the curve around one stretch.
    fn push_between(&mut self, from: f64, to: f64) {
        if self.closed {
            self.push(to, from);
        } else {
            self.push(self.lower, from);
            self.push(to, self.upper);
        }
    }

    fn hide_between(&mut self, stretches: &[(f64, f64)]) {
        for (index, &(_, end)) in stretches.iter().enumerate() {
            let (next, _) = stretches[(index + 1) % stretches.len()];
            if end != next {
                self.push(end, next);
            }
        }
    }
}

/// Halves stretches of a closed curve into those where `along` holds and those where it does not. All lie in -pi..pi.
pub(super) fn halved_by(
    stretches: &[(f64, f64)],
    along: &Along,
    inside: &mut Vec<(f64, f64)>,
    outside: &mut Vec<(f64, f64)>,
) {
    match along {
        Along::Nowhere => outside.extend_from_slice(stretches),
        Along::Everywhere => inside.extend_from_slice(stretches),
        Along::Between(from, to) => halved_by_some(stretches, &[(*from, *to)], inside, outside),
        Along::Several(several) => halved_by_some(stretches, several, inside, outside),
    }
}

fn halved_by_some(
    stretches: &[(f64, f64)],
    places: &[(f64, f64)],
    inside: &mut Vec<(f64, f64)>,
    outside: &mut Vec<(f64, f64)>,
) {
    for &(from, to) in stretches {
        let mut reached = from;
        let mut take = |start: f64, end: f64| {
            let (start, end) = (start.max(reached), end.min(to));
            if start < end {
                if reached < start {
                    outside.push((reached, start));
                }
                inside.push((start, end));
                reached = end;
            }
        };
        // A place that runs past pi begins and ends the turn.
        let wraps = places.iter().filter(|(start, end)| start > end);
        wraps.clone().for_each(|&(_, end)| take(-PI, end));
        places.iter().filter(|(start, end)| start <= end).for_each(|&(start, end)| take(start, end));
        wraps.for_each(|&(start, _)| take(start, PI));
        if reached < to {
            outside.push((reached, to));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn left(hidden: &mut Hidden) -> Vec<(f64, f64)> {
        let mut stretches = Vec::new();
        hidden.each_left(|from, to| stretches.push((from, to)));
        stretches
    }

    #[test]
    fn what_is_hidden_twice_is_hidden_once() {
        let mut hidden = Hidden::new();
        hidden.start_edge();
        hidden.hide(&Along::Between(0.2, 0.5));
        hidden.hide(&Along::Between(0.4, 0.6));
        assert_eq!(left(&mut hidden), [(0.0, 0.2), (0.6, 1.0)]);
    }

    #[test]
    fn a_stretch_may_run_past_pi() {
        let mut hidden = Hidden::new();
        hidden.start_closed();
        hidden.hide(&Along::Between(3.0, -3.0));
        assert_eq!(left(&mut hidden), [(-3.0, 3.0)]);
        hidden.start_closed();
        hidden.hide_outside(&Along::Between(3.0, -3.0));
        assert_eq!(left(&mut hidden), [(-PI, -3.0), (3.0, PI)]);
    }

    #[test]
    fn an_empty_stretch_hides_nothing_or_leaves_nothing() {
        let mut hidden = Hidden::new();
        hidden.start_closed();
        hidden.hide(&Along::Between(1.0, 1.0));
        assert_eq!(left(&mut hidden), [(-PI, 1.0), (1.0, PI)]);
        hidden.start_closed();
        hidden.hide_outside(&Along::Between(1.0, 1.0));
        assert_eq!(left(&mut hidden), []);
    }

    #[test]
    fn the_outside_of_several_stretches_lies_between_them() {
        let mut hidden = Hidden::new();
        hidden.start_closed();
        hidden.hide_outside(&Along::Several(vec![(-2.0, -1.0), (1.0, 2.0)]));
        assert_eq!(left(&mut hidden), [(-2.0, -1.0), (1.0, 2.0)]);
    }

    #[test]
    fn stretches_are_halved_where_another_begins_and_ends() {
        let halves = |along: Along| {
            let (mut inside, mut outside) = (Vec::new(), Vec::new());
            halved_by(&[(-3.0, -1.0), (0.0, 3.0)], &along, &mut inside, &mut outside);
            (inside, outside)
        };
        assert_eq!(halves(Along::Nowhere), (vec![], vec![(-3.0, -1.0), (0.0, 3.0)]));
        let (inside, outside) = halves(Along::Between(2.0, -2.0));
        assert_eq!((inside, outside), (vec![(-3.0, -2.0), (2.0, 3.0)], vec![(-2.0, -1.0), (0.0, 2.0)]));
        let (inside, outside) = halves(Along::Several(vec![(-2.5, -2.0), (1.0, 2.0)]));
        assert_eq!(inside, [(-2.5, -2.0), (1.0, 2.0)]);
        assert_eq!(outside, [(-3.0, -2.5), (-2.0, -1.0), (0.0, 1.0), (2.0, 3.0)]);
    }
}
