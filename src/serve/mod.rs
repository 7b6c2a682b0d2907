//! Building the page for the browser and handing it out: everything of the native program that is not making.
//!
//! - [`compile`]: the library built as WebAssembly by a second run of cargo, its functions in an order that packs small.
//! - `parts`: that program cut into what is there from the beginning and what is fetched when it is wanted.
//! - [`bundle`]: that WebAssembly and the files of `www/public/` laid out as a [`site`].
//! - [`server`]: a site handed out on this machine, on a [`port`] that is really free, until the [`ending`].
//! - [`progress`], [`say`]: what is said while it goes on.
//! - [`trouble`]: what went wrong, why, and what to do.

mod answers;
pub mod bundle;
pub mod compile;
pub mod ending;
mod families;
mod host;
mod parts;
pub mod port;
pub mod progress;
pub mod say;
mod sending;
pub mod server;
pub mod site;
mod stock;
pub mod trouble;
#[cfg(test)]
mod visit;
mod visitors;
mod wishes;
