//! From a distance field to triangles: surface nets, one corner in every cell that the surface crosses (after S. Gibson, Constrained
//! Elastic Surface Nets, MICCAI 1998, without the relaxation), on a grid that is coarser toward the elbow. Millimetres of the model arm.

use crate::light::Vec3;

/// Nodes a side of the blocks that are looked at as a whole first.
const BLOCK: usize = 4;

/// The nodes of a grid.
pub(super) struct Cells {
    axes: [Vec<f32>; 3],
}

/// Which way the direction of steepest rise points, of length 1; +z where there is none.
pub(in crate::model) fn gradient(p: Vec3, step: f32, distance: impl Fn(Vec3) -> f32) -> Vec3 {
    const CORNERS: [Vec3; 4] =
        [Vec3::new(1.0, -1.0, -1.0), Vec3::new(-1.0, -1.0, 1.0), Vec3::new(-1.0, 1.0, -1.0), Vec3::new(1.0, 1.0, 1.0)];
    CORNERS.iter().map(|corner| *corner * distance(p + *corner * step)).sum::<Vec3>().normalize_or(Vec3::Z)
}

impl Cells {
    /// A grid over a box with cells of this size, up to 2.2 times as long in y beyond `coarse_from`.
    pub(super) fn of((low, high): (Vec3, Vec3), cell: f32, coarse_from: f32) -> Self {
        let even = |from: f32, to: f32| -> Vec<f32> {
            let n = ((to - from) / cell) as usize + 2;
            (0..n).map(|i| from + i as f32 * cell).collect()
        };
        let mut along = vec![low.y];
        let mut y = low.y;
        while y < high.y {
            y += cell * (1.0 + 1.2 * ((y - coarse_from) / 40.0).clamp(0.0, 1.0));
            along.push(y);
        }
        Self { axes: [even(low.x, high.x), along, even(low.z, high.z)] }
    }

    fn sizes(&self) -> [usize; 3] {
        [0, 1, 2].map(|axis| self.axes[axis].len())
    }

    fn at(&self, [i, j, k]: [usize; 3]) -> Vec3 {
        Vec3::new(self.axes[0][i], self.axes[1][j], self.axes[2][k])
    }

    fn index(&self, [i, j, k]: [usize; 3]) -> usize {
        let [nx, ny, _] = self.sizes();
        (k * ny + j) * nx + i
    }

    /// The surface where the distance is nought: corners and triangles, seen counter-clockwise from outside.
    pub(super) fn surface(&self, distance: impl Fn(Vec3) -> f32) -> (Vec<Vec3>, Vec<[u32; 3]>) {
        let values = self.values(distance);
        let [nx, ny, nz] = self.sizes();
        let mut corner_of = vec![u32::MAX; values.len()];
        let mut points = Vec::new();
        let mut triangles = Vec::new();
        for k in 0..nz - 1 {
            for j in 0..ny - 1 {
                for i in 0..nx - 1 {
                    if let Some(point) = self.crossed(&values, [i, j, k]) {
                        corner_of[self.index([i, j, k])] = points.len() as u32;
                        points.push(point);
                        self.join(&values, &corner_of, [i, j, k], &mut triangles);
                    }
                }
            }
        }
        (points, triangles)
    }

    /// Distances at the nodes; far from the surface only their sign is right.
    fn values(&self, distance: impl Fn(Vec3) -> f32) -> Vec<f32> {
        let sizes = self.sizes();
        let mut values = vec![0.0; sizes.iter().product()];
        let [bx, by, bz] = sizes.map(|n| n.div_ceil(BLOCK));
        for block in 0..bx * by * bz {
            let from = [block % bx, block / bx % by, block / (bx * by)].map(|b| b * BLOCK);
            let to = [0, 1, 2].map(|axis| (from[axis] + BLOCK).min(sizes[axis]));
            // One node farther all round, so that no cell between two blocks is missed.
            let low = self.at(from.map(|n| n.saturating_sub(1)));
            let high = self.at([0, 1, 2].map(|axis| to[axis].min(sizes[axis] - 1)));
            let middle = distance((low + high) * 0.5);
            let is_far = middle.abs() > low.distance(high) * 0.5 + 1.5;
            for k in from[2]..to[2] {
                for j in from[1]..to[1] {
                    for i in from[0]..to[0] {
                        let node = [i, j, k];
                        values[self.index(node)] = if is_far { middle } else { distance(self.at(node)) };
                    }
                }
            }
        }
        values
    }

    /// The middle of where the surface crosses the edges of a cell, if it does.
    fn crossed(&self, values: &[f32], [i, j, k]: [usize; 3]) -> Option<Vec3> {
        let nodes: [[usize; 3]; 8] = std::array::from_fn(|c| [i + (c & 1), j + (c >> 1 & 1), k + (c >> 2)]);
        let of: [f32; 8] = nodes.map(|node| values[self.index(node)]);
        let n_inside = of.iter().filter(|value| **value < 0.0).count();
        if n_inside == 0 || n_inside == 8 {
            return None;
        }
        let (mut sum, mut count) = (Vec3::ZERO, 0.0);
        for axis in 0..3 {
            for one in (0..8).filter(|c| c >> axis & 1 == 0) {
                let other = one | 1 << axis;
                if (of[one] < 0.0) != (of[other] < 0.0) {
                    sum += self.at(nodes[one]).lerp(self.at(nodes[other]), of[one] / (of[one] - of[other]));
                    count += 1.0;
                }
            }
        }
        Some(sum / count)
    }

    /// Two triangles round each edge from this cell's first node that the surface crosses; all cells round it have their corners by now.
    fn join(&self, values: &[f32], corner_of: &[u32], cell: [usize; 3], triangles: &mut Vec<[u32; 3]>) {
        let is_inside = values[self.index(cell)] < 0.0;
        for axis in 0..3 {
            let (one, other) = ((axis + 1) % 3, (axis + 2) % 3);
            if cell[one] == 0 || cell[other] == 0 {
                continue;
            }
            let mut next = cell;
            next[axis] += 1;
            if (values[self.index(next)] < 0.0) == is_inside {
                continue;
            }
            let corner = |back_one: usize, back_other: usize| {
                let mut at = cell;
                at[one] -= back_one;
                at[other] -= back_other;
                corner_of[self.index(at)]
            };
            let mut quad = [corner(0, 0), corner(1, 0), corner(1, 1), corner(0, 1)];
            if quad.contains(&u32::MAX) {
                continue;
            }
            if !is_inside {
                quad.reverse();
            }
            triangles.extend([[quad[0], quad[1], quad[2]], [quad[0], quad[2], quad[3]]]);
        }
    }
}
