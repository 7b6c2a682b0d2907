//! The demo world: five recipes of an invented two-person studio that makes hoods for the path lights of an
//! invented harborside garden. Every name and number in it is made up.

use super::file;
use super::model::Recipe;

/// The demo recipes as files, the one a newcomer sees first.
pub const FILES: [&str; 5] = [
    include_str!("../../examples/recipes/ember_walk.json"),
    include_str!("../../examples/recipes/shoal.json"),
    include_str!("../../examples/recipes/hedgerow.json"),
    include_str!("../../examples/recipes/heather.json"),
    include_str!("../../examples/recipes/frost.json"),
];

/// All demo recipes.
pub fn all() -> Vec<Recipe> {
    FILES.iter().map(|text| file::read(text).expect("the demo recipes are tested")).collect()
}

/// The one a newcomer sees first.
pub fn ember_walk() -> Recipe {
    all().swap_remove(0)
}
