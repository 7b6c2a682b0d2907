//! The slump: where each ring of the flat disc ends up on the dome.

pub mod dome;
pub mod finished;
pub mod inputs;
mod kept;
pub mod mold;
pub mod profile;
pub mod sheet;
pub mod trajectory;
