//! What the cells of the grid share: where each of them is, and how many stand in a row.

use super::columns::Fit;
use dappledome::base::seed::Seed;
use leptos::html;
use leptos::prelude::*;
use std::collections::HashMap;

/// How the discs stand until there has been something to measure.
const AT_FIRST: Fit = Fit { columns: 6, disc: 98.0, pitch: 120.0 };

/// What the cells of the grid share.
#[derive(Clone, Copy)]
pub struct GridState {
    /// How the discs stand.
    pub fit: RwSignal<Fit>,
    cells: StoredValue<HashMap<Seed, NodeRef<html::Div>>>,
}

impl GridState {
    /// A grid without cells.
    pub fn new() -> Self {
        Self { fit: RwSignal::new(AT_FIRST), cells: StoredValue::new(HashMap::new()) }
    }

    /// Remembers a sister's cell until the present owner is cleaned up.
    pub fn register(&self, seed: Seed, cell: NodeRef<html::Div>) {
        self.cells.update_value(|cells| {
            cells.insert(seed, cell);
        });
        let cells = self.cells;
        on_cleanup(move || {
            // The grid may be going with all of them.
            let _ = cells.try_update_value(|cells| forget(cells, seed, cell));
        });
    }

    /// The cell of a sister, if she is on the page.
    pub fn cell(&self, seed: Seed) -> Option<web_sys::HtmlDivElement> {
        self.cells.try_with_value(|cells| element(*cells.get(&seed)?)).flatten()
    }
}

/// Forgets a cell, unless the sister has another one by now: in another row she gets a new one.
fn forget(cells: &mut HashMap<Seed, NodeRef<html::Div>>, seed: Seed, cell: NodeRef<html::Div>) {
    if cells.get(&seed).is_some_and(|other| element(*other) == element(cell)) {
        cells.remove(&seed);
    }
}

fn element(cell: NodeRef<html::Div>) -> Option<web_sys::HtmlDivElement> {
    cell.try_get_untracked().flatten()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_the_cells_that_stand_are_remembered() {
        Owner::new().with(|| {
            let grid = GridState::new();
            for seed in 0..500 {
                let owner = Owner::new();
                owner.with(|| grid.register(Seed(seed), NodeRef::new()));
                assert_eq!(grid.cells.with_value(HashMap::len), 1);
                owner.cleanup();
            }
            assert_eq!(grid.cells.with_value(HashMap::len), 0);
            assert!(grid.cell(Seed(3)).is_none());
        });
    }
}
