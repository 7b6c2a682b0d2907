//! The words of the page as a whole: its landmarks, the recipe's steps, the table and its panels.

use super::firings::{IN_KILN, kiln_total, kiln_within};
use super::recipe::{dimensions, grams};
use super::text::{capital, lower, plain};
use crate::model::records::Origin;
use dappledome::base::notice::{Mend, Notice, Severity};
use dappledome::base::shown::{Heat, Lengths, Units};
use dappledome::base::typed::Kind;
use dappledome::base::units::{fixed, short};
use dappledome::picture::view::{Light, Stage};
use dappledome::shop::ticket::Ticket;

/// Landmarks and skip links.
pub const RECIPE: &str = "Recipe";
/// The large picture with its controls.
pub const PIECE: &str = "Piece";
/// The spine.
pub const STAGES: &str = "Stages";
/// The seed's line.
pub const SEED: &str = "Seed";
/// The light's line.
pub const LIGHT: &str = "Light";
/// The numbers at the foot.
pub const TICKET: &str = "Ticket";
/// First skip link.
pub const TO_RECIPE: &str = "To the recipe";
/// Second skip link.
pub const TO_PIECE: &str = "To the piece";

/// Under the name of an untouched demo recipe.
pub const INVENTED: &str = "Invented, and yours to change";
/// Label of the name's field.
pub const NAME: &str = "Name of the piece";
/// Above the number of pieces.
pub const TICKET_FOR: &str = "Ticket for";
/// Before the words that add something.
pub const ADD: &str = "Add";
/// A coat to add, with its powder.
pub fn coat_of(glass: &str) -> String {
    format!("coat of {}", lower(glass))
}
/// A sheet to add.
pub const SHEET: &str = "sheet";
/// The sponge, to add.
pub const SPONGE: &str = "sponge";
/// Accents to add.
pub const ACCENTS: &str = "accents";

/// Even, patches, or thick and thin.
pub const HOW_IT_FALLS: &str = "How the powder falls";
/// Opens the choice of powders.
pub const POWDER: &str = "Powder";
/// What the halves of a powder's color stand for.
pub const POWDER_HALVES: &str = "Left as sifted, right as fired, on this base.";
/// What the halves of the color of an accent's glass stand for.
pub const FRIT_HALVES: &str = "Left as loose frit, right as fired, on this base.";
/// What the halves of a sheet's color stand for.
pub const SHEET_HALVES: &str = "Left by itself, right in this stack.";
/// Opens what can be done with a coat.
pub const COAT_MENU: &str = "Coat";
/// The coat is sifted before the one above it.
pub const MOVE_EARLIER: &str = "Move earlier";
/// The coat is sifted after the one below it.
pub const MOVE_LATER: &str = "Move later";
/// Another coat like this one.
pub const COPY: &str = "Copy";
/// Out of the recipe with it.
pub const TAKE_OUT: &str = "Take out";
/// The rest of the rules.
pub const DETAILS: &str = "Details";
/// Nothing under *Details* differs from what is usual.
pub const AS_USUAL: &str = "as usual";
/// Keeps a coat's fall whatever the seed.
pub const LOCK: &str = "Lock layout";
/// Left to right.
pub const MIRROR: &str = "Mirror";
/// Head of the blend under *Details*.
pub const BLEND: &str = "Blend, in spoons of each";
/// Opens the list of glasses to blend in.
pub const BLEND_IN: &str = "Blend in";
/// What was advised, done.
pub const REMEDY: &str = "remedy";
/// Folds a notice.
pub const KEEP_AS_IS: &str = "Keep as is";
/// Head of the accents' glasses.
pub const GLASSES: &str = "Glasses, by share";
/// Another glass among the accents.
pub const ADD_GLASS: &str = "Add a glass";
/// Another sheet on the stack.
pub const ADD_SHEET: &str = "Add a sheet";
/// Adds nothing.
pub const NONE: &str = "None";
/// The sponge is used.
pub const DAB: &str = "Dab";
/// Which face is outside.
pub const POWDER_SIDE: &str = "Powder side";
/// The form of the mold.
pub const MOLD: &str = "Mold";

