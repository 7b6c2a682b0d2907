//! A file in the making, beside the one that it replaces when it is whole. It does not stay behind when the program is told to end.

use dappledome::serve::ending;
use dappledome::serve::trouble::Trouble;
use std::fs::{self, File};
use std::io;
use std::path::{Path, PathBuf};
use std::process;
use std::sync::{Mutex, MutexGuard, PoisonError};

/// The draft that lies on the disk now. No draft comes or goes while somebody else has it.
static LYING: Mutex<Option<PathBuf>> = Mutex::new(None);

/// A place for a draft. There is one in a program.
#[derive(Debug)]
pub struct Draft(PathBuf);

impl Draft {
    /// A name beside a file, where a rename is enough to put it in place.
    pub fn beside(path: &Path) -> Result<Self, Trouble> {
        ending::with(clear_for_good)?;
        let name = path.file_name().unwrap_or_default();
        Ok(Self(path.with_file_name(format!(".{}.{}", name.to_string_lossy(), process::id()))))
    }

    /// Begins it.
    pub fn create(&self) -> io::Result<File> {
        let mut lying = lying();
        let file = File::create(&self.0)?;
        *lying = Some(self.0.clone());
        Ok(file)
    }

    /// Takes it away.
    pub fn remove(&self) -> io::Result<()> {
        let mut lying = lying();
        fs::remove_file(&self.0)?;
        *lying = None;
        Ok(())
    }

    /// Puts it in the place of a file.
    pub fn replace(&self, path: &Path) -> io::Result<()> {
        let mut lying = lying();
        fs::rename(&self.0, path)?;
        *lying = None;
        Ok(())
    }
}

fn lying() -> MutexGuard<'static, Option<PathBuf>> {
    LYING.lock().unwrap_or_else(PoisonError::into_inner)
}

/// Takes the draft away, if one lies there, and lets no other come.
fn clear_for_good() {
    let lying = lying();
    if let Some(draft) = &*lying {
        // There is nobody left to tell.
        let _ = fs::remove_file(draft);
    }
    std::mem::forget(lying);
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::env;

    #[test]
    fn a_draft_is_gone_after_the_end_and_none_comes_any_more() {
        let folder = env::temp_dir().join(format!("dappledome-draft-{}", process::id()));
        fs::create_dir_all(&folder).unwrap();
        let draft = Draft::beside(&folder.join("piece.png")).unwrap();
        let left = || fs::read_dir(&folder).unwrap().count();
        drop(draft.create().unwrap());
        assert_eq!(left(), 1);
        clear_for_good();
        assert_eq!(left(), 0);
        assert!(LYING.try_lock().is_err(), "another draft would come");
        fs::remove_dir(folder).unwrap();
    }
}
