//! The page as a whole: its contexts, its services, its areas side by side, and the keys that work anywhere.

mod contexts;
mod keys;
mod shell;
mod surroundings;

pub use shell::App;
