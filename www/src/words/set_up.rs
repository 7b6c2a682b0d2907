//! Units, frame, keys and what this is, in words.

/// Millimeters or inches.
pub const LENGTHS: &str = "Lengths";
/// A unit.
pub const MILLIMETERS: &str = "mm";
/// A unit.
pub const INCHES: &str = "Inches";
/// °C or °F.
pub const TEMPERATURES: &str = "Temperatures";
/// A unit.
pub const CELSIUS: &str = "°C";
/// A unit.
pub const FAHRENHEIT: &str = "°F";
/// The paper around the table.
pub const FRAME: &str = "Frame";
/// Light paper.
pub const FRAME_LIGHT: &str = "Light";
/// Dark paper.
pub const FRAME_DARK: &str = "Dark";
/// As the system has it.
pub const FRAME_SYSTEM: &str = "Same as the system";
/// Unfolds the list of keys.
pub const KEYS: &str = "Keys";
/// Unfolds what this is.
pub const ABOUT: &str = "About";

/// The keys of each place.
pub const ALL_KEYS: [(&str, &str); 8] = [
    (
        "Anywhere",
        "Ctrl or Cmd with Z undoes; with Shift and Z, or with Y, redoes. F2 goes from the recipe to the piece and back. \
         Esc closes what lies open.",
    ),
    (
        "Glass",
        "Arrows turn and tilt 5°, with Shift 1°. + and - bring nearer and farther, 0 sets straight. Page Up and Page \
         Down take the next and previous seed. 1 2 3 choose a stage. Space changes the light, L opens what it is seen in. \
         Enter takes a core sample.",
    ),
    ("Core sample", "Arrows move the ring 1 mm, with Shift 0.2 mm. Enter lays it aside."),
    (
        "Rule",
        "Arrows move a step, with Shift a tenth; Page Up and Page Down ten. Home and End go to the ends. A digit or \
         Enter begins typing. Backspace sets the usual value. Esc puts back what is being dragged.",
    ),
    (
        "Tray",
        "Arrows, Home and End move. Enter works on a sister, Space keeps her, 1 and 2 lift her left and right, Delete \
         puts her away.",
    ),
    ("Wipe", "Arrows move the edge, with Shift less. Home and End go to the sides."),
    (
        "Shelf",
        "Arrows, Home and End move. Enter takes a piece up, Delete takes it away, Tab goes to its words.",
    ),
    ("Customer", "Left and Right change the piece. Space changes the light, Enter chooses, Esc goes back."),
];

/// What this is, and under which terms.
pub fn about(version: &str) -> String {
    format!(
        "Dappledome {version} shows how powder on glass falls, fuses and slumps, before any of it is sifted. Free \
         under the MIT license. All demo data is invented."
    )
}

/// The browser was asked not to clear what it keeps, and did not promise.
pub const NO_PROMISE: &str =
    "This browser has not promised to keep your pieces when the disk runs short. Back up now and then.";

/// Under it.
pub const NOTHING_LEAVES: &str =
    "Nothing you make leaves this machine. Units and frame are kept in this browser.";
