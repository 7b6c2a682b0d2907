//! The corner of a sponge in the hand.

/// Widths of the bared line to choose from, mm.
pub const WIDTHS: [f64; 3] = [8.0, 16.0, 30.0];

/// The sponge.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeldSponge {
    /// Width of the bared line, mm.
    pub width: f64,
    /// Where it is over the disc, mm.
    pub at: [f32; 2],
}

impl HeldSponge {
    /// One of middle width over the crown.
    pub fn new() -> Self {
        Self { width: WIDTHS[1], at: [0.0; 2] }
    }

    /// The place that it comes to by a way, mm, no farther than the rim to either side.
    pub fn after(&self, [dx, dy]: [f32; 2], radius: f32) -> [f32; 2] {
        [self.at[0] + dx, self.at[1] + dy].map(|mm| mm.clamp(-radius, radius))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_sponge_stays_over_the_glass() {
        let sponge = HeldSponge { at: [78.0, -1.0], ..HeldSponge::new() };
        assert_eq!(sponge.after([5.0, 2.0], 80.0), [80.0, 1.0]);
    }
}
