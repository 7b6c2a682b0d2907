//! Building the page for the browser and handing it out: everything of the native program that is not making.
//!
//! - [`compile`]: the library built as WebAssembly by a second run of cargo.
//! - [`bundle`]: that WebAssembly and the files of `www/public/` laid out as a [`site`].
//! - [`http`]: a site handed out on this machine, on a [`port`] that is really free.
//! - [`trouble`]: what went wrong, why, and what to do.

pub mod bundle;
pub mod compile;
pub mod http;
pub mod port;
pub mod progress;
pub mod site;
pub mod trouble;
