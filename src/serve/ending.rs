//! Being told to end, by Ctrl-C or by the system.

use super::trouble::Trouble;
use std::process;
use std::sync::mpsc::{self, Receiver};

/// What a program ends with that was told to: as shells have it for Ctrl-C.
const TOLD_TO: i32 = 130;

/// From now on a request to end (Ctrl-C, SIGTERM, SIGHUP) no longer stops the program in its tracks, but is received here. Once
/// per program.
///
/// # Errors
/// If the system does not allow it.
pub fn requests() -> Result<Receiver<()>, Trouble> {
    let (told, requests) = mpsc::channel();
    // Who asks twice has asked; who asks after the end gets it anyway.
    when_told(move || {
        let _ = told.send(());
    })?;
    Ok(requests)
}

/// From now on a request to end still ends the program at once, but not before `last` is done. Once per program.
///
/// # Errors
/// If the system does not allow it.
pub fn with(last: impl Fn() + Send + 'static) -> Result<(), Trouble> {
    when_told(move || {
        last();
        process::exit(TOLD_TO);
    })
}

fn when_told(act: impl Fn() + Send + 'static) -> Result<(), Trouble> {
    ctrlc::set_handler(act)
        .map_err(|fault| Trouble::new("Cannot listen for Ctrl-C.", format!("{fault}."), "Try again."))
}
