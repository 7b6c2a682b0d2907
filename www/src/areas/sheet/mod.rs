//! The sheet: the piece's name, the recipe as a list of steps, the margin as a ticket, and its foot.

mod add;
mod area;
mod blend;
mod body;
mod details;
mod foot;
mod head;
mod list;
mod margin;
mod next_time;
mod notices;
mod offered;
mod row;
mod state;
mod state_line;
mod summary;
mod swatch;

pub use area::Sheet;
pub use list::steps_of;
pub use notices::StepNotices;
pub use summary::{name, summary};
pub use swatch::colors;
