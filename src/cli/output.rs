//! A file to be written: refused before the long work if it cannot be, and whole or not there at all.

use dappledome::serve::trouble::Trouble;
use std::fs::{self, File};
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::process;

/// A place for a result. Until [`Output::write`] has succeeded, what was there before stays as it was.
#[derive(Debug)]
pub struct Output {
    /// Where it goes in the end.
    path: PathBuf,
    /// Where it is written first; none for a device or pipe, which cannot be replaced.
    draft: Option<PathBuf>,
    file: File,
}

impl Output {
    /// Makes sure that a file can be written.
    pub fn prepare(path: &Path) -> Result<Self, Trouble> {
        // Through a link to the file itself, lest the link be replaced.
        let path = fs::canonicalize(path).unwrap_or_else(|_| path.to_owned());
        let draft = match fs::metadata(&path) {
            Ok(about) if about.is_dir() => {
                let why = "It is a folder.";
                return Err(Trouble::new(cannot_write(&path), why, "Name a file in it with --out."));
            }
            Ok(about) if !about.is_file() => None,
            _ => Some(draft_beside(&path)?),
        };
        let file =
            File::create(draft.as_ref().unwrap_or(&path)).map_err(|fault| unwritable(&path, &fault))?;
        Ok(Self { path, draft, file })
    }

    /// Writes all of it and puts it in its place.
    pub fn write(mut self, bytes: &[u8]) -> Result<(), Trouble> {
        self.file.write_all(bytes).map_err(|fault| unwritable(&self.path, &fault))?;
        if let Some(draft) = &self.draft {
            fs::rename(draft, &self.path).map_err(|fault| unwritable(&self.path, &fault))?;
            self.draft = None;
        }
        Ok(())
    }
}

impl Drop for Output {
    fn drop(&mut self) {
        if let Some(draft) = &self.draft {
            // Nothing more can be done about a draft that does not go away.
            drop(fs::remove_file(draft));
        }
    }
}

/// A name beside the file, where a rename is enough to put it in place.
fn draft_beside(path: &Path) -> Result<PathBuf, Trouble> {
    let name = path.file_name().ok_or_else(|| {
        Trouble::new(cannot_write(path), "It is not the name of a file.", "Name a file with --out.")
    })?;
    Ok(path.with_file_name(format!(".{}.{}", name.to_string_lossy(), process::id())))
}

fn cannot_write(path: &Path) -> String {
    format!("Cannot write {}.", path.display())
}

fn unwritable(path: &Path, fault: &io::Error) -> Trouble {
    Trouble::new(
        cannot_write(path),
        format!("{fault}."),
        "Choose with --out a file in a folder that exists, that you may write to, on a disk with room.",
    )
}
