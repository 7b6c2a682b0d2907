//! Pieces in other lights than daylight and by other eyes, against answers that are known.

#[path = "../examples/lamps/eye.rs"]
mod eye;
#[path = "seen/eyes.rs"]
mod eyes;
#[path = "seen/lights.rs"]
mod lights;
#[path = "../examples/lamps/stacks.rs"]
mod stacks;
#[path = "published/table.rs"]
mod table;
