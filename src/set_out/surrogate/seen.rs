//! The part of the surrogate that looks from above: hidden heads, bare spots, the base, and what preference says of what is seen.
//! Shapes are masks on the grid, layout under one another from the highest to the lowest.

use super::super::grid::{Mask, Patch, count, count_both, count_outside};
use super::super::table::{Item, PartPose};
use super::{Layout, Surrogate, lost};
use crate::stock::Role;

/// The masks of one item: as it is, and swollen by half the least room an eye sees.
#[derive(Clone, Copy, Debug)]
pub(super) struct Masks {
    plain: Patch,
    swollen: Patch,
    points: f64,
}

/// On the grid a head may seem to be seen by so much more than it is, as a share of it.
const GRID_HIDES: f64 = 0.02;

/// Preference minds the most hidden head of all from this share on, before the once-over calls it lost: among many heads, one half
/// hidden would not count for much. Our choice, by pictures.
const HALF_LOST: f64 = 0.3;

/// What is seen from above.
pub(super) struct SeenFromAbove {
    pub(super) bare_share: f64,
    pub(super) hidden_lost: f64,
    pub(super) base_covered: f64,
    pub(super) preference: f64,
}

/// What has been layout so far, from the highest part down.
#[derive(Clone, Debug, Default)]
pub(super) struct Pile {
    above: Mask,
    swollen: Mask,
    heads: Mask,
    hidden_most: f64,
    hidden_sum: f64,
    leaves_unseen: f64,
    sprigs_unseen: f64,
}

impl Pile {
    /// Lays the next lower part.
    fn add_under(&mut self, item: &Item, masks: &Masks) {
        let share = if masks.points > 0.0 { masks.plain.count_in(&self.above) / masks.points } else { 0.0 };
        match item.role {
            Role::Bloom | Role::Accent => {
                self.hidden_most = self.hidden_most.max(share);
                self.hidden_sum += share * share;
                masks.plain.join_to(&mut self.heads);
            }
            Role::Leaf => self.leaves_unseen += lost((share - 0.6) / 0.4),
            Role::Filler => self.sprigs_unseen += lost((share - 0.35) / 0.65),
            Role::Trim => {}
        }
        masks.plain.join_to(&mut self.above);
        masks.swollen.join_to(&mut self.swollen);
    }
}

impl Surrogate {
    /// The masks of an item in a pose.
    pub(super) fn masks(&self, i: usize, pose: &PartPose) -> Masks {
        let item = &self.items[i];
        let patch = |more: f64| {
            if item.is_long() {
                self.grid.lens(pose.at, pose.toward, item.reach + more, item.half_width + more)
            } else {
                self.grid.disc(pose.at, item.reach + more)
            }
        };
        let plain = patch(0.0);
        Masks { plain, swollen: patch(self.room_radius), points: plain.count() }
    }

    /// The heads that lie over everything else.
    pub(super) fn topmost(&self, layout: &Layout) -> Pile {
        let mut pile = Pile::default();
        for &i in &layout.order[..layout.n_topmost] {
            pile.add_under(&self.items[i], &layout.masks[i]);
        }
        pile
    }

    pub(super) fn seen(&self, layout: &Layout) -> SeenFromAbove {
        let mut pile = layout.topmost.clone();
        for &i in &layout.order[layout.n_topmost..] {
            pile.add_under(&self.items[i], &layout.masks[i]);
        }
        let gap_points = count_outside(&self.gap_centres, &pile.swollen);
        let bare_mm2 = if gap_points > 0.0 { steiner(gap_points * self.grid.point_mm2, self.room_radius) } else { 0.0 };
        let limit = self.hidden_share - GRID_HIDES;
        let mean = |sum: f64, n: usize| sum / n.max(1) as f64;
        let bare = count_outside(&self.within, &pile.above) / count(&self.within).max(1.0);
        let over_edge = count_outside(&pile.heads, &self.within) / count(&pile.heads).max(1.0);
        SeenFromAbove {
            bare_share: bare_mm2 / self.oval.area(),
            hidden_lost: lost((pile.hidden_most - limit) / (1.0 - limit).max(1e-6)),
            base_covered: count_both(&self.base, &pile.above) / count(&self.base).max(1.0),
            preference: 3.0 * lost((pile.hidden_most - HALF_LOST) / (1.0 - HALF_LOST))
                + 3.0 * mean(pile.hidden_sum, self.heads.len())
                + 1.0 * mean(pile.leaves_unseen, self.leaves.len())
                + 1.5 * mean(pile.sprigs_unseen, self.fillers.len())
                + 3.0 * bare
                + 3.0 * over_edge,
        }
    }
}

/// Area of the places within `radius` of a region of this area, were it a disc.
fn steiner(mm2: f64, radius: f64) -> f64 {
    let own = (mm2 / std::f64::consts::PI).sqrt() + radius;
    std::f64::consts::PI * own * own
}
