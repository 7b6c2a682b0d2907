//! The recipes that come with the program.

use dappledome::recipe::{Recipe, demo};
use std::sync::LazyLock;

static DEMOS: LazyLock<Vec<Recipe>> = LazyLock::new(demo::all);

/// All of them; the first lies on the table when a newcomer opens the page.
pub fn demos() -> &'static [Recipe] {
    &DEMOS
}
