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
    /// Whether the open step shows its finer fields.
    pub finer: RwSignal<bool>,
    /// Notices that the maker has read and folded.
    pub folded: RwSignal<Vec<NoticeKey>>,
    /// What the panel of a refused file says.
    pub refusal: RwSignal<Refusal>,
    /// What waits until no other panel lies there, and for the maker's answer.
    offered: RwSignal<Option<PanelId>>,
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
            finer: RwSignal::new(false),
            folded: RwSignal::new(Vec::new()),
            refusal: RwSignal::default(),
            offered: RwSignal::new(None),
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

    /// Lays the panel aside. What is offered waits for that.
    pub fn close_panel(&self) {
        self.panel.set(self.offered.get_untracked());
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

    /// Lays a panel there as soon as no other lies there.
    pub fn offer(&self, panel: PanelId) {
        self.offered.set(Some(panel));
        if self.panel.get_untracked().is_none() {
            self.close_panel();
        }
    }

    /// Leaves what was offered.
    pub fn leave_offered(&self) {
        self.offered.set(None);
        self.close_panel();
    }

    /// Opens a step, or closes it if it is open.
    pub fn toggle_step(&self, step: Step) {
        let open = self.step.get_untracked();
        self.finer.set(false);
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
            Some(panel) if self.offered.get_untracked() == Some(panel) => self.leave_offered(),
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
            nav.offer(PanelId::NEW_VERSION);
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
