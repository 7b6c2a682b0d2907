//! Nothing lost of orders, the bench and the log: saved as they are changed, and what another tab makes of them taken over. Where both
//! tabs have changed the same, both are kept. Pieces have the autosave, which asks.

mod ledger;
mod service;
mod start;

pub use service::Keeper;
