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
    if let Ok(VersionOnly { version }) = serde_json::from_str(text) {
        check_version(version)?;
    }
    if text.trim_start().starts_with(|first| first != '{') {
        return Err(not_a_recipe("It does not begin as a recipe does, with a brace.".into()));
    }
    serde_json::from_str(text).map_err(|fault| {
        let (line, column) = (fault.line(), fault.column());
        if fault.is_eof() {
            let why = format!("It stops in the middle, at line {line}.");
            refusal("The recipe file ends too early.", why, "Take an undamaged copy of the file.")
        } else if fault.is_syntax() {
            not_a_recipe(format!("At line {line}, place {column}, it is not written as a recipe is."))
        } else {
            let said = fault.to_string();
            let said = said.split(" at line ").next().unwrap_or_default();
            let why = format!("At line {line}: {said}.");
            refusal("A recipe with a mistake in it.", why, "Mend it at that line, or save the piece again.")
        }
    })
}

/// Whether this program reads that version of the format.
///
/// # Errors
/// A refusal if not.
pub fn check_version(version: u32) -> Result<(), Notice> {
    if version == VERSION {
        return Ok(());
    }
    Err(refusal(
        "A recipe of another version.",
        format!("It says version {version}; this program reads version {VERSION}."),
        "Open it with the program that saved it, or use a newer Dappledome.",
    ))
}

/// Writes a recipe as JSON that people can read too.
pub fn write(recipe: &Recipe) -> String {
    let mut text =
        serde_json::to_string_pretty(recipe).expect("a recipe has only strings and finite numbers");
    text.push('\n');
    text
}

fn not_a_recipe(why: String) -> Notice {
    refusal(
        "Not a recipe file.",
        why,
        "Choose a recipe file that Dappledome saved, or mend it at that place.",
    )
}

fn refusal(what: &str, why: String, remedy: &str) -> Notice {
    Notice::new(Severity::Fault, Step::Recipe, what, why, remedy)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::units::{MM_PER_INCH, Mm};
    use crate::recipe::Rub;
    use crate::recipe::limits::{self, Limit};

    /// Places with these numbers, so many that they make one recipe.
    fn come_back(numbers: &[f64]) {
        for some in numbers.chunks(4000) {
            let path = some.iter().map(|mm| [*mm, -mm]).collect();
            let recipe = Recipe { sponged_off: vec![Rub { width: Mm(some[0]), path }], ..Recipe::bare() };
            let again = read(&write(&recipe)).expect("it was written here");
            let read = again.sponged_off[0].path.iter();
            for (number, [plus, minus]) in some.iter().zip(read) {
                assert_eq!(plus.to_bits(), number.to_bits(), "{number} came back as {plus}");
                assert_eq!(*minus, -number);
            }
            assert_eq!(again, recipe);
        }
    }

    #[test]
    fn inches_come_back_as_they_were_written() {
        let sixteenths = (1..=2000).map(|n| f64::from(n) / 16.0 * MM_PER_INCH);
        let hundredths = (1..=2000).map(|n| f64::from(n) * 0.01 * MM_PER_INCH);
        come_back(&sixteenths.chain(hundredths).collect::<Vec<_>>());
    }

    #[test]
    fn any_number_within_the_limits_comes_back_as_it_was_written() {
        // Positive doubles are in the order of their bits.
        let mut state = 41u64;
        let mut any = |limit: &Limit| {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            let (least, most) = (limit.least.max(1e-9).to_bits(), limit.most.to_bits());
            f64::from_bits(least + (state ^ state >> 29) % (most - least))
        };
        let all = [limits::DISC, limits::SHEET, limits::PATCH_DEPTH, limits::COVERAGE, limits::BARE_RIM];
        come_back(&all.iter().cycle().take(20_000).map(&mut any).collect::<Vec<_>>());
    }
}
