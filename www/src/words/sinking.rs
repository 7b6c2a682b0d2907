//! Watching it sink, in words.

use crate::model::sinking::Touching;
use dappledome::base::shown::{Heat, Units};
use dappledome::base::units::{Celsius, Minutes, fixed, short};

/// Head of the slip.
pub const AS_IT_LIES: &str = "As it lies in the mold";
/// What the joint before the dome is for.
pub const WATCH_IT_SINK: &str = "Watch it sink";
/// Name of the needle of the sink rule and of the joint.
pub const TIME_OF_SLUMP: &str = "Time in the slump";
/// How sure all of it is.
pub const VERIFIED: &str = "Verified mathematics, not yet a kiln: fire a witness and look in.";
/// Under the drawing: its axis.
pub const FROM_THE_CROWN: &str = "from the crown";
/// Instead of *stop here* where the shortest slump goes on beyond it.
pub const TOO_EARLY: &str = "Stop here: too early for any hold";
/// Instead of *stop here* where the recipe stops it already.
pub const ENDS_HERE: &str = "The recipe ends here";

/// Where it touches, as it is said behind other words.
pub fn touches(at: Touching) -> &'static str {
    match at {
        Touching { all: true, .. } => "touches all over",
        Touching { crown: true, rim: true, .. } => "touches at crown and rim",
        Touching { crown: true, wall: true, .. } => "touches at crown and wall",
        Touching { crown: true, .. } => "touches at the crown",
        Touching { rim: true, wall: true, .. } => "touches at rim and wall",
        Touching { rim: true, .. } => "touches at the rim",
        Touching { wall: true, .. } => "touches on the wall",
        _ => "touches nowhere yet",
    }
}

/// A time in the slump, as short as it can be said.
pub fn slump_time(minutes: f64) -> String {
    format!("{} min", number(minutes).replace('-', "−"))
}

/// A moment: on the way up, how hot it is; then how long it is held.
pub fn moment(minutes: f64, now: Celsius, units: Units) -> String {
    if minutes < 0.0 { heat(now, units) } else { slump_time(minutes) }
}

/// Minutes, to a tenth.
fn number(minutes: f64) -> String {
    short(minutes, 1)
}

/// When that is, at which temperature.
pub fn when(minutes: f64, now: Celsius, units: Units) -> String {
    let heat = heat(now, units);
    if minutes < 0.0 { format!("{heat}, going up") } else { format!("{} at {heat}", slump_time(minutes)) }
}

/// A temperature, whole.
pub fn heat(at: Celsius, units: Units) -> String {
    format!("{} {}", short(units.heat(at.0), 0), units.heat_sign())
}

/// How thick the glass is at the crown and at the rim, mm.
pub fn thick_from_to(crown: f64, rim: f64, units: Units) -> String {
    format!("{} thick at the crown, {} at the rim", units.say_length(crown, 1), units.say_length(rim, 1))
}

/// How far the crown still is from the mold, mm.
pub fn to_go(gap: f64, units: Units) -> String {
    if gap < 0.5 {
        "lies in at the crown".into()
    } else {
        format!("{} to go at the crown", units.say_length(gap, 0))
    }
}

/// The needle in words.
pub fn sunk_said(moment: &str, mm: f64, at: Touching, units: Units) -> String {
    format!("{moment}, {}, {}", sunk(mm, units), touches(at))
}

/// How far it has sunk.
pub fn sunk(mm: f64, units: Units) -> String {
    format!("{} sunk", units.say_length(mm, 1))
}

/// What the rule shows.
pub fn rule_title(top: Celsius, units: Units) -> String {
    format!("{} sunk at the crown, up and then held at {}", units.length_sign(), heat(top, units))
}

/// How much faster glass sinks 10 K hotter; below 1, how much slower it sinks 10 K cooler.
pub fn hotter(times: f64, units: Units) -> String {
    let by = if units.heat == Heat::Fahrenheit { "18 °F" } else { "10 °C" };
    if times < 1.0 {
        return format!("{by} cooler sinks {} times slower.", fixed(1.0 / times, 1));
    }
    format!("{by} hotter sinks {} times faster.", fixed(times, 1))
}

/// The button that ends the slump where the needle stands: by which hold, and whether the glass is full then.
pub fn stop_here(minutes: f64, hold: Option<Minutes>, full: bool) -> String {
    match hold {
        None => TOO_EARLY.into(),
        Some(_) if full => format!("Stop here, {}", slump_time(minutes)),
        Some(_) => format!("Stop here, {}: a shallow dome", slump_time(minutes)),
    }
}

/// What the recipe holds it for then, and why that is less.
pub fn held_for(hold: Minutes) -> String {
    format!("Hold {}, the fall does the rest.", slump_time(hold.0))
}

/// The mark where the glass is full.
pub fn full_at(minutes: f64) -> String {
    format!("full at {}", number(minutes))
}

/// The mark where the recipe ends, with its hold.
pub fn stops_at(hold: Minutes) -> String {
    format!("held {}", number(hold.0))
}

/// The joint, for those who do not see it.
pub fn watch_it_sink(moment: &str) -> String {
    format!("slump {moment}. {WATCH_IT_SINK}")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::sinking::Touching;
    use dappledome::base::shown::Lengths;

    #[test]
    fn the_needle_is_said() {
        let at = Touching { rim: true, ..Touching::default() };
        let five = moment(5.0, Celsius(640.0), Units::default());
        assert_eq!(moment(-1.0, Celsius(637.5), Units::default()), "638 °C");
        assert_eq!(sunk_said(&five, 29.62, at, Units::default()), "5 min, 29.6 mm sunk, touches at the rim");
        assert_eq!([-0.04, -11.0, 5.25].map(slump_time), ["0 min", "−11 min", "5.3 min"]);
    }

    #[test]
    fn a_difference_of_temperatures_has_no_zero_to_shift() {
        let units = Units { heat: Heat::Fahrenheit, lengths: Lengths::Millimeters };
        assert_eq!(hotter(1.66, units), "18 °F hotter sinks 1.7 times faster.");
        assert_eq!(hotter(0.6, Units::default()), "10 °C cooler sinks 1.7 times slower.");
        assert_eq!(heat(Celsius(640.0), units), "1184 °F");
    }
}
