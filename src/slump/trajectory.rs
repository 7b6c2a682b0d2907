//! The way of a disc into its mold, kept as moments to look up by reduced time.

use super::inputs::{STICKS, SheetFault, SheetInputs};
use super::kept::{Keeper, Kept};
use super::mold::Point;
use super::profile::Profile;
use super::sheet::shape::Shape;
use super::sheet::sinking::{Fineness, Sinking};
use crate::base::notice::{Notice, Severity, Step};

/// The glass is full in its mold once it is nowhere further from it than this, mm. (Chosen: what a maker would not see.)
pub const FULL: f64 = 1.0;

/// Glass this near to the mold counts as touching it, mm.
pub const TOUCHING: f64 = 0.05;

/// Reduced time of a usual slump, about. A way has settled when in this much of it ...
pub const USUAL: f64 = 0.1;
/// ... nothing moves by more than this share of the radius. (Chosen: 0.4 mm for a disc of 150 mm.)
const STILL: f64 = 0.005;
/// The same for glass that is not full: it may yet become so.
const VERY_STILL: f64 = 0.001;
/// So many times as long as it takes to be full is followed at least, for the maker who fires too long.
const OVER: f64 = 4.0;
/// A step takes no more than this share of a usual slump.
const LONGEST_STEP: f64 = 0.25;
/// Most equations solved on one way, each of them 8 µs at 64 stretches: what bounds the time of any slump.
const MOST_SOLVED: usize = 8000;

/// Halvings of the stretch between two kept moments in which one is looked for: to a billionth of it.
const HALVINGS: usize = 30;

/// Glass that the mold presses in by this share of its thickness is jammed.
const JAM: f64 = 0.25;

/// How a way ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// Nothing more happens worth the name.
    Settled,
    /// The glass still moves, but no firing takes so long.
    StillSinking,
    /// The glass still moves, but following it further takes too much work or more digits than there are.
    OutOfWork,
    /// The glass is too thick for its mold and jams in it: what comes then is no sheet any more.
    Jammed,
}

/// The glass at one moment.
#[derive(Clone, Debug, PartialEq)]
pub struct Moment {
    /// Reduced time.
    pub tau: f64,
    /// Where the glass is; height 0 is the plane of the mold's opening.
    pub shape: Shape,
    /// Between glass and mold at each ring, mm; less than nothing where the mold gives way.
    pub gaps: Vec<f64>,
}

impl Moment {
    /// The ring at the rim.
    pub fn rim(&self) -> Point {
        self.shape.nodes[self.shape.nodes.len() - 1]
    }

    /// How far the crown has come below the rim (or, on a hump, stays above it), mm.
    pub fn depth(&self) -> f64 {
        (self.rim().1 - self.shape.nodes[0].1).abs()
    }

    /// The widest gap between glass and mold, mm.
    pub fn widest_gap(&self) -> f64 {
        widest(&self.gaps)
    }

    /// Whether the glass touches the mold at a ring.
    pub fn touches(&self, ring: usize) -> bool {
        self.gaps[ring] < TOUCHING
    }

    /// The share of the glass that touches the mold.
    pub fn touching(&self) -> f64 {
        let all: f64 = self.shape.carried.iter().sum();
        let touching = self.shape.carried.iter().enumerate().filter(|(ring, _)| self.touches(*ring));
        touching.map(|(_, volume)| volume).sum::<f64>() / all
    }
}

/// The way of a disc into its mold.
#[derive(Clone, Debug, PartialEq)]
pub struct Trajectory {
    inputs: SheetInputs,
    /// The flat disc, for what each stretch holds.
    flat: Shape,
    kept: Vec<Kept>,
    full_at: Option<f64>,
    outcome: Outcome,
    solved: usize,
}

impl Trajectory {
    /// Lets a disc sink into its mold, as finely as usual.
    ///
    /// # Errors
    /// A measure that no slump can be computed with.
    pub fn new(inputs: &SheetInputs) -> Result<Self, SheetFault> {
        Self::with(inputs, Fineness::default())
    }

    /// Lets a disc sink into its mold. Fineness out of range is taken as the nearest within.
    ///
    /// # Errors
    /// A measure that no slump can be computed with.
    pub fn with(inputs: &SheetInputs, fineness: Fineness) -> Result<Self, SheetFault> {
        inputs.check()?;
        let profile = Profile::new(&inputs.mold, inputs.lip, inputs.thickness);
        let friction = inputs.friction.min(STICKS);
        let sinking = Sinking::new(profile, inputs.radius, inputs.thickness, friction, fineness.bounded());
        let flat = Shape::flat(inputs.radius, inputs.thickness, sinking.shape().elements.len());
        let mut way = Self {
            inputs: inputs.clone(),
            flat,
            kept: Vec::new(),
            full_at: None,
            outcome: Outcome::StillSinking,
            solved: 0,
        };
        way.follow(sinking);
        Ok(way)
    }

