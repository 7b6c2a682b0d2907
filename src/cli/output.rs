//! A file to be written: refused before the long work if it cannot be, and whole or not there at all.

use super::draft::Draft;
use dappledome::serve::trouble::Trouble;
use std::fs::{self, OpenOptions};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// A place for a result. Until [`Output::write`] has succeeded, what was there before stays as it was.
#[derive(Debug)]
pub struct Output {
    /// Where it goes in the end.
    path: PathBuf,
    /// Where it is written first; none for a device or pipe, which cannot be replaced.
    draft: Option<Draft>,
}

impl Output {
    /// Makes sure that a file can be written and is not the one that the work is made from, and leaves nothing behind.
    pub fn prepare(path: &Path, source: &Path) -> Result<Self, Trouble> {
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
            // By whatever names: links of both kinds lead to it too.
            Ok(_) if same_file::is_same_file(&path, source).unwrap_or(false) => {
                let why = "It is the very file that it is made from, which would be lost.";
                return Err(Trouble::new(cannot_write(&path), why, "Choose another file with --out."));
            }
            _ => Some(draft_of(&path)?),
        };
        let output = Self { path, draft };
        let tried = match &output.draft {
            Some(draft) => draft.create().and_then(|_| draft.remove()),
            None => output.open().map(drop),
        };
        tried.map_err(|fault| output.unwritable(&fault))?;
        Ok(output)
    }

    /// Writes all of it and puts it in its place.
    pub fn write(&self, bytes: &[u8]) -> Result<(), Trouble> {
        let written = match &self.draft {
            Some(draft) => draft.create().and_then(|mut file| file.write_all(bytes)),
            None => self.open().and_then(|mut file| file.write_all(bytes)),
        };
        let placed =
            written.and_then(|()| self.draft.as_ref().map_or(Ok(()), |draft| draft.replace(&self.path)));
        placed.map_err(|fault| {
            // The first fault is the one to tell.
            drop(self.draft.as_ref().map(Draft::remove));
            self.unwritable(&fault)
        })
    }

    fn open(&self) -> io::Result<fs::File> {
        OpenOptions::new().write(true).open(&self.path)
    }

    fn unwritable(&self, fault: &io::Error) -> Trouble {
        Trouble::new(
            cannot_write(&self.path),
            format!("{fault}."),
            "Choose with --out a file in a folder that exists, that you may write to, on a disk with room.",
        )
    }
}

fn draft_of(path: &Path) -> Result<Draft, Trouble> {
    if path.file_name().is_none() {
        let why = "It is not the name of a file.";
        return Err(Trouble::new(cannot_write(path), why, "Name a file with --out."));
    }
    Draft::beside(path)
}

fn cannot_write(path: &Path) -> String {
    format!("Cannot write {}.", path.display())
}
