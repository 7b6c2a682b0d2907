//! What the browser has and Leptos does not wrap: the focus, pixels on a canvas, the clock, short things to keep, addresses
//! of bytes, events of the window.

pub mod canvas;
pub mod clock;
pub mod focus;
pub mod local;
pub mod object_url;
pub mod photo;
pub mod room;
pub mod timer;
pub mod wake;
pub mod window;