    /// Follows the glass to the end.
    fn follow(&mut self, mut sinking: Sinking) {
        let latest = self.latest();
        let (mut at, mut gap) = (0.0, widest(sinking.gaps()));
        self.full_at = (gap < FULL).then_some(0.0);
        // Since when, and from where, it is watched whether anything moves.
        let mut watched = Kept::of(&sinking);
        let mut keeper = Keeper::new(&sinking, self.inputs.radius);
        self.outcome = loop {
            if sinking.solved() > MOST_SOLVED {
                break Outcome::OutOfWork;
            }
            if sinking.tau() >= latest {
                break Outcome::StillSinking;
            }
            let most = (LONGEST_STEP * USUAL).min(latest - sinking.tau());
            if sinking.advance(most).is_err() {
                break Outcome::OutOfWork;
            }
            if sinking.gaps().iter().any(|gap| *gap < -JAM * self.inputs.thickness) {
                break Outcome::Jammed;
            }
            let (tau, wide) = (sinking.tau(), widest(sinking.gaps()));
            if self.full_at.is_none() && wide < FULL {
                self.full_at = Some(at + (tau - at) * (gap - FULL) / (gap - wide));
            }
            (at, gap) = (tau, wide);
            keeper.see(&sinking);
            let waited = tau - watched.tau;
            if waited >= USUAL {
                let still = if self.full_at.is_some() { STILL } else { VERY_STILL };
                let way = watched.moved(&sinking);
                let over = OVER * self.full_at.unwrap_or(0.0);
                if way < still * self.inputs.radius * waited / USUAL && tau >= over {
                    break Outcome::Settled;
                }
                watched.take(&sinking);
            }
        };
        self.kept = keeper.end();
        self.solved = sinking.solved();
    }

    /// The reduced time after which no firing goes on: ten usual slumps, and for thick glass, which bends before it stretches, as much
    /// longer as its sag is slower (by the square of the thickness; twenty is chosen).
    fn latest(&self) -> f64 {
        let thick = self.inputs.thickness / self.inputs.radius;
        10.0 * USUAL + 20.0 * thick * thick
    }

    /// What it was computed from.
    pub fn inputs(&self) -> &SheetInputs {
        &self.inputs
    }

    /// The reduced times of the moments that are kept, from 0 to the end.
    pub fn moments(&self) -> impl ExactSizeIterator<Item = f64> {
        self.kept.iter().map(|kept| kept.tau)
    }

    /// The glass at a reduced time, between two kept moments by the straight ways of its rings; no stretch changes its volume.
    /// Before the beginning it is the beginning, after the end the end.
    pub fn at(&self, tau: f64) -> Moment {
        let tau = tau.max(0.0).min(self.end());
        let after = self.kept.partition_point(|kept| kept.tau < tau).min(self.kept.len() - 1);
        let (a, b) = (&self.kept[after.saturating_sub(1)], &self.kept[after]);
        let share = if b.tau > a.tau { (tau - a.tau) / (b.tau - a.tau) } else { 0.0 };
        let Kept { nodes, gaps, .. } = a.toward(b, share);
        let mut shape = Shape { nodes, ..self.flat.clone() };
        shape.measure();
        Moment { tau, shape, gaps }
    }

    /// The reduced time at which the glass is full in its mold, nowhere further than [`FULL`] from it, if that comes.
    pub fn full_at(&self) -> Option<f64> {
        self.full_at
    }

    /// The reduced time at which the glass has settled: full, or, where it never gets that near to its mold, as near to where it ends
    /// as it would have to be to its mold.
    pub fn settled_at(&self) -> f64 {
        self.full_at.unwrap_or_else(|| self.near_its_end())
    }

    /// The reduced time from which on no ring is further than [`FULL`] from where it ends.
    fn near_its_end(&self) -> f64 {
        let last = &self.kept[self.kept.len() - 1];
        let Some(away) = self.kept.iter().rposition(|kept| kept.away(last) > FULL) else { return 0.0 };
        // Moments are kept far apart where little moves: the crossing is looked for between them, lest a mold a little deeper settle at another.
        let (a, b) = (&self.kept[away], &self.kept[away + 1]);
        let (mut far, mut near) = (0.0, 1.0);
        for _ in 0..HALVINGS {
            let middle = f64::midpoint(far, near);
            if a.toward(b, middle).away(last) > FULL { far = middle } else { near = middle }
        }
        a.tau + near * (b.tau - a.tau)
    }

    /// Why no dome comes of it, with what to do; nothing if one does.
    pub fn trouble(&self) -> Option<Notice> {
        let (what, why) = match self.outcome {
            _ if self.full_at.is_some() => return None,
            Outcome::Settled | Outcome::StillSinking => return None,
            Outcome::Jammed => {
                ("Jams in its mold.", "Glass so thick does not bend into this mold as a sheet.")
            }
            Outcome::OutOfWork => (
                "Its slump cannot be followed.",
                "It tips, hangs or folds in a way that takes too long to reckon.",
            ),
        };
        let why = format!("{why} The dome is shown as if it lay on its mold.");
        let remedy = "Use a wider or shallower mold, or thinner glass.";
        Some(Notice::new(Severity::Risk, Step::Slump, what, why, remedy))
    }

    /// The reduced time of the last moment.
    pub fn end(&self) -> f64 {
        self.kept[self.kept.len() - 1].tau
    }

    /// How it ended.
    pub fn outcome(&self) -> Outcome {
        self.outcome
    }

    /// How often equations were solved: the work.
    pub fn solved(&self) -> usize {
        self.solved
    }
}

fn widest(gaps: &[f64]) -> f64 {
    gaps.iter().copied().fold(f64::NEG_INFINITY, f64::max)
}
