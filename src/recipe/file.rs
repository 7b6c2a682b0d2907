//! Reading and writing a recipe as a file: JSON, with the version first and every refusal explained.

use super::model::{Recipe, VERSION};
use crate::base::notice::{Notice, Severity, Step};
use serde::Deserialize;

/// The largest recipe file that is read, bytes. A recipe of twelve coats is about ten thousand.
pub const MOST_BYTES: usize = 1 << 20;

#[derive(Deserialize)]
struct VersionOnly {
    version: u32,
}

/// Reads a recipe, or says what is wrong with the file.
///
/// # Errors
/// A [`Notice`] of severity *fault* if the text is too long, is not JSON, has another version, lacks a field or
/// has one that is not known. Whether its numbers make sense is for [`super::plan::Plan::new`] to say.
pub fn read(text: &str) -> Result<Recipe, Notice> {
    if text.len() > MOST_BYTES {
        return Err(refusal(
            "Too large for a recipe.",
            format!("It is {} bytes long; a recipe is at most {MOST_BYTES}.", text.len()),
            "Choose a recipe file that Dappledome saved.",
        ));
    }
    if let Ok(VersionOnly { version }) = serde_json::from_str(text)
        && version != VERSION
    {
        return Err(refusal(
            "A recipe of another version.",
            format!("It says version {version}; this program reads version {VERSION}."),
            "Open it with the program that saved it, or use a newer Dappledome.",
        ));
    }
    serde_json::from_str(text).map_err(|fault| {
        let (what, remedy) = if fault.is_eof() {
            ("The recipe file ends too early.", "Take an undamaged copy of the file.")
        } else if fault.is_syntax() {
            ("Not a recipe file.", "Choose a recipe file that Dappledome saved, or mend it at that place.")
        } else {
            ("A recipe with a mistake in it.", "Mend it at that place, or save the piece again.")
        };
        refusal(what, format!("{}.", sentence(&fault)), remedy)
    })
}

/// Writes a recipe as JSON that people can read too.
pub fn write(recipe: &Recipe) -> String {
    let mut text =
        serde_json::to_string_pretty(recipe).expect("a recipe has only strings and finite numbers");
    text.push('\n');
    text
}

fn sentence(fault: &serde_json::Error) -> String {
    let text = fault.to_string();
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

fn refusal(what: &str, why: String, remedy: &str) -> Notice {
    Notice::new(Severity::Fault, Step::Recipe, what, why, remedy)
}
