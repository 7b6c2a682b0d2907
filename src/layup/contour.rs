//! Outlines of where a table of numbers is above zero: marching squares. Points that touch only across a corner
//! count as apart, as they do when patches are numbered.

use crate::base::line::{needed, squared_distance};

/// A closed outline, the last point joined to the first. With y up, what it surrounds lies to its left.
pub type Outline = Vec<[f32; 2]>;

/// A table of numbers on the points of a lattice.
pub(super) struct Table {
    left: i32,
    bottom: i32,
    width: usize,
    height: usize,
    values: Vec<f32>,
}

impl Table {
    /// `value(i, j)` on these columns and rows (first and last) and one more on each side, which counts as outside.
    pub(super) fn new(columns: (i32, i32), rows: (i32, i32), value: impl Fn(i32, i32) -> f32) -> Self {
        let (left, bottom) = (columns.0 - 1, rows.0 - 1);
        let (width, height) = ((columns.1 - left + 2) as usize, (rows.1 - bottom + 2) as usize);
        let mut values = Vec::with_capacity(width * height);
        for j in 0..height {
            for i in 0..width {
                let value = value(left + i as i32, bottom + j as i32);
                let border = i == 0 || j == 0 || i + 1 == width || j + 1 == height;
                values.push(if border { -value.abs() } else { value });
            }
        }
        Self { left, bottom, width, height, values }
    }

    /// The point with the largest value.
    pub(super) fn highest(&self) -> (i32, i32) {
        let mut best = 0;
        for (at, value) in self.values.iter().enumerate() {
            if *value > self.values[best] {
                best = at;
            }
        }
        (self.left + (best % self.width) as i32, self.bottom + (best / self.width) as i32)
    }

    /// The outlines, in steps of the lattice.
    pub(super) fn outlines(&self) -> Vec<Outline> {
        let mut next = self.joints();
        let mut outlines = Vec::new();
        for start in 0..next.len() {
            let mut outline = Outline::new();
            let mut at = start;
            while next[at] != END {
                outline.push(self.crossing(at));
                at = std::mem::replace(&mut next[at], END) as usize;
            }
            if outline.len() > 2 {
                outlines.push(outline);
            }
        }
        outlines
    }

    /// For each edge between two points that an outline crosses, the edge it crosses next. Of a point's edges the
    /// one to its right has twice its number, the one upward one more.
    fn joints(&self) -> Vec<u32> {
        let mut next = vec![END; 2 * self.values.len()];
        for j in 0..self.height.saturating_sub(1) {
            for i in 0..self.width.saturating_sub(1) {
                let at = j * self.width + i;
                let corners = [at, at + 1, at + self.width + 1, at + self.width];
                let edges = [2 * at, 2 * (at + 1) + 1, 2 * (at + self.width), 2 * at + 1];
                let inside = corners.map(|corner| self.values[corner] > 0.0);
                for last in 0..4 {
                    if !inside[last] || inside[(last + 1) % 4] {
                        continue;
                    }
                    // Back around the square to where this run of inner corners began.
                    let mut first = last;
                    while inside[(first + 3) % 4] {
                        first = (first + 3) % 4;
                    }
                    next[edges[last]] = edges[(first + 3) % 4] as u32;
                }
            }
        }
        next
    }

    /// Where the outline crosses an edge.
    fn crossing(&self, edge: usize) -> [f32; 2] {
        let at = edge / 2;
        let upward = edge % 2 == 1;
        let (a, b) = (self.values[at], self.values[if upward { at + self.width } else { at + 1 }]);
        let share = a / (a - b);
        let share = if (0.0..=1.0).contains(&share) { share } else { 0.5 };
        let (x, y) =
            (self.left as f32 + (at % self.width) as f32, self.bottom as f32 + (at / self.width) as f32);
        if upward { [x, y + share] } else { [x + share, y] }
    }
}

const END: u32 = u32::MAX;

/// The area within outlines, holes taken off, and its middle.
pub(super) fn area_and_middle(outlines: &[Outline]) -> (f32, [f32; 2]) {
    let (mut area, mut x, mut y) = (0.0f64, 0.0f64, 0.0f64);
    for outline in outlines {
        let mut before = outline[outline.len() - 1].map(f64::from);
        for point in outline {
            let point = point.map(f64::from);
            let cross = before[0] * point[1] - point[0] * before[1];
            area += cross / 2.0;
            x += cross * (before[0] + point[0]) / 6.0;
            y += cross * (before[1] + point[1]) / 6.0;
            before = point;
        }
    }
    let middle = if area > 0.0 { [(x / area) as f32, (y / area) as f32] } else { [0.0; 2] };
    (area as f32, middle)
}

/// The outline with only the points it needs to stay within `tolerance` of what it was.
pub(super) fn simplified(outline: &Outline, tolerance: f32) -> Outline {
    let first = outline[0];
    let from_first = |at: usize| squared_distance(outline[at], first, first);
    let farthest =
        (1..outline.len()).fold(0, |far, at| if from_first(at) > from_first(far) { at } else { far });
    // There and back as two lines, or nothing would hold the ring open.
    let back: Outline = outline[farthest..].iter().copied().chain([first]).collect();
    let mut kept = needed(&outline[..=farthest], tolerance);
    kept.pop();
    kept.extend(needed(&back, tolerance));
    outline.iter().zip(kept).filter(|(_, kept)| *kept).map(|(point, _)| *point).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_ring_has_two_outlines_and_its_own_area() {
        let ring = Table::new((-20, 20), (-20, 20), |i, j| {
            let r = ((i * i + j * j) as f32).sqrt();
            5.0 - (r - 12.0).abs()
        });
        let outlines = ring.outlines();
        assert_eq!(outlines.len(), 2);
        let (area, middle) = area_and_middle(&outlines);
        let want = std::f32::consts::PI * (17.0 * 17.0 - 7.0 * 7.0);
        assert!((area / want - 1.0).abs() < 0.01, "{area} for {want}");
        assert!(middle[0].abs() < 0.01 && middle[1].abs() < 0.01);
        let fewer: Vec<Outline> = outlines.iter().map(|outline| simplified(outline, 0.15)).collect();
        let points = |of: &[Outline]| of.iter().map(Vec::len).sum::<usize>();
        assert!(points(&fewer) * 3 < points(&outlines), "{}", points(&fewer));
        assert!((area_and_middle(&fewer).0 / area - 1.0).abs() < 0.02);
    }

    #[test]
    fn corners_that_touch_are_apart() {
        let table = Table::new((0, 1), (0, 1), |i, j| if i == j { 1.0 } else { -1.0 });
        assert_eq!(table.outlines().len(), 2);
        let nothing = Table::new((0, -1), (0, -1), |_, _| f32::NAN);
        assert!(nothing.outlines().is_empty());
    }
}
