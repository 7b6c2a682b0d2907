//! A disc sinking into a mold, step by step.

use super::band::Singular;
use super::contact::Contact;
use super::resistance::Resistance;
use super::shape::Shape;
use crate::slump::profile::Profile;

/// Halvings of the height that the disc is laid down from: to a millionth of a nanometer.
const HALVINGS: usize = 60;
/// How often a step that went too far is tried anew.
const ATTEMPTS: usize = 4;
/// What a step may go too far and still be taken.
const SLACK: f64 = 1.25;
/// What the next step may be longer.
const GROWTH: f64 = 1.5;
/// Most that glass turns in a step, radians.
const TURN: f64 = 0.1;

/// Glass that nothing holds falls so many radii in each unit of reduced time: a trace of drag, so that the equations have an answer.
const FREE_FALL: f64 = 1e7;

/// How finely a slump is followed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fineness {
    /// Stretches of glass from the axis to the rim.
    pub elements: usize,
    /// Most that any ring moves in a step, as a share of the radius.
    pub stride: f64,
    /// Most that any stretch is strained in a step.
    pub strain: f64,
}

impl Default for Fineness {
    /// 64 stretches, and steps of a quarter of a millimeter for a disc of 150 mm.
    fn default() -> Self {
        Self { elements: 64, stride: 1.0 / 300.0, strain: 0.005 }
    }
}

impl Fineness {
    /// The nearest that can be followed: 4 to 512 stretches, steps of a millionth to a tenth.
    #[must_use]
    pub fn bounded(self) -> Self {
        // What is no number becomes the least.
        let share = |value: f64| if value > 1e-6 { value.min(0.1) } else { 1e-6 };
        let elements = self.elements.clamp(4, 512);
        Self { elements, stride: share(self.stride), strain: share(self.strain) }
    }
}

/// A disc on its way.
#[derive(Clone, Debug)]
pub struct Sinking {
    shape: Shape,
    contact: Contact,
    resistance: Resistance,
    /// The velocities of the step before.
    velocity: Vec<f64>,
    /// Weight of each mm³: one over the radius.
    weight: f64,
    /// Most that a ring moves in a step, mm.
    stride: f64,
    /// Most that a stretch is strained in a step.
    strain: f64,
    tau: f64,
    /// How long the next step is likely to be.
    next: f64,
    /// How often equations were solved so far.
    solved: usize,
}

impl Sinking {
    /// Lays a disc of sound measures down on a mold: the radius of its middle and its thickness in mm.
    pub fn new(profile: Profile, radius: f64, thickness: f64, friction: f64, fineness: Fineness) -> Self {
        let mut shape = Shape::flat(radius, thickness, fineness.elements);
        lay_down(&mut shape, &profile);
        let weight = 1.0 / radius;
        let all = weight * shape.elements.iter().map(|element| element.volume).sum::<f64>();
        let mut contact = Contact::new(profile, friction, radius, thickness, all);
        // Thin glass takes shorter steps, lest it pass through a corner of the mold.
        let stride = (fineness.stride * radius).min(0.125 * thickness);
        contact.look(&shape, 2.0 * stride, &[]);
        // By the sag of a disc that is held at its rim: 11/64 a³/h² for each unit of reduced time.
        let next = stride * thickness * thickness / (0.2 * radius * radius * radius);
        Self {
            shape,
            contact,
            resistance: Resistance::default(),
            velocity: Vec::new(),
            weight,
            stride,
            strain: fineness.strain,
            tau: 0.0,
            next,
            solved: 0,
        }
    }

    /// Where the glass is.
    pub fn shape(&self) -> &Shape {
        &self.shape
    }

    /// The gap between glass and mold at each ring, mm.
    pub fn gaps(&self) -> &[f64] {
        self.contact.gaps()
    }

    /// Reduced time so far.
    pub fn tau(&self) -> f64 {
        self.tau
    }

    /// How often equations were solved so far: the work.
    pub fn solved(&self) -> usize {
        self.solved
    }

    /// How fast the fastest ring went in the last step, mm for each unit of reduced time.
    pub fn speed(&self) -> f64 {
        fastest(&self.velocity)
    }

    /// One step, of at most this much reduced time.
    ///
    /// # Errors
    /// If nothing holds the sheet.
    pub fn advance(&mut self, most: f64) -> Result<(), Singular> {
        let mut time = self.next.min(most);
        let mut far = 0.0;
        for attempt in 1..=ATTEMPTS {
            self.resistance.set_up(&self.shape, time);
            self.resistance.weigh(&self.shape, self.weight);
            self.resistance.drag(&self.shape, self.weight * self.weight / FREE_FALL);
            self.solved += self.contact.solve(&mut self.resistance, time)?;
            let speed = fastest(self.resistance.velocity());
            let (strain, turn) = self.resistance.rates(&self.shape);
            far = time * (speed / self.stride).max(strain / self.strain).max(turn / TURN);
            if far <= SLACK || attempt == ATTEMPTS {
                break;
            }
            time /= far;
        }
        let taken = if far > SLACK { time / far } else { time };
        self.resistance.pull(&self.shape);
        self.velocity.clear();
        self.velocity.extend_from_slice(self.resistance.velocity());
        self.shape.go(&self.velocity, taken);
        self.tau += taken;
        self.next = taken * (1.0 / far.max(1e-9)).clamp(0.1, GROWTH);
        self.contact.look(&self.shape, 2.0 * self.stride, &self.velocity);
        Ok(())
    }
}

/// Lets the flat disc down until it first touches.
fn lay_down(shape: &mut Shape, profile: &Profile) {
    let half = 0.5 * shape.elements[0].thickness;
    let (lowest, highest) = profile.heights();
    let (mut below, mut above) = (lowest, highest + 2.0 * half);
    for _ in 0..HALVINGS {
        let z = 0.5 * (below + above);
        let free = shape.nodes.iter().all(|(r, _)| profile.distance((*r, z)).distance >= half);
        if free {
            above = z;
        } else {
            below = z;
        }
    }
    for node in &mut shape.nodes {
        node.1 = below;
    }
}

/// The largest of the velocities of the rings.
fn fastest(velocity: &[f64]) -> f64 {
    let squares = velocity.as_chunks::<2>().0.iter().map(|v| v[0] * v[0] + v[1] * v[1]);
    squares.fold(0.0, f64::max).sqrt()
}
