//! What comes of a core sample.

use crate::state::nav::Nav;
use crate::state::results::Results;
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::base::shown::Units;
use dappledome::preview::{Point, Sampled};
use leptos::prelude::*;

/// Receives the core sample that was asked for at a point; gives what there is to say of it. From now on the ring stays
/// where it is on the glass, however the piece is turned; unless it was moved on meanwhile.
pub fn bring(
    piece: Workpiece,
    results: Results,
    nav: Nav,
    units: Units,
    asked: Point,
    sample: Option<Sampled>,
) -> Option<String> {
    let Some(sample) = sample else {
        // A press beside the glass lays the panel aside.
        if results.sample.with_untracked(Option::is_none) {
            nav.close_panel();
        }
        return None;
    };
    let place = Point::Place(sample.sample.x, sample.sample.y);
    // Written only if it is another one: else the sample would be asked for again, without end.
    if results.sample_point.get_untracked() == asked && asked != place {
        results.sample_point.set(place);
    }
    if results.sample.with_untracked(|old| old.as_ref() == Some(&sample)) {
        return None;
    }
    let said = words::sample_said(&untrack(|| piece.made()).0, &sample.sample, units);
    results.sample.set(Some(sample));
    Some(said)
}