/// Takes the last change back.
pub const UNDO: &str = "Undo";
/// Brings it again.
pub const REDO: &str = "Redo";
/// The words for which there is no room.
pub const MORE: &str = "More";
/// Everything that was done.
pub const STEPS: &str = "Steps";
/// How the piece stood before anything was done.
pub const AT_FIRST: &str = "at first";
/// The maker's pieces.
pub const SHELF: &str = "Shelf";
/// What is printed.
pub const PAPER: &str = "Paper";
/// Ways out and in.
pub const SHARE: &str = "Share";
/// Units, frame, keys.
pub const SET_UP: &str = "Set-up";
/// Lays a slip or an area aside.
pub const CLOSE: &str = "Close";
/// Puts a link to the piece on the clipboard.
pub const COPY_LINK: &str = "Copy link";
/// Writes the recipe as a file.
pub const SAVE_RECIPE: &str = "Save recipe";
/// Writes the large picture as a file.
pub const SAVE_PICTURE: &str = "Save picture";
/// Lets a file be chosen.
pub const OPEN_FILE: &str = "Open a file";
/// What the slip is for.
pub const SHARE_HELP: &str = "The link and the picture hold the whole recipe and its seed: whoever opens them in \
    Dappledome sees this piece. Files, pictures and links can also be dropped or pasted anywhere on this page.";
/// Where the link leads to a program on this machine.
pub const LINK_STAYS_HERE: &str = "A link from here opens only on this machine: Dappledome runs on it. To send the piece to \
    somebody else, save its picture or its recipe and send the file: the picture brings recipe and seed along.";
/// The browser does not let the page copy.
pub const COPY_BY_HAND: &str = "This browser does not let the page copy. Copy the link from here:";
/// What is refused, if it has no name of its own.
pub const A_LINK: &str = "the link";
/// What is refused, if it has no name of its own.
pub const THE_CLIPBOARD: &str = "what was pasted";
/// The seed before.
pub const PREVIOUS: &str = "Previous seed";
/// The seed after.
pub const NEXT: &str = "Next seed";
/// Another seed by chance.
pub const ROLL: &str = "Roll";
/// Beside the picture, always.
pub const FORECAST: &str = "A forecast. Two hands never sift alike.";
/// Beside the seed, until the first other one is taken.
pub const WHAT_SEEDS_ARE: &str = "A seed is one fall of the powder, the same each time. Other seeds of this recipe are its \
    sisters; Roll takes one by chance.";
/// Beside the picture of a recipe that cannot be made.
pub const AS_IT_LAST_WORKED: &str = "Shown as it last worked.";
/// While nothing has been computed yet.
pub const UNKNOWN: &str = "–";

/// Foot of the ticket.
pub const POWDER_TO_WEIGH: &str = "Powder to weigh";
/// Size of the finished piece.
pub const FINISHED: &str = "Finished";
/// Discs to cut.
pub const GLASS: &str = "Glass";

/// The welcome, in weight.
pub const WELCOME: &str = "This is Ember Walk, a hood for a garden light.";
/// The welcome, going on.
pub const WELCOME_MORE: &str =
    "Change any line of the recipe and watch it fire. Nothing you make leaves this machine.";
/// A recipe with nothing on it.
pub const BARE_BLANK: &str = "A bare blank";
/// A file was refused.
pub const CHOOSE_ANOTHER: &str = "Choose another file";
/// Closes the slip of a refused file.
pub const LEAVE_IT: &str = "Leave it";
/// The worker broke twice.
pub const STOPPED: &str = "The picture stopped.";
/// What that means.
pub const STOPPED_MORE: &str = "Your recipe is safe.";
/// Asks once more.
pub const DRAW_AGAIN: &str = "Draw it again";
/// A part of the page that is fetched when it is first opened.
pub const PART: &str = "A part of the page";
/// It is on its way.
pub const PART_COMES: &str = "This part of the page is on its way.";
/// It did not come.
pub const PART_MISSING: &str =
    "This part of the page did not arrive. Nothing is lost; please check the connection.";
/// Asks for it again.
pub const TRY_AGAIN: &str = "Try again";
/// A newer version of the page did not open.
pub const WENT_BACK: &str = "The new version did not arrive whole.";
/// What was done about it.
pub const WENT_BACK_MORE: &str =
    "This is the one before it, and your pieces are as they were. The new one is fetched again by itself.";
/// A newer version of the page was fetched.
pub const NEW_VERSION: &str = "A new version is ready.";
/// What using it does.
pub const NEW_VERSION_MORE: &str = "Using it loads the page again; save your recipe first.";
/// Opens the page anew in the newer version.
pub const USE_IT_NOW: &str = "Use it now";
/// Leaves it for when the page is opened again.
pub const NEXT_TIME: &str = "Next time";
/// What the large picture is, to those who do not see it.
pub const GLASS_ROLE: &str = "piece of glass, to turn";
/// Its keys.
pub const GLASS_KEYS: &str = "Arrows turn and tilt, plus and minus bring it nearer or farther, 0 sets it \
    straight, page up and page down take the next or previous seed, 1 2 3 choose a stage, space changes the light, L opens what it is seen in.";

/// Where a piece came from.
pub fn origin(origin: Origin) -> &'static str {
    match origin {
        Origin::Link => "From a link. Kept as a new piece.",
        Origin::File => "From a file. Kept as a new piece.",
    }
}

