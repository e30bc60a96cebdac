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
    let mut order: Vec<usize> = (0..bounds.len()).collect();
    order.sort_by(|&left, &right| bounds[left].x0.total_cmp(&bounds[right].x0));
    let mut pairs = Vec::new();
    let mut open: Vec<usize> = Vec::new();
    for &index in &order {
        let own = bounds[index];
        open.retain(|&other| bounds[other].x1 > own.x0);
        for &other in &open {
            if bounds[other].y0 < own.y1 && own.y0 < bounds[other].y1 {
                pairs.push((index.min(other), index.max(other)));
            }
        }
        open.push(index);
    }
    pairs.sort_unstable();
    pairs
}

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
