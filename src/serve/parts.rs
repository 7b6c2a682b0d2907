//! The program cut into what is there from the beginning and parts that are fetched when they are first wanted.
//!
//! A function marked `#[wasm_split(name)]` in the page is the door of a part. The linker notes where functions and data are spoken of; with
//! that the program is cut so that a part has what is reached through its doors alone. What several parts need and the beginning does
//! not is a file of its own. All files share one memory and one table of functions, so they belong to one build.

use std::fs;
use std::path::Path;
use wasm_split_cli_support::{Options, transform};

/// What the linker is told so that its program can be cut.
pub const LINKING: &str = "-Clink-arg=--emit-relocs";

/// The script through which the program fetches its parts.
pub const LOADER: &str = "parts.js";

/// A program cut into parts.
#[derive(Debug)]
pub struct Cut {
    /// What is there from the beginning.
    pub main: Vec<u8>,
    /// The files of the parts, by name.
    pub files: Vec<(String, Vec<u8>)>,
    /// A line for each part that tells [`LOADER`] of its files.
    pub doors: String,
}

/// Cuts a program, by way of files in `folder`, which it empties before.
///
/// # Errors
/// If the program was not linked with [`LINKING`], or a file cannot be read or written.
pub fn cut(wasm: &[u8], folder: &Path) -> Result<Cut, Box<dyn std::error::Error>> {
    if folder.exists() {
        fs::remove_dir_all(folder)?;
    }
    let main = folder.join("main.wasm");
    let mut options = Options::new(wasm);
    options.output_dir = folder;
    options.main_out_path = &main;
    let link = format!("./{LOADER}");
    options.link_name = &link;
    let cut = transform(options).map_err(|fault| format!("{fault:#}"))?;
    let mut files = Vec::new();
    for path in &cut.split_modules {
        let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
        files.push((name, fs::read(path)?));
    }
    let mut doors: Vec<_> = cut.prefetch_map.iter().map(|(part, files)| door(part, files)).collect();
    doors.sort_unstable();
    Ok(Cut { main: fs::read(&main)?, files, doors: doors.concat() })
}

/// The line for one part. The program asks for `__wasm_split_load_` and the part's name.
fn door(part: &str, stems: &[String]) -> String {
    let files: Vec<_> = stems.iter().map(|stem| format!("{stem}.wasm")).collect();
    format!("export const __wasm_split_load_{part} = part({});\n", serde_json::json!(files))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_door_names_its_files() {
        assert_eq!(
            door("order", &["chunk_1".into(), "split_order".into()]),
            "export const __wasm_split_load_order = part([\"chunk_1.wasm\",\"split_order.wasm\"]);\n"
        );
    }

    #[test]
    fn what_is_no_program_is_refused() {
        let folder = std::env::temp_dir().join(format!("dappledome_parts_{}", std::process::id()));
        assert!(cut(b"no WebAssembly", &folder).is_err());
    }
}
