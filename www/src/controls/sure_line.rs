//! How sure the colors of a glass are, over the depth of its powder.

use super::ladder::{along, rungs};
use crate::words;
use dappledome::base::scalar::Bounds;
use dappledome::tiles::sureness::{By, Sureness};
use leptos::prelude::*;

/// What the top of the chart stands for, CIEDE2000.
const TOP: f32 = 8.0;

/// How far a color may be off at each depth, as a line over the axis of a ladder; nothing for a glass that no tile was fired of.
pub fn sure_line(sureness: &Sureness) -> Option<AnyView> {
    let Sureness::Tiles(_) = sureness else { return None };
    let points = rungs().into_iter().filter_map(|depth| {
        let off = sureness.at(depth, By::Day)?.at_most(TOP);
        Some(format!("{:.1},{:.1}", along(depth) * 400.0, (1.0 - off / TOP) * 60.0))
    });
    let points: Vec<String> = points.collect();
    let drawn = view! {
        <svg class="sure-line" viewBox="0 0 400 60" preserveAspectRatio="none" role="img" aria-label=words::HOW_SURE_LINE>
            <line class="grid" x1="0" x2="400" y1="15" y2="15" />
            <line class="grid" x1="0" x2="400" y1="30" y2="30" />
            <line class="grid" x1="0" x2="400" y1="45" y2="45" />
            <polyline points=points.join(" ") />
        </svg>
        <p class="aside">{words::SURE_AXIS}</p>
    };
    Some(drawn.into_any())
}
