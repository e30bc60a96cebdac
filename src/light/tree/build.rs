//! Splits boxes into a tree of two branches by the surface-area heuristic.

use glam::Vec3A;

use crate::units::join;

/// Parts into which an axis is cut to look for a split.
const N_BINS: usize = 16;
/// From how many boxes on the two halves are built at the same time.
const MANY: usize = 16_384;
/// Levels of the tree at which that is done.
const SHARED_LEVELS: u32 = 2;
/// From this level on boxes are halved by number, so that a tree of ill-laid boxes does not grow deeper and deeper.
const DEEPEST: u32 = 48;

/// A box along the axes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Box3 {
    pub(super) low: Vec3A,
    pub(super) high: Vec3A,
}

impl Box3 {
    pub(super) const EMPTY: Self = Self { low: Vec3A::splat(f32::MAX), high: Vec3A::splat(f32::MIN) };

    pub(super) fn around(points: impl IntoIterator<Item = Vec3A>) -> Self {
        points.into_iter().fold(Self::EMPTY, |all, p| all.with(Self { low: p, high: p }))
    }

    pub(super) fn with(self, other: Self) -> Self {
        Self { low: self.low.min(other.low), high: self.high.max(other.high) }
    }

    /// Half its surface.
    pub(super) fn area(self) -> f32 {
        let d = (self.high - self.low).max(Vec3A::ZERO);
        d.x * d.y + d.y * d.z + d.z * d.x
    }

    fn middle_twice(self) -> Vec3A {
        self.low + self.high
    }
}

/// A thing with its box.
#[derive(Clone, Copy, Debug)]
pub(super) struct BoxedThing {
    pub(super) around: Box3,
    pub(super) id: u32,
}

/// A tree of two branches.
#[derive(Debug)]
pub(super) enum Branch {
    /// Things that stand together.
    Leaf(Box3, Vec<u32>),
    /// Two smaller trees.
    Fork(Box3, Box<[Self; 2]>),
}

impl Branch {
    pub(super) fn around(&self) -> Box3 {
        match self {
            Self::Leaf(around, _) | Self::Fork(around, _) => *around,
        }
    }

    /// The tree over things, at most `per_leaf` of them in a leaf. The things are put in another order.
    pub(super) fn of(things: &mut [BoxedThing], per_leaf: usize) -> Self {
        grow(things, per_leaf.max(1), 0)
    }
}

fn grow(things: &mut [BoxedThing], per_leaf: usize, level: u32) -> Branch {
    let (mut around, mut middles) = (Box3::EMPTY, Box3::EMPTY);
    for thing in things.iter() {
        around = around.with(thing.around);
        let middle = thing.around.middle_twice();
        middles = middles.with(Box3 { low: middle, high: middle });
    }
    if things.len() <= per_leaf {
        return Branch::Leaf(around, things.iter().map(|thing| thing.id).collect());
    }
    let n_left = if level < DEEPEST { parted(things, middles, per_leaf) } else { things.len() / 2 };
    let is_shared = things.len() > MANY && level < SHARED_LEVELS;
    let (left, right) = things.split_at_mut(n_left);
    let both = if is_shared {
        // The job given to another thread may have to be done twice, so it works on things of its own.
        let copied: &[BoxedThing] = right;
        let (b, a) = join(|| grow(&mut copied.to_vec(), per_leaf, level + 1), || grow(left, per_leaf, level + 1));
        [a, b]
    } else {
        [grow(left, per_leaf, level + 1), grow(right, per_leaf, level + 1)]
    };
    Branch::Fork(around, Box::new(both))
}

