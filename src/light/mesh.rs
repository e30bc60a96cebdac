//! Surfaces made of triangles, with colour and gloss at every corner.

use super::{Affine3A, Material, Vec2, Vec3};

/// Surfaces made of triangles. Every corner has a point, a normal, a tangent and a colour of its own.
#[derive(Clone, Debug, Default)]
pub struct Mesh {
    /// Places, mm.
    pub points: Vec<Vec3>,
    /// Directions away from the surface, of length 1.
    pub normals: Vec<Vec3>,
    /// Along the grain of the surface, of length 1 or nought: threads of satin, ribs, veins.
    pub tangents: Vec<Vec3>,
    /// Share of light given back, per colour, 0 to 1.
    pub tints: Vec<Vec3>,
    /// Places on the surface laid flat, mm: across, and along the tangent. For weaves, which follow them; empty or short where there
    /// are none.
    pub flat: Vec<Vec2>,
    /// Corners of each triangle.
    pub triangles: Vec<[u32; 3]>,
    /// Place in `materials` of each triangle.
    pub kinds: Vec<u16>,
    /// What the surfaces are made of.
    pub materials: Vec<Material>,
}

/// How a rectangle of corners is laid: `across` x `along` quads.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct MeshGrid {
    /// Quads from u = 0 to u = 1.
    pub across: u32,
    /// Quads from v = 0 to v = 1.
    pub along: u32,
    /// Whether u = 1 meets u = 0, as round a tube.
    pub is_round: bool,
}

impl MeshGrid {
    /// An open sheet.
    pub const fn sheet(across: u32, along: u32) -> Self {
        Self { across, along, is_round: false }
    }

    /// A tube, closed across.
    pub const fn tube(across: u32, along: u32) -> Self {
        Self { across, along, is_round: true }
    }
}

impl Mesh {
    /// A sheet or tube of one material: `at` gives the point of (u, v), `tint` its colour. Normals point along du x dv; tangents along v.
    pub fn of_grid(
        grid: MeshGrid,
        material: Material,
        at: impl Fn(f32, f32) -> Vec3,
        tint: impl Fn(f32, f32) -> Vec3,
    ) -> Self {
        let mut mesh = Self { materials: vec![material], ..Self::default() };
        let row = grid.across as usize + 1;
        let share = |i: u32, n: u32| i as f32 / n.max(1) as f32;
        for j in 0..=grid.along {
            for i in 0..=grid.across {
                let (u, v) = (share(i, grid.across), share(j, grid.along));
                mesh.points.push(at(u, v));
                mesh.tints.push(tint(u, v));
            }
        }
        for j in 0..grid.along as usize {
            for i in 0..grid.across as usize {
                let corner = |di: usize, dj: usize| ((j + dj) * row + i + di) as u32;
                mesh.triangles.push([corner(0, 0), corner(1, 0), corner(1, 1)]);
                mesh.triangles.push([corner(0, 0), corner(1, 1), corner(0, 1)]);
            }
        }
        mesh.kinds = vec![0; mesh.triangles.len()];
        mesh.smooth(grid);
        mesh.lay_flat(grid);
        mesh
    }

    /// Lays a grid flat by the lengths of its lines: across from the middle, along from v = 0.
    fn lay_flat(&mut self, grid: MeshGrid) {
        let columns = grid.across as usize + 1;
        let middle = columns / 2;
        let step = |a: usize, b: usize| self.points[a].distance(self.points[b]);
        let mut flat = vec![Vec2::ZERO; self.points.len()];
        for index in 0..flat.len() {
            if index % columns > 0 {
                flat[index].x = flat[index - 1].x + step(index, index - 1);
            }
            if index >= columns {
                flat[index].y = flat[index - columns].y + step(index, index - columns);
            }
        }
        for row in flat.chunks_mut(columns) {
            let half = row.get(middle).map_or(0.0, |at| at.x);
            for at in row {
                at.x -= half;
            }
        }
        self.flat = flat;
    }

    /// Normals and tangents of a grid from its neighbouring corners; where it comes to a point, from the triangles there.
    fn smooth(&mut self, grid: MeshGrid) {
        let (columns, rows) = (grid.across as usize + 1, grid.along as usize + 1);
        let mut sums = vec![Vec3::ZERO; self.points.len()];
        for triangle in &self.triangles {
            let [a, b, c] = triangle.map(|i| self.points[i as usize]);
            for i in triangle {
                sums[*i as usize] += (b - a).cross(c - a);
            }
        }
        if grid.is_round {
            for j in 0..rows {
                let (first, last) = (j * columns, j * columns + columns - 1);
                let both = sums[first] + sums[last];
                (sums[first], sums[last]) = (both, both);
            }
        }
        // An end that is one point has one normal.
        for row in [0, rows - 1] {
            let range = row * columns..(row + 1) * columns;
            let here = &self.points[range.clone()];
            if here.iter().all(|p| p.distance_squared(here[0]) < 1e-8) {
                let whole: Vec3 = sums[range.clone()].iter().sum();
                sums[range].fill(whole);
            }
        }
        self.normals = sums.iter().map(|n| n.normalize_or(Vec3::Z)).collect();
        self.tangents = (0..self.points.len())
            .map(|index| {
                let (i, j) = (index % columns, index / columns);
                let (before, after) = (j.saturating_sub(1), (j + 1).min(rows - 1));
                let along = self.points[after * columns + i] - self.points[before * columns + i];
                (along - self.normals[index] * along.dot(self.normals[index])).normalize_or_zero()
            })
            .collect();
    }

    /// Adds another mesh to this one.
    pub fn append(&mut self, other: &Self) {
        let first = self.points.len() as u32;
        let mut kinds: Vec<u16> = Vec::with_capacity(other.materials.len());
        for material in &other.materials {
            let known = self.materials.iter().position(|m| m == material).unwrap_or_else(|| {
                self.materials.push(*material);
                self.materials.len() - 1
            });
            kinds.push(known as u16);
        }
        self.flat.resize(self.points.len(), Vec2::ZERO);
        self.flat.extend_from_slice(&other.flat);
        self.points.extend_from_slice(&other.points);
        self.flat.resize(self.points.len(), Vec2::ZERO);
        self.normals.extend_from_slice(&other.normals);
        self.tangents.extend_from_slice(&other.tangents);
        self.tints.extend_from_slice(&other.tints);
        self.triangles.extend(other.triangles.iter().map(|t| t.map(|i| i + first)));
        self.kinds.extend(other.kinds.iter().map(|kind| kinds[usize::from(*kind)]));
    }

    /// Adds another mesh, turned, sized and placed.
    pub fn append_at(&mut self, other: &Self, place: Affine3A) {
        let mut moved = other.clone();
        moved.place(place);
        self.append(&moved);
    }

    /// Turns, sizes and places it; size is the same in all directions.
    pub fn place(&mut self, place: Affine3A) {
        for point in &mut self.points {
            *point = place.transform_point3(*point);
        }
        for direction in self.normals.iter_mut().chain(&mut self.tangents) {
            *direction = place.transform_vector3(*direction).normalize_or_zero();
        }
        let size = place.matrix3.x_axis.length();
        for flat in &mut self.flat {
            *flat *= size;
        }
    }

    /// The least and the largest coordinates, mm; `None` of nothing.
    pub fn bounds(&self) -> Option<(Vec3, Vec3)> {
        let first = *self.points.first()?;
        Some(self.points.iter().fold((first, first), |(low, high), p| (low.min(*p), high.max(*p))))
    }
}
