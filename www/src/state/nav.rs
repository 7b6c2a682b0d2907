//! Where the maker is: what lies on the table and under it, and what of the recipe is open.

use crate::model::ids::{AreaId, PanelId};
use dappledome::base::firing::Firing;
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
    pub area: Memo<AreaId>,
    /// What lies under the piece, if anything does.
    pub panel: RwSignal<Option<PanelId>>,
    /// The open step of the recipe.
    pub step: RwSignal<Option<Step>>,
    /// Whether the open step shows its details.
    pub details: RwSignal<bool>,
    /// The firing whose program lies open among the programs.
    pub firing: RwSignal<Firing>,
    /// Notices that the maker has read and folded.
    pub folded: RwSignal<Vec<NoticeKey>>,
    /// What the panel of a refused file says.
    pub refusal: RwSignal<Refusal>,
    /// How many areas and panels the maker has opened over the piece, one from the other.
    pub depth: Memo<usize>,
    /// The areas opened over the piece, the first one lowest.
    areas: RwSignal<Vec<AreaId>>,
    /// What waits until no other panel lies there, and for the maker's answer.
    offered: RwSignal<Option<PanelId>>,
}

/// Panels that come by themselves.
const UNASKED: [PanelId; 6] = [
    PanelId::WELCOME,
    PanelId::STOPPED,
    PanelId::NEW_VERSION,
    PanelId::WENT_BACK,
    PanelId::LOST,
    PanelId::CONFLICT,
];

/// What a notice is remembered by.
pub fn key_of(notice: &Notice) -> NoticeKey {
    (notice.step, notice.what.clone())
}

impl Nav {
    /// As a newcomer finds it: the piece, and the welcome under it.
    pub fn new() -> Self {
        let areas = RwSignal::new(Vec::new());
        let panel = RwSignal::new(Some(PanelId::WELCOME));
        let asked = move || panel.get().is_some_and(|panel| !UNASKED.contains(&panel));
        Self {
            area: Memo::new(move |_| areas.read().last().copied().unwrap_or(AreaId::PIECE)),
            panel,
            depth: Memo::new(move |_| areas.read().len() + usize::from(asked())),
            areas,
            step: RwSignal::new(None),
            details: RwSignal::new(false),
            firing: RwSignal::new(Firing::FullFuse),
            folded: RwSignal::new(Vec::new()),
            refusal: RwSignal::default(),
            offered: RwSignal::new(None),
        }
    }

    /// Lays an area on the table; the welcome and the panel that the maker had opened go. One that lies below others comes up
    /// again.
    pub fn open_area(&self, area: AreaId) {
        self.areas.update(|areas| {
            if let Some(at) = areas.iter().position(|below| *below == area) {
                areas.truncate(at);
            }
            areas.push(area);
        });
        self.begin();
        if self.was_asked_for() {
            self.close_panel();
        }
    }

    /// Lays the programs of the firings on the table, this one open.
    pub fn open_program(&self, firing: Firing) {
        self.firing.set(firing);
        self.open_area(AreaId::FIRINGS);
    }

    /// Lays on the table what was there before the area.
    pub fn close_area(&self) {
        self.areas.update(|areas| {
            areas.pop();
        });
    }

    /// Lays the piece itself on the table.
    pub fn go_to_piece(&self) {
        if !self.areas.with_untracked(Vec::is_empty) {
            self.areas.set(Vec::new());
        }
    }

    /// Lays aside what the maker opened last: the panel, or the area.
    pub fn step_back(&self) {
        if self.was_asked_for() { self.close_panel() } else { self.close_area() }
    }

    /// Whether the panel that lies there was opened by the maker.
    fn was_asked_for(&self) -> bool {
        self.panel.get_untracked().is_some_and(|panel| !UNASKED.contains(&panel))
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
        self.go_to_piece();
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
    fn closing_an_area_shows_what_it_was_opened_from() {
        Owner::new().with(|| {
            let nav = Nav::new();
            let at = || (nav.area.get_untracked().0, nav.depth.get_untracked());
            assert_eq!(at(), ("piece", 0), "the welcome came by itself");
            nav.open_area(AreaId::TRAY);
            nav.open_area(AreaId::CUSTOMER);
            assert_eq!(at(), ("customer", 2));
            nav.close_area();
            assert_eq!(at(), ("tray", 1));
            nav.open_area(AreaId::PAPER);
            nav.open_area(AreaId::TRAY);
            assert_eq!(at(), ("tray", 1), "it came up again");
            nav.close_area();
            nav.close_area();
            assert_eq!(at(), ("piece", 0));
        });
    }

    #[test]
    fn a_panel_goes_when_another_area_comes() {
        Owner::new().with(|| {
            let nav = Nav::new();
            nav.open_panel(PanelId::SAMPLE);
            assert_eq!(nav.depth.get_untracked(), 1);
            nav.open_area(AreaId::SHELF);
            assert_eq!((nav.panel.get_untracked(), nav.depth.get_untracked()), (None, 1));
            nav.open_panel(PanelId::SAMPLE);
            nav.step_back();
            assert_eq!((nav.panel.get_untracked(), nav.depth.get_untracked()), (None, 1));
            nav.open_panel(PanelId::CONFLICT);
            nav.open_area(AreaId::TRAY);
            assert!(nav.has_panel_now(PanelId::CONFLICT), "what came by itself stays until it is answered");
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
