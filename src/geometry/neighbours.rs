//! Who may touch whom: lists of boxes that overlap, found by sorting along x and sweeping.
//!
//! Knows upright boxes in mm. Near-linear for pieces spread over the plane, against the square of scanning all pairs.

use kurbo::Rect;

/// For each of several boxes the others that overlap it, in order of index.
#[derive(Debug)]
pub(super) struct Neighbours {
    starts: Vec<usize>,
    list: Vec<usize>,
}

impl Neighbours {
    /// Finds them.
    pub(super) fn of(bounds: &[Rect]) -> Self {
        let pairs = overlapping_pairs(bounds);
        let mut starts = vec![0; bounds.len() + 1];
        for &(first, second) in &pairs {
            starts[first + 1] += 1;
            starts[second + 1] += 1;
        }
        for index in 0..bounds.len() {
            starts[index + 1] += starts[index];
        }
        let mut free = starts.clone();
        let mut list = vec![0; pairs.len() * 2];
        // The pairs are in order, so each list comes out sorted: first the lower indices, then the higher.
        for &(first, second) in &pairs {
            list[free[second]] = first;
            free[second] += 1;
        }
        for &(first, second) in &pairs {
            list[free[first]] = second;
            free[first] += 1;
        }
        Self { starts, list }
    }

    /// The neighbours of one box.
    pub(super) fn at(&self, index: usize) -> &[usize] {
        &self.list[self.starts[index]..self.starts[index + 1]]
    }
}

/// All pairs (lower index, higher index) of boxes that overlap, sorted.
pub(super) fn overlapping_pairs(bounds: &[Rect]) -> Vec<(usize, usize)> {
    let mut order: Vec<(f64, usize)> = bounds.iter().enumerate().map(|(index, own)| (own.x0, index)).collect();
    order.sort_unstable_by(|left, right| left.0.total_cmp(&right.0));
    let mut pairs = Vec::with_capacity(USUAL_NEIGHBOURS * bounds.len());
    let mut open: Vec<(usize, Rect)> = Vec::with_capacity(bounds.len());
    for &(_, index) in &order {
        let own = bounds[index];
        open.retain(|(_, other)| other.x1 > own.x0);
        for (other, its) in &open {
            if its.y0 < own.y1 && own.y0 < its.y1 {
                pairs.push((index.min(*other), index.max(*other)));
            }
        }
        open.push((index, own));
    }
    // Counted into place, first by the one index and then by the other: it takes no comparison.
    let by_second = counted(&pairs, bounds.len(), |pair| pair.1);
    counted(&by_second, bounds.len(), |pair| pair.0)
}

/// Pairs in order of a key below `n_keys`, those of one key as they stood.
fn counted(pairs: &[(usize, usize)], n_keys: usize, key: impl Fn(&(usize, usize)) -> usize) -> Vec<(usize, usize)> {
    let mut free = vec![0; n_keys + 1];
    for pair in pairs {
        free[key(pair) + 1] += 1;
    }
    for index in 0..n_keys {
        free[index + 1] += free[index];
    }
    let mut sorted = vec![(0, 0); pairs.len()];
    for pair in pairs {
        sorted[free[key(pair)]] = *pair;
        free[key(pair)] += 1;
    }
    sorted
}

/// Neighbours that a part of a full piece has with a higher number: room for them is made at once.
const USUAL_NEIGHBOURS: usize = 6;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_sweep_finds_what_the_scan_finds() {
        let boxes: Vec<Rect> = (0..60)
            .map(|index| {
                let (x, y) = (f64::from(index * 37 % 61), f64::from(index * 23 % 59));
                Rect::new(x, y, x + 0.5 + f64::from(index % 9), y + 0.5 + f64::from(index % 7))
            })
            .collect();
        let mut expected = Vec::new();
        for first in 0..boxes.len() {
            for second in first + 1..boxes.len() {
                let (p, q) = (boxes[first], boxes[second]);
                if p.x0 < q.x1 && q.x0 < p.x1 && p.y0 < q.y1 && q.y0 < p.y1 {
                    expected.push((first, second));
                }
            }
        }
        assert_eq!(overlapping_pairs(&boxes), expected);
        let near = Neighbours::of(&boxes);
        for index in 0..boxes.len() {
            let list: Vec<usize> =
                (0..boxes.len()).filter(|&other| expected.contains(&(index.min(other), index.max(other)))).collect();
            assert_eq!(near.at(index), list);
        }
    }
}