/// The name of a stage.
pub fn stage(stage: Stage) -> &'static str {
    match stage {
        Stage::Sifted => "Sifted",
        Stage::Fused => "Fused",
        Stage::Domed => "Slumped",
    }
}

/// What lies between a stage and the next.
pub fn joint(stage: Stage) -> &'static str {
    match stage {
        Stage::Sifted => "full fuse",
        Stage::Fused | Stage::Domed => "slump",
    }
}

/// The name of a light.
pub fn light(light: Light) -> &'static str {
    match light {
        Light::Day => "Day",
        Light::Within => "Lit",
        Light::Gray => "Gray",
    }
}

/// Label of the button that turns a value into a field.
pub fn type_value(name: &str, said: &str) -> String {
    format!("{name}, {said}: type it")
}

/// What can be typed.
pub fn typing_help(kind: Kind, units: Units) -> &'static str {
    match kind {
        Kind::Length if units.lengths == Lengths::Inches => "Write a length, such as 6 in or 152 mm.",
        Kind::Temperature if units.heat == Heat::Fahrenheit => {
            "Write a temperature, such as 1450 °F or 790 °C."
        }
        Kind::Length => "Write a length, such as 152 mm or 6 in.",
        Kind::Share => "Write a percentage, such as 34 %.",
        Kind::Temperature => "Write a temperature, such as 790 °C or 1450 °F.",
        Kind::HeatRate if units.heat == Heat::Fahrenheit => "Write a rate, such as 270 °F/h.",
        Kind::HeatRate => "Write a rate, such as 150 °C/h.",
        Kind::Time => "Write a time, such as 10 min or 1 h 20.",
        Kind::Mass => "Write a weight, such as 5.6 g or 0.2 oz.",
        Kind::Angle => "Write an angle, such as 30°.",
        Kind::Number => "Write a number, such as 2.",
    }
}

/// What was typed lies below the range.
pub fn kept_at_smallest(kind: Kind, smallest: &str) -> String {
    let end = match kind {
        Kind::Temperature => "Lowest",
        Kind::Time => "Shortest",
        Kind::HeatRate => "Slowest",
        _ => "Smallest",
    };
    format!("{end} is {smallest}: kept at {smallest}.")
}

/// What was typed lies above the range.
pub fn kept_at_largest(kind: Kind, largest: &str, kept: &str) -> String {
    let end = match kind {
        Kind::Temperature => "Highest",
        Kind::Time => "Longest",
        Kind::HeatRate => "Fastest",
        _ => "Largest",
    };
    format!("{end} is {largest}: kept at {kept}.")
}

/// How many notices ask for a look.
pub fn to_look_at(n: usize) -> String {
    format!("{n} {} to look at", if n == 1 { "thing" } else { "things" })
}

/// How much a notice matters, to those who do not see its bar.
pub fn severity(severity: Severity) -> &'static str {
    match severity {
        Severity::Fault => "Cannot work: ",
        Severity::Risk => "A risk: ",
        Severity::Note => "Worth knowing: ",
    }
}

/// What a remedy does, on its button.
pub fn mend(mend: &Mend) -> String {
    match mend {
        Mend::AddSheet(thickness) => format!("Add clear, {thickness}"),
        Mend::Cut(diameter) => format!("Cut {diameter}"),
        Mend::Sift(depth) => format!("Sift {depth}"),
        Mend::Depth(depth) => format!("Make it {depth} deep"),
        Mend::FromRim(distance) => format!("Set them {distance} in"),
        Mend::Gap(gap) => format!("Keep {gap} apart"),
        Mend::Dam(width) => format!("Dam at {width}"),
        Mend::Top(_, top) => format!("Fire to {top}"),
        Mend::Rate(_, _, rate) => format!("Use {} °C/h", short(*rate, 1)),
        Mend::Hold(_, _, hold) => format!("Hold {hold}"),
        Mend::Usual(..) => "As usual".into(),
        Mend::Stopper(number) => format!("Take No. {number}"),
        Mend::InGround(depth) => format!("Set it {depth} deep"),
    }
}

/// Sifts one coat again.
pub fn reroll(powder: &str) -> String {
    format!("Re-roll {}", lower(powder))
}

/// What a step back takes back, after its word.
pub fn after(what: Option<&String>) -> String {
    what.map_or_else(String::new, |what| format!(": {what}"))
}

/// The name of taking up another recipe.
pub fn opening(title: &str) -> String {
    format!("opening {}", plain(title))
}

/// A recipe file that holds faults.
pub fn cannot_be_made(file: &str) -> String {
    format!("Cannot be made: {file}.")
}

