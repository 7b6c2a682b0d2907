//! The layout by hand in words.

use super::text::lower;
use dappledome::base::shown::Units;
use dappledome::base::units::fixed;

/// The words under the disc, as a group.
pub const BY_HAND: &str = "Layout by hand";
/// Lays another patch.
pub const ADD_A_PATCH: &str = "Add a patch";
/// Lays another accent.
pub const ADD_AN_ACCENT: &str = "Add an accent";
/// Takes the sponge up.
pub const SPONGE_OFF_BY_HAND: &str = "Sponge off by hand";
/// Lays the sponge aside.
pub const DONE: &str = "Done";
/// All that was rubbed off lies there again.
pub const PUT_POWDER_BACK: &str = "Put the powder back";
/// A coat without what was done by hand.
pub const BACK_TO_HOW_IT_FELL: &str = "Back to how it fell";
/// Accents without what was done by hand.
pub const BACK_TO_HOW_THEY_FELL: &str = "Back to how they fell";
/// What was done: back to how it fell.
pub const BACK_TO_HOW_IT_FELL_STEP: &str = "back to how it fell";
/// What was done: a stroke of the sponge.
pub const SPONGING_OFF: &str = "sponging off";
/// What was done: all strokes of the sponge taken back.
pub const POWDER_PUT_BACK: &str = "powder put back";
/// What was done: an accent laid.
pub const ACCENT_ADDED: &str = "added accent";
/// What the hand can do to the patches of a coat.
pub const MOVE_PATCHES: &str = "Drag a patch to move it, or the knob on the rim to turn the coat.";
/// What the hand can do to the accents.
pub const MOVE_ACCENTS: &str = "Drag an accent to move it.";
/// The keys of what lies there.
pub const HAND_KEYS: &str = "Arrows move it 1 mm, with Shift 0.2 mm; Delete takes it off.";

/// The keys of the sponge.
pub const SPONGE_KEYS: &str = "The sponge is in your hand. Arrows move it over the glass, space presses it down and \
    lifts it again, Escape lays it aside.";

/// Mirrors a coat.
pub fn mirror_coat(powder: &str) -> String {
    format!("Mirror {}", lower(powder))
}

/// A width of the sponge.
pub fn sponge_width(width: f64, units: Units) -> String {
    format!("{} wide", units.say_length(width, 0))
}

/// The knob.
pub fn knob(powder: &str) -> String {
    format!("Turn of {}", lower(powder))
}

/// How far a coat is turned.
pub fn turned(powder: &str, degrees: f64) -> String {
    format!("{} turned {degrees}°", lower(powder))
}

/// What was done: a coat turned.
pub fn turn_step(powder: &str) -> String {
    format!("turn of {}", lower(powder))
}

/// What was done: a patch moved, or an accent if there is no powder.
pub fn move_step(powder: &str) -> String {
    if powder.is_empty() { "move of an accent".into() } else { format!("move of a {} patch", lower(powder)) }
}

/// What was done: a patch taken off, or an accent if there is no powder.
pub fn off_step(powder: &str) -> String {
    if powder.is_empty() { "accent taken off".into() } else { format!("{} patch taken off", lower(powder)) }
}

/// What was done: a patch laid.
pub fn patch_added(powder: &str) -> String {
    format!("added {} patch", lower(powder))
}

/// A patch.
pub fn patch(powder: &str, share: f32, middle: [f32; 2], units: Units) -> String {
    let share = if share < 0.01 { "under 1".into() } else { fixed(share * 100.0, 0) };
    format!("{powder} patch, {share} % of the disc, {}", from_crown(middle, units))
}

/// An accent.
pub fn accent(middle: [f32; 2], units: Units) -> String {
    format!("Accent, {}", from_crown(middle, units))
}

fn from_crown([x, y]: [f32; 2], units: Units) -> String {
    format!("{} from the crown", units.say_length((x * x + y * y).sqrt().into(), 0))
}

/// How far something was moved: out from the crown or in, and to which side as it is `seen`.
pub fn moved(from: [f32; 2], by: [f32; 2], units: Units, seen: impl Fn([f32; 2]) -> [f32; 2]) -> String {
    let far = (from[0] * from[0] + from[1] * from[1]).sqrt();
    let [right, up] = seen(by);
    let parts = if far < 1.0 {
        [side([right, 0.0]), side([0.0, up])]
    } else {
        let [x, y] = from.map(|mm| mm / far);
        let (out, along) = (by[0] * x + by[1] * y, by[1] * x - by[0] * y);
        let radial = (out.abs(), if out < 0.0 { "in" } else { "out" });
        [radial, side(seen([-along * y, along * x]))]
    };
    let said: Vec<String> = parts
        .iter()
        .filter(|(mm, _)| *mm >= 0.5)
        .map(|(mm, way)| format!("{} {way}", units.say_length((*mm).into(), 0)))
        .collect();
    if said.is_empty() { "where it was".into() } else { format!("moved {}", said.join(", ")) }
}

/// A way, by its length and the side it mostly goes to.
fn side([right, up]: [f32; 2]) -> (f32, &'static str) {
    let way = match (right.abs() >= up.abs(), right >= 0.0, up >= 0.0) {
        (true, true, _) => "right",
        (true, false, _) => "left",
        (false, _, true) => "up",
        (false, _, false) => "down",
    };
    ((right * right + up * up).sqrt(), way)
}

#[cfg(test)]
mod tests {
    use super::*;
    use dappledome::base::shown::{Heat, Lengths};

    #[test]
    fn how_far_something_was_moved_is_said_in_the_shown_unit() {
        let inches = Units { lengths: Lengths::Inches, heat: Heat::Celsius };
        let said = |by, units| moved([0.0, 40.0], by, units, |way| way);
        assert_eq!(said([-3.0, 7.0], Units::default()), "moved 7 mm out, 3 mm left");
        assert_eq!(said([-25.4, -6.35], inches), "moved 1/4 in in, 1 in left");
        assert_eq!(said([0.1, 0.1], inches), "where it was");
        assert_eq!(
            patch("Rust", 0.034, [38.1, 0.0], inches),
            "Rust patch, 3 % of the disc, 1 1/2 in from the crown"
        );
        assert_eq!(sponge_width(8.0, Units::default()), "8 mm wide");
    }
}
