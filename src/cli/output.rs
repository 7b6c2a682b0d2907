//! A file to be written: refused before the long work if it cannot be, and whole or not there at all.

use dappledome::serve::trouble::Trouble;
use std::fs::{self, File, OpenOptions};
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
}

impl Output {
    /// Makes sure that a file can be written, and leaves nothing behind.
    pub fn prepare(path: &Path) -> Result<Self, Trouble> {
        // Through a link to the file itself, lest the link be replaced.
        let path = fs::canonicalize(path).unwrap_or_else(|_| path.to_owned());
        let draft = match fs::metadata(&path) {
            Ok(about) if about.is_dir() => {
                let why = "It is a folder.";
                return Err(Trouble::new(cannot_write(&path), why, "Name a file in it with --out."));
            }
            Ok(about) if about.permissions().readonly() => {
                let remedy = "Take the protection off, or choose another file with --out.";
                return Err(Trouble::new(cannot_write(&path), "It is write-protected.", remedy));
            }
            Ok(about) if !about.is_file() => None,
            _ => Some(draft_beside(&path)?),
        };
        let output = Self { path, draft };
        output.open().and_then(|_| output.clear()).map_err(|fault| output.unwritable(&fault))?;
        Ok(output)
    }

    /// Writes all of it and puts it in its place.
    pub fn write(&self, bytes: &[u8]) -> Result<(), Trouble> {
        let written = self.open().and_then(|mut file| file.write_all(bytes));
        let placed =
            written.and_then(|()| self.draft.as_ref().map_or(Ok(()), |draft| fs::rename(draft, &self.path)));
        placed.map_err(|fault| {
            // The first fault is the one to tell.
            drop(self.clear());
            self.unwritable(&fault)
        })
    }

    fn open(&self) -> io::Result<File> {
        match &self.draft {
            Some(draft) => File::create(draft),
            None => OpenOptions::new().write(true).open(&self.path),
        }
    }

    fn clear(&self) -> io::Result<()> {
        self.draft.as_ref().map_or(Ok(()), fs::remove_file)
    }

    fn unwritable(&self, fault: &io::Error) -> Trouble {
        Trouble::new(
            cannot_write(&self.path),
            format!("{fault}."),
            "Choose with --out a file in a folder that exists, that you may write to, on a disk with room.",
        )
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
