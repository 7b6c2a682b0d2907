//! A photo with places marked on it.

mod frame;
mod grip;
mod intake;
mod light;
mod shown;

pub use intake::{PhotoIntake, choosing};
pub use light::{light_note, white_row};
pub use shown::{MarkedPhoto, the_photo};
