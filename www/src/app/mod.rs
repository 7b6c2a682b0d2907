//! The page as a whole: its contexts, its services, its areas side by side, and the keys that work anywhere.

mod contexts;
mod shell;

pub use shell::App;
