//! The keys of the large picture.

use crate::areas::viewer::core_sample::Sampling;
use crate::areas::viewer::layout::{HandLayout, sponge};
use crate::model::ids::PanelId;
use crate::state::nav::Nav;
use crate::state::viewing::Viewing;
use crate::state::workpiece::Workpiece;
use dappledome::picture::view::Stage;
use leptos::prelude::*;
use web_sys::KeyboardEvent;

/// Degrees by which an arrow turns or tilts the piece, and with Shift.
const TURN: (f32, f32) = (5.0, 1.0);
/// How much nearer a key brings it.
const NEARER: f32 = 1.15;

/// What keys on the large picture change.
#[derive(Clone, Copy)]
pub struct GlassKeys {
    /// The layout by hand, which hears them first.
    pub layout: HandLayout,
    /// The core sample, which hears them next.
    pub sampling: Sampling,
    /// How the piece is looked at.
    pub viewing: Viewing,
    /// The piece.
    pub piece: Workpiece,
    /// What lies open.
    pub nav: Nav,
}

impl GlassKeys {
    /// A key on the picture.
    pub fn press(&self, event: &KeyboardEvent) {
        if event.ctrl_key() || event.meta_key() || event.alt_key() {
            return;
        }
        if sponge::key(self.layout, event) {
            event.stop_propagation();
            event.prevent_default();
        } else if self.sampling.key(event) || self.look(&event.key(), event.shift_key()) {
            event.prevent_default();
        }
    }

    /// Looks at the piece in another way; whether the key means one.
    fn look(&self, key: &str, fine: bool) -> bool {
        let by = if fine { TURN.1 } else { TURN.0 };
        let Self { viewing, piece, nav, .. } = self;
        match key {
            "ArrowLeft" => viewing.turn(-by, 0.0),
            "ArrowRight" => viewing.turn(by, 0.0),
            "ArrowUp" => viewing.turn(0.0, -by),
            "ArrowDown" => viewing.turn(0.0, by),
            "+" | "=" => viewing.nearer(NEARER),
            "-" => viewing.nearer(1.0 / NEARER),
            "0" => viewing.straighten(),
            "PageUp" => piece.sow_next(1),
            "PageDown" => piece.sow_next(-1),
            "1" => viewing.stage.set(Stage::Sifted),
            "2" => viewing.stage.set(Stage::Fused),
            "3" => viewing.stage.set(Stage::Domed),
            " " => viewing.next_light(),
            "l" | "L" => nav.toggle_panel(PanelId::SEEN_IN),
            _ => return false,
        }
        true
    }
}
