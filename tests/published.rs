//! The engine against the outside world: published tables and formulas, and simulations of our own that share no code
//! with it. Every check names its source beside it; a tolerance is what the source's digits or its noise allow.

#[path = "published/chance.rs"]
mod chance;
#[path = "published/color.rs"]
mod color;
#[path = "published/haze.rs"]
mod haze;
#[path = "published/haze_model.rs"]
mod haze_model;
#[path = "published/heat.rs"]
mod heat;
#[path = "published/melt.rs"]
mod melt;
#[path = "published/misfit.rs"]
mod misfit;
#[path = "published/optics.rs"]
mod optics;
#[path = "published/powder.rs"]
mod powder;
#[path = "published/profile.rs"]
mod profile;
#[path = "support/haze.rs"]
mod reference;
#[path = "published/sheet.rs"]
mod sheet;
#[path = "published/shop.rs"]
mod shop;
#[path = "published/sinking.rs"]
mod sinking;
#[path = "published/sinking_forms.rs"]
mod sinking_forms;
#[path = "published/slump.rs"]
mod slump;
#[path = "published/stem.rs"]
mod stem;
#[path = "published/summary.rs"]
mod summary;
#[path = "published/table.rs"]
mod table;
#[path = "published/viscosity.rs"]
mod viscosity;
#[path = "published/wall.rs"]
mod wall;
#[path = "published/window_glass.rs"]
mod window_glass;
