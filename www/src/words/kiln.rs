//! Kilns in words.

use dappledome::base::units::{fixed, plain};
use dappledome::kiln::cooling::Fitted;
use dappledome::kiln::data::{Guess, Kiln, Lining, Reading};

/// Head of the kiln on the shelf.
pub const YOUR_KILN: &str = "Kiln";
/// What the choice of kilns is for.
pub const WHICH_KILN: &str = "Programs are reckoned for";
/// The maker's own kiln.
pub const AN_OWN_KILN: &str = "My kiln";
/// That a kiln is a guess.
pub const A_GUESS: &str = "A guess, no one’s kiln. Describe yours, and hours and energy become yours.";
/// What an own kiln is.
pub const OWN_KILN_IS: &str = "Kept in this browser; it is no part of any piece.";
/// A number of a kiln.
pub const INSIDE_WIDE: &str = "Inside, left to right";
/// See above.
pub const INSIDE_DEEP: &str = "Inside, front to back";
/// See above.
pub const INSIDE_HIGH: &str = "Inside, floor to lid";
/// See above.
pub const SHELF_WIDE: &str = "Shelf, left to right or across";
/// See above.
pub const SHELF_DEEP: &str = "Shelf, front to back";
/// See above.
pub const KEEP_FROM_EDGE: &str = "Keep from its edge";
/// See above.
pub const BETWEEN_PIECES: &str = "Between pieces";
/// See above.
pub const WALL: &str = "Wall";
/// See above.
pub const POWER: &str = "Power on its plate";
/// See above.
pub const MADE_FOR: &str = "Made for";
/// See above.
pub const GETS: &str = "Gets";
/// See above.
pub const A_KWH_COSTS: &str = "A kWh costs";
/// See above.
pub const METERED: &str = "Your meter, one full fuse of this piece";
/// Beside a number that nobody has given.
pub const NOT_WRITTEN: &str = "not written down";
/// What its walls are of.
pub const LINING: &str = "Walls";
/// The form of its shelf.
pub const SHELF_FORM: &str = "Its shelf";
/// A form.
pub const SQUARE: &str = "square";
/// A form.
pub const ROUND: &str = "round";
/// Head of the cooling.
pub const HOW_IT_COOLS: &str = "How it cools";
/// Opens the readings.
pub const WRITE_DOWN_A_COOLING: &str = "Write down a cooling";
/// What to write.
pub const COOLING_HELP: &str = "Off, the lid shut: hours on the clock and °C on the display, a reading a line, such as 0 500, \
    then 2 300, then 5 130. Three suffice.";
/// The field of the readings.
pub const READINGS: &str = "Readings, hours and °C";
/// Takes the readings.
pub const TAKE_READINGS: &str = "Use it";
/// Lets them be forgotten.
pub const FORGET_READINGS: &str = "Forget the readings";
/// A line of readings that is none.
pub const NOT_A_READING: &str = "Write hours and °C in each line, such as 2 300.";
/// Heads of the table of a cooling.
pub const COOLING_HEADS: [&str; 2] = ["Hours", "°C"];
/// Beside the kiln.
pub const WIRING: &str =
    "Wiring, breaker and clearances: your local code and a licensed electrician. Vent it outdoors.";

/// A guess by its word.
pub fn guess(guess: Guess) -> &'static str {
    match guess {
        Guess::SmallBrick => "small brick",
        Guess::LargeBrick => "large brick",
        Guess::Fiber => "fiber",
    }
}

/// A kiln in one line.
pub fn kiln_in_words(kiln: &Kiln) -> String {
    let inside = kiln.inside;
    format!(
        "{} × {} × {} mm inside, walls of {} {} mm thick, {} kW.",
        plain(inside.wide.0),
        plain(inside.deep.0),
        plain(inside.high.0),
        lining(kiln.lining),
        plain(kiln.wall.0),
        plain(kiln.power)
    )
}

/// What walls are of.
pub fn lining(lining: Lining) -> &'static str {
    match lining {
        Lining::Brick => "brick",
        Lining::Fiber => "fiber",
    }
}

/// What a cooling said.
pub fn fitted(fitted: &Fitted, readings: usize) -> String {
    format!(
        "From {readings} readings: time constant {} h, readings off by {} °C.",
        fixed(fitted.hours, 1),
        fixed(fitted.off, 0)
    )
}

/// A cooling that an opening of the log has told.
pub const BY_ITS_OPENING: &str = "As it could be opened after a firing in your log.";
/// A cooling that nobody has read.
pub const BY_ITS_WALLS: &str = "By its size and walls; not read yet.";

/// Readings as they are written.
pub fn readings(readings: &[Reading]) -> String {
    let lines: Vec<String> =
        readings.iter().map(|reading| format!("{} {}", plain(reading.hours), plain(reading.at.0))).collect();
    lines.join("\n")
}

/// Money with two decimals.
pub fn money(money: f64) -> String {
    fixed(money, 2)
}

#[cfg(test)]
mod tests {
    use super::*;
    use dappledome::base::units::Celsius;

    #[test]
    fn readings_are_written_a_line_each() {
        let two = [Reading { hours: 0.0, at: Celsius(500.0) }, Reading { hours: 2.5, at: Celsius(300.0) }];
        assert_eq!(readings(&two), "0 500\n2.5 300");
    }
}
