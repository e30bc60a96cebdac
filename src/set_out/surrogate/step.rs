//! A step of the search on a layout: one part in another pose, or two that change places.

use super::super::table::PartPose;
use super::{Layout, Loss, Surrogate};
use crate::stock::Role;

/// What moves where.
#[derive(Clone, Copy, Debug)]
pub(in super::super) struct SearchStep {
    pub(in super::super) first: (usize, PartPose),
    pub(in super::super) second: Option<(usize, PartPose)>,
}

impl SearchStep {
    pub(in super::super) fn parts(&self) -> impl Iterator<Item = (usize, PartPose)> + use<> {
        [Some(self.first), self.second].into_iter().flatten()
    }
}

impl Surrogate {
    /// Makes a step when no more than `most` is lost after it, and returns what is lost then; else all stays as it was.
    pub(in super::super) fn make(&self, layout: &mut Layout, step: &SearchStep, most: f64) -> Option<f64> {
        let back = self.put(layout, step);
        let moves = |is: fn(Role) -> bool| step.parts().any(|(i, _)| is(self.items[i].role));
        let heads_move = moves(|role| matches!(role, Role::Bloom | Role::Accent));
        let (of_heads, leaves_lost) = (layout.of_heads, layout.leaves_lost);
        if heads_move {
            layout.of_heads = self.of_heads(layout);
        }
        if moves(|role| role == Role::Leaf) {
            layout.leaves_lost = self.leaves_lost(&layout.poses);
        }
        let without = self.without_looking(layout);
        let after = if without.total() <= most { self.look(layout, step, heads_move, without, most) } else { None };
        if after.is_none() {
            self.put(layout, &back);
            (layout.of_heads, layout.leaves_lost) = (of_heads, leaves_lost);
        }
        after
    }

    /// The look from above at a step whose poses are put; masks and pile are as before when too much is lost.
    fn look(&self, layout: &mut Layout, step: &SearchStep, heads_move: bool, without: Loss, most: f64) -> Option<f64> {
        let masks = step.parts().map(|(i, pose)| (i, self.masks(i, &pose)));
        let masks: [Option<_>; 2] = {
            let mut two = masks;
            [two.next(), two.next()]
        };
        let put = |layout: &mut Layout, masks: [Option<(usize, _)>; 2]| {
            masks.map(|one| one.map(|(i, masks)| (i, std::mem::replace(&mut layout.masks[i], masks))))
        };
        let before = put(layout, masks);
        let topmost = heads_move.then(|| {
            let new = self.topmost(layout);
            std::mem::replace(&mut layout.topmost, new)
        });
        let total = self.with_what_is_seen(without, layout).total();
        if total <= most {
            return Some(total);
        }
        put(layout, before);
        if let Some(topmost) = topmost {
            layout.topmost = topmost;
        }
        None
    }

    /// Puts poses, and gives the step back. Two that are alike change their seats too: which of them has which nobody sees,
    /// but what is put on later lies higher.
    fn put(&self, layout: &mut Layout, step: &SearchStep) -> SearchStep {
        let back = |(i, pose): (usize, PartPose)| (i, std::mem::replace(&mut layout.poses[i], pose));
        let mut back = back;
        let (first, second) = (back(step.first), step.second.map(&mut back));
        if let Some((j, _)) = second.filter(|(j, _)| self.items[first.0].is_like(&self.items[*j])) {
            layout.seats.swap(first.0, j);
        }
        SearchStep { first, second }
    }
}
