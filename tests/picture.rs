//! Pictures by closed forms: the usual bowl makes a part of a sphere, of which every distance, every line of sight and every
//! shadow can be computed apart from the engine; lights are summed over all directions; pieces of one color show known light.

#[path = "picture/ball.rs"]
mod ball;
#[path = "picture/dome.rs"]
mod dome;
#[path = "picture/eye.rs"]
mod eye;
#[path = "picture/flat.rs"]
mod flat;
#[path = "picture/lamp.rs"]
mod lamp;
#[path = "picture/pieces.rs"]
mod pieces;
#[path = "picture/solid.rs"]
mod solid;
#[path = "picture/studio.rs"]
mod studio;
#[path = "picture/studio_light.rs"]
mod studio_light;
