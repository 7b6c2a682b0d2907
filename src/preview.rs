//! The steps in a row, each remembered by exactly what it was made from.

use crate::base::memo::{Allowance, Paused};
use crate::base::seed::Seed;
use crate::picture::{Pixmap, View};
use crate::recipe::plan::Plan;

/// The pipeline with its memory.
#[derive(Debug, Default)]
pub struct Preview {}

impl Preview {
    /// An empty memory.
    pub fn new() -> Self {
        Self {}
    }

    /// A picture, however long it takes.
    pub fn picture(&mut self, plan: &Plan, seed: Seed, view: &View) -> Pixmap {
        self.advance(plan, seed, view, &mut Allowance::unlimited())
            .expect("an unlimited allowance never pauses")
    }

    /// A picture, or a pause when the allowance of fresh steps is spent: ask again to go on.
    ///
    /// # Errors
    /// [`Paused`] when the allowance is spent before the picture is done.
    pub fn advance(
        &mut self,
        _plan: &Plan,
        _seed: Seed,
        view: &View,
        _allowance: &mut Allowance,
    ) -> Result<Pixmap, Paused> {
        Ok(Pixmap::filled(view.size, view.size, [150; 3]))
    }
}
