//! Where a picture belongs.

use super::ids::{LogId, PieceId};
use dappledome::base::seed::Seed;
use dappledome::picture::view::{Light, Stage};

/// Where a picture belongs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum PictureSlot {
    /// The large one.
    Glass,
    /// The thumbnail of a stage.
    Thumbnail(Stage),
    /// A recipe that comes with the program, by its place among them, at a stage.
    Demo(usize, Stage),
    /// A sister on the tray or at its edge.
    Sister(Seed),
    /// An option of the shortlist beside the tray.
    Shortlisted(Seed),
    /// A sister that is weighed and measured, and not drawn.
    Measured(Seed),
    /// A sister lifted to be compared.
    Lifted(Seed),
    /// A sister shown to the customer or printed, by day or lit.
    Option(Seed, Light),
    /// A piece of the open order: which line, and its seed.
    Ordered(usize, Seed),
    /// A layout of a line of the open order that is weighed and measured, and not drawn.
    Compared(usize, Seed),
    /// What was foretold of an entry of the log, at a stage: in the list, and large.
    Logged(LogId, Stage),
    /// On the paper of the open order: which line, and its seed, at a stage, by day or lit.
    Printed(usize, Seed, Stage, Light),
    /// One of the maker's pieces on the shelf.
    Kept(PieceId),
    /// None: it is only drawn so that the worker remembers how.
    Ahead,
}
