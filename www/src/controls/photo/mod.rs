//! A photo with places marked on it.

mod frame;
mod grip;
mod shown;

pub use shown::MarkedPhoto;
