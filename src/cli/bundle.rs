//! The page as files, for any static web host.

use super::arguments::Bundle;
use super::outcome::{Outcome, print};
use dappledome::serve::bundle;
use dappledome::serve::trouble::Trouble;
use std::fs;

/// Builds the page into a folder.
pub fn run(arguments: &Bundle) -> Outcome {
    let dir = &arguments.dir;
    let unwritable = |fault: std::io::Error| {
        Trouble::new(
            format!("Cannot write into {}.", dir.display()),
            format!("{fault}."),
            "Choose a folder that you may write to.",
        )
    };
    // Before the long build.
    fs::create_dir_all(dir).map_err(unwritable)?;
    if fs::read_dir(dir).map_err(unwritable)?.next().is_some() {
        return Err(Trouble::new(
            format!("{} is not empty.", dir.display()),
            "Its files would be mixed with those of the page.",
            "Empty it, or name a new folder.",
        )
        .into());
    }
    let site = bundle::build()?;
    site.write_to(dir)?;
    print(&format!("{} ({} kB compressed)\n", dir.display(), site.compressed_bytes().div_ceil(1000)))
}
