//! A chart: axes, lines, dashed levels with names, marks, and the same as a table for those who do not see it.

mod layout;
mod types;
mod view;

pub use types::{Axis, Chart, Label, Level, Line, Side, Table, Tick, Weight};
pub use view::ChartView;
