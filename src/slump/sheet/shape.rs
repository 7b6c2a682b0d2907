//! Where a sheet is: the middle of the glass as rings, and the glass between each two of them, which never changes its volume.

use crate::slump::mold::Point;
use std::f64::consts::PI;

/// The glass between two rings.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Element {
    /// Its volume, mm³: it stays.
    pub volume: f64,
    /// Length along the section, mm.
    pub length: f64,
    /// Cosine and sine of its slope: how far it goes outward and up for each mm.
    pub along: Point,
    /// Area of its middle, mm².
    pub area: f64,
    /// Thickness, mm: volume over area.
    pub thickness: f64,
}

/// A sheet at one moment.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Shape {
    /// The rings, from the axis outward.
    pub nodes: Vec<Point>,
    /// The glass between them: one fewer.
    pub elements: Vec<Element>,
    /// The volume nearer to each ring than to its neighbors, on the flat disc, mm³.
    pub carried: Vec<f64>,
}

impl Shape {
    /// A sheet of even thickness, mm, with its rings at these points, of which the first lies on the axis.
    pub fn new(nodes: Vec<Point>, thickness: f64) -> Self {
        let mut elements = Vec::with_capacity(nodes.len());
        let mut carried = vec![0.0; nodes.len()];
        for (i, pair) in nodes.windows(2).enumerate() {
            let (a, b) = (pair[0], pair[1]);
            let volume = thickness * frustum(a, b);
            elements.push(Element { volume, ..Element::default() });
            // Half way along, the ring has swept this share.
            let inner = (3.0 * a.0 + b.0) / (4.0 * (a.0 + b.0));
            carried[i] += inner * volume;
            carried[i + 1] += (1.0 - inner) * volume;
        }
        let mut shape = Self { nodes, elements, carried };
        shape.measure();
        shape
    }

    /// A flat disc at height 0 of rings at even distances: its radius and thickness in mm.
    pub fn flat(radius: f64, thickness: f64, elements: usize) -> Self {
        let ring = |i| (radius * i as f64 / elements as f64, 0.0);
        Self::new((0..=elements).map(ring).collect(), thickness)
    }

    /// Lengths, slopes, areas and thicknesses of where the rings are now.
    pub fn measure(&mut self) {
        for (element, pair) in self.elements.iter_mut().zip(self.nodes.windows(2)) {
            let (a, b) = (pair[0], pair[1]);
            let (dr, dz) = (b.0 - a.0, b.1 - a.1);
            let length = (dr * dr + dz * dz).sqrt();
            element.length = length;
            element.along = (dr / length, dz / length);
            element.area = PI * (a.0 + b.0) * length;
            element.thickness = element.volume / element.area;
        }
    }

    /// Moves every ring by its velocity (outward and up, ring after ring) for so long, and measures.
    pub fn go(&mut self, velocity: &[f64], time: f64) {
        for (node, v) in self.nodes.iter_mut().zip(velocity.as_chunks::<2>().0) {
            node.0 += time * v[0];
            node.1 += time * v[1];
        }
        self.measure();
    }

    /// Thickness at a ring, mm: the mean of the glass on both sides.
    pub fn thickness(&self, node: usize) -> f64 {
        let inner = self.elements[node.saturating_sub(1)].thickness;
        let outer = self.elements[node.min(self.elements.len() - 1)].thickness;
        0.5 * (inner + outer)
    }
}

/// Area of the band that a stretch of a section sweeps about the axis.
fn frustum(a: Point, b: Point) -> f64 {
    let (dr, dz) = (b.0 - a.0, b.1 - a.1);
    PI * (a.0 + b.0) * (dr * dr + dz * dz).sqrt()
}
