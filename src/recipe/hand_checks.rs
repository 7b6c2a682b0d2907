//! What can be wrong with what is laid by hand: how much of it, and how far away.

use super::by_hand::{ByHand, Goes, Place, Rub};
use super::check::Check;
use super::limits;
use super::model::{Accents, Recipe};
use crate::base::notice::Step;
use crate::base::units::{Mm, plain};

/// The patches of a coat. Of several places out of range one is named.
pub(super) fn patches(check: &mut Check, step: Step, hand: &ByHand) {
    if !few(check, step, hand.moved.len(), limits::MOST_MOVED, "patches moved by hand")
        | !few(check, step, hand.added.len(), limits::MOST_ADDED, "patches added by hand")
    {
        return;
    }
    let _ = hand.moved.iter().all(|moved| {
        place(check, step, "The place of a moved patch", moved.at)
            && match moved.goes {
                Goes::Off => true,
                Goes::By(way) => place(check, step, "The way a patch is moved", way),
            }
    });
    let _ = hand.added.iter().all(|added| {
        place(check, step, "The place of an added patch", added.at)
            && check.length(step, "The width of an added patch", added.across, limits::ADDED_ACROSS)
    });
}

/// What is rubbed off.
pub(super) fn rubs(check: &mut Check, rubs: &[Rub]) {
    let step = Step::Sponge;
    if !few(check, step, rubs.len(), limits::MOST_RUBS, "rubs") {
        return;
    }
    let sound = rubs.iter().all(|rub| {
        few(check, step, rub.path.len(), limits::MOST_RUB_PLACES, "places in one rub")
            && check.length(step, "The width of a rub", rub.width, limits::RUB_WIDTH)
            && rub.path.iter().all(|at| place(check, step, "The place of a rub", *at))
    });
    let places = rubs.iter().map(|rub| rub.path.len()).sum();
    if sound && !few(check, step, places, limits::MOST_PLACES_RUBBED, "places in all rubs") {
        return;
    }
    let area: f64 = if sound { rubs.iter().map(Rub::passes_over).sum() } else { 0.0 };
    if area > limits::MOST_RUBBED {
        check.fault(
            step,
            "Rubbed over and over.",
            format!(
                "The rubs pass over {} m² in all, and at most {} m² are followed.",
                plain(area / 1e6),
                plain(limits::MOST_RUBBED / 1e6)
            ),
            "Put the powder back, and rub with fewer turns.",
        );
    }
}

impl Rub {
    /// Area of all stretches of its path with their ends, mm².
    pub fn passes_over(&self) -> f64 {
        let across = self.width.0 + 2.0;
        let stretch = |a: &Place, b: &Place| {
            let (x, y) = (b[0] - a[0], b[1] - a[1]);
            ((x * x + y * y).sqrt() + across) * across
        };
        across * across + self.path.windows(2).map(|pair| stretch(&pair[0], &pair[1])).sum::<f64>()
    }
}

/// The accents; false if they cannot be placed.
pub(super) fn accents(check: &mut Check, recipe: &Recipe, accents: &Accents) -> bool {
    let step = Step::Accents;
    let layout = &accents.layout;
    let sound = few(check, step, layout.moved.len(), limits::MOST_MOVED, "accents moved by hand")
        & few(check, step, layout.taken_off.len(), limits::MOST_TAKEN_OFF, "accents taken off")
        & few(check, step, layout.added.len(), limits::MOST_ADDED, "accents added by hand");
    sound
        && layout.moved.iter().all(|moved| on_the_disc(check, recipe, (moved.x, moved.y), accents.grade_to))
        && layout.added.iter().all(|added| {
            check.length(step, "The size of an added accent", added.size, limits::GRADE)
                && on_the_disc(check, recipe, (added.x, added.y), added.size)
        })
}

/// Whether a piece of this size, laid here, does not stick out over the rim; a fault if it does.
fn on_the_disc(check: &mut Check, recipe: &Recipe, (x, y): (f64, f64), size: Mm) -> bool {
    let step = Step::Accents;
    if !place(check, step, "The place of an accent", [x, y]) {
        return false;
    }
    let most = (recipe.blank.diameter.0 - size.0) / 2.0;
    let from_middle = (x * x + y * y).sqrt();
    // What cannot be a disc has its fault already.
    let holds = from_middle <= most || !limits::DISC.holds(recipe.blank.diameter.0);
    if !holds {
        check.fault(
            step,
            "An accent off the disc.",
            format!(
                "A piece of {size} laid {} from the middle sticks out over the rim of a disc of {}.",
                Mm(from_middle),
                recipe.blank.diameter
            ),
            format!("Lay it at most {} from the middle, or take it off.", Mm((most * 100.0).floor() / 100.0)),
        );
    }
    holds
}

fn place(check: &mut Check, step: Step, name: &str, at: Place) -> bool {
    at.iter().all(|mm| check.range(step, name, *mm, limits::PLACE, "mm"))
}

/// Whether there are at most so many; a fault if not.
fn few(check: &mut Check, step: Step, count: usize, most: usize, of_what: &str) -> bool {
    if count > most {
        check.fault(
            step,
            "Too much by hand.",
            format!("There are {count} {of_what}."),
            format!("Keep at most {most}, or let it lie as it fell."),
        );
    }
    count <= most
}
