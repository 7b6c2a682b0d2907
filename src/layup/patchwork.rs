//! Which patch is which: connected regions of the field above its cut, on a lattice of its own in mm. Every place of
//! the layout belongs to its nearest patch, so that a patch's soft edge and stray dust travel with it.

use super::patch_fall::PatchFall;
use crate::base::scalar::floor;

/// Distance of the lattice's points, mm. A neck narrower than that may part two patches.
pub(super) const PITCH: f32 = 1.0;

/// No patch.
pub(super) const NONE: u32 = 0;

/// The patches of a layout, numbered from 1.
#[derive(Debug)]
pub(super) struct Patchwork {
    half: i32,
    side: i32,
    inside: Vec<f32>,
    patch: Vec<u32>,
    nearest: Vec<u32>,
    /// What each patch covers, and what lies nearest to it; the first stands for no patch.
    pub(super) covers: Vec<Bounds>,
    pub(super) holds: Vec<Bounds>,
}

/// The points of the lattice that something lies on, first and last, counted from the middle.
#[derive(Clone, Copy, Debug)]
pub(super) struct Bounds {
    pub(super) columns: (i32, i32),
    pub(super) rows: (i32, i32),
}

impl Bounds {
    const EMPTY: Self = Self { columns: (i32::MAX, i32::MIN), rows: (i32::MAX, i32::MIN) };

    fn include(&mut self, i: i32, j: i32) {
        self.columns = (self.columns.0.min(i), self.columns.1.max(i));
        self.rows = (self.rows.0.min(j), self.rows.1.max(j));
    }

    /// Whether a place lies within, a point's own cell included.
    #[inline]
    pub(super) fn hold(&self, u: f32, v: f32) -> bool {
        let within = |x: f32, (first, last): (i32, i32)| {
            x >= (first as f32 - 0.5) * PITCH && x <= (last as f32 + 0.5) * PITCH
        };
        within(u, self.columns) && within(v, self.rows)
    }
}

impl Patchwork {
    pub(super) fn new(fall: &PatchFall) -> Self {
        let half = (fall.reach / PITCH) as i32 + 1;
        let side = 2 * half + 1;
        let mut inside = Vec::with_capacity((side * side) as usize);
        for j in -half..=half {
            for i in -half..=half {
                inside.push(fall.inside_reach(i as f32 * PITCH, j as f32 * PITCH));
            }
        }
        let (patch, count) = number_regions(&inside, side as usize);
        let nearest = nearest_patches(&patch, side);
        let bounds = |of: &[u32]| {
            let mut all = vec![Bounds::EMPTY; count as usize + 1];
            for (at, patch) in (0..).zip(of) {
                all[*patch as usize].include(at % side - half, at / side - half);
            }
            all
        };
        let (covers, holds) = (bounds(&patch), bounds(&nearest));
        Self { half, side, inside, patch, nearest, covers, holds }
    }

    /// The patch that a place belongs to: the nearest one.
    #[inline]
    pub(super) fn nearest_to(&self, u: f32, v: f32) -> u32 {
        let (i, j) = (floor(u / PITCH + 0.5), floor(v / PITCH + 0.5));
        if i.abs() > self.half || j.abs() > self.half { NONE } else { self.nearest[self.at(i, j)] }
    }

    /// The patch on a point of the lattice, and how far within an outline the point lies, mm.
    pub(super) fn point(&self, i: i32, j: i32) -> (u32, f32) {
        let at = self.at(i, j);
        (self.patch[at], self.inside[at])
    }

    fn at(&self, i: i32, j: i32) -> usize {
        ((j + self.half) * self.side + i + self.half) as usize
    }
}

/// Numbers the regions of points inside an outline from 1 on; neighbors are those along rows and columns. The border
/// of the lattice is never inside, by how far the field reaches.
fn number_regions(inside: &[f32], side: usize) -> (Vec<u32>, u32) {
    let mut patch = vec![NONE; inside.len()];
    let mut count = 0;
    let mut open = Vec::new();
    for start in 0..inside.len() {
        let new = patch[start] == NONE && inside[start] > 0.0;
        if !new {
            continue;
        }
        count += 1;
        patch[start] = count;
        open.push(start);
        while let Some(at) = open.pop() {
            for next in [at - 1, at + 1, at - side, at + side] {
                if patch[next] == NONE && inside[next] > 0.0 {
                    patch[next] = count;
                    open.push(next);
                }
            }
        }
    }
    (patch, count)
}

/// The patch nearest to each point: places of patches are handed on from neighbor to neighbor in two sweeps.
fn nearest_patches(patch: &[u32], side: i32) -> Vec<u32> {
    const FAR: u32 = u32::MAX;
    let mut from: Vec<u32> =
        (0..).zip(patch).map(|(at, patch)| if *patch == NONE { FAR } else { at }).collect();
    let squared = |i: i32, j: i32, from: u32| {
        let (di, dj) = (from as i32 % side - i, from as i32 / side - j);
        di * di + dj * dj
    };
    let take = |from: &mut [u32], i: i32, j: i32, (di, dj): (i32, i32)| {
        let (x, y) = (i + di, j + dj);
        if x < 0 || y < 0 || x >= side || y >= side {
            return;
        }
        let (here, there) = ((j * side + i) as usize, from[(y * side + x) as usize]);
        if there != FAR && (from[here] == FAR || squared(i, j, there) < squared(i, j, from[here])) {
            from[here] = there;
        }
    };
    for j in 0..side {
        for i in 0..side {
            for way in [(-1, 0), (-1, -1), (0, -1), (1, -1)] {
                take(&mut from, i, j, way);
            }
        }
        (0..side).rev().for_each(|i| take(&mut from, i, j, (1, 0)));
    }
    for j in (0..side).rev() {
        for i in (0..side).rev() {
            for way in [(1, 0), (1, 1), (0, 1), (-1, 1)] {
                take(&mut from, i, j, way);
            }
        }
        (0..side).for_each(|i| take(&mut from, i, j, (-1, 0)));
    }
    from.into_iter().map(|at| if at == FAR { NONE } else { patch[at as usize] }).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_point_goes_to_its_nearest_patch() {
        let side = 40;
        let patch: Vec<u32> = (0..side * side)
            .map(|at| match (at % side, at / side) {
                (3..=9, 5..=7) => 1,
                (30, 30) => 2,
                (20..=22, 4) => 3,
                _ => NONE,
            })
            .collect();
        let nearest = nearest_patches(&patch, side);
        for (at, found) in (0..).zip(&nearest) {
            let (i, j) = (at % side, at / side);
            let distance = |of: u32| {
                (0..).zip(&patch).filter(move |(_, patch)| **patch == of).map(move |(k, _): (i32, _)| {
                    let (di, dj) = (k % side - i, k / side - j);
                    di * di + dj * dj
                })
            };
            let least = (1..=3).flat_map(distance).min();
            assert_eq!(distance(*found).min(), least, "at {i}, {j}");
        }
    }
}
