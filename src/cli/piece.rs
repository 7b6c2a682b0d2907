//! Reading the piece that a command is about: its recipe file, checked whole before any work.

use super::arguments::RecipeFile;
use dappledome::base::notice::{Notice, Severity};
use dappledome::glass::glasses::Glasses;
use dappledome::kiln::forewarn as fires;
use dappledome::optics::forewarn;
use dappledome::recipe::file::{self, MOST_BYTES};
use dappledome::recipe::plan::{Plan, Planned};
use dappledome::recipe::shelf::{MOST_BYTES as MOST_SHELF_BYTES, Shelf};
use dappledome::serve::say::say;
use dappledome::serve::trouble::Trouble;
use std::fs::File;
use std::io::{self, Read};
use std::path::Path;

/// A recipe that can be made.
#[derive(Debug)]
pub struct Piece {
    /// The recipe as a file that the program writes itself, to go into pictures.
    pub text: String,
    /// The glasses it brings along.
    pub glasses: Glasses,
    /// The plan made of it.
    pub plan: Plan,
    /// Its risks and notes, which the user has been told.
    pub told: Vec<Notice>,
}

/// Reads and plans a recipe; risks and notes go to the user, faults come back all at once.
pub fn read(of: &RecipeFile) -> Result<Piece, Vec<Trouble>> {
    read_with(&of.recipe, of.shelf.as_deref())
}

/// The same, with a shelf file to lend it glasses.
pub fn read_with(path: &Path, shelf_file: Option<&Path>) -> Result<Piece, Vec<Trouble>> {
    let name = path.display();
    let mut recipe = file::read(&text_of(path, "recipe", MOST_BYTES)?).map_err(|notice| {
        let trouble = Trouble::from(notice);
        Trouble { what: format!("{name}: {}", trouble.what), ..trouble }
    })?;
    if let Some(path) = shelf_file {
        shelf(path)?.lend_to(&mut recipe);
    }
    let Planned { plan, mut notices } = Plan::new(&recipe).map_err(faults)?;
    notices.extend(forewarn::notices(&plan));
    notices.extend(fires::notices(&plan));
    notices.iter().for_each(tell);
    Ok(Piece { text: file::write(&recipe), glasses: recipe.glasses, plan, told: notices })
}

/// Reads a file of glasses.
pub fn shelf(path: &Path) -> Result<Shelf, Vec<Trouble>> {
    let shelf = Shelf::read(&text_of(path, "shelf", MOST_SHELF_BYTES)?).map_err(faults)?;
    shelf.unread().iter().for_each(tell);
    Ok(shelf)
}

/// The faults among notices.
pub fn faults(notices: Vec<Notice>) -> Vec<Trouble> {
    let faults = notices.into_iter().filter(|notice| notice.severity == Severity::Fault);
    faults.map(Trouble::from).collect()
}

/// Tells the user a risk or a note.
pub fn tell(notice: &Notice) {
    let severity = if notice.severity == Severity::Risk { "Risk" } else { "Note" };
    say(&format!("{severity}: {notice}"));
}

/// The text of a file that can be what it should be by its size and kind.
pub fn text_of(path: &Path, kind: &str, most: usize) -> Result<String, Trouble> {
    let what = || format!("Cannot read {}.", path.display());
    let unreadable = |fault: io::Error| {
        Trouble::new(what(), format!("{fault}."), "Check the name, and that you may read the file.")
    };
    let file = File::open(path).map_err(unreadable)?;
    let about = file.metadata().map_err(unreadable)?;
    if about.is_dir() {
        return Err(Trouble::new(what(), "It is a folder.", format!("Name a {kind} file in it.")));
    }
    let mut bytes = Vec::new();
    // The length is a promise that devices and growing files do not keep: read no further than allowed.
    file.take(most as u64 + 1).read_to_end(&mut bytes).map_err(unreadable)?;
    if bytes.len() > most {
        let why =
            format!("It has {} bytes; a {kind} has {most} at most.", about.len().max(bytes.len() as u64));
        return Err(Trouble::new(what(), why, format!("Choose a {kind} file that Dappledome saved.")));
    }
    String::from_utf8(bytes).map_err(|_| {
        let remedy = format!("Choose a {kind} file (JSON), or save it as UTF-8.");
        Trouble::new(what(), "It is not text in UTF-8.", remedy)
    })
}