/// The first three faults of a file, and how many more there are.
pub fn faults(faults: &[&Notice]) -> String {
    let mut said: Vec<String> =
        faults.iter().take(3).map(|fault| format!("{} {}", fault.why, fault.remedy)).collect();
    if faults.len() > 3 {
        said.push(format!("And {} more.", faults.len() - 3));
    }
    said.join(" ")
}

/// The name of a piece's file: letters and digits of its title, and an end.
pub fn file_name(title: &str, end: &str) -> String {
    let letter = |c: char| if c.is_ascii_alphanumeric() || !c.is_ascii() { c } else { ' ' };
    let spaced: String = title.to_lowercase().chars().map(letter).collect();
    let words: Vec<&str> = spaced.split_whitespace().collect();
    let name = if words.is_empty() { "piece".into() } else { words.join("-") };
    format!("{name}.{end}")
}

/// Whether a file's name says that it is a PNG.
pub fn is_png(file: &str) -> bool {
    file.to_ascii_lowercase().ends_with(".png")
}

/// What came of saving a file.
pub fn saved_as(name: &str, saved: bool) -> String {
    if saved { format!("Saved as {name}.") } else { format!("This browser did not save {name}.") }
}

/// What came of copying a link.
pub fn link_copied(letters: usize) -> String {
    format!(
        "Copied. The link holds the whole piece in {letters} letters; nothing of it is sent anywhere by opening it."
    )
}

/// What the button to a sister is called: its own words first.
pub fn named_sister(shown: &str, name: &str) -> String {
    format!("{shown}, {}", lower(name))
}

/// The seed before or after, with an arrow.
pub fn sister(seed: u32, by: i32) -> String {
    if by < 0 { format!("‹ {seed}") } else { format!("{seed} ›") }
}

/// What the whole picture shows, to those who do not see it.
pub fn picture(title: &str, at: Stage, by: Light) -> String {
    let by = match by {
        Light::Day => "by day",
        Light::Within => "lit from within",
        Light::Gray => "on plain gray",
    };
    format!("{}, {}, {by}", plain(title), lower(stage(at)))
}

/// What is said when a picture and its numbers are at rest; where the firings are looked at, of this kiln too.
pub fn at_rest(ticket: &Ticket, kiln: Option<&str>, remarks: usize, units: Units) -> String {
    let powder = ticket.powder_to_weigh().0;
    let kiln =
        kiln.map(|name| format!(" {} {}: {}.", capital(IN_KILN), kiln_within(name), kiln_total(ticket)));
    let kiln = kiln.unwrap_or_default();
    let remarks = if remarks == 0 { String::new() } else { format!(" {}.", to_look_at(remarks)) };
    format!(
        "{}, {} of powder to weigh.{kiln}{remarks}",
        dimensions(Stage::Domed, ticket, units),
        grams(powder)
    )
}

/// A file that is no recipe at all.
pub fn not_a_piece(file: &str) -> String {
    format!("Not a piece: {file}.")
}

/// What sort of file it seems to be, by the end of its name.
pub fn sort_of_file(file: &str) -> &'static str {
    let end = file.rsplit('.').next().unwrap_or_default().to_ascii_lowercase();
    match end.as_str() {
        "xlsx" | "xls" | "ods" | "csv" | "numbers" => "That is a spreadsheet.",
        "png" | "jpg" | "jpeg" | "webp" | "gif" | "heic" | "tif" | "tiff" | "svg" => "That is a picture.",
        "pdf" | "doc" | "docx" | "odt" | "txt" | "md" | "pages" => "That is a document.",
        "zip" | "gz" | "tar" | "7z" | "rar" => "That is a packed folder.",
        "mp4" | "mov" | "mp3" | "wav" | "m4a" => "That is a recording.",
        _ => "That is something else.",
    }
}

/// Why a file was refused: the reason, what is opened here, and what became of the piece on screen.
pub fn refused(reason: &str, title: &str) -> String {
    format!("{reason} {}", as_it_was(title))
}

/// What Dappledome opens.
pub const OPENS: &str = "Dappledome opens its own recipe files and the pictures it has saved.";

fn as_it_was(title: &str) -> String {
    let title = if title.trim().is_empty() { "The piece on the table".into() } else { plain(title) };
    format!("{title} is as it was.")
}

/// A file that could not be read at all.
pub const UNREADABLE_FILE: &str = "This browser could not read it.";

/// A file too large to be a recipe, in kB.
pub fn too_large(kilobytes: f64, most: usize) -> String {
    format!("It holds {} kB, and a recipe is at most {most} kB.", fixed(kilobytes, 0))
}

/// What the worker says of a job that it cannot read.
pub fn unreadable_job(fault: &str) -> String {
    format!("The job could not be read: {fault}.")
}
