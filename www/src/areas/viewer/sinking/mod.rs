//! Watching the slump: a slip with the drawn section and the sink rule, and the joint before the dome that opens it.

mod gesture;
mod joint;
mod outline;
mod panel;
mod rule;
mod section;
mod stop;
mod table;
mod thumb;
mod ticks;

pub use joint::SlumpJoint;
pub use panel::PANEL;
