//! Which moments of a slump are kept: as few as give back all the others by straight lines.

use super::mold::Point;
use super::sheet::sinking::Sinking;

/// Between two moments that are kept, no ring strays further from its straight way than this share of the radius: 15 µm for a disc of
/// 150 mm.
const STRAY: f64 = 0.0002;
/// Most steps from one moment that is kept to the next.
const MOST_BETWEEN: usize = 12;

/// The glass at one moment that is kept.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Kept {
    /// Reduced time.
    pub tau: f64,
    /// The rings.
    pub nodes: Vec<Point>,
    /// The gap at each of them, mm.
    pub gaps: Vec<f64>,
}

impl Kept {
    /// How it is now.
    pub fn of(sinking: &Sinking) -> Self {
        let mut kept = Self::default();
        kept.take(sinking);
        kept
    }

    /// Takes over how it is now.
    pub fn take(&mut self, sinking: &Sinking) {
        self.tau = sinking.tau();
        self.nodes.clone_from(&sinking.shape().nodes);
        self.gaps.clear();
        self.gaps.extend_from_slice(sinking.gaps());
    }

    /// The longest way of any ring to where it is now, mm.
    pub fn moved(&self, sinking: &Sinking) -> f64 {
        let rings = self.nodes.iter().zip(&sinking.shape().nodes);
        longest(rings.map(|(a, b)| (b.0 - a.0, b.1 - a.1)))
    }

    /// The longest way of any ring to where it is at another moment, mm.
    pub fn away(&self, other: &Self) -> f64 {
        longest(self.nodes.iter().zip(&other.nodes).map(|(a, b)| (b.0 - a.0, b.1 - a.1)))
    }

    /// So far on the straight ways of its rings to another moment.
    pub fn toward(&self, other: &Self, share: f64) -> Self {
        let between = |a: f64, b: f64| a + share * (b - a);
        let nodes = self.nodes.iter().zip(&other.nodes).map(|(a, b)| (between(a.0, b.0), between(a.1, b.1)));
        let gaps = self.gaps.iter().zip(&other.gaps).map(|(a, b)| between(*a, *b));
        Self { tau: between(self.tau, other.tau), nodes: nodes.collect(), gaps: gaps.collect() }
    }

    /// How far any ring lies from its straight way between two other moments, mm.
    fn strays(&self, a: &Self, b: &Self) -> f64 {
        let share = (self.tau - a.tau) / (b.tau - a.tau);
        let off = |a: f64, b: f64, at: f64| a + share * (b - a) - at;
        let rings = self.nodes.iter().zip(a.nodes.iter().zip(&b.nodes));
        longest(rings.map(|(at, (a, b))| (off(a.0, b.0, at.0), off(a.1, b.1, at.1))))
    }
}

fn longest(ways: impl Iterator<Item = Point>) -> f64 {
    ways.map(|(r, z)| r * r + z * z).fold(0.0, f64::max).sqrt()
}

/// Sees every moment and keeps some.
#[derive(Debug)]
pub struct Keeper {
    kept: Vec<Kept>,
    /// Those since the last that was kept.
    between: Vec<Kept>,
    /// Room to use again.
    spare: Vec<Kept>,
    /// How far a ring may stray, mm.
    allowed: f64,
}

impl Keeper {
    /// Keeps the first moment of a disc of this radius.
    pub fn new(sinking: &Sinking, radius: f64) -> Self {
        let kept = vec![Kept::of(sinking)];
        Self { kept, between: Vec::new(), spare: Vec::new(), allowed: STRAY * radius }
    }

    /// Sees a new moment, and keeps the one before it if those between would not lie on the straight way to the new one.
    pub fn see(&mut self, sinking: &Sinking) {
        let mut new = self.spare.pop().unwrap_or_default();
        new.take(sinking);
        let last = &self.kept[self.kept.len() - 1];
        let strays = |one: &Kept| one.strays(last, &new) > self.allowed;
        if self.between.len() == MOST_BETWEEN || self.between.iter().any(strays) {
            self.kept.extend(self.between.pop());
            self.spare.append(&mut self.between);
        }
        self.between.push(new);
    }

    /// All that are kept, with the last one seen.
    pub fn end(mut self) -> Vec<Kept> {
        self.kept.extend(self.between.pop());
        self.kept
    }
}
