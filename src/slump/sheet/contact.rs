//! Where the mold holds the sheet: at every ring that would sink into it, square to its face, and by friction along it.

use super::band::Singular;
use super::resistance::Resistance;
use super::shape::Shape;
use crate::slump::mold::Point;
use crate::slump::profile::Profile;

/// How far the mold's face gives way where one ring carries all the glass, as a share of its thickness: 12 µm for 6 mm.
const GIVES: f64 = 0.002;

/// What slides slower than this counts as nearly at rest, as a share of the radius for each unit of reduced time: friction grows from
/// nothing to all of itself around it. In a usual slump (0.1) that is 15 µm for a disc of 150 mm.
const AT_REST: f64 = 0.002;

/// How closely friction is solved for, as a share of the sliding.
const CLOSE: f64 = 0.01;

/// Most rounds until the rings that touch and their friction agree with the velocities.
const ROUNDS: usize = 12;

/// Rounds in which rings are let go.
const FREE_ROUNDS: usize = 6;

/// A ring near a face of the mold.
#[derive(Clone, Copy, Debug)]
struct Touch {
    node: usize,
    /// Between the faces of glass and mold, mm.
    gap: f64,
    /// Away from the mold.
    away: Point,
    /// Whether the mold holds it.
    held: bool,
    /// With what force, in the units of the load.
    force: f64,
    /// How fast it slides along the face.
    slide: f64,
}

/// A sheet and a mold.
#[derive(Clone, Debug)]
pub struct Contact {
    profile: Profile,
    /// Coefficient of friction.
    friction: f64,
    /// Force for each mm that a ring lies in the mold.
    stiffness: f64,
    /// Sliding that counts as nearly at rest.
    at_rest: f64,
    touches: Vec<Touch>,
    /// Gap at each ring, mm.
    gaps: Vec<f64>,
}

impl Contact {
    /// A mold under a disc of this radius and thickness (mm) whose whole weight is given in the units of the load.
    pub fn new(profile: Profile, friction: f64, radius: f64, thickness: f64, weight: f64) -> Self {
        let stiffness = weight / (GIVES * thickness);
        let at_rest = AT_REST * radius;
        Self { profile, friction, stiffness, at_rest, touches: Vec::new(), gaps: Vec::new() }
    }

    /// The gap between glass and mold at each ring, mm: less than nothing where the mold gives way.
    pub fn gaps(&self) -> &[f64] {
        &self.gaps
    }

    /// Looks where the sheet is near the mold: nearer than `near` mm. The velocities are those of the moment before.
    pub fn look(&mut self, shape: &Shape, near: f64, velocity: &[f64]) {
        self.touches.clear();
        self.gaps.clear();
        for (node, p) in shape.nodes.iter().enumerate() {
            let half = 0.5 * shape.thickness(node);
            let mut least = f64::INFINITY;
            for piece in self.profile.pieces() {
                let one = piece.distance(*p);
                let gap = one.distance - half;
                if one.distance.abs() < (least + half).abs() {
                    least = gap;
                }
                // A face that lies far behind is another's back.
                if one.within && gap < near && gap > -half - near {
                    let force = self.stiffness * (-gap).max(0.0);
                    let slide = sliding(one.away, velocity, node);
                    self.touches.push(Touch { node, gap, away: one.away, held: gap <= 0.0, force, slide });
                }
            }
            self.gaps.push(least);
        }
    }

    /// Solves for the velocities of the next `time`: the rings that would sink into the mold are held, and no others.
    /// Returns how often it took to solve.
    ///
    /// # Errors
    /// If nothing holds the sheet.
    pub fn solve(&mut self, resistance: &mut Resistance, time: f64) -> Result<usize, Singular> {
        for round in 1..=ROUNDS {
            resistance.begin();
            for touch in self.touches.iter().filter(|touch| touch.held) {
                let push = -self.stiffness * touch.gap;
                resistance.resist(touch.node, touch.away, self.stiffness * time, push);
                if self.friction > 0.0 {
                    let slide = (touch.slide * touch.slide + self.at_rest * self.at_rest).sqrt();
                    let along = (touch.away.1, -touch.away.0);
                    resistance.resist(touch.node, along, self.friction * touch.force / slide, 0.0);
                }
            }
            let velocity = resistance.solve()?;
            if self.agree(velocity, time, round > FREE_ROUNDS) {
                return Ok(round);
            }
        }
        Ok(ROUNDS)
    }

    /// Takes over what the velocities say, and whether it was so before. What is held stays held if none is let go any more: friction can
    /// have a ring held and let go by turns, without end.
    fn agree(&mut self, velocity: &[f64], time: f64, none_let_go: bool) -> bool {
        let mut agreed = true;
        for touch in &mut self.touches {
            let (outward, up) = (velocity[2 * touch.node], velocity[2 * touch.node + 1]);
            let then = touch.gap + time * (touch.away.0 * outward + touch.away.1 * up);
            let slide = sliding(touch.away, velocity, touch.node);
            let force = self.stiffness * (-then).max(0.0);
            if self.friction > 0.0 && touch.held {
                agreed &= (slide - touch.slide).abs() <= CLOSE * (slide.abs() + self.at_rest);
            }
            let held = then < 0.0 || (none_let_go && touch.held);
            agreed &= touch.held == held;
            *touch = Touch { held, force, slide, ..*touch };
        }
        agreed
    }
}

/// How fast a ring goes along a face.
fn sliding(away: Point, velocity: &[f64], node: usize) -> f64 {
    let along = velocity.get(2 * node..2 * node + 2);
    along.map_or(0.0, |v| away.1 * v[0] - away.0 * v[1])
}
