//! What the page has to know of an area and of a panel.

use crate::model::ids::{AreaId, PanelId};
use leptos::prelude::AnyView;

/// An area that takes the table's place.
#[derive(Clone, Copy)]
pub struct AreaInfo {
    /// What it is called by.
    pub id: AreaId,
    /// The word that opens it, where it has one in the top line.
    pub word: Option<&'static str>,
    /// Draws it.
    pub view: fn() -> AnyView,
    /// Draws what it adds to the sheet, if anything.
    pub beside: Option<fn() -> AnyView>,
}

/// A panel under the piece.
#[derive(Clone, Copy)]
pub struct PanelInfo {
    /// What it is called by.
    pub id: PanelId,
    /// The word that opens it.
    pub word: PanelWord,
    /// Draws it.
    pub view: fn() -> AnyView,
}

/// The word that opens a panel, by its place in the top line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PanelWord {
    /// There is none: something else opens the panel.
    None,
    /// Behind *Undo* and *Redo*, as soon as there is more than one step.
    BehindUndo(&'static str),
    /// At the end, behind the words of the areas.
    AtTheEnd(&'static str),
    /// The same where there is little room; elsewhere something else opens the panel.
    WhereNarrow(&'static str),
}
