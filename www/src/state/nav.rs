//! Where the maker is: what lies on the table and under it, and what of the recipe is open.

use crate::model::ids::{AreaId, PanelId};
use dappledome::base::notice::{Notice, Step};
use leptos::prelude::*;

/// What a notice is remembered by once it is folded: its step and its first words.
pub type NoticeKey = (Step, String);

/// A file that could not be opened.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Refusal {
    /// What it is, in weight.
    pub what: String,
    /// Why it was refused, and what to do.
    pub why: String,
}

/// Where the maker is.
#[derive(Clone, Copy, Debug)]
pub struct Nav {
    /// What lies on the table.
    pub area: RwSignal<AreaId>,
    /// What lies under the piece, if anything does.
    pub panel: RwSignal<Option<PanelId>>,
    /// The open step of the recipe.
    pub step: RwSignal<Option<Step>>,
    /// Whether the open step shows its details.
    pub details: RwSignal<bool>,
    /// Notices that the maker has read and folded.
    pub folded: RwSignal<Vec<NoticeKey>>,
    /// What the panel of a refused file says.
    pub refusal: RwSignal<Refusal>,
    /// Whether a newer version of the page is ready and the maker has not answered yet.
    newer: RwSignal<bool>,
}

/// What a notice is remembered by.
pub fn key_of(notice: &Notice) -> NoticeKey {
    (notice.step, notice.what.clone())
}

impl Nav {
    /// As a newcomer finds it: the piece, and the welcome under it.
    pub fn new() -> Self {
        Self {
            area: RwSignal::new(AreaId::PIECE),
            panel: RwSignal::new(Some(PanelId::WELCOME)),
            step: RwSignal::new(None),
            details: RwSignal::new(false),
            folded: RwSignal::new(Vec::new()),
            refusal: RwSignal::default(),
            newer: RwSignal::new(false),
        }
    }

    /// Lays an area on the table.
    pub fn open_area(&self, area: AreaId) {
        self.area.set(area);
    }

    /// Lays the piece itself on the table.
    pub fn close_area(&self) {
        self.area.set(AreaId::PIECE);
    }

    /// Whether an area lies on the table.
    pub fn is_on(&self, area: AreaId) -> bool {
        self.area.get() == area
    }

    /// Lays a panel under the piece.
    pub fn open_panel(&self, panel: PanelId) {
        self.panel.set(Some(panel));
    }

    /// Lays the panel aside. A newer version waits for that to be offered.
    pub fn close_panel(&self) {
        self.panel.set(self.newer.get_untracked().then_some(PanelId::NEW_VERSION));
    }

    /// Lays a panel under the piece, or aside if it is there.
    pub fn toggle_panel(&self, panel: PanelId) {
        if self.has_panel_now(panel) { self.close_panel() } else { self.open_panel(panel) }
    }

    /// Whether a panel lies there.
    pub fn has_panel(&self, panel: PanelId) -> bool {
        self.panel.get() == Some(panel)
    }

    /// The same, outside of what follows it.
    pub fn has_panel_now(&self, panel: PanelId) -> bool {
        self.panel.get_untracked() == Some(panel)
    }

    /// Says why a file was refused.
    pub fn refuse(&self, refusal: Refusal) {
        self.refusal.set(refusal);
        self.open_panel(PanelId::REFUSED);
    }

    /// Offers a newer version as soon as no other panel lies there.
    pub fn offer_newer(&self) {
        self.newer.set(true);
        if self.panel.get_untracked().is_none() {
            self.close_panel();
        }
    }

    /// Leaves the newer version for the next time.
    pub fn leave_newer(&self) {
        self.newer.set(false);
        self.close_panel();
    }

    /// Opens a step, or closes it if it is open.
    pub fn toggle_step(&self, step: Step) {
        let open = self.step.get_untracked();
        self.details.set(false);
        self.step.set((open != Some(step)).then_some(step));
    }

    /// The maker has begun: the welcome goes.
    pub fn begin(&self) {
        if self.has_panel_now(PanelId::WELCOME) {
            self.close_panel();
        }
    }

    /// Another piece lies on the table: nothing of it is open or folded.
    pub fn start_over(&self) {
        self.step.set(None);
        self.folded.set(Vec::new());
        self.close_area();
    }

    /// Lays aside the panel, or what lies on the table instead of the piece, or else closes the open step. That the picture
    /// stopped stays said.
    pub fn close(&self) {
        match self.panel.get_untracked() {
            Some(PanelId::NEW_VERSION) => self.leave_newer(),
            Some(panel) if panel != PanelId::STOPPED => self.close_panel(),
            _ if self.area.get_untracked() != AreaId::PIECE => self.close_area(),
            _ => self.step.set(None),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_newer_version_waits_until_no_other_panel_lies_there() {
        Owner::new().with(|| {
            let nav = Nav::new();
            nav.offer_newer();
            assert!(nav.has_panel_now(PanelId::WELCOME));
            nav.close();
            assert!(nav.has_panel_now(PanelId::NEW_VERSION));
            nav.open_panel(PanelId::SAMPLE);
            nav.toggle_panel(PanelId::SAMPLE);
            assert!(nav.has_panel_now(PanelId::NEW_VERSION));
            nav.close();
            nav.toggle_panel(PanelId::SAMPLE);
            nav.close();
            assert_eq!(nav.panel.get_untracked(), None, "it was left for the next time");
        });
    }

    #[test]
    fn closing_goes_from_the_panel_to_the_area_to_the_step() {
        Owner::new().with(|| {
            let nav = Nav::new();
            nav.begin();
            nav.toggle_step(Step::Slump);
            nav.open_area(AreaId::SHELF);
            nav.open_panel(PanelId::STOPPED);
            nav.close();
            assert_eq!(nav.area.get_untracked(), AreaId::PIECE, "that the picture stopped stays said");
            nav.close_panel();
            assert_eq!(nav.step.get_untracked(), Some(Step::Slump));
            nav.close();
            assert_eq!(nav.step.get_untracked(), None);
        });
    }
}
