//! How a sheet resists: the equations for the velocities of its rings.
//!
//! Unknown 2 i is how fast ring i goes outward, 2 i + 1 how fast it rises, in mm for each unit of reduced time.

use super::band::{Band, Singular};
use super::shape::{Element, Shape};

/// The equations of one moment, and their answer.
#[derive(Clone, Debug, Default)]
pub struct Resistance {
    /// Stretching and bending.
    glass: Band,
    /// The same with what the mold adds, factored.
    whole: Band,
    /// Weight, and what else pushes.
    load: Vec<f64>,
    /// The answer: the velocities.
    velocity: Vec<f64>,
    /// Force along the section of each stretch of glass, for each mm across, in units of rho g a: 0 where it is pressed.
    tension: Vec<f64>,
}

/// How fast a stretch of glass stretches along and around, and turns, as sums of the velocities of its two rings.
struct Rates {
    along: [f64; 4],
    around: [f64; 4],
    turn: [f64; 4],
}

impl Rates {
    fn of(element: &Element, (inner, outer): (f64, f64)) -> Self {
        let (c, s) = (element.along.0 / element.length, element.along.1 / element.length);
        let ring = 1.0 / (inner + outer);
        Self { along: [-c, -s, c, s], around: [ring, 0.0, ring, 0.0], turn: [s, -c, -s, c] }
    }
}

impl Resistance {
    /// Sets the equations up for a sheet that moves on for `time`, with no load yet.
    ///
    /// A stretch that is pulled straightens on the way: without that, which is what `time` is for, thin glass would flutter.
    pub fn set_up(&mut self, shape: &Shape, time: f64) {
        let unknowns = 2 * shape.nodes.len();
        self.glass.clear(unknowns);
        self.load.clear();
        self.load.resize(unknowns, 0.0);
        self.tension.resize(shape.elements.len(), 0.0);
        self.stretch(shape, time);
        self.bend(shape);
        // Nothing leaves the axis.
        self.hold(0);
    }

    fn stretch(&mut self, shape: &Shape, time: f64) {
        for (i, element) in shape.elements.iter().enumerate() {
            let rates = Rates::of(element, (shape.nodes[i].0, shape.nodes[i + 1].0));
            // e_s² + e_s e_t + e_t² is a sum of two squares.
            self.glass.add(2 * i, 4.0 * element.volume, &sum(&rates.along, 0.5, &rates.around));
            self.glass.add(2 * i, 3.0 * element.volume, &rates.around);
            self.glass.add(2 * i, time * self.tension[i] * element.area, &rates.turn);
        }
    }

    fn bend(&mut self, shape: &Shape) {
        let last = shape.elements.len();
        for i in 0..=last {
            let stiffness = shape.thickness(i) * shape.thickness(i) / 6.0 * shape.carried[i];
            if i == 0 {
                // At the crown both curvatures are the same.
                let rates = Rates::of(&shape.elements[0], (shape.nodes[0].0, shape.nodes[1].0));
                let k = 2.0 / shape.elements[0].length;
                self.glass.add(0, 6.0 * stiffness, &rates.turn.map(|t| k * t));
            } else if i == last {
                // The rim is free: no moment along the section, and the curvature that gives none.
                let outer = &shape.elements[last - 1];
                let rates = Rates::of(outer, (shape.nodes[last - 1].0, shape.nodes[last].0));
                let k = outer.along.0 / shape.nodes[last].0;
                self.glass.add(2 * (last - 1), 1.5 * stiffness, &rates.turn.map(|t| k * t));
            } else {
                self.bend_at(shape, i, stiffness);
            }
        }
    }

    fn bend_at(&mut self, shape: &Shape, i: usize, stiffness: f64) {
        let (before, after) = (&shape.elements[i - 1], &shape.elements[i]);
        let inner = Rates::of(before, (shape.nodes[i - 1].0, shape.nodes[i].0)).turn;
        let outer = Rates::of(after, (shape.nodes[i].0, shape.nodes[i + 1].0)).turn;
        let per_length = 2.0 / (before.length + after.length);
        let per_ring = 0.25 * (before.along.0 + after.along.0) / shape.nodes[i].0;
        let mut along = [0.0; 6];
        let mut around = [0.0; 6];
        for k in 0..4 {
            along[k] -= per_length * inner[k];
            along[k + 2] += per_length * outer[k];
            around[k] += per_ring * inner[k];
            around[k + 2] += per_ring * outer[k];
        }
        self.glass.add(2 * (i - 1), 2.0 * stiffness, &sum(&along, 0.5, &around));
        self.glass.add(2 * (i - 1), 1.5 * stiffness, &around);
    }

