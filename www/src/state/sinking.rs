//! The slump as it is watched: how the disc sinks, and the moment that is looked at.

use super::kilns::Kilns;
use super::nav::Nav;
use super::viewing::Viewing;
use super::workpiece::Workpiece;
use crate::model::ids::{AreaId, PanelId};
use crate::model::sinking::Course;
use dappledome::base::notice::Notice;
use dappledome::base::units::{Celsius, Minutes};
use dappledome::picture::View;
use dappledome::picture::view::Stage;
use dappledome::slump::dome::Dome;
use dappledome::slump::trajectory::Moment;
use leptos::prelude::*;
use std::sync::Arc;

/// How a disc sinks, or why that is not known.
type Outcome = Result<Arc<Course>, Arc<Notice>>;

/// The slump as it is watched.
#[derive(Clone, Copy, Debug)]
pub struct Sinking {
    /// How the disc sinks in the maker's kiln; why not, if that cannot be computed or this kiln does not get through it.
    outcome: Memo<Outcome>,
    /// The glass at the moment looked at.
    pub moment: Memo<Option<Arc<Moment>>>,
    /// Whether the hand has the needle.
    pub dragged: RwSignal<bool>,
    /// How the piece is looked at.
    pub viewing: Viewing,
    piece: Workpiece,
    nav: Nav,
}

impl Sinking {
    /// Of the piece on the table, at the end of its slump.
    pub fn new(piece: Workpiece, kilns: Kilns, viewing: Viewing, nav: Nav) -> Self {
        // What it depends on: all the rest of the recipe may change without anything to compute.
        let decides = Memo::new(move |_| {
            let made = piece.made();
            let recipe = &made.0;
            (
                recipe.blank.clone(),
                recipe.fuse.clone(),
                recipe.mold.clone(),
                recipe.slump,
                recipe.programs.clone(),
            )
        });
        let outcome = move |_: Option<&Outcome>| {
            decides.read();
            let made = untrack(|| piece.made());
            Course::new(&made.1, &kilns.kiln.read()).map(Arc::new).map_err(Arc::new)
        };
        let outcome = Memo::new_with_compare(outcome, |_, _| true);
        let moment = move |_: Option<&Option<Arc<Moment>>>| {
            let course = outcome.get().ok()?;
            Some(Arc::new(viewing.sunk.get().map_or_else(|| course.at_end(), |minutes| course.at(minutes))))
        };
        Self {
            outcome,
            moment: Memo::new_with_compare(moment, |_, _| true),
            dragged: RwSignal::new(false),
            viewing,
            piece,
            nav,
        }
    }

    /// How the disc sinks, followed; none if that is not known.
    pub fn course(&self) -> Option<Arc<Course>> {
        self.outcome.get().ok()
    }

    /// Why it is not known how the disc sinks, followed.
    pub fn trouble(&self) -> Option<Arc<Notice>> {
        self.outcome.get().err()
    }

    /// The large picture, at this size in pixels, with the dome as it is at the moment looked at. Pictures go by a kiln of their own,
    /// so that a recipe and a seed give the same bytes on every maker's machine: what is asked of them is the moment at which glass in
    /// that kiln has flowed as long.
    pub fn view(&self, size: u32) -> View {
        let minutes = self.viewing.sunk.get();
        let sunk = minutes.map(|minutes| self.course().map_or(minutes, |course| course.pictured(minutes)));
        View { sunk: sunk.map(|minutes| minutes as f32), ..self.viewing.view(size) }
    }

    /// Whether it is watched.
    pub fn is_watched(&self) -> bool {
        self.nav.has_panel(PanelId::SINKING)
    }

    /// The moment looked at: where the needle stands, or where the recipe ends; minutes from when the hold begins.
    pub fn minutes(&self) -> f64 {
        self.course().map_or(0.0, |course| minutes(&course, self.viewing.sunk.get()))
    }

    /// How hot it is then; 0 °C if that cannot be computed.
    pub fn heat(&self) -> Celsius {
        let minutes = self.minutes();
        self.course().map_or(Celsius(0.0), |course| course.heat(minutes))
    }

    /// The dome at that moment, while it is watched.
    pub fn dome(&self) -> Option<Dome> {
        let (at, course) = (self.viewing.sunk.get()?, self.course()?);
        Some(course.dome(at))
    }

    /// Lays the slip under the piece, which is shown slumped; the needle stands where the recipe ends.
    pub fn watch(&self) {
        if self.nav.has_panel_now(PanelId::SINKING) {
            return;
        }
        self.viewing.needle.set(None);
        if self.nav.area.get_untracked() != AreaId::PIECE {
            self.nav.go_to_piece();
        }
        if self.viewing.stage.get_untracked() != Stage::Domed {
            self.viewing.stage.set(Stage::Domed);
        }
        self.nav.open_panel(PanelId::SINKING);
    }

    /// The same, or lays it aside.
    pub fn toggle(&self) {
        if self.nav.has_panel_now(PanelId::SINKING) { self.nav.close_panel() } else { self.watch() }
    }

    /// Looks at another moment.
    pub fn go_to(&self, minutes: f64) {
        let Some(course) = untrack(|| self.course()) else { return };
        self.watch();
        let tidy = (10.0 * course.within(minutes)).round() / 10.0;
        if self.viewing.needle.get_untracked() != Some(tidy) {
            self.viewing.needle.set(Some(tidy));
        }
    }

    /// Holds the recipe's slump for so long, or until the disc has settled; the needle stands where it ends.
    pub fn hold(&self, name: &str, hold: Option<Minutes>) {
        if self.piece.recipe.with_untracked(|recipe| recipe.slump.hold != hold) {
            self.piece.edit(name, |recipe| recipe.slump.hold = hold);
        }
        self.viewing.needle.set(None);
    }
}

/// Where the needle stands, or else where the recipe ends.
fn minutes(course: &Course, needle: Option<f64>) -> f64 {
    needle.unwrap_or_else(|| course.ends())
}
