//! Dappledome: what a piece of kiln glass will look like, computed from the thickness of its layers.
//!
//! The steps, in the order of making. Each is a pure function of the few things it reads:
//!
//! ```text
//! recipe -> plan -> layup -> fuse -> slump -> optics -> picture
//!              \-> kiln, shop, orders -> paper
//! ```
//!
//! - [`recipe`]: what the maker wrote down, and the [`recipe::plan::Plan`] made of it, with every fault named.
//! - [`layup`]: powder sifted coat by coat, dabbed with a sponge and rubbed off by hand, in mm of loose powder per cell.
//! - [`fuse`]: the same powder melted, in mm of glass.
//! - [`slump`]: where each ring of the flat disc ends up on the dome.
//! - [`packing`]: as many discs on a sheet or a shelf as can be.
//! - [`kiln`]: the programs of the firings, and what a kiln makes of them.
//! - [`optics`]: layers of glass or of loose powder turned into color.
//! - [`tiles`]: fired test tiles turned into a glass, how sure its colors are, and a wanted color found among jars.
//! - [`photo`]: places marked on a photo, read as colors against a white.
//! - [`picture`]: colors and shape turned into pixels.
//! - [`preview`]: all of these in a row, remembering what has not changed.
//! - [`compare`]: what came out of the kiln against what was foretold.
//! - [`shop`]: grams, discs and sizes.
//! - [`orders`]: grams, cuts, loads, days and price of what somebody has ordered.
//! - [`paper`]: the sheets of an order: make sheet, quote, sift map, labels.
//! - [`keep`]: what is dropped, pasted or brought back.
//!
//! A module uses only what stands above it in this list (`tests/layering.rs` holds it to that).

pub use dappledome_light::{
    base, color, fuse, glass, layup, optics, packing, photo, picture, recipe, slump, tiles,
};

pub mod compare;
pub mod keep;
pub mod kiln;
pub mod orders;
pub mod paper;
pub mod preview;
#[cfg(not(target_arch = "wasm32"))]
pub mod serve;
pub mod shop;
pub mod worker;