    /// Lets an unknown be zero.
    pub fn hold(&mut self, unknown: usize) {
        self.glass.hold(unknown);
        self.load[unknown] = 0.0;
    }

    /// Pushes a ring outward and up, in units of rho g a mm².
    pub fn push(&mut self, node: usize, outward: f64, up: f64) {
        if node > 0 {
            self.load[2 * node] += outward;
        }
        self.load[2 * node + 1] += up;
    }

    /// Loads every ring with its share of the glass, which weighs so much for each mm³ (one over a, on Earth).
    pub fn weigh(&mut self, shape: &Shape, weight: f64) {
        for (i, volume) in shape.carried.iter().enumerate() {
            self.push(i, 0.0, -weight * volume);
        }
    }

    /// Slows every ring's rise and fall by so much for each mm³ of its glass.
    pub fn drag(&mut self, shape: &Shape, drag: f64) {
        for (i, volume) in shape.carried.iter().enumerate() {
            self.glass.add(2 * i + 1, drag * volume, &[1.0]);
        }
    }

    /// Begins an attempt: the glass and its load alone.
    pub fn begin(&mut self) {
        self.whole.copy(&self.glass);
        self.velocity.clone_from(&self.load);
    }

    /// Adds to an attempt what resists a ring's going along a direction, and what pushes it that way.
    pub fn resist(&mut self, node: usize, direction: (f64, f64), resistance: f64, push: f64) {
        // Nothing leaves the axis.
        let outward = if node > 0 { direction.0 } else { 0.0 };
        self.whole.add(2 * node, resistance, &[outward, direction.1]);
        self.velocity[2 * node] += push * outward;
        self.velocity[2 * node + 1] += push * direction.1;
    }

    /// Ends an attempt: the velocities.
    ///
    /// # Errors
    /// If nothing holds the sheet.
    pub fn solve(&mut self) -> Result<&[f64], Singular> {
        self.whole.factor()?;
        self.whole.solve(&mut self.velocity);
        Ok(&self.velocity)
    }

    /// The velocities found last.
    pub fn velocity(&self) -> &[f64] {
        &self.velocity
    }

    /// How fast glass stretches at most, along or around, and turns, by the velocities found last.
    pub fn rates(&self, shape: &Shape) -> (f64, f64) {
        let (mut stretch, mut turn) = (0.0f64, 0.0f64);
        for (rates, v) in self.by_element(shape) {
            stretch = stretch.max(dot(&rates.along, v).abs()).max(dot(&rates.around, v).abs());
            turn = turn.max(dot(&rates.turn, v).abs());
        }
        (stretch, turn)
    }

    /// Takes the tension that the velocities found last give for that of the next moment.
    pub fn pull(&mut self, shape: &Shape) {
        let mut tension = std::mem::take(&mut self.tension);
        for ((rates, v), (into, element)) in
            self.by_element(shape).zip(tension.iter_mut().zip(&shape.elements))
        {
            let force = 2.0 * element.thickness * (2.0 * dot(&rates.along, v) + dot(&rates.around, v));
            *into = force.max(0.0);
        }
        self.tension = tension;
    }

    /// The rates of each stretch of glass with the velocities of its two rings.
    fn by_element(&self, shape: &Shape) -> impl Iterator<Item = (Rates, &[f64])> {
        shape.elements.iter().enumerate().map(|(i, element)| {
            let rates = Rates::of(element, (shape.nodes[i].0, shape.nodes[i + 1].0));
            (rates, &self.velocity[2 * i..2 * i + 4])
        })
    }
}

/// `a + k b`.
fn sum<const N: usize>(a: &[f64; N], k: f64, b: &[f64; N]) -> [f64; N] {
    std::array::from_fn(|i| a[i] + k * b[i])
}

fn dot(a: &[f64; 4], v: &[f64]) -> f64 {
    a.iter().zip(v).map(|(a, v)| a * v).sum()
}
