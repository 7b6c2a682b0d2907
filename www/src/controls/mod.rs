//! What areas are built of: choices, pictures, panels, sliders.

pub mod cautions;
pub mod chart;
pub mod choice;
pub mod color_pair;
pub mod how_sure_word;
pub mod ladder;
pub mod later;
pub mod number;
pub mod panel;
pub mod papers_kept;
pub mod part;
pub mod photo;
pub mod picture;
pub mod search;
pub mod slider;
pub mod sure_line;
mod ticket_lines;
pub mod ticket_table;
mod typed;
pub mod what_seeds_are;
