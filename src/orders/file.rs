//! Reading and writing an order as a file: JSON, with the version first and every refusal explained.

use super::model::{Order, VERSION};
use crate::base::notice::{Notice, Severity, Step};
use serde::Deserialize;

/// The largest order file that is read, bytes: lines, each with a recipe of its own.
pub const MOST_BYTES: usize = 8 << 20;

#[derive(Deserialize)]
struct VersionOnly {
    version: u32,
}

/// Reads an order, or says what is wrong with the file.
///
/// # Errors
/// A [`Notice`] of severity *fault* if the text is too long, is not JSON, has another version, lacks a field or has one that is not
/// known. Whether its numbers make sense is for [`super::checks::check`] to say.
#[inline]
pub fn read(text: &str) -> Result<Order, Notice> {
    if text.len() > MOST_BYTES {
        let why = format!("It is {} bytes long; an order is at most {MOST_BYTES}.", text.len());
        return Err(refusal("Too large for an order.", why, "Choose an order file that Dappledome saved."));
    }
    if let Ok(VersionOnly { version }) = serde_json::from_str(text)
        && version != VERSION
    {
        let why = format!("It says version {version}; this program reads version {VERSION}.");
        return Err(refusal(
            "An order of another version.",
            why,
            "Use a newer Dappledome, or write it anew.",
        ));
    }
    serde_json::from_str(text).map_err(|mistake| {
        let said = mistake.to_string();
        let said = said.split(" at line ").next().unwrap_or_default();
        let why = format!("At line {}: {said}.", mistake.line());
        refusal(
            "An order file with a mistake in it.",
            why,
            "Mend it at that line, or take an undamaged copy.",
        )
    })
}

/// Writes an order as JSON that people can read too.
#[inline]
pub fn write(order: &Order) -> String {
    let mut text =
        serde_json::to_string_pretty(order).expect("an order has only strings, dates and finite numbers");
    text.push('\n');
    text
}

/// A fault that says why a file was not read.
pub(super) fn refusal(what: &str, why: String, remedy: &str) -> Notice {
    Notice::new(Severity::Fault, Step::Ticket, what, why, remedy)
}