/// Puts the things of one side first and gives their number; never none nor all.
fn parted(things: &mut [BoxedThing], middles: Box3, per_leaf: usize) -> usize {
    let size = middles.high - middles.low;
    let scale = Vec3A::select(size.cmpgt(Vec3A::splat(1e-12)), N_BINS as f32 / size, Vec3A::ZERO);
    let bin_of = |thing: &BoxedThing| {
        let at = (thing.around.middle_twice() - middles.low) * scale;
        at.to_array().map(|x| (x as usize).min(N_BINS - 1))
    };
    let mut bins = [[(Box3::EMPTY, 0_usize); N_BINS]; 3];
    for thing in things.iter() {
        for (axis, bin) in bin_of(thing).into_iter().enumerate() {
            let (around, n) = &mut bins[axis][bin];
            *around = around.with(thing.around);
            *n += 1;
        }
    }
    let best = (0..3).filter_map(|axis| best_cut(&bins[axis], per_leaf).map(|(cost, cut)| (cost, axis, cut)));
    let Some((_, axis, cut)) = best.min_by(|a, b| a.0.total_cmp(&b.0)) else { return things.len() / 2 };
    let mut n_left = 0;
    for i in 0..things.len() {
        if bin_of(&things[i])[axis] <= cut {
            things.swap(i, n_left);
            n_left += 1;
        }
    }
    n_left
}

/// The cheapest cut along one axis, after which bin; `None` if all things are in one.
fn best_cut(bins: &[(Box3, usize); N_BINS], per_leaf: usize) -> Option<(f32, usize)> {
    let cost = |(around, n): (Box3, usize)| around.area() * n.div_ceil(per_leaf) as f32;
    let add = |a: (Box3, usize), b: &(Box3, usize)| (a.0.with(b.0), a.1 + b.1);
    let mut right_costs = [None; N_BINS];
    let mut right = (Box3::EMPTY, 0);
    for bin in (1..N_BINS).rev() {
        right = add(right, &bins[bin]);
        right_costs[bin - 1] = (right.1 > 0).then(|| cost(right));
    }
    let mut left = (Box3::EMPTY, 0);
    let mut best: Option<(f32, usize)> = None;
    for bin in 0..N_BINS - 1 {
        left = add(left, &bins[bin]);
        let Some(right_cost) = right_costs[bin].filter(|_| left.1 > 0) else { continue };
        let whole = cost(left) + right_cost;
        if best.is_none_or(|(least, _)| whole < least) {
            best = Some((whole, bin));
        }
    }
    best
}

#[cfg(test)]
mod tests {
    use super::*;

    fn thing(id: u32, low: [f32; 3], size: f32) -> BoxedThing {
        let low = Vec3A::from_array(low);
        BoxedThing { around: Box3 { low, high: low + Vec3A::splat(size) }, id }
    }

    fn ids(branch: &Branch, found: &mut Vec<u32>, per_leaf: usize) {
        match branch {
            Branch::Leaf(_, of) => {
                assert!(!of.is_empty() && of.len() <= per_leaf);
                found.extend(of);
            }
            Branch::Fork(around, both) => {
                for half in both.iter() {
                    assert_eq!(around.with(half.around()), *around, "a branch reaches out of its box");
                    ids(half, found, per_leaf);
                }
            }
        }
    }

    #[test]
    fn every_thing_is_in_one_leaf_and_boxes_hold_their_branches() {
        let at = |i: u32| {
            let f = |k: u32| (i.wrapping_mul(k) >> 8 & 1023) as f32;
            [f(2_654_435_761), f(2_246_822_519), f(3_266_489_917)]
        };
        let mut things: Vec<BoxedThing> = (0..40_000).map(|i| thing(i, at(i), 1.0 + (i % 7) as f32)).collect();
        let tree = Branch::of(&mut things, 4);
        let mut found = Vec::new();
        ids(&tree, &mut found, 4);
        found.sort_unstable();
        assert!(found.iter().enumerate().all(|(i, id)| i == *id as usize) && found.len() == 40_000);
    }

    #[test]
    fn things_at_one_place_are_halved_by_number() {
        let mut things: Vec<BoxedThing> = (0..1000).map(|i| thing(i, [1.0, 2.0, 3.0], 1.0)).collect();
        let mut found = Vec::new();
        ids(&Branch::of(&mut things, 4), &mut found, 4);
        assert_eq!(found.len(), 1000);
    }
}
