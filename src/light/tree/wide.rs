//! A tree folded into nodes of four branches, and the walk of a ray through it.

use glam::Vec4;

use super::build::{Box3, Branch};
use super::ray::FourRays;

/// Marks a branch that is a leaf; the rest of the number tells which.
const LEAF: u32 = 1 << 31;
const NOTHING: u32 = u32::MAX;
/// How much farther a box reaches than it says, against rounding.
const SLACK: f32 = 1.000_001;

/// Four boxes side by side: bounds are the least x, y, z, and the largest.
#[derive(Clone, Copy, Debug)]
pub(super) struct WideNode {
    bounds: [[Vec4; 3]; 2],
    branches: [u32; 4],
}

impl WideNode {
    const EMPTY: Self = Self { bounds: [[Vec4::MAX; 3], [Vec4::MIN; 3]], branches: [NOTHING; 4] };

    fn put(&mut self, place: usize, around: Box3, branch: u32) {
        for (axis, (low, high)) in around.low.to_array().into_iter().zip(around.high.to_array()).enumerate() {
            self.bounds[0][axis][place] = low;
            self.bounds[1][axis][place] = high;
        }
        self.branches[place] = branch;
    }

    /// Its boxes that hold something.
    pub(super) fn boxes(&self) -> impl Iterator<Item = Box3> + '_ {
        (0..4).filter(|i| self.branches[*i] != NOTHING).map(|i| {
            let at = |side: usize| [0, 1, 2].map(|axis| self.bounds[side][axis][i]).into();
            Box3 { low: at(0), high: at(1) }
        })
    }

    /// Its branches that are nodes.
    pub(super) fn nodes(&self) -> impl Iterator<Item = usize> + '_ {
        self.branches.iter().filter(|branch| **branch & LEAF == 0).map(|branch| *branch as usize)
    }
}

/// Folds a tree into nodes, the first of which is its root; `leaf` keeps the things of a leaf and gives its number.
pub(super) fn folded(tree: &Branch, mut leaf: impl FnMut(&[u32]) -> u32) -> Vec<WideNode> {
    let mut nodes = Vec::new();
    match tree {
        Branch::Leaf(around, ids) => {
            let mut root = WideNode::EMPTY;
            root.put(0, *around, leaf(ids) | LEAF);
            nodes.push(root);
        }
        Branch::Fork(_, both) => {
            fold(both, &mut nodes, &mut leaf);
        }
    }
    nodes
}

fn fold(both: &[Branch; 2], nodes: &mut Vec<WideNode>, leaf: &mut impl FnMut(&[u32]) -> u32) -> u32 {
    let mut four: Vec<&Branch> = both.iter().collect();
    while four.len() < 4 {
        let forks = four.iter().enumerate().filter_map(|(i, branch)| match branch {
            Branch::Leaf(..) => None,
            Branch::Fork(around, inner) => Some((i, around.area(), inner)),
        });
        let Some((i, _, inner)) = forks.max_by(|a, b| a.1.total_cmp(&b.1)) else { break };
        four.swap_remove(i);
        four.extend(inner.iter());
    }
    let me = nodes.len();
    nodes.push(WideNode::EMPTY);
    for (place, branch) in four.into_iter().enumerate() {
        let number = match branch {
            Branch::Leaf(_, ids) => leaf(ids) | LEAF,
            Branch::Fork(_, inner) => fold(inner, nodes, leaf),
        };
        nodes[me].put(place, branch.around(), number);
    }
    me as u32
}

/// Places that wait; a power of two, and more than trees of the greatest depth need.
const N_WAITING: usize = 512;

/// Branches that a ray has still to look into, each with the distance of its box. Kept from ray to ray.
#[derive(Debug)]
pub(in crate::light) struct Waiting {
    branches: Box<[(u32, f32); N_WAITING]>,
    n: usize,
}

impl Waiting {
    pub(in crate::light) fn new() -> Self {
        Self { branches: Box::new([(NOTHING, 0.0); N_WAITING]), n: 0 }
    }

    pub(super) fn clear(&mut self) {
        self.n = 0;
    }

    #[inline]
    fn push(&mut self, branch: (u32, f32)) {
        self.branches[self.n & (N_WAITING - 1)] = branch;
        self.n += 1;
    }

    #[inline]
    fn pop_above(&mut self, bottom: usize) -> Option<(u32, f32)> {
        if self.n <= bottom {
            return None;
        }
        self.n -= 1;
        Some(self.branches[self.n & (N_WAITING - 1)])
    }

    /// Moves the branch on top down to its place among those above `start`: near ones stay on top.
    #[inline]
    fn settle(&mut self, start: usize) {
        let mut i = self.n - 1;
        while i > start {
            let (below, here) = ((i - 1) & (N_WAITING - 1), i & (N_WAITING - 1));
            if self.branches[below].1 >= self.branches[here].1 {
                break;
            }
            self.branches.swap(below, here);
            i -= 1;
        }
    }
}

/// Walks a ray through a tree, near boxes first. `leaf` looks into a leaf, shortens the ray to what it met, and says whether it met something.
/// With `ANY` the walk ends at the first thing met, whichever it is. Gives whether anything was met.
#[inline]
pub(super) fn walk<const ANY: bool>(
    nodes: &[WideNode],
    four: &FourRays,
    far: &mut f32,
    waiting: &mut Waiting,
    mut leaf: impl FnMut(u32, &mut f32, &mut Waiting) -> bool,
) -> bool {
    let bottom = waiting.n;
    let mut is_met = false;
    let mut current = (0, 0.0);
    loop {
        let (branch, distance) = current;
        if distance <= *far {
            if branch & LEAF == 0 {
                let Some(node) = nodes.get(branch as usize) else { break };
                if let Some(nearest) = entered::<ANY>(node, four, *far, waiting) {
                    current = nearest;
                    continue;
                }
            } else if leaf(branch & !LEAF, far, waiting) {
                is_met = true;
                if ANY {
                    waiting.n = bottom;
                    return true;
                }
            }
        }
        let Some(next) = waiting.pop_above(bottom) else { break };
        current = next;
    }
    is_met
}

/// The nearest branch that the ray enters; the others wait, the nearer ones on top.
#[inline]
fn entered<const ANY: bool>(node: &WideNode, four: &FourRays, far: f32, waiting: &mut Waiting) -> Option<(u32, f32)> {
    let at = |axis: usize, side: usize| (node.bounds[side & 1][axis] - four.origin[axis]) * four.inverse[axis];
    let near = at(0, four.near[0]).max(at(1, four.near[1])).max(at(2, four.near[2]).max(Vec4::ZERO));
    let beyond =
        at(0, four.near[0] ^ 1).min(at(1, four.near[1] ^ 1)).min(at(2, four.near[2] ^ 1).min(Vec4::splat(far)));
    let mut mask = near.cmple(beyond * SLACK).bitmask();
    if mask == 0 {
        return None;
    }
    let near = near.to_array();
    let mut pick = || {
        let i = mask.trailing_zeros() as usize & 3;
        mask &= mask - 1;
        ((node.branches[i], near[i]), mask != 0)
    };
    let (mut nearest, mut is_more) = pick();
    let start = waiting.n;
    while is_more {
        let (mut other, more) = pick();
        is_more = more;
        if other.1 < nearest.1 {
            std::mem::swap(&mut other, &mut nearest);
        }
        waiting.push(other);
        if !ANY {
            waiting.settle(start);
        }
    }
    Some(nearest)
}
