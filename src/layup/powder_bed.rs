//! The bed of loose powder: per cell, a column with an order.

use crate::base::grid::Grid;
use std::sync::Arc;

/// A depth per cell, mm, shared until somebody changes it.
pub type Plane = Arc<Vec<f32>>;

/// Loose powder on the disc, mm per cell. A column reads from the glass up: the coats in order, then what the
/// sponge put back, a mixture.
#[derive(Clone, Debug)]
pub struct PowderBed {
    /// The grid all planes lie on.
    pub grid: Grid,
    /// Depth of each coat, in the order sifted; cells off the disc hold 0.
    pub coats: Vec<Plane>,
    /// Depth of each coat's powder in the mixture on top; no planes if nothing was put back.
    pub put_back: Vec<Plane>,
    /// What the sponge did.
    pub sponge: SpongeAccount,
    /// What was rubbed off by hand, mm³ of loose powder per coat; empty if nothing was.
    pub rubbed_off: Vec<f64>,
}

/// Where the powder went that the sponge took: mm³ of loose powder per coat.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct SpongeAccount {
    /// Rolls of the sponge.
    pub rolls: u32,
    /// Still on the sponge at the end, before the last brushing.
    pub on_sponge: Vec<f64>,
    /// Brushed off the sponge.
    pub brushed: Vec<f64>,
}

impl PowderBed {
    /// A bed as sifted, untouched.
    pub fn sifted(grid: Grid, coats: impl IntoIterator<Item = impl Into<Plane>>) -> Self {
        let coats = coats.into_iter().map(Into::into).collect();
        Self { grid, coats, put_back: Vec::new(), sponge: SpongeAccount::default(), rubbed_off: Vec::new() }
    }

    /// Loose powder of one coat on the disc, put back included, mm³.
    pub fn volume(&self, coat: usize) -> f64 {
        let back = self.put_back.get(coat).map_or(0.0, |plane| self.grid.integral(plane));
        self.grid.integral(&self.coats[coat]) + back
    }

    /// Depth of the whole column in a cell, mm.
    pub fn depth(&self, cell: usize) -> f32 {
        self.coats.iter().chain(&self.put_back).map(|plane| plane[cell]).sum()
    }
}
