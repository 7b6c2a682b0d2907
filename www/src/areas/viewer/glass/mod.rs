//! The large picture: turned by drag and by keys, brought nearer by the wheel, with what the hand can take hold of on it.

mod gestures;
mod keys;
mod pointers;
mod size;
mod view;

pub use view::Glass;
